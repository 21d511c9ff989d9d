//! Any text as a project file: it resolves, or every problem is told with its place.
#![no_main]

use dewmargin::input::resolve_text;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    if let Err(error) = resolve_text("p.yaml", text) {
        assert!(!error.problems.is_empty());
        let told = error.to_string();
        assert!(!told.contains(|c: char| c.is_control() && c != '\n' && c != '\t'), "{told:?}");
    }
});
