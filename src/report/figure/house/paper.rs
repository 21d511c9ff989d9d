//! Where a place and a height of a view lie on the paper.

use super::super::scale::Scale;
use super::super::sheet::Point;
use super::shape::Corners;
use crate::quantity::Length;

/// A view laid on the paper.
#[derive(Clone, Copy)]
pub(super) struct Paper {
    /// Its scale.
    pub(super) scale: Scale,
    /// Where the deck's edge at the level counted from lies.
    pub(super) origin: Point,
}

impl Paper {
    fn drawn(&self, meters: f64) -> i32 {
        self.scale.on_paper(Length::from_m(meters)).round() as i32
    }

    /// Across the paper.
    pub(super) fn x(&self, place: f64) -> i32 {
        self.origin.0.saturating_add(self.drawn(place))
    }

    /// Down the paper.
    pub(super) fn y(&self, height: f64) -> i32 {
        self.origin.1.saturating_sub(self.drawn(height))
    }

    /// A point of the view.
    pub(super) fn at(&self, (place, height): (f64, f64)) -> Point {
        (self.x(place), self.y(height))
    }

    /// Corners on the paper.
    pub(super) fn corners(&self, corners: &Corners) -> Vec<Point> {
        corners.iter().map(|corner| self.at(*corner)).collect()
    }
}
