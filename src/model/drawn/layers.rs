//! Which layers of an assembly a cut shows, and how they conduct.

use super::drawing::{EdgeKey, EdgeProblem};
use super::films::FilmRole;
use super::reference::ReferenceLayer;
use crate::material::ConductivityCurve;
use crate::model::{AirSpace, Assembly, AssemblyKind, Content, Kind, Layer, Substance};
use crate::physics::heat::{Direction, air_space_resistance};
use crate::quantity::{Length, fixed};

/// Thinner membranes are left out of a cut: they resist no heat.
const THIN: f64 = 1e-3;
/// A layer that is left out may not resist more than this, m²·K/W.
const NO_RESISTANCE: f64 = 0.01;

/// A layer as a cut shows it.
#[derive(Clone, Copy, Debug)]
pub(super) struct CutLayer<'a> {
    pub(super) layer: &'a Layer,
    /// m.
    pub(super) thickness: f64,
    /// W/(m·K).
    pub(super) conductivity: f64,
}

impl CutLayer<'_> {
    /// Its conductivity by mean temperature; empty where it is constant.
    pub(super) fn curve(&self) -> ConductivityCurve {
        match (&self.layer.content, self.layer.resistance) {
            (Content::Solid(substance), None) => substance.by_temperature.clone(),
            _ => Vec::new(),
        }
    }
}

/// The layers of an assembly from inside to outside, as far as the first open air.
pub(super) struct CutLayers<'a> {
    /// In order; layers that are left out have no thickness.
    pub(super) all: Vec<CutLayer<'a>>,
    /// Whether the last one faces an air space open to outdoors.
    pub(super) sheltered: bool,
    pub(super) notes: Vec<String>,
}

impl<'a> CutLayers<'a> {
    pub(super) fn of(assembly: &'a Assembly, key: EdgeKey) -> Result<Self, EdgeProblem> {
        let direction = match assembly.kind {
            AssemblyKind::Wall => Direction::Horizontal,
            AssemblyKind::Floor => Direction::Down,
            AssemblyKind::Roof => Direction::Up,
        };
        let open = assembly.layers.iter().position(is_open);
        let mut notes = Vec::new();
        if let Some(open) = open {
            notes.push(format!(
                "`{}` of {} counts as outdoor air with the inner film; what lies outside of it is \
                 left out",
                assembly.layers[open].name, assembly.name
            ));
        }
        let shown = &assembly.layers[..open.unwrap_or(assembly.layers.len())];
        let all: Result<Vec<_>, _> = shown
            .iter()
            .map(|layer| cut_layer(layer, direction, key))
            .collect();
        Ok(Self {
            all: all?,
            sheltered: open.is_some(),
            notes,
        })
    }

    /// m.
    pub(super) fn thickness(&self) -> f64 {
        self.all.iter().map(|layer| layer.thickness).sum()
    }

    /// Of the layers inside of the n-th, m.
    pub(super) fn depth_before(&self, n: usize) -> f64 {
        self.all.iter().take(n).map(|layer| layer.thickness).sum()
    }

    /// As a plane assembly.
    pub(super) fn as_reference(&self) -> Vec<ReferenceLayer> {
        let of = |layer: &CutLayer<'_>| ReferenceLayer {
            thickness: layer.thickness,
            conductivity: layer.conductivity,
            by_temperature: layer.curve(),
        };
        self.all.iter().map(of).collect()
    }
}

fn is_open(layer: &Layer) -> bool {
    matches!(
        layer.content,
        Content::Air(AirSpace::Vented | AirSpace::Ventilated)
    )
}

