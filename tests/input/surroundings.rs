//! Odd rooms and odd climates that still have a right answer.

use rstest::rstest;
use serde_json::Value;

use crate::support::{code, finding, number, one_line, program, stderr, stdout};

fn check(file: &str) -> (Value, i32) {
    let output = program("tests/input/computes")
        .args(["check", file, "--format", "json"])
        .output()
        .expect("the program starts");
    assert_eq!(stderr(&output), "", "{file}");
    let report = serde_json::from_slice(&output.stdout).expect("JSON");
    (report, code(&output))
}

fn text(file: &str) -> String {
    let output = program("tests/input/computes")
        .args(["check", file, "--full"])
        .output()
        .expect("the program starts");
    one_line(&stdout(&output))
}

fn only_case(report: &Value) -> &Value {
    &report["cases"][0]
}

fn detail<'a>(report: &'a Value, check: &str) -> &'a Value {
    &finding(only_case(report), check)["detail"]
}

/// Saturation by the formula of ISO 13788 above 0 °C (from memory), written again.
fn saturation(celsius: f64) -> f64 {
    610.5 * (17.269 * celsius / (237.3 + celsius)).exp()
}

/// Monthly means of the built-in wet coast.
const COAST: [(f64, f64); 12] = [
    (4.7, 0.83),
    (5.4, 0.79),
    (7.1, 0.77),
    (9.4, 0.73),
    (12.6, 0.71),
    (15.3, 0.70),
    (17.6, 0.68),
    (17.8, 0.70),
    (15.2, 0.75),
    (10.9, 0.81),
    (7.2, 0.83),
    (4.9, 0.84),
];

/// Without ventilation the room is at saturation on its coldest surface, a factor of 60 % of the
/// way from outdoors to the room, in every month; and the report says that this caps it.
#[test]
fn a_sealed_room_is_capped_by_its_coldest_surface() {
    let (report, _) = check("ventilation-zero.yaml");
    let months = detail(&report, "room-air")["months"]
        .as_array()
        .expect("months");
    assert_eq!(months.len(), 12);
    for (month, (outdoor, _)) in months.iter().zip(COAST) {
        let surface = outdoor + 0.6 * (20.0 - outdoor);
        let want = saturation(surface) / saturation(20.0);
        let got = number(&month["relative_humidity"]);
        assert!((got - want).abs() < 1e-9, "{month}: want {want}");
        assert_eq!(month["capped_by_condensation"], true);
    }
    let text = text("ventilation-zero.yaml");
    assert!(
        text.contains("what condenses on the coldest surface caps it"),
        "{text}"
    );
    assert!(text.contains("Jul windows open"), "{text}");
}

/// Nobody gives off nothing: outdoor air, warmed to the room's temperature.
#[rstest]
#[case::aired("people-zero.yaml")]
#[case::sealed("nobody-home.yaml")]
fn nobody_leaves_outdoor_air_as_it_is(#[case] file: &str) {
    let (report, _) = check(file);
    let months = detail(&report, "room-air")["months"]
        .as_array()
        .expect("months");
    for (month, (outdoor, humidity)) in months.iter().zip(COAST) {
        let want = humidity * saturation(outdoor) / saturation(20.0);
        let got = number(&month["relative_humidity"]);
        assert!((got - want).abs() < 1e-9, "{month}: want {want}");
        assert_eq!(month["capped_by_condensation"], false);
    }
}

#[test]
fn barriers_only_stay_dry_inside_and_cold_at_the_surface() {
    let (report, code) = check("barriers-through-the-year.yaml");
    let case = only_case(&report);
    assert_eq!(code, 1);
    assert_eq!(
        finding(case, "diffusion-through-the-year")["status"],
        "pass"
    );
    assert_eq!(finding(case, "room-surface-condensation")["status"], "fail");
    let paths = case["solutions"][0]["paths"].as_array().expect("paths");
    for path in paths {
        for end in ["winter_mean", "design_night"] {
            assert_eq!(number(&path[end]["vapor_in_kg_per_m2_s"]), 0.0);
        }
    }
}

/// Between the two films alone the surface lies 0.04 / 0.17 of the way from outdoors.
#[test]
fn a_wall_of_thin_sheets_has_its_films() {
    let (report, code) = check("no-resistance.yaml");
    assert_eq!(code, 1);
    let (outdoor, room) = (
        number(&report["conditions"]["winter_mean"]["temperature_c"]),
        number(&report["conditions"]["indoor"]["temperature_c"]),
    );
    let case = only_case(&report);
    let surface = number(&case["overview"]["coldest_surface_c"]);
    let want = outdoor + (room - outdoor) * 0.04 / 0.17;
    assert!((surface - want).abs() < 1e-9, "{surface} against {want} °C");
    assert_eq!(finding(case, "room-surface-condensation")["status"], "fail");
    assert_eq!(finding(case, "room-surface-mold")["status"], "fail");
}

#[test]
fn a_room_without_vapor_wets_nothing_and_one_at_saturation_its_own_surface() {
    let (dry, code) = check("humidity-0.yaml");
    let case = only_case(&dry);
    assert_eq!((code, case["verdict"].as_str()), (0, Some("pass")));
    let path = &case["solutions"][0]["paths"][0]["winter_mean"];
    assert!(
        number(&path["vapor_in_kg_per_m2_s"]) < 0.0,
        "vapor comes in from outdoors"
    );

    let (damp, code) = check("humidity-100.yaml");
    let case = only_case(&damp);
    assert_eq!(code, 1);
    for check in [
        "room-surface-condensation",
        "room-surface-mold",
        "diffusion-through-the-year",
    ] {
        assert_eq!(finding(case, check)["status"], "fail", "{check}");
    }
}

