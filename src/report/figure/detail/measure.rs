//! Dimensions around a drawing: lanes above, below, at the left and at the right of it.

use super::super::lettering::wrap;
use super::super::place::spread;
use super::super::sheet::{FAINT, INK, LINE, Lettering, PAPER, Point, SIZE, Sheet};
use super::window::Window;
use crate::model::detail::{Area, LEAST_SIZE};
use crate::model::drawn::{DetailCase, Dimension, Part};
use crate::quantity::{Length, Style};

/// From one lane to the next.
const LANE: i32 = 520;
/// The same for heights.
const CLOSE: i32 = 300;
/// Dashes of extension lines over what is drawn.
const INSIDE: (f64, f64) = (60.0, 160.0);
/// Extension lines keep so far off words.
const CLEAR: i32 = 90;
/// Names with more letters may take a second line.
const LONG: usize = 26;
/// The widest words of a height.
const WIDEST: i32 = 2600;

/// The dimensions that are drawn.
fn drawn<'a>(case: &'a DetailCase, window: &'a Window) -> impl Iterator<Item = &'a Dimension> {
    let area = &window.area;
    case.dimensions.iter().filter(|one| {
        let line = &one.line;
        let inside = |from: f64, to: f64, low: f64, high: f64| {
            from >= low - LEAST_SIZE && to <= high + LEAST_SIZE && to - from > LEAST_SIZE
        };
        inside(line.left, line.right, area.left, area.right)
            || inside(line.bottom, line.top, area.bottom, area.top)
    })
}

fn is_level(one: &Dimension) -> bool {
    one.line.right - one.line.left > one.line.top - one.line.bottom
}

/// Room needed at the left of the drawing and below it.
pub(super) fn lanes(case: &DetailCase, window: &Window, style: Style) -> Point {
    let (level, upright): (Vec<_>, Vec<_>) = drawn(case, window)
        .filter(|one| !is_above(one, window))
        .partition(|one| is_level(one));
    let whole = |count: usize| i32::try_from(count).unwrap_or(0);
    let widths = upright
        .iter()
        .map(|one| Lettering::PLAIN.width(&words(one, style)));
    let beside = widths.max().map_or(0, |width| {
        width.min(WIDEST) + 250 + CLOSE * whole(upright.len())
    });
    let second = if level.iter().any(|one| one.name.len() > LONG) {
        LINE
    } else {
        0
    };
    (beside, LANE * whole(level.len()) + second + 250)
}

/// Whether it is drawn above: what it measures leaves the drawing there.
fn is_above(one: &Dimension, window: &Window) -> bool {
    is_level(one) && one.line.top >= window.area.top - LEAST_SIZE
}

/// Room needed above the drawing.
pub(super) fn above(case: &DetailCase, window: &Window) -> i32 {
    let count = drawn(case, window)
        .filter(|one| is_above(one, window))
        .count();
    i32::try_from(count).unwrap_or(0) * LANE
}

/// Draws them: lengths across below the drawing or above it, heights at its left. `names` is the
/// height taken by what stands right above the drawing, `beside` the width taken at its left.
pub(super) fn draw(
    sheet: &mut Sheet,
    window: &Window,
    case: &DetailCase,
    (names, beside, room): (i32, i32, i32),
    style: Style,
) {
    let far = window.far();
    let (level, upright): (Vec<_>, Vec<_>) = drawn(case, window).partition(|one| is_level(one));
    let mut below = far.1 + 380;
    // What is named under the drawing comes first.
    if !sheet.is_free([window.corner.0, far.1, far.0, far.1 + SIZE]) {
        below += LINE;
    }
    let mut over = window.corner.1 - names - 200;
    for one in level {
        let line = &one.line;
        let (from, to) = (
            window.point(line.left, line.top),
            window.point(line.right, line.bottom),
        );
        let words = words(one, style);
        let edge = from.1.clamp(window.corner.1, far.1);
        let above = window.corner.1 - names;
        let (edges, y) = match is_above(one, window) {
            true => ((above, above), &mut over),
            false => ((edge, far.1.max(edge)), &mut below),
        };
        let more = across(sheet, (from.0, to.0), (edges, *y), far.0 + room, &words);
        *y += if is_above(one, window) {
            -LANE
        } else {
            LANE + more
        };
    }
    heights(sheet, window, &upright, beside, style);
}

fn words(one: &Dimension, style: Style) -> String {
    let line = &one.line;
    let length = (line.right - line.left).max(line.top - line.bottom);
    format!("{} {}", style.show(Length::from_m(length)), one.name)
}

