//! Cross members: half a pitch, recomputed by hand in inches. Below the floor lie 3 in of air,
//! 20-gauge galvanized sheet is 0.0396 in, the bay 4-1/2 in.

use approx::assert_abs_diff_eq;
use rstest::rstest;

use super::{example, find, place_of, seen_area, solved_between};

const PAN: f64 = 3.0396;
const BAY: f64 = PAN + 4.5;

#[rstest]
#[case::half_a_strip("cross members", "cross member", [0.0, 1.0, BAY - 0.125, BAY])]
#[case::half_a_web("cross members", "cross member web", [0.0, 0.0625, PAN, BAY - 0.125])]
#[case::bay("cross members", "bay", [1.0, 12.0, PAN, BAY])]
#[case::bay_below("cross members", "bay under the strip", [0.0, 1.0, PAN, BAY - 0.125])]
#[case::deck("cross members", "subfloor", [0.0, 12.0, BAY, BAY + 0.75])]
#[case::foam("cross members, foam over the steel", "strip foam", [0.0, 1.0, BAY, BAY + 0.5])]
#[case::steel_stays("cross members, foam over the steel", "cross member", [0.0, 1.0, BAY - 0.125, BAY])]
#[case::deck_rises("cross members, foam over the steel", "subfloor", [0.0, 12.0, BAY + 0.5, BAY + 1.25])]
fn rectangles_lie_where_a_builder_would_draw_them(
    #[case] detail: &str,
    #[case] block: &str,
    #[case] inches: [f64; 4],
) {
    let details = example("cabin-cross-members.yaml");
    let place = place_of(find(&details, detail), block);
    for (ours, expected) in place.iter().zip(&inches) {
        assert_abs_diff_eq!(ours, expected, epsilon = 1e-9);
    }
}

#[test]
fn every_variant_is_sound_and_full() {
    let details = example("cabin-cross-members.yaml");
    assert_eq!(details.len(), 4);
    for detail in &details {
        solved_between(detail);
    }
    let flat = find(&details, "flat strips");
    assert!(
        flat.blocks
            .iter()
            .all(|one| !one.block.name.ends_with("web"))
    );
    let full = 12.0 * (0.0396 + 4.5 + 0.75 + 0.5);
    assert_abs_diff_eq!(seen_area(flat, |_| true), full, epsilon = 1e-6);
}
