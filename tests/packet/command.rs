//! `dewmargin packet` as a user meets it.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

use rstest::rstest;

use super::{cabin, example};
use crate::support::program;

fn packet(file: &Path, folder: &Path, more: &[&str]) -> Output {
    program(".")
        .arg("packet")
        .arg(file)
        .arg("-o")
        .arg(folder)
        .args(more)
        .output()
        .expect("it runs")
}

/// Every file of a folder by name.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(folder).expect("read");
    let read = |entry: std::io::Result<fs::DirEntry>| {
        let entry = entry.expect("an entry");
        let name = entry.file_name().to_string_lossy().into_owned();
        (name, fs::read(entry.path()).unwrap_or_default())
    };
    entries.map(read).collect()
}

fn told(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

#[test]
fn the_same_file_gives_the_same_packet_to_the_byte() {
    let make = || {
        let folder = tempfile::tempdir().expect("a folder");
        let done = packet(&cabin(), folder.path(), &["--svg", "--paper", "letter"]);
        assert_eq!(done.status.code(), Some(0), "{}", told(&done));
        files(folder.path())
    };
    let (one, other) = (make(), make());
    assert!(one == other);
    let names: Vec<&String> = one.keys().collect();
    assert!(
        names.iter().all(|name| name.len() < 60 && name.is_ascii()),
        "{names:?}"
    );
    let bound = &one["fern-hollow-cabin-packet.pdf"];
    assert!(bound.starts_with(b"%PDF-1.7") && bound.len() < 1_200_000);
    let pdfs = names.iter().filter(|name| name.ends_with(".pdf")).count();
    let svgs = names.iter().filter(|name| name.ends_with(".svg")).count();
    assert_eq!(pdfs, svgs + 1, "a file for each sheet, and the bound one");
    let contents = String::from_utf8_lossy(&one["contents.txt"]).into_owned();
    for name in names.iter().filter(|name| **name != "contents.txt") {
        assert!(
            contents.contains(&format!("{name}: ")),
            "{name} isn't listed"
        );
    }
}

#[rstest]
#[case(&[], 0)]
#[case(&["--strict"], 1)]
fn what_a_reviewer_will_ask_for_is_listed(#[case] more: &[&str], #[case] code: i32) {
    let folder = tempfile::tempdir().expect("a folder");
    let done = packet(&example("cabin-wall.yaml"), folder.path(), more);
    assert_eq!(done.status.code(), Some(code));
    let words = told(&done);
    assert!(words.contains("A plan reviewer will ask for"), "{words}");
    for what in ["address", "date", "revision", "code basis"] {
        assert!(words.contains(what), "{what} in {words}");
    }
}

#[test]
fn only_what_the_file_draws_is_in_it_unless_a_variant_is_asked_for() {
    let file = example("cabin-floor.yaml");
    let sheets = |more: &[&str]| {
        let folder = tempfile::tempdir().expect("a folder");
        let done = packet(
            &file,
            folder.path(),
            &[more, &["--paper", "letter"]].concat(),
        );
        assert_eq!(done.status.code(), Some(0), "{}", told(&done));
        let text = fs::read_to_string(folder.path().join("contents.txt"));
        text.expect("the list")
    };
    let drawn = sheets(&[]);
    assert!(
        drawn.contains("floor, 1 of ") && !drawn.contains("foam over flange"),
        "{drawn}"
    );
    let variant = sheets(&["--variant", "foam over flange"]);
    assert!(variant.contains("floor, foam over flange"), "{variant}");
    let folder = tempfile::tempdir().expect("a folder");
    let wrong = packet(&file, folder.path(), &["--variant", "foam over flang"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(
        told(&wrong).contains("did you mean `foam over flange`?"),
        "{}",
        told(&wrong)
    );
    assert!(files(folder.path()).is_empty());
}

#[test]
fn a_packet_that_cannot_be_written_leaves_the_old_one_and_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path();
    assert!(packet(&cabin(), path, &[]).status.success());
    let before = files(path);
    // A folder stands where a sheet of another size of paper would go.
    let letter = tempfile::tempdir().expect("a folder");
    assert!(
        packet(&cabin(), letter.path(), &["--paper", "letter"])
            .status
            .success()
    );
    let new = files(letter.path());
    let name = new
        .keys()
        .find(|name| !before.contains_key(*name))
        .expect("more sheets");
    fs::create_dir(path.join(name)).expect("made");
    let failed = packet(&cabin(), path, &["--paper", "letter"]);
    assert_eq!(failed.status.code(), Some(3));
    assert!(told(&failed).contains("there is a folder where this file would go"));
    fs::remove_dir(path.join(name)).expect("removed");
    assert!(files(path) == before);
    // Without it the new packet replaces the old one, sheets that are gone included.
    assert!(
        packet(&cabin(), path, &["--paper", "letter"])
            .status
            .success()
    );
    assert!(files(path) == new);
}

#[test]
fn no_folder_can_be_made_in_a_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("taken");
    fs::write(&file, "mine").expect("written");
    let failed = packet(&cabin(), &file.join("packet"), &[]);
    assert_eq!(failed.status.code(), Some(3));
    assert!(
        told(&failed).contains("can't be written"),
        "{}",
        told(&failed)
    );
    assert_eq!(fs::read(&file).expect("there"), b"mine");
}

#[test]
fn a_broken_file_writes_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("broken.yaml");
    fs::write(&file, "assemblies: {}").expect("written");
    let out = folder.path().join("packet");
    assert_eq!(packet(&file, &out, &[]).status.code(), Some(2));
    assert!(!out.exists());
}

