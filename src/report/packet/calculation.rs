//! The hand calculations of the packet: how the numbers that decide came about.

use super::content::{Calculation, Group, Item};
use crate::quantity::Style;
use crate::report::explain::{Derivation, Entry, Step, entries, spot_place};
use crate::report::figure::{Cut, drawn_end, shown_paths};
use crate::study::{Judged, JudgedDetail};

/// How they are read.
pub(super) const HOW: &str = "By hand: each step uses only the numbers printed before it and can be redone on a \
    calculator: symbol = formula = values = result (the same in other units). A unit stands where it \
    isn't that of the last quantity of the same letter. Of values on the way the last digit may be off \
    by one.";

/// What the room air's dew point is asked by.
const DEW_POINT: &str = "dew point";
/// What stands between a subject's name and what is asked about it.
const BETWEEN: &str = " / ";

/// Which hand calculations a packet has.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Calculations {
    /// The room air's dew point; U and the coldest judged plane of every assembly; the place that
    /// decides of every detail.
    #[default]
    Deciding,
    /// Everything that `explain` knows, the simple estimates beside details too.
    All,
    /// None.
    None,
}

/// The hand calculations of a packet, each handed out once, to the subject it is about.
pub(super) struct Worked<'a> {
    which: Calculations,
    entries: Vec<Entry<'a>>,
    style: Style,
    /// The places of what is about no subject alone, until the first subject takes them.
    common: Vec<String>,
}

impl<'a> Worked<'a> {
    /// All that can be asked.
    pub(super) fn new(
        which: Calculations,
        judged: &'a [Judged<'a>],
        details: &'a [JudgedDetail<'a>],
        style: Style,
    ) -> Self {
        let entries = match which {
            Calculations::None => Vec::new(),
            _ => entries(judged, details),
        };
        let common = match which {
            Calculations::None => Vec::new(),
            Calculations::Deciding => vec![DEW_POINT.to_owned()],
            Calculations::All => {
                let places = entries.iter().map(|entry| entry.place.clone());
                places.filter(|place| !place.contains(BETWEEN)).collect()
            }
        };
        Self {
            which,
            entries,
            style,
            common,
        }
    }

    /// Whether all that is known is asked for.
    pub(super) fn is_all(&self) -> bool {
        self.which == Calculations::All
    }

    /// Those of an assembly.
    pub(super) fn of_assembly(&mut self, one: &Judged<'_>) -> Vec<Group<'a>> {
        let place = coldest(one);
        self.of(&one.case.name(), ["U".to_owned()].into_iter().chain(place))
    }

    /// Those of a detail.
    pub(super) fn of_detail(&mut self, one: &JudgedDetail<'_>) -> Vec<Group<'a>> {
        let spot = one.verdict.deciding().and_then(spot_place);
        self.of(&one.case.full_name(), spot.into_iter())
    }

    /// Those of a subject by what they are asked by after its name, or all of it.
    fn of(&mut self, name: &str, deciding: impl Iterator<Item = String>) -> Vec<Group<'a>> {
        let mut places = std::mem::take(&mut self.common);
        let first = format!("{name}{BETWEEN}");
        match self.which {
            Calculations::None => {}
            Calculations::All => {
                let all = self.entries.iter().map(|entry| entry.place.clone());
                places.extend(all.filter(|place| place.starts_with(&first)));
            }
            Calculations::Deciding => places.extend(deciding.map(|place| first.clone() + &place)),
        }
        let found = places.iter().filter_map(|place| {
            let is_asked = |entry: &&Entry<'_>| entry.place == *place || entry.also.contains(place);
            self.entries.iter().find(is_asked)
        });
        let derived = found.map(|entry| entry.derive(self.style));
        let shown = derived.map(|one| match self.is_all() {
            true => one,
            false => leading_to_the_last(one),
        });
        groups(shown.collect())
    }
}

