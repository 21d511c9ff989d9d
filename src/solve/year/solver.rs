//! Years one after another, until they are steady.

use rayon::prelude::*;

use super::engine::Engine;
use super::record::Record;
use super::{MOST_CYCLES, Year, seconds_of};
use crate::solve::profile::{Boundary, Slab};

/// Change of a year's gain, as a part of the most water held, that counts as steady.
const STEADY: f64 = 1e-9;

/// Solves years one after another in the same memory.
#[derive(Debug, Default)]
pub struct YearSolver {
    pub(super) engine: Engine,
    steadiness: Steadiness,
}

impl YearSolver {
    /// As [`super::solve_year`].
    #[must_use]
    pub fn solve(&mut self, slabs: &[Slab], months: &[Boundary; 12]) -> Year {
        let engine = &mut self.engine;
        engine.prepare(slabs, months);
        let wet = std::array::from_fn(|month| engine.condenses(month));
        let start = first_after_dry(&wet);
        self.steadiness.begin(&engine.water);
        let mut record = Record::new(engine);
        let (mut cycles, mut settled) = (0, false);
        while cycles < MOST_CYCLES && !settled {
            record.begin(&engine.water);
            run(engine, start.unwrap_or(0), |engine, month| {
                record_month(engine, month, &mut record);
            });
            cycles += 1;
            settled = self.steadiness.after(&engine.water);
        }
        let engine = &self.engine;
        let (planes, inside) = record.water(engine, start.unwrap_or(0));
        Year {
            months: record.months(engine),
            planes,
            inside,
            start,
            cycles,
            settled,
            converged: engine.consistent,
        }
    }

    /// The bare reckoning, for batches and for comparison with other programs: a given number of
    /// yearly cycles from dry. `held` gets the water held at each month's end of the last one,
    /// January first, node by node: planes and slices from the room's surface to the outer one.
    /// Returns the month the years start with.
    pub fn held_after(
        &mut self,
        slabs: &[Slab],
        months: &[Boundary; 12],
        cycles: usize,
        held: &mut Vec<f64>,
    ) -> Option<usize> {
        let engine = &mut self.engine;
        engine.prepare(slabs, months);
        let wet = std::array::from_fn(|month| engine.condenses(month));
        let start = first_after_dry(&wet);
        let nodes = engine.nodes.count() - 2;
        held.resize(12 * nodes, 0.0);
        let Some(first) = start.filter(|_| cycles > 0) else {
            held.fill(0.0);
            return start;
        };
        for cycle in 1..=cycles {
            run(engine, first, |engine, month| {
                if wet[month] || !engine.is_dry() {
                    engine.month(month, seconds_of(month), false, |_| true);
                }
                if cycle == cycles {
                    held[month * nodes..][..nodes].copy_from_slice(&engine.water[1..=nodes]);
                }
            });
        }
        start
    }
}

/// Compares the years' gains.
#[derive(Debug, Default)]
struct Steadiness {
    before: Vec<f64>,
    gains: Vec<f64>,
}

impl Steadiness {
    /// The first year begins with this water, and counts as gaining nothing.
    fn begin(&mut self, water: &[f64]) {
        self.before.clear();
        self.before.extend_from_slice(water);
        self.gains.clear();
        self.gains.resize(water.len(), 0.0);
    }

    /// Whether the year that left this water gained what the one before it did.
    fn after(&mut self, water: &[f64]) -> bool {
        let most = water.iter().copied().fold(0.0, f64::max);
        let mut steady = true;
        for ((now, before), gain) in water.iter().zip(&mut self.before).zip(&mut self.gains) {
            let gained = now - *before;
            steady &= (gained - *gain).abs() <= STEADY * most;
            (*before, *gain) = (*now, gained);
        }
        steady
    }
}

/// Solves many paths, each under its own year, on all cores; the years come in their order.
#[must_use]
pub fn solve_years(paths: &[(Vec<Slab>, [Boundary; 12])]) -> Vec<Year> {
    paths
        .par_iter()
        .map_init(YearSolver::default, |solver, (slabs, months)| {
            solver.solve(slabs, months)
        })
        .collect()
}

/// The first month that condenses after one that doesn't; January where all of them do.
fn first_after_dry(wet: &[bool; 12]) -> Option<usize> {
    let after_dry = (0..12).find(|month| wet[*month] && !wet[(*month + 11) % 12]);
    after_dry.or(wet[0].then_some(0))
}

/// One year from a month on.
fn run(engine: &mut Engine, start: usize, mut each: impl FnMut(&mut Engine, usize)) {
    for n in 0..12 {
        each(engine, (start + n) % 12);
    }
}

fn record_month(engine: &mut Engine, month: usize, record: &mut Record) {
    let planes = std::mem::take(&mut engine.nodes.planes);
    engine.month(month, seconds_of(month), true, |phase| {
        record.note(month, phase, &planes);
        true
    });
    engine.nodes.planes = planes;
}

#[cfg(test)]
mod tests {
    use super::*;

    // Steady is a year that gains what the one before gained, and before the first one that was nothing:
    // a dry place is steady at once, one that gains 0.1 kg/m² a year after its second year.
    #[test]
    fn a_year_like_the_one_before_is_steady() {
        let mut steadiness = Steadiness::default();
        steadiness.begin(&[0.0, 0.0]);
        assert!(steadiness.after(&[0.0, 0.0]));
        steadiness.begin(&[0.0, 0.5]);
        assert!(!steadiness.after(&[0.0, 0.6]));
        assert!(steadiness.after(&[0.0, 0.7]));
    }
}
