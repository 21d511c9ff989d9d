//! The whole house on its trailer: what its fit on the road, its weight and its heat loss need.
//!
//! ```text
//!            overhang
//!            ├──┤                          height
//!      ______▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁▁______  ┬  stands above
//!            │▒│            ceiling  │▒│     │  roof build-up, from the rafters outward
//!            │▒│                     │▒│     │  rise
//!            │▒│      head room      │▒│     │  wall, framed height
//!            │▒│_____ floor _________│▒│     │
//!            ╞═╧═════════════════════╧═╡     ┼  subfloor and all below it, above the frame's top
//!            │ ◄────── deck ─────────► │     │
//!                 trailer                    ┴  deck height, from the road
//! ```
//! Assemblies are named, not held: every variant brings its own.

mod shell;

pub use shell::{Insets, NO_INSETS};

use super::{Assembly, DetailCase, Project, Substance};
use crate::quantity::{
    Area, Length, LinearTransmittance, Mass, Offset, Pitch, PointTransmittance,
    ThermalTransmittance,
};

/// A side of the house as seen by the driver; the front is the tongue's end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
    /// At the tongue's end.
    Front,
    /// At the far end.
    Back,
}

impl Side {
    /// All four, in the order of arrays by side.
    pub const ALL: [Self; 4] = [Self::Left, Self::Right, Self::Front, Self::Back];

    /// Its place in arrays by side.
    #[must_use]
    pub fn index(self) -> usize {
        match self {
            Self::Left => 0,
            Self::Right => 1,
            Self::Front => 2,
            Self::Back => 3,
        }
    }

    /// The word of files and reports.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Front => "front",
            Self::Back => "back",
        }
    }

    /// Whether its wall runs along the deck's length.
    #[must_use]
    pub fn is_long(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }
}

/// The house.
#[derive(Clone, Debug, PartialEq)]
pub struct House {
    /// Its measures; `None` where only areas are given.
    pub shell: Option<Shell>,
    /// Net areas stated in the file, by assembly: they stand instead of computed ones.
    pub areas: Vec<(String, Area)>,
    /// Windows, doors, skylights.
    pub openings: Vec<Opening>,
    /// Details and psi-values with their lengths.
    pub edges: Vec<Edge>,
    /// Rods, bolts, screws.
    pub bolts: Vec<Bolts>,
    /// Other weights.
    pub allowances: Vec<Allowance>,
    /// The trailer.
    pub trailer: Trailer,
    /// The road's limits.
    pub road: Road,
}

/// The measures of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct Shell {
    /// Deck from front to back: out to out of the walls' framing.
    pub length: Length,
    /// Deck from side to side.
    pub width: Length,
    /// The floor's assembly.
    pub floor: String,
    /// The floor's lowest layer above the frame's top; `None`: the one its strips lie under.
    pub above_frame: Option<String>,
    /// The walls, by side.
    pub walls: [Wall; 4],
    /// Framed height on the subfloor, plates included; of a sloped roof at its low side.
    pub wall_height: Length,
    /// The layer whose outer face stands at the deck's edge; `None`: the studs'.
    pub at_deck_edge: Option<String>,
    /// The roof.
    pub roof: Roof,
}

/// One side's wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    /// Its assembly.
    pub assembly: String,
    /// How far trim and fasteners stand out beyond the siding; `None`: not stated.
    pub trim: Option<Length>,
}

/// The roof.
#[derive(Clone, Debug, PartialEq)]
pub struct Roof {
    /// Its assembly.
    pub assembly: String,
    /// Its shape.
    pub form: RoofForm,
    /// The layer that stands on the walls; `None`: the rafters'.
    pub on_walls: Option<String>,
    /// How far it reaches beyond the siding, level, by side; `None`: not stated.
    pub overhangs: [Option<Length>; 4],
    /// What stands above its highest line; `None`: not stated.
    pub stands_above: Option<Length>,
}

/// A roof's shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RoofForm {
    /// Level.
    Flat,
    /// One slope, up from a low side.
    Shed {
        /// The low side.
        low: Side,
        /// Its pitch.
        pitch: Pitch,
    },
    /// Two slopes to a ridge in the middle.
    Gable {
        /// Whether the ridge runs from front to back.
        lengthwise: bool,
        /// Its pitch.
        pitch: Pitch,
    },
}

impl RoofForm {
    /// Rise over run; 0 where it is flat.
    #[must_use]
    pub fn pitch(self) -> Pitch {
        match self {
            Self::Flat => Pitch::from_ratio(0.0),
            Self::Shed { pitch, .. } | Self::Gable { pitch, .. } => pitch,
        }
    }
}

/// Where an opening lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningPlace {
    /// In a wall.
    Wall(Side),
    /// In the roof.
    Roof,
}

/// Windows or doors of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Its name.
    pub name: String,
    /// Where it lies.
    pub place: OpeningPlace,
    /// Width of the rough opening.
    pub width: Length,
    /// Its height.
    pub height: Length,
    /// How many.
    pub count: u32,
    /// U-value, frame included.
    pub u_value: Option<ThermalTransmittance>,
    /// Weight of one.
    pub weight: Option<Mass>,
    /// Its middle, from the deck's front.
    pub at: Option<Offset>,
}

impl Opening {
    /// All of them together.
    #[must_use]
    pub fn area(&self) -> Area {
        let one = self.width.as_m() * self.height.as_m();
        Area::from_m2(one * f64::from(self.count))
    }
}

