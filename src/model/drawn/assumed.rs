//! Edges of floor and roof that no detail of the file shows: drawn without being asked, by stated defaults.

use crate::model::Told;
use crate::quantity::unit::INCH;

/// What an edge that was drawn without being asked stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AssumedEdge {
    /// The name it shares with the same edge at other walls, such as `floor edge`: the worst of
    /// them speaks.
    pub subject: String,
    /// The wall, by the name of its assembly; `None` where the file has none and a stated 2x4 wall
    /// stands on the edge.
    pub wall: Option<String>,
}

/// An edge that no detail of the file shows and that can't be drawn by the stated defaults.
#[derive(Clone, Debug, PartialEq)]
pub struct UndrawnEdge {
    /// The floor, or the roof, by the name of its assembly.
    pub assembly: String,
    /// The variant's name; `None` as drawn.
    pub variant: Option<String>,
    /// The strip at a floor's edge; `None` at a roof's.
    pub strip: Option<String>,
    /// The wall; `None` where it is the stated one.
    pub wall: Option<String>,
    /// What keeps it from being drawn.
    pub why: Told,
}

/// The metal of the rail under an edge that was drawn without being asked.
pub const STATED_RAIL_METAL: &str = "carbon steel";

/// A layer of the wall that stands on an edge where the file has none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StatedLayer {
    /// Its name.
    pub name: &'static str,
    /// The library's name of its material; `None`: ventilated air.
    pub material: Option<&'static str>,
    /// m; `None`: as the library has it.
    pub thickness: Option<f64>,
    /// The material of its framing and the share that takes of the area.
    pub framing: Option<(&'static str, f64)>,
}

/// The wall that stands on an edge where the file has none, inside to outside: a 2x4 wall behind a
/// rain screen. Our invention: common sizes, and nobody's building.
pub const STATED_WALL: [StatedLayer; 6] = [
    stated("wall lining", Some("painted gypsum board"), Some(0.5)),
    StatedLayer {
        framing: Some(("spruce-pine-fir", 0.25)),
        ..stated("studs", Some("R-13 batt"), Some(3.5))
    },
    stated("sheathing", Some("plywood"), Some(0.5)),
    stated("wrap", Some("housewrap"), None),
    stated("rain screen", None, Some(0.75)),
    stated("siding", Some("cedar siding"), Some(0.625)),
];

/// A layer of so many inches.
const fn stated(
    name: &'static str,
    material: Option<&'static str>,
    inches: Option<f64>,
) -> StatedLayer {
    StatedLayer {
        name,
        material,
        thickness: match inches {
            Some(inches) => Some(inches * INCH),
            None => None,
        },
        framing: None,
    }
}
