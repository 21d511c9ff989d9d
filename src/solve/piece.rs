//! One layer of a path: what it is, and how it resists heat and vapor.

use std::sync::Arc;

use super::profile::{Slab, SlabHeat};
use crate::model::{AirSpace, Content, Kind, Layer, Strip, Substance, VaporRate};
use crate::physics::heat::{Direction, air_space_resistance, layer_resistance};
use crate::physics::vapor::{layer_vapor_resistance, sheet_vapor_resistance};
use crate::quantity::{
    ArealDensity, Conductivity, Length, MoldClass, RelativeHumidity, ThermalResistance, unit,
};

/// Where a layer's thermal resistance comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeatSource {
    /// Thickness over this conductivity.
    Conductivity(Conductivity),
    /// Thickness over the conductivity at the layer's own mean temperature.
    Curve,
    /// Stated in the file.
    Stated,
    /// The table of air spaces.
    AirSpace,
    /// None: a membrane or coating.
    Neglected,
}

/// One layer of a path, ready to be solved and judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The layer's name.
    pub name: String,
    /// What it is made of.
    pub label: String,
    /// What it is; `None` for air and for layers given by numbers alone.
    pub kind: Option<Kind>,
    /// Whether air moves through it.
    pub air_permeable: bool,
    /// Whether it is an air space open to outdoors at one end.
    pub vented: bool,
    /// No air path around or behind it.
    pub bonded: bool,
    /// Bonded because the file says so, rather than by its nature.
    pub bond_is_promised: bool,
    /// Water that gets here runs out.
    pub drains: bool,
    /// Wet when it is closed in.
    pub built_in_water: bool,
    /// How readily mold grows on it, and how fast it goes back there over how fast on pine.
    pub mold: Option<(MoldClass, f64)>,
    /// Mass per area; `None` where it isn't known.
    pub mass: Option<ArealDensity>,
    /// Thickness.
    pub thickness: Length,
    /// Index of the layer in the assembly; `None` for a strip's own layers and metal.
    pub layer: Option<usize>,
    /// Where its resistance to heat comes from.
    pub heat: HeatSource,
    /// How vapor passes it; `None` for air.
    pub vapor: Option<VaporRate>,
    /// Its resistances.
    pub slab: Slab,
}

impl Piece {
    /// Wood, a wood-based panel or air-permeable insulation: what water harms.
    #[must_use]
    pub fn is_vulnerable(&self) -> bool {
        self.air_permeable || self.kind.is_some_and(Kind::is_wood)
    }

    /// Whether the next layer goes on with the same material, or with insulation that air moves
    /// through as well.
    #[must_use]
    pub fn is_one_body_with(&self, next: &Self) -> bool {
        let same = self.kind.is_some() && self.kind == next.kind && self.label == next.label;
        let open = self.air_permeable && next.air_permeable;
        self.bonded == next.bonded && (same || open)
    }
}

/// The metal of a strip as a layer of its path.
pub(super) fn metal_piece(strip: &Strip) -> Piece {
    let resistance = strip
        .metal
        .conductivity
        .map_or(ThermalResistance::from_si(0.0), |k| {
            layer_resistance(strip.thickness, k)
        });
    Piece {
        name: strip.name.clone(),
        label: strip.metal.label.clone(),
        kind: Some(Kind::Metal),
        air_permeable: false,
        vented: false,
        bonded: false,
        bond_is_promised: false,
        drains: false,
        built_in_water: false,
        mold: None,
        mass: strip.metal.areal_density_at(strip.thickness),
        thickness: strip.thickness,
        layer: None,
        heat: strip
            .metal
            .conductivity
            .map_or(HeatSource::Neglected, HeatSource::Conductivity),
        vapor: Some(strip.metal.vapor),
        slab: Slab {
            heat: SlabHeat::Fixed(resistance),
            vapor_resistance: vapor_resistance(&strip.metal, strip.thickness),
            by_humidity: Vec::new(),
        },
    }
}

