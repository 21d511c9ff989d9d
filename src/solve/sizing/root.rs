//! Where a slack comes to be met between two points.

/// Most steps of one search: halving alone gets to 10⁻¹² of the span in forty.
const MOST_STEPS: usize = 60;

/// The point between `from`, where the slack is negative, and `to`, where it isn't, at which it
/// comes to be met, to `tolerance`, from the side where it is. `ends` are the slacks at both.
///
/// False position with the slack of an end that stays halved (Illinois rule), halving wherever a
/// slack isn't finite or two steps didn't halve the bracket.
///
/// # Example
/// ```
/// use dewmargin::solve::sizing::first_met;
/// let x = first_met(|x: f64| x * x - 2.0, (1.0, 2.0), (-1.0, 2.0), 1e-9);
/// assert!((x - 2.0_f64.sqrt()).abs() < 1e-9 && x * x >= 2.0);
/// ```
pub fn first_met(
    slack: impl Fn(f64) -> f64,
    (from, to): (f64, f64),
    ends: (f64, f64),
    tolerance: f64,
) -> f64 {
    let (mut short, mut met) = ((from, ends.0), (to, ends.1));
    let mut width = (met.0 - short.0).abs();
    let mut halve = false;
    for _ in 0..MOST_STEPS {
        if (met.0 - short.0).abs() <= tolerance {
            break;
        }
        let middle = 0.5 * (short.0 + met.0);
        let chord = short.0 - short.1 * (met.0 - short.0) / (met.1 - short.1);
        // A little beyond the chord, so that the bracket closes from both sides.
        let beyond = chord + 0.4 * tolerance * (met.0 - short.0).signum();
        let inside = (beyond - short.0) * (beyond - met.0) < 0.0;
        let x = if halve || !inside { middle } else { beyond };
        let value = slack(x);
        if value >= 0.0 {
            met = (x, value);
            short.1 *= 0.5;
        } else {
            short = (x, value);
            met.1 *= 0.5;
        }
        let now = (met.0 - short.0).abs();
        halve = now > 0.5 * width;
        width = now;
    }
    met.0
}

#[cfg(test)]
mod tests {
    use super::first_met;
    use approx::assert_abs_diff_eq;
    use rstest::rstest;

    #[rstest]
    #[case::steep_then_flat(|x: f64| 1.0 - libm::exp(-20.0 * x) - 0.99, 0.230_258_509)]
    #[case::a_step(|x: f64| if x < 0.3 { f64::NEG_INFINITY } else { 1.0 }, 0.3)]
    #[case::a_cube(|x: f64| (x - 0.7).powi(3), 0.7)]
    fn the_point_is_met_and_its_neighbor_is_not(#[case] slack: fn(f64) -> f64, #[case] at: f64) {
        let x = first_met(slack, (0.0, 1.0), (slack(0.0), slack(1.0)), 1e-7);
        assert_abs_diff_eq!(x, at, epsilon = 1.1e-7);
        assert!(slack(x) >= 0.0 && slack(x - 1.1e-7) < 0.0);
    }
}
