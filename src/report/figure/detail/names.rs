//! The names of a cut's parts: on them where they fit, else out at the left, through air alone.

use super::super::sheet::{GRAY, INK, Lettering, PAPER, Point, SIZE, Sheet};
use super::window::Window;
use crate::model::drawn::{CaseBlock, DetailCase, Part};

/// Between a part and its name beside it.
const GAP: i32 = 260;
/// The widest a name beside the drawing gets.
const WIDEST: i32 = 3400;

/// What one name is set in.
fn set() -> Lettering {
    Lettering::PLAIN.color(GRAY)
}

/// The width that names take at the left of the drawing.
pub(super) fn width(case: &DetailCase, window: &Window) -> i32 {
    let outside = named(case).filter_map(|one| {
        let (from, _) = window.rectangle(&one.block.area)?;
        let name = one.block.name.as_str();
        let takes = set().width(name).min(WIDEST) + GAP + 100;
        let outside = places_on(window, one).is_empty()
            && opens_left(case, one)
            && from.0 - window.corner.0 < takes;
        outside.then_some(takes)
    });
    outside.max().unwrap_or(0)
}

/// Draws them, off the given marks.
pub(super) fn draw(sheet: &mut Sheet, case: &DetailCase, window: &Window, marks: &[Point]) {
    for one in named(case) {
        let Some((from, to)) = window.rectangle(&one.block.area) else {
            continue;
        };
        let name = one.block.name.as_str();
        let is_free = |base: &Point| {
            let [left, top, right, bottom] = Sheet::would_take(name, *base, set().centered());
            let near = |(x, y): &Point| {
                (left - 160..=right + 160).contains(x) && (top - 160..=bottom + 160).contains(y)
            };
            sheet.is_free([left, top, right, bottom]) && !marks.iter().any(near)
        };
        if let Some(base) = places_on(window, one).into_iter().find(is_free) {
            let [left, top, right, _] = Sheet::would_take(name, base, set().centered());
            sheet.fill((left - 30, top - 25), (right + 30, base.1 + 25), PAPER);
            sheet.text(name, base, set().centered());
        } else if opens_left(case, one) {
            at_left(sheet, window, name, (from.0, i32::midpoint(from.1, to.1)));
        }
    }
}

fn at_left(sheet: &mut Sheet, window: &Window, name: &str, at: Point) {
    let inside = at.0 - window.corner.0 >= set().width(name) + GAP + 100;
    let end = if inside { at.0 } else { window.corner.0 } - GAP;
    let words = set().fit(name, WIDEST);
    let base = (end, at.1 + SIZE * 36 / 100);
    if sheet.is_free(Sheet::would_take(&words, base, set().right())) {
        sheet.line(vec![(end + 60, at.1), at], INK, 12);
        sheet.text(&words, base, set().right());
    }
}

/// Layers are named where they leave the drawing; air shut in needs no name.
fn named(case: &DetailCase) -> impl Iterator<Item = &CaseBlock> {
    use Part::{Cavity, Floor, Pan, Roof, Wall};
    let unnamed = |part: Part| matches!(part, Cavity | Floor | Pan | Roof | Wall);
    let blocks = case.blocks.iter();
    blocks.filter(move |one| !unnamed(one.facts.part))
}

/// Where on a part its name fits, its middle first.
fn places_on(window: &Window, one: &CaseBlock) -> Vec<Point> {
    let Some((from, to)) = window.rectangle(&one.block.area) else {
        return Vec::new();
    };
    let shares = [50, 30, 70, 15, 85];
    let places = shares.into_iter().flat_map(|down| {
        let y = from.1 + (to.1 - from.1) * down / 100 + SIZE * 36 / 100;
        shares.map(|right| (from.0 + (to.0 - from.0) * right / 100, y))
    });
    let fits = |base: &Point| {
        let [left, top, right, bottom] =
            Sheet::would_take(&one.block.name, *base, set().centered());
        left > from.0 + 100 && right < to.0 - 100 && top > from.1 + 60 && bottom < to.1 - 60
    };
    places.filter(fits).collect()
}

/// Whether nothing solid lies at the left of a part on the height of its middle.
fn opens_left(case: &DetailCase, one: &CaseBlock) -> bool {
    let area = &one.block.area;
    let middle = 0.5 * (area.bottom + area.top);
    case.blocks.iter().all(|other| {
        let other = &other.block.area;
        other.left >= area.left || !(other.bottom..=other.top).contains(&middle)
    })
}
