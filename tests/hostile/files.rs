//! Files of others: what is read, written over, left behind, and taken up again.
#![cfg(unix)]

use std::ffi::OsStr;
use std::fs;
use std::os::unix::ffi::OsStrExt;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

use rstest::rstest;

use super::{LINING, SHEATHING, wall};
use crate::support::{code, program, stderr, stdout};

/// A wall with a sweep of its lining.
fn swept() -> String {
    wall(
        &format!("{LINING}{SHEATHING}"),
        "sweep:\n  of: wall\n  axes:\n    lining: {layer: lining, thickness: {from: 1/4 in, to: 1 in, step: 1/4 in}}\n    \
         board: {layer: sheathing, material: [plywood, OSB]}\n",
    )
}

fn run_in(folder: &Path, arguments: &[&str]) -> Output {
    let mut program = program(".");
    program.current_dir(folder).stdin(Stdio::null());
    program
        .args(arguments)
        .output()
        .expect("the program starts")
}

fn folder_with(text: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("p.yaml"), text).expect("written");
    folder
}

// The project was replaced by the picture.
#[rstest]
#[case::over_the_project(&["-o", "t.csv", "--plot", "p.yaml"], "over the project")]
#[case::over_its_own_table(&["-o", "t.csv", "--plot", "./t.csv"], "over its own table")]
#[case::table_over_the_project(&["-o", "../x/p.csv"], "over the project")]
#[case::over_another_file(&["-o", "t.csv", "--plot", "notes.svg"], "no picture")]
fn a_sweep_writes_over_nothing_of_others(#[case] arguments: &[&str], #[case] words: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path().join("x");
    fs::create_dir(&folder).expect("made");
    let project = match words == "over the project" && arguments.len() == 2 {
        true => "p.csv",
        false => "p.yaml",
    };
    fs::write(folder.join(project), swept()).expect("written");
    fs::write(folder.join("notes.svg"), "bring milk").expect("written");
    let output = run_in(&folder, &[&["sweep", project], arguments].concat());
    assert_eq!(code(&output), 2, "{}", stderr(&output));
    assert!(stderr(&output).contains(words), "{}", stderr(&output));
    assert_eq!(
        fs::read_to_string(folder.join(project)).expect("there"),
        swept()
    );
    assert_eq!(
        fs::read_to_string(folder.join("notes.svg")).expect("there"),
        "bring milk"
    );
    assert!(!folder.join("t.csv").exists());
}

// A row cut down to its number, or with zeros in it, passed for whole.
#[rstest]
#[case::cut("t.csv", |row: &str| format!("{}\r\n", row.split(',').next().unwrap_or_default()))]
#[case::zeros("t.csv", |row: &str| row.replacen("pass", "\0\0\0\0", 1).replacen("depends", "\0\0\0\0\0\0\0", 1))]
#[case::a_word_for_a_number("t.csv", |row: &str| row.replacen(",0.", ",o.", 1))]
#[case::json_cut("t.json", |row: &str| format!("{}}},\n", row.split(',').next().unwrap_or_default()))]
fn a_table_with_a_damaged_row_is_not_taken_up(
    #[case] name: &str,
    #[case] damage: fn(&str) -> String,
) {
    let folder = folder_with(&swept());
    let table = folder.path().join(name);
    assert_eq!(
        code(&run_in(folder.path(), &["sweep", "p.yaml", "-o", name])),
        0
    );
    let whole = fs::read_to_string(&table).expect("a table");
    let third = whole.split_inclusive('\n').nth(3).expect("a row");
    let damaged = whole.replacen(third, &damage(third), 1);
    assert_ne!(damaged, whole);
    fs::write(&table, &damaged).expect("written");
    let output = run_in(folder.path(), &["sweep", "p.yaml", "-o", name]);
    assert_eq!(code(&output), 2, "{}", stdout(&output));
    assert_eq!(fs::read_to_string(&table).expect("there"), damaged);
    assert_eq!(
        code(&run_in(
            folder.path(),
            &["sweep", "p.yaml", "-o", name, "--again"]
        )),
        0
    );
    assert_eq!(fs::read_to_string(&table).expect("there"), whole);
}

