//! The view across the house: its width against the road's, and the head room.

use super::super::detail::measure::across;
use super::super::sheet::{INK, LINE, Lettering, SIZE, Sheet};
use super::answer::margin;
use super::paper::Paper;
use super::shape::Shape;
use crate::check::house::HEIGHT;
use crate::quantity::{Length, Style};
use crate::study::JudgedHouse;

/// From one dimension to the next.
pub(super) const LANE: i32 = 520;
/// Height of the dimensions under it.
pub(super) const UNDER: i32 = 450 + 2 * LANE;

/// Width of the widest words that don't fit into the view, drawn so wide inside, over all and up to
/// its limit.
pub(super) fn outside(
    one: &JudgedHouse<'_>,
    style: Style,
    (inside, wide, limit): (i32, i32, i32),
) -> i32 {
    let width = |words: &String| Lettering::PLAIN.width(words);
    let head = head_words(one, style).iter().map(width).max().unwrap_or(0);
    let lanes = [
        (head + 400, inside, head),
        lane(width_words(one, style), wide),
        lane(width_limit_words(one, style), limit),
    ];
    let out = lanes.into_iter().filter(|(needed, room, _)| needed >= room);
    out.map(|(.., width)| width).max().unwrap_or(0)
}

/// What a dimension's words need on its line, the line, and their own width.
fn lane(words: Option<String>, line: i32) -> (i32, i32, i32) {
    let width = words.map_or(0, |words| Lettering::PLAIN.width(&words));
    (if width > 0 { width + 500 } else { -1 }, line, width)
}

fn tape(meters: f64, style: Style) -> String {
    style.on_tape(Length::from_m(meters), f64::round)
}

fn both(meters: f64, style: Style) -> String {
    format!("{} ({})", tape(meters, style), tape(meters, style.other()))
}

fn width_words(one: &JudgedHouse<'_>, style: Style) -> Option<String> {
    let width = one.result.fit.width.as_ref()?.total();
    Some(format!("wide {}", tape(width.as_m(), style)))
}

fn width_limit_words(one: &JudgedHouse<'_>, style: Style) -> Option<String> {
    let limit = one.case.house.road.width?;
    Some(format!("limit {}", tape(limit.as_m(), style)))
}

fn head_words(one: &JudgedHouse<'_>, style: Style) -> Vec<String> {
    let room = one.result.fit.head_room;
    let words = room.map(|room| {
        let of = |style: Style| style.on_tape(Length::from_m(room.least), f64::floor);
        vec!["head room".to_owned(), of(style), of(style.other())]
    });
    words.unwrap_or_default()
}

/// The height's limit and what is left of it; empty where the file has none.
pub(super) fn limit_words(one: &JudgedHouse<'_>, style: Style) -> String {
    let Some(limit) = one.case.house.road.height else {
        return String::new();
    };
    let found = one.verdict.findings.iter().find(|one| one.check == &HEIGHT);
    let left = found.filter(|found| found.slack().is_some());
    let left = left.and_then(|found| margin(found, style));
    let left = left.map_or_else(String::new, |left| format!(": {left}"));
    format!("height limit {}{left}", both(limit.as_m(), style))
}

/// Width and head room, dimensioned; words that don't fit go no further right than `right`.
pub(super) fn draw(
    sheet: &mut Sheet,
    (paper, shape): (&Paper, &Shape<'_>),
    one: &JudgedHouse<'_>,
    (limit, right): (Option<f64>, i32),
    style: Style,
) {
    let view = shape.across();
    let (left, far) = view.extent();
    let edge = paper.y(shape.bottom());
    let mut y = edge + 380;
    if let Some(words) = width_words(one, style) {
        across(
            sheet,
            (paper.x(left), paper.x(far)),
            ((edge, edge), y),
            right,
            &words,
        );
        y += LANE;
    }
    if let (Some(words), Some(limit)) = (width_limit_words(one, style), limit) {
        let ends = (paper.x(left), paper.x(left + limit));
        across(sheet, ends, ((edge, edge), y), right, &words);
    }
    head_room(sheet, (paper, shape), &head_words(one, style), right);
}

/// How far from the wall the head room is dimensioned, in a room drawn so wide.
pub(super) fn inset(room: i32) -> i32 {
    (room / 8).min(400)
}

/// From the floor to the ceiling where it is lowest; its words beside it, or at the right of the view.
fn head_room(
    sheet: &mut Sheet,
    (paper, shape): (&Paper, &Shape<'_>),
    words: &[String],
    right: i32,
) {
    let view = shape.across();
    let (at, floor, ceiling) = view.head_room();
    let inner = view.inner_faces();
    let is_left = at == inner.0;
    let (low, high) = (paper.x(inner.0), paper.x(inner.1));
    let inset = inset(high - low);
    let x = if is_left { low + inset } else { high - inset };
    let (from, to) = (paper.y(ceiling), paper.y(floor));
    sheet.line(vec![(x, from), (x, to)], INK, 12);
    for y in [from, to] {
        sheet.line(vec![(x - 70, y + 70), (x + 70, y - 70)], INK, 18);
    }
    let plain = Lettering::PLAIN;
    let widest = words
        .iter()
        .map(|words| plain.width(words))
        .max()
        .unwrap_or(0);
    let count = i32::try_from(words.len()).unwrap_or(0);
    let middle = i32::midpoint(from, to);
    let mut baseline = middle - count * LINE / 2 + SIZE;
    let fits = high - low - inset > widest + 400 && to - from > count * LINE;
    let (x, set) = match (fits, is_left) {
        (true, true) => (x + 200, plain),
        (true, false) => (x - 200, plain.right()),
        (false, _) => {
            let end = right - widest;
            sheet.line(vec![(x, middle), (end - 60, middle)], INK, 9);
            (end, plain)
        }
    };
    for words in words {
        sheet.text(words, (x, baseline), set);
        baseline += LINE;
    }
}
