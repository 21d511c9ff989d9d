//! The judged places as numbered dots, as near to where they are as there is room.

use super::super::legend;
use super::super::sheet::{GRAY, INK, Lettering, PAPER, Point, SIZE, Sheet};
use super::window::Window;
use crate::check::Status;
use crate::report::places::{PlaceRow, worst_of_each};

/// How the legend shows a place that fails, whatever it is called there.
pub(super) const FAILS: fn(&Sheet, Point) = |sheet, (x, y)| {
    sheet.disc((x + 450, y), 150, INK);
};
/// One that depends, and one that passes.
pub(super) const DEPENDS: legend::Item = ("depends", |sheet, (x, y)| {
    sheet.ring((x + 450, y), 130, INK, 44);
});
pub(super) const PASSES: legend::Item = ("passes", |sheet, (x, y)| {
    sheet.ring((x + 450, y), 140, GRAY, 18);
});

/// Radius of a dot with a number of one digit, and of one with two.
pub(super) const RADIUS: i32 = 215;
const WIDE: i32 = 290;
/// The exact place is a point this large.
const POINT: i32 = 62;
/// How far from its place a dot is tried.
const AWAY: [i32; 9] = [330, 430, 560, 720, 900, 1150, 1450, 1900, 2500];
/// In how many directions.
const DIRECTIONS: i32 = 24;

/// A judged place on a drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Dot {
    /// Its number, which its row has too.
    pub(super) number: usize,
    /// Where on the sheet.
    pub(super) at: Point,
    /// How it came out.
    pub(super) status: Status,
}

/// The places that are shown, the worst first.
pub(super) fn of(rows: &[PlaceRow<'_>], window: &Window) -> Vec<Dot> {
    let each = worst_of_each(rows).into_iter().filter_map(|row| {
        let (x, y) = row.at.filter(|(x, y)| window.shows(*x, *y))?;
        Some(Dot {
            number: row.number,
            at: window.point(x, y),
            status: row.finding.status,
        })
    });
    each.collect()
}

/// Draws every place as a point with its dot beside it, off whatever is written and off one another.
pub(super) fn draw(sheet: &mut Sheet, dots: &[Dot], (from, to): (Point, Point)) {
    let mut centers: Vec<(i32, Point)> = Vec::new();
    for dot in dots {
        let own = radius(dot.number);
        let is_free = |center: &Point| {
            let (x, y) = *center;
            let reach = own + 50;
            let others =
                |(other, at): &(i32, Point)| apart(*at, *center) >= f64::from(own + other + 60);
            x - reach >= from.0
                && x + reach <= to.0
                && y - reach >= from.1
                && y + reach <= to.1
                && sheet.is_free([x - reach, y - reach, x + reach, y + reach])
                && centers.iter().all(others)
                && dots
                    .iter()
                    .all(|d| apart(d.at, *center) >= f64::from(own + POINT + 40))
        };
        let found = around(dot.at, middle(dots)).into_iter().find(is_free);
        // Where nothing is free there is the point alone.
        let Some(center) = found else {
            continue;
        };
        sheet.line(vec![dot.at, center], PAPER, 80);
        sheet.line(vec![dot.at, center], INK, 20);
        disc(sheet, center, dot.number, dot.status);
        centers.push((own, center));
    }
    for dot in dots {
        sheet.disc(dot.at, POINT + 28, PAPER);
        sheet.disc(dot.at, POINT, INK);
    }
}

/// The radius of a dot with that number.
pub(super) fn radius(number: usize) -> i32 {
    if number > 9 { WIDE } else { RADIUS }
}

/// A place without a number.
pub(super) fn place(sheet: &Sheet, at: Point) {
    sheet.disc(at, 2 * POINT + 40, PAPER);
    sheet.disc(at, 2 * POINT, INK);
}

/// Places around one, near ones first, and of these those that lead away from the middle of all dots.
fn around(at: Point, middle: Point) -> Vec<Point> {
    let outward = libm::atan2(f64::from(at.1 - middle.1), f64::from(at.0 - middle.0));
    let mut turns: Vec<i32> = (0..DIRECTIONS).collect();
    turns.sort_by_key(|n| (n.min(&(DIRECTIONS - n)).to_owned(), *n));
    let each = AWAY.iter().flat_map(|away| {
        turns.iter().map(move |n| {
            let turn = f64::from(*n) * std::f64::consts::TAU / f64::from(DIRECTIONS);
            let (angle, away) = (outward + turn, f64::from(*away));
            (
                at.0 + (away * libm::cos(angle)).round() as i32,
                at.1 + (away * libm::sin(angle)).round() as i32,
            )
        })
    });
    each.collect()
}

fn middle(dots: &[Dot]) -> Point {
    let count = i32::try_from(dots.len()).unwrap_or(1).max(1);
    let sum = |of: fn(&Dot) -> i32| dots.iter().map(of).fold(0, i32::saturating_add);
    (sum(|dot| dot.at.0) / count, sum(|dot| dot.at.1) / count)
}

fn apart(one: Point, other: Point) -> f64 {
    libm::hypot(f64::from(one.0 - other.0), f64::from(one.1 - other.1))
}

/// A dot with its number: black where it fails, a heavy ring where it depends, else a thin one.
pub(super) fn disc(sheet: &mut Sheet, center: Point, number: usize, status: Status) {
    let radius = radius(number);
    let set = match number {
        ..=9 => Lettering::PLAIN.bold().centered(),
        _ => Lettering::PLAIN.centered(),
    };
    sheet.disc(center, radius + 28, PAPER);
    let set = match status {
        Status::Fail => {
            sheet.disc(center, radius, INK);
            set.color(PAPER)
        }
        Status::Depends | Status::Unknown => {
            sheet.ring(center, radius - 20, INK, 44);
            set
        }
        Status::Pass | Status::Note => {
            sheet.ring(center, radius - 10, GRAY, 18);
            set.color(GRAY)
        }
    };
    let base = (center.0, center.1 + SIZE * 36 / 100);
    sheet.text(&number.to_string(), base, set);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dot(number: usize, at: Point) -> Dot {
        Dot {
            number,
            at,
            status: Status::Depends,
        }
    }

    // Three places within a millimeter: their dots stand apart, none further off than 15 mm.
    #[test]
    fn dots_of_near_places_stand_apart() {
        let dots = [
            dot(1, (5000, 5000)),
            dot(2, (5050, 5000)),
            dot(3, (5000, 5040)),
        ];
        let mut sheet = Sheet::new((10_000, 10_000));
        draw(&mut sheet, &dots, ((0, 0), (10_000, 10_000)));
        let labels = sheet.finish("", "").labels;
        let centers: Vec<Point> = labels
            .iter()
            .map(|label| {
                let [left, top, right, bottom] = label.corners;
                (i32::midpoint(left, right), i32::midpoint(top, bottom))
            })
            .collect();
        assert_eq!(centers.len(), 3);
        for (n, one) in centers.iter().enumerate() {
            assert!(apart(*one, dots[n].at) < 1500.0);
            for other in &centers[..n] {
                assert!(apart(*one, *other) >= f64::from(2 * RADIUS));
            }
        }
    }
}
