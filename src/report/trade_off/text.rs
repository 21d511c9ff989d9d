//! The options as tables of text.

use std::cmp::Ordering;

use crate::check::trade_off::compare;
use crate::quantity::{ArealDensity, Dimension, Length, Mass, Style, TemperatureDifference, fixed};
use crate::report::Text;
use crate::report::table::Table;
use crate::report::text::short;
use crate::study::trade_off::{Column, ColumnKind, Part, PartTable, TradeOff, Value, verdict_word};

/// Characters of a site's name.
const SITE: usize = 17;

/// The tables of the options, which of them are dominated, and what isn't known.
#[must_use]
pub fn trade_off_text(options: &TradeOff, style: Style) -> Text {
    let mut text = Text::default();
    text.blank();
    text.line("options, each with everything it changes");
    for table in &options.tables {
        text.table(2, options_table(options, table, style));
        text.blank();
    }
    for line in dominated(options).into_iter().chain(words(options)) {
        text.say(2, line);
    }
    text
}

/// The options as rows of one table.
fn options_table(options: &TradeOff, table: &PartTable, style: Style) -> Table {
    let count = options.options.len();
    let heading = match &table.part {
        Part::Whole => "",
        Part::Assembly(name) | Part::Detail(name) => name,
    };
    let names = (0..count).map(|n| format!("{} {}", n + 1, options.name(n)));
    let names = std::iter::once(heading.to_owned()).chain(names).collect();
    let mut columns: Vec<Vec<String>> = vec![names];
    let cells = |column| cells(column, options, style);
    columns.extend(table.columns.iter().map(cells));
    if table.part == Part::Whole && count > 1 {
        columns.push(marks(options));
    }
    let row = |n: usize| -> Vec<String> { columns.iter().map(|cells| cells[n].clone()).collect() };
    let mut table = Table::new(&row(0), 1);
    (1..=count).for_each(|n| table.row(row(n)));
    table
}

/// A column's header and its cells.
fn cells(column: &Column, options: &TradeOff, style: Style) -> Vec<String> {
    let title = column.kind.title();
    let unit = match column.kind {
        ColumnKind::Transmittance => Dimension::Transmittance.unit(style).to_owned(),
        ColumnKind::Psi => Dimension::LinearTransmittance.unit(style).to_owned(),
        ColumnKind::Peak => Dimension::Water.unit(style).to_owned(),
        ColumnKind::Weight => Dimension::Mass.unit(style).to_owned(),
        ColumnKind::PricePerArea => options
            .currency
            .map_or_else(String::new, |currency| style.price_per_area_unit(currency)),
        ColumnKind::Price => options
            .currency
            .map_or_else(String::new, |currency| currency.code().to_owned()),
        // Each value has its own unit, or none.
        ColumnKind::Verdict
        | ColumnKind::Road
        | ColumnKind::LeakMargin
        | ColumnKind::DewPointMargin
        | ColumnKind::LeastMargin
        | ColumnKind::DaysToDry
        | ColumnKind::Thickness
        | ColumnKind::HeadRoomLost
        | ColumnKind::Width
        | ColumnKind::WeightPerArea => String::new(),
    };
    let header = match unit.as_str() {
        "" => title.to_owned(),
        unit if column.kind == ColumnKind::PricePerArea => unit.to_owned(),
        unit => format!("{title}, {unit}"),
    };
    let mut cells = vec![header];
    let values = column.values.iter();
    cells.extend(values.map(|value| cell(column.kind, value, style)));
    cells
}

/// A value as it stands in a table.
pub(in crate::report) fn cost(kind: ColumnKind, value: &Value, style: Style) -> String {
    cell(kind, value, style)
}

fn cell(kind: ColumnKind, value: &Value, style: Style) -> String {
    let site = value.site.as_ref();
    let site = site.map_or_else(String::new, |site| format!(", {}", short(site, SITE)));
    match (value.known, value.at_least) {
        (Some((low, high)), _) => known(kind, low, high, style) + &site,
        (None, Some(least)) => format!("≥ {}", known(kind, least, least, style)),
        (None, None) => "-".into(),
    }
}

