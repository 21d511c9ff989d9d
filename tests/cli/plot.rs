//! `plot`: whole files or none.

use std::fs;
use std::path::Path;

use crate::support::{code, program, repository, stderr, stdout};

fn plot(folder: &Path, more: &[&str]) -> std::process::Output {
    let mut command = program("examples");
    command
        .args(["plot", "cabin-floor.yaml", "--output"])
        .arg(folder)
        .args(more);
    command.output().expect("the program starts")
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    let name = |entry: std::io::Result<fs::DirEntry>| {
        entry
            .expect("an entry")
            .file_name()
            .to_string_lossy()
            .into_owned()
    };
    let mut names: Vec<String> = entries.map(name).collect();
    names.sort();
    names
}

#[test]
fn one_drawing_for_each_case_and_one_for_all() {
    let folder = tempfile::tempdir().expect("a folder");
    let output = plot(folder.path(), &[]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let names = names(folder.path());
    // A section, a year and its months for each case, and all sections in one.
    let mut expected = vec!["cabin-floor-compared.svg".to_owned()];
    for case in [
        "",
        "-foam-over-flange",
        "-foam-over-flange-loose",
        "-foam-over-flange-wool-on-the-pan",
        "-foam-under-finish-floor",
    ] {
        let of_case = |figure: &str| format!("cabin-floor-floor{case}{figure}.svg");
        expected.extend(["", "-months", "-year"].map(of_case));
        // The edge that the file doesn't draw.
        expected.push(format!("cabin-floor-floor-edge{case}.svg"));
    }
    expected.push("cabin-floor-details-compared.svg".to_owned());
    // What belongs together, written last.
    expected.push("cabin-floor-pictures.txt".to_owned());
    expected.sort();
    assert_eq!(names, expected);
    // What it wrote is what it says it wrote.
    let said = stdout(&output);
    assert_eq!(said.lines().count(), names.len());
    for name in &names {
        assert!(said.contains(name.as_str()), "{name}");
        if name.ends_with("-pictures.txt") {
            continue;
        }
        let drawing = fs::read_to_string(folder.path().join(name)).expect("a file");
        assert!(
            drawing.contains("<svg") && drawing.trim_end().ends_with("</svg>"),
            "{name}"
        );
        assert!(
            !drawing.contains("NaN") && !drawing.contains("inf\""),
            "{name}"
        );
    }
}

#[test]
fn the_same_drawings_twice() {
    let (first, second) = (tempfile::tempdir(), tempfile::tempdir());
    let (first, second) = (first.expect("a folder"), second.expect("a folder"));
    plot(first.path(), &[]);
    plot(second.path(), &[]);
    assert!(!names(first.path()).is_empty());
    for name in names(first.path()) {
        let read = |folder: &Path| fs::read(folder.join(&name)).expect("a file");
        assert_eq!(read(first.path()), read(second.path()), "{name}");
    }
}

#[test]
fn a_missing_folder_is_made_with_those_it_lies_in() {
    let folder = tempfile::tempdir().expect("a folder");
    let missing = folder.path().join("for the packet").join("drawings");
    let output = plot(&missing, &[]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    assert!(names(&missing).contains(&"cabin-floor-floor.svg".to_owned()));
}

/// A drawing's name is too long for a file: none is written, and of the folders none is left.
#[test]
fn a_folder_that_was_made_for_nothing_goes_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join(format!("{}.yaml", "n".repeat(240)));
    let text = fs::read(repository().join("examples/cabin-floor.yaml")).expect("an example");
    fs::write(&file, text).expect("written");
    let made = folder.path().join("a");
    let output = program("examples")
        .arg("plot")
        .arg(&file)
        .arg("--output")
        .arg(made.join("b"))
        .output()
        .expect("the program starts");
    assert_eq!(code(&output), 3, "{}", stderr(&output));
    assert!(output.stdout.is_empty());
    assert!(!made.exists());
}

#[test]
fn a_file_in_place_of_the_folder_stays_as_it_was() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("drawings");
    fs::write(&file, "keep me").expect("written");
    for target in [file.clone(), file.join("deeper")] {
        let output = plot(&target, &[]);
        assert_eq!(code(&output), 3);
        assert!(output.stdout.is_empty());
    }
    assert_eq!(fs::read_to_string(&file).expect("still there"), "keep me");
    assert_eq!(names(folder.path()), ["drawings"]);
}

/// A drawing's name is taken by a folder: nothing half-written is left beside it.
#[test]
fn a_drawing_that_cannot_be_written_leaves_no_part() {
    let folder = tempfile::tempdir().expect("a folder");
    let taken = folder.path().join("cabin-floor-floor.svg");
    fs::create_dir(&taken).expect("made");
    let output = plot(folder.path(), &[]);
    assert_eq!(code(&output), 3);
    let text = stderr(&output);
    assert!(text.contains("cabin-floor-floor.svg"), "{text}");
    assert_eq!(names(folder.path()), ["cabin-floor-floor.svg"]);
}

#[cfg(unix)]
#[test]
fn a_read_only_folder_is_exit_code_3() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().expect("a folder");
    let closed = folder.path().join("closed");
    fs::create_dir(&closed).expect("made");
    fs::set_permissions(&closed, fs::Permissions::from_mode(0o555)).expect("closed");
    let ignores_permissions = fs::write(closed.join("probe"), "").is_ok();
    if ignores_permissions {
        eprintln!("not tested: this user may write to read-only folders (root)");
        return;
    }
    let output = plot(&closed, &[]);
    assert_eq!(code(&output), 3, "{}", stderr(&output));
    assert_eq!(names(&closed), Vec::<String>::new());
}

#[test]
fn a_file_that_cannot_be_used_draws_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let bad = repository().join("tests/input/unknown-material.yaml");
    let output = program("examples")
        .arg("plot")
        .arg(bad)
        .arg("--output")
        .arg(folder.path())
        .output()
        .expect("the program starts");
    assert_eq!(code(&output), 2);
    assert!(names(folder.path()).is_empty());
}
