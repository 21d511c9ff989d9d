//! Outside measures and head room, each redone by hand in inches.

use dewmargin::check::house::{HEIGHT, LENGTH, WEIGHT, WIDTH};
use dewmargin::check::{HouseCheck, HouseFinding, Status};
use dewmargin::study::JudgedHouse;
use proptest::prelude::*;
use rstest::rstest;

use super::{ASSEMBLIES, INCH, as_drawn, close, flat, project};

fn of<'a>(house: &'a JudgedHouse<'_>, check: &HouseCheck) -> &'a HouseFinding {
    let found = house.verdict.findings.iter().find(|one| one.check == check);
    found.expect("the check was run")
}

fn inches(value: Option<f64>) -> f64 {
    value.expect("a value") / INCH
}

/// The acceptance: 96 + 2 × (1/2 + 3/4 + 5/8) = 99-3/4.
#[test]
fn the_deck_and_what_lies_outboard_on_both_sides() {
    let project = project(&flat("  road: {width: 8 ft 6 in, height: 13 ft 6 in}\n"));
    let house = as_drawn(&project);
    let width = of(&house, &WIDTH);
    close(inches(width.value), 99.75, 1e-9);
    close(inches(width.slack()), 2.25, 1e-9);
    assert_eq!(width.status, Status::Pass);
    // A wrap takes no room, and nothing is a term that isn't there.
    let terms = &house.result.fit.width.as_ref().expect("a width").terms;
    let names: Vec<&str> = terms.iter().map(|term| term.name.as_str()).collect();
    let wanted = [
        "deck",
        "left sheathing",
        "left gap",
        "left siding",
        "right sheathing",
        "right gap",
        "right siding",
    ];
    assert_eq!(names, wanted);
    // Without a deck height the limit can't be judged, and that is said.
    let height = of(&house, &HEIGHT);
    assert_eq!(height.status, Status::Unknown);
    assert!(height.missing[0].contains("deck-height"));
}

#[test]
fn without_a_limit_there_is_a_note_and_never_a_pass() {
    let project = project(&flat("  trailer: {deck-height: 25 in}\n"));
    let house = as_drawn(&project);
    for check in [&WIDTH, &HEIGHT, &WEIGHT] {
        assert_eq!(of(&house, check).status, Status::Note);
    }
    assert!(of(&house, &WIDTH).source.contains("8 ft 6 in"));
    assert!(of(&house, &HEIGHT).source.contains("13 ft 6 in"));
    assert!(of(&house, &WIDTH).source.contains("state law"));
}

/// 25 + 3/4 subfloor + 90 wall + 5-1/2 rafters + 5/8 deck = 121-7/8; head room 90 − 1/2 − 3/4.
#[test]
fn height_and_head_room_under_a_flat_roof() {
    let project = project(&flat("  trailer: {deck-height: 25 in}\n"));
    let house = as_drawn(&project);
    close(inches(of(&house, &HEIGHT).value), 121.875, 1e-9);
    let room = house.result.fit.head_room.expect("head room");
    close(room.least / INCH, 88.75, 1e-9);
    close(room.greatest / INCH, 88.75, 1e-9);
}

/// Shed 1 in 12 over 96 in: rise 8; on over the high side's 1-7/8 of siding and 6 of overhang
/// 0.65625; 6-1/8 of roof × √(1 + 1/144). Head room at the low wall's inner face, 4 in inside.
#[test]
fn height_and_head_room_under_a_shed_roof() {
    let roof = "  roof: {assembly: roof, shape: shed, pitch: 1 in 12, low-side: right, \
                overhangs: {left: 6 in, right: 3 in}, stands-above: 4 in}\n";
    let flat = flat("  trailer: {deck-height: 25 in}\n");
    let house = flat.replace("  roof: {assembly: roof, shape: flat}\n", roof);
    let project = project(&house);
    let house = as_drawn(&project);
    let stretch = (1.0_f64 + 1.0 / 144.0).sqrt();
    let height = 25.0 + 0.75 + 90.0 + 8.0 + 7.875 / 12.0 + 6.125 * stretch + 4.0;
    close(inches(of(&house, &HEIGHT).value), height, 1e-9);
    // The overhangs, not the siding, are the widest.
    close(inches(of(&house, &WIDTH).value), 99.75 + 9.0, 1e-9);
    let room = house.result.fit.head_room.expect("head room");
    let taken = 0.5 + 0.75 * stretch;
    close(room.least / INCH, 90.0 + 4.0 / 12.0 - taken, 1e-9);
    close(room.greatest / INCH, 90.0 + 92.0 / 12.0 - taken, 1e-9);
}

