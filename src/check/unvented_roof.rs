//! # Unvented-roof table
//!
//! *What it checks.* Whether an unvented roof has the air-impermeable insulation that the code asks
//! for by zone, so that the deck's underside stays warm.
//!
//! *Why it matters.* Batts under a cold deck with no air above them are the classic wet roof.
//!
//! *Method and source.* IRC R806.5 (2009: R806.4). Counted by its label is the insulation that air
//! doesn't move through: below the deck as far as it touches the deck without a gap, and all above.
//!
//! *Limit.* The R of edition and zone in `materials/code-tables.yaml`, each row with its clause and
//! whether it was seen; R-5 in zone 1 to R-35 in zone 8. Where no air-permeable insulation lies in
//! the roof the code asks only that the foam touch the deck (from memory), so less than the table's
//! R gives `depends`. Edition or zone not stated: `depends`.
//!
//! *When it does not apply.* Roofs ventilated below the deck, and roofs without a wooden deck, get a
//! note. Interior vapor retarder, tile roofs and vented attics are not looked at. Local codes amend
//! the table: check yours.
//!
//! *Example.* Marine zone 4, R-21 batts under the deck, 1 in of foam above: R-10 is asked for,
//! so it `fails`.

use super::build_up::{
    frame, insulation, is_air_permeable, is_insulation, kind, labeled_resistance, reaches,
};
use super::kind::{Brief, Column, Run};
use super::words::{LOCAL, code, resistance};
use super::{Check, Detail, Finding, Status};
use crate::code_table::UNVENTED_ROOF;
use crate::model::{AirSpace, AssemblyKind, Case, Code, Content, Kind, Layer};
use crate::quantity::{Style, ThermalResistance};
use crate::solve::AssemblyResult;

/// The table of insulation in unvented roofs.
pub static CHECK: Check = Check {
    id: "unvented-roof-table",
    title: "unvented-roof table",
    run: Run::Table(|scene| check(scene.case, scene.result, &scene.stop.code)),
    column: Some(Column::STATUS),
    say: |finding, _, style| match &finding.detail {
        Detail::UnventedRoof(roof) => unvented_roof(roof, finding.status, style),
        _ => String::new(),
    },
    brief: Brief::Sentences,
    ..Check::PLAIN
};

/// What an unvented roof has against the table.
#[derive(Clone, Debug, PartialEq)]
pub struct RoofInsulation {
    /// Edition and zone.
    pub code: Code,
    /// Air-impermeable insulation touching the deck or above it.
    pub air_impermeable: ThermalResistance,
    /// Whether air-permeable insulation lies in the roof too.
    pub has_air_permeable: bool,
    /// What the table asks for; `None` where edition or zone isn't stated.
    pub needed: Option<ThermalResistance>,
}

/// Holds a roof against the table; nothing for walls and floors.
#[must_use]
pub fn check(case: &Case, _result: &AssemblyResult, code: &Code) -> Vec<Finding> {
    if case.assembly.kind != AssemblyKind::Roof {
        return Vec::new();
    }
    let layers = &case.assembly.layers;
    let note = |text: &str| {
        vec![Finding {
            help: Some(text.to_owned()),
            ..Finding::new(&CHECK, Status::Note, UNVENTED_ROOF.source(None))
        }]
    };
    let Some(deck) = deck(layers) else {
        return note(
            "The unvented-roof table asks for insulation at a wooden deck: none is drawn.",
        );
    };
    if layers[..deck].iter().any(is_ventilated) {
        return note("Ventilated below the deck: the unvented-roof table doesn't apply.");
    }
    let outside = layers[deck + 1..].iter();
    let above: Vec<Layer> = outside.take_while(|l| !is_ventilated(l)).cloned().collect();
    let stops_air = |layer: &&Layer| is_insulation(layer) && !is_air_permeable(layer);
    let below = layers[..deck].iter().rev().take_while(stops_air);
    let below = below.map(labeled_resistance);
    let above_solid: Vec<Layer> = above.iter().filter(stops_air).cloned().collect();
    let found = RoofInsulation {
        code: *code,
        air_impermeable: below.fold(insulation(&above_solid, false), |a, b| a + b),
        has_air_permeable: layers[..deck].iter().chain(&above).any(is_air_permeable),
        needed: needed(code),
    };
    let (status, help) = match found.needed {
        None => (
            Status::Depends,
            "state the edition and the zone under `code:`",
        ),
        Some(needed) if reaches(found.air_impermeable, needed) => (Status::Pass, ""),
        Some(_) if !found.has_air_permeable && found.air_impermeable.as_si() > 0.0 => {
            (Status::Depends, "the table's R, or the reviewer's word")
        }
        Some(_) => (
            Status::Fail,
            "more foam on the deck, or sprayed against its underside",
        ),
    };
    vec![Finding {
        detail: Detail::UnventedRoof(found),
        help: (!help.is_empty()).then(|| help.to_owned()),
        ..Finding::new(&CHECK, status, UNVENTED_ROOF.source(code.edition))
    }]
}

/// What the table asks for.
fn needed(code: &Code) -> Option<ThermalResistance> {
    UNVENTED_ROOF.asks(code.edition?, code.zone?).copied()
}

/// The structural deck: the first unframed wood or panel outside the rafters; without rafters, the
/// outermost.
fn deck(layers: &[Layer]) -> Option<usize> {
    let is_deck = |n: &usize| {
        let layer = &layers[*n];
        layer.framing.is_none() && kind(layer).is_some_and(Kind::is_wood)
    };
    match frame(layers) {
        Some(frame) => (frame.end..layers.len()).find(is_deck),
        None => (0..layers.len()).rev().find(is_deck),
    }
}

fn is_ventilated(layer: &Layer) -> bool {
    layer.content == Content::Air(AirSpace::Ventilated)
}

fn unvented_roof(roof: &RoofInsulation, status: Status, style: Style) -> String {
    let has = format!(
        "The unvented roof has {} of air-impermeable insulation at the deck.",
        resistance(style, roof.air_impermeable)
    );
    let Some(needed) = roof.needed.map(|needed| resistance(style, needed)) else {
        return format!("{has} Edition or zone not stated: no table to hold it against.");
    };
    let by = code(roof.code);
    match status {
        Status::Pass => format!("{has} Meets the table: {by}, asks for {needed}. {LOCAL}"),
        Status::Depends => format!(
            "{has} The table ({by}) has {needed}, but asks it only where air-permeable insulation lies in the roof too. {LOCAL}"
        ),
        _ => format!("{has} Doesn't meet the table: {by}, asks for {needed}. {LOCAL}"),
    }
}

#[cfg(test)]
mod tests;
