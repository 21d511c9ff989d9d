//! One row of the year: a chart across the months, words at its lines' ends, words beside it.

use super::axis::MonthAxis;
use super::lettering::wrap;
use super::place::spread;
use super::sheet::{GRAY, LINE, Lettering, SIZE, Sheet};

/// Height of the months' names under a chart.
pub(super) const NAMES: i32 = 480;

/// One row of the sheet.
#[derive(Clone, Copy)]
pub(super) struct Row {
    /// Its top.
    pub(super) top: i32,
    /// Its bottom, the months' names included.
    pub(super) bottom: i32,
    /// The months across it.
    pub(super) months: MonthAxis,
    /// From where to where the words beside it go.
    pub(super) words: (i32, i32),
}

impl Row {
    /// Width between the chart and the words.
    pub(super) fn gutter(self) -> i32 {
        self.words.0 - self.months.ends.1 - 300
    }
}

/// One line of the words beside a chart.
pub(super) struct Line {
    words: String,
    set: Lettering,
    right: &'static str,
    /// Shortened to one line rather than broken into several.
    is_one: bool,
}

impl Line {
    /// A place and the word on it.
    pub(super) fn heading(words: &str, right: &'static str) -> Self {
        Self {
            words: words.to_owned(),
            set: Lettering::PLAIN.bold(),
            right,
            is_one: true,
        }
    }

    /// In ink.
    pub(super) fn plain(words: String) -> Self {
        Self {
            words,
            set: Lettering::PLAIN,
            right: "",
            is_one: false,
        }
    }

    /// In gray.
    pub(super) fn gray(words: String) -> Self {
        Self {
            set: Lettering::PLAIN.color(GRAY),
            is_one: true,
            ..Self::plain(words)
        }
    }
}

/// Lines beside a chart, the first at the height of its top; as many as the row is high.
pub(super) fn words(sheet: &mut Sheet, row: Row, lines: &[Line]) {
    let (left, right) = row.words;
    let mut y = row.top + SIZE * 8 / 10;
    for line in lines {
        let (set, is_heading) = (line.set, !line.right.is_empty());
        sheet.text(line.right, (right, y), set.right());
        let taken = if is_heading {
            set.width(line.right) + 200
        } else {
            0
        };
        let room = right - left - taken;
        let broken = match line.is_one {
            true => vec![set.fit(&line.words, room)],
            false => wrap(&line.words, set.size, false, room),
        };
        for words in broken {
            if y <= row.bottom {
                sheet.text(&words, (left, y), set);
            }
            y += LINE;
        }
    }
}

/// Words at the right ends of lines, from the top down, moved apart where they touch.
pub(super) fn gutter(sheet: &mut Sheet, row: Row, labels: Vec<(i32, String, Lettering)>) {
    let wanted: Vec<i32> = labels.iter().map(|(y, ..)| *y).collect();
    let placed = spread(&wanted, LINE, (row.top, row.bottom - NAMES));
    for (y, (_, words, set)) in placed.into_iter().zip(labels) {
        let (x, base) = (row.months.ends.1 + 120, y + SIZE * 36 / 100);
        sheet.text(&set.fit(&words, row.gutter()), (x, base), set);
    }
}
