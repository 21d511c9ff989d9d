//! Details, solved and judged at every stop.

use rayon::prelude::*;

use crate::check::{Verdict, judge_detail, worst_of};
use crate::model::drawn::DetailCase;
use crate::model::{Project, Stop};
use crate::solve::conduction::Precision;
use crate::solve::detail::{
    DetailFailure, DetailResult, HandCheck, hand_checks, solve_detail_case,
};
use crate::solve::house::DetailPsi;
use crate::solve::{Extent, solve_to};

/// A detail at its worst stop.
#[derive(Clone, Debug)]
pub struct JudgedDetail<'a> {
    /// The detail.
    pub case: &'a DetailCase,
    /// Where it is worst.
    pub stop: &'a Stop,
    /// What was solved there, or why it couldn't be.
    pub result: Result<DetailResult, DetailFailure>,
    /// Simple estimates of the same cut.
    pub hand_checks: Vec<HandCheck>,
    /// How it was judged.
    pub verdict: Verdict,
    /// Name and verdict of every stop of a route; empty for a single climate.
    pub route: Vec<(&'a str, Verdict)>,
    /// psi at every stop, in the route's order.
    pub psis: Vec<(&'a Stop, DetailPsi)>,
}

impl JudgedDetail<'_> {
    /// `floor edge, as drawn` or `floor edge, foam over flange`.
    #[must_use]
    pub fn name(&self) -> String {
        match self.case.variant {
            None => format!("{}, as drawn", self.case.name),
            Some(_) => self.case.full_name(),
        }
    }

    /// Whether the result is as precise as was asked for.
    #[must_use]
    pub fn settled(&self) -> bool {
        self.result.as_ref().is_ok_and(DetailResult::settled)
    }
}

/// Solves and judges every detail of a project.
#[must_use]
pub fn judge_details(project: &Project) -> Vec<JudgedDetail<'_>> {
    let details = project.details.par_iter();
    details
        .filter_map(|case| at_worst_stop(project, case))
        .collect()
}

fn at_worst_stop<'a>(project: &'a Project, case: &'a DetailCase) -> Option<JudgedDetail<'a>> {
    let mut stops: Vec<JudgedDetail<'a>> = project
        .stops
        .par_iter()
        .map(|stop| at_stop(project, case, stop))
        .collect();
    let verdicts: Vec<&Verdict> = stops.iter().map(|at| &at.verdict).collect();
    let worst = worst_of(&verdicts)?;
    let route = match stops.len() {
        1 => Vec::new(),
        _ => stops
            .iter()
            .map(|at| (at.stop.name.as_str(), at.verdict.clone()))
            .collect(),
    };
    let psis = stops.iter().flat_map(|at| at.psis.clone()).collect();
    let judged = stops.swap_remove(worst);
    Some(JudgedDetail {
        route,
        psis,
        ..judged
    })
}

fn at_stop<'a>(project: &'a Project, case: &'a DetailCase, stop: &'a Stop) -> JudgedDetail<'a> {
    let result = solve_detail_case(case, &stop.conditions, &Precision::default());
    let hand_checks = estimates(project, case, stop);
    let verdict = judge_detail(case, stop, &result, &hand_checks);
    JudgedDetail {
        case,
        stop,
        psis: vec![(stop, DetailPsi::of(&result))],
        result,
        hand_checks,
        verdict,
        route: Vec::new(),
    }
}

/// Estimates need the floor that the detail is drawn from, under the same variant where that
/// changes it.
fn estimates(project: &Project, case: &DetailCase, stop: &Stop) -> Vec<HandCheck> {
    let of_variant = |variant: Option<&String>| {
        project.cases.iter().find(|one| {
            let strips = !one.assembly.strips.is_empty();
            let named = case
                .references
                .iter()
                .any(|r| r.assembly == one.assembly.name);
            strips && named && one.variant.as_ref() == variant
        })
    };
    let found = of_variant(case.variant.as_ref()).or_else(|| of_variant(None));
    let Some(found) = found else {
        return Vec::new();
    };
    let solved = solve_to(&found.assembly, &stop.conditions, Extent::Winter);
    solved
        .ends
        .first()
        .map_or_else(Vec::new, |end| hand_checks(case, &found.assembly, end))
}
