//! A path as built, beside the temperatures through it.

use plotters::chart::ChartBuilder;
use plotters::coord::cartesian::Cartesian2d;
use plotters::coord::types::RangedCoordf64;
use plotters::drawing::DrawingArea;
use plotters::element::{PathElement, Polygon};
use plotters::style::Color;

use super::cut::Cut;
use super::hatch;
use super::scale::{Scale, Span};
use super::sheet::{
    BAND, FAINT, GRAY, HEAT, INK, LINE, Lettering, MOISTURE, PAPER, Point, SIZE, Sheet, drawn,
    stroke,
};
use super::svg::Svg;
use crate::model::AssemblyKind;
use crate::quantity::Style;

/// Air drawn on either side of the layers.
pub(super) const AIR: i32 = 520;
/// Space for one temperature axis with its numbers.
pub(super) const AXIS: i32 = 560;
/// Plane numbers stand at least this far apart.
const APART: i32 = 380;
/// No layer is drawn thinner than this.
const THINNEST: i32 = 35;
/// Long dashes: the dew point of the room air.
pub(super) const DASHES: (f64, f64) = (170.0, 90.0);
/// Dots: the local dew point.
pub(super) const DOTS: (f64, f64) = (22.0, 55.0);

type Chart = DrawingArea<Svg, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// Where a path is drawn: along the layers from the room's air to the outdoor air, and across.
#[derive(Clone, Copy)]
pub(super) struct Place {
    /// Wall, floor or roof: which way the layers run.
    pub(super) kind: AssemblyKind,
    /// Extent in the direction the layers follow each other.
    pub(super) along: (i32, i32),
    /// Extent of the layers in the other direction.
    pub(super) layers: (i32, i32),
    /// Extent of the chart in that direction: where its lowest and its highest temperature lie.
    pub(super) chart: (i32, i32),
    /// The drawing's scale.
    pub(super) scale: Scale,
    /// The temperatures the chart runs over.
    pub(super) span: Span,
}

impl Place {
    fn stands(self) -> bool {
        self.kind == AssemblyKind::Wall
    }

    /// A position along the layers for a depth from the room's surface on paper.
    fn at(self, depth: f64) -> i32 {
        let depth = depth.round() as i32 + AIR;
        if self.kind == AssemblyKind::Roof {
            self.along.1 - depth
        } else {
            self.along.0 + depth
        }
    }

    fn point(self, along: i32, across: i32) -> Point {
        if self.stands() {
            (along, across)
        } else {
            (across, along)
        }
    }

    /// Upper left and lower right of what lies between two depths and two positions across.
    fn corners(self, depths: (f64, f64), across: (i32, i32)) -> (Point, Point) {
        let (a, b) = (self.at(depths.0), self.at(depths.1));
        let (low, high) = (across.0.min(across.1), across.0.max(across.1));
        (self.point(a.min(b), low), self.point(a.max(b), high))
    }

    /// Depths of the boundaries of all layers drawn, from the room's surface.
    fn depths(self, cut: &Cut<'_>) -> Vec<f64> {
        let mut depths = vec![0.0];
        let mut depth = 0.0;
        for cell in &cut.cells {
            depth += self.scale.on_paper(cell.thickness);
            depths.push(depth);
        }
        depths
    }

    fn room(self) -> f64 {
        -f64::from(AIR)
    }
}

/// Draws a path's layers, plane numbers and chart.
pub(super) fn draw(sheet: &mut Sheet, place: Place, cut: &Cut<'_>, style: Style) {
    let depths = place.depths(cut);
    plane_lines(sheet, place, &depths);
    layers(sheet, place, cut, &depths);
    axes(sheet, place, style);
    if let Some(chart) = chart(sheet, place) {
        curves(sheet, &chart, place, cut, &depths);
    }
    numbers(sheet, place, cut, &depths);
    call_out(sheet, place, cut, &depths, style);
    surroundings(sheet, place, cut, &depths);
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
    for pair in nodes[..=reached + 1].windows(2) {
        band(sheet, chart, &trace, pair, dew);
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
fn band(sheet: &Sheet, chart: &Chart, trace: &Trace, pair: &[(f64, f64)], dew: f64) {
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
            hatch::wet(sheet, &trace.on_sheet(chart, &corners));
        }
    }
}

/// Position of a temperature across the chart.
fn across(place: Place, celsius: f64) -> i32 {
    let share = (celsius - place.span.low) / (place.span.high - place.span.low);
    let (low, high) = (f64::from(place.chart.0), f64::from(place.chart.1));
    (low + share * (high - low)).round() as i32
}

/// Both temperature axes: the reader's unit first, above or at the left.
fn axes(sheet: &mut Sheet, place: Place, style: Style) {
    let length = (place.chart.1 - place.chart.0).abs();
    let most = usize::try_from(length / if place.stands() { 600 } else { 900 }).unwrap_or(2);
    for (style, at, outward) in [
        (style, place.along.0, -1),
        (style.other(), place.along.1, 1),
    ] {
        sheet.line(
            vec![
                place.point(at, place.chart.0),
                place.point(at, place.chart.1),
            ],
            GRAY,
            15,
        );
        let marks = place.span.marks(style.units, most);
        let last = marks.len().saturating_sub(1);
        for (n, (value, number)) in marks.into_iter().enumerate() {
            let c = across(place, value.as_celsius());
            sheet.line(
                vec![place.point(at, c), place.point(at + outward * 70, c)],
                GRAY,
                15,
            );
            let words = match n == last {
                true => format!("{number} {}", style.temperature_unit()),
                false => number.clone(),
            };
            axis_label(sheet, place, (at, c, outward), &number, &words);
        }
    }
}

