//! By which way water gets somewhere, whether it dries there, and what is promised to keep it out.

use rstest::rstest;
use serde_json::Value;

use crate::support::{checked, first_screen, number, one_line};

fn part(kind: &str, climate: &str, humidity: &str, layers: &[&str]) -> String {
    let layers: String = layers
        .iter()
        .map(|layer| format!("      - {layer}\n"))
        .collect();
    format!(
        "indoor: {{heating: 68 F, humidity: {humidity}}}\nclimate: {climate}\n\
         assemblies:\n  part:\n    kind: {kind}\n    layers:\n{layers}"
    )
}

const ROOF: [&str; 4] = [
    "{name: ceiling, material: white pine, thickness: 3/4 in}",
    "{name: rafters, material: closed-cell spray foam, thickness: 5-1/2 in, framing: {material: spruce-pine-fir, share: 8 %}}",
    "{name: deck, material: plywood, thickness: 5/8 in}",
    "{name: roofing, material: EPDM, thickness: 60 mil}",
];
const PAN: [&str; 3] = [
    "{name: subfloor, material: plywood, thickness: 3/4 in}",
    "{name: bay, material: sheep wool, thickness: 5-1/2 in}",
    "{name: pan, material: galvanized steel, thickness: 20 ga}",
];
const WALL: [&str; 5] = [
    "{name: lining, material: painted gypsum board, thickness: 1/2 in}",
    "{name: foam, material: closed-cell spray foam, thickness: 3-1/2 in}",
    "{name: sheathing, material: plywood, thickness: 1/2 in}",
    "{name: wrap, material: housewrap}",
    "{name: siding, material: cedar siding, thickness: 5/8 in}",
];

fn of<'a>(report: &'a Value, check: &str) -> Option<&'a Value> {
    let mut all = report["cases"][0]["findings"]
        .as_array()
        .expect("findings")
        .iter();
    all.find(|one| one["check"] == check)
}

/// A layer with another key.
fn with(layer: &str, key: &str) -> String {
    format!("{}, {key}}}", layer.trim_end_matches('}'))
}

// Behind closed-cell foam under a roof's membrane: neither room air nor rain gets there, and the 936
// days that 1 kg/m² would take failed ordinary roofs. Stated as built in, it is judged.
#[test]
fn where_no_water_gets_the_days_are_a_note() {
    let report = checked(&part("roof", "wet-coast", "50 %", &ROOF));
    let judged = of(&report, "drying").expect("judged");
    assert_ne!(judged["status"], "fail");
    let note = of(&report, "drying-elsewhere").expect("a note");
    assert_eq!(note["status"], "note");
    assert!(number(&note["detail"]["gone_after_days"]) > 365.0);
    assert_eq!(note["detail"]["water_comes_by"], "no named way");
    let wet = with(ROOF[2], "built-in-water: true");
    let report = checked(&part(
        "roof",
        "wet-coast",
        "50 %",
        &[ROOF[0], ROOF[1], &wet, ROOF[3]],
    ));
    let judged = of(&report, "drying").expect("judged");
    assert_eq!(judged["status"], "fail");
    assert_eq!(judged["detail"]["water_comes_by"], "built-in water");
    assert!(of(&report, "drying-elsewhere").is_none());
}

// Rain runs out of an open gap; without one it gets to the sheathing.
#[rstest]
#[case::no_gap(&WALL, Some("rain"))]
#[case::an_open_gap(
    &[WALL[0], WALL[1], WALL[2], WALL[3], "{name: gap, air: ventilated, thickness: 3/4 in}", WALL[4]],
    None
)]
#[case::a_gap_open_at_one_end(
    &[WALL[0], WALL[1], WALL[2], WALL[3], "{name: gap, air: vented, thickness: 3/4 in}", WALL[4]],
    None
)]
fn rain_gets_past_cladding_without_a_gap(#[case] layers: &[&str], #[case] way: Option<&str>) {
    let report = checked(&part("wall", "wet-coast", "50 %", layers));
    let judged = of(&report, "drying").expect("told");
    let by = judged["detail"]
        .get("water_comes_by")
        .and_then(Value::as_str);
    // The lining of gypsum isn't wood; what the foam keeps room air from is reached by rain alone.
    assert_eq!(by, way, "{judged}");
}

// Wool on a sealed pan: over a year at the nominal values, and nothing drains. At the kind end of the
// materials it is gone in time, and that saves nothing.
#[rstest]
#[case(&PAN, "room air")]
#[case(&["{name: subfloor, material: plywood, thickness: 3/4 in, bonded: true}", PAN[1], PAN[2]], "plumbing")]
fn over_a_year_is_a_fail_whatever_the_kind_end(#[case] layers: &[&str], #[case] way: &str) {
    let report = checked(&part("floor", "wet-coast", "50 %", layers));
    let drying = of(&report, "drying").expect("judged");
    assert!(
        number(&drying["detail"]["gone_after_days"]) > 365.0,
        "{drying}"
    );
    assert_eq!(drying["detail"]["water_comes_by"], way);
    assert_eq!(drying["range"]["kind"], "pass");
    assert_eq!(drying["status"], "fail");
}

