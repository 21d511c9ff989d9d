//! Calendar dates: reading and printing.

use std::fmt;

use super::month::month_in;
use super::{Quantity, QuantityError};

/// The first and the last year a drawing may be dated.
const YEARS: [u16; 2] = [1900, 2199];

/// A day of the Gregorian calendar, from 1900 to 2199.
///
/// Source of the notation: ISO 8601, calendar date in the extended format.
///
/// ```
/// # use dewmargin::quantity::{Date, Quantity};
/// let date = Date::read("2026-11-25").unwrap();
/// assert_eq!(date.to_string(), "2026-11-25");
/// assert!(Date::new(2026, 2, 29).is_none());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// A date; `None` where the calendar has no such day, or outside 1900 to 2199.
    #[must_use]
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let known = (YEARS[0]..=YEARS[1]).contains(&year)
            && (1..=12).contains(&month)
            && (1..=days_in(year, month)).contains(&day);
        known.then_some(Self { year, month, day })
    }

    /// The year, 1900 to 2199.
    #[must_use]
    pub fn year(self) -> u16 {
        self.year
    }

    /// The month, 1 to 12.
    #[must_use]
    pub fn month(self) -> u8 {
        self.month
    }

    /// The day of the month, 1 to 31.
    #[must_use]
    pub fn day(self) -> u8 {
        self.day
    }
}

fn days_in(year: u16, month: u8) -> u8 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Quantity for Date {
    const EXPECTED: &'static str = "a date as year-month-day, such as `2026-11-25`";

    fn read(text: &str) -> Result<Self, QuantityError> {
        let digits = |part: &str, count: usize| {
            part.len() == count && part.bytes().all(|b| b.is_ascii_digit())
        };
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts[..] else {
            return Err(refused(text, "isn't a date", meant(text)));
        };
        if !(digits(year, 4) && digits(month, 2) && digits(day, 2)) {
            return Err(refused(text, "isn't a date", meant(text)));
        }
        let numbers = (year.parse(), month.parse(), day.parse());
        let (Ok(year), Ok(month), Ok(day)) = numbers else {
            return Err(refused(text, "isn't a date", None));
        };
        if !(YEARS[0]..=YEARS[1]).contains(&year) {
            return Err(QuantityError {
                message: format!("`{text}` is out of range: expected a year from 1900 to 2199"),
                help: None,
                beyond: None,
            });
        }
        Self::new(year, month, day)
            .ok_or_else(|| refused(text, "isn't a day of the calendar", None))
    }
}

fn refused(text: &str, why: &str, meant: Option<Date>) -> QuantityError {
    QuantityError {
        message: format!("`{text}` {why}: expected {}", Date::EXPECTED),
        help: meant.map(|date| format!("did you mean `{date}`?")),
        beyond: None,
    }
}

/// The date other notations most likely mean: `11/25/2026` (month first, as in the U.S., unless
/// only day first is a date), `25.11.2026` (day first), `2026/11/5`, `Nov 25, 2026`.
fn meant(text: &str) -> Option<Date> {
    let is_break = |c: char| matches!(c, '-' | '/' | '.' | ',') || c.is_whitespace();
    let parts: Vec<&str> = text
        .split(is_break)
        .filter(|part| !part.is_empty())
        .collect();
    let [first, second, third] = parts[..] else {
        return None;
    };
    let number = |part: &str| part.parse::<u16>().ok();
    let date = |year: Option<u16>, month: Option<u16>, day: Option<u16>| {
        Date::new(year?, u8::try_from(month?).ok()?, u8::try_from(day?).ok()?)
    };
    let named = |part: &str| {
        let month = part.contains(char::is_alphabetic).then(|| month_in(part));
        month
            .flatten()
            .and_then(|index| u16::try_from(index + 1).ok())
    };
    let [a, b, c] = [first, second, third].map(number);
    let in_words = date(c, named(first), b).or_else(|| date(c, named(second), a));
    let year_first = || date(a, b, c);
    let month_first = || date(c, a, b).filter(|_| !text.contains('.'));
    let day_first = || date(c, b, a);
    in_words
        .or_else(year_first)
        .or_else(month_first)
        .or_else(day_first)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("2026-11-25", 2026, 11, 25)]
    #[case("2024-02-29", 2024, 2, 29)]
    #[case("2000-02-29", 2000, 2, 29)]
    #[case("1900-01-01", 1900, 1, 1)]
    #[case("2199-12-31", 2199, 12, 31)]
    fn dates(#[case] text: &str, #[case] year: u16, #[case] month: u8, #[case] day: u8) {
        let date = Date::read(text).unwrap();
        assert_eq!((date.year(), date.month(), date.day()), (year, month, day));
        assert_eq!(date.to_string(), text);
    }

    #[rstest]
    #[case("2026-02-29", None)] // not a leap year
    #[case("2100-02-29", None)] // nor is this one
    #[case("2026-04-31", None)]
    #[case("2026-13-01", None)]
    #[case("2026-00-10", None)]
    #[case("1899-12-31", None)]
    #[case("2200-01-01", None)]
    #[case("2026-11", None)]
    #[case("2026-11-5", Some("2026-11-05"))]
    #[case("2026/11/25", Some("2026-11-25"))]
    #[case("11/25/2026", Some("2026-11-25"))]
    #[case("25/11/2026", Some("2026-11-25"))]
    #[case("3/4/2026", Some("2026-03-04"))]
    #[case("3.4.2026", Some("2026-04-03"))]
    #[case("Nov 25, 2026", Some("2026-11-25"))]
    #[case("25 November 2026", Some("2026-11-25"))]
    #[case("25 Nov. 2026", Some("2026-11-25"))]
    #[case("40/40/2026", None)]
    #[case("next week", None)]
    #[case("2026-11-25T10:00", None)]
    #[case("99999999999999999999-1-1", None)]
    #[case("²026-11-25", None)]
    #[case("+026-11-25", None)]
    #[case("", None)]
    fn no_dates(#[case] text: &str, #[case] meant: Option<&str>) {
        let error = Date::read(text).unwrap_err();
        assert!(
            error.message.starts_with(&format!("`{text}` is")),
            "{error:?}"
        );
        let help = meant.map(|date| format!("did you mean `{date}`?"));
        assert_eq!(error.help, help);
    }
}
