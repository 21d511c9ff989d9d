//! A detail: the cut to scale with its isotherms, the floor's curve, the numbers beside it.

mod changed;
mod cold;
mod comparison;
pub(super) mod corner;
mod curve;
mod dot_plot;
mod dots;
mod edge;
mod isotherm;
mod list;
pub(super) mod measure;
mod names;
mod shown;
mod solid;
mod window;

use super::legend::{Item, patch};
use super::place::DASHES;
use super::room::Room;
use super::scale::Scale;
use super::sheet::{Figure, HEAT, INK, MOISTURE, Point, Sheet, WET};
use super::title::{Frame, LETTER};
use crate::model::{Assembly, DetailCase, Project};
use crate::quantity::{Dimension, Style};
use crate::report::places::{self, PlaceRow};
use crate::solve::conduction::Field;
use crate::study::JudgedDetail;
use cold::Cold;
use isotherm::Leaves;
use shown::Shown;
use window::Window;

pub(super) use comparison::draw as compare;

/// Width of the list of places at the right.
const LIST: i32 = 10_300;
/// For the names of the floor's layers at the right of the drawing.
const NAMES: i32 = 2500;
/// For the wall's layers above the drawing.
const ABOVE: i32 = 680;
/// Height of the curve.
const CURVE: i32 = 3800;
/// Between the cut and its corner, and between the parts of the list.
const APART: (i32, i32) = (500, 200);
/// What dimensions take at the left and below, before it is known.
const AROUND: Point = (600, 1200);
/// The least height given to the drawing.
const LEAST: i32 = 9000;

/// What the sheet leaves out, so that no one looks for it.
pub(in crate::report) const LEFT_OUT: &str = "Not modeled: corners but those of floor and roof edges, the hitch end, bolts, \
                        wind in the pan, moving air. Framing in the layers is left out of the cut.";

/// Draws it.
pub(super) fn draw(project: &Project, one: &JudgedDetail<'_>, style: Style) -> Figure {
    let word = one.verdict.status.word();
    let frame = frame(project, one, style);
    let room = Room::within(&frame);
    let body = Body::new(one, style, room);
    let below = Room {
        top: room.top + body.height() + APART.0,
        height: LETTER.1,
        ..room
    };
    let corner = corner::Body::new(one, style, below);
    let taken = corner
        .as_ref()
        .map_or(0, |corner| APART.0 + corner.height());
    let size = room.sheet_height(body.height() + taken);
    let mut sheet = Sheet::new((LETTER.0, size));
    body.draw(&mut sheet, one, style);
    if let Some(corner) = &corner {
        corner.draw(&mut sheet, one, style);
    }
    let corner = corner.map(|corner| corner.scale());
    frame.draw(&mut sheet, size, &foot(one, body.scale(), corner));
    let title = format!("{}: {}", project.title, one.name());
    let words = [words(one, word, style), corner::in_words(one, style)];
    sheet.finish(&title, words.join(" ").trim_end())
}

/// What stands at the foot: the scale, and the layers that the drawing leaves out.
fn foot(one: &JudgedDetail<'_>, scale: Scale, corner: Option<Scale>) -> String {
    let mut foot = scale.foot_of("section");
    if let Some(corner) = corner.filter(|corner| *corner != scale) {
        foot = format!(
            "Scale of the section {}, of the corner {}",
            scale.words(),
            corner.words()
        );
    }
    match left_out(one) {
        words if words.is_empty() => foot,
        words => format!("{foot}. {words}"),
    }
}

/// `Not drawn: rain screen, siding.`; empty where nothing is left out.
pub(super) fn left_out(one: &JudgedDetail<'_>) -> String {
    match places::left_out(one.case).join(", ") {
        words if words.is_empty() => words,
        words => format!("Not drawn: {words}."),
    }
}

/// A detail in the room it is given.
pub(in crate::report) struct Body {
    room: Room,
    height: i32,
    window: Window,
}

impl Body {
    /// Lays out the cut, as much of it as fits beside the numbers.
    pub(in crate::report) fn new(one: &JudgedDetail<'_>, style: Style, room: Room) -> Self {
        let height = match room.strict {
            true => room.height,
            false => room.height.max(LEAST).max(beside_height(one, style)),
        };
        let window = placed(one, Room { height, ..room }, style);
        Self {
            room,
            height,
            window,
        }
    }

    /// The height it takes.
    pub(in crate::report) fn height(&self) -> i32 {
        self.height
    }