/// Heights stand close beside each other, their words at the left of all.
fn heights(sheet: &mut Sheet, window: &Window, upright: &[&Dimension], beside: i32, style: Style) {
    let plain = Lettering::PLAIN.right();
    let mut x = window.corner.0 - beside - CLOSE;
    let mut placed = Vec::new();
    for one in upright {
        let line = &one.line;
        let (from, to) = (
            window.point(line.left, line.top),
            window.point(line.right, line.bottom),
        );
        let edge = from.0.clamp(window.corner.0, window.far().0);
        for y in [from.1, to.1] {
            let outer = edge.min(window.corner.0);
            extension_inside(sheet, (edge, y), (outer, y));
            extension(sheet, (outer, y), (x - 90, y));
            sheet.line(vec![(x - 70, y + 70), (x + 70, y - 70)], INK, 18);
        }
        sheet.line(vec![(x, from.1), (x, to.1)], INK, 12);
        placed.push((i32::midpoint(from.1, to.1), x, words(one, style)));
        x -= CLOSE;
    }
    placed.sort();
    let wanted: Vec<i32> = placed.iter().map(|(y, ..)| *y).collect();
    let labels = spread(&wanted, LINE, (window.corner.1, window.far().1));
    for ((y, line, words), label) in placed.iter().zip(labels) {
        let end = x + CLOSE - 200;
        sheet.line(vec![(*line, *y), (end + 60, label)], FAINT, 9);
        let words = plain.fit(words, WIDEST);
        sheet.text(&words, (end, label + SIZE * 36 / 100), plain);
    }
}

/// Its words on the line where that is long enough, else at its right; returns what a second line
/// of them takes.
pub(in crate::report::figure) fn across(
    sheet: &mut Sheet,
    (from, to): Point,
    ((edge, outer), y): ((i32, i32), i32),
    right: i32,
    words: &str,
) -> i32 {
    let past = if y > edge { 90 } else { -90 };
    for x in [from, to] {
        extension_inside(sheet, (x, edge), (x, outer));
        extension(sheet, (x, outer), (x, y + past));
        sheet.line(vec![(x - 70, y + 70), (x + 70, y - 70)], INK, 18);
    }
    sheet.line(vec![(from, y), (to, y)], INK, 12);
    let plain = Lettering::PLAIN;
    let base = y + SIZE * 36 / 100;
    if plain.width(words) + 500 < to - from {
        let at = (i32::midpoint(from, to), base);
        on_paper(sheet, words, at, plain.centered());
        return 0;
    }
    let room = right - to - 160;
    let mut lines = match y > edge && words.len() > LONG {
        true => wrap(words, SIZE, false, room),
        false => vec![words.to_owned()],
    };
    let rest = lines.split_off(lines.len().min(1)).join(" ");
    for (n, line) in lines.iter().chain([&rest]).enumerate() {
        let at = (to + 160, base + LINE * i32::try_from(n).unwrap_or(0));
        on_paper(sheet, &plain.fit(line, room), at, plain);
    }
    if rest.is_empty() { 0 } else { LINE }
}

/// An extension line.
fn extension(sheet: &Sheet, from: Point, to: Point) {
    let lines = pieces(sheet, from, to).into_iter();
    sheet.strokes(lines.map(|(one, next)| vec![one, next]), FAINT, 9);
}

/// A line without the pieces at which words stand.
fn pieces(sheet: &Sheet, from: Point, to: Point) -> Vec<(Point, Point)> {
    let length = (to.0 - from.0).abs().max((to.1 - from.1).abs());
    let count = (length / CLEAR).max(1);
    let at = |n: i32| {
        (
            from.0 + (to.0 - from.0) * n / count,
            from.1 + (to.1 - from.1) * n / count,
        )
    };
    let is_free = |(x, y): Point| sheet.is_free([x - CLEAR, y - CLEAR, x + CLEAR, y + CLEAR]);
    let mut pieces: Vec<(Point, Point)> = Vec::new();
    for (one, next) in (0..count).map(|n| (at(n), at(n + 1))) {
        if !(is_free(one) && is_free(next)) {
            continue;
        }
        match pieces.last_mut() {
            Some(last) if last.1 == one => last.1 = next,
            _ => pieces.push((one, next)),
        }
    }
    pieces
}

/// The same over what is drawn: in short dashes, so that nobody takes it for the edge of a part.
fn extension_inside(sheet: &Sheet, from: Point, to: Point) {
    for (from, to) in pieces(sheet, from, to) {
        sheet.dashes(&[from, to], INSIDE, FAINT, 9);
    }
}

fn on_paper(sheet: &mut Sheet, words: &str, at: Point, set: Lettering) {
    if words.is_empty() {
        return;
    }
    let [left, top, right, bottom] = Sheet::would_take(words, at, set);
    sheet.fill((left - 40, top - 20), (right + 40, bottom), PAPER);
    sheet.text(words, at, set);
}

/// Foam, plate and cut in words.
pub(super) fn in_words(case: &DetailCase, style: Style) -> String {
    let size = |area: &Area| {
        format!(
            "{} × {}",
            style.show(Length::from_m(area.right - area.left)),
            style.show(Length::from_m(area.top - area.bottom))
        )
    };
    let of = |part: Part| {
        case.blocks_of(part)
            .map(|one| format!("{} {}", one.block.name, size(&one.block.area)))
    };
    let parts = [
        Part::Flange,
        Part::OverFlange,
        Part::Packing,
        Part::Plate,
        Part::RimJoist,
    ];
    let mut all: Vec<String> = parts.into_iter().flat_map(of).collect();
    let whole = Area::new(0.0, case.width, 0.0, case.height);
    all.push(format!("whole cut {}", size(&whole)));
    format!("Across × up: {}.", all.join(", "))
}
