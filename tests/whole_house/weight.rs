//! Weight: sums by hand, members by their share, what isn't known, the lever rule.

use dewmargin::check::Status;
use dewmargin::check::house::WEIGHT;
use dewmargin::study::JudgedHouse;
use proptest::prelude::*;

use super::{INCH, as_drawn, close, flat, project};

const POUND: f64 = 0.453_592_37;

fn mass(house: &JudgedHouse<'_>, name: &str) -> f64 {
    let groups = &house.result.weight.groups;
    groups
        .iter()
        .find(|group| group.name == name)
        .expect("a group")
        .mass
}

fn status(house: &JudgedHouse<'_>) -> Status {
    let findings = &house.verdict.findings;
    let found = findings.iter().find(|one| one.check == &WEIGHT);
    found.expect("weight is judged").status
}

/// The wall by hand: 60 ft of it, 7-1/2 ft high, 450 ft²; densities of the library in kg/m³.
#[test]
fn a_wall_by_hand() {
    let project = project(&flat(""));
    let house = as_drawn(&project);
    let area = 450.0 * 144.0 * INCH * INCH;
    let per_area = 640.0 * 0.5 * INCH             // gypsum board
        + 14.0 * 3.5 * INCH * 0.75                // batt between the studs
        + 445.0 * 3.5 * INCH * 0.25               // studs
        + 460.0 * 0.5 * INCH                      // plywood
        + 0.065                                   // wrap, by the sheet
        + 350.0 * 0.625 * INCH; // siding
    close(mass(&house, "wall"), per_area * area, 1e-6);
}

/// Strips weigh by their share unless they were weighed with the trailer.
#[test]
fn what_the_trailer_includes_isnt_weighed_twice() {
    let with = project(&flat("  trailer: {weight: 2950 lb, rating: 9000 lb}\n"));
    let less = "  trailer: {weight: 2950 lb, rating: 9000 lb, includes: [flange, lining]}\n";
    let without = project(&flat(less));
    let difference = mass(&as_drawn(&with), "floor") - mass(&as_drawn(&without), "floor");
    let deck = 264.0 * 96.0 * INCH * INCH;
    let steel = 7800.0 * 0.25 * INCH * deck / 12.0; // 8 of 96 in
    let lining = 28.6 * INCH * deck;
    close(difference, steel + lining, 1e-6);
}

#[test]
fn against_the_rating() {
    let judged = |more: &str| {
        let project = project(&flat(more));
        let house = as_drawn(&project);
        (status(&house), house.result.weight.house)
    };
    let (none, house) = judged("");
    assert_eq!(none, Status::Note);
    let house = house / POUND;
    let rating = |extra: f64| {
        format!(
            "  trailer: {{weight: 2000 lb, rating: {:.3} lb}}\n",
            2000.0 + house + extra
        )
    };
    assert_eq!(judged(&rating(0.01)).0, Status::Pass);
    assert_eq!(judged(&rating(-0.01)).0, Status::Fail);
    assert_eq!(judged("  trailer: {rating: 14000 lb}\n").0, Status::Unknown);
}

/// A window without a weight, a sheet given by its resistances: named, not nothing.
#[test]
fn what_isnt_known_is_named() {
    let window = "  openings: [{name: window, in: left, width: 3 ft, height: 3 ft}]\n";
    let trailer = "  trailer: {weight: 2000 lb, rating: 14000 lb}\n";
    let variant = "variants: {paper: {wall: {add: {inside-of: studs, layer: {name: paper, r-value: R-0.1, permeance: 5 perm, kind: membrane}}}}}\n";
    let project = project(&format!("{}{variant}", flat(&format!("{window}{trailer}"))));
    let houses = dewmargin::study::houses(&project);
    assert_eq!(status(&houses[0]), Status::Unknown);
    assert_eq!(houses[0].result.weight.unknown, ["window"]);
    assert_eq!(houses[1].result.weight.unknown, ["wall: paper", "window"]);
    assert_eq!(houses[0].result.heat.unknown(), ["window"]);
    // Too heavy already without it: no doubt is left.
    let heavy = trailer.replace("14000", "4000");
    let project = super::project(&flat(&format!("{window}{heavy}")));
    assert_eq!(status(&as_drawn(&project)), Status::Fail);
}

