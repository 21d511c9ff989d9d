//! # Sizing: how thick a layer has to be
//!
//! *What it checks.* The least thickness of a layer at which all targets are met, at the materials'
//! nominal values and at the corner of their ranges that is adverse to each target; and the least
//! thickness sold that meets them, solved again at that thickness.
//!
//! *Why it matters.* A verdict says that a build-up fails. What is asked on the site is which board
//! to buy, and whether a thicker one would help at all: more foam under the finish floor never
//! saves the subfloor.
//!
//! *Method and source.* The margins and factors are those of the checks of the same names. The
//! search is that of [`crate::solve::sizing`]; details are searched on coarser grids, and the
//! thicknesses that are told are solved in full. There the error bar of the detail counts against
//! the target. The adverse corner is found as in [`super::range`], by moving one property at a time,
//! at the least thickness that meets the targets nominally, and held for all others. Of several climates the worst counts.
//!
//! *Limit.* The file's own targets; a year for `dry-within-the-year`. Met at nominal values and at
//! the adverse corner: `pass`. Met at nominal values alone: `depends`. Met by no thickness that is
//! sold: `fail`.
//!
//! *When it does not apply.* It isn't a check of the whole: `dewmargin check` judges the build-up
//! with that board in it. Width, weight and price aren't looked at.
//!
//! *Example.* A wall with R 0.17 in films and R 0.5 of the rest needs 0.10 m at 0.03 W/(m·K) for
//! U 0.25: 1/0.25 = 0.17 + 0.5 + 0.10/0.03.

mod bench;
mod corner;
mod measure;
mod search;

pub use search::size;

use super::Status;
use crate::model::{SizedAt, Sizing, Stop, Target, Told};
use crate::quantity::Length;
use crate::solve::sizing::Trend;

/// One line of the table: a target at a condition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// What has to be met.
    pub target: Target,
    /// The condition a margin is taken at; `None` where the target has none.
    pub at: Option<SizedAt>,
}

/// A target's value where it is worst.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// In the target's own unit: K, a factor, W/(m²·K) or days.
    pub value: f64,
    /// Distance from the target, positive where it is met.
    pub slack: f64,
    /// The plane or part.
    pub at: String,
    /// Error bar in the value's unit, where it comes from a detail.
    pub bar: f64,
    /// Which part of the sizing.
    pub part: usize,
    /// Which stop.
    pub stop: usize,
    /// Whether it is as precise as was asked for.
    pub settled: bool,
}

/// How precisely details are solved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fidelity {
    /// On coarse grids and without corners: which way a property moves a cut it moves its corner.
    Direction,
    /// On coarse grids, while searching.
    Quick,
    /// As a check is; assemblies always are.
    Full,
}

/// All targets at one thickness.
#[derive(Clone, Debug, PartialEq)]
pub struct AtThickness {
    /// Zero is without the layer.
    pub thickness: Length,
    /// By row, at nominal values; `None` where no air gets to any place that counts.
    pub nominal: Vec<Option<Value>>,
    /// By row, at the adverse corner.
    pub worst: Vec<Option<Value>>,
}

/// A search at nominal values, or at the adverse corners.
#[derive(Clone, Debug, PartialEq)]
pub struct Searched {
    /// The least thickness that meets every target.
    pub least: Option<Length>,
    /// By row: how it runs with the thickness.
    pub trends: Vec<Trend>,
    /// By row: the thickness at which it comes out best, and where no thickness meets the target,
    /// its value there.
    pub best: Vec<(Length, Option<Value>)>,
}

/// What a sizing came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Sized<'a> {
    /// What was asked.
    pub sizing: &'a Sizing,
    /// Where it was sized, with the room's humidity that was asked for.
    pub stops: Vec<Stop>,
    /// Pass, depends or fail.
    pub status: Status,
    /// The lines of the table.
    pub rows: Vec<Row>,
    /// The search at nominal values.
    pub nominal: Searched,
    /// The search at the adverse corners.
    pub worst: Searched,
    /// The least thickness, solved in full; that of the worst case where there is one.
    pub least: Option<AtThickness>,
    /// The board to buy.
    pub board: Option<AtThickness>,
    /// The next thinner one, or without the layer; `None` where nothing thinner was asked for.
    pub thinner: Option<AtThickness>,
    /// Where there is no board: the span's least thickness and the thickest that is sold.
    pub ends: Vec<AtThickness>,
    /// A thickness of the span that can't be built, and why.
    pub unbuildable: Option<(Length, Told)>,
    /// Whether every detail that is told is as precise as was asked for.
    pub settled: bool,
}

impl AtThickness {
    /// Whether every target is met at nominal values.
    #[must_use]
    pub fn meets(&self) -> bool {
        missed(&self.nominal).is_empty()
    }

    fn settled(&self) -> bool {
        let mut values = self.nominal.iter().chain(&self.worst).flatten();
        values.all(|value| value.settled)
    }

    /// Whether every target is met at the adverse corners.
    #[must_use]
    pub fn meets_worst(&self) -> bool {
        missed(&self.worst).is_empty()
    }
}

/// The rows whose target is missed.
#[must_use]
pub fn missed(values: &[Option<Value>]) -> Vec<usize> {
    let short = |value: &Option<Value>| {
        value
            .as_ref()
            .is_some_and(|value| value.slack.is_nan() || value.slack < 0.0)
    };
    (0..values.len()).filter(|n| short(&values[*n])).collect()
}

/// The lines of a sizing's table: each margin at each condition.
fn rows(sizing: &Sizing) -> Vec<Row> {
    let of = |target: &Target| -> Vec<Row> {
        let row = |at| Row {
            target: *target,
            at,
        };
        match target.is_margin() {
            true => sizing.at.iter().map(|at| row(Some(*at))).collect(),
            false => vec![row(None)],
        }
    };
    sizing.targets.iter().flat_map(of).collect()
}
