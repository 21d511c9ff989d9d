//! A detail: the cut to scale with its isotherms, the floor's curve, the numbers beside it.

mod callout;
mod comparison;
pub(super) mod corner;
mod curve;
mod isotherm;
pub(super) mod measure;
mod numbers;
mod solid;
mod window;

use super::hatch;
use super::legend::{Item, patch};
use super::place::DASHES;
use super::room::Room;
use super::scale::Scale;
use super::sheet::{Figure, HEAT, INK, MOISTURE, Point, Sheet};
use super::title::{Frame, LETTER};
use crate::model::{Assembly, DetailCase, Project};
use crate::quantity::{Dimension, Style, TemperatureDifference};
use crate::solve::conduction::Field;
use crate::study::JudgedDetail;
use window::Window;

pub(super) use comparison::draw as compare;

/// Width of the numbers at the right.
const NUMBERS: i32 = 10_300;
/// For the names of the floor's layers at the right of the drawing.
const NAMES: i32 = 2300;
/// For the wall's layers above the drawing.
const ABOVE: i32 = 550;
/// Height of the curve.
const CURVE: i32 = 4700;
/// Between the cut and its corner.
const APART: i32 = 500;
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
        top: room.top + body.height() + APART,
        height: LETTER.1,
        ..room
    };
    let corner = corner::Body::new(one, style, below);
    let taken = corner.as_ref().map_or(0, |corner| APART + corner.height());
    let size = room.sheet_height(body.height() + taken);
    let mut sheet = Sheet::new((LETTER.0, size));
    body.draw(&mut sheet, one, style);
    if let Some(corner) = &corner {
        corner.draw(&mut sheet, one, style);
    }
    let foot = body.window.scale.foot_of("section");
    let foot = match corner.map(|corner| corner.scale()) {
        Some(scale) if scale != body.window.scale => {
            format!("{foot}; of the corner {}", scale.words())
        }
        _ => foot,
    };
    frame.draw(&mut sheet, size, &foot);
    let title = format!("{}: {}", project.title, one.name());
    let words = [words(one, word, style), corner::in_words(one, style)];
    sheet.finish(&title, words.join(" ").trim_end())
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
        let numbers = curve_height(one) + numbers::height(one, NUMBERS, style) + 150;
        let height = match room.strict {
            true => room.height,
            false => room.height.max(LEAST).max(numbers),
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

    /// The scale the cut is drawn to.
    pub(in crate::report) fn scale(&self) -> Scale {
        self.window.scale
    }

    /// Draws it.
    pub(in crate::report) fn draw(&self, sheet: &mut Sheet, one: &JudgedDetail<'_>, style: Style) {
        let few = self.room.strict && self.window.scale.is_small();
        section(sheet, &self.window, one, few, style);
        if self.room.strict {
            return;
        }
        let (left, right) = (self.room.right() - NUMBERS, self.room.right());
        let top = self.room.top;
        if let Ok(result) = one.result() {
            let mold = isotherm::mold_at(one, result);
            let chart = ((left, top), (right, top + CURVE));
            curve::draw(sheet, chart, one.case, result, mold, style);
        }
        let beside = (
            (left, top + curve_height(one)),
            (right, top + self.height - 100),
        );
        numbers::draw(sheet, beside, one, style);
    }
}

/// What the curve and the numbers take of the width; on a packet's sheet they stand elsewhere.
fn beside(room: Room) -> i32 {
    if room.strict { 0 } else { NUMBERS + 400 }
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
    if one.result().is_ok() { CURVE + 250 } else { 0 }
}

/// As much of the cut as fits beside the numbers, with its dimensions around it.
fn placed(one: &JudgedDetail<'_>, place: Room, style: Style) -> Window {
    let case = one.case;
    let core = [window::core(case)];
    let window = |(left, below): Point, above: i32| {
        let room = (
            place.width - beside(place) - NAMES - left,
            place.height - ABOVE - above - below - 200,
        );
        let scale = window::scale(&core, room, style.units, place.magnify);
        let corner = (place.left + left, place.top + ABOVE + above);
        Window::new(case, scale, corner, room)
    };
    // How much the dimensions take hangs on what is shown, and that on what they take.
    let first = window((3500, 2000), 0);
    let above = measure::above(case, &first);
    window(measure::lanes(case, &first, style), above)
}

/// The section with all that is written on it.
///
/// Where it is small only `few` places are called out: the others stand in a table.
fn section(sheet: &mut Sheet, window: &Window, one: &JudgedDetail<'_>, few: bool, style: Style) {
    let case = one.case;
    solid::blocks(sheet, window, case);
    solid::layers(sheet, window, case, NAMES);
    solid::airs(sheet, window, case);
    measure::draw(sheet, window, case, (ABOVE, NAMES + 200), style);
    let mut named: Vec<&str> = Vec::new();
    let mut callouts = Vec::new();
    let mut lines = Vec::new();
    if let Ok(result) = one.result() {
        let field = Field::of(&result.conduction.solution);
        solid::cold(sheet, window, result, &field);
        let steps = isotherm::steps([result.air], style);
        let thin = isotherm::thin(sheet, window, &field, &steps);
        lines = isotherm::limits(sheet, window, &field, one, result);
        lines.extend(thin);
        let spots = callout::spots(result);
        named.extend(spots.iter().map(|spot| spot.name));
        let deciding = one.here().verdict.findings.first();
        let deciding = deciding.and_then(|finding| finding.place.as_ref());
        let told = |name: &str| {
            let surface = result
                .surfaces
                .first()
                .is_some_and(|first| first.name == name);
            !few || surface || deciding.is_some_and(|place| place.path == name)
        };
        callouts = callout::of_spots(result, window, told, style);
    }
    let parts = callout::of_parts(sheet, case, window, &named);
    let room = callout::Room::new(window, case);
    for callout in callouts.iter().chain(&parts) {
        callout.draw(sheet, &room);
    }
    let marks: Vec<Point> = callouts.iter().map(callout::Callout::at).collect();
    isotherm::label(sheet, &lines, (window.corner, window.far()), 2, &marks);
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
    let spots = callout::spots(result);
    let each = spots.iter().map(|spot| {
        let dew = result.room_dew_point.as_celsius();
        let margin = spot.coldest.point.temperature - dew;
        format!(
            "{}: {}, {} to the dew point of the room air.",
            spot.name,
            callout::with_bar(spot.coldest, style),
            style.margin(TemperatureDifference::from_kelvin(margin))
        )
    });
    let each: Vec<String> = each.collect();
    let settled = match one.settled() {
        true => String::new(),
        false => format!(" {}", numbers::UNSETTLED),
    };
    format!(
        "Section to scale with isotherms on the winter mean. Verdict: {word}.{settled} {}",
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
    ("colder, and leaking air gets there: wet", |sheet, at| {
        hatch::wet(sheet, &patch(at));
    }),
    ("colder, out of its reach", |sheet, at| {
        for line in hatch::parallel(&patch(at), (45.0, 330.0, 60.0)) {
            sheet.line(line, MOISTURE, 10);
        }
    }),
    (
        "a surface this cold stands at 80 %: mold (film 0.25 m²K/W inside)",
        |sheet, (x, y)| {
            sheet.dashes(&[(x, y), (x + 900, y)], isotherm::DOTS, INK, 26);
        },
    ),
    ("coldest place, ± its error bar", |sheet, (x, y)| {
        sheet.ring((x + 450, y), 70, HEAT, 36);
    }),
];
