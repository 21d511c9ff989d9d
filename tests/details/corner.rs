//! The corner that two floor edges make: judged where its cut doesn't fail, and colder than it.

use dewmargin::check::{self, Check, Finding, On, Status};
use dewmargin::input::resolve_text;
use dewmargin::model::Project;
use dewmargin::study::{JudgedDetail, Study};
use rstest::rstest;

const EDGES: &str = include_str!("../../examples/cabin-floor-edge.yaml");
const TO_THE_PLATE: &str = "proud, foam to the plate";
const UNDER_THE_PLATE: &str = "proud, foam under the plate";

fn project(text: &str) -> Project {
    resolve_text("edges.yaml", text).expect("edges")
}

/// The same edges of a house that has no such corner.
fn without_corners() -> String {
    let without = EDGES.replace("      flange: ", "      corner: none\n      flange: ");
    assert_ne!(without, EDGES);
    without
}

/// What is found at the edge with the flange inboard, under a variant.
fn found(text: &str, variant: &str, look: impl Fn(&JudgedDetail<'_>)) {
    let project = project(text);
    let study = Study::of(&project);
    let mut details = study.details.iter();
    let is_it = |one: &&JudgedDetail<'_>| {
        one.case.name == "flange inboard" && one.case.variant.as_deref() == Some(variant)
    };
    look(details.find(is_it).expect("the edge"));
}

fn of<'f>(one: &'f JudgedDetail<'_>, check: &Check, place: &str) -> Option<&'f Finding> {
    let mut findings = one.verdict.findings.iter();
    findings.find(|finding| {
        let at = finding.place.as_ref().map(|place| place.path.as_str());
        finding.check == check && at == Some(place)
    })
}

// From 20 to 5 °C at 50 %, dew point 9.3 °C: an independent volume solver (computed, a throw-away program)
// has the subfloor inboard of the plate at 8.4 °C in the corner of the foam that ends at the plate, where the
// cut is clear, and at 10.3 °C where the foam runs on under it.
#[rstest]
#[case::to_the_plate(TO_THE_PLATE, 8.4, Status::Fail)]
#[case::under_the_plate(UNDER_THE_PLATE, 10.3, Status::Depends)]
fn the_corner_speaks_where_it_is_worse(
    #[case] variant: &str,
    #[case] celsius: f64,
    #[case] status: Status,
) {
    found(EDGES, variant, |one| {
        let along = of(one, &check::detail::WOOD, "subfloor inboard of the plate").expect("judged");
        let corner = of(one, &check::detail::WOOD, "subfloor at the corner").expect("judged");
        let [along, at_corner] =
            [along, corner].map(|finding| finding.value.expect("a temperature").as_celsius());
        approx::assert_abs_diff_eq!(at_corner, celsius, epsilon = 0.2);
        assert!(
            (2.0..3.0).contains(&(along - at_corner)),
            "{along} {at_corner}"
        );
        assert_eq!(corner.status, status);
        assert_eq!(one.verdict.status, status);
        assert_eq!(corner.title(), "wood at the steel, corner");
        drawn(one, at_corner);
    });
}

/// Both planes that are drawn pass through the coldest wood and have its temperature there; each is as
/// warm on one side of the mitre as on the other in plan, and warmer inward.
fn drawn(one: &JudgedDetail<'_>, celsius: f64) {
    let result = one.result().as_ref().expect("solved");
    let corner = result.corner.as_ref().and_then(|one| one.as_ref().ok());
    let corner = corner.expect("a corner");
    let (spot, slices) = (&corner.wood[0], corner.slices.as_ref().expect("planes"));
    let ([x, y, z], bar) = (spot.at, spot.bar);
    let (plan, section) = (&slices.plan.field, &slices.section.field);
    // A hair inward: the place lies in an edge of cells.
    for at in [plan.at(x + 1e-4, y + 1e-4), section.at(x + 1e-4, z + 1e-4)] {
        approx::assert_abs_diff_eq!(at.expect("wood"), celsius, epsilon = bar);
    }
    let inward = |by: f64| plan.at(x + by, y + by).expect("wood");
    assert!(
        inward(0.05) > inward(0.01),
        "{} {}",
        inward(0.05),
        inward(0.01)
    );
    let [one_side, other_side] = [plan.at(x, y + 0.1), plan.at(x + 0.1, y)];
    approx::assert_abs_diff_eq!(
        one_side.expect("wood"),
        other_side.expect("wood"),
        epsilon = bar
    );
}

#[test]
fn a_house_without_such_corners_is_judged_along_its_edges() {
    found(&without_corners(), TO_THE_PLATE, |one| {
        assert!(of(one, &check::detail::WOOD, "subfloor at the corner").is_none());
        assert_ne!(one.verdict.status, Status::Fail);
        let result = one.result().as_ref().expect("solved");
        assert!(result.corner.is_none());
    });
}

// What fails along its length needs no corner to be told from.
#[test]
fn a_corner_is_solved_only_where_its_cut_does_not_fail() {
    let project = project(EDGES);
    let study = Study::of(&project);
    let mut seen = [0, 0];
    for one in &study.details {
        let result = one.result().as_ref().expect("solved");
        let is_of_cut = |finding: &&Finding| {
            let at = finding.place.as_ref().map(|place| place.path.as_str());
            !at.is_some_and(|at| at.ends_with("at the corner"))
        };
        let mut of_cut = one.verdict.findings.iter().filter(is_of_cut);
        let fails = of_cut.any(|finding| finding.status == Status::Fail);
        assert_eq!(result.corner.is_none(), fails, "{}", one.name());
        seen[usize::from(fails)] += 1;
    }
    assert!(seen[0] > 0 && seen[1] > 0, "{seen:?}");
}

// In a room at 60 % the floor's surface is clear along the edge and under the mold limit in the corner:
// that alone hangs on what stands there.
#[test]
fn mold_at_the_corner_alone_depends() {
    let damp = EDGES.replace("humidity: 50 %", "humidity: 57 %");
    assert_ne!(damp, EDGES);
    found(&damp, UNDER_THE_PLATE, |one| {
        let along = of(one, &check::detail::MOLD, "floor surface").expect("judged");
        let corner = of(one, &check::detail::MOLD, "floor surface at the corner").expect("judged");
        assert_eq!(along.status, Status::Pass, "{along:?}");
        assert_eq!(
            (corner.status, corner.on),
            (Status::Depends, Some(On::Mold))
        );
        let help = corner.help.as_deref().expect("what helps");
        assert!(help.contains("furniture"), "{help}");
    });
}
