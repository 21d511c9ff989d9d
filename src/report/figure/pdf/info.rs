//! What a document says about itself.

use std::fmt;

use krilla::metadata::{DateTime, Metadata};

use super::marks::clean;

/// What a document says about itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Info {
    /// Its title, shown by the reader's window.
    pub title: String,
    /// Who drew it; may be empty.
    pub author: String,
    /// What it is about; may be empty.
    pub subject: String,
    /// Its date, as the title block says.
    pub date: Date,
}

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// A day of the calendar; `None` where there is no such day.
    ///
    /// # Example
    /// ```
    /// use dewmargin::report::figure::Date;
    ///
    /// assert!(Date::new(2028, 2, 29).is_some());
    /// assert!(Date::new(2026, 2, 29).is_none());
    /// ```
    #[must_use]
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap =
            year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let days = match month {
            2 => 28 + u8::from(leap),
            4 | 6 | 9 | 11 => 30,
            1..=12 => 31,
            _ => 0,
        };
        let is_a_day = (1..=9999).contains(&year) && (1..=days).contains(&day);
        is_a_day.then_some(Self { year, month, day })
    }

    /// A day written as 2026-03-14; `None` for anything else.
    ///
    /// # Example
    /// ```
    /// use dewmargin::report::figure::Date;
    ///
    /// assert_eq!(Date::read("2026-03-14"), Date::new(2026, 3, 14));
    /// assert_eq!(Date::read("3/14/26"), None);
    /// ```
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts[..] else {
            return None;
        };
        let is_written = [(year, 4), (month, 2), (day, 2)]
            .iter()
            .all(|(part, long)| {
                part.len() == *long && part.bytes().all(|byte| byte.is_ascii_digit())
            });
        let date = (year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
        is_written.then(|| Self::new(date.0, date.1, date.2))?
    }
}

/// Why no document was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unwritten(pub(super) String);

impl fmt::Display for Unwritten {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

impl std::error::Error for Unwritten {}

impl Info {
    /// As the writer takes it. The identity comes from the title and the date, never from a clock
    /// or from chance.
    pub(super) fn metadata(&self) -> Metadata {
        let Date { year, month, day } = self.date;
        let program = concat!("dewmargin ", env!("CARGO_PKG_VERSION"));
        let title = match self.title.trim() {
            "" => "Untitled",
            title => title,
        };
        // Midnight in Greenwich: a date in a document has a time.
        let date = DateTime::new(year)
            .month(month)
            .day(day)
            .hour(0)
            .minute(0)
            .second(0);
        let date = date.utc_offset_hour(0).utc_offset_minute(0);
        let metadata = Metadata::new()
            .title(clean(title))
            .description(clean(&self.subject))
            .creator(program.into())
            .producer(program.into())
            .language("en-US".into())
            .document_id(format!("{year:04}-{month:02}-{day:02} {}", clean(title)))
            .creation_date(date);
        match self.author.trim() {
            "" => metadata,
            author => metadata.authors(vec![clean(author)]),
        }
    }
}
