//! What a builder asks of a year: does it leak safely, does diffusion wet it, can it dry; and which
//! input decides.

use rstest::rstest;
use serde_json::Value;

use crate::support::{
    case, checked, code, example, finding, json, nulls, number, one_line, program, run, stdout,
};

const WALL: &str = "cabin-wall.yaml";
const FLOOR: &str = "cabin-floor.yaml";

fn walls(humidity: u32) -> Value {
    checked(&example(
        WALL,
        "humidity: 50 %",
        &format!("humidity: {humidity} %"),
    ))
}

/// Leaks, diffusion, drying of the rain-screen wall on the wet coast. The plain walls hang on the
/// specimens of plywood at both humidities (common practice: a class III retarder is enough in a
/// mild climate behind a rain screen as long as the room is dry); a retarder of class I or II and
/// foam outside are safe against diffusion at 50 %; leaks are safe behind foam alone, since no
/// retarder warms the sheathing; everything dries outward through the open wrap.
#[rstest]
#[case::plain_2x4_50(50, "wall 2x4", None, ["depends", "depends", "pass"])]
#[case::plain_2x6_50(50, "wall 2x6", None, ["depends", "depends", "pass"])]
#[case::kraft_50(50, "wall 2x6", Some("kraft facing"), ["depends", "pass", "pass"])]
#[case::film_50(50, "wall 2x6", Some("film that opens when humid"), ["depends", "depends", "pass"])]
#[case::poly_50(50, "wall 2x6", Some("polyethylene"), ["depends", "pass", "pass"])]
#[case::foam_50(50, "wall 2x4", Some("2 in of foam outside"), ["depends", "pass", "pass"])]
#[case::plain_2x4_60(60, "wall 2x4", None, ["depends", "depends", "pass"])]
#[case::plain_2x6_60(60, "wall 2x6", None, ["depends", "depends", "pass"])]
#[case::kraft_60(60, "wall 2x6", Some("kraft facing"), ["depends", "depends", "pass"])]
#[case::film_60(60, "wall 2x6", Some("film that opens when humid"), ["depends", "depends", "pass"])]
#[case::poly_60(60, "wall 2x6", Some("polyethylene"), ["depends", "pass", "pass"])]
#[case::foam_60(60, "wall 2x4", Some("2 in of foam outside"), ["depends", "depends", "pass"])]
fn which_vapor_control_is_safe(
    #[case] humidity: u32,
    #[case] assembly: &str,
    #[case] variant: Option<&str>,
    #[case] expected: [&str; 3],
) {
    let report = walls(humidity);
    let case = case(&report, assembly, variant);
    let checks = ["air-leak", "diffusion-through-the-year", "drying"];
    let statuses = checks.map(|check| finding(case, check)["status"].clone());
    assert_eq!(statuses, expected);
}

/// At 60 % more water gathers than at 50 %, and never less, whatever the vapor control.
#[test]
fn a_damper_room_wets_more() {
    let peak = |report: &Value, assembly, variant| {
        let detail = &finding(
            case(report, assembly, variant),
            "diffusion-through-the-year",
        )["detail"];
        detail.get("peak_kg_per_m2").map_or(0.0, number)
    };
    let (drier, damper) = (walls(50), walls(60));
    for one in damper["cases"].as_array().expect("cases") {
        let (assembly, variant) = (
            one["assembly"].as_str().expect("a name"),
            one["variant"].as_str(),
        );
        assert!(peak(&damper, assembly, variant) >= peak(&drier, assembly, variant));
    }
    assert!(peak(&damper, "wall 2x6", None) > peak(&drier, "wall 2x6", None));
    assert_eq!(peak(&damper, "wall 2x6", Some("polyethylene")), 0.0);
}

