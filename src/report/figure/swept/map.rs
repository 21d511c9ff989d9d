//! Two axes: a cell for every combination.

use super::super::sheet::{FAINT, GRAY, INK, Lettering, SIZE, Sheet};
use super::{ACROSS, filled, letter, value_words, values_under};
use crate::check::Status;
use crate::check::sweep::Row;
use crate::model::Axis;
use crate::quantity::Style;

/// The least cell with a letter in it.
const LETTERED: (i32, i32) = (420, 420);

/// Draws the map between two heights and says it in words.
pub(super) fn draw(
    sheet: &mut Sheet,
    (across, up): (&Axis, &Axis),
    rows: &[Row],
    (top, bottom): (i32, i32),
    style: Style,
) -> String {
    let counts = (across.values.count(), up.values.count());
    let top = top + 420;
    let edge = |n: usize, count: usize, (from, to): (i32, i32)| {
        let share = n as f64 / count.max(1) as f64;
        from + (f64::from(to - from) * share).round() as i32
    };
    let x = |n: usize| edge(n, counts.0, ACROSS);
    let y = |n: usize| edge(n, counts.1, (bottom, top));
    let verdict = |i: usize, j: usize| {
        rows.get(i * counts.1 + j)
            .map_or(Status::Unknown, |row| row.verdict)
    };
    let room = (x(1) - x(0), y(0) - y(1));
    for i in 0..counts.0 {
        for j in 0..counts.1 {
            let (from, to) = ((x(i), y(j + 1)), (x(i + 1), y(j)));
            filled(sheet, from, to, verdict(i, j));
            if room.0 >= 200 && room.1 >= 200 {
                sheet.outline(from, to, FAINT, 8);
            }
        }
    }
    sheet.outline((ACROSS.0, top), (ACROSS.1, bottom), GRAY, 20);
    edge_of_pass(sheet, counts, (&x, &y), &verdict);
    if room.0 >= LETTERED.0 && room.1 >= LETTERED.1 {
        letters(sheet, counts, (&x, &y), &verdict);
    }
    values_under(sheet, across, |n| (x(n) + x(n + 1)) / 2, bottom, style);
    values_beside(sheet, up, |n| (y(n) + y(n + 1)) / 2, top, style);
    in_words((across, up), &verdict, style)
}

type Place<'a> = &'a dyn Fn(usize) -> i32;
type Verdict<'a> = &'a dyn Fn(usize, usize) -> Status;

/// The heavy line between what passes and what doesn't.
fn edge_of_pass(
    sheet: &Sheet,
    counts: (usize, usize),
    (x, y): (Place<'_>, Place<'_>),
    verdict: Verdict<'_>,
) {
    let passes = |i: usize, j: usize| verdict(i, j) == Status::Pass;
    let mut lines = Vec::new();
    for i in 0..counts.0 {
        for j in 0..counts.1 {
            if i + 1 < counts.0 && passes(i, j) != passes(i + 1, j) {
                lines.push(vec![(x(i + 1), y(j)), (x(i + 1), y(j + 1))]);
            }
            if j + 1 < counts.1 && passes(i, j) != passes(i, j + 1) {
                lines.push(vec![(x(i), y(j + 1)), (x(i + 1), y(j + 1))]);
            }
        }
    }
    sheet.strokes(lines, INK, 90);
}

/// A letter in each cell, on a patch of paper that keeps the hatching off it.
fn letters(
    sheet: &mut Sheet,
    counts: (usize, usize),
    (x, y): (Place<'_>, Place<'_>),
    verdict: Verdict<'_>,
) {
    let bold = Lettering::PLAIN.bold().centered();
    for i in 0..counts.0 {
        for j in 0..counts.1 {
            let middle = ((x(i) + x(i + 1)) / 2, (y(j) + y(j + 1)) / 2);
            let (from, to) = (
                (middle.0 - 150, middle.1 - 165),
                (middle.0 + 150, middle.1 + 165),
            );
            if verdict(i, j).severity() > 0 {
                sheet.fill(from, to, super::super::sheet::PAPER);
            }
            let baseline = (middle.0, middle.1 + SIZE * 36 / 100);
            sheet.text(letter(verdict(i, j)), baseline, bold);
        }
    }
}

/// The values of the axis that runs up, and its name over them.
fn values_beside(
    sheet: &mut Sheet,
    axis: &Axis,
    place: impl Fn(usize) -> i32,
    top: i32,
    style: Style,
) {
    let gray = Lettering::PLAIN.color(GRAY).right();
    let mut free_up_to = i32::MAX;
    for n in 0..axis.values.count() {
        let y = place(n);
        if y + SIZE / 2 > free_up_to {
            continue;
        }
        free_up_to = y - SIZE * 8 / 10;
        let words = gray.fit(&value_words(axis, n, style), 2300);
        sheet.line(vec![(ACROSS.0 - 90, y), (ACROSS.0, y)], FAINT, 15);
        sheet.text(&words, (ACROSS.0 - 150, y + SIZE * 36 / 100), gray);
    }
    let bold = Lettering::PLAIN.bold();
    let name = bold.fit(&axis.name, ACROSS.1 - ACROSS.0);
    sheet.text(&name, (ACROSS.0, top - 170), bold);
}

fn in_words((across, up): (&Axis, &Axis), verdict: Verdict<'_>, style: Style) -> String {
    let column = |i: usize| {
        let count = up.values.count();
        let passing = (0..count).filter(|j| verdict(i, *j) == Status::Pass);
        let passing: Vec<String> = passing.map(|j| value_words(up, j, style)).collect();
        let told = match passing.as_slice() {
            [] => "none passes".to_owned(),
            [one] => format!("passes at {one}"),
            all if all.len() == count => "all pass".to_owned(),
            [first, .., last] => format!("{} of {count} pass, {first} to {last}", passing.len()),
        };
        format!("{}: {told}", value_words(across, i, style))
    };
    let columns: Vec<String> = (0..across.values.count()).map(column).collect();
    format!(
        "Verdicts by {} across and {} up. {}.",
        across.name,
        up.name,
        columns.join("; ")
    )
}
