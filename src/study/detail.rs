//! A detail at every site, and what holds for all of them.

use rayon::prelude::*;

use super::Judged;
use super::assembly::over_sites;
use crate::check::detail::HandCheckDetail;
use crate::check::{Detail as Told, Finding, On, Status, Verdict, judge_detail};
use crate::model::drawn::DetailKind;
use crate::model::{Conditions, DetailCase, Project, Stop};
use crate::solve::StripFactors;
use crate::solve::conduction::Precision;
use crate::solve::detail::{
    CORNER_FINEST, CORNER_PRECISION, DetailFailure, DetailResult, HandCheck, HandCheckKind,
    hand_checks, solve_corner, solve_detail_case,
};
use crate::solve::house::DetailPsi;

/// A detail with what was solved for it and how it was judged, at every site.
#[derive(Clone, Debug)]
pub struct JudgedDetail<'a> {
    /// The detail.
    pub case: &'a DetailCase,
    /// The project's sites, by which findings are told.
    pub stops: &'a [Stop],
    /// Every site in the project's order; at least one.
    pub sites: Vec<DetailAtSite<'a>>,
    /// Of each check and place the worst of all sites, and what they come to.
    pub verdict: Verdict,
    /// Which site the finding that decides is of.
    pub speaks: usize,
}

/// A detail at one site.
#[derive(Clone, Debug)]
pub struct DetailAtSite<'a> {
    /// The site.
    pub stop: &'a Stop,
    /// What was solved there, or why it couldn't be.
    pub result: Result<DetailResult, DetailFailure>,
    /// Simple estimates of the same cut.
    pub hand_checks: Vec<HandCheck>,
    /// How it was judged there.
    pub verdict: Verdict,
}

impl<'a> JudgedDetail<'a> {
    /// `floor edge, as drawn` or `floor edge, foam over flange`.
    #[must_use]
    pub fn name(&self) -> String {
        match self.case.variant {
            None => format!("{}, as drawn", self.case.name),
            Some(_) => self.case.full_name(),
        }
    }

    /// How far off an estimate is at the site that speaks.
    #[must_use]
    pub fn hand_check_errors(&self, kind: HandCheckKind) -> Option<&HandCheckDetail> {
        let found = self.verdict.findings.iter();
        let mut found = found.filter_map(|finding| match &finding.detail {
            Told::HandCheck(errors) => Some(errors),
            _ => None,
        });
        found.find(|errors| errors.kind == kind)
    }

    /// The site that speaks: its tables and drawings are shown.
    #[must_use]
    pub fn here(&self) -> &DetailAtSite<'a> {
        &self.sites[self.speaks]
    }

    /// The site that speaks.
    #[must_use]
    pub fn stop(&self) -> &'a Stop {
        self.here().stop
    }

    /// What was solved at the site that speaks.
    pub fn result(&self) -> &Result<DetailResult, DetailFailure> {
        &self.here().result
    }

    /// Every site of a route in order; empty where there is one site alone.
    #[must_use]
    pub fn route(&self) -> &[DetailAtSite<'a>] {
        match self.sites.len() {
            1 => &[],
            _ => &self.sites,
        }
    }

    /// The air a finding was judged in.
    #[must_use]
    pub fn conditions_of(&self, finding: &Finding) -> &'a Conditions {
        &self.sites[finding.site].stop.conditions
    }

    /// Whether the results of all sites are as precise as was asked for.
    #[must_use]
    pub fn settled(&self) -> bool {
        let settled = |at: &DetailAtSite<'_>| at.result.as_ref().is_ok_and(DetailResult::settled);
        self.sites.iter().all(settled)
    }
}

/// A detail solved at every site, not judged yet.
pub(super) struct SolvedDetail<'a> {
    pub(super) case: &'a DetailCase,
    stops: &'a [Stop],
    pub(super) sites: Vec<(&'a Stop, Result<DetailResult, DetailFailure>)>,
}