fn axis_label(
    sheet: &mut Sheet,
    place: Place,
    (at, c, outward): (i32, i32, i32),
    number: &str,
    words: &str,
) {
    let plain = Lettering::PLAIN.color(GRAY);
    if place.stands() {
        let point = (at + outward * 130, c + SIZE * 36 / 100);
        sheet.text(
            words,
            point,
            if outward < 0 { plain.right() } else { plain },
        );
        return;
    }
    let baseline = if outward < 0 {
        at - 140
    } else {
        at + 140 + SIZE * 73 / 100
    };
    sheet.text(words, (c - plain.width(number) / 2, baseline), plain);
}

/// The numbers of the planes beside the layers, moved apart where planes lie close.
fn numbers(sheet: &mut Sheet, place: Place, cut: &Cut<'_>, depths: &[f64]) {
    let count = cut.path.roles.len();
    let wanted: Vec<i32> = depths[..count]
        .iter()
        .map(|depth| place.at(*depth))
        .collect();
    let placed = spread(&wanted, APART);
    let edge = place.layers.0;
    for (n, (at, label)) in wanted.iter().zip(placed).enumerate() {
        let ends = [
            (*at, edge),
            (*at, edge - 60),
            (label, edge - 170),
            (label, edge - 200),
        ];
        sheet.line(ends.map(|(a, c)| place.point(a, c)).to_vec(), GRAY, 10);
        let number = (n + 1).to_string();
        let plain = Lettering::PLAIN;
        match place.stands() {
            true => sheet.text(&number, (label, edge - 240), plain.centered()),
            false => sheet.text(
                &number,
                (edge - 240, label + SIZE * 36 / 100),
                plain.right(),
            ),
        }
    }
}

/// Moves positions apart to a least distance, keeping their order and staying near.
pub(super) fn spread(wanted: &[i32], apart: i32) -> Vec<i32> {
    let descending = wanted.len() > 1 && wanted[0] > wanted[wanted.len() - 1];
    let ordered: Vec<i32> = if descending {
        wanted.iter().rev().copied().collect()
    } else {
        wanted.to_vec()
    };
    // Groups of labels that touch, each centered on the mean of where its labels want to be.
    let mut groups: Vec<(i64, i64)> = Vec::new();
    for (n, at) in ordered.iter().enumerate() {
        groups.push((i64::from(*at) - n as i64 * i64::from(apart), 1));
        while let [.., (sum, count), (next, more)] = groups[..] {
            if next * count >= sum * more {
                break;
            }
            groups.truncate(groups.len() - 2);
            groups.push((sum + next, count + more));
        }
    }
    let starts = groups
        .iter()
        .flat_map(|(sum, count)| (0..*count).map(move |_| sum / count));
    let mut placed: Vec<i32> = starts
        .enumerate()
        .map(|(n, start)| i32::try_from(start + n as i64 * i64::from(apart)).unwrap_or(i32::MAX))
        .collect();
    if descending {
        placed.reverse();
    }
    placed
}

/// The mark and the temperature at the plane with the least leak margin.
fn call_out(sheet: &mut Sheet, place: Place, cut: &Cut<'_>, depths: &[f64], style: Style) {
    let plane = cut.least();
    let (at, c) = (
        place.at(depths[plane]),
        across(place, cut.temperature(plane).as_celsius()),
    );
    let words = style.temperature(cut.temperature(plane));
    let bold = Lettering::PLAIN.bold();
    let (width, height) = (bold.width(&words) + 100, LINE);
    let (left, right) = (
        place.chart.0.min(place.chart.1),
        place.chart.0.max(place.chart.1),
    );
    let corner = match place.kind {
        AssemblyKind::Wall => {
            let y = (c + 130).clamp(left, (right - height).max(left));
            (at + 130, y)
        }
        AssemblyKind::Floor => ((c + 60).clamp(left, (right - width).max(left)), at + 130),
        AssemblyKind::Roof => (
            (c + 60).clamp(left, (right - width).max(left)),
            at - 130 - height,
        ),
    };
    sheet.fill(corner, (corner.0 + width, corner.1 + height), PAPER);
    sheet.outline(corner, (corner.0 + width, corner.1 + height), FAINT, 10);
    sheet.text(&words, (corner.0 + 50, corner.1 + 335), bold);
    sheet.ring(place.point(at, c), 75, HEAT, 40);
}

/// The words for both sides.
fn surroundings(sheet: &mut Sheet, place: Place, cut: &Cut<'_>, depths: &[f64]) {
    let italic = Lettering::PLAIN.italic().color(GRAY);
    let outer = place.at(depths[depths.len() - 1]);
    let inner = place.at(0.0);
    let (left, middle) = (
        place.layers.0,
        (place.layers.0 + place.layers.1) / 2 + SIZE * 36 / 100,
    );
    let (above, below) = (-130, 130 + SIZE * 73 / 100);
    let (room, outdoors) = match place.kind {
        AssemblyKind::Wall => ((inner - 120, middle), (outer + 120, middle)),
        AssemblyKind::Floor => ((left, inner + above), (left, outer + below)),
        AssemblyKind::Roof => ((left, inner + below), (left, outer + above)),
    };
    sheet.text(
        "room",
        room,
        if place.stands() {
            italic.right()
        } else {
            italic
        },
    );
    sheet.text(cut.outer_word(), outdoors, italic);
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn labels_move_apart_and_keep_their_order() {
        let placed = spread(&[100, 110, 115, 900], 50);
        assert!(
            placed.windows(2).all(|pair| pair[1] - pair[0] >= 50),
            "{placed:?}"
        );
        assert_eq!(placed[3], 900);
        assert!((placed[1] - 108).abs() <= 2);
        let upward = spread(&[900, 115, 110, 100], 50);
        assert_eq!(upward, placed.into_iter().rev().collect::<Vec<_>>());
    }
}
