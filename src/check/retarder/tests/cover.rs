//! Which walls the table covers, and by which frame.

use rstest::rstest;

use super::*;

// Source: common practice: 2x4 is 3-1/2 in deep, 2x6 5-1/2 in; what is deeper than a 2x4 goes by 2x6.
#[rstest]
#[case("2.5 in", FrameSize::TwoByFour)]
#[case("3.5 in", FrameSize::TwoByFour)]
#[case("3.7 in", FrameSize::TwoBySix)]
#[case("5.5 in", FrameSize::TwoBySix)]
#[case("7.25 in", FrameSize::TwoBySix)]
fn frames_by_depth(#[case] depth: &str, #[case] expected: FrameSize) {
    let bay = format!(
        "{{name: bay, material: cellulose, thickness: {depth}, framing: {{material: spruce, share: 25 %}}}}"
    );
    assert_eq!(found(&[LINING, &bay, PLYWOOD], "- -").1.frame, expected);
}

#[rstest]
#[case("wall", &[LINING, "{name: foam, material: XPS, thickness: 4 in}", PLYWOOD], Some("frame walls"))]
#[case("floor", &[PLYWOOD, STUDS_2X6, "{name: pan, material: galvanized steel, thickness: 20 ga}"], Some("floors"))]
#[case("roof", &[LINING, STUDS_2X6, PLYWOOD], None)]
fn what_the_table_does_not_cover(
    #[case] kind: &str,
    #[case] layers: &[&str],
    #[case] says: Option<&str>,
) {
    let (case, result) = solved(kind, layers);
    let findings = check(&case, &result, &code("2021 6"));
    assert_eq!(findings.len(), usize::from(says.is_some()));
    for finding in findings {
        assert_eq!(finding.status, Status::Note);
        assert!(
            finding
                .help
                .is_some_and(|help| help.contains(says.unwrap_or_default()))
        );
    }
}
