//! The chapter of a detail in three dimensions: tables, since nothing of it is drawn.

use super::content::{Chapter, Group, Item, Order, Table};
use super::{detail, words};
use crate::model::Project;
use crate::quantity::{Dimension, Style};
use crate::report::boxes_text::failure;
use crate::report::sentence::Sites;
use crate::solve::detail::BoxesResult;
use crate::study::JudgedBoxes;

/// Its places with their margins, its heat flows, what was found and how.
pub(super) fn chapter<'a>(
    project: &'a Project,
    one: &'a JudgedBoxes<'a>,
    style: Style,
) -> Chapter<'a> {
    let here = one.here();
    let mut groups: Vec<Group<'a>> = Vec::new();
    groups.extend(detail::places(&one.verdict.findings, style));
    groups.extend(here.result.as_ref().ok().map(|found| heat(found, style)));
    groups.push(words::findings(&one.verdict, Sites(one.stops), style));
    groups.push(words::methods(&words::BOXES_METHODS));
    let assemblies = project.cases.iter().map(|case| &case.assembly);
    groups.push(words::caution_group(assemblies, &project.stops));
    Chapter {
        name: one.name(),
        order: Order::Across,
        title: one.name(),
        word: Some(one.verdict.status.word()),
        face: match &here.result {
            Ok(_) => words::reason(&one.verdict, Sites(one.stops), style),
            Err(why) => failure(why),
        },
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
    Group::wide("Heat", items.collect())
}
