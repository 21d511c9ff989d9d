//! The chapter of the house: its fit on the road, its weight, its heat loss, every term of them.

use super::Said;
use super::content::{Chapter, Group, Item, Table};
use crate::check::house::TONGUE;
use crate::quantity::Style;
use crate::report::figure::{Subject, drawn_without};
use crate::report::house::table::OF_A_GROUP;
use crate::report::house::{heat, sentence, table, words};
use crate::study::JudgedHouse;

/// What was found, then measures, areas, heat and weight by the tables that `house` prints.
pub(super) fn chapter<'a>(one: &'a JudgedHouse<'a>, said: &mut Said<'a>) -> Chapter<'a> {
    let style = said.style;
    let mut groups = vec![picture(one), findings(one, style)];
    groups.extend(measures(one, style));
    groups.extend(head_room(one, style));
    groups.push(areas(one, style));
    groups.push(heat_loss(one, style));
    groups.push(weight(one, style));
    groups.push(origins(one, style));
    Chapter {
        name: one.name(),
        title: one.name(),
        word: Some(one.verdict.status.word()),
        face: face(one, style),
        facts: Vec::new(),
        stop: Some(one.stop),
        groups,
    }
}

/// Both views against the road's limits, the weight against the rating.
fn picture<'a>(one: &'a JudgedHouse<'a>) -> Group<'a> {
    let figures = [
        Subject::House(one),
        Subject::WidthStack(one),
        Subject::Weight(one),
    ]
    .map(Item::Figure);
    let note = Item::Note(drawn_without(one).join(" "));
    Group::drawing(
        "Fit and weight",
        figures.into_iter().chain([note]).collect(),
    )
}

/// What fits by how much and what doesn't, the worst first.
pub(super) fn face(one: &JudgedHouse<'_>, style: Style) -> String {
    let found = one.worst_first().into_iter();
    let told = found.filter(|finding| finding.check != &TONGUE);
    let sentences: Vec<String> = told.map(|finding| finding.sentence(style)).collect();
    sentences.join(" ")
}

fn findings<'a>(one: &JudgedHouse<'_>, style: Style) -> Group<'a> {
    let each = one.worst_first().into_iter().map(|finding| {
        let words = finding.sentence(style);
        Item::Verdict(
            finding.check.title.to_owned(),
            finding.status.word(),
            format!("{words} [{}]", finding.source),
        )
    });
    Group::narrow("Findings", each.collect())
}

/// A group for each measure; what they leave out stands under the first.
fn measures<'a>(one: &JudgedHouse<'_>, style: Style) -> Vec<Group<'a>> {
    let mut notes: Vec<Item<'a>> = [words::membranes(one), words::not_stated(one)]
        .into_iter()
        .flatten()
        .map(Item::Note)
        .collect();
    let each = one.measures().map(|(name, measure, limit)| {
        let print = |style| table::measure(name, measure, limit, style);
        let mut items = vec![Item::Table(in_both(print, 2, style))];
        items.append(&mut notes);
        Group::narrow(&capital(name), items)
    });
    each.collect()
}

fn head_room<'a>(one: &JudgedHouse<'_>, style: Style) -> Option<Group<'a>> {
    let room = one.result.fit.head_room?;
    let print = |style| table::head_room(&room, style);
    let mut table = in_both(print, 1, style);
    name(&mut table, 0, "at the lowest wall's inner face");
    let items = vec![
        Item::Text(sentence::head_room(one, one, style)),
        Item::Table(table),
    ];
    Some(Group::narrow("Head room", items))
}

fn areas<'a>(one: &JudgedHouse<'_>, style: Style) -> Group<'a> {
    let mut items = vec![Item::Table(table::areas(&one.result.areas, style))];
    items.extend(words::areas(one, style).map(|words| Item::Note(capital(&words) + ".")));
    Group::tables("Areas", items)
}

fn heat_loss<'a>(one: &JudgedHouse<'_>, style: Style) -> Group<'a> {
    let heat = &one.result.heat;
    let print = |style| heat::table(heat, style);
    let mut items = vec![
        Item::Text(heat::sentence(heat, style)),
        Item::Table(in_both(print, 5, style)),
        Item::Note(heat::units(style) + "."),
    ];
    if !heat.settled {
        items.push(Item::Text(words::UNSETTLED.to_owned()));
    }
    items.extend(heat::edge_words(heat, style).into_iter().map(Item::Text));
    Group::tables("Heat loss", items)
}

/// Where every transmittance comes from.
fn origins<'a>(one: &JudgedHouse<'_>, style: Style) -> Group<'a> {
    let lines = heat::origins(&one.result.heat, style).into_iter();
    Group::narrow(
        "Where U, psi and chi come from",
        lines.map(Item::Text).collect(),
    )
}

fn weight<'a>(one: &JudgedHouse<'_>, style: Style) -> Group<'a> {
    let print = |style| table::weight(&one.result.weight, style);
    let mut table = in_both(print, 5, style);
    name_sums(&mut table);
    let mut items = vec![Item::Table(table)];
    let notes = [words::included(one), words::placed(one)];
    items.extend(notes.into_iter().flatten().map(Item::Note));
    Group::tables("Weight", items)
}

/// A printed table with one of its columns again in the reader's other units. A sheet's group says
/// what the table is about, so the first column is just headed `part`.
fn in_both(print: impl Fn(Style) -> Table, column: usize, style: Style) -> Table {
    let (mut table, other) = (print(style), print(style.other()));
    let mut heading = other.headings.get(column).cloned().unwrap_or_default();
    if heading.is_empty() {
        name(&mut table, column, "value");
        heading = "in other units".to_owned();
    }
    name(&mut table, 0, "part");
    table.headings.insert(column + 1, heading);
    for (row, other) in table.rows.iter_mut().zip(&other.rows) {
        // Rows of sums may end early.
        row.resize(row.len().max(column + 1), String::new());
        let cell = other.get(column).cloned().unwrap_or_default();
        row.insert(column + 1, cell);
    }
    without_empty(&mut table);
    table
}

fn name(table: &mut Table, column: usize, words: &str) {
    if let Some(heading) = table.headings.get_mut(column) {
        words.clone_into(heading);
    }
}

/// Takes out the columns that say nothing in any row.
fn without_empty(table: &mut Table) {
    for column in (1..table.headings.len()).rev() {
        let says = |row: &Vec<String>| row.get(column).is_some_and(|cell| !cell.is_empty());
        if table.rows.iter().any(says) {
            continue;
        }
        table.headings.remove(column);
        for row in table.rows.iter_mut().filter(|row| row.len() > column) {
            row.remove(column);
        }
    }
}

/// A terminal sets the lines of a sum in, which a sheet doesn't: there the sum says so by its name.
fn name_sums(table: &mut Table) {
    let mut after_a_line = false;
    let names = table.rows.iter_mut().filter_map(|row| row.first_mut());
    for name in names {
        let line = name.strip_prefix(OF_A_GROUP).map(str::to_owned);
        let ends_a_sum = after_a_line && line.is_none();
        after_a_line = line.is_some();
        if let Some(line) = line {
            *name = line;
        }
        if ends_a_sum {
            name.push_str(", together");
        }
    }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}
