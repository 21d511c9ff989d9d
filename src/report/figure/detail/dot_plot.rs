//! One plot of all places and all layouts: rows are places, the axis is temperature, a dot stands for a
//! layout, a rule for the dew point of the room air.

use super::super::place::DASHES;
use super::super::scale::Span;
use super::super::sheet::{FAINT, GRAY, INK, LINE, Lettering, MOISTURE, Point, SIZE, Sheet, WET};
use super::{dots, isotherm};
use crate::check::Status;
use crate::quantity::{Dimension, Style, Temperature};
use crate::report::places::{rows_of, worst_of_each};
use crate::study::JudgedDetail;

/// What stands over it.
const HEADING: &str = "Coldest places on the winter mean, a dot for each layout by its number above; left of the \
     dew point: wet if room air gets in";
/// For the heading, and for the axis with its numbers and the words of the rule.
const HEAD: i32 = 620;
const AXIS: i32 = 1000;
/// Between dots, and between rows.
const BETWEEN: i32 = 60;
const APART: i32 = 130;
/// The widest name of a place.
const NAMES: i32 = 6200;

/// A layout's dot.
#[derive(Clone, Copy, Debug)]
struct Dot {
    layout: usize,
    value: Temperature,
    status: Status,
}

/// A place with the dots of all layouts, the coldest first.
struct Row {
    name: String,
    dots: Vec<Dot>,
    /// Where mold begins there: of surfaces.
    mold: Vec<Temperature>,
}

/// The plot laid out.
pub(super) struct Plot {
    rows: Vec<Row>,
    dew_points: Vec<Temperature>,
    span: Span,
    /// Of the widest dot.
    radius: i32,
    /// Left and right end of the axis, and how wide everything is.
    ends: (i32, i32),
    width: i32,
}

