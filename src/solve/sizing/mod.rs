//! The least value of one number, such as a layer's thickness, that meets several targets at once.
//!
//! Problem: a slack for each target as a function of x, positive where the target is met; wanted is
//! the least x of a span at which none is negative, or why there is none. How x gets into a model
//! and what a slack means is the caller's business.
//!
//! Method: samples across the span show how each slack runs. Where all of them only rise or only
//! fall, the first pair of neighbors between which the last target comes to be met holds the answer,
//! and bracketing finds it (`root`). A slack that does both is looked at on a grid four times as
//! fine: that may still miss a narrow window, and [`Trend::Mixed`] says so.

mod root;

pub use root::first_met;

use rayon::prelude::*;

/// How much finer the grid gets where a slack rises and falls.
const FINER: usize = 4;

/// How a slack runs over the span.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trend {
    /// More helps.
    Rising,
    /// More hurts.
    Falling,
    /// It changes nothing.
    Flat,
    /// It helps here and hurts there: searched on a grid.
    Mixed,
}

/// What came out.
#[derive(Clone, Debug, PartialEq)]
pub struct Search {
    /// The least x that meets every target.
    pub least: Option<f64>,
    /// By target: how it runs.
    pub trends: Vec<Trend>,
    /// By target: the x at which it comes out best, the least of equals, and its slack there.
    pub best: Vec<(f64, f64)>,
}

impl Search {
    /// The targets that no x of the span meets. Empty where every one can be met, if not at one x.
    #[must_use]
    pub fn out_of_reach(&self) -> Vec<usize> {
        let short = |n: &usize| self.best[*n].1 < 0.0;
        (0..self.best.len()).filter(short).collect()
    }
}

/// How a span is searched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The least x.
    pub from: f64,
    /// The greatest.
    pub to: f64,
    /// Points across it, at least two.
    pub samples: usize,
    /// How exactly the least x is found.
    pub tolerance: f64,
    /// Changes of a slack smaller than this share of all it changes by are noise, not a trend.
    pub noise: f64,
}

/// Searches a span.
///
/// # Example
/// Ten times the thickness is wanted above 3, and the thickness below 0.5:
/// ```
/// use dewmargin::solve::sizing::{Span, Trend, search};
/// let span = Span { from: 0.0, to: 1.0, samples: 5, tolerance: 1e-9, noise: 1e-6 };
/// let found = search(|x| vec![10.0 * x - 3.0, 0.5 - x], &span);
/// assert!((found.least.unwrap() - 0.3).abs() < 1e-8);
/// assert_eq!(found.trends, [Trend::Rising, Trend::Falling]);
/// ```
#[must_use]
pub fn search(slacks: impl Fn(f64) -> Vec<f64> + Sync, span: &Span) -> Search {
    let (from, to) = (span.from, span.to);
    let sample = |count: usize| -> Vec<(f64, Vec<f64>)> {
        let last = count.max(2) - 1;
        let at = |n: usize| from + (to - from) * n as f64 / last as f64;
        let points = (0..=last).into_par_iter();
        points.map(|n| (at(n), slacks(at(n)))).collect()
    };
    let mut points = sample(span.samples);
    let mut trends = trends(&points, span.noise);
    if trends.contains(&Trend::Mixed) {
        points = sample((span.samples.max(2) - 1) * FINER + 1);
        trends = self::trends(&points, span.noise);
    }
    let mut best = best(&points);
    let least = least(&slacks, &points, span.tolerance);
    if let Some(x) = least {
        // What is met there needn't be met at any sample.
        for (best, slack) in best.iter_mut().zip(slacks(x)) {
            if slack > best.1 {
                *best = (x, slack);
            }
        }
    }
    Search {
        least,
        trends,
        best,
    }
}

fn least(
    slacks: &(impl Fn(f64) -> Vec<f64> + Sync),
    points: &[(f64, Vec<f64>)],
    tolerance: f64,
) -> Option<f64> {
    let first = points.first().filter(|(_, slack)| is_met(slack));
    if let Some((x, _)) = first {
        return Some(*x);
    }
    points.windows(2).find_map(|pair| {
        let [(a, left), (b, right)] = pair else {
            return None;
        };
        let gained: Vec<usize> = missed(left);
        let lost: Vec<usize> = missed(right);
        // A target that is met at neither end isn't met between them.
        if gained.iter().any(|n| lost.contains(n)) {
            return None;
        }
        let worst_of = |of: &[usize], all: &[f64]| {
            let least = of.iter().map(|n| all[*n]);
            least.fold(f64::INFINITY, f64::min)
        };
        let ends = (worst_of(&gained, left), worst_of(&gained, right));
        let x = first_met(|x| worst_of(&gained, &slacks(x)), (*a, *b), ends, tolerance);
        (lost.is_empty() || is_met(&slacks(x))).then_some(x)
    })
}

