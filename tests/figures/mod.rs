//! The plots of every example but two are committed in `plots/`; drawing them again
//! gives the same bytes.
//!
//! `UPDATE=1 cargo test figures` draws them anew.
#![allow(clippy::unwrap_used)]

pub(crate) mod pdf;
mod pdf_tools;

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

use dewmargin::report::figure;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Examples whose plain plots aren't committed: of the whole project its sheets are, and the others
/// ask for thicknesses, fit and weight, not for drawings.
const NOT_DRAWN: [&str; 4] = [
    "cabin.yaml",
    "cabin-fit.yaml",
    "cabin-size.yaml",
    "cabin-sweep.yaml",
];
/// Committed, and drawn by another command: `tests/sweep` holds it.
const OF_A_SWEEP: &str = "cabin-sweep.svg";

/// Draws those examples into a folder and returns the files' names.
fn draw_examples(folder: &Path, options: &[&str]) -> BTreeSet<String> {
    let mut examples: Vec<_> = fs::read_dir(root().join("examples"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "yaml")
        })
        .filter(|path| !NOT_DRAWN.iter().any(|name| path.ends_with(name)))
        .collect();
    examples.sort();
    assert!(!examples.is_empty());
    for example in examples {
        let done = Command::new(env!("CARGO_BIN_EXE_dewmargin"))
            .arg("plot")
            .arg(&example)
            .arg("-o")
            .arg(folder)
            .args(options)
            .output()
            .unwrap();
        assert!(
            done.status.success(),
            "{}",
            String::from_utf8_lossy(&done.stderr)
        );
    }
    names(folder)
}

fn names(folder: &Path) -> BTreeSet<String> {
    let name = |entry: fs::DirEntry| entry.file_name().to_string_lossy().into_owned();
    fs::read_dir(folder)
        .unwrap()
        .map(|entry| name(entry.unwrap()))
        // The lists of what belongs together aren't drawings.
        .filter(|name| !name.ends_with("-pictures.txt"))
        .collect()
}

/// Draws the sheets of the whole project into a folder, as `packet-A-5.01-floor.svg`, and returns
/// the files' names.
fn draw_sheets(folder: &Path) -> BTreeSet<String> {
    let whole = tempfile::tempdir().unwrap();
    let done = Command::new(env!("CARGO_BIN_EXE_dewmargin"))
        .args(["packet", "--svg", "-o"])
        .arg(whole.path())
        .arg(root().join("examples/cabin.yaml"))
        .output()
        .unwrap();
    let told = String::from_utf8_lossy(&done.stderr).into_owned();
    assert!(done.status.success(), "{told}");
    let is_sheet = |name: &String| name.ends_with(".svg");
    let sheets = names(whole.path()).into_iter().filter(is_sheet);
    let drawn = sheets.map(|name| {
        // The number that keeps the packet's order says nothing here.
        let (_, own) = name.split_once('-').unwrap();
        let to = format!("packet-{own}");
        fs::copy(whole.path().join(&name), folder.join(&to)).unwrap();
        to
    });
    drawn.collect()
}

#[test]
fn committed_plots_are_what_the_program_draws() {
    let plots = root().join("plots");
    if std::env::var_os("UPDATE").is_some() {
        draw_examples(&plots, &[]);
        draw_sheets(&plots);
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let mut drawn = draw_examples(folder.path(), &[]);
    drawn.extend(draw_sheets(folder.path()));
    let committed = names(&plots);
    let committed: BTreeSet<String> = committed
        .into_iter()
        .filter(|name| name != OF_A_SWEEP)
        .collect();
    assert_eq!(
        drawn, committed,
        "plots/ holds other files than the examples give"
    );
    for name in drawn {
        let ours = fs::read_to_string(folder.path().join(&name)).unwrap();
        let committed = fs::read_to_string(plots.join(&name)).unwrap();
        assert!(
            ours == committed,
            "{name} differs: look at it, then UPDATE=1"
        );
    }
}

/// The words of every text in a drawing.
pub(crate) fn texts(svg: &str) -> impl Iterator<Item = &str> {
    let elements = svg.lines().filter_map(|line| line.strip_prefix("<text "));
    elements.filter_map(|line| line.split_once('>')?.1.strip_suffix("</text>"))
}

#[test]
fn the_font_has_every_character_of_every_figure() {
    for name in names(&root().join("plots")) {
        let svg = fs::read_to_string(root().join("plots").join(&name)).unwrap();
        assert!(texts(&svg).count() > 10, "{name}");
        for text in texts(&svg) {
            assert_eq!(figure::lacks(text), [], "{name}: {text}");
        }
    }
}

#[test]
fn mono_is_black_on_white_and_says_the_same() {
    let folder = tempfile::tempdir().unwrap();
    for name in draw_examples(folder.path(), &["--mono"]) {
        let mono = fs::read_to_string(folder.path().join(&name)).unwrap();
        let colors: BTreeSet<&str> = mono
            .split("=\"#")
            .skip(1)
            .filter_map(|rest| rest.get(..6))
            .collect();
        assert_eq!(colors, BTreeSet::from(["000000", "ffffff"]), "{name}");
        let color = fs::read_to_string(root().join("plots").join(&name)).unwrap();
        assert!(texts(&mono).eq(texts(&color)), "{name}");
    }
}

#[test]
fn without_hatching_what_is_wet_is_hatched() {
    let folder = tempfile::tempdir().unwrap();
    draw_examples(folder.path(), &["--no-hatching"]);
    let name = "cabin-floor-floor.svg";
    let plain = fs::read_to_string(folder.path().join(name)).unwrap();
    let hatched = fs::read_to_string(root().join("plots").join(name)).unwrap();
    let count = |svg: &str, what: &str| svg.matches(what).count();
    let wet = "stroke=\"#0b5a6f\" stroke-width=\"18\"";
    assert!(count(&plain, wet) > 0);
    assert_eq!(count(&plain, wet), count(&hatched, wet));
    assert!(count(&plain, "<path") < count(&hatched, "<path"));
    assert_eq!(count(&plain, "<rect"), count(&hatched, "<rect"));
}
