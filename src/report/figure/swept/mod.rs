//! A sweep drawn: lines over one axis, or a map over two with the edge of what passes.

mod lines;
mod map;

use super::hatch;
use super::legend::{Item, patch};
use super::sheet::{FAINT, Figure, GRAY, INK, Lettering, Point, SIZE, Sheet};
use super::title::{EDGE, Frame, LETTER};
use crate::check::Status;
use crate::check::sweep::Row;
use crate::model::{Axis, Project, Sweep};
use crate::quantity::{Dimension, Length, RelativeHumidity, Style, plain};
use crate::report::sweep::{AxisValue, axis_value};

/// The chart's left and right edges.
const ACROSS: (i32, i32) = (EDGE + 2600, LETTER.0 - EDGE - 300);
/// Room under a chart for the values of its axis and the axis's name.
const UNDER: i32 = 1150;

/// Draws it. The rows are those of the first two axes, the others at their first values.
pub(super) fn draw(project: &Project, sweep: &Sweep, rows: &[Row], style: Style) -> Figure {
    let passing = rows
        .iter()
        .filter(|row| row.verdict == Status::Pass)
        .count();
    let word = format!("{passing} of {} pass", rows.len());
    let assembly = &sweep.case.assembly.name;
    let subject = match sweep.axes.as_slice() {
        [one] => format!("{assembly}, by {}", one.name),
        [one, two, ..] => format!("{assembly}, by {} and {}", one.name, two.name),
        [] => assembly.clone(),
    };
    let conditions = conditions(sweep, style);
    let assemblies = [&sweep.case.assembly];
    let frame = Frame::about(project, &subject, &word, &conditions, assemblies);
    let is_map = sweep.axes.len() > 1;
    let frame = frame.with_legend(if is_map { MAP } else { LINES });
    let mut sheet = Sheet::new(LETTER);
    let between = (frame.top(), LETTER.1 - frame.bottom() - UNDER);
    let words = match sweep.axes.as_slice() {
        [across, up, ..] => map::draw(&mut sheet, (across, up), rows, between, style),
        [across] => lines::draw(&mut sheet, across, rows, between, style),
        [] => String::new(),
    };
    frame.draw(&mut sheet, LETTER.1, "Every combination at nominal values");
    sheet.finish(&format!("{}: {subject}", project.title), &words)
}

fn conditions(sweep: &Sweep, style: Style) -> String {
    let climate = match sweep.stop.name.as_str() {
        "" => String::new(),
        name => format!(" Climate {name} where no axis names another."),
    };
    let held = sweep
        .axes
        .iter()
        .skip(2)
        .map(|axis| format!("{} at {}", axis.name, value_words(axis, 0, style)));
    let held: Vec<String> = held.collect();
    let held = match held.is_empty() {
        true => String::new(),
        false => format!(" Held: {}.", held.join(", ")),
    };
    format!(
        "All checks of assemblies at the materials' nominal values; what the materials' ranges \
         change isn't in here. Depends: it hangs on airtightness, on the design night or on what a \
         table doesn't know.{climate}{held}"
    )
}

/// A value as builders read it.
fn value_words(axis: &Axis, index: usize, style: Style) -> String {
    match axis_value(&axis.values, index) {
        AxisValue::Name(name) => name.to_owned(),
        AxisValue::Number(0.0, Dimension::Length) => "none".into(),
        AxisValue::Number(m, Dimension::Length) => style.show(Length::from_m(m)),
        AxisValue::Number(share, Dimension::Humidity) => {
            style.show(RelativeHumidity::from_fraction(share))
        }
        AxisValue::Number(value, column) => {
            let mut told = String::new();
            plain(&mut told, column.value(value, style), 4);
            format!("{told} {}", column.unit(style))
        }
    }
}

/// The values of an axis under a chart, as many as there is room for, and its name.
fn values_under(
    sheet: &mut Sheet,
    axis: &Axis,
    place: impl Fn(usize) -> i32,
    y: i32,
    style: Style,
) {
    let count = axis.values.count();
    let gray = Lettering::PLAIN.color(GRAY).centered();
    let room = (ACROSS.1 - ACROSS.0) / i32::try_from(count.max(1)).unwrap_or(i32::MAX);
    let most = room.max(2400);
    let words: Vec<String> = (0..count)
        .map(|n| gray.fit(&value_words(axis, n, style), most))
        .collect();
    let mut free_from = i32::MIN;
    for (n, words) in words.iter().enumerate() {
        let (x, half) = (place(n), gray.width(words) / 2);
        if x - half < free_from {
            continue;
        }
        free_from = x + half + 250;
        sheet.line(vec![(x, y), (x, y + 90)], FAINT, 15);
        sheet.text(words, (x, y + 110 + SIZE), gray);
    }
    let middle = (ACROSS.0 + ACROSS.1) / 2;
    let name = Lettering::PLAIN.bold().centered();
    let fitted = name.fit(&axis.name, ACROSS.1 - ACROSS.0);
    sheet.text(&fitted, (middle, y + 130 + 2 * SIZE + 120), name);
}

/// Fills a rectangle as its verdict: nothing for pass, one way for depends, crossed for fail.
fn filled(sheet: &Sheet, from: Point, to: Point, status: Status) {
    let corners = [from, (to.0, from.1), to, (from.0, to.1)];
    match status.severity() {
        0 => {}
        1 => sheet.strokes(hatch::parallel(&corners, (45.0, 210.0, 0.0)), FAINT, 16),
        _ => {
            for angle in [45.0, -45.0] {
                sheet.strokes(hatch::parallel(&corners, (angle, 130.0, 0.0)), GRAY, 18);
            }
        }
    }
}

/// The letter of a verdict.
fn letter(status: Status) -> &'static str {
    match status.severity() {
        0 => "P",
        1 => "D",
        _ => "F",
    }
}

fn sample(sheet: &Sheet, at: Point, status: Status) {
    let corners = patch(at);
    filled(sheet, corners[0], corners[2], status);
    sheet.outline(corners[0], corners[2], FAINT, 12);
}

const MAP: &[Item] = &[
    ("P: pass", |sheet, at| sample(sheet, at, Status::Pass)),
    ("D: depends", |sheet, at| sample(sheet, at, Status::Depends)),
    ("F: fail", |sheet, at| sample(sheet, at, Status::Fail)),
    ("where pass ends", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], INK, 90);
    }),
];

const LINES: &[Item] = &[
    ("where the check passes", |sheet, at| {
        let corners = patch(at);
        lines::passing(sheet, corners[0], corners[2]);
    }),
    ("its limit", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], INK, 45);
    }),
    ("P: pass", |sheet, at| sample(sheet, at, Status::Pass)),
    ("D: depends", |sheet, at| sample(sheet, at, Status::Depends)),
    ("F: fail", |sheet, at| sample(sheet, at, Status::Fail)),
];