/// Each derivation under its title, without the steps that one before it has.
fn groups<'a>(derivations: Vec<Derivation>) -> Vec<Group<'a>> {
    let mut told: Vec<Derivation> = Vec::new();
    let mut groups = Vec::new();
    for derivation in derivations {
        let heading = match told.is_empty() {
            true => format!("By hand: {}", derivation.title),
            false => derivation.title.clone(),
        };
        let calculation = shortened(derivation.clone(), &told);
        told.push(derivation);
        groups.push(Group::narrow(&heading, vec![Item::Steps(calculation)]));
    }
    groups
}

/// What a plane or a place is judged by stands last: that result with the steps that lead to it; of a
/// transmittance every result, since they are held against each other.
fn leading_to_the_last(mut derivation: Derivation) -> Derivation {
    let is_bracket = derivation.place.ends_with("/ U");
    let mut needed: Vec<String> = Vec::new();
    let mut kept: Vec<Step> = Vec::new();
    while let Some(step) = derivation.steps.pop() {
        let is_wanted = step.is_result && (is_bracket || kept.is_empty());
        if is_wanted || needed.contains(&step.symbol) {
            needed.extend(step.uses.iter().cloned());
            kept.push(step);
        }
    }
    kept.reverse();
    derivation.steps = kept;
    derivation
}

/// A derivation with the steps that those before it print as well taken together.
fn shortened(mut derivation: Derivation, before: &[Derivation]) -> Calculation {
    let mut known = Vec::new();
    for earlier in before {
        let has = |step: &Step| {
            let same = |one: &Step| one.words == step.words && one.result == step.result;
            !step.symbol.is_empty() && !step.is_result && earlier.steps.iter().any(same)
        };
        let (taken, kept): (Vec<Step>, Vec<Step>) = derivation.steps.into_iter().partition(has);
        derivation.steps = kept;
        if !taken.is_empty() {
            known.push(format!("From {}: {}.", earlier.title, list(&taken)));
        }
    }
    Calculation { derivation, known }
}

/// `R_si = 0.97 h·ft²·°F/Btu; R1 = 0.42`: a unit only where it isn't the one before.
fn list(steps: &[Step]) -> String {
    let mut unit = "";
    let each = steps.iter().map(|step| {
        let is_same = step.result.unit == unit;
        unit = &step.result.unit;
        match is_same {
            true => format!("{} = {}", step.symbol, step.result.number),
            false => format!("{} = {}", step.symbol, step.result),
        }
    });
    each.collect::<Vec<_>>().join("; ")
}

/// The path with the coldest judged plane, of those drawn.
pub(super) fn coldest_cut<'j>(one: &'j Judged<'_>) -> Option<Cut<'j>> {
    let paths = shown_paths(drawn_end(one.result())?);
    let cuts = paths.into_iter().map(|path| Cut::new(one, path));
    cuts.min_by(|a, b| {
        let at = |cut: &Cut<'_>| cut.temperature(cut.least()).as_celsius();
        at(a).total_cmp(&at(b))
    })
}

/// `side flange / subfloor / flange foam`: the judged plane with the least leak margin.
fn coldest(one: &Judged<'_>) -> Option<String> {
    let least = coldest_cut(one)?;
    let plane = &least.path.plane_names[least.least()];
    Some(format!("{}{BETWEEN}{plane}", least.path.path.name))
}

/// What stands between the equals signs.
pub(super) fn parts(step: &Step) -> Vec<String> {
    let values = match step.with_values == step.result.to_string() {
        true => String::new(),
        false => step.with_values.clone(),
    };
    let result = format!("{}{}", step.result, in_other_units(step));
    let mut parts = vec![step.symbol.clone(), step.formula.clone(), values, result];
    parts.retain(|part| !part.is_empty());
    parts
}

/// A step as one line; of values on the way the other units aren't told.
pub(in crate::report) fn line(step: &Step) -> String {
    let on_the_way = !step.formula.is_empty() && !step.is_result;
    let other = if on_the_way {
        String::new()
    } else {
        in_other_units(step)
    };
    format!("{}{other}", step.in_brief)
}

fn in_other_units(step: &Step) -> String {
    let other = step.other.as_ref();
    other.map_or_else(String::new, |amount| format!(" ({amount})"))
}
