//! Thicknesses over a strip at an edge are judged in two dimensions, asked or not.

use dewmargin::check::sizing::{Sized, size};
use dewmargin::model::{Project, SizedPart, Sizing};
use rstest::rstest;

use super::house;

fn project(rest: &str) -> Project {
    let text = house(rest);
    dewmargin::input::resolve_text("house.yaml", &text).unwrap_or_else(|error| panic!("{error}"))
}

fn entry(keys: &str) -> String {
    format!(
        "size:
  foam:
    layer: {{over: flange, name: flange foam, material: XPS, bonded: true}}
    frame: proud
    {keys}
"
    )
}

fn parts(sizing: &Sizing) -> Vec<String> {
    let kind = |part: &SizedPart| match part {
        SizedPart::Assembly(_) => "assembly",
        SizedPart::Detail(detail) if detail.assumed.is_some() => "assumed detail",
        SizedPart::Detail(_) => "detail",
    };
    let parts = sizing.parts.iter();
    parts
        .map(|part| format!("{} {}", kind(part), part.name()))
        .collect()
}

const OWN: &str = "details: {edge: {floor-edge: {floor: floor, wall: wall, flange: flange}}}\n";

#[rstest]
#[case::left_out("", "targets: {leak-margin: 2 F}", &["assembly floor", "assumed detail floor edge"])]
#[case::the_floor("", "of: floor\n    targets: {leak-margin: 2 F}", &["assembly floor", "assumed detail floor edge"])]
#[case::by_name("", "of: floor edge\n    targets: {leak-margin: 2 F}", &["assumed detail floor edge"])]
#[case::both("", "of: [floor, floor edge]\n    targets: {leak-margin: 2 F}", &["assembly floor", "assumed detail floor edge"])]
#[case::surface("", "of: floor\n    targets: {temperature-factor: 0.7}", &["assembly floor", "assumed detail floor edge"])]
#[case::no_target_of_heat("", "of: floor\n    targets: {u-value: 0.06 Btu/hft2F}", &["assembly floor"])]
#[case::shown(OWN, "targets: {leak-margin: 2 F}", &["assembly floor", "detail edge"])]
#[case::shown_and_not_asked(OWN, "of: floor\n    targets: {leak-margin: 2 F}", &["assembly floor"])]
fn what_is_judged_holds_the_edge(
    #[case] details: &str,
    #[case] keys: &str,
    #[case] expected: &[&str],
) {
    let project = project(&format!("{details}{}", entry(keys)));
    assert_eq!(parts(&project.sizings[0]), expected);
}

/// The board named before was chosen by the strip's own path, which shows the wood too warm.
#[test]
fn a_board_by_the_strip_alone_is_too_thin() {
    let project = project(&entry("of: floor\n    targets: {leak-margin: 2 F}"));
    let both = &project.sizings[0];
    let is_assembly = |part: &&SizedPart| matches!(part, SizedPart::Assembly(_));
    let alone = Sizing {
        parts: both.parts.iter().filter(is_assembly).cloned().collect(),
        ..both.clone()
    };
    let board = |sized: &Sized<'_>| sized.board.as_ref().map(|board| board.thickness.as_m());
    let by_strip = size(&alone, &project.stops);
    let thin = board(&by_strip).expect("a board by the strip's path");
    let judged = size(both, &project.stops);
    assert!(
        board(&judged).is_none_or(|board| board > thin),
        "{judged:?}"
    );
    let told = judged.board.as_ref().or(judged.ends.first()).expect("told");
    let value = told.nominal[0].as_ref().expect("a margin");
    assert!(
        value.at.starts_with("subfloor at the corner"),
        "{}",
        value.at
    );
}

/// A detail among the parts speaks for its strip: the strip's own path, too cold in mid-floor, says
/// nothing there.
#[test]
fn a_strip_that_a_detail_shows_has_no_say_of_its_own() {
    let members =
        "details: {members: {cross-members: {floor: floor, strip: flange, pitch: 24 in}}}\n";
    let keys = "of: [floor, members]\n    between: [1/4 in, 1 in]\n    targets: {leak-margin: 0 F, temperature-factor: 0.1}";
    let project = project(&format!("{members}{}", entry(keys)));
    let judged = size(&project.sizings[0], &project.stops);
    let told = [&judged.least, &judged.board, &judged.thinner];
    let told = told.into_iter().flatten().chain(&judged.ends);
    let places: Vec<String> = told
        .flat_map(|at| at.nominal.iter().chain(&at.worst).flatten())
        .map(|value| value.at.clone())
        .collect();
    assert!(!places.is_empty());
    assert!(
        places.iter().all(|at| !at.contains("(flange")),
        "{places:?}"
    );
}

/// An edge with a corner is sized there whether that is said or not; who says it has one.
#[test]
fn the_corner_goes_without_saying() {
    let of = |at: &str| {
        format!(
            "{OWN}{}",
            entry(&format!("of: edge\n    {at}targets: {{leak-margin: 2 F}}"))
        )
    };
    let (unsaid, said) = (project(&of("")), project(&of("at: corner\n    ")));
    assert_eq!(unsaid.sizings, said.sizings);
    let both = project(&of("at: [corner, winter mean]\n    "));
    assert_eq!(unsaid.sizings, both.sizings);
    let none =
        house(&of("at: corner\n    ").replace("flange: flange}", "flange: flange, corner: none}"));
    let error = dewmargin::input::resolve_text("house.yaml", &none).expect_err("no corner");
    let told = error.to_string();
    assert!(
        told.contains("nothing that is judged here has a corner"),
        "{told}"
    );
}
