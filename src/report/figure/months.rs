//! Twelve small profiles: vapor pressure against saturation through the path that decides.

use super::axis::Axis;
use super::cut::{Cell, Cut};
use super::hatch;
use super::legend::{Item, patch};
use super::lettering::wrap;
use super::place::DASHES;
use super::scale::Scale;
use super::schedule::{layer_words, swatch};
use super::sheet::{FAINT, Figure, GRAY, HEAT, INK, LINE, Lettering, MOISTURE, Point, SIZE, Sheet};
use super::title::{EDGE, Frame, LETTER, WIDTH};
use super::water::{Closest, Tank, closest, deciding_path, finite, tanks, year_finding};
use super::year::{JULY, conditions_words};
use crate::model::Project;
use crate::quantity::{ArealDensity, Length, Pressure, Style, fixed, month_name};
use crate::report::{Judged, sentence_year};
use crate::solve::year::{Month, WaterYear, Year};

/// Months beside each other.
const ACROSS: i32 = 4;
/// Where the first column's charts begin, and where the last one's end.
const GRID: (i32, i32) = (EDGE + 1350, EDGE + 18_900);
/// Between charts, across and down.
const GAPS: (i32, i32) = (420, 480);
/// Where the key begins.
const KEY: i32 = EDGE + 19_500;
/// Air at either side of the layers.
const AIR: i32 = 260;
/// Two lines over a chart, and the strip of layers under it.
const HEAD: i32 = 880;
const STRIP: i32 = 420;
/// The least height of a month.
const LEAST: i32 = 4000;
/// Points of a curve in each layer.
const POINTS: usize = 12;
/// Half the width of what is hatched at a wet plane.
const HALF: i32 = 130;
/// Below this a plane is dry, kg/m².
const NOTHING: f64 = 1e-7;

/// What stands under every month's name.
enum Told<'a> {
    Tank(Tank<'a>),
    Closest(Closest<'a>),
    Nothing,
}

/// The path drawn, to scale.
struct Drawn<'a> {
    cut: Cut<'a>,
    year: &'a Year,
    told: Told<'a>,
    /// Where the planes lie, from the room's surface.
    planes: Vec<i32>,
    pressures: (f64, f64),
}

