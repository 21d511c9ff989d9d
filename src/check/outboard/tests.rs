use approx::{assert_abs_diff_eq, assert_relative_eq};
use rstest::rstest;

use super::*;
use crate::check::tests::{code, solved, solved_in};
use crate::quantity::unit;

/// P1's wall: `inboard` and `outboard` in all with their films, R-0.68 inside and outside.
fn published(outboard: f64, inboard: f64) -> Finding {
    let bay = format!(
        "{{name: bay, kind: insulation, r-value: R-{:.4}, permeance: 30 perm, thickness: 3.5 in, framing: {{material: spruce, share: 25 %}}}}",
        inboard - 0.68
    );
    let foam = format!(
        "{{name: foam, kind: foam, r-value: R-{:.4}, permeance: 1 perm, thickness: 2 in}}",
        outboard - 0.17 - 0.63
    );
    let panel =
        "{name: sheathing, kind: panel, r-value: R-0.63, permeance: 1 perm, thickness: 1/2 in}";
    let films = "{inside: {resistance: R-0.68}, outside: {resistance: R-0.17}}";
    let (case, result) = solved_in("wall", &[&bay, panel, &foam], "70 F", "32 F", films);
    check(&case, &result, &code("2018 5")).remove(0)
}

fn shares(finding: &Finding) -> &OutboardShares {
    match &finding.detail {
        Detail::Outboard(shares) => shares,
        other => panic!("{other:?}"),
    }
}

// P1, trade journal note on dew points in walls (seen): 70 °F and 50 % inside, 32 °F outside;
// R-7 of R-18: "47 °F", condenses; R-14 of R-25: "53 °F", dry; dew point "50 °F" by chart.
// Tolerances: 0.5 °F for the face, 1 °F for the dew point.
#[rstest]
#[case(7.0, 11.0, 47.0, false)]
#[case(14.0, 11.0, 53.0, true)]
fn shares_of_the_published_wall(
    #[case] outboard: f64,
    #[case] inboard: f64,
    #[case] face: f64,
    #[case] dry: bool,
) {
    let finding = published(outboard, inboard);
    assert_eq!(finding.status, Status::Note);
    let fahrenheit =
        |t: Option<crate::quantity::Temperature>| t.map_or(f64::NAN, |t| t.as_fahrenheit());
    assert_abs_diff_eq!(fahrenheit(finding.value), face, epsilon = 0.5);
    assert_abs_diff_eq!(fahrenheit(finding.limit), 50.0, epsilon = 1.0);
    let shares = shares(&finding);
    let share = outboard / (outboard + inboard);
    assert_relative_eq!(shares.has.as_fraction(), share, epsilon = 1e-4);
    // (50.5 − 32) / 38, computed.
    assert_abs_diff_eq!(shares.needed.as_fraction(), 18.5 / 38.0, epsilon = 0.005);
    assert_eq!(shares.has > shares.needed, dry);
    // The face stands where its share puts it, and at the needed share at the dew point.
    assert_relative_eq!(
        fahrenheit(finding.value),
        32.0 + share * 38.0,
        epsilon = 1e-3
    );
    let at_limit = 32.0 + shares.needed.as_fraction() * 38.0;
    assert_relative_eq!(at_limit, fahrenheit(finding.limit), epsilon = 1e-9);
}

// Zone 5 over a 2x4 asks for R-5: in P1's wall without its of foam of. It meets the
// table, and stays below the dew point of a room at 50 %. Source: check-values §6 and P1.
#[test]
fn the_table_and_your_humidity_are_two_lines() {
    let finding = published(7.0, 11.0);
    let shares = shares(&finding);
    let table = shares.by_table.expect("a row");
    assert_relative_eq!(
        table.continuous.as_si() / unit::R_VALUE,
        5.0,
        epsilon = 1e-9
    );
    assert_relative_eq!(table.share.as_fraction(), 5.8 / 16.8, epsilon = 1e-4);
    assert!(table.met);
    assert!(shares.has < shares.needed && table.share < shares.needed);
}

const LINING: &str = "{name: lining, material: painted gypsum board}";
const STUDS: &str = "{name: studs, material: R-21 batt, thickness: 5.5 in, framing: {material: spruce, share: 25 %}}";
const DECK: &str = "{name: deck, material: plywood, thickness: 1/2 in}";
const FOAM: &str = "{name: foam, material: XPS, thickness: 2 in}";

// The third number needs a zone with a row; without an edition it stands where all editions agree.
#[rstest]
#[case("wall", "2018 6", Some(11.25))]
#[case("wall", "- 6", Some(11.25))]
#[case("wall", "- 8", None)]
#[case("wall", "- 4A", None)]
#[case("wall", "- marine 4", Some(3.75))]
#[case("wall", "2018 3", None)]
#[case("wall", "2018 -", None)]
#[case("roof", "2018 6", None)]
fn where_the_table_has_a_row(#[case] kind: &str, #[case] at: &str, #[case] row: Option<f64>) {
    let (case, result) = solved(kind, &[LINING, STUDS, DECK, FOAM]);
    let finding = check(&case, &result, &code(at)).remove(0);
    let table = shares(&finding).by_table;
    assert_eq!(
        table.map(|t| (t.continuous.as_si() / unit::R_VALUE * 100.0).round() / 100.0),
        row
    );
}

// A vented gap counts open: what lies beyond it keeps nothing warm.
#[test]
fn a_vented_gap_counts_at_its_worse_end() {
    let at = |air: &str| {
        let gap = format!("{{name: gap, air: {air}, thickness: 3/4 in}}");
        let (case, result) = solved("wall", &[LINING, STUDS, DECK, &gap, FOAM]);
        let finding = check(&case, &result, &code("- -")).remove(0);
        shares(&finding).has.as_fraction()
    };
    assert_eq!(at("vented"), at("ventilated"));
    assert!(at("vented") < at("still"));
}

#[rstest]
#[case("floor", &[DECK, STUDS, "{name: soffit, material: plywood, thickness: 1/2 in}"])]
#[case("wall", &[LINING, STUDS, FOAM])]
#[case("wall", &[DECK, STUDS])]
fn nothing_without_a_sheathing(#[case] kind: &str, #[case] layers: &[&str]) {
    let (case, result) = solved(kind, layers);
    assert_eq!(check(&case, &result, &code("2018 6")), Vec::new());
}

#[test]
fn nothing_where_outdoors_is_warmer() {
    let (case, result) = solved_in("wall", &[LINING, STUDS, DECK], "68 F", "80 F", "{}");
    assert_eq!(check(&case, &result, &code("2018 6")), Vec::new());
}
