//! Files that used to crash the program, to make it print what isn't so, or to take it minutes.

mod edges;
mod files;

use std::process::Output;
use std::time::{Duration, Instant};

use approx::assert_relative_eq;
use rstest::rstest;

use crate::support::{checked, code, number, program, stderr, stdout};

/// A wall of some layers, and further lines of the file.
fn wall(layers: &str, rest: &str) -> String {
    format!(
        "indoor: {{heating: 68 F, humidity: 50 %}}\nclimate: wet-coast\nassemblies:\n  wall:\n    \
         kind: wall\n    layers:\n{layers}{rest}"
    )
}

const LINING: &str = "      - {name: lining, material: gypsum board, thickness: 1/2 in}\n";
const SHEATHING: &str = "      - {name: sheathing, material: plywood, thickness: 1/2 in}\n";

/// Runs a command on a file of that name with that text, in a folder of its own.
fn run(text: &str, command: &[&str]) -> Output {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("p.yaml"), text).expect("written");
    let mut program = program(".");
    program.current_dir(folder.path());
    program.args(command).output().expect("the program starts")
}

fn refused(text: &str, words: &str) -> String {
    let output = run(text, &["check", "p.yaml"]);
    let message = stderr(&output);
    assert_eq!(code(&output), 2, "{message}");
    assert!(message.contains(words), "{message}");
    message
}

// Members have no depth where their layer has none: they were left out of the section, and U came out
// at 0.1722 where 0.0899 is right.
#[test]
fn framing_needs_a_thickness() {
    let studs = |thickness: &str| {
        format!(
            "      - {{name: batt, r-value: R-13, permeance: 30 perm, kind: insulation{thickness}, \
             framing: {{material: spruce-pine-fir, share: 25 %}}}}\n"
        )
    };
    refused(
        &wall(&(LINING.to_owned() + &studs("") + SHEATHING), ""),
        "layer `batt` is framed and has no thickness",
    );
    let output = run(
        &wall(
            &(LINING.to_owned() + &studs(", thickness: 3-1/2 in") + SHEATHING),
            "",
        ),
        &["check", "p.yaml"],
    );
    assert!(code(&output) != 2, "{}", stderr(&output));
}

// A self-adhered membrane outside under a cold sky: nothing leaves, and what enters stays. The flow
// told as leaving was the last one that isn't zero.
#[test]
fn vapor_that_does_not_leave_is_not_told_as_leaving() {
    let report = checked(
        "indoor: {heating: 20 C, humidity: 50 %}
outdoor: {winter-mean: {temperature: 5 C, humidity: 95 %}}
materials:
  sheet: {kind: membrane, vapor: 0.0000001 perm}
assemblies:
  roof:
    kind: roof
    outer-surface: {night-sky: 5 K}
    layers:
      - {name: lining, material: gypsum board, thickness: 1/2 in}
      - {name: batt, material: R-13 batt, thickness: 3-1/2 in}
      - {name: membrane, material: sheet, thickness: 0.1 mm}
",
    );
    let winter = &report["cases"][0]["solutions"][0]["paths"][0]["winter_mean"];
    let (entering, leaving) = (
        number(&winter["vapor_in_kg_per_m2_s"]),
        number(&winter["vapor_out_kg_per_m2_s"]),
    );
    let planes = winter["planes"].as_array().expect("planes");
    let stays: f64 = planes
        .iter()
        .filter_map(|plane| plane["condensing_flow_kg_per_m2_s"].as_f64())
        .sum();
    assert!(entering > 0.0, "{winter}");
    assert_relative_eq!(entering - leaving, stays, max_relative = 1e-9);
    assert!(leaving.abs() < 1e-6 * entering, "{leaving} of {entering}");
}

// Two conductivities that jump at a temperature never settle.
fn never_settles() -> String {
    let curve = |jump: &str, cold: &str, warm: &str| {
        format!(
            "conductivity: {{nominal: 0.05 W/mK, by-temperature: [{{mean: {jump} C, value: {cold} W/mK}}, {{mean: {jump}.001 C, value: {warm} W/mK}}]}}"
        )
    };
    let layers = "      - {name: a, material: odd, thickness: 2 in}\n      - {name: b, material: even, thickness: 2 in}\n";
    wall(
        &(layers.to_owned() + SHEATHING),
        &format!(
            "materials:\n  odd: {{kind: insulation, {}, vapor: 10 perm-in}}\n  even: {{kind: insulation, {}, vapor: 10 perm-in}}\n",
            curve("15", "0.001", "100"),
            curve("10", "100", "0.001")
        ),
    )
}

#[rstest]
#[case(&["check", "p.yaml"])]
#[case(&["compare", "p.yaml"])]
fn what_does_not_settle_is_said(#[case] command: &[&str]) {
    let output = run(&never_settles(), command);
    let told = stdout(&output);
    assert!(told.contains("aren't settled"), "{told}");
    let fails = told
        .lines()
        .next()
        .is_some_and(|line| line.contains("fail"));
    let expected = match (fails, command[0]) {
        (true, "check") => 1,
        _ => 4,
    };
    assert_eq!(code(&output), expected, "{told}");
}

