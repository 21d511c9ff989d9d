//! What the materials' ranges do to a finding, and which inputs decide it, in words.

use crate::check::range::{Flip, FlipValue, Input, Mover, Range};
use crate::check::{Finding, Status};
use crate::quantity::Style;

/// What holds at both ends of the ranges; empty where the check doesn't hang on them.
pub(super) fn corners(finding: &Finding) -> String {
    let Some(range) = &finding.range else {
        return String::new();
    };
    if range.too_close {
        return "The margin is too close to zero to be told from it: depends.".into();
    }
    let Range {
        nominal,
        adverse,
        kind,
        ..
    } = **range;
    let same = [adverse, kind].map(|status| status.severity() == nominal.severity());
    match same {
        [true, true] => format!(
            "At both ends of the materials' ranges the word is {} too.",
            nominal.word()
        ),
        _ => format!(
            "At the nominal values the word is {}, at the adverse end of the materials' ranges {}, at the \
             kind end {}: depends.",
            nominal.word(),
            adverse.word(),
            kind.word()
        ),
    }
}

/// The same for a headline: only where the range changed the status.
pub(super) fn widened(finding: &Finding) -> String {
    let changed = finding
        .range
        .as_ref()
        .is_some_and(|range| range.too_close || range.nominal != finding.status);
    match changed {
        true => corners(finding),
        false => String::new(),
    }
}

/// The inputs that move the result most, and where each of them changes the status.
pub(super) fn decides(finding: &Finding, style: Style) -> String {
    let Some(range) = &finding.range else {
        return String::new();
    };
    let movers: Vec<String> = range
        .movers
        .iter()
        .map(|mover| words(mover, style))
        .collect();
    match movers.is_empty() {
        true => String::new(),
        false => format!("What moves it most: {}.", movers.join(", ")),
    }
}

/// The flips alone, for a headline: `fails above 57 % room humidity`.
pub(super) fn flips(finding: &Finding, style: Style) -> String {
    let Some(range) = &finding.range else {
        return String::new();
    };
    let flips = range.movers.iter().filter_map(|mover| {
        let flip = mover.flip?;
        Some(format!(
            "{} {}",
            change(&flip),
            threshold(&mover.input, &flip, style)
        ))
    });
    let flips: Vec<String> = flips.collect();
    match flips.is_empty() {
        true => String::new(),
        false => format!("What decides it: {}.", flips.join("; ")),
    }
}

fn words(mover: &Mover, style: Style) -> String {
    let input = match &mover.input {
        Input::RoomHumidity => "the room's humidity".to_owned(),
        Input::Permeance(layer) => format!("the permeance of {layer}"),
        Input::Resistance(layer) => format!("the resistance of {layer}"),
    };
    match &mover.flip {
        None => input,
        Some(flip) => format!("{input} ({} {})", change(flip), side(flip, style)),
    }
}

/// What happens on the far side: `fails`, `passes`, or that it no longer does what it did.
fn change(flip: &Flip) -> &'static str {
    match (flip.becomes, flip.from) {
        (Status::Pass, _) => "passes",
        (Status::Fail, _) => "fails",
        (_, Status::Fail) => "no longer fails",
        _ => "no longer passes",
    }
}

/// `above 57 %`
fn side(flip: &Flip, style: Style) -> String {
    let side = if flip.above { "above" } else { "below" };
    let value = match flip.at {
        FlipValue::Humidity(humidity) => style.show(humidity),
        FlipValue::Permeance(permeance) => style.show(permeance),
        FlipValue::Resistance(resistance) => style.show(resistance),
    };
    format!("{side} {value}")
}

fn threshold(input: &Input, flip: &Flip, style: Style) -> String {
    let side = side(flip, style);
    match input {
        Input::RoomHumidity => format!("{side} room humidity"),
        Input::Permeance(layer) | Input::Resistance(layer) => format!("with {layer} {side}"),
    }
}