/// The three questions in three short sentences, in every assembly's paragraph.
#[rstest]
#[case(
    50,
    "Leaks: depends, studs / sheathing 6.1 °F below the dew point. Diffusion: pass, nothing \
    condenses at wood or open insulation. Drying: pass, 1 kg/m² is gone by May."
)]
#[case(
    60,
    "Leaks: depends, studs / sheathing 11.0 °F below the dew point. Diffusion: depends, \
    studs / sheathing gathers 1.84 oz/ft², dry again in May. Drying: pass, 1 kg/m² is gone by June."
)]
fn three_sentences(#[case] humidity: u32, #[case] sentences: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    let project = example(WALL, "humidity: 50 %", &format!("humidity: {humidity} %"));
    std::fs::write(folder.path().join("house.yaml"), project).expect("written");
    let mut command = program(".");
    command.current_dir(folder.path());
    let text = stdout(
        &command
            .args(["check", "house.yaml", "--full"])
            .output()
            .expect("it starts"),
    );
    let text = one_line(&text);
    let heads = text
        .split("In the tables each row")
        .next()
        .expect("headlines");
    assert_eq!(heads.matches("Leaks: ").count(), 6, "{heads}");
    assert_eq!(heads.matches("Diffusion: ").count(), 6);
    assert_eq!(heads.matches("Drying: ").count(), 6);
    assert!(heads.contains(sentences), "{heads}");
}

/// The pan floor: with wool on the pan the headline is that it can't dry.
#[test]
fn wool_on_the_pan_cannot_dry_and_that_comes_first() {
    let variant = "foam over flange, wool on the pan";
    let report = json(&["check", FLOOR, "--variant", variant]);
    let wool = case(&report, "floor", Some(variant));
    assert_eq!(wool["verdict"], "fail");
    let first = &wool["findings"][0];
    assert_eq!(
        (first["check"].as_str(), first["status"].as_str()),
        (Some("drying"), Some("fail"))
    );
    let days = &first["detail"]["gone_after_days"];
    assert!(days.is_null() || number(days) > 365.0, "{days}");
    assert_eq!(first["detail"]["drains"], false);
    assert_eq!(finding(wool, "undrained-pan")["status"], "depends");

    let output = run(&["check", FLOOR, "--variant", variant]);
    assert_eq!(code(&output), 1);
    let text = stdout(&output);
    // After the verdict, the rows, what to do and the conditions.
    let headline = text.split("\n\n").nth(4).expect("a headline");
    let (verdict, sentence) = headline.split_once('\n').expect("a sentence below");
    assert_eq!(verdict, format!("floor, {variant}: fail"));
    assert!(
        one_line(sentence).starts_with("It can't dry within a year at "),
        "{headline}"
    );
}

/// The foam-filled one passes, and says what collects at the pan.
#[test]
fn foam_on_the_pan_passes_with_a_note_of_what_collects_there() {
    let variant = "foam over flange";
    let report = json(&["check", FLOOR, "--variant", variant]);
    let foam = case(&report, "floor", Some(variant));
    let own = foam["findings"].as_array().expect("findings").iter();
    let mut own = own.filter(|one| one["strip"].is_null());
    assert!(own.all(|one| ["pass", "note"].contains(&one["status"].as_str().expect("a word"))));
    let pan = finding(foam, "undrained-pan");
    assert_eq!(
        (pan["status"].as_str(), pan["plane"].as_str()),
        (Some("note"), Some("lining / pan"))
    );
    let collected = number(&pan["detail"]["condensed_per_year_kg_per_m2"]);
    assert!((0.001..1.0).contains(&collected), "{collected} kg/m²");
    let drying = finding(foam, "drying");
    assert!(number(&drying["detail"]["gone_after_days"]) <= 365.0);
    let text = one_line(&stdout(&run(&["check", FLOOR, "--variant", variant])));
    assert!(
        text.contains("a year collects there by diffusion"),
        "{text}"
    );
}

