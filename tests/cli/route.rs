//! A house that moves: every check at every stop, and the worst stop by its name.

use rstest::rstest;

use crate::support::{checked, finding, json, number, one_line, program, run, stdout};

const ROUTE: &str = "cabin-route.yaml";
const STOPS: [&str; 3] = ["wet-coast", "cold-continental", "hot-humid"];

/// What each assembly comes to where; the cold stop is the worst of all three.
#[rstest]
#[case(
    "floor",
    "pass",
    "cold-continental",
    "wet-coast pass; cold-continental pass; hot-humid pass"
)]
#[case(
    "wall",
    "fail",
    "cold-continental",
    "wet-coast depends; cold-continental fail; hot-humid depends"
)]
#[case(
    "roof",
    "depends",
    "cold-continental",
    "wet-coast depends; cold-continental depends; hot-humid depends"
)]
fn the_worst_stop_is_named(
    #[case] assembly: &str,
    #[case] verdict: &str,
    #[case] worst: &str,
    #[case] stops: &str,
) {
    let text = stdout(&run(&["check", ROUTE]));
    let headline = format!("\n{assembly}, as drawn: {verdict} (worst stop: {worst})\n");
    assert!(text.contains(&headline), "{text}");
    assert!(
        one_line(&text).contains(&format!("At the stops: {stops}.")),
        "{text}"
    );
}

/// The table of an assembly has a column for each stop and a word for every check in it.
#[test]
fn every_check_has_a_word_at_every_stop() {
    let text = stdout(&run(&["check", ROUTE]));
    let tables: Vec<&str> = text.split("  check by stop").skip(1).collect();
    assert_eq!(tables.len(), 3, "one table for each assembly");
    for table in tables {
        let table = table.split("  reasons").next().expect("a table");
        let (header, rows) = table.split_once('\n').expect("rows");
        assert_eq!(header.split_whitespace().collect::<Vec<_>>(), STOPS);
        let titles = [
            "can it dry",
            "diffusion through the year",
            "air leak",
            "room surface, mold",
        ];
        for title in titles {
            let row = rows
                .lines()
                .find(|line| line.trim_start().starts_with(title));
            let row = row.unwrap_or_else(|| panic!("no {title} in\n{table}"));
            let words: Vec<&str> = row.trim_start()[title.len()..].split_whitespace().collect();
            assert_eq!(words.len(), 3, "{row}");
            assert!(
                words
                    .iter()
                    .all(|word| ["pass", "depends", "fail"].contains(word)),
                "{row}"
            );
        }
        // Only the hot stop is cooled.
        let inward = rows
            .lines()
            .find(|line| line.contains("inward air leak"))
            .expect("a row");
        let words: Vec<&str> = inward.split_whitespace().skip(3).collect();
        assert_eq!(words[..2], ["-", "-"], "{inward}");
    }
}

/// A route of one is that climate, and the order of stops changes nothing but their order.
#[test]
fn the_worst_of_a_route_is_the_worst_of_its_stops_alone() {
    let project = |climate: &str| {
        format!(
            "indoor: {{heating: 68 F, cooling: 75 F, humidity: 50 %}}\nclimate: {climate}\n\
             assemblies:\n  wall:\n    kind: wall\n    layers:\n      \
             - {{name: lining, material: painted gypsum board, thickness: 1/2 in}}\n      \
             - {{name: studs, material: R-21 batt, thickness: 5-1/2 in}}\n      \
             - {{name: sheathing, material: plywood, thickness: 1/2 in}}\n      \
             - {{name: wrap, material: housewrap}}\n"
        )
    };
    let severity = |climate: &str| {
        let report = checked(&project(climate));
        let word = report["cases"][0]["verdict"]
            .as_str()
            .expect("a word")
            .to_owned();
        let at = ["pass", "depends", "fail"]
            .iter()
            .position(|known| *known == word);
        at.expect("a verdict")
    };
    let alone = STOPS.map(severity);
    let worst = alone.into_iter().max();
    assert_eq!(
        Some(severity("[wet-coast, cold-continental, hot-humid]")),
        worst
    );
    assert_eq!(
        Some(severity("[hot-humid, cold-continental, wet-coast]")),
        worst
    );
    assert_eq!(severity("[wet-coast]"), alone[0]);
    assert!(alone[0] < alone[1], "{alone:?}");
}

