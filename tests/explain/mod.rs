//! `dewmargin explain`: every number can be redone from the print alone.
//!
//! The calculator beside this file reads what the program prints and knows nothing of its formulas.
//! A value on the way agrees to within one in its last place, a result to its last digit.

mod asked;
mod calculator;
mod published;

use std::collections::HashMap;

use dewmargin::quantity::{Style, UnitSystem};
use dewmargin::report::explain::{Derivation, Entry, derivation_text, entries};
use dewmargin::study::Study;
use rstest::rstest;

use crate::support::repository;
use calculator::{Line, evaluate, last_place, lines, number};

const BOTH: [UnitSystem; 2] = [UnitSystem::Imperial, UnitSystem::Metric];

/// Runs a closure on everything that can be asked of an example.
fn of_example(file: &str, run: impl FnOnce(&[Entry<'_>])) {
    let path = repository().join("examples").join(file);
    let project = dewmargin::input::read_project(&path).expect("an example");
    let judged = Study::of(&project).assemblies;
    let details = Study::of(&project).details;
    run(&entries(&judged, &details));
}

/// Redoes every line of a derivation from its print; how many lines had a formula.
fn redo(derivation: &Derivation) -> usize {
    let text = derivation_text(derivation).set(100);
    let mut known: HashMap<String, f64> = HashMap::new();
    let mut redone = 0;
    for line in lines(&text) {
        let printed = number(&line.number).unwrap_or_else(|| panic!("no number: {line:?}"));
        if !line.formula.is_empty() {
            let place = &derivation.place;
            let values = evaluate(&line.with_values, &HashMap::new());
            let values = values.unwrap_or_else(|| panic!("{place}: values missing in {line:?}"));
            agrees(place, &line, values, printed);
            // The same numbers stand wherever their symbols do.
            if let Some(symbols) = evaluate(&line.formula, &known) {
                agrees(place, &line, symbols, printed);
            }
            redone += 1;
        }
        known.insert(line.symbol.clone(), printed);
    }
    let of_results = derivation.steps.iter().filter(|step| step.is_result);
    for step in of_results {
        let values = evaluate(&step.with_values, &HashMap::new()).expect("values");
        let decimals = step
            .result
            .number
            .split_once('.')
            .map_or(0, |(_, part)| part.len());
        let again = format!("{values:.decimals$}").replace('-', "−");
        assert_eq!(again, step.result.number, "{}: {step:?}", derivation.place);
    }
    redone
}

fn agrees(place: &str, line: &Line, again: f64, printed: f64) {
    let off = (again - printed).abs();
    let bound = last_place(&line.number) * (1.0 + 1e-9);
    assert!(
        off <= bound,
        "{place}: {again} is not {printed} in {line:?}"
    );
}

#[rstest]
#[case::floor("cabin-floor.yaml", 100, 1_500)]
#[case::wall("cabin-wall.yaml", 20, 400)]
#[case::roof("cabin-roof.yaml", 15, 250)]
#[case::edge("cabin-floor-edge.yaml", 100, 2_000)]
fn every_number_is_redone_from_the_print(
    #[case] file: &str,
    #[case] derivations: usize,
    #[case] formulas: usize,
) {
    of_example(file, |all| {
        assert!(all.len() >= derivations, "{} derivations", all.len());
        for units in BOTH {
            let style = Style { units };
            let redone: usize = all.iter().map(|entry| redo(&entry.derive(style))).sum();
            assert!(redone >= formulas, "{redone} formulas in {units:?}");
        }
    });
}

/// The results asked for by name, with the digits a reviewer needs.
#[rstest]
#[case::u("cabin-wall.yaml", "wall 2x6 / U", &["U", "U''", "e"])]
#[case::bracket("cabin-floor.yaml", "floor / U", &["U''", "R'/R''"])]
#[case::margin("cabin-floor.yaml", "floor / side flange / subfloor / side flange", &["Δθ_d", "Δθ_leak"])]
#[case::diffusion("cabin-wall.yaml", "wall 2x4 / cavity / studs / sheathing", &["Δθ_d"])]
#[case::factor("cabin-roof.yaml", "roof / cavity", &["U", "f_Rsi"])]
#[case::psi("cabin-floor-edge.yaml", "hidden flange / psi", &["psi"])]
fn results_have_three_digits(#[case] file: &str, #[case] place: &str, #[case] symbols: &[&str]) {
    of_example(file, |all| {
        let entry = all.iter().find(|entry| entry.place == place);
        let entry = entry.unwrap_or_else(|| panic!("no {place}"));
        for units in BOTH {
            let derivation = entry.derive(Style { units });
            for symbol in symbols {
                let steps = derivation.steps.iter();
                let step = steps
                    .filter(|step| step.is_result)
                    .find(|step| step.symbol == *symbol);
                let step = step.unwrap_or_else(|| panic!("no {symbol} in {place}"));
                let digits = step.result.number.trim_start_matches(['−', '0', '.']);
                let digits = digits.bytes().filter(u8::is_ascii_digit).count();
                assert!(digits >= 3, "{place}: {:?}", step.result);
            }
        }
    });
}

/// The numbers are those of the report: U and a plane's temperature against the JSON.
#[test]
fn the_numbers_are_the_solved_ones() {
    let report = crate::support::json(&["check", "cabin-floor.yaml"]);
    let solution = &report["cases"][0]["solutions"][0];
    let u = crate::support::number(&solution["u_value_w_per_m2k"]["parallel_path"]);
    of_example("cabin-floor.yaml", |all| {
        let style = Style {
            units: UnitSystem::Metric,
        };
        let derivation = all.iter().find(|entry| entry.place == "floor / U");
        let derivation = derivation.expect("the floor").derive(style);
        let step = derivation.steps.iter().find(|step| step.symbol == "U'");
        let printed = number(&step.expect("U'").result.number).expect("a number");
        assert!((printed - u).abs() < 1e-5, "{printed} {u}");
    });
}
