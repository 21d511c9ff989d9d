//! Details side by side: floor, wood by name, heat flow and psi, each with its error bar.

use super::table::Table;
use crate::quantity::{Dimension, Style, Temperature};
use crate::solve::conduction::Coldest;
use crate::solve::detail::DetailResult;
use crate::study::JudgedDetail;

/// Temperatures of the coldest places, then heat. Empty without details.
pub(super) fn tables(details: &[JudgedDetail<'_>], style: Style) -> Vec<Table> {
    match details.is_empty() {
        true => Vec::new(),
        false => vec![temperatures(details, style), heat(details, style)],
    }
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

fn temperatures(details: &[JudgedDetail<'_>], style: Style) -> Table {
    let names = columns(details);
    let mut header = vec![Dimension::Temperature.unit(style).to_owned() + " at the coldest place"];
    header.extend(names.iter().cloned());
    let mut table = Table::new(&header, 1);
    for one in details {
        let result = one.result().as_ref().ok();
        let cell = |name: &String| {
            let at = result.and_then(|result| place(result, name));
            at.map_or_else(|| "-".to_owned(), |at| with_bar(at, style))
        };
        let cells = names.iter().map(cell);
        table.row(std::iter::once(one.name()).chain(cells).collect());
    }
    table
}

fn with_bar((celsius, bar): (f64, f64), style: Style) -> String {
    let value = style.number(Temperature::from_celsius(celsius));
    format!("{value} ± {}", style.error_bar_number(bar))
}

/// Heat flow and psi, in both units.
fn heat(details: &[JudgedDetail<'_>], style: Style) -> Table {
    let header = ["", "verdict", "heat flow", "psi, inside dimensions"];
    let mut table = Table::new(&header, 1);
    let missing = || "-".to_owned();
    for one in details {
        let result = one.result().as_ref().ok();
        let flow = result.map(|result| &result.conduction.heat_flow);
        let psi = result.and_then(|result| result.psi.as_ref());
        table.row(vec![
            one.name(),
            one.verdict.status.word().into(),
            flow.map_or_else(missing, |flow| {
                style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar)
            }),
            psi.map_or_else(missing, |psi| {
                style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar)
            }),
        ]);
    }
    table
}
