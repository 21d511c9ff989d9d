//! The same detail on finer and finer grids: what the numbers tend to, and how far off they are.
//!
//! Each grid has every interval of the one before split by two. Heat flows f1, f2, f3 (coarsest
//! first) are extrapolated with their observed order p (Richardson):
//!
//! ```text
//! p = log2((f2 − f1)/(f3 − f2)), held to 2/3 … 2     f = f3 + (f3 − f2)/(2^p − 1)
//! bar = |f − f3|
//! ```
//! At the edge of an inside corner temperatures converge with an order of 2/3 (the field there goes
//! with r^(2/3); Strang and Fix 1973), lower where metal meets foam. Where the differences shrink more
//! slowly than that, or not at all, nothing is extrapolated: the finest value stands, with three times
//! the last difference for a bar, or three quarters of the one before it if that is more.
//! Temperatures at surfaces and points sit beside such corners, and their order jumps from grid to
//! grid: they are never extrapolated. The bar of a point is what an order of 2/3 leaves, 1.7 times the
//! last difference or a quarter of the one before it; where even that order isn't seen, three times.
//! The coldest place of a surface or of a part lies in such a corner itself, and where two materials
//! meet in it the field goes with less than r^(2/3): its bar is what an order of 0.35 leaves, 3.6 times
//! the last difference, or five times. On 54 drawn cuts and 23 edges of new seeds that covers what an
//! independent solution on a far finer grid shows.

use super::ConductionError;
use super::grid::{Grading, Grid, MOST_CELLS};
use super::solver::SolveTolerance;
use crate::model::detail::Detail;

/// A number and how far it may be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// The best value.
    pub value: f64,
    /// The error bar, either way.
    pub bar: f64,
    /// The observed order of convergence, as it came out; `None` where the differences give none.
    pub order: Option<f64>,
}

/// What is asked of a result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Precision {
    /// The first grid; coarser if three grids wouldn't fit.
    pub grading: Grading,
    /// Largest bar of heat flows, as a share of the whole heat flow.
    pub heat_flow: f64,
    /// Largest bar of the coldest surfaces, K.
    pub surface: f64,
    /// No grid gets more cells than this; at most [`MOST_CELLS`].
    pub most_cells: usize,
    /// Of each solution.
    pub solve: SolveTolerance,
}

/// The order of convergence at the edge of an inside corner.
const LEAST_ORDER: f64 = 2.0 / 3.0;
/// Bar over the last difference where no order is to be seen.
const UNORDERED: f64 = 3.0;
/// The same in a corner where two materials meet.
const CORNER_ORDER: f64 = 0.35;
/// And where not even that is seen.
const UNORDERED_CORNER: f64 = 5.0;

/// Cells that a detail's finest grid usually has at most: what isn't settled by then is bracketed, within
/// some seconds and 300 MB.
const USUAL_MOST_CELLS: usize = 600_000;

/// How much coarser than usual the first grid of a quick solution is.
const QUICK: f64 = 2.5;

impl Precision {
    /// For searches that solve many: three coarse grids, and no more.
    #[must_use]
    pub fn quick() -> Self {
        let usual = Self::default();
        let mut grading = usual.grading;
        grading.scale *= QUICK;
        Self {
            grading,
            heat_flow: f64::INFINITY,
            surface: f64::INFINITY,
            ..usual
        }
    }
}

impl Default for Precision {
    /// 0.2 % of the heat flow, 0.1 K at the coldest surfaces.
    fn default() -> Self {
        Self {
            grading: Grading::default(),
            heat_flow: 0.002,
            surface: 0.1,
            most_cells: USUAL_MOST_CELLS,
            solve: SolveTolerance::default(),
        }
    }
}

impl Estimate {
    /// From the values on finer and finer grids; the last three count.
    ///
    /// # Example
    /// Errors that fall by four from grid to grid:
    /// ```
    /// use dewmargin::solve::conduction::Estimate;
    /// let estimate = Estimate::extrapolated(&[10.16, 10.04, 10.01]);
    /// assert!((estimate.value - 10.0).abs() < 1e-9 && (estimate.bar - 0.01).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn extrapolated(values: &[f64]) -> Self {
        let Some((first, second, value)) = last_three(values) else {
            return Self::unknown(values);
        };
        let (before, last) = (second - first, value - second);
        if last.abs() <= 1e-9 * value.abs() && before.abs() <= 1e-9 * value.abs() {
            let bar = last.abs();
            return Self {
                value,
                bar,
                order: None,
            };
        }
        let order = libm::log2(before / last);
        if !(order.is_finite() && order >= LEAST_ORDER) {
            return Self {
                value,
                bar: UNORDERED * last.abs().max(0.25 * before.abs()),
                order: order.is_finite().then_some(order),
            };
        }
        let correction = last / (libm::exp2(order.min(2.0)) - 1.0);
        Self {
            value: value + correction,
            bar: correction.abs(),
            order: Some(order),
        }
    }

    /// The finest value as it stands, of a point.
    #[must_use]
    pub fn finest(values: &[f64]) -> Self {
        Self::as_it_stands(values, LEAST_ORDER, UNORDERED)
    }

    /// The finest value as it stands, of the coldest place of a surface or of a part.
    #[must_use]
    pub fn coldest(values: &[f64]) -> Self {
        Self::as_it_stands(values, CORNER_ORDER, UNORDERED_CORNER)
    }

    /// With the bar that an order leaves at least, or where it isn't seen so many last differences.
    fn as_it_stands(values: &[f64], least: f64, unordered: f64) -> Self {
        let Some((first, second, value)) = last_three(values) else {
            return Self::unknown(values);
        };
        let (before, last) = ((second - first).abs(), (value - second).abs());
        let order = libm::log2(before / last);
        let rest = match order >= least {
            true => 1.0 / (libm::exp2(least) - 1.0),
            false => unordered,
        };
        Self {
            value,
            bar: rest * last.max(0.25 * before),
            order: order.is_finite().then_some(order),
        }
    }

    /// Between volumes and elements on the finest grid: the middle, with a bar that reaches both and
    /// further by the last step of the grids.
    #[must_use]
    pub fn between(by_volumes: &[f64], by_elements: f64, order: Option<f64>) -> Self {
        let Some((_, second, value)) = last_three(by_volumes) else {
            return Self::unknown(by_volumes);
        };
        Self {
            value: 0.5 * (value + by_elements),
            bar: 0.5 * (value - by_elements).abs() + (value - second).abs(),
            order,
        }
    }

    /// The same value, its bar wider by how far another one lies from it.
    #[must_use]
    pub fn reaching(self, other: Option<f64>) -> Self {
        Self {
            bar: self.bar + other.map_or(0.0, |other| (other - self.value).abs()),
            ..self
        }
    }

    /// The same, but for a factor.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        Self {
            value: self.value * factor,
            bar: self.bar * factor.abs(),
            order: self.order,
        }
    }

    fn unknown(values: &[f64]) -> Self {
        Self {
            value: values.last().copied().unwrap_or(f64::NAN),
            bar: f64::INFINITY,
            order: None,
        }
    }
}

