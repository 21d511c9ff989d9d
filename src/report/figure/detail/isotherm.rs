//! Isotherms: thin and labeled at round steps, heavy at the dew point, dotted where mold begins.

use plotters::style::FontStyle;
use plotters::style::text_anchor::HPos;

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
/// From the drawing's lower edge to the baseline of what is named there.
const BELOW: i32 = 480;
/// The most isotherms drawn.
const MOST: f64 = 9.0;
/// What the heavy line is called, and how that is set.
pub(super) const DEW_POINT: &str = "dew point";
pub(super) const OF_DEW_POINT: Lettering = Lettering {
    size: SIZE,
    face: FontStyle::Bold,
    color: MOISTURE,
    anchor: HPos::Left,
};

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

/// Of these steps the one nearest to the middle between outdoors and the dew point, and the one nearest
/// to the middle between that and the room.
pub(super) fn two(
    steps: &[(Temperature, String)],
    (indoor, outdoor): (Temperature, Temperature),
    dew_point: Temperature,
) -> Vec<(Temperature, String)> {
    let middles = [outdoor, indoor].map(|end| 0.5 * (end.as_celsius() + dew_point.as_celsius()));
    let nearest = middles.iter().filter_map(|middle| {
        let off = |step: &&(Temperature, String)| (step.0.as_celsius() - middle).abs();
        steps.iter().min_by(|a, b| off(a).total_cmp(&off(b)))
    });
    let mut two: Vec<(Temperature, String)> = nearest.cloned().collect();
    two.dedup_by(|a, b| a.1 == b.1);
    two
}

/// What a line is and where it runs.
pub(super) type Named = (String, Vec<Vec<Point>>);

/// The thin lines; returns where each may be labeled.
pub(super) fn thin(
    sheet: &Sheet,
    window: &Window,
    field: &Field,
    steps: &[(Temperature, String)],
) -> Vec<Named> {
    let mut drawn = Vec::new();
    for (temperature, words) in steps {
        let lines = shown(window, field, *temperature);
        cased(sheet, &lines, 14);
        for line in &lines {
            sheet.line(line.clone(), HEAT, 14);
        }
        drawn.push((words.clone(), lines));
    }
    drawn
}

/// Paper on both sides of lines, so that they are read over hatches.
fn cased(sheet: &Sheet, lines: &[Vec<Point>], width: u32) {
    sheet.strokes(lines.iter().cloned(), PAPER, width + 56);
}

fn shown(window: &Window, field: &Field, temperature: Temperature) -> Vec<Vec<Point>> {
    let lines = isotherms(field, temperature.as_celsius());
    lines.iter().flat_map(|line| window.line(line)).collect()
}

/// The dotted line at which mold begins.
pub(super) fn mold(
    sheet: &Sheet,
    window: &Window,
    one: &JudgedDetail<'_>,
    result: &DetailResult,
) -> Named {
    // Mold is judged with more resistance at the surface: so is its line.
    let damp = Field::of(&result.damp.solution);
    let mold = shown(window, &damp, mold_at(one, result));
    cased(sheet, &mold, 26);
    for line in &mold {
        sheet.strokes(hatch::dashes(line, DOTS), INK, 26);
    }
    ("mold".to_owned(), mold)
}

/// The heavy line at the dew point of the room air.
pub(super) fn dew_point(sheet: &Sheet, window: &Window, field: &Field, at: Temperature) -> Named {
    let dew = shown(window, field, at);
    cased(sheet, &dew, 55);
    for line in &dew {
        sheet.strokes(hatch::dashes(line, DASHES), MOISTURE, 55);
    }
    (DEW_POINT.to_owned(), dew)
}

/// Where a line leaves a drawing: there it is named, outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Leaves {
    /// At the right, on that height.
    Right(i32),
    /// At the bottom, so far from the left.
    Bottom(i32),
}

/// Where a line leaves a drawing, at its right if it can; the furthest place if there are several.
pub(super) fn leaves(window: &Window, (_, lines): &Named) -> Option<Leaves> {
    let (right, bottom) = window.far();
    let ends = lines.iter().flat_map(|line| [line.first(), line.last()]);
    let ends = ends.flatten();
    let at_right = ends.clone().filter(|(x, _)| (right - x).abs() <= 2);
    let at_bottom = ends.filter(|(_, y)| (bottom - y).abs() <= 2);
    let at_right = at_right.map(|(_, y)| *y).max().map(Leaves::Right);
    at_right.or_else(|| at_bottom.map(|(x, _)| *x).max().map(Leaves::Bottom))
}

/// Names the dew point under a drawing where its line leaves it.
pub(super) fn name_below(sheet: &mut Sheet, window: &Window, x: i32) {
    let set = OF_DEW_POINT.centered();
    let half = set.width(DEW_POINT) / 2;
    let (left, right) = (window.corner.0 + half, window.far().0 - half);
    let at = (x.clamp(left.min(right), right), window.far().1 + BELOW);
    sheet.text(DEW_POINT, at, set);
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

/// Writes what each line is onto it, once, where nothing else stands and off the marks: where `rank` is
/// least.
pub(super) fn label(
    sheet: &mut Sheet,
    lines: &[Named],
    bounds: (Point, Point),
    marks: &[Point],
    rank: impl Fn(Point) -> i32,
) {
    for (words, pieces) in lines {
        let set = match words.as_str() {
            DEW_POINT => OF_DEW_POINT,
            "mold" => Lettering::PLAIN.bold(),
            _ => Lettering::PLAIN.color(GRAY),
        };
        let mut places: Vec<Point> = pieces.iter().flat_map(|line| along(line)).collect();
        places.sort_by_key(|at| rank(*at));
        let base = |at: Point| (at.0, at.1 + SIZE * 36 / 100);
        let fits = |at: &Point| {
            let [left, top, right, bottom] = Sheet::would_take(words, base(*at), set.centered());
            let inside = left > bounds.0.0 + 60
                && right < bounds.1.0 - 60
                && top > bounds.0.1 + 60
                && bottom < bounds.1.1 - 60;
            let is_marked = marks.iter().any(|(x, y)| {
                (left - 240..=right + 240).contains(x) && (top - 240..=bottom + 240).contains(y)
            });
            let taken = [left - 120, top - 60, right + 120, bottom + 60];
            inside && !is_marked && sheet.is_free(taken)
        };
        if let Some(at) = places.into_iter().find(fits) {
            let [left, top, right, _] = Sheet::would_take(words, base(at), set.centered());
            sheet.fill((left - 30, top - 25), (right + 30, base(at).1 + 25), PAPER);
            sheet.text(words, base(at), set.centered());
        }
    }
}

/// From the middle of a drawing outward: lines crowd at its edges.
pub(super) fn from_the_middle(bounds: (Point, Point)) -> impl Fn(Point) -> i32 {
    let middle = (
        i32::midpoint(bounds.0.0, bounds.1.0),
        i32::midpoint(bounds.0.1, bounds.1.1),
    );
    move |at| (at.0 - middle.0).abs() + (at.1 - middle.1).abs()
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