// A pass that a promise carries says so: on the first screen and in JSON. Spray foam bonds by its
// nature and promises nothing.
#[test]
fn a_pass_says_what_it_rests_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("house.yaml");
    let wall = |foam: &str| {
        let gap = "{name: gap, air: ventilated, thickness: 3/4 in}";
        part(
            "wall",
            "wet-coast",
            "40 %",
            &[WALL[0], foam, WALL[2], WALL[3], gap, WALL[4]],
        )
    };
    let screen = |foam: &str| {
        std::fs::write(&path, wall(foam)).expect("written");
        one_line(&first_screen(&["check", path.to_str().expect("a name")]))
    };
    let board = "{name: foam, material: XPS, thickness: 4 in, bonded: true}";
    let promised = screen(board);
    assert!(
        promised.contains("rests on what is promised: foam bonded"),
        "{promised}"
    );
    assert_eq!(
        checked(&wall(board))["cases"][0]["rests_on"][0],
        "foam bonded"
    );
    let sprayed = screen(WALL[1]);
    assert!(
        sprayed.contains("part passes") && !sprayed.contains("promised"),
        "{sprayed}"
    );
    let rests = &checked(&wall(WALL[1]))["cases"][0]["rests_on"];
    assert_eq!(rests.as_array().map(Vec::len), Some(0));
}

// A wall of two rows of studs has the insulation of both in its cavities, and what lies between them
// is continuous: R-12 + R-12 and. IRC 2018 asks R-20 + 5 in zone 6 (from memory).
#[test]
fn a_double_stud_wall_counts_both_rows() {
    let row = |name: &str| {
        format!(
            "{{name: {name}, kind: insulation, r-value: R-12, permeance: 30 perm, thickness: 3-1/2 in, framing: {{material: spruce-pine-fir, share: 20 %}}}}"
        )
    };
    let (inner, outer) = (row("inner studs"), row("outer studs"));
    let between =
        "{name: between, kind: insulation, r-value: R-10.3, permeance: 30 perm, thickness: 3 in}";
    let gap = "{name: gap, air: ventilated, thickness: 3/4 in}";
    let layers = [
        WALL[0], &inner, between, &outer, WALL[2], WALL[3], gap, WALL[4],
    ];
    let text = part("wall", "cold-continental", "30 %", &layers);
    let report = checked(&(text + "code: {edition: IRC 2018, zone: 6A}\n"));
    let table = of(&report, "insulation-table").expect("judged");
    assert_eq!(table["status"], "pass", "{table}");
}

// Polyethylene inside of a cooled wall in a hot humid climate: its cold face stands at 93 to 98 % for
// months and holds no water. Paint alone lets it dry inward.
#[rstest]
#[case::polyethylene("{name: film, material: polyethylene}", "R-13 batt", "depends")]
#[case::over_sprayed_foam(
    "{name: film, material: polyethylene}",
    "open-cell spray foam",
    "depends"
)]
#[case::paint_alone("", "R-13 batt", "pass")]
fn damp_without_water_is_judged_by_mold(
    #[case] film: &str,
    #[case] bay: &str,
    #[case] status: &str,
) {
    let studs = format!(
        "{{name: studs, material: {bay}, thickness: 3-1/2 in, framing: {{material: spruce-pine-fir, share: 25 %}}}}"
    );
    let studs = studs.as_str();
    let gap = "{name: gap, air: ventilated, thickness: 3/4 in}";
    let layers = [WALL[0], film, studs, WALL[2], WALL[3], gap, WALL[4]];
    let layers: Vec<&str> = layers
        .into_iter()
        .filter(|layer| !layer.is_empty())
        .collect();
    let text = part("wall", "hot-humid", "50 %", &layers);
    let text = text.replace("heating: 68 F,", "heating: 68 F, cooling: 75 F,");
    let report = checked(&text);
    let mold = of(&report, "mold-inside").expect("judged");
    assert_eq!(mold["status"], status, "{mold}");
    let water = of(&report, "diffusion-through-the-year").expect("judged");
    assert_eq!(water["status"], "pass", "{water}");
    if status == "depends" {
        assert_eq!(mold["on"], "mold");
        let months = mold["detail"]["grows_in"].as_array().expect("months");
        assert!(months.iter().any(|month| month == "July"), "{mold}");
    }
}
