//! A path as a table: its layers, and what holds at each one's outer face.

use super::sentence::UNSETTLED;
use super::table::Table;
use super::text::Text;
use crate::quantity::{Dimension, Permeance, Style, TemperatureDifference, fixed};
use crate::solve::{EndResult, PathResult};
use crate::study::Judged;

pub(super) fn perm_heading(style: Style) -> &'static str {
    // The metric unit is too long for a heading.
    style.pick("perm", "permeance")
}

/// Layers with their resistances, and what holds at each one's outer face: a reviewer can add up.
pub(super) fn path_table(
    path: &PathResult,
    end: &EndResult,
    one: &Judged<'_>,
    style: Style,
) -> Text {
    let profile = path.in_one_dimension();
    let mut text = Text::default();
    text.say(
        2,
        format!(
            "{}: {} % of the area, {} in all, films included",
            path.path.name,
            fixed(path.path.share.as_fraction() * 100.0, 1),
            style.show(profile.total_resistance),
        ),
    );
    if path.by_strip.is_some() {
        let words = "temperatures by the two-dimensional detail, R by the layers";
        text.say(4, words);
    }
    let perm = perm_heading(style);
    let header = [
        "inside to outside",
        "thickness",
        Dimension::Resistance.unit(style),
        perm,
        Dimension::Temperature.unit(style),
        "dew pt",
        "margin",
        "leak",
        "night",
    ];
    let mut table = Table::new(&header, 1);
    let film = end.boundary.interior_film.as_si();
    let state = |n: usize| plane_cells(path, n, one, style);
    table.row(
        [
            vec![
                "room air film".into(),
                String::new(),
                Dimension::Resistance.number(film, style),
                String::new(),
            ],
            state(0),
        ]
        .concat(),
    );
    for (n, piece) in path.path.pieces.iter().enumerate() {
        let sheet = Permeance::from_si(1.0 / piece.slab.vapor_resistance);
        let name = match piece.bonded {
            true => format!("{} (bonded)", piece.name),
            false => piece.name.clone(),
        };
        let thickness = if piece.thickness.as_m() > 0.0 {
            style.show(piece.thickness)
        } else {
            String::new()
        };
        let cells = vec![
            name,
            thickness,
            Dimension::Resistance.number(profile.resistances[n].as_si(), style),
            style.number(sheet),
        ];
        table.row([cells, state(n + 1)].concat());
    }
    let layers: f64 = profile.resistances.iter().map(|r| r.as_si()).sum();
    let exterior = profile.total_resistance.as_si() - layers - film;
    let name = if path.path.ends_at_ventilated_air {
        "film to the gap"
    } else {
        "outdoor air film"
    };
    table.row(vec![
        name.into(),
        String::new(),
        Dimension::Resistance.number(exterior, style),
    ]);
    text.table(2, table);
    if let Some(factor) = path.temperature_factor {
        let factor = fixed(factor, 3);
        text.say(
            4,
            format!("temperature factor of the room surface: {factor}"),
        );
    }
    for least in &path.winter.inner_minima {
        let words = format!(
            "least margin inside {}: {} at {} % of its depth",
            path.path.pieces[least.slab].name,
            style.margin(least.margin),
            fixed(least.position * 100.0, 0),
        );
        text.say(4, words);
    }
    if !profile.converged {
        text.say(4, UNSETTLED);
    }
    text
}

/// Temperature, dew point of the vapor, dew-point margin, leak margin, the night's leak margin.
fn plane_cells(path: &PathResult, plane: usize, one: &Judged<'_>, style: Style) -> Vec<String> {
    let state = &path.winter.planes[plane];
    let dew_point = one.result().room_dew_point;
    let reached = path.roles[plane].reached;
    let margin = |margin: Option<TemperatureDifference>| {
        margin.map_or_else(|| "-".to_owned(), |margin| style.margin_number(margin))
    };
    let leak = reached.then(|| state.temperature - dew_point);
    let night = path.night.as_ref().filter(|_| reached);
    vec![
        style.number(state.temperature),
        state
            .dew_point
            .map_or_else(|| "-".into(), |dew| style.number(dew)),
        margin(state.dew_point_margin),
        margin(leak),
        margin(night.map(|night| night.planes[plane].temperature - dew_point)),
    ]
}
