//! Input that can't be used: every `.yaml` here has one mistake (some have many), and the whole
//! message stands in the `.stderr` beside it. `UPDATE=1 cargo test` rewrites the messages.

mod computes;
mod hostile;
mod hostile_climate;
mod surroundings;

use std::fs;
use std::path::{Path, PathBuf};

use crate::support::{code, program, repository, stderr};

pub(super) fn files_in(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("a folder of the repository");
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|end| end == "yaml"))
        .collect();
    files.sort();
    files
}

#[test]
fn every_mistake_has_its_message() {
    let folder = repository().join("tests/input");
    let update = std::env::var_os("UPDATE").is_some();
    let mut wrong = Vec::new();
    let files = files_in(&folder);
    assert!(files.len() > 150, "{} files", files.len());
    for file in files {
        let name = file.file_name().expect("a name");
        let before = fs::read_dir(&folder).expect("the folder").count();
        let output = program("tests/input").arg("check").arg(name).output();
        let output = output.expect("the program starts");
        let after = fs::read_dir(&folder).expect("the folder").count();
        let shown = name.to_string_lossy();
        assert_eq!(code(&output), 2, "{shown}");
        assert!(output.stdout.is_empty(), "{shown} printed a result");
        assert!(update || before == after, "{shown} left something behind");
        let message = stderr(&output);
        let expected = file.with_extension("stderr");
        if update {
            fs::write(&expected, &message).expect("writable");
        } else if fs::read_to_string(&expected).unwrap_or_default() != message {
            wrong.push(format!("{shown}:\n{message}"));
        }
    }
    assert!(wrong.is_empty(), "messages changed:\n{}", wrong.join("\n"));
}

#[test]
fn problems_come_in_order_of_line() {
    let output = program("tests/input")
        .args(["check", "many-problems.yaml"])
        .output();
    let message = stderr(&output.expect("the program starts"));
    let lines: Vec<usize> = message
        .lines()
        .filter_map(|line| {
            let place = line.trim_start().strip_prefix("--> many-problems.yaml:")?;
            place.split(':').next()?.parse().ok()
        })
        .collect();
    assert_eq!(lines, [1, 1, 2, 5, 7, 8, 12, 13, 15, 15, 15, 19]);
}
