//! Hatches by kind of material, clipped to what they fill, and dashes.

use super::sheet::{FAINT, INK, MOISTURE, Point, Sheet};
use crate::material::Kind;

/// How a layer is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Hatch {
    /// A material by kind; `None` where the file gives only numbers.
    Kind(Option<Kind>),
    /// A member cut across: the trade's crossed corners.
    Member,
    /// An air space.
    Air,
}

/// A family of parallel lines: direction in degrees from the horizontal, distance apart, offset.
type Lines = (f64, f64, f64);

impl Hatch {
    fn lines(self, layers_stand: bool) -> &'static [Lines] {
        let Self::Kind(Some(kind)) = self else {
            return &[];
        };
        match (kind, layers_stand) {
            (Kind::Wood, _) => &[(45.0, 170.0, 0.0)],
            (Kind::Panel, false) | (Kind::Flooring, true) => &[(0.0, 75.0, 37.0)],
            (Kind::Panel, true) | (Kind::Flooring, false) => &[(90.0, 75.0, 37.0)],
            (Kind::Cladding, _) => &[(-45.0, 110.0, 0.0)],
            (Kind::Masonry, _) => &[(45.0, 190.0, 0.0), (45.0, 190.0, 45.0)],
            _ => &[],
        }
    }
}

/// Fills a rectangle; `layers_stand` where layers are drawn upright, as in walls.
pub(super) fn fill(sheet: &Sheet, hatch: Hatch, from: Point, to: Point, layers_stand: bool) {
    match hatch {
        // Metal is solid in every look.
        Hatch::Kind(Some(Kind::Metal)) => sheet.fill(from, to, INK),
        _ => sheet.hatching(|sheet| pattern(sheet, hatch, (from, to), layers_stand)),
    }
}

fn pattern(sheet: &Sheet, hatch: Hatch, (from, to): (Point, Point), layers_stand: bool) {
    let corners = [from, (to.0, from.1), to, (from.0, to.1)];
    for family in hatch.lines(layers_stand) {
        sheet.strokes(parallel(&corners, *family), FAINT, 14);
    }
    match hatch {
        Hatch::Kind(Some(Kind::Membrane | Kind::Seal)) => sheet.fill(from, to, FAINT),
        Hatch::Kind(Some(Kind::Insulation)) => loops(sheet, from, to, layers_stand),
        Hatch::Kind(Some(Kind::Foam)) => marks(sheet, from, to, (260, 200), 45),
        Hatch::Kind(Some(Kind::Lining)) => marks(sheet, from, to, (110, 90), 9),
        Hatch::Member => {
            sheet.line(vec![from, to], INK, 14);
            sheet.line(vec![(from.0, to.1), (to.0, from.1)], INK, 14);
        }
        _ => {}
    }
}

/// Foam where isotherms run through it: fewer crosses.
pub(super) fn sparse(sheet: &Sheet, from: Point, to: Point) {
    let mut lines = Vec::new();
    crosses(from, to, (620, 460), 40, |line| lines.push(line));
    sheet.hatching(|sheet| sheet.strokes(lines, FAINT, 14));
}

/// Cross-hatches a convex polygon: where it is wet.
pub(super) fn wet(sheet: &Sheet, corners: &[Point]) {
    let both = [45.0, -45.0].map(|angle| parallel(corners, (angle, 130.0, 0.0)));
    sheet.strokes(both.into_iter().flatten(), MOISTURE, 18);
}

/// Hatches a convex polygon one way: as cold, but open to outdoors and not judged.
pub(super) fn unjudged(sheet: &Sheet, corners: &[Point]) {
    sheet.strokes(parallel(corners, (45.0, 170.0, 0.0)), MOISTURE, 14);
}

/// Hatches a convex polygon upright: held as frost.
pub(super) fn frost(sheet: &Sheet, corners: &[Point]) {
    sheet.strokes(parallel(corners, (90.0, 90.0, 0.0)), MOISTURE, 18);
}

