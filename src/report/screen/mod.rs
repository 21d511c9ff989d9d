//! The first screen: what fails, where, by how much, at which site, on what the rest depends, and what
//! to do first, in 24 rows.
//!
//! Nothing that fails is cut to fit. Where a project has more parts than rows, what passes is told by
//! name alone, then what depends loses its second line; whatever isn't printed is counted and named.

mod brief;
mod check;
mod compare;
mod phrase;

pub(super) use brief::margin_words;
pub(super) use check::rows_text;
pub use check::{check_screen, check_verdict};
pub use compare::{compare_screen, compare_verdict};

use super::text::{short, wrap};
use crate::check::Status;
use crate::study::{Part, Study};

/// Rows of a terminal.
pub const ROWS: usize = 24;
/// What the text is set to where it isn't printed on a terminal.
pub const WIDTH: usize = 80;
/// The narrowest and the widest that text is set to.
const WIDTHS: (usize, usize) = (60, 100);
/// Characters that headings below the rows take.
const ASIDE: usize = "variants".len() + 3;
/// The last line: what every first screen says.
const CAUTION: &str = "Estimates, not structural: local codes and licensed practice govern.";
/// What a verdict ends with where a solver didn't settle.
const UNSETTLED: &str = "; some numbers aren't settled: don't rely on them";
/// Longest name in the first column; the rest is cut.
const LONGEST_NAME: usize = 22;

/// One line of a screen: a word of a verdict stands apart, so that a terminal can set it off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What stands before the word.
    pub before: String,
    /// The word, where the line has one.
    pub status: Option<Status>,
    /// What follows it.
    pub after: String,
}

impl Line {
    fn plain(text: impl Into<String>) -> Self {
        Self {
            before: text.into(),
            status: None,
            after: String::new(),
        }
    }

    /// The line without any setting.
    #[must_use]
    pub fn text(&self) -> String {
        let word = self.status.map_or("", Status::word);
        format!("{}{word}{}", self.before, self.after)
            .trim_end()
            .to_owned()
    }
}

/// A screen, line by line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Screen {
    /// Its lines.
    pub lines: Vec<Line>,
}

impl Screen {
    /// The screen as plain text.
    #[must_use]
    pub fn text(&self) -> String {
        let lines = self.lines.iter().map(|line| line.text() + "\n");
        lines.collect()
    }

    fn say(&mut self, text: &str, width: usize) {
        let lines = wrapped(text, width);
        self.lines.extend(lines.into_iter().map(Line::plain));
    }

    fn blank(&mut self) {
        self.lines.push(Line::plain(""));
    }
}

/// The width that text is set to on a terminal so wide.
#[must_use]
pub fn set_to(columns: usize) -> usize {
    columns.clamp(WIDTHS.0, WIDTHS.1)
}

/// Text in lines no wider than that.
fn wrapped(text: &str, width: usize) -> Vec<String> {
    let text = wrap(text, "", width);
    text.lines().map(str::to_owned).collect()
}

/// A part or an option: its name, its word, and what is told of it, in paragraphs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Row {
    name: String,
    status: Status,
    told: Vec<String>,
}

/// Such rows as lines no wider than that.
pub(super) fn set_rows(rows: &[Row], width: usize) -> String {
    let columns = Columns::new(rows.iter().map(|row| row.name.as_str()), width);
    let lines = columns.rows(rows).into_iter();
    lines.map(|line| line.text() + "\n").collect()
}

/// The columns of a screen: names, words, then text.
#[derive(Clone, Copy)]
struct Columns {
    name: usize,
    text: usize,
    width: usize,
    /// What stands before a further name of a row.
    joint: &'static str,
}

