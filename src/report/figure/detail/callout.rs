//! Names and numbers beside what they belong to, where there is room, with a line leading there.

use super::super::sheet::{FAINT, GRAY, HEAT, INK, LINE, Lettering, PAPER, Point, SIZE, Sheet};
use super::window::Window;
use crate::model::drawn::{CaseBlock, DetailCase, Part};
use crate::quantity::{Style, Temperature};
use crate::solve::conduction::Coldest;
use crate::solve::detail::DetailResult;

/// What is written beside a point: lines with their lettering.
pub(super) struct Callout {
    at: Point,
    lines: Vec<(String, Lettering)>,
    is_spot: bool,
}

/// Where call-outs may stand, and what they should keep off.
pub(super) struct Room {
    corner: Point,
    far: Point,
    solids: Vec<(Point, Point)>,
}

impl Room {
    pub(super) fn new(window: &Window, case: &DetailCase) -> Self {
        let areas = case.blocks.iter().map(|one| one.block.area);
        Self {
            corner: window.corner,
            far: window.far(),
            solids: areas.filter_map(|area| window.rectangle(&area)).collect(),
        }
    }

    fn holds(&self, [left, top, right, bottom]: [i32; 4]) -> bool {
        left >= self.corner.0 + 50
            && right <= self.far.0 - 50
            && top >= self.corner.1 + 50
            && bottom <= self.far.1 - 50
    }

    fn is_on_solid(&self, [left, top, right, bottom]: [i32; 4]) -> bool {
        self.solids
            .iter()
            .any(|(from, to)| left < to.0 && from.0 < right && top < to.1 && from.1 < bottom)
    }
}

impl Callout {
    /// What it belongs to.
    pub(super) fn at(&self) -> Point {
        self.at
    }

    fn size(&self) -> Point {
        let width = self.lines.iter().map(|(words, set)| set.width(words)).max();
        let lines = i32::try_from(self.lines.len()).unwrap_or(1);
        (width.unwrap_or(0) + 100, LINE * lines + 40)
    }

    /// Draws it at the best free place; where there is none, only its mark.
    pub(super) fn draw(&self, sheet: &mut Sheet, room: &Room) {
        let (width, height) = self.size();
        let mut best: Option<(i32, Point)> = None;
        let columns = (room.far.0 - room.corner.0) / 200;
        let rows = (room.far.1 - room.corner.1) / 140;
        for place in 0..columns * rows {
            let corner = (
                room.corner.0 + place % columns * 200,
                room.corner.1 + place / columns * 140,
            );
            let taken = [corner.0, corner.1, corner.0 + width, corner.1 + height];
            let [left, top, right, bottom] = taken;
            let near = (self.at.0.clamp(left, right), self.at.1.clamp(top, bottom));
            let far = (self.at.0 - near.0).abs().max((self.at.1 - near.1).abs());
            if far < 180 || !room.holds(taken) {
                continue;
            }
            let cost = far + if room.is_on_solid(taken) { 9000 } else { 0 };
            let roomy = [left - 90, top - 70, right + 90, bottom + 70];
            let is_better = best.is_none_or(|(least, _)| cost < least);
            if is_better && sheet.is_free(roomy) && is_clear(sheet, near, self.at) {
                best = Some((cost, corner));
            }
        }
        if let Some((_, corner)) = best {
            self.write(sheet, corner);
        }
        if self.is_spot {
            sheet.ring(self.at, 70, HEAT, 36);
        }
    }

    fn write(&self, sheet: &mut Sheet, corner: Point) {
        let (width, height) = self.size();
        let (left, top) = corner;
        let (right, bottom) = (left + width, top + height);
        let near = (self.at.0.clamp(left, right), self.at.1.clamp(top, bottom));
        sheet.line(vec![near, self.at], INK, 12);
        sheet.fill(corner, (right, bottom), PAPER);
        sheet.outline(corner, (right, bottom), FAINT, 10);
        let mut baseline = top + 335;
        for (words, set) in &self.lines {
            sheet.text(words, (left + 50, baseline), *set);
            baseline += LINE;
        }
    }
}

