//! The chapter of an assembly.

use super::calculation::coldest_cut;
use super::content::{Chapter, Group, Item, Table};
use super::{Said, tables, words};
use crate::quantity::{Dimension, Style, fixed};
use crate::report::figure::{Subject, drawn_end, remark, shown_paths};
use crate::report::sentence::{Sites, UNSETTLED};
use crate::solve::{EndResult, PathResult};
use crate::study::Judged;

/// The section, its layers, what was found, its planes, the year, and how its numbers came about.
pub(super) fn chapter<'a>(one: &'a Judged<'a>, said: &mut Said<'a>) -> Chapter<'a> {
    let style = said.style;
    let sites = Sites(one.stops);
    let mut groups = vec![
        Group::wide("", vec![Item::Figure(Subject::Section(one))]),
        Group::tables("Layers", vec![Item::Table(tables::layers(one, style))]),
    ];
    let sources = &mut said.sources;
    groups.extend(words::findings(&one.verdict, sites, style, sources, |_| {
        false
    }));
    if one.stop().conditions.year.is_some() {
        let year = vec![Item::Figure(Subject::Year(one))];
        groups.push(Group::wide("The year", year));
    }
    let end = drawn_end(one.result());
    groups.extend(end.map(|end| planes(one, end, said)));
    groups.extend(stops(one, style));
    groups.extend(said.worked.of_assembly(one));
    Chapter {
        name: one.case.name(),
        title: one.case.name(),
        word: Some(one.verdict.status.word()),
        face: words::joined([unsettled(one), words::reason(&one.verdict, sites, style)]),
        facts: end.map_or_else(Vec::new, |end| whole(one, end, style)),
        stop: Some(one.stop()),
        groups,
    }
}

fn unsettled(one: &Judged<'_>) -> String {
    let words = if one.settled() { "" } else { UNSETTLED };
    words.to_owned()
}

/// The planes of the path that decides, or of every path drawn where all calculations are asked for.
fn planes<'a>(one: &'a Judged<'_>, end: &EndResult, said: &Said<'_>) -> Group<'a> {
    let style = said.style;
    let all = shown_paths(end);
    let decides = coldest_cut(one).map(|cut| cut.path.path.name.clone());
    let is_shown = |path: &&PathResult| {
        said.worked.is_all() || decides.as_ref().is_none_or(|name| *name == path.path.name)
    };
    let (shown, left): (Vec<&PathResult>, Vec<&PathResult>) = all.into_iter().partition(is_shown);
    let names: Vec<&str> = left.iter().map(|path| path.path.name.as_str()).collect();
    let not_shown = match names.is_empty() {
        true => String::new(),
        false => format!(". Not shown: {} (`--calculations all`)", names.join(", ")),
    };
    let mut items = Vec::new();
    for path in shown {
        items.push(Item::Caption(planes_caption(path, style) + &not_shown));
        items.push(Item::Table(tables::planes(one, path, style)));
    }
    Group::tables("Planes on the winter mean", items)
}

fn planes_caption(path: &PathResult, style: Style) -> String {
    let share = fixed(path.path.share.as_fraction() * 100.0, 1);
    let factor = path.temperature_factor.map_or_else(String::new, |factor| {
        format!(
            ", temperature factor of the room's surface {}",
            fixed(factor, 3)
        )
    });
    let total = path.in_one_dimension().total_resistance;
    let name = &path.path.name;
    format!(
        "{name}: {share} % of the area, {} air to air{factor}",
        style.both(total)
    )
}

/// U, thickness, weight.
fn whole(one: &Judged<'_>, end: &EndResult, style: Style) -> Vec<String> {
    let u = &end.transmittance;
    let both = |watts: f64| Dimension::Transmittance.both(watts, style);
    let mut lines = vec![
        format!("U by the parallel path {}.", both(u.parallel_path)),
        format!("U by isothermal planes {}.", both(u.isothermal_planes)),
    ];
    lines.push(match u.combined {
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
    lines.push(remark(one, style).trim().to_owned());
    let thickness = one.result().thickness;
    let weight = match one.result().weight {
        Some(weight) => format!("{} with framing", style.both(weight)),
        None => format!("weight not known for {}", one.result().unweighed.join(", ")),
    };
    lines.push(format!("{} thick, {weight}.", style.both(thickness)));
    lines
}

/// How it comes out at every stop of the route.
fn stops<'a>(one: &Judged<'_>, style: Style) -> Option<Group<'a>> {
    if one.route().is_empty() {
        return None;
    }
    let mut table = Table::new(&["stop", "", "what speaks there"], 3);
    for at in one.route() {
        let words = match at.stop.name == one.stop().name {
            true => "The worst: this sheet is drawn for it.".to_owned(),
            false => words::speaking(&at.verdict, Sites(one.stops), style),
        };
        let named = words.strip_prefix(&format!("{}: ", at.stop.name));
        table.row(vec![
            at.stop.name.clone(),
            at.verdict.status.word().to_owned(),
            named.unwrap_or(&words).to_owned(),
        ]);
    }
    let table = vec![Item::Table(table)];
    Some(Group::tables("At the stops of the route", table))
}
