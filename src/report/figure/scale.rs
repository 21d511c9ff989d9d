//! Drawing scales and temperature axes.

use crate::quantity::{Dimension, Length, Style, Temperature, UnitSystem, fixed};

/// The scales builders use, as paper to life, with the words for them.
const FEET: [(f64, &str); 12] = [
    (2.0, "6 in = 1 ft"),
    (4.0, "3 in = 1 ft"),
    (8.0, "1-1/2 in = 1 ft"),
    (12.0, "1 in = 1 ft"),
    (16.0, "3/4 in = 1 ft"),
    (24.0, "1/2 in = 1 ft"),
    (32.0, "3/8 in = 1 ft"),
    (48.0, "1/4 in = 1 ft"),
    (64.0, "3/16 in = 1 ft"),
    (96.0, "1/8 in = 1 ft"),
    (128.0, "3/32 in = 1 ft"),
    (192.0, "1/16 in = 1 ft"),
];

/// A drawing's scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::report) struct Scale {
    ratio: f64,
    words: Option<&'static str>,
    /// Hundredths of a millimeter on paper that one unit takes.
    magnify: f64,
}

impl Scale {
    /// The largest standard scale at which a thickness takes no more than `room` units, one of
    /// which is `magnify` hundredths of a millimeter on paper.
    pub(super) fn largest(thickness: Length, room: i32, units: UnitSystem, magnify: f64) -> Self {
        let least = thickness.as_m() * 1e5 / (f64::from(room.max(1)) * magnify);
        let feet = FEET.iter().filter(|_| units == UnitSystem::Imperial);
        let feet = feet.map(|(ratio, words)| Self {
            ratio: *ratio,
            words: Some(words),
            magnify,
        });
        let plain = (0..18).flat_map(|power| [1.0, 2.0, 5.0].map(|n| n * 10_f64.powi(power)));
        let plain = plain.map(|ratio| Self {
            ratio,
            words: None,
            magnify,
        });
        let (smallest, coarsest) = if units == UnitSystem::Imperial {
            (200.0, 1e18)
        } else {
            (2.0, 1e18)
        };
        feet.chain(plain.filter(|scale| scale.ratio >= smallest))
            .find(|scale| scale.ratio >= least)
            .unwrap_or(Self {
                ratio: coarsest,
                words: None,
                magnify,
            })
    }

    /// As large as life.
    pub(super) fn full_size(magnify: f64) -> Self {
        Self {
            ratio: 1.0,
            words: Some("full size"),
            magnify,
        }
    }

    /// A length as drawn, in the drawing's units.
    pub(super) fn on_paper(self, length: Length) -> f64 {
        length.as_m() * 1e5 / (self.ratio * self.magnify)
    }

    /// What stands at the foot of a drawing to scale.
    pub(super) fn foot(self) -> String {
        self.foot_of("layers")
    }

    /// The same for what isn't layers.
    pub(super) fn foot_of(self, what: &str) -> String {
        format!("Scale of the {what} {}, printed at full size", self.words())
    }

    /// Whether it makes things smaller than another.
    pub(super) fn is_coarser_than(self, other: Self) -> bool {
        self.ratio > other.ratio
    }

    /// Whether it makes things smaller than another by more than a step of the standard scales.
    pub(super) fn is_much_coarser_than(self, other: Self) -> bool {
        self.ratio > 1.6 * other.ratio
    }

    /// Of two scales the one that makes things smaller.
    pub(super) fn coarser(self, other: Self) -> Self {
        if other.ratio > self.ratio {
            other
        } else {
            self
        }
    }

    /// What a length as drawn is in life, m; `drawn` in the drawing's units.
    pub(super) fn in_life(self, drawn: i32) -> f64 {
        f64::from(drawn) * self.magnify * self.ratio / 1e5
    }

    /// `3 in = 1 ft (1:4)`, or `1:5`.
    pub(in crate::report) fn words(self) -> String {
        let ratio = format!("1:{}", fixed(self.ratio, 0));
        self.words
            .map_or_else(|| ratio.clone(), |words| format!("{words} ({ratio})"))
    }
}

/// The temperatures an axis runs over, °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Span {
    /// The lowest.
    pub(super) low: f64,
    /// The highest.
    pub(super) high: f64,
}

impl Span {
    /// A span that holds all given temperatures with a little air around them.
    pub(super) fn around(values: impl IntoIterator<Item = f64>) -> Self {
        let finite = values.into_iter().filter(|value| value.is_finite());
        let (low, high) = finite.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
        if low > high {
            return Self {
                low: 0.0,
                high: 20.0,
            };
        }
        let air = (0.05 * (high - low)).max(1.0);
        Self {
            low: low - air,
            high: high + air,
        }
    }

    /// Round marks in one unit, at most `most` of them: where, and the number.
    pub(super) fn marks(self, units: UnitSystem, most: usize) -> Vec<(Temperature, String)> {
        let style = Style { units };
        let degrees = Dimension::Temperature;
        let at = |value: f64| Temperature::from_celsius(degrees.si(value, style));
        let [low, high] = [self.low, self.high].map(|celsius| degrees.value(celsius, style));
        let steps = (0..9).flat_map(|power| [1.0, 2.0, 5.0].map(|n| n * 10_f64.powi(power)));
        let range = |step: f64| ((low / step).ceil() as i64, (high / step).floor() as i64);
        let count = |step: &f64| {
            let (first, last) = range(*step);
            last - first < i64::try_from(most.max(2)).unwrap_or(2)
        };
        let Some(step) = steps.into_iter().find(count) else {
            return Vec::new();
        };
        let (first, last) = range(step);
        (first..=last)
            .map(|n| n as f64 * step)
            .map(|value| (at(value), fixed(value, 0).replace('-', "−")))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // 8 in on 60 mm of paper: 203 / 60 = 3.4, so 3 in to the foot; in metric 1:5.
    #[test]
    fn the_largest_standard_scale_that_fits() {
        let thickness = Length::from_m(8.0 * 0.0254);
        let feet = Scale::largest(thickness, 6000, UnitSystem::Imperial, 1.0);
        assert_eq!(feet.words(), "3 in = 1 ft (1:4)");
        assert!((feet.on_paper(thickness) - 5080.0).abs() < 1e-9);
        assert_eq!(
            Scale::largest(thickness, 6000, UnitSystem::Metric, 1.0).words(),
            "1:5"
        );
    }

    #[test]
    fn absurd_thickness_still_fits() {
        for thickness in [1e3, 1e7, 1e12] {
            let scale = Scale::largest(Length::from_m(thickness), 5000, UnitSystem::Imperial, 1.0);
            assert!(scale.on_paper(Length::from_m(thickness)) <= 5000.0);
        }
    }

    #[test]
    fn marks_are_round_and_few() {
        let marks = Span {
            low: 3.0,
            high: 21.0,
        }
        .marks(UnitSystem::Imperial, 4);
        let words: Vec<_> = marks.iter().map(|(_, words)| words.as_str()).collect();
        assert_eq!(words, ["40", "50", "60"]);
        let cold = Span {
            low: -42.0,
            high: 22.0,
        }
        .marks(UnitSystem::Metric, 5);
        assert_eq!(cold[0].1, "−40");
    }
}
