//! The packet's PDF under tools from outside, and measured: skipped, with a word, where a tool
//! isn't installed.

use std::fs;
use std::path::Path;
use std::process::Command;

use rstest::rstest;

use super::cabin;
use crate::figures::pdf::{GRID, rectangles};
use crate::support::program;

fn made(folder: &Path, more: &[&str]) {
    let mut command = program(".");
    let done = command
        .arg("packet")
        .arg(cabin())
        .arg("-o")
        .arg(folder)
        .args(more);
    assert!(done.status().expect("it runs").success());
}

/// The text of the bound file; `None` where there is no tool to read it.
fn text(folder: &Path) -> Option<String> {
    let bound = folder.join("fern-hollow-cabin-packet.pdf");
    let run = Command::new("pdftotext")
        .arg("-raw")
        .arg(bound)
        .arg("-")
        .output();
    let Ok(output) = run else {
        eprintln!("skipped: `pdftotext` isn't installed");
        return None;
    };
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    Some(text.split_whitespace().collect::<Vec<_>>().join(" "))
}

#[test]
fn every_layer_and_its_values_are_found_by_search() {
    let folder = tempfile::tempdir().expect("a folder");
    made(folder.path(), &[]);
    let Some(text) = text(folder.path()) else {
        return;
    };
    assert!(text.contains("subfloor"));
    // Names of the file, then thickness, R, m²K/W, perm, ng/(s·m²·Pa), class of the subfloor:
    // 3/4 in over 0.1150 W/mK, and 0.99 perm-in over 3/4 in, by hand.
    let project = dewmargin::input::read_project(&cabin()).expect("read");
    for layer in project.cases.iter().flat_map(|case| &case.assembly.layers) {
        assert!(text.contains(&layer.name), "{}", layer.name);
    }
    assert!(
        text.contains("3/4 in (19.0 mm) 0.94 0.166 1.32 75.6 II"),
        "{text}"
    );
    for words in [
        "Cedar",
        "A-5.01",
        "14 Sedge Lane",
        "IRC 2018 as amended locally",
        "2026-11-25",
    ] {
        assert!(text.contains(words), "{words}");
    }
    for claim in ["complies", "in compliance", "approved", "certified"] {
        assert!(!text.contains(claim), "{claim}");
    }
    assert!(text.contains("Not structural. Local codes govern; licensed practice"));
}

/// What one sheet's scale says, from the list of sheets: `3 in = 1 ft (1:4)` as 4.
fn ratio(svg: &str) -> f64 {
    let (_, rest) = svg.split_once(" (1:").expect("a scale");
    let (ratio, _) = rest.split_once(')').expect("a ratio");
    ratio.parse().expect("a number")
}

// The cabin's floor has a bay of 5-1/2 in and the rise of 1-1/2 in: 7 in of foam between lining
// and subfloor. Measured in the PDF's own operators, in points of 1/72 in.
#[rstest]
#[case("letter")]
#[case("11x17")]
#[case("24x36")]
#[case("A4")]
#[case("A3")]
#[case("A1")]
fn layers_are_as_thick_on_paper_as_the_scale_says(#[case] paper: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    made(folder.path(), &["--paper", paper, "--svg"]);
    let entries = fs::read_dir(folder.path()).expect("read");
    let names = entries.map(|entry| entry.expect("an entry").path());
    let mut floor: Vec<_> = names
        .filter(|path| path.extension().is_some_and(|end| end == "svg"))
        .filter(|path| {
            path.to_string_lossy().contains("-floor") && !path.to_string_lossy().contains("edge")
        })
        .collect();
    floor.sort();
    let svg = fs::read_to_string(&floor[0]).expect("read");
    let pdf = fs::read(floor[0].with_extension("pdf")).expect("read");
    let points = 72.0 * 7.0 / ratio(&svg);
    let drawn = rectangles(&pdf);
    let off = drawn.iter().map(|(_, high)| (high - points).abs());
    let least = off.fold(f64::INFINITY, f64::min);
    // The drawing's grid is at most 0.01 mm.
    assert!(least <= GRID, "{points} points, off by {least}");
}

#[test]
fn mono_sheets_have_black_and_white_only() {
    let folder = tempfile::tempdir().expect("a folder");
    made(folder.path(), &["--mono", "--svg", "--no-hatching"]);
    for entry in fs::read_dir(folder.path()).expect("read") {
        let path = entry.expect("an entry").path();
        if path.extension().is_none_or(|end| end != "svg") {
            continue;
        }
        let svg = fs::read_to_string(&path).expect("read");
        let colors = svg.split("=\"#").skip(1).map(|rest| &rest[..6]);
        for color in colors {
            assert!(
                ["000000", "ffffff"].contains(&color),
                "{color} in {}",
                path.display()
            );
        }
    }
}
