//! Build-ups of layers, listed from inside to outside.

use std::sync::Arc;

use super::Told;
use crate::material::{Board, ConductivityCurve, Kind, VaporRate};
use crate::quantity::{
    ArealDensity, Conductivity, Density, Length, MoldClass, Permeance, Price, RelativeHumidity,
    Share, TemperatureDifference, ThermalResistance,
};

/// What an assembly is; it sets the direction of heat flow and how it is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AssemblyKind {
    /// Heat flows sideways.
    Wall,
    /// The room is above: heat flows down in winter.
    Floor,
    /// The room is below: heat flows up in winter.
    Roof,
}

/// How far specimens of a material lie apart, as factors of the nominal value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Least / nominal, at most 1.
    pub low: f64,
    /// Greatest / nominal, at least 1.
    pub high: f64,
}

impl Spread {
    /// No spread known.
    pub const NONE: Self = Self {
        low: 1.0,
        high: 1.0,
    };

    /// Whether any spread is known.
    #[must_use]
    pub fn is_known(self) -> bool {
        self != Self::NONE
    }
}

/// A solid as far as heat, vapor and the checks need to know it.
#[derive(Clone, Debug, PartialEq)]
pub struct Substance {
    /// What it is called in reports.
    pub label: String,
    /// What it is; `None` where the file gives only numbers.
    pub kind: Option<Kind>,
    /// The board it is to the code's tables, where they tell it from others.
    pub board: Option<Board>,
    /// Whether air moves through it.
    pub air_permeable: bool,
    /// Conductivity at the reference temperature; `None`: no resistance unless one is given.
    pub conductivity: Option<Conductivity>,
    /// Conductivity by mean temperature; empty where it is constant.
    pub by_temperature: ConductivityCurve,
    /// Spread of the conductivity between specimens.
    pub conductivity_spread: Spread,
    /// Vapor transmission at mid humidity.
    pub vapor: VaporRate,
    /// Factors of `vapor` by mean relative humidity, rising in humidity; empty where constant.
    pub by_humidity: Vec<(RelativeHumidity, f64)>,
    /// Spread of the vapor transmission between specimens at the same humidity.
    pub vapor_spread: Spread,
    /// For batts and the like: the thickness its value holds for. In a deeper space it keeps that
    /// resistance, since the rest is a gap.
    pub own_thickness: Option<Length>,
    /// Mass per volume, where known.
    pub density: Option<Density>,
    /// Mass per area, for sheets, where known.
    pub areal_density: Option<ArealDensity>,
    /// How readily mold grows on it, and how fast it goes back there over how fast on pine; `None`
    /// where it has no surface to grow on.
    pub mold: Option<(MoldClass, f64)>,
    /// What it costs, where the file says so.
    pub prices: Vec<Price>,
    /// Source of the conductivity and of the vapor value, with how well each is known; one that
    /// ends in [`Substance::GIVEN`] is the file's own without a source.
    pub sources: Vec<String>,
}

/// How a gap is connected to outdoor air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AirSpace {
    /// Closed.
    Still,
    /// Openings at one end: computed both closed and open.
    Vented,
    /// Openings at both ends: counts as outdoor air.
    Ventilated,
}

/// Which end of a vented air space's range is computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Openness {
    /// Vented air spaces count as still.
    Closed,
    /// Vented air spaces count as ventilated.
    Open,
}

/// What fills a layer.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// A solid. An assembly is copied for every corner of its materials' ranges: what doesn't move is shared.
    Solid(Arc<Substance>),
    /// Air.
    Air(AirSpace),
}

/// Members that cross a layer.
#[derive(Clone, Debug, PartialEq)]
pub struct Framing {
    /// What the members are made of.
    pub substance: Arc<Substance>,
    /// Their share of the area.
    pub share: Share,
    /// Width of one member and spacing from center to center, where the share comes from them.
    pub members: Option<(Length, Length)>,
    /// Whether they run across the framing of the layers beside them, rather than in line.
    pub crosswise: bool,
    /// How far short of the layer's outer face they end: below joists that a proud frame raises
    /// lies that much of what fills the layer. Settled from the frame, zero as written.
    pub clear_below: Length,
}

/// One layer.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Its name in the file: reports and variants use it.
    pub name: String,
    /// What fills it.
    pub content: Content,
    /// Its thickness; zero only where the file gives a resistance without a thickness.
    pub thickness: Length,
    /// A resistance stated in the file, which then stands instead of thickness / conductivity.
    pub resistance: Option<ThermalResistance>,
    /// No air path around or behind it.
    pub bonded: bool,
    /// Bonded because the file says so, rather than by its nature: a promise about the work on the
    /// site.
    pub bond_is_promised: bool,
    /// Water that gets here runs out: weep holes, a drained gap, a pan with a drain.
    pub drains: bool,
    /// Wet when it is closed in: rained on, green lumber, put in with water.
    pub built_in_water: bool,
    /// Members crossing it.
    pub framing: Option<Framing>,
}

/// Where in the floor a strip lies.
///
/// Which way its own path errs hangs on it: in mid-floor it shows the strip too cold, at an edge
/// with something over it too warm.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum StripPlace {
    /// At the floor's edge, where a wall stands on it: a flange along the side.
    #[default]
    Edge,
    /// Between the walls: a cross member.
    MidFloor,
}

