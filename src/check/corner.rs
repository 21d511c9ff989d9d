//! The corner of the materials' ranges that is worst for a check, or best.
//!
//! A corner has every property at one end of its spread. Moving one property at a time from the
//! nominal values finds it where every property acts one way whatever the others are. That isn't
//! always so: which of two planes is the worse one, and which way a permeance acts, can hang on the
//! rest. So the search starts from the corner that is worst for each place by itself, and from the
//! opposite one, and turns single properties until none makes it worse. All 2ⁿ corners of some
//! sections are looked at in `tests/properties/corners.rs`.

use std::collections::HashMap;

use crate::solve::PathResult;
use crate::solve::year::WaterYear;

/// How a check comes out: severity first, then how far over its limit. Greater is worse.
pub(super) type Badness = (u8, f64);

/// Rounds over all properties from one start: each round turns at least one, so few are needed.
const ROUNDS: usize = 8;
/// Places whose own corner is started from: the named one, then those that come out worst.
const STARTS: usize = 3;
/// What moves a place less than this doesn't move it.
const NO_EFFECT: f64 = 1e-12;

/// What is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Seek {
    /// The adverse corner.
    Worst,
    /// The kind one.
    Best,
}

impl Seek {
    fn prefers(self, one: Badness, other: Badness) -> bool {
        match self {
            Self::Worst => one > other,
            Self::Best => one < other,
        }
    }

    /// Whether no word lies beyond it.
    fn is_reached(self, found: Badness) -> bool {
        match self {
            Self::Worst => found.0 >= 2,
            Self::Best => found.0 == 0,
        }
    }
}

/// A corner by its properties: whether each is at the high end.
pub(super) type Corner = Vec<bool>;

/// The corners to start from: for every place the one that is worst, or best, as far as moving one
/// property at a time tells, and the opposite of the first. `by_place[p][k]` are the badnesses of place
/// k with property p at its low and its high end.
/// The place that the finding names comes first.
pub(super) fn starts(seek: Seek, by_place: &[Vec<[f64; 2]>], named: Option<usize>) -> Vec<Corner> {
    let places = by_place.iter().map(Vec::len).min().unwrap_or(0);
    let named = named.filter(|place| *place < places);
    let of_place = |place: usize| -> Corner {
        let high = |ends: &Vec<[f64; 2]>| match seek {
            Seek::Worst => ends[place][1] > ends[place][0],
            Seek::Best => ends[place][1] < ends[place][0],
        };
        by_place.iter().map(high).collect()
    };
    let ends = |place: usize| by_place.iter().map(move |ends| ends[place]);
    let moves = |place: &usize| ends(*place).any(|[low, high]| (low - high).abs() > NO_EFFECT);
    let worst = |place: usize| ends(place).flatten().fold(f64::NEG_INFINITY, f64::max);
    let mut others: Vec<usize> = (0..places).filter(moves).collect();
    others.sort_by(|a, b| worst(*b).total_cmp(&worst(*a)));
    let mut starts: Vec<Corner> = Vec::new();
    for place in named.into_iter().chain(others) {
        let corner = of_place(place);
        if !starts.contains(&corner) {
            starts.push(corner);
        }
        if starts.len() == STARTS {
            break;
        }
    }
    if let Some(first) = starts.first() {
        let opposite: Corner = first.iter().map(|high| !high).collect();
        if !starts.contains(&opposite) {
            starts.push(opposite);
        }
    }
    starts
}

/// The worst, or best, corner that is found from the starts. `evaluate` is asked once for each corner.
/// Where only the `word` is asked for, the search ends at one that no other can pass.
pub(super) fn search(
    seek: Seek,
    word: bool,
    starts: Vec<Corner>,
    evaluate: impl Fn(&[bool]) -> Badness,
) -> Option<Badness> {
    let mut known: HashMap<Corner, Badness> = HashMap::new();
    let mut at = |corner: &Corner| match known.get(corner) {
        Some(badness) => *badness,
        None => *known.entry(corner.clone()).or_insert(evaluate(corner)),
    };
    let mut found: Option<Badness> = None;
    for mut corner in starts {
        let mut here = at(&corner);
        for _ in 0..ROUNDS {
            let before = here;
            for property in 0..corner.len() {
                if word && seek.is_reached(here) {
                    return Some(here);
                }
                corner[property] = !corner[property];
                let turned = at(&corner);
                match seek.prefers(turned, here) {
                    true => here = turned,
                    false => corner[property] = !corner[property],
                }
            }
            if here == before {
                break;
            }
        }
        if found.is_none_or(|found| seek.prefers(here, found)) {
            found = Some(here);
        }
    }
    found
}

/// How cold each plane is on the winter mean.
pub(super) fn cold_in_winter(path: &PathResult) -> Vec<f64> {
    let planes = path.winter.planes.iter();
    planes
        .map(|plane| -plane.temperature.as_celsius())
        .collect()
}

/// How cold each plane is in each month.
pub(super) fn cold_by_month(path: &PathResult) -> Vec<f64> {
    let months = path.months.iter().flatten();
    months
        .map(|temperature| -temperature.as_celsius())
        .collect()
}

/// Water by plane, then inside the layers; where nothing condenses, how humid it gets.
pub(super) fn wet_in_the_year(path: &PathResult) -> Vec<f64> {
    let Some(year) = &path.year else {
        return Vec::new();
    };
    let held = |water: &WaterYear| water.peak + 12.0 * water.left_over;
    let planes = year.planes.iter().enumerate().map(|(plane, water)| {
        let months = year.months.iter();
        let humidities = months.filter_map(|month| month.humidity(plane));
        match held(water) > 0.0 {
            true => 1.0 + held(water),
            false => humidities.fold(0.0, f64::max),
        }
    });
    planes.chain(year.inside.iter().map(held)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two places: the first is worse with both properties high, the second with both low, and far
    /// worse where they differ, which moving one at a time from the middle can't tell.
    #[test]
    fn a_corner_that_no_single_move_shows() {
        let evaluate = |corner: &[bool]| -> Badness {
            match corner {
                [true, false] => (1, 5.0),
                [true, true] => (0, 1.0),
                _ => (0, 0.5),
            }
        };
        let by_place = vec![vec![[0.0, 1.0], [1.0, 0.0]]; 2];
        let starts = starts(Seek::Worst, &by_place, None);
        assert_eq!(starts, [vec![true, true], vec![false, false]]);
        assert_eq!(search(Seek::Worst, true, starts, evaluate), Some((1, 5.0)));
    }

    /// A turn that makes it no worse is taken back: with the first property high nothing is, so the
    /// worst is found by turning the second one alone.
    #[test]
    fn a_turn_that_does_not_help_is_taken_back() {
        let evaluate = |corner: &[bool]| -> Badness {
            match corner {
                [true, _] => (0, 0.0),
                [_, false] => (0, 1.0),
                _ => (0, 2.0),
            }
        };
        let starts = vec![vec![false, false]];
        assert_eq!(search(Seek::Worst, false, starts, evaluate), Some((0, 2.0)));
    }
}
