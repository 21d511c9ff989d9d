//! What could give way where a measure is over its limit.

use super::ROUNDING;
use crate::model::house::HouseCase;
use crate::model::{Content, Layer};
use crate::quantity::{Length, Style};
use crate::solve::house::{Measure, Term, TermKind};

/// What could give way, and by how much.
#[derive(Clone, Debug, PartialEq)]
pub struct Shave {
    /// Its name, such as `siding` or `the deck`.
    pub what: String,
    /// The assembly it is a layer of.
    pub assembly: Option<String>,
    /// Whether both sides give way, each by that much.
    pub each_side: bool,
    /// By how much.
    pub by: Length,
    /// What is left of it; `None` where that says nothing.
    pub leaves: Option<Length>,
}

/// What could give way: first what costs nothing inside, last what the house stands on.
pub(super) fn shaves(
    case: &HouseCase<'_>,
    last: (&str, TermKind),
    measure: &Measure,
    over: f64,
) -> Vec<Shave> {
    let mut found: Vec<Shave> = beyond(measure, over).into_iter().collect();
    if found.is_empty() {
        found.extend(thickest(case, measure, over));
    }
    let (what, kind) = last;
    let term = measure.terms.iter().find(|term| term.kind == kind);
    found.extend(term.filter(|term| term.value > over).map(|term| Shave {
        what: what.into(),
        assembly: None,
        each_side: false,
        by: Length::from_m(over),
        leaves: Some(Length::from_m(term.value - over)),
    }));
    found
}

/// Whatever reaches beyond the siding, or stands above the roof.
fn beyond(measure: &Measure, over: f64) -> Option<Shave> {
    let is_beyond = |term: &&Term| {
        matches!(
            term.kind,
            TermKind::Overhang(_) | TermKind::Trim(_) | TermKind::StandsAbove
        )
    };
    let terms: Vec<&Term> = measure.terms.iter().filter(is_beyond).collect();
    let least = terms
        .iter()
        .map(|term| term.value)
        .fold(f64::INFINITY, f64::min);
    let by = over / terms.len().max(1) as f64;
    let first = terms.first().filter(|_| least > by)?;
    let what = match first.kind {
        TermKind::Overhang(_) => "the overhang",
        TermKind::Trim(_) => "trim and fasteners",
        _ => "what stands above the roof",
    };
    Some(Shave {
        what: what.into(),
        assembly: None,
        each_side: terms.len() > 1,
        by: Length::from_m(by),
        leaves: (terms.len() == 1
            || terms
                .iter()
                .all(|term| (term.value - least).abs() < ROUNDING))
        .then(|| Length::from_m(least - by)),
    })
}

/// The thickest solid layer that is thick enough alone, a gap where none is; members keep theirs.
fn thickest(case: &HouseCase<'_>, measure: &Measure, over: f64) -> Option<Shave> {
    let mut best: Option<(bool, f64, Shave)> = None;
    for term in &measure.terms {
        let is_outer = matches!(term.kind, TermKind::WallLayer(_) | TermKind::RoofLayer);
        let Some((assembly, layer)) = term.layer.as_ref().filter(|_| is_outer) else {
            continue;
        };
        let Some(found) = find(case, assembly, layer).filter(|found| found.framing.is_none())
        else {
            continue;
        };
        let same = measure
            .terms
            .iter()
            .filter(|other| other.layer == term.layer)
            .count();
        // Measured square to a roof's slope.
        let stretch = term.square.map_or(1.0, |square| term.value / square);
        let by = over / same as f64 / stretch;
        let thickness = found.thickness.as_m();
        let solid = matches!(found.content, Content::Solid(_));
        let better = best
            .as_ref()
            .is_none_or(|(is_solid, most, _)| (solid, thickness) > (*is_solid, *most));
        if by < thickness && better {
            let shave = Shave {
                what: layer.clone(),
                assembly: Some(assembly.clone()),
                each_side: same > 1,
                by: Length::from_m(by),
                leaves: Some(Length::from_m(thickness - by)),
            };
            best = Some((solid, thickness, shave));
        }
    }
    best.map(|(_, _, shave)| shave)
}

fn find<'a>(case: &HouseCase<'a>, assembly: &str, layer: &str) -> Option<&'a Layer> {
    let mut layers = case.assembly(assembly)?.layers.iter();
    layers.find(|one| one.name == layer)
}

/// In words.
pub(super) fn help(shaves: &[Shave], style: Style) -> String {
    let words: Vec<String> = shaves.iter().map(|shave| one_help(shave, style)).collect();
    match words.is_empty() {
        true => "No single part could give that way.".into(),
        false => format!("What would help: {}.", words.join("; or ")),
    }
}

fn one_help(shave: &Shave, style: Style) -> String {
    let by = style.measure(shave.by);
    let what = match &shave.assembly {
        Some(assembly) => format!("{} of the {assembly}", shave.what),
        None => shave.what.clone(),
    };
    let each = if shave.each_side { " on each side" } else { "" };
    let leaves = shave.leaves.map_or_else(String::new, |left| {
        format!(", leaving {}", style.measure(left))
    });
    format!("{by} off {what}{each}{leaves}")
}