impl Plot {
    /// Of details in the order of their numbers; `None` where none of them was solved.
    pub(super) fn new(details: &[&JudgedDetail<'_>], left: i32, width: i32) -> Option<Self> {
        let rows = rows(details);
        let results = details.iter().filter_map(|one| one.result().as_ref().ok());
        let dew_points = distinct(results.map(|result| result.room_dew_point));
        let all = rows.iter().flat_map(|row| &row.dots).map(|dot| dot.value);
        let values = all.chain(dew_points.iter().copied());
        let span = Span::around(values.map(Temperature::as_celsius));
        let set = Lettering::PLAIN;
        let names = rows.iter().map(|row| set.width(&row.name));
        let names = names.max()?.min(NAMES);
        Some(Self {
            ends: (left + names + 700, left + width - 400),
            radius: dots::radius(details.len()),
            rows,
            dew_points,
            span,
            width,
        })
    }

    /// Where a temperature lies on the axis.
    fn across(&self, value: Temperature) -> i32 {
        let share = (value.as_celsius() - self.span.low) / (self.span.high - self.span.low);
        let (left, right) = self.ends;
        left + (share * f64::from(right - left)).round() as i32
    }

    /// The lane of every dot of a row, so that none lies on another.
    fn lanes(&self, row: &Row) -> Vec<usize> {
        let mut ends: Vec<i32> = Vec::new();
        let places = row.dots.iter().map(|dot| self.across(dot.value));
        let lanes = places.map(|x| {
            let free = ends.iter().position(|end| *end <= x);
            let lane = free.unwrap_or_else(|| {
                ends.push(x);
                ends.len() - 1
            });
            ends[lane] = x + self.lane();
            lane
        });
        lanes.collect()
    }

    /// From one lane to the next.
    fn lane(&self) -> i32 {
        2 * self.radius + BETWEEN
    }

    fn height_of(&self, row: &Row) -> i32 {
        let lanes = self.lanes(row).into_iter().max().map_or(1, |lane| lane + 1);
        APART + self.lane() * i32::try_from(lanes).unwrap_or(1)
    }

    /// The height it takes.
    pub(super) fn height(&self) -> i32 {
        let rows = self.rows.iter().map(|row| self.height_of(row));
        HEAD + AXIS + rows.sum::<i32>() + 200
    }

    /// Draws it from a height down.
    pub(super) fn draw(&self, sheet: &mut Sheet, left: i32, top: i32, style: Style) {
        let bold = Lettering::PLAIN.bold();
        sheet.text(&bold.fit(HEADING, self.width), (left, top + SIZE), bold);
        let first = top + HEAD + AXIS;
        let bottom = top + self.height() - 200;
        self.draw_axis(sheet, (first, bottom), style);
        let mut y = first;
        for row in &self.rows {
            let height = self.height_of(row);
            let ends = vec![(left, y), (self.ends.1, y)];
            sheet.line(ends, FAINT, 8);
            let base = y + height / 2 + SIZE * 36 / 100;
            let plain = Lettering::PLAIN;
            sheet.text(&plain.fit(&row.name, NAMES), (left, base), plain);
            for mold in &row.mold {
                let x = self.across(*mold);
                let ends = [(x, y + 20), (x, y + height - 20)];
                sheet.dashes(&ends, isotherm::DOTS, INK, 30);
            }
            for (dot, lane) in row.dots.iter().zip(self.lanes(row)) {
                let lane = i32::try_from(lane).unwrap_or(0);
                let center = (
                    self.across(dot.value),
                    y + (APART + self.lane()) / 2 + self.lane() * lane,
                );
                dots::disc(sheet, center, dot.layout, dot.status);
            }
            y += height;
        }
        sheet.line(vec![(left, y), (self.ends.1, y)], FAINT, 8);
    }

    /// What is wet, the numbers of the axis, the rule.
    fn draw_axis(&self, sheet: &mut Sheet, (top, bottom): Point, style: Style) {
        let dew = self.dew_points.iter().map(|dew| self.across(*dew));
        if let Some(x) = dew.clone().min().filter(|x| *x > self.ends.0) {
            sheet.fill((self.ends.0, top), (x, bottom), WET);
        }
        let gray = Lettering::PLAIN.color(GRAY);
        let marks = self.span.marks(style.units, 12);
        let last = marks.len().saturating_sub(1);
        for (n, (value, number)) in marks.into_iter().enumerate() {
            let x = self.across(value);
            sheet.line(vec![(x, top - 80), (x, bottom)], FAINT, 8);
            let words = match n == last {
                true => format!("{number} {}", Dimension::Temperature.unit(style)),
                false => number.clone(),
            };
            let at = (x - gray.width(&number) / 2, top - 150);
            sheet.text(&words, at, gray);
        }
        for (dew, x) in self.dew_points.iter().zip(dew) {
            sheet.dashes(&[(x, top - 550), (x, bottom)], DASHES, MOISTURE, 55);
            let set = isotherm::OF_DEW_POINT;
            let words = format!("{} {}", isotherm::DEW_POINT, style.show(*dew));
            let at = (x + 120, top - 150 - LINE);
            if sheet.is_free(Sheet::would_take(&words, at, set)) {
                sheet.text(&words, at, set);
            }
        }
    }
}

/// Every place of every detail: where something fails, then the coldest first.
fn rows(details: &[&JudgedDetail<'_>]) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for (n, one) in details.iter().enumerate() {
        let Ok(result) = one.result() else {
            continue;
        };
        let all = rows_of(one);
        for worst in worst_of_each(&all) {
            // Mold is told of its month and against its own limit; the axis is the winter mean.
            let of_place = all.iter().filter(|row| row.number == worst.number);
            let mut at_dew_point = of_place.filter(|row| !row.finding.check.is_of_mold);
            let Some(found) = at_dew_point.next() else {
                continue;
            };
            let is_surface = result.surfaces.iter().any(|one| one.name == worst.name);
            let known = rows.iter().position(|row| row.name == worst.name);
            let place = known.unwrap_or_else(|| {
                rows.push(Row {
                    name: worst.name.to_owned(),
                    dots: Vec::new(),
                    mold: Vec::new(),
                });
                rows.len() - 1
            });
            rows[place].dots.push(Dot {
                layout: n + 1,
                value: found.value,
                status: worst.finding.status,
            });
            if is_surface {
                rows[place].mold.push(isotherm::mold_at(one, result));
            }
        }
    }
    for row in &mut rows {
        row.dots
            .sort_by(|a, b| a.value.as_celsius().total_cmp(&b.value.as_celsius()));
        row.mold = distinct(row.mold.drain(..));
    }
    let coldest = |row: &Row| row.dots.first().map_or(0.0, |dot| dot.value.as_celsius());
    let fails = |row: &Row| row.dots.iter().any(|dot| dot.status == Status::Fail);
    rows.sort_by(|a, b| {
        fails(b)
            .cmp(&fails(a))
            .then(coldest(a).total_cmp(&coldest(b)))
    });
    rows
}

/// Temperatures that differ as printed.
fn distinct(all: impl Iterator<Item = Temperature>) -> Vec<Temperature> {
    let mut kept: Vec<Temperature> = Vec::new();
    for one in all {
        let same = |other: &Temperature| (*other - one).as_kelvin().abs() < 0.05;
        if !kept.iter().any(same) {
            kept.push(one);
        }
    }
    kept
}
