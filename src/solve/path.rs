//! From an assembly to its paths: cavity, framing, and each metal strip.
//!
//! Framing of layers that lie next to each other, of the same material and share, is taken as the
//! same members running through; anything else crosses, and the shares multiply. A strip's path
//! is the layers above it, the metal, and the outer film: steel that reaches cold air
//! short-circuits what lies below it.

use super::profile::{Slab, SlabHeat};
use crate::model::{
    AirSpace, Assembly, Content, Kind, Layer, Openness, Strip, Substance, VaporRate,
};
use crate::physics::heat::{Direction, air_space_resistance, layer_resistance};
use crate::physics::vapor::{layer_vapor_resistance, sheet_vapor_resistance};
use crate::quantity::{ArealDensity, Length, RelativeHumidity, Share, ThermalResistance, unit};

/// What a path goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathKind {
    /// Between the members.
    Cavity,
    /// Through members of at least one layer.
    Framing,
    /// Through the metal strip of that index.
    Strip(usize),
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
    /// Water that gets here runs out.
    pub drains: bool,
    /// Mass per area; `None` where it isn't known.
    pub mass: Option<ArealDensity>,
    /// Thickness.
    pub thickness: Length,
    /// Index of the layer in the assembly; `None` for a strip's own layers and metal.
    pub layer: Option<usize>,
    /// Its resistances.
    pub slab: Slab,
}

impl Piece {
    /// Wood, a wood-based panel or air-permeable insulation: what water harms.
    #[must_use]
    pub fn is_vulnerable(&self) -> bool {
        self.air_permeable || self.kind.is_some_and(Kind::is_wood)
    }
}

/// One way through an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// `cavity`, `framing`, or the strip's name.
    pub name: String,
    /// What it goes through.
    pub kind: PathKind,
    /// Its share of the area.
    pub share: Share,
    /// Its layers, inside to outside, what lies beyond a ventilated gap left out.
    pub pieces: Vec<Piece>,
    /// Whether it ends at a ventilated air space, so that the outer film is that of still air.
    pub ends_at_ventilated_air: bool,
}

/// How many layers of an assembly are computed: what lies outside a ventilated gap is left out.
#[must_use]
pub fn counted_layers(assembly: &Assembly, openness: Openness) -> usize {
    let is_open = |layer: &Layer| match layer.content {
        Content::Air(AirSpace::Ventilated) => true,
        Content::Air(AirSpace::Vented) => openness == Openness::Open,
        _ => false,
    };
    assembly
        .layers
        .iter()
        .position(is_open)
        .unwrap_or(assembly.layers.len())
}

/// The paths of an assembly, their shares adding up to one.
#[must_use]
pub fn paths(assembly: &Assembly, openness: Openness, direction: Direction) -> Vec<Path> {
    let counted = counted_layers(assembly, openness);
    let ventilated = counted < assembly.layers.len();
    let in_strips: f64 = assembly
        .strips
        .iter()
        .map(|strip| strip.share.as_fraction())
        .sum();
    let mut paths = Vec::new();
    for combination in combinations(&assembly.layers[..counted]) {
        let pieces = combination.pieces(&assembly.layers[..counted], direction);
        let kind = if combination.members == 0 {
            PathKind::Cavity
        } else {
            PathKind::Framing
        };
        paths.push(Path {
            name: combination.name(&assembly.layers[..counted]),
            kind,
            share: Share::from_fraction(combination.share * (1.0 - in_strips)),
            pieces,
            ends_at_ventilated_air: ventilated,
        });
    }
    for (index, strip) in assembly.strips.iter().enumerate() {
        paths.extend(strip_paths(assembly, index, strip, direction));
    }
    paths
}

/// The paths through one strip: one, or several where a layer above it is framed.
fn strip_paths(
    assembly: &Assembly,
    index: usize,
    strip: &Strip,
    direction: Direction,
) -> Vec<Path> {
    let above = &assembly.layers[..=strip.under];
    let several = combinations(above).len() > 1;
    let path = |combination: Combination| {
        let mut pieces = combination.pieces(above, direction);
        for layer in &strip.over {
            let piece = piece(layer, None, &layer.content, direction);
            pieces.push(piece);
        }
        pieces.push(metal_piece(strip));
        let name = match several {
            false => strip.name.clone(),
            true => format!("{}, {}", strip.name, combination.name(above)),
        };
        Path {
            name,
            kind: PathKind::Strip(index),
            share: Share::from_fraction(combination.share * strip.share.as_fraction()),
            pieces,
            ends_at_ventilated_air: false,
        }
    };
    combinations(above).into_iter().map(path).collect()
}

/// The strip's path as often drawn and wrong: the metal in series with everything below it.
#[must_use]
pub fn strip_in_series(
    assembly: &Assembly,
    strip: &Strip,
    openness: Openness,
    direction: Direction,
) -> Vec<Piece> {
    let counted = counted_layers(assembly, openness);
    let cavity = Combination {
        members: 0,
        share: 1.0,
        groups: Vec::new(),
    };
    let mut pieces = cavity.pieces(&assembly.layers[..counted], direction);
    let below = pieces.split_off((strip.under + 1).min(pieces.len()));
    let over = strip
        .over
        .iter()
        .map(|layer| piece(layer, None, &layer.content, direction));
    pieces.extend(over);
    pieces.push(metal_piece(strip));
    pieces.extend(below);
    pieces
}

