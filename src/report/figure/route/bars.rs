//! A bar on an axis that all rows share, with its limit.

use super::super::axis::Axis;
use super::super::sheet::{BAND, FAINT, GRAY, INK, MOISTURE, PAPER, Sheet};
use super::site::Site;
use plotters::style::RGBColor;

/// Half the height of a bar, and of the mark of its limit.
const HALF: (i32, i32) = (130, 230);

/// How the bars of the measures are filled: what is above the dew point as the margin everywhere, what
/// is below it and water in the moisture accent, days in gray.
fn filling(measure: usize, value: f64) -> RGBColor {
    match (measure, value < 0.0) {
        (0, false) => BAND,
        (0, true) | (1, _) => MOISTURE,
        _ => GRAY,
    }
}

/// The axis of a measure between two ends: from nothing to the greatest value or limit of any site.
pub(super) fn axis(sites: &[Site], measure: usize, ends: (i32, i32)) -> Axis {
    let of = |site: &Site| {
        let measure = &site.measures[measure];
        [measure.value, measure.limit]
    };
    let values = sites.iter().flat_map(of).flatten();
    let values = values.filter(|value| value.is_finite());
    let (low, high) = values.fold((0.0_f64, 0.0_f64), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    let high = if low < high { high } else { low + 1.0 };
    Axis {
        values: (low, high),
        ends,
    }
}

/// Draws a site's bar at a height.
pub(super) fn draw(sheet: &Sheet, axis: Axis, y: i32, site: &Site, measure: usize) {
    let told = &site.measures[measure];
    let (left, right) = axis.ends;
    sheet.line(vec![(left, y), (right, y)], FAINT, 8);
    if let Some(value) = told.value.filter(|value| value.is_finite()) {
        let (zero, end) = (axis.at(0.0), axis.at(value));
        // What is next to nothing is still a hair.
        let (from, to) = (zero.min(end), zero.max(end).max(zero.min(end) + 14));
        let corners = ((from, y - HALF.0), (to, y + HALF.0));
        if value != 0.0 {
            sheet.fill(corners.0, corners.1, filling(measure, value));
            sheet.outline(corners.0, corners.1, INK, 15);
        }
    }
    if let Some(limit) = told.limit.filter(|limit| limit.is_finite()) {
        let x = axis.at(limit);
        if limit > 0.0 && told.value.is_some_and(|value| value > limit) {
            // On paper of its own, so that it can be told on a dark bar.
            sheet.line(vec![(x, y - HALF.1), (x, y + HALF.1)], PAPER, 130);
        }
        sheet.line(vec![(x, y - HALF.1), (x, y + HALF.1)], INK, 45);
    }
}
