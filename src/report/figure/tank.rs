//! One place through the year as a tank: the water it holds, what wets and what dries it.

use super::axis::{Axis, MonthAxis};
use super::hatch;
use super::row::{Line, NAMES, Row, gutter, words};
use super::sheet::{GRAY, HEAT, INK, Lettering, MOISTURE, PAPER, Point, Sheet};
use super::water::{Tank, finite};
use crate::check::Status;
use crate::quantity::{ArealDensity, Dimension, Style, month_name};

/// Between the tank and its bars.
const GAP: i32 = 400;
/// The least a water axis runs to, kg/m²: next to nothing shall look it.
const LEAST: f64 = 0.01;
/// Width of a bar over that of its month, percent.
const BAR: i32 = 56;

/// Draws a place that holds water.
pub(super) fn draw(sheet: &mut Sheet, row: Row, tank: &Tank<'_>, style: Style) {
    let foot = row.bottom - NAMES;
    let middle = row.top + (foot - row.top) * 64 / 100;
    let axis = held_axis(tank, (middle - GAP / 2, row.top));
    area(sheet, row.months, axis, tank);
    in_units(axis, style).draw(sheet, row.months.ends.0);
    let limit = tank.detail.limit.map(|(limit, _)| {
        let y = axis.at(finite(limit));
        let line = [row.months.ends.0, row.months.ends.1].map(|x| (x, y));
        sheet.line(line.to_vec(), INK, 55);
        let words = format!("limit {}", water(limit, style));
        (y, words, Lettering::PLAIN.bold())
    });
    let ground = [row.months.ends.0, row.months.ends.1].map(|x| (x, axis.ends.0));
    sheet.line(ground.to_vec(), INK, 22);
    let taken = peak(sheet, row.months, axis, tank, style);
    dry_mark(sheet, row.months, axis, tank, taken);
    let (up, down) = bars(sheet, row, (middle + GAP / 2, foot), tank, style);
    let gray = Lettering::PLAIN.color(GRAY);
    let most = |sign: f64| {
        let changes = tank.water.change.map(|change| finite(sign * change));
        Dimension::Water.number(
            (ArealDensity::from_si(changes.into_iter().fold(0.0, f64::max))).as_si(),
            style,
        )
    };
    let of_bars = [("wets", up, 1.0), ("dries", down, -1.0)];
    let of_bars = of_bars.map(|(what, y, sign)| (y, format!("{what} up to {}", most(sign)), gray));
    gutter(sheet, row, limit.into_iter().chain(of_bars).collect());
    row.months.draw(sheet, foot);
    words(sheet, row, &lines(tank, style));
}

fn water(kg_per_m2: f64, style: Style) -> String {
    style.water(ArealDensity::from_si(kg_per_m2))
}

/// An axis in kg/m² as it is read.
fn in_units(axis: Axis, style: Style) -> Axis {
    let read = |kg: f64| Dimension::Water.value(kg, style);
    let (low, high) = axis.values;
    Axis {
        values: (read(low), read(high)),
        ..axis
    }
}

fn held_axis(tank: &Tank<'_>, ends: (i32, i32)) -> Axis {
    let limit = tank.detail.limit.map_or(0.0, |(limit, _)| finite(limit));
    let most = (1.4 * finite(tank.detail.peak)).max(1.15 * limit);
    Axis {
        values: (0.0, most.max(LEAST)),
        ends,
    }
}

/// What is held when a month begins: what the one before it left; at the start of the reckoning
/// without what the year adds.
fn before(tank: &Tank<'_>, month: usize) -> f64 {
    let held = tank.water.held[(month + 11) % 12];
    let adds = tank.year.start.unwrap_or(0) == month && tank.water.left_over > 0.0;
    if adds {
        held - tank.water.left_over
    } else {
        held
    }
}

