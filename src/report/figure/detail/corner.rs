//! The outside corner of a floor edge: plan and section through its coldest wood.
//!
//! What lies at a place hangs on the smaller distance from the two outer faces, and on height: so both
//! views are made of the cut's own blocks. In plan the members of one wall run through and those of the
//! other butt against them, as they are built; the mitre that is computed is the same but there.

use super::window::{self, Window};
use super::{dots, isotherm, solid};
use crate::check::Status;
use crate::model::detail::Area;
use crate::model::drawn::{CaseBlock, DetailCase, DetailKind, Part};
use crate::quantity::{Style, Temperature};
use crate::report::figure::room::Room;
use crate::report::figure::scale::Scale;
use crate::report::figure::sheet::{GRAY, LINE, Lettering, Point, SIZE, Sheet};
use crate::report::places::rows_of;
use crate::solve::detail::{Corner, CornerSlice, CornerSlices, CornerSpot, DetailResult};
use crate::study::JudgedDetail;

/// Between the two views.
const BETWEEN: i32 = 900;
/// For the words above a view.
const TITLE: i32 = LINE + 120;
/// Above and under what stands under the views.
const APART: i32 = 250;
/// The most a view takes of the height.
const HIGHEST: i32 = 12_000;

/// Both views laid out.
pub(in crate::report::figure) struct Body {
    plan: Window,
    section: Window,
    /// What stands above them.
    titles: [String; 2],
    /// Where the numbers stand.
    words: Point,
    height: i32,
}

/// What a corner was solved to, where it was, and can be drawn.
fn solved<'a>(
    one: &'a JudgedDetail<'_>,
) -> Option<(&'a DetailResult, &'a Corner, &'a CornerSlices)> {
    let result = one.result().as_ref().ok()?;
    let corner = result.corner.as_ref()?.as_ref().ok()?;
    Some((result, corner, corner.slices.as_ref()?))
}

impl Body {
    /// `None` where no corner was solved.
    pub(in crate::report::figure) fn new(
        one: &JudgedDetail<'_>,
        style: Style,
        room: Room,
    ) -> Option<Self> {
        let (_, corner, _) = solved(one)?;
        let (plan, section) = areas(one.case);
        let spots = spots(one, corner);
        let titles = titles(&spots);
        let told = lines_of(corner, &spots, style);
        let lines = i32::try_from(told.len()).unwrap_or(0) + 1;
        let under = APART + LINE * lines + APART;
        let free = (
            (room.width - BETWEEN) / 2,
            HIGHEST.min(room.height - TITLE - under),
        );
        let scale = window::scale(&[plan, section], free, style.units, room.magnify);
        let window = |area: Area, left: i32| Window {
            area,
            scale,
            corner: (left, room.top + TITLE),
        };
        let plan = window(plan, room.left);
        let named = |words: &str, view: &Window| {
            view.far()
                .0
                .max(view.corner.0 + Lettering::PLAIN.bold().width(words))
        };
        let section = window(section, named(&titles[0], &plan) + BETWEEN);
        let lowest = plan.far().1.max(section.far().1);
        // The numbers stand beside the views where there is room for them.
        let beside = named(&titles[1], &section) + BETWEEN;
        let widest = told.iter().map(|line| Lettering::PLAIN.width(line)).max();
        let words = match room.right() - beside >= widest.unwrap_or(0) {
            true => (beside, section.corner.1),
            false => (room.left, lowest + APART),
        };
        Some(Self {
            plan,
            section,
            titles,
            words,
            height: lowest.max(words.1 + LINE * lines) + APART - room.top,
        })
    }

    pub(in crate::report::figure) fn height(&self) -> i32 {
        self.height
    }

    pub(in crate::report::figure) fn scale(&self) -> Scale {
        self.plan.scale
    }

    pub(in crate::report::figure) fn draw(
        &self,
        sheet: &mut Sheet,
        one: &JudgedDetail<'_>,
        style: Style,
    ) {
        let Some((result, corner, slices)) = solved(one) else {
            return;
        };
        let case = one.case;
        let (plan, section) = (&slices.plan, &slices.section);
        for block in &case.blocks {
            for area in in_plan(&block.block.area, plan.at, &self.plan.area) {
                placed(sheet, &self.plan, block, &area);
            }
            if let Some(area) = in_section(&block.block.area, section.at, &self.section.area) {
                placed(sheet, &self.section, block, &area);
            }
        }
        self.draw_post(sheet, case, (plan.at, section.at));
        let spots = spots(one, corner);
        let at_plan = |spot: &CornerSpot| (spot.at[0], spot.at[1]);
        let at_section = |spot: &CornerSpot| (spot.at[0], spot.at[2]);
        lines(sheet, &self.plan, (plan, result), &spots, at_plan, style);
        lines(
            sheet,
            &self.section,
            (section, result),
            &spots,
            at_section,
            style,
        );
        self.tell(sheet, case, &lines_of(corner, &spots, style));
    }

