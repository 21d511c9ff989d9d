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

/// Sets a table; its headings are said again wherever it goes on. Where rows share a name and there is
/// little room, the name stands over them.
pub(super) fn set<'a>(table: &Table, width: i32) -> Vec<Piece<'a>> {
    let shares_names = table.rows.iter().any(|row| is_unnamed(row));
    match shares_names && !fits(table, width) {
        true => set_under_names(table, width),
        false => set_in_columns(table, width),
    }
}

/// The rows of every name under it, without the column of names.
fn set_under_names<'a>(table: &Table, width: i32) -> Vec<Piece<'a>> {
    let mut rest = Table::new(&table.headings[1..], table.left.saturating_sub(1));
    rest.rows = table.rows.iter().map(|row| row[1..].to_vec()).collect();
    let columns = columns(&rest, width);
    let head = Rc::new(heading(&rest, &columns));
    let mut pieces: Vec<Piece<'a>> = head.iter().cloned().map(Piece::kept).collect();
    let bold = Lettering::PLAIN.bold();
    for (n, (row, named)) in rest.rows.iter().zip(&table.rows).enumerate() {
        let name = (!is_unnamed(named)).then(|| vec![(0, bold.fit(&named[0], width), bold)]);
        let goes_on = table.rows.get(n + 1).is_some_and(|row| is_unnamed(row));
        let lines: Vec<_> = name
            .into_iter()
            .chain(row_lines(row, rest.left, &columns))
            .collect();
        let count = lines.len();
        for (line, words) in lines.into_iter().enumerate() {
            let mut piece = Piece::row(words);
            piece.keep = line + 1 < count || goes_on;
            piece.head = (n > 0 || line > 0).then(|| Rc::clone(&head));
            pieces.push(piece);
        }
    }
    pieces
}

fn set_in_columns<'a>(table: &Table, width: i32) -> Vec<Piece<'a>> {
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

fn is_unnamed(row: &[String]) -> bool {
    row.len() > 1 && row[0].is_empty()
}

/// Whether a table can be read in a width: its columns at the left needn't be broken into more than
/// two lines or so.
pub(super) fn fits(table: &Table, width: i32) -> bool {
    let widths = natural_widths(table);
    let gaps = i32::try_from(widths.len().saturating_sub(1)).unwrap_or(0);
    let least = widths
        .iter()
        .enumerate()
        .map(|(n, wide)| match n < table.left {
            true => (wide * 8 / 10).max(least_width(table, n)).min(*wide),
            false => *wide,
        });
    least.sum::<i32>() + gaps * APART.0 <= width
}

/// A column at the left gets no narrower: its heading isn't broken.
fn least_width(table: &Table, n: usize) -> i32 {
    let lines = table.headings[n].split('\n');
    let widest = lines.map(|words| Lettering::PLAIN.width(words)).max();
    widest.unwrap_or(0).max(NARROWEST)
}

/// How wide every column is where nothing is broken.
fn natural_widths(table: &Table) -> Vec<i32> {
    let natural = |n: usize| {
        let heading = table.headings[n].split('\n');
        let cells = table.rows.iter().filter_map(|row| row.get(n));
        let words = heading.chain(cells.map(String::as_str));
        words
            .map(|words| Lettering::PLAIN.width(words))
            .max()
            .unwrap_or(0)
    };
    (0..table.headings.len()).map(natural).collect()
}

fn columns(table: &Table, width: i32) -> Vec<Column> {
    let mut widths = natural_widths(table);
    let count = widths.len();
    let gaps = i32::try_from(count.saturating_sub(1)).unwrap_or(0);
    let over = |widths: &[i32]| widths.iter().sum::<i32>() + gaps * APART.0 - width;
    // The widest of the columns at the left gives way first.
    while over(&widths) > 0 {
        let gives = |n: &usize| widths[*n] > least_width(table, *n);
        let left = (0..table.left.min(count)).filter(gives);
        let Some(widest) = left.max_by_key(|n| widths[*n]) else {
            break;
        };
        let less = widths[widest] - over(&widths).min(400);
        widths[widest] = less.max(least_width(table, widest));
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
