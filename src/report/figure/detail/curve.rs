//! The temperature of the floor's surface from the wall inward.

use super::super::axis::Axis;
use super::super::place::{DASHES, spread};
use super::super::sheet::{
    FAINT, GRAY, HEAT, INK, LINE, Lettering, MOISTURE, PAPER, Point, SIZE, Sheet,
};
use super::isotherm::DOTS;
use super::window::thinned;
use crate::model::detail::Facing;
use crate::model::drawn::{AirSource, DetailCase, DetailKind};
use crate::quantity::{Dimension, Style, Temperature, UnitSystem, fixed};
use crate::solve::conduction::{Solution, SurfacePoint};
use crate::solve::detail::DetailResult;

/// Height of the numbers under the chart.
const BELOW: i32 = 850;

/// A floor's surface with the way it is measured.
struct Floor {
    /// From, to, m across the cut.
    ends: (f64, f64),
    usual: Vec<(f64, f64)>,
    damp: Vec<(f64, f64)>,
}

impl Floor {
    fn of(case: &DetailCase, result: &DetailResult) -> Option<Self> {
        let room = case
            .airs
            .iter()
            .position(|air| air.source == AirSource::Room)?;
        let stated = case.surfaces.iter().find(|one| one.facing == Facing::Up);
        let counts = |point: &SurfacePoint| {
            point.facing == Facing::Up
                && stated.is_none_or(|surface| {
                    (point.y - surface.line.top).abs() < 1e-7
                        && (surface.line.left..=surface.line.right).contains(&point.x)
                })
        };
        let along = |solution: &Solution| -> Vec<(f64, f64)> {
            let points = solution.surface(room).into_iter().filter(counts);
            points.map(|point| (point.x, point.temperature)).collect()
        };
        let usual = along(&result.conduction.solution);
        let (first, last) = (usual.first()?.0, usual.last()?.0);
        let ends = stated.map_or((first, last), |s| (s.line.left, s.line.right));
        (ends.1 > ends.0).then(|| Self {
            ends,
            damp: along(&result.damp.solution),
            usual,
        })
    }
}

/// Whether a cut has a floor to draw the curve of.
pub(super) fn has_floor(case: &DetailCase, result: &DetailResult) -> bool {
    Floor::of(case, result).is_some()
}