fn is_met(slacks: &[f64]) -> bool {
    missed(slacks).is_empty()
}

/// The targets that are missed. What isn't a number isn't met.
fn missed(slacks: &[f64]) -> Vec<usize> {
    let is_met = |slack: f64| slack >= 0.0;
    (0..slacks.len()).filter(|n| !is_met(slacks[*n])).collect()
}

fn trends(points: &[(f64, Vec<f64>)], noise: f64) -> Vec<Trend> {
    let count = points.first().map_or(0, |(_, slacks)| slacks.len());
    let of = |n: usize| {
        let values: Vec<f64> = points.iter().map(|(_, slacks)| slacks[n]).collect();
        let finite = || values.iter().copied().filter(|value| value.is_finite());
        let span =
            finite().fold(f64::NEG_INFINITY, f64::max) - finite().fold(f64::INFINITY, f64::min);
        let least = if span.is_finite() { noise * span } else { 0.0 };
        let changes = |sign: f64| {
            let steps = values.windows(2);
            steps
                .into_iter()
                .any(|pair| sign * (pair[1] - pair[0]) > least)
        };
        match (changes(1.0), changes(-1.0)) {
            (true, true) => Trend::Mixed,
            (true, false) => Trend::Rising,
            (false, true) => Trend::Falling,
            (false, false) => Trend::Flat,
        }
    };
    (0..count).map(of).collect()
}

fn best(points: &[(f64, Vec<f64>)]) -> Vec<(f64, f64)> {
    let count = points.first().map_or(0, |(_, slacks)| slacks.len());
    let of = |n: usize| {
        let all = points.iter().map(|(x, slacks)| (*x, slacks[n]));
        all.fold((f64::NAN, f64::NEG_INFINITY), |best, one| {
            if one.1 > best.1 || best.0.is_nan() {
                one
            } else {
                best
            }
        })
    };
    (0..count).map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// From 0 to 1.
    fn unit(slacks: impl Fn(f64) -> Vec<f64> + Sync, samples: usize) -> Search {
        let span = Span {
            from: 0.0,
            to: 1.0,
            samples,
            tolerance: 1e-9,
            noise: 1e-6,
        };
        search(slacks, &span)
    }

    #[test]
    fn what_is_met_at_once_needs_nothing() {
        let found = unit(|x| vec![x + 1.0], 3);
        assert_eq!(found.least, Some(0.0));
    }

    #[test]
    fn a_target_out_of_reach_stops_it() {
        let found = unit(|x| vec![x - 0.5, -1.0 - x], 5);
        assert_eq!(found.least, None);
        assert_eq!(found.out_of_reach(), [1]);
        assert_eq!(found.best[1], (0.0, -1.0));
    }

    #[test]
    fn targets_that_exclude_each_other_can_each_be_met() {
        let found = unit(|x| vec![x - 0.8, 0.2 - x], 5);
        assert_eq!(found.least, None);
        assert!(found.out_of_reach().is_empty());
    }

    #[test]
    fn a_window_between_two_samples_is_found() {
        let found = unit(|x| vec![x - 0.30, 0.32 - x], 5);
        assert_abs_diff_eq!(found.least.unwrap(), 0.30, epsilon = 1e-8);
        let found = unit(|x| vec![x - 0.32, 0.30 - x], 5);
        assert_eq!(found.least, None);
    }

    #[test]
    fn what_does_not_change_has_no_trend() {
        let found = unit(|x| vec![1.0, x - 0.5, 0.7 - x], 5);
        assert_eq!(found.trends, [Trend::Flat, Trend::Rising, Trend::Falling]);
    }

    #[test]
    fn a_hill_is_searched_on_a_finer_grid() {
        let hill = |x: f64| vec![0.01 - (x - 0.6) * (x - 0.6)];
        let found = unit(hill, 5);
        assert_eq!(found.trends, [Trend::Mixed]);
        assert_abs_diff_eq!(found.least.unwrap(), 0.5, epsilon = 1e-7);
    }

    #[test]
    fn what_is_not_a_number_is_not_met() {
        let found = unit(|_| vec![f64::NAN], 3);
        assert_eq!(found.least, None);
    }
}
