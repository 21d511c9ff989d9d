//! Details in three dimensions as text: the verdict first, then heat flows and temperatures with their
//! bars, then the reasons.

use super::detail_text::{Headline, headline_of, places, points_of, reasons};
use super::table::Table;
use super::text::Text;
use crate::quantity::{Dimension, Style, fixed};
use crate::solve::detail::{BoxesFailure, BoxesResult};
use crate::study::JudgedBoxes;

/// Name and verdict, then the sentence that decides.
pub(super) fn headline(one: &JudgedBoxes<'_>, style: Style) -> Text {
    let at_stops = one.sites.iter();
    let at_stops = at_stops.map(|at| (at.stop.name.as_str(), at.verdict.status));
    let told = Headline {
        name: one.name(),
        verdict: &one.verdict,
        stops: one.stops,
        speaks: &one.here().stop.name,
        failure: one.here().result.as_ref().err().map(failure),
        settled: one.settled(),
        at_stops: at_stops.collect(),
    };
    headline_of(&told, style)
}

/// The numbers and the reasons.
pub(super) fn section(one: &JudgedBoxes<'_>, style: Style) -> Text {
    let mut text = Text::default();
    text.blank();
    text.line(one.name());
    if let Ok(result) = &one.here().result {
        if !one.verdict.findings.is_empty() {
            text.table(2, places(&one.verdict.findings, "x, y, z", style));
        }
        text.table(2, surfaces(result, style));
        text.say(2, points_of(&result.points, style));
        text.table(2, flows(result, style));
        text.say(2, coupling(result, style));
        text.say(2, reckoning(result));
    }
    if !one.verdict.findings.is_empty() {
        text.add(reasons(&one.verdict, one.stops, style));
    }
    text
}

/// What meets each air, with the usual films: as heat flows are.
fn surfaces(result: &BoxesResult, style: Style) -> Table {
    let unit = Dimension::Temperature.unit(style);
    let headings = ["usual films", "coldest, ", "±", "factor", "warmest, ", "±"];
    let headings = headings.map(|heading| match heading.ends_with(' ') {
        true => format!("{heading}{unit}"),
        false => heading.to_owned(),
    });
    let mut table = Table::new(&headings.each_ref().map(String::as_str), 1);
    for surface in &result.surfaces {
        let number = |celsius: f64| fixed(Dimension::Temperature.value(celsius, style), 2);
        let (cold, warm) = (&surface.coldest.temperature, &surface.warmest.temperature);
        let factor = result.between.factor(cold.value);
        table.row(vec![
            surface.name.clone(),
            number(cold.value),
            style.error_bar_number(cold.bar),
            factor.map_or_else(|| "-".to_owned(), |factor| fixed(factor, 3)),
            number(warm.value),
            style.error_bar_number(warm.bar),
        ]);
    }
    table
}

fn flows(result: &BoxesResult, style: Style) -> Table {
    let unit = Dimension::HeatFlow.unit(style);
    let mut table = Table::new(&["heat into the solid, from", unit, "±"], 1);
    for (name, flow) in &result.flows {
        table.row(vec![
            name.clone(),
            Dimension::HeatFlow.number(flow.value, style),
            Dimension::HeatFlow.fine_number(flow.bar, style),
        ]);
    }
    table
}

fn coupling(result: &BoxesResult, style: Style) -> String {
    result.coupling.as_ref().map_or_else(String::new, |found| {
        let told = style.with_bar(Dimension::PointTransmittance, found.value, found.bar);
        format!("coupling coefficient {told}.")
    })
}

fn reckoning(result: &BoxesResult) -> String {
    let cells = result.cells.map(|cells| cells.to_string()).join(", ");
    format!("Conduction in three dimensions on grids of {cells} cells (ISO 10211). Not drawn.")
}

/// Why there is no result.
pub(super) fn failure(why: &BoxesFailure) -> String {
    match why {
        BoxesFailure::Parts(problems) => {
            let words: Vec<String> = problems.iter().map(ToString::to_string).collect();
            format!("It can't be put together: {}.", words.join("; "))
        }
        BoxesFailure::Volume(error) => format!("It can't be solved: {error}."),
    }
}