fn known(kind: ColumnKind, low: f64, high: f64, style: Style) -> String {
    match kind {
        ColumnKind::Verdict | ColumnKind::Road => verdict_word(low).into(),
        ColumnKind::LeakMargin | ColumnKind::DewPointMargin | ColumnKind::LeastMargin => {
            style.margin(TemperatureDifference::from_kelvin(low))
        }
        ColumnKind::Peak => Dimension::Water.number(low, style),
        ColumnKind::DaysToDry if low.is_finite() => fixed(low, 0),
        ColumnKind::DaysToDry => "over 1825".into(),
        ColumnKind::Transmittance if low == high => Dimension::Transmittance.number(low, style),
        ColumnKind::Transmittance => format!(
            "{} … {}",
            Dimension::Transmittance.number(low, style),
            Dimension::Transmittance.number(high, style)
        ),
        ColumnKind::Psi => {
            let number = |si| Dimension::LinearTransmittance.number(si, style);
            format!(
                "{} ± {}",
                number((low + high) / 2.0),
                number((high - low) / 2.0)
            )
        }
        ColumnKind::HeadRoomLost if low.abs() < 1e-6 => "none".into(),
        ColumnKind::HeadRoomLost => {
            let minus = if low < 0.0 { "−" } else { "" };
            format!("{minus}{}", style.measure(Length::from_m(low.abs())))
        }
        ColumnKind::Thickness => style.show(Length::from_m(low)),
        ColumnKind::Width => style.measure(Length::from_m(low)),
        ColumnKind::WeightPerArea => style.show(ArealDensity::from_si(low)),
        ColumnKind::Weight => style.number(Mass::from_kg(low)),
        ColumnKind::PricePerArea => style.price_per_area_number(low),
        ColumnKind::Price => fixed(low, 0),
    }
}

/// By number, the options that dominate each.
fn marks(options: &TradeOff) -> Vec<String> {
    let list = |by: &Vec<usize>| match by.is_empty() {
        true => "-".to_owned(),
        false => {
            let numbers: Vec<String> = by.iter().map(|n| (n + 1).to_string()).collect();
            numbers.join(", ")
        }
    };
    let mut cells = vec!["dominated by".to_owned()];
    cells.extend(options.dominated_by.iter().map(list));
    cells
}

/// Each dominated option with what is better about those that dominate it.
fn dominated(options: &TradeOff) -> Vec<String> {
    let mut lines = Vec::new();
    if options.options.len() < 2 {
        return lines;
    }
    for (n, by) in options.dominated_by.iter().enumerate() {
        for other in by {
            lines.push(format!(
                "{} {} is dominated by {} {}: that is at least as good in every column, and better \
                 in {}.",
                n + 1,
                options.name(n),
                other + 1,
                options.name(*other),
                better_in(options, *other, n).join(", "),
            ));
        }
    }
    if lines.is_empty() {
        let line = "No option is dominated: each is better than every other in some column, or \
                    something isn't known of one of them.";
        lines.push(line.to_owned());
    }
    lines
}

fn better_in(options: &TradeOff, one: usize, other: usize) -> Vec<String> {
    let mut names = Vec::new();
    for table in &options.tables {
        for column in &table.columns {
            let (one, other) = (column.values[one].known, column.values[other].known);
            if compare(column.kind.better(), one, other) == Some(Ordering::Greater) {
                let title = column.kind.title();
                names.push(match &table.part {
                    Part::Whole => title.to_owned(),
                    Part::Assembly(name) | Part::Detail(name) => format!("{title} of {name}"),
                });
            }
        }
    }
    names
}

/// What the columns mean and what they lack.
fn words(options: &TradeOff) -> Vec<String> {
    let has = |kind: ColumnKind| {
        let mut columns = options.tables.iter().flat_map(|table| &table.columns);
        columns.any(|column| column.kind == kind)
    };
    let mut lines = vec![
        "Margins are the least on the winter mean; the verdict takes in the materials' ranges and the \
         details. Weights and prices per area count members by their share, strips, and what lies \
         over them. There is no score, and a dominated option is so in these columns alone: \
         read its findings before it is put aside."
            .to_owned(),
    ];
    if has(ColumnKind::HeadRoomLost) {
        lines.push(match options.by_house {
            true => "Head room lost: at the same overall height as drawn.".into(),
            false => {
                "Head room lost: what floor and roof add to the height above the frame, square \
                      to their layers."
                    .into()
            }
        });
    }
    if !options.included.is_empty() {
        let list = options.included.join(", ");
        lines.push(format!(
            "Not counted, since the trailer's own weight includes it: {list}."
        ));
    }
    if has(ColumnKind::PricePerArea) || has(ColumnKind::Price) {
        lines.push(
            "Prices are those of the file: materials in place, without waste, fasteners, openings, \
             allowances and labor."
                .into(),
        );
    }
    let missing = [
        (
            "Without a weight",
            [ColumnKind::WeightPerArea, ColumnKind::Weight],
        ),
        (
            "Without a price",
            [ColumnKind::PricePerArea, ColumnKind::Price],
        ),
    ];
    for (words, kinds) in missing {
        let names = unknown(options, kinds);
        if !names.is_empty() {
            let list = names.join("; ");
            lines.push(format!(
                "{words}, so that sums are at least what is printed: {list}."
            ));
        }
    }
    lines
}

/// What columns of these kinds lack, each once.
pub(super) fn unknown(options: &TradeOff, kinds: [ColumnKind; 2]) -> Vec<String> {
    let columns = options.tables.iter().flat_map(|table| &table.columns);
    let columns = columns.filter(|column| kinds.contains(&column.kind));
    let mut names: Vec<String> = Vec::new();
    for name in columns
        .flat_map(|column| &column.values)
        .flat_map(|value| &value.unknown)
    {
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    names
}
