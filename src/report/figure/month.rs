//! One month's profile: vapor pressure and saturation pressure through the layers of a path.

use super::axis::Axis;
use super::cut::Cut;
use super::hatch;
use super::place::DASHES;
use super::sheet::{FAINT, HEAT, INK, LINE, Lettering, MOISTURE, Point, Sheet};
use super::water::{Told, finite};
use crate::quantity::{ArealDensity, Pressure, Style, fixed, month_name};
use crate::solve::year::{WaterYear, Year};

/// Air at either side of the layers.
pub(super) const AIR: i32 = 260;
/// Two lines over a chart, and the strip of layers under it.
const HEAD: i32 = 880;
const STRIP: i32 = 420;
/// Points of a curve in each layer.
const POINTS: usize = 12;
/// Half the width of what is hatched at a wet plane.
const HALF: i32 = 130;
/// Below this a plane is dry, kg/m².
const NOTHING: f64 = 1e-7;

/// The path drawn, to scale.
pub(super) struct Drawn<'a> {
    /// Its layers.
    pub(super) cut: Cut<'a>,
    /// Its year.
    pub(super) year: &'a Year,
    /// What is told of every month.
    pub(super) told: Told<'a>,
    /// Where the planes lie, from the room's surface.
    pub(super) planes: Vec<i32>,
    /// The least and the greatest pressure drawn, in the reader's unit.
    pub(super) pressures: (f64, f64),
}

impl Drawn<'_> {
    /// Draws a month between two corners.
    pub(super) fn month(
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
        let is_wet = matches!(&self.told, Told::Tank(tank) if is_wet(&tank.water, month));
        let set = if is_wet {
            bold.color(MOISTURE)
        } else {
            Lettering::PLAIN
        };
        sheet.text(&set.fit(&words, right - x), (x, y + 300 + LINE), set);
    }

    /// What stands under a month's name.
    pub(super) fn amount(&self, month: usize, style: Style) -> String {
        match &self.told {
            Told::Tank(tank) => {
                let held = tank.water.held[month];
                let frost = match tank.water.is_ice[month] {
                    true => " frost",
                    false => "",
                };
                match (held > NOTHING, is_wet(&tank.water, month)) {
                    (true, _) => format!("{}{frost}", style.water(ArealDensity::from_si(held))),
                    (_, true) => "dry by its end".into(),
                    _ => "dry".into(),
                }
            }
            Told::Closest(closest) => closest.humidity[month]
                .map_or_else(String::new, |humidity| {
                    format!("{} %", fixed(100.0 * humidity, 0))
                }),
            Told::Unknown(..) | Told::Nothing => String::new(),
        }
    }

    /// The planes, the one told of heavier.
    fn verticals(&self, sheet: &Sheet, axis: Axis, origin: i32) {
        let told = self.told_plane();
        for (n, x) in self.planes.iter().enumerate() {
            let ends = vec![(origin + x, axis.ends.0), (origin + x, axis.ends.1)];
            let (color, width) = if told == Some(n) {
                (INK, 45)
            } else {
                (FAINT, 12)
            };
            sheet.line(ends, color, width);
        }
    }

    fn told_plane(&self) -> Option<usize> {
        let mut names = self.cut.path.plane_names.iter();
        names.position(|plane| plane == self.told.name())
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
        let y = |pascal: f64| axis.at(style.value(Pressure::from_pa(pascal)));
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
                let top = axis.at(style.value(Pressure::from_pa(pressure)));
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