/// Every check prints its result also when it passes.
#[rstest]
#[case(WALL, Some("2 in of foam outside"))]
#[case("cabin-roof.yaml", Some("all the foam above the deck"))]
#[case(FLOOR, Some("foam over flange"))]
fn what_passes_is_printed_too(#[case] file: &str, #[case] variant: Option<&str>) {
    let report = json(&["check", file]);
    let all = report["cases"].as_array().expect("cases");
    let case = all
        .iter()
        .find(|case| case["variant"].as_str() == variant)
        .expect("the variant");
    let text = stdout(&run(&["check", file, "--variant", variant.expect("named")]));
    for (check, title) in [
        ("drying", "can it dry"),
        ("diffusion-through-the-year", "diffusion through the year"),
        ("air-leak", "air leak"),
        ("room-surface-condensation", "room surface, condensation"),
        ("room-surface-mold", "room surface, mold"),
        ("double-barrier", "double barrier"),
    ] {
        let found = finding(case, check);
        let status = found["status"].as_str().expect("a word");
        // Leaks hang on a cold spell: the design night.
        let word = match (status, found["on"].as_str()) {
            ("depends", Some("cold-spell")) if check == "air-leak" => "depends on a cold spell",
            _ => "pass",
        };
        let line = format!("    {word}, {title}: ");
        assert!(text.contains(&line), "`{line}` is missing\n{text}");
    }
}

/// Between two perfect barriers diffusion can't tell, and says so instead of passing.
#[test]
fn what_cannot_be_judged_is_unknown() {
    let project = "indoor: {heating: 68 F, humidity: 30 %}
climate: wet-coast
assemblies:
  wall:
    kind: wall
    layers:
      - {name: skin, material: aluminum, thickness: 22 ga, bonded: true}
      - {name: panel, material: plywood, thickness: 3/4 in}
      - {name: foam, material: XPS, thickness: 4 in}
      - {name: outer skin, material: aluminum, thickness: 22 ga}
";
    let report = checked(project);
    let case = &report["cases"][0];
    assert_eq!(
        finding(case, "diffusion-through-the-year")["status"],
        "unknown"
    );
    assert_ne!(case["verdict"], "pass");
}

#[rstest]
#[case::fails(&["check", FLOOR, "--variant", "foam over flange, wool on the pan"], 1)]
#[case::fails_at_the_edge(&["check", FLOOR, "--variant", "foam over flange"], 1)]
#[case::depends(&["check", WALL, "--variant", "polyethylene"], 0)]
#[case::depends_strictly(&["check", WALL, "--variant", "polyethylene", "--strict"], 1)]
#[case::foam(&["check", WALL, "--variant", "2 in of foam outside"], 0)]
#[case::foam_strictly(&["check", WALL, "--variant", "2 in of foam outside", "--strict"], 1)]
#[case::route(&["check", "cabin-route.yaml"], 1)]
#[case::no_such_variant(&["check", WALL, "--variant", "polyethylen"], 2)]
fn exit_codes_of_a_year(#[case] arguments: &[&str], #[case] expected: i32) {
    assert_eq!(code(&run(arguments)), expected);
}

/// Lines fit a page in both unit systems, and the metric text speaks metric.
#[rstest]
fn lines_fit_in_both_units(
    #[values(WALL, FLOOR, "cabin-roof.yaml", "cabin-route.yaml")] file: &str,
    #[values("imperial", "metric")] units: &str,
    #[values("check", "compare")] command: &str,
) {
    let text = stdout(&run(&[command, file, "--units", units]));
    let wide: Vec<&str> = text
        .lines()
        .filter(|line| line.chars().count() > 100)
        .collect();
    assert!(wide.is_empty(), "{}", wide.join("\n"));
    let blank = text.lines().any(|line| line != line.trim_end());
    assert!(!blank, "a line of {file} ends in blanks");
    if units == "metric" && command == "check" {
        let reasons = text.split("  reasons\n").nth(1).expect("reasons");
        let reasons = reasons.split("cautions").next().expect("reasons");
        // The one amount that is the same in every report is given both ways.
        let plain = one_line(reasons).replace("1 kg/m² (3.3 oz/ft²)", "1 kg/m²");
        let imperial = ["°F", "perm", "oz/ft²", "in²", "ft²", "Btu/h·ft²·°F"];
        for word in plain
            .split(' ')
            .map(|word| word.trim_matches(['(', ')', ',', '.', ';', ':']))
        {
            assert!(!imperial.contains(&word), "{file}: `{word}` in\n{plain}");
        }
        assert!(one_line(reasons).contains("kg/m²"));
    }
}

