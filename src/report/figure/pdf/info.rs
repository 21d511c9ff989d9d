//! What a document says about itself.

use std::fmt;

use krilla::metadata::{DateTime, Metadata};

use super::marks::clean;
use crate::quantity::Date;

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
        let (year, month, day) = (self.date.year(), self.date.month(), self.date.day());
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
