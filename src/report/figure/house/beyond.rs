//! What of the house lies beyond a limit.

use super::shape::{Corners, Shape, Span, View};

/// What of a house lies beyond a limit of its width or length.
pub(super) fn sideways(shape: &Shape<'_>, extent: Span, limit: f64) -> Option<Corners> {
    let (low, high) = (shape.frame, shape.top);
    let corners = vec![
        (limit, low),
        (extent.1, low),
        (extent.1, high),
        (limit, high),
    ];
    (extent.1 > limit + 1e-6).then_some(corners)
}

/// What of a house lies above a limit.
pub(super) fn upward(view: &View<'_>, drawn: &[Corners], limit: f64) -> Vec<Corners> {
    let above = view.above().map(|[from, to]| {
        let low = limit.min(from.1);
        vec![(from.0, low), (to.0, low), to, from]
    });
    let all = drawn.iter().cloned().chain(above);
    all.map(|piece| higher(&piece, limit))
        .filter(|piece| piece.len() > 2)
        .collect()
}

/// The part of a convex piece above a height.
fn higher(piece: &Corners, limit: f64) -> Corners {
    let mut kept = Corners::new();
    for (n, one) in piece.iter().enumerate() {
        let other = piece[(n + 1) % piece.len()];
        if one.1 > limit {
            kept.push(*one);
        }
        if (one.1 > limit) != (other.1 > limit) {
            let share = (limit - one.1) / (other.1 - one.1);
            kept.push((one.0 + share * (other.0 - one.0), limit));
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
        assert_eq!(higher(&half, 2.5), [(1.0, 2.5), (1.0, 3.0), (0.5, 2.5)]);
        assert_eq!(higher(&half, 3.5), []);
        assert_eq!(higher(&half, -1.0), half);
    }
}
