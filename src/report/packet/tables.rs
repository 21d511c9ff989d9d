//! The tables of an assembly's sheet: its layers, and the planes of every path.

use super::content::Table;
use crate::check::retarder::{RetarderClass, class_of_layer};
use crate::model::{AirSpace, Assembly, Content, Framing, Layer, Strip};
use crate::quantity::{Dimension, Length, Permeance, Style, ThermalResistance, fixed};
use crate::report::figure::drawn_end;
use crate::solve::{EndResult, PathKind, PathResult, Piece};
use crate::study::Judged;

/// Every layer with its members and every strip: thickness, resistance, permeance in both units,
/// and the class of vapor retarder.
pub(super) fn layers(one: &Judged<'_>, style: Style) -> Table {
    let other = style.other();
    let mut table = Table::new(
        &[
            "layer, inside to outside",
            "made of",
            "thickness",
            Dimension::Resistance.unit(style),
            Dimension::Resistance.unit(other),
            &perm_heading(style),
            &perm_heading(other),
            "class\n(dry cup)",
        ],
        2,
    );
    let Some(end) = drawn_end(one.result()) else {
        return table;
    };
    let assembly = &one.case.assembly;
    for (n, layer) in assembly.layers.iter().enumerate() {
        let found = piece_of(end, |path, piece| {
            path.path.kind != PathKind::Framing
                && piece.layer == Some(n)
                && piece.name == layer.name
        });
        table.row(layer_row(&layer.name, layer, found, style));
        if let Some(framing) = &layer.framing {
            let member = piece_of(end, |path, piece| {
                path.path.kind == PathKind::Framing
                    && piece.layer == Some(n)
                    && piece.name != layer.name
            });
            table.row(framing_row(
                framing,
                layer.member_depth().unwrap_or(layer.thickness),
                member,
                style,
            ));
        }
    }
    for strip in &assembly.strips {
        strip_rows(&mut table, assembly, strip, end, style);
    }
    table
}

/// A piece of a path with its resistance on the winter mean.
type Found<'a> = (&'a Piece, ThermalResistance);

fn piece_of(end: &EndResult, counts: impl Fn(&PathResult, &Piece) -> bool) -> Option<Found<'_>> {
    end.paths.iter().find_map(|path| {
        let mut pieces = path
            .path
            .pieces
            .iter()
            .zip(&path.in_one_dimension().resistances);
        let found = pieces.find(|(piece, _)| counts(path, piece));
        found.map(|(piece, resistance)| (piece, *resistance))
    })
}

fn layer_row(name: &str, layer: &Layer, found: Option<Found<'_>>, style: Style) -> Vec<String> {
    let label = match &layer.content {
        Content::Solid(substance) if layer.bonded => format!("{}, bonded", substance.label),
        Content::Solid(substance) => substance.label.clone(),
        Content::Air(AirSpace::Still) => "still air".to_owned(),
        Content::Air(AirSpace::Vented) => "vented air".to_owned(),
        Content::Air(AirSpace::Ventilated) => "ventilated air".to_owned(),
    };
    let class = class_of_layer(layer).filter(|_| found.is_some());
    row(
        [name.to_owned(), label],
        layer.thickness,
        found,
        class,
        style,
    )
}

fn framing_row(
    framing: &Framing,
    depth: Length,
    found: Option<Found<'_>>,
    style: Style,
) -> Vec<String> {
    let share = fixed(framing.share.as_fraction() * 100.0, 1);
    let name = format!("framing, {share} % of its area");
    row(
        [name, framing.substance.label.clone()],
        depth,
        found,
        None,
        style,
    )
}

