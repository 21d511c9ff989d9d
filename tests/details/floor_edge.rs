//! The floor edge: where its rectangles lie, recomputed by hand in inches from the cut's lower
//! left corner. Beside and below the building lie 3 in of air; 20-gauge galvanized sheet is
//! 0.0396 in.

use approx::assert_abs_diff_eq;
use dewmargin::model::drawn::{DetailFilms, FilmRole, Part};
use dewmargin::quantity::unit::INCH;
use rstest::rstest;

use super::{COLD, ROOM, details, example, find, house, place_of, seen_area, solved_between};

const EXAMPLE: &str = "cabin-floor-edge.yaml";
/// Upper faces of the example's floor: pan, lining, bay, subfloor, finish.
const PAN: f64 = 3.0 + 0.0396;
const LINING: f64 = PAN + 1.0;
const BAY: f64 = LINING + 5.5;
const DECK: f64 = BAY + 0.75;
const FINISH: f64 = DECK + 0.5;
/// The wall of 1/2 + 3-1/2 + 1/2 in stands flush with the frame: sheathing from 3 in.
const WALL: f64 = 7.5;
const RIGHT: f64 = WALL + 40.0;

#[rstest]
#[case::pan("hidden flange", "pan", [7.0, RIGHT, 3.0, PAN])]
#[case::pan_to_the_outer_face("hidden flange", "pan under the flange", [3.0, 7.0, 3.0, PAN])]
#[case::bay("hidden flange", "bay", [7.0, RIGHT, LINING, BAY])]
#[case::bay_below_the_steel("hidden flange", "bay under the flange", [3.0, 7.0, LINING, BAY - 0.25])]
#[case::rim("hidden flange", "rim joist", [7.0, 8.5, LINING, BAY])]
#[case::flange("hidden flange", "flange", [3.0, 7.0, BAY - 0.25, BAY])]
#[case::rail("hidden flange", "rail", [3.0, 5.0, BAY - 6.25, BAY - 0.25])]
#[case::hollow("hidden flange", "rail hollow", [3.1875, 4.8125, BAY - 6.0625, BAY - 0.4375])]
#[case::upturn("hidden flange", "pan turned up", [3.0, 3.0396, PAN, BAY - 6.25])]
#[case::deck("hidden flange", "subfloor", [3.5, RIGHT, BAY, DECK])]
#[case::finish("hidden flange", "finish", [WALL, RIGHT, DECK, FINISH])]
#[case::plate("hidden flange", "plate", [3.5, 7.0, DECK, DECK + 1.5])]
#[case::studs("hidden flange", "studs", [3.5, 7.0, DECK + 1.5, FINISH + 40.0])]
#[case::wall_lining("hidden flange", "wall lining", [7.0, WALL, DECK, FINISH + 40.0])]
#[case::sheathing("hidden flange", "sheathing", [3.0, 3.5, BAY, FINISH + 40.0])]
#[case::wide("flange inboard", "flange", [3.0, 9.0, BAY - 0.25, BAY])]
#[case::wide_rim("flange inboard", "rim joist", [9.0, 10.5, LINING, BAY])]
#[case::under_finish("flange inboard, foam under finish floor", "floor foam", [WALL, RIGHT, DECK, DECK + 1.0])]
#[case::finish_on_foam("flange inboard, foam under finish floor", "finish", [WALL, RIGHT, DECK + 1.0, FINISH + 1.0])]
#[case::same_deck("flange inboard, foam under finish floor", "subfloor", [3.5, RIGHT, BAY, DECK])]
#[case::proud_foam("flange inboard, proud, foam to the plate", "flange foam", [7.0, 9.0, BAY, BAY + 1.0])]
#[case::packing("flange inboard, proud, foam to the plate", "packing under the plate", [3.5, 7.0, BAY, BAY + 1.0])]
#[case::proud_flange("flange inboard, proud, foam to the plate", "flange", [3.0, 9.0, BAY - 0.25, BAY])]
#[case::raised_joist("flange inboard, proud, foam to the plate", "rim joist", [9.0, 10.5, LINING + 1.0, BAY + 1.0])]
#[case::deeper_bay("flange inboard, proud, foam to the plate", "bay", [9.0, RIGHT, LINING, BAY + 1.0])]
#[case::raised_deck("flange inboard, proud, foam to the plate", "subfloor", [3.5, RIGHT, BAY + 1.0, DECK + 1.0])]
#[case::sheathing_stays("flange inboard, proud, foam to the plate", "sheathing", [3.0, 3.5, BAY, FINISH + 41.0])]
#[case::under_plate("hidden flange, proud, foam under the plate", "flange foam", [3.5, 7.0, BAY, BAY + 1.0])]
#[case::under_plate_wide("flange inboard, proud, foam under the plate", "flange foam", [3.5, 9.0, BAY, BAY + 1.0])]
fn rectangles_lie_where_a_builder_would_draw_them(
    #[case] detail: &str,
    #[case] block: &str,
    #[case] inches: [f64; 4],
) {
    let details = example(EXAMPLE);
    let place = place_of(find(&details, detail), block);
    for (ours, expected) in place.iter().zip(&inches) {
        assert_abs_diff_eq!(ours, expected, epsilon = 1e-9);
    }
}

