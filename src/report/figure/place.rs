//! Where a path stands on the sheet.

use super::cut::Cut;
use super::scale::{Scale, Span};
use super::sheet::Point;
use crate::model::AssemblyKind;

/// Air drawn on either side of the layers.
pub(super) const AIR: i32 = 500;
/// Space for one temperature axis with its numbers.
pub(super) const AXIS: i32 = 560;
/// Long dashes: the dew point of the room air.
pub(super) const DASHES: (f64, f64) = (170.0, 90.0);
/// Dots: the local dew point.
pub(super) const DOTS: (f64, f64) = (22.0, 55.0);

/// Where a path is drawn: along the layers from the room's air to the outdoor air, and across.
#[derive(Clone, Copy)]
pub(super) struct Place {
    /// Wall, floor or roof: which way the layers run.
    pub(super) kind: AssemblyKind,
    /// Extent in the direction the layers follow each other.
    pub(super) along: (i32, i32),
    /// Extent of the layers in the other direction.
    pub(super) layers: (i32, i32),
    /// Extent of the chart in that direction: where its lowest and its highest temperature lie.
    pub(super) chart: (i32, i32),
    /// The drawing's scale.
    pub(super) scale: Scale,
    /// The temperatures the chart runs over.
    pub(super) span: Span,
}

impl Place {
    /// Whether the layers stand, as in walls.
    pub(super) fn stands(self) -> bool {
        self.kind == AssemblyKind::Wall
    }

    /// A position along the layers for a depth from the room's surface on paper.
    pub(super) fn at(self, depth: f64) -> i32 {
        let depth = depth.round() as i32 + AIR;
        if self.kind == AssemblyKind::Roof {
            self.along.1 - depth
        } else {
            self.along.0 + depth
        }
    }

    /// A point on the sheet from a position along and one across the layers.
    pub(super) fn point(self, along: i32, across: i32) -> Point {
        if self.stands() {
            (along, across)
        } else {
            (across, along)
        }
    }

    /// Upper left and lower right of what lies between two depths and two positions across.
    pub(super) fn corners(self, depths: (f64, f64), across: (i32, i32)) -> (Point, Point) {
        let (a, b) = (self.at(depths.0), self.at(depths.1));
        let (low, high) = (across.0.min(across.1), across.0.max(across.1));
        (self.point(a.min(b), low), self.point(a.max(b), high))
    }

    /// Depths of the boundaries of all layers drawn, from the room's surface.
    pub(super) fn depths(self, cut: &Cut<'_>) -> Vec<f64> {
        let mut depths = vec![0.0];
        let mut depth = 0.0;
        for cell in &cut.cells {
            depth += self.scale.on_paper(cell.thickness);
            depths.push(depth);
        }
        depths
    }

    /// Position of a temperature across the chart.
    pub(super) fn across(self, celsius: f64) -> i32 {
        let share = (celsius - self.span.low) / (self.span.high - self.span.low);
        let (low, high) = (f64::from(self.chart.0), f64::from(self.chart.1));
        (low + share * (high - low)).round() as i32
    }

    /// Depth of the room air drawn.
    pub(super) fn room(self) -> f64 {
        -f64::from(AIR)
    }
}

/// Moves positions apart to a least distance, keeping their order and staying near, between two
/// bounds that leave room enough.
pub(super) fn spread(wanted: &[i32], apart: i32, bounds: (i32, i32)) -> Vec<i32> {
    let descending = wanted.len() > 1 && wanted[0] > wanted[wanted.len() - 1];
    let ordered: Vec<i32> = if descending {
        wanted.iter().rev().copied().collect()
    } else {
        wanted.to_vec()
    };
    // Groups of labels that touch, each centered on the mean of where its labels want to be.
    let mut groups: Vec<(i64, i64)> = Vec::new();
    for (n, at) in ordered.iter().enumerate() {
        groups.push((i64::from(*at) - n as i64 * i64::from(apart), 1));
        while let [.., (sum, count), (next, more)] = groups[..] {
            if next * count >= sum * more {
                break;
            }
            groups.truncate(groups.len() - 2);
            groups.push((sum + next, count + more));
        }
    }
    let starts = groups
        .iter()
        .flat_map(|(sum, count)| (0..*count).map(move |_| sum / count));
    let length = i64::from(apart) * (wanted.len() as i64 - 1);
    let first = i64::from(bounds.0);
    let last = (i64::from(bounds.1) - length).max(first);
    let starts = starts.map(|start| start.clamp(first, last));
    let mut placed: Vec<i32> = starts
        .enumerate()
        .map(|(n, start)| i32::try_from(start + n as i64 * i64::from(apart)).unwrap_or(i32::MAX))
        .collect();
    if descending {
        placed.reverse();
    }
    placed
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn labels_move_apart_and_keep_their_order() {
        let placed = spread(&[100, 110, 115, 900], 50, (0, 1000));
        assert!(
            placed.windows(2).all(|pair| pair[1] - pair[0] >= 50),
            "{placed:?}"
        );
        assert_eq!(placed[3], 900);
        assert!((placed[1] - 108).abs() <= 2);
        let upward = spread(&[900, 115, 110, 100], 50, (0, 1000));
        assert_eq!(upward, placed.into_iter().rev().collect::<Vec<_>>());
    }

    #[test]
    fn labels_stay_between_the_bounds() {
        assert_eq!(spread(&[990, 995, 999], 50, (0, 1000)), [900, 950, 1000]);
        assert_eq!(spread(&[3, 2, 1], 50, (0, 1000)), [100, 50, 0]);
    }
}
