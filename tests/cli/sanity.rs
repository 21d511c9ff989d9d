//! Ordinary build-ups on the invented wet coast, each with the verdict that whoever knows the
//! trade expects of it, and why. No code is named: these are the computed checks alone.
//!
//! Source of the expectations: common practice, as the reasons say; permeances are the library's
//! (`dewmargin materials NAME` shows where each was seen).

use rstest::rstest;
use serde_json::Value;

use crate::support::{checked, finding, number};

const PAINTED: &str = "{name: lining, material: painted gypsum board, thickness: 1/2 in}";
const BARE: &str = "{name: lining, material: gypsum board, thickness: 1/2 in}";
const POLY: &str = "{name: film, material: polyethylene}";
const R13: &str = "{name: studs, material: R-13 batt, thickness: 3-1/2 in, \
                   framing: {material: spruce-pine-fir, share: 25 %}}";
const OSB: &str = "{name: sheathing, material: OSB, thickness: 7/16 in}";
const PLYWOOD: &str = "{name: sheathing, material: plywood, thickness: 1/2 in}";
const WRAP: &str = "{name: wrap, material: housewrap}";
const XPS: &str = "{name: foam, material: XPS, thickness: 2 in}";
const FOIL: &str = "{name: foam, material: foil-faced polyiso, thickness: 1 in}";
const GAP: &str = "{name: gap, air: ventilated, thickness: 3/4 in}";
const SIDING: &str = "{name: siding, material: cedar siding}";
const CEILING: &str = "{name: ceiling, material: gypsum board, thickness: 1/2 in}";
const RAFTERS: &str = "{name: rafters, material: R-21 batt, thickness: 5-1/2 in, \
                       framing: {material: spruce-pine-fir, share: 10 %}}";
const DECK: &str = "{name: deck, material: plywood, thickness: 5/8 in}";
const POLYISO: &str = "{name: foam, material: polyiso, thickness: 5 in}";
const ROOFING: &str = "{name: roofing, material: EPDM, thickness: 60 mil}";

fn house(kind: &str, climate: &str, indoor: &str, layers: &[&str]) -> Value {
    let layers: String = layers
        .iter()
        .map(|layer| format!("      - {layer}\n"))
        .collect();
    let report = checked(&format!(
        "indoor: {{{indoor}}}\nclimate: {climate}\n\
         assemblies:\n  part:\n    kind: {kind}\n    layers:\n{layers}"
    ));
    report["cases"][0].clone()
}

/// The statuses of one check: at nominal values, at the adverse and at the kind corner.
fn corners(case: &Value, check: &str) -> [String; 3] {
    let range = &finding(case, check)["range"];
    ["nominal", "adverse", "kind"].map(|end| range[end].as_str().expect("a word").to_owned())
}

const YEAR: &str = "diffusion-through-the-year";

#[rstest]
#[case::no_retarder_50("wall", 50, &[PAINTED, R13, OSB, WRAP, GAP, SIDING], "depends", YEAR,
    ["pass", "fail", "pass"],
    "painted gypsum alone: OSB comes within 1 % of saturation, and denser boards pass it")]
#[case::no_retarder_60("wall", 60, &[PAINTED, R13, OSB, WRAP, GAP, SIDING], "fail", YEAR,
    ["fail", "fail", "fail"],
    "the OSB takes up over 3 % of its mass whichever specimen it is")]
#[case::bare_gypsum_50("wall", 50, &[BARE, R13, OSB, WRAP, GAP, SIDING], "fail", YEAR,
    ["fail", "fail", "fail"],
    "no paint: gypsum at over 50 perm holds nothing back")]
#[case::bare_gypsum_60("wall", 60, &[BARE, R13, OSB, WRAP, GAP, SIDING], "fail", YEAR,
    ["fail", "fail", "fail"],
    "the same, and more of it")]
#[case::plywood_60("wall", 60, &[PAINTED, R13, PLYWOOD, WRAP, GAP, SIDING], "depends", YEAR,
    ["fail", "fail", "depends"],
    "specimens of plywood spread from under 1 to over 3 perm: the open ones let it out in time")]
