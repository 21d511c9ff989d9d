//! One axis: what decides, drawn over it, each against its limit.

use super::super::axis::Axis as NumberAxis;
use super::super::hatch;
use super::super::sheet::{FAINT, HEAT, INK, Lettering, Point, SIZE, Sheet};
use super::{ACROSS, filled, letter, value_words, values_under};
use crate::check::drying::LONGEST;
use crate::check::sweep::{Cell, Row, columns};
use crate::check::{self, Check};
use crate::model::Axis;
use crate::quantity::{Dimension, Style};
use crate::report::sweep::{AxisValue, axis_value};

/// Height of the strip of verdicts.
const STRIP: i32 = 700;
/// Between two charts, with the upper one's heading.
const GAP: i32 = 800;

/// One chart: a value of each row against a limit.
struct Chart {
    heading: String,
    values: Vec<Option<f64>>,
    limits: Vec<Option<f64>>,
    /// Whether values over the limit pass.
    passes_above: bool,
}

/// Draws the charts between two heights and says them in words.
pub(super) fn draw(
    sheet: &mut Sheet,
    axis: &Axis,
    rows: &[Row],
    (top, bottom): (i32, i32),
    style: Style,
) -> String {
    let charts = charts(rows, style);
    let place = along(axis);
    let count = i32::try_from(charts.len()).unwrap_or(1).max(1);
    let charts_end = bottom - STRIP - GAP;
    let each = (charts_end - top - (count - 1) * GAP) / count;
    for (n, chart) in (0_i32..).zip(&charts) {
        let from = top + 420 + n * (each + GAP - 140);
        chart.draw(sheet, &place, (from, from + each - 420));
    }
    strip(sheet, rows, &place, (bottom - STRIP, bottom));
    values_under(sheet, axis, &place, bottom, style);
    in_words(axis, rows, style)
}

/// Where the values lie: numbers to scale, names evenly.
fn along(axis: &Axis) -> impl Fn(usize) -> i32 + use<> {
    let count = axis.values.count();
    let numbers: Vec<f64> = (0..count)
        .filter_map(|n| match axis_value(&axis.values, n) {
            AxisValue::Number(value, _) => Some(value),
            AxisValue::Name(_) => None,
        })
        .collect();
    let numbers = match numbers.len() == count {
        true => numbers,
        false => (0..count).map(|n| n as f64).collect(),
    };
    let low = numbers.iter().copied().fold(f64::INFINITY, f64::min);
    let high = numbers.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let inset = 500;
    let ends = (ACROSS.0 + inset, ACROSS.1 - inset);
    move |n: usize| {
        if high <= low {
            return (ends.0 + ends.1) / 2;
        }
        let axis = NumberAxis {
            values: (low, high),
            ends,
        };
        axis.at(numbers.get(n).copied().unwrap_or(low))
    }
}

fn charts(rows: &[Row], style: Style) -> Vec<Chart> {
    let cells = |check: &Check| -> Vec<Cell> {
        let at = columns().position(|(one, _)| one == check).unwrap_or(0);
        rows.iter().map(|row| row.cells[at]).collect()
    };
    let of = |check, column: Dimension, what: &str, limit: Option<f64>, passes_above| {
        let cells = cells(check);
        let read = |si: f64| column.value(si, style);
        let chart = Chart {
            heading: format!("{what}, {}", column.unit(style)),
            values: cells.iter().map(|cell| cell.value.map(read)).collect(),
            limits: cells
                .iter()
                .map(|cell| limit.or(cell.limit).map(read))
                .collect(),
            passes_above,
        };
        chart.values.iter().any(Option::is_some).then_some(chart)
    };
    let kelvin = Dimension::Difference;
    let steel = of(
        &check::steel_wood::CHECK,
        kelvin,
        "Wood at the steel: margin",
        Some(0.0),
        true,
    );
    let all = [
        steel.or_else(|| {
            of(
                &check::air_leak::CHECK,
                kelvin,
                "Least leak margin",
                Some(0.0),
                true,
            )
        }),
        of(
            &check::drying::CHECK,
            Dimension::Days,
            "Can it dry: 1 kg/m² gone",
            Some(LONGEST),
            false,
        ),
        of(
            &check::year::CHECK,
            Dimension::Water,
            "Peak water by diffusion, its limit where something is wetted",
            None,
            false,
        ),
    ];
    all.into_iter().flatten().collect()
}

