//! What the floor at the steel must say: the truth table of where leaking room air gets to, and
//! which build-up keeps the wood clear.
//!
//! Sources: the truth table is the project's own convention (air stops at the warm face of the
//! first bonded layer), stated with the air-leak check; that foam above the deck leaves the wood
//! colder follows from the steady series of resistances, whose arithmetic `reviewer.rs` redoes.

use rstest::rstest;
use serde_json::Value;

use crate::support::{first_screen, json, one_line, run, stdout};

fn case<'a>(report: &'a Value, variant: Option<&str>) -> &'a Value {
    let cases = report["cases"].as_array().expect("cases");
    let found = cases
        .iter()
        .find(|case| case["variant"].as_str() == variant);
    found.expect("the variant")
}

fn strip_planes(case: &Value) -> &[Value] {
    let paths = case["solutions"][0]["paths"].as_array().expect("paths");
    let strip = paths.iter().find(|path| path["name"] == "side flange");
    let planes = &strip.expect("the strip's path")["winter_mean"]["planes"];
    planes.as_array().expect("planes")
}

fn temperature(planes: &[Value], name: &str) -> f64 {
    let plane = planes.iter().find(|plane| plane["name"] == name);
    let celsius = &plane.expect("the plane")["temperature_c"];
    celsius.as_f64().expect("a number")
}

/// Source: conventions of the physics, "where leaking room air gets to", truth table for the strip.
#[rstest]
#[case::bare(None, &["floor surface", "finish / subfloor", "subfloor / side flange"])]
#[case::bonded(Some("foam over flange"), &["floor surface", "finish / subfloor", "subfloor / flange foam"])]
#[case::loose(Some("foam over flange, loose"),
    &["floor surface", "finish / subfloor", "subfloor / flange foam", "flange foam / side flange"])]
#[case::under_finish(Some("foam under finish floor"),
    &["floor surface", "finish / floor foam", "floor foam / subfloor", "subfloor / side flange"])]
fn room_air_reaches(#[case] variant: Option<&str>, #[case] reached: &[&str]) {
    let report = json(&["check", "cabin-floor.yaml"]);
    let planes = strip_planes(case(&report, variant));
    let inner = |plane: &&Value| plane["reached_by_room_air"] == true;
    let names: Vec<&str> = planes
        .iter()
        .filter(inner)
        .filter_map(|plane| plane["name"].as_str())
        .filter(|name| !name.ends_with("outdoor surface") && *name != "underside")
        .collect();
    assert_eq!(names.get(..reached.len()), Some(reached), "{names:?}");
    let bonded = variant == Some("foam over flange");
    assert!(!bonded || names.len() == reached.len(), "{names:?}");
}

#[test]
fn the_reached_planes_are_clear_or_colder_as_the_table_says() {
    let report = json(&["check", "cabin-floor.yaml"]);
    let dew_point = report["conditions"]["room_dew_point_c"]
        .as_f64()
        .expect("a number");
    let at = |variant, plane| temperature(strip_planes(case(&report, variant)), plane);
    let bare = at(None, "subfloor / side flange");
    let bonded = at(Some("foam over flange"), "subfloor / flange foam");
    let loose = at(Some("foam over flange, loose"), "flange foam / side flange");
    let under_finish = at(Some("foam under finish floor"), "subfloor / side flange");
    assert!(bare < dew_point);
    // The detail of the edge has it under the dew point, and still warmer than bare.
    assert!(bonded > bare && bonded < dew_point);
    assert!(loose < bare);
    assert!(under_finish < bare);
}

#[test]
fn foam_under_the_finish_warms_feet_and_cools_the_wood() {
    let report = json(&["check", "cabin-floor.yaml"]);
    let overview = |variant, key: &str| {
        let number = &case(&report, variant)["overview"][key];
        number.as_f64().expect("a number")
    };
    let foam = Some("foam under finish floor");
    assert!(overview(foam, "coldest_surface_c") > overview(None, "coldest_surface_c"));
    assert!(overview(foam, "wood_at_steel_c") < overview(None, "wood_at_steel_c"));
}

#[test]
fn the_foam_filled_floor_passes_beside_the_steel_and_the_wool_filled_one_does_not() {
    let report = json(&["check", "cabin-floor.yaml"]);
    let foam = case(&report, Some("foam over flange"));
    let findings = foam["findings"].as_array().expect("findings");
    for finding in findings.iter().filter(|one| one["strip"].is_null()) {
        let status = finding["status"].as_str().expect("a word");
        assert!(["pass", "note"].contains(&status), "{finding}");
    }
    let wool = case(&report, Some("foam over flange, wool on the pan"));
    assert_ne!(wool["verdict"], "pass");
    assert_eq!(report["best"], "foam over flange");
}

/// The same in the words a builder reads: the edge speaks, whose detail nobody drew.
#[test]
fn compare_says_it_in_words() {
    let text = first_screen(&["compare", "cabin-floor.yaml"]);
    let words = one_line(&text);
    for sentence in [
        "least bad: foam over flange",
        "as drawn fail floor edge: subfloor inboard of the plate 42.9 °F, 10.7 °F under dew point",
        "foam over flange fail floor edge: subfloor inboard of the plate or foam over flange, 50.8 °F, 2.9 °F under dew",
    ] {
        assert!(words.contains(sentence), "{sentence}\n{text}");
    }
    // The strip alone calls the same wood clear: a hand-check beside it, with its error.
    let all = one_line(&stdout(&run(&["check", "cabin-floor.yaml"])));
    let note = "The side flange alone shows subfloor / flange foam at 60.0 °F: against the detail \
                9.2 °F too warm, the unsafe side.";
    assert!(all.contains(note), "{all}");
}
