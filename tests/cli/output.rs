//! What the output looks like to a terminal, a pipe and the next program.

use std::io::Read;
use std::process::Stdio;

use rstest::rstest;

use crate::support::{code, program, run, run_afresh, stderr, stdout};

const EXAMPLES: [&str; 3] = ["cabin-floor.yaml", "cabin-wall.yaml", "cabin-roof.yaml"];

#[test]
fn no_line_is_wider_than_100_columns() {
    for file in EXAMPLES {
        for command in ["check", "compare"] {
            for units in ["imperial", "metric"] {
                let text = stdout(&run(&[command, file, "--units", units]));
                for line in text.lines() {
                    let columns = line.chars().count();
                    assert!(columns <= 100, "{command} {file}, {columns}: {line}");
                }
            }
        }
    }
}

/// A pipe gets plain text, whether color is forbidden or not.
#[rstest]
fn no_escape_codes_in_a_pipe(
    #[values("check", "compare")] command: &str,
    #[values(None, Some("1"))] no_color: Option<&str>,
) {
    let mut program = program("examples");
    program.args([command, "cabin-floor.yaml"]);
    program.env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    if let Some(value) = no_color {
        program.env("NO_COLOR", value);
    }
    let output = program.output().expect("the program starts");
    assert!(!output.stdout.contains(&0x1b));
}

/// Even where color is forced, `NO_COLOR` wins; without it the verdict is bold.
#[test]
fn no_color_wins_over_force() {
    let run = |no_color: bool| {
        let mut program = program("examples");
        program.args(["check", "cabin-floor.yaml"]);
        program.env_remove("NO_COLOR").env("CLICOLOR_FORCE", "1");
        if no_color {
            program.env("NO_COLOR", "1").env_remove("CLICOLOR_FORCE");
        }
        program.output().expect("the program starts").stdout
    };
    assert!(!run(true).contains(&0x1b));
    assert!(run(false).contains(&0x1b));
}

#[rstest]
#[case(&["check", "cabin-floor.yaml"])]
#[case(&["check", "cabin-wall.yaml", "--format", "json"])]
#[case(&["compare", "cabin-floor.yaml", "cabin-roof.yaml"])]
#[case(&["explain", "cabin-floor.yaml", "U"])]
#[case(&["materials"])]
#[case(&["schema"])]
#[case(&["manual"])]
fn the_same_bytes_twice(#[case] arguments: &[&str]) {
    let (first, second) = (run_afresh(arguments), run_afresh(arguments));
    assert!(!first.stdout.is_empty());
    assert_eq!(first.stdout, second.stdout);
}

/// `dewmargin check … | head -1` ends without a panic and without a message.
#[rstest]
#[case(&["check", "cabin-floor.yaml"])]
#[case(&["materials"])]
#[case(&["schema"])]
fn a_reader_that_stops_listening(#[case] arguments: &[&str]) {
    let mut program = program("examples");
    program
        .args(arguments)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let mut child = program.spawn().expect("the program starts");
    drop(child.stdout.take());
    let mut message = String::new();
    let mut pipe = child.stderr.take().expect("a pipe");
    pipe.read_to_string(&mut message).expect("UTF-8");
    let status = child.wait().expect("it ends");
    assert_eq!(message, "");
    assert!(status.code().is_some_and(|code| code <= 1), "{status}");
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_exit_code_3() {
    let full = std::fs::File::options().write(true).open("/dev/full");
    let output = program("examples")
        .args(["check", "cabin-roof.yaml"])
        .stdout(full.expect("/dev/full"))
        .output()
        .expect("the program starts");
    assert_eq!(code(&output), 3);
    assert!(
        stderr(&output).contains("can't be printed"),
        "{}",
        stderr(&output)
    );
}

#[test]
fn help_names_the_exit_codes_and_the_cautions() {
    let text = stdout(&run(&["--help"]));
    for words in [
        "Exit codes: 0",
        "1 a check failed",
        "not structural",
        "local codes govern",
    ] {
        assert!(
            text.to_lowercase().contains(&words.to_lowercase()),
            "{words}\n{text}"
        );
    }
}

#[test]
fn every_report_ends_with_its_cautions() {
    for file in EXAMPLES {
        let text = stdout(&run(&["check", file]));
        let cautions = text.split("\ncautions\n").collect::<Vec<_>>();
        assert_eq!(cautions.len(), 2, "{file}: once");
        assert!(cautions[1].contains("Local codes govern"), "{file}");
    }
}

#[test]
fn completions_know_every_command() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let script = stdout(&run(&["completions", shell]));
        for command in ["check", "compare", "plot", "materials", "schema"] {
            assert!(script.contains(command), "{shell}: {command}");
        }
    }
}

#[test]
fn the_manual_is_roff() {
    let page = stdout(&run(&["manual"]));
    assert!(page.contains(".TH dewmargin 1"), "{page}");
    assert!(page.contains("Exit codes"), "{page}");
    for words in [".SH COLUMNS", ".SH METHODS", "can it dry", "apostrophe"] {
        assert!(page.contains(words), "{words}: {page}");
    }
}

#[test]
fn materials_are_listed_searched_and_shown() {
    let all = stdout(&run(&["materials"]));
    let found = stdout(&run(&["materials", "foam"]));
    assert!(found.lines().count() < all.lines().count());
    assert!(found.contains("closed-cell-spray-foam"), "{found}");
    let one = stdout(&run(&["materials", "Closed-Cell Spray Foam"]));
    assert!(one.starts_with("closed-cell-spray-foam:"), "{one}");
    let metric = stdout(&run(&["materials", "plywood", "--units", "metric"]));
    assert!(metric.contains("W/mK"), "{metric}");
    let text = stderr(&run(&["materials", "plywod"]));
    assert!(text.contains("did you mean `plywood`?"), "{text}");
}
