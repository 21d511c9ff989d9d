//! Which option is best: the whole project under each variant, never parts of it.

use std::cmp::Ordering;

use super::{Part, Study, Subject};
use crate::check::{self, Check, Finding, Status};

/// What one option of a project comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The variant; `None` as drawn.
    pub variant: Option<String>,
    /// Checks that fail; one counts once a part.
    pub fails: usize,
    /// Checks that depend, counted likewise. An air seal at wood that stays on the steel in every
    /// layout isn't counted.
    pub depends: usize,
    /// The least margin of the wood at the steel, K, winter mean, of all sites.
    pub wood_margin: Option<f64>,
    /// The least of the other margins, K, mold left out, of all sites.
    pub other_margin: Option<f64>,
}

impl Choice {
    /// The rule that [`best_of`] goes by.
    pub const RULE: &'static str = "fewest fails, then fewest depends, then the margin of the wood \
        at the steel, then the least other margin";

    fn of(variant: Option<&str>, parts: &[Part<'_>]) -> Self {
        let count = |severity: u8| parts.iter().map(|part| checks_of(part, severity)).sum();
        let findings = || parts.iter().flat_map(|part| &part.verdict.findings);
        let least = |counts: fn(&&Finding) -> bool| {
            let judged = findings().filter(|finding| finding.status != Status::Note);
            let margins = judged.filter(counts).filter_map(|finding| finding.margin);
            margins
                .map(|margin| margin.as_kelvin())
                .min_by(f64::total_cmp)
        };
        Self {
            variant: variant.map(str::to_owned),
            fails: count(2),
            depends: count(1),
            wood_margin: least(|finding| is_wood(finding.check)),
            other_margin: least(|finding| {
                let check = finding.check;
                !is_wood(check) && !check.is_of_mold && check != &check::detail::AIR_SEAL
            }),
        }
    }

    /// Better before worse. A margin that there is none of can't be small.
    fn rank(&self, other: &Self) -> Ordering {
        let margin = |margin: Option<f64>| margin.unwrap_or(f64::INFINITY);
        (self.fails, self.depends)
            .cmp(&(other.fails, other.depends))
            .then(margin(other.wood_margin).total_cmp(&margin(self.wood_margin)))
            .then(margin(other.other_margin).total_cmp(&margin(self.other_margin)))
    }
}

fn is_wood(check: &Check) -> bool {
    check == &check::steel_wood::CHECK || check == &check::detail::WOOD
}

/// How many checks of a part came out with a severity.
fn checks_of(part: &Part<'_>, severity: u8) -> usize {
    if let Subject::House(house) = part.subject {
        let findings = house.verdict.findings.iter();
        return findings
            .filter(|finding| finding.status.severity() == severity)
            .count();
    }
    let mut checks: Vec<&Check> = Vec::new();
    for finding in &part.verdict.findings {
        let counts =
            finding.status.severity() == severity && finding.check != &check::detail::AIR_SEAL;
        if counts && !checks.contains(&finding.check) {
            checks.push(finding.check);
        }
    }
    checks.len()
}

/// Index of the best choice; the first of equals. `None` for an empty list.
#[must_use]
pub fn best_of(choices: &[Choice]) -> Option<usize> {
    (0..choices.len()).min_by(|a, b| choices[*a].rank(&choices[*b]))
}

impl Study<'_> {
    /// What every option comes to, as drawn first.
    #[must_use]
    pub fn choices(&self) -> Vec<Choice> {
        let options = self.options().into_iter();
        options
            .map(|variant| Choice::of(variant, &self.parts(variant)))
            .collect()
    }
}
