//! The report of `house` as text: verdict first, then variants side by side, then every term.

use super::JudgedHouse;
use super::{heat, sentence, table};
use crate::check::{HouseCheck, Status};
use crate::model::Project;
use crate::quantity::Style;
use crate::report::summary::WIDTH;
use crate::report::table::wrap;

/// What the numbers leave out.
const CAUTIONS: [&str; 4] = [
    "Measures are sums of what the file states: tolerances of building, a leaning trailer, tires and \
     springs aren't in them. Measure the finished house before it moves. Road limits, permits and \
     ratings are for the state and the maker to say.",
    "Weight counts layers, members, openings and allowances of the file. Plates and headers beyond the \
     framing share, fasteners, glue, furniture, water and people aren't counted. Densities are means of \
     handbooks: design loads for panels and gypsum board run up to a third higher. Weigh the house.",
    "Heat loss is through the skin alone: air that leaks or is exchanged on purpose, the sun and what \
     edges no detail or psi is given for are left out. It doesn't size a heater.",
    "Not structural. Local codes govern; licensed practice where it is required.",
];

/// The report of `house`; of one variant alone where its name is given, `as drawn` for none.
#[must_use]
pub fn house_text(
    project: &Project,
    houses: &[JudgedHouse<'_>],
    only: Option<&str>,
    style: Style,
) -> String {
    let Some(base) = houses.first() else {
        return String::new();
    };
    let is_shown = |one: &&JudgedHouse<'_>| only.is_none_or(|name| one.variant() == name);
    let shown: Vec<&JudgedHouse<'_>> = houses.iter().filter(is_shown).collect();
    let mut text = opening(project, base, style);
    for one in &shown {
        text += &format!("\n{}", headline(one, base, style));
    }
    if shown.len() > 1 {
        text += "\nside by side\n";
        text += &table::compared(houses, style);
        text += "  lost: head room at the same overall height; of edges: their part of the heat loss.\n";
    }
    for one in &shown {
        text += &heat::covered(one, base, style);
    }
    if let Some(first) = shown.first() {
        text += &details(first, style);
    }
    if shown.len() > 1 {
        text += "\nThe tables of a variant: `--variant NAME`.\n";
    }
    text += "\ncautions\n";
    for caution in CAUTIONS {
        text += &wrap(&format!("- {caution}"), "  ", WIDTH);
    }
    text
}

fn opening(project: &Project, base: &JudgedHouse<'_>, style: Style) -> String {
    let heat = &base.result.heat;
    let night = heat.design_night.map_or_else(
        || "no design night given".to_owned(),
        |night| format!("design night {}", style.temperature(night)),
    );
    let stop = match base.stop.name.as_str() {
        "" => String::new(),
        name if project.stops.len() > 1 => format!(" at the coldest stop, {name}"),
        name => format!(" at {name}"),
    };
    let words = format!(
        "{}: the house on the road, on the scale, and where its heat goes{stop}; room {}, winter mean \
         {}, {night}. Left and right are the driver's; front is the tongue's end.",
        project.title,
        style.temperature(heat.indoor),
        style.temperature(heat.winter_mean),
    );
    wrap(&words, "", WIDTH)
}

fn headline(one: &JudgedHouse<'_>, base: &JudgedHouse<'_>, style: Style) -> String {
    let mut text = format!("{}: {}\n", one.name(), one.verdict.status.word());
    let mut findings: Vec<_> = one.verdict.findings.iter().collect();
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.status.severity()));
    for finding in findings {
        let words = sentence::sentence(finding, style);
        let line = format!(
            "{}, {}: {words}",
            finding.check.title(),
            finding.status.word()
        );
        text += &wrap(&line, "  ", WIDTH);
    }
    let head_room = sentence::head_room(one, base, style);
    if !head_room.is_empty() {
        text += &wrap(&head_room, "  ", WIDTH);
    }
    text += &wrap(&heat::sentence(one, base, style), "  ", WIDTH);
    if !one.result.heat.settled {
        text += "  A detail's error bars are wider than asked for: don't rely on its psi.\n";
    }
    text
}

/// Every term behind the numbers of one house.
fn details(one: &JudgedHouse<'_>, style: Style) -> String {
    let (fit, road) = (&one.result.fit, &one.case.house.road);
    let mut text = format!("\n{}\n", one.name());
    text += &table::measure("overall width", fit.width.as_ref(), road.width, style);
    text += &table::measure("overall height", fit.height.as_ref(), road.height, style);
    text += &table::measure("overall length", fit.length.as_ref(), road.length, style);
    if fit.width.is_some() {
        text += "  Membranes under 1 mm take no room.\n";
    }
    if !fit.not_stated.is_empty() {
        let words = format!(
            "Not stated and taken as nothing: {}.",
            fit.not_stated.join(", ")
        );
        text += &wrap(&words, "  ", WIDTH);
    }
    text += &table::head_room(one, style);
    text += &table::areas(one, style);
    text += &table::weight(&one.result.weight, style);
    text += &included(one);
    text += &placed(one);
    text += &heat::table(&one.result.heat, style);
    text += &heat::origins(&one.result.heat, style);
    text += &heat::edge_words(&one.result.heat, style);
    text += "  reasons\n";
    for finding in &one.verdict.findings {
        let line = format!(
            "{}, {}: {} [{}]",
            finding.status.word(),
            finding.check.title(),
            sentence::sentence(finding, style),
            finding.source
        );
        let told = finding.status != Status::Note || finding.check != HouseCheck::Tongue;
        if told {
            text += &wrap(&line, "    ", WIDTH);
        }
    }
    text
}

/// What the tongue's share takes at its middle.
fn placed(one: &JudgedHouse<'_>) -> String {
    let names = one
        .result
        .weight
        .tongue
        .iter()
        .flat_map(|tongue| &tongue.at_centroid);
    let names: Vec<&str> = names.map(String::as_str).collect();
    match names.is_empty() {
        true => String::new(),
        false => {
            let words = format!(
                "For the tongue's share taken at their middles, since their places aren't stated: {}.",
                names.join(", ")
            );
            wrap(&words, "  ", WIDTH)
        }
    }
}

/// What the trailer's own weight holds already.
fn included(one: &JudgedHouse<'_>) -> String {
    let includes = &one.case.house.trailer.includes;
    if includes.is_empty() {
        return String::new();
    }
    let words = format!(
        "Weighed with the trailer, not here: {}.",
        includes.join(", ")
    );
    wrap(&words, "  ", WIDTH)
}
