//! Title data: free texts that fit a title block, and a date.

use serde_json::{Value as Json, json};

use crate::document::{At, FromNode, Node, Problems, Value, Word, record, unprintable};
use crate::error::{Problem, Span, is_hidden};
use crate::model::TitleData;
use crate::quantity::{Date, Quantity};

/// Most characters of one entry.
const MOST_CHARACTERS: usize = 200;
/// Most lines of an entry that may have several.
const MOST_LINES: usize = 5;
/// Most characters of a revision's mark.
const LONGEST_REVISION: usize = 20;
/// Most characters in front of sheet numbers.
const LONGEST_PREFIX: usize = 10;

record! {
    /// Title data.
    pub struct TitleText {
        /// The project's title.
        "title" title: optional AnyText,
        /// In front of sheet numbers.
        "sheet-prefix" sheet_prefix: optional AnyText,
        /// Who drew it.
        "designer" designer: optional AnyText,
        /// For whom.
        "owner" owner: optional AnyText,
        /// Where it stands.
        "address" address: optional AnyText,
        /// The day of the drawings, such as `2026-11-25`.
        "date" date: optional AnyDate,
        /// The revision's mark, such as `A`.
        "revision" revision: optional AnyText,
        /// The code and edition the plans go by.
        "code-basis" code_basis: optional AnyText,
    }
}

/// A text that may be left empty, such as an address not known yet; without blanks around it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[allow(unreachable_pub)]
pub struct AnyText(pub String, pub Span);

impl FromNode for AnyText {
    fn expected() -> String {
        "a text".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        let text = match &node.value {
            Value::Empty => String::new(),
            Value::Text(text) => text.trim().to_owned(),
            _ => At::<Word>::from_node(node, problems)?.value.0,
        };
        // Lines are counted where the entry is fitted.
        if let Some(hidden) = text.chars().find(|c| is_hidden(*c) && *c != '\n') {
            problems.push(unprintable(hidden, node));
            return None;
        }
        Some(Self(text, node.span))
    }

    fn schema() -> Json {
        json!({"type": ["string", "number", "null"], "maxLength": MOST_CHARACTERS})
    }
}

/// A date that may be left empty.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(unreachable_pub)]
pub struct AnyDate(pub Option<Date>);

impl FromNode for AnyDate {
    fn expected() -> String {
        Date::EXPECTED.into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        match &node.value {
            Value::Empty => Some(Self(None)),
            Value::Text(text) if text.trim().is_empty() => Some(Self(None)),
            _ => At::<Date>::from_node(node, problems).map(|at| Self(Some(at.value))),
        }
    }

    fn schema() -> Json {
        json!({"type": ["string", "null"]})
    }
}

/// The title data, whatever is missing; what doesn't fit a title block is a problem.
pub(super) fn title_data(text: Option<TitleText>, problems: &mut Problems) -> TitleData {
    let Some(text) = text else {
        return TitleData::default();
    };
    let mut fit = |what: &str, entry: Option<AnyText>, longest: usize, lines: usize| {
        entry.map_or_else(String::new, |entry| {
            fitted(what, entry, (longest, lines), problems)
        })
    };
    let date = text.date.and_then(|date| date.0);
    TitleData {
        title: fit("title", text.title, MOST_CHARACTERS, 1),
        sheet_prefix: fit("sheet prefix", text.sheet_prefix, LONGEST_PREFIX, 1),
        designer: fit("designer", text.designer, MOST_CHARACTERS, MOST_LINES),
        owner: fit("owner", text.owner, MOST_CHARACTERS, MOST_LINES),
        address: fit("address", text.address, MOST_CHARACTERS, MOST_LINES),
        date,
        revision: fit("revision", text.revision, LONGEST_REVISION, 1),
        code_basis: fit("code basis", text.code_basis, MOST_CHARACTERS, MOST_LINES),
    }
}

/// An entry as typed; a problem where it is longer than one line of a sheet can show.
pub(super) fn one_line(what: &str, entry: &AnyText, problems: &mut Problems) -> String {
    fitted(what, entry.clone(), (MOST_CHARACTERS, 1), problems)
}

fn fitted(
    what: &str,
    AnyText(entry, span): AnyText,
    (longest, lines): (usize, usize),
    problems: &mut Problems,
) -> String {
    if let Some((message, expected)) = unfit(what, &entry, longest, lines) {
        problems.push(Problem::at(span, message).expected(expected));
    }
    entry
}

/// Why an entry doesn't fit a title block, and what would.
fn unfit(what: &str, entry: &str, longest: usize, most_lines: usize) -> Option<(String, String)> {
    let characters = entry.chars().count();
    if characters > longest {
        let message = format!("the {what} has {characters} characters");
        return Some((message, format!("expected at most {longest}")));
    }
    let lines = entry.lines().count();
    if lines > most_lines {
        let expected = match most_lines {
            1 => "expected one line".to_owned(),
            most => format!("expected at most {most}"),
        };
        return Some((format!("the {what} has {lines} lines"), expected));
    }
    let control = entry.chars().find(|c| c.is_control() && *c != '\n');
    control.map(|c| {
        let message = format!(
            "the {what} holds a character that can't be printed (U+{:04X})",
            u32::from(c)
        );
        (message, "expected letters, digits and signs".to_owned())
    })
}
