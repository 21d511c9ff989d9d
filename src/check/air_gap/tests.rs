use rstest::rstest;

use super::*;
use crate::check::tests::{code, solved};

const LINING: &str = "{name: lining, material: painted gypsum board}";
const STUDS: &str = "{name: studs, material: R-21 batt, thickness: 5.5 in, framing: {material: spruce, share: 25 %}}";
const PANEL: &str = "{name: panel, material: plywood, thickness: 1/2 in}";
const SIDING: &str = "{name: siding, material: cedar siding}";

fn gaps(kind: &str, layers: &[&str]) -> Vec<OpenGap> {
    let (case, result) = solved(kind, layers);
    let gap = |finding: Finding| match finding.detail {
        Detail::Gap(gap) => {
            assert_eq!(finding.status, Status::Note);
            assert_eq!(finding.help.is_some(), gap.shallow);
            gap
        }
        other => panic!("{other:?}"),
    };
    check(&case, &result, &code("- -"))
        .into_iter()
        .map(gap)
        .collect()
}

// Source: 3/8 in behind cladding, common practice.
#[rstest]
#[case("1/4 in", true)]
#[case("9 mm", true)]
#[case("9.5 mm", false)]
#[case("3/8 in", false)]
#[case("3/4 in", false)]
fn behind_cladding(
    #[case] depth: &str,
    #[case] shallow: bool,
    #[values("vented", "ventilated")] air: &str,
) {
    let gap = format!("{{name: gap, air: {air}, thickness: {depth}}}");
    let gaps = gaps("wall", &[LINING, STUDS, PANEL, &gap, SIDING]);
    assert_eq!(gaps.len(), 1);
    assert_eq!(
        (gaps[0].shallow, gaps[0].one_end),
        (shallow, air == "vented")
    );
    assert_eq!(gaps[0].furring, None);
}

// Source: 1 in of vent space below the deck, IRC R806.3, from memory; none asked above it.
#[rstest]
#[case("7/8 in", true)]
#[case("1 in", false)]
fn below_a_deck(#[case] depth: &str, #[case] shallow: bool) {
    let gap = format!("{{name: gap, air: ventilated, thickness: {depth}}}");
    let below = gaps("roof", &[LINING, STUDS, &gap, PANEL]);
    assert_eq!(below[0].shallow, shallow);
    let above = gaps(
        "roof",
        &[
            LINING,
            STUDS,
            PANEL,
            &gap,
            "{name: roofing, material: galvanized steel, thickness: 24 ga}",
        ],
    );
    assert_eq!((above[0].shallow, above[0].least), (false, None));
}

#[test]
fn furring_where_stated_and_still_air_never() {
    let gap = "{name: gap, air: vented, thickness: 3/4 in, framing: {material: spruce, width: 2.5 in, spacing: 16 in}}";
    let still = "{name: service gap, air: still, thickness: 1/4 in}";
    let gaps = gaps("wall", &[LINING, still, STUDS, PANEL, gap, SIDING]);
    assert_eq!(gaps.len(), 1);
    let share = gaps[0].furring.map(Share::as_fraction);
    assert_eq!(share, Some(2.5 / 16.0));
}

#[test]
fn floors_are_asked_no_depth() {
    let gaps = gaps(
        "floor",
        &[
            PANEL,
            STUDS,
            "{name: gap, air: vented, thickness: 1/8 in}",
            SIDING,
        ],
    );
    assert_eq!((gaps[0].shallow, gaps[0].least), (false, None));
}
