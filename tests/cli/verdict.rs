//! Exit codes and what comes first.

use rstest::rstest;

use crate::support::{code, first_screen, json, nulls, one_line, run, stderr, stdout};

#[rstest]
#[case::a_case_fails(&["check", "cabin-floor.yaml"], 1)]
#[case::a_table_fails(&["check", "cabin-wall.yaml"], 1)]
#[case::nothing_fails(&["check", "cabin-roof.yaml"], 0)]
#[case::depends_is_enough_when_strict(&["check", "cabin-roof.yaml", "--strict"], 1)]
#[case::cold_spell_when_strict(&["check", "cabin-roof.yaml", "--variant", "all the foam above the deck", "--strict"], 1)]
#[case::only_the_variant_is_judged(&["check", "cabin-wall.yaml", "--variant", "2 in of foam outside"], 0)]
#[case::without_changes(&["check", "cabin-floor.yaml", "--variant", "as drawn"], 1)]
#[case::foam_short_of_the_plate(&["check", "cabin-floor.yaml", "--variant", "foam over flange"], 1)]
#[case::no_such_variant(&["check", "cabin-floor.yaml", "--variant", "foam over flang"], 2)]
#[case::json_fails_too(&["check", "cabin-floor.yaml", "--format", "json"], 1)]
#[case::compare_did_its_work(&["compare", "cabin-floor.yaml"], 0)]
#[case::compare_many(&["compare", "cabin-floor.yaml", "cabin-wall.yaml"], 0)]
#[case::compare_one_missing(&["compare", "cabin-floor.yaml", "no-such.yaml"], 2)]
#[case::materials(&["materials"], 0)]
#[case::one_material(&["materials", "plywood"], 0)]
#[case::no_such_material(&["materials", "unobtainium"], 2)]
#[case::schema(&["schema"], 0)]
#[case::completions(&["completions", "bash"], 0)]
#[case::no_such_shell(&["completions", "abacus"], 2)]
#[case::manual(&["manual"], 0)]
#[case::help(&["--help"], 0)]
#[case::version(&["--version"], 0)]
#[case::nothing_asked(&[], 2)]
#[case::no_such_command(&["chek"], 2)]
#[case::no_such_option(&["check", "cabin-floor.yaml", "--stricter"], 2)]
#[case::no_such_file(&["check", "no-such.yaml"], 2)]
fn exit_codes(#[case] arguments: &[&str], #[case] expected: i32) {
    let output = run(arguments);
    assert_eq!(code(&output), expected, "{}", stderr(&output));
    // A refusal is a message and no result; a result is no message.
    assert_eq!(output.stdout.is_empty(), expected == 2);
    assert_eq!(output.stderr.is_empty(), expected != 2);
}

#[test]
fn a_misspelt_variant_gets_a_suggestion() {
    let output = run(&["check", "cabin-floor.yaml", "--variant", "foam over flang"]);
    let text = stderr(&output);
    assert!(text.contains("did you mean `foam over flange`?"), "{text}");
}

/// The first line says how many parts fail and on what the rest depends, the first row the worst.
#[rstest]
#[case(&["check", "cabin-floor.yaml"], "1 of 2 parts fails", "floor edge")]
#[case(&["check", "cabin-wall.yaml"], "1 of 2 parts fails; 1 depends, on tightness", "wall 2x4")]
#[case(&["check", "cabin-roof.yaml"], "its one part passes", "roof")]
fn the_verdict_comes_first(#[case] arguments: &[&str], #[case] verdict: &str, #[case] worst: &str) {
    for text in [first_screen(arguments), stdout(&run(arguments))] {
        let first = text.lines().next().expect("a line");
        assert_eq!(first, format!("Fern Hollow cabin: {verdict}"), "{text}");
        let row = text.split("\n\n").nth(1).expect("rows");
        assert!(row.starts_with(worst), "{text}");
    }
}

