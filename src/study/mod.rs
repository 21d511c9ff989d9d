//! What was asked of a project, solved once: every assembly, detail and house at every site, under
//! every variant, and which number speaks for it.
//!
//! ```text
//! details at every site ─► temperature factors at their strips ─► assemblies at every site
//!        │                                                              │
//!        └──► judged, beside the strips' hand-checks ◄──────────────────┘
//!                      └──► psi of the house's edges
//! ```
//!
//! - *The better method.* A strip that a detail shows has the detail's temperatures; what the strip
//!   alone gives stands beside it as a hand-check.
//! - *The worst site, by name.* Every finding carries its site; of each check the worst of all sites
//!   counts, and the site of the finding that decides speaks for tables and drawings.
//! - *Shared by identity.* A detail solved for its verdict is the one the house takes psi from.
//!
//! Nothing here prints, and nothing that prints computes.

mod assembly;
mod boxes;
mod detail;
mod house;
mod option;
mod part;
pub mod remedy;
pub mod trade_off;

pub use assembly::{AtSite, Judged};
pub use boxes::{BoxesAtSite, JudgedBoxes};
pub use detail::{DetailAtSite, JudgedDetail};
pub use house::{JudgedHouse, houses};
pub use option::{Choice, best_of};
pub use part::{Part, Subject};
pub use remedy::{Measure, Remedy};

use rayon::prelude::*;

use crate::check::{Status, worst};
use crate::model::{Case, DetailCase, Project};
use crate::solve::StripFactors;
use detail::SolvedDetail;

/// Everything solved and judged of a project.
#[derive(Clone, Debug)]
pub struct Study<'a> {
    /// The project.
    pub project: &'a Project,
    /// Its assemblies as drawn, and under every variant that changes them.
    pub assemblies: Vec<Judged<'a>>,
    /// Its details, those drawn without being asked among them.
    pub details: Vec<JudgedDetail<'a>>,
    /// Its details in three dimensions.
    pub volumes: Vec<JudgedBoxes<'a>>,
    /// Its house as drawn, and under every variant that changes it.
    pub houses: Vec<JudgedHouse<'a>>,
}

/// What of a project is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope<'a> {
    /// All of it.
    All,
    /// What is as drawn (`None`), or what one variant changes.
    Variant(Option<&'a str>),
}

impl Scope<'_> {
    /// Whether what is of a variant is asked for.
    #[must_use]
    pub fn takes(self, variant: Option<&str>) -> bool {
        match self {
            Self::All => true,
            Self::Variant(wanted) => wanted == variant,
        }
    }
}

impl<'a> Study<'a> {
    /// Studies all of a project.
    ///
    /// # Example
    /// ```
    /// use dewmargin::study::Study;
    ///
    /// let text = include_str!("../../examples/cabin-floor.yaml");
    /// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
    /// let study = Study::of(&project);
    /// assert_eq!(study.status().word(), "fail"); // the bare flange
    /// ```
    #[must_use]
    pub fn of(project: &'a Project) -> Self {
        Self::within(project, Scope::All)
    }

    /// Studies as much of a project as is asked for.
    #[must_use]
    pub fn within(project: &'a Project, scope: Scope<'_>) -> Self {
        let cases: Vec<&Case> = project
            .cases
            .iter()
            .filter(|case| scope.takes(case.variant.as_deref()))
            .collect();
        // A strip under a variant may be shown by a detail that is as drawn.
        let drawn: Vec<&DetailCase> = project
            .details
            .iter()
            .filter(|case| scope.takes(case.variant.as_deref()) || shows_one_of(case, &cases))
            .collect();
        let solved: Vec<SolvedDetail<'a>> = drawn
            .into_par_iter()
            .map(|case| SolvedDetail::solve(project, case))
            .collect();
        let assemblies: Vec<Judged<'a>> = cases
            .into_par_iter()
            .map(|case| Judged::judge(project, case, &solved))
            .collect();
        let houses = house::judge_houses(project, scope, &solved);
        let volumes = project
            .volumes
            .iter()
            .filter(|case| scope.takes(case.variant.as_deref()))
            .map(|case| JudgedBoxes::judge(project, case))
            .collect();
        let details = solved
            .into_par_iter()
            .filter(|one| scope.takes(one.case.variant.as_deref()))
            .map(|one| one.judge(&assemblies))
            .collect();
        Self {
            project,
            assemblies,
            details,
            volumes,
            houses,
        }
    }

    /// The worst of all that is judged: assemblies and details.
    #[must_use]
    pub fn status(&self) -> Status {
        let assemblies = self.assemblies.iter().map(|one| one.verdict.status);
        let details = self.details.iter().map(|one| one.verdict.status);
        let volumes = self.volumes.iter().map(|one| one.verdict.status);
        worst(assemblies.chain(details).chain(volumes))
    }

    /// Whether every solver reached its tolerance.
    #[must_use]
    pub fn settled(&self) -> bool {
        let details = self.details.iter().all(JudgedDetail::settled);
        let assemblies = self.assemblies.iter().all(Judged::settled);
        let volumes = self.volumes.iter().all(JudgedBoxes::settled);
        assemblies && details && volumes && self.houses.iter().all(JudgedHouse::settled)
    }
}

fn shows_one_of(detail: &DetailCase, cases: &[&Case]) -> bool {
    let floor = detail.shows().map(|(floor, _)| floor);
    cases
        .iter()
        .any(|case| floor == Some(case.assembly.name.as_str()))
}

/// The temperature factors that details show of an assembly's strips at a site: of several details
/// the coldest wood.
fn factors_of(case: &Case, site: usize, solved: &[SolvedDetail<'_>]) -> Vec<Option<StripFactors>> {
    let strips = case.assembly.strips.iter();
    let of_strip = |strip: &str| {
        showing(case, strip, solved)
            .filter_map(|one| one.strip_factors(site))
            .min_by(|a, b| a.wood.total_cmp(&b.wood))
    };
    strips.map(|strip| of_strip(&strip.name)).collect()
}

/// The details that show a strip of an assembly: under its variant, as drawn where that redraws none.
fn showing<'s, 'a>(
    case: &'s Case,
    strip: &'s str,
    solved: &'s [SolvedDetail<'a>],
) -> impl Iterator<Item = &'s SolvedDetail<'a>> {
    let shows = move |one: &&SolvedDetail<'a>| {
        one.case.shows() == Some((case.assembly.name.as_str(), strip))
    };
    let under = move |variant: Option<&'s str>| {
        solved
            .iter()
            .filter(shows)
            .filter(move |one| one.case.variant.as_deref() == variant)
    };
    let own = under(case.variant.as_deref());
    let redrawn = under(case.variant.as_deref()).next().is_some();
    own.chain(under(None).filter(move |_| !redrawn))
}
