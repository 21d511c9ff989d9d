//! Vapor pressure of the air on both sides through the months.

use super::axis::Axis;
use super::hatch;
use super::place::DASHES;
use super::row::{Line, NAMES, Row, gutter, words};
use super::sheet::{INK, Lettering, MOISTURE, PAPER, Sheet};
use super::water::finite;
use crate::model::MonthState;
use crate::quantity::{Dimension, Pressure, Style};

/// Draws it.
pub(super) fn draw(sheet: &mut Sheet, row: Row, months: &[MonthState; 12], style: Style) {
    let indoor = months.map(|month| finite(style.value(month.indoor.vapor_pressure())));
    let outdoor = months.map(|month| finite(style.value(month.outdoor.vapor_pressure())));
    let most = indoor.iter().chain(&outdoor).copied().fold(0.0, f64::max);
    let foot = row.bottom - NAMES;
    let axis = Axis {
        values: (0.0, if most > 0.0 { 1.1 * most } else { 1.0 }),
        ends: (foot, row.top),
    };
    cooled(sheet, row, months);
    axis.draw(sheet, row.months.ends.0);
    let points = |values: [f64; 12]| {
        let middle =
            |(place, month): (usize, usize)| (row.months.middle(place), axis.at(values[month]));
        row.months.months().map(middle).collect::<Vec<_>>()
    };
    let (inside, outside) = (points(indoor), points(outdoor));
    sheet.line(inside.clone(), INK, 50);
    sheet.dashes(&outside, DASHES, MOISTURE, 45);
    let plain = Lettering::PLAIN;
    let mut labels = vec![
        (inside[11].1, "indoor".to_owned(), plain),
        (outside[11].1, "outdoor".to_owned(), plain.color(MOISTURE)),
    ];
    labels.sort_by_key(|label| label.0);
    gutter(sheet, row, labels);
    row.months.draw(sheet, foot);
    words(sheet, row, &vapor_lines(months, style));
}

/// The months in which the house is cooled, shaded and named.
fn cooled(sheet: &mut Sheet, row: Row, months: &[MonthState; 12]) {
    let foot = row.bottom - NAMES;
    let mut place = 0;
    while place < 12 {
        let is_cooled = |place: usize| place < 12 && months[(row.months.start + place) % 12].cooled;
        let mut end = place;
        while is_cooled(end) {
            end += 1;
        }
        if end > place {
            let (left, right) = (row.months.edge(place), row.months.edge(end));
            let corners = [
                (left, foot - 420),
                (right, foot - 420),
                (right, foot),
                (left, foot),
            ];
            hatch::drying(sheet, &corners);
            let (words, set) = ("cooled", Lettering::PLAIN.centered());
            let (x, half) = ((left + right) / 2, set.width("cooled") / 2 + 50);
            sheet.fill((x - half, foot - 390), (x + half, foot - 30), PAPER);
            sheet.text(words, (x, foot - 95), set);
        }
        place = end.max(place) + 1;
    }
}

fn vapor_lines(months: &[MonthState; 12], style: Style) -> Vec<Line> {
    let range = |of: fn(&MonthState) -> Pressure| {
        let pascal = months.iter().map(|month| of(month).as_pa());
        let (low, high) = pascal.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| {
            (low.min(p), high.max(p))
        });
        let print = |pascal| style.show(Pressure::from_pa(pascal));
        match print(low) == print(high) {
            true => print(low),
            false => format!("{} to {}", print(low), print(high)),
        }
    };
    let inward = months
        .iter()
        .filter(|month| month.outdoor.vapor_pressure() > month.indoor.vapor_pressure())
        .count();
    let cooled = months.iter().filter(|month| month.cooled).count();
    vec![
        Line::heading("vapor pressure of the air", ""),
        Line::gray(format!(
            "{}, monthly means",
            Dimension::Pressure.unit(style)
        )),
        Line::plain(format!(
            "indoor {}",
            range(|month| month.indoor.vapor_pressure())
        )),
        Line::plain(format!(
            "outdoor {}",
            range(|month| month.outdoor.vapor_pressure())
        )),
        Line::plain(match inward {
            0 => "vapor moves outward in every month".into(),
            n => format!("vapor moves inward in {n} of 12 months"),
        }),
        Line::plain(match cooled {
            0 => "no month is cooled".into(),
            1 => "1 month is cooled".into(),
            n => format!("{n} months are cooled"),
        }),
    ]
}
