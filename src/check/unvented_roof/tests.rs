use approx::assert_relative_eq;
use rstest::rstest;

use super::*;
use crate::check::tests::{code, solved};
use crate::quantity::unit;

const CEILING: &str = "{name: ceiling, material: white pine, thickness: 3/4 in}";
const BATT: &str = "{name: batt, material: R-21 batt, thickness: 5.5 in, framing: {material: spruce, share: 10 %}}";
const SPRAYED: &str =
    "{name: sprayed, material: ccSPF, thickness: 2.5 in, framing: {material: spruce, share: 10 %}}";
const DECK: &str = "{name: deck, material: plywood, thickness: 5/8 in}";
const ROOFING: &str = "{name: roofing, material: EPDM, thickness: 60 mil}";
const GAP: &str = "{name: gap, air: ventilated, thickness: 1.5 in}";

fn foam(r: f64) -> String {
    format!("{{name: foam, kind: foam, r-value: R-{r}, permeance: 1 perm, thickness: 2 in}}")
}

fn found(layers: &[&str], at: &str) -> Finding {
    let (case, result) = solved("roof", layers);
    let mut findings = check(&case, &result, &code(at));
    assert_eq!(findings.len(), 1);
    findings.remove(0)
}

// Source: check-values §13, R806.5: zones 1, 3, 4A, 5, 6 seen, 4B, 4C, 7, 8 from memory, 2 from memory.
#[rstest]
#[case("1", 5.0)]
#[case("2", 5.0)]
#[case("3", 5.0)]
#[case("4A", 15.0)]
#[case("4B", 15.0)]
#[case("4", 15.0)]
#[case("4C", 10.0)]
#[case("marine 4", 10.0)]
#[case("5", 20.0)]
#[case("6", 25.0)]
#[case("7", 30.0)]
#[case("8", 35.0)]
fn air_impermeable_insulation_by_zone(
    #[case] zone: &str,
    #[case] r: f64,
    #[values("2009", "2018", "2021")] edition: &str,
) {
    let at = format!("{edition} {zone}");
    let status = |r: f64| found(&[CEILING, BATT, DECK, &foam(r), ROOFING], &at).status;
    assert_eq!(status(r), Status::Pass);
    assert_eq!(status(r - 0.1), Status::Fail);
}

// Foam counts below the deck as far as it touches it, and above the deck up to an open gap.
#[rstest]
#[case(&[CEILING, BATT, DECK, ROOFING], 0.0)]
#[case(&[CEILING, BATT, SPRAYED, DECK, ROOFING], 15.02)]
#[case(&[CEILING, SPRAYED, BATT, DECK, ROOFING], 0.0)]
#[case(&[CEILING, SPRAYED, "{name: air, air: still, thickness: 1 in}", DECK], 0.0)]
#[case(&[CEILING, BATT, SPRAYED, DECK, "{name: foam, kind: foam, r-value: R-10, permeance: 1 perm, thickness: 2 in}", ROOFING], 25.02)]
#[case(&[CEILING, BATT, DECK, GAP, "{name: foam, kind: foam, r-value: R-10, permeance: 1 perm, thickness: 2 in}"], 0.0)]
// Mineral-wool board lets air through.
#[case(&[CEILING, BATT, DECK, "{name: board, material: mineral wool board, thickness: 4 in}"], 0.0)]
fn what_counts(#[case] layers: &[&str], #[case] r: f64) {
    let finding = found(layers, "- -");
    assert_eq!(finding.status, Status::Depends);
    let Detail::UnventedRoof(roof) = finding.detail else {
        panic!("{finding:?}");
    };
    assert_relative_eq!(
        roof.air_impermeable.as_si() / unit::R_VALUE,
        r,
        epsilon = 0.01
    );
    assert_eq!(roof.needed, None);
}

// All foam and less than the table: the code asks only that it touch the deck (from memory).
#[rstest]
#[case(SPRAYED, "2021 4A", Status::Pass)]
#[case(SPRAYED, "2021 6", Status::Depends)]
#[case(SPRAYED, "- 6", Status::Depends)]
#[case(SPRAYED, "2021 -", Status::Depends)]
#[case(BATT, "2021 1", Status::Fail)]
fn foam_alone(#[case] bay: &str, #[case] at: &str, #[case] status: Status) {
    assert_eq!(found(&[CEILING, bay, DECK, ROOFING], at).status, status);
}

#[rstest]
#[case(&[CEILING, BATT, GAP, DECK, ROOFING], Status::Note)]
#[case(&[CEILING, BATT, "{name: roofing, material: galvanized steel, thickness: 24 ga}"], Status::Note)]
// Open at one end only is no ventilation.
#[case(&[CEILING, BATT, "{name: gap, air: vented, thickness: 1 in}", DECK], Status::Fail)]
// Over the deck it dries the roofing, not the deck.
#[case(&[CEILING, BATT, DECK, GAP, ROOFING], Status::Fail)]
fn vented_roofs_are_another_matter(#[case] layers: &[&str], #[case] status: Status) {
    let finding = found(layers, "2021 5");
    assert_eq!(finding.status, status);
    assert!(finding.help.is_some());
}

#[rstest]
#[case("wall")]
#[case("floor")]
fn roofs_only(#[case] kind: &str) {
    let (case, result) = solved(kind, &[CEILING, BATT, DECK]);
    assert_eq!(check(&case, &result, &code("2021 5")), Vec::new());
}
