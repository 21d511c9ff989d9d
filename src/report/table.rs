//! Tables: rows of cells under headings, for terminal, sheet and page alike.

use super::text::short;

/// Characters of a name that can still be told from others; it gets more where the line has room.
const LEAST_NAME: usize = 16;
/// Characters of a name that are shown at most where the columns don't fit into one line.
const MOST_NAME: usize = 40;
/// Blanks between two columns.
const BETWEEN: usize = 2;

/// Rows under headings; the first column takes the width that the others leave.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Table {
    /// The headings; after `\n` a second line, where there is room for one.
    pub(super) headings: Vec<String>,
    /// How many columns from the left are set to the left.
    pub(super) left: usize,
    /// The rows; cells that one lacks at its end stay empty.
    pub(super) rows: Vec<Vec<String>>,
}

impl Table {
    /// A table whose first `left` columns are set left.
    pub(super) fn new<Cell: AsRef<str>>(headings: &[Cell], left: usize) -> Self {
        Self {
            headings: headings
                .iter()
                .map(|cell| cell.as_ref().to_owned())
                .collect(),
            rows: Vec::new(),
            left,
        }
    }

    /// Adds a row.
    pub(super) fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// The table behind so many blanks in lines of at most `width` characters, where its cells allow:
    /// long names in the first column are cut, and what has no room goes on below, names again in front.
    pub(super) fn set(&self, indent: usize, width: usize) -> String {
        let most = width.saturating_sub(indent + LEAST_NAME + BETWEEN).max(1);
        // Headings may be names of the file's; a cell isn't cut, since it would lose its number's end.
        let heading = |n: usize| self.headings_in_a_line()[n].chars().count().min(most);
        let others = (1..self.headings.len()).map(|n| self.widest_cell(n).max(heading(n)));
        let others: Vec<usize> = others.collect();
        let beside: usize = others.iter().map(|width| width + BETWEEN).sum();
        let room = width.saturating_sub(indent + beside);
        let widest = others.iter().copied().max().unwrap_or(0);
        let name = match room {
            ..LEAST_NAME => {
                let beside_widest = width.saturating_sub(indent + BETWEEN + widest);
                self.widest_name()
                    .min(MOST_NAME)
                    .min(beside_widest.max(LEAST_NAME))
            }
            room => self.widest_name().min(room),
        };
        let mut blocks: Vec<Vec<(usize, usize)>> = vec![vec![(0, name)]];
        let mut used = indent + name;
        for (n, width_of) in (1..).zip(others) {
            if used + BETWEEN + width_of > width && blocks.last().is_some_and(|it| it.len() > 1) {
                blocks.push(vec![(0, name)]);
                used = indent + name;
            }
            used += BETWEEN + width_of;
            if let Some(block) = blocks.last_mut() {
                block.push((n, width_of));
            }
        }
        let set = blocks.iter().map(|columns| self.block(columns, indent));
        set.collect::<Vec<String>>().join("\n")
    }

    /// Some of the columns, each with its width.
    fn block(&self, columns: &[(usize, usize)], indent: usize) -> String {
        let cell = |row: &[String], (n, width): (usize, usize)| {
            let cell = short(row.get(n).map_or("", String::as_str), width);
            let pad = " ".repeat(width - cell.chars().count());
            match n < self.left {
                true => format!("{cell}{pad}"),
                false => format!("{pad}{cell}"),
            }
        };
        let line = |row: &Vec<String>| {
            let cells: Vec<String> = columns.iter().map(|column| cell(row, *column)).collect();
            let line = format!("{}{}", " ".repeat(indent), cells.join("  "));
            format!("{}\n", line.trim_end())
        };
        let headings = self.headings_in_a_line();
        std::iter::once(&headings)
            .chain(&self.rows)
            .map(line)
            .collect()
    }

    fn headings_in_a_line(&self) -> Vec<String> {
        let in_a_line = |words: &String| words.replace('\n', " ");
        self.headings.iter().map(in_a_line).collect()
    }

    /// The widest name in the first column, its heading's too, characters.
    fn widest_name(&self) -> usize {
        let heading = self
            .headings_in_a_line()
            .first()
            .map(|it| it.chars().count());
        self.widest_cell(0).max(heading.unwrap_or(0))
    }

    fn widest_cell(&self, column: usize) -> usize {
        let cells = self.rows.iter().filter_map(|row| row.get(column));
        let widths = cells.map(|cell| cell.chars().count());
        widths.max().unwrap_or(0)
    }
}
