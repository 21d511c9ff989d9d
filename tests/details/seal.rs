//! The air seal a floor edge promises: which wood leaking room air still gets to.

use dewmargin::input::resolve_text;
use dewmargin::model::DetailCase;
use dewmargin::solve::detail::AirReach;
use rstest::rstest;

use super::{details, house, solved_between};

/// A bay of wool and a batt in the wall: air gets everywhere that nothing keeps it from.
fn edge(keys: &str, over: &str) -> DetailCase {
    let edge = format!("{{floor: floor, wall: wall, flange: flange, {keys}}}");
    let text = house(&format!("details: {{edge: {{floor-edge: {edge}}}}}\n"));
    let text = text.replace("material: closed-cell spray foam", "material: sheep wool");
    let text = text.replace("under: subfloor}", &format!("under: subfloor{over}}}"));
    details(&text).swap_remove(0)
}

const RAIL: &str = "rail: {shape: tube, material: carbon steel, width: 2 in, thickness: 3/16 in}";
const FOAM: &str = ", over: [{name: flange foam, material: XPS, thickness: 1 in}]";

/// The wood that leaking air gets to, by the names of its blocks.
fn reached(detail: &DetailCase) -> Vec<String> {
    let reach = AirReach::of(detail, &solved_between(detail));
    let blocks = detail.blocks.iter().zip(&reach.blocks);
    let wood = blocks.filter(|(one, reached)| one.facts.is_wood() && **reached);
    wood.map(|(one, _)| one.block.name.clone()).collect()
}

const STAYS: [&str; 4] = ["rim joist", "plate", "packing under the plate", "sheathing"];

#[rstest]
#[case::foam_to_the_plate("", FOAM)]
#[case::bare("", "")]
#[case::rail(RAIL, FOAM)]
#[case::wide_rail(
    "rail: {shape: tube, material: carbon steel, width: 7 in, thickness: 3/16 in}",
    FOAM
)]
#[case::foam_under_the_plate("foam: {reach: under-plate}", FOAM)]
#[case::hidden_flange("flange-reach: -1 in", FOAM)]
fn a_seal_keeps_room_air_from_the_wood_that_stays_on_the_steel(
    #[case] keys: &str,
    #[case] over: &str,
) {
    let open = edge(keys, over);
    let sealed = edge(
        &format!("seal: {{from: wall-lining, to: rim-joist}}, {keys}"),
        over,
    );
    let there: Vec<&str> = STAYS
        .into_iter()
        .filter(|name| open.blocks.iter().any(|one| one.block.name == *name))
        .collect();
    assert!(there.len() >= 3, "{there:?}");
    let (before, after) = (reached(&open), reached(&sealed));
    for name in there {
        assert!(before.iter().any(|one| one == name), "{name}: {before:?}");
        assert!(!after.iter().any(|one| one == name), "{name}: {after:?}");
    }
    assert_eq!(after, ["subfloor"]);
    let seal = |edge: &DetailCase| edge.promises().contains(&"air seal".to_owned());
    assert!(!seal(&open) && seal(&sealed));
}

/// Each way the seal is cut short, and what stays reached.
#[rstest]
#[case::all("wall-lining", "rim-joist", &[])]
#[case::not_the_joist("wall-lining", "flange", &["rim joist"])]
#[case::the_lining_leaks("plate", "rim-joist", &["plate", "sheathing"])]
#[case::at_the_deck_alone("wall-lining", "deck", &STAYS)]
#[case::below_the_plate("deck", "flange", &["rim joist", "plate", "sheathing"])]
fn a_seal_does_what_it_runs_along(#[case] from: &str, #[case] to: &str, #[case] stays: &[&str]) {
    let detail = edge(&format!("seal: {{from: {from}, to: {to}}}"), FOAM);
    let after = reached(&detail);
    for name in STAYS {
        let is_reached = after.iter().any(|one| one == name);
        assert_eq!(is_reached, stays.contains(&name), "{name}: {after:?}");
    }
    assert!(after.iter().any(|one| one == "subfloor"));
}

/// Sealed or not, heat goes the same way.
#[test]
fn a_seal_changes_nothing_but_the_air() {
    let sealed = edge("seal: {from: wall-lining, to: rim-joist}", FOAM);
    assert_eq!(edge("", FOAM).blocks, sealed.blocks);
    let note = "an air seal from the wall lining to the rim joist is promised";
    assert!(
        sealed.notes.iter().any(|one| one.starts_with(note)),
        "{:?}",
        sealed.notes
    );
}

#[test]
fn a_seal_starts_and_ends_somewhere() {
    let text = house(
        "details: {edge: {floor-edge: {floor: floor, wall: wall, flange: flange, seal: {from: deck, to: deck}}}}\n",
    );
    let error = resolve_text("house.yaml", &text).expect_err("no seal");
    assert_eq!(
        error.problems[0].message,
        "this air seal starts and ends at the deck"
    );
}
