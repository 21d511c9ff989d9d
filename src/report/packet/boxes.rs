//! The chapter of a detail in three dimensions: tables, since nothing of it is drawn.

use super::content::{Chapter, Group, Item, Table};
use super::{Said, detail, words};
use crate::quantity::{Dimension, Style};
use crate::report::boxes_text::failure;
use crate::report::sentence::Sites;
use crate::solve::detail::BoxesResult;
use crate::study::JudgedBoxes;

/// Its places with their margins, what was found, its heat flows.
pub(super) fn chapter<'a>(one: &'a JudgedBoxes<'a>, said: &mut Said<'a>) -> Chapter<'a> {
    let style = said.style;
    let (here, sites) = (one.here(), Sites(one.stops));
    let mut groups: Vec<Group<'a>> = Vec::new();
    groups.extend(detail::places(&one.verdict.findings, style));
    let sources = &mut said.sources;
    let is_place = detail::is_place;
    groups.extend(words::findings(
        &one.verdict,
        sites,
        style,
        sources,
        is_place,
    ));
    groups.extend(here.result.as_ref().ok().map(|found| heat(found, style)));
    Chapter {
        name: one.name(),
        title: one.name(),
        word: Some(one.verdict.status.word()),
        face: match &here.result {
            Ok(_) => words::reason(&one.verdict, sites, style),
            Err(why) => failure(why),
        },
        facts: Vec::new(),
        stop: Some(here.stop),
        groups,
    }
}

/// Heat from every air and held face into the solid, and what it comes to by degree.
fn heat<'a>(result: &BoxesResult, style: Style) -> Group<'a> {
    let (own, other) = (
        Dimension::HeatFlow.unit(style),
        Dimension::HeatFlow.unit(style.other()),
    );
    let bar = format!("± {own}");
    let mut table = Table::new(&["heat into the solid, from", own, other, &bar], 1);
    for (name, flow) in &result.flows {
        table.row(vec![
            name.clone(),
            Dimension::HeatFlow.number(flow.value, style),
            Dimension::HeatFlow.number(flow.value, style.other()),
            Dimension::HeatFlow.fine_number(flow.bar, style),
        ]);
    }
    let coupling = result.coupling.as_ref().map(|found| {
        let told = style.with_bar(Dimension::PointTransmittance, found.value, found.bar);
        Item::Text(format!("Coupling coefficient {told}."))
    });
    let items = std::iter::once(Item::Table(table)).chain(coupling);
    Group::tables("Heat", items.collect())
}
