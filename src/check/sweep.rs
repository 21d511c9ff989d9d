//! A sweep's rows: every combination through all checks of assemblies, at nominal values.
//!
//! A row hangs on its number alone, not on the rows before it: a sweep can be left and taken up
//! anywhere.

use std::sync::OnceLock;

use rayon::prelude::*;

use super::{ALL, Check, Column, Finding, Status, judge_nominal};
use crate::model::{Case, Stop, Sweep};
use crate::solve::year::YearSolver;
use crate::solve::{Extent, solve_with};

/// What one worker of a sweep keeps from row to row: room to solve years in.
pub type Workspace = YearSolver;

/// Up to this many assemblies and as many surroundings are kept ready.
const KEPT: u64 = 1024;

/// The checks that a sweep shows, in the order of their columns.
pub fn columns() -> impl Iterator<Item = (&'static Check, &'static Column)> {
    ALL.into_iter()
        .filter_map(|check| Some((check, check.column.as_ref()?)))
}

/// One check's result in a row.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cell {
    /// The worst status of the check; `None` where it doesn't apply.
    pub status: Option<Status>,
    /// Margin in K, days to dry, peak water in kg/m² or humidity as a fraction, as the column says.
    pub value: Option<f64>,
    /// What peak water is held against, kg/m².
    pub limit: Option<f64>,
}

/// One combination.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its number, from 0.
    pub number: u64,
    /// Which value of each axis it has.
    pub choice: Vec<usize>,
    /// The worst of the checks.
    pub verdict: Status,
    /// The least margin among the judged findings on the winter mean, K.
    pub least_margin: Option<f64>,
    /// By check, in the order of [`columns`].
    pub cells: Vec<Cell>,
    /// U, W/(m²·K): least and greatest of the openings of vented air, or of the bracket with strips.
    pub transmittance: [f64; 2],
    /// Thickness of all layers, m.
    pub thickness: f64,
    /// Weight per area, kg/m²; `None` where a density isn't known.
    pub weight: Option<f64>,
}

/// Computes rows of a sweep, in any order and from several threads at once.
///
/// # Example
/// ```
/// use dewmargin::check::sweep::Rows;
///
/// let text = include_str!("../../examples/cabin-sweep.yaml");
/// let project = dewmargin::input::resolve_text("sweep.yaml", text).unwrap();
/// let rows = Rows::new(&project.sweeps[0]);
/// let mut solver = dewmargin::check::sweep::Workspace::default();
/// let (bare, foamed) = (rows.row(&mut solver, 0), rows.row(&mut solver, rows.count() - 1));
/// assert!(foamed.transmittance[1] < bare.transmittance[1]);
/// ```
#[derive(Debug)]
pub struct Rows<'a> {
    sweep: &'a Sweep,
    cases: Vec<OnceLock<Case>>,
    stops: Vec<OnceLock<Stop>>,
}

impl<'a> Rows<'a> {
    /// The rows of a sweep.
    #[must_use]
    pub fn new(sweep: &'a Sweep) -> Self {
        let kept = |of_assembly: bool| {
            let axes = sweep.axes.iter().map(|axis| &axis.values);
            let counts = axes.filter(|values| values.is_of_the_assembly() == of_assembly);
            let count = counts.fold(1, |all: u64, one| all.saturating_mul(one.count() as u64));
            if count <= KEPT { count as usize } else { 0 }
        };
        Self {
            sweep,
            cases: (0..kept(true)).map(|_| OnceLock::new()).collect(),
            stops: (0..kept(false)).map(|_| OnceLock::new()).collect(),
        }
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.sweep.count()
    }

    /// One row; the solver lends its memory.
    #[must_use]
    pub fn row(&self, solver: &mut YearSolver, number: u64) -> Row {
        let choice = self.sweep.choice(number);
        let case = || Case {
            variant: None,
            assembly: self.sweep.assembly(&choice),
        };
        let stop = || self.sweep.stop(&choice);
        let (own_case, own_stop);
        let case = match self.cases.get(self.key(&choice, true)) {
            Some(kept) => kept.get_or_init(case),
            None => {
                own_case = case();
                &own_case
            }
        };
        let stop = match self.stops.get(self.key(&choice, false)) {
            Some(kept) => kept.get_or_init(stop),
            None => {
                own_stop = stop();
                &own_stop
            }
        };
        judged(solver, (number, choice), case, stop)
    }

    /// The rows of the first two axes, the other axes at their first values; as many as a drawing
    /// shows.
    #[must_use]
    pub fn of_first_two(&self) -> Vec<Row> {
        let counts = self
            .sweep
            .axes
            .iter()
            .map(|axis| axis.values.count() as u64);
        let counts: Vec<u64> = counts.collect();
        let others: u64 = counts.iter().skip(2).product();
        let shown = self.count() / others.max(1);
        let row = |solver: &mut YearSolver, n: u64| self.row(solver, n * others);
        (0..shown)
            .into_par_iter()
            .map_init(YearSolver::default, row)
            .collect()
    }

    /// Which of the assemblies, or of the surroundings, a combination has.
    fn key(&self, choice: &[usize], of_assembly: bool) -> usize {
        let axes = self.sweep.axes.iter().zip(choice);
        let axes = axes.filter(|(axis, _)| axis.values.is_of_the_assembly() == of_assembly);
        axes.fold(0_usize, |key, (axis, index)| {
            key.saturating_mul(axis.values.count())
                .saturating_add(*index)
        })
    }
}

fn judged(
    solver: &mut YearSolver,
    (number, choice): (u64, Vec<usize>),
    case: &Case,
    stop: &Stop,
) -> Row {
    let result = solve_with(solver, &case.assembly, &stop.conditions, Extent::All);
    let verdict = judge_nominal(case, stop, &result);
    let u = result.ends.iter().flat_map(|end| {
        let u = &end.transmittance;
        match u.combined {
            Some(combined) => [combined, combined],
            None => [u.parallel_path, u.isothermal_planes],
        }
    });
    let (least, greatest) = u.fold((f64::INFINITY, 0.0_f64), |(least, greatest), u| {
        (least.min(u), greatest.max(u))
    });
    Row {
        number,
        choice,
        verdict: verdict.status,
        least_margin: verdict.least_margin.map(|margin| margin.as_kelvin()),
        cells: columns()
            .map(|(check, column)| cell(check, column, &verdict.findings))
            .collect(),
        transmittance: [least, greatest],
        thickness: result.thickness.as_m(),
        weight: result.weight.map(|weight| weight.as_si()),
    }
}

/// A check's worst finding; findings stand worst first.
fn cell(check: &Check, column: &Column, findings: &[Finding]) -> Cell {
    let mut of_it = findings.iter().filter(|finding| finding.check == check);
    let Some(first) = of_it.next() else {
        return Cell::default();
    };
    let mut worst = first;
    for other in of_it {
        let rank = |finding: &Finding| (finding.status != Status::Note, finding.status.severity());
        let margin = |finding: &Finding| {
            finding
                .margin
                .map_or(f64::INFINITY, |margin| margin.as_kelvin())
        };
        let worse = rank(other) > rank(worst)
            || rank(other) == rank(worst) && margin(other) < margin(worst);
        if worse {
            worst = other;
        }
    }
    let [value, limit] = (column.measure)(worst);
    Cell {
        status: Some(worst.status),
        value,
        limit,
    }
}
