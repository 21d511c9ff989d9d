//! What is asked, as a user types it.

use rstest::rstest;

use crate::support::{code, example, one_line, program, run, stderr, stdout};

#[test]
fn without_a_place_everything_is_listed() {
    let output = run(&["explain", "cabin-floor-edge.yaml"]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let list = stdout(&output);
    for place in [
        "dew point",
        "room humidity",
        "floor / U",
        "floor / cavity / subfloor / bay",
        "floor / can it dry",
        "hidden flange / psi",
        "hidden flange / floor surface / mold",
        "hidden flange / hand-check, fin",
        "hidden flange, foam under finish floor / psi",
    ] {
        let there =
            |line: &str| line.trim() == place || line.trim().starts_with(&format!("{place}:"));
        assert!(list.lines().any(there), "{place}\n{list}");
    }
    assert!(list.lines().all(|line| line.chars().count() <= 100));
}

#[rstest]
#[case::assembly("floor", "floor: thermal transmittance U")]
#[case::no_blanks("FLOOR/u", "floor: thermal transmittance U")]
#[case::colon("floor: cavity", "floor / cavity: resistances and temperatures")]
#[case::plane(
    "floor / subfloor / bay",
    "floor / cavity / subfloor / bay: temperature and margins"
)]
#[case::strip(
    "side flange / subfloor / side flange",
    "floor / side flange / subfloor / side flange: temperature"
)]
#[case::dew_point("dew-point", "Dew point of the room air")]
#[case::check_by_title("floor / air leak", "floor / air leak: pass")]
#[case::check_by_id("floor / drying", "floor / can it dry: ")]
#[case::variant(
    "floor, foam over flange / U",
    "floor, foam over flange: thermal transmittance U"
)]
fn a_place_is_found(#[case] place: &str, #[case] title: &str) {
    let output = run(&["explain", "cabin-floor.yaml", place]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let text = stdout(&output);
    assert!(text.starts_with(title), "{text}");
    assert!(
        text.lines().all(|line| line.chars().count() <= 100),
        "{text}"
    );
}

#[test]
fn words_of_a_place_need_no_quotes() {
    let quoted = run(&["explain", "cabin-floor.yaml", "floor / U"]);
    let words = run(&["explain", "cabin-floor.yaml", "floor", "/", "U"]);
    assert_eq!(stdout(&quoted), stdout(&words));
}

#[test]
fn units_and_variants_are_those_asked_for() {
    let metric = run(&[
        "explain",
        "cabin-floor.yaml",
        "floor/U",
        "--units",
        "metric",
    ]);
    assert!(stdout(&metric).contains("R_si = 0.17 m²K/W (0.9653 h·ft²·°F/Btu)"));
    let variant = ["--variant", "foam over flange"];
    let output = run(&[&["explain", "cabin-floor.yaml", "U"], &variant[..]].concat());
    assert!(stdout(&output).starts_with("floor, foam over flange: thermal"));
}

#[test]
fn solver_numbers_come_with_method_balance_and_error_bar() {
    let text = stdout(&run(&[
        "explain",
        "cabin-floor-edge.yaml",
        "hidden flange / psi",
    ]));
    let words = one_line(&text);
    for part in [
        "error bar",
        "iterations of conjugate gradients: residual of the equations",
        "heat in less heat out",
        "finite volumes",
        "L2D − (U_1 · l_1 + U_2 · l_2)",
    ] {
        assert!(words.contains(part), "{part}\n{text}");
    }
    let text = stdout(&run(&[
        "explain",
        "cabin-wall.yaml",
        "wall 2x4 / can it dry",
    ]));
    assert!(
        one_line(&text).contains("what the balance misses"),
        "{text}"
    );
}

/// The whole message for a place that isn't there, as beside the mistakes in tests/input.
#[rstest]
#[case::near(
    "florr",
    "there is nothing called `florr` to explain",
    "did you mean `floor`?"
)]
#[case::near_in_part(
    "floor / cavty",
    "there is nothing called `floor / cavty` to explain",
    "did you mean `floor / cavity`?"
)]
#[case::far(
    "granite countertop",
    "there is nothing called `granite countertop` to explain",
    "`dewmargin explain FILE` lists all that can be asked"
)]
#[case::bare_slash(
    "/",
    "there is nothing called `/` to explain",
    "`dewmargin explain FILE` lists all that can be asked"
)]
fn a_wrong_place_has_its_message(#[case] place: &str, #[case] message: &str, #[case] help: &str) {
    let output = run(&["explain", "cabin-floor.yaml", place]);
    assert_eq!(code(&output), 2);
    assert!(output.stdout.is_empty());
    let expected = format!("error: {message}\n --> cabin-floor.yaml\n  = help: {help}\n");
    assert_eq!(stderr(&output), expected);
}

#[test]
fn too_much_asked_at_once_names_what_there_is() {
    let output = run(&["explain", "cabin-floor.yaml", "surface"]);
    assert_eq!(code(&output), 2);
    let message = stderr(&output);
    assert!(message.contains("`surface` fits"), "{message}");
    assert!(
        message.contains("`floor / cavity / floor surface`"),
        "{message}"
    );
}

#[test]
fn a_broken_file_and_a_missing_variant_are_told_as_by_check() {
    let check = program("tests/input")
        .args(["check", "zero-thickness.yaml"])
        .output();
    let explain = program("tests/input")
        .args(["explain", "zero-thickness.yaml", "U"])
        .output();
    let (check, explain) = (check.expect("runs"), explain.expect("runs"));
    assert_eq!(code(&explain), 2);
    assert_eq!(stderr(&check), stderr(&explain));
    let output = run(&["explain", "cabin-floor.yaml", "U", "--variant", "granite"]);
    assert_eq!(code(&output), 2);
}

/// A household's balance, redone: two people, propane, 30 cfm.
#[test]
fn room_humidity_by_the_households_balance() {
    let moisture = "moisture: {people: 2, cooking: propane, ventilation: 30 cfm, volume: 1500 ft3}";
    let text = example("cabin-wall.yaml", "humidity: 50 %", moisture);
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("house.yaml"), text).expect("written");
    let mut command = program(".");
    let output = command
        .current_dir(folder.path())
        .args(["explain", "house.yaml", "room humidity"])
        .output()
        .expect("the program starts");
    let text = stdout(&output);
    // 4.98 kg a day, 51 m³/h: 0.2074 kg/h · 461.5 · 293.15 K / 50.97 m³/h is 550 Pa over outdoors.
    assert!(text.contains("G = 0.2073"), "{text}");
    assert!(text.contains("V = 30 cfm"), "{text}");
    let excess = super::calculator::lines(&text);
    let excess = excess.iter().find(|line| line.symbol == "Δp").expect("Δp");
    let pa = super::calculator::number(&excess.number).expect("a number");
    assert!((pa - 550.4).abs() < 1.0, "{pa}");
}
