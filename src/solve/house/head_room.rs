//! What an assembly takes of the height between the road's limit and the frame, without a house.
//!
//! ```text
//! floor    Σ layers from the room down to the frame's top + the deepest of what lies over strips
//! roof     Σ all layers
//! ```
//! At the same overall height, what a variant adds to these is head room lost. The frame's top
//! lies under the layer the strips lie under; without strips at the top of the deepest
//! members. Membranes under 1 mm take no room.

use super::layout::{built, frame_layers};
use crate::model::{Assembly, AssemblyKind};

/// That height, m, square to the assembly; 0 for walls.
#[must_use]
pub fn height_taken(assembly: &Assembly) -> f64 {
    let above = match assembly.kind {
        AssemblyKind::Wall => return 0.0,
        AssemblyKind::Roof => assembly.layers.len(),
        AssemblyKind::Floor => {
            let under = assembly.strips.iter().map(|strip| strip.under + 1).min();
            let framed = frame_layers(assembly, None).map(|members| members.start);
            under.or(framed).unwrap_or(assembly.layers.len())
        }
    };
    let layers: f64 = assembly.layers[..above].iter().map(built).sum();
    let over = assembly
        .strips
        .iter()
        .map(|strip| strip.over.iter().map(built).sum());
    layers + over.fold(0.0, f64::max)
}

/// Thickness of an assembly as a tape shows it, m: membranes under 1 mm take no room.
#[must_use]
pub fn thickness_as_built(assembly: &Assembly) -> f64 {
    assembly.layers.iter().map(built).sum()
}
