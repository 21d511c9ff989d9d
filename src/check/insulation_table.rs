//! # Insulation table
//!
//! *What it checks.* The insulation of a frame wall against the code's prescriptive R-values by
//! zone and edition: in the cavity, and continuous beside it.
//!
//! *Why it matters.* It is the line of the energy sheet that a plan reviewer ticks off. It says
//! whether the wall **meets the table**, nothing about moisture.
//!
//! *Method and source.* IRC N1102.1. Cavity: label R of the insulation that framing crosses, batts
//! pressed into a shallower frame by their conductivity; of a wall framed in two rows that of both,
//! since layers are summed to the component they belong to (N1102.1.2 of 2012, N1102.1.3 of 2018, from
//! memory); what lies between strapping is neither. Continuous: label R of the insulation that no
//! framing crosses, between two rows of studs as well. Foam by its value at 75 °F, as labels are.
//!
//! *Limit.* Cavity + continuous, any one of the pairs of edition and zone in
//! `materials/code-tables.yaml`, such as 20 or 13+5; all from memory. Edition or zone not stated:
//! `depends`.
//!
//! *When it does not apply.* Floors, roofs and walls without a frame get a note. The table is one
//! way to comply; a U-value or a whole-house calculation are others. Local codes amend it: check
//! yours.
//!
//! *Example.* R-21 batts and R-5 foam, zone 6, IRC 2018: 20+5 is met.

use super::build_up::{depth, enclosed, frame, insulation, reaches};
use super::kind::{Brief, Column, Run};
use super::words::{LOCAL, code, resistance};
use super::{Check, Detail, Finding, Status};
use crate::code_table::INSULATION;
pub use crate::code_table::WallInsulation;
use crate::model::{AssemblyKind, Case, Code, runs_of_members};
use crate::quantity::{Style, ThermalResistance};
use crate::solve::AssemblyResult;

/// The prescriptive insulation table.
pub static CHECK: Check = Check {
    id: "insulation-table",
    title: "insulation table",
    run: Run::Table(|scene| check(scene.case, scene.result, &scene.stop.code)),
    column: Some(Column::STATUS),
    say: |finding, _, style| match &finding.detail {
        Detail::Insulation(row) => say(row, finding.status, style),
        _ => String::new(),
    },
    brief: Brief::Phrase(phrase),
    ..Check::PLAIN
};

/// The shallowest row of studs, a 2x3 on edge, m; what is shallower is strapping (common practice).
const LEAST_STUD: f64 = 2.5 * crate::quantity::unit::INCH - 1e-6;

/// What the wall has, and what the table asks for.
#[derive(Clone, Debug, PartialEq)]
pub struct InsulationRow {
    /// Edition and zone.
    pub code: Code,
    /// What the wall has.
    pub has: WallInsulation,
    /// The pairs that each meet the table; empty where edition or zone isn't stated.
    pub options: Vec<WallInsulation>,
}

/// Holds a wall against the table.
#[must_use]
pub fn check(case: &Case, _result: &AssemblyResult, code: &Code) -> Vec<Finding> {
    let assembly = &case.assembly;
    let layers = enclosed(assembly);
    let note = |text: &str| {
        vec![Finding {
            help: Some(text.to_owned()),
            ..Finding::new(&CHECK, Status::Note, INSULATION.source(None))
        }]
    };
    // The vapor-retarder table's note speaks for floors.
    match assembly.kind {
        AssemblyKind::Floor => return Vec::new(),
        AssemblyKind::Roof => {
            return note(
                "The insulation table is known here for walls only: roofs have rows of their own.",
            );
        }
        AssemblyKind::Wall => {}
    }
    let Some(main) = frame(layers) else {
        return note("The insulation table is known here for frame walls: no framing is stated.");
    };
    let rows = runs_of_members(layers).into_iter();
    let rows = rows.filter(|row| *row == main || depth(layers, row) >= LEAST_STUD);
    let cavities = rows.map(|row| insulation(&layers[row], true));
    let has = WallInsulation {
        cavity: cavities.fold(ThermalResistance::from_si(0.0), |a, b| a + b),
        continuous: insulation(layers, false),
    };
    let options = options(code).unwrap_or_default();
    let meets = |option: &WallInsulation| {
        reaches(has.cavity, option.cavity) && reaches(has.continuous, option.continuous)
    };
    let (status, help) = match () {
        () if options.is_empty() => (
            Status::Depends,
            Some("state the edition and the zone under `code:`"),
        ),
        () if options.iter().any(meets) => (Status::Pass, None),
        () => (
            Status::Fail,
            Some("one of those pairs, or a U-value calculation"),
        ),
    };
    vec![Finding {
        detail: Detail::Insulation(InsulationRow {
            code: *code,
            has,
            options,
        }),
        help: help.map(str::to_owned),
        ..Finding::new(&CHECK, status, INSULATION.source(code.edition))
    }]
}

/// The pairs of cavity and continuous R, any of which meets the table.
fn options(code: &Code) -> Option<Vec<WallInsulation>> {
    INSULATION.asks(code.edition?, code.zone?).cloned()
}

fn say(row: &InsulationRow, status: Status, style: Style) -> String {
    let has = format!("The wall has {}.", pair(&row.has, style));
    if row.options.is_empty() {
        return format!("{has} Edition or zone not stated: no table to hold it against.");
    }
    let meets = match status {
        Status::Pass => "Meets the table",
        _ => "Doesn't meet the table",
    };
    let options: Vec<String> = row
        .options
        .iter()
        .map(|option| pair(option, style))
        .collect();
    format!(
        "{has} {meets}: {}, asks for {}. {LOCAL}",
        code(row.code),
        options.join(", or ")
    )
}

/// What the wall has beside what the table asks for.
fn phrase(finding: &Finding, _: &str, style: Style) -> Option<String> {
    let Detail::Insulation(row) = &finding.detail else {
        return None;
    };
    let has = pair(&row.has, style);
    let asked: Vec<String> = row.options.iter().map(|one| pair(one, style)).collect();
    Some(match asked.is_empty() {
        true => format!("insulation table: {has}; edition or zone not stated"),
        false => format!(
            "insulation table: {has}; it asks for {} ({})",
            asked.join(", or "),
            code(row.code)
        ),
    })
}

fn pair(pair: &WallInsulation, style: Style) -> String {
    match (pair.cavity.as_si() > 0.0, pair.continuous.as_si() > 0.0) {
        (_, false) => format!("{} in the cavity", resistance(style, pair.cavity)),
        (false, true) => format!("{} continuous", resistance(style, pair.continuous)),
        (true, true) => format!(
            "{} in the cavity with {} continuous",
            resistance(style, pair.cavity),
            resistance(style, pair.continuous)
        ),
    }
}

#[cfg(test)]
mod tests;