/// Levers by hand: a house even along the deck, its middle 11 ft from the front; axles at 13 ft, the
/// coupler 4 ft ahead: T = ((W + 2000) · 2 + 100 · 15) / 17.
#[test]
fn the_tongue_by_the_lever_rule() {
    let trailer = "  trailer: {weight: 2000 lb, rating: 14000 lb, tongue: 4 ft, axles-at: 13 ft}\n";
    let gas = "  allowances: [{name: gas, weight: 100 lb, at: -2 ft}]\n";
    let project = project(&flat(&format!("{trailer}{gas}")));
    let house = as_drawn(&project);
    let weight = &house.result.weight;
    let tongue = weight.tongue.as_ref().expect("a tongue");
    let even = weight.house / POUND - 100.0 + 2000.0;
    let load = (even * 2.0 + 100.0 * 15.0) / 17.0;
    close(tongue.load / POUND, load, 1e-6);
    close(tongue.share, load / (even + 100.0), 1e-9);
    assert_eq!(
        tongue.at_centroid,
        ["the trailer itself", "floor", "wall", "roof"]
    );
}

/// Where the walls' middle lies, by first moments of area: 64,800 in² about 132 in from the front, less
/// a door of 2,400 in² at the front and a window of 1,440 in² at 72 in.
#[test]
fn openings_move_the_middle_of_the_walls() {
    let project = project(&flat(
        "  openings:
    - {name: door, in: front, width: 30 in, height: 80 in, weight: 80 lb}
    - {name: window, in: left, width: 36 in, height: 40 in, at: 72 in, weight: 60 lb}
",
    ));
    let house = as_drawn(&project);
    let groups = &house.result.weight.groups;
    let walls = groups.iter().find(|group| group.name == "wall");
    let middle = walls.expect("the walls").at.expect("a place");
    let want = (64_800.0 * 132.0 - 1_440.0 * 72.0) / (64_800.0 - 2_400.0 - 1_440.0);
    close(middle / INCH, want, 1e-9);
}

/// An opening takes its area off the wall, and weighs what the file says.
#[test]
fn openings() {
    let solid = project(&flat(""));
    let window = "  openings: [{name: window, in: left, width: 36 in, height: 40 in, count: 2, weight: 60 lb}]\n";
    let open = project(&flat(window));
    let (solid, open) = (as_drawn(&solid), as_drawn(&open));
    let share = 2.0 * 36.0 * 40.0 / (450.0 * 144.0);
    close(
        mass(&open, "wall") / mass(&solid, "wall"),
        1.0 - share,
        1e-9,
    );
    close(mass(&open, "window") / POUND, 120.0, 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A thicker layer never makes the house lighter, and an allowance weighs what it weighs.
    #[test]
    fn more_is_heavier(thin in 0.25..2.0_f64, more in 0.1..2.0_f64, load in 1.0..2000.0_f64) {
        let house = |thickness: f64, allowance: &str| {
            let text = super::ASSEMBLIES.replace("plywood, thickness: 1/2 in", &format!("plywood, thickness: {thickness} in"));
            let project = dewmargin::input::resolve_text("house.yaml", &format!("{text}{}", flat(allowance))).expect("a project");
            as_drawn(&project).result.weight.house
        };
        prop_assert!(house(thin + more, "") > house(thin, ""));
        let allowance = format!("  allowances: [{{name: load, weight: {load} lb}}]\n");
        prop_assert!((house(thin, &allowance) - house(thin, "") - load * POUND).abs() < 1e-6);
    }
}

/// A proud frame's joists, 1.5 in in 16, weigh by their own 5-1/2 in; the foam of the bay's 6-1/2 in
/// is all that they leave.
#[test]
fn raised_joists_weigh_by_their_own_depth() {
    let foam = "variants: {foam: {floor: {frame: proud, add: {over: flange, layer: {name: flange foam, material: XPS, thickness: 1 in}}}}}\n";
    let house = flat("  trailer: {includes: [flange]}\n");
    let project = project(&format!("{house}{foam}"));
    let houses = dewmargin::study::houses(&project);
    let line = |n: usize, name: &str| {
        let groups = &houses[n].result.weight.groups;
        let floor = groups.iter().find(|group| group.name == "floor");
        let mut lines = floor.expect("the floor").lines.iter();
        lines
            .find(|line| line.name == name)
            .expect("a line")
            .clone()
    };
    let share = 1.5 / 16.0;
    let (flush, proud) = (line(0, "bay framing"), line(1, "bay framing"));
    close(proud.thickness / INCH, 5.5, 1e-9);
    close(proud.mass.expect("known"), flush.mass.expect("known"), 1e-9);
    let fill = line(1, "bay");
    close(fill.thickness / INCH, 6.5, 1e-9);
    close(fill.share, 1.0 - share * 5.5 / 6.5, 1e-12);
}