    /// The post where two walls meet under a roof, in whichever view cuts it.
    fn draw_post(&self, sheet: &Sheet, case: &DetailCase, (height, inward): (f64, f64)) {
        let mut plates = case.blocks_of(Part::Plate);
        let Some((post, wood)) = case.corner_post().zip(plates.next()) else {
            return;
        };
        if (post.bottom..=post.top).contains(&height) {
            let square = Area::new(post.left, post.right, post.left, post.right);
            placed(sheet, &self.plan, wood, &square);
        }
        if (post.left..=post.right).contains(&inward) {
            let upright = Area::new(post.left, post.right, post.bottom, post.top);
            placed(sheet, &self.section, wood, &upright);
        }
    }

    /// What the views are, and the places by their numbers.
    fn tell(&self, sheet: &mut Sheet, case: &DetailCase, places: &[String]) {
        let bold = Lettering::PLAIN.bold();
        let base = self.plan.corner.1 - TITLE + SIZE;
        for (words, view) in self.titles.iter().zip([&self.plan, &self.section]) {
            sheet.text(words, (view.corner.0, base), bold);
        }
        let (left, mut y) = (self.words.0, self.words.1 + SIZE);
        let gray = Lettering::PLAIN.color(GRAY);
        let outside = match case.kind {
            DetailKind::RoofEdge => "Outer corner at the left",
            _ => "Outer corner at the lower left",
        };
        sheet.text(outside, (left, y), gray);
        for place in places {
            y += LINE;
            sheet.text(place, (left, y), Lettering::PLAIN);
        }
    }
}

/// A place at the corner with its number among all places of the detail, and how it came out.
#[derive(Clone, Copy)]
struct Numbered<'a> {
    number: usize,
    status: Status,
    spot: &'a CornerSpot,
}

/// The wood, then the surfaces, of each the coldest first: the views pass through the first of all.
fn spots<'a>(one: &JudgedDetail<'_>, corner: &'a Corner) -> Vec<Numbered<'a>> {
    let mut wood: Vec<&CornerSpot> = corner.wood.iter().collect();
    let surfaces = corner.surfaces.iter().chain(&corner.between_walls);
    let mut surfaces: Vec<&CornerSpot> = surfaces.collect();
    for spots in [&mut wood, &mut surfaces] {
        spots.sort_by(|a, b| a.temperature.total_cmp(&b.temperature));
    }
    wood.append(&mut surfaces);
    let rows = rows_of(one);
    let numbered = wood.into_iter().filter_map(|spot| {
        let row = rows.iter().find(|row| row.name == spot.name)?;
        Some(Numbered {
            number: row.number,
            status: row.finding.status,
            spot,
        })
    });
    numbered.collect()
}

