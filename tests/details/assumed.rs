//! Edges drawn without being asked: which, with which wall, and by which name.

use dewmargin::model::drawn::{FoamReach, RailShape};
use dewmargin::model::{DetailCase, DetailPlan, Project};
use dewmargin::quantity::unit::INCH;
use rstest::rstest;

use super::{house, place_of, solved_between};

const IMPERIAL: dewmargin::quantity::Style = dewmargin::quantity::Style {
    units: dewmargin::quantity::UnitSystem::Imperial,
};

fn project(text: &str) -> Project {
    dewmargin::input::resolve_text("house.yaml", text).unwrap_or_else(|error| panic!("{error}"))
}

/// The house of these tests, with other assemblies or keys in the place of what it has.
fn names(text: &str) -> Vec<String> {
    let details = project(text).details;
    details.iter().map(DetailCase::full_name).collect()
}

const OTHER_FLOOR: &str = "  loft:
    kind: floor
    layers: [{name: deck, material: plywood, thickness: 3/4 in}, {name: bay, material: closed-cell spray foam, thickness: 6 in, framing: {material: spruce-pine-fir, width: 1.5 in, spacing: 16 in}}]
    strips: [{name: angle, metal: carbon steel, thickness: 1/4 in, width: 6 in, across: 96 in, under: deck}]
";
const OTHER_WALL: &str = "  end wall:
    kind: wall
    layers: [{name: studs, material: R-13 batt, thickness: 3-1/2 in, framing: {material: spruce-pine-fir, share: 25 %}}, {name: sheathing, material: plywood, thickness: 1/2 in}]
";
const OWN: &str = "details:
  edge: {floor-edge: {floor: floor, wall: wall, flange: flange}}
";
const MEMBERS: &str = "details:
  members: {cross-members: {floor: floor, strip: flange, pitch: 24 in}}
";

#[rstest]
#[case::one_of_each("", &["floor edge"])]
#[case::two_walls(OTHER_WALL, &["floor edge at wall", "floor edge at end wall"])]
#[case::two_floors(OTHER_FLOOR, &["floor edge", "loft edge"])]
#[case::shown(OWN, &["edge"])]
#[case::shown_as_cross_members(MEMBERS, &["members"])]
#[case::a_floor_is_shown(&format!("{OTHER_FLOOR}{OWN}"), &["edge", "floor edge"])]
#[case::its_name_is_taken(
    &format!("{OTHER_FLOOR}{}", OWN.replace("  edge:", "  floor edge:")),
    &["floor edge", "loft edge"]
)]
#[case::an_assembly_has_its_name(
    &OTHER_FLOOR.replace("  loft:", "  floor edge:").replace("kind: floor", "kind: roof").replace("    strips: [{name: angle, metal: carbon steel, thickness: 1/4 in, width: 6 in, across: 96 in, under: deck}]\n", ""),
    &["floor edge 2"]
)]
fn an_edge_has_a_name_of_its_own(#[case] rest: &str, #[case] expected: &[&str]) {
    assert_eq!(names(&house(rest)), expected);
}

#[test]
fn several_strips_are_told_apart_and_mid_floor_has_no_edge() {
    let second = "    strips:
      - {name: end angle, metal: carbon steel, thickness: 1/4 in, width: 6 in, across: 96 in, under: subfloor}
      - {name: member, at: mid-floor, metal: carbon steel, thickness: 1/4 in, width: 2 in, across: 96 in, under: subfloor}";
    let text = house("").replacen("    strips:", second, 1);
    assert_eq!(
        names(&text),
        ["floor edge, end angle", "floor edge, flange"]
    );
}

/// The stated defaults, in the plan and on the drawing: the rail stands 2 in wide from the flange
/// down to the pan, so that flange and rail are as deep as joists and lining.
#[test]
fn an_edge_is_drawn_by_the_stated_defaults() {
    let text = house("").replace(
        "    strips:",
        "      - {name: lining, material: closed-cell spray foam, thickness: 1 in}
      - {name: pan, material: galvanized steel, thickness: 20 ga}
    strips:",
    );
    let project = project(&text);
    let edge = &project.details[0];
    let Some(DetailPlan::FloorEdge(plan)) = &edge.plan else {
        panic!("a floor edge")
    };
    assert_eq!(plan.reach, None, "flush outside");
    assert_eq!(plan.foam, FoamReach::PlateInnerEdge);
    let rail = plan.rail.as_ref().expect("a rail");
    assert_eq!(
        (rail.shape, rail.hollow, rail.height),
        (RailShape::Tube, true, None)
    );
    assert!((rail.thickness.as_m() / INCH - 0.1875).abs() < 1e-12);
    let [left, right, bottom, top] = place_of(edge, "rail");
    assert!((right - left - 2.0).abs() < 1e-9);
    // Joists of 6 in and 1 in of lining, less the flange's 1/4 in.
    assert!((top - bottom - 6.75).abs() < 1e-9, "{}", top - bottom);
    let [.., pan] = place_of(edge, "pan");
    assert!((bottom - pan).abs() < 1e-9);
    let assumed = edge.assumed.as_ref().expect("assumed");
    assert_eq!(
        (&*assumed.subject, assumed.wall.as_deref()),
        ("floor edge", Some("wall"))
    );
    assert_eq!(edge.shows(), Some(("floor", "flange")));
    solved_between(edge);
}

