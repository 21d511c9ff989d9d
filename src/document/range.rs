//! What is plausible for a key: beyond it somebody mistook a unit or a digit.

use super::record::Problems;
use super::tree::{Node, Value};
use crate::error::Problem;
use crate::quantity::{Dimension, Quantity, Style, UnitSystem, three_digits};

/// The least and the greatest value of a key, as a user would write them (`common practice`,
/// where a key names no source).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Range {
    /// The least that is believed.
    pub least: &'static str,
    /// The greatest.
    pub most: &'static str,
}

impl Range {
    /// Both ends, SI; `None` where they can't be read, which a test looks for.
    pub(super) fn ends<T: Quantity>(self) -> Option<[f64; 2]> {
        let end = |text| T::read(text).ok().and_then(T::number);
        Some([end(self.least)?, end(self.most)?])
    }

    /// Whether its ends are written without a unit.
    pub(super) fn is_bare(self) -> bool {
        self.least.parse::<f64>().is_ok()
    }

    /// `1 in to 8 ft (25.4 mm to 2.44 m)`.
    pub(super) fn words<T: Quantity>(self) -> String {
        let words = format!("{} to {}", self.least, self.most);
        match (T::RANGED, self.ends::<T>()) {
            (Some(dimension), Some(ends)) => match self.elsewhere(dimension, ends) {
                Some(others) => format!("{words} ({others})"),
                None => words,
            },
            _ => words,
        }
    }

    /// The ends as the other reader has them.
    fn elsewhere(self, dimension: Dimension, ends: [f64; 2]) -> Option<String> {
        let [imperial, metric] =
            [UnitSystem::Imperial, UnitSystem::Metric].map(|units| Style { units });
        if dimension.unit(imperial) == dimension.unit(metric) {
            return None;
        }
        // A range of lengths may end in meters and begin in millimeters.
        let is_metric = [dimension, Dimension::Run]
            .iter()
            .any(|one| self.most.ends_with(&format!(" {}", one.unit(metric))));
        let other = if is_metric { imperial } else { metric };
        let [least, most] = ends.map(|si| three_digits(dimension, si, other));
        Some(format!("{least} to {most}"))
    }

    /// Nothing, and a problem, where a text is a number that lies beyond the range; what is no such
    /// number is left to whoever reads it.
    pub(crate) fn hold<T: Quantity>(self, node: &Node, problems: &mut Problems) -> Option<()> {
        let Some(problem) = self.problem::<T>(node) else {
            return Some(());
        };
        problems.push(problem);
        None
    }

    fn problem<T: Quantity>(self, node: &Node) -> Option<Problem> {
        let Value::Text(text) = &node.value else {
            return None;
        };
        let [least, most] = self.ends::<T>()?;
        let words = match T::read(text) {
            Ok(value) => {
                let number = value.number().filter(|n| !(least..=most).contains(n));
                match (T::RANGED, number? > most) {
                    (Some(Dimension::Temperature), false) => "implausibly cold here",
                    (Some(Dimension::Temperature), true) => "implausibly hot here",
                    (_, false) => "implausibly small here",
                    (_, true) => "implausibly large here",
                }
            }
            // Beyond what is believed of anything that has this unit.
            Err(error) => {
                error.beyond?;
                "out of range"
            }
        };
        let problem = Problem::at(node.span, format!("`{text}` is {words}"))
            .expected(format!("expected {}", self.words::<T>()));
        Some(problem.maybe_help(self.meant::<T>(text)))
    }

    /// The same digits in another unit, where that is believed: `140 m` was meant as `140 mm`.
    fn meant<T: Quantity>(self, text: &str) -> Option<String> {
        let dimension = T::RANGED?;
        let [least, most] = self.ends::<T>()?;
        let digits = text.trim().trim_end_matches(|c: char| !c.is_ascii_digit());
        let units =
            [UnitSystem::Imperial, UnitSystem::Metric].map(|units| dimension.unit(Style { units }));
        let tries = units.into_iter().map(|unit| format!("{digits} {unit}"));
        let is_meant = |tried: &String| {
            let number = T::read(tried).ok().and_then(T::number);
            number.is_some_and(|number| (least..=most).contains(&number))
        };
        let found = tries.into_iter().find(is_meant)?;
        Some(format!("did you mean `{found}`?"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::{At, FromNode};
    use crate::error::Span;
    use crate::quantity::{Days, Length, Share, Temperature, ThermalResistance, Thickness};

    fn refused<T: Quantity>(least: &'static str, most: &'static str, text: &str) -> [String; 3] {
        let node = Node {
            value: Value::Text(text.into()),
            span: Span {
                line: 1,
                column: 1,
                start: 0,
                end: 1,
            },
        };
        let mut problems = Vec::new();
        let read = At::<T>::from_node_within(&node, Range { least, most }, &mut problems);
        assert!(read.is_none(), "{text}");
        let [problem] = problems.try_into().expect("one problem");
        [
            problem.message,
            problem.label,
            problem.help.unwrap_or_default(),
        ]
    }

    // What is told: the text, the range in both readers' units, and what may have been meant.
    #[test]
    fn what_lies_beyond_a_range_is_told_with_it() {
        assert_eq!(
            refused::<Thickness>("0.001 mm", "2 m", "90 m"),
            [
                "`90 m` is implausibly large here",
                "expected 0.001 mm to 2 m (0.0000394 in to 6.56 ft)",
                "did you mean `90 mm`?"
            ]
        );
        assert_eq!(
            refused::<Length>("0.2 in", "32 ft", "1e300 m")[1],
            "expected 0.2 in to 32 ft (5.08 mm to 9.75 m)"
        );
        assert_eq!(
            refused::<Temperature>("32 °F", "113 °F", "68 C"),
            [
                "`68 C` is implausibly hot here",
                "expected 32 °F to 113 °F (0 °C to 45 °C)",
                "did you mean `68 °F`?"
            ]
        );
        assert_eq!(
            refused::<ThermalResistance>("R-0", "R-200", "R-300")[1],
            "expected R-0 to R-200 (0 m²K/W to 35.2 m²K/W)"
        );
        assert_eq!(refused::<Days>("1", "300", "301")[1], "expected 1 to 300");
        assert_eq!(
            refused::<Share>("0 %", "50 %", "51 %")[1],
            "expected 0 % to 50 %"
        );
    }

    #[test]
    fn both_ends_belong_to_it_and_gauges_to_every_range() {
        for text in ["1 in", "2 in", "20 ga"] {
            let node = Node {
                value: Value::Text(text.into()),
                span: Span {
                    line: 1,
                    column: 1,
                    start: 0,
                    end: 1,
                },
            };
            let mut problems = Vec::new();
            let range = Range {
                least: "1 in",
                most: "2 in",
            };
            let read = At::<Thickness>::from_node_within(&node, range, &mut problems);
            assert!(
                read.is_some() && problems.is_empty(),
                "{text}: {problems:?}"
            );
        }
    }
}