/// Hatches a convex polygon that is cut through, whatever it is made of.
pub(super) fn cut(sheet: &Sheet, corners: &[Point]) {
    sheet.strokes(parallel(corners, (45.0, 90.0, 0.0)), FAINT, 14);
}

/// Cross-hatches a convex polygon in black: what lies beyond a limit.
pub(super) fn beyond(sheet: &Sheet, corners: &[Point]) {
    let both = [45.0, -45.0].map(|angle| parallel(corners, (angle, 110.0, 0.0)));
    sheet.strokes(both.into_iter().flatten(), INK, 30);
}

/// A zigzag from face to face, for batts and wool.
fn loops(sheet: &Sheet, from: Point, to: Point, layers_stand: bool) {
    let (across, along) = match layers_stand {
        false => ((from.1, to.1), (from.0, to.0)),
        true => ((from.0, to.0), (from.1, to.1)),
    };
    let step = ((across.1 - across.0) / 4).clamp(100, 220);
    let count = ((along.1 - along.0) / step).max(1);
    let point = |n: i32| {
        let (a, c) = (
            along.0 + (along.1 - along.0) * n / count,
            if n % 2 == 0 { across.0 } else { across.1 },
        );
        if layers_stand { (c, a) } else { (a, c) }
    };
    sheet.line((0..=count).map(point).collect(), FAINT, 14);
}

/// Small crosses in staggered rows, for foam; as small as a point, for linings.
fn marks(sheet: &Sheet, from: Point, to: Point, apart: (i32, i32), arm: i32) {
    let mut lines = Vec::new();
    crosses(from, to, apart, arm, |line| lines.push(line));
    sheet.strokes(lines, FAINT, 14);
}

fn crosses(
    from: Point,
    to: Point,
    (across, down): (i32, i32),
    arm: i32,
    mut draw: impl FnMut(Vec<Point>),
) {
    let mut row = 0;
    let mut y = from.1 + down / 2;
    while y + arm <= to.1 {
        let mut x = from.0
            + if row % 2 == 0 {
                across / 4
            } else {
                across * 3 / 4
            };
        while x + arm <= to.0 {
            if x - arm >= from.0 && y - arm >= from.1 {
                draw(vec![(x - arm, y - arm), (x + arm, y + arm)]);
                draw(vec![(x - arm, y + arm), (x + arm, y - arm)]);
            }
            x += across;
        }
        y += down;
        row += 1;
    }
}

/// The parts of a family of parallel lines inside a polygon.
pub(super) fn parallel(corners: &[Point], (angle, apart, offset): Lines) -> Vec<Vec<Point>> {
    let (sine, cosine) = (libm::sin(angle.to_radians()), libm::cos(angle.to_radians()));
    let across = |(x, y): Point| f64::from(y) * cosine + f64::from(x) * sine;
    let low = corners
        .iter()
        .copied()
        .map(across)
        .fold(f64::INFINITY, f64::min);
    let high = corners
        .iter()
        .copied()
        .map(across)
        .fold(f64::NEG_INFINITY, f64::max);
    if !(low.is_finite() && high.is_finite()) {
        return Vec::new();
    }
    let first = ((low - offset) / apart).ceil() as i64;
    let last = ((high - offset) / apart).floor() as i64;
    (first..=last)
        .flat_map(|n| chords(corners, (sine, cosine), n as f64 * apart + offset))
        .collect()
}

