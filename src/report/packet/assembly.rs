//! The chapter of an assembly.

use super::content::{Chapter, Group, Item, Order};
use super::{tables, words};
use crate::model::Project;
use crate::quantity::{Dimension, Style, fixed};
use crate::report::figure::{Subject, drawn_end, remark, shown_paths};
use crate::report::sentence::{Sites, UNSETTLED};
use crate::report::short::in_short;
use crate::solve::EndResult;
use crate::study::{AtSite, Judged};

/// The section, its layers and planes, the year, what was found and how.
pub(super) fn chapter<'a>(project: &'a Project, one: &'a Judged<'a>, style: Style) -> Chapter<'a> {
    let conditions = &one.stop().conditions;
    let note = Item::Note(remark(one, style).trim().to_owned());
    let section = vec![Item::Figure(Subject::Section(one)), note];
    let mut groups = vec![
        Group::wide("Section", section),
        Group::wide("Layers", vec![Item::Table(tables::layers(one, style))]),
    ];
    if let Some(end) = drawn_end(one.result()) {
        groups.push(planes(one, end, style));
        groups.push(whole(one, end, style));
    }
    if conditions.year.is_some() {
        groups.push(Group::wide(
            "The year",
            vec![Item::Figure(Subject::Year(one))],
        ));
    }
    if !one.route().is_empty() {
        groups.push(stops(one, style));
    }
    groups.push(words::findings(&one.verdict, Sites(one.stops), style));
    groups.push(words::methods(&words::METHODS));
    groups.push(words::caution_group([&one.case.assembly], &project.stops));
    Chapter {
        name: one.case.name(),
        order: Order::Across,
        title: one.case.name(),
        word: Some(one.verdict.status.word()),
        face: words::joined([
            unsettled(one),
            words::reason(&one.verdict, Sites(one.stops), style),
            in_short(&one.verdict, Sites(one.stops), style),
        ]),
        stop: Some(one.stop()),
        groups,
    }
}

fn unsettled(one: &Judged<'_>) -> String {
    let words = if one.settled() { "" } else { UNSETTLED };
    words.to_owned()
}

/// A table of planes for each path drawn.
fn planes<'a>(one: &'a Judged<'_>, end: &EndResult, style: Style) -> Group<'a> {
    let shown = shown_paths(end).into_iter().flat_map(|path| {
        let share = fixed(path.path.share.as_fraction() * 100.0, 1);
        let factor = path.temperature_factor.map_or_else(String::new, |factor| {
            format!(
                ", temperature factor of the room's surface {}",
                fixed(factor, 3)
            )
        });
        let total = path.in_one_dimension().total_resistance;
        let name = format!(
            "{}: {share} % of the area, {} air to air{factor}",
            path.path.name,
            style.both(total)
        );
        [
            Item::Caption(name),
            Item::Table(tables::planes(one, path, style)),
        ]
    });
    Group::wide("Planes on the winter mean", shown.collect())
}

/// U, thickness, weight.
fn whole<'a>(one: &Judged<'_>, end: &EndResult, style: Style) -> Group<'a> {
    let u = &end.transmittance;
    let both = |watts: f64| Dimension::Transmittance.both(watts, style);
    let mut items = vec![
        format!("U by the parallel path {}.", both(u.parallel_path)),
        format!("U by isothermal planes {}.", both(u.isothermal_planes)),
    ];
    items.push(match u.combined {
        Some(combined) => format!(
            "U by the combined method {}, error at most {} %.",
            both(combined),
            fixed(u.combined_error * 100.0, 1)
        ),
        None => format!(
            "The combined method isn't applicable (R'/R'' {}).",
            fixed(u.ratio, 2)
        ),
    });
    let thickness = one.result().thickness;
    items.push(format!("{} thick.", style.both(thickness)));
    items.push(match one.result().weight {
        Some(weight) => format!("{} with framing.", style.both(weight)),
        None => format!(
            "Weight not known for {}.",
            one.result().unweighed.join(", ")
        ),
    });
    Group::narrow("As a whole", items.into_iter().map(Item::Text).collect())
}

/// How it comes out at every stop of the route.
fn stops<'a>(one: &Judged<'_>, style: Style) -> Group<'a> {
    let each = one.route().iter().map(|at: &AtSite<'_>| {
        let words = match at.stop.name == one.stop().name {
            true => "The worst: this sheet is drawn for it.".to_owned(),
            false => words::reason(&at.verdict, Sites(one.stops), style),
        };
        Item::Verdict(at.stop.name.clone(), at.verdict.status.word(), words)
    });
    Group::narrow("At the stops of the route", each.collect())
}
