//! What stands on the sheets in sentences: findings, the verdict's reason, methods and limits.

use super::Contents;
use super::content::{Group, Item, Table};
use crate::check::{self, Finding, Status, Verdict};
use crate::quantity::{Dimension, Style};
use crate::report::figure::LEFT_OUT_OF_CUT;
use crate::report::range::{corners, decides, flips, widened};
use crate::report::sentence::{Sites, sentence};

/// Why a verdict is what it is, in one paragraph.
pub(super) fn reason(verdict: &Verdict, sites: Sites<'_>, style: Style) -> String {
    let Some(finding) = verdict.speaking() else {
        return String::new();
    };
    joined([
        sentence(finding, sites, style),
        widened(finding),
        flips(finding, style),
    ])
}

/// What speaks for a verdict, in one sentence.
pub(super) fn speaking(verdict: &Verdict, sites: Sites<'_>, style: Style) -> String {
    let speaks = verdict.speaking();
    speaks.map_or_else(String::new, |finding| {
        first_sentence(&sentence(finding, sites, style)).to_owned()
    })
}

/// Up to the first full stop that a capital follows.
fn first_sentence(words: &str) -> &str {
    let stops = words.match_indices(". ").map(|(at, _)| at);
    let ends = |at: &usize| words[at + 2..].starts_with(char::is_uppercase);
    stops
        .into_iter()
        .find(ends)
        .map_or(words, |at| &words[..=at])
}

/// The sources of the limits, numbered in the order in which the sheets cite them.
#[derive(Default)]
pub(super) struct Sources(Vec<&'static str>);

impl Sources {
    /// `[3]`: how a source is cited.
    pub(super) fn cite(&mut self, source: &'static str) -> String {
        let known = self.0.iter().position(|one| *one == source);
        let n = known.unwrap_or_else(|| {
            self.0.push(source);
            self.0.len() - 1
        });
        format!("[{}]", n + 1)
    }

    /// All that were cited.
    pub(super) fn group<'a>(&self) -> Option<Group<'a>> {
        let mut table = Table::new(&["", "limit, and where it comes from"], 2);
        for (n, source) in self.0.iter().enumerate() {
            table.row(vec![format!("[{}]", n + 1), (*source).to_owned()]);
        }
        let is_cited = !table.rows.is_empty();
        is_cited.then(|| Group::narrow("Limits", vec![Item::Table(table)]))
    }
}

/// The findings: in sentences what isn't clear of its limit, in rows what is and what is only noted.
/// `elsewhere` are those whose numbers another table of the sheet has.
pub(super) fn findings<'a>(
    verdict: &Verdict,
    sites: Sites<'_>,
    style: Style,
    sources: &mut Sources,
    elsewhere: impl Fn(&Finding) -> bool,
) -> Vec<Group<'a>> {
    // The hand-checks stand among the calculations.
    let shown = verdict
        .findings
        .iter()
        .filter(|one| one.check != &check::detail::HAND_CHECK);
    let (open, clear): (Vec<&Finding>, Vec<&Finding>) =
        shown.partition(|one| one.status.severity() > 0);
    let mut groups = Vec::new();
    if !open.is_empty() {
        let each = open.into_iter().map(|finding| {
            let words = joined([
                sentence(finding, sites, style),
                corners(finding),
                decides(finding, style),
                sources.cite(finding.source),
            ]);
            Item::Verdict(finding.title().to_owned(), finding.status.word(), words)
        });
        groups.push(Group::narrow("Findings", each.collect()));
    }
    let mut table = Table::new(&["check", "", "what was found", "limit"], 3);
    for finding in clear.into_iter().filter(|one| !elsewhere(one)) {
        table.row(vec![
            finding.title().to_owned(),
            finding.status.word().to_owned(),
            in_brief(finding, sites, style),
            sources.cite(finding.source),
        ]);
    }
    if !table.rows.is_empty() {
        groups.push(Group::tables(
            "What passes, and notes",
            vec![Item::Table(table)],
        ));
    }
    groups
}