/// What stands above the views.
fn titles(spots: &[Numbered<'_>]) -> [String; 2] {
    let through = spots.first().map_or(0, |first| first.number);
    ["Corner in plan", "Section"].map(|view| format!("{view}, through {through}"))
}

/// The places by their numbers, a line each.
fn lines_of(corner: &Corner, spots: &[Numbered<'_>], style: Style) -> Vec<String> {
    let line = |one: &Numbered<'_>| format!("{}  {}", one.number, told(corner, one.spot, style));
    spots.iter().map(line).collect()
}

/// A place with its temperature; surfaces are judged with more resistance than the lines are drawn with.
fn told(corner: &Corner, spot: &CornerSpot, style: Style) -> String {
    let mut surfaces = corner.surfaces.iter().chain(&corner.between_walls);
    let is_surface = surfaces.any(|one| one.name == spot.name);
    let film = if is_surface { ", film 0.25" } else { "" };
    let value = Temperature::from_celsius(spot.temperature);
    let value = style.temperature_with_bar(value, spot.bar);
    format!("{} {value}{film}", spot.name)
}

/// What is shown of the plan and of the section, m.
fn areas(case: &DetailCase) -> (Area, Area) {
    let core = window::core(case);
    let areas = case.blocks.iter().map(|one| one.block.area);
    let left = areas.clone().map(|area| area.left);
    let left = left.fold(core.right, f64::min).max(core.left);
    let bottom = areas.map(|area| area.bottom);
    let bottom = bottom.fold(core.top, f64::min).max(core.bottom);
    let plan = Area::new(left, core.right, left, core.right);
    (plan, Area::new(left, core.right, bottom, core.top))
}

/// A block of the cut in plan: what runs along the one wall, then what butts against it along the other.
fn in_plan(block: &Area, height: f64, shown: &Area) -> Vec<Area> {
    if !(block.bottom..=block.top).contains(&height) {
        return Vec::new();
    }
    let far = shown.right;
    let mut areas = vec![Area::new(block.left, far, block.left, block.right.min(far))];
    if block.right < far {
        areas.push(Area::new(block.left, block.right, block.right, far));
    }
    areas.retain(|area| area.left < far && area.bottom < far);
    areas
}

/// A block of the cut in a section along the other wall, so far in from its outer face.
fn in_section(block: &Area, inward: f64, shown: &Area) -> Option<Area> {
    let reaches = (block.left..=block.right).contains(&inward);
    let right = match reaches {
        true => shown.right,
        false => block.right,
    };
    (block.left <= inward).then(|| Area::new(block.left, right, block.bottom, block.top))
}

fn placed(sheet: &Sheet, window: &Window, block: &CaseBlock, area: &Area) {
    if let Some((from, to)) = window.rectangle(area) {
        solid::block(sheet, block, (from, to), |_| {});
    }
}

/// Isotherms, the dew point and the numbered places of a view.
fn lines(
    sheet: &mut Sheet,
    window: &Window,
    (slice, result): (&CornerSlice, &DetailResult),
    spots: &[Numbered<'_>],
    at: impl Fn(&CornerSpot) -> (f64, f64),
    style: Style,
) {
    let steps = isotherm::steps([result.air], style);
    let thin = isotherm::thin(sheet, window, &slice.field, &steps);
    let dew = isotherm::dew_point(sheet, window, &slice.field, result.room_dew_point);
    let mut marks: Vec<Point> = Vec::new();
    for one in spots {
        let (x, y) = at(one.spot);
        if !window.shows(x, y) {
            continue;
        }
        let place = window.point(x, y);
        // Places that fall on one another in this view stand side by side.
        let mut center = place;
        while marks.iter().any(|mark| near(*mark, center)) {
            center.0 += 2 * dots::RADIUS + 40;
        }
        dots::disc(sheet, center, one.number, one.status);
        marks.push(center);
    }
    let mut named = vec![dew];
    named.extend(thin);
    let bounds = (window.corner, window.far());
    let rank = isotherm::from_the_middle(bounds);
    isotherm::label(sheet, &named, bounds, &marks, rank);
}

fn near(one: Point, other: Point) -> bool {
    (one.0 - other.0).abs().max((one.1 - other.1).abs()) < 2 * dots::RADIUS + 40
}

/// The figure in words.
pub(in crate::report::figure) fn in_words(one: &JudgedDetail<'_>, style: Style) -> String {
    let Some((_, corner, _)) = solved(one) else {
        return String::new();
    };
    let each = spots(one, corner).into_iter();
    let each = each.map(|one| format!("{}, {}.", one.number, told(corner, one.spot, style)));
    let each: Vec<String> = each.collect();
    format!(
        "Plan and section through the outside corner, with isotherms on the winter mean and the dew point \
         of the room air as a line. {}",
        each.join(" ")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHOWN: fn() -> Area = || Area::new(0.0, 1.0, 0.0, 1.0);

    /// A member runs on along one wall and butts along the other; a board that goes on inward is one
    /// rectangle; what lies above or below isn't seen.
    #[test]
    fn a_plan_is_made_of_the_cuts_blocks() {
        let plate = Area::new(0.1, 0.3, 0.5, 0.6);
        let found = in_plan(&plate, 0.55, &SHOWN());
        assert_eq!(
            found,
            [Area::new(0.1, 1.0, 0.1, 0.3), Area::new(0.1, 0.3, 0.3, 1.0)]
        );
        let size = |area: &Area| (area.right - area.left) * (area.top - area.bottom);
        let covered: f64 = found.iter().map(size).sum();
        // The square from 0.1 on, less that from 0.3 on.
        assert!((covered - (0.9 * 0.9 - 0.7 * 0.7)).abs() < 1e-12);
        let floor = Area::new(0.2, 5.0, 0.5, 0.6);
        assert_eq!(
            in_plan(&floor, 0.55, &SHOWN()),
            [Area::new(0.2, 1.0, 0.2, 1.0)]
        );
        assert!(in_plan(&floor, 0.7, &SHOWN()).is_empty());
    }

    /// What is cut lengthwise runs on; what lies further out keeps its width; what lies further in isn't
    /// there yet.
    #[test]
    fn a_section_is_made_of_the_cuts_blocks() {
        let block = |left, right| Area::new(left, right, 0.5, 0.6);
        let seen = |left, right| in_section(&block(left, right), 0.2, &SHOWN());
        assert_eq!(seen(0.1, 0.3), Some(block(0.1, 1.0)));
        assert_eq!(seen(0.0, 0.1), Some(block(0.0, 0.1)));
        assert_eq!(seen(0.3, 0.4), None);
    }
}
