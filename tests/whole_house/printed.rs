//! What is printed can be redone on a calculator from the print alone.

use crate::support::{run, stdout};

/// The lines of a table that starts with a heading, up to the next empty line.
fn table(text: &str, heading: &str) -> Vec<String> {
    let lines = text
        .lines()
        .skip_while(|line| !line.trim_start().starts_with(heading));
    let lines: Vec<String> = lines
        .take_while(|line| !line.is_empty())
        .map(str::to_owned)
        .collect();
    assert!(lines.len() > 2, "no table `{heading}`");
    lines
}

/// `99-3/4 in`, `5.519 in`, `2571.8 mm` as a number.
fn length(text: &str) -> f64 {
    let text = text.trim().trim_end_matches(" in").trim_end_matches(" mm");
    let minus = text.starts_with('−');
    let text = text.trim_start_matches('−');
    let value = match text.split_once('/') {
        None => text.parse().expect("a number"),
        Some((before, under)) => {
            let (whole, over) = before.split_once('-').unwrap_or(("0", before));
            let [whole, over, under]: [f64; 3] =
                [whole, over, under].map(|part| part.parse().expect("a number"));
            whole + over / under
        }
    };
    if minus { -value } else { value }
}

fn last_cell(line: &str) -> &str {
    line.trim_end().rsplit("  ").next().expect("a cell")
}

/// Every measure adds up from its printed terms to its printed sum.
#[test]
fn measures_add_up() {
    for (units, rounding) in [("imperial", 0.0005), ("metric", 0.05)] {
        let text = stdout(&run(&["house", "cabin-fit.yaml", "--units", units]));
        for heading in [
            "overall width",
            "overall height",
            "overall length",
            "head room, at",
        ] {
            let lines = table(&text, heading);
            let end = lines.iter().position(|line| line.contains("together"));
            let end = end.expect("a sum");
            let sum: f64 = lines[1..end]
                .iter()
                .map(|line| length(last_cell(line)))
                .sum();
            let told = length(last_cell(&lines[end]));
            let allowed = rounding * end as f64;
            assert!(
                (sum - told).abs() <= allowed,
                "{units}, {heading}: {sum}, {told}"
            );
        }
    }
}

/// The numbers of a line behind its name, units and percent signs left out.
fn numbers(line: &str) -> Vec<f64> {
    let cells = line
        .trim()
        .split("  ")
        .map(str::trim)
        .filter(|cell| !cell.is_empty());
    let number = |cell: &str| {
        let first = cell.split(' ').next()?.trim_start_matches('≥');
        let is_length = cell.ends_with(" in") || cell.ends_with(" mm");
        if is_length {
            Some(length(cell))
        } else {
            first.parse().ok()
        }
    };
    cells.skip(1).filter_map(number).collect()
}

/// Weight = thickness × density × share × area; the printed parts give the printed weight.
#[test]
fn weights_can_be_redone() {
    let text = stdout(&run(&["house", "cabin-fit.yaml"]));
    let lines = table(&text, "weight  ");
    let by_density: Vec<&String> = lines
        .iter()
        .filter(|line| line.contains("lb/ft³ "))
        .collect();
    assert!(by_density.len() > 10);
    for line in &by_density[1..] {
        let [thickness, density, share, area, told] = numbers(line)[..] else {
            panic!("{line}")
        };
        let pounds = thickness / 12.0 * density * share / 100.0 * area;
        // Thickness to 0.0005 in, density to 0.005, share to 0.05 %, area to 0.05 ft².
        let part = 0.0005 / thickness + 0.005 / density + 0.05 / share + 0.05 / area;
        assert!(
            (pounds - told).abs() <= pounds * part + 0.05,
            "{line}: {pounds}"
        );
    }
}

/// Heat loss = size × transmittance, and its parts add up.
#[test]
fn heat_losses_can_be_redone() {
    for units in ["imperial", "metric"] {
        let text = stdout(&run(&["house", "cabin-fit.yaml", "--units", units]));
        let lines = table(&text, "heat loss  ");
        let end = lines
            .iter()
            .position(|line| line.contains("together"))
            .expect("a sum");
        let mut sum = 0.0;
        for line in &lines[1..end] {
            let found = numbers(line);
            let (size, value) = (found[0], found[1]);
            // A missing error bar is a dash, no number.
            let dash = line.contains("  -  ");
            let told = if dash { found[2] } else { found[3] };
            let rounding = size * 0.000_5 + value * 0.05 + 0.005;
            assert!((size * value - told).abs() <= rounding, "{line}");
            sum += told;
        }
        let total = numbers(&lines[end]);
        assert!(
            (sum - total[1]).abs() <= 0.005 * end as f64,
            "{sum}, {total:?}"
        );
    }
}
