//! The house on its trailer, as drawn and under every variant that changes it.

use rayon::prelude::*;

use super::Scope;
use super::detail::SolvedDetail;
use crate::check::{HouseFinding, HouseVerdict, judge_house};
use crate::model::house::HouseCase;
use crate::model::{DetailCase, Project, Stop};
use crate::quantity::Length;
use crate::solve::house::{
    DetailPsi, HouseResult, Measure, PartSum, house_price, solve_house_with,
};

/// A house under one variant, solved and judged.
#[derive(Clone, Debug)]
pub struct JudgedHouse<'a> {
    /// The house and its variant.
    pub case: HouseCase<'a>,
    /// Where its heat loss is told: the site with the coldest design night.
    pub stop: &'a Stop,
    /// What was solved.
    pub result: HouseResult,
    /// What its assemblies cost, as far as prices are given.
    pub price: PartSum,
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

    /// Whether every psi is as precise as was asked for.
    #[must_use]
    pub fn settled(&self) -> bool {
        self.result.heat.settled
    }

    /// Its outside measures that are known: name, terms, limit.
    pub fn measures(&self) -> impl Iterator<Item = (&'static str, &Measure, Option<Length>)> {
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
    #[must_use]
    pub fn worst_first(&self) -> Vec<&HouseFinding> {
        let mut findings: Vec<_> = self.verdict.findings.iter().collect();
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.status.severity()));
        findings
    }
}

/// The house of a project as drawn and under every variant that changes it, and the details along its
/// edges, nothing else; empty where the project has no house.
///
/// # Example
/// ```
/// let text = include_str!("../../examples/cabin-fit.yaml");
/// let project = dewmargin::input::resolve_text("cabin-fit.yaml", text).unwrap();
/// let houses = dewmargin::study::houses(&project);
/// assert_eq!(houses[0].verdict.status.word(), "pass");
/// // 96 in of deck, and on both sides 1/2 in sheathing, 3/4 in gap, 5/8 in siding, 3/4 in overhang.
/// let width = houses[0].result.fit.width.as_ref().unwrap().total();
/// assert!((width.as_m() - 101.25 * 0.0254).abs() < 1e-9);
/// ```
#[must_use]
pub fn houses(project: &Project) -> Vec<JudgedHouse<'_>> {
    let along = |detail: &&DetailCase| {
        let house = project.house.as_ref();
        house.is_some_and(|house| house.details().any(|name| name == detail.name))
    };
    let edges: Vec<&DetailCase> = project.details.iter().filter(along).collect();
    let solved: Vec<SolvedDetail<'_>> = edges
        .into_par_iter()
        .map(|case| SolvedDetail::solve(project, case))
        .collect();
    judge_houses(project, Scope::All, &solved)
}

/// The house as drawn and under every variant that changes it; under one variant alone that house,
/// which is as drawn where the variant leaves it alone. Empty where the project has no house.
pub(super) fn judge_houses<'a>(
    project: &'a Project,
    scope: Scope<'_>,
    solved: &[SolvedDetail<'a>],
) -> Vec<JudgedHouse<'a>> {
    let Some(site) = coldest(&project.stops) else {
        return Vec::new();
    };
    let stop = &project.stops[site];
    let mut cases = project.house_cases();
    if let Scope::Variant(wanted) = scope {
        let found = cases.iter().position(|case| case.variant == wanted);
        cases = cases.into_iter().skip(found.unwrap_or(0)).take(1).collect();
    }
    let psi_of = |detail: &DetailCase| {
        let found = solved.iter().find(|one| std::ptr::eq(one.case, detail));
        let solve = || DetailPsi::solve(detail, &stop.conditions);
        found.map_or_else(solve, |one| one.psi(site))
    };
    let judge = |case: HouseCase<'a>| {
        let result = solve_house_with(&case, stop, &psi_of);
        JudgedHouse {
            verdict: judge_house(&case, &result),
            price: house_price(&case, &result.areas),
            case,
            stop,
            result,
        }
    };
    cases.into_par_iter().map(judge).collect()
}

/// The site with the coldest design night, or winter mean where it has none.
fn coldest(stops: &[Stop]) -> Option<usize> {
    let outdoor = |site: &usize| {
        let conditions = &stops[*site].conditions;
        let air = conditions.design_night.unwrap_or(conditions.winter_mean);
        air.temperature.as_celsius()
    };
    (0..stops.len()).min_by(|a, b| outdoor(a).total_cmp(&outdoor(b)))
}