/// Draws it; `None` without a climate.
pub(super) fn draw(project: &Project, one: &Judged<'_>, style: Style) -> Option<Figure> {
    let months = one.stop.conditions.year.as_ref()?;
    let path = deciding_path(one)?;
    let year = path.year.as_ref()?;
    let name = one.case.name();
    let conditions = format!(
        "{} Each month is drawn at the same scale.",
        conditions_words(one.stop, months, style)
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
    let scale = Scale::largest(all, width - 2 * AIR, style.units);
    let at = |n: usize| {
        scale
            .on_paper(Length::from_m(thickness(&cut.cells[..n])))
            .round() as i32
    };
    let drawn = Drawn {
        planes: (0..=counted).map(at).collect(),
        year,
        told: told(one),
        pressures: (0.0, greatest(year, style)),
        cut,
    };
    let key = key_lines(one, &drawn, style);
    let count = i32::try_from(key.len() + counted).unwrap_or(1000);
    let free = (LETTER.1 - frame.top() - frame.bottom()).max((count + 4) * LINE);
    let row = (free / 3).max(LEAST);
    let height = LETTER.1.max(frame.top() + 3 * row + frame.bottom());
    let mut sheet = Sheet::new((LETTER.0, height));
    let start = year.start.unwrap_or(JULY);
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

fn told<'a>(one: &'a Judged<'_>) -> Told<'a> {
    match (closest(one), tanks(one).into_iter().next()) {
        (Some(closest), _) => Told::Closest(closest),
        (None, Some(tank)) => Told::Tank(tank),
        (None, None) => Told::Nothing,
    }
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
    style.pressure_value(Pressure::from_pa(1.06 * most))
}

impl Drawn<'_> {
    fn month(
        &self,
        sheet: &mut Sheet,
        (from, to): (Point, Point),
        month: usize,
        is_first: bool,
        style: Style,
    ) {
        let axis = Axis {
            values: self.pressures,
            ends: (to.1 - STRIP - 60, from.1 + HEAD),
        };
        self.heading(sheet, from, to.0, month, style);
        if is_first {
            axis.draw(sheet, from.0);
        }
        let origin = from.0 + AIR;
        self.verticals(sheet, axis, origin);
        let (saturation, vapor) = self.curves(axis, origin, month, style);
        self.wet(sheet, axis, origin, month, (&saturation, &vapor), style);
        sheet.dashes(&flat(&saturation), DASHES, HEAT, 40);
        for run in runs(&vapor) {
            sheet.line(run, MOISTURE, 50);
        }
        sheet.line(vec![(from.0, axis.ends.0), (to.0, axis.ends.0)], INK, 18);
        self.strip(sheet, origin, (to.1 - STRIP, to.1));
    }

    fn heading(&self, sheet: &mut Sheet, (x, y): Point, right: i32, month: usize, style: Style) {
        let bold = Lettering::PLAIN.bold();
        sheet.text(month_name(month), (x, y + 300), bold);
        let words = self.amount(month, style);
        let is_wet = matches!(&self.told, Told::Tank(tank) if is_wet(tank.water, month));
        let set = if is_wet {
            bold.color(MOISTURE)
        } else {
            Lettering::PLAIN
        };
        sheet.text(&set.fit(&words, right - x), (x, y + 300 + LINE), set);
    }

    /// What stands under a month's name.
    fn amount(&self, month: usize, style: Style) -> String {
        match &self.told {
            Told::Tank(tank) => {
                let held = tank.water.held[month];
                let frost = match tank.water.is_ice[month] {
                    true => " frost",
                    false => "",
                };
                match (held > NOTHING, is_wet(tank.water, month)) {
                    (true, _) => format!("{}{frost}", style.water(ArealDensity::from_si(held))),
                    (_, true) => "dry by its end".into(),
                    _ => "dry".into(),
                }
            }
            Told::Closest(closest) => closest.humidity[month]
                .map_or_else(String::new, |humidity| {
                    format!("{} %", fixed(100.0 * humidity, 0))
                }),
            Told::Nothing => String::new(),
        }
    }

    /// The planes, the one told of heavier.
    fn verticals(&self, sheet: &Sheet, axis: Axis, origin: i32) {
        let told = self.told_plane();
        for (n, x) in self.planes.iter().enumerate() {
            let ends = vec![(origin + x, axis.ends.0), (origin + x, axis.ends.1)];
            let (color, width) = if told == Some(n) {
                (INK, 22)
            } else {
                (FAINT, 12)
            };
            sheet.line(ends, color, width);
        }
    }

    fn told_plane(&self) -> Option<usize> {
        let name = match &self.told {
            Told::Tank(tank) => &tank.name,
            Told::Closest(closest) => &closest.name,
            Told::Nothing => return None,
        };
        self.cut
            .path
            .plane_names
            .iter()
            .position(|plane| plane == name)
    }

    /// Saturation and vapor pressure along each layer, as points on the sheet. The vapor pressure
    /// runs straight between the planes and never over saturation.
    fn curves(
        &self,
        axis: Axis,
        origin: i32,
        month: usize,
        style: Style,
    ) -> (Vec<Vec<Point>>, Vec<Option<Vec<Point>>>) {
        let state = &self.year.months[month];
        let y = |pascal: f64| axis.at(style.pressure_value(Pressure::from_pa(pascal)));
        let layers = self.planes.len() - 1;
        let point = |layer: usize, n: usize| {
            let share = n as f64 / POINTS as f64;
            let (left, right) = (self.planes[layer], self.planes[layer + 1]);
            let x = f64::from(left) + share * f64::from(right - left);
            (origin + x.round() as i32, share)
        };
        let saturation = |layer: usize| {
            let points = (0..=POINTS).map(|n| point(layer, n));
            points
                .map(|(x, share)| (x, y(state.saturation(layer, share))))
                .collect()
        };
        let vapor = |layer: usize| {
            let (inner, outer) = (state.pressures[layer]?, state.pressures[layer + 1]?);
            let points = (0..=POINTS).map(|n| point(layer, n));
            let at = |(x, share): (i32, f64)| {
                let straight = inner + share * (outer - inner);
                (x, y(straight.min(state.saturation(layer, share))))
            };
            Some(points.map(at).collect())
        };
        (
            (0..layers).map(saturation).collect(),
            (0..layers).map(vapor).collect(),
        )
    }

    /// Cross-hatches where vapor meets saturation: planes that hold water, and stretches inside a
    /// layer.
    fn wet(
        &self,
        sheet: &Sheet,
        axis: Axis,
        origin: i32,
        month: usize,
        (saturation, vapor): (&[Vec<Point>], &[Option<Vec<Point>>]),
        style: Style,
    ) {
        let bottom = axis.ends.0;
        for (n, water) in self.year.planes.iter().enumerate() {
            // In the month it dries out the mean lies under saturation.
            let pressure = self.year.months[month].pressures[n].map(finite);
            if let (true, Some(pressure)) = (is_wet(water, month), pressure) {
                let top = axis.at(style.pressure_value(Pressure::from_pa(pressure)));
                let x = origin + self.planes[n];
                let (left, right) = (x - HALF, x + HALF);
                let fill = filling(water, month);
                fill(
                    sheet,
                    &[(left, top), (right, top), (right, bottom), (left, bottom)],
                );
            }
        }
        for (n, water) in self.year.inside.iter().enumerate() {
            let (true, Some(Some(vapor))) = (is_wet(water, month), vapor.get(n)) else {
                continue;
            };
            let pairs = saturation[n].windows(2).zip(vapor.windows(2));
            for (part, held) in pairs {
                let meets = part
                    .iter()
                    .zip(held)
                    .all(|(one, other)| other.1 - one.1 <= 15);
                if meets {
                    let (one, other) = (part[0], part[1]);
                    let fill = filling(water, month);
                    fill(sheet, &[one, other, (other.0, bottom), (one.0, bottom)]);
                }
            }
        }
    }

    /// The layers under a chart.
    fn strip(&self, sheet: &Sheet, origin: i32, (top, bottom): (i32, i32)) {
        for (cell, ends) in self.cut.cells.iter().zip(self.planes.windows(2)) {
            let (from, to) = ((origin + ends[0], top), (origin + ends[1], bottom));
            if to.0 - from.0 < 35 {
                let x = (from.0 + to.0) / 2;
                sheet.line(vec![(x, top), (x, bottom)], INK, 35);
                continue;
            }
            hatch::fill(sheet, cell.hatch, from, to, false);
            sheet.outline(from, to, INK, 18);
        }
    }

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
            self.told_name(),
            months.join(" ")
        )
    }

    fn told_name(&self) -> &str {
        match &self.told {
            Told::Tank(tank) => &tank.name,
            Told::Closest(closest) => &closest.name,
            Told::Nothing => "no plane",
        }
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
        Told::Nothing => "Nothing that could be harmed lies inside.".into(),
    };
    let sentence = year_finding(one).map(|finding| sentence_year::year(finding, style));
    let unit = format!("Pressures in {}.", style.pressure_unit());
    for words in [corner, sentence.unwrap_or_default(), unit] {
        let broken = wrap(&words, SIZE, false, room);
        lines.extend(broken.into_iter().take(9).map(|line| (line, plain)));
    }
    lines
}

fn is_wet(water: &WaterYear, month: usize) -> bool {
    water.never_dry || water.held[month] > NOTHING || water.change[month].abs() > NOTHING
}

fn filling(water: &WaterYear, month: usize) -> fn(&Sheet, &[Point]) {
    if water.is_ice[month] {
        hatch::frost
    } else {
        hatch::wet
    }
}

/// The curves of all layers as one.
fn flat(curves: &[Vec<Point>]) -> Vec<Point> {
    curves.iter().flatten().copied().collect()
}

/// The curves of layers whose vapor is known, joined where they follow each other.
fn runs(curves: &[Option<Vec<Point>>]) -> Vec<Vec<Point>> {
    let known = curves.split(Option::is_none);
    known
        .map(|run| run.iter().flatten().flatten().copied().collect())
        .filter(|run: &Vec<Point>| run.len() > 1)
        .collect()
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
        sheet.line(vec![(x + 450, y - 150), (x + 450, y + 150)], INK, 22);
    }),
];