fn strip_rows(
    table: &mut Table,
    assembly: &Assembly,
    strip: &Strip,
    end: &EndResult,
    style: Style,
) {
    let share = fixed(strip.share.as_fraction() * 100.0, 1);
    let under = assembly
        .layers
        .get(strip.under)
        .map_or("", |layer| &layer.name);
    let in_strip = |name: &str| {
        piece_of(end, |path, piece| {
            path.path.name == strip.name && piece.name == name && piece.layer.is_none()
        })
    };
    for layer in &strip.over {
        let name = format!("over {}: {}", strip.name, layer.name);
        table.row(layer_row(&name, layer, in_strip(&layer.name), style));
    }
    let name = format!("{}, {share} % of the area, under {under}", strip.name);
    let label = format!("{}, {} wide", strip.metal.label, style.show(strip.width));
    let found = in_strip(&strip.name);
    table.row(row([name, label], strip.thickness, found, None, style));
}

/// A row from a name, a material, a thickness and what was solved.
fn row(
    words: [String; 2],
    thickness: Length,
    found: Option<Found<'_>>,
    class: Option<RetarderClass>,
    style: Style,
) -> Vec<String> {
    let mut cells: Vec<String> = words.into();
    cells.push(match thickness.as_m() > 0.0 {
        true => style.both(thickness),
        false => String::new(),
    });
    let Some((piece, resistance)) = found else {
        cells.push("not counted".to_owned());
        cells.extend(vec![String::new(); 4]);
        return cells;
    };
    let permeance = Permeance::from_si(1.0 / piece.slab.vapor_resistance);
    cells.extend([style, style.other()].map(|style| style.number(resistance)));
    cells.extend([style, style.other()].map(|style| style.number(permeance)));
    cells.push(class.map_or("", class_word).to_owned());
    cells
}

fn class_word(class: RetarderClass) -> &'static str {
    match class {
        RetarderClass::One => "I",
        RetarderClass::Two => "II",
        RetarderClass::Three => "III",
        RetarderClass::Open => "open",
    }
}

/// The unit of a permeance; a long one breaks, since its column is narrow.
fn perm_heading(style: Style) -> String {
    Dimension::Permeance.unit(style).replace("/(", "/\n(")
}

/// Every plane of a path on the winter mean, temperatures and margins in both units.
pub(super) fn planes(one: &Judged<'_>, path: &PathResult, style: Style) -> Table {
    let (own, other) = (
        Dimension::Temperature.unit(style),
        Dimension::Temperature.unit(style.other()),
    );
    let kelvin = Dimension::Difference.unit(style.other());
    let headings = [
        "plane".to_owned(),
        own.to_owned(),
        other.to_owned(),
        format!("vapor's\ndew point,\n{own}"),
        format!("dew-pt.\nmargin,\n{own}"),
        format!("leak\nmargin,\n{own}"),
        format!("\n\n{kelvin}"),
        format!("same,\nnight,\n{own}"),
        "room\nair leaks\nthere".to_owned(),
    ];
    let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
    let mut table = Table::new(&headings, 1);
    let dew = one.result().room_dew_point;
    for (n, (plane, role)) in path.winter.planes.iter().zip(path.roles.iter()).enumerate() {
        let leak = role.reached.then(|| plane.temperature - dew);
        let night = path.night.as_ref().filter(|_| role.reached);
        let night = night.map(|night| night.planes[n].temperature - dew);
        let margin = |value: Option<_>, style: Style| {
            value.map_or_else(|| "–".to_owned(), |value| style.margin_number(value))
        };
        table.row(vec![
            format!("{} {}", n + 1, path.plane_names[n]),
            style.number(plane.temperature),
            style.other().number(plane.temperature),
            plane
                .dew_point
                .map_or_else(|| "–".to_owned(), |dew| style.number(dew)),
            margin(plane.dew_point_margin, style),
            margin(leak, style),
            margin(leak, style.other()),
            margin(night, style),
            match (role.reached, role.judged) {
                (true, true) => "judged".to_owned(),
                (true, false) => "yes".to_owned(),
                (false, _) => "no".to_owned(),
            },
        ]);
    }
    table
}
