//! The numbers of `size`: every target at the thicknesses that are told, and where it is worst.

use super::sizing::{NEVER, place, row_name};
use super::table::Table;
use crate::check::sizing::{AtThickness, Sized, Value};
use crate::model::Target;
use crate::quantity::{Length, Style, TemperatureDifference, fixed};

/// Each target at the thicknesses that are told.
pub(super) fn table(one: &Sized<'_>, style: Style) -> String {
    type Of = fn(&AtThickness) -> &Vec<Option<Value>>;
    let nominal: Of = |at| &at.nominal;
    let worst: Of = |at| &at.worst;
    let mut columns: Vec<(String, &AtThickness, Of)> = Vec::new();
    for at in one.ends.iter().chain(&one.thinner) {
        columns.push((thickness(at.thickness, style), at, nominal));
    }
    let least = one.least.as_ref().filter(|at| at.thickness.as_m() > 0.0);
    let least_name = least.map(|at| style.least_length(at.thickness));
    let at_worst = one.worst.least.is_some();
    if let (Some(least), Some(name), false) = (least, &least_name, at_worst) {
        columns.push((name.clone(), least, nominal));
    }
    if let Some(board) = &one.board {
        columns.push((thickness(board.thickness, style), board, nominal));
    }
    for at in one.ends.iter().chain(&one.thinner) {
        let name = format!("{}, worst", thickness(at.thickness, style));
        columns.push((name, at, worst));
    }
    if let (Some(least), Some(name), true) = (least, &least_name, at_worst) {
        columns.push((format!("{name}, worst"), least, worst));
    }
    if let Some(board) = &one.board {
        let name = format!("{}, worst", thickness(board.thickness, style));
        columns.push((name, board, worst));
    }
    let mut header = vec!["target".to_owned(), "asked".to_owned()];
    header.extend(columns.iter().map(|(name, ..)| name.clone()));
    let header: Vec<&str> = header.iter().map(String::as_str).collect();
    let mut table = Table::new(&header, 1);
    let mut marked = false;
    for (n, row) in one.rows.iter().enumerate() {
        let mut cells = vec![row_name(row), asked_short(row.target, style)];
        for (_, at, of) in &columns {
            cells.push(match &of(at)[n] {
                None => "no air".into(),
                Some(value) => {
                    let misses = value.slack.is_nan() || value.slack < 0.0;
                    marked |= misses;
                    let mark = if misses { "*" } else { " " };
                    format!("{}{mark}", number(row.target, value, style))
                }
            });
        }
        table.row(cells);
    }
    let note = "  * misses the target; worst: at the adverse end of the materials' ranges\n";
    let unit = format!("  margins in {}", style.temperature_unit());
    let has_margins = one.rows.iter().any(|row| row.target.is_margin());
    let unit = if has_margins {
        format!("{unit}\n")
    } else {
        String::new()
    };
    let note = if marked {
        note
    } else {
        "  worst: at the adverse end of the materials' ranges\n"
    };
    format!("{}{unit}{note}", table.render("  "))
}

fn asked_short(target: Target, style: Style) -> String {
    match target {
        Target::LeakMargin(least) | Target::DewPointMargin(least) => style.margin_number(least),
        Target::TemperatureFactor(least) => fixed(least, 3),
        Target::Transmittance(most) => style.transmittance_number(most),
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
        Target::Transmittance(_) => style.transmittance_number(value.value),
        Target::DryWithinTheYear | Target::DaysToDry(_) if value.value >= NEVER => "never".into(),
        Target::DryWithinTheYear | Target::DaysToDry(_) => fixed(value.value, 0),
        Target::TemperatureFactor(_) => fixed(value.value, 3),
    }
}

fn thickness(length: Length, style: Style) -> String {
    match length.as_m() {
        0.0 => "none".into(),
        _ => style.length(length),
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
                style.temperature_unit()
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
        .map(|length| style.length(*length))
        .collect();
    let mut said = format!("Sold: {} ({}).", sold.join(", "), one.sizing.sold_source);
    if let Some(humidity) = one.sizing.humidity {
        said += &format!(" Sized for a room at {}.", style.humidity(humidity));
    }
    said
}
