//! What is wet if room air gets in: colder than its dew point, where leaking air passes.

use super::super::sheet::{Point, Sheet, WET};
use super::window::Window;
use crate::material::Kind;
use crate::model::drawn::{CaseBlock, DetailCase, Part};
use crate::solve::conduction::Field;
use crate::solve::detail::DetailResult;

/// Lines from warm to cold are looked for at this distance, hundredths of a mm.
const STEP: i32 = 60;

/// The cold part of a cut.
pub(super) struct Cold<'a> {
    field: &'a Field,
    /// °C.
    dew_point: f64,
    /// By block: whether it can be wet at all.
    takes_water: Vec<bool>,
}

impl<'a> Cold<'a> {
    /// Of a solved cut; `field` holds its temperatures. Air doesn't leak into a closed tube, and metal is
    /// drawn solid.
    pub(super) fn of(case: &DetailCase, result: &DetailResult, field: &'a Field) -> Self {
        let blocks = case.blocks.iter().enumerate();
        let takes_water = |(n, one): (usize, &CaseBlock)| {
            result.reach.passes.get(n).copied().unwrap_or(false)
                && one.facts.part != Part::Cavity
                && one.facts.kind != Some(Kind::Metal)
        };
        Self {
            field,
            dew_point: result.room_dew_point.as_celsius(),
            takes_water: blocks.map(takes_water).collect(),
        }
    }

    /// Tints what of a block is wet, drawn in a rectangle.
    pub(super) fn tint(&self, sheet: &Sheet, window: &Window, block: usize, area: (Point, Point)) {
        if !self.takes_water.get(block).copied().unwrap_or(false) {
            return;
        }
        let is_cold = |point: Point| {
            let (x, y) = window.in_life(point);
            let celsius = self.field.at(x, y);
            celsius.is_some_and(|celsius| celsius < self.dew_point)
        };
        for region in regions(area, is_cold) {
            sheet.polygon(region, WET);
        }
    }
}

/// The piece of a level line from one x to another.
type Piece = (i32, i32);

/// A part that grows line by line: its left and its right edge.
struct Growing {
    left: Vec<Point>,
    right: Vec<Point>,
}

impl Growing {
    fn new((from, to): Piece, y: i32) -> Self {
        Self {
            left: vec![(from, y)],
            right: vec![(to, y)],
        }
    }

    fn push(&mut self, (from, to): Piece, y: i32) {
        self.left.push((from, y));
        self.right.push((to, y));
    }

    fn closed(mut self) -> Vec<Point> {
        self.left.extend(self.right.into_iter().rev());
        super::window::thinned(&self.left)
    }
}

/// The parts of a rectangle in which something holds, as polygons.
fn regions((from, to): (Point, Point), holds: impl Fn(Point) -> bool) -> Vec<Vec<Point>> {
    let rows = (to.1 - from.1).max(1);
    let count = (rows + STEP - 1) / STEP;
    let mut done = Vec::new();
    let mut open: Vec<(Piece, Growing)> = Vec::new();
    let mut above = from.1;
    for n in 0..=count {
        let y = from.1 + rows * n / count;
        let pieces = pieces((from.0, to.0), |x| holds((x, y)));
        let touch = |a: &Piece, b: &Piece| a.0 <= b.1 && b.0 <= a.1;
        let mut next: Vec<(Piece, Growing)> = Vec::new();
        let known: Vec<Piece> = open.iter().map(|(piece, _)| *piece).collect();
        let is_single = |piece: &Piece, among: &[Piece]| {
            among.iter().filter(|other| touch(other, piece)).count() == 1
        };
        for (piece, mut growing) in std::mem::take(&mut open) {
            let on = pieces.iter().find(|one| touch(one, &piece));
            match on.filter(|one| is_single(&piece, &pieces) && is_single(one, &known)) {
                Some(one) => {
                    growing.push(*one, y);
                    next.push((*one, growing));
                }
                None => done.push(growing.closed()),
            }
        }
        for piece in &pieces {
            if next.iter().any(|(one, _)| one == piece) {
                continue;
            }
            // Where parts meet or divide, each begins on the line before.
            for before in known.iter().filter(|before| touch(before, piece)) {
                let both = (before.0.max(piece.0), before.1.min(piece.1));
                let mut joint = Growing::new(both, above);
                joint.push(both, y);
                done.push(joint.closed());
            }
            next.push((*piece, Growing::new(*piece, y)));
        }
        open = next;
        above = y;
    }
    done.extend(open.into_iter().map(|(_, growing)| growing.closed()));
    done.retain(|region| region.len() > 2);
    done
}

/// The pieces of a level line on which something holds.
fn pieces((from, to): Piece, holds: impl Fn(i32) -> bool) -> Vec<Piece> {
    let count = ((to - from) / STEP).max(1);
    let at = |n: i32| from + (to - from) * n / count;
    let mut found = Vec::new();
    let mut start = holds(from).then_some(from);
    for n in 1..=count {
        match (start, holds(at(n))) {
            (None, true) => start = Some(turn(at(n - 1), at(n), &holds)),
            (Some(since), false) => {
                found.push((since, turn(at(n), at(n - 1), &holds)));
                start = None;
            }
            _ => {}
        }
    }
    found.extend(start.map(|since| (since, to)));
    found.retain(|(from, to)| from < to);
    found
}

/// Where something begins to hold on the way from one place to another, at which it does.
fn turn(mut off: i32, mut on: i32, holds: impl Fn(i32) -> bool) -> i32 {
    while (on - off).abs() > 4 {
        let middle = i32::midpoint(off, on);
        if holds(middle) {
            on = middle;
        } else {
            off = middle;
        }
    }
    on
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(region: &[Point]) -> f64 {
        let next = region.iter().cycle().skip(1);
        let cross = region
            .iter()
            .zip(next)
            .map(|(a, b)| f64::from(a.0) * f64::from(b.1) - f64::from(b.0) * f64::from(a.1));
        0.5 * cross.sum::<f64>().abs()
    }

    #[test]
    fn regions_cover_what_holds() {
        let disc = |(x, y): Point| (x - 2000).pow(2) + (y - 1500).pow(2) < 1000 * 1000;
        let found = regions(((0, 0), (4000, 3000)), disc);
        assert_eq!(found.len(), 1);
        let share = area(&found[0]) / (std::f64::consts::PI * 1e6);
        assert!((share - 1.0).abs() < 0.02, "{share}");
    }

    // Two legs that meet: no part of the rectangle is lost where they do.
    #[test]
    fn regions_divide_where_what_holds_does() {
        let legs = |(x, y): Point| y < 600 || !(1000..2000).contains(&x);
        let found = regions(((0, 0), (3000, 1800)), legs);
        let sum: f64 = found.iter().map(|region| area(region)).sum();
        assert!(
            (sum - (3000.0 * 600.0 + 2000.0 * 1200.0)).abs() < 3000.0 * 70.0,
            "{sum}"
        );
        assert!(found.len() >= 3);
        assert!(regions(((0, 0), (3000, 10)), |_| false).is_empty());
    }
}