#[test]
fn every_variant_of_the_example_is_there_and_sound() {
    let details = example(EXAMPLE);
    assert_eq!(details.len(), 8);
    for detail in &details {
        solved_between(detail);
    }
}

/// All solids of the bare edge, strip by strip.
#[test]
fn areas_add_up() {
    let details = example(EXAMPLE);
    let below_deck = 44.5 * 6.5396;
    let floor = 44.0 * 0.75 + 40.0 * 0.5;
    let wall = 4.0 * 40.5 + 0.5 * 41.25;
    let detail = find(&details, "hidden flange");
    assert_abs_diff_eq!(
        seen_area(detail, |_| true),
        below_deck + floor + wall,
        epsilon = 1e-6
    );
    let steel = 4.0 * 0.25 + (2.0 * 6.0 - 1.625 * 5.625);
    let is_steel = |name: &str| ["flange", "rail"].contains(&name);
    assert_abs_diff_eq!(seen_area(detail, is_steel), steel, epsilon = 1e-6);
}

/// A flange that ends under the plate has nothing over it where foam stops at the plate.
#[test]
fn foam_that_has_no_place_is_told() {
    let details = example(EXAMPLE);
    let detail = find(&details, "hidden flange, proud, foam to the plate");
    assert_eq!(detail.blocks_of(Part::OverFlange).count(), 0);
    assert!(detail.notes.iter().any(|note| note.contains("under-plate")));
}

#[test]
fn blocks_know_what_they_are() {
    let details = example(EXAMPLE);
    let detail = find(&details, "flange inboard, proud, foam to the plate");
    let facts = |name: &str| {
        let found = detail.blocks.iter().find(|one| one.block.name == name);
        found.expect("a block").facts.clone()
    };
    for wood in [
        "subfloor",
        "plate",
        "rim joist",
        "packing under the plate",
        "sheathing",
    ] {
        assert!(facts(wood).is_wood(), "{wood}");
    }
    for other in ["flange", "bay", "flange foam", "studs", "rail hollow"] {
        assert!(!facts(other).is_wood(), "{other}");
    }
    assert!(facts("flange foam").bonded && facts("bay").bonded && !facts("subfloor").bonded);
    let from = facts("flange foam").from.expect("a layer");
    assert_eq!(from, ("floor on wide flanges".into(), "flange foam".into()));
}

