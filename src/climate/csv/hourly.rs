//! Hourly readings, averaged by month as temperature and as vapor pressure.

use std::io::Read;

use super::cell::{Air, Unit};
use super::gap::Gaps;
use super::header::{Columns, Time};
use super::line::Lines;
use super::monthly::fractions;
use super::night::Nights;
use super::stamp::Stamp;
use super::{MOST_SHOWN, Progress, Stop};
use crate::climate::{Climate, MonthlyMean};
use crate::error::Problem;
use crate::physics::moist_air::saturation_vapor_pressure;
use crate::quantity::{MONTHS, Pressure, Temperature};

/// The share of a month's hours that may be missing or unusable.
const MOST_LOST: f64 = 0.05;
/// Bytes between two reports of progress.
const REPORT_EVERY: u64 = 1 << 18;

/// Sums of one month.
#[derive(Clone, Copy, Default)]
struct Sum {
    hours: u64,
    bad: u64,
    temperature: f64,
    vapor_pressure: f64,
}

/// What is gathered while the rows go by.
struct Year {
    sums: [Sum; 12],
    gaps: Gaps,
    nights: Nights,
    /// The first few rows that can't be used, and how many there are.
    bad: (Vec<Problem>, u64),
    /// The month of the last row that told it, for rows that don't.
    month: usize,
    most_humid: f64,
}

