//! What a plan reviewer will ask for, as a short list for the terminal and for the cover sheet.

use super::text::Text;
use crate::check::plan_review::{Item, Missing};

/// Over the list, on the terminal and on the cover sheet.
pub const HEADING: &str = "A plan reviewer will ask for";
/// Under it.
pub const FOOTING: &str =
    "This list changes no verdict. What offices ask for differs: yours may ask for more.";
/// Most places that are named in one row.
const MOST_PLACES: usize = 6;

/// One row of the list: the places where the same thing is missing, taken together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What is missing.
    pub item: Item,
    /// Where, named as in the file; empty where the project as a whole is meant.
    pub places: Vec<String>,
    /// What to write in the file.
    pub write: String,
}

impl Row {
    /// `thickness (sheathing of wall, liner of roof)`: what is missing and where.
    #[must_use]
    pub fn what(&self) -> String {
        let title = self.item.title();
        let named: Vec<&str> = self
            .places
            .iter()
            .take(MOST_PLACES)
            .map(String::as_str)
            .collect();
        let more = match self.places.len() - named.len() {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        match named.is_empty() {
            true => title.to_owned(),
            false => format!("{title} ({}{more})", named.join(", ")),
        }
    }

    /// The whole row as a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        format!(
            "{}: {}. Write {}.",
            self.what(),
            self.item.why(),
            self.write
        )
    }
}

/// The list by rows; empty where nothing is missing.
#[must_use]
pub fn rows(missing: &[Missing]) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for one in missing {
        let place = (!one.place.is_empty()).then(|| one.place.clone());
        let same = |row: &&mut Row| row.item == one.item && row.write == one.write;
        match rows.iter_mut().find(same) {
            Some(row) => row.places.extend(place),
            None => rows.push(Row {
                item: one.item,
                places: place.into_iter().collect(),
                write: one.write.clone(),
            }),
        }
    }
    rows
}

/// The list for the terminal.
///
/// # Example
/// ```
/// use dewmargin::check::plan_review::{Item, Missing};
/// use dewmargin::report::plan_review::text;
///
/// let missing = [Missing {
///     item: Item::Address,
///     place: String::new(),
///     write: "`address:` under `project:`".into(),
/// }];
/// assert!(text(&missing).set(80).contains("- address: applications are filed by the site."));
/// assert_eq!(text(&[]).set(80), "Nothing is missing that a plan reviewer commonly asks for.\n");
/// ```
#[must_use]
pub fn text(missing: &[Missing]) -> Text {
    let mut text = Text::default();
    if missing.is_empty() {
        text.say(
            0,
            "Nothing is missing that a plan reviewer commonly asks for.",
        );
        return text;
    }
    text.line(HEADING);
    for row in rows(missing) {
        text.say(2, format!("- {}", row.sentence()));
    }
    text.say(2, FOOTING);
    text
}
