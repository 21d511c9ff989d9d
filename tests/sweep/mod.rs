//! `dewmargin sweep`: rows that a check of the same file confirms, a table that can be left and
//! taken up anywhere, and its plot.

mod taken_up;

use std::path::Path;
use std::process::Output;

use serde_json::Value;

use crate::support::{code, finding, json, number, program, repository, stderr, stdout};

/// Sweeps an example into a folder.
pub(super) fn swept(file: &Path, table: &Path, options: &[&str]) -> Output {
    let mut command = program("examples");
    let output = command
        .arg("sweep")
        .arg(file)
        .arg("-o")
        .arg(table)
        .args(options)
        .output();
    output.expect("the program starts")
}

pub(super) fn example() -> std::path::PathBuf {
    repository().join("examples/cabin-sweep.yaml")
}

fn columns(line: &str) -> Vec<&str> {
    line.trim_end().split(',').collect()
}

/// The example as drawn stands in the middle of its own sweep.
#[test]
fn a_row_is_what_a_check_of_the_same_file_says() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = folder.path().join("all.json");
    let output = swept(&example(), &table, &[]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let text = std::fs::read(&table).expect("the table");
    let swept: Value = serde_json::from_slice(&text).expect("JSON");
    assert_eq!(swept["count"], 117);
    let rows = swept["rows"].as_array().expect("rows");
    assert_eq!(rows.len(), 117);
    let as_drawn = |row: &&Value| {
        (number(&row["axes"][0]) - 0.0254).abs() < 1e-9
            && (number(&row["axes"][1]) - 0.5).abs() < 1e-9
    };
    let row = rows.iter().find(as_drawn).expect("1 in at 50 %");
    let report = json(&["check", "cabin-sweep.yaml"]);
    let case = &report["cases"][0];
    let close = |ours: &Value, theirs: &Value| {
        let (ours, theirs) = (number(ours), number(theirs));
        assert!(
            (ours - theirs).abs() <= 1e-5 * theirs.abs().max(1.0),
            "{ours} {theirs}"
        );
    };
    for check in ["air-leak", "room-surface-condensation", "room-surface-mold"] {
        close(
            &row["checks"][check]["margin_k"],
            &finding(case, check)["margin_k"],
        );
    }
}

#[test]
fn the_table_has_one_line_for_each_combination_in_the_files_units() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = folder.path().join("all.csv");
    let output = swept(&example(), &table, &[]);
    let said = stdout(&output);
    let first = format!("117 combinations in {}\n", table.display());
    assert!(
        said.starts_with(&first) && said.contains("Not structural."),
        "{said}"
    );
    let text = std::fs::read_to_string(&table).expect("the table");
    let lines: Vec<&str> = text.split_terminator("\r\n").collect();
    assert_eq!(lines.len(), 118);
    let head = columns(lines[0]);
    assert!(
        head[0].starts_with("number of 117 in sweep "),
        "{}",
        head[0]
    );
    assert_eq!(
        &head[1..4],
        ["outside foam [in]", "room humidity [%]", "verdict"]
    );
    assert_eq!(&columns(lines[1])[..3], ["1", "0", "30"]);
    assert_eq!(&columns(lines[117])[..3], ["117", "3", "70"]);
    for line in &lines {
        assert_eq!(columns(line).len(), head.len(), "{line}");
    }
    // Drier air and more foam never cost leak margin.
    let at = head
        .iter()
        .position(|name| name.starts_with("air-leak margin"))
        .expect("there");
    let margin = |row: usize| columns(lines[row])[at].parse::<f64>().expect("a number");
    for foam in 0..13 {
        for humidity in 0..8 {
            let row = 1 + foam * 9 + humidity;
            assert!(margin(row) > margin(row + 1), "row {row}");
        }
    }
    assert!(
        margin(5) < margin(5 + 9 * 12),
        "at 50 %, without foam and with 3 in"
    );
}

