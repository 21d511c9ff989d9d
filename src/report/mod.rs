//! Showing what was found: text, JSON, figures. Nothing is computed here.

pub mod comparison;
mod detail_comparison;
mod detail_text;
mod detailed;
mod edge_yaml;
pub mod explain;
pub mod figure;
pub mod house;
pub mod json;
mod json_detail;
pub mod json_sizing;
mod json_tables;
mod json_year;
pub mod packet;
mod path_table;
pub mod plan_review;
mod range;
mod route;
mod sentence;
mod sentence_detail;
mod sentence_room;
mod sentence_tables;
mod sentence_year;
mod short;
pub mod sizing;
mod sizing_table;
pub mod summary;
pub mod sweep;
mod table;
pub mod trade_off;
mod year_table;

pub use detailed::{JudgedDetail, judge_details};
pub use edge_yaml::edge_yaml;

use rayon::prelude::*;

use crate::check::{Finding, Verdict, judge, worst_of};
use crate::model::{Case, Project, Stop};
use crate::solve::{AssemblyResult, PathResult, solve};

/// A case with what was solved for it and how it was judged, at its worst stop.
#[derive(Clone, Debug)]
pub struct Judged<'a> {
    /// The case.
    pub case: &'a Case,
    /// Where it is worst.
    pub stop: &'a Stop,
    /// Its solution there.
    pub result: AssemblyResult,
    /// Its verdict there.
    pub verdict: Verdict,
    /// Every stop of a route in order, the worst one included; empty for a single climate.
    pub route: Vec<AtStop<'a>>,
}

/// A case at one stop of a route.
#[derive(Clone, Debug)]
pub struct AtStop<'a> {
    /// The stop.
    pub stop: &'a Stop,
    /// What was solved there.
    pub result: AssemblyResult,
    /// How it was judged there.
    pub verdict: Verdict,
}

impl Judged<'_> {
    /// `floor, as drawn` or `floor, foam over flange`.
    #[must_use]
    pub fn name(&self) -> String {
        match self.case.variant {
            None => format!("{}, as drawn", self.case.assembly.name),
            Some(_) => self.case.name(),
        }
    }

    /// The path and the plane that a finding is about; `None` where it names none.
    pub(crate) fn plane_of(&self, finding: &Finding) -> Option<(&PathResult, usize)> {
        let place = finding.place.as_ref()?;
        let mut paths = self.result.ends.iter().flat_map(|end| &end.paths);
        let path = paths.find(|path| path.path.name == place.path)?;
        let mut names = path.plane_names.iter();
        let plane = names.position(|name| *name == place.plane)?;
        Some((path, plane))
    }
}

/// Solves and judges every case of a project.
///
/// # Example
/// ```
/// let text = include_str!("../../examples/cabin-floor.yaml");
/// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
/// let judged = dewmargin::report::judge_all(&project);
/// assert_eq!(judged[0].verdict.status.word(), "fail"); // the bare flange
/// assert_eq!(judged[1].verdict.status.word(), "pass"); // foam over the flange, bonded
/// ```
#[must_use]
pub fn judge_all(project: &Project) -> Vec<Judged<'_>> {
    let cases = project.cases.par_iter();
    cases
        .filter_map(|case| judge_case(case, &project.stops))
        .collect()
}

/// Judges a case at every stop; the worst one stands for it.
fn judge_case<'a>(case: &'a Case, stops: &'a [Stop]) -> Option<Judged<'a>> {
    let at = |stop: &'a Stop| {
        let result = solve(&case.assembly, &stop.conditions);
        let verdict = judge(case, stop, &result);
        AtStop {
            stop,
            result,
            verdict,
        }
    };
    let mut route: Vec<AtStop<'a>> = stops.par_iter().map(at).collect();
    let verdicts: Vec<&Verdict> = route.iter().map(|at| &at.verdict).collect();
    let worst = worst_of(&verdicts)?;
    let AtStop {
        stop,
        result,
        verdict,
    } = match route.len() {
        1 => route.remove(0),
        _ => route[worst].clone(),
    };
    Some(Judged {
        case,
        stop,
        result,
        verdict,
        route,
    })
}