/// As drawn, and again under every variant that changes the floor or a wall; never under another.
#[rstest]
#[case::the_floor("other: {floor: {remove: finish}}", &["floor edge", "floor edge, other"])]
#[case::a_wall("other: {wall: {remove: siding}}", &["floor edge", "floor edge, other"])]
#[case::neither("other: {loft: {remove: lining}}", &["floor edge"])]
#[case::the_strip_goes("other: {floor: {remove: flange}}", &["floor edge"])]
#[case::twice_the_same(
    "one: {floor: {remove: finish}}\n  two: {floor: {remove: finish}}",
    &["floor edge", "floor edge, one", "floor edge, two"]
)]
fn variants_have_edges_of_their_own(#[case] variants: &str, #[case] expected: &[&str]) {
    let roof = "  loft:
    kind: roof
    layers: [{name: lining, material: plywood, thickness: 1/2 in}, {name: deck, material: plywood, thickness: 3/4 in}]
";
    let text = house(&format!("{roof}variants:\n  {variants}\n"));
    assert_eq!(names(&text), expected);
}

/// A variant may show a strip in a detail of the file, or leave it to be shown.
#[test]
fn what_details_show_is_looked_at_under_each_variant() {
    let text = house(
        "details:
  edge: {floor-edge: {floor: floor, wall: wall, flange: flange}}
variants:
  on the other: {edge: {flange: angle}}
",
    );
    let second = "    strips:
      - {name: angle, metal: carbon steel, thickness: 1/4 in, width: 6 in, across: 96 in, under: subfloor}";
    let text = text.replacen("    strips:", second, 1);
    let expected = [
        "edge",
        "edge, on the other",
        "floor edge, angle",
        "floor edge, flange, on the other",
    ];
    assert_eq!(names(&text), expected);
}

/// A house without a wall has one stated for it.
#[test]
fn without_a_wall_a_two_by_four_wall_stands_on_the_edge() {
    let text = house("");
    let start = text.find("  wall:").expect("a wall");
    let project = project(&text[..start]);
    let [edge] = &project.details[..] else {
        panic!("one edge")
    };
    assert_eq!(edge.name, "floor edge");
    assert_eq!(edge.assumed.as_ref().expect("assumed").wall, None);
    let [left, right, ..] = place_of(edge, "studs");
    assert!((right - left - 3.5).abs() < 1e-9);
    assert!(
        project
            .cases
            .iter()
            .all(|case| case.assembly.name == "floor")
    );
    solved_between(edge);
}

#[test]
fn what_cannot_be_drawn_is_told_and_no_mistake() {
    // A flange as wide as the deck: the cut would have to end within the steel.
    let text = house("").replace("width: 6 in, across", "width: 90 in, across");
    let project = project(&text);
    assert_eq!(project.details, []);
    let [undrawn] = &project.undrawn[..] else {
        panic!("{:?}", project.undrawn)
    };
    assert_eq!(
        (
            &*undrawn.assembly,
            undrawn.strip.as_deref(),
            undrawn.wall.as_deref(),
            &undrawn.variant
        ),
        ("floor", Some("flange"), Some("wall"), &None)
    );
    let why = undrawn.why.in_units(IMPERIAL);
    assert!(why.contains("within the edge itself"), "{why}");
}

#[test]
fn six_walls_speak_for_the_rest() {
    let more: String = (1..=7)
        .map(|n| OTHER_WALL.replace("end wall", &format!("wall {n}")))
        .collect();
    let project = project(&house(&more));
    assert_eq!(project.details.len(), 6);
    let rest: Vec<_> = project
        .undrawn
        .iter()
        .map(|one| {
            let wall = one.wall.as_deref().unwrap_or_default();
            (wall, one.why.in_units(IMPERIAL))
        })
        .collect();
    assert_eq!(
        rest,
        [
            ("wall 6", "more than 6 walls".to_owned()),
            ("wall 7", "more than 6 walls".to_owned())
        ]
    );
}

/// Drawn again with another thickness, it is still what it was.
#[test]
fn an_edge_drawn_again_stays_assumed() {
    let edge = project(&house("")).details.swap_remove(0);
    let again = edge.redrawn(|_, _| {}).expect("the same");
    assert_eq!(again, edge);
}
