//! A plan reviewer with a pocket calculator: every plane temperature of the printed tables from
//! the printed resistances alone.
//!
//! Source: one-dimensional steady conduction, ISO 6946 clause 6.7.1 (resistances in series, from
//! memory): the drop across each layer is its share of the total resistance.

use crate::support::{run, stdout};

/// Half a digit of a printed temperature, °F.
const HALF_DIGIT: f64 = 0.05;
/// Half a digit of a printed resistance, h·ft²·°F/Btu.
const HALF_R: f64 = 0.005;

struct Row {
    name: String,
    resistance: f64,
    temperature: Option<f64>,
}

/// The rows of the tables, by the columns under the headings `R` and `°F`.
fn tables(text: &str) -> Vec<Vec<Row>> {
    let mut tables: Vec<Vec<Row>> = Vec::new();
    let mut columns = None;
    let mut by_detail = false;
    for line in text.lines() {
        let characters: Vec<char> = line.chars().collect();
        let ending = |heading: &str| {
            let at = line.find(heading)?;
            Some(line[..at].chars().count() + heading.chars().count())
        };
        // A strip that a detail shows has the detail's temperatures.
        by_detail |= line.contains("temperatures by the two-dimensional detail");
        if line.trim_start().starts_with("inside to outside") {
            let r = ending("  R").expect("a column of resistances");
            let name = line.find("inside").expect("a column of names");
            let degrees = ending("°F").expect("a column of temperatures");
            columns = Some((name, r, degrees));
            tables.push(Vec::new());
            continue;
        }
        let Some((name, r, degrees)) = columns else {
            continue;
        };
        let indented = line.starts_with(&" ".repeat(name)) && line.len() > name;
        if !indented {
            columns = None;
            continue;
        }
        let number = |end: usize| -> Option<f64> {
            let head: String = characters.get(..end)?.iter().collect();
            let word = head.rsplit(' ').next()?.replace('−', "-");
            word.parse().ok()
        };
        let words: String = characters[name..].iter().collect();
        tables.last_mut().expect("a table").push(Row {
            name: words.split("  ").next().unwrap_or_default().to_owned(),
            resistance: number(r).unwrap_or_else(|| panic!("a resistance in `{line}`")),
            temperature: number(degrees).filter(|_| !by_detail),
        });
        // The film on the outer side closes a table; remarks on the path may follow.
        if ["outdoor air film", "film to the gap"]
            .iter()
            .any(|film| words.contains(film))
        {
            columns = None;
            by_detail = false;
        }
    }
    tables
}

fn recompute(file: &str, indoor: f64, outdoor: f64) -> usize {
    let text = stdout(&run(&["check", file, "--units", "imperial"]));
    let mut checked = 0;
    for rows in tables(&text) {
        assert_eq!(rows[0].name, "room air film", "{file}");
        let last = &rows[rows.len() - 1].name;
        assert!(last.contains("film"), "{file}: {last}");
        let total: f64 = rows.iter().map(|row| row.resistance).sum();
        let slack = HALF_R * rows.len() as f64;
        let mut inner = 0.0;
        for row in &rows {
            inner += row.resistance;
            let Some(printed) = row.temperature else {
                continue;
            };
            let by_hand = indoor - (indoor - outdoor) * inner / total;
            // What the rounding of the printed resistances can move, then of the temperature.
            let digits = (indoor - outdoor).abs() * slack / total + HALF_DIGIT;
            let difference = (by_hand - printed).abs();
            assert!(
                difference <= digits + 1e-9,
                "{file}, {}: {by_hand} by hand, {printed} printed, {digits} of rounding",
                row.name
            );
            checked += 1;
        }
    }
    checked
}

#[test]
fn every_printed_temperature_follows_from_the_printed_resistances() {
    // Indoor and winter mean as the example files state them.
    assert!(recompute("cabin-floor.yaml", 68.0, 41.0) > 40);
    assert!(recompute("cabin-roof.yaml", 68.0, 41.0) > 8);
    assert!(recompute("cabin-wall.yaml", 68.0, 41.0) > 12);
}

/// The bare flange, worked by hand: 0.97 + 0.42 + 0.94 + 0.00 + 0.23 = 2.56; the plane under the
/// subfloor lies behind 2.33 of it: 68 − 27 × 2.33 / 2.56 = 43.4 °F.
#[test]
fn the_bare_flange_by_hand() {
    let text = stdout(&run(&[
        "check",
        "cabin-floor.yaml",
        "--variant",
        "as drawn",
    ]));
    let tables = tables(&text);
    let strip = tables
        .iter()
        .find(|rows| rows.iter().any(|row| row.name == "side flange"))
        .expect("the strip's table");
    let printed: Vec<f64> = strip.iter().map(|row| row.resistance).collect();
    assert_eq!(printed, [0.97, 0.42, 0.94, 0.0, 0.23]);
    assert!(text.contains("R 2.56 in all, films included"), "{text}");
    // The detail speaks for that plane; the strip alone is told beside it.
    let alone = "The side flange alone shows subfloor / side flange at 43.4 °F";
    assert!(crate::support::one_line(&text).contains(alone), "{text}");
}
