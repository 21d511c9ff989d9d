//! A detail in letters, for messages: where something is wrong.

use crate::model::detail::{Area, DetailParts};

/// Characters across, and lines with the key to the letters.
const COLUMNS: usize = 60;
const ROWS: usize = 16;
const KEY_LINES: usize = 6;
/// How much higher a character is than wide.
const ASPECT: f64 = 2.0;

/// What a sketch points at.
pub(super) enum Meant<'a> {
    /// The cut as a whole.
    All,
    /// A place, whatever lies there.
    Place(&'a Area),
    /// What nothing fills within a place.
    Nothing(&'a Area),
}

/// The cut as seen: a letter for each solid, `.` for air, `?` where nothing is, `#` at the place
/// that is meant. At most 24 lines of 60 characters.
pub(super) fn sketch(parts: &DetailParts, meant: &Meant<'_>) -> String {
    let (columns, rows) = size(parts);
    let (dx, dy) = (parts.width / columns as f64, parts.height / rows as f64);
    let mut shown: Vec<usize> = Vec::new();
    let mut cells: Vec<Vec<char>> = Vec::new();
    for row in (0..rows).rev() {
        let y = (row as f64 + 0.5) * dy;
        let line = (0..columns).map(|column| {
            let x = (column as f64 + 0.5) * dx;
            let seen = seen(parts, x, y, &mut shown);
            let is_meant = match meant {
                Meant::All => false,
                Meant::Place(area) => is_within(&at_least(area, dx, dy), x, y),
                Meant::Nothing(area) => seen == '?' && is_within(&at_least(area, dx, dy), x, y),
            };
            if is_meant { '#' } else { seen }
        });
        cells.push(line.collect());
    }
    // A gap too narrow to be seen is pointed at all the same.
    if let Meant::Nothing(area) = meant
        && !cells.iter().flatten().any(|cell| *cell == '#')
    {
        return sketch(parts, &Meant::Place(area));
    }
    let mut lines: Vec<String> = cells.iter().map(|line| line.iter().collect()).collect();
    lines.extend(key(parts, &cells, &shown));
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

/// An area, widened where it is narrower than a character.
fn at_least(area: &Area, wide: f64, high: f64) -> Area {
    let x = (wide - (area.right - area.left)).max(0.0) / 2.0;
    let y = (high - (area.top - area.bottom)).max(0.0) / 2.0;
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
fn key(parts: &DetailParts, cells: &[Vec<char>], shown: &[usize]) -> Vec<String> {
    let signs = [('#', "# here"), ('.', ". air"), ('?', "? nothing")];
    let occurs = |sign: char| cells.iter().flatten().any(|cell| *cell == sign);
    let fixed = signs.into_iter().filter(|(sign, _)| occurs(*sign));
    let fixed = fixed.map(|(_, words)| words.to_owned());
    let named = shown.iter().enumerate().map(|(at, n)| {
        let name: String = parts.blocks[*n].name.chars().take(24).collect();
        format!("{} {name}", letter(at))
    });
    let mut lines: Vec<String> = vec![String::new()];
    for word in fixed.chain(named) {
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
