//! What a cut is made of: blocks with restrained hatches, what is cold in them, the airs.

use super::super::hatch::{self, Hatch};
use super::super::place::spread;
use super::super::sheet::{FAINT, GRAY, INK, LINE, Lettering, MOISTURE, PAPER, Point, SIZE, Sheet};
use super::window::Window;
use crate::material::Kind;
use crate::model::detail::{Area, Detail, Place};
use crate::model::drawn::{AirSource, CaseBlock, DetailCase, DetailKind, Part};
use crate::solve::conduction::Field;
use crate::solve::detail::DetailResult;

/// No block is drawn thinner than this.
const THINNEST: i32 = 30;
/// Where a line crosses from warm to cold is looked for at this distance, hundredths of a mm.
const STEP: f64 = 60.0;

/// Blocks in drawing order, later ones on top, then the edge of what is shown.
pub(super) fn blocks(sheet: &Sheet, window: &Window, case: &DetailCase) {
    for one in &case.blocks {
        if let Some((from, to)) = window.rectangle(&one.block.area) {
            block(sheet, one, from, to);
        }
    }
    edges(sheet, window, case);
}

pub(super) fn block(sheet: &Sheet, one: &CaseBlock, from: Point, to: Point) {
    let (width, height) = (to.0 - from.0, to.1 - from.1);
    if width.min(height) < THINNEST {
        let middle = |a: i32, b: i32| i32::midpoint(a, b);
        let ends = match width < height {
            true => vec![(middle(from.0, to.0), from.1), (middle(from.0, to.0), to.1)],
            false => vec![(from.0, middle(from.1, to.1)), (to.0, middle(from.1, to.1))],
        };
        let color = match one.facts.kind {
            Some(Kind::Metal) => INK,
            _ => GRAY,
        };
        sheet.line(ends, color, THINNEST.unsigned_abs());
        return;
    }
    sheet.fill(from, to, PAPER);
    let stands = height > width;
    match (one.facts.part, one.facts.kind) {
        (Part::Plate | Part::RimJoist, _) => hatch::fill(sheet, Hatch::Member, from, to, false),
        (_, Some(Kind::Foam)) => hatch::sparse(sheet, from, to),
        (_, Some(Kind::Lining)) => {}
        (_, kind) => hatch::fill(sheet, Hatch::Kind(kind), from, to, stands),
    }
    sheet.outline(from, to, INK, 16);
}

/// Edges of the cut are thin; where it runs on beyond what is shown, dashed.
fn edges(sheet: &Sheet, window: &Window, case: &DetailCase) {
    let ((left, top), (right, bottom)) = (window.corner, window.far());
    let area = &window.area;
    let near = 1e-9;
    let sides = [
        (vec![(left, top), (left, bottom)], area.left > near),
        (
            vec![(right, top), (right, bottom)],
            area.right < case.width - near,
        ),
        (vec![(left, bottom), (right, bottom)], area.bottom > near),
        (
            vec![(left, top), (right, top)],
            area.top < case.height - near,
        ),
    ];
    for (ends, runs_on) in sides {
        match runs_on {
            true => {
                sheet.line(ends.clone(), PAPER, 40);
                sheet.dashes(&ends, (250.0, 120.0), GRAY, 18);
            }
            false => sheet.line(ends, FAINT, 10),
        }
    }
}

/// The names of the airs, in the upper corner of where they are seen.
pub(super) fn airs(sheet: &mut Sheet, window: &Window, case: &DetailCase) {
    let italic = Lettering::PLAIN.italic().color(GRAY);
    let mut named: Vec<usize> = Vec::new();
    for region in &case.regions {
        let Some((from, to)) = window.rectangle(&region.area) else {
            continue;
        };
        let Some(air) = case.airs.get(region.air) else {
            continue;
        };
        let room = to.0 - from.0 - 300;
        let words = match air.source {
            AirSource::Room => "room",
            AirSource::Outdoors => "outdoors",
            AirSource::Held(_) => &air.name,
        };
        if named.contains(&region.air) || italic.width(words) > room || to.1 - from.1 < 500 {
            continue;
        }
        // Out of the way of what the room's upper left corner is near: at the right.
        let at = match air.source {
            AirSource::Room => (to.0 - 150, from.1 + 450),
            _ => (from.0 + 150 + italic.width(words), to.1 - 150),
        };
        sheet.text(words, at, italic.right());
        named.push(region.air);
    }
}

/// What is colder than the dew point of the room air: cross-hatched where leaking air passes,
/// lightly elsewhere.
pub(super) fn cold(sheet: &Sheet, window: &Window, result: &DetailResult, field: &Field) {
    let dew = result.room_dew_point.as_celsius();
    let detail = result.conduction.solution.detail();
    let reached = |at: (f64, f64)| -> Option<bool> {
        let block = block_at(detail, at)?;
        let celsius = field.at(at.0, at.1)?;
        (celsius < dew).then(|| result.reach.passes.get(block).copied().unwrap_or(false))
    };
    let corners = {
        let ((left, top), (right, bottom)) = (window.corner, window.far());
        [(left, top), (right, top), (right, bottom), (left, bottom)]
    };
    let families = [
        ((45.0, 200.0, 0.0), true, 15),
        ((-45.0, 200.0, 0.0), true, 15),
        ((45.0, 330.0, 60.0), false, 10),
    ];
    for (family, wet, width) in families {
        let chords = hatch::parallel(&corners, family);
        let holds = |point| reached(window.in_life(point)) == Some(wet);
        let lines = chords.iter().flat_map(|chord| runs(chord, holds));
        sheet.strokes(lines, MOISTURE, width);
    }
}