fn last_three(values: &[f64]) -> Option<(f64, f64, f64)> {
    match values {
        [.., first, second, third] => Some((*first, *second, *third)),
        _ => None,
    }
}

/// What the grids so far say of the next one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Climb {
    /// It isn't needed.
    Settled,
    /// It may settle the result.
    On,
    /// It can't settle it: no grid that fits will.
    Hopeless,
}

/// Heat flows whose differences shrink with less than this order settle on no grid that fits: four times
/// the cells take off less than a fifth of what is left.
const HOPELESS_ORDER: f64 = 0.3;
/// Grids before that is believed.
const BELIEVED: usize = 4;

/// Whether a heat flow, by grid, tends to something no grid that fits will show.
pub(super) fn is_hopeless(heat_flows: &Estimate, grids: usize) -> bool {
    grids >= BELIEVED && heat_flows.order.is_some_and(|order| order < HOPELESS_ORDER)
}

/// Solves on three grids, then on finer ones as long as `say` wants them and the cells last. Gives what
/// was found on each grid, coarsest first, and whether it settled.
pub(super) fn climb<T>(
    detail: &Detail,
    precision: &Precision,
    mut solve: impl FnMut(Grid) -> T,
    say: impl Fn(&[T]) -> Climb,
) -> Result<(Vec<T>, bool), ConductionError> {
    let most = precision.most_cells.min(MOST_CELLS);
    let grading = first_grading(detail, &precision.grading, most)?;
    let mut found = Vec::new();
    for doubling in 0.. {
        let grid = match Grid::graded(detail, &grading, 1 << doubling) {
            Ok(grid) if grid.cells() <= most => grid,
            _ => return Ok((found, false)),
        };
        found.push(solve(grid));
        if found.len() >= 3 {
            match say(&found) {
                Climb::Settled => return Ok((found, true)),
                Climb::Hopeless => return Ok((found, false)),
                Climb::On => {}
            }
        }
    }
    Ok((found, false))
}

/// The grading asked for, or a coarser one that leaves room for three grids.
fn first_grading(
    detail: &Detail,
    grading: &Grading,
    most: usize,
) -> Result<Grading, ConductionError> {
    let mut grading = *grading;
    loop {
        let finest = Grid::graded(detail, &grading, 4);
        match finest {
            Ok(grid) if grid.cells() <= most => return Ok(grading),
            // Every interval is down to a single cell.
            other if grading.scale > 1e6 => {
                let cells = match other {
                    Ok(grid) => grid.cells(),
                    Err(ConductionError::TooManyCells { cells }) => cells,
                    Err(error) => return Err(error),
                };
                return Err(ConductionError::TooManyCells { cells });
            }
            _ => grading.scale *= 1.5,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use rstest::rstest;

    // Steps that shrink by 2^p from grid to grid leave last/(2^p − 1) (Richardson 1911). Where they shrink
    // at least with the least order, 2/3 or 0.35 in a corner, the bar is what that leaves: 1.70241 and
    // 3.64217 of the last step; else three and five of it.
    #[rstest]
    #[case::fast([0.4, 0.1], [0.170_241, 0.364_217])]
    #[case::between([0.1, 0.07], [0.21, 0.254_952])]
    #[case::slow([0.1, 0.09], [0.27, 0.45])]
    fn bars_of_values_as_they_stand(#[case] steps: [f64; 2], #[case] bars: [f64; 2]) {
        let values = [10.0 - steps[0] - steps[1], 10.0 - steps[1], 10.0];
        for (estimate, bar) in [
            (Estimate::finest(&values), bars[0]),
            (Estimate::coldest(&values), bars[1]),
        ] {
            assert_eq!(estimate.value, 10.0);
            assert_relative_eq!(estimate.bar, bar, max_relative = 1e-5);
        }
    }
}
