//! The whole house: fit on the road, weight, heat loss.

mod heat;
mod json;
mod sentence;
mod table;
mod text;

pub use json::json;
pub use text::house_text;

use rayon::prelude::*;

use crate::check::{HouseVerdict, judge_house};
use crate::model::house::HouseCase;
use crate::model::{Project, Stop};
use crate::solve::house::{HouseResult, solve_house};

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
    let judge = |case: HouseCase<'_>| {
        let result = solve_house(&case, stop);
        let verdict = judge_house(&case, &result);
        (result, verdict)
    };
    let cases = project.house_cases();
    let solved: Vec<_> = cases.par_iter().map(|case| judge(*case)).collect();
    let judged = cases.into_iter().zip(solved);
    judged
        .map(|(case, (result, verdict))| JudgedHouse {
            case,
            stop,
            result,
            verdict,
        })
        .collect()
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
