//! What a cut is made of: blocks with restrained hatches, what is cold in them, the airs.

use super::super::hatch::{self, Hatch};
use super::super::place::spread;
use super::super::sheet::{CHANGED, GRAY, INK, LINE, Lettering, PAPER, Point, SIZE, Sheet};
use super::cold::Cold;
use super::edge;
use super::window::Window;
use crate::material::Kind;
use crate::model::detail::Area;
use crate::model::drawn::{AirSource, CaseBlock, DetailCase, DetailKind, Part};

/// No block is drawn thinner than this.
const THINNEST: i32 = 30;
/// The outline of what an option changed.
pub(super) const HEAVY: u32 = 60;

/// What lies on blocks beside their hatching.
#[derive(Clone, Copy, Default)]
pub(super) struct Over<'a> {
    /// What is wet of them, tinted.
    pub(super) cold: Option<&'a Cold<'a>>,
    /// By block, whether an option changed it; none where nothing is compared.
    pub(super) changed: &'a [bool],
}

/// Blocks in drawing order, later ones on top, then the edge of what is shown.
pub(super) fn blocks(sheet: &Sheet, window: &Window, case: &DetailCase, over: Over<'_>) {
    let is_changed = |n: usize| over.changed.get(n).copied().unwrap_or(false);
    let shown = case.blocks.iter().enumerate();
    let shown = shown.filter_map(|(n, one)| Some((n, one, window.rectangle(&one.block.area)?)));
    let shown: Vec<_> = shown.collect();
    for (n, one, (from, to)) in &shown {
        block(sheet, one, (*from, *to), |sheet| match over.cold {
            _ if is_changed(*n) => sheet.fill(*from, *to, CHANGED),
            Some(cold) => cold.tint(sheet, window, *n, (*from, *to)),
            None => {}
        });
    }
    for (_, _, (from, to)) in shown.iter().filter(|(n, ..)| is_changed(*n)) {
        sheet.outline(*from, *to, INK, HEAVY);
    }
    edge::draw(sheet, window, case);
}

/// A block in a rectangle; `under` draws what lies under its hatching.
pub(super) fn block(
    sheet: &Sheet,
    one: &CaseBlock,
    (from, to): (Point, Point),
    under: impl FnOnce(&Sheet),
) {
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
    under(sheet);
    let stands = height > width;
    match (one.facts.part, one.facts.kind) {
        (Part::Plate | Part::RimJoist, _) => hatch::fill(sheet, Hatch::Member, from, to, false),
        (_, Some(Kind::Foam)) => hatch::sparse(sheet, from, to),
        (_, Some(Kind::Lining)) => {}
        (_, kind) => hatch::fill(sheet, Hatch::Kind(kind), from, to, stands),
    }
    sheet.outline(from, to, INK, 16);
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

/// Words at the right of the drawing, on the height where they belong.
type Beside<'a> = (i32, &'a str, Lettering);

/// The layers that run out of the drawing: the floor's or the roof's at its right, where `lines` are named
/// too, the wall's above it or below.
pub(super) fn layers(
    sheet: &mut Sheet,
    window: &Window,
    case: &DetailCase,
    room: i32,
    lines: &[Beside<'_>],
) {
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
        Some((i32::midpoint(from.1, to.1), one.block.name.as_str(), gray))
    });
    let mut floor: Vec<Beside<'_>> = shown.chain(lines.iter().copied()).collect();
    floor.sort_by_key(|(y, ..)| *y);
    // Names that would leave the drawing's height are left out.
    let most = usize::try_from((far.1 - window.corner.1) / LINE).unwrap_or(0);
    floor.truncate(most);
    let wanted: Vec<i32> = floor.iter().map(|(y, ..)| *y).collect();
    let placed = spread(&wanted, LINE, (window.corner.1 + 200, far.1 - 200));
    for ((y, name, set), label) in floor.iter().zip(placed) {
        sheet.line(
            vec![(far.0, *y), (far.0 + 150, label), (far.0 + 220, label)],
            GRAY,
            10,
        );
        let words = set.fit(name, room - 300);
        sheet.text(&words, (far.0 + 270, label + SIZE * 36 / 100), *set);
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
        sheet.text(&words, (window.corner.0, window.corner.1 - 290), gray);
    }
}
