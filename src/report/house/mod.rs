//! The whole house: fit on the road, weight, heat loss.

pub(in crate::report) mod heat;
mod json;
pub(in crate::report) mod sentence;
pub(in crate::report) mod table;
mod text;
pub(in crate::report) mod words;

pub use json::json;
pub use text::house_text;

use rayon::prelude::*;

use super::JudgedDetail;
use crate::check::{HouseFinding, HouseVerdict, judge_house};
use crate::model::house::HouseCase;
use crate::model::{DetailCase, Project, Stop};
use crate::quantity::Length;
use crate::solve::house::{DetailPsi, HouseResult, Measure, PsiOf, solve_house_with};

/// A house under one variant, solved and judged.
#[derive(Clone, Debug)]
pub struct JudgedHouse<'a> {
    /// The house and its variant.
    pub case: HouseCase<'a>,
    /// Where its heat loss is told: the stop with the coldest design night.
    pub stop: &'a Stop,
    /// What was solved.
    pub result: HouseResult,
    /// How it was judged.
    pub verdict: HouseVerdict,
}

impl JudgedHouse<'_> {
    /// `house, as drawn` or `house, foam over flange`.
    #[must_use]
    pub fn name(&self) -> String {
        format!("house, {}", self.variant())
    }

    /// The variant's name, `as drawn` for none.
    #[must_use]
    pub fn variant(&self) -> &str {
        self.case.variant.unwrap_or("as drawn")
    }

    /// Its outside measures that are known: name, terms, limit.
    pub(in crate::report) fn measures(
        &self,
    ) -> impl Iterator<Item = (&'static str, &Measure, Option<Length>)> {
        let (fit, road) = (&self.result.fit, &self.case.house.road);
        let all = [
            ("overall width", &fit.width, road.width),
            ("overall height", &fit.height, road.height),
            ("overall length", &fit.length, road.length),
        ];
        let known = all.into_iter();
        known.filter_map(|(name, measure, limit)| Some((name, measure.as_ref()?, limit)))
    }

    /// What was found, the worst first.
    pub(in crate::report) fn worst_first(&self) -> Vec<&HouseFinding> {
        let mut findings: Vec<_> = self.verdict.findings.iter().collect();
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.status.severity()));
        findings
    }
}

/// Solves and judges the house of a project, as drawn and under every variant that changes it;
/// empty where the project has no house.
///
/// # Example
/// ```
/// let text = include_str!("../../../examples/cabin-fit.yaml");
/// let project = dewmargin::input::resolve_text("cabin-fit.yaml", text).unwrap();
/// let houses = dewmargin::report::house::judge_houses(&project);
/// assert_eq!(houses[0].verdict.status.word(), "pass");
/// // 96 in of deck, and on both sides 1/2 in sheathing, 3/4 in gap, 5/8 in siding, 3/4 in overhang.
/// let width = houses[0].result.fit.width.as_ref().unwrap().total();
/// assert!((width.as_m() - 101.25 * 0.0254).abs() < 1e-9);
/// ```
#[must_use]
pub fn judge_houses(project: &Project) -> Vec<JudgedHouse<'_>> {
    let Some(stop) = coldest(&project.stops) else {
        return Vec::new();
    };
    let cases = project.house_cases();
    // Many variants have an edge in common.
    let solved = edges(&cases).into_par_iter();
    let solved: Vec<(&DetailCase, DetailPsi)> = solved
        .map(|detail| (detail, DetailPsi::solve(detail, &stop.conditions)))
        .collect();
    let psi_of = |detail: &DetailCase| {
        let found = solved.iter().find(|(one, _)| std::ptr::eq(*one, detail));
        let solve = || DetailPsi::solve(detail, &stop.conditions);
        found.map_or_else(solve, |(_, psi)| psi.clone())
    };
    let judged = cases.into_par_iter();
    judged.map(|case| judge(case, stop, &psi_of)).collect()
}

/// Solves and judges the house under one variant, or as drawn where there is none or it doesn't
/// change the house; `None` where the project has no house. A detail among those already judged
/// isn't solved again.
#[must_use]
pub fn judge_one_house<'a>(
    project: &'a Project,
    variant: Option<&str>,
    details: &[JudgedDetail<'_>],
) -> Option<JudgedHouse<'a>> {
    let stop = coldest(&project.stops)?;
    let cases = project.house_cases();
    let found = cases.iter().find(|case| case.variant == variant);
    let case = *found.or(cases.first())?;
    let psi_of = |detail: &DetailCase| {
        let judged = details.iter().filter(|one| one.case == detail);
        let mut psis = judged.flat_map(|one| &one.psis);
        let found = psis.find(|(at, _)| *at == stop);
        let solve = || DetailPsi::solve(detail, &stop.conditions);
        found.map_or_else(solve, |(_, psi)| psi.clone())
    };
    Some(judge(case, stop, &psi_of))
}

fn judge<'a>(case: HouseCase<'a>, stop: &'a Stop, psi_of: &PsiOf<'_>) -> JudgedHouse<'a> {
    let result = solve_house_with(&case, stop, psi_of);
    let verdict = judge_house(&case, &result);
    JudgedHouse {
        case,
        stop,
        result,
        verdict,
    }
}

/// The details along the edges of the house under all its variants, each once.
fn edges<'a>(cases: &[HouseCase<'a>]) -> Vec<&'a DetailCase> {
    let mut kept: Vec<&DetailCase> = Vec::new();
    for case in cases {
        for detail in case.house.details().filter_map(|name| case.detail(name)) {
            if !kept.iter().any(|one| std::ptr::eq(*one, detail)) {
                kept.push(detail);
            }
        }
    }
    kept
}

/// The stop with the coldest design night, or winter mean where it has none.
fn coldest(stops: &[Stop]) -> Option<&Stop> {
    let outdoor = |stop: &&Stop| {
        let conditions = &stop.conditions;
        let air = conditions.design_night.unwrap_or(conditions.winter_mean);
        air.temperature.as_celsius()
    };
    let least = |a: &&Stop, b: &&Stop| outdoor(a).total_cmp(&outdoor(b));
    stops.iter().min_by(least)
}