/// Whether a straight line runs through no label.
fn is_clear(sheet: &Sheet, from: Point, to: Point) -> bool {
    const STEPS: i32 = 24;
    (0..=STEPS).all(|n| {
        let x = from.0 + (to.0 - from.0) * n / STEPS;
        let y = from.1 + (to.1 - from.1) * n / STEPS;
        sheet.is_free([x - 40, y - 40, x + 40, y + 40])
    })
}

/// `48.3 ± 0.12 °F`, or `9.1 °C ± 0.07 K`.
pub(super) fn with_bar(coldest: &Coldest, style: Style) -> String {
    let value = Temperature::from_celsius(coldest.point.temperature);
    style.temperature_with_bar(value, coldest.bar)
}

/// A surface's or part's coldest place.
pub(super) struct Spot<'a> {
    /// Whose.
    pub(super) name: &'a str,
    /// Where, and how cold.
    pub(super) coldest: &'a Coldest,
}

/// Coldest place of each surface with the usual films, then of the wood that leaking air reaches.
pub(super) fn spots(result: &DetailResult) -> Vec<Spot<'_>> {
    let surfaces = result.surfaces.iter().map(|surface| Spot {
        name: &surface.name,
        coldest: &surface.usual,
    });
    let wood = result.wood.iter().filter_map(|part| {
        Some(Spot {
            name: &part.name,
            coldest: &part.reached.as_ref()?.0,
        })
    });
    surfaces.chain(wood).collect()
}

/// The call-outs of spots that are shown and `told`.
pub(super) fn of_spots(
    result: &DetailResult,
    window: &Window,
    told: impl Fn(&str) -> bool,
    style: Style,
) -> Vec<Callout> {
    let shown = spots(result).into_iter().filter(|spot| {
        let point = &spot.coldest.point;
        told(spot.name) && window.shows(point.x, point.y)
    });
    let gray = Lettering::PLAIN.color(GRAY);
    shown
        .map(|spot| {
            let point = &spot.coldest.point;
            Callout {
                at: window.point(point.x, point.y),
                lines: vec![
                    (gray.fit(spot.name, 5400), gray),
                    (with_bar(spot.coldest, style), Lettering::PLAIN.bold()),
                ],
                is_spot: true,
            }
        })
        .collect()
}

/// Names of parts that no other label names: on them where they fit, else beside them.
pub(super) fn of_parts(
    sheet: &mut Sheet,
    case: &DetailCase,
    window: &Window,
    named: &[&str],
) -> Vec<Callout> {
    let gray = Lettering::PLAIN.color(GRAY);
    let mut beside = Vec::new();
    for one in &case.blocks {
        let name = one.block.name.as_str();
        if named.contains(&name) || !is_named(one) {
            continue;
        }
        let Some((from, to)) = window.rectangle(&one.block.area) else {
            continue;
        };
        let middle = (i32::midpoint(from.0, to.0), i32::midpoint(from.1, to.1));
        let base = (middle.0, middle.1 + SIZE * 36 / 100);
        let taken = Sheet::would_take(name, base, gray.centered());
        let fits = taken[0] > from.0 + 100
            && taken[2] < to.0 - 100
            && taken[1] > from.1 + 60
            && taken[3] < to.1 - 60;
        if fits && sheet.is_free(taken) {
            sheet.fill(
                (taken[0] - 30, taken[1] - 25),
                (taken[2] + 30, base.1 + 25),
                PAPER,
            );
            sheet.text(name, base, gray.centered());
        } else {
            beside.push(Callout {
                at: middle,
                lines: vec![(gray.fit(name, 4200), gray)],
                is_spot: false,
            });
        }
    }
    beside
}

/// Layers are named where they leave the drawing; air shut in needs no name.
fn is_named(one: &CaseBlock) -> bool {
    use Part::{Cavity, Floor, Pan, Wall};
    !matches!(one.facts.part, Cavity | Floor | Pan | Wall)
}
