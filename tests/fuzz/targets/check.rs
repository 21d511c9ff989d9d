//! Projects changed at random through every check and both reports: no number that isn't one.
//!
//! Details are left out: solving one is a million cells, and `tests/random` draws them.
#![no_main]

use dewmargin::input::resolve_text;
use dewmargin::quantity::{NO_NUMBER, Style, UnitSystem};
use dewmargin::report::{json, summary};
use dewmargin::study::Study;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    let Ok(mut project) = resolve_text("p.yaml", text) else {
        return;
    };
    project.details.clear();
    // Work is bounded by what a file may hold, not by what a fuzzer has time for.
    project.cases.truncate(2);
    project.stops.truncate(1);
    let study = Study::of(&project);
    let style = Style {
        units: UnitSystem::Imperial,
    };
    let told = summary::check_text(&study, style).set(80);
    assert!(!told.contains(NO_NUMBER), "{told}");
    let _ = json::report("check", &study);
});