/// As many stops as are allowed, in tables that fit the page.
#[test]
fn twenty_four_stops_fit() {
    let stops = ["wet-coast", "cold-continental", "mixed-humid", "hot-humid"]
        .repeat(6)
        .join(", ");
    let project = format!(
        "indoor: {{heating: 68 F, humidity: 50 %}}\nclimate: [{stops}]\nassemblies:\n  wall:\n    \
         kind: wall\n    layers:\n      - {{name: sheathing, material: plywood, thickness: 1/2 in}}\n"
    );
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("house.yaml"), project).expect("written");
    let mut command = program(".");
    command.current_dir(folder.path());
    let text = stdout(
        &command
            .args(["check", "house.yaml", "--full"])
            .output()
            .expect("it starts"),
    );
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    // Each of them heads a column, the later ones with their number.
    let heads = text.lines().filter(|line| line.contains("check by stop"));
    let heads: String = heads.collect::<Vec<_>>().join(" ");
    let names = ["wet-coast", "cold-continental", "mixed-humid", "hot-humid"];
    let named = names.map(|name| heads.matches(name).count());
    assert_eq!(named, [6; 4], "{text}");
    assert!(text.contains("a route of 24 stops"), "{text}");
}

/// In JSON the route is there too: every stop with its air, and every case at every stop.
#[test]
fn json_holds_every_stop() {
    let report = json(&["check", ROUTE]);
    let stops = report["stops"].as_array().expect("stops");
    let names: Vec<&str> = stops
        .iter()
        .filter_map(|stop| stop["name"].as_str())
        .collect();
    assert_eq!(names, STOPS);
    for stop in stops {
        assert_eq!(stop["months"].as_array().expect("months").len(), 12);
    }
    for case in report["cases"].as_array().expect("cases") {
        let at_stops = case["at_stops"].as_array().expect("stops");
        let names: Vec<&str> = at_stops
            .iter()
            .filter_map(|at| at["stop"].as_str())
            .collect();
        assert_eq!(names, STOPS);
        let worst = at_stops
            .iter()
            .find(|at| at["stop"] == case["worst_stop"])
            .expect("named");
        assert_eq!(worst["verdict"], case["verdict"]);
        // Of every check the worst of all sites stands, by its site.
        for finding in case["findings"].as_array().expect("findings") {
            let site = finding["site"].as_u64().expect("a site") as usize;
            let there = at_stops[site]["findings"].as_array().expect("findings");
            assert!(there.contains(finding), "{finding}");
        }
        assert!(
            at_stops
                .iter()
                .all(|at| finding(at, "air-leak")["status"].is_string())
        );
    }
}

/// The conditions at the top are the first stop's, its dew point too, though the room is more
/// humid where the cases are worst.
#[test]
fn the_conditions_at_the_top_belong_together() {
    let project = "indoor: {heating: 68 F, humidity-class: 2}
climate: [cold-continental, hot-humid]
assemblies:
  wall:
    kind: wall
    layers:
      - {name: sheathing, material: plywood, thickness: 1/2 in}
";
    for order in [
        "[cold-continental, hot-humid]",
        "[hot-humid, cold-continental]",
    ] {
        let report = checked(&project.replace("[cold-continental, hot-humid]", order));
        let conditions = &report["conditions"];
        let indoor = &conditions["indoor"];
        // ISO 13788 above 0 °C (from memory).
        let celsius = number(&indoor["temperature_c"]);
        let saturation = 610.5 * (17.269 * celsius / (237.3 + celsius)).exp();
        let l = (number(&indoor["relative_humidity"]) * saturation / 610.5).ln();
        let (warm, cold) = (237.3 * l / (17.269 - l), 265.5 * l / (21.875 - l));
        let want = if l >= 0.0 { warm } else { cold };
        let got = number(&conditions["room_dew_point_c"]);
        assert!(
            (got - want).abs() < 1e-9,
            "{order}: {got} against {want} °C"
        );
    }
}
