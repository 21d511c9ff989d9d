//! `size`: which board, and whether the targets hold with it.

use std::sync::OnceLock;

use rstest::rstest;
use serde_json::Value;

use crate::support::{checked, code, example, json, number, one_line, run, stderr, stdout};

const FILE: &str = "cabin-size.yaml";
const OVER: &str = "foam over the flange";
const NIGHT: &str = "foam for the design night";
const UNDER_FINISH: &str = "foam under the finish floor";
const OUTBOARD: &str = "boards outside of the sheathing";
const INCH: f64 = 0.0254;

/// The whole example, sized once.
fn sized(entry: &str) -> &'static Value {
    static REPORT: OnceLock<Value> = OnceLock::new();
    let report = REPORT.get_or_init(|| json(&["size", FILE]));
    let entries = report["entries"].as_array().expect("entries");
    let found = entries.iter().find(|one| one["name"] == entry);
    found.unwrap_or_else(|| panic!("no `{entry}`"))
}

fn inches(value: &Value) -> f64 {
    number(value) / INCH
}

#[rstest]
#[case::one_has_no_answer(&["size", FILE], 1)]
#[case::this_one_has(&["size", FILE, "--entry", OUTBOARD], 0)]
#[case::and_at_the_worst_case(&["size", FILE, "--entry", OUTBOARD, "--strict"], 0)]
#[case::in_a_dry_room(&["size", FILE, "--entry", OUTBOARD, "--humidity", "30 %"], 0)]
#[case::in_a_steam_bath(&["size", FILE, "--entry", OUTBOARD, "--humidity", "95 %"], 1)]
#[case::no_such_entry(&["size", FILE, "--entry", "foam"], 2)]
#[case::no_such_humidity(&["size", FILE, "--humidity", "60"], 2)]
#[case::nothing_to_size(&["size", "cabin-floor.yaml"], 2)]
fn exit_codes(#[case] arguments: &[&str], #[case] expected: i32) {
    let output = run(arguments);
    assert_eq!(code(&output), expected, "{}", stderr(&output));
    assert_eq!(output.stdout.is_empty(), expected == 2);
    assert_eq!(output.stderr.is_empty(), expected != 2);
}

/// The example with the foam at a thickness written out, in a room of that humidity.
fn with_foam(thickness: &str, humidity: &str) -> Value {
    let text = example(FILE, "humidity: 50 %", &format!("humidity: {humidity}"));
    let base = text.split("\nsize:").next().expect("a project");
    let layer =
        format!("{{name: flange foam, material: XPS, thickness: {thickness}, bonded: true}}");
    checked(&format!(
        "{base}\nvariants:\n  foam:\n    floor: {{frame: proud, add: {{over: flange, layer: {layer}}}}}\n"
    ))
}

/// Margins on the winter mean and on the design night, K, of the deck at the frame's corner.
fn margins(report: &Value) -> (f64, f64) {
    let details = report["details"].as_array().expect("details");
    let detail = details.iter().find(|one| one["variant"] == "foam");
    let findings = detail.expect("the detail")["findings"].as_array();
    let wood = findings.expect("findings").iter().find(|finding| {
        finding["check"] == "detail-wood-at-the-steel"
            && finding["path"] == "subfloor at the corner"
    });
    let wood = wood.expect("the deck");
    let margin = |key: &str| number(&wood[key]);
    (margin("margin_k"), margin("design_night_margin_k"))
}

#[test]
fn the_board_for_the_winter_mean_passes_when_checked_and_the_thinner_one_does_not() {
    let entry = sized(OVER);
    assert_eq!(entry["status"], "pass");
    let (board, thinner) = (inches(&entry["board_m"]), inches(&entry["next_thinner_m"]));
    assert!(
        (board - 1.5).abs() < 1e-9 && (thinner - 1.0).abs() < 1e-9,
        "{board} in, {thinner} in"
    );
    let target = number(&entry["targets"][0]["limit"]);
    let least = inches(&entry["least_m"]);
    assert!(thinner < least && least < inches(&entry["least_at_worst_case_m"]) && least < board);

    // Written into the file and judged as any other build-up, by way of the YAML.
    for (thickness, key, met) in [
        ("1-1/2 in", "at_board", true),
        ("1 in", "at_next_thinner", false),
    ] {
        let (winter, _) = margins(&with_foam(thickness, "50 %"));
        assert_eq!(winter > target, met, "{thickness}: {winter} K");
        let ours = number(&entry["targets"][0][key]["nominal"]["value"]);
        assert!(
            (ours - winter).abs() < 1e-9,
            "{thickness}: {ours} K, checked {winter} K"
        );
    }
}

#[test]
fn the_board_for_the_design_night_passes_when_checked_and_the_thinner_one_does_not() {
    let entry = sized(NIGHT);
    // At the materials' nominal values only: their spread is more than the board leaves.
    assert_eq!(entry["status"], "depends");
    let (board, thinner) = (inches(&entry["board_m"]), inches(&entry["next_thinner_m"]));
    assert!(
        (board - 4.0).abs() < 1e-9 && (thinner - 3.0).abs() < 1e-9,
        "{board} in, {thinner} in"
    );
    let (winter, night) = margins(&with_foam("4 in", "42 %"));
    assert!(winter > 0.0 && night > 0.0, "{winter} K, {night} K");
    let (winter, night) = margins(&with_foam("3 in", "42 %"));
    assert!(winter > 0.0 && night < 0.0, "{winter} K, {night} K");
}

#[test]
fn foam_under_the_finish_floor_never_saves_the_subfloor() {
    let entry = sized(UNDER_FINISH);
    assert_eq!(entry["status"], "fail");
    assert!(entry["board_m"].is_null() && entry["least_m"].is_null());
    let target = &entry["targets"][0];
    assert_eq!(target["trend"], "more hurts");
    assert_eq!(number(&target["best"]["thickness_m"]), 0.0);
    assert!(number(&target["best"]["value"]["value"]) < 0.0);

    let output = run(&["size", FILE, "--entry", UNDER_FINISH]);
    assert_eq!(code(&output), 1);
    let text = one_line(&stdout(&output));
    for part in [
        "foam under the finish floor: fail No thickness of XPS outside of the finish",
        "What stops it: the leak margin on the winter mean",
        "subfloor at the corner",
        "at best, without it, where +2.0 °F is asked for. More of it makes that worse.",
    ] {
        assert!(text.contains(part), "no `{part}` in {text}");
    }
}

#[test]
fn the_verdict_comes_first_and_no_line_is_wider_than_a_terminal() {
    for units in ["imperial", "metric"] {
        let arguments = ["size", FILE, "--entry", OUTBOARD, "--units", units];
        let text = stdout(&run(&arguments));
        assert_eq!(text, stdout(&run(&arguments)), "the same every time");
        let headline = text.lines().nth(4).expect("a headline");
        assert_eq!(headline, "boards outside of the sheathing: pass");
        for line in text.lines() {
            assert!(line.chars().count() <= 100, "{line}");
        }
        assert!(text.contains("Not structural."));
    }
}

#[test]
fn a_damper_room_needs_a_thicker_board() {
    let least = |humidity: &str| {
        let report = json(&["size", FILE, "--entry", OUTBOARD, "--humidity", humidity]);
        number(&report["entries"][0]["least_m"])
    };
    let needed = ["40 %", "50 %", "60 %"].map(least);
    assert!(needed[0] < needed[1] && needed[1] < needed[2], "{needed:?}");
}