// Neither drawings nor the packet said so.
#[rstest]
#[case(&["plot", "p.yaml", "-o", "out"], "svg")]
#[case(&["packet", "p.yaml", "-o", "out", "--html"], "html")]
fn what_is_drawn_of_it_says_so(#[case] command: &[&str], #[case] kind: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("p.yaml"), never_settles()).expect("written");
    let mut program = program(".");
    let output = program.current_dir(folder.path()).args(command).output();
    let output = output.expect("the program starts");
    let written = std::fs::read_dir(folder.path().join("out")).expect("a folder of files");
    let paths = written.map(|entry| entry.expect("an entry").path());
    let drawn: String = paths
        .filter(|path| path.extension().is_some_and(|ending| ending == kind))
        .map(|path| std::fs::read_to_string(path).expect("text"))
        .collect();
    assert!(drawn.contains("Not settled"), "{}", stderr(&output));
}

// A sky of −200 K printed −770 °F.
#[rstest]
#[case("night-sky: 200 K")]
#[case("sun-in-winter: -200 K")]
#[case("sun-in-summer: 61 K")]
fn an_outer_surface_is_bounded(#[case] key: &str) {
    let text = wall(
        &(LINING.to_owned() + SHEATHING),
        &format!("    outer-surface: {{{key}}}\n"),
    );
    refused(&text, "expected -15 K to 60 K");
}

// A name that ends the line and sets another verdict below it; one that takes the line back; one that
// writes from right to left.
#[rstest]
#[case::escape("\\e[2K\\rwall pass", "U+001B")]
#[case::line("wall\\npass", "U+000A")]
#[case::carriage_return("wall\\rpass", "U+000D")]
#[case::next_line("wall\\Npass", "U+0085")]
#[case::control_sequence("wall\\x9b2K", "U+009B")]
#[case::right_to_left("wall\\u202epass", "U+202E")]
fn names_have_no_hidden_characters(
    #[case] name: &str,
    #[case] told: &str,
    #[values("assembly", "layer", "variant", "climate", "title")] place: &str,
) {
    let name = format!("\"{name}\"");
    let layers = |lining: &str| {
        format!(
            "      - {{name: {lining}, material: gypsum board, thickness: 1/2 in}}\n{SHEATHING}"
        )
    };
    let plain = wall(&layers("lining"), "");
    let text = match place {
        "assembly" => plain.replace("  wall:\n", &format!("  {name}:\n")),
        "layer" => wall(&layers(&name), ""),
        "variant" => plain + &format!("variants:\n  {name}:\n    wall:\n      remove: lining\n"),
        "climate" => plain.replace("climate: wet-coast", &format!("climate: {name}")),
        _ => plain + &format!("project: {{title: {name}}}\n"),
    };
    let output = run(&text, &["check", "p.yaml"]);
    let message = stderr(&output);
    assert_eq!(code(&output), 2, "{message}");
    // A title has lines of its own, and is told to have one.
    let says = message.contains(told) || place == "title" && message.contains("line");
    assert!(says, "{message}");
    let hidden = |c: &char| c.is_control() && *c != '\n' || *c == '\u{202e}';
    assert!(!message.chars().any(|c| hidden(&c)), "{message:?}");
    // Nor is a second mistake made of the first.
    assert!(!message.contains("has no assemblies"), "{message}");
}

// The capital of `ı` is `I`: a slice by bytes of the small letter panicked.
#[rstest]
#[case("rsı 2.3")]
#[case("rſi 2")]
#[case("R\u{301}-13")]
fn letters_of_several_bytes_are_refused(#[case] value: &str) {
    let layer = format!(
        "      - {{name: studs, material: plywood, thickness: 3-1/2 in, r-value: {value}}}\n"
    );
    refused(
        &wall(&(LINING.to_owned() + &layer), ""),
        "doesn't start with a number",
    );
}

// Rows of the same minute have no time between them: a division by zero.
#[test]
fn rows_of_one_minute_are_no_step() {
    let folder = tempfile::tempdir().expect("a folder");
    let rows = "12/31 24:00,5,80\n01/01 00:00,5,80\n".repeat(60);
    let csv = format!("time,temperature C,humidity %\n{rows}");
    std::fs::write(folder.path().join("c.csv"), csv).expect("written");
    let text = wall(&(LINING.to_owned() + SHEATHING), "").replace("wet-coast", "c.csv");
    std::fs::write(folder.path().join("p.yaml"), text).expect("written");
    let mut command = program(".");
    command.current_dir(folder.path());
    let output = command
        .args(["check", "p.yaml"])
        .output()
        .expect("the program starts");
    assert_eq!(code(&output), 2, "{}", stderr(&output));
    assert!(stderr(&output).contains("c.csv"), "{}", stderr(&output));
}

// Work that grew with the square of a name's length, and 24,000 mistakes told in full.
#[rstest]
#[case::long_names(&format!("material: {}", "x".repeat(50_000)))]
#[case::many_keys(&(0..24_000).map(|n| format!("key{n}: 1")).collect::<Vec<_>>().join(", "))]
fn small_files_are_quick(#[case] keys: &str) {
    let layer = format!("      - {{name: a, {keys}}}\n");
    let own = format!(
        "materials:\n  {}: {{kind: wood, vapor: 1 perm}}\n",
        "y".repeat(50_000)
    );
    let start = Instant::now();
    let output = run(
        &wall(&(LINING.to_owned() + &layer), &own),
        &["check", "p.yaml"],
    );
    assert_eq!(code(&output), 2);
    let told = stderr(&output).matches("error:").count();
    assert!(told <= 50, "{told}");
    // Seconds on any machine; it was minutes.
    assert!(start.elapsed() < Duration::from_secs(60));
}
