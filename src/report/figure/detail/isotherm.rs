//! Isotherms: thin and labeled at round steps, heavy at the dew point, dotted where mold begins.

use super::super::hatch;
use super::super::place::DASHES;
use super::super::sheet::{GRAY, HEAT, INK, Lettering, MOISTURE, PAPER, Point, SIZE, Sheet};
use super::window::Window;
use crate::check::room_surface::mold_limit;
use crate::check::{self, Detail};
use crate::model::Stop;
use crate::quantity::{Dimension, Style, Temperature, TemperatureDifference, fixed};
use crate::solve::conduction::{Field, isotherms};
use crate::solve::detail::DetailResult;
use crate::study::JudgedDetail;

/// Dots: where mold begins.
pub(super) const DOTS: (f64, f64) = (30.0, 70.0);
/// The most isotherms drawn.
const MOST: f64 = 9.0;
/// How far apart two labels of one line stand at least.
const APART: i32 = 5200;

/// Round temperatures between the coldest and the warmest of several pairs, with their words.
pub(super) fn steps(
    pairs: impl IntoIterator<Item = (Temperature, Temperature)>,
    style: Style,
) -> Vec<(Temperature, String)> {
    let ends = pairs.into_iter().flat_map(|(one, other)| [one, other]);
    let degrees = ends.map(|end| style.value(end));
    let (low, high) = degrees.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
        (low.min(at), high.max(at))
    });
    let candidates = (0..9).flat_map(|power| [1.0, 2.0, 5.0].map(|n| n * 10_f64.powi(power)));
    let step = candidates
        .into_iter()
        .find(|step| (high - low) / step <= MOST);
    let Some(step) = step.filter(|_| low.is_finite() && high > low) else {
        return Vec::new();
    };
    // The airs' own temperatures are no lines in the solid.
    let first = (low / step).floor() as i64 + 1;
    let last = (high / step).ceil() as i64 - 1;
    let at = |value: f64| Temperature::from_celsius(Dimension::Temperature.si(value, style));
    (first..=last)
        .map(|n| n as f64 * step)
        .map(|value| {
            let number = fixed(value, 0).replace('-', "−");
            (at(value), format!("{number}°"))
        })
        .collect()
}

/// The thin lines; returns where each may be labeled.
pub(super) fn thin(
    sheet: &Sheet,
    window: &Window,
    field: &Field,
    steps: &[(Temperature, String)],
) -> Vec<(String, Vec<Vec<Point>>)> {
    let mut drawn = Vec::new();
    for (temperature, words) in steps {
        let lines = shown(window, field, *temperature);
        for line in &lines {
            sheet.line(line.clone(), HEAT, 14);
        }
        drawn.push((words.clone(), lines));
    }
    drawn
}

fn shown(window: &Window, field: &Field, temperature: Temperature) -> Vec<Vec<Point>> {
    let lines = isotherms(field, temperature.as_celsius());
    lines.iter().flat_map(|line| window.line(line)).collect()
}

/// The heavy and the dotted line.
pub(super) fn limits(
    sheet: &Sheet,
    window: &Window,
    field: &Field,
    one: &JudgedDetail<'_>,
    result: &DetailResult,
) -> Vec<(String, Vec<Vec<Point>>)> {
    // Mold is judged with more resistance at the surface: so is its line.
    let damp = Field::of(&result.damp.solution);
    let mold = shown(window, &damp, mold_at(one, result));
    for line in &mold {
        sheet.strokes(hatch::dashes(line, DOTS), INK, 26);
    }
    let dew = shown(window, field, result.room_dew_point);
    for line in &dew {
        sheet.strokes(hatch::dashes(line, DASHES), MOISTURE, 55);
    }
    vec![("dew point".to_owned(), dew), ("mold".to_owned(), mold)]
}

/// The temperature on this drawing below which mold begins in the month that needs most: the one
/// with the same temperature factor.
pub(super) fn mold_at(one: &JudgedDetail<'_>, result: &DetailResult) -> Temperature {
    let findings = one.here().verdict.findings.iter();
    let worst = findings
        .filter(|finding| finding.check == &check::detail::MOLD && is_in_cut(finding))
        .min_by(|a, b| {
            let slack = |f: &crate::check::Finding| f.slack.unwrap_or(f64::INFINITY);
            slack(a).total_cmp(&slack(b))
        });
    let found = worst.and_then(|finding| {
        let Detail::Spot(spot) = &finding.detail else {
            return None;
        };
        let limit = finding.limit?;
        match spot.month {
            None => Some(limit),
            Some(month) => same_factor(one.stop(), month, limit, result),
        }
    });
    found.unwrap_or_else(|| mold_limit(result.room_dew_point))
}