#[test]
fn names_of_axes_are_quoted_where_they_must_be() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(example()).expect("the example");
    let text = text.replace("room humidity:", "'room, \"humid\"':");
    let file = folder.path().join("quoted.yaml");
    std::fs::write(&file, text).expect("written");
    let table = folder.path().join("all.csv");
    assert_eq!(code(&swept(&file, &table, &[])), 0);
    let text = std::fs::read_to_string(&table).expect("the table");
    assert!(
        text.contains(",\"room, \"\"humid\"\" [%]\","),
        "{}",
        text.lines().next().unwrap_or("")
    );
}

/// One household airing more, in two climates, with another sheathing: every kind of axis.
#[test]
fn materials_climates_and_ventilation_are_swept() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(example()).expect("the example");
    let (start, _) = text.split_once("sweep:").expect("its sweep");
    let text = start.replace(
        "humidity: 50 %",
        "moisture: {people: 2, ventilation: 30 cfm}",
    );
    let sweep = "sweep:\n  all:\n    of: wall\n    axes:\n      \
                 board: {layer: sheathing, material: [plywood, OSB]}\n      \
                 where: {climate: [wet-coast, cold-continental]}\n      \
                 air: {ventilation: {from: 20 cfm, to: 60 cfm, step: 20 cfm}}\n";
    let file = folder.path().join("all.yaml");
    std::fs::write(&file, format!("{text}{sweep}")).expect("written");
    let table = folder.path().join("all.json");
    let output = swept(&file, &table, &["--entry", "all"]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let swept: Value =
        serde_json::from_slice(&std::fs::read(&table).expect("there")).expect("JSON");
    let rows = swept["rows"].as_array().expect("rows");
    assert_eq!(rows.len(), 12);
    let margin = |row: usize| number(&rows[row]["checks"]["air-leak"]["margin_k"]);
    // More outdoor air dries the room of a wet coast's winter.
    assert!(margin(0) < margin(1) && margin(1) < margin(2));
    let dry = |row: usize| &rows[row]["checks"]["drying"]["time_days"];
    assert_ne!(dry(2), dry(8), "plywood and OSB");
    let missing = swept_stderr(&file, &folder.path().join("b.csv"), &["--entry", "al"]);
    assert!(missing.contains("did you mean `all`?"), "{missing}");
}

fn swept_stderr(file: &Path, table: &Path, options: &[&str]) -> String {
    let output = swept(file, table, options);
    assert_eq!(code(&output), 2);
    stderr(&output)
}

#[test]
fn what_kind_of_table_is_told_by_its_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let told = swept_stderr(&example(), &folder.path().join("all.txt"), &[]);
    assert!(told.contains("end its name in .csv or .json"), "{told}");
    let file = repository().join("examples/cabin-wall.yaml");
    let told = swept_stderr(&file, &folder.path().join("all.csv"), &[]);
    assert!(told.contains("nothing to sweep"), "{told}");
    let output = swept(&example(), &folder.path().join("none/all.csv"), &[]);
    assert_eq!(code(&output), 3);
}

/// `UPDATE=1` draws the committed plot anew.
#[test]
fn the_committed_plot_is_what_the_program_draws() {
    let folder = tempfile::tempdir().expect("a folder");
    let plot = folder.path().join("plot.svg");
    let drawn = plot.display().to_string();
    let output = swept(
        &example(),
        &folder.path().join("all.csv"),
        &["--plot", &drawn],
    );
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let ours = std::fs::read_to_string(&plot).expect("drawn");
    let committed = repository().join("plots/cabin-sweep.svg");
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&committed, &ours).expect("writable");
    }
    assert!(
        ours == std::fs::read_to_string(&committed).expect("committed"),
        "look at it, then UPDATE=1"
    );
}

#[test]
fn one_axis_gives_lines() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(example()).expect("the example");
    let lines = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("room humidity"));
    let file = folder.path().join("one.yaml");
    std::fs::write(&file, lines.collect::<Vec<_>>().join("\n")).expect("written");
    let plot = folder.path().join("plot.svg");
    let drawn = plot.display().to_string();
    let output = swept(&file, &folder.path().join("one.csv"), &["--plot", &drawn]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let svg = std::fs::read_to_string(&plot).expect("drawn");
    for words in [
        "Least leak margin, °F",
        "Can it dry: 1 kg/m² gone, days",
        "Verdict",
    ] {
        assert!(svg.contains(words), "{words}");
    }
}
