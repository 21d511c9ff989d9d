//! The hand calculations of the packet: how the numbers that decide came about.

use super::content::{Chapter, Group, Item, Order};
use crate::quantity::Style;
use crate::report::explain::{Derivation, Entry, Step, entries};
use crate::report::figure::{Cut, drawn_end, shown_paths};
use crate::study::{Judged, JudgedDetail};

/// What stands in front of them.
const HOW: &str = "Each step uses only the numbers printed before it and can be redone on a \
    calculator: symbol = formula = values = result (the same in other units). Of values on the way \
    the last digit may be off by one.";

/// The chapter: U and the coldest judged plane of every assembly, psi of every detail.
pub(super) fn chapter<'a>(
    judged: &'a [Judged<'a>],
    details: &'a [JudgedDetail<'a>],
    style: Style,
) -> Chapter<'a> {
    let derivations = derivations(judged, details, style).into_iter();
    let groups = derivations.map(|derivation| {
        let heading = derivation.title.clone();
        Group::narrow(&heading, vec![Item::Steps(derivation)])
    });
    Chapter {
        name: "Hand calculations".to_owned(),
        order: Order::Down,
        title: "Hand calculations".to_owned(),
        word: None,
        face: HOW.to_owned(),
        stop: None,
        groups: groups.collect(),
    }
}

/// The derivations that the packet shows.
pub(super) fn derivations(
    judged: &[Judged<'_>],
    details: &[JudgedDetail<'_>],
    style: Style,
) -> Vec<Derivation> {
    let all = entries(judged, details);
    let mut places: Vec<String> = Vec::new();
    for one in judged {
        let name = one.case.name();
        places.push(format!("{name} / U"));
        places.extend(coldest(one).map(|place| format!("{name} / {place}")));
    }
    for one in details {
        let name = one.case.full_name();
        places.push(format!("{name} / heat flow"));
        places.push(format!("{name} / psi"));
        let estimates = all.iter().map(|entry| &entry.place);
        let hand_check = format!("{name} / hand-check");
        places.extend(
            estimates
                .filter(|place| place.starts_with(&hand_check))
                .cloned(),
        );
    }
    let found = places.iter().filter_map(|place| {
        let is_asked = |entry: &&Entry<'_>| entry.place == *place || entry.also.contains(place);
        all.iter().find(is_asked)
    });
    found.map(|entry| entry.derive(style)).collect()
}

/// `side flange / subfloor / flange foam`: the judged plane with the least leak margin.
fn coldest(one: &Judged<'_>) -> Option<String> {
    let paths = shown_paths(drawn_end(one.result())?);
    let cuts = paths.into_iter().map(|path| Cut::new(one, path));
    let least = cuts.min_by(|a, b| {
        let at = |cut: &Cut<'_>| cut.temperature(cut.least()).as_celsius();
        at(a).total_cmp(&at(b))
    })?;
    let plane = &least.path.plane_names[least.least()];
    Some(format!("{} / {plane}", least.path.path.name))
}

/// A step as one line: `R1 = t1 / λ1 = 0.5 in / … = 0.42 … (0.075 …)`.
pub(in crate::report) fn line(step: &Step) -> String {
    parts(step).join(" = ")
}

/// What stands between the equals signs.
pub(super) fn parts(step: &Step) -> Vec<String> {
    let other = step.other.as_ref();
    let other = other.map_or_else(String::new, |amount| format!(" ({amount})"));
    let values = match step.with_values == step.result.to_string() {
        true => String::new(),
        false => step.with_values.clone(),
    };
    let result = format!("{}{other}", step.result);
    let mut parts = vec![step.symbol.clone(), step.formula.clone(), values, result];
    parts.retain(|part| !part.is_empty());
    parts
}