impl Columns {
    /// Columns for the names of parts: all of them have what a row tells.
    fn new<'n>(names: impl Iterator<Item = &'n str>, width: usize) -> Self {
        let lengths = names.map(|name| name.chars().count());
        Self::as_wide_as(lengths.max().unwrap_or(0), width, "and ")
    }

    /// Columns for the names of options: one of them is built.
    fn of_options<'n>(names: impl Iterator<Item = &'n str>, width: usize) -> Self {
        const OR: &str = "or ";
        let lengths = names.map(|name| name.chars().count());
        Self::as_wide_as(lengths.max().unwrap_or(0) + OR.len(), width, OR)
    }

    fn as_wide_as(longest: usize, width: usize, joint: &'static str) -> Self {
        let name = longest.clamp(ASIDE - 2, LONGEST_NAME) + 2;
        Self {
            name,
            text: name + "depends".len() + 2,
            width,
            joint,
        }
    }

    /// A name in lines as wide as its column; a word too long for it is cut.
    fn named(self, name: &str) -> Vec<String> {
        let width = self.name - 2;
        let lines = wrapped(name, width);
        let pad = |line: String| {
            let line = short(&line, width);
            format!("{line:<width$}", width = self.name)
        };
        lines.into_iter().map(pad).collect()
    }

    /// Rows with their paragraphs; those of which the same is told are one row of several names.
    fn rows(self, rows: &[Row]) -> Vec<Line> {
        let mut merged: Vec<(Vec<&str>, &Row)> = Vec::new();
        for row in rows {
            let is_same = |(_, first): &&mut (Vec<&str>, &Row)| {
                first.status == row.status && first.told == row.told && !row.told.is_empty()
            };
            match merged.iter_mut().find(is_same) {
                Some((names, _)) => names.push(&row.name),
                None => merged.push((vec![&row.name], row)),
            }
        }
        let lines = merged.iter();
        lines
            .flat_map(|(names, row)| self.row(names, row.status, &row.told))
            .collect()
    }

    /// Names, their word, and text beside them; further paragraphs below.
    fn row(self, names: &[&str], status: Status, paragraphs: &[String]) -> Vec<Line> {
        let word = status.word();
        let pad = " ".repeat(self.text - self.name - word.len());
        let mut text = paragraphs
            .iter()
            .filter(|paragraph| !paragraph.is_empty())
            .flat_map(|paragraph| wrapped(paragraph, self.width - self.text));
        // A name may hold commas: each begins a line, with a word that says another one does.
        let listed = names.iter().enumerate().flat_map(|(n, name)| match n {
            0 => self.named(name),
            _ => self.named(&format!("{}{name}", self.joint)),
        });
        let mut names = listed.collect::<Vec<_>>().into_iter();
        let first = Line {
            before: names.next().unwrap_or_default(),
            status: Some(status),
            after: pad + &text.next().unwrap_or_default(),
        };
        let mut lines = vec![first];
        loop {
            let (name, text) = (names.next(), text.next());
            if name.is_none() && text.is_none() {
                return lines;
            }
            let name = name.unwrap_or_default();
            let text = text.unwrap_or_default();
            let line = format!("{name:<width$}{text}", width = self.text);
            lines.push(Line::plain(line.trim_end().to_owned()));
        }
    }

    /// A heading and text behind it, below the rows.
    fn aside(self, heading: &str, text: &str) -> Vec<Line> {
        let mut lines = wrapped(text, self.width - ASIDE).into_iter();
        let first = format!("{heading:<ASIDE$}{}", lines.next().unwrap_or_default());
        let indent = " ".repeat(ASIDE);
        let more = lines.map(|line| Line::plain(format!("{indent}{line}")));
        std::iter::once(Line::plain(first)).chain(more).collect()
    }
}

/// `1 part fails`, `2 parts fail`, by the number of them.
fn counted(count: usize, one: &str, many: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        count => format!("{count} {many}"),
    }
}

/// `2 fail, 1 depends`, by how many there are of each severity; nothing of none.
fn tally(severities: impl Iterator<Item = u8>) -> String {
    let all: Vec<u8> = severities.collect();
    let count = |severity: u8| all.iter().filter(|one| **one == severity).count();
    let words = [
        (2, "fail", "fails"),
        (1, "depend", "depends"),
        (0, "pass", "passes"),
    ];
    let told = words
        .into_iter()
        .filter_map(|(severity, many, one)| match count(severity) {
            0 => None,
            1 => Some(format!("1 {one}")),
            count => Some(format!("{count} {many}")),
        });
    told.collect::<Vec<_>>().join(", ")
}

/// How the variants come out, whole projects each, and the command that shows them. Where all fail as what
/// is drawn does, `compare` has no more to say than what stands here to be done.
fn variants(study: &Study<'_>, parts: &[Part<'_>], file: &str) -> Option<String> {
    let worst = |parts: &[Part<'_>]| {
        let all = parts.iter().map(|part| part.status.severity());
        all.max().unwrap_or_default()
    };
    let options = study.options();
    let variants = options.iter().skip(1);
    let severities: Vec<u8> = variants
        .map(|variant| worst(&study.parts(*variant)))
        .collect();
    let told = tally(severities.iter().copied());
    let all_fail = worst(parts) == 2 && severities.iter().all(|severity| *severity == 2);
    match (severities.is_empty(), all_fail) {
        (true, _) => None,
        (false, true) => Some(format!("{told} too")),
        (false, false) => Some(format!("{told}: dewmargin compare {file}")),
    }
}
