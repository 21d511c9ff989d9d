//! A detail in three dimensions at every site, and what holds for all of them.

use rayon::prelude::*;

use super::assembly::over_sites;
use crate::check::Verdict;
use crate::check::detail::judge_boxes;
use crate::model::{BoxesCase, Project, Stop};
use crate::solve::detail::{BoxesFailure, BoxesResult, solve_boxes};

/// A detail in three dimensions with what was solved for it and how it was judged, at every site.
#[derive(Clone, Debug)]
pub struct JudgedBoxes<'a> {
    /// The detail.
    pub case: &'a BoxesCase,
    /// The project's sites, by which findings are told.
    pub stops: &'a [Stop],
    /// Every site in the project's order; at least one.
    pub sites: Vec<BoxesAtSite<'a>>,
    /// Of each check and place the worst of all sites, and what they come to.
    pub verdict: Verdict,
    /// Which site the finding that decides is of.
    pub speaks: usize,
}

/// A detail in three dimensions at one site.
#[derive(Clone, Debug)]
pub struct BoxesAtSite<'a> {
    /// The site.
    pub stop: &'a Stop,
    /// What was solved there, or why it couldn't be.
    pub result: Result<BoxesResult, BoxesFailure>,
    /// How it was judged there.
    pub verdict: Verdict,
}

impl<'a> JudgedBoxes<'a> {
    pub(super) fn judge(project: &'a Project, case: &'a BoxesCase) -> Self {
        let at = |(site, stop): (usize, &'a Stop)| {
            let result = solve_boxes(case, &stop.conditions);
            BoxesAtSite {
                stop,
                verdict: judge_boxes(stop, &result).at(site),
                result,
            }
        };
        let sites: Vec<BoxesAtSite<'a>> = project.stops.par_iter().enumerate().map(at).collect();
        let (verdict, speaks) = over_sites(sites.iter().map(|at| &at.verdict));
        Self {
            case,
            stops: &project.stops,
            sites,
            verdict,
            speaks,
        }
    }

    /// `window corner, as drawn` or `window corner, more foam`.
    #[must_use]
    pub fn name(&self) -> String {
        let variant = self.case.variant.as_deref().unwrap_or("as drawn");
        format!("{}, {variant}", self.case.name)
    }

    /// The site that speaks: its tables are shown.
    #[must_use]
    pub fn here(&self) -> &BoxesAtSite<'a> {
        &self.sites[self.speaks]
    }

    /// Whether the results of all sites are solved as well as asked.
    #[must_use]
    pub fn settled(&self) -> bool {
        let mut sites = self.sites.iter();
        sites.all(|at| at.result.as_ref().is_ok_and(|result| result.settled))
    }
}
