//! A table with its caption, every heading tied to its rows and columns.

use maud::{Markup, html};

use super::super::content::Table;
use super::typed;

/// A row's name with the rows that it stands for.
type Named<'t> = (&'t str, &'t [Vec<String>]);

/// The table in a frame of its own that scrolls where the page is narrower. The caption stays
/// unseen where a heading above says the same.
pub(super) fn table(table: &Table, caption: &str, seen: bool) -> Markup {
    html! {
        div.scroll role="group" tabindex="0" aria-label={ "Table: " (typed(caption)) } {
            table {
                caption.unseen[!seen] { bdi { (typed(caption)) } }
                thead { tr {
                    @for (n, words) in table.headings.iter().enumerate() { (heading(table, n, words)) }
                } }
                @for (name, rows) in named(&table.rows) {
                    tbody { (body(table, name, rows)) }
                }
            }
        }
    }
}

/// A column's heading, on lines as it is told; a corner without words is none.
fn heading(table: &Table, n: usize, words: &str) -> Markup {
    html! {
        @if words.is_empty() {
            td {}
        } @else {
            th scope="col" class=[number(table, n)] {
                @for (n, line) in words.lines().enumerate() {
                    @if n > 0 { br; }
                    bdi { (typed(line)) }
                }
            }
        }
    }
}

fn body(table: &Table, name: &str, rows: &[Vec<String>]) -> Markup {
    let (scope, span) = match rows.len() {
        1 => ("row", None),
        count => ("rowgroup", Some(count)),
    };
    html! {
        @for (n, row) in rows.iter().enumerate() {
            tr {
                @if n == 0 { th scope=(scope) rowspan=[span] { bdi { (typed(name)) } } }
                @for (n, cell) in row.iter().enumerate().skip(1) {
                    td class=[number(table, n)] { @if !cell.is_empty() { bdi { (typed(cell)) } } }
                }
            }
        }
    }
}

/// Numbers end at the right.
fn number(table: &Table, n: usize) -> Option<&'static str> {
    (n >= table.left).then_some("number")
}

/// Rows by their first cell; where that is empty a row belongs to the one above.
fn named(rows: &[Vec<String>]) -> Vec<Named<'_>> {
    let name = |row: &'_ Vec<String>| row.first().is_some_and(|name| !name.is_empty());
    let mut starts: Vec<usize> = (0..rows.len())
        .filter(|n| *n == 0 || name(&rows[*n]))
        .collect();
    starts.push(rows.len());
    let parts = starts.windows(2).map(|ends| &rows[ends[0]..ends[1]]);
    let named = parts.map(|part| (part[0].first().map_or("", String::as_str), part));
    named.collect()
}
