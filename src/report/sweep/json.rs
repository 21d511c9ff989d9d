//! The table as one JSON object; every row stands on a line of its own.

use serde_json::Value as Json;

use super::csv::measured;
use super::{AxisValue, DIGITS, GIVEN, axis_column, axis_value};
use crate::check::sweep::{Row, columns};
use crate::check::{Check, Column, Status};
use crate::model::Sweep;
use crate::quantity::{Dimension, plain};
use crate::report::json::SCHEMA_VERSION;
use crate::report::leaf::json;

pub(super) fn head(sweep: &Sweep, fingerprint: &str) -> String {
    let axes = sweep.axes.iter().map(|axis| {
        let unit = axis_column(&axis.values).map(|column| column.key().trim_start_matches('_'));
        json!({"name": axis.name, "unit": unit, "count": axis.values.count()})
    });
    let head = json!({
        "schema_version": SCHEMA_VERSION,
        "command": "sweep",
        "sweep": sweep.name,
        "of": sweep.case.assembly.name,
        "fingerprint": fingerprint,
        "program": concat!("dewmargin ", env!("CARGO_PKG_VERSION")),
        "values": "nominal",
        "axes": axes.collect::<Vec<Json>>(),
        "count": sweep.count(),
        "cautions": super::caution_list(sweep),
    });
    let mut told = head.to_string();
    // The rows are one more key of the same object.
    told.pop();
    told + ",\"rows\":[\n"
}

/// Whether a line is whole: an object with every key of a row.
pub(super) fn is_whole(line: &[u8], sweep: &Sweep) -> bool {
    let line = line.strip_suffix(b"\n").unwrap_or(line);
    let line = line.strip_suffix(b",").unwrap_or(line);
    let Ok(Json::Object(row)) = serde_json::from_slice::<Json>(line) else {
        return false;
    };
    let is_status = |value: Option<&Json>| {
        let word = value.and_then(Json::as_str);
        word.is_some_and(|word| Status::ALL.iter().any(|status| status.word() == word))
    };
    let axes = row.get("axes").and_then(Json::as_array);
    let checks = row.get("checks").and_then(Json::as_object);
    let has = |key: &str| {
        row.get(key)
            .is_some_and(|value| value.is_number() || value.is_null())
    };
    let keys = [
        "number",
        "least_margin_k",
        "u_least_w_per_m2k",
        "u_greatest_w_per_m2k",
        "thickness_m",
        "weight_kg_per_m2",
    ];
    is_status(row.get("verdict"))
        && axes.is_some_and(|axes| axes.len() == sweep.axes.len())
        && checks.is_some_and(|checks| checks.values().all(|check| is_status(check.get("status"))))
        && keys.iter().all(|key| has(key))
}

pub(super) fn row(told: &mut String, sweep: &Sweep, row: &Row) {
    told.push_str("{\"number\":");
    told.push_str(&(row.number + 1).to_string());
    told.push_str(",\"axes\":[");
    for (n, (axis, index)) in sweep.axes.iter().zip(&row.choice).enumerate() {
        if n > 0 {
            told.push(',');
        }
        match axis_value(&axis.values, *index) {
            AxisValue::Number(value, _) => plain(told, value, GIVEN),
            AxisValue::Name(name) => told.push_str(&Json::from(name).to_string()),
        }
    }
    told.push_str("],\"verdict\":\"");
    told.push_str(row.verdict.word());
    told.push('"');
    number(
        told,
        "least_margin",
        row.least_margin,
        Dimension::Difference,
    );
    number(
        told,
        "u_least",
        Some(row.transmittance[0]),
        Dimension::Transmittance,
    );
    number(
        told,
        "u_greatest",
        Some(row.transmittance[1]),
        Dimension::Transmittance,
    );
    number(told, "thickness", Some(row.thickness), Dimension::Length);
    number(told, "weight", row.weight, Dimension::ArealDensity);
    told.push_str(",\"checks\":{");
    let mut first = true;
    for ((check, column), cell) in columns().zip(&row.cells) {
        let Some(status) = cell.status else { continue };
        if !first {
            told.push(',');
        }
        first = false;
        checked(told, (check, column), status, (cell.value, cell.limit));
    }
    told.push_str("}}");
    told.push_str(if row.number + 1 < sweep.count() {
        ",\n"
    } else {
        "\n"
    });
}

fn checked(
    told: &mut String,
    (check, column): (&Check, &Column),
    status: Status,
    (value, limit): (Option<f64>, Option<f64>),
) {
    told.push('"');
    told.push_str(check.id);
    told.push_str("\":{\"status\":\"");
    told.push_str(status.word());
    told.push('"');
    if let Some(dimension) = column.dimension {
        number(told, measured(dimension), value, dimension);
        if column.has_limit {
            number(told, "limit", limit, dimension);
        }
    }
    told.push('}');
}

/// `,"name_unit":1.5`, `null` where there is none.
fn number(told: &mut String, name: &str, value: Option<f64>, column: Dimension) {
    told.push_str(",\"");
    told.push_str(name);
    told.push_str(column.key());
    told.push_str("\":");
    match value {
        Some(value) => plain(told, value, DIGITS),
        None => told.push_str("null"),
    }
}