/// The amounts through one month: at its beginning, at its end, and between them where the peak
/// lies inside it; as shares of the month.
fn amounts(tank: &Tank<'_>, month: usize) -> Vec<(f64, f64)> {
    let (from, to) = (before(tank, month), tank.water.held[month]);
    let peak = tank.water.peak;
    let is_inside = tank.water.peak_month == Some(month) && peak > 1.001 * from.max(to);
    let inside = is_inside.then_some((0.5, peak));
    let all = [Some((0.0, from)), inside, Some((1.0, to))];
    all.into_iter().flatten().collect()
}

/// The points of the water's surface through one month.
fn surface(months: MonthAxis, axis: Axis, tank: &Tank<'_>, place: usize) -> Vec<Point> {
    let (left, right) = (months.edge(place), months.edge(place + 1));
    let month = (months.start + place) % 12;
    let at = |(share, kg): (f64, f64)| {
        let x = f64::from(left) + share * f64::from(right - left);
        (x.round() as i32, axis.at(kg))
    };
    amounts(tank, month).into_iter().map(at).collect()
}

fn area(sheet: &Sheet, months: MonthAxis, axis: Axis, tank: &Tank<'_>) {
    let bottom = axis.ends.0;
    for (place, month) in months.months() {
        let fill = if tank.water.is_ice[month] {
            hatch::frost
        } else {
            hatch::wet
        };
        for part in surface(months, axis, tank, place).windows(2) {
            let (one, other) = (part[0], part[1]);
            if one.1 < bottom || other.1 < bottom {
                fill(sheet, &[one, other, (other.0, bottom), (one.0, bottom)]);
                sheet.line(part.to_vec(), MOISTURE, 40);
            }
        }
    }
}

/// The mark and the amount at the peak; returns the label's corners.
fn peak(
    sheet: &mut Sheet,
    months: MonthAxis,
    axis: Axis,
    tank: &Tank<'_>,
    style: Style,
) -> Option<(Point, Point)> {
    let place = months.place(tank.detail.peak_month?);
    let top = axis.at(finite(tank.detail.peak));
    let points = surface(months, axis, tank, place);
    let at = points.into_iter().min_by_key(|point| point.1 - top)?;
    let bold = Lettering::PLAIN.bold();
    let words = bold.fit(
        &water(tank.detail.peak, style),
        months.ends.1 - months.ends.0 - 300,
    );
    let half = bold.width(&words) / 2 + 50;
    let x =
        at.0.clamp(months.ends.0 + half + 60, months.ends.1 - half - 60);
    let above = (at.1 - 110).max(axis.ends.1 + 380);
    let below = at.1 + 110 + 360;
    let limit = tank.detail.limit.map(|(limit, _)| axis.at(finite(limit)));
    // Not on the limit's line, where it could be taken for the limit.
    let is_on_limit = limit.is_some_and(|y| above - 420 < y && y < above + 40);
    let bottom = match is_on_limit && below + 40 < axis.ends.0 {
        true => below,
        false => above,
    };
    let (from, to) = ((x - half, bottom - 360), (x + half, bottom));
    sheet.fill(from, to, PAPER);
    sheet.text(&words, (x, bottom - 70), bold.centered());
    sheet.ring(at, 65, MOISTURE, 36);
    Some((from, to))
}

/// The month in which it is dry again, marked on the ground and named where there is room.
fn dry_mark(
    sheet: &mut Sheet,
    months: MonthAxis,
    axis: Axis,
    tank: &Tank<'_>,
    peak: Option<(Point, Point)>,
) {
    let Some(month) = tank.detail.dry_by else {
        return;
    };
    let ground = axis.ends.0;
    let limit = tank.detail.limit.map(|(limit, _)| axis.at(limit));
    // Over the limit's line where that runs through the words.
    let base = limit.filter(|y| ground - y < 460).unwrap_or(ground) - 95;
    let x = months.edge(months.place(month) + 1);
    let words = format!("dry by {}", month_name(month));
    let plain = Lettering::PLAIN;
    let (from, to) = (x + 110, x + 110 + plain.width(&words));
    let is_free = peak.is_none_or(|(one, other)| {
        to + 60 < one.0 || other.0 < from - 60 || base + 90 < one.1 || other.1 < base - 280
    });
    sheet.line(vec![(x, base - 270), (x, ground)], INK, 30);
    if to <= months.ends.1 && is_free {
        sheet.text(&words, (from, base), plain);
    }
}

