//! Points of a cut, or of a piece drawn by boxes.

use serde_json::{Value as Json, json};

use crate::document::{At, FromNode, Node, Problems, Range, Value, unexpected};
use crate::error::{Problem, Span};
use crate::model::detail::Area;
use crate::quantity::Offset;

/// From the cut's lower left corner to the right and up; of a piece drawn by boxes from its left, front,
/// lower corner to the right, back and up.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Point {
    numbers: Vec<At<Offset>>,
    span: Span,
}

/// How far a point may lie from the corner.
const RANGE: Range = Range {
    least: "-1000 m",
    most: "1000 m",
};

impl Point {
    /// x and y, m.
    pub(super) fn in_cut(&self, problems: &mut Problems) -> Option<[f64; 2]> {
        self.of(
            "two numbers in a cut: `[x, y]`, or `boxes:` and a `depth:` of the cut",
            problems,
        )
    }

    /// x, y and z, m.
    pub(super) fn in_boxes(&self, problems: &mut Problems) -> Option<[f64; 3]> {
        self.of("three numbers among boxes: `[x, y, z]`", problems)
    }

    fn of<const N: usize>(&self, expected: &str, problems: &mut Problems) -> Option<[f64; N]> {
        let meters: Vec<f64> = self.numbers.iter().map(|at| at.value.as_m()).collect();
        let found = <[f64; N]>::try_from(meters).ok();
        if found.is_none() {
            let message = format!("this point has {} numbers", self.numbers.len());
            let expected = format!("expected {expected}");
            let problem = Problem::at(self.span, message).expected(expected);
            // One of each corner would say the same of every box.
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
        found
    }
}

/// From the lower left corner to the upper right one.
pub(super) fn area(
    from: Option<&Point>,
    to: Option<&Point>,
    problems: &mut Problems,
) -> Option<Area> {
    let (from, to) = (from?.in_cut(problems), to?.in_cut(problems));
    let ([left, bottom], [right, top]) = (from?, to?);
    Some(Area::new(left, right, bottom, top))
}

/// A line may be given from either end.
pub(super) fn line(
    from: Option<&Point>,
    to: Option<&Point>,
    problems: &mut Problems,
) -> Option<Area> {
    let given = area(from, to, problems)?;
    Some(Area::new(
        given.left.min(given.right),
        given.left.max(given.right),
        given.bottom.min(given.top),
        given.bottom.max(given.top),
    ))
}

impl FromNode for Point {
    fn expected() -> String {
        "a point `[x, y]` such as `[0, 5.5 in]`".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        match &node.value {
            Value::List(items) if (2..=3).contains(&items.len()) => {
                let numbers = items
                    .iter()
                    .map(|item| At::<Offset>::from_node_within(item, RANGE, problems));
                // All of them, so that every mistake is told.
                let numbers: Vec<Option<At<Offset>>> = numbers.collect();
                Some(Self {
                    numbers: numbers.into_iter().collect::<Option<_>>()?,
                    span: node.span,
                })
            }
            Value::List(items) => {
                let message = format!("a point has two or three numbers, not {}", items.len());
                let problem = Problem::at(node.span, message);
                problems.push(problem.expected(format!("expected {}", Self::expected())));
                None
            }
            _ => {
                problems.push(unexpected(node, &Self::expected()));
                None
            }
        }
    }

    fn schema() -> Json {
        json!({
            "type": "array",
            "items": At::<Offset>::schema_within(RANGE),
            "minItems": 2,
            "maxItems": 3,
        })
    }
}