/// The same shed by the height of its high side.
#[test]
fn a_shed_by_its_high_side() {
    let deck = flat("  trailer: {deck-height: 25 in}\n");
    let by_pitch = "  roof: {assembly: roof, shape: shed, pitch: 1 in 12, low-side: right}\n";
    let by_height = "  roof: {assembly: roof, shape: shed}\n";
    let one = deck.replace("  roof: {assembly: roof, shape: flat}\n", by_pitch);
    let other = deck.replace("  roof: {assembly: roof, shape: flat}\n", by_height);
    let other = other.replace(
        "height: 90 in}",
        "height: 90 in, sides: {left: {height: 98 in}}}",
    );
    let (one, other) = (project(&one), project(&other));
    let height = |house: &JudgedHouse<'_>| inches(of(house, &HEIGHT).value);
    close(height(&as_drawn(&one)), height(&as_drawn(&other)), 1e-9);
}

/// Gable 6 in 12 over 96 in: rise 24 in the middle; the ends' walls are 90 × 264 and a triangle.
#[test]
fn a_gable() {
    let deck = flat("  trailer: {deck-height: 25 in}\n");
    let roof = "  roof: {assembly: roof, shape: gable, pitch: 6 in 12}\n";
    let project = project(&deck.replace("  roof: {assembly: roof, shape: flat}\n", roof));
    let house = as_drawn(&project);
    let stretch = 1.25_f64.sqrt();
    let height = 25.0 + 0.75 + 90.0 + 24.0 + 6.125 * stretch;
    close(inches(of(&house, &HEIGHT).value), height, 1e-9);
    let wall = &house.result.areas[1];
    let gable_end = 96.0 * 90.0 + 96.0 * 24.0 / 2.0;
    let all = 2.0 * 264.0 * 90.0 + 2.0 * gable_end;
    close(wall.framed / INCH / INCH, all, 1e-6);
}

/// Only where a limit is stated: 264 + 2 × (1/2 + 3/4 + 5/8) = 267-3/4.
#[rstest]
#[case::within("{length: 268 in}", Some(Status::Pass))]
#[case::beyond("{length: 267-1/2 in}", Some(Status::Fail))]
#[case::no_limit("{width: 102 in}", None)]
fn the_length_is_judged_where_it_is_limited(#[case] road: &str, #[case] status: Option<Status>) {
    let project = project(&flat(&format!("  road: {road}\n")));
    let house = as_drawn(&project);
    let mut findings = house.verdict.findings.iter();
    let length = findings.find(|one| one.check == &LENGTH);
    assert_eq!(length.map(|one| one.status), status);
    if let Some(length) = length {
        close(inches(length.value), 267.75, 1e-9);
    }
}

#[test]
fn what_could_give_way_is_named_with_its_measure() {
    let road = "  road: {width: 99 in}\n";
    let project = project(&flat(road));
    let house = as_drawn(&project);
    let width = of(&house, &WIDTH);
    assert_eq!(width.status, Status::Fail);
    // 3/4 in over: 3/8 in off each side's siding, the thickest solid layer outboard.
    assert_eq!(width.shaves[0].what, "siding");
    assert!(width.shaves[0].each_side);
    close(width.shaves[0].by.as_m() / INCH, 0.375, 1e-9);
    close(
        width.shaves[0].leaves.map_or(0.0, |left| left.as_m()) / INCH,
        0.25,
        1e-9,
    );
    assert_eq!(width.shaves[1].what, "the deck");
    close(width.shaves[1].by.as_m() / INCH, 0.75, 1e-9);
}

/// Foam under the finish floor takes head room; a proud frame lifts the house: at the same overall
/// height both take an inch.
#[rstest]
#[case(
    "floor: {add: {outside-of: finish, layer: {name: foam, material: XPS, thickness: 1 in}}}",
    0.0,
    1.0
)]
#[case(
    "floor: {frame: proud, add: {over: flange, layer: {name: foam, material: XPS, thickness: 1 in, bonded: true}}}",
    1.0,
    0.0
)]
fn foam_in_the_floor(#[case] change: &str, #[case] higher: f64, #[case] less_room: f64) {
    let house = flat("  trailer: {deck-height: 25 in}\n");
    let project = project(&format!("{house}variants: {{foam: {{{change}}}}}\n"));
    let houses = dewmargin::study::houses(&project);
    let height = |n: usize| inches(of(&houses[n], &HEIGHT).value);
    close(height(1) - height(0), higher, 1e-9);
    let room = |n: usize| houses[n].result.fit.head_room.expect("head room").least / INCH;
    close(room(0) - room(1), less_room, 1e-9);
    // At the same overall height: what the house builds less its head room.
    let built = |n: usize| {
        let above = houses[n].result.fit.above_deck.as_ref().expect("a height");
        above.total().as_m() / INCH - room(n)
    };
    close(built(1) - built(0), 1.0, 1e-9);
}

