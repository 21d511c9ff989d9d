//! A remedy in words, short enough for a line or two of a screen.

use crate::check::retarder::{RetarderClass, class_of};
use crate::check::{Shave, UnseenDetail};
use crate::model::drawn::FoamReach;
use crate::model::{Substance, VaporRate};
use crate::quantity::{Mass, Permeance, Style, fixed};
use crate::study::remedy::{DRIEST, Measure, Outside, OverStrip, Remedy, Told};

/// `1-1/2 in of XPS over the flange, under the wood, bonded`; what does it alone joined by `or`.
#[must_use]
pub fn words(remedy: &Remedy, style: Style) -> String {
    if let [Measure::OverStrip(first), Measure::OverStrip(other)] = &remedy.measures[..] {
        return either_board(first, other, style);
    }
    let all = remedy.measures.iter();
    let all: Vec<String> = all.map(|measure| measure_words(measure, style)).collect();
    match (&all[..], remedy.clears) {
        ([first, rest @ ..], false) if !rest.is_empty() => {
            format!("{first} helps; {} clears it", rest.join(", or "))
        }
        ([only], false) => format!("{only} helps, not enough"),
        _ => all.join(", or "),
    }
}

/// One measure in words.
#[must_use]
pub fn measure_words(measure: &Measure, style: Style) -> String {
    match measure {
        Measure::OverStrip(over) => over_strip(over, style),
        Measure::Outside(outside) => outside_words(outside, style),
        Measure::Seal { layer, outer, .. } => match outer {
            false => format!("an air seal at the {layer}"),
            true => format!("an air seal on the outer side, at the {layer}"),
        },
        Measure::Retarder {
            layer,
            replaces,
            substance,
            ..
        } => {
            let what = retarder(substance);
            match replaces {
                true => format!("{what} in place of the {layer}"),
                false => format!("{what} on the room side of the {layer}"),
            }
        }
        Measure::Open {
            layer, permeance, ..
        } => format!("a {layer} of {} or more", style.show(*permeance)),
        Measure::Without { layer, .. } => format!("no {layer}: paint is enough"),
        Measure::Cavity {
            layer,
            resistance,
            depth,
            ..
        } => format!(
            "{} in the {} of {layer}",
            style.show(*resistance),
            style.measure(*depth)
        ),
        Measure::Drain { layer, .. } => format!("a drain in the {layer}"),
        Measure::DrierRoom {
            humidity,
            winter_alone,
            for_cold_spell,
        } => {
            let percent = fixed(humidity.as_fraction() * 100.0, 0);
            let cold_spell = in_a_cold_spell(*winter_alone);
            let is_livable = humidity.as_fraction() >= DRIEST;
            match (is_livable, for_cold_spell) {
                (true, false) => format!("room air at {percent} % or less{cold_spell}"),
                (true, true) => format!("room air at {percent} % or less in a cold spell"),
                (false, false) => format!(
                    "another build-up: as drawn only room air at {percent} % or less keeps it \
                     clear{cold_spell}"
                ),
                (false, true) => format!(
                    "another build-up: as drawn only room air at {percent} % or less keeps it clear \
                     in a cold spell"
                ),
            }
        }
        Measure::Shave(shave) => shaved(shave, style),
        Measure::Told(told) => told_words(told, style),
    }
}

/// A board as far as the foam reaches now, or a thinner one under the plate too.
fn either_board(first: &OverStrip, other: &OverStrip, style: Style) -> String {
    let alone = OverStrip {
        winter_alone: false,
        ..first.clone()
    };
    format!(
        "{}, or {} under the plate too (ask an engineer){}",
        over_strip(&alone, style),
        style.measure(other.thickness),
        in_a_cold_spell(first.winter_alone || other.winter_alone)
    )
}

fn in_a_cold_spell(winter_alone: bool) -> &'static str {
    match winter_alone {
        true => "; still under the dew point in a cold spell",
        false => "",
    }
}

fn over_strip(over: &OverStrip, style: Style) -> String {
    let OverStrip {
        strip,
        name,
        thickness,
        ..
    } = over;
    let thickness = style.measure(*thickness);
    let board = match &over.replaces {
        Some(layer) if over.only_bonded => {
            format!("the {layer} over the {strip} set in adhesive, no air around it")
        }
        Some(_) => format!("{thickness} of {name} in all over the {strip}, bonded"),
        None => format!("{thickness} of {name} over the {strip}, under the wood, bonded"),
    };
    let reach = match over.reach {
        Some(FoamReach::UnderPlate) => ", also under the plate: ask an engineer",
        _ => "",
    };
    let rest = match (over.winter_alone, over.drawn) {
        (true, _) => in_a_cold_spell(true),
        (_, false) => "; draw the edge as a detail to size it",
        _ => "",
    };
    format!("{board}{reach}{rest}")
}

fn outside_words(outside: &Outside, style: Style) -> String {
    let thickness = style.measure(outside.thickness);
    let Outside { name, layer, .. } = outside;
    let board = match outside.thickens {
        true => format!("{thickness} more {name} at the {layer}"),
        false => format!("{thickness} of {name} outside of the {layer}"),
    };
    match outside.asked {
        Some(asked) => format!("{board} (the table asks for {})", style.show(asked)),
        None => board,
    }
}

fn retarder(substance: &Substance) -> &'static str {
    let nominal = match substance.vapor {
        VaporRate::PerSheet(permeance) => permeance.as_si(),
        VaporRate::PerThickness(_) => return "a vapor retarder",
    };
    let factor = |point: Option<&(_, f64)>| point.map_or(1.0, |(_, factor)| *factor);
    let at = |factor: f64| class_of(Permeance::from_si(nominal * factor));
    let dry = at(factor(substance.by_humidity.first()));
    let damp = at(factor(substance.by_humidity.last()));
    match (dry, damp) {
        (RetarderClass::One, RetarderClass::One) => "a class I vapor retarder",
        (_, RetarderClass::Open) => "a film that opens when humid",
        (RetarderClass::Two, _) => "a class II vapor retarder",
        _ => "a vapor retarder",
    }
}

fn shaved(shave: &Shave, style: Style) -> String {
    let by = style.measure(shave.by);
    let each = if shave.each_side { " on each side" } else { "" };
    let of = match &shave.assembly {
        Some(assembly) => format!(" of the {assembly}"),
        None => String::new(),
    };
    let what = match &shave.assembly {
        Some(_) => format!("the {}", shave.what),
        None => shave.what.clone(),
    };
    format!("{by} less of {what}{of}{each}")
}

fn told_words(told: &Told, style: Style) -> String {
    match told {
        Told::Edition => "state the edition and the zone under `code:`".into(),
        Told::Draw(strip) => format!("draw the edge at the {strip} as a detail: it decides"),
        Told::NotLookedAt(UnseenDetail::BeyondGap { gap, .. }) => {
            format!("inlets and outlets of the {gap} by the code's rule for vented roofs")
        }
        Told::NotLookedAt(UnseenDetail::Joints { layer }) => {
            format!("say `bonded: true` of the {layer} where its joints are sealed")
        }
        Told::WoodSeal(parts) => {
            format!("an air seal on the room side of {}", parts.join(", "))
        }
        Told::State(missing) => format!("state {}", missing.join(", ")),
        Told::Lighter(over) => format!("{} less", style.show(Mass::from_kg(*over))),
    }
}
