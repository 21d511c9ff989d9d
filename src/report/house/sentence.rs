//! The findings of a house in words.

use crate::check::{HouseCheck, HouseFinding, Shave, Status};
use crate::quantity::{Length, Mass, Style, percent};
use crate::study::JudgedHouse;

/// A finding as a sentence or two.
pub(in crate::report) fn sentence(finding: &HouseFinding, style: Style) -> String {
    match finding.check {
        HouseCheck::Weight => weight(finding, style),
        HouseCheck::Tongue => tongue(finding),
        HouseCheck::Width => measure(finding, "wide", style),
        HouseCheck::Height => measure(finding, "high", style),
        HouseCheck::Length => measure(finding, "long", style),
    }
}

fn measure(finding: &HouseFinding, word: &str, style: Style) -> String {
    let print = |meters: f64| style.measure(Length::from_m(meters));
    let limit = finding.limit.map(print);
    let Some(value) = finding.value.map(print) else {
        let missing = finding.missing.join(", ");
        return match (limit, missing.is_empty()) {
            (Some(limit), false) => {
                format!("How {word} it is isn't known without {missing}; {limit} is stated.")
            }
            _ => format!("How {word} it is isn't known."),
        };
    };
    match (limit, finding.slack()) {
        (Some(limit), Some(slack)) if finding.status == Status::Fail => {
            let over = print(-slack);
            let help = help(&finding.shaves, style);
            format!("{value} {word}, {over} over the {limit} stated. {help}")
        }
        (Some(limit), Some(slack)) if slack.abs() < 1e-6 => {
            format!("{value} {word}, just the {limit} stated: nothing to spare.")
        }
        (Some(limit), Some(slack)) => {
            format!("{value} {word}, {} under the {limit} stated.", print(slack))
        }
        _ => format!("{value} {word}; {}.", finding.source),
    }
}

fn help(shaves: &[Shave], style: Style) -> String {
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

fn weight(finding: &HouseFinding, style: Style) -> String {
    let print = |kg: f64| style.show(Mass::from_kg(kg));
    let least = if finding.missing.is_empty() {
        ""
    } else {
        "at least "
    };
    let value = finding.value.map_or_else(String::new, print);
    let mut text = match (finding.limit, finding.slack()) {
        (Some(limit), Some(slack)) if slack < 0.0 => format!(
            "Dry weight {least}{value}, {} over the {} that the rating leaves beside the trailer.",
            print(-slack),
            print(limit)
        ),
        (Some(limit), Some(slack)) => format!(
            "Dry weight {least}{value}; the rating leaves {} beside the trailer, so {} for \
             furniture, water and people, which aren't counted.",
            print(limit),
            print(slack)
        ),
        _ => format!("Dry weight {least}{value}; {}.", finding.source),
    };
    if !finding.missing.is_empty() {
        text += &format!(" Not known: {}.", finding.missing.join("; "));
    }
    text
}

fn tongue(finding: &HouseFinding) -> String {
    let share = finding.value.unwrap_or_default();
    let text = match share < 0.0 {
        true => format!(
            "The load lifts the coupler: {} on the tongue",
            percent(share)
        ),
        false => format!("{} of house and trailer on the tongue", percent(share)),
    };
    text + "; 10 to 15 % is common practice."
}

/// Head room, and what a variant takes of it at the same overall height.
pub(in crate::report) fn head_room(
    one: &JudgedHouse<'_>,
    base: &JudgedHouse<'_>,
    style: Style,
) -> String {
    let Some(room) = one.result.fit.head_room else {
        return String::new();
    };
    let print = |meters: f64| style.measure(Length::from_m(meters));
    let mut text = match (room.greatest - room.least).abs() < 1e-6 {
        true => format!("Head room {}.", print(room.least)),
        false => format!(
            "Head room {} to {}.",
            print(room.least),
            print(room.greatest)
        ),
    };
    if let Some(lost) = lost(one, base).filter(|lost| lost.abs() > 1e-6) {
        text += &match lost > 0.0 {
            true => format!(
                " At the same overall height {} less than as drawn.",
                print(lost)
            ),
            false => format!(
                " At the same overall height {} more than as drawn.",
                print(-lost)
            ),
        };
    }
    text
}

/// Head room that a variant takes where the overall height stays, m: what it adds to everything
/// between the frame's top and the roof's that isn't head room.
pub(super) fn lost(one: &JudgedHouse<'_>, base: &JudgedHouse<'_>) -> Option<f64> {
    Some(one.result.fit.height_taken()? - base.result.fit.height_taken()?)
}
