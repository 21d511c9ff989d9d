//! A report before it is set: lines, paragraphs and tables, without a width.
//!
//! What is said is made once; how wide a line is, is for whoever prints it ([`Text::set`]).

use super::screen::{Row, set_rows};
use super::table::Table;

/// A report, block by block.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Text {
    blocks: Vec<Block>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Block {
    /// As it stands, whatever the width: a heading that a program finds, or YAML to be copied.
    Line(String),
    /// Broken at blanks, every line behind so many of them.
    Paragraph(usize, String),
    Table(usize, Table),
    /// Names, each with its verdict and what was found.
    Rows(Vec<Row>),
}

impl Text {
    /// A line that is never broken.
    pub(super) fn line(&mut self, line: impl Into<String>) {
        self.blocks.push(Block::Line(line.into()));
    }

    /// An empty line.
    pub(super) fn blank(&mut self) {
        self.line("");
    }

    /// A paragraph behind so many blanks; nothing where there are no words.
    pub(super) fn say(&mut self, indent: usize, words: impl Into<String>) {
        let words = words.into();
        if !words.trim().is_empty() {
            self.blocks.push(Block::Paragraph(indent, words));
        }
    }

    /// Parts or options with their verdicts, as on the first screen.
    pub(super) fn rows(&mut self, rows: Vec<Row>) {
        self.blocks.push(Block::Rows(rows));
    }

    /// A table behind so many blanks.
    pub(super) fn table(&mut self, indent: usize, table: Table) {
        self.blocks.push(Block::Table(indent, table));
    }

    /// What to keep in mind, a paragraph each under one heading.
    pub(super) fn cautions<'c>(&mut self, cautions: impl IntoIterator<Item = &'c str>) {
        self.blank();
        self.line("cautions");
        for caution in cautions {
            self.say(2, format!("- {caution}"));
        }
    }

    /// Another text below this one.
    pub(super) fn add(&mut self, other: Self) {
        self.blocks.extend(other.blocks);
    }

    /// The text in lines of at most `width` characters: paragraphs are broken at blanks, tables give
    /// up the ends of long names and then go on below themselves. A single word or number that is wider
    /// stays whole.
    #[must_use]
    pub fn set(&self, width: usize) -> String {
        let set = |block: &Block| match block {
            Block::Line(line) => format!("{line}\n"),
            Block::Paragraph(indent, words) => wrap(words, &" ".repeat(*indent), width),
            Block::Table(indent, table) => table.set(*indent, width),
            Block::Rows(rows) => set_rows(rows, width),
        };
        self.blocks.iter().map(set).collect()
    }
}

/// The words of a text, a number kept together with its unit.
fn whole_quantities(text: &str) -> Vec<String> {
    let is_unit = |word: &str| {
        let bare = word.trim_matches(|c: char| matches!(c, ',' | '.' | ';' | ':' | ')' | ']'));
        bare.starts_with('°') || matches!(bare, "%" | "K" | "in" | "mm" | "lb/ft²" | "kg/m²")
    };
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let after_number = words
            .last()
            .is_some_and(|w| w.ends_with(|c: char| c.is_ascii_digit()));
        match words.last_mut() {
            Some(last) if after_number && is_unit(word) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// Breaks a text at blanks so that no line is wider than `width`, each behind an indent.
pub(super) fn wrap(text: &str, indent: &str, width: usize) -> String {
    let mut lines = vec![indent.to_owned()];
    for word in whole_quantities(text) {
        let line = lines.last_mut().filter(|line| {
            line.len() == indent.len() || line.chars().count() + 1 + word.chars().count() <= width
        });
        match line {
            Some(line) if line.len() == indent.len() => line.push_str(&word),
            Some(line) => {
                line.push(' ');
                line.push_str(&word);
            }
            None => lines.push(format!("{indent}{word}")),
        }
    }
    lines.join("\n") + "\n"
}

/// A name cut to a column's width.
pub(super) fn short(name: &str, width: usize) -> String {
    if name.chars().count() <= width {
        return name.to_owned();
    }
    name.chars().take(width - 1).chain(['…']).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wide(columns: usize) -> Table {
        let names: Vec<String> = (0..columns).map(|n| format!("column {n}")).collect();
        let header: Vec<&str> = std::iter::once("")
            .chain(names.iter().map(String::as_str))
            .collect();
        let mut table = Table::new(&header, 1);
        let name = "a layer whose name is longer than any column could be".to_owned();
        let cells = (0..columns).map(|n| n.to_string());
        table.row(std::iter::once(name).chain(cells).collect());
        table
    }

    #[test]
    fn no_line_is_wider_than_asked_for_and_no_column_is_lost() {
        let mut text = Text::default();
        text.say(4, "words ".repeat(60));
        text.table(2, wide(12));
        for width in [60, 80, 100] {
            let set = text.set(width);
            assert!(
                set.lines().all(|line| line.chars().count() <= width),
                "{set}"
            );
            let told = (0..12).filter(|n| set.contains(&format!("column {n}")));
            assert_eq!(told.count(), 12, "{set}");
        }
    }

    #[test]
    fn names_give_way_before_a_table_goes_on_below() {
        let mut text = Text::default();
        text.table(2, wide(4));
        let rows = |width| text.set(width).lines().count();
        assert_eq!([100, 80, 60, 40].map(rows), [2, 2, 2, 11]);
        assert!(
            text.set(80)
                .contains("a layer whose name is longer than any…")
        );
    }

    #[test]
    fn a_cell_is_never_cut_and_a_long_heading_is() {
        let psi = "0.0776 ± 0.0002 Btu/h·ft·°F (0.1343 ± 0.0003 W/mK)";
        let mut table = Table::new(&["", &"a site ".repeat(20), "psi"], 1);
        table.row(vec!["edge".into(), "+1.0".into(), psi.into()]);
        let set = table.set(2, 60);
        assert!(set.contains(psi), "{set}");
        assert!(set.contains("a site a site") && set.contains('…'), "{set}");
    }

    #[test]
    fn a_number_stays_with_its_unit() {
        assert_eq!(
            wrap("it is 54.1 °F there", "", 10),
            "it is\n54.1 °F\nthere\n"
        );
    }
}
