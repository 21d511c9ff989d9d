//! The numbers of `size`: every target at the thicknesses that are told, and where it is worst.

use super::sizing::{NEVER, place, row_name};
use super::table::Table;
use super::text::Text;
use crate::check::sizing::{AtThickness, Sized, Value};
use crate::model::Target;
use crate::quantity::{Dimension, Length, Style, TemperatureDifference, fixed};

/// Each target at the thicknesses that are told: at nominal values, then at the worst case.
pub(super) fn table(one: &Sized<'_>, style: Style) -> Text {
    let least = one.least.iter().filter(|at| at.thickness.as_m() > 0.0);
    let least = least.map(|at| (style.least_length(at.thickness), at));
    let thinner = one.ends.iter().chain(&one.thinner);
    let thinner = thinner.map(|at| (thickness(at.thickness, style), at));
    let board = one.board.iter();
    let board = board.map(|at| (thickness(at.thickness, style), at));
    let columns: Vec<(String, &AtThickness)> = thinner.chain(least).chain(board).collect();
    let unit = match one.rows.iter().any(|row| row.target.is_margin()) {
        true => format!(
            "margins in {}; * misses its target",
            Dimension::Temperature.unit(style)
        ),
        false => "* misses its target".to_owned(),
    };
    let nominal = block("at nominal values", one, &columns, |at| &at.nominal, style);
    let worst = block("at the worst case", one, &columns, |at| &at.worst, style);
    let mut text = Text::default();
    text.table(2, nominal);
    text.blank();
    text.table(2, worst);
    text.say(2, unit);
    text
}

fn block(
    title: &str,
    one: &Sized<'_>,
    columns: &[(String, &AtThickness)],
    of: fn(&AtThickness) -> &Vec<Option<Value>>,
    style: Style,
) -> Table {
    let names = columns.iter().map(|(name, _)| name.as_str());
    let header: Vec<&str> = [title, "asked"].into_iter().chain(names).collect();
    let mut table = Table::new(&header, 1);
    for (n, row) in one.rows.iter().enumerate() {
        let mut cells = vec![row_name(row), asked_short(row.target, style)];
        cells.extend(columns.iter().map(|(_, at)| match &of(at)[n] {
            None => "no air ".into(),
            Some(value) => {
                let misses = value.slack.is_nan() || value.slack < 0.0;
                let mark = if misses { "*" } else { " " };
                format!("{}{mark}", number(row.target, value, style))
            }
        }));
        table.row(cells);
    }
    table
}

fn asked_short(target: Target, style: Style) -> String {
    match target {
        Target::LeakMargin(least) | Target::DewPointMargin(least) => style.margin_number(least),
        Target::TemperatureFactor(least) => fixed(least, 3),
        Target::Transmittance(most) => Dimension::Transmittance.number(most, style),
        Target::DryWithinTheYear => "365 days".into(),
        Target::DaysToDry(most) => format!("{} days", fixed(most, 0)),
    }
}

fn number(target: Target, value: &Value, style: Style) -> String {
    match target {
        _ if value.value.is_nan() => "-".into(),
        Target::LeakMargin(_) | Target::DewPointMargin(_) => {
            style.margin_number(TemperatureDifference::from_kelvin(value.value))
        }
        Target::Transmittance(_) => Dimension::Transmittance.number(value.value, style),
        Target::DryWithinTheYear | Target::DaysToDry(_) if value.value >= NEVER => "never".into(),
        Target::DryWithinTheYear | Target::DaysToDry(_) => fixed(value.value, 0),
        Target::TemperatureFactor(_) => fixed(value.value, 3),
    }
}

fn thickness(length: Length, style: Style) -> String {
    match length.as_m() {
        0.0 => "none".into(),
        _ => style.show(length),
    }
}

/// Where each target is worst, and the error bars that count against it.
pub(super) fn places(one: &Sized<'_>, style: Style) -> String {
    let Some(at) = one.board.as_ref().or(one.ends.last()) else {
        return String::new();
    };
    let mut said: Vec<String> = Vec::new();
    let mut bars = false;
    for (row, value) in one.rows.iter().zip(&at.nominal) {
        let Some(value) = value else { continue };
        let bar = match row.target {
            _ if value.bar == 0.0 => String::new(),
            Target::TemperatureFactor(_) => format!(" ± {}", fixed(value.bar, 4)),
            _ => format!(
                " ± {} {}",
                style.error_bar_number(value.bar),
                Dimension::Temperature.unit(style)
            ),
        };
        bars |= !bar.is_empty();
        said.push(format!("{}: {}{bar}", row_name(row), place(one, value)));
    }
    let counted = if bars {
        " Error bars count against the targets."
    } else {
        ""
    };
    match said.is_empty() {
        true => String::new(),
        false => format!("Where it is worst: {}.{counted}", said.join("; ")),
    }
}

/// What can be bought, and the humidity it was sized for.
pub(super) fn stock(one: &Sized<'_>, style: Style) -> String {
    let sold: Vec<String> = one
        .sizing
        .sold
        .iter()
        .map(|length| style.show(*length))
        .collect();
    let mut said = format!("Sold: {} ({}).", sold.join(", "), one.sizing.sold_source);
    if let Some(humidity) = one.sizing.humidity {
        said += &format!(" Sized for a room at {}.", style.show(humidity));
    }
    said
}
