//! The search itself: nominal, worst case, then the boards.

use super::bench::{Bench, worse};
use super::corner::{Corners, adverse};
use super::{AtThickness, Fidelity, Searched, Sized, rows};
use crate::check::Status;
use crate::model::{SizedPart, Sizing, Stop};
use crate::quantity::Length;
use crate::solve::sizing::{Search, Span, search};

/// Points across the span that show how the targets run.
const SAMPLES: usize = 9;
/// The same where details are solved.
const DETAIL_SAMPLES: usize = 5;
/// How exactly the least thickness is found, m.
const TOLERANCE: f64 = 1e-6;
/// The same on coarse grids, before it is corrected in full.
const DETAIL_TOLERANCE: f64 = 5e-5;
/// Which share of all a target changes by is rounding, and which a coarse grid's doing.
const NOISE: f64 = 1e-6;
const DETAIL_NOISE: f64 = 1e-2;
/// Corrections in full, and the share of the step taken beyond what the slope says.
const CORRECTIONS: usize = 3;
const BEYOND: f64 = 0.02;

/// Finds the thickness at which a sizing's targets are met, at the stops of a project.
///
/// # Example
/// ```
/// use dewmargin::check::{Status, sizing::size};
///
/// let text = include_str!("../../../examples/cabin-size.yaml");
/// let project = dewmargin::input::resolve_text("cabin-size.yaml", text).unwrap();
/// let outboard = project.sizings.iter().find(|one| one.layer == "outboard wool").unwrap();
/// let sized = size(outboard, &project.stops);
/// assert_eq!(sized.status, Status::Pass);
/// assert!(sized.board.unwrap().meets_worst() && !sized.thinner.unwrap().meets());
/// ```
#[must_use]
pub fn size<'a>(sizing: &'a Sizing, stops: &[Stop]) -> Sized<'a> {
    let at_humidity = |stop: &Stop| match sizing.humidity {
        Some(humidity) => stop.with_humidity(humidity),
        None => stop.clone(),
    };
    let stops: Vec<Stop> = stops.iter().map(at_humidity).collect();
    Bench::new(sizing, &stops, rows(sizing)).run()
}

