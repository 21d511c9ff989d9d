//! Details drawn box by box, in three dimensions.

use approx::assert_abs_diff_eq;
use dewmargin::input::resolve_text;
use dewmargin::model::Project;
use dewmargin::solve::conduction::Precision;
use dewmargin::solve::detail::{BoxesResult, solve_boxes, solve_detail_case};
use rstest::rstest;

use super::house;
use crate::support::{one_line, program};

/// Steel under foam at the edge of a floor, as deep as it is long: the same in every section.
const EXTRUDED: &str = "
  cut:
    cut: {width: 300 mm, height: 200 mm}
    rectangles:
      - {name: deck, material: plywood, from: [0, 80 mm], to: [300 mm, 98 mm]}
      - {name: foam, material: XPS, from: [0, 40 mm], to: [300 mm, 80 mm]}
      - {name: steel, conductivity: 50 W/mK, covers: true, from: [0, 40 mm], to: [100 mm, 46 mm]}
    air:
      - {name: outdoors, from: [0, 0], to: [300 mm, 40 mm]}
      - {name: room, from: [0, 98 mm], to: [300 mm, 200 mm]}
    points: [{name: under the deck, at: [50 mm, 79 mm]}]
  piece:
    cut: {width: 300 mm, depth: 500 mm, height: 200 mm}
    boxes:
      - {name: deck, material: plywood, from: [0, 0, 80 mm], to: [300 mm, 500 mm, 98 mm]}
      - {name: foam, material: XPS, from: [0, 0, 40 mm], to: [300 mm, 500 mm, 80 mm]}
      - {name: steel, conductivity: 50 W/mK, covers: true, from: [0, 0, 40 mm], to: [100 mm, 500 mm, 46 mm]}
    air:
      - {name: outdoors, from: [0, 0, 0], to: [300 mm, 500 mm, 40 mm]}
      - {name: room, from: [0, 0, 98 mm], to: [300 mm, 500 mm, 200 mm]}
    points: [{name: under the deck, at: [50 mm, 250 mm, 79 mm]}]
";

fn project(details: &str) -> Project {
    let text = house(&format!("details:{details}"));
    resolve_text("house.yaml", &text).unwrap_or_else(|error| panic!("{error}"))
}

fn solved(project: &Project) -> BoxesResult {
    let conditions = &project.stops[0].conditions;
    solve_boxes(&project.volumes[0], conditions).expect("a piece that can be solved")
}

/// The volume solver against the one for cuts, which is another: half a meter of the same section passes
/// half of what a meter does, and is as warm.
#[test]
fn a_piece_that_is_the_same_in_every_section_is_its_section() {
    let project = project(EXTRUDED);
    let conditions = &project.stops[0].conditions;
    let cut = solve_detail_case(&project.details[0], conditions, &Precision::default());
    let cut = cut.expect("a cut that can be solved");
    let piece = solved(&project);
    let flow = &cut.conduction.heat_flow;
    let reach = 0.5 * flow.bar + piece.heat_flow.bar;
    assert_abs_diff_eq!(piece.heat_flow.value, 0.5 * flow.value, epsilon = reach);
    let below = |points: &[(String, Option<dewmargin::solve::conduction::Estimate>)]| {
        points[0].1.expect("a point in the foam")
    };
    let (flat, deep) = (below(&cut.points), below(&piece.points));
    assert_abs_diff_eq!(deep.value, flat.value, epsilon = deep.bar + flat.bar);
    let surface = &piece.surfaces[1];
    assert_eq!(surface.name, "room surface");
    let damp = surface.damp.as_ref().expect("the room's").temperature;
    let expected = &cut.surfaces[0].damp;
    let reach = damp.bar + expected.bar;
    assert_abs_diff_eq!(damp.value, expected.point.temperature, epsilon = reach);
    assert_eq!(piece.wood[0].0, "deck");
}

/// What flows in flows out, also between three airs; and only between two is there a coupling.
#[test]
fn heat_is_neither_made_nor_lost_between_three_airs() {
    let garage = EXTRUDED
        .replace(
            "covers: true, from: [0, 0, 40 mm]",
            "covers: true, from: [0, 0, 60 mm]",
        )
        .replace("to: [100 mm, 500 mm, 46 mm]", "to: [100 mm, 500 mm, 66 mm]")
        .replace(
            "{name: outdoors, from: [0, 0, 0], to: [300 mm, 500 mm, 40 mm]}",
            "{name: outdoors, from: [0, 0, 0], to: [300 mm, 200 mm, 40 mm]}
      - {name: garage, temperature: 8 C, from: [0, 200 mm, 0], to: [300 mm, 500 mm, 40 mm]}",
        );
    let between_two = solved(&project(EXTRUDED));
    let between_three = solved(&project(&garage));
    for result in [&between_two, &between_three] {
        let flows: Vec<f64> = result.flows.iter().map(|(_, flow)| flow.value).collect();
        let sum: f64 = flows.iter().sum();
        let most = flows
            .iter()
            .fold(0.0, |most: f64, flow| most.max(flow.abs()));
        assert!(most > 0.5 && sum.abs() < 1e-6 * most, "{flows:?}");
    }
    assert!(between_two.coupling.is_some());
    assert!(between_three.coupling.is_none());
    assert_eq!(between_three.flows.len(), 3);
}

