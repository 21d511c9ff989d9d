//! Dates and times as files have them, down to what is needed: month, and minute of the year.

use crate::quantity::month_in;

/// Days before each month in a year that has a February 29, and in all.
const DAYS_BEFORE: [i64; 13] = [0, 31, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335, 366];
const MINUTES_OF_DAY: i64 = 24 * 60;
/// Minutes of a year of 366 days.
pub(super) const YEAR: i64 = DAYS_BEFORE[12] * MINUTES_OF_DAY;
/// February 29, as minutes of the year.
pub(super) const LEAP_DAY: (i64, i64) = (59 * MINUTES_OF_DAY, 60 * MINUTES_OF_DAY);

/// A point of time within a year.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stamp {
    /// 0 for January.
    pub(super) month: usize,
    /// The year where it is written.
    pub(super) year: Option<i64>,
    /// Minutes since January 1 in a year of 366 days; `None` where the day isn't told.
    pub(super) minute: Option<i64>,
}

/// Where a month ends, in minutes of the year.
pub(super) fn month_end(month: usize) -> i64 {
    DAYS_BEFORE[month + 1] * MINUTES_OF_DAY
}

/// The month of a minute of the year.
pub(super) fn month_of(minute: i64) -> usize {
    let day = minute.rem_euclid(YEAR) / MINUTES_OF_DAY;
    (0..12)
        .find(|month| day < DAYS_BEFORE[month + 1])
        .unwrap_or(11)
}

impl Stamp {
    /// A stamp from its parts; `None` where there is no such month, day or time.
    fn new(year: Option<i64>, month: usize, day: Option<i64>, time: Option<&str>) -> Option<Self> {
        let time = time.map(str::trim).filter(|time| !time.is_empty());
        let of_day = match time {
            Some(time) => Some(minute_of_day(time)?),
            None => Some(0),
        };
        let days = DAYS_BEFORE[month + 1] - DAYS_BEFORE[month];
        if day.is_some_and(|day| !(1..=days).contains(&day)) {
            return None;
        }
        let minute = day
            .zip(of_day)
            .map(|(day, of_day)| (DAYS_BEFORE[month] + day - 1) * MINUTES_OF_DAY + of_day);
        Some(Self {
            month,
            year,
            minute,
        })
    }

    /// A stamp from columns of their own.
    pub(super) fn from_parts(month: &str, day: Option<&str>, hour: Option<&str>) -> Option<Self> {
        let month = month_in(month)?;
        let day = match day {
            Some(day) => Some(day.split('.').next()?.parse().ok()?),
            None => None,
        };
        Self::new(None, month, day, hour)
    }

    /// A stamp from a date, or date and time in one (`2013-01-05T03:00Z`, `01/05 03`,
    /// `20130105`, `5 Jan 2013 3:00 PM`), and a time beside it. Dates with slashes are month/day.
    pub(super) fn read(date: &str, time: Option<&str>) -> Option<Self> {
        let date = date.trim();
        let words = date.split(|c: char| !c.is_ascii_alphabetic());
        if words
            .filter(|word| word.len() > 2)
            .any(|word| month_in(word).is_some())
        {
            return Self::named(date, time);
        }
        let (day, own_time) = part(date);
        let time = own_time.or(time);
        let digits = |text: &str| -> Option<i64> {
            let all = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
            all.then(|| text.parse().ok()).flatten()
        };
        let month = |text: &str| digits(text).and_then(|_| month_in(text));
        let day_in = |text: Option<&&str>| match text {
            Some(text) => digits(text).map(Some),
            None => Some(None),
        };
        let parts: Vec<&str> = day.split(['-', '/', '.']).collect();
        match parts.as_slice() {
            [all] if matches!(all.len(), 8 | 10 | 12 | 14) && digits(all).is_some() => {
                let time = match &all[8..] {
                    "" => time.map(str::to_owned),
                    hour if hour.len() == 2 => Some(hour.to_owned()),
                    more => Some(format!("{}:{}", &more[..2], &more[2..4])),
                };
                let year = digits(&all[..4]);
                Self::new(
                    year,
                    month(&all[4..6])?,
                    digits(&all[6..8]),
                    time.as_deref(),
                )
            }
            [year, middle, rest @ ..] if year.len() == 4 && rest.len() < 2 => {
                Self::new(digits(year), month(middle)?, day_in(rest.first())?, time)
            }
            [first, second, rest @ ..] if first.len() < 3 && rest.len() < 2 => {
                // `05.01.2013` is day first, as it is written where dates have dots.
                let (day, middle) = match day.contains('.') {
                    true => (first, second),
                    false => (second, first),
                };
                let year = day_in(rest.first())?;
                Self::new(year, month(middle)?, Some(digits(day)?), time)
            }
            _ => None,
        }
    }

