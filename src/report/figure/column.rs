//! A path as built, beside the temperatures through it.

use plotters::chart::ChartBuilder;
use plotters::coord::cartesian::Cartesian2d;
use plotters::coord::types::RangedCoordf64;
use plotters::drawing::DrawingArea;
use plotters::element::{PathElement, Polygon};
use plotters::style::Color;

use super::cut::Cut;
use super::place::{AIR, DASHES, DOTS, Place};
use super::recorder::Recorder;
use super::sheet::{BAND, FAINT, HEAT, INK, MOISTURE, Point, Sheet, drawn, stroke};
use super::{hatch, marks};
use crate::model::AssemblyKind;
use crate::quantity::Style;

/// No layer is drawn thinner than this.
const THINNEST: i32 = 35;

type Chart = DrawingArea<Recorder, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// Draws a path's layers, plane numbers and chart.
pub(super) fn draw(sheet: &mut Sheet, place: Place, cut: &Cut<'_>, style: Style) {
    let depths = place.depths(cut);
    plane_lines(sheet, place, &depths);
    layers(sheet, place, cut, &depths);
    marks::axes(sheet, place, style);
    if let Some(chart) = chart(sheet, place) {
        curves(sheet, &chart, place, cut, &depths);
    }
    marks::numbers(sheet, place, cut, &depths);
    marks::call_out(sheet, place, cut, &depths, style);
    marks::surroundings(sheet, place, cut, &depths);
}

fn plane_lines(sheet: &Sheet, place: Place, depths: &[f64]) {
    for depth in depths {
        let at = place.at(*depth);
        let ends = vec![
            place.point(at, place.chart.0),
            place.point(at, place.chart.1),
        ];
        sheet.line(ends, FAINT, 10);
    }
}

fn layers(sheet: &Sheet, place: Place, cut: &Cut<'_>, depths: &[f64]) {
    for (cell, pair) in cut.cells.iter().zip(depths.windows(2)) {
        let (from, to) = place.corners((pair[0], pair[1]), place.layers);
        let thin = if place.stands() {
            to.0 - from.0
        } else {
            to.1 - from.1
        };
        if thin < THINNEST {
            let across = [place.layers.0, place.layers.1];
            let middle = place.at(0.5 * (pair[0] + pair[1]));
            sheet.line(
                across.map(|c| place.point(middle, c)).to_vec(),
                INK,
                THINNEST as u32,
            );
            continue;
        }
        hatch::fill(sheet, cell.hatch, from, to, place.stands());
        sheet.outline(from, to, INK, 22);
    }
}

fn chart(sheet: &Sheet, place: Place) -> Option<Chart> {
    let far = f64::from(place.along.1 - place.along.0);
    let (low, high) = (place.span.low, place.span.high);
    let across = (
        place.chart.0.min(place.chart.1),
        place.chart.0.max(place.chart.1),
    );
    let part = sheet.part(
        place.point(place.along.0, across.0),
        place.point(place.along.1, across.1),
    );
    let mut builder = ChartBuilder::on(&part);
    let chart = match place.kind {
        AssemblyKind::Wall => builder.build_cartesian_2d(0.0..far, low..high),
        AssemblyKind::Floor => builder.build_cartesian_2d(low..high, far..0.0),
        AssemblyKind::Roof => builder.build_cartesian_2d(low..high, 0.0..far),
    };
    chart.ok().map(|chart| chart.plotting_area().clone())
}

/// The curves of one path in the chart's own coordinates.
struct Trace {
    stands: bool,
}

impl Trace {
    fn at(&self, (depth, celsius): (f64, f64)) -> (f64, f64) {
        let depth = depth + f64::from(AIR);
        if self.stands {
            (depth, celsius)
        } else {
            (celsius, depth)
        }
    }