#[case::foam_outside_50("wall", 50, &[PAINTED, R13, OSB, WRAP, XPS, GAP, SIDING], "depends", YEAR,
    ["pass", "pass", "pass"],
    "2 in of foam keep the sheathing above the room's dew point, but not on the design night")]
#[case::poly_and_foil_50("wall", 50, &[PAINTED, POLY, R13, OSB, WRAP, FOIL, GAP, SIDING], "fail", "drying",
    ["fail", "fail", "fail"],
    "tight on both sides of wood: what gets wet there can't dry")]
#[case::foam_above_the_deck_50("roof", 50, &[CEILING, RAFTERS, DECK, POLYISO, ROOFING], "depends", YEAR,
    ["pass", "pass", "pass"],
    "more resistance above the deck than below it: a leak there meets dew on the design night alone")]
fn ordinary_build_ups_on_the_wet_coast(
    #[case] kind: &str,
    #[case] humidity: u32,
    #[case] layers: &[&str],
    #[case] verdict: &str,
    #[case] check: &str,
    #[case] expected: [&str; 3],
    #[case] reason: &str,
) {
    let indoor = format!("heating: 68 F, cooling: 75 F, humidity: {humidity} %");
    let case = house(kind, "wet-coast", &indoor, layers);
    assert_eq!(case["verdict"], verdict, "{reason}: {}", case["findings"]);
    assert_eq!(corners(&case, check), expected, "{reason}");
}

/// Why the plywood wall hangs on the specimen: the spread the library states, and the value at
/// which it flips lies inside it.
#[test]
fn plywood_flips_inside_its_own_spread() {
    let indoor = "heating: 68 F, cooling: 75 F, humidity: 60 %";
    let layers = [PAINTED, R13, PLYWOOD, WRAP, GAP, SIDING];
    let case = house("wall", "wet-coast", indoor, &layers);
    let inputs = finding(&case, YEAR)["range"]["inputs"]
        .as_array()
        .expect("inputs")
        .clone();
    let plywood = inputs
        .iter()
        .find(|input| input["layer"] == "sheathing" && input["input"] == "permeance")
        .expect("the plywood's permeance moves it");
    let perms = number(&plywood["flip"]["permeance_kg_per_s_m2_pa"]) / 5.72135e-11;
    assert!((1.0..4.0).contains(&perms), "flips at {perms} perm");
    assert_eq!(plywood["flip"]["side"], "above");
}

const HOT: &str = "hot-humid";

/// A stop that is air-conditioned isn't failed for its indoor temperature in winter being another.
#[test]
fn an_air_conditioned_stop_is_not_failed() {
    let layers = [PAINTED, R13, OSB, WRAP, GAP, SIDING];
    let severity = |status: &str| match status {
        "pass" => 0,
        "depends" => 1,
        _ => 2,
    };
    let two = house(
        "wall",
        HOT,
        "heating: 68 F, cooling: 75 F, humidity: 50 %",
        &layers,
    );
    assert_eq!(two["verdict"], "depends", "{}", two["findings"]);
    assert_eq!(two["on"], "cold-spell", "{}", two["findings"]);
    let inward = finding(&two, "inward-air-leak");
    assert_eq!(inward["status"], "pass");

    // One set point all year chills the wall in summer below the dew point of the outdoor air.
    let one = house(
        "wall",
        HOT,
        "heating: 68 F, cooling: 68 F, humidity: 50 %",
        &layers,
    );
    let word = |case: &Value| {
        let inward = finding(case, "inward-air-leak");
        severity(inward["status"].as_str().expect("a word"))
    };
    assert!(word(&one) > word(&two), "{}", one["findings"]);
    let chilled = finding(&one, "inward-air-leak");
    assert!(number(&chilled["margin_k"]) < number(&inward["margin_k"]) - 3.0);
    assert_eq!(
        chilled["status"], "depends",
        "it hangs on airtightness, it doesn't fail"
    );
}
