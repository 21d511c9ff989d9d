//! Twelve small profiles: vapor pressure against saturation through the path that decides.

use super::cut::{Cell, Cut};
use super::hatch;
use super::legend::{Item, patch};
use super::lettering::wrap;
use super::month::{AIR, Drawn};
use super::place::DASHES;
use super::scale::Scale;
use super::schedule::{layer_words, swatch};
use super::sheet::{Figure, GRAY, HEAT, INK, LINE, Lettering, MOISTURE, SIZE, Sheet};
use super::title::{EDGE, Frame, LETTER, WIDTH};
use super::water::{Told, finite, first_month, year_finding};
use crate::model::{MonthState, Project, Stop};
use crate::quantity::{Dimension, Length, Pressure, Style, month_name};
use crate::solve::year::{Month, Year};
use crate::study::Judged;

/// Months beside each other.
const ACROSS: i32 = 4;
/// Where the first column's charts begin, and where the last one's end.
const GRID: (i32, i32) = (EDGE + 1350, EDGE + 18_900);
/// Between charts, across and down.
const GAPS: (i32, i32) = (420, 480);
/// Where the key begins.
const KEY: i32 = EDGE + 19_500;
/// The least height of a month.
const LEAST: i32 = 4000;
/// Draws it; `None` without a climate.
pub(super) fn draw(project: &Project, one: &Judged<'_>, style: Style) -> Option<Figure> {
    let months = one.stop().conditions.year.as_ref()?;
    let told = Told::of(one);
    let path = told.path(one)?;
    let year = path.year.as_ref()?;
    let name = one.case.name();
    let conditions = format!(
        "{} Each month is drawn at the same scale.",
        conditions_words(one.stop(), months, style)
    );
    let subject = format!("{name}, by month");
    let word = one.verdict.status.word();
    let frame = Frame::about(project, &subject, word, &conditions, [&one.case.assembly])
        .with_legend(LEGEND);
    let cut = Cut::new(one, path);
    let counted = path.path.pieces.len();
    let thickness = |cells: &[Cell]| cells.iter().map(|cell| cell.thickness.as_m()).sum::<f64>();
    let all = Length::from_m(thickness(&cut.cells[..counted]));
    let width = (GRID.1 - GRID.0 - (ACROSS - 1) * GAPS.0) / ACROSS;
    let scale = Scale::largest(all, width - 2 * AIR, style.units, 1.0);
    let at = |n: usize| {
        scale
            .on_paper(Length::from_m(thickness(&cut.cells[..n])))
            .round() as i32
    };
    let drawn = Drawn {
        planes: (0..=counted).map(at).collect(),
        year,
        told,
        pressures: (0.0, greatest(year, style)),
        cut,
    };
    let key = key_lines(one, &drawn, style);
    let count = i32::try_from(key.len() + counted).unwrap_or(1000);
    let free = (LETTER.1 - frame.top() - frame.bottom()).max((count + 4) * LINE);
    let row = (free / 3).max(LEAST);
    let height = LETTER.1.max(frame.top() + 3 * row + frame.bottom());
    let mut sheet = Sheet::new((LETTER.0, height));
    let start = first_month(year, months);
    for place in 0..12_i32 {
        let left = GRID.0 + (place % ACROSS) * (width + GAPS.0);
        let top = frame.top() + (place / ACROSS) * row;
        let month = (start + usize::try_from(place).unwrap_or(0)) % 12;
        let corners = ((left, top), (left + width, top + row - GAPS.1));
        drawn.month(&mut sheet, corners, month, place % ACROSS == 0, style);
    }
    drawn.key(&mut sheet, frame.top() + 300, &key, style);
    frame.draw(&mut sheet, height, &scale.foot());
    let title = format!("{}: {subject}", project.title);
    Some(sheet.finish(&title, &drawn.in_words(style)))
}

