//! Details through the program: what `compare` says of the cabin's floor edge, and exit code 4.

use serde_json::Value;

use crate::support::{code, first_screen, json, number, one_line, run, stdout};

const EDGE: &str = "cabin-floor-edge.yaml";
const DEW_POINT: f64 = 9.26;

fn detail<'a>(report: &'a Value, name: &str, variant: Option<&str>) -> &'a Value {
    let details = report["details"].as_array().expect("details");
    let found = details
        .iter()
        .find(|one| one["detail"] == name && one["variant"].as_str() == variant);
    found.expect("the detail is there")
}

/// Coldest temperature that room air reaches of a part of wood, and its error bar.
fn wood(one: &Value, name: &str) -> (f64, f64) {
    let parts = one["result"]["wood"].as_array().expect("wood");
    let part = parts.iter().find(|part| part["name"] == name);
    let part = part.expect("the part is there");
    let reached = &part["coldest_reached_by_room_air"];
    let place = if reached.is_null() {
        &part["coldest"]
    } else {
        reached
    };
    (number(&place["temperature_c"]), number(&place["bar_k"]))
}

fn floor(one: &Value) -> f64 {
    let surfaces = one["result"]["surfaces"].as_array().expect("surfaces");
    let floor = surfaces.iter().find(|s| s["name"] == "floor surface");
    number(&floor.expect("a floor")["usual_film"]["temperature_c"])
}

/// The claims of the studies, by our own computation, for both flange widths.
#[test]
fn foam_belongs_over_the_flange() {
    let report = json(&["compare", EDGE]);
    for flange in ["hidden flange", "flange inboard"] {
        let of = |variant| detail(&report, flange, variant);
        let bare = of(None);
        let under_finish = of(Some("foam under finish floor"));
        let over = of(Some("proud, foam under the plate"));
        let deck = |one| wood(one, "subfloor inboard of the plate");

        // Under the finish floor foam warms the floor and cools the subfloor; over the flange it
        // warms both, and only that brings the subfloor above the dew point of the room air.
        assert!(floor(under_finish) > floor(bare) + 0.5);
        // Both lie in the same corner and err alike, too warm: even its upper end is below the bare one.
        assert!(deck(under_finish).0 + deck(under_finish).1 < deck(bare).0);
        assert!(floor(over) > floor(bare) + 0.5);
        assert!(deck(over).0 - deck(over).1 > DEW_POINT);
        assert!(deck(bare).0 + deck(bare).1 < DEW_POINT);

        // Plate and rim joist stay cold whatever lies over the flange.
        for part in ["plate", "rim joist"] {
            assert!(wood(over, part).0 < DEW_POINT, "{flange}, {part}");
        }
        assert_eq!(bare["verdict"], "fail");
        assert_eq!(under_finish["verdict"], "fail");
        assert_eq!(over["verdict"], "depends");
        assert_eq!(bare["settled"], true);
    }
    // How far the steel reaches inboard of the wall decides the bare edge.
    let bare = |flange| floor(detail(&report, flange, None));
    assert!(bare("flange inboard") < bare("hidden flange") - 0.5);
}

#[test]
fn the_simple_estimates_are_told_with_their_errors_and_sides() {
    let report = json(&["compare", EDGE]);
    let bare = detail(&report, "flange inboard", None);
    let names: Vec<&str> = bare["hand_checks"]
        .as_array()
        .expect("hand-checks")
        .iter()
        .map(|one| one["estimate"].as_str().expect("a name"))
        .collect();
    assert_eq!(
        names,
        [
            "parallel path by strip",
            "parallel path by area",
            "isothermal planes",
            "fin"
        ]
    );
    let flow = number(&bare["result"]["heat_flow_w_per_m"]["value"]);
    for one in bare["hand_checks"].as_array().expect("hand-checks") {
        // Planes across the floor overstate; the others miss heat that runs around the corner.
        let overstates = one["estimate"] == "isothermal planes";
        assert_eq!(
            number(&one["heat_flow_w_per_m"]) > flow,
            overstates,
            "{one}"
        );
    }
    let text = stdout(&run(&["check", EDGE]));
    let table = text
        .lines()
        .find(|line| line.contains("parallel path by area"));
    assert!(table.expect("a row").contains("unsafe"));
    assert!(text.contains("The outside corner of a floor edge"));
}

/// Two faces of different temperatures that meet: infinite heat, and the program says so.
#[test]
fn what_misses_its_tolerance_is_marked_and_ends_with_exit_code_4() {
    let folder = tempfile::tempdir().expect("a folder");
    let project = "
indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}}
assemblies:
  wall: {kind: wall, layers: [{name: panel, material: plywood, thickness: 1/2 in}]}
details:
  corner:
    cut: {width: 4 in, height: 4 in}
    rectangles: [{name: block, material: plywood, from: [0, 0], to: [4 in, 4 in]}]
    faces:
      - {name: left, temperature: 68 F, from: [0, 0], to: [0, 4 in]}
      - {name: bottom, temperature: 41 F, from: [0, 0], to: [4 in, 0]}