/// The sheathing flush with the frame instead of the studs: one layer less on each side.
#[test]
fn another_layer_at_the_decks_edge() {
    let house = flat("").replace("height: 90 in}", "height: 90 in, at-deck-edge: sheathing}");
    let project = project(&house);
    close(inches(of(&as_drawn(&project), &WIDTH).value), 98.75, 1e-9);
}

/// Trim lies within a larger overhang and counts beyond a smaller one.
#[rstest]
#[case(0.5, 0.25, 0.5)]
#[case(0.25, 1.0, 1.0)]
fn trim_and_overhang(#[case] trim: f64, #[case] overhang: f64, #[case] counts: f64) {
    let house = flat("")
        .replace(
            "height: 90 in}",
            &format!("height: 90 in, trim: {trim} in}}"),
        )
        .replace(
            "shape: flat}",
            &format!("shape: flat, overhangs: {{left: {overhang} in}}}}"),
        );
    let project = project(&house);
    let width = inches(of(&as_drawn(&project), &WIDTH).value);
    close(width, 99.75 + counts + trim, 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Foam outside of the wall widens the house by twice its thickness, and nothing else.
    #[test]
    fn outside_foam_counts_twice(thickness in 0.25..6.0_f64) {
        let house = flat("  trailer: {deck-height: 25 in}\n");
        let foam = format!("{{name: foam, material: XPS, thickness: {thickness} in}}");
        let variants = format!("variants: {{foam: {{wall: {{add: {{outside-of: wrap, layer: {foam}}}}}}}}}\n");
        let project = project(&format!("{house}{variants}"));
        let houses = dewmargin::study::houses(&project);
        let width = |n: usize| inches(of(&houses[n], &WIDTH).value);
        prop_assert!((width(1) - width(0) - 2.0 * thickness).abs() < 1e-9);
        let height = |n: usize| inches(of(&houses[n], &HEIGHT).value);
        prop_assert!((height(1) - height(0)).abs() < 1e-9);
        prop_assert!(houses[1].result.heat.total() < houses[0].result.heat.total());
    }
}

/// Rafters of 2x8 in two layers, wool against the ceiling and foam above it, stand on the walls
/// with all of their 7-1/4 in, and studs reach the deck's edge with both of theirs.
#[test]
fn members_that_run_through_two_layers_are_as_deep_as_both() {
    let one = "      - name: rafters
        material: XPS
        thickness: 5-1/2 in
        framing: {material: SPF, width: 1.5 in, spacing: 24 in}
";
    let two = "      - name: wool
        material: XPS
        thickness: 1-3/4 in
        framing: {material: SPF, width: 1.5 in, spacing: 24 in}
";
    let studs = "        thickness: 3-1/2 in
        framing: {material: SPF, share: 25 %}
";
    let outer = "      - name: outer studs
        material: R-13 batt
        thickness: 2 in
        framing: {material: SPF, share: 25 %}
";
    assert!(ASSEMBLIES.contains(one) && ASSEMBLIES.contains(studs));
    let assemblies = ASSEMBLIES
        .replace(one, &format!("{two}{one}"))
        .replace(studs, &format!("{studs}{outer}"));
    let house = flat("  trailer: {deck-height: 25 in}\n");
    let project = dewmargin::input::resolve_text("house.yaml", &format!("{assemblies}{house}"));
    let project = project.expect("a sound file");
    let house = as_drawn(&project);
    // 25 + 3/4 subfloor + 90 wall + 1-3/4 + 5-1/2 rafters + 5/8 deck.
    let height = of(&house, &HEIGHT);
    close(inches(height.value), 123.625, 1e-9);
    // 90 less finish and ceiling: the rafters stand above it.
    let head_room = house.result.fit.head_room.expect("head room");
    close(head_room.least / INCH, 90.0 - 0.5 - 0.75, 1e-9);
    close(inches(of(&house, &WIDTH).value), 99.75, 1e-9);
    // 96 less lining and studs on both sides.
    let layout = house.result.layout.as_ref().expect("a layout");
    close(layout.insets[0] / INCH, 0.5 + 3.5 + 2.0, 1e-9);
}
