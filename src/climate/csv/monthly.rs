//! Twelve rows of monthly means.

use std::io::Read;

use super::cell::{Air, Unit};
use super::header::{Columns, Time};
use super::line::Lines;
use super::{MOST_SHOWN, Progress, Stop};
use crate::climate::{Climate, MonthlyMean};
use crate::error::{Problem, did_you_mean};
use crate::quantity::{MONTHS, Pressure, Temperature, month_in};

/// Reads the rows; the name and the file's part of the origin are the caller's.
pub(super) fn read<R: Read>(
    lines: &mut Lines<R>,
    columns: &Columns,
    (total, progress): (u64, Progress<'_>),
) -> Result<Climate, Stop> {
    let Time::Month(month_column) = columns.time else {
        return Err(Stop::NotCsv);
    };
    let mut found: [Option<(usize, Air)>; 12] = [None; 12];
    let mut named = [false; 12];
    let mut unnamed = 0;
    let mut problems: Vec<Problem> = Vec::new();
    // More than this many problems are one: it isn't a file of monthly means.
    while problems.len() < MOST_SHOWN && lines.advance()? {
        let text = lines.cell(month_column);
        let Some(month) = month_in(&text) else {
            unnamed += 1;
            problems.push(no_month(lines, month_column, &text));
            continue;
        };
        named[month] = true;
        match (found[month], Air::of_row(lines, columns)) {
            (Some((first, _)), _) => {
                let message = format!("{} stands twice: line {first} has it too", MONTHS[month]);
                let problem = lines.problem(month_column, message);
                problems.push(problem.expected("expected each month once").help(
                    "for hourly readings the header needs a column `time`, or `day` and `hour`",
                ));
            }
            (None, Ok(air)) => found[month] = Some((lines.number(), air)),
            (None, Err(problem)) => problems.push(*problem),
        }
    }
    progress(total.max(lines.bytes()), total.max(lines.bytes()));
    let missing: Vec<&str> = (0..12).filter(|n| !named[*n]).map(|n| MONTHS[n]).collect();
    // A month whose name can't be read is one problem, not a missing one too.
    if missing.len() > unnamed && problems.len() < MOST_SHOWN {
        let message = format!("there is no row for {}", missing.join(", "));
        problems.push(Problem::whole(message).help("a year has twelve rows, in any order"));
    }
    let read: Vec<f64> = found
        .iter()
        .flatten()
        .map(|(_, air)| air.humidity)
        .collect();
    let is_percent = columns.moisture_unit == Some(Unit::Percent);
    if is_percent && !read.is_empty() && read.iter().all(|humidity| *humidity <= 0.01) {
        problems.push(fractions());
    }
    match all(found) {
        Some(months) if problems.is_empty() => {
            Ok(Climate::from_months("", "monthly means", months))
        }
        _ => Err(Stop::Problems(problems)),
    }
}

fn all(found: [Option<(usize, Air)>; 12]) -> Option<[MonthlyMean; 12]> {
    let months: Option<Vec<MonthlyMean>> = found
        .into_iter()
        .map(|row| {
            row.map(|(_, air)| MonthlyMean {
                temperature: Temperature::from_celsius(air.temperature),
                vapor_pressure: Pressure::from_pa(air.vapor_pressure),
            })
        })
        .collect();
    months?.try_into().ok()
}

fn no_month<R: Read>(lines: &Lines<R>, column: usize, text: &str) -> Problem {
    let problem = match text {
        "" => lines.problem(column, "no month is written here".into()),
        _ => lines.problem(column, format!("`{text}` isn't a month")),
    };
    let near = did_you_mean(text, MONTHS).filter(|_| text.len() > 3);
    problem
        .expected("expected a month: `1` to `12`, `January` or `Jan`")
        .maybe_help(near.map(|near| format!("did you mean `{near}`?")))
}

/// Humidities that are all below 1 % were fractions.
pub(super) fn fractions() -> Problem {
    Problem::whole("every relative humidity is 1 % or less")
        .help("if these are fractions, write `humidity (fraction)` in the header")
}