impl<'a> SolvedDetail<'a> {
    pub(super) fn solve(project: &'a Project, case: &'a DetailCase) -> Self {
        let precision = Precision::default();
        let stops = project.stops.par_iter();
        let solve = |stop: &'a Stop| {
            let result = solve_detail_case(case, &stop.conditions, &precision);
            (stop, result)
        };
        Self {
            case,
            stops: &project.stops,
            sites: stops.map(solve).collect(),
        }
    }

    /// The temperature factors over the strip that the detail shows; `None` where it has none.
    pub(super) fn strip_factors(&self, site: usize) -> Option<StripFactors> {
        self.sites[site].1.as_ref().ok()?.strip_factors(self.case)
    }

    /// psi at a site.
    pub(super) fn psi(&self, site: usize) -> DetailPsi {
        DetailPsi::of(&self.sites[site].1)
    }

    /// Judges it beside the hand-checks of the floor it is drawn from. Its corner is solved only where
    /// the cut fails at no site: colder than the cut it would fail too.
    pub(super) fn judge(self, assemblies: &[Judged<'a>]) -> JudgedDetail<'a> {
        let case = self.case;
        let floor = floor_of(case, assemblies);
        let at = |(site, (stop, result)): (usize, (&'a Stop, Result<DetailResult, _>))| {
            let end = floor.and_then(|floor| floor.sites[site].result.ends.first());
            let hand_checks = floor.zip(end).map_or_else(Vec::new, |(floor, end)| {
                let solved = result
                    .as_ref()
                    .map_or(case, |result: &DetailResult| &result.case);
                hand_checks(solved, &floor.case.assembly, end)
            });
            DetailAtSite {
                stop,
                verdict: judge_detail(case, stop, &result, &hand_checks).at(site),
                result,
                hand_checks,
            }
        };
        let mut sites: Vec<DetailAtSite<'a>> = self.sites.into_iter().enumerate().map(at).collect();
        let fails = |at: &DetailAtSite<'_>| at.verdict.status == Status::Fail;
        // Colder than the cut it would fail too; the error bar matters only where nothing fails.
        for cells in [CORNER_PRECISION, CORNER_FINEST] {
            if case.has_corner() && !sites.iter().any(fails) {
                let all = sites.par_iter_mut().enumerate();
                all.for_each(|(site, at)| at.turn_the_corner(case, site, cells));
            }
        }
        let (verdict, speaks) = over_sites(sites.iter().map(|at| &at.verdict));
        JudgedDetail {
            case,
            stops: self.stops,
            sites,
            verdict,
            speaks,
        }
    }
}

impl DetailAtSite<'_> {
    /// Solves the corner too, and judges anew; a second time only where an error bar decides.
    fn turn_the_corner(&mut self, case: &DetailCase, site: usize, cells: usize) {
        let Ok(result) = &mut self.result else { return };
        let hangs = |finding: &Finding| hangs_on_a_bar(case.kind, finding);
        let hangs = self.verdict.findings.iter().any(hangs);
        if result.corner.is_some() && !hangs {
            return;
        }
        result.corner = Some(solve_corner(result, cells));
        self.verdict = judge_detail(case, self.stop, &self.result, &self.hand_checks).at(site);
    }
}

/// Whether something at the corner can't be told within the error bar. Mold at a floor's corner is
/// `depends` at worst; where two walls meet it isn't.
fn hangs_on_a_bar(kind: DetailKind, finding: &Finding) -> bool {
    let is_at_corner = matches!(&finding.detail, Told::Spot(spot) if spot.is_at_corner());
    let counts = kind == DetailKind::RoofEdge || !finding.check.is_of_mold;
    is_at_corner && finding.on == Some(On::Tolerance) && counts
}

/// The floor with strips that a detail is drawn from, under the same variant where that changes it.
fn floor_of<'s, 'a>(case: &DetailCase, assemblies: &'s [Judged<'a>]) -> Option<&'s Judged<'a>> {
    let of_variant = |variant: Option<&String>| {
        assemblies.iter().find(|one| {
            let assembly = &one.case.assembly;
            let mut references = case.references.iter();
            !assembly.strips.is_empty()
                && references.any(|reference| reference.assembly == assembly.name)
                && one.case.variant.as_ref() == variant
        })
    };
    of_variant(case.variant.as_ref()).or_else(|| of_variant(None))
}
