//! Running the program, and details and volumes to solve.

pub(crate) mod detail;
pub(crate) mod volume;

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::{Arc, LazyLock, Mutex, OnceLock};

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

/// Commands that only print: asked the same of the same file they print the same, which a test of its own
/// holds (`cli/output`), so that one run serves all tests.
const ONLY_PRINT: [&str; 4] = ["check", "compare", "explain", "house"];

/// Runs the program in `examples/`, or takes what it printed when it was asked before; `check` and
/// `compare` are asked for everything.
pub(crate) fn run(arguments: &[&str]) -> Output {
    once(arguments, || run_afresh(arguments))
}

/// The same, run in any case.
pub(crate) fn run_afresh(arguments: &[&str]) -> Output {
    let tells = matches!(arguments.first(), Some(&("check" | "compare")));
    let all = (tells && !arguments.contains(&"--part")).then_some("--full");
    let mut program = program("examples");
    // Tables stay in one piece there.
    program.env("COLUMNS", "100");
    let output = program.args(arguments).args(all).output();
    output.expect("the program starts")
}

/// What is printed first: the program in `examples/` as it is asked.
pub(crate) fn first_screen(arguments: &[&str]) -> String {
    let screen = [&["first screen"], arguments].concat();
    let output = once(&screen, || {
        let output = program("examples").args(arguments).output();
        output.expect("the program starts")
    });
    stdout(&output)
}

/// What a run printed, of runs that only print; tests that ask for the same at the same time wait for one.
fn once(key: &[&str], run: impl FnOnce() -> Output) -> Output {
    type Runs = Mutex<HashMap<Vec<String>, Arc<OnceLock<Output>>>>;
    static RUNS: LazyLock<Runs> = LazyLock::new(Mutex::default);
    let command = key.iter().find(|word| **word != "first screen");
    let only_prints = command.is_some_and(|command| ONLY_PRINT.contains(command));
    // A file of a test's own may have changed.
    if !only_prints || key.iter().any(|word| word.contains('/')) {
        return run();
    }
    let key = key.iter().map(|word| (*word).to_owned()).collect();
    let slot = Arc::clone(
        RUNS.lock()
            .expect("no test panics in there")
            .entry(key)
            .or_default(),
    );
    slot.get_or_init(run).clone()
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

/// The JSON report of `check` on a project of a test's own.
pub(crate) fn checked(project: &str) -> Value {
    reported("check", project)
}

/// The JSON report of a command on a project of a test's own.
pub(crate) fn reported(command: &str, project: &str) -> Value {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("house.yaml"), project).expect("written");
    let mut program = program(".");
    program.current_dir(folder.path());
    let output = program
        .args([command, "house.yaml", "--format", "json"])
        .output();
    let output = output.expect("the program starts");
    assert!(output.stderr.is_empty(), "{}", stderr(&output));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// An example with some of its words replaced.
pub(crate) fn example(file: &str, from: &str, to: &str) -> String {
    let path = repository().join("examples").join(file);
    let text = std::fs::read_to_string(path).expect("an example");
    assert!(text.contains(from), "no `{from}` in {file}");
    text.replace(from, to)
}

/// A text as one line, to look for sentences that were wrapped.
pub(crate) fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

pub(crate) fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("no number: {value}"))
}

/// The judged finding of a check in a case of a report; its note where it has no other.
pub(crate) fn finding<'a>(case: &'a Value, check: &str) -> &'a Value {
    let all = case["findings"].as_array().expect("findings");
    let of_check = || all.iter().filter(|finding| finding["check"] == check);
    let judged = of_check().find(|finding| finding["status"] != "note");
    let found = judged.or_else(|| of_check().next());
    found.unwrap_or_else(|| panic!("no finding of {check} in {}", case["name"]))
}

/// The case of a report with that variant, `None` for the one as drawn, and that assembly.
pub(crate) fn case<'a>(report: &'a Value, assembly: &str, variant: Option<&str>) -> &'a Value {
    let cases = report["cases"].as_array().expect("cases");
    let is_it = |case: &&Value| case["assembly"] == assembly && case["variant"].as_str() == variant;
    let found = cases.iter().find(is_it);
    found.unwrap_or_else(|| panic!("no {assembly}, {variant:?}"))
}

/// Keys that may be `null`: nothing was asked for, or it can't be known. A number that isn't
/// finite would be printed as `null` under any other key.
const MAY_BE_NULL: &[&str] = &[
    "variant",
    "best",
    // What a word hangs on, where it is `depends`; the site, where there is one alone.
    "on",
    "site",
    "strip",
    // The house has no such finding; an option may have no such margin.
    "finding",
    "wood_margin_k",
    "other_margin_k",
    "coldest_month_margin_k",
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
    // The year: what isn't judged has no limit, what is dry no month, what never dries no day.
    "limit_kg_per_m2",
    "limit_reason",
    "first_wet_month",
    "last_wet_month",
    "dry_by_month",
    "peak_month",
    "gone_after_days",
    "gone_in_month",
    "share_to_room",
    "starts_with",
    "year",
    // Nothing diffuses between perfect barriers, and between them vapor isn't known.
    "leaked_to_diffused_water",
    "vapor_pressures_pa",
    // What doesn't hang on the materials' ranges, and what flips nowhere within reach.
    "range",
    "flip",
    // Details: one that was solved didn't fail, differences that vanish have no order, one drawn
    // by hand has no plane assemblies to count psi against, and a winter mean is no month.
    "failure",
    "observed_order",
    // Between airs of one temperature heat doesn't couple.
    "coupling_coefficient_w_per_mk",
    "plane_coupling_w_per_mk",
    "psi_w_per_mk",
    "month",
    // A room without a target, a stated humidity, or a flow that would hold it.
    "ventilation_for_target_m3_per_s",
    "target_relative_humidity",
    "stated_relative_humidity",
    // Isothermal planes have no wood of their own.
    "wood_c",
    "wood_error_k",
    "corner",
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
            .flat_map(|(key, value)| {
                let mut found = nulls(value, &format!("{place}.{key}"));
                let own = format!("{place}.{key}");
                let is_own = |at: &String| *at == own || at.starts_with(&format!("{own}["));
                // Numbers in a list may be missing as the list itself may, but not what lies deeper.
                let shallow = |at: &String| is_own(at) && !at[own.len()..].contains('.');
                if MAY_BE_NULL.contains(&key.as_str()) {
                    found.retain(|at| !shallow(at));
                }
                found
            })
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
    let report = serde_json::json!({"vapor_pressures_pa": [1.0, null], "range": {"kind": null}});
    assert_eq!(nulls(&report, ""), [".range.kind"]);
}