";
    let file = folder.path().join("corner.yaml");
    std::fs::write(&file, project).expect("written");
    let output = run(&["check", file.to_str().expect("a name")]);
    assert_eq!(code(&output), 4, "{}", stdout(&output));
    assert!(stdout(&output).contains("error bars are wider than asked for"));
}

/// A point halfway through a plane slab: half its resistance and one film from the room.
#[test]
fn a_point_asked_for_has_the_temperature_of_the_series_of_resistances() {
    let folder = tempfile::tempdir().expect("a folder");
    let project = "
indoor: {heating: 20 C, humidity: 50 %}
outdoor: {winter-mean: {temperature: 0 C, humidity: 82 %}}
assemblies:
  wall: {kind: wall, layers: [{name: panel, material: plywood, thickness: 1/2 in}]}
details:
  slab:
    cut: {width: 100 mm, height: 200 mm}
    rectangles: [{name: foam, conductivity: 0.04 W/mK, from: [0, 0], to: [100 mm, 80 mm]}]
    air: [{name: room, from: [0, 80 mm], to: [100 mm, 200 mm]}]
    faces: [{name: underside, from: [0, 0], to: [100 mm, 0], air: outdoors}]
    points: [{name: middle, at: [50 mm, 40 mm]}]
";
    let file = folder.path().join("slab.yaml");
    std::fs::write(&file, project).expect("written");
    let report = json(&["check", file.to_str().expect("a name")]);
    let point = &report["details"][0]["result"]["points"][0]["temperature_c"];
    // Films 0.17 (heat down) and 0.04, the slab 2 m²K/W (ISO 6946, from memory).
    let expected = 20.0 - 20.0 * (0.17 + 1.0) / 2.21;
    assert!((number(&point["value"]) - expected).abs() < 1e-6, "{point}");
}

/// A space at a temperature of its own: no factor holds, so no month and no night is told.
#[test]
fn beside_a_space_of_its_own_temperature_only_the_winter_mean_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let project = |space: &str| {
        format!(
            "
indoor: {{heating: 20 C, humidity: 50 %}}
climate: wet-coast
assemblies:
  wall: {{kind: wall, layers: [{{name: panel, material: plywood, thickness: 1/2 in}}]}}
details:
  slab:
    cut: {{width: 200 mm, height: 200 mm}}
    rectangles: [{{name: foam, conductivity: 0.04 W/mK, from: [0, 50 mm], to: [200 mm, 130 mm]}}]
    air:
      - {{name: room, from: [0, 130 mm], to: [200 mm, 200 mm]}}
      - {{name: outdoors, from: [0, 0], to: [100 mm, 50 mm]}}
      - {{name: {space}, from: [100 mm, 0], to: [200 mm, 50 mm]}}
"
        )
    };
    let file = folder.path().join("slab.yaml");
    let mold = |space: &str| {
        std::fs::write(&file, project(space)).expect("written");
        let report = json(&["check", file.to_str().expect("a name")]);
        let findings = report["details"][0]["findings"]
            .as_array()
            .expect("findings");
        let mold = findings.iter().find(|one| one["check"] == "detail-mold");
        mold.expect("mold").clone()
    };
    let between_two = mold("outdoors");
    assert_eq!(between_two["detail"]["month"], "January");
    let beside_crawl_space = mold("crawl space, temperature: 12 C");
    assert!(beside_crawl_space["detail"]["month"].is_null());
    assert!(beside_crawl_space["detail"]["temperature_factor"].is_null());
}

// A pass of the cut is none of its corner, where wood is colder: the corner has the last word.
#[test]
fn an_edge_that_is_clear_along_its_length_fails_at_its_corner() {
    let told = one_line(&first_screen(&["compare", EDGE]));
    let option = told
        .split("foam to the fail")
        .nth(1)
        .expect("foam to the plate");
    assert!(option.contains("subfloor at the corner"), "{option}");
    assert!(option.contains("corner in three dimensions"), "{option}");
}

// A board for an edge is thick enough for its corner; under the plate a thinner one is.
#[test]
fn a_board_for_an_edge_is_sized_for_its_corner() {
    let told = one_line(&first_screen(&["check", EDGE]));
    let first = told.split("do first").nth(1).expect("what to do first");
    assert!(first.contains("flange inboard: 3 in of XPS"), "{first}");
    assert!(first.contains("or 3/4 in under the plate too"), "{first}");
}

// Where the corner decides, the tables side by side have its number too.
#[test]
fn details_side_by_side_show_what_their_corners_come_to() {
    let told = stdout(&run(&["compare", EDGE]));
    let tables = told.split("at the coldest place").skip(1);
    let mut rows = tables.filter(|table| {
        table
            .lines()
            .next()
            .is_some_and(|l| l.contains("subfloor at the c"))
    });
    let table = rows.next().expect("a column of the corner");
    let row = table
        .lines()
        .find(|line| line.contains("hidden flange, proud, foam to the plate"));
    assert!(row.expect("the option").contains("46.5 ± 0.35"), "{table}");
}
