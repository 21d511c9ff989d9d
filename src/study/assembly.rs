//! An assembly at every site, and what holds for all of them.

use rayon::prelude::*;

use super::detail::SolvedDetail;
use super::factors_of;
use crate::check::{Finding, Overview, Status, Verdict, judge, overview, weighed};
use crate::model::{Case, Conditions, Project, Stop};
use crate::solve::{AssemblyResult, Extent, PathResult, solve_shown};

/// An assembly with what was solved for it and how it was judged, at every site.
#[derive(Clone, Debug)]
pub struct Judged<'a> {
    /// The assembly under one variant.
    pub case: &'a Case,
    /// The project's sites, by which findings are told.
    pub stops: &'a [Stop],
    /// Every site in the project's order; at least one.
    pub sites: Vec<AtSite<'a>>,
    /// Of each check the worst of all sites, and what they come to.
    pub verdict: Verdict,
    /// Which site the finding that decides is of.
    pub speaks: usize,
}

/// An assembly at one site.
#[derive(Clone, Debug)]
pub struct AtSite<'a> {
    /// The site.
    pub stop: &'a Stop,
    /// What was solved there.
    pub result: AssemblyResult,
    /// How it was judged there.
    pub verdict: Verdict,
}

impl<'a> Judged<'a> {
    /// Whether the results of all sites settled.
    #[must_use]
    pub fn settled(&self) -> bool {
        self.sites.iter().all(|at| at.result.settled())
    }

    pub(super) fn judge(project: &'a Project, case: &'a Case, solved: &[SolvedDetail<'_>]) -> Self {
        let at = |(site, stop): (usize, &'a Stop)| {
            let shown = factors_of(case, site, solved);
            let result = solve_shown(&case.assembly, &stop.conditions, Extent::All, &shown);
            let verdict = judge(case, stop, &result).at(site);
            AtSite {
                stop,
                result,
                verdict,
            }
        };
        let sites: Vec<AtSite<'a>> = project.stops.par_iter().enumerate().map(at).collect();
        let (verdict, speaks) = over_sites(sites.iter().map(|at| &at.verdict));
        Self {
            case,
            stops: &project.stops,
            sites,
            verdict,
            speaks,
        }
    }

    /// `floor, as drawn` or `floor, foam over flange`.
    #[must_use]
    pub fn name(&self) -> String {
        match self.case.variant {
            None => format!("{}, as drawn", self.case.assembly.name),
            Some(_) => self.case.name(),
        }
    }

    /// The site that speaks: its tables and drawings are shown.
    #[must_use]
    pub fn here(&self) -> &AtSite<'a> {
        &self.sites[self.speaks]
    }

    /// The site that speaks.
    #[must_use]
    pub fn stop(&self) -> &'a Stop {
        self.here().stop
    }

    /// What was solved at the site that speaks.
    #[must_use]
    pub fn result(&self) -> &AssemblyResult {
        &self.here().result
    }

    /// Every site of a route in order; empty where there is one site alone.
    #[must_use]
    pub fn route(&self) -> &[AtSite<'a>] {
        match self.sites.len() {
            1 => &[],
            _ => &self.sites,
        }
    }

    /// One of its sites as if there were no other.
    #[must_use]
    pub fn alone(&self, site: usize) -> Self {
        let at = self.sites[site].clone();
        Self {
            case: self.case,
            stops: std::slice::from_ref(at.stop),
            verdict: at.verdict.clone().at(0),
            sites: vec![AtSite {
                verdict: at.verdict.clone().at(0),
                ..at
            }],
            speaks: 0,
        }
    }

    /// The least of a number over all sites, and which site that is.
    #[must_use]
    pub fn least(&self, of: impl Fn(&Overview) -> Option<f64>) -> Option<(f64, usize)> {
        let values = self.sites.iter().enumerate();
        let values = values.filter_map(|(site, at)| Some((of(&overview(&at.result))?, site)));
        values.min_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// The site a finding is of.
    #[must_use]
    pub fn site_of(&self, finding: &Finding) -> &AtSite<'a> {
        &self.sites[finding.site]
    }

    /// The air a finding was judged in.
    #[must_use]
    pub fn conditions_of(&self, finding: &Finding) -> &'a Conditions {
        &self.site_of(finding).stop.conditions
    }

    /// The path and the plane that a finding is about, at its site; `None` where it names none.
    pub(crate) fn plane_of(&self, finding: &Finding) -> Option<(&PathResult, usize)> {
        let place = finding.place.as_ref()?;
        let ends = self.site_of(finding).result.ends.iter();
        let mut paths = ends.flat_map(|end| &end.paths);
        let path = paths.find(|path| path.path.name == place.path)?;
        let mut names = path.plane_names.iter();
        let plane = names.position(|name| *name == place.plane)?;
        Some((path, plane))
    }
}

/// Of every check the worst finding of all sites, and which site the one that decides is of. Notes
/// are those of that site.
pub(super) fn over_sites<'v>(verdicts: impl Iterator<Item = &'v Verdict>) -> (Verdict, usize) {
    let verdicts: Vec<&Verdict> = verdicts.collect();
    if let [only] = verdicts[..] {
        return (only.clone(), 0);
    }
    let is_note = |finding: &&Finding| finding.status == Status::Note;
    let judged = verdicts.iter().flat_map(|one| &one.findings);
    let mut worst: Vec<Finding> = Vec::new();
    for finding in judged.filter(|finding| !is_note(finding)) {
        match worst.iter_mut().find(|kept| kept.is_alike(finding)) {
            Some(kept) if finding.is_worse_than(kept) => *kept = finding.clone(),
            Some(_) => {}
            None => worst.push(finding.clone()),
        }
    }
    let mut verdict = weighed(worst);
    let speaks = verdict.speaking().map_or(0, |finding| finding.site);
    let notes = verdicts[speaks].findings.iter().filter(is_note);
    verdict.findings.extend(notes.cloned());
    (verdict, speaks)
}
