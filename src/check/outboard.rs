//! # Outboard share
//!
//! *What it checks.* Which share of the resistance lies outside the inner face of the sheathing,
//! which share keeps that face above the dew point of the room air at your humidity, and which
//! share the continuous insulation of the class III table amounts to in the same wall.
//!
//! *Why it matters.* **Meets the table** and **stays dry at your humidity** are two lines: the
//! table was written for ordinary rooms, and a small house at 60 % isn't one.
//!
//! *Method and source.* Steady heat flow through the cavity on the winter mean: the face stands at
//! outdoors plus its outboard share of the difference, so the share needed is (dew point −
//! outdoors) / (indoors − outdoors). The table's share: its continuous R in place of the wall's own
//! continuous insulation, all other layers kept. Films count. Where a gap is vented, the end with
//! the lesser share counts.
//!
//! *Limit.* A note, never judged: the air-leak check and the vapor-retarder table judge.
//!
//! *When it does not apply.* Where a bonded layer inside of the face keeps leaking room air from it,
//! the note says so: there only diffusion counts. Without a panel outside an insulated layer, and where outdoors is as
//! warm as the room. Where the zone or the table's row is missing the third number is left out.
//!
//! *Example.* 70 °F and 50 %, 32 °F outdoors, R-7 of R-18 outboard: 39 % against 49 % needed, the
//! face at 46.8 °F is below the dew point (trade journal note on dew points in walls).

use super::build_up::{enclosed, frame, is_insulation, kind, reaches};
use super::kind::{Brief, Column, Run};
use super::retarder::{continuous_needed, counted_continuous, frame_size};
use super::words::{LOCAL, code, percent, resistance};
use super::{Check, Detail, Finding, Place, Status};
use crate::model::{Assembly, AssemblyKind, Case, Code, Kind};
use crate::quantity::{Share, Style, ThermalResistance};
use crate::solve::{AssemblyResult, EndResult, PathKind, PathResult, Profile};

/// The share of the resistance outboard of the sheathing.
pub static CHECK: Check = Check {
    id: "outboard-share",
    title: "outboard share",
    run: Run::Table(|scene| check(scene.case, scene.result, &scene.stop.code)),
    column: Some(Column::STATUS),
    say: |finding, _, style| match &finding.detail {
        Detail::Outboard(shares) => outboard(finding, shares, style),
        _ => String::new(),
    },
    brief: Brief::Sentences,
    ..Check::PLAIN
};

const SOURCE: &str = "dew point of the room air (ISO 13788 saturation formula); IRC R702.7 beside it, check your local code";

/// Shares of the resistance outside the sheathing's inner face.
#[derive(Clone, Debug, PartialEq)]
pub struct OutboardShares {
    /// Edition and zone.
    pub code: Code,
    /// The sheathing.
    pub sheathing: String,
    /// Of the whole, films included.
    pub outboard: ThermalResistance,
    /// The whole, films included.
    pub total: ThermalResistance,
    /// The share there is.
    pub has: Share,
    /// The share that keeps the face at the dew point of the room air; 0 where any does.
    pub needed: Share,
    /// Whether leaking room air reaches that face; a bonded layer inside of it keeps it out.
    pub reached: bool,
    /// What the table asks for; `None` where there is no row.
    pub by_table: Option<TableShare>,
}

/// The class III table's continuous insulation in the same wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TableShare {
    /// What it asks for.
    pub continuous: ThermalResistance,
    /// The outboard share it amounts to here.
    pub share: Share,
    /// Whether the wall has it, by the labels.
    pub met: bool,
}

/// A note on walls and roofs with a sheathing.
#[must_use]
pub fn check(case: &Case, result: &AssemblyResult, code: &Code) -> Vec<Finding> {
    let assembly = &case.assembly;
    let Some(sheathing) = sheathing(assembly).filter(|_| assembly.kind != AssemblyKind::Floor)
    else {
        return Vec::new();
    };
    let shares = |end| shares_of(assembly, sheathing, end, result, *code);
    let least = result
        .ends
        .iter()
        .filter_map(shares)
        .min_by(|(a, ..), (b, ..)| a.has.as_fraction().total_cmp(&b.has.as_fraction()));
    let Some((shares, path, plane)) = least else {
        return Vec::new();
    };
    let limit = result.room_dew_point;
    let note = Finding {
        detail: Detail::Outboard(shares),
        ..Finding::new(&CHECK, Status::Note, SOURCE)
    };
    let margin = |profile: &Profile| profile.planes[plane].temperature - limit;
    vec![Finding {
        place: Some(Place {
            path: path.path.name.clone(),
            plane: path.plane_names[plane].clone(),
        }),
        value: Some(path.winter.planes[plane].temperature),
        limit: Some(limit),
        margin: Some(margin(&path.winter)),
        night_margin: path.night.as_deref().map(margin),
        ..note
    }]
}