/// How a layer is drawn; with no thickness where it is left out.
pub(super) fn cut_layer(
    layer: &Layer,
    direction: Direction,
    key: EdgeKey,
) -> Result<CutLayer<'_>, EdgeProblem> {
    let thickness = layer.thickness.as_m();
    let stated = layer.resistance.map(|resistance| resistance.as_si());
    let of_material = match &layer.content {
        Content::Air(_) => Some(air_conductivity(layer.thickness, direction)),
        Content::Solid(substance) => substance.conductivity.map(|k| k.as_si()),
    };
    let resistance = stated.or(of_material.map(|k| thickness / k)).unwrap_or(0.0);
    let drawn = |thickness, conductivity| CutLayer {
        layer,
        thickness,
        conductivity,
    };
    if is_thin(layer) && resistance <= NO_RESISTANCE {
        return Ok(drawn(0.0, 1.0));
    }
    let refuse = |what: &str, expected: &str| {
        let message = format!("`{}` can't be drawn in a cut: {what}", layer.name);
        Err(EdgeProblem::new(key, message, expected))
    };
    if thickness == 0.0 {
        return refuse(
            "it has no thickness",
            "expected an assembly with thicknesses",
        );
    }
    let conductivity = match stated {
        Some(resistance) => thickness / resistance,
        None => match of_material {
            Some(conductivity) => conductivity,
            None => {
                let expected = "expected a material that conducts, or an `r-value:`";
                return refuse("how it conducts isn't known", expected);
            }
        },
    };
    if !(1e-5..=1e5).contains(&conductivity) {
        let what = format!("it would conduct {} W/(m·K)", fixed(conductivity, 6));
        return refuse(&what, "expected a thickness that fits the `r-value:`");
    }
    Ok(drawn(thickness, conductivity))
}

/// Membranes and the like, and layers without a thickness.
fn is_thin(layer: &Layer) -> bool {
    let thickness = layer.thickness.as_m();
    let kind = match &layer.content {
        Content::Solid(substance) => substance.kind,
        Content::Air(_) => None,
    };
    thickness == 0.0
        || thickness < THIN && matches!(kind, Some(Kind::Membrane | Kind::Seal | Kind::Lining))
}

/// Conductivity that gives a closed air space its resistance, W/(m·K).
///
/// λ_eq = d / R(d), with R of ISO 6946's table for unventilated air layers by thickness and
/// direction of heat flow; check-values for cavities in details ask for the same (common
/// practice).
#[must_use]
pub fn air_conductivity(thickness: Length, direction: Direction) -> f64 {
    thickness.as_m() / air_space_resistance(thickness, direction).as_si()
}

/// The layer between the members, whose depth the plates have: the framed one, or the thickest.
pub(super) fn main_layer(layers: &CutLayers<'_>) -> usize {
    let framed = layers
        .all
        .iter()
        .position(|one| one.layer.framing.is_some());
    let by_thickness = |a: &(usize, &CutLayer<'_>), b: &(usize, &CutLayer<'_>)| {
        a.1.thickness.total_cmp(&b.1.thickness)
    };
    let thickest = || layers.all.iter().enumerate().max_by(by_thickness);
    framed.or_else(|| thickest().map(|(n, _)| n)).unwrap_or(0)
}

/// Behind a ventilated gap outdoor air is still.
pub(super) fn outside_role(layers: &CutLayers<'_>) -> FilmRole {
    match layers.sheltered {
        true => FilmRole::Sheltered,
        false => FilmRole::Outdoors,
    }
}

/// Refuses an assembly of another kind.
pub(super) fn of_kind(
    assembly: &Assembly,
    kind: AssemblyKind,
    key: EdgeKey,
) -> Result<(), EdgeProblem> {
    if assembly.kind == kind {
        return Ok(());
    }
    let what = match kind {
        AssemblyKind::Wall => "wall",
        AssemblyKind::Floor => "floor",
        AssemblyKind::Roof => "roof",
    };
    let message = format!("`{}` isn't a {what}", assembly.name);
    let expected = format!("expected an assembly with `kind: {what}`");
    Err(EdgeProblem::new(key, message, expected))
}

/// A substance with its conductivity, where it is known, W/(m·K).
pub(super) fn conducting(substance: &Substance) -> Option<(&Substance, f64)> {
    substance.conductivity.map(|k| (substance, k.as_si()))
}

/// A layer of sheet metal.
pub(super) fn is_metal(layer: &Layer) -> bool {
    let is = |substance: &Substance| substance.kind == Some(Kind::Metal);
    matches!(&layer.content, Content::Solid(substance) if is(substance))
}
