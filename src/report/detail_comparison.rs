//! Details side by side: floor, wood by name, heat flow and psi, each with its error bar.

use super::path_table::short;
use super::table::Table;
use crate::quantity::{Dimension, Style, Temperature};
use crate::solve::conduction::Coldest;
use crate::solve::detail::DetailResult;
use crate::study::JudgedDetail;

/// Two tables: temperatures of the coldest places, then heat. Empty without details.
pub(super) fn tables(details: &[JudgedDetail<'_>], style: Style) -> String {
    if details.is_empty() {
        return String::new();
    }
    let mut text = format!("\n{}", temperatures(details, style));
    text += &format!("\n{}", heat(details, style));
    text
}

/// Names of surfaces and wood parts in the order they first occur.
fn columns(details: &[JudgedDetail<'_>]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for result in details.iter().filter_map(|one| one.result().as_ref().ok()) {
        let floors = result.surfaces.iter().map(|surface| &surface.name);
        let wood = result.wood.iter().map(|part| &part.name);
        let corner = result.wood_at_corner().iter().map(|spot| &spot.name);
        for name in floors.chain(wood).chain(corner) {
            if !names.contains(name) {
                names.push(name.clone());
            }
        }
    }
    names
}

/// A place's temperature, °C, and its bar, K.
fn place(result: &DetailResult, name: &str) -> Option<(f64, f64)> {
    let told = |coldest: &Coldest| (coldest.point.temperature, coldest.bar);
    let mut surfaces = result.surfaces.iter();
    let mut surface = || {
        let named = surfaces.find(|surface| surface.name == name);
        named.map(|surface| told(&surface.usual))
    };
    let wood = || {
        let part = result.wood.iter().find(|part| part.name == name)?;
        let reached = part.reached.as_ref().map(|(at, _)| at);
        reached.or(part.coldest.as_ref()).map(told)
    };
    let corner = || {
        let mut spots = result.wood_at_corner().iter();
        let spot = spots.find(|spot| spot.name == name)?;
        Some((spot.temperature, spot.bar))
    };
    surface().or_else(wood).or_else(corner)
}

fn temperatures(details: &[JudgedDetail<'_>], style: Style) -> String {
    let names = columns(details);
    let blocks = names.chunks(3).map(|names| {
        let mut header =
            vec![Dimension::Temperature.unit(style).to_owned() + " at the coldest place"];
        header.extend(names.iter().map(|name| short(name, 18)));
        let header: Vec<&str> = header.iter().map(String::as_str).collect();
        let mut table = Table::new(&header, 1);
        for one in details {
            let mut row = vec![short(&one.name(), 40)];
            row.extend(names.iter().map(|name| {
                let at = one
                    .result()
                    .as_ref()
                    .ok()
                    .and_then(|result| place(result, name));
                at.map_or_else(|| "-".to_owned(), |at| with_bar(at, style))
            }));
            table.row(row);
        }
        table.render("  ")
    });
    blocks.collect::<Vec<_>>().join("\n")
}

fn with_bar((celsius, bar): (f64, f64), style: Style) -> String {
    let value = style.number(Temperature::from_celsius(celsius));
    format!("{value} ± {}", style.error_bar_number(bar))
}

/// Heat flow and psi in both units: one table each, since both are wide.
fn heat(details: &[JudgedDetail<'_>], style: Style) -> String {
    let mut flows = Table::new(&["", "verdict", "heat flow"], 1);
    let mut psis = Table::new(&["", "psi, inside dimensions"], 1);
    let missing = || "-".to_owned();
    for one in details {
        let result = one.result().as_ref().ok();
        let flow = result.map(|result| &result.conduction.heat_flow);
        let psi = result.and_then(|result| result.psi.as_ref());
        flows.row(vec![
            short(&one.name(), 40),
            one.verdict.status.word().into(),
            flow.map_or_else(missing, |flow| {
                style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar)
            }),
        ]);
        psis.row(vec![
            short(&one.name(), 38),
            psi.map_or_else(missing, |psi| {
                style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar)
            }),
        ]);
    }
    format!("{}\n{}", flows.render("  "), psis.render("  "))
}
