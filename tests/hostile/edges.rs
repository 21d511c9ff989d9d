//! Files at the edge of what the methods can tell: a right answer, a clear error, or a mark, and soon.

use std::fmt::Write;
use std::time::{Duration, Instant};

use rstest::rstest;

use super::{refused, run, wall};
use crate::support::{code, stderr, stdout};

/// Far above what any of these takes, far below what they took.
const BOUND: Duration = Duration::from_secs(60);

// U came out as NaN.
#[test]
fn strips_of_the_whole_deck_are_a_layer() {
    let text = "indoor: {heating: 68 F, humidity: 50 %}
climate: wet-coast
assemblies:
  floor:
    kind: floor
    layers:
      - {name: deck, material: plywood, thickness: 3/4 in}
      - {name: foam, material: XPS, thickness: 1 in}
    strips:
      - {name: s, metal: carbon steel, thickness: 1/4 in, width: 96 in, across: 96 in, under: deck}
";
    let message = refused(text, "as wide as the deck");
    assert!(message.contains("put it among `layers:`"), "{message}");
}

// The errors of the hand-checks were `+NaN %`: no heat flows.
#[test]
fn a_room_as_warm_as_outdoors_has_no_error_of_the_heat_flow() {
    let text = std::fs::read_to_string(
        crate::support::repository().join("examples/cabin-cross-members.yaml"),
    );
    let text = text.expect("the example");
    let heating = text.split_once("heating: ").expect("a set point").1;
    let (heating, _) = heating.split_once(',').expect("more of the room");
    let text = text.replace(&format!("heating: {heating},"), "heating: 5.0 C,");
    let text = text.replace(
        "climate: wet-coast",
        "outdoor: {winter-mean: {temperature: 5.0 C, humidity: 80 %}}",
    );
    for command in [
        &["check", "p.yaml", "--full"][..],
        &["check", "p.yaml", "--format", "json"],
        &["explain", "p.yaml"],
        &["packet", "p.yaml", "-o", "packet", "--html"],
    ] {
        let output = run(&text, command);
        assert!(
            matches!(code(&output), 0 | 1),
            "{command:?} {}",
            stderr(&output)
        );
        assert!(
            !stdout(&output).contains("NaN"),
            "{command:?} {}",
            stdout(&output)
        );
    }
}

#[test]
fn a_layer_has_a_thickness_that_can_be() {
    let layer = "      - {name: lining, material: plywood, thickness: 1e-300 m}\n";
    let message = refused(&wall(layer, ""), "is out of range");
    assert!(
        message.contains("expected 0.001 mm to 78.75 in (0.001 mm to 2 m)"),
        "{message}"
    );
}

// 168 ways through one assembly took 17 s.
#[test]
fn an_assembly_has_no_more_ways_through_it_than_can_be_followed() {
    let mut layers = String::new();
    let mut strips = "    strips:\n".to_owned();
    for n in 0..20 {
        let framing = match n {
            0..3 => format!(
                ", framing: {{material: spruce-pine-fir, share: {} %, crosswise: true}}",
                10 + n
            ),
            _ => String::new(),
        };
        let _ = writeln!(
            layers,
            "      - {{name: l{n}, material: plywood, thickness: 1/2 in{framing}}}"
        );
        let _ = writeln!(
            strips,
            "      - {{name: s{n}, metal: carbon steel, thickness: 1/4 in, width: 1 in, across: 100 in, under: l{n}}}"
        );
    }
    let message = refused(&wall(&layers, &strips), "more than can be followed");
    assert!(message.contains("158 ways"), "{message}");
}

/// Squares of steel and foam in turn, so many each way.
fn checkerboard(count: usize) -> String {
    let mut text = wall(
        "      - {name: a, material: plywood, thickness: 1 in}\n",
        "",
    );
    text += "details:\n  d:\n    cut: {width: 12 in, height: 8 in}\n    rectangles:\n";
    let (width, height) = (12.0 / count as f64, 4.0 / count as f64);
    for column in 0..count {
        for row in 0..count {
            let material = match (column + row) % 2 {
                0 => "XPS",
                _ => "carbon steel",
            };
            let (left, bottom) = (column as f64 * width, row as f64 * height);
            let _ = writeln!(
                text,
                "      - {{name: r{column}-{row}, material: {material}, from: [{left:.6} in, {bottom:.6} in], to: [{:.6} in, \
                 {:.6} in]}}",
                left + width,
                bottom + height
            );
        }
    }
    text + "    air: [{name: room, from: [0, 4 in], to: [12 in, 8 in]}]\n    \
            faces: [{name: under, from: [0, 0], to: [12 in, 0], air: outdoors}]\n"
}

// Two by two ended with code 4 after seconds, ten by ten took half a minute and 0.6 GB.
#[test]
fn corners_where_metal_and_foam_meet_crosswise_are_bracketed() {
    for count in [2, 6] {
        let start = Instant::now();
        let output = run(&checkerboard(count), &["check", "p.yaml", "--full"]);
        assert!(start.elapsed() < BOUND, "{count}: {:?}", start.elapsed());
        assert!(matches!(code(&output), 0 | 1), "{}", stdout(&output));
        let told = crate::support::one_line(&stdout(&output));
        assert!(told.contains("stands between finite volumes"), "{told}");
    }
}

// Every one of them was taken as it stood.
#[rstest]
#[case::cold_room("heating: 68 F", "heating: -40 F", "`-40 F` is implausibly cold here")]
#[case::hot_room("heating: 68 F", "heating: 68 C", "`68 C` is implausibly hot here")]
#[case::wide_member("width: 1.5 in", "width: 15 ft", "`15 ft` is implausibly large here")]
#[case::far_apart("spacing: 16 in", "spacing: 16 m", "`16 m` is implausibly large here")]
#[case::thin_member(
    "width: 1.5 in",
    "width: 0.001 in",
    "`0.001 in` is implausibly small here"
)]
#[case::wide_strip("width: 4 in", "width: 400 ft", "`400 ft` is implausibly large here")]
#[case::wide_deck(
    "across: 96 in",
    "across: 96 in, count: 1, under: deck}\n      - {name: t, metal: aluminum, thickness: 1/8 in, width: 1 in, across: 960 ft",
    "`960 ft` is implausibly large here"
)]
fn a_value_is_what_its_key_can_have(#[case] from: &str, #[case] to: &str, #[case] words: &str) {
    let text = "indoor: {heating: 68 F, humidity: 50 %}
climate: wet-coast
assemblies:
  floor:
    kind: floor
    layers:
      - {name: deck, material: plywood, thickness: 3/4 in}
      - {name: bay, material: R-21 batt, thickness: 5-1/2 in, framing: {material: spruce, width: 1.5 in, spacing: 16 in}}
    strips:
      - {name: s, metal: carbon steel, thickness: 1/4 in, width: 4 in, across: 96 in, under: deck}
";
    assert!(text.contains(from));
    refused(&text.replacen(from, to, 1), words);
}
