use approx::assert_relative_eq;
use rstest::rstest;

use super::*;
use crate::check::retarder;
use crate::check::tests::{code, solved};
use crate::quantity::unit;

const LINING: &str = "{name: lining, material: painted gypsum board}";
const PLYWOOD: &str = "{name: sheathing, material: plywood, thickness: 1/2 in}";
const SIDING: &str = "{name: siding, material: cedar siding}";
const STUDS_2X6: &str = "{name: studs, material: R-21 batt, thickness: 5.5 in, framing: {material: spruce, share: 25 %}}";
const FOAM: &str = "{name: foam, material: XPS, thickness: 1 in}";

/// A wall with a cavity and a continuous R, outside, given by numbers.
fn wall(cavity: f64, continuous: f64, at: &str) -> Finding {
    let bay = format!(
        "{{name: bay, kind: insulation, r-value: R-{cavity}, permeance: 30 perm, thickness: 5.5 in, framing: {{material: spruce, share: 25 %}}}}"
    );
    let foam = format!(
        "{{name: foam, kind: foam, r-value: R-{continuous}, permeance: 1 perm, thickness: 2 in}}"
    );
    let mut layers = vec![LINING, &bay, PLYWOOD];
    if continuous > 0.0 {
        layers.push(&foam);
    }
    let (case, result) = solved("wall", &layers);
    check(&case, &result, &code(at)).remove(0)
}

// Each pair with its least values, and each of its values a tenth short.
// Source: check-values §13 for 2012 to 2018 and the 2021 pairs with a cavity; the rest from memory.
#[rstest]
#[case("2009 1", 13.0, 0.0)]
#[case("2009 4A", 13.0, 0.0)]
#[case("2009 marine 4", 20.0, 0.0)]
#[case("2009 4C", 13.0, 5.0)]
#[case("2009 5", 20.0, 0.0)]
#[case("2009 6", 13.0, 5.0)]
#[case("2009 7", 21.0, 0.0)]
#[case("2009 8", 21.0, 0.0)]
#[case("2018 1", 13.0, 0.0)]
#[case("2018 2", 13.0, 0.0)]
#[case("2018 3", 20.0, 0.0)]
#[case("2018 3", 13.0, 5.0)]
#[case("2018 4A", 20.0, 0.0)]
#[case("2018 marine 4", 13.0, 5.0)]
#[case("2018 5", 20.0, 0.0)]
#[case("2018 5", 13.0, 5.0)]
#[case("2018 6", 20.0, 5.0)]
#[case("2018 6", 13.0, 10.0)]
#[case("2018 7", 20.0, 5.0)]
#[case("2018 8", 13.0, 10.0)]
#[case("2021 2", 13.0, 0.0)]
#[case("2021 3", 20.0, 0.0)]
#[case("2021 3", 13.0, 5.0)]
#[case("2021 4A", 30.0, 0.0)]
#[case("2021 marine 4", 20.0, 5.0)]
#[case("2021 5", 13.0, 10.0)]
#[case("2021 6", 30.0, 0.0)]
#[case("2021 6", 20.0, 5.0)]
#[case("2021 7", 13.0, 10.0)]
#[case("2021 8", 30.0, 0.0)]
fn pairs(#[case] at: &str, #[case] cavity: f64, #[case] continuous: f64) {
    assert_eq!(wall(cavity, continuous, at).status, Status::Pass);
    assert_eq!(wall(cavity - 0.1, continuous, at).status, Status::Fail);
    if continuous > 0.0 {
        assert_eq!(wall(cavity, continuous - 0.1, at).status, Status::Fail);
    }
}

// Continuous insulation alone; source: IRC 2021, from memory.
#[rstest]
#[case("2021 1", "R-10", "R-9.9")]
#[case("2021 3", "R-15", "R-14.9")]
#[case("2021 5", "R-20", "R-19.9")]
#[case("2021 8", "R-20", "R-19.9")]
fn continuous_alone(#[case] at: &str, #[case] enough: &str, #[case] short: &str) {
    let status = |r: &str| {
        let bay =
            "{name: bay, air: still, thickness: 3.5 in, framing: {material: spruce, share: 25 %}}";
        let foam =
            format!("{{name: foam, kind: foam, r-value: {r}, permeance: 1 perm, thickness: 3 in}}");
        let (case, result) = solved("wall", &[LINING, bay, PLYWOOD, &foam]);
        check(&case, &result, &code(at)).remove(0).status
    };
    assert_eq!(status(enough), Status::Pass);
    assert_eq!(status(short), Status::Fail);
}

#[rstest]
#[case("- 5")]
#[case("2021 -")]
#[case("- -")]
fn not_stated(#[case] at: &str) {
    assert_eq!(wall(40.0, 20.0, at).status, Status::Depends);
}