    /// A date with the month in letters, in any order.
    fn named(text: &str, time: Option<&str>) -> Option<Self> {
        let words = text
            .split([' ', '-', '/', ',', '.'])
            .filter(|word| !word.is_empty());
        let is_date = |word: &&str| !word.contains(':');
        let mut month = None;
        let (mut day, mut year) = (None, None);
        for word in words.clone().take_while(is_date).take(3) {
            match word.parse::<i64>() {
                Ok(number) if word.len() == 4 => year = Some(number),
                Ok(number) if day.is_none() => day = Some(number),
                Ok(number) => year = year.or(Some(2000 + number)),
                Err(_) => month = month.or(month_in(word)),
            }
        }
        let at = words.clone().position(|word| word.contains(':'));
        let own = at.map(|at| words.skip(at).collect::<Vec<_>>().join(" "));
        Self::new(year, month?, day, own.as_deref().or(time))
    }
}

/// Parts a date from the time behind it, at a `T` between digits or at blanks.
fn part(text: &str) -> (&str, Option<&str>) {
    let bytes = text.as_bytes();
    let at = (1..bytes.len().saturating_sub(1)).find(|at| {
        let is_t = matches!(bytes[*at], b'T' | b't')
            && bytes[at - 1].is_ascii_digit()
            && bytes[at + 1].is_ascii_digit();
        is_t || bytes[*at] == b' '
    });
    match at {
        Some(at) => (&text[..at], Some(text[at + 1..].trim())),
        None => (text, None),
    }
}

/// Minutes since midnight of `3`, `03:30`, `24:00`, `03:00:00Z`, `3:00 PM`.
fn minute_of_day(time: &str) -> Option<i64> {
    let number = |text: &str| -> Option<i64> {
        let end = text
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(text.len());
        text[..end].parse().ok()
    };
    let mut parts = time.split(':');
    let hour = number(parts.next()?)?;
    let minute = match parts.next() {
        Some(minute) => number(minute)?,
        None => 0,
    };
    let lower = time.to_ascii_lowercase();
    let hour = match (lower.contains("pm"), lower.contains("am")) {
        (true, _) if hour < 12 => hour + 12,
        (_, true) if hour == 12 => 0,
        _ => hour,
    };
    // Some loggers write 0100 for one o'clock.
    let is_compact = time.bytes().take_while(u8::is_ascii_digit).count() > 2;
    let (hour, minute) = match is_compact {
        true => (hour / 100, hour % 100),
        false => (hour, minute),
    };
    let minutes = hour * 60 + minute;
    (minute < 60 && minutes <= MINUTES_OF_DAY).then_some(minutes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    /// March 5, 15:00.
    const MINUTE: i64 = (60 + 4) * MINUTES_OF_DAY + 15 * 60;

    #[rstest]
    #[case("2013-03-05T15:00")]
    #[case("2013-03-05T15:00:00Z")]
    #[case("2013-03-05t15:00+01:00")]
    #[case("2013-03-05 15:00")]
    #[case("2013/3/5 15:00")]
    #[case("20130305 15:00")]
    #[case("2013030515")]
    #[case("201303051500")]
    #[case("03/05 15")]
    #[case("03/05  15:00:00")]
    #[case("3/5/2013 15:00")]
    #[case("3/5/13 3:00 PM")]
    #[case("05.03.2013 15:00")]
    #[case("5 Mar 2013 15:00")]
    #[case("5-Mar-2013 15:00")]
    #[case("March 5, 2013 15:00")]
    #[case("03-05 1500")]
    fn all_the_same_hour(#[case] text: &str) {
        let stamp = Stamp::read(text, None).unwrap();
        assert_eq!((stamp.month, stamp.minute), (2, Some(MINUTE)));
    }

    #[test]
    fn a_time_beside_the_date() {
        let stamp = Stamp::read("03/05/1988", Some("15:00")).unwrap();
        assert_eq!((stamp.year, stamp.minute), (Some(1988), Some(MINUTE)));
        let midnight = Stamp::read("01/31/1988", Some("24:00")).unwrap();
        assert_eq!((midnight.month, midnight.minute), (0, Some(month_end(0))));
        let parts = Stamp::from_parts("3", Some("5"), Some("15")).unwrap();
        assert_eq!(parts.minute, Some(MINUTE));
        assert_eq!(Stamp::from_parts("March", None, None).unwrap().minute, None);
        assert_eq!(Stamp::read("2013-03", None).unwrap().minute, None);
        assert_eq!(Stamp::read("2013-03", None).unwrap().month, 2);
    }

    #[rstest]
    #[case("")]
    #[case("13/05/2013")]
    #[case("2013-13-05")]
    #[case("2013-02-30")]
    #[case("2013-00-05")]
    #[case("01/05 25:00")]
    #[case("yesterday")]
    #[case("5")]
    #[case("NaN")]
    #[case("2013-03-05T")]
    #[case("é/é")]
    #[case("1/2/3/4")]
    fn no_dates(#[case] text: &str) {
        assert_eq!(Stamp::read(text, None), None);
    }

    #[test]
    fn months_meet_at_their_ends() {
        for month in 0..12 {
            assert_eq!(month_of(month_end(month) - 1), month);
            assert_eq!(month_of(month_end(month)), (month + 1) % 12);
        }
    }

    proptest::proptest! {
        #[test]
        fn no_text_panics(text in "\\PC{0,20}", time in "\\PC{0,8}") {
            let _ = Stamp::read(&text, Some(&time));
            let _ = Stamp::from_parts(&text, Some(&time), Some(&text));
        }
    }
}
