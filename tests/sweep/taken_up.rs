//! Tables left half-way: cut anywhere, killed, interrupted.

use std::path::Path;
use std::process::Stdio;
use std::time::{Duration, Instant};

use super::{example, swept};
use crate::support::{code, program, stderr, stdout};

fn bytes(path: &Path) -> Vec<u8> {
    std::fs::read(path).expect("a table")
}

#[test]
fn wherever_it_is_cut_it_ends_the_same() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["all.csv", "all.json"] {
        let table = folder.path().join(name);
        assert_eq!(code(&swept(&example(), &table, &[])), 0);
        let whole = bytes(&table);
        let cuts = [
            0,
            1,
            200,
            900,
            5_000,
            whole.len() / 2,
            whole.len() - 3,
            whole.len() - 1,
            whole.len(),
        ];
        for cut in cuts {
            std::fs::write(&table, &whole[..cut]).expect("cut");
            let output = swept(&example(), &table, &[]);
            assert_eq!(code(&output), 0, "{name} cut at {cut}: {}", stderr(&output));
            assert!(bytes(&table) == whole, "{name} cut at {cut}");
        }
        let output = swept(&example(), &table, &[]);
        assert!(
            stdout(&output).contains(", 117 of them from before\n"),
            "{}",
            stdout(&output)
        );
    }
}

#[test]
fn what_is_not_this_sweeps_table_is_left_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = folder.path().join("all.csv");
    let text = std::fs::read_to_string(example()).expect("the example");
    let other = folder.path().join("other.yaml");
    std::fs::write(&other, text.replace("XPS", "EPS")).expect("written");
    assert_eq!(code(&swept(&example(), &table, &[])), 0);
    let whole = bytes(&table);
    let row_gone = {
        let text = String::from_utf8(whole.clone()).expect("UTF-8");
        let kept: Vec<&str> = text
            .split_inclusive('\n')
            .enumerate()
            .filter(|(n, _)| *n != 7)
            .map(|(_, l)| l)
            .collect();
        kept.concat().into_bytes()
    };
    let longer = [&whole[..], b"118,\r\n"].concat();
    let cases = [
        (other.as_path(), whole.clone()),
        (&example(), b"my notes\n".to_vec()),
        (&example(), row_gone),
        (&example(), longer),
    ];
    for (file, there) in cases {
        std::fs::write(&table, &there).expect("written");
        let output = swept(file, &table, &[]);
        assert_eq!(code(&output), 2);
        let told = stderr(&output);
        assert!(
            told.contains("it isn't a table of this sweep") && told.contains("--again"),
            "{told}"
        );
        assert!(bytes(&table) == there, "left alone");
    }
    assert_eq!(code(&swept(&example(), &table, &["--again"])), 0);
    assert!(bytes(&table) == whole);
}

/// Many combinations of a wall on a winter mean: long enough to be stopped half-way.
const MANY: &str = "
indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}, design-night: {temperature: 25 F, humidity: 80 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, material: gypsum board, thickness: 1/2 in}
      - {name: studs, material: R-13 batt, thickness: 3-1/2 in}
      - {name: sheathing, material: plywood, thickness: 1/2 in}
      - {name: foam, material: XPS, thickness: 1 in}
sweep:
  of: wall
  axes:
    foam: {layer: foam, thickness: {from: 1 mm, to: 100 mm, step: 1 mm}}
    room: {humidity: {from: 30 %, to: 70 %, step: 0.1 %}}
";

/// Starts the program and calls `stop` when a part of the table is there; its exit code.
#[cfg(unix)]
fn stopped(
    file: &Path,
    table: &Path,
    stop: impl Fn(&mut std::process::Child),
) -> (Option<i32>, String) {
    let mut command = program(".");
    command
        .arg("sweep")
        .arg(file)
        .arg("-o")
        .arg(table)
        .stdout(Stdio::null())
        .stderr(Stdio::piped());
    let mut child = command.spawn().expect("the program starts");
    let started = Instant::now();
    while std::fs::metadata(table).map_or(0, |data| data.len()) < 300_000 {
        assert!(started.elapsed() < Duration::from_secs(300), "no rows");
        std::thread::sleep(Duration::from_millis(2));
    }
    stop(&mut child);
    let output = child.wait_with_output().expect("it ended");
    (output.status.code(), stderr(&output))
}

#[cfg(unix)]
#[test]
fn killed_or_interrupted_it_goes_on_to_the_same_bytes() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("many.yaml");
    std::fs::write(&file, MANY).expect("written");
    let whole = folder.path().join("whole.csv");
    assert_eq!(code(&swept(&file, &whole, &[])), 0);
    let whole = bytes(&whole);
    let table = folder.path().join("killed.csv");
    let (ended, _) = stopped(&file, &table, |child| child.kill().expect("kill -9"));
    assert_eq!(ended, None, "killed, not ended by itself");
    let left = bytes(&table);
    assert!(
        left.len() < whole.len() && whole.starts_with(&left),
        "{} of {}",
        left.len(),
        whole.len()
    );
    assert_eq!(code(&swept(&file, &table, &[])), 0);
    assert!(bytes(&table) == whole);

    std::fs::remove_file(&table).expect("removed");
    let (ended, told) = stopped(&file, &table, |child| {
        let done = std::process::Command::new("kill")
            .args(["-INT", &child.id().to_string()])
            .status();
        assert!(done.expect("kill is there").success());
    });
    assert_eq!(ended, Some(4), "{told}");
    assert!(
        told.contains("the same command goes on from there"),
        "{told}"
    );
    let left = bytes(&table);
    assert!(
        left.len() < whole.len() && left.ends_with(b"\r\n"),
        "whole rows"
    );
    assert_eq!(code(&swept(&file, &table, &[])), 0);
    assert!(bytes(&table) == whole);
}