/// `Drawn for the twelve monthly means of wet-coast (invented, built in). …`.
fn conditions_words(stop: &Stop, months: &[MonthState; 12], style: Style) -> String {
    let climate = match stop.name.is_empty() {
        true => "the climate given".to_owned(),
        false => format!("{} ({})", stop.name, stop.origin),
    };
    let celsius = |n: &usize| months[*n].outdoor.temperature.as_celsius();
    let all = 0..12_usize;
    let coldest = all
        .clone()
        .min_by(|a, b| celsius(a).total_cmp(&celsius(b)))
        .unwrap_or(0);
    let warmest = all
        .max_by(|a, b| celsius(a).total_cmp(&celsius(b)))
        .unwrap_or(0);
    let air = |month: usize| {
        let state = &months[month];
        format!(
            "{}: outdoors {} at {}, room {} at {}",
            month_name(month),
            style.show(state.outdoor.temperature),
            style.show(state.outdoor.humidity),
            style.show(state.indoor.temperature),
            style.show(state.indoor.humidity),
        )
    };
    format!(
        "Drawn for the twelve monthly means of {climate}. {}. {}. By diffusion alone, repeated until \
         the years are alike.",
        air(coldest),
        air(warmest)
    )
}

/// The highest pressure of any month, in the reader's unit, with a little air.
fn greatest(year: &Year, style: Style) -> f64 {
    let of_month = |month: &Month| {
        let planes = 0..month.temperatures.len();
        let saturation = planes.map(|n| month.saturation(n, 0.0));
        let pressures = month.pressures.iter().flatten().copied();
        saturation.chain(pressures).map(finite).fold(0.0, f64::max)
    };
    let most = year.months.iter().map(of_month).fold(1.0, f64::max);
    style.value(Pressure::from_pa(1.06 * most))
}

impl Drawn<'_> {
    fn key(&self, sheet: &mut Sheet, top: i32, lines: &[(String, Lettering)], style: Style) {
        let mut y = top;
        for (words, set) in lines {
            sheet.text(words, (KEY, y), *set);
            y += LINE;
        }
        y += LINE / 2;
        let gray = Lettering::PLAIN.color(GRAY);
        sheet.text("layers, room to outdoors", (KEY, y), gray);
        let counted = self.planes.len() - 1;
        for cell in &self.cut.cells[..counted] {
            y += LINE;
            swatch(sheet, (KEY, y), cell);
            let words = layer_words(cell, EDGE + WIDTH - KEY - 560, style);
            sheet.text(&words, (KEY + 560, y), Lettering::PLAIN);
        }
    }

    /// The plot in words.
    fn in_words(&self, style: Style) -> String {
        let month = |month: usize| format!("{}: {}.", month_name(month), self.amount(month, style));
        let months: Vec<String> = (0..12).map(month).collect();
        format!(
            "Vapor pressure and saturation pressure through the path {}, month by month. At {}: {}",
            self.cut.path.path.name,
            match self.told.name() {
                "" => "no plane",
                name => name,
            },
            months.join(" ")
        )
    }
}

/// What stands over the list of layers.
fn key_lines(one: &Judged<'_>, drawn: &Drawn<'_>, style: Style) -> Vec<(String, Lettering)> {
    let (plain, bold) = (Lettering::PLAIN, Lettering::PLAIN.bold());
    let room = EDGE + WIDTH - KEY;
    let path = format!("path {}", drawn.cut.path.path.name);
    let mut lines = vec![(bold.fit(&path, room), bold)];
    let corner = match &drawn.told {
        Told::Tank(tank) => format!("Under each month: water held at {} at its end.", tank.name),
        Told::Closest(closest) => {
            format!("Under each month: the humidity at {}.", closest.name)
        }
        Told::Unknown(name, _) => format!("At {name} the vapor can't be told."),
        Told::Nothing => "Nothing that could be harmed lies inside.".into(),
    };
    let sentence = year_finding(one).map(|finding| crate::check::year::say(finding, style));
    let unit = format!("Pressures in {}.", Dimension::Pressure.unit(style));
    for words in [corner, sentence.unwrap_or_default(), unit] {
        let broken = wrap(&words, SIZE, false, room);
        lines.extend(broken.into_iter().take(9).map(|line| (line, plain)));
    }
    lines
}

const LEGEND: &[Item] = &[
    ("vapor pressure", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], MOISTURE, 50);
    }),
    ("saturation pressure", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], DASHES, HEAT, 40);
    }),
    ("they meet: wet", |sheet, at| {
        hatch::wet(sheet, &patch(at));
    }),
    ("they meet: frost", |sheet, at| {
        hatch::frost(sheet, &patch(at));
    }),
    ("the plane told of under the month", |sheet, (x, y)| {
        sheet.line(vec![(x + 450, y - 150), (x + 450, y + 150)], INK, 45);
    }),
];
