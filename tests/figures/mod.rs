//! The plots of every example but two are committed in `plots/`; drawing them again
//! gives the same bytes.
//!
//! `UPDATE=1 cargo test figures` draws them anew.
#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The whole project, whose sheets are committed instead of its plain plots; and the one about fit,
/// weight and heat loss, which draws what the others draw.
const WITHOUT_PLOTS: [&str; 2] = ["cabin.yaml", "cabin-fit.yaml"];

/// Draws those examples into a folder and returns the files' names.
fn draw_examples(folder: &Path) -> BTreeSet<String> {
    let mut examples: Vec<_> = fs::read_dir(root().join("examples"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "yaml")
        })
        .filter(|path| {
            let name = path.file_name().and_then(|name| name.to_str());
            name.is_some_and(|name| !WITHOUT_PLOTS.contains(&name))
        })
        .collect();
    examples.sort();
    assert!(!examples.is_empty());
    for example in examples {
        let done = Command::new(env!("CARGO_BIN_EXE_dewmargin"))
            .arg("plot")
            .arg(&example)
            .arg("-o")
            .arg(folder)
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
        .collect()
}

#[test]
fn committed_plots_are_what_the_program_draws() {
    let plots = root().join("plots");
    if std::env::var_os("UPDATE").is_some() {
        draw_examples(&plots);
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let drawn = draw_examples(folder.path());
    assert_eq!(
        drawn,
        names(&plots),
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
