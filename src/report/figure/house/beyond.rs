//! What of the house lies beyond a limit.

use super::shape::{Corners, View};

/// What of the pieces drawn lies beyond a limit of width or length.
pub(super) fn sideways(view: &View<'_>, drawn: &[Corners], limit: f64) -> Vec<Corners> {
    over(view, drawn, |corner| corner.0 - limit)
}

/// What of the pieces drawn lies above a limit.
pub(super) fn upward(view: &View<'_>, drawn: &[Corners], limit: f64) -> Vec<Corners> {
    over(view, drawn, |corner| corner.1 - limit)
}

/// No excess smaller than this is drawn, m: sums of terms are off by less.
const LEAST: f64 = 1e-6;

fn over(view: &View<'_>, drawn: &[Corners], by: impl Fn(&(f64, f64)) -> f64) -> Vec<Corners> {
    let extras = view.extras();
    let pieces = drawn.iter().chain(&extras);
    let is_over = |piece: &&Corners| piece.iter().any(|corner| by(corner) > LEAST);
    let parts = pieces.filter(is_over).map(|piece| part(piece, &by));
    parts.filter(|part| part.len() > 2).collect()
}

/// The part of a convex piece where something is above nothing.
fn part(piece: &Corners, by: impl Fn(&(f64, f64)) -> f64) -> Corners {
    let mut kept = Corners::new();
    for (n, one) in piece.iter().enumerate() {
        let other = piece[(n + 1) % piece.len()];
        let (a, b) = (by(one), by(&other));
        if a > 0.0 {
            kept.push(*one);
        }
        if (a > 0.0) != (b > 0.0) {
            let share = a / (a - b);
            let mix = |p: f64, q: f64| p + share * (q - p);
            kept.push((mix(one.0, other.0), mix(one.1, other.1)));
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    // A house 2 m wide under a gable 3 m high at its ridge, 2 m at its eaves, cut at 2.5 m.
    #[test]
    fn what_is_higher_is_the_tip_of_the_gable() {
        let half = vec![(0.0, 0.0), (1.0, 0.0), (1.0, 3.0), (0.0, 2.0)];
        assert_eq!(
            part(&half, |corner| corner.1 - 2.5),
            [(1.0, 2.5), (1.0, 3.0), (0.5, 2.5)]
        );
        assert_eq!(part(&half, |corner| corner.1 - 3.5), []);
        assert_eq!(part(&half, |corner| corner.1 + 1.0), half);
    }
}