// Labels: the batt's own, foam at 75 °F (XPS R-5 per inch), an R-19 batt pressed into 5-1/2 in R-18 by
// its own entry; a 3-1/2 in batt in a deeper bay keeps R-13. Source: labels, common practice.
#[rstest]
#[case(&[LINING, STUDS_2X6, PLYWOOD, FOAM, SIDING], 21.0, 5.0)]
#[case(&[LINING, FOAM, STUDS_2X6, PLYWOOD], 21.0, 5.0)]
#[case(&[LINING, "{name: bay, material: R-19 compressed, thickness: 5.5 in, framing: {material: spruce, share: 25 %}}", PLYWOOD], 18.0, 0.0)]
#[case(&[LINING, "{name: bay, material: R-13 batt, thickness: 5.5 in, framing: {material: spruce, share: 25 %}}", PLYWOOD], 13.0, 0.0)]
// Wood fiberboard and siding aren't insulation; foam beyond an open gap doesn't count.
#[case(&[LINING, STUDS_2X6, "{name: sheathing, material: fiberboard, thickness: 1/2 in}", "{name: gap, air: ventilated, thickness: 3/4 in}", FOAM], 21.0, 0.0)]
// Strapped foam is neither.
#[case(&[LINING, STUDS_2X6, PLYWOOD, "{name: foam, material: XPS, thickness: 2 in, framing: {material: spruce, share: 8 %}}"], 21.0, 0.0)]
// Flash and batt: both lie in the cavity.
#[case(&[LINING, "{name: batt, material: R-13 batt, thickness: 3.5 in, framing: {material: spruce, share: 25 %}}", "{name: foam, material: ccSPF, thickness: 2 in, framing: {material: spruce, share: 25 %}}", PLYWOOD], 25.0, 0.0)]
fn what_the_wall_has(#[case] layers: &[&str], #[case] cavity: f64, #[case] continuous: f64) {
    let (case, result) = solved("wall", layers);
    let finding = check(&case, &result, &code("- -")).remove(0);
    let Detail::Insulation(row) = finding.detail else {
        panic!("{finding:?}");
    };
    let r = |value: ThermalResistance| value.as_si() / unit::R_VALUE;
    assert_relative_eq!(r(row.has.cavity), cavity, epsilon = 0.03);
    assert_relative_eq!(r(row.has.continuous), continuous, epsilon = 0.03);
}

/// The plan-review trap: 2x6, R-21 unfaced batts, 1 in of foam, zone 6. It meets the insulation
/// table by 20+5 and is refused on its vapor retarder: R-5 where class III takes.
/// Source: check-values §13.
#[rstest]
#[case("2018 6")]
#[case("2018 6A")]
#[case("2021 6")]
#[case("2021 6B")]
fn the_trap(
    #[case] at: &str,
    #[values("{name: gap, air: ventilated, thickness: 3/4 in}", "")] gap: &str,
) {
    let mut layers = vec![LINING, STUDS_2X6, PLYWOOD, FOAM, gap, SIDING];
    layers.retain(|layer| !layer.is_empty());
    let (case, result) = solved("wall", &layers);
    let insulation = check(&case, &result, &code(at)).remove(0);
    assert_eq!(insulation.status, Status::Pass);
    let refused = retarder::check(&case, &result, &code(at)).remove(0);
    assert_eq!(refused.status, Status::Fail);
    assert!(refused.help.is_some());
    let Detail::Retarder(found) = refused.detail else {
        panic!("a detail");
    };
    let r = |value: ThermalResistance| value.as_si() / unit::R_VALUE;
    assert_relative_eq!(r(found.continuous), 5.0, epsilon = 0.03);
    assert_relative_eq!(found.needed.map_or(f64::NAN, r), 11.25, epsilon = 1e-9);
    // Kraft-faced batts are the way out.
    let kraft = "{name: facing, material: kraft facing}";
    layers.insert(1, kraft);
    let (case, result) = solved("wall", &layers);
    let allowed = retarder::check(&case, &result, &code(at)).remove(0);
    assert_eq!(allowed.status, Status::Pass);
}

#[rstest]
#[case("wall", &[LINING, FOAM, PLYWOOD], 1)]
#[case("roof", &[LINING, STUDS_2X6, PLYWOOD], 1)]
#[case("floor", &[PLYWOOD, STUDS_2X6], 0)]
fn what_the_table_does_not_cover(
    #[case] kind: &str,
    #[case] layers: &[&str],
    #[case] notes: usize,
) {
    let (case, result) = solved(kind, layers);
    let findings = check(&case, &result, &code("2021 6"));
    assert_eq!(findings.len(), notes);
    assert!(
        findings
            .iter()
            .all(|f| f.status == Status::Note && f.help.is_some())
    );
}
