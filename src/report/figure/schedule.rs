//! The list of a path's layers and planes, inside to outside, keyed to the numbers on the drawing.

use super::cut::{Cell, Cut};
use super::hatch;
use super::sheet::{GRAY, INK, LINE, Lettering, MOISTURE, Point, SIZE, Sheet};
use crate::quantity::{Style, UnitSystem};

/// Width of the plane numbers.
const NUMBER: i32 = 560;
/// Width of the hatch beside a layer's name, with the gap after it.
const SWATCH: i32 = 560;

/// How many lines [`alternating`] takes.
pub(super) fn alternating_lines(cut: &Cut<'_>) -> i32 {
    lines(cut.cells.len()) + lines(cut.path.roles.len()) + 1
}

/// How many lines [`one_line`] takes.
pub(super) fn one_line_lines(cut: &Cut<'_>) -> i32 {
    lines(cut.cells.len()) + 2
}

/// How many lines [`layers`] takes.
pub(super) fn layers_lines(cut: &Cut<'_>) -> i32 {
    lines(cut.cells.len()) + 1
}

fn lines(count: usize) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX / LINE / 4)
}

/// Planes and layers by turns, in a narrow column: plane 1, layer, plane 2, layer …
pub(super) fn alternating(
    sheet: &mut Sheet,
    (x, y): Point,
    width: i32,
    cut: &Cut<'_>,
    style: Style,
) {
    let gray = Lettering::PLAIN.color(GRAY);
    sheet.text(heading(style), (x, y), gray);
    sheet.text("margin", (x + width, y), gray.right());
    let mut baseline = y + LINE;
    for n in 0..cut.path.roles.len().max(cut.cells.len()) {
        if n < cut.path.roles.len() {
            sheet.text(&(n + 1).to_string(), (x, baseline), Lettering::PLAIN);
            let temperature = style.show(cut.temperature(n));
            sheet.text(&temperature, (x + NUMBER, baseline), Lettering::PLAIN);
            margin(sheet, (x + width, baseline), cut, n, style);
            baseline += LINE;
        }
        if let Some(cell) = cut.cells.get(n) {
            layer(sheet, (x + NUMBER, baseline), width - NUMBER, cell, style);
            baseline += LINE;
        }
    }
}

/// One line for every layer with the plane at its inner face, for wide places.
pub(super) fn one_line(sheet: &mut Sheet, (x, y): Point, width: i32, cut: &Cut<'_>, style: Style) {
    let gray = Lettering::PLAIN.color(GRAY);
    let (temperature, layers) = (width - 3150, width - 3150 - 1550);
    sheet.text(heading(style), (x + NUMBER, y), gray);
    sheet.text("at its inner face", (x + width, y), gray.right());
    let rows = cut.cells.len().max(cut.path.roles.len());
    for n in 0..rows {
        let baseline = y + LINE * (lines(n) + 1);
        if let Some(cell) = cut.cells.get(n) {
            layer(sheet, (x + NUMBER, baseline), layers - NUMBER, cell, style);
        } else {
            sheet.text(cut.outer_word(), (x + NUMBER + SWATCH, baseline), gray);
        }
        if n < cut.path.roles.len() {
            sheet.text(&(n + 1).to_string(), (x, baseline), Lettering::PLAIN);
            let words = style.show(cut.temperature(n));
            sheet.text(
                &words,
                (x + temperature, baseline),
                Lettering::PLAIN.right(),
            );
            margin(sheet, (x + width, baseline), cut, n, style);
        }
    }
}

/// The layers alone, where the planes stand elsewhere.
pub(super) fn layers(sheet: &mut Sheet, (x, y): Point, width: i32, cut: &Cut<'_>, style: Style) {
    let gray = Lettering::PLAIN.color(GRAY);
    sheet.text(heading(style), (x, y), gray);
    for (n, cell) in cut.cells.iter().enumerate() {
        layer(sheet, (x, y + LINE * lines(n + 1)), width, cell, style);
    }
}

/// What stands over a list.
fn heading(style: Style) -> &'static str {
    match style.units {
        UnitSystem::Imperial => "inside to outside",
        UnitSystem::Metric => "inside to outside, m²K/W",
    }
}

/// A layer's hatch, name, thickness and resistance.
fn layer(sheet: &mut Sheet, (x, baseline): Point, width: i32, cell: &Cell, style: Style) {
    swatch(sheet, (x, baseline), cell);
    let gray = Lettering::PLAIN.color(GRAY);
    let resistance = cell.resistance_words(style);
    sheet.text(&resistance, (x + width, baseline), gray.right());
    let room = width - SWATCH - gray.width(&resistance) - 150;
    sheet.text(
        &layer_words(cell, room, style),
        (x + SWATCH, baseline),
        gray.color(INK),
    );
}

/// The fullest description of a layer that fits.
pub(super) fn layer_words(cell: &Cell, room: i32, style: Style) -> String {
    let fits = |words: &String| Lettering::PLAIN.width(words) <= room;
    let described = [cell.words(style, true), cell.words(style, false)];
    let found = described.into_iter().find(fits);
    found.unwrap_or_else(|| Lettering::PLAIN.fit(&cell.name, room))
}

/// The hatch of a layer, small.
pub(super) fn swatch(sheet: &Sheet, (x, baseline): Point, cell: &Cell) {
    let (from, to) = (
        (x, baseline - SIZE * 3 / 4),
        (x + SWATCH - 130, baseline + 20),
    );
    hatch::fill(sheet, cell.hatch, from, to, false);
    sheet.outline(from, to, INK, 15);
}

/// A plane's margin and which it is, ending at a point.
fn margin(sheet: &mut Sheet, (right, baseline): Point, cut: &Cut<'_>, plane: usize, style: Style) {
    let Some(margin) = cut.margin(plane) else {
        sheet.text(
            "sealed in",
            (right, baseline),
            Lettering::PLAIN.color(GRAY).right(),
        );
        return;
    };
    let words = format!("{} {}", style.margin_number(margin.value), margin.word);
    let plain = Lettering::PLAIN.right();
    let is_wet = margin.value.as_kelvin() <= 0.0 && margin.word != "not judged";
    sheet.text(
        &words,
        (right, baseline),
        if is_wet {
            plain.bold().color(MOISTURE)
        } else {
            plain
        },
    );
}
