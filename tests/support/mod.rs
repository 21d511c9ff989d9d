//! Running the program, and details to solve.

pub(crate) mod detail;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

/// The program, to be run in a folder of the repository.
pub(crate) fn program(folder: &str) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_dewmargin"));
    command.current_dir(repository().join(folder));
    command
}

pub(crate) fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_path_buf()
}

/// Runs the program in `examples/`.
pub(crate) fn run(arguments: &[&str]) -> Output {
    let output = program("examples").args(arguments).output();
    output.expect("the program starts")
}

pub(crate) fn code(output: &Output) -> i32 {
    output.status.code().expect("the program ends by itself")
}

pub(crate) fn stdout(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8")
}

pub(crate) fn stderr(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("UTF-8")
}

/// The JSON report of a command on an example.
pub(crate) fn json(arguments: &[&str]) -> Value {
    let output = run(&[arguments, &["--format", "json"]].concat());
    assert!(output.stderr.is_empty(), "{}", stderr(&output));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// Keys that may be `null`: nothing was asked for, or it can't be known. A number that isn't
/// finite would be printed as `null` under any other key.
const MAY_BE_NULL: &[&str] = &[
    "variant",
    "best",
    "path",
    "plane",
    "value_c",
    "limit_c",
    "margin_k",
    "design_night",
    "design_night_margin_k",
    // Findings of checks that have nothing to say beyond temperatures.
    "detail",
    // The tables: what isn't stated, and rows the code doesn't have.
    "code_edition",
    "zone",
    "moisture_regime",
    "layer",
    "dry_cup_permeance_kg_per_s_m2_pa",
    "class_three_needs_continuous_m2k_per_w",
    "needed_m2k_per_w",
    "table_continuous_m2k_per_w",
    "table_share_outboard",
    "has_table_continuous",
    "least_depth_m",
    "furring_share",
    "condensing_flow_kg_per_m2_s",
    "help",
    "wood_at_steel_c",
    "wood_at_steel_margin_k",
    "leak_margin_k",
    "dew_point_margin_k",
    "least_margin_k",
    "combined",
    "combined_relative_error",
    "weight_kg_per_m2",
    "vapor_pressure_pa",
    "corrected_vapor_pressure_pa",
    "dew_point_c",
    "strips_in_series_for_comparison",
    // It is 0 / 0 where inside and outside are alike.
    "temperature_factor",
];

/// The places of a report that are `null` and shouldn't be.
pub(crate) fn nulls(value: &Value, place: &str) -> Vec<String> {
    match value {
        Value::Null => vec![place.to_owned()],
        Value::Array(items) => items
            .iter()
            .enumerate()
            .flat_map(|(n, item)| nulls(item, &format!("{place}[{n}]")))
            .collect(),
        Value::Object(entries) => entries
            .iter()
            .filter(|(key, value)| !(value.is_null() && MAY_BE_NULL.contains(&key.as_str())))
            .flat_map(|(key, value)| nulls(value, &format!("{place}.{key}")))
            .collect(),
        Value::Number(number) => match number.as_f64() {
            Some(number) if number.is_finite() => Vec::new(),
            _ => vec![place.to_owned()],
        },
        _ => Vec::new(),
    }
}

#[test]
fn nulls_are_found_where_a_number_belongs() {
    let report = serde_json::json!({"help": null, "planes": [{"temperature_c": null}]});
    assert_eq!(nulls(&report, ""), [".planes[0].temperature_c"]);
}