/// Draws it in a rectangle, its heading first; nothing where the cut has no floor.
pub(super) fn draw(
    sheet: &mut Sheet,
    (from, to): (Point, Point),
    case: &DetailCase,
    result: &DetailResult,
    mold: Temperature,
    style: Style,
) {
    let Some(floor) = Floor::of(case, result) else {
        return;
    };
    let way = match case.kind {
        DetailKind::FloorEdge => "from the wall inward",
        DetailKind::CrossMembers => "from the middle of the steel",
        DetailKind::Rectangles | DetailKind::RoofEdge => "from its left end",
    };
    let heading = format!(
        "floor surface {way}, {}",
        Dimension::Temperature.unit(style)
    );
    let bold = Lettering::PLAIN.bold();
    sheet.text(
        &bold.fit(&heading, to.0 - from.0),
        (from.0, from.1 + 280),
        bold,
    );
    let dew = result.room_dew_point;
    let degrees = |celsius: f64| style.value(Temperature::from_celsius(celsius));
    let temperatures = floor.usual.iter().chain(&floor.damp).map(|point| point.1);
    let all = temperatures.chain([dew, mold].map(Temperature::as_celsius));
    let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
        (low.min(at), high.max(at))
    });
    let axis = Axis {
        values: (degrees(low - 0.7), degrees(high + 0.7)),
        ends: (to.1 - BELOW, from.1 + 550),
    };
    let (left, right) = (from.0 + 900, to.0 - 2750);
    axis.draw(sheet, left);
    let across = |x: f64| {
        let share = ((x - floor.ends.0) / (floor.ends.1 - floor.ends.0)).clamp(0.0, 1.0);
        left + (share * f64::from(right - left)).round() as i32
    };
    distances(sheet, (left, right), axis.ends.0, floor.ends, style);
    let line = |points: &[(f64, f64)]| -> Vec<Point> {
        let points = points.iter();
        let on_sheet = points.map(|(x, at)| (across(*x), axis.at(degrees(*at))));
        thinned(&on_sheet.collect::<Vec<_>>())
    };
    let level = |at: Temperature| axis.at(style.value(at));
    sheet.dashes(
        &[(left, level(dew)), (right, level(dew))],
        DASHES,
        MOISTURE,
        45,
    );
    sheet.dashes(&[(left, level(mold)), (right, level(mold))], DOTS, INK, 26);
    sheet.line(line(&floor.damp), HEAT, 18);
    sheet.line(line(&floor.usual), HEAT, 55);
    let gray = Lettering::PLAIN.color(GRAY);
    let end = |points: &[(f64, f64)]| points.last().map_or(0, |last| axis.at(degrees(last.1)));
    let words = [
        (level(dew), "dew point", gray.color(MOISTURE)),
        (level(mold), "mold", gray.color(INK)),
        (end(&floor.damp), "film 0.25", gray),
        (end(&floor.usual), "usual film", gray),
    ];
    gutter(sheet, right + 120, axis.ends, words);
    let coldest = |points: &[(f64, f64)]| {
        let least = points.iter().min_by(|a, b| a.1.total_cmp(&b.1));
        least.map(|(x, at)| ((across(*x), axis.at(degrees(*at))), *at))
    };
    let marked: Vec<(Point, f64)> = [&floor.usual, &floor.damp]
        .into_iter()
        .filter_map(|points| coldest(points))
        .collect();
    for (at, _) in &marked {
        sheet.ring(*at, 70, HEAT, 36);
    }
    // Below both curves: they rise from their coldest places.
    if let [(usual, warmer), (damp, colder)] = marked[..] {
        let print = |celsius| style.show(Temperature::from_celsius(celsius));
        let words = format!("{}, film 0.25 {}", print(warmer), print(colder));
        let width = Lettering::PLAIN.width(&words);
        let x = (damp.0 + 130).min(right - width).max(left + 60);
        let base = (x, (usual.1.max(damp.1) + 400).min(axis.ends.0 - 100));
        sheet.fill((x - 30, base.1 - 270), (x + width + 30, base.1 + 40), PAPER);
        sheet.text(&words, base, Lettering::PLAIN);
    }
}

/// Words at the right ends of the lines, moved apart where they touch.
fn gutter(sheet: &mut Sheet, x: i32, ends: (i32, i32), words: [(i32, &str, Lettering); 4]) {
    let mut words = words.to_vec();
    words.sort_by_key(|(y, ..)| *y);
    let wanted: Vec<i32> = words.iter().map(|(y, ..)| *y).collect();
    let placed = spread(&wanted, LINE, (ends.1, ends.0));
    for (y, (_, words, set)) in placed.into_iter().zip(words) {
        sheet.text(words, (x, y + SIZE * 36 / 100), set);
    }
}

/// The axis of distances from the wall.
fn distances(
    sheet: &mut Sheet,
    (left, right): Point,
    y: i32,
    (from, to): (f64, f64),
    style: Style,
) {
    sheet.line(vec![(left, y), (right, y)], FAINT, 15);
    let word = Dimension::Length.unit(style);
    let whole = Dimension::Length.value(to - from, style);
    let inches = [0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0];
    let decades = (0..12).flat_map(|power| [1.0, 2.0, 5.0].map(|n| n * 10_f64.powi(power)));
    let steps: Vec<f64> = match style.units {
        UnitSystem::Imperial => inches
            .into_iter()
            .chain(decades.filter(|s| *s > 96.0))
            .collect(),
        UnitSystem::Metric => decades.collect(),
    };
    let per_unit = f64::from(right - left) / whole;
    let Some(step) = steps.into_iter().find(|step| step * per_unit >= 1250.0) else {
        return;
    };
    let gray = Lettering::PLAIN.color(GRAY);
    let count = (whole / step + 1e-9).floor() as i64;
    for n in 0..=count {
        let at = n as f64 * step;
        let x = left + (at * per_unit).round() as i32;
        sheet.line(vec![(x, y), (x, y + 90)], FAINT, 15);
        let decimals = usize::from(step < 1.0);
        let number = fixed(at, decimals);
        let words = match n == count {
            true => format!("{number} {word}"),
            false => number,
        };
        sheet.text(&words, (x, y + 420), gray.centered());
    }
}
