//! Where everything of the calendar stands across the sheet.

use super::super::axis::MonthAxis;
use super::super::room::Room;

/// From this width on names stand beside the months, and amounts at their right.
const WIDE: i32 = 20_000;
/// The section at the left, and the leaders from it to the rows.
const STRIP: (i32, i32) = (1150, 750);
/// The same where there is little room.
const NARROW_STRIP: (i32, i32) = (520, 330);
/// The least and the greatest width of names, and the greatest as percent of all.
const NAMES: (i32, i32, i32) = (2700, 5600, 21);
/// Width of what stands at the right.
const WORDS: i32 = 4300;
/// Between columns.
const GAP: i32 = 220;

/// The columns of the calendar.
#[derive(Clone, Copy)]
pub(super) struct Across {
    /// The section.
    pub(super) strip: (i32, i32),
    /// The planes' names.
    pub(super) names: (i32, i32),
    /// The months.
    pub(super) months: MonthAxis,
    /// Verdict and amounts.
    pub(super) words: (i32, i32),
    /// Whether names and words share a line over the months, where there is no room beside them.
    pub(super) stacked: bool,
}

impl Across {
    /// Columns in a room for names as wide as told.
    pub(super) fn new(room: Room, names: i32, start: usize) -> Self {
        let (left, right) = (room.left, room.right());
        let stacked = room.width < WIDE;
        let (strip, leaders) = if stacked { NARROW_STRIP } else { STRIP };
        let first = left + strip + leaders;
        let (names, ends, words) = match stacked {
            true => ((first, right), (first, right), (first, right)),
            false => {
                let name_end =
                    first + names.clamp(NAMES.0, NAMES.1.min(room.width * NAMES.2 / 100));
                let words = right - WORDS;
                (
                    (first, name_end),
                    (name_end + GAP, words - GAP),
                    (words, right),
                )
            }
        };
        Self {
            strip: (left, left + strip),
            names,
            months: MonthAxis { start, ends },
            words,
            stacked,
        }
    }

    /// Width of one month.
    pub(super) fn cell(&self) -> i32 {
        (self.months.ends.1 - self.months.ends.0) / 12
    }
}
