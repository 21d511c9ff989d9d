//! How the layers of floor, walls and roof lie to the deck's edge, the frame's top, the rafters.
//!
//! - **Walls.** The deck's edge is the outer face of the layer that the file names, else of the
//!   deepest members: the studs. What lies outside of it is *outboard*.
//! - **Floor.** The frame's top lies under the layer the strips lie under, or the one named. The
//!   walls stand on the outermost wooden layer above it, the subfloor, as they do in a floor-edge
//!   detail. Layers on the room's side of that one take head room; the others, and what lies over
//!   the strips, lift the house.
//! - **Roof.** It stands on the walls with the layer that the file names, else with its deepest
//!   members: the rafters. Layers inside of that one take head room, the others height.
//!
//! Members that run through several layers are as deep as all of them.
//!
//! Membranes under 1 mm take no room.

use std::ops::Range;

use crate::model::house::{HouseCase, Insets, Shell, Side};
use crate::model::{Assembly, Content, Kind, Layer, runs_of_members};

/// The layers of a house by where they lie.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// How far inside of the deck's edge each wall's inner face lies, m.
    pub insets: Insets,
    /// For each wall, the index of its first layer outside of the deck's edge.
    pub outboard: [usize; 4],
    /// How far outside of the deck's edge each wall's outer face lies, m.
    pub outside: Insets,
    /// Index of the floor layer the walls stand on.
    pub plate_on: usize,
    /// Index of the floor's lowest layer above the frame's top.
    pub above_frame: usize,
    /// What lies over the strips and lifts the floor, m.
    pub over_strips: f64,
    /// Floor layers that take head room, m.
    pub floor_inside: f64,
    /// Index of the roof layer that stands on the walls.
    pub on_walls: usize,
    /// Roof layers that take head room, square to the slope, m.
    pub ceiling: f64,
}

/// Lays out a house; `None` without measures, or where a variant took the layer away that they
/// start from.
#[must_use]
pub fn layout(case: &HouseCase<'_>) -> Option<Layout> {
    let shell = case.house.shell.as_ref()?;
    let walls: Vec<&Assembly> = shell
        .walls
        .iter()
        .map(|wall| case.assembly(&wall.assembly))
        .collect::<Option<_>>()?;
    let edge = |wall: &&Assembly| {
        let frame = frame_layers(wall, shell.at_deck_edge.as_deref())?;
        Some(frame.end - 1)
    };
    let edges: Vec<usize> = walls.iter().map(edge).collect::<Option<_>>()?;
    let inset = |side: Side| depth(&walls[side.index()].layers[..=edges[side.index()]]);
    let outside = |side: Side| depth(&walls[side.index()].layers[edges[side.index()] + 1..]);
    let floor = case.assembly(&shell.floor)?;
    let strips = floor.strips.iter();
    let above_frame = match &shell.above_frame {
        Some(name) => named(floor, name)?,
        None => strips.clone().map(|strip| strip.under).min()?,
    };
    let wooden = |layer: &Layer| match &layer.content {
        Content::Solid(substance) => substance.kind.is_some_and(Kind::is_wood),
        Content::Air(_) => false,
    };
    let plate_on = floor.layers[..=above_frame].iter().rposition(wooden);
    let plate_on = plate_on.unwrap_or(above_frame);
    let roof = case.assembly(&shell.roof.assembly)?;
    let on_walls = frame_layers(roof, shell.roof.on_walls.as_deref())?.start;
    Some(Layout {
        insets: Side::ALL.map(inset),
        outboard: Side::ALL.map(|side| edges[side.index()] + 1),
        outside: Side::ALL.map(outside),
        plate_on,
        above_frame,
        over_strips: strips.map(|strip| depth(&strip.over)).fold(0.0, f64::max),
        floor_inside: depth(&floor.layers[..plate_on]),
        on_walls,
        ceiling: depth(&roof.layers[..on_walls]),
    })
}

/// The layer named, else those that the deepest members run through.
pub(super) fn frame_layers(assembly: &Assembly, name: Option<&str>) -> Option<Range<usize>> {
    if let Some(name) = name {
        return named(assembly, name).map(|n| n..n + 1);
    }
    let depth = |run: &Range<usize>| -> f64 {
        let layers = assembly.layers[run.clone()].iter();
        layers.map(|layer| layer.thickness.as_m()).sum()
    };
    // Of equally deep ones the first: `max_by` would take the last.
    let runs = runs_of_members(&assembly.layers).into_iter().rev();
    runs.max_by(|a, b| depth(a).total_cmp(&depth(b)))
}

fn named(assembly: &Assembly, name: &str) -> Option<usize> {
    assembly.layers.iter().position(|layer| layer.name == name)
}

fn depth(layers: &[Layer]) -> f64 {
    layers.iter().map(built).sum()
}

/// Thinner membranes lie in no measure, m.
const THIN: f64 = 1e-3;

/// How much room a layer takes as built, m: a wrap or a film takes none that a tape would show.
pub(super) fn built(layer: &Layer) -> f64 {
    let thickness = layer.thickness.as_m();
    let is_membrane = matches!(
        &layer.content,
        Content::Solid(substance) if substance.kind == Some(Kind::Membrane)
    );
    if is_membrane && thickness < THIN {
        0.0
    } else {
        thickness
    }
}

impl Layout {
    /// What floor and ceiling take of the framed height, measured upright, m.
    #[must_use]
    pub fn taken(&self, shell: &Shell) -> f64 {
        self.floor_inside + self.ceiling * shell.roof.form.pitch().stretch()
    }

    /// How far the roof reaches beyond the deck's edge at a side, m: one without a stated overhang
    /// still covers the wall.
    #[must_use]
    pub fn reach(&self, shell: &Shell, side: Side) -> f64 {
        self.outside[side.index()] + shell.overhang(side)
    }

    /// Where the slope starts and ends between the walls' inner faces, m from the deck's edge.
    #[must_use]
    pub fn slope_within(&self, shell: &Shell) -> (f64, f64) {
        let (start, end) = shell.slope_from();
        (
            self.insets[start.index()],
            shell.span() - self.insets[end.index()],
        )
    }

    /// Area of the floor between the walls, m².
    #[must_use]
    pub fn floor_area(&self, shell: &Shell) -> f64 {
        shell.length_within(Side::Left, &self.insets)
            * shell.length_within(Side::Front, &self.insets)
    }

    /// Volume of the room, m³.
    #[must_use]
    pub fn volume(&self, shell: &Shell) -> f64 {
        let (from, to) = self.slope_within(shell);
        // The walls where the slope starts and ends run across it.
        let across = shell.length_within(shell.slope_from().0, &self.insets);
        shell.area_below_roof(from, to) * across - self.taken(shell) * self.floor_area(shell)
    }
}