/// What an edge's psi comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum EdgePsi {
    /// A detail of the file, by name.
    Detail(String),
    /// Stated, by inside dimensions.
    Stated(LinearTransmittance),
}

/// How far an edge runs.
#[derive(Clone, Debug, PartialEq)]
pub enum EdgeRun {
    /// Along these sides, inside.
    Along(Vec<Side>),
    /// As stated.
    Length(Length),
}

/// An edge of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// Its name.
    pub name: String,
    /// Its psi.
    pub psi: EdgePsi,
    /// How far it runs.
    pub run: EdgeRun,
    /// The strip of the floor it stands for, where the file says so.
    pub instead_of: Option<String>,
}

/// Rods, bolts or screws of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct Bolts {
    /// Their name.
    pub name: String,
    /// How many.
    pub count: u32,
    /// Diameter of the shank.
    pub diameter: Length,
    /// What they are made of.
    pub metal: Substance,
    /// The assembly they go through.
    pub assembly: String,
    /// The layer of insulation they go through.
    pub through: String,
    /// How deep they reach into it; `None`: all through.
    pub embedded: Option<Length>,
    /// Whether both ends touch steel.
    pub both_ends_on_steel: bool,
    /// Heat lost through one, from a calculation of the user's own.
    pub chi: Option<PointTransmittance>,
}

/// A weight that isn't part of an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Allowance {
    /// What it is.
    pub name: String,
    /// Its weight.
    pub weight: Mass,
    /// Its middle, from the deck's front.
    pub at: Option<Offset>,
}

/// The trailer; whatever isn't stated isn't known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trailer {
    /// Top of the frame above the road.
    pub deck_height: Option<Length>,
    /// Its own weight.
    pub weight: Option<Mass>,
    /// What it may weigh loaded.
    pub rating: Option<Mass>,
    /// Layers and strips of the floor that its own weight includes.
    pub includes: Vec<String>,
    /// Middle of its own weight, from the deck's front.
    pub weight_at: Option<Offset>,
    /// The coupler, ahead of the deck's front.
    pub tongue: Option<Length>,
    /// Middle of the axles, from the deck's front.
    pub axles_at: Option<Offset>,
}

/// The road's limits; none that isn't stated.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Road {
    /// Greatest width.
    pub width: Option<Length>,
    /// Greatest height.
    pub height: Option<Length>,
    /// Greatest length, tongue included.
    pub length: Option<Length>,
}

/// The house under one variant.
#[derive(Clone, Copy, Debug)]
pub struct HouseCase<'a> {
    /// The house.
    pub house: &'a House,
    /// The variant's name; `None` as drawn.
    pub variant: Option<&'a str>,
    project: &'a Project,
}

impl<'a> HouseCase<'a> {
    /// An assembly with the variant's changes made, or as drawn where it makes none.
    #[must_use]
    pub fn assembly(&self, name: &str) -> Option<&'a Assembly> {
        let of = |variant: Option<&str>| {
            let mut cases = self.project.cases.iter();
            cases.find(|case| case.assembly.name == name && case.variant.as_deref() == variant)
        };
        of(self.variant)
            .or_else(|| of(None))
            .map(|case| &case.assembly)
    }

    /// A detail with the variant's changes made, or as drawn where it makes none.
    #[must_use]
    pub fn detail(&self, name: &str) -> Option<&'a DetailCase> {
        let of = |variant: Option<&str>| {
            let mut details = self.project.details.iter();
            details.find(|one| one.name == name && one.variant.as_deref() == variant)
        };
        of(self.variant).or_else(|| of(None))
    }
}

impl House {
    /// The names of the assemblies it is made of, each once.
    #[must_use]
    pub fn assemblies(&self) -> Vec<&str> {
        let mut names: Vec<&str> = Vec::new();
        if let Some(shell) = &self.shell {
            names.push(&shell.floor);
            names.extend(shell.walls.iter().map(|wall| wall.assembly.as_str()));
            names.push(&shell.roof.assembly);
        }
        names.extend(self.areas.iter().map(|(name, _)| name.as_str()));
        let mut kept: Vec<&str> = Vec::new();
        for name in names {
            if !kept.contains(&name) {
                kept.push(name);
            }
        }
        kept
    }

    /// The names of the details along its edges.
    pub fn details(&self) -> impl Iterator<Item = &str> {
        self.edges.iter().filter_map(|edge| match &edge.psi {
            EdgePsi::Detail(name) => Some(name.as_str()),
            EdgePsi::Stated(_) => None,
        })
    }
}

impl Project {
    /// The house as drawn, and under every variant that changes an assembly or a detail of it;
    /// empty where the file has no house.
    #[must_use]
    pub fn house_cases(&self) -> Vec<HouseCase<'_>> {
        let Some(house) = &self.house else {
            return Vec::new();
        };
        let assemblies = house.assemblies();
        let of_cases = self.cases.iter().filter_map(|case| {
            let is_ours = assemblies.contains(&case.assembly.name.as_str());
            case.variant.as_deref().filter(|_| is_ours)
        });
        let of_details = self.details.iter().filter_map(|one| {
            let is_ours = house.details().any(|name| name == one.name);
            one.variant.as_deref().filter(|_| is_ours)
        });
        let mut variants: Vec<Option<&str>> = vec![None];
        for variant in of_cases.chain(of_details).map(Some) {
            if !variants.contains(&variant) {
                variants.push(variant);
            }
        }
        let case = |variant| HouseCase {
            house,
            variant,
            project: self,
        };
        variants.into_iter().map(case).collect()
    }
}