/// `subfloor / bay: 62.9 °F (17.2 °C), +23.6 °F over 39.4 °F (4.1 °C)`, where a temperature is held
/// against another; else the sentence.
fn in_brief(finding: &Finding, sites: Sites<'_>, style: Style) -> String {
    let temperatures = (&finding.place, finding.value, finding.limit, finding.margin);
    let (Some(place), Some(value), Some(limit), Some(margin)) = temperatures else {
        let said = sentence(finding, sites, style);
        return match finding.status {
            Status::Pass => first_sentence(&said).to_owned(),
            _ => said,
        };
    };
    let site = sites
        .name(finding)
        .map_or_else(String::new, |name| format!("{name}: "));
    let plane = match place.plane.is_empty() {
        true => place.path.clone(),
        false => format!("{} ({})", place.plane, place.path),
    };
    let from = style.margin_number(margin);
    let unit = Dimension::Difference.unit(style);
    let night = finding.night_margin.map_or_else(String::new, |margin| {
        format!(
            ", on the design night {} {unit}",
            style.margin_number(margin)
        )
    });
    let (value, limit) = (style.both(value), style.both(limit));
    format!("{site}{plane} {value}, {from} {unit} from {limit}{night}")
}

/// How the numbers of plane assemblies came about.
const METHODS: [&str; 5] = [
    "Temperatures: steady heat flow through each path, air to air, surface films by ISO 6946. \
     Saturation pressure and dew point by ISO 13788, over ice below 0 °C.",
    "Leaks: room air that leaks keeps its own dew point; every plane it reaches is held against \
     that on the winter mean, the mean of the three coldest months. The coldest month or the design \
     night alone give `depends`.",
    "Diffusion: vapor pressures in proportion to vapor resistance, held at saturation where water \
     collects; twelve monthly means, repeated until the years are alike.",
    "Drying: 1 kg/m² put at each vulnerable plane on 1 April must be gone within 365 days.",
    "U: parallel path and isothermal planes bracket the true value; the combined method of \
     ISO 6946 where it applies.",
];

/// How the numbers of a detail came about.
const DETAIL_METHODS: [&str; 3] = [
    "Temperatures: steady conduction in two dimensions by cell-centered finite volumes on a graded \
     grid, refined until the result settles; what is left is the error bar (ISO 10211 test cases \
     1 and 2 are met). The outer corner of a floor or roof edge likewise in three dimensions, \
     both edges alike (case 4 is met).",
    "Films by ISO 6946 by direction of heat flow; 0.25 m²K/W inside where mold is judged.",
    "Leaking room air spreads along the edges between parts that aren't bonded, from the room \
     inward, and stops at bonded parts and at declared seals.",
];

/// How the numbers of a detail in three dimensions came about.
const BOXES_METHODS: [&str; 2] = [
    "Temperatures: steady conduction in three dimensions by cell-centered finite volumes on three graded \
     grids, each twice as fine; what is left is the error bar (ISO 10211 test case 4 is met). The boxes \
     aren't drawn.",
    "Films by ISO 6946 by direction of heat flow; 0.25 m²K/W inside where condensation and mold are judged. \
     Wood counts as reached by leaking air wherever it doesn't meet outdoor air.",
];

/// What no method here takes in.
const LEFT_OUT: &str = "Not modeled: storage of water in the materials, capillary flow, \
    driven rain, air moving through the layers, corners but those of floor and roof edges, the hitch end, \
    bolts (except in the house's heat loss) and wind in the pan.";

/// The methods of all that a packet shows, then what they leave out.
pub(super) fn methods<'a>(contents: &Contents<'_>) -> Group<'a> {
    let used: [(bool, &[&str]); 3] = [
        (!contents.judged.is_empty(), &METHODS),
        (!contents.details.is_empty(), &DETAIL_METHODS),
        (!contents.volumes.is_empty(), &BOXES_METHODS),
    ];
    let used = used.iter().filter(|(is_used, _)| *is_used);
    let mut told: Vec<&str> = Vec::new();
    for words in used.flat_map(|(_, methods)| *methods).chain([&LEFT_OUT]) {
        if !told.contains(words) {
            told.push(words);
        }
    }
    if !contents.details.is_empty() {
        told.push(LEFT_OUT_OF_CUT);
    }
    let items = told.into_iter().map(|words| Item::Text(words.to_owned()));
    Group::narrow("Methods and limits", items.collect())
}

/// Parts that say something, joined by blanks.
pub(super) fn joined<const N: usize>(parts: [String; N]) -> String {
    let said = parts.into_iter().filter(|part| !part.is_empty());
    said.collect::<Vec<_>>().join(" ")
}
