//! The section at the left of the calendar, its layers in proportion, and leaders to the rows.

use super::super::cut::Cut;
use super::super::hatch;
use super::super::sheet::{FAINT, INK, LINE, Lettering, MOISTURE, Point, Sheet};
use super::across::Across;
use crate::model::AssemblyKind;

/// No layer is drawn thinner than this.
const THINNEST: i32 = 35;
/// Half of a ring at the plane that decides.
const RING: i32 = 65;

/// The section, drawn from a height to another.
pub(super) struct Strip<'a> {
    /// The path.
    pub(super) cut: &'a Cut<'a>,
    /// Its kind: a roof's outer side is up.
    pub(super) kind: AssemblyKind,
    /// Where it begins and ends.
    pub(super) ends: (i32, i32),
}

impl Strip<'_> {
    /// Where the boundaries of the layers lie, from the room outward.
    fn boundaries(&self) -> Vec<i32> {
        let thickness = self.cut.cells.iter().map(|cell| cell.thickness.as_m());
        let all: f64 = thickness.clone().sum();
        let (top, bottom) = (f64::from(self.ends.0), f64::from(self.ends.1));
        let mut depth = 0.0;
        let depths = thickness.map(|layer| {
            depth += layer;
            depth
        });
        std::iter::once(0.0)
            .chain(depths)
            .map(|depth| if all > 0.0 { depth / all } else { 0.0 })
            .map(|share| match self.kind {
                AssemblyKind::Roof => bottom - share * (bottom - top),
                _ => top + share * (bottom - top),
            })
            .map(|y| y.round() as i32)
            .collect()
    }

    /// Draws the layers, and a leader to each row: where it lies among the planes, the row's height,
    /// and whether it decides.
    pub(super) fn draw(&self, sheet: &mut Sheet, across: &Across, rows: &[(f64, i32, bool)]) {
        let boundaries = self.boundaries();
        self.layers(sheet, across.strip, &boundaries);
        let at = |place: f64| {
            let whole = (place.floor() as usize).min(boundaries.len() - 1);
            let next = (whole + 1).min(boundaries.len() - 1);
            let share = place - place.floor();
            let (one, other) = (f64::from(boundaries[whole]), f64::from(boundaries[next]));
            (one + share * (other - one)).round() as i32
        };
        for (place, y, decides) in rows {
            let from: Point = (across.strip.1, at(*place));
            let to = (across.names.0 - 90, *y);
            let (color, width) = if *decides { (INK, 24) } else { (FAINT, 12) };
            let knee = (to.0 - (to.0 - from.0) / 4, to.1);
            sheet.line(vec![from, knee, to], color, width);
            if *decides {
                sheet.ring(from, RING, MOISTURE, 36);
            }
        }
        let sides = match across.stacked {
            true => ["in", "out"],
            false => ["room", "outdoors"],
        };
        let words = match self.kind {
            AssemblyKind::Roof => [sides[1], sides[0]],
            _ => sides,
        };
        let set = Lettering::PLAIN.italic();
        let bases = [self.ends.0 - 110, self.ends.1 + LINE * 7 / 8];
        for (words, base) in words.into_iter().zip(bases) {
            sheet.text(words, (across.strip.0, base), set);
        }
    }

    fn layers(&self, sheet: &Sheet, (left, right): (i32, i32), boundaries: &[i32]) {
        for (cell, pair) in self.cut.cells.iter().zip(boundaries.windows(2)) {
            let (top, bottom) = (pair[0].min(pair[1]), pair[0].max(pair[1]));
            if bottom - top < THINNEST {
                let y = i32::midpoint(top, bottom);
                sheet.line(vec![(left, y), (right, y)], INK, THINNEST.unsigned_abs());
                continue;
            }
            hatch::fill(sheet, cell.hatch, (left, top), (right, bottom), false);
            sheet.outline((left, top), (right, bottom), INK, 18);
        }
    }
}
