//! A detail in letters, for messages: where something is wrong.

use crate::model::detail::{Area, DetailParts};

/// Characters across, and lines with the key to the letters.
const COLUMNS: usize = 60;
const ROWS: usize = 16;
const KEY_LINES: usize = 6;
/// How much higher a character is than wide.
const ASPECT: f64 = 2.0;

/// The cut as seen: a letter for each solid, `.` for air, `?` where nothing is, `#` at the place
/// that is meant. At most 24 lines of 60 characters.
pub(super) fn sketch(parts: &DetailParts, meant: Option<&Area>) -> String {
    let (columns, rows) = size(parts);
    let cell = |n: usize, of: usize, size: f64| (n as f64 + 0.5) / of as f64 * size;
    let mut shown: Vec<usize> = Vec::new();
    let mut lines = Vec::new();
    for row in (0..rows).rev() {
        let y = cell(row, rows, parts.height);
        let line: String = (0..columns)
            .map(|column| {
                let x = cell(column, columns, parts.width);
                let near = |area: &Area| {
                    let (dx, dy) = (parts.width / columns as f64, parts.height / rows as f64);
                    is_within(&grown(area, dx / 2.0, dy / 2.0), x, y)
                };
                match meant {
                    Some(area) if near(area) => '#',
                    _ => seen(parts, x, y, &mut shown),
                }
            })
            .collect();
        lines.push(line.trim_end().to_owned());
    }
    lines.push(String::new());
    lines.extend(key(parts, meant.is_some(), &shown));
    format!("where it is:\n{}", lines.join("\n"))
}

/// Columns and rows that keep the cut's shape.
fn size(parts: &DetailParts) -> (usize, usize) {
    let shape = parts.height / parts.width / ASPECT;
    let rows = (COLUMNS as f64 * shape).round();
    if rows <= ROWS as f64 {
        return (COLUMNS, (rows as usize).max(3));
    }
    let columns = (ROWS as f64 / shape).round() as usize;
    (columns.clamp(6, COLUMNS), ROWS)
}

fn grown(area: &Area, x: f64, y: f64) -> Area {
    Area::new(area.left - x, area.right + x, area.bottom - y, area.top + y)
}

fn is_within(area: &Area, x: f64, y: f64) -> bool {
    (area.left..area.right).contains(&x) && (area.bottom..area.top).contains(&y)
}

/// What is seen at a point; a solid gets the next letter when it is first met.
fn seen(parts: &DetailParts, x: f64, y: f64, shown: &mut Vec<usize>) -> char {
    let mut blocks = parts.blocks.iter().enumerate().rev();
    if let Some((n, _)) = blocks.find(|(_, block)| is_within(&block.area, x, y)) {
        let at = shown.iter().position(|one| *one == n).unwrap_or_else(|| {
            shown.push(n);
            shown.len() - 1
        });
        return letter(at);
    }
    let is_air = parts
        .regions
        .iter()
        .any(|region| is_within(&region.area, x, y));
    if is_air { '.' } else { '?' }
}

fn letter(n: usize) -> char {
    let letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    letters.chars().nth(n).unwrap_or('*')
}

/// What the characters mean, in lines that fit.
fn key(parts: &DetailParts, marks: bool, shown: &[usize]) -> Vec<String> {
    let here = marks.then(|| "# here".to_owned());
    let fixed = [". air".to_owned(), "? nothing".to_owned()];
    let named = shown.iter().enumerate().map(|(at, n)| {
        let name: String = parts.blocks[*n].name.chars().take(24).collect();
        format!("{} {name}", letter(at))
    });
    let mut lines: Vec<String> = vec![String::new()];
    for word in here.into_iter().chain(fixed).chain(named) {
        let last = lines
            .last_mut()
            .filter(|line| line.chars().count() + word.chars().count() + 3 <= COLUMNS);
        match last {
            Some(line) if line.is_empty() => *line = word,
            Some(line) => *line = format!("{line}   {word}"),
            None => lines.push(word),
        }
    }
    if lines.len() > KEY_LINES {
        lines.truncate(KEY_LINES - 1);
        lines.push("and others".into());
    }
    lines
}