/// The rain screen is outdoor air in which the inner film stands; the cladding is left out.
#[test]
fn a_ventilated_gap_is_outdoor_air() {
    let details = example(EXAMPLE);
    let detail = find(&details, "hidden flange");
    assert!(detail.blocks.iter().all(|one| one.block.name != "siding"));
    let sheltered: Vec<_> = detail
        .regions
        .iter()
        .filter(|region| region.role == FilmRole::Sheltered)
        .collect();
    assert_eq!(sheltered.len(), 1);
    assert_abs_diff_eq!(sheltered[0].area.bottom / INCH, BAY, epsilon = 1e-9);
    let parts = detail.parts_at(ROOM, COLD, &DetailFilms::default());
    let films = parts.regions.last().expect("regions").films;
    assert_eq!((films.sideways, films.up, films.down), (0.13, 0.10, 0.17));
}

/// Inside lengths, and U between the members by plain series resistances.
#[test]
fn psi_is_counted_against_inside_lengths() {
    let details = example(EXAMPLE);
    let detail = find(&details, "hidden flange");
    for reference in &detail.references {
        assert_abs_diff_eq!(reference.length / INCH, 40.0, epsilon = 1e-9);
    }
    // Floor: 0.17 + 0.0127/0.17 + 0.01905/0.115 + 0.1651/0.024 + 0.04 and the pan's 2e-5;
    // wall: 0.13 + 0.0127/0.16 + R-13 + 0.0127/0.115 + 0.13.
    let floor =
        0.17 + 0.0127 / 0.17 + 0.01905 / 0.115 + 0.1651 / 0.024 + 0.04 + 0.001_005_84 / 50.0;
    let wall = 0.13 + 0.0127 / 0.16 + 13.0 * 0.176_110_18 + 0.0127 / 0.115 + 0.13;
    let coupling = detail.plane_coupling(ROOM, COLD, &DetailFilms::default());
    assert_abs_diff_eq!(coupling, 1.016 / floor + 1.016 / wall, epsilon = 2e-4);
}

/// Another house: no rain screen, no pan; the edge's keys one by one. The wall is 6-1/4 in deep,
/// the flange 6 in wide; 3 in of air below a floor of 6 in under the deck.
#[rstest]
#[case::flush_outside("", "flange", [3.0, 9.0, 8.75, 9.0])]
#[case::siding("", "siding", [3.0, 3.75, 9.0, 50.25])]
#[case::still_gap("", "gap", [3.75, 4.75, 9.0, 50.25])]
#[case::sheathing("", "sheathing", [4.75, 5.25, 9.0, 50.25])]
#[case::hidden_by_a_reach("flange-reach: -1 in", "flange", [3.0, 9.0, 8.75, 9.0])]
#[case::siding_overhangs("flange-reach: 1 in", "flange", [4.25, 10.25, 8.75, 9.0])]
#[case::steel_sticks_out("flange-reach: -2 in", "siding", [4.75, 5.5, 9.0, 50.25])]
#[case::solid_tube(
    "rail: {shape: tube, material: carbon steel, width: 3 in, height: 2 in, thickness: 1/4 in, hollow: no}",
    "rail", [3.0, 6.0, 6.75, 8.75]
)]
#[case::angle("rail: {shape: angle, material: carbon steel, thickness: 1/4 in}", "rail", [3.0, 3.25, 3.0, 8.75])]
#[case::foot(
    "rail: {shape: angle, material: carbon steel, width: 3 in, thickness: 1/4 in}",
    "rail foot", [3.25, 6.0, 3.0, 3.25]
)]
#[case::channel_head(
    "rail: {shape: channel, material: carbon steel, width: 2 in, height: 4 in, thickness: 1/4 in}",
    "rail head", [3.25, 5.0, 8.5, 8.75]
)]
#[case::rail_below_the_floor(
    "rail: {shape: channel, material: carbon steel, width: 2 in, height: 8 in, thickness: 1/4 in}",
    "rail", [3.0, 3.25, 3.0, 11.0]
)]
#[case::rim_beyond_the_rail(
    "rail: {shape: tube, material: carbon steel, width: 7 in, height: 4 in, thickness: 1/4 in}",
    "rim joist", [10.0, 11.5, 3.0, 9.0]
)]
#[case::thick_plate("plate: {thickness: 3 in}", "plate", [5.25, 8.75, 9.75, 12.75])]
#[case::wide_rim("rim-joist: {material: plywood, thickness: 1-1/8 in}", "rim joist", [9.0, 10.125, 3.0, 9.0])]
#[case::deck_by_name("deck: finish", "finish", [5.25, 49.25, 9.75, 10.25])]
#[case::short_cut("inboard: 24 in, up: 12 in", "studs", [5.25, 8.75, 11.25, 22.25])]
fn keys_move_what_they_name(#[case] keys: &str, #[case] block: &str, #[case] inches: [f64; 4]) {
    let edge = format!("{{floor: floor, wall: wall, flange: flange, {keys}}}");
    let details = details(&house(&format!(
        "details: {{edge: {{floor-edge: {edge}}}}}\n"
    )));
    solved_between(&details[0]);
    for (ours, expected) in place_of(&details[0], block).iter().zip(&inches) {
        assert_abs_diff_eq!(ours, expected, epsilon = 1e-9);
    }
}

