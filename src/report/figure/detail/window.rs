//! The part of a cut that is drawn, to scale, and where it stands on the sheet.

use super::super::scale::Scale;
use super::super::sheet::Point;
use super::shown::Shown;
use crate::model::detail::{Area, Facing};
use crate::model::drawn::{DetailCase, DetailKind, Part};
use crate::quantity::{Length, UnitSystem};

/// Shown around what decides at a floor edge, m.
const AROUND: (f64, f64) = (0.05, 0.1);

/// The part of a cut that is drawn.
#[derive(Clone, Copy)]
pub(super) struct Window {
    /// What is shown of the cut, m.
    pub(super) area: Area,
    /// The drawing's scale.
    pub(super) scale: Scale,
    /// Upper left corner on the sheet.
    pub(super) corner: Point,
}

/// Of the room that is left, what is shown outside of what has to be, and below it.
const BEFORE: (f64, f64) = (0.2, 0.6);

/// Shown of room and roof beside the corner of a roof's edge, m.
const BESIDE: f64 = 0.2;

/// A floor's edge with all of its steel, a roof's with its plates, or a whole cut of any other kind.
pub(super) fn core(case: &DetailCase) -> Area {
    let whole = Area::new(0.0, case.width, 0.0, case.height);
    match case.kind {
        DetailKind::FloorEdge => {}
        DetailKind::RoofEdge => return around_ceiling(case).shared(&whole).unwrap_or(whole),
        DetailKind::Rectangles | DetailKind::CrossMembers => return whole,
    }
    let counts = |part: Part| {
        use Part::{Flange, OverFlange, Packing, Plate, Rail, RimJoist};
        [Flange, OverFlange, Packing, Plate, Rail, RimJoist].contains(&part)
    };
    let parts = case.blocks.iter().filter(|one| counts(one.facts.part));
    let areas = parts.map(|one| one.block.area);
    let around = areas.reduce(|a, b| {
        Area::new(
            a.left.min(b.left),
            a.right.max(b.right),
            a.bottom.min(b.bottom),
            a.top.max(b.top),
        )
    });
    let Some(around) = around else {
        return whole;
    };
    let (near, far) = AROUND;
    let grown = Area::new(
        around.left - near,
        around.right + far,
        0.0,
        around.top + far,
    );
    grown.shared(&whole).unwrap_or(whole)
}

/// Around the line where ceiling and wall meet.
fn around_ceiling(case: &DetailCase) -> Area {
    let mut surfaces = case.surfaces.iter();
    let ceiling = surfaces.find(|surface| surface.facing == Facing::Down);
    let (x, y) = ceiling.map_or((case.width, case.height), |one| {
        (one.line.left, one.line.top)
    });
    Area::new(0.0, x + BESIDE, y - BESIDE, case.height)
}

/// The largest standard scale at which all of these fit a room on paper.
pub(super) fn scale(cores: &[Area], room: Point, units: UnitSystem, magnify: f64) -> Scale {
    let most = |size: fn(&Area) -> f64| {
        let sizes = cores.iter().map(size);
        Length::from_m(sizes.fold(0.0, f64::max))
    };
    let wide = Scale::largest(most(|area| area.right - area.left), room.0, units, magnify);
    let high = Scale::largest(most(|area| area.top - area.bottom), room.1, units, magnify);
    wide.coarser(high)
}

impl Window {
    /// As much of a cut around what has to be shown as fits a room on paper.
    pub(super) fn new(shown: &Shown, scale: Scale, corner: Point, room: Point) -> Self {
        let Shown { core, most } = shown;
        let grown = |core: (f64, f64), most: (f64, f64), room: f64, before: f64| {
            let extra = (room - (core.1 - core.0)).max(0.0);
            let from = (core.0 - before * extra).max(most.0);
            let to = (from + room).min(most.1).max(core.1);
            ((to - room).min(from).max(most.0), to)
        };
        let (width, height) = (scale.in_life(room.0), scale.in_life(room.1));
        let across = (most.left, most.right);
        let (left, right) = grown((core.left, core.right), across, width, BEFORE.0);
        let upward = (most.bottom, most.top);
        let (bottom, top) = grown((core.bottom, core.top), upward, height, BEFORE.1);
        Self {
            area: Area::new(left, right, bottom, top),
            scale,
            corner,
        }
    }

    /// Lower right corner on the sheet.
    pub(super) fn far(&self) -> Point {
        self.point(self.area.right, self.area.bottom)
    }

    /// A point of the cut on the sheet.
    pub(super) fn point(&self, x: f64, y: f64) -> Point {
        let on_paper = |meters: f64| self.scale.on_paper(Length::from_m(meters)).round() as i32;
        (
            self.corner.0.saturating_add(on_paper(x - self.area.left)),
            self.corner.1.saturating_add(on_paper(self.area.top - y)),
        )
    }

    /// A point of the sheet in the cut, m.
    pub(super) fn in_life(&self, (x, y): Point) -> (f64, f64) {
        (
            self.area.left + self.scale.in_life(x - self.corner.0),
            self.area.top - self.scale.in_life(y - self.corner.1),
        )
    }

