//! What the code's tables call the parts of a build-up: the frame, the continuous insulation, the
//! dry-cup permeance of a layer, its R-value as labeled.

use std::ops::Range;

use crate::model::{Assembly, Board, Content, Kind, Layer, Openness, VaporRate, runs_of_members};
use crate::quantity::{Permeance, ThermalResistance, unit};
use crate::solve::path::counted_layers;

/// A layer given by numbers alone counts as insulation from here on, R-2 (common practice: boards
/// and sidings stay below it).
const INSULATES: f64 = 2.0 * unit::R_VALUE;
/// Values that print the same count as the same: half of the last digit of an R-value.
const ROUNDING: f64 = 0.005 * unit::R_VALUE;

/// Whether a resistance reaches what a table asks for.
pub(super) fn reaches(has: ThermalResistance, needed: ThermalResistance) -> bool {
    has.as_si() >= needed.as_si() - ROUNDING
}

/// The layers inside of the first gap open to outdoors: what lies beyond it insulates nothing.
pub(super) fn enclosed(assembly: &Assembly) -> &[Layer] {
    &assembly.layers[..counted_layers(assembly, Openness::Open)]
}

/// Resistance by the label: as stated, or thickness over the conductivity at 24 °C (75 °F).
pub(super) fn labeled_resistance(layer: &Layer) -> ThermalResistance {
    let by_conductivity = || match &layer.content {
        Content::Solid(substance) => substance
            .conductivity
            .map_or(0.0, |k| layer.thickness.as_m() / k.as_si()),
        Content::Air(_) => 0.0,
    };
    let stated = layer.resistance.map(ThermalResistance::as_si);
    ThermalResistance::from_si(stated.unwrap_or_else(by_conductivity))
}

/// Whether the tables count a layer as insulation.
pub(super) fn is_insulation(layer: &Layer) -> bool {
    match &layer.content {
        Content::Air(_) => false,
        Content::Solid(substance) => match substance.kind {
            Some(kind) => matches!(kind, Kind::Insulation | Kind::Foam),
            None => labeled_resistance(layer).as_si() >= INSULATES,
        },
    }
}

/// Whether air moves through a layer.
pub(super) fn is_air_permeable(layer: &Layer) -> bool {
    matches!(&layer.content, Content::Solid(substance) if substance.air_permeable)
}

/// The board that a layer is to the code's tables, where they tell it from others.
pub(super) fn board(layer: &Layer) -> Option<Board> {
    match &layer.content {
        Content::Solid(substance) => substance.board,
        Content::Air(_) => None,
    }
}

/// What a layer is; `None` for air and for layers given by numbers alone.
pub(super) fn kind(layer: &Layer) -> Option<Kind> {
    match &layer.content {
        Content::Solid(substance) => substance.kind,
        Content::Air(_) => None,
    }
}

/// Permeance at the driest and at the dampest humidity known; `None` for air.
pub(super) fn permeances(layer: &Layer) -> Option<(Permeance, Permeance)> {
    let Content::Solid(substance) = &layer.content else {
        return None;
    };
    let nominal = match substance.vapor {
        VaporRate::PerSheet(permeance) => permeance.as_si(),
        VaporRate::PerThickness(permeability) => permeability.as_si() / layer.thickness.as_m(),
    };
    let factor = |point: Option<&(_, f64)>| point.map_or(1.0, |(_, factor)| *factor);
    let dry = factor(substance.by_humidity.first()) * nominal;
    let damp = factor(substance.by_humidity.last()) * nominal;
    Some((Permeance::from_si(dry), Permeance::from_si(damp)))
}

/// Whether a layer's permeance is that of a sheet, such as a faced board.
pub(super) fn is_sheet(layer: &Layer) -> bool {
    matches!(&layer.content, Content::Solid(substance) if !substance.vapor.is_per_thickness())
}

/// The layers that the members of a frame run through: of several frames the insulated one, then
/// the deepest. `None` where nothing is framed.
pub(super) fn frame(layers: &[Layer]) -> Option<Range<usize>> {
    let insulated = |run: &Range<usize>| layers[run.clone()].iter().any(is_insulation);
    runs_of_members(layers).into_iter().max_by(|a, b| {
        let depths = depth(layers, a).total_cmp(&depth(layers, b));
        insulated(a).cmp(&insulated(b)).then(depths)
    })
}

/// Depth of a frame in m.
pub(super) fn depth(layers: &[Layer], frame: &Range<usize>) -> f64 {
    let depths = layers[frame.clone()].iter().map(|l| l.thickness.as_m());
    depths.sum()
}

/// Labeled R of the insulation among layers, either what framing crosses or what none does.
pub(super) fn insulation(layers: &[Layer], framed: bool) -> ThermalResistance {
    let counts = |layer: &&Layer| is_insulation(layer) && layer.framing.is_some() == framed;
    let resistances = layers.iter().filter(counts).map(labeled_resistance);
    resistances.fold(ThermalResistance::from_si(0.0), |a, b| a + b)
}