/// A band of metal that reaches cold air or a cold frame and replaces what lies below it.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Its name.
    pub name: String,
    /// Where it lies.
    pub at: StripPlace,
    /// The metal.
    pub metal: Arc<Substance>,
    /// The metal's thickness.
    pub thickness: Length,
    /// Width of one strip.
    pub width: Length,
    /// Its share of the area: width × count / the width of the deck.
    pub share: Share,
    /// Index of the layer it lies directly under.
    pub under: usize,
    /// Layers between that one and the metal, inside to outside.
    pub over: Vec<Layer>,
}

/// A surface film.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Film {
    /// Its resistance; `None`: from the standard by direction of heat flow.
    pub resistance: Option<ThermalResistance>,
    /// Its vapor permeance; `None`: no resistance to vapor.
    pub permeance: Option<Permeance>,
}

/// The surface films and where their values come from.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Films {
    /// Take handbook values rather than ISO 6946 where none are given.
    pub handbook: bool,
    /// At the room's surface.
    pub inside: Film,
    /// At the outer surface.
    pub outside: Film,
}

/// How the sun and the night sky move the outer surface's temperature away from the air's.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SurfaceOffsets {
    /// Mean warming by the sun in the coldest month.
    pub sun_in_winter: TemperatureDifference,
    /// Mean warming by the sun in the warmest month.
    pub sun_in_summer: TemperatureDifference,
    /// Mean cooling by the night sky, all year and on the design night.
    pub night_sky: TemperatureDifference,
}

/// A build-up of layers, inside to outside.
#[derive(Clone, Debug, PartialEq)]
pub struct Assembly {
    /// Its name.
    pub name: String,
    /// Wall, floor or roof.
    pub kind: AssemblyKind,
    /// The layers, at least one.
    pub layers: Vec<Layer>,
    /// Metal strips.
    pub strips: Vec<Strip>,
    /// Surface films.
    pub films: Films,
    /// Sun and night sky on the outer surface.
    pub surface_offsets: SurfaceOffsets,
    /// Whether the frame stands proud of the steel by what lies over the strips.
    pub proud: bool,
    /// How far a proud frame lifts what lies on it.
    pub rise: Length,
    /// Remarks made while the file was read, such as a layer standing above flush joists.
    pub notes: Vec<Told>,
}

impl Assembly {
    /// Thickness of all layers together.
    #[must_use]
    pub fn thickness(&self) -> Length {
        Length::from_m(self.layers.iter().map(|layer| layer.thickness.as_m()).sum())
    }

    /// Whether any layer is a vented air space, so that both ends of its range are computed.
    #[must_use]
    pub fn has_vented_air(&self) -> bool {
        self.layers
            .iter()
            .any(|layer| layer.content == Content::Air(AirSpace::Vented))
    }
}

impl Layer {
    /// Whether it is an air space open to outdoor air.
    #[must_use]
    pub fn is_open_air(&self) -> bool {
        matches!(
            self.content,
            Content::Air(AirSpace::Vented | AirSpace::Ventilated)
        )
    }

    /// How much of it its members cross; `None` where none do.
    #[must_use]
    pub fn member_depth(&self) -> Option<Length> {
        let below = self.framing.as_ref()?.clear_below.as_m();
        Some(Length::from_m((self.thickness.as_m() - below).max(0.0)))
    }

    /// The share of its volume that its members leave to what fills it.
    #[must_use]
    pub fn fill_share(&self) -> f64 {
        let (Some(framing), Some(depth)) = (&self.framing, self.member_depth()) else {
            return 1.0;
        };
        let crossed = match self.thickness.as_m() > 0.0 {
            true => depth.as_m() / self.thickness.as_m(),
            false => 1.0,
        };
        1.0 - framing.share.as_fraction() * crossed
    }

    /// Weight per area with its framing; `None` where a density isn't known.
    #[must_use]
    pub fn areal_density(&self) -> Option<ArealDensity> {
        let own = match &self.content {
            Content::Air(_) => 0.0,
            Content::Solid(substance) => substance.areal_density_at(self.thickness)?.as_si(),
        };
        let Some(framing) = &self.framing else {
            return Some(ArealDensity::from_si(own));
        };
        let depth = self.member_depth().unwrap_or(self.thickness);
        let member = framing.substance.areal_density_at(depth)?.as_si();
        let share = framing.share.as_fraction();
        Some(ArealDensity::from_si(
            own * self.fill_share() + member * share,
        ))
    }
}

impl Substance {
    /// What stands in the place of a source where the file gives a value and doesn't say whence.
    pub const GIVEN: &'static str = "given in this file";

    /// Mass per area at a thickness; `None` where no density is known.
    #[must_use]
    pub fn areal_density_at(&self, thickness: Length) -> Option<ArealDensity> {
        let of = |density: Density| ArealDensity::from_si(density.as_si() * thickness.as_m());
        self.areal_density.or(self.density.map(of))
    }
    /// Price of one m² at a thickness, in the project's currency; `None` where none is given for it.
    #[must_use]
    pub fn price_at(&self, thickness: Length) -> Option<f64> {
        self.prices
            .iter()
            .find_map(|price| price.per_area(thickness))
    }
}
