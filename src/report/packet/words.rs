//! What stands on the sheets in sentences: findings, the verdict's reason, methods and limits.

use super::content::{Group, Item};
use crate::check::{self, Verdict, cautions};
use crate::model::{Assembly, Stop};
use crate::quantity::Style;
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

/// Every finding with its word, its sentence and the source of its limit.
pub(super) fn findings<'a>(verdict: &Verdict, sites: Sites<'_>, style: Style) -> Group<'a> {
    // The hand-checks stand among the calculations.
    let shown = verdict
        .findings
        .iter()
        .filter(|one| one.check != &check::detail::HAND_CHECK);
    let each = shown.map(|finding| {
        let words = joined([
            sentence(finding, sites, style),
            corners(finding),
            decides(finding, style),
            format!("[{}]", finding.source),
        ]);
        Item::Verdict(finding.title().to_owned(), finding.status.word(), words)
    });
    Group::narrow("Findings", each.collect())
}

/// How the numbers of plane assemblies came about.
pub(super) const METHODS: [&str; 5] = [
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
pub(super) const DETAIL_METHODS: [&str; 3] = [
    "Temperatures: steady conduction in two dimensions by cell-centered finite volumes on a graded \
     grid, refined until the result settles; what is left is the error bar (ISO 10211 test cases \
     1 and 2 are met). The outer corner of a floor or roof edge likewise in three dimensions, \
     both edges alike (case 4 is met).",
    "Films by ISO 6946 by direction of heat flow; 0.25 m²K/W inside where mold is judged.",
    "Leaking room air spreads along the edges between parts that aren't bonded, from the room \
     inward, and stops at bonded parts and at declared seals.",
];

/// How the numbers of a detail in three dimensions came about.
pub(super) const BOXES_METHODS: [&str; 2] = [
    "Temperatures: steady conduction in three dimensions by cell-centered finite volumes on three graded \
     grids, each twice as fine; what is left is the error bar (ISO 10211 test case 4 is met). The boxes \
     aren't drawn.",
    "Films by ISO 6946 by direction of heat flow; 0.25 m²K/W inside where condensation and mold are judged. \
     Wood counts as reached by leaking air wherever it doesn't meet outdoor air.",
];

/// What no method here takes in.
pub(super) const LEFT_OUT: &str = "Not modeled: storage of water in the materials, capillary flow, \
    driven rain, air moving through the layers, corners but those of floor and roof edges, the hitch end, \
    bolts (except in the house's heat loss) and wind in the pan.";

/// Methods, then what they leave out.
pub(super) fn methods<'a>(methods: &[&str]) -> Group<'a> {
    let each = methods.iter().map(|words| Item::Text((*words).to_owned()));
    let mut items: Vec<Item<'a>> = each.collect();
    items.push(Item::Text(LEFT_OUT.to_owned()));
    Group::narrow("Methods and limits", items)
}

/// The cautions that go with these assemblies at these stops.
pub(super) fn caution_group<'a>(
    assemblies: impl IntoIterator<Item = &'a Assembly>,
    stops: &'a [Stop],
) -> Group<'a> {
    let each = cautions(assemblies, stops).into_iter();
    let items = each.map(|words| Item::Text(words.to_owned()));
    Group::narrow("Cautions", items.collect())
}

/// Parts that say something, joined by blanks.
pub(super) fn joined<const N: usize>(parts: [String; N]) -> String {
    let said = parts.into_iter().filter(|part| !part.is_empty());
    said.collect::<Vec<_>>().join(" ")
}
