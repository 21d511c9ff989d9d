//! Axes: numbers up the sheet, months across it.

use super::sheet::{FAINT, GRAY, Lettering, SIZE, Sheet};
use crate::quantity::fixed;

/// The least distance of two marks with their numbers.
const APART: i32 = 380;
/// Length of a mark.
const TICK: i32 = 90;

/// An axis that runs up the sheet.
#[derive(Clone, Copy)]
pub(super) struct Axis {
    /// The least and the greatest value.
    pub(super) values: (f64, f64),
    /// Where they lie.
    pub(super) ends: (i32, i32),
}

impl Axis {
    /// Where a value lies; values beyond the ends lie at them.
    pub(super) fn at(&self, value: f64) -> i32 {
        let (low, high) = self.values;
        let share = ((value - low) / (high - low)).clamp(0.0, 1.0);
        let share = if share.is_nan() { 0.0 } else { share };
        let (bottom, top) = (f64::from(self.ends.0), f64::from(self.ends.1));
        (bottom + share * (top - bottom)).round() as i32
    }

    /// Round values with their words, as many as there is room for.
    fn marks(&self) -> Vec<(f64, String)> {
        let room = (self.ends.0 - self.ends.1).abs();
        let most = (room / (SIZE * 13 / 10)).clamp(2, 6);
        let (low, high) = self.values;
        let power = libm::log10(high - low);
        if !power.is_finite() {
            return Vec::new();
        }
        let power = power.floor() as i32 - 1;
        let steps = (power..power + 4).flat_map(|p| [1, 2, 5].map(|n| (n, p)));
        for (n, power) in steps {
            let step = f64::from(n) * libm::pow(10.0, f64::from(power));
            let (first, last) = ((low / step).ceil(), (high / step + 1e-9).floor());
            let apart = f64::from(room) * step / (high - low);
            if last - first >= f64::from(most) || last > first && apart < f64::from(APART) {
                continue;
            }
            let decimals = usize::try_from(-power).unwrap_or(0);
            let words = |value: f64| {
                let number = match value.abs() >= 1e6 {
                    true => format!("{value:e}"),
                    false => fixed(value, decimals),
                };
                number.replace('-', "−")
            };
            return (first as i64..=last as i64)
                .map(|n| n as f64 * step)
                .map(|value| (value, words(value)))
                .collect();
        }
        Vec::new()
    }

    /// Draws it at the left of a chart: its line, its marks and their numbers.
    pub(super) fn draw(&self, sheet: &mut Sheet, x: i32) {
        sheet.line(vec![(x, self.ends.0), (x, self.ends.1)], FAINT, 15);
        for (value, words) in self.marks() {
            let y = self.at(value);
            sheet.line(vec![(x - TICK, y), (x, y)], FAINT, 15);
            let gray = Lettering::PLAIN.color(GRAY).right();
            sheet.text(&words, (x - TICK - 60, y + SIZE * 36 / 100), gray);
        }
    }
}

/// Twelve months across the sheet.
#[derive(Clone, Copy)]
pub(super) struct MonthAxis {
    /// The month at the left, 0 is January.
    pub(super) start: usize,
    /// Left and right end.
    pub(super) ends: (i32, i32),
}

impl MonthAxis {
    /// The months from left to right with their place.
    pub(super) fn months(self) -> impl Iterator<Item = (usize, usize)> {
        (0..12).map(move |place| (place, (self.start + place) % 12))
    }

    /// The left edge of a place; 12 is the right end.
    pub(super) fn edge(self, place: usize) -> i32 {
        let (left, right) = self.ends;
        left + (right - left) * i32::try_from(place.min(12)).unwrap_or(12) / 12
    }

    /// The middle of a place.
    pub(super) fn middle(self, place: usize) -> i32 {
        (self.edge(place) + self.edge(place + 1)) / 2
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(values: (f64, f64), room: i32) -> Vec<String> {
        let axis = Axis {
            values,
            ends: (room, 0),
        };
        axis.marks().into_iter().map(|(_, words)| words).collect()
    }

    #[test]
    fn marks_are_round_and_few_at_any_size() {
        assert_eq!(words((0.0, 0.21), 1800), ["0.0", "0.1", "0.2"]);
        assert_eq!(words((-3.0, 7.0), 1000), ["0", "5"]);
        assert_eq!(words((-6.0, 2.4), 1000), ["−5", "0"]);
        assert_eq!(words((-1.0, 0.3), 400), ["0"]);
        assert_eq!(words((0.0, 1640.0), 1500), ["0", "1000"]);
        assert_eq!(words((0.0, 4e12), 1500), ["0", "2e12", "4e12"]);
        assert_eq!(words((0.0, 0.0), 1500), Vec::<String>::new());
        assert_eq!(words((0.0, f64::INFINITY), 1500), Vec::<String>::new());
    }

    #[test]
    fn values_beyond_the_ends_lie_at_them() {
        let axis = Axis {
            values: (0.0, 2.0),
            ends: (1000, 0),
        };
        assert_eq!(
            [-1.0, 1.0, 9.0, f64::NAN].map(|v| axis.at(v)),
            [1000, 500, 0, 1000]
        );
    }

    #[test]
    fn months_go_around_from_the_start() {
        let axis = MonthAxis {
            start: 9,
            ends: (0, 1200),
        };
        assert_eq!(axis.months().map(|(_, month)| month).next(), Some(9));
        assert_eq!(axis.months().last(), Some((11, 8)));
        assert_eq!(axis.edge(3), 300);
    }
}