#[rstest]
fn no_number_is_missing_in_json(
    #[values(WALL, FLOOR, "cabin-roof.yaml", "cabin-route.yaml")] file: &str,
) {
    assert_eq!(nulls(&json(&["check", file]), ""), Vec::<String>::new());
}

/// What may be missing is missing only where there is nothing to say: notes have no limit, what
/// never dries no day, and a number that is infinite or none would show here.
#[rstest]
fn what_is_null_has_a_reason(
    #[values(WALL, FLOOR, "cabin-roof.yaml", "cabin-route.yaml")] file: &str,
) {
    let report = json(&["check", file]);
    for case in report["cases"].as_array().expect("cases") {
        for finding in case["findings"].as_array().expect("findings") {
            let (check, detail) = (
                finding["check"].as_str().expect("an id"),
                &finding["detail"],
            );
            let judged = finding["status"] != "note";
            if check == "diffusion-through-the-year" && !detail["peak_kg_per_m2"].is_null() {
                assert_eq!(judged, detail["limit_kg_per_m2"].is_number(), "{finding}");
                assert_eq!(judged, detail["limit_reason"].is_string(), "{finding}");
                let dries = detail["never_dry"] == false;
                assert_eq!(dries, detail["dry_by_month"].is_string(), "{finding}");
            }
            if check == "drying" && !detail.is_null() {
                let gone = detail["gone_after_days"].is_number();
                assert_eq!(gone, number(&detail["left_kg_per_m2"]) == 0.0, "{finding}");
                assert_eq!(gone, detail["gone_in_month"].is_string(), "{finding}");
                // What can't leave has no share of it.
                let share = detail["share_to_room"].as_f64();
                assert!(
                    share.is_none_or(|share| (0.0..=1.0).contains(&share)),
                    "{finding}"
                );
                assert!(share.is_some() || !gone, "{finding}");
            }
            for input in finding["range"]["inputs"].as_array().into_iter().flatten() {
                let Some(flip) = input["flip"].as_object() else {
                    continue;
                };
                let value = flip
                    .iter()
                    .find(|(key, _)| !["side", "becomes"].contains(&key.as_str()));
                let (key, value) = value.expect("a value");
                assert!(number(value) > 0.0, "{key} in {finding}");
            }
        }
    }
}

/// The humidity at which a wall flips is printed as its headline's last words and lies between
/// the humidity it was judged at and the one at which it is judged otherwise.
#[test]
fn what_decides_it_is_named_with_its_value() {
    let report = walls(50);
    let wall = finding(
        case(&report, "wall 2x6", None),
        "diffusion-through-the-year",
    );
    let inputs = wall["range"]["inputs"].as_array().expect("inputs");
    assert!(
        (2..=3).contains(&inputs.len()),
        "two or three inputs: {inputs:?}"
    );
    let room = inputs
        .iter()
        .find(|input| input["input"] == "room-humidity")
        .expect("the room's");
    let flip = number(&room["flip"]["relative_humidity"]);
    assert!((0.50..0.60).contains(&flip), "{flip}");
    assert_eq!(room["flip"]["side"], "above");
    // In the reasons of the wall every check names the inputs that move it.
    let text = one_line(&stdout(&run(&["check", WALL])));
    let printed = format!(
        "the room's humidity (no longer passes above {:.0} %)",
        flip * 100.0
    );
    assert!(text.contains(&printed), "{printed} in {text}");
}