    /// Which numbers have no dot in the drawing, and where they are: `1, 7 at the outside corner.`
    pub(in crate::report) fn elsewhere(&self, one: &JudgedDetail<'_>) -> String {
        let rows = places::worst_of_each(&places::rows_of(one));
        let numbers = |of: &dyn Fn(&PlaceRow<'_>) -> bool| -> String {
            let numbers = rows.iter().filter(|row| of(row));
            let numbers: Vec<String> = numbers.map(|row| row.number.to_string()).collect();
            numbers.join(", ")
        };
        let corner = numbers(&|row| row.at.is_none());
        let beyond = numbers(&|row| row.at.is_some_and(|(x, y)| !self.window.shows(x, y)));
        let told = [
            (corner, "at the outside corner"),
            (beyond, "beyond this drawing"),
        ];
        let told = told.into_iter().filter(|(numbers, _)| !numbers.is_empty());
        let told: Vec<String> = told.map(|(n, place)| format!("{n} {place}.")).collect();
        told.join(" ")
    }

    /// The scale the cut is drawn to.
    pub(in crate::report) fn scale(&self) -> Scale {
        self.window.scale
    }

    /// Draws it.
    pub(in crate::report) fn draw(&self, sheet: &mut Sheet, one: &JudgedDetail<'_>, style: Style) {
        section(sheet, &self.window, one, style);
        if self.room.strict {
            return;
        }
        let (left, right) = (self.room.right() - LIST, self.room.right());
        let bottom = self.room.top + self.height - 100;
        let mut top = self.room.top;
        let places = list::height(one).min(bottom - top);
        let beside = ((left, top), (right, top + places));
        list::draw(sheet, beside, one, &self.window, style);
        top += places + APART.1;
        if let (Ok(result), true) = (one.result(), curve_height(one) > 0) {
            let mold = isotherm::mold_at(one, result);
            let chart = ((left, top), (right, top + CURVE));
            curve::draw(sheet, chart, one.case, result, mold, style);
            top += CURVE + APART.1;
        }
        list::draw_remarks(sheet, ((left, top), (right, bottom)), one, style);
    }
}

/// Height of what stands beside the drawing.
fn beside_height(one: &JudgedDetail<'_>, style: Style) -> i32 {
    let remarks = list::height_of_remarks(one, LIST, style);
    list::height(one) + APART.1 + curve_height(one) + remarks + 150
}

/// What the list takes of the width; on a packet's sheet they stand elsewhere.
fn beside(room: Room) -> i32 {
    if room.strict { 0 } else { LIST + 400 }
}

/// The curve of the floor's surface alone, in the room it is given.
pub(super) fn floor_curve(sheet: &mut Sheet, room: Room, one: &JudgedDetail<'_>, style: Style) {
    if let Ok(result) = one.result() {
        let mold = isotherm::mold_at(one, result);
        let chart = ((room.left, room.top), (room.right(), room.top + CURVE));
        curve::draw(sheet, chart, one.case, result, mold, style);
    }
}

/// Height of that curve; `None` where the cut has no floor or no result.
pub(super) fn floor_curve_height(one: &JudgedDetail<'_>) -> Option<i32> {
    let result = one.result().as_ref().ok()?;
    curve::has_floor(one.case, result).then_some(CURVE)
}

/// Width and height of what has to be shown of a cut, m.
pub(in crate::report) fn shown_of(case: &DetailCase) -> (f64, f64) {
    let core = window::core(case);
    (core.right - core.left, core.top - core.bottom)
}

fn curve_height(one: &JudgedDetail<'_>) -> i32 {
    floor_curve_height(one).map_or(0, |height| height + APART.1)
}

/// As much of the cut as fits beside the numbers, with its dimensions around it.
fn placed(one: &JudgedDetail<'_>, place: Room, style: Style) -> Window {
    let case = one.case;
    let shown = Shown::of(one);
    let window = |(left, below): Point, above: i32| {
        let room = (
            place.width - beside(place) - NAMES - left,
            place.height - ABOVE - above - below - 200,
        );
        let scale = shown::scale(&[shown], room, style.units, place.magnify);
        let corner = (place.left + left, place.top + ABOVE + above);
        Window::new(&shown, scale, corner, room)
    };
    // How much the dimensions take hangs on what is shown, and that on what they take.
    let mut found = window((AROUND.0, AROUND.1), 0);
    for _ in 0..2 {
        let (left, below) = measure::lanes(case, &found, style);
        let left = left + names::width(case, &found);
        found = window((left, below), measure::above(case, &found));
    }
    found
}

