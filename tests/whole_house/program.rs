//! `house` through the program: exit codes, JSON, variants, units.

use crate::support::{
    code, example, json, number, one_line, program, run, run_afresh, stderr, stdout,
};

const FIT: &str = "cabin-fit.yaml";

#[test]
fn exit_0_whatever_comes_out() {
    let output = run(&["house", FIT]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let text = stdout(&output);
    for line in [
        "house, as drawn: pass",
        "house, foam outside of the walls: fail",
        "What would help: 1-5/8 in off outside foam of the wall on each side",
        "furniture, water and people, which aren't counted",
        "Not structural. Local codes govern",
    ] {
        assert!(one_line(&text).contains(line), "no `{line}` in {text}");
    }
    let wide = text.lines().filter(|line| line.chars().count() > 100);
    assert_eq!(wide.collect::<Vec<_>>(), Vec::<&str>::new());
}

#[test]
fn json_holds_every_term() {
    let report = json(&["house", FIT]);
    assert_eq!(report["command"], "house");
    let houses = report["houses"].as_array().expect("houses");
    assert_eq!(houses.len(), 4);
    for house in houses {
        for key in ["width", "height", "length"] {
            let terms = house[key]["terms"].as_array().expect("terms");
            let sum: f64 = terms.iter().map(|term| number(&term["value_m"])).sum();
            assert!((sum - number(&house[key]["total_m"])).abs() < 1e-12);
        }
        let parts = house["heat"]["parts"].as_array().expect("parts");
        let sum: f64 = parts.iter().map(|part| number(&part["loss_w_per_k"])).sum();
        assert!((sum - number(&house["heat"]["loss_w_per_k"])).abs() < 1e-9);
        let groups = house["weight"]["groups"].as_array().expect("groups");
        let sum: f64 = groups.iter().map(|group| number(&group["mass_kg"])).sum();
        assert!((sum - number(&house["weight"]["house_kg"])).abs() < 1e-9);
    }
    // The foam over the flange takes heat from the edge, and head room at the same height.
    let edge = |n: usize| {
        let parts = houses[n]["heat"]["parts"].as_array().expect("parts");
        let part = parts.iter().find(|part| part["name"] == "floor edge");
        number(&part.expect("an edge")["psi_w_per_mk"])
    };
    assert!(edge(2) < edge(0));
    let lost = number(&houses[2]["head_room"]["lost_at_same_height_m"]);
    assert!((lost - 0.0254).abs() < 1e-12);
}

#[test]
fn a_variant_alone() {
    let text = stdout(&run(&[
        "house",
        FIT,
        "--variant",
        "proud, foam over the flange",
    ]));
    assert!(text.contains("house, proud, foam over the flange: pass"));
    assert!(!text.contains("as drawn: pass"));
    assert!(text.contains("over the strips"), "{text}");
    // It is still told what it does beside the house as drawn.
    let line = one_line(&text);
    assert!(
        line.contains("At the same overall height 1 in less than as drawn"),
        "{line}"
    );
    assert!(line.contains("Covering the side flange (`proud, foam over the flange`) saves"));

    let output = run(&["house", FIT, "--variant", "proud foam over the flange"]);
    assert_eq!(code(&output), 2);
    assert!(stderr(&output).contains("did you mean `proud, foam over the flange`?"));
}

/// A raised frame changes the edge of a strip that it doesn't cover, too: what that edge saves or
/// costs isn't the covered strip's.
#[test]
fn what_covering_a_strip_saves_is_counted_along_its_own_edges() {
    let text = example(
        FIT,
        "        count: 2\n        under: subfloor\n",
        "        count: 2\n        under: subfloor\n      - {name: end flange, metal: carbon steel, \
         thickness: 1/4 in, width: 4 in, across: 22 ft, count: 2, under: subfloor}\n",
    );
    let rail = "rail: {shape: tube, material: carbon steel, height: 6 in, width: 2 in, thickness: 3/16 in}\n";
    assert!(text.contains(rail));
    let end = format!(
        "{rail}  end edge:\n    floor-edge: {{floor: floor, wall: wall, flange: end flange, {}}}\n",
        rail.trim_end()
    );
    let text = text.replace(rail, &end).replace(
        "- {detail: floor edge, along: all}\n",
        "- {detail: floor edge, along: [left, right]}\n    - {detail: end edge, along: [front, back]}\n",
    );
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("house.yaml"), text).expect("written");
    let house = |more: &[&str]| {
        let mut command = program(".");
        command.current_dir(folder.path());
        let output = command.args(["house", "house.yaml"]).args(more).output();
        let output = output.expect("the program starts");
        assert_eq!(code(&output), 0, "{}", stderr(&output));
        stdout(&output)
    };
    let report: serde_json::Value =
        serde_json::from_str(&house(&["--format", "json"])).expect("JSON");
    let by_detail = |n: usize, strip: &str| {
        let strips = report["houses"][n]["heat"]["strips"].as_array();
        let mut strips = strips.expect("strips").iter();
        let found = strips.find(|one| one["strip"] == strip).expect("the strip");
        number(&found["by_detail_w_per_k"])
    };
    let saved = |strip: &str| by_detail(0, strip) - by_detail(2, strip);
    // 1 W/K = 1.895634 Btu/h·°F.
    let printed = |watts: f64| format!("{:.2} Btu/h·°F", watts * 1.895_634);
    let own = printed(saved("side flange"));
    let both = printed(saved("side flange") + saved("end flange"));
    assert_ne!(own, both, "the other edge's part can be told");
    let told = format!(
        "Covering the side flange (`proud, foam over the flange`) saves {own} along its edges"
    );
    let text = one_line(&house(&["--units", "imperial"]));
    assert!(text.contains(&told), "no `{told}` in {text}");
    assert!(
        text.contains("for heat the side flange matters little"),
        "{text}"
    );
}

#[test]
fn without_a_house_there_is_nothing_to_tell() {
    let output = run(&["house", "cabin-floor.yaml"]);
    assert_eq!(code(&output), 2);
    assert!(stderr(&output).contains("this file has no `house:` block"));
}

#[test]
fn both_unit_systems_and_the_same_bytes_again() {
    let metric = stdout(&run(&["house", FIT, "--units", "metric"]));
    assert!(
        one_line(&metric).contains("under the 2590.8 mm stated"),
        "{metric}"
    );
    assert!(metric.contains("W/K"));
    let again = run_afresh(&["house", FIT, "--units", "metric"]);
    assert_eq!(metric, stdout(&again));
}

/// Odd houses print numbers, never NaN: no room, no walls left, foam a foot thick.
#[test]
fn odd_houses_print_numbers() {
    let odd = [
        ("height: 7 ft 6 in", "height: 20 in"),
        ("pitch: 1 in 12", "pitch: 48 in 12"),
        (
            "deck: {length: 22 ft, width: 96 in}",
            "deck: {length: 3 ft, width: 60 in}",
        ),
    ];
    for (from, to) in odd {
        let text = crate::support::example(FIT, from, to);
        let start = text.find("  openings:").expect("openings");
        let end = text.find("  edges:").expect("edges");
        let text = format!("{}{}", &text[..start], &text[end..]);
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("odd.yaml"), text).expect("written");
        let mut command = program(".");
        let output = command
            .current_dir(folder.path())
            .args(["house", "odd.yaml"])
            .output();
        let output = output.expect("the program starts");
        assert_eq!(code(&output), 0, "{to}: {}", stderr(&output));
        for word in ["NaN", "inf", "panicked"] {
            assert!(!stdout(&output).contains(word), "{to}: {word}");
        }
    }
}
