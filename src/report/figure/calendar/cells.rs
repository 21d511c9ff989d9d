//! A row's twelve cells: tint and number of the humidity, frost, and the water held.

use super::super::hatch;
use super::super::place::DASHES;
use super::super::sheet::{DAMP, FAINT, INK, LINE, Lettering, MOISTURE, PAPER, Point, Sheet};
use super::super::water::finite;
use super::across::Across;
use super::entry::Entry;
use crate::quantity::{ArealDensity, Style, fixed};

/// Least distance of what stands in one month from what stands in the next.
pub(super) const APART: i32 = 60;
/// Height of the tint with its number.
pub(super) const BAND: i32 = 460;
/// From the tint to the bars, with the amounts between them.
const AMOUNT: i32 = 430;
/// Height of 1 kg/m², the most any plane may hold: the same in every picture.
const KILOGRAM: f64 = 800.0;
/// Heights of the tallest bar, which is broken where more is held, and of the lowest.
const HEIGHTS: (i32, i32) = (1600, 14);
/// Below this nothing is held, kg/m².
const NOTHING: f64 = 1e-7;
/// Half an arm of the mark of frost.
const ARM: i32 = 72;

/// The height of a bar.
pub(super) fn bar(kg: f64) -> i32 {
    let height = finite(kg * KILOGRAM).round();
    match kg > NOTHING {
        true if !kg.is_finite() => HEIGHTS.0,
        true => (height.min(f64::from(HEIGHTS.0)) as i32).max(HEIGHTS.1),
        false => 0,
    }
}

/// The height of a row's bars, its limit among them.
fn bars(entry: &Entry) -> i32 {
    let held = entry.water.iter().flat_map(|water| water.held);
    let amounts = held.chain(entry.limit).map(bar);
    amounts.max().unwrap_or(0).max(120)
}

/// The height that a row's cells take.
pub(super) fn height(entry: &Entry) -> i32 {
    let band = if entry.humidity.is_some() { BAND } else { 0 };
    let water = match entry.water {
        Some(_) => AMOUNT + bars(entry),
        None => 0,
    };
    band + water
}

/// Draws them.
pub(super) fn draw(sheet: &mut Sheet, across: &Across, top: i32, entry: &Entry, style: Style) {
    let mut y = top;
    if let Some(humidity) = entry.humidity {
        for (place, month) in across.months.months() {
            let ends = (
                across.months.edge(place) + 20,
                across.months.edge(place + 1) - 20,
            );
            self::humidity(
                sheet,
                (ends.0, y),
                ends.1,
                humidity[month],
                entry.decides.is_some(),
            );
        }
        frost(sheet, across, y, entry);
        y += BAND;
    }
    if entry.water.is_some() {
        water(sheet, across, y, entry, style);
    }
}

fn humidity(sheet: &mut Sheet, (left, top): Point, right: i32, humidity: Option<f64>, bold: bool) {
    let humidity = humidity.filter(|humidity| humidity.is_finite());
    if let Some(tint) = humidity.and_then(tint) {
        sheet.fill((left, top), (right, top + BAND), tint);
    }
    let words = humidity.map_or_else(|| "–".to_owned(), number);
    let plain = Lettering::PLAIN.centered();
    let set = if bold { plain.bold() } else { plain };
    if set.width(&words) + APART <= right - left + 40 {
        sheet.text(
            &words,
            (i32::midpoint(left, right), top + BAND / 2 + 125),
            set,
        );
    }
}

/// The tint of a humidity: from 70, 80 and 95 % on.
fn tint(humidity: f64) -> Option<plotters::style::RGBColor> {
    let steps = [0.70, 0.80, 0.95].into_iter().zip(DAMP);
    let reached = steps.take_while(|(from, _)| humidity >= *from);
    reached.last().map(|(_, tint)| tint)
}

/// Percent; what stands below saturation must not look saturated.
fn number(humidity: f64) -> String {
    let words = fixed(100.0 * humidity, 0);
    match humidity < 1.0 - 1e-9 && words == "100" {
        true => ">99".to_owned(),
        false => words,
    }
}

