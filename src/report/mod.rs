//! Showing what was found: text, JSON, figures. Nothing is computed here.

pub mod comparison;
pub mod figure;
pub mod json;
mod sentence;
pub mod summary;
mod table;

use crate::check::{Verdict, judge};
use crate::model::{Case, Project};
use crate::solve::{AssemblyResult, solve};

/// A case with what was solved for it and how it was judged.
#[derive(Clone, Debug)]
pub struct Judged<'a> {
    /// The case.
    pub case: &'a Case,
    /// Its solution.
    pub result: AssemblyResult,
    /// Its verdict.
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

    /// The case as a column of the comparison plot.
    #[must_use]
    pub fn compared(&self) -> figure::Compared<'_> {
        figure::Compared {
            name: self.name(),
            case: self.case,
            result: &self.result,
            verdict: &self.verdict,
        }
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
    let mut judged = Vec::with_capacity(project.cases.len());
    for case in &project.cases {
        let result = solve(&case.assembly, &project.conditions);
        let verdict = judge(case, &result);
        judged.push(Judged {
            case,
            result,
            verdict,
        });
    }
    judged
}
