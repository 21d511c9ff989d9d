//! Findings as sentences a builder understands.

use crate::check::Finding;
use crate::model::{Conditions, Stop};
use crate::quantity::Style;

/// What stands before the numbers of an assembly whose temperatures found no balance.
pub(super) const UNSETTLED: &str = "Not settled: a conductivity that follows the temperature found \
    no value. Don't build on these numbers.";

/// The sites that findings are of. A sentence names its own where there are several.
#[derive(Clone, Copy)]
pub(super) struct Sites<'a>(pub(super) &'a [Stop]);

impl<'a> Sites<'a> {
    /// The air a finding was judged in.
    pub(super) fn conditions(self, finding: &Finding) -> &'a Conditions {
        &self.0[finding.site].conditions
    }

    /// Where a finding is of, where there are several sites.
    pub(super) fn name(self, finding: &Finding) -> Option<&'a str> {
        (self.0.len() > 1).then(|| self.0[finding.site].name.as_str())
    }
}

/// The finding in one or two plain sentences: what, where, when, how far from the limit; of several
/// sites it begins with the name of its own.
pub(super) fn sentence(finding: &Finding, sites: Sites<'_>, style: Style) -> String {
    let said = finding.sentence(sites.conditions(finding), style);
    let by_air = !finding.check.anywhere;
    match sites.name(finding) {
        Some(site) if by_air && !said.is_empty() => format!("{site}: {said}"),
        _ => said,
    }
}
