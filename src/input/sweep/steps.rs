//! Lists and grids of an axis.

use super::text::StepsText;
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::model::Steps;

/// A value of a list or a grid's end, brought to SI; `None` where it was refused.
pub(super) type Read<'a, T> = &'a dyn Fn(&At<T>, &mut Problems) -> Option<f64>;

/// The values; `step` reads a grid's step, which may be less than a value may.
pub(super) fn steps<T>(
    name: &At<Word>,
    text: &StepsText<T>,
    value: Read<'_, T>,
    step: Read<'_, T>,
    problems: &mut Problems,
) -> Option<Steps> {
    match text {
        StepsText::List(values, span) => {
            if values.is_empty() {
                let message = format!("axis `{}` is empty", name.value.0);
                let label = "expected at least one value";
                problems.push(Problem::at(*span, message).expected(label));
                return None;
            }
            let read: Vec<Option<f64>> = values.iter().map(|at| value(at, problems)).collect();
            read.into_iter()
                .collect::<Option<Vec<f64>>>()
                .map(Steps::List)
        }
        StepsText::Grid(None) => None,
        StepsText::Grid(Some([from, to, by])) => {
            let (first, last) = (value(from, problems), value(to, problems));
            let (first, last, size) = (first?, last?, step(by, problems)?);
            grid(first, last, (size, by), problems)
        }
    }
}

fn grid<T>(
    from: f64,
    to: f64,
    (step, at): (f64, &At<T>),
    problems: &mut Problems,
) -> Option<Steps> {
    if step == 0.0 {
        let message = "a step of nothing never gets there";
        problems.push(Problem::at(at.span, message).expected("expected more than 0"));
        return None;
    }
    let steps = (to - from) / step;
    if steps < 0.0 {
        let message = "this step leads away from where the axis ends";
        let label = match to < from {
            true => "expected a step with a minus sign, or the lesser end first",
            false => "expected a step without a minus sign",
        };
        problems.push(Problem::at(at.span, message).expected(label));
        return None;
    }
    // The end counts where a step meets it, rounding aside.
    let count = (steps + 1e-6).floor().min(1e15) as usize + 1;
    Some(Steps::Grid { from, step, count })
}
