//! Which hand calculations a packet has.

use rstest::rstest;

use super::packet;
use crate::support::{code, program, repository, stderr};

/// The page of a floor with its edge.
fn page(which: &[&str]) -> String {
    let file = repository().join("examples/cabin-floor.yaml");
    let folder = packet(&file, &[&["--html"], which].concat());
    super::page(folder.path())
}

const DEW_POINT: &str = "Dew point of the room air";
const TRANSMITTANCE: &str = "floor: thermal transmittance U";
const PSI: &str = "linear thermal transmittance psi";
const FIN: &str = "hand-check, fin";

/// What decides is there unless something else is asked for; psi and the estimates beside the detail,
/// which decide nothing, only where all is.
#[rstest]
#[case::as_ever(&[], &[DEW_POINT, TRANSMITTANCE], &[PSI, FIN])]
#[case::deciding(&["--calculations", "deciding"], &[DEW_POINT, TRANSMITTANCE], &[PSI, FIN])]
#[case::all(&["--calculations", "all"], &[DEW_POINT, TRANSMITTANCE, PSI, FIN], &[])]
fn they_are_those_asked_for(
    #[case] asked: &[&str],
    #[case] there: &[&str],
    #[case] missing: &[&str],
) {
    let page = page(asked);
    let calculations: Vec<&str> = page.split("<details>").skip(1).collect();
    let calculations = calculations.concat();
    for title in there {
        assert!(calculations.contains(title), "no `{title}`");
    }
    for title in missing {
        assert!(!calculations.contains(title), "`{title}` unasked");
    }
    // The place that decides has one of its own: the wood at the steel.
    assert!(calculations.contains("subfloor inboard of the plate"));
}

#[test]
fn none_leaves_nothing_of_them() {
    let page = page(&["--calculations", "none"]);
    assert!(!page.contains("<details>") && !page.contains("By hand"));
}

#[test]
fn a_wrong_word_lists_the_right_ones() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut command = program("examples");
    command.args(["packet", "cabin-wall.yaml", "--calculations", "some", "-o"]);
    let output = command.arg(folder.path().join("out")).output();
    let output = output.expect("the program starts");
    assert_eq!(code(&output), 2);
    let told = stderr(&output);
    for word in ["deciding", "all", "none"] {
        assert!(told.contains(word), "{told}");
    }
}