    fn line(&self, chart: &Chart, nodes: &[(f64, f64)], width: u32) {
        let nodes: Vec<_> = nodes.iter().map(|node| self.at(*node)).collect();
        drawn(chart.draw(&PathElement::new(nodes, stroke(HEAT, width))));
    }

    fn on_sheet(&self, chart: &Chart, nodes: &[(f64, f64)]) -> Vec<Point> {
        nodes
            .iter()
            .map(|node| chart.map_coordinate(&self.at(*node)))
            .collect()
    }
}

fn curves(sheet: &Sheet, chart: &Chart, place: Place, cut: &Cut<'_>, depths: &[f64]) {
    let trace = Trace {
        stands: place.stands(),
    };
    let nodes = temperature_nodes(place, cut, depths);
    let reached = cut.reached_to();
    let dew = cut.dew_point.as_celsius();
    for (outer, pair) in nodes[..=reached + 1].windows(2).enumerate() {
        let wet = if outer <= cut.judged_to() {
            hatch::wet
        } else {
            hatch::unjudged
        };
        band(sheet, chart, &trace, pair, (dew, wet));
    }
    let local = local_dew_points(cut, depths);
    for run in local {
        sheet.dashes(&trace.on_sheet(chart, &run), DOTS, MOISTURE, 22);
    }
    let room_side = [(place.room(), dew), (depths[reached], dew)];
    sheet.dashes(&trace.on_sheet(chart, &room_side), DASHES, MOISTURE, 45);
    trace.line(chart, &nodes[reached + 1..], 22);
    trace.line(chart, &nodes[..=reached + 1], 60);
}

/// Room air, every plane, outdoor air: depth and temperature.
fn temperature_nodes(place: Place, cut: &Cut<'_>, depths: &[f64]) -> Vec<(f64, f64)> {
    let planes = cut.path.winter.planes.iter().zip(depths);
    let mut nodes = vec![(place.room(), cut.room.as_celsius())];
    nodes.extend(planes.map(|(plane, depth)| (*depth, plane.temperature.as_celsius())));
    let outer = nodes.last().map_or(0.0, |node| node.0) + f64::from(AIR) * 0.8;
    nodes.push((outer, cut.outdoors.as_celsius()));
    nodes
}

/// The local dew point by diffusion, in runs where it is known.
fn local_dew_points(cut: &Cut<'_>, depths: &[f64]) -> Vec<Vec<(f64, f64)>> {
    let mut runs: Vec<Vec<(f64, f64)>> = vec![Vec::new()];
    for (plane, depth) in cut.path.winter.planes.iter().zip(depths) {
        match (plane.dew_point, runs.last_mut()) {
            (Some(dew), Some(run)) => run.push((*depth, dew.as_celsius())),
            _ => runs.push(Vec::new()),
        }
    }
    runs.retain(|run| run.len() > 1);
    runs
}

/// The margin between two nodes: a band above the dew point, cross-hatched below it.
fn band(
    sheet: &Sheet,
    chart: &Chart,
    trace: &Trace,
    pair: &[(f64, f64)],
    (dew, wet): (f64, fn(&Sheet, &[Point])),
) {
    let (one, other) = (pair[0], pair[1]);
    let crosses = (one.1 > dew) != (other.1 > dew);
    let crossing = if crosses {
        let share = (dew - one.1) / (other.1 - one.1);
        vec![(one.0 + share * (other.0 - one.0), dew)]
    } else {
        Vec::new()
    };
    let stops: Vec<_> = [vec![one], crossing, vec![other]].concat();
    for part in stops.windows(2) {
        let corners = [part[0], part[1], (part[1].0, dew), (part[0].0, dew)];
        if part[0].1 + part[1].1 > 2.0 * dew {
            let corners: Vec<_> = corners.iter().map(|node| trace.at(*node)).collect();
            drawn(chart.draw(&Polygon::new(corners, BAND.filled())));
        } else {
            wet(sheet, &trace.on_sheet(chart, &corners));
        }
    }
}
