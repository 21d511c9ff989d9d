//! The hand calculations of the packet: how the numbers that decide came about.

use super::content::{Chapter, Group, Item, Order};
use crate::quantity::Style;
use crate::report::explain::{Derivation, Entry, Step, entries, spot_place};
use crate::report::figure::{Cut, drawn_end, shown_paths};
use crate::study::{Judged, JudgedDetail};

/// What stands in front of them.
const HOW: &str = "Each step uses only the numbers printed before it and can be redone on a \
    calculator: symbol = formula = values = result (the same in other units). Of values on the way \
    the last digit may be off by one.";

/// Which hand calculations a packet has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Calculations {
    /// The room air's dew point; U and the coldest judged plane of every assembly; heat flow, psi and the
    /// place that decides of every detail.
    #[default]
    Deciding,
    /// Everything that `explain` knows, the simple estimates beside details too.
    All,
    /// None.
    None,
}

/// The chapter; `None` where none are asked for.
pub(super) fn chapter<'a>(
    which: Calculations,
    judged: &'a [Judged<'a>],
    details: &'a [JudgedDetail<'a>],
    style: Style,
) -> Option<Chapter<'a>> {
    let derivations = derivations(which, judged, details, style);
    if derivations.is_empty() {
        return None;
    }
    let groups = derivations.into_iter().map(|derivation| {
        let heading = derivation.title.clone();
        Group::narrow(&heading, vec![Item::Steps(derivation)])
    });
    Some(Chapter {
        name: "Hand calculations".to_owned(),
        order: Order::Down,
        title: "Hand calculations".to_owned(),
        word: None,
        face: HOW.to_owned(),
        stop: None,
        groups: groups.collect(),
    })
}

/// The derivations that the packet shows.
fn derivations(
    which: Calculations,
    judged: &[Judged<'_>],
    details: &[JudgedDetail<'_>],
    style: Style,
) -> Vec<Derivation> {
    let all = entries(judged, details);
    let places = match which {
        Calculations::None => return Vec::new(),
        Calculations::All => return all.iter().map(|entry| entry.derive(style)).collect(),
        Calculations::Deciding => deciding(judged, details),
    };
    let found = places.iter().filter_map(|place| {
        let is_asked = |entry: &&Entry<'_>| entry.place == *place || entry.also.contains(place);
        all.iter().find(is_asked)
    });
    found.map(|entry| entry.derive(style)).collect()
}

/// What the deciding ones are asked by.
fn deciding(judged: &[Judged<'_>], details: &[JudgedDetail<'_>]) -> Vec<String> {
    let mut places = vec!["dew point".to_owned()];
    for one in judged {
        let name = one.case.name();
        places.push(format!("{name} / U"));
        places.extend(coldest(one).map(|place| format!("{name} / {place}")));
    }
    for one in details {
        let name = one.case.full_name();
        places.push(format!("{name} / heat flow"));
        places.push(format!("{name} / psi"));
        let spot = one.verdict.deciding().and_then(spot_place);
        places.extend(spot.map(|place| format!("{name} / {place}")));
    }
    places
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