    /// The part of a rectangle that is shown: upper left and lower right on the sheet.
    pub(super) fn rectangle(&self, area: &Area) -> Option<(Point, Point)> {
        let shown = area.shared(&self.area)?;
        Some((
            self.point(shown.left, shown.top),
            self.point(shown.right, shown.bottom),
        ))
    }

    /// Whether a point of the cut is shown.
    pub(super) fn shows(&self, x: f64, y: f64) -> bool {
        let area = &self.area;
        (area.left..=area.right).contains(&x) && (area.bottom..=area.top).contains(&y)
    }

    /// The parts of a line that are shown, on the sheet, thinned.
    pub(super) fn line(&self, points: &[(f64, f64)]) -> Vec<Vec<Point>> {
        let mut runs: Vec<Vec<Point>> = Vec::new();
        let mut end: Option<Point> = None;
        for pair in points.windows(2) {
            let Some((from, to)) = self.clip(pair[0], pair[1]) else {
                end = None;
                continue;
            };
            let (from, to) = (self.point(from.0, from.1), self.point(to.0, to.1));
            match runs.last_mut() {
                Some(run) if end == Some(from) => run.push(to),
                _ => runs.push(vec![from, to]),
            }
            end = Some(to);
        }
        runs.iter().map(|run| thinned(run)).collect()
    }

    /// The part of a straight line that is shown.
    fn clip(&self, from: (f64, f64), to: (f64, f64)) -> Option<((f64, f64), (f64, f64))> {
        let (mut first, mut last) = (0.0_f64, 1.0_f64);
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let area = &self.area;
        let sides = [
            (-dx, from.0 - area.left),
            (dx, area.right - from.0),
            (-dy, from.1 - area.bottom),
            (dy, area.top - from.1),
        ];
        for (outward, inside) in sides {
            if outward == 0.0 {
                if inside < 0.0 {
                    return None;
                }
            } else if outward < 0.0 {
                first = first.max(inside / outward);
            } else {
                last = last.min(inside / outward);
            }
        }
        let at = |share: f64| (from.0 + share * dx, from.1 + share * dy);
        (first <= last).then(|| (at(first), at(last)))
    }
}

/// No point left out lies further than this from the line, hundredths of a millimeter.
const THIN: f64 = 5.0;

/// A line with the points left out that make no difference to be seen.
pub(super) fn thinned(points: &[Point]) -> Vec<Point> {
    let Some(last) = points.len().checked_sub(1) else {
        return Vec::new();
    };
    let mut kept = vec![false; points.len()];
    kept[0] = true;
    kept[last] = true;
    let mut spans = vec![(0, last)];
    while let Some((from, to)) = spans.pop() {
        let inner = from + 1..to;
        let off = |n: usize| distance(points[n], points[from], points[to]);
        let furthest = inner.max_by(|a, b| off(*a).total_cmp(&off(*b)));
        if let Some(middle) = furthest.filter(|n| off(*n) > THIN) {
            kept[middle] = true;
            spans.push((from, middle));
            spans.push((middle, to));
        }
    }
    let kept = points.iter().zip(kept).filter(|(_, kept)| *kept);
    let mut line: Vec<Point> = kept.map(|(point, _)| *point).collect();
    line.dedup();
    line
}

/// From a point to the piece of line between two others.
fn distance(point: Point, from: Point, to: Point) -> f64 {
    let vector = |a: Point, b: Point| (f64::from(b.0 - a.0), f64::from(b.1 - a.1));
    let (along, out) = (vector(from, to), vector(from, point));
    let length = along.0 * along.0 + along.1 * along.1;
    let share = match length > 0.0 {
        true => ((out.0 * along.0 + out.1 * along.1) / length).clamp(0.0, 1.0),
        false => 0.0,
    };
    libm::hypot(out.0 - share * along.0, out.1 - share * along.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thinning_keeps_corners_and_drops_what_lies_between() {
        let line = [
            (0, 0),
            (100, 2),
            (200, -2),
            (300, 0),
            (300, 150),
            (300, 300),
        ];
        assert_eq!(thinned(&line), [(0, 0), (300, 0), (300, 300)]);
        assert_eq!(thinned(&[]), []);
    }

    #[test]
    fn lines_are_cut_off_at_the_edge_and_go_on_where_they_come_back() {
        let window = Window {
            area: Area::new(0.0, 1.0, 0.0, 1.0),
            scale: Scale::largest(Length::from_m(1.0), 100_000, UnitSystem::Imperial, 1.0),
            corner: (0, 0),
        };
        let runs = window.line(&[(0.5, 0.5), (1.5, 0.5), (1.5, 0.25), (0.5, 0.25)]);
        let per_m = window.point(1.0, 1.0).0;
        assert_eq!(runs.len(), 2);
        assert_eq!(runs[0].last().map(|point| point.0), Some(per_m));
        assert_eq!(runs[1].first().map(|point| point.0), Some(per_m));
    }
}
