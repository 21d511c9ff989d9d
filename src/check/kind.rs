//! A check as one value: what it is called, how it runs, what it says.

use std::fmt;

use super::finding::Finding;
use super::group::Group;
use super::memo::Depth;
use super::{
    Detail, On, Status, air_gap, air_leak, barrier, corner, detail, diffusion, drying, frame,
    insulation_table, inward_leak, mold, outboard, retarder, room_air, room_surface, sheathing,
    steel_wood, unseen, unvented_roof, year,
};
use crate::model::drawn::DetailCase;
use crate::model::{Case, Conditions, Stop};
use crate::quantity::{Dimension, Style};
use crate::solve::detail::{DetailResult, HandCheck};
use crate::solve::{AssemblyResult, EndResult, PathResult};

/// One check. Its value stands in the file that carries it out, and in [`ALL`].
///
/// # Example
/// ```
/// use dewmargin::check::{ALL, drying};
///
/// assert_eq!(drying::CHECK.id, "drying");
/// assert!(ALL.contains(&&drying::CHECK));
/// ```
#[non_exhaustive]
pub struct Check {
    /// The stable id used in JSON and in tables.
    pub id: &'static str,
    /// What it is called in reports.
    pub title: &'static str,
    /// What it is called at a corner, in three dimensions, where it is judged there.
    pub(super) title_at_corner: Option<&'static str>,
    /// What it is called in a detail that is drawn in three dimensions.
    pub(super) title_in_boxes: Option<&'static str>,
    /// What its temperatures are held against.
    pub against: &'static str,
    /// Whether its findings go by the place: every surface and every part of a detail is judged.
    pub(super) by_place: bool,
    /// Whether it says the same wherever the house stands.
    pub anywhere: bool,
    /// Whether it is about mold on a surface: its margins in summer are small whatever is built.
    pub is_of_mold: bool,
    /// How it comes to its findings.
    pub(super) run: Run,
    /// How it is run again over the materials' ranges; `None` where it doesn't hang on them.
    pub(super) ranged: Option<Ranged>,
    /// Its column in a sweep's table; `None` where a sweep doesn't show it.
    pub column: Option<Column>,
    /// What was found: what, where, when, how far from the limit.
    pub(super) say: fn(&Finding, &Conditions, Style) -> String,
    /// The same in a few words, where no temperature says it.
    pub(super) brief: Brief,
}