impl<'a> Bench<'a, '_> {
    fn run(&self) -> Sized<'a> {
        let nominal = self.search(None);
        let (from, to) = self.sizing.between;
        // Where the layer is absent it has no corner.
        let middle = Length::from_m(0.5 * (from.as_m() + to.as_m()));
        let near = nominal.least.filter(|x| *x > 1e-4).map(Length::from_m);
        let corners = adverse(self, near.unwrap_or(middle));
        let worst = self.search(Some(&corners));
        let nominal_least = self.corrected(nominal.least, None);
        let worst_least = self.corrected(worst.least, Some(&corners));
        // The worst case is never kinder than the nominal one.
        let worst_least = nominal_least
            .zip(worst_least)
            .map(|(nominal, worst)| if nominal < worst { worst } else { nominal });
        let told = worst_least.or(nominal_least);
        let least = told.map(|thickness| self.at(thickness, &corners));
        let (board, thinner) = self.boards(nominal_least, worst_least, &corners);
        let ends = match &board {
            Some(_) => Vec::new(),
            None => self.ends(&corners),
        };
        let status = match &board {
            Some(board) if board.meets_worst() => Status::Pass,
            Some(_) => Status::Depends,
            None => Status::Fail,
        };
        let nominal = self.searched(&nominal, nominal_least, None);
        let worst = self.searched(&worst, worst_least, Some(&corners));
        let all_settled = |told: [&Option<AtThickness>; 3]| {
            let mut told = told.into_iter().flatten();
            told.all(AtThickness::settled)
        };
        let settled = all_settled([&least, &board, &thinner]);
        let unbuildable = self
            .unbuildable
            .lock()
            .ok()
            .and_then(|mut found| found.take());
        Sized {
            sizing: self.sizing,
            stops: self.stops.to_vec(),
            status,
            rows: self.rows.clone(),
            nominal,
            worst,
            least,
            board,
            thinner,
            ends,
            unbuildable: unbuildable.map(|(x, why)| (Length::from_m(x), why)),
            settled,
        }
    }

    fn has_details(&self) -> bool {
        let mut parts = self.sizing.parts.iter();
        parts.any(|part| matches!(part, SizedPart::Detail(_)))
    }

    fn search(&self, corners: Option<&Corners>) -> Search {
        let (from, to) = self.sizing.between;
        let (samples, tolerance, noise) = match self.has_details() {
            true => (DETAIL_SAMPLES, DETAIL_TOLERANCE, DETAIL_NOISE),
            false => (SAMPLES, TOLERANCE, NOISE),
        };
        let span = Span {
            from: from.as_m(),
            to: to.as_m(),
            samples,
            tolerance,
            noise,
        };
        search(|x| self.slacks(x, corners, Fidelity::Quick), &span)
    }

    /// A least thickness found on coarse grids, corrected until it is met in full.
    fn corrected(&self, least: Option<f64>, corners: Option<&Corners>) -> Option<Length> {
        let mut x = least?;
        let (from, to) = self.sizing.between;
        if !self.has_details() {
            return Some(Length::from_m(x));
        }
        const STEP: f64 = 1e-3;
        let worst = |slacks: Vec<f64>| {
            let pairs = slacks.into_iter().enumerate();
            pairs
                .min_by(|a, b| a.1.total_cmp(&b.1))
                .unwrap_or((0, f64::INFINITY))
        };
        for _ in 0..CORRECTIONS {
            let (row, slack) = worst(self.slacks(x, corners, Fidelity::Full));
            if slack >= 0.0 && (x <= from.as_m() || slack < self.near(row)) {
                return Some(Length::from_m(x));
            }
            let ahead = self.slacks(x + STEP, corners, Fidelity::Quick)[row];
            let slope = (ahead - self.slacks(x, corners, Fidelity::Quick)[row]) / STEP;
            let step = -slack / slope;
            if !step.is_finite() || slope <= 0.0 {
                break;
            }
            x = (x + step + BEYOND * step.abs()).clamp(from.as_m(), to.as_m());
        }
        let (_, slack) = worst(self.slacks(x, corners, Fidelity::Full));
        (slack >= 0.0).then_some(Length::from_m(x))
    }

    /// How near to its target a row has to come.
    fn near(&self, row: usize) -> f64 {
        match self.rows[row].target.is_margin() {
            true => 0.02,
            false => 1e-3,
        }
    }

    /// The least thickness sold that meets the targets, and the next thinner one. Each that is told
    /// is solved in full at that thickness: nothing rests on how the targets run in between.
    fn boards(
        &self,
        nominal: Option<Length>,
        worst: Option<Length>,
        corners: &Corners,
    ) -> (Option<AtThickness>, Option<AtThickness>) {
        let (from, to) = self.sizing.between;
        // Where nothing is needed, nothing is bought.
        if worst.or(nominal) == Some(Length::from_m(0.0)) {
            return (Some(self.at(Length::from_m(0.0), corners)), None);
        }
        let sold = self.sizing.sold.iter().copied();
        let sold: Vec<Length> = sold.filter(|one| from <= *one && *one <= to).collect();
        let first = |least: Length| {
            sold.iter()
                .position(|one| one.as_m() >= least.as_m() - 1e-9)
        };
        let meets: [fn(&AtThickness) -> bool; 2] = [AtThickness::meets_worst, AtThickness::meets];
        for (least, meets) in [worst, nominal].into_iter().zip(meets) {
            let Some(start) = least.and_then(first) else {
                continue;
            };
            let rest = sold.iter().enumerate().skip(start);
            let mut solved = rest.map(|(n, one)| (n, self.at(*one, corners)));
            let found = solved.find(|(_, at)| at.meets() && meets(at));
            let Some((mut chosen, mut board)) = found else {
                continue;
            };
            loop {
                let thinner = match chosen {
                    0 => (from < sold[0]).then_some(from),
                    n => Some(sold[n - 1]),
                };
                match thinner.map(|one| self.at(one, corners)) {
                    Some(thinner) if thinner.meets() && meets(&thinner) && chosen > 0 => {
                        board = thinner;
                        chosen -= 1;
                    }
                    thinner => return (Some(board), thinner),
                }
            }
        }
        (None, None)
    }

    /// Both ends of what can be had.
    fn ends(&self, corners: &Corners) -> Vec<AtThickness> {
        let (from, to) = self.sizing.between;
        let within = |one: &Length| from < *one && *one <= to;
        let thickest = self.sizing.sold.iter().copied().rfind(within);
        let ends = [Some(from), thickest].into_iter().flatten();
        ends.map(|one| self.at(one, corners)).collect()
    }

    fn searched(
        &self,
        found: &Search,
        least: Option<Length>,
        corners: Option<&Corners>,
    ) -> Searched {
        let best = (0..self.rows.len()).map(|row| {
            let thickness = Length::from_m(found.best[row].0);
            // What is met needs no best.
            let short = found.best[row].1 < 0.0;
            let value = short.then(|| self.values(thickness, corners, Fidelity::Full));
            (thickness, value.and_then(|mut all| all.swap_remove(row)))
        });
        Searched {
            least,
            trends: found.trends.clone(),
            best: best.collect(),
        }
    }

    fn at(&self, thickness: Length, corners: &Corners) -> AtThickness {
        let (nominal, worst) = rayon::join(
            || self.values(thickness, None, Fidelity::Full),
            || self.values(thickness, Some(corners), Fidelity::Full),
        );
        AtThickness {
            thickness,
            // What is adverse at one thickness needn't be so at another.
            worst: worse(nominal.clone(), worst),
            nominal,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::resolve_text;
    use rstest::rstest;

    // A coarse grid may say too little or too much: solved in full the target is met either way, and by no
    // more than the search allows.
    #[rstest]
    #[case::too_thin(0.024)]
    #[case::too_thick(0.036)]
    fn what_a_coarse_grid_says_is_corrected_from_both_sides(#[case] said: f64) {
        let text = include_str!("../../../examples/cabin-size.yaml");
        let project = resolve_text("cabin-size.yaml", text).expect("an example");
        let sizing = &project.sizings[0];
        let bench = Bench::new(sizing, &project.stops, rows(sizing));
        let least = bench.corrected(Some(said), None).expect("it can be met");
        let slacks = bench.slacks(least.as_m(), None, Fidelity::Full);
        let slack = slacks.into_iter().fold(f64::INFINITY, f64::min);
        assert!((0.0..0.02).contains(&slack), "{slack} K at {least:?}");
    }
}
