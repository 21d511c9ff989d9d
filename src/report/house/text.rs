//! The report of `house` as text: verdict first, then variants side by side, then every term.

use super::table::{self, INDENT};
use super::{heat, sentence, words};
use crate::check::{HouseCheck, Status};
use crate::model::Project;
use crate::quantity::Style;
use crate::report::summary::WIDTH;
use crate::report::table::{Table, wrap};
use crate::study::JudgedHouse;

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
    for caution in words::CAUTIONS {
        text += &wrap(&format!("- {caution}"), "  ", WIDTH);
    }
    text
}

/// How each house comes out and why; the tables are those of `house`. Empty without a house.
pub(in crate::report) fn headlines(houses: &[JudgedHouse<'_>], style: Style) -> String {
    let Some(base) = houses.first() else {
        return String::new();
    };
    let each = houses
        .iter()
        .map(|one| format!("\n{}", headline(one, base, style)));
    each.collect()
}

fn opening(project: &Project, base: &JudgedHouse<'_>, style: Style) -> String {
    let heat = &base.result.heat;
    let night = heat.design_night.map_or_else(
        || "no design night given".to_owned(),
        |night| format!("design night {}", style.show(night)),
    );
    let stop = match base.stop.name.as_str() {
        "" => String::new(),
        name if project.stops.len() > 1 => format!(" at the coldest stop, {name}"),
        name => format!(" at {name}"),
    };
    let opening = format!(
        "{}: the house on the road, on the scale, and where its heat goes{stop}; room {}, winter mean \
         {}, {night}. Left and right are the driver's; front is the tongue's end.",
        project.title,
        style.show(heat.indoor),
        style.show(heat.winter_mean),
    );
    wrap(&opening, "", WIDTH)
}

fn headline(one: &JudgedHouse<'_>, base: &JudgedHouse<'_>, style: Style) -> String {
    let mut text = format!("{}: {}\n", one.name(), one.verdict.status.word());
    for finding in one.worst_first() {
        let told = sentence::sentence(finding, style);
        let line = format!(
            "{}, {}: {told}",
            finding.check.title(),
            finding.status.word()
        );
        text += &wrap(&line, "  ", WIDTH);
    }
    let head_room = sentence::head_room(one, base, style);
    if !head_room.is_empty() {
        text += &wrap(&head_room, "  ", WIDTH);
    }
    let lost = heat::sentence(&one.result.heat, style) + &heat::saved(one, base, style);
    text += &wrap(&lost, "  ", WIDTH);
    if !one.result.heat.settled {
        text += &format!("{INDENT}{}\n", words::UNSETTLED);
    }
    text
}

/// Every term behind the numbers of one house.
fn details(one: &JudgedHouse<'_>, style: Style) -> String {
    let result = &one.result;
    let told = |table: &Table| format!("\n{}", table.render(INDENT));
    let said =
        |words: Option<String>| words.map_or_else(String::new, |it| wrap(&it, INDENT, WIDTH));
    let mut text = format!("\n{}\n", one.name());
    for (name, measure, limit) in one.measures() {
        text += &told(&table::measure(name, measure, limit, style));
    }
    text += &said(words::membranes(one));
    text += &said(words::not_stated(one));
    if let Some(room) = &result.fit.head_room {
        text += &told(&table::head_room(room, style));
    }
    text += &told(&table::areas(&result.areas, style));
    text += &said(words::areas(one, style));
    text += &told(&table::weight(&result.weight, style));
    text += &said(words::included(one));
    text += &said(words::placed(one));
    text += &told(&heat::table(&result.heat, style));
    text += &format!("{INDENT}{}\n", heat::units(style));
    for line in heat::origins(&result.heat, style) {
        text += &wrap(&line, "    ", WIDTH);
    }
    for line in heat::edge_words(&result.heat, style) {
        text += &wrap(&line, INDENT, WIDTH);
    }
    text + &reasons(one, style)
}

fn reasons(one: &JudgedHouse<'_>, style: Style) -> String {
    let mut text = format!("{INDENT}reasons\n");
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
