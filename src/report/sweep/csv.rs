//! The table as comma-separated values (RFC 4180): lines end in CR LF, units stand in the head.

use super::{AxisValue, DIGITS, GIVEN, axis_column, axis_value};
use crate::check::sweep::{CHECKS, Row};
use crate::check::{Check, Status};
use crate::model::Sweep;
use crate::quantity::{Column, Style, plain};

pub(super) fn head(sweep: &Sweep, style: Style, fingerprint: &str) -> String {
    let with_unit = |name: &str, column: Option<Column>| match column {
        Some(column) => format!("{name} [{}]", column.unit(style)),
        None => name.to_owned(),
    };
    let mut names = vec![format!(
        "number of {} in sweep {fingerprint}",
        sweep.count()
    )];
    let axes = sweep.axes.iter();
    names.extend(axes.map(|axis| with_unit(&axis.name, axis_column(&axis.values))));
    names.push("verdict".into());
    names.push(with_unit("least margin", Some(Column::Difference)));
    names.push(with_unit("U least", Some(Column::Transmittance)));
    names.push(with_unit("U greatest", Some(Column::Transmittance)));
    names.push(with_unit("thickness", Some(Column::Length)));
    names.push(with_unit("weight", Some(Column::Weight)));
    for (check, column) in CHECKS {
        names.push(check.id().to_owned());
        if let Some(column) = column {
            let what = measured(column);
            names.push(with_unit(&format!("{} {what}", check.id()), Some(column)));
        }
        if check == Check::Year {
            names.push(with_unit(&format!("{} limit", check.id()), column));
        }
    }
    let mut told = String::new();
    for (n, name) in names.iter().enumerate() {
        if n > 0 {
            told.push(',');
        }
        field(&mut told, name);
    }
    told + "\r\n"
}

/// What is measured beside a status.
pub(super) fn measured(column: Column) -> &'static str {
    match column {
        Column::Days => "time",
        Column::Water => "peak",
        Column::Humidity => "highest",
        _ => "margin",
    }
}

pub(super) fn row(told: &mut String, sweep: &Sweep, style: Style, row: &Row) {
    let number = |told: &mut String, value: Option<f64>, column: Column, digits: usize| {
        told.push(',');
        if let Some(value) = value {
            plain(told, column.in_units(value, style), digits);
        }
    };
    told.push_str(&(row.number + 1).to_string());
    for (axis, index) in sweep.axes.iter().zip(&row.choice) {
        match axis_value(&axis.values, *index) {
            AxisValue::Number(value, column) => number(told, Some(value), column, GIVEN),
            AxisValue::Name(name) => {
                told.push(',');
                field(told, name);
            }
        }
    }
    told.push(',');
    told.push_str(row.verdict.word());
    number(told, row.least_margin, Column::Difference, DIGITS);
    number(
        told,
        Some(row.transmittance[0]),
        Column::Transmittance,
        DIGITS,
    );
    number(
        told,
        Some(row.transmittance[1]),
        Column::Transmittance,
        DIGITS,
    );
    number(told, Some(row.thickness), Column::Length, DIGITS);
    number(told, row.weight, Column::Weight, DIGITS);
    for ((check, column), cell) in CHECKS.iter().zip(&row.cells) {
        told.push(',');
        told.push_str(cell.status.map_or("", Status::word));
        if let Some(column) = column {
            number(told, cell.value, *column, DIGITS);
        }
        if *check == Check::Year {
            number(told, cell.limit, Column::Water, DIGITS);
        }
    }
    told.push_str("\r\n");
}

/// One field, quoted where it must be. A line break would make two lines of a row: a space.
fn field(told: &mut String, text: &str) {
    let quoted = text.contains(['"', ',', '\r', '\n']);
    if !quoted {
        told.push_str(text);
        return;
    }
    let text = text.replace(['\r', '\n'], " ").replace('"', "\"\"");
    told.push('"');
    told.push_str(&text);
    told.push('"');
}