/// A star in the upper right corner of every month below freezing.
fn frost(sheet: &Sheet, across: &Across, top: i32, entry: &Entry) {
    for (place, _) in across
        .months
        .months()
        .filter(|(_, month)| entry.frozen[*month])
    {
        star(
            sheet,
            (across.months.edge(place + 1) - 35 - ARM, top + 30 + ARM),
        );
    }
}

/// The mark of frost.
pub(super) fn star(sheet: &Sheet, (x, y): Point) {
    let slanted = (ARM * 87 / 100, ARM / 2);
    let arms = [(0, ARM), slanted, (slanted.0, -slanted.1)];
    let lines = arms.map(|(dx, dy)| vec![(x - dx, y - dy), (x + dx, y + dy)]);
    sheet.strokes(lines, INK, 20);
}

/// Bars from a common ground, their amounts over them, the limit across.
fn water(sheet: &mut Sheet, across: &Across, top: i32, entry: &Entry, style: Style) {
    let Some(water) = &entry.water else { return };
    let ground = top + AMOUNT + bars(entry);
    for (place, month) in across.months.months() {
        let (left, right) = (across.months.edge(place), across.months.edge(place + 1));
        let gap = (right - left) / 5;
        let ends = (left + gap, right - gap);
        standing(sheet, ends, ground, water.held[month], water.is_ice[month]);
    }
    let (left, right) = across.months.ends;
    sheet.line(vec![(left, ground), (right, ground)], FAINT, 14);
    if let Some(limit) = entry.limit {
        let y = ground - bar(limit);
        sheet.line(vec![(left, y), (right, y)], PAPER, 80);
        sheet.dashes(&[(left, y), (right, y)], DASHES, INK, 30);
    }
    amounts(sheet, across, top + AMOUNT - 110, entry, style);
}

/// One month's water: solid, or as frost in upright lines; broken where it is more than can be drawn.
fn standing(sheet: &Sheet, (left, right): (i32, i32), ground: i32, kg: f64, is_ice: bool) {
    let top = ground - bar(kg);
    if top == ground {
        return;
    }
    match is_ice {
        true => {
            hatch::frost(
                sheet,
                &[(left, top), (right, top), (right, ground), (left, ground)],
            );
            sheet.outline((left, top), (right, ground), MOISTURE, 18);
        }
        false => sheet.fill((left, top), (right, ground), MOISTURE),
    }
    if finite(kg * KILOGRAM) > f64::from(HEIGHTS.0) || !kg.is_finite() {
        let (low, high) = (top + 260, top + 160);
        let third = (right - left) / 3;
        let zigzag = [
            (left - 40, low),
            (left + third, high),
            (right - third, low),
            (right + 40, high),
        ];
        sheet.line(zigzag.to_vec(), PAPER, 90);
    }
}

/// The amounts of all months, or where they don't fit that of the fullest alone.
fn amounts(sheet: &mut Sheet, across: &Across, base: i32, entry: &Entry, style: Style) {
    let Some(water) = &entry.water else { return };
    let held = water.held;
    let is_told = |month: usize| held[month] > NOTHING;
    let words = |month: usize| style.water_number(ArealDensity::from_si(held[month]));
    let plain = Lettering::PLAIN.centered();
    let set = if entry.decides.is_some() {
        plain.bold()
    } else {
        plain
    };
    let told = (0..12).filter(|month| is_told(*month));
    let all = told
        .clone()
        .all(|month| set.width(&words(month)) + APART <= across.cell());
    let fullest = told.max_by(|a, b| held[*a].total_cmp(&held[*b]));
    for (place, month) in across.months.months() {
        if !is_told(month) || !all && Some(month) != fullest {
            continue;
        }
        let (left, right) = across.months.ends;
        let words = set.fit(&words(month), right - left);
        let half = set.width(&words) / 2 + 1;
        let x = across
            .months
            .middle(place)
            .clamp(left + half, (right - half).max(left + half));
        sheet.text(&words, (x, base), set);
    }
}

/// A sample of a color with its number, for the legend.
pub(super) fn sample(sheet: &Sheet, (x, y): Point, tint: usize) {
    sheet.fill((x, y - 130), (x + 900, y + 130), DAMP[tint]);
}

/// Where a leader meets a row, from the top of its cells.
pub(super) fn middle(entry: &Entry) -> i32 {
    match entry.humidity {
        Some(_) => BAND / 2,
        None => LINE / 2,
    }
}
