//! Hours that are missing between the rows.

use super::stamp::{LEAP_DAY, Stamp, YEAR, month_end, month_of};

/// From how many intervals the usual one is told.
const LEARNED_FROM: usize = 48;
/// Gaps that are kept to be named.
const NAMED: usize = 5;
const MINUTES_OF_DAY: i64 = 24 * 60;

/// The time between two rows.
#[derive(Clone, Copy)]
struct Interval {
    from: i64,
    to: i64,
    line: usize,
}

/// What is missing, month by month.
#[derive(Default)]
pub(super) struct Gaps {
    first: Option<i64>,
    last: Option<Stamp>,
    /// Whether the rows came to the end of a year and went on.
    around: bool,
    step: Option<i64>,
    waiting: Vec<Interval>,
    /// Rows missing in each month.
    pub(super) missing: [u64; 12],
    /// Rows missing before a line, the first few.
    pub(super) named: Vec<(usize, u64)>,
    /// How many gaps there are.
    pub(super) count: usize,
    /// The first line at which time ran backward.
    pub(super) backward: Option<usize>,
}

impl Gaps {
    /// Takes the next row's time.
    pub(super) fn add(&mut self, stamp: Stamp, line: usize) {
        let Some(to) = stamp.minute else { return };
        let Some(last) = self.last.replace(stamp) else {
            self.first = Some(to);
            return;
        };
        let Some(from) = last.minute else { return };
        let back = from - to;
        let is_next_year = back > YEAR / 2;
        self.around |= back > MINUTES_OF_DAY;
        // The same year again is another place, or rows in disorder. Going back within a year is
        // one too; a clock set back by an hour isn't.
        let is_same_year = last
            .year
            .zip(stamp.year)
            .is_some_and(|(last, now)| now <= last);
        if back > MINUTES_OF_DAY && (is_same_year || !is_next_year) {
            self.backward.get_or_insert(line);
        } else if is_next_year {
            let to = to + YEAR;
            self.take(Interval { from, to, line });
        } else if back < 0 {
            self.take(Interval { from, to, line });
        }
    }

    fn take(&mut self, interval: Interval) {
        match self.step {
            Some(step) => self.count_missing(interval, step),
            None => {
                self.waiting.push(interval);
                if self.waiting.len() == LEARNED_FROM {
                    self.learn();
                }
            }
        }
    }

    /// Learns the usual time between rows and looks at those that waited for it.
    fn learn(&mut self) {
        let waiting = std::mem::take(&mut self.waiting);
        let length = |interval: &Interval| interval.to - interval.from;
        let often = |step: i64| waiting.iter().filter(|i| length(i) == step).count();
        let step = waiting
            .iter()
            .map(length)
            // Rows of the same minute say nothing of the time between rows.
            .filter(|step| *step > 0)
            .max_by_key(|step| (often(*step), -*step));
        self.step = step;
        if let Some(step) = step {
            for interval in waiting {
                self.count_missing(interval, step);
            }
        }
    }

    fn count_missing(&mut self, interval: Interval, step: i64) {
        let Interval { from, to, line } = interval;
        // A year without February 29 lacks nothing there.
        let leap = from <= LEAP_DAY.0 && to >= LEAP_DAY.1;
        let of_leap_day = if leap { MINUTES_OF_DAY } else { 0 };
        if (to - from - of_leap_day) * 2 <= step * 3 {
            return;
        }
        let mut at = from + step;
        let end = to - step / 2;
        let mut all = 0;
        while at < end {
            let month = month_of(at);
            let year_start = at - at.rem_euclid(YEAR);
            let until = (year_start + month_end(month)).min(end);
            let rows = (until - at + step - 1) / step;
            let in_leap_day = match leap && (at..until).contains(&LEAP_DAY.0) {
                true => of_leap_day / step,
                false => 0,
            };
            let missing = rows.saturating_sub(in_leap_day).unsigned_abs();
            self.missing[month] += missing;
            all += missing;
            at += rows * step;
        }
        if all > 0 {
            self.count += 1;
            if self.named.len() < NAMED {
                self.named.push((line, all));
            }
        }
    }

    /// Looks at what is missing between the last row and the first, where the rows are one year.
    pub(super) fn finish(&mut self, line: usize) {
        if self.step.is_none() {
            self.learn();
        }
        if let (Some(step), Some(first), Some(last), false) = (
            self.step,
            self.first,
            self.last.and_then(|s| s.minute),
            self.around,
        ) {
            let to = first + YEAR;
            self.count_missing(
                Interval {
                    from: last,
                    to,
                    line,
                },
                step,
            );
        }
    }

    /// Minutes between rows, as a rule.
    pub(super) fn step(&self) -> Option<i64> {
        self.step
    }

    /// Rows missing in all.
    pub(super) fn rows(&self) -> u64 {
        self.missing.iter().sum()
    }
}