impl Chart {
    fn draw(&self, sheet: &mut Sheet, place: &impl Fn(usize) -> i32, (top, bottom): (i32, i32)) {
        let all = self.values.iter().chain(&self.limits).flatten().copied();
        let (low, high) = all.fold((0.0_f64, 0.0_f64), |(low, high), value| {
            (low.min(value), high.max(value))
        });
        let air = (0.06 * (high - low)).max(1e-3);
        let low = if low < 0.0 { low - air } else { 0.0 };
        let axis = NumberAxis {
            values: (low, high + air),
            ends: (bottom, top),
        };
        for (from, to, limit) in self.limit_spans(place) {
            let y = axis.at(limit);
            let (upper, lower) = if self.passes_above {
                (top, y)
            } else {
                (y, bottom)
            };
            passing(sheet, (from, upper), (to, lower));
            sheet.line(vec![(from, y), (to, y)], INK, 45);
        }
        axis.draw(sheet, ACROSS.0);
        let bold = Lettering::PLAIN.bold();
        sheet.text(&self.heading, (ACROSS.0, top - 150), bold);
        let mut line: Vec<Point> = Vec::new();
        for (n, value) in self.values.iter().enumerate() {
            match value {
                Some(value) => line.push((place(n), axis.at(*value))),
                None => stroke(sheet, std::mem::take(&mut line)),
            }
        }
        stroke(sheet, line);
        if self.values.len() <= 60 {
            for (n, value) in self.values.iter().enumerate() {
                if let Some(value) = value {
                    sheet.ring((place(n), axis.at(*value)), 60, HEAT, 30);
                }
            }
        }
    }

    /// Stretches with one limit, from middle to middle between the values.
    fn limit_spans(&self, place: &impl Fn(usize) -> i32) -> Vec<(i32, i32, f64)> {
        let count = self.limits.len();
        let mut spans: Vec<(i32, i32, f64)> = Vec::new();
        for (n, limit) in self.limits.iter().enumerate() {
            let Some(limit) = *limit else { continue };
            let (from, to) = stretch(place, n, count);
            match spans.last_mut() {
                Some((_, end, same)) if *end == from && *same == limit => *end = to,
                _ => spans.push((from, to, limit)),
            }
        }
        spans
    }
}

fn stroke(sheet: &Sheet, line: Vec<Point>) {
    if line.len() > 1 {
        sheet.line(line, HEAT, 55);
    }
}

/// From halfway to the value before to halfway to the one after it.
fn stretch(place: &impl Fn(usize) -> i32, n: usize, count: usize) -> (i32, i32) {
    let between = |a: usize, b: usize| (place(a) + place(b)) / 2;
    let before = if n == 0 { ACROSS.0 } else { between(n - 1, n) };
    let after = if n + 1 == count {
        ACROSS.1
    } else {
        between(n, n + 1)
    };
    (before.min(after), before.max(after))
}

/// Where a check passes: a wide, light hatch.
pub(super) fn passing(sheet: &Sheet, from: Point, to: Point) {
    let corners = [from, (to.0, from.1), to, (from.0, to.1)];
    sheet.strokes(hatch::parallel(&corners, (-45.0, 320.0, 0.0)), FAINT, 12);
}

/// The verdicts along the axis.
fn strip(
    sheet: &mut Sheet,
    rows: &[Row],
    place: &impl Fn(usize) -> i32,
    (top, bottom): (i32, i32),
) {
    let bold = Lettering::PLAIN.bold();
    sheet.text("Verdict", (ACROSS.0, top - 150), bold);
    let mut spans: Vec<(i32, i32, crate::check::Status)> = Vec::new();
    for (n, row) in rows.iter().enumerate() {
        let (from, to) = stretch(place, n, rows.len());
        match spans.last_mut() {
            Some((_, end, status)) if *status == row.verdict => *end = to,
            _ => spans.push((from, to, row.verdict)),
        }
    }
    for (from, to, status) in spans {
        filled(sheet, (from, top), (to, bottom), status);
        sheet.outline((from, top), (to, bottom), INK, 20);
        if to - from >= 420 {
            let middle = ((from + to) / 2, (top + bottom) / 2);
            if status.severity() > 0 {
                let paper = super::super::sheet::PAPER;
                sheet.fill(
                    (middle.0 - 150, middle.1 - 165),
                    (middle.0 + 150, middle.1 + 165),
                    paper,
                );
            }
            let baseline = (middle.0, middle.1 + SIZE * 36 / 100);
            sheet.text(letter(status), baseline, bold.centered());
        }
    }
}

fn in_words(axis: &Axis, rows: &[Row], style: Style) -> String {
    let each = rows
        .iter()
        .enumerate()
        .map(|(n, row)| format!("{}: {}", value_words(axis, n, style), row.verdict.word()));
    format!(
        "Verdicts by {}. {}.",
        axis.name,
        each.collect::<Vec<_>>().join("; ")
    )
}