/// The section with all that is written on it.
fn section(sheet: &mut Sheet, window: &Window, one: &JudgedDetail<'_>, style: Style) {
    let case = one.case;
    let bounds = (window.corner, window.far());
    let result = one.result().as_ref().ok();
    let field = result.map(|result| Field::of(&result.conduction.solution));
    let solved = result.zip(field.as_ref());
    let cold = solved.map(|(result, field)| Cold::of(case, result, field));
    let over = solid::Over {
        cold: cold.as_ref(),
        changed: &[],
    };
    solid::blocks(sheet, window, case, over);
    let mut lines = Vec::new();
    let mut beside = Vec::new();
    if let Some((result, field)) = solved {
        let steps = isotherm::steps([result.air], style);
        lines.extend(isotherm::thin(sheet, window, field, &steps));
        lines.insert(0, isotherm::mold(sheet, window, one, result));
        let dew = isotherm::dew_point(sheet, window, field, result.room_dew_point);
        match isotherm::leaves(window, &dew) {
            Some(Leaves::Right(y)) => {
                beside.push((y, isotherm::DEW_POINT, isotherm::OF_DEW_POINT));
            }
            Some(Leaves::Bottom(x)) => isotherm::name_below(sheet, window, x),
            None => lines.insert(0, dew),
        }
    }
    solid::layers(sheet, window, case, NAMES, &beside);
    solid::airs(sheet, window, case);
    let dots = dots::of(&places::rows_of(one), window);
    let marks: Vec<Point> = dots.iter().map(|dot| dot.at).collect();
    names::draw(sheet, case, window, &marks);
    dots::draw(sheet, &dots, bounds);
    let rank = isotherm::from_the_middle(bounds);
    isotherm::label(sheet, &lines, bounds, &marks, rank);
    let lanes = (ABOVE, names::width(case, window), NAMES + 200);
    measure::draw(sheet, window, case, lanes, style);
}

fn frame(project: &Project, one: &JudgedDetail<'_>, style: Style) -> Frame {
    let word = one.verdict.status.word();
    let stop = match one.route().is_empty() {
        true => String::new(),
        false => format!("Worst stop: {}. ", one.stop().name),
    };
    let unit = Dimension::Temperature.unit(style);
    let lines = match one.result() {
        Ok(_) => format!("Isotherms in {unit}. "),
        Err(_) => String::new(),
    };
    let remark = format!("{stop}{lines}{LEFT_OUT}");
    let assemblies = assemblies(project, one);
    let name = one.name();
    let frame = Frame::new(project, one.stop(), &name, word, &remark, assemblies, style);
    let frame = frame.with_legend(LEGEND);
    match one.result() {
        Ok(result) => frame.with_dew_point(result.room_dew_point, style),
        Err(_) => frame,
    }
}

/// What the detail was drawn from, under the same variant where that changes it.
pub(in crate::report) fn assemblies<'a>(
    project: &'a Project,
    one: &JudgedDetail<'_>,
) -> Vec<&'a Assembly> {
    let of = |name: &str| {
        let named = || project.cases.iter().filter(|c| c.assembly.name == name);
        let same = named().find(|case| case.variant == one.case.variant);
        same.or_else(|| named().next()).map(|case| &case.assembly)
    };
    let references = one.case.references.iter();
    references.filter_map(|one| of(&one.assembly)).collect()
}

/// The plot in words.
pub(in crate::report) fn words(one: &JudgedDetail<'_>, word: &str, style: Style) -> String {
    let Ok(result) = one.result() else {
        return format!("Section to scale. Verdict: {word}. It couldn't be solved.");
    };
    let rows = places::worst_of_each(&places::rows_of(one));
    let each: Vec<String> = rows.iter().map(|row| list::in_words(row, style)).collect();
    let dew = style.show(result.room_dew_point);
    let settled = match one.settled() {
        true => String::new(),
        false => format!(" {}", list::UNSETTLED),
    };
    format!(
        "Section to scale with isotherms on the winter mean; room air condenses below {dew}. Verdict: \
         {word}.{settled} {}",
        each.join(" ")
    )
}

pub(in crate::report) const LEGEND: &[Item] = &[
    ("isotherm", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], HEAT, 14);
    }),
    ("dew point of the room air", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], DASHES, MOISTURE, 55);
    }),
    ("wet if room air gets in", |sheet, at| {
        sheet.polygon(patch(at).to_vec(), WET);
    }),
    (
        "a surface this cold stands at 80 %: mold (film 0.25 m²K/W inside)",
        |sheet, (x, y)| {
            sheet.dashes(&[(x, y), (x + 900, y)], isotherm::DOTS, INK, 26);
        },
    ),
    ("judged place: fails", dots::FAILS),
    dots::DEPENDS,
    dots::PASSES,
];

#[cfg(test)]
mod tests;
