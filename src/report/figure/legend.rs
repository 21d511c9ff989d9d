//! What the lines and fillings of a figure mean.

use super::hatch;
use super::place::{DASHES, DOTS};
use super::sheet::{BAND, HEAT, INK, LINE, Lettering, MOISTURE, Point, SIZE, Sheet};

/// Draws a sample of a line or a filling, its left middle at a point.
pub(super) type Sample = fn(&Sheet, Point);
/// Words and the sample before them.
pub(super) type Item = (&'static str, Sample);

/// Width of a sample, and with the gap after it.
const SAMPLE: (i32, i32) = (900, 1080);
/// Between one item and the next.
const APART: i32 = 500;

/// What stands in a section.
pub(super) const SECTION: &[Item] = &[
    ("temperature, as far as room air leaks", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], HEAT, 60);
    }),
    ("temperature beyond", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], HEAT, 22)
    }),
    ("room air's dew point", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], DASHES, MOISTURE, 45);
    }),
    ("leak margin", |sheet, (x, y)| {
        sheet.fill((x, y - 130), (x + 900, y + 130), BAND)
    }),
    ("colder than it: wet", |sheet, (x, y)| {
        hatch::wet(sheet, &patch((x, y)));
    }),
    ("the same, beyond what is judged", |sheet, (x, y)| {
        hatch::unjudged(sheet, &patch((x, y)));
    }),
    ("dew point by diffusion", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], DOTS, MOISTURE, 22);
    }),
];

/// The corners of a sample of a filling.
pub(super) fn patch((x, y): Point) -> [Point; 4] {
    let right = x + SAMPLE.0;
    [
        (x, y - 130),
        (right, y - 130),
        (right, y + 130),
        (x, y + 130),
    ]
}

/// Where each item goes in a width: its upper left, counted from the first.
fn places(items: &[Item], room: i32) -> Vec<Point> {
    let (mut x, mut y) = (0, 0);
    let mut places = Vec::new();
    for (words, _) in items {
        let width = SAMPLE.1 + Lettering::PLAIN.width(words);
        if x + width > room {
            (x, y) = (0, y + LINE);
        }
        places.push((x, y));
        x += width + APART;
    }
    places
}

/// Height of all its lines in a width.
pub(super) fn height(items: &[Item], room: i32) -> i32 {
    places(items, room).last().map_or(0, |(_, y)| y + LINE)
}

/// Draws it in a width, its first line on a baseline.
pub(super) fn draw(sheet: &mut Sheet, (left, baseline): Point, room: i32, items: &[Item]) {
    for ((words, sample), (right, down)) in items.iter().zip(places(items, room)) {
        let (x, y) = (left + right, baseline + down);
        sample(sheet, (x, y - SIZE * 36 / 100));
        sheet.text(words, (x + SAMPLE.1, y), Lettering::PLAIN.color(INK));
    }
}