// A name that begins like a formula ran as one in a spreadsheet.
#[test]
fn a_name_in_a_table_is_no_formula() {
    let text = swept().replace("    board: {", "    \"=HYPERLINK(1)\": {");
    let folder = folder_with(&text);
    let output = run_in(folder.path(), &["sweep", "p.yaml", "-o", "t.csv"]);
    assert_eq!(code(&output), 0, "{}", stderr(&output));
    let table = fs::read_to_string(folder.path().join("t.csv")).expect("a table");
    assert!(
        table
            .lines()
            .next()
            .expect("a head")
            .contains(",'=HYPERLINK(1),"),
        "{table}"
    );
}

// A pipe without a writer was waited for for ever; standard input has a name of its own.
#[rstest]
#[case::project(&["check", "pipe"])]
#[case::compared(&["compare", "p.yaml", "pipe"])]
#[case::device(&["check", "/dev/zero"])]
#[case::table(&["sweep", "p.yaml", "-o", "pipe.csv"])]
fn pipes_and_devices_are_not_read(#[case] arguments: &[&str]) {
    let folder = folder_with(&swept());
    for name in ["pipe", "pipe.csv"] {
        let made = Command::new("mkfifo")
            .arg(folder.path().join(name))
            .status();
        assert!(made.expect("mkfifo").success());
    }
    let output = run_in(folder.path(), arguments);
    assert!(matches!(code(&output), 2 | 3), "{}", stdout(&output));
    assert!(
        stderr(&output).contains("no regular file"),
        "{}",
        stderr(&output)
    );
}

#[test]
fn a_climate_that_is_a_pipe_is_not_read() {
    let text = swept().replace("climate: wet-coast", "climate: ./here.csv");
    let folder = folder_with(&text);
    let made = Command::new("mkfifo")
        .arg(folder.path().join("here.csv"))
        .status();
    assert!(made.expect("mkfifo").success());
    let output = run_in(folder.path(), &["check", "p.yaml"]);
    assert_eq!(code(&output), 2);
    assert!(
        stderr(&output).contains("no regular file"),
        "{}",
        stderr(&output)
    );
}

#[test]
fn a_project_may_come_by_standard_input() {
    let folder = folder_with(&swept());
    let mut program = program(".");
    let project = fs::File::open(folder.path().join("p.yaml")).expect("there");
    let output = program
        .args(["check", "-"])
        .stdin(project)
        .output()
        .expect("the program starts");
    let named = run_in(folder.path(), &["check", "p.yaml"]);
    assert_eq!(code(&output), code(&named), "{}", stderr(&output));
    assert_eq!(
        stdout(&output).lines().next(),
        stdout(&named).lines().next()
    );
}

// A file beside a project was looked for in a folder of another name.
#[test]
fn a_folder_may_have_any_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path().join(OsStr::from_bytes(b"caf\xe9"));
    fs::create_dir(&folder).expect("made");
    let rows: String = (1..=12).map(|n| format!("{n},{},80\n", 40 + n)).collect();
    let months = format!("month,temperature (F),humidity (%)\n{rows}");
    fs::write(folder.join("here.csv"), months).expect("written");
    let text = swept().replace("climate: wet-coast", "climate: here.csv");
    fs::write(folder.join("p.yaml"), text).expect("written");
    let mut program = program(".");
    let output = program
        .arg("check")
        .arg(folder.join("p.yaml"))
        .output()
        .expect("the program starts");
    assert!(matches!(code(&output), 0 | 1), "{}", stderr(&output));
}