/// Waits until something holds; fails after a minute.
fn until(what: &str, mut holds: impl FnMut() -> bool) {
    let start = Instant::now();
    while !holds() {
        assert!(start.elapsed() < Duration::from_secs(60), "{what}");
        std::thread::sleep(Duration::from_millis(50));
    }
}

#[test]
fn watching_makes_it_again_and_keeps_the_last_good_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let (file, out) = (folder.path().join("a.yaml"), folder.path().join("packet"));
    let log = folder.path().join("log");
    let text = fs::read_to_string(example("cabin-wall.yaml")).expect("read");
    fs::write(&file, &text).expect("written");
    let mut child = Command::new(env!("CARGO_BIN_EXE_dewmargin"))
        .args(["packet", "--watch", "-o"])
        .arg(&out)
        .arg(&file)
        .stderr(Stdio::from(fs::File::create(&log).expect("a log")))
        .stdout(Stdio::null())
        .spawn()
        .expect("it runs");
    let said = |words: &str| {
        fs::read_to_string(&log)
            .expect("read")
            .matches(words)
            .count()
    };
    let list = || fs::read_to_string(out.join("contents.txt")).unwrap_or_default();
    until("the first packet", || said("Watching") == 1);
    assert!(list().starts_with("Fern Hollow cabin: "), "{}", list());
    fs::write(
        &file,
        text.replace("title: Fern Hollow cabin", "title: Another cabin"),
    )
    .expect("written");
    until("the second packet", || said("Watching") == 2);
    assert!(list().starts_with("Another cabin: "), "{}", list());
    let good = files(&out);
    fs::write(&file, text.replace("kind: wall", "kind: wal")).expect("written");
    until("the mistake", || said("Watching") == 3);
    assert_eq!(said("The last good packet is kept."), 1);
    assert!(said("wal") > 0 && files(&out) == good);
    child.kill().expect("stopped");
    child.wait().expect("ended");
}

/// The parts asked for have sheets, the others are named on the cover.
#[test]
fn only_what_is_asked_for_is_drawn() {
    let folder = tempfile::tempdir().expect("a folder");
    let only = [
        "--only", "wall", "--only", "house", "--html", "--paper", "letter",
    ];
    let done = packet(&cabin(), folder.path(), &only);
    assert_eq!(done.status.code(), Some(0), "{}", told(&done));
    let files = files(folder.path());
    let list = String::from_utf8_lossy(&files["contents.txt"]).into_owned();
    for (name, there) in [
        ("wall", true),
        ("house", true),
        ("floor", false),
        ("roof", false),
    ] {
        assert_eq!(
            list.contains(&format!("-{name}")),
            there,
            "{name} in {list}"
        );
    }
    let page = &files["fern-hollow-cabin-packet.html"];
    let page = String::from_utf8_lossy(page).into_owned();
    let words = "in this packet: floor; roof; floor edge; roof edge.";
    assert!(page.contains(words), "{words}");
}

#[test]
fn a_part_that_is_not_there_is_told_with_the_nearest() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("out");
    let done = packet(&cabin(), &out, &["--only", "rof"]);
    assert_eq!(done.status.code(), Some(2));
    let told = told(&done);
    assert!(told.contains("there is no part `rof`"), "{told}");
    assert!(told.contains("did you mean `roof`?"), "{told}");
    assert!(!out.exists());
}