/// Reads the rows; the name and the file's part of the origin are the caller's.
pub(super) fn read<R: Read>(
    lines: &mut Lines<R>,
    columns: &Columns,
    (total, progress): (u64, Progress<'_>),
) -> Result<Climate, Stop> {
    let mut year = Year {
        sums: [Sum::default(); 12],
        gaps: Gaps::default(),
        nights: Nights::new(),
        bad: (Vec::new(), 0),
        month: 0,
        most_humid: 0.0,
    };
    let mut reported = 0;
    while lines.advance()? {
        year.take(lines, columns);
        if lines.bytes() >= reported + REPORT_EVERY {
            reported = lines.bytes();
            progress(reported.min(total), total);
        }
    }
    let all = total.max(lines.bytes());
    progress(all, all);
    year.gaps.finish(lines.number());
    year.finish(columns)
}

impl Year {
    fn take<R: Read>(&mut self, lines: &Lines<R>, columns: &Columns) {
        let stamp = stamp(lines, columns);
        if let Ok(stamp) = &stamp {
            self.month = stamp.month;
            self.gaps.add(*stamp, lines.number());
        }
        let air = stamp.and_then(|_| Air::of_row(lines, columns));
        let sum = &mut self.sums[self.month];
        match air {
            Ok(air) => {
                sum.hours += 1;
                sum.temperature += air.temperature;
                sum.vapor_pressure += air.vapor_pressure;
                self.nights.add(&air);
                self.most_humid = self.most_humid.max(air.humidity);
            }
            Err(problem) => {
                sum.bad += 1;
                self.bad.1 += 1;
                if self.bad.0.len() < MOST_SHOWN {
                    self.bad.0.push(*problem);
                }
            }
        }
    }

    fn hours(&self) -> u64 {
        self.sums.iter().map(|sum| sum.hours).sum()
    }

    /// Rows are hours, or something else.
    fn word(&self) -> &'static str {
        match self.gaps.step() {
            Some(60) | None => "hours",
            _ => "readings",
        }
    }

    fn finish(self, columns: &Columns) -> Result<Climate, Stop> {
        let problems = self.refusals(columns);
        if !problems.is_empty() {
            let shown = self.bad.0.into_iter();
            return Err(Stop::Problems(shown.chain(problems).collect()));
        }
        let mut notes = self.notes();
        let mut capped = Vec::new();
        let months = std::array::from_fn(|month| {
            let sum = self.sums[month];
            let mean = |total: f64| total / sum.hours as f64;
            let temperature = Temperature::from_celsius(mean(sum.temperature));
            let saturation = saturation_vapor_pressure(temperature).as_pa();
            let vapor_pressure = mean(sum.vapor_pressure);
            // Foggy hours of unequal warmth can hold more than the mean temperature lets stand.
            if vapor_pressure > saturation {
                capped.push(MONTHS[month]);
            }
            MonthlyMean {
                temperature,
                vapor_pressure: Pressure::from_pa(vapor_pressure.min(saturation)),
            }
        });
        if !capped.is_empty() {
            notes.push(format!(
                "vapor pressure cut to saturation at the mean temperature: {}",
                capped.join(", ")
            ));
        }
        let origin = format!("{} {} averaged", self.hours(), self.word());
        Ok(Climate {
            design_night: self.nights.design_night(),
            notes,
            ..Climate::from_months("", &origin, months)
        })
    }

    /// What makes the whole year unusable.
    fn refusals(&self, columns: &Columns) -> Vec<Problem> {
        if self.hours() == 0 && self.bad.1 == 0 {
            let help = "below the header belongs a row for each hour of a year";
            return vec![Problem::whole("there are no rows below the header").help(help)];
        }
        let lost = |month: usize| self.sums[month].bad + self.gaps.missing[month];
        let mut problems = Vec::new();
        let empty: Vec<&str> = (0..12)
            .filter(|month| self.sums[*month].hours == 0)
            .map(|month| MONTHS[month])
            .collect();
        if !empty.is_empty() {
            let message = format!("no {} can be used in {}", self.word(), empty.join(", "));
            problems.push(Problem::whole(message).help("a climate needs every month of a year"));
        }
        for (month, sum) in self
            .sums
            .iter()
            .enumerate()
            .filter(|(_, sum)| sum.hours > 0)
        {
            let all = sum.hours + lost(month);
            let share = lost(month) as f64 / all as f64;
            if share > MOST_LOST {
                let message = format!(
                    "{}: {} of {all} {} are missing or can't be used ({:.1} %)",
                    MONTHS[month],
                    lost(month),
                    self.word(),
                    share * 100.0
                );
                let help = "at most 5 % of a month may be missing: mend the rows, or use a year \
                            without such gaps";
                problems.push(Problem::whole(message).help(help));
            }
        }
        if columns.moisture_unit == Some(Unit::Percent)
            && self.hours() > 0
            && self.most_humid <= 0.01
        {
            problems.push(fractions());
        }
        problems
    }

    /// What was passed over, in words.
    fn notes(&self) -> Vec<String> {
        let mut notes = Vec::new();
        let (bad, count) = &self.bad;
        if *count > 0 {
            let shown = bad.iter().map(|problem| {
                let line = problem.span.map_or(0, |span| span.line);
                format!("line {line}: {}", problem.message)
            });
            notes.push(format!(
                "{count} {} can't be used and {} left out: {}{}",
                if *count == 1 { "row" } else { "rows" },
                if *count == 1 { "was" } else { "were" },
                shown.collect::<Vec<_>>().join("; "),
                more(*count, bad.len())
            ));
        }
        let gaps = &self.gaps;
        if gaps.count > 0 {
            let shown = gaps
                .named
                .iter()
                .map(|(line, rows)| format!("{rows} before line {line}"));
            notes.push(format!(
                "{} {} are missing in {}: {}{}",
                gaps.rows(),
                self.word(),
                if gaps.count == 1 {
                    "one gap".to_owned()
                } else {
                    format!("{} gaps", gaps.count)
                },
                shown.collect::<Vec<_>>().join(", "),
                more(gaps.count as u64, gaps.named.len())
            ));
        }
        if let Some(line) = gaps.backward {
            notes.push(format!(
                "the times start over at line {line}: every row counts, but are there two places \
                 in this file?"
            ));
        }
        if gaps.step().is_some_and(|step| step > 3 * 60) {
            notes.push(
                "the readings are hours apart, so the design night is milder than the coldest hours"
                    .into(),
            );
        }
        notes
    }
}

fn more(count: u64, shown: usize) -> String {
    match count.saturating_sub(shown as u64) {
        0 => String::new(),
        rest => format!(", and {rest} more"),
    }
}

fn stamp<R: Read>(lines: &Lines<R>, columns: &Columns) -> Result<Stamp, Box<Problem>> {
    let (column, stamp) = match columns.time {
        Time::Month(column) => (column, None),
        Time::Stamp { date, time } => {
            let time = time.map(|time| lines.cell(time));
            (date, Stamp::read(&lines.cell(date), time.as_deref()))
        }
        Time::Parts {
            year,
            month,
            day,
            hour,
        } => {
            let [year, day, hour] = [year, day, hour].map(|part| part.map(|part| lines.cell(part)));
            let stamp = Stamp::from_parts(&lines.cell(month), day.as_deref(), hour.as_deref());
            let year = year.and_then(|year| year.parse().ok());
            (month, stamp.map(|stamp| Stamp { year, ..stamp }))
        }
    };
    stamp.ok_or_else(|| {
        let text = lines.cell(column);
        let message = format!("`{text}` doesn't tell the month, day and time");
        lines
            .problem(column, message)
            .expected("expected such as `2013-01-31 15:00`, or `01/31 15` (month first)")
            .into()
    })
}