// Asked once in 1,024 rows, a sweep of slow rows went on for minutes.
#[rstest]
#[case("-INT")]
#[case("-TERM")]
fn a_sweep_of_slow_rows_stops_when_asked(#[case] signal: &str) {
    let layer = |n: usize| {
        let framing = match n {
            0..3 => format!(
                ", framing: {{material: spruce-pine-fir, share: {} %, crosswise: true}}",
                10 + n
            ),
            _ => String::new(),
        };
        format!("      - {{name: l{n}, material: plywood, thickness: 1/2 in{framing}}}\n")
    };
    let strip = |n: usize| {
        format!(
            "      - {{name: s{n}, metal: carbon steel, thickness: 1/4 in, width: 1 in, across: 100 in, under: l{n}}}\n"
        )
    };
    let layers: String = (0..20).map(layer).collect();
    let strips: String = (0..9).map(strip).collect();
    let text = wall(
        &layers,
        &format!(
            "    strips:\n{strips}sweep:\n  of: wall\n  axes:\n    rh: {{humidity: {{from: 20 %, to: 80 %, step: 0.02 %}}}}\n"
        ),
    );
    let folder = folder_with(&text);
    let mut program = program(".");
    program
        .current_dir(folder.path())
        .args(["sweep", "p.yaml", "-o", "t.csv"]);
    let mut child = program
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("it starts");
    std::thread::sleep(Duration::from_secs(2));
    let asked = Instant::now();
    let killed = Command::new("kill")
        .args([signal, &child.id().to_string()])
        .status();
    assert!(killed.expect("kill").success());
    let status = child.wait().expect("it ends");
    assert_eq!(status.code(), Some(4));
    // A bound far above the second it may take, and far below the minutes it took.
    assert!(
        asked.elapsed() < Duration::from_secs(10),
        "{:?}",
        asked.elapsed()
    );
    let table = fs::read(folder.path().join("t.csv")).expect("a table");
    assert!(table.ends_with(b"\n"), "whole rows only");
}

#[test]
fn help_to_a_full_disk_is_not_told() {
    let full = fs::OpenOptions::new().write(true).open("/dev/full");
    let Ok(full) = full else {
        return;
    };
    let mut program = program(".");
    let status = program
        .arg("--help")
        .stdout(full)
        .stderr(Stdio::null())
        .status();
    assert_eq!(status.expect("it starts").code(), Some(3));
}

// Threads that couldn't be started ended the program.
#[test]
fn no_more_threads_are_asked_for_than_the_machine_has() {
    let folder = folder_with(&swept());
    let mut program = program(".");
    program
        .current_dir(folder.path())
        .env("RAYON_NUM_THREADS", "1000000");
    let output = program
        .args(["check", "p.yaml"])
        .output()
        .expect("it starts");
    let usual = run_in(folder.path(), &["check", "p.yaml"]);
    assert_eq!(code(&output), code(&usual), "{}", stderr(&output));
    assert_eq!(output.stdout, usual.stdout);
}

// A killed run's list is missing or names other bytes; a whole one names every picture.
#[test]
fn pictures_that_belong_together_are_listed_last() {
    let folder = folder_with(&swept());
    assert_eq!(
        code(&run_in(folder.path(), &["plot", "p.yaml", "-o", "plots"])),
        0
    );
    let plots = folder.path().join("plots");
    let list = fs::read_to_string(plots.join("p-pictures.txt")).expect("a list");
    let drawn = fs::read_dir(&plots).expect("read").flatten();
    let mut count = 0;
    for picture in drawn.filter(|one| one.path().extension() == Some(OsStr::new("svg"))) {
        let name = picture.file_name().to_string_lossy().into_owned();
        let bytes = fs::read(picture.path()).expect("a picture");
        let line = format!(
            "{} {} {name}",
            dewmargin::report::sweep::fingerprint(&bytes),
            bytes.len()
        );
        assert!(list.lines().any(|one| one == line), "{line}\n{list}");
        count += 1;
    }
    assert!(count > 0);
    // What isn't drawn any more goes, unless somebody changed it.
    let renamed = swept()
        .replace("  wall:\n", "  other:\n")
        .replace("of: wall", "of: other");
    fs::write(folder.path().join("p.yaml"), renamed).expect("written");
    fs::write(plots.join("p-wall-as-drawn-months.svg"), "mine now").expect("written");
    assert_eq!(
        code(&run_in(folder.path(), &["plot", "p.yaml", "-o", "plots"])),
        0
    );
    assert!(!plots.join("p-wall-as-drawn.svg").exists());
}