fn is_in_cut(finding: &crate::check::Finding) -> bool {
    matches!(&finding.detail, Detail::Spot(spot) if !spot.is_at_corner())
}

fn same_factor(
    stop: &Stop,
    month: usize,
    limit: Temperature,
    result: &DetailResult,
) -> Option<Temperature> {
    let state = stop.conditions.year.as_ref()?.get(month)?;
    let (indoor, outdoor) = (state.indoor.temperature, state.outdoor.temperature);
    let span = (indoor - outdoor).as_kelvin();
    let factor = (limit - outdoor).as_kelvin() / span;
    let drawn = (result.air.0 - result.air.1).as_kelvin();
    factor
        .is_finite()
        .then(|| result.air.1 + TemperatureDifference::from_kelvin(factor * drawn))
}

/// Writes what each line is onto it, where nothing else stands and off the marks.
pub(super) fn label(
    sheet: &mut Sheet,
    lines: &[(String, Vec<Vec<Point>>)],
    bounds: (Point, Point),
    most: usize,
    marks: &[Point],
) {
    for (words, pieces) in lines {
        let is_limit = words.chars().any(char::is_alphabetic);
        let set = match is_limit {
            true => Lettering::PLAIN.bold().color(MOISTURE),
            false => Lettering::PLAIN.color(GRAY),
        };
        let set = match words.as_str() {
            "mold" => set.color(INK),
            _ => set,
        };
        let mut labeled: Vec<Point> = Vec::new();
        let mut places: Vec<Point> = pieces.iter().flat_map(|line| along(line)).collect();
        // From the middle of the drawing outward: lines crowd at the steel and at the edges.
        let middle = (
            i32::midpoint(bounds.0.0, bounds.1.0),
            i32::midpoint(bounds.0.1, bounds.1.1),
        );
        places.sort_by_key(|at| (at.0 - middle.0).abs() + (at.1 - middle.1).abs());
        for at in places {
            let near = |other: &Point| (at.0 - other.0).abs() + (at.1 - other.1).abs() < APART;
            if labeled.len() >= most || labeled.iter().any(near) {
                continue;
            }
            let base = (at.0, at.1 + SIZE * 36 / 100);
            let [left, top, right, bottom] = Sheet::would_take(words, base, set.centered());
            let taken = [left - 120, top - 60, right + 120, bottom + 60];
            let inside = left > bounds.0.0 + 60
                && right < bounds.1.0 - 60
                && top > bounds.0.1 + 60
                && bottom < bounds.1.1 - 60;
            let is_marked = marks.iter().any(|(x, y)| {
                (left - 110..=right + 110).contains(x) && (top - 110..=bottom + 110).contains(y)
            });
            if inside && !is_marked && sheet.is_free(taken) {
                let below = base.1 + 25;
                sheet.fill((left - 30, top - 25), (right + 30, below), PAPER);
                sheet.text(words, base, set.centered());
                labeled.push(at);
            }
        }
    }
}

/// Points every few millimeters along a line, its ends left out.
fn along(line: &[Point]) -> Vec<Point> {
    const STEP: f64 = 400.0;
    let mut found = Vec::new();
    let mut left = STEP;
    for pair in line.windows(2) {
        let (dx, dy) = (
            f64::from(pair[1].0 - pair[0].0),
            f64::from(pair[1].1 - pair[0].1),
        );
        let length = libm::hypot(dx, dy);
        let mut at = left;
        while at < length {
            let share = at / length;
            found.push((
                pair[0].0 + (share * dx).round() as i32,
                pair[0].1 + (share * dy).round() as i32,
            ));
            at += STEP;
        }
        left = at - length;
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    #[test]
    fn isotherms_stand_at_round_steps_in_the_readers_unit() {
        let pair = (
            Temperature::from_celsius(20.0),
            Temperature::from_celsius(5.0),
        );
        let words = |units| -> Vec<String> {
            let steps = steps([pair], Style { units });
            steps.into_iter().map(|(_, words)| words).collect()
        };
        assert_eq!(
            words(UnitSystem::Imperial),
            ["45°", "50°", "55°", "60°", "65°"]
        );
        assert_eq!(
            words(UnitSystem::Metric),
            ["6°", "8°", "10°", "12°", "14°", "16°", "18°"]
        );
        let same = (pair.0, pair.0);
        assert!(
            steps(
                [same],
                Style {
                    units: UnitSystem::Metric
                }
            )
            .is_empty()
        );
    }
}
