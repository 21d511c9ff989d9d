//! The first screen answers for each part: on what does it depend, by how much, where, at which site.

use rstest::rstest;

use crate::support::{example, first_screen, one_line, program, repository, stdout};

/// The first screen of a command on a project of a test's own, and how many rows it has.
fn screen_of(command: &str, project: &str) -> (String, usize) {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("house.yaml"), project).expect("written");
    let mut program = program(".");
    let output = program
        .current_dir(folder.path())
        .args([command, "house.yaml"])
        .output();
    let text = stdout(&output.expect("the program starts"));
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let rows = text.lines().count();
    (text, rows)
}

/// The whole cabin with walls beside its own, and no house: more parts than the screen has rows for.
fn of_many_walls(names: &[&str]) -> String {
    let path = repository().join("examples/cabin.yaml");
    let text = std::fs::read_to_string(path).expect("an example");
    let (start, end) = (text.find("  wall:\n"), text.find("  roof:\n    kind"));
    let (start, end) = (start.expect("a wall"), end.expect("a roof"));
    let wall = &text[start..end];
    // No two alike: what is told of them alike would be one row.
    let walls = names.iter().enumerate().map(|(n, name)| {
        let siding = format!("siding, thickness: {n}.5 in");
        let wall = wall.replacen("wall:", &format!("{name}:"), 1);
        wall.replace(
            "polyiso, thickness: 1 in",
            &format!("polyiso, thickness: 1.0{n} in"),
        )
        .replace("siding, thickness: 5/8 in", &siding)
    });
    let house = text.find("house: ").expect("a house");
    text[..end].to_owned() + &walls.collect::<String>() + &text[end..house]
}

// A part that hangs on several things says all of them, each with its number, its place by the name it
// has beside it.
#[test]
fn every_thing_that_a_part_hangs_on_has_its_number() {
    let screen = one_line(&first_screen(&["check", "cabin-fit.yaml"]));
    let told = "on tightness: studs / sheathing 43.4 °F, 5.3 °F under dew point if air leaks \
        winter mean also on material: studs / sheathing 96 % humid in January; on mold: studs / \
        sheathing index 3.5";
    assert!(screen.contains(told), "{screen}");
    assert!(!screen.contains("(cavity)"), "{screen}");
    // At the steel each piece of wood has its own.
    let screen = one_line(&first_screen(&["check", "cabin.yaml"]));
    let told = "also on tightness: subfloor under the plate 16.7 °F, rim joist 23.0 °F, plate \
        14.9 °F, sheathing 23.3 °F under dew point without an air seal";
    assert!(screen.contains(told), "{screen}");
    // Another site has its name.
    let told =
        "also on material: facing / studs 0.0 ± 0.09 °F clear of outdoor dew point, hot-humid";
    assert!(screen.contains(told), "{screen}");
}

// Parts that share a line each have their amount, under what they hang on and their site.
#[test]
fn parts_in_one_row_have_each_their_amount() {
    let walls = ["north wall", "gable", "dormer", "entry", "bath wall"];
    let (text, rows) = screen_of("check", &of_many_walls(&walls));
    assert!(rows <= 24, "{text}");
    let screen = one_line(&text);
    for told in [
        "on a cold spell, cold-continental: floor edge 11.4 °F under dew point",
        "on tightness, cold-continental: wall 15.1 °F, north wall 15.1 °F, gable 15.",
        "roof 0.4 °F under dew point",
    ] {
        assert!(screen.contains(told), "{told}: {text}");
    }
    // Of an option as well.
    let (text, _) = screen_of("compare", &of_many_walls(&walls));
    let told = "depends too, on tightness, cold-continental: wall 15.1 °F, north wall 15.1 °F";
    assert!(one_line(&text).contains(told), "{text}");
}