/// How a check comes to its findings.
pub(super) enum Run {
    /// Over paths that are judged together.
    Group(fn(&Scene<'_>, &Group<'_>) -> Vec<Finding>),
    /// Over one end of vented gaps.
    End(fn(&Scene<'_>, &EndResult) -> Vec<Finding>),
    /// Over the assembly as a whole, whatever the air in its gaps does.
    Whole(fn(&Scene<'_>) -> Vec<Finding>),
    /// Over the same by a table of the code, which holds nothing against who names no code.
    Table(fn(&Scene<'_>) -> Vec<Finding>),
    /// Over a detail.
    Detail(fn(&DetailScene<'_>) -> Vec<Finding>),
    /// Along with another check, which finds it.
    Along,
}

/// What a check of an assembly looks at.
#[derive(Clone, Copy)]
pub(super) struct Scene<'a> {
    pub(super) case: &'a Case,
    pub(super) stop: &'a Stop,
    /// The air, which isn't the site's own where an input moves.
    pub(super) conditions: &'a Conditions,
    pub(super) result: &'a AssemblyResult,
}

/// What a check of a detail looks at.
#[derive(Clone, Copy)]
pub(super) struct DetailScene<'a> {
    pub(super) case: &'a DetailCase,
    pub(super) conditions: &'a Conditions,
    pub(super) result: &'a DetailResult,
    pub(super) estimates: &'a [HandCheck],
}

/// How a check is run again over the materials' ranges.
pub(super) struct Ranged {
    /// How much is solved for it.
    pub(super) needs: Depth,
    /// How badly each place of a path does, in whatever unit: only which of two is worse counts.
    pub(super) by_place: fn(&PathResult) -> Vec<f64>,
    /// Status and slack by the worst place, where that says it.
    pub(super) word: Option<fn(f64) -> (Status, f64)>,
    /// Whether inputs are ranked by what they do to the place that the finding names.
    pub(super) ranked_by_named_place: bool,
    /// Whether inputs are ranked also where the word is the same at both corners.
    pub(super) always_ranked: bool,
    /// Whether what fails at the nominal values fails whatever the kind corner says.
    pub(super) stands: bool,
    /// What a finding hangs on that isn't the same at both corners.
    pub(super) on: On,
}

impl Ranged {
    /// By temperatures of the winter mean.
    pub(super) const WINTER: Self = Self {
        needs: Depth::Winter,
        by_place: corner::cold_in_winter,
        word: None,
        ranked_by_named_place: false,
        always_ranked: true,
        stands: false,
        on: On::Material,
    };
    /// By temperatures of the months.
    pub(super) const MONTHS: Self = Self {
        needs: Depth::Heat,
        by_place: corner::cold_by_month,
        ..Self::WINTER
    };
    /// By water through the year.
    pub(super) const YEAR: Self = Self {
        needs: Depth::Year,
        by_place: corner::wet_in_the_year,
        ..Self::WINTER
    };
}

/// A column of a sweep's table.
pub struct Column {
    /// What is measured beside the status.
    pub dimension: Option<Dimension>,
    /// Whether a limit stands beside it that isn't the same in every row.
    pub has_limit: bool,
    /// The measure and the limit in SI.
    pub(super) measure: fn(&Finding) -> [Option<f64>; 2],
}

impl Column {
    /// The status alone.
    pub(super) const STATUS: Self = Self {
        dimension: None,
        has_limit: false,
        measure: |_| [None, None],
    };
    /// The status and the margin.
    pub(super) const MARGIN: Self = Self {
        dimension: Some(Dimension::Difference),
        measure: |finding| [finding.margin.map(|margin| margin.as_kelvin()), None],
        ..Self::STATUS
    };
}

/// What stands for a finding where no temperature says it.
pub(super) enum Brief {
    /// The title.
    Title,
    /// The title and the first two sentences.
    Sentences,
    /// A phrase about a place.
    Phrase(fn(&Finding, &str, Style) -> Option<String>),
}

impl Check {
    /// What most checks have in common; the rest has to be said.
    pub(super) const PLAIN: Self = Self {
        id: "",
        title: "",
        title_at_corner: None,
        title_in_boxes: None,
        against: "dew point",
        by_place: false,
        anywhere: false,
        is_of_mold: false,
        run: Run::Whole(|_| Vec::new()),
        ranged: None,
        column: None,
        say: silence,
        brief: Brief::Title,
    };

    /// Where it stands in the order people ask.
    #[must_use]
    pub fn order(&self) -> usize {
        let place = ALL.iter().position(|check| *check == self);
        place.unwrap_or(ALL.len())
    }
}

fn silence(_: &Finding, _: &Conditions, _: Style) -> String {
    String::new()
}

impl PartialEq for Check {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for Check {}

impl fmt::Debug for Check {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id)
    }
}

/// The checks in the order people ask (design.md §1): the cold edge, leaks, diffusion, drying; then
/// tables, then what is only told. An air seal at wood that stays on the steel never leads.
pub static ALL: [&Check; 27] = [
    &steel_wood::CHECK,
    &detail::WOOD,
    &detail::CONDENSATION,
    &room_surface::CONDENSATION,
    &detail::MOLD,
    &room_surface::MOLD,
    &air_leak::CHECK,
    &detail::LEAK,
    &inward_leak::CHECK,
    &year::CHECK,
    &diffusion::CHECK,
    &drying::CHECK,
    &mold::CHECK,
    &barrier::DOUBLE,
    &barrier::PAN,
    &retarder::CHECK,
    &insulation_table::CHECK,
    &unvented_roof::CHECK,
    &outboard::CHECK,
    &sheathing::CHECK,
    &air_gap::CHECK,
    &drying::ELSEWHERE,
    &room_air::CHECK,
    &frame::CHECK,
    &detail::AIR_SEAL,
    &unseen::CHECK,
    &detail::HAND_CHECK,
];

impl Finding {
    /// What its check is called in reports; at a corner, in three dimensions, that as well.
    #[must_use]
    pub fn title(&self) -> &'static str {
        let of_place = match &self.detail {
            Detail::Spot(spot) if spot.is_at_corner() => self.check.title_at_corner,
            Detail::Spot(spot) if spot.is_in_boxes() => self.check.title_in_boxes,
            _ => None,
        };
        of_place.unwrap_or(self.check.title)
    }

    /// What was found in one or two plain sentences, with what would help; what doesn't apply has only
    /// its reason.
    #[must_use]
    pub fn sentence(&self, conditions: &Conditions, style: Style) -> String {
        let body = (self.check.say)(self, conditions, style);
        match &self.help {
            Some(help) if body.is_empty() => help.clone(),
            Some(help) => format!("{body} What would help: {help}."),
            None => body,
        }
    }

    /// The same in a few words about a place; what no temperature says.
    #[must_use]
    pub fn briefly(&self, place: &str, conditions: &Conditions, style: Style) -> String {
        let title = self.title();
        match self.check.brief {
            Brief::Title => title.to_owned(),
            Brief::Phrase(phrase) => phrase(self, place, style).unwrap_or_else(|| title.to_owned()),
            Brief::Sentences => {
                let said = (self.check.say)(self, conditions, style);
                let first: String = said.split_inclusive(". ").take(2).collect();
                let first = first.trim_end().trim_end_matches('.');
                match self.on {
                    _ if first.is_empty() => title.to_owned(),
                    // The title would say again what it hangs on.
                    Some(On::NotLookedAt) => within_a_sentence(first),
                    _ => format!("{title}: {first}"),
                }
            }
        }
    }
}

/// A sentence as the part of another.
fn within_a_sentence(told: &str) -> String {
    let mut letters = told.chars();
    let first = letters.next().into_iter().flat_map(char::to_lowercase);
    first.chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    /// What a check must have, so that none can be forgotten: a name that no other has, a way to its
    /// findings that somebody runs, something to say.
    #[test]
    fn every_check_is_whole() {
        let ids: HashSet<&str> = ALL.iter().map(|check| check.id).collect();
        let titles: HashSet<&str> = ALL.iter().map(|check| check.title).collect();
        assert_eq!((ids.len(), titles.len()), (ALL.len(), ALL.len()));
        for (n, check) in ALL.iter().enumerate() {
            let is_id = |letter: char| letter.is_ascii_lowercase() || letter == '-';
            assert!(
                !check.id.is_empty() && check.id.chars().all(is_id),
                "{check:?}"
            );
            assert!(!check.title.is_empty(), "{check:?}");
            let is_silent = std::ptr::fn_addr_eq(check.say, silence as fn(&_, &_, _) -> _);
            assert!(!is_silent, "{check:?} says nothing");
            assert_eq!(check.order(), n, "{check:?}");
            if check.ranged.is_some() {
                assert!(matches!(check.run, Run::Group(_)), "{check:?}");
            }
        }
    }
}