/// What is longer than a screen ends with its verdict.
#[test]
fn the_verdict_is_repeated_last() {
    let text = stdout(&run(&["check", "cabin-floor.yaml"]));
    assert_eq!(text.lines().next(), text.lines().last(), "{text}");
    let compared = stdout(&run(&["compare", "cabin-floor.yaml"]));
    let verdict = first_screen(&["compare", "cabin-floor.yaml"]);
    let verdict = verdict.lines().next().expect("a line");
    assert_eq!(compared.lines().last(), Some(verdict), "{compared}");
    let screen = first_screen(&["check", "cabin-floor.yaml"]);
    assert!(screen.lines().count() <= 24, "{screen}");
}

#[rstest]
#[case("check")]
#[case("compare")]
fn json_has_a_version_and_finite_numbers(
    #[case] command: &str,
    #[values("cabin-floor.yaml", "cabin-wall.yaml", "cabin-roof.yaml")] file: &str,
) {
    let report = json(&[command, file]);
    assert_eq!(report["schema_version"], 1);
    assert_eq!(report["command"], command);
    assert_eq!(report["file"], file);
    assert_eq!(nulls(&report, ""), Vec::<String>::new());
}

#[test]
fn compare_prints_several_files_as_one_list() {
    let reports = json(&["compare", "cabin-floor.yaml", "cabin-wall.yaml"]);
    let files: Vec<_> = reports
        .as_array()
        .expect("a list")
        .iter()
        .map(|r| &r["file"])
        .collect();
    assert_eq!(files, ["cabin-floor.yaml", "cabin-wall.yaml"]);
}

#[rstest]
#[case("imperial", " K below", "43.4 °F")]
#[case("metric", "°F below", "6.3 °C")]
fn units_both_ways(#[case] units: &str, #[case] other: &str, #[case] temperature: &str) {
    let text = stdout(&run(&["check", "cabin-floor.yaml", "--units", units]));
    assert!(text.contains(temperature), "{text}");
    assert!(!text.contains(other), "{text}");
    // JSON is SI either way.
    let report = json(&["check", "cabin-floor.yaml", "--units", units]);
    let indoor = &report["conditions"]["indoor"]["temperature_c"];
    assert!((indoor.as_f64().expect("a number") - 20.0).abs() < 1e-9);
}

/// What is remarked on frame and bays is measured in the reader's units.
#[rstest]
#[case(
    "imperial",
    "the frame is flush, but 1 in lies over a strip",
    "`studs` is 7 in deep, but",
    "comes 5-1/2 in thick"
)]
#[case(
    "metric",
    "the frame is flush, but 25.4 mm lies over a strip",
    "`studs` is 178 mm deep, but",
    "comes 140 mm thick"
)]
fn remarks_on_the_frame_speak_the_readers_units(
    #[case] units: &str,
    #[case] frame: &str,
    #[case] deep: &str,
    #[case] thick: &str,
) {
    let text = "indoor: {heating: 20 C, humidity: 50 %}
outdoor: {winter-mean: {temperature: 5 C, humidity: 82 %}}
assemblies:
  floor:
    kind: floor
    layers:
      - {name: subfloor, material: plywood, thickness: 18 mm}
      - {name: bay, material: XPS, thickness: 140 mm, framing: {material: pine, share: 10 %}}
    strips:
      - name: flange
        metal: carbon steel
        thickness: 6 mm
        width: 100 mm
        across: 2400 mm
        under: subfloor
        over: [{name: foam, material: XPS, thickness: 25.4 mm, bonded: true}]
  wall:
    kind: wall
    layers:
      - {name: studs, material: R-21 batt, thickness: 177.8 mm, framing: {material: pine, share: 20 %}}
      - {name: sheathing, material: plywood, thickness: 12 mm}
";
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("house.yaml");
    std::fs::write(&file, text).expect("written");
    let file = file.to_string_lossy();
    let text = one_line(&stdout(&run(&["check", &file, "--units", units])));
    for words in [frame, deep, thick] {
        assert!(text.contains(words), "no `{words}` in {text}");
    }
}