/// A layer with what fills it along a path.
pub(super) fn piece(
    layer: &Layer,
    index: Option<usize>,
    content: &Content,
    direction: Direction,
) -> Piece {
    let (label, kind, air_permeable, (heat, source), vapor, by_humidity) = match content {
        Content::Solid(substance) => (
            substance.label.clone(),
            substance.kind,
            substance.air_permeable,
            solid_heat(layer, substance),
            vapor_resistance(substance, layer.thickness),
            by_humidity(substance, layer.thickness),
        ),
        Content::Air(_) => (
            "air space".to_owned(),
            None,
            false,
            air_heat(layer, direction),
            layer.thickness.as_m() / unit::AIR_PERMEABILITY,
            Vec::new(),
        ),
    };
    Piece {
        name: layer.name.clone(),
        label,
        kind,
        air_permeable,
        vented: matches!(content, Content::Air(AirSpace::Vented)),
        bonded: layer.bonded,
        bond_is_promised: layer.bond_is_promised,
        built_in_water: layer.built_in_water,
        mold: match content {
            Content::Solid(substance) => substance.mold,
            Content::Air(_) => None,
        },
        drains: layer.drains || matches!(content, Content::Air(AirSpace::Vented)),
        mass: match content {
            Content::Solid(substance) => substance.areal_density_at(layer.thickness),
            Content::Air(_) => None,
        },
        thickness: layer.thickness,
        layer: index,
        heat: source,
        vapor: match content {
            Content::Solid(substance) => Some(substance.vapor),
            Content::Air(_) => None,
        },
        slab: Slab {
            heat,
            vapor_resistance: vapor,
            by_humidity,
        },
    }
}

/// A part of what fills a layer, which is `whole` m thick in all. A resistance that holds for the
/// whole layer, stated or of its air, is had in proportion, as a cut draws it.
pub(super) fn fill_piece(part: &Layer, whole: f64, index: usize, direction: Direction) -> Piece {
    let of_air = || match part.content {
        Content::Air(_) => Some(air_space_resistance(Length::from_m(whole), direction)),
        Content::Solid(_) => None,
    };
    let Some(resistance) = part.resistance.or_else(of_air) else {
        return piece(part, Some(index), &part.content, direction);
    };
    let conductivity = Conductivity::from_si(whole / resistance.as_si());
    let part = Layer {
        resistance: Some(layer_resistance(part.thickness, conductivity)),
        ..part.clone()
    };
    Piece {
        heat: HeatSource::Conductivity(conductivity),
        ..piece(&part, Some(index), &part.content, direction)
    }
}

fn air_heat(layer: &Layer, direction: Direction) -> (SlabHeat, HeatSource) {
    match layer.resistance {
        Some(resistance) => (SlabHeat::Fixed(resistance), HeatSource::Stated),
        None => {
            let resistance = air_space_resistance(layer.thickness, direction);
            (SlabHeat::Fixed(resistance), HeatSource::AirSpace)
        }
    }
}

fn solid_heat(layer: &Layer, substance: &Arc<Substance>) -> (SlabHeat, HeatSource) {
    // A stated resistance is the layer's own; members crossing it conduct by their material.
    let is = |own: &Arc<Substance>| Arc::ptr_eq(own, substance) || own == substance;
    let is_own = matches!(&layer.content, Content::Solid(own) if is(own));
    match (layer.resistance.filter(|_| is_own), substance.conductivity) {
        (Some(resistance), _) => (SlabHeat::Fixed(resistance), HeatSource::Stated),
        (None, _) if !substance.by_temperature.is_empty() => {
            let curve = SlabHeat::Curve(layer.thickness, substance.by_temperature.clone());
            (curve, HeatSource::Curve)
        }
        (None, Some(conductivity)) => {
            let resistance = layer_resistance(layer.thickness, conductivity);
            let source = HeatSource::Conductivity(conductivity);
            (SlabHeat::Fixed(resistance), source)
        }
        (None, None) => {
            let nothing = ThermalResistance::from_si(0.0);
            (SlabHeat::Fixed(nothing), HeatSource::Neglected)
        }
    }
}

/// Beyond this a layer counts as a perfect barrier, m²·s·Pa/kg: below 2·10⁻⁸ perm nothing that can
/// be measured passes, and sums of resistances would lose their digits.
const TIGHT: f64 = 1e18;

/// Vapor resistance by mean humidity, rising in humidity; empty where it is constant.
fn by_humidity(substance: &Substance, thickness: Length) -> Vec<(f64, f64)> {
    let mid = vapor_resistance(substance, thickness);
    if mid.is_infinite() {
        return Vec::new();
    }
    let point =
        |(humidity, factor): &(RelativeHumidity, f64)| (humidity.as_fraction(), mid / factor);
    substance.by_humidity.iter().map(point).collect()
}

fn vapor_resistance(substance: &Substance, thickness: Length) -> f64 {
    let resistance = match substance.vapor {
        VaporRate::PerThickness(permeability) => layer_vapor_resistance(thickness, permeability),
        VaporRate::PerSheet(permeance) => sheet_vapor_resistance(permeance),
    };
    if resistance > TIGHT {
        f64::INFINITY
    } else {
        resistance
    }
}