/// A variant of an assembly changes the details drawn from it, and only those.
#[test]
fn variants_reach_the_details_drawn_from_what_they_change() {
    let text = house(
        "details:
  edge: {floor-edge: {floor: floor, wall: wall, flange: flange}}
  members: {cross-members: {floor: floor, strip: flange, pitch: 24 in}}
variants:
  other wall: {wall: {remove: siding}}
  other reach: {edge: {flange-reach: 1 in, plate: {thickness: 3 in}}}
",
    );
    let names: Vec<String> = details(&text).iter().map(|one| one.full_name()).collect();
    let expected = ["edge", "members", "edge, other wall", "edge, other reach"];
    assert_eq!(names, expected);
}

/// A membrane resists no heat and isn't drawn; bonded, it still stops leaking air.
#[test]
fn a_bonded_membrane_is_a_seal() {
    let sheet = "      - {name: sheet, material: polyethylene, bonded: true}
      - {name: subfloor,";
    let text = house("details: {edge: {floor-edge: {floor: floor, wall: wall, flange: flange}}}\n");
    let details = details(&text.replacen("      - {name: subfloor,", sheet, 1));
    assert!(
        details[0]
            .blocks
            .iter()
            .all(|one| one.block.name != "sheet")
    );
    let seal = &details[0].seals[0];
    let line = [
        seal.line.left,
        seal.line.right,
        seal.line.bottom,
        seal.line.top,
    ];
    for (ours, expected) in line.iter().zip([9.25, 49.25, 9.75, 9.75]) {
        assert_abs_diff_eq!(ours / INCH, expected, epsilon = 1e-9);
    }
}

/// Films an assembly states hold in its details too, each where its faces look.
#[test]
fn films_of_the_assemblies_hold_in_the_detail() {
    let text = house("details: {edge: {floor-edge: {floor: floor, wall: wall, flange: flange}}}\n");
    let stated =
        "kind: floor\n    films: {inside: {resistance: RSI 0.2}, outside: {resistance: RSI 0.05}}";
    let details = details(&text.replacen("kind: floor", stated, 1));
    let parts = details[0].parts_at(ROOM, COLD, &DetailFilms::default());
    let (room, below) = (parts.regions[0].films, parts.regions[1].films);
    assert_eq!((room.up, room.sideways), (0.2, 0.13));
    assert_eq!((below.down, below.sideways), (0.05, 0.04));
}

/// The thinnest steel that a file may have is drawn as it is: what the solver makes of it, it says.
#[test]
fn a_flange_of_a_micrometer_is_drawn() {
    let text = house("details: {edge: {floor-edge: {floor: floor, wall: wall, flange: flange}}}\n");
    let thin = "metal: carbon steel, thickness: 0.001 mm";
    let details = details(&text.replacen("metal: carbon steel, thickness: 1/4 in", thin, 1));
    let [.., bottom, top] = place_of(&details[0], "flange");
    assert_abs_diff_eq!((top - bottom) * INCH, 1e-6, epsilon = 1e-12);
    solved_between(&details[0]);
}