/// The seasons turned around: the same worst humidity, half a year later.
#[test]
fn south_of_the_equator_winter_is_in_july() {
    let ((north, _), (south, _)) = (check("northern.yaml"), check("southern.yaml"));
    let of = |report: &Value| detail(report, "diffusion-through-the-year").clone();
    let (north_year, south_year) = (of(&north), of(&south));
    assert_eq!(north_year["month"], "January");
    assert_eq!(south_year["month"], "July");
    let highest = |year: &Value| number(&year["highest_relative_humidity"]);
    assert!((highest(&north_year) - highest(&south_year)).abs() < 1e-6);
    for check in ["room-surface-mold", "air-leak"] {
        let margin = |report: &Value| number(&finding(only_case(report), check)["margin_k"]);
        assert!((margin(&north) - margin(&south)).abs() < 1e-9, "{check}");
    }
    assert_eq!(detail(&south, "room-surface-mold")["month"], "July");
    let winter = |report: &Value| number(&report["conditions"]["winter_mean"]["temperature_c"]);
    assert!((winter(&north) - winter(&south)).abs() < 1e-9);
}

#[test]
fn a_climate_without_seasons_is_its_own_winter() {
    let (report, _) = check("flat-year.yaml");
    let winter = &report["conditions"]["winter_mean"];
    assert!((number(&winter["temperature_c"]) - 5.0).abs() < 1e-9);
    assert!((number(&winter["relative_humidity"]) - 0.82).abs() < 1e-9);

    // Water that gathers in every month never dries: what a month gathers, twelve times a year.
    let (report, code) = check("flat-year-wet.yaml");
    assert_eq!(code, 1);
    let finding = finding(only_case(&report), "diffusion-through-the-year");
    assert_eq!(
        (finding["status"].as_str(), &finding["detail"]["never_dry"]),
        (Some("fail"), &Value::Bool(true))
    );
    let left = number(&finding["detail"]["left_over_per_year_kg_per_m2"]);
    let yearly = number(&finding["detail"]["condensed_per_year_kg_per_m2"]);
    assert!(
        left > 1.0 && (left - yearly).abs() < 1e-9 * yearly,
        "{left} of {yearly}"
    );
    assert_eq!(finding["detail"]["frost"], true);
}

#[test]
fn where_it_is_warm_all_year_the_room_follows_or_is_cooled() {
    let (warm, _) = check("warm-all-year.yaml");
    let indoor = |report: &Value| number(&report["conditions"]["indoor"]["temperature_c"]);
    assert!((indoor(&warm) - 28.0).abs() < 1e-9);
    let (cooled, code) = check("cooled-all-year.yaml");
    assert!((indoor(&cooled) - (75.0 - 32.0) / 1.8).abs() < 1e-9);
    assert_eq!(code, 0, "a cooled house isn't failed for being cooled");
    let inward = finding(only_case(&cooled), "inward-air-leak");
    // 28 °C at 80 %.
    let dew_point = {
        let l = (0.8 * saturation(28.0) / 610.5).ln();
        237.3 * l / (17.269 - l)
    };
    assert!((number(&inward["limit_c"]) - dew_point).abs() < 1e-9);
}

#[test]
fn without_a_climate_the_checks_of_the_year_are_absent_and_it_is_said() {
    let (report, _) = check("outdoor-only.yaml");
    let case = only_case(&report);
    let findings = case["findings"].as_array().expect("findings");
    let ids: Vec<&str> = findings
        .iter()
        .filter_map(|f| f["check"].as_str())
        .collect();
    assert!(!ids.contains(&"diffusion-through-the-year"), "{ids:?}");
    assert_eq!(
        finding(case, "diffusion-on-the-winter-mean")["status"],
        "unknown"
    );
    let text = text("outdoor-only.yaml");
    assert!(
        text.contains("note, can it dry: Not judged: how what gets wet dries again takes"),
        "{text}"
    );
    assert!(
        text.contains("Whether it dries again takes the twelve months of a climate"),
        "{text}"
    );
}

#[test]
fn a_code_without_edition_depends_and_says_what_is_missing() {
    let (report, code) = check("code-empty.yaml");
    assert_eq!(code, 0);
    let table = finding(only_case(&report), "vapor-retarder-table");
    assert_eq!(table["status"], "depends", "{table}");
    assert_eq!(table["detail"]["code_edition"], Value::Null);
    let text = text("code-empty.yaml");
    assert!(text.contains("edition"), "{text}");
}

/// A file is looked for beside the project, wherever the program was started.
#[test]
fn a_climate_file_lies_beside_the_project() {
    let (near, _) = check("beside.yaml");
    let output = program(".")
        .args([
            "check",
            "tests/input/computes/beside.yaml",
            "--format",
            "json",
        ])
        .output()
        .expect("the program starts");
    assert_eq!(stderr(&output), "");
    let far: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(near["conditions"], far["conditions"]);
    let winter = number(&near["conditions"]["winter_mean"]["temperature_c"]);
    assert!((winter - (4.7 + 5.4 + 4.9) / 3.0).abs() < 1e-9);
}

/// Where more condenses than dries, what was put there doesn't shrink: that is said, instead of
/// more being "left" than there was.
#[test]
fn what_grows_is_not_called_left() {
    let (report, _) = check("flat-year-wet.yaml");
    let drying = finding(only_case(&report), "drying");
    assert_eq!(drying["status"], "fail");
    assert!(
        number(&drying["detail"]["left_kg_per_m2"]) > 1.0,
        "{drying}"
    );
    let text = text("flat-year-wet.yaml");
    assert!(text.contains("since more condenses than dries"), "{text}");
    assert!(!text.contains("is left after five years"), "{text}");
}