/// What is wrong with boxes is told at its line, with what was expected.
#[rstest]
#[case::overlap(
    "covers: true, from: [0, 0, 40",
    "from: [0, 0, 40",
    "`steel` lies over `foam`",
    "`covers: true`"
)]
#[case::gap(
    "to: [300 mm, 500 mm, 40 mm]}",
    "to: [300 mm, 400 mm, 40 mm]}",
    "fills a part",
    "a box or air"
)]
#[case::no_depth("depth: 500 mm, ", "", "has boxes, but no depth", "depth: …")]
#[case::flat_point(
    "at: [50 mm, 250 mm, 79 mm]",
    "at: [50 mm, 79 mm]",
    "has 2 numbers",
    "[x, y, z]"
)]
#[case::deep_point(
    "at: [50 mm, 79 mm]",
    "at: [50 mm, 79 mm, 1 mm]",
    "has 3 numbers",
    "two numbers in a cut"
)]
#[case::point_in_air(
    "250 mm, 79 mm]",
    "250 mm, 150 mm]",
    "lies in no solid",
    "inside a box"
)]
#[case::twice("boxes:", "rectangles: []\n    boxes:", "drawn in two ways", "one of")]
#[case::one_air(
    "{name: outdoors, from: [0, 0, 0]",
    "{name: room, from: [0, 0, 0]",
    "shows no outdoor air",
    "`outdoors`"
)]
#[case::sliver(
    "from: [0, 0, 80 mm]",
    "from: [0, 0, 98 mm]",
    "`deck` has no size",
    "below `to:`"
)]
#[case::beyond(
    "to: [300 mm, 500 mm, 98 mm]",
    "to: [301 mm, 500 mm, 98 mm]",
    "`deck` reaches beyond",
    "within `cut:`"
)]
#[case::seals(
    "points: [{name: under the deck, at: [50 mm, 250",
    "seals: [{name: s, from: [0, 0, 0], to: [1 mm, 0, 0]}]\n    points: [{name: under the deck, at: [50 mm, 250",
    "isn't looked for in three",
    "no `seals:`"
)]
#[case::depth_of_a_cut(
    "cut: {width: 300 mm, height",
    "cut: {width: 300 mm, depth: 1 m, height",
    "has a depth, but no boxes",
    "no depth"
)]
fn mistakes_are_told_where_they_are(
    #[case] right: &str,
    #[case] wrong: &str,
    #[case] message: &str,
    #[case] expected: &str,
) {
    assert!(EXTRUDED.contains(right), "{right}");
    let text = house(&format!("details:{}", EXTRUDED.replacen(right, wrong, 1)));
    let error = resolve_text("house.yaml", &text).expect_err("a mistake");
    let told = error.to_string();
    assert!(told.contains(message), "{told}");
    assert!(told.contains(expected), "{told}");
}

/// A cold pipe through the room's surface: it is told first, as three-dimensional, and the code is 1.
#[test]
fn the_first_screen_says_what_fails_in_three_dimensions() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "
indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 20 F, humidity: 80 %}}
assemblies: {wall: {kind: wall, layers: [{name: board, material: XPS, thickness: 4 in}]}}
details:
  pipe:
    cut: {width: 20 in, depth: 8 in, height: 8 in}
    boxes:
      - {name: board, material: XPS, from: [4 in, 0, 0], to: [8 in, 8 in, 8 in]}
      - {name: steel pipe, conductivity: 50 W/mK, covers: true,
         from: [1 in, 3 in, 3 in], to: [10 in, 5 in, 5 in]}
    air:
      - {name: outdoors, from: [0, 0, 0], to: [4 in, 8 in, 8 in]}
      - {name: room, from: [8 in, 0, 0], to: [20 in, 8 in, 8 in]}
";
    std::fs::write(folder.path().join("pipe.yaml"), text).expect("written");
    let mut run = program(".");
    let output = run.current_dir(folder.path()).args(["check", "pipe.yaml"]);
    let output = output.output().expect("the program starts");
    let told = String::from_utf8(output.stdout).expect("text");
    assert_eq!(output.status.code(), Some(1), "{told}");
    let first = told.lines().nth(3).expect("a row");
    assert!(
        first.starts_with("pipe  ") && first.contains("fail"),
        "{told}"
    );
    assert!(first.contains("room surface"), "{told}");
    assert!(told.contains("detail in three dimensions"), "{told}");
    // What it says to do first does it.
    let words = one_line(&told);
    let (_, rest) = words.split_once("only room air at ").expect("what to do");
    let (percent, _) = rest.split_once(" %").expect("a humidity");
    let drier = text.replace("humidity: 50 %", &format!("humidity: {percent} %"));
    assert_ne!(drier, text);
    std::fs::write(folder.path().join("drier.yaml"), drier).expect("written");
    let mut run = program(".");
    let output = run.current_dir(folder.path()).args(["check", "drier.yaml"]);
    let output = output.output().expect("the program starts");
    assert_eq!(output.status.code(), Some(0));
}
