//! The place on a sheet that a figure is given.

use super::title::{EDGE, Frame, LETTER, WIDTH};

/// A rectangle to draw in; a figure that needs more height takes it below, unless it must not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::report) struct Room {
    /// Its left edge.
    pub(in crate::report) left: i32,
    /// Its upper edge.
    pub(in crate::report) top: i32,
    /// Its width.
    pub(in crate::report) width: i32,
    /// Its height.
    pub(in crate::report) height: i32,
    /// Hundredths of a millimeter on paper that one unit takes.
    pub(in crate::report) magnify: f64,
    /// Whether the height mustn't be exceeded, as on a sheet with tables beside the figure: what
    /// stands in those is then left out of the figure.
    pub(in crate::report) strict: bool,
}

impl Room {
    /// What a frame leaves free on a sheet of letter paper.
    pub(super) fn within(frame: &Frame) -> Self {
        Self {
            left: EDGE,
            top: frame.top(),
            width: WIDTH,
            height: LETTER.1 - frame.top() - frame.bottom(),
            magnify: 1.0,
            strict: false,
        }
    }

    /// Its right edge.
    pub(super) fn right(self) -> i32 {
        self.left + self.width
    }

    /// How high the sheet of letter paper has to be where so much height was taken.
    pub(super) fn sheet_height(self, taken: i32) -> i32 {
        LETTER.1 + (taken - self.height).max(0)
    }
}