/// The pieces of a straight line on which something holds.
fn runs(chord: &[Point], holds: impl Fn(Point) -> bool) -> Vec<Vec<Point>> {
    let [from, to] = chord else {
        return Vec::new();
    };
    let (dx, dy) = (f64::from(to.0 - from.0), f64::from(to.1 - from.1));
    let steps = (libm::hypot(dx, dy) / STEP).ceil().max(1.0);
    let at = |share: f64| {
        (
            from.0 + (share * dx).round() as i32,
            from.1 + (share * dy).round() as i32,
        )
    };
    let mut found: Vec<Vec<Point>> = Vec::new();
    let mut before = false;
    for n in 0..=steps as usize {
        let share = n as f64 / steps;
        let now = holds(at(share));
        if now != before {
            let (mut low, mut high) = ((share - 1.0 / steps).max(0.0), share);
            for _ in 0..4 {
                let middle = 0.5 * (low + high);
                if holds(at(middle)) == before {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            match (now, found.last_mut()) {
                (true, _) => found.push(vec![at(high)]),
                (false, Some(run)) => run.push(at(low)),
                (false, None) => {}
            }
        }
        before = now;
    }
    if let (true, Some(run)) = (before, found.last_mut()) {
        run.push(*to);
    }
    found.retain(|run| run.len() == 2 && run[0] != run[1]);
    found
}

fn block_at(detail: &Detail, (x, y): (f64, f64)) -> Option<usize> {
    let place = |edges: &[f64], at: f64| {
        let after = edges.partition_point(|edge| *edge <= at);
        (after > 0 && after < edges.len()).then(|| after - 1)
    };
    match detail.place(place(detail.columns(), x)?, place(detail.rows(), y)?) {
        Place::Block(block) => Some(block as usize),
        _ => None,
    }
}

/// The layers that run out of the drawing: the floor's or the roof's at its right, the wall's above it or
/// below.
pub(super) fn layers(sheet: &mut Sheet, window: &Window, case: &DetailCase, room: i32) {
    let gray = Lettering::PLAIN.color(GRAY);
    let far = window.far();
    let is_layer =
        |one: &&CaseBlock| matches!(one.facts.part, Part::Floor | Part::Pan | Part::Roof);
    let at_right = case.blocks.iter().filter(is_layer).filter(|one| {
        let area = &one.block.area;
        area.right >= window.area.right && area.left < window.area.right
    });
    let shown = at_right.filter_map(|one| {
        let (from, to) = window.rectangle(&one.block.area)?;
        Some((i32::midpoint(from.1, to.1), &one.block.name))
    });
    let mut floor: Vec<(i32, &String)> = shown.collect();
    floor.sort();
    // Names that would leave the drawing's height are left out.
    let most = usize::try_from((far.1 - window.corner.1) / LINE).unwrap_or(0);
    floor.truncate(most);
    let wanted: Vec<i32> = floor.iter().map(|(y, _)| *y).collect();
    let placed = spread(&wanted, LINE, (window.corner.1 + 200, far.1 - 200));
    for ((y, name), label) in floor.iter().zip(placed) {
        sheet.line(
            vec![(far.0, *y), (far.0 + 150, label), (far.0 + 220, label)],
            GRAY,
            10,
        );
        let words = gray.fit(name, room - 300);
        sheet.text(&words, (far.0 + 270, label + SIZE * 36 / 100), gray);
    }
    let runs_out = |area: &Area| match case.kind {
        DetailKind::RoofEdge => area.bottom <= window.area.bottom,
        _ => area.top >= window.area.top,
    };
    let mut wall: Vec<(f64, &str)> = case
        .blocks
        .iter()
        .filter(|one| one.facts.part == Part::Wall && runs_out(&one.block.area))
        .map(|one| (one.block.area.left, one.block.name.as_str()))
        .collect();
    wall.sort_by(|a, b| a.0.total_cmp(&b.0));
    if !wall.is_empty() {
        let names: Vec<&str> = wall.iter().map(|(_, name)| *name).collect();
        let words = format!("wall, from outside: {}", names.join(" · "));
        let width = far.0 - window.corner.0 + room;
        let words = gray.fit(&words, width);
        sheet.text(&words, (window.corner.0, window.corner.1 - 130), gray);
    }
}

#[cfg(test)]
mod tests {
    use super::runs;

    #[test]
    fn a_line_is_drawn_where_the_condition_holds() {
        let found = runs(&[(0, 0), (1000, 0)], |(x, _)| {
            (200..400).contains(&x) || x >= 900
        });
        assert_eq!(found.len(), 2);
        assert!((found[0][0].0 - 200).abs() <= 6 && (found[0][1].0 - 400).abs() <= 6);
        assert_eq!(found[1][1], (1000, 0));
    }
}