/// The first unframed panel outside the frame, or outside the first insulation without one.
fn sheathing(assembly: &Assembly) -> Option<usize> {
    let layers = enclosed(assembly);
    let from = match frame(layers).filter(|frame| layers[frame.clone()].iter().any(is_insulation)) {
        Some(frame) => frame.end,
        None => layers.iter().position(is_insulation)? + 1,
    };
    let is_panel = |n: &usize| kind(&layers[*n]) == Some(Kind::Panel);
    (from..layers.len()).find(|n| is_panel(n) && layers[*n].framing.is_none())
}

fn shares_of<'a>(
    assembly: &Assembly,
    sheathing: usize,
    end: &'a EndResult,
    result: &AssemblyResult,
    code: Code,
) -> Option<(OutboardShares, &'a PathResult, usize)> {
    let is_cavity = |path: &&PathResult| path.path.kind == PathKind::Cavity;
    let path = end.paths.iter().find(is_cavity)?;
    let plane = (path.path.pieces.iter()).position(|piece| piece.layer == Some(sheathing))?;
    let indoor = end.boundary.indoor.temperature;
    let outdoor = end.boundary.outdoor.temperature;
    let difference = (indoor - outdoor).as_kelvin();
    if difference <= 0.0 {
        return None;
    }
    let resistances = path.winter.resistances.iter().map(|r| r.as_si());
    let total = path.winter.total_resistance.as_si();
    let inboard: f64 = end.boundary.interior_film.as_si() + resistances.take(plane).sum::<f64>();
    let outboard = total - inboard;
    let needed = (result.room_dew_point - outdoor).as_kelvin() / difference;
    let by_table = table_row(assembly, code).map(|(row, met)| {
        let instead = row.as_si() - continuous(assembly, path);
        let share = (outboard + instead) / (total + instead);
        TableShare {
            continuous: row,
            share: Share::from_fraction(share),
            met,
        }
    });
    let shares = OutboardShares {
        code,
        sheathing: assembly.layers[sheathing].name.clone(),
        outboard: ThermalResistance::from_si(outboard),
        total: ThermalResistance::from_si(total),
        has: Share::from_fraction(outboard / total),
        needed: Share::from_fraction(needed.clamp(0.0, 1.0)),
        reached: path.roles[plane].reached,
        by_table,
    };
    Some((shares, path, plane))
}

/// The continuous R that the class III table asks of a frame wall, and whether it is there.
fn table_row(assembly: &Assembly, code: Code) -> Option<(ThermalResistance, bool)> {
    let layers = enclosed(assembly);
    let frame = frame(layers).filter(|_| assembly.kind == AssemblyKind::Wall)?;
    let row = continuous_needed(code, frame_size(layers, &frame))?;
    Some((row, reaches(counted_continuous(layers, &frame), row)))
}

/// What the wall's own continuous insulation outside the frame has on the winter mean, m²·K/W.
fn continuous(assembly: &Assembly, path: &PathResult) -> f64 {
    let layers = enclosed(assembly);
    let Some(frame) = frame(layers) else {
        return 0.0;
    };
    let counts = |n: usize| {
        (frame.end..layers.len()).contains(&n)
            && layers[n].framing.is_none()
            && is_insulation(&layers[n])
    };
    let pieces = path.path.pieces.iter().zip(&path.winter.resistances);
    pieces
        .filter(|(piece, _)| piece.layer.is_some_and(counts))
        .map(|(_, resistance)| resistance.as_si())
        .sum()
}

fn outboard(finding: &Finding, shares: &OutboardShares, style: Style) -> String {
    let (Some(at), Some(limit)) = (finding.value, finding.limit) else {
        return String::new();
    };
    let dry = match (shares.has > shares.needed, shares.reached) {
        (true, _) => "yes",
        (false, true) => "no",
        (false, false) => {
            "not by this share, but a bonded layer keeps leaking room air from the face"
        }
    };
    let mut text = format!(
        "{} of the resistance lies outside the inner face of the {} ({} of {}). Stays dry at your humidity: {}; it takes over {}. The face is at {} and the dew point of the room air is {}.",
        percent(shares.has.as_fraction()),
        shares.sheathing,
        resistance(style, shares.outboard),
        resistance(style, shares.total),
        dry,
        percent(shares.needed.as_fraction()),
        style.show(at),
        style.show(limit),
    );
    if let Some(row) = shares.by_table {
        let comparison = if row.share > shares.needed {
            "more than your humidity takes"
        } else {
            "less than your humidity takes"
        };
        let meets = if row.met { "yes" } else { "no" };
        text += &format!(
            " Meets the class III table's {} of continuous insulation ({}): {meets}; it amounts to {} in this wall, {comparison}. {LOCAL}",
            resistance(style, row.continuous),
            code(shares.code),
            percent(row.share.as_fraction()),
        );
    }
    text
}

#[cfg(test)]
mod tests;
