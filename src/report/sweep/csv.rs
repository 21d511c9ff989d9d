//! The table as comma-separated values (RFC 4180): lines end in CR LF, units stand in the head.

use super::{AxisValue, DIGITS, GIVEN, axis_column, axis_value};
use crate::check::Status;
use crate::check::sweep::{Row, columns};
use crate::model::Sweep;
use crate::quantity::{Dimension, Style, plain};

/// Whether a line is whole: every column of the head, each a number, a status or a name as they are
/// written, and nothing that isn't text.
pub(super) fn is_whole(line: &[u8], sweep: &Sweep) -> bool {
    let Some(fields) = std::str::from_utf8(line).ok().and_then(fields) else {
        return false;
    };
    let is_number = |text: &String| text.parse().is_ok_and(f64::is_finite);
    let is_status = |text: &String| Status::ALL.iter().any(|status| status.word() == *text);
    let mut fields = fields.iter();
    let mut next = |is: &dyn Fn(&String) -> bool, may_be_empty: bool| {
        let field = fields.next();
        field.is_some_and(|text| is(text) || may_be_empty && text.is_empty())
    };
    if !next(&is_number, false) {
        return false;
    }
    let axes = sweep
        .axes
        .iter()
        .all(|axis| match axis_column(&axis.values) {
            Some(_) => next(&is_number, false),
            None => next(&|_| true, false),
        });
    // Verdict, least margin, both U-values, thickness, weight.
    let of_all = [
        (false, false),
        (true, true),
        (true, false),
        (true, false),
        (true, false),
        (true, true),
    ];
    let of_all = of_all.into_iter().all(|(number, empty)| match number {
        true => next(&is_number, empty),
        false => next(&is_status, empty),
    });
    let of_checks = columns().all(|(_, column)| {
        let numbers = usize::from(column.dimension.is_some()) + usize::from(column.has_limit);
        next(&is_status, true) && (0..numbers).all(|_| next(&is_number, true))
    });
    axes && of_all && of_checks && fields.next().is_none()
}

/// The fields of one line; `None` where it holds what no table of ours does.
fn fields(line: &str) -> Option<Vec<String>> {
    use csv_core::{ReadFieldResult, Reader};
    let line = line.strip_suffix("\r\n")?;
    if line.contains(char::is_control) {
        return None;
    }
    let (mut reader, mut input, mut found) = (Reader::new(), line.as_bytes(), Vec::new());
    let mut field = vec![0; line.len()];
    loop {
        let (result, read, written) = reader.read_field(input, &mut field);
        input = &input[read..];
        match result {
            ReadFieldResult::Field { record_end } => {
                found.push(std::str::from_utf8(&field[..written]).ok()?.to_owned());
                if record_end {
                    return Some(found);
                }
            }
            ReadFieldResult::InputEmpty => {}
            ReadFieldResult::OutputFull | ReadFieldResult::End => return None,
        }
    }
}

pub(super) fn head(sweep: &Sweep, style: Style, fingerprint: &str) -> String {
    let with_unit = |name: &str, column: Option<Dimension>| match column {
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
    names.push(with_unit("least margin", Some(Dimension::Difference)));
    names.push(with_unit("U least", Some(Dimension::Transmittance)));
    names.push(with_unit("U greatest", Some(Dimension::Transmittance)));
    names.push(with_unit("thickness", Some(Dimension::Length)));
    names.push(with_unit("weight", Some(Dimension::ArealDensity)));
    for (check, column) in columns() {
        names.push(check.id.to_owned());
        if let Some(dimension) = column.dimension {
            let what = measured(dimension);
            names.push(with_unit(&format!("{} {what}", check.id), Some(dimension)));
        }
        if column.has_limit {
            names.push(with_unit(&format!("{} limit", check.id), column.dimension));
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
pub(super) fn measured(column: Dimension) -> &'static str {
    match column {
        Dimension::Days => "time",
        Dimension::Water => "peak",
        Dimension::Humidity => "highest",
        _ => "margin",
    }
}

pub(super) fn row(told: &mut String, sweep: &Sweep, style: Style, row: &Row) {
    let number = |told: &mut String, value: Option<f64>, column: Dimension, digits: usize| {
        told.push(',');
        if let Some(value) = value {
            plain(told, column.value(value, style), digits);
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
    number(told, row.least_margin, Dimension::Difference, DIGITS);
    number(
        told,
        Some(row.transmittance[0]),
        Dimension::Transmittance,
        DIGITS,
    );
    number(
        told,
        Some(row.transmittance[1]),
        Dimension::Transmittance,
        DIGITS,
    );
    number(told, Some(row.thickness), Dimension::Length, DIGITS);
    number(told, row.weight, Dimension::ArealDensity, DIGITS);
    for ((_, column), cell) in columns().zip(&row.cells) {
        told.push(',');
        told.push_str(cell.status.map_or("", Status::word));
        let Some(dimension) = column.dimension else {
            continue;
        };
        number(told, cell.value, dimension, DIGITS);
        if column.has_limit {
            number(told, cell.limit, dimension, DIGITS);
        }
    }
    told.push_str("\r\n");
}

/// One field of text, quoted where it must be. A line break would make two lines of a row: a space.
/// Where a spreadsheet would take the text for a formula an apostrophe stands before it.
fn field(told: &mut String, text: &str) {
    let guarded = format!("'{text}");
    let is_formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let text = if is_formula { &guarded } else { text };
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
