//! A table set in a width: columns as wide as their words, those at the left broken where needed.

use std::rc::Rc;

use super::super::lettering::wrap;
use super::super::sheet::{GRAY, Lettering, SIZE};
use super::piece::Piece;
use crate::report::packet::Table;

/// The least and the most between two columns.
const APART: (i32, i32) = (260, 900);
/// No column at the left gets narrower than this.
const NARROWEST: i32 = 2200;

/// A table of so few rows isn't parted.
const SMALL: usize = 14;

/// A column's left and right edge.
type Column = (i32, i32);

/// Sets a table; its headings are said again wherever it goes on.
pub(super) fn set<'a>(table: &Table, width: i32) -> Vec<Piece<'a>> {
    let columns = columns(table, width);
    let head = Rc::new(heading(table, &columns));
    let mut pieces: Vec<Piece<'a>> = head.iter().cloned().map(Piece::kept).collect();
    let small = table.rows.len() <= SMALL;
    for (n, row) in table.rows.iter().enumerate() {
        let lines = row_lines(row, table.left, &columns);
        let count = lines.len();
        for (line, words) in lines.into_iter().enumerate() {
            let mut piece = Piece::row(words);
            piece.keep = line + 1 < count || small && n + 1 < table.rows.len();
            // Nothing has to be said again before the first row.
            piece.head = (n > 0 || line > 0).then(|| Rc::clone(&head));
            pieces.push(piece);
        }
    }
    pieces
}

fn columns(table: &Table, width: i32) -> Vec<Column> {
    let count = table.headings.len();
    let natural = |n: usize| {
        let heading = table.headings[n].split('\n');
        let cells = table.rows.iter().filter_map(|row| row.get(n));
        let words = heading.chain(cells.map(String::as_str));
        words
            .map(|words| Lettering::PLAIN.width(words))
            .max()
            .unwrap_or(0)
    };
    let mut widths: Vec<i32> = (0..count).map(natural).collect();
    let gaps = i32::try_from(count.saturating_sub(1)).unwrap_or(0);
    let over = |widths: &[i32]| widths.iter().sum::<i32>() + gaps * APART.0 - width;
    // The widest of the columns at the left gives way first.
    while over(&widths) > 0 {
        let left = 0..table.left.min(count);
        let Some(widest) = left.max_by_key(|n| widths[*n]) else {
            break;
        };
        if widths[widest] <= NARROWEST {
            break;
        }
        widths[widest] = (widths[widest] - over(&widths).min(400)).max(NARROWEST);
    }
    let free = -over(&widths);
    let apart = (APART.0 + free / gaps.max(1)).clamp(APART.0, APART.1);
    let mut x = 0;
    let edges = widths.into_iter().map(|wide| {
        let column = (x, x + wide);
        x += wide + apart;
        column
    });
    edges.collect()
}

/// The headings' lines, the last ones of all columns at one height, and a line under them.
fn heading<'a>(table: &Table, columns: &[Column]) -> Vec<Piece<'a>> {
    let gray = Lettering::PLAIN.color(GRAY);
    let lines: Vec<Vec<&str>> = table
        .headings
        .iter()
        .map(|words| words.split('\n').collect())
        .collect();
    let most = lines.iter().map(Vec::len).max().unwrap_or(1);
    let mut pieces: Vec<Piece<'a>> = (0..most)
        .map(|line| {
            let words = lines.iter().zip(columns).enumerate();
            let words = words.filter_map(|(n, (heading, column))| {
                let line = (line + heading.len()).checked_sub(most)?;
                Some(cell(
                    n,
                    table.left,
                    *column,
                    (*heading.get(line)?).to_owned(),
                    gray,
                ))
            });
            Piece::row(words.collect())
        })
        .collect();
    pieces.push(Piece::rule());
    pieces
}

/// The lines of a row: cells at the left are broken, the others stand on the first line.
fn row_lines(
    row: &[String],
    left: usize,
    columns: &[Column],
) -> Vec<Vec<(i32, String, Lettering)>> {
    let plain = Lettering::PLAIN;
    let mut lines: Vec<Vec<(i32, String, Lettering)>> = vec![Vec::new()];
    for (n, (words, column)) in row.iter().zip(columns).enumerate() {
        if n >= left {
            lines[0].push(cell(n, left, *column, words.clone(), plain));
            continue;
        }
        for (line, words) in wrap(words, SIZE, false, column.1 - column.0)
            .into_iter()
            .enumerate()
        {
            if lines.len() <= line {
                lines.push(Vec::new());
            }
            lines[line].push(cell(n, left, *column, words, plain));
        }
    }
    lines
}

fn cell(
    n: usize,
    left: usize,
    (from, to): Column,
    words: String,
    set: Lettering,
) -> (i32, String, Lettering) {
    match n < left {
        true => (from, words, set),
        false => (to, words, set.right()),
    }
}
