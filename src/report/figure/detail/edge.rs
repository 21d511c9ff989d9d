//! Where a drawing ends: thin at the cut's own edges, broken off where solids go on.

use super::super::sheet::{INK, PAPER, Point, Sheet};
use super::window::Window;
use crate::model::drawn::DetailCase;

/// How far a break line reaches beyond what it breaks off.
const BEYOND: i32 = 260;
/// Half the length and the reach of the zigzag in its middle.
const ZIGZAG: (i32, i32) = (150, 190);
/// Edges nearer than this are one, m.
const SAME: f64 = 1e-9;

/// One side of what is shown.
struct Side {
    /// Its ends.
    ends: (Point, Point),
    /// Whether it stands upright.
    stands: bool,
    /// Whether the cut goes on beyond it.
    goes_on: bool,
}

impl Side {
    /// A point so far along it.
    fn at(&self, along: i32) -> Point {
        self.beside(along, 0)
    }

    /// A point so far along it and off it.
    fn beside(&self, along: i32, off: i32) -> Point {
        match self.stands {
            true => (self.ends.0.0 + off, along),
            false => (along, self.ends.0.1 + off),
        }
    }
}

/// Draws all four sides, where solids meet them.
pub(super) fn draw(sheet: &Sheet, window: &Window, case: &DetailCase) {
    for side in sides(window, case) {
        let solids = solids_at(&side, window, case);
        if side.goes_on {
            sheet.line(vec![side.ends.0, side.ends.1], PAPER, 44);
        }
        for (from, to) in solids {
            let line = match side.goes_on {
                true => broken(&side, from, to),
                false => vec![side.at(from), side.at(to)],
            };
            if side.goes_on {
                sheet.line(line.clone(), PAPER, 90);
            }
            sheet.line(line, INK, if side.goes_on { 18 } else { 10 });
        }
    }
}

fn sides(window: &Window, case: &DetailCase) -> [Side; 4] {
    let ((left, top), (right, bottom)) = (window.corner, window.far());
    let area = &window.area;
    let side = |ends: (Point, Point), stands, goes_on| Side {
        ends,
        stands,
        goes_on,
    };
    [
        side(((left, top), (left, bottom)), true, area.left > SAME),
        side(
            ((right, top), (right, bottom)),
            true,
            area.right < case.width - SAME,
        ),
        side(((left, bottom), (right, bottom)), false, area.bottom > SAME),
        side(
            ((left, top), (right, top)),
            false,
            area.top < case.height - SAME,
        ),
    ]
}

/// The stretches of a side at which solids are cut off, from and to along it.
fn solids_at(side: &Side, window: &Window, case: &DetailCase) -> Vec<(i32, i32)> {
    let line = match side.stands {
        true => side.ends.0.0,
        false => side.ends.0.1,
    };
    let rectangles = case.blocks.iter().filter_map(|one| {
        let (from, to) = window.rectangle(&one.block.area)?;
        let (across, along) = match side.stands {
            true => ((from.0, to.0), (from.1, to.1)),
            false => ((from.1, to.1), (from.0, to.0)),
        };
        (across.0 <= line && line <= across.1).then_some(along)
    });
    let mut stretches: Vec<(i32, i32)> = rectangles.collect();
    stretches.sort_unstable();
    let mut merged: Vec<(i32, i32)> = Vec::new();
    for (from, to) in stretches {
        match merged.last_mut() {
            Some(last) if from <= last.1 + 2 * BEYOND => last.1 = last.1.max(to),
            _ => merged.push((from, to)),
        }
    }
    merged
}

/// A line along a side with a zigzag in its middle: here the drawing breaks off.
fn broken(side: &Side, from: i32, to: i32) -> Vec<Point> {
    let middle = i32::midpoint(from, to);
    let (half, reach) = ZIGZAG;
    let half = half.min((to - from) / 4);
    let along = [
        (from - BEYOND, 0),
        (middle - half, 0),
        (middle - half / 2, -reach),
        (middle + half / 2, reach),
        (middle + half, 0),
        (to + BEYOND, 0),
    ];
    let points = along.map(|(along, off)| side.beside(along, off));
    points.to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_break_line_runs_past_what_it_breaks_off_and_turns_in_its_middle() {
        let side = Side {
            ends: ((500, 0), (500, 9000)),
            stands: true,
            goes_on: true,
        };
        let line = broken(&side, 1000, 5000);
        assert_eq!(line.first(), Some(&(500, 1000 - BEYOND)));
        assert_eq!(line.last(), Some(&(500, 5000 + BEYOND)));
        let furthest = line.iter().map(|(x, _)| (x - 500).abs()).max();
        assert_eq!(furthest, Some(ZIGZAG.1));
        assert_eq!((line[2].1 + line[3].1) / 2, 3000);
    }
}
