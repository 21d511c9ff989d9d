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
    /// The climate it holds for; `None` where it is about all of them.
    pub(in crate::report) stop: Option<&'a Stop>,
    /// How its parts fill a sheet.
    pub(in crate::report) order: Order,
    /// Its parts in reading order.
    pub(in crate::report) groups: Vec<Group<'a>>,
}

/// How wide a part wants to be.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::report) enum Width {
    /// A column of text.
    Column,
    /// A figure or a wide table.
    Figure,
    /// A drawing that gains from all the room there is.
    Drawing,
}

/// How parts fill a sheet of several columns.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(in crate::report) enum Order {
    /// Each where the sheet is filled least.
    Across,
    /// One after the other, column by column.
    Down,
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
    Steps(Derivation),
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
