//! What a packet says, sheet by sheet, before it is laid out on paper or on a page.

use crate::model::Stop;
use crate::report::explain::Derivation;
use crate::report::figure::Subject;
pub(in crate::report) use crate::report::table::Table;

/// One subject of the packet: a sheet, and as many more as it takes.
pub(in crate::report) struct Chapter<'a> {
    /// Its name in the list of sheets.
    pub(in crate::report) name: String,
    /// Its title on the sheet.
    pub(in crate::report) title: String,
    /// The verdict's word, where there is one: it stands on the sheet's face.
    pub(in crate::report) word: Option<&'static str>,
    /// What decides, under the title.
    pub(in crate::report) face: String,
    /// Its numbers that are asked first, a line each, beside what decides.
    pub(in crate::report) facts: Vec<String>,
    /// The climate it holds for; `None` where it is about all of them.
    pub(in crate::report) stop: Option<&'a Stop>,
    /// Its parts in reading order.
    pub(in crate::report) groups: Vec<Group<'a>>,
}

/// How wide a part wants to be.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::report) enum Width {
    /// A column of text.
    Column,
    /// As many columns of text as its tables need.
    Table,
    /// A figure.
    Figure,
    /// A drawing that gains from all the room there is.
    Drawing,
}

/// A part under one heading.
pub(in crate::report) struct Group<'a> {
    /// Its heading; empty for a figure that needs none.
    pub(in crate::report) heading: String,
    /// How wide it wants to be.
    pub(in crate::report) width: Width,
    /// What stands in it.
    pub(in crate::report) items: Vec<Item<'a>>,
}

/// One thing in a group.
pub(in crate::report) enum Item<'a> {
    /// A paragraph.
    Text(String),
    /// What stands over a table.
    Caption(String),
    /// A paragraph that accompanies.
    Note(String),
    /// A finding or a verdict: a name, its word at the right, then a paragraph.
    Verdict(String, &'static str, String),
    /// Rows and columns.
    Table(Table),
    /// A drawing.
    Figure(Subject<'a>),
    /// How a number came about, step by step.
    Steps(Calculation),
    /// A box left empty for what it is named after, such as a stamp.
    Blank(&'static str),
}

/// A hand calculation of a subject: what the ones before it have printed isn't worked out again.
pub(in crate::report) struct Calculation {
    /// The steps that are new.
    pub(in crate::report) derivation: Derivation,
    /// What is taken over, a line for each calculation that has it.
    pub(in crate::report) known: Vec<String>,
}

impl<'a> Group<'a> {
    /// A part as wide as a column of text.
    pub(in crate::report) fn narrow(heading: &str, items: Vec<Item<'a>>) -> Self {
        Self {
            heading: heading.to_owned(),
            width: Width::Column,
            items,
        }
    }

    /// A part as wide as its tables.
    pub(in crate::report) fn tables(heading: &str, items: Vec<Item<'a>>) -> Self {
        Self {
            width: Width::Table,
            ..Self::narrow(heading, items)
        }
    }

    /// A part that needs the width of a figure.
    pub(in crate::report) fn wide(heading: &str, items: Vec<Item<'a>>) -> Self {
        Self {
            heading: heading.to_owned(),
            width: Width::Figure,
            items,
        }
    }
}

impl<'a> Group<'a> {
    /// A drawing that gains from all the room there is.
    pub(in crate::report) fn drawing(heading: &str, items: Vec<Item<'a>>) -> Self {
        Self {
            width: Width::Drawing,
            ..Self::wide(heading, items)
        }
    }
}
