//! The header: which column holds what, in which unit.

use std::io::Read;

use super::Stop;
use super::cell::{Unit, split_number};
use super::heading::{Heading, Role, meant};
use super::line::{Lines, whole_line};
use crate::error::Problem;

/// Where the month of a row stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Time {
    /// One row for each month.
    Month(usize),
    /// A date, or date and time, in one column or two.
    Stamp { date: usize, time: Option<usize> },
    /// Month, day and hour in columns of their own.
    Parts {
        year: Option<usize>,
        month: usize,
        day: Option<usize>,
        hour: Option<usize>,
    },
}

/// How a row tells the moisture of the air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Moisture {
    Humidity,
    DewPoint,
    Pressure,
}

/// The columns that are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Columns {
    /// How many the header has.
    pub(super) width: usize,
    pub(super) time: Time,
    pub(super) temperature: usize,
    pub(super) temperature_unit: Option<Unit>,
    pub(super) moisture_kind: Moisture,
    pub(super) moisture: usize,
    pub(super) moisture_unit: Option<Unit>,
}

impl Columns {
    /// The columns, where the line is a header; a header that lacks a column is a problem.
    pub(super) fn in_header<R: Read>(lines: &Lines<R>) -> Result<Option<Self>, Stop> {
        let headings: Vec<Heading> = (0..lines.count())
            .filter_map(|index| Heading::of(index, &lines.cell(index)))
            .collect();
        let best = |role: Role| {
            let of_role = headings.iter().filter(|heading| heading.role == role);
            of_role.min_by_key(|heading| heading.rank())
        };
        let kinds = [Moisture::Humidity, Moisture::DewPoint, Moisture::Pressure];
        let moisture = kinds
            .iter()
            .find_map(|kind| best(Role::Moisture(*kind)).map(|heading| (*kind, heading)));
        let [year, month, date, time, day, hour] = [
            Role::Year,
            Role::Month,
            Role::Date,
            Role::Time,
            Role::Day,
            Role::Hour,
        ]
        .map(|role| best(role).map(|heading| heading.index));
        let when = match (month, date, time) {
            (_, Some(date), time) => Some(Time::Stamp {
                date,
                time: time.or(hour),
            }),
            (Some(month), None, None) if day.is_none() && hour.is_none() => {
                Some(Time::Month(month))
            }
            (Some(month), None, time) => Some(Time::Parts {
                year,
                month,
                day,
                hour: hour.or(time),
            }),
            (None, None, Some(date)) => Some(Time::Stamp { date, time: None }),
            (None, None, None) => None,
        };
        let temperature = best(Role::Temperature);
        let found = [when.is_some(), temperature.is_some(), moisture.is_some()];
        if found.iter().filter(|found| **found).count() < 2 {
            return Ok(None);
        }
        let (Some(time), Some(temperature), Some((moisture_kind, moisture))) =
            (when, temperature, moisture)
        else {
            return Err(Stop::Problems(vec![lacking(lines, found)]));
        };
        let unit = |heading: &Heading| match &heading.unit {
            None => Ok(None),
            Some(Ok(unit)) if heading.role.takes(*unit) => Ok(Some(*unit)),
            _ => Err(Box::new(unknown_unit(lines, heading))),
        };
        let units = [unit(temperature), unit(moisture)];
        let problems: Vec<Problem> = units
            .iter()
            .filter_map(|unit| unit.clone().err().map(|problem| *problem))
            .collect();
        let [Ok(temperature_unit), Ok(moisture_unit)] = units else {
            return Err(Stop::Problems(problems));
        };
        Ok(Some(Self {
            width: lines.count(),
            time,
            temperature: temperature.index,
            temperature_unit,
            moisture_kind,
            moisture: moisture.index,
            moisture_unit,
        }))
    }

    /// Takes the units from a row of units; `false` where the line is none.
    pub(super) fn take_units<R: Read>(&mut self, lines: &Lines<R>) -> Result<bool, Stop> {
        let first = lines.cell(0).to_lowercase();
        let cells = [self.temperature, self.moisture].map(|index| lines.cell(index));
        let is_units = ["unit", "units"].contains(&first.as_str())
            || cells.iter().any(|cell| Unit::named(cell).is_some());
        if !is_units {
            return Ok(false);
        }
        let roles = [Role::Temperature, Role::Moisture(self.moisture_kind)];
        let mut problems = Vec::new();
        for (index, role) in [self.temperature, self.moisture].into_iter().zip(roles) {
            let text = lines
                .cell(index)
                .trim_matches(['(', ')', '[', ']'])
                .to_owned();
            let unit = match (text.is_empty(), Unit::named(&text)) {
                (true, _) => continue,
                (_, Some(unit)) if role.takes(unit) => unit,
                _ => {
                    let unit = Some(Err(text));
                    problems.push(unknown_unit(lines, &Heading { index, role, unit }));
                    continue;
                }
            };
            match role {
                Role::Temperature => self.temperature_unit = Some(unit),
                _ => self.moisture_unit = Some(unit),
            }
        }
        match problems.is_empty() {
            true => Ok(true),
            false => Err(Stop::Problems(problems)),
        }
    }

    /// The first column whose unit nobody named.
    pub(super) fn first_without_unit(&self) -> Option<usize> {
        match (self.temperature_unit, self.moisture_unit) {
            (None, _) => Some(self.temperature),
            (_, None) => Some(self.moisture),
            _ => None,
        }
    }

    /// Whether the cell of that column brings a unit of its own.
    pub(super) fn row_has_unit<R: Read>(&self, lines: &Lines<R>, column: usize) -> bool {
        Unit::named(split_number(&lines.cell(column)).1).is_some()
    }

    /// The problem of a column without a unit, at the header.
    pub(super) fn no_unit<R: Read>(&self, lines: &Lines<R>, column: usize) -> Problem {
        let role = match column == self.temperature {
            true => Role::Temperature,
            false => Role::Moisture(self.moisture_kind),
        };
        let what = match role {
            Role::Temperature => "temperature",
            Role::Moisture(Moisture::Humidity) => "humidity",
            Role::Moisture(Moisture::DewPoint) => "dew point",
            _ => "vapor pressure",
        };
        lines
            .problem(column, format!("the {what} has no unit"))
            .expected(format!("expected {} behind its name", role.units()))
            .help(format!(
                "write the unit into the header, such as `{what} ({})`, or a row of units below it",
                role.units().split('`').nth(1).unwrap_or_default()
            ))
    }
}

fn unknown_unit<R: Read>(lines: &Lines<R>, heading: &Heading) -> Problem {
    let text = match &heading.unit {
        Some(Err(text)) => text.clone(),
        _ => lines.cell(heading.index).into_owned(),
    };
    lines
        .problem(
            heading.index,
            format!("`{text}` isn't a unit for this column"),
        )
        .expected(format!("expected {}", heading.role.units()))
}

/// A header with two of time, temperature and moisture, but not all.
fn lacking<R: Read>(lines: &Lines<R>, [time, temperature, _]: [bool; 3]) -> Problem {
    let (what, names) = match (time, temperature) {
        (false, _) => ("the month or time", "`month`, `time` or `date`"),
        (_, false) => ("the temperature", "`temperature` or `dry bulb`"),
        _ => (
            "the humidity",
            "`humidity`, `dew point` or `vapor pressure`",
        ),
    };
    let text = lines.text().into_owned();
    Problem::at(
        whole_line(lines.number(), &text),
        format!("no column holds {what}"),
    )
    .expected(format!("expected a column named {names}"))
    .maybe_help(meant(&text))
    .excerpt(text)
}
