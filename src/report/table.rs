//! Plain-text tables, no wider than a terminal.

use super::path_table::short;

/// Rows of cells under a header; the first column is set left, the others right.
pub(super) struct Table {
    header: Vec<String>,
    rows: Vec<Vec<String>>,
    left: usize,
    /// What a name in the first column is cut to on a terminal, characters.
    widest: Option<usize>,
}

impl Table {
    /// A table whose first `left` columns are set left.
    pub(super) fn new(header: &[&str], left: usize) -> Self {
        Self {
            header: header.iter().map(|cell| (*cell).to_owned()).collect(),
            rows: Vec::new(),
            left,
            widest: None,
        }
    }

    /// The same, names in the first column cut to so many characters on a terminal.
    pub(super) fn names_within(self, width: usize) -> Self {
        Self {
            widest: Some(width),
            ..self
        }
    }

    /// The headings.
    pub(super) fn header(&self) -> &[String] {
        &self.header
    }

    /// The rows, names whole.
    pub(super) fn rows(&self) -> &[Vec<String>] {
        &self.rows
    }

    /// How many columns are set left.
    pub(super) fn left(&self) -> usize {
        self.left
    }

    pub(super) fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// The table with each line behind an indent.
    pub(super) fn render(&self, indent: &str) -> String {
        let rows: Vec<Vec<String>> = self.rows.iter().map(|row| self.cut(row)).collect();
        let lines = || std::iter::once(&self.header).chain(&rows);
        let width = |column: usize| {
            lines()
                .filter_map(|row| row.get(column))
                .map(|cell| cell.chars().count())
                .max()
                .unwrap_or(0)
        };
        let widths: Vec<usize> = (0..self.header.len()).map(width).collect();
        let cell = |(column, cell): (usize, &String)| {
            let pad = " ".repeat(widths[column] - cell.chars().count().min(widths[column]));
            if column < self.left {
                format!("{cell}{pad}")
            } else {
                format!("{pad}{cell}")
            }
        };
        let line = |row: &Vec<String>| {
            let cells: Vec<String> = row.iter().enumerate().map(cell).collect();
            format!("{indent}{}\n", cells.join("  ").trim_end())
        };
        lines().map(line).collect()
    }

    /// A row with its name cut.
    fn cut(&self, row: &[String]) -> Vec<String> {
        let mut row = row.to_vec();
        if let (Some(name), Some(width)) = (row.first_mut(), self.widest) {
            *name = short(name, width);
        }
        row
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
