//! The floor edge: where floor and wall stand on the steel frame, drawn from their assemblies.
//!
//! ```text
//!   outdoors   ┆  wall layers       room
//!   (or the    ┆│░░░░░░░░│▒│
//!   ventilated ┆│░ wall ░│l│
//!   gap)       ┆│░ fill ░│i│                                         up
//!             s┆│░░░░░░░░│n│                                         │
//!             h┆├────────┤i│                                         └── inboard
//!             e┆│ plate  │n│
//!             a┆├────────┴─┤g├── finish, and all else above the deck ──────────
//!             t┆│          deck (subfloor), under the plate to the sheathing
//!             h┆├──────┬───┬────┬───────────────────────────────────────────────
//!             i┆│pack- │foam    │rim │              ┐ rise of a proud frame
//!             n┆│ing   │over it │    │              ┘
//!             g┆╞══════╧════════╡joist│    bay, between the joists
//!              ║ flange         │    │
//!              ║ rail    bay    ├────┘             joist depth ends here: below a raised
//!              ║                │                  joist lies `rise` more of the bay's fill
//!              ║────────────────┴────────────────────────── lining ────────────
//!              ╚═══════════════════════════════════════════ pan ═══════════════
//!                                     outdoors
//! ```
//!
//! What runs where, and why:
//! - The **deck** is the outermost wooden layer above the flange (the subfloor); it and what lies
//!   between it and the flange run under the plate as far as the sheathing's inner face. Layers
//!   above it (finish, foam under the finish) stop at the wall's inner face.
//! - The **lining** stands on the deck, the **plate** too; **sheathing** and all layers outside of
//!   the studs run down past the deck's edge to the top of the flange.
//! - The **flange** starts at the frame's outer face, which lies flush with the wall's outer face
//!   (the sheathing's, where a ventilated gap follows) unless a reach is given: then its inner
//!   edge lies that far inboard of the wall's inner face (outboard, where it is negative).
//! - The **rim joist** stands against the flange's inner edge, or the rail's where that reaches
//!   further. Under the flange the floor's layers run on to the frame's outer face.
//! - A **proud** frame raises joists, deck and all above by what lies over the flange: the bay gets
//!   that much deeper, while flange, rail and pan stay. Foam over the flange reaches from the
//!   flange's inner edge outward to the plate's inner edge, the rest being **packed** with the
//!   plate's wood, or on under the plate.
//! - The **pan** runs to the frame's outer face and, where the rail ends above it, is turned up to
//!   the rail.
//! - A ventilated or vented gap in the wall is outdoor air with the inner film; the cladding is
//!   left out. The cut runs between joists and between studs: their share is in the assemblies' U,
//!   not in the detail.

mod air;
mod frame;
mod seal;
mod solids;

use super::case::{DetailCase, DetailKind};
use super::drawing::{Drawing, EdgeProblem};
use super::plan::DetailPlan;
use super::rail::Rail;
use crate::model::{Assembly, Content, Kind, Layer, Strip, Substance};
use crate::quantity::Length;
use frame::Frame;
pub use seal::{EdgeSeal, SealFrom, SealTo};

/// How far foam over the flange reaches outward.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoamReach {
    /// To the plate's inner edge: the plate stands on solid packing.
    PlateInnerEdge,
    /// On under the plate to the sheathing.
    UnderPlate,
}

/// A member in section: the bottom plate, or the rim joist.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// What it is made of; `None`: as the framing of its layer.
    pub substance: Option<Substance>,
    /// The plate's height, or the joist's width.
    pub thickness: Length,
}

/// What a floor edge is drawn from.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorEdge {
    /// The detail's name.
    pub name: String,
    /// The variant's name.
    pub variant: Option<String>,
    /// The floor.
    pub floor: Assembly,
    /// The wall.
    pub wall: Assembly,
    /// Which strip of the floor is the flange.
    pub flange: usize,
    /// Which layer of the floor the plate stands on; `None`: the outermost wooden one above it.
    pub deck: Option<usize>,
    /// The edge member below the flange.
    pub rail: Option<Rail>,
    /// The wall's bottom plate.
    pub plate: Plate,
    /// The joist along the edge.
    pub rim_joist: Plate,
    /// How far the flange reaches inboard of the wall's inner face, m; `None`: frame and wall
    /// flush outside.
    pub reach: Option<f64>,
    /// How far foam over the flange reaches.
    pub foam: FoamReach,
    /// An air seal on the room side of the wood that stays on the steel.
    pub seal: Option<EdgeSeal>,
    /// Whether the house has an outside corner where this edge meets another like it.
    pub corner: bool,
    /// How far the cut runs into the floor from the wall's inner face.
    pub inboard: Length,
    /// How far it runs up the wall from the floor's surface.
    pub up: Length,
}

impl FloorEdge {
    /// Draws it.
    ///
    /// # Errors
    /// The first thing that can't be built that way, with the key it is about.
    pub fn draw(&self) -> Result<DetailCase, EdgeProblem> {
        let frame = Frame::of(self)?;
        let mut drawing = Drawing::new(&self.name, self.variant.as_deref(), DetailKind::FloorEdge);
        drawing.notes(frame.floor.notes.iter().chain(&frame.wall.notes).cloned());
        frame.draw_floor(&mut drawing)?;
        frame.draw_steel(&mut drawing);
        frame.draw_wall(&mut drawing)?;
        frame.draw_seal(&mut drawing)?;
        frame.draw_air(&mut drawing);
        frame.measure(&mut drawing);
        Ok(DetailCase {
            plan: Some(DetailPlan::FloorEdge(Box::new(self.clone()))),
            ..drawing.finish(frame.cut())
        })
    }

    fn flange(&self) -> Option<&Strip> {
        self.floor.strips.get(self.flange)
    }

    /// The layer the plate stands on.
    fn deck_index(&self, under: usize) -> usize {
        let is_wood = |layer: &Layer| match &layer.content {
            Content::Solid(substance) => substance.kind.is_some_and(Kind::is_wood),
            Content::Air(_) => false,
        };
        let wooden = || self.floor.layers[..=under].iter().rposition(is_wood);
        self.deck.or_else(wooden).unwrap_or(under).min(under)
    }
}
