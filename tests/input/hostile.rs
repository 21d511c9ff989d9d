//! Files that no builder writes, made here because they are large, binary or odd.

use std::fs::{self, File};
use std::path::Path;
use std::process::Output;
use std::time::{Duration, Instant};

use rstest::rstest;

use crate::support::{code, program, stderr};

const GOOD: &str = "indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: sheathing, material: plywood, thickness: 1/2 in}
";

fn check(path: &Path) -> Output {
    let folder = path.parent().expect("a folder");
    let mut command = program(".");
    command.current_dir(folder).arg("check");
    let output = command.arg(path.file_name().expect("a name")).output();
    output.expect("the program starts")
}

/// Refused with exit code 2, one problem, nothing printed and nothing written.
fn refused(path: &Path, message: &str) {
    let folder = path.parent().expect("a folder");
    let before = fs::read_dir(folder).expect("the folder").count();
    let output = check(path);
    let text = stderr(&output);
    assert_eq!(code(&output), 2, "{text}");
    assert!(output.stdout.is_empty());
    assert_eq!(text, message);
    assert_eq!(fs::read_dir(folder).expect("the folder").count(), before);
}

fn bomb() -> String {
    let mut text = String::from("a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
    for n in 1..9 {
        let before = vec![format!("*a{}", n - 1); 9].join(", ");
        text += &format!("a{n}: &a{n} [{before}]\n");
    }
    text + GOOD
}

#[rstest]
#[case::empty(
    b"",
    "this file is empty\n --> odd.yaml\n  = help: start from a file in examples/"
)]
#[case::blank(
    b" \n\n",
    "this file is empty\n --> odd.yaml\n  = help: start from a file in examples/"
)]
#[case::binary(
    b"\x7fELF\xff\xfe\x00\x01",
    "this isn't a text file\n --> odd.yaml\n  = help: save it as UTF-8 text"
)]
#[case::zeros(
    b"indoor: \0\0",
    "this isn't a text file\n --> odd.yaml\n  = help: save it as UTF-8 text"
)]
#[case::utf16(
    b"\xff\xfei\x00n\x00",
    "this isn't a text file\n --> odd.yaml\n  = help: save it as UTF-8 text"
)]
fn not_a_project(#[case] bytes: &[u8], #[case] message: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("odd.yaml");
    fs::write(&path, bytes).expect("written");
    refused(&path, &format!("error: {message}\n"));
}

#[test]
fn a_missing_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let message = "error: there is no such file\n --> odd.yaml\n  \
                   = help: check the name and the folder\n";
    refused(&folder.path().join("odd.yaml"), message);
}

#[test]
fn a_folder() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("odd.yaml");
    fs::create_dir(&path).expect("made");
    let message = "error: this is a folder, not a project file\n --> odd.yaml\n  \
                   = help: name a .yaml file in it\n";
    refused(&path, message);
}

#[test]
fn two_hundred_megabytes() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("odd.yaml");
    fs::write(&path, GOOD).expect("written");
    let file = File::options().write(true).open(&path).expect("opened");
    file.set_len(200_000_000).expect("a sparse file");
    let message = "error: this file is over 1 MiB, far more than a project needs\n --> odd.yaml\n";
    refused(&path, message);
}

#[rstest]
#[case::alias_bomb(bomb(), "error: this file holds far more than a project needs")]
#[case::deep_lists("[".repeat(100_000), "error: blocks are nested far deeper than a project needs")]
#[case::deep_blocks("{a: ".repeat(100_000), "error: blocks are nested far deeper than a project needs")]
#[case::deep_indents((0..1000).map(|n| " ".repeat(n) + "a:\n").collect(), "error: blocks are nested far deeper than a project needs")]
#[case::many_keys((0..60_000).map(|n| format!("k{n}:\n")).collect(), "error: this file holds far more than a project needs")]
fn bombs(#[case] text: String, #[case] message: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("odd.yaml");
    fs::write(&path, text).expect("written");
    let started = Instant::now();
    let output = check(&path);
    // A guard against hanging, not a measure of speed.
    assert!(started.elapsed() < Duration::from_secs(60));
    assert_eq!(code(&output), 2);
    assert!(output.stdout.is_empty());
    let text = stderr(&output);
    assert!(
        text.starts_with(message),
        "{}",
        &text[..text.len().min(400)]
    );
    assert!(text.len() < 2000, "{} bytes of message", text.len());
}

#[rstest]
#[case::byte_order_mark(format!("\u{feff}{GOOD}"))]
#[case::windows_lines(GOOD.replace('\n', "\r\n"))]
#[case::both(format!("\u{feff}{}", GOOD.replace('\n', "\r\n")))]
#[case::no_last_line_end(GOOD.trim_end().to_owned())]
#[case::comments_and_start_mark(format!("# Fern Hollow\n---\n{GOOD}"))]
fn editors_leave_marks_that_mean_nothing(#[case] text: String) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("odd.yaml");
    fs::write(&path, GOOD).expect("written");
    let plain = check(&path);
    fs::write(&path, text).expect("written");
    let marked = check(&path);
    assert_eq!(stderr(&marked), "");
    assert_eq!(code(&marked), 0);
    assert_eq!(marked.stdout, plain.stdout);
}

/// A mistake behind a byte order mark and Windows line ends is still shown at its place.
#[test]
fn places_hold_behind_marks() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("odd.yaml");
    let text = GOOD.replace("plywood", "plywod").replace('\n', "\r\n");
    fs::write(&path, format!("\u{feff}{text}")).expect("written");
    let text = stderr(&check(&path));
    assert!(text.contains("--> odd.yaml:7:37"), "{text}");
    assert!(text.contains("did you mean `plywood`?"), "{text}");
}