// However many fail, each is named with what it fails by, and what doesn't fit is counted.
#[test]
fn a_screen_of_many_that_fail_still_fits() {
    let wall = |n: usize| {
        format!(
            "  gable {n}:\n    kind: wall\n    layers:\n      - {{name: lining, material: painted gypsum board, \
             thickness: 1/2 in}}\n      - {{name: studs, material: R-13 batt, thickness: 3-1/2 in, framing: \
             {{material: spruce-pine-fir, share: {} %}}}}\n      - {{name: sheathing, material: plywood, \
             thickness: 1/2 in}}\n",
            10 + n
        )
    };
    let variant = |n: usize| {
        format!(
            "  board {n}:\n    gable {n}:\n      add: {{outside-of: sheathing, layer: {{name: board, \
             material: XPS, thickness: {n} in}}}}\n"
        )
    };
    let (walls, variants): (String, String) = (1..=13).map(|n| (wall(n), variant(n))).unzip();
    let project = format!(
        "indoor: {{heating: 68 F, humidity: 60 %}}\nclimate: wet-coast\ncode: {{edition: IRC 2018}}\n\
         assemblies:\n{walls}variants:\n{variants}"
    );
    let (text, rows) = screen_of("check", &project);
    assert!(rows <= 24, "{text}");
    let (screen, gables) = (one_line(&text), 1..=13);
    assert!(screen.contains("13 of 13 parts fail"), "{text}");
    assert!(
        gables
            .clone()
            .all(|n| screen.contains(&format!("gable {n}"))),
        "{text}"
    );
    assert!(
        screen.contains("do first") && screen.contains("more"),
        "{text}"
    );
    let (text, rows) = screen_of("compare", &project);
    assert!(rows <= 24, "{text}");
    assert!(
        gables
            .clone()
            .all(|n| one_line(&text).contains(&format!("board {n}"))),
        "{text}"
    );
}

// A row in short names its site where there are several, as a failing one does.
#[test]
fn a_row_in_short_names_its_site() {
    let (text, rows) = screen_of("check", &of_many_walls(&["gable"]));
    assert!(rows <= 24, "{text}");
    let screen = one_line(&text);
    assert!(screen.contains("depends"), "{text}");
    for told in [
        "subfloor at the corner 11.4 °F under dew point; cold-continental, design night −12.0 °F",
        "0.4 °F under dew point if air leaks; cold-continental, winter mean",
    ] {
        assert!(screen.contains(told), "{told}: {text}");
    }
}

// Rows of which the same is told are one row.
#[test]
fn the_same_is_told_once() {
    let screen = first_screen(&["compare", "cabin-wall.yaml"]);
    assert_eq!(screen.matches("insulation table").count(), 1, "{screen}");
    for option in ["as drawn", "or kraft facing", "or polyethylene"] {
        assert!(screen.contains(option), "{screen}");
    }
    assert!(screen.lines().count() <= 24, "{screen}");
}

// Where options fail, each still says which place of which part, how cold and when, before how is left out.
#[test]
fn options_that_fail_keep_place_number_and_time() {
    // The file's name takes a row of its own there.
    let output = program(".")
        .args(["compare", "examples/cabin-floor-edge.yaml"])
        .output();
    let text = stdout(&output.expect("the program starts"));
    assert!(text.lines().count() <= 24, "{text}");
    // Names and words stand before it.
    let beside = text
        .lines()
        .map(|line| line.chars().skip(33).collect::<String>());
    let told_beside = one_line(&beside.collect::<Vec<_>>().join(" "));
    for told in [
        "hidden flange: subfloor inboard of the plate 43.0 °F, 5.7 °F under dew point; winter mean; fails too: \
         flange inboard 4.6 °F under dew point",
        "hidden flange: subfloor at the corner 46.5 °F, 2.2 °F under dew point; winter mean; fails too: flange \
         inboard 1.8 °F under dew point",
    ] {
        assert!(told_beside.contains(told), "{told}: {text}");
    }
}

// The wood at the steel has one name, whichever check looks at it.
#[rstest]
#[case("flat strips", "subfloor / cross member", "subfloor gathers")]
fn the_wood_at_the_steel_has_one_name(
    #[case] part: &str,
    #[case] through_the_layers: &str,
    #[case] told: &str,
) {
    let screen = one_line(&first_screen(&["check", "cabin-cross-members.yaml"]));
    assert!(screen.contains(part) && screen.contains(told), "{screen}");
    assert!(!screen.contains(through_the_layers), "{screen}");
}

// What hangs on tolerance shows the bar that decides, beside the margin that lies within it; another house
// has no corner there.
#[test]
fn a_tolerance_is_told_with_its_bar() {
    let text = example("cabin-floor-edge.yaml", "humidity: 50 %", "humidity: 40 %");
    let text = text.replace(
        "      flange: flange\n",
        "      flange: flange\n      corner: none\n",
    );
    let (text, rows) = screen_of("check", &text);
    assert!(rows <= 24, "{text}");
    let told =
        "on tolerance: subfloor inboard of the plate 43.0 °F, 0.2 ± 0.67 °F clear of dew point";
    assert!(one_line(&text).contains(told), "{text}");
}
