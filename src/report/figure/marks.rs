//! What is written on a path's drawing: axes, plane numbers, the call-out, both sides.

use super::cut::Cut;
use super::place::{Place, spread};
use super::sheet::{FAINT, GRAY, HEAT, LINE, Lettering, PAPER, SIZE, Sheet};
use crate::model::AssemblyKind;
use crate::quantity::{Dimension, Style};

/// Plane numbers above each other stand at least this far apart.
const APART: i32 = 380;

/// Both temperature axes: the reader's unit first, above or at the left.
pub(super) fn axes(sheet: &mut Sheet, place: Place, style: Style) {
    let length = (place.chart.1 - place.chart.0).abs();
    let most = usize::try_from(length / if place.stands() { 600 } else { 900 })
        .unwrap_or(2)
        .min(7);
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
            let c = place.across(value.as_celsius());
            sheet.line(
                vec![place.point(at, c), place.point(at + outward * 70, c)],
                GRAY,
                15,
            );
            let words = match n == last {
                true => format!("{number} {}", Dimension::Temperature.unit(style)),
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
pub(super) fn numbers(sheet: &mut Sheet, place: Place, cut: &Cut<'_>, depths: &[f64]) {
    let count = cut.path.roles.len();
    // Where there are too many planes for the drawing, only every second, third … is numbered.
    let widest = Lettering::PLAIN.width(&count.to_string()) + 110;
    let apart = if place.stands() { widest } else { APART };
    let room = usize::try_from((place.along.1 - place.along.0) / apart).unwrap_or(1);
    let step = count.div_ceil(room.max(1)).max(1);
    let numbered: Vec<usize> = (0..count).step_by(step).collect();
    let wanted: Vec<i32> = numbered.iter().map(|n| place.at(depths[*n])).collect();
    let placed = spread(&wanted, apart, place.along);
    let edge = place.layers.0;
    for ((n, at), label) in numbered.iter().zip(&wanted).zip(placed) {
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

/// The mark and the temperature at the plane with the least leak margin.
pub(super) fn call_out(
    sheet: &mut Sheet,
    place: Place,
    cut: &Cut<'_>,
    depths: &[f64],
    style: Style,
) {
    let plane = cut.least();
    let (at, c) = (
        place.at(depths[plane]),
        place.across(cut.temperature(plane).as_celsius()),
    );
    let words = style.show(cut.temperature(plane));
    let bold = Lettering::PLAIN.bold();
    let (width, height) = (bold.width(&words) + 100, LINE);
    let (left, right) = (
        place.chart.0.min(place.chart.1),
        place.chart.0.max(place.chart.1),
    );
    // Beyond the plane, on the side the line turns away from; in the band where there is no room
    // there but in the band.
    let end = right + 480;
    let band = c - place.across(cut.dew_point.as_celsius());
    let beside = match (c + 60 + width <= end, band >= width + 200) {
        (true, _) => c + 60,
        (false, true) => c - 120 - width,
        (false, false) => (end - width).max(left),
    };
    let is_beyond = c + 60 + width <= end || band < width + 200;
    let corner = match place.kind {
        AssemblyKind::Wall => {
            let is_room = at + 130 + width <= place.along.1;
            let x = if is_room { at + 130 } else { at - 130 - width };
            // Out of the band: above the line where it runs above the dew point, else below it.
            let is_above = is_room == (cut.leak_margin(plane).as_kelvin() > 0.0);
            let y = if is_above { c - 130 - height } else { c + 130 };
            (x, y.clamp(left, (right - height).max(left)))
        }
        kind if is_beyond == (kind == AssemblyKind::Floor) => (beside, at + 130),
        _ => (beside, at - 130 - height),
    };
    sheet.fill(corner, (corner.0 + width, corner.1 + height), PAPER);
    sheet.outline(corner, (corner.0 + width, corner.1 + height), FAINT, 10);
    sheet.text(&words, (corner.0 + 50, corner.1 + 335), bold);
    sheet.ring(place.point(at, c), 75, HEAT, 40);
}

/// The words for both sides.
pub(super) fn surroundings(sheet: &mut Sheet, place: Place, cut: &Cut<'_>, depths: &[f64]) {
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
    let room = (place.chart.0 - left).max(0);
    let fits = place.stands() || italic.width(cut.outer_word()) <= room;
    sheet.text(
        if fits { cut.outer_word() } else { "cold" },
        outdoors,
        italic,
    );
}