fn metal_piece(strip: &Strip) -> Piece {
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
        drains: false,
        mass: strip.metal.areal_density_at(strip.thickness),
        thickness: strip.thickness,
        layer: None,
        slab: Slab {
            heat: SlabHeat::Fixed(resistance),
            vapor_resistance: vapor_resistance(&strip.metal, strip.thickness),
            by_humidity: Vec::new(),
        },
    }
}

/// One choice of cavity or member for every group of framed layers.
struct Combination {
    /// Bit per group: set where the path runs through the members.
    members: u32,
    share: f64,
    /// For every layer, the group of framing it belongs to.
    groups: Vec<Option<usize>>,
}

impl Combination {
    fn in_member(&self, layer: usize) -> bool {
        self.groups
            .get(layer)
            .copied()
            .flatten()
            .is_some_and(|group| self.members >> group & 1 == 1)
    }

    fn pieces(&self, layers: &[Layer], direction: Direction) -> Vec<Piece> {
        let content = |n: usize, layer: &Layer| match &layer.framing {
            Some(framing) if self.in_member(n) => Content::Solid(framing.substance.clone()),
            _ => layer.content.clone(),
        };
        layers
            .iter()
            .enumerate()
            .map(|(n, layer)| {
                let content = content(n, layer);
                let is_member = self.in_member(n);
                let mut piece = piece(layer, Some(n), &content, direction);
                if is_member {
                    piece.name = format!("{} framing", layer.name);
                }
                piece
            })
            .collect()
    }

    fn name(&self, layers: &[Layer]) -> String {
        if self.members == 0 {
            return "cavity".into();
        }
        let group_count = self
            .groups
            .iter()
            .flatten()
            .max()
            .map_or(0, |last| last + 1);
        if group_count == 1 {
            return "framing".into();
        }
        let first_of = |group: usize| {
            let layer = self.groups.iter().position(|g| *g == Some(group));
            layer.map_or("", |n| layers[n].name.as_str())
        };
        let names = (0..group_count)
            .filter(|g| self.members >> g & 1 == 1)
            .map(first_of);
        format!("framing of {}", names.collect::<Vec<_>>().join(" and "))
    }
}

/// Groups framed layers into members that run through, then lists every way past them.
fn combinations(layers: &[Layer]) -> Vec<Combination> {
    let mut groups: Vec<Option<usize>> = Vec::with_capacity(layers.len());
    let mut shares: Vec<f64> = Vec::new();
    for (n, layer) in layers.iter().enumerate() {
        let group = layer.framing.as_ref().map(|framing| {
            let before = n
                .checked_sub(1)
                .and_then(|b| layers[b].framing.as_ref().zip(groups[b]));
            match before {
                Some((other, group)) if runs_through(other, framing) => group,
                _ => {
                    shares.push(framing.share.as_fraction());
                    shares.len() - 1
                }
            }
        });
        groups.push(group);
    }
    (0..1_u32 << shares.len())
        .map(|members| {
            let share = |(group, share): (usize, &f64)| match members >> group & 1 {
                1 => *share,
                _ => 1.0 - share,
            };
            let share = shares.iter().enumerate().map(share).product();
            Combination {
                members,
                share,
                groups: groups.clone(),
            }
        })
        .collect()
}

fn runs_through(one: &crate::model::Framing, other: &crate::model::Framing) -> bool {
    !other.crosswise
        && one.substance.label == other.substance.label
        && (one.share.as_fraction() - other.share.as_fraction()).abs() < 1e-9
}

fn piece(layer: &Layer, index: Option<usize>, content: &Content, direction: Direction) -> Piece {
    let (label, kind, air_permeable, heat, vapor, by_humidity) = match content {
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
            SlabHeat::Fixed(
                layer
                    .resistance
                    .unwrap_or_else(|| air_space_resistance(layer.thickness, direction)),
            ),
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
        drains: layer.drains || matches!(content, Content::Air(AirSpace::Vented)),
        mass: match content {
            Content::Solid(substance) => substance.areal_density_at(layer.thickness),
            Content::Air(_) => None,
        },
        thickness: layer.thickness,
        layer: index,
        slab: Slab {
            heat,
            vapor_resistance: vapor,
            by_humidity,
        },
    }
}

fn solid_heat(layer: &Layer, substance: &Substance) -> SlabHeat {
    // A stated resistance is the layer's own; members crossing it conduct by their material.
    let is_own = matches!(&layer.content, Content::Solid(own) if own == substance);
    match (layer.resistance.filter(|_| is_own), substance.conductivity) {
        (Some(resistance), _) => SlabHeat::Fixed(resistance),
        (None, _) if !substance.by_temperature.is_empty() => {
            SlabHeat::Curve(layer.thickness, substance.by_temperature.clone())
        }
        (None, Some(conductivity)) => {
            SlabHeat::Fixed(layer_resistance(layer.thickness, conductivity))
        }
        (None, None) => SlabHeat::Fixed(ThermalResistance::from_si(0.0)),
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