/// Gains and losses of every month from a line at nothing; returns where their words belong.
fn bars(
    sheet: &mut Sheet,
    row: Row,
    (top, bottom): (i32, i32),
    tank: &Tank<'_>,
    style: Style,
) -> (i32, i32) {
    let changes = tank.water.change.map(finite);
    let low = changes.iter().copied().fold(0.0, f64::min);
    let high = changes.iter().copied().fold(0.0, f64::max);
    let air = 0.08 * (high - low);
    let axis = Axis {
        values: (
            (low - air).min(-LEAST / 10.0),
            (high + air).max(LEAST / 10.0),
        ),
        ends: (bottom, top),
    };
    in_units(axis, style).draw(sheet, row.months.ends.0);
    let zero = axis.at(0.0);
    for (place, month) in row.months.months() {
        let (left, right) = (row.months.edge(place), row.months.edge(place + 1));
        let gap = (right - left) * (100 - BAR) / 200;
        let (left, right) = (left + gap, right - gap);
        let end = axis.at(changes[month]);
        if end == zero {
            continue;
        }
        let corners = [(left, end), (right, end), (right, zero), (left, zero)];
        let (fill, color): (fn(&Sheet, &[Point]), _) = match changes[month] > 0.0 {
            true => (hatch::wet, MOISTURE),
            false => (hatch::drying, HEAT),
        };
        fill(sheet, &corners);
        sheet.outline((left, end.min(zero)), (right, end.max(zero)), color, 26);
    }
    sheet.line(
        vec![(row.months.ends.0, zero), (row.months.ends.1, zero)],
        INK,
        22,
    );
    ((top + zero) / 2, (zero + bottom) / 2)
}

/// What stands beside a tank.
fn lines(tank: &Tank<'_>, style: Style) -> Vec<Line> {
    let detail = &tank.detail;
    let is_judged = tank.status != Status::Note;
    let mut lines = vec![Line::heading(&tank.name, judged_word(tank.status))];
    lines.push(Line::gray(format!("path {}", tank.path.path.name)));
    let month = detail.peak_month.map(month_name);
    let most = water(detail.peak, style);
    let when = month.map_or(String::new(), |month| format!(" in {month}"));
    lines.push(Line::plain(match detail.never_dry {
        true => format!("{most} more than at its least{when}"),
        false => format!("at most {most}{when}"),
    }));
    if detail.frost {
        lines.push(Line::plain("in part as frost".into()));
    }
    lines.push(match detail.limit {
        Some((limit, why)) => Line::plain(format!("limit {}: {why}", water(limit, style))),
        None => Line::plain("no limit: counted, not judged".into()),
    });
    lines.push(Line::plain(fate(tank, style)));
    let yearly = water(detail.yearly, style);
    lines.push(Line::gray(format!("{yearly} condenses in a year")));
    if is_judged && !detail.settled {
        lines.push(Line::plain("the yearly reckoning didn't settle".into()));
    }
    lines
}

/// By when it is dry, or what becomes of it.
fn fate(tank: &Tank<'_>, style: Style) -> String {
    let detail = &tank.detail;
    match (detail.dry_by, detail.left_over > 0.0) {
        (_, true) => format!(
            "left over from year to year: {}",
            water(detail.left_over, style)
        ),
        (Some(month), _) => format!("dry by {}", month_name(month)),
        (None, _) if detail.never_dry => "never dry, but no wetter year by year".into(),
        (None, _) => "dry within the month".into(),
    }
}

/// The word over a place that is judged, or that it is only counted.
pub(super) fn judged_word(status: Status) -> &'static str {
    match status {
        Status::Note => "counted",
        other => other.word(),
    }
}
