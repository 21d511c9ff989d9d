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
//! *Limit.* Cavity + continuous, any one of the pairs. IRC 2009: zones 1 to 4 13; 5, 6 and marine 4
//! 20 or 13+5; 7 and 8 21. IRC 2012 to 2018: zones 1 and 2 13; 3 to 5 20 or 13+5; 6 to 8 20+5 or
//! 13+10. IRC 2021: zones 1 and 2 13 or 0+10; 3 20, 13+5 or 0+15; 4 to 8 30, 20+5, 13+10 or 0+20.
//! All from memory. Edition or zone not stated: `depends`.
//!
//! *When it does not apply.* Floors, roofs and walls without a frame get a note. The table is one
//! way to comply; a U-value or a whole-house calculation are others. Local codes amend it: check
//! yours.
//!
//! *Example.* R-21 batts and R-5 foam, zone 6, IRC 2018: 20+5 is met.

use super::build_up::{depth, enclosed, frame, insulation, is_marine, r_value, reaches};
use super::kind::{Brief, Column, Run};
use super::words::{LOCAL, code, resistance};
use super::{Check, Detail, Finding, Status};
use crate::model::{AssemblyKind, Case, Code, Edition, Zone, runs_of_members};
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

/// Insulation in the cavity and continuous beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallInsulation {
    /// Between the members.
    pub cavity: ThermalResistance,
    /// Not crossed by framing.
    pub continuous: ThermalResistance,
}

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
            ..Finding::new(&CHECK, Status::Note, source(None))
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
    let options = match (code.edition, code.zone) {
        (Some(edition), Some(zone)) => options(edition, zone),
        _ => Vec::new(),
    };
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
        ..Finding::new(&CHECK, status, source(code.edition))
    }]
}

fn source(edition: Option<Edition>) -> &'static str {
    match edition {
        None => "IRC N1102.1 (from memory), check your local code",
        Some(Edition::Irc2009) => "IRC 2009 N1102.1 (from memory), check your local code",
        Some(Edition::Irc2012To2018) => {
            "IRC 2012 to 2018 N1102.1 (from memory), check your local code"
        }
        Some(Edition::Irc2021) => "IRC 2021 N1102.1 (from memory), check your local code",
    }
}

/// The pairs of cavity and continuous R, any of which meets the table.
fn options(edition: Edition, zone: Zone) -> Vec<WallInsulation> {
    let marine = zone.number == 4 && is_marine(zone);
    let pairs: &[(f64, f64)] = match (edition, zone.number) {
        (Edition::Irc2009, 0..=4) if !marine => &[(13.0, 0.0)],
        (Edition::Irc2009, 0..=6) => &[(20.0, 0.0), (13.0, 5.0)],
        (Edition::Irc2009, _) => &[(21.0, 0.0)],
        (Edition::Irc2012To2018, 0..=2) => &[(13.0, 0.0)],
        (Edition::Irc2012To2018, 3..=5) => &[(20.0, 0.0), (13.0, 5.0)],
        (Edition::Irc2012To2018, _) => &[(20.0, 5.0), (13.0, 10.0)],
        (Edition::Irc2021, 0..=2) => &[(13.0, 0.0), (0.0, 10.0)],
        (Edition::Irc2021, 3) => &[(20.0, 0.0), (13.0, 5.0), (0.0, 15.0)],
        (Edition::Irc2021, _) => &[(30.0, 0.0), (20.0, 5.0), (13.0, 10.0), (0.0, 20.0)],
    };
    let pair = |(cavity, continuous): &(f64, f64)| WallInsulation {
        cavity: r_value(*cavity),
        continuous: r_value(*continuous),
    };
    pairs.iter().map(pair).collect()
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