/// The chords where a polygon meets the line x·sin + y·cos = `at`.
fn chords(corners: &[Point], (sine, cosine): (f64, f64), at: f64) -> Vec<Vec<Point>> {
    let side = |(x, y): Point| f64::from(y) * cosine + f64::from(x) * sine - at;
    let mut ends: Vec<Point> = Vec::new();
    for (n, one) in corners.iter().enumerate() {
        let other = corners[(n + 1) % corners.len()];
        let (a, b) = (side(*one), side(other));
        if (a < 0.0) != (b < 0.0) {
            let share = a / (a - b);
            let mix = |p: i32, q: i32| (f64::from(p) + share * f64::from(q - p)).round() as i32;
            ends.push((mix(one.0, other.0), mix(one.1, other.1)));
        }
    }
    // The line goes in and out by turns.
    if ends.len() > 2 {
        let along = |(x, y): Point| f64::from(x) * cosine - f64::from(y) * sine;
        ends.sort_by(|a, b| along(*a).total_cmp(&along(*b)));
    }
    let pairs = ends.chunks_exact(2).filter(|pair| pair[0] != pair[1]);
    pairs.map(<[Point]>::to_vec).collect()
}

/// A line cut into dashes `on` long, `off` apart, each with the corners it goes through.
pub(super) fn dashes(points: &[Point], (on, off): (f64, f64)) -> Vec<Vec<Point>> {
    let mut dashes: Vec<Vec<Point>> = Vec::new();
    let (mut left, mut is_on) = (on, true);
    for pair in points.windows(2) {
        let (mut x, mut y) = (f64::from(pair[0].0), f64::from(pair[0].1));
        let end = (f64::from(pair[1].0), f64::from(pair[1].1));
        let whole = |x: f64, y: f64| (x.round() as i32, y.round() as i32);
        if is_on && (dashes.is_empty() || left == on) {
            dashes.push(vec![pair[0]]);
        }
        loop {
            let rest = libm::hypot(end.0 - x, end.1 - y);
            let step = rest.min(left);
            if rest > 0.0 {
                (x, y) = (x + (end.0 - x) * step / rest, y + (end.1 - y) * step / rest);
            }
            if let (true, Some(dash)) = (is_on, dashes.last_mut()) {
                dash.push(whole(x, y));
            }
            left -= step;
            if left > 0.0 {
                break;
            }
            is_on = !is_on;
            left = if is_on { on } else { off };
            if rest <= step {
                break;
            }
            if is_on {
                dashes.push(vec![whole(x, y)]);
            }
        }
    }
    dashes.retain(|dash| dash.len() > 1);
    dashes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hatch_lines_stay_inside_the_rectangle() {
        let corners = [(100, 50), (900, 50), (900, 333), (100, 333)];
        for angle in [0.0, 45.0, -45.0, 90.0] {
            let lines = parallel(&corners, (angle, 70.0, 5.0));
            assert!(lines.len() > 3, "{angle}");
            let inside = |&(x, y): &Point| (100..=900).contains(&x) && (50..=333).contains(&y);
            assert!(lines.iter().flatten().all(inside), "{angle}");
        }
    }

    // A polygon like a U: a level line through its arms has two pieces, one through its foot has one.
    #[test]
    fn a_line_goes_in_and_out_of_a_bent_polygon() {
        let bent = [
            (0, 0),
            (100, 0),
            (100, 300),
            (200, 300),
            (200, 0),
            (300, 0),
            (300, 400),
            (0, 400),
        ];
        let lines = parallel(&bent, (0.0, 200.0, 150.0));
        let level: Vec<(i32, i32, i32)> = lines.iter().map(|l| (l[0].1, l[0].0, l[1].0)).collect();
        assert_eq!(level, [(150, 0, 100), (150, 200, 300), (350, 300, 0)]);
    }

    #[test]
    fn dashes_cover_their_share_of_the_line() {
        let dashes = dashes(&[(0, 0), (500, 0), (500, 500)], (60.0, 40.0));
        let length = |dash: &Vec<Point>| -> i32 {
            dash.windows(2)
                .map(|p| (p[1].0 - p[0].0).abs() + (p[1].1 - p[0].1).abs())
                .sum()
        };
        assert_eq!(dashes.len(), 10);
        assert!(dashes.iter().all(|dash| length(dash) == 60));
    }
}
