//! The year of the plane that decides, month by month, so that a reviewer can follow it.

use super::table::Table;
use super::text::Text;
use crate::check::{self, Status};
use crate::quantity::{
    ArealDensity, Dimension, Permeance, Style, Temperature, fixed, month_name, month_short,
};
use crate::solve::PathResult;
use crate::solve::year::{WaterYear, Year};
use crate::study::Judged;

/// The table of the judged plane of the yearly balance; empty without a climate.
pub(super) fn table(one: &Judged<'_>, style: Style) -> Text {
    let mut text = Text::default();
    let Some((path, year, plane)) = decisive(one) else {
        return text;
    };
    let Some(months) = one.stop().conditions.year.as_ref() else {
        return text;
    };
    let heading = format!(
        "the year at {} ({}): outdoors, room, the plane, and the water there in {}, by diffusion",
        path.plane_names[plane],
        path.path.name,
        Dimension::Water.unit(style)
    );
    let unit = Dimension::Temperature.unit(style);
    let header = [
        "", unit, "% out", unit, "% room", unit, "% there", "gained", "held",
    ];
    let mut table = Table::new(&header, 1);
    let water = |kg: f64| Dimension::Water.number(kg, style);
    for (n, state) in months.iter().enumerate() {
        let there = &year.months[n];
        let humidity = there.humidity(plane).map_or_else(|| "-".into(), percent);
        let WaterYear { change, held, .. } = &year.planes[plane];
        table.row(vec![
            month_short(n).into(),
            style.number(state.outdoor.temperature),
            percent(state.outdoor.humidity.as_fraction()),
            style.number(state.indoor.temperature),
            percent(state.indoor.humidity.as_fraction()),
            style.number(Temperature::from_celsius(there.temperatures[plane])),
            humidity,
            water(change[n]),
            water(held[n]),
        ]);
    }
    text.say(2, heading);
    text.table(4, table);
    text.say(4, flows(path, year, plane, style));
    text
}

/// Pressures and flows of the most humid month: a reviewer can follow the vapor through the layers.
fn flows(path: &PathResult, year: &Year, plane: usize, style: Style) -> String {
    let humidity = |n: &usize| year.months[*n].humidity(plane).unwrap_or(0.0);
    let Some(most) = (0..12).max_by(|a, b| humidity(a).total_cmp(&humidity(b))) else {
        return String::new();
    };
    let month = &year.months[most];
    let named = |(name, pressure): (&String, &Option<f64>)| {
        let value = pressure.map_or_else(|| "-".into(), |pa| fixed(pa, 0));
        format!("{name} {value}")
    };
    let pressures: Vec<String> = path
        .plane_names
        .iter()
        .zip(&month.pressures)
        .map(named)
        .collect();
    let permeances = path
        .path
        .pieces
        .iter()
        .enumerate()
        .filter_map(|(n, piece)| {
            let permeance = Permeance::from_si(year.permeance(most, n)?);
            Some(format!("{} {}", piece.name, style.show(permeance)))
        });
    let permeances: Vec<String> = permeances.collect();
    let water = |kg: f64| style.water(ArealDensity::from_si(kg.abs()));
    let toward = |kg: f64, side: &str| match kg >= 0.0 {
        true => format!("{} outward", water(kg)),
        false => format!("{} {side}", water(kg)),
    };
    let mut words = format!(
        "{}, the most humid month there, vapor pressures in Pa: {}. In the month {} passes the \
         room's surface, {} the outer surface.",
        month_name(most),
        pressures.join(", "),
        toward(month.vapor_in, "into the room"),
        toward(month.vapor_out, "inward"),
    );
    if !permeances.is_empty() {
        words += &format!(
            " Permeances in that month, by the humidity of each layer: {}.",
            permeances.join(", ")
        );
    }
    words
}

fn percent(fraction: f64) -> String {
    let number = fixed(fraction * 100.0, 0);
    // What stands below saturation must not look saturated.
    match (number.as_str(), fraction < 1.0 - 1e-9) {
        ("100", true) => "<100".into(),
        _ => number,
    }
}

/// The path and plane of the judged finding on the year.
fn decisive<'a>(one: &'a Judged<'_>) -> Option<(&'a PathResult, &'a Year, usize)> {
    let judged = |finding: &&crate::check::Finding| {
        finding.check == &check::year::CHECK && finding.status != Status::Note
    };
    let finding = one.here().verdict.findings.iter().find(judged)?;
    let (path, plane) = one.plane_of(finding)?;
    Some((path, path.year.as_ref()?, plane))
}
