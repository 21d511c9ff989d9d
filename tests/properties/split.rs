//! However a layer is written: several of one material are the layer they make up.

use dewmargin::check::{self, Check, Finding, Status};
use dewmargin::input::resolve_text;
use dewmargin::quantity::{Length, Quantity};
use dewmargin::study::Study;
use proptest::prelude::*;
use rstest::rstest;

use super::config;
use super::verdict::{House, houses};

/// Materials whose vapor resistance goes by their thickness: halves of a sheet with a permeance of
/// its own are two sheets.
const BY_THICKNESS: [&str; 8] = [
    "white pine",
    "sheep wool",
    "R-13 batt",
    "R-21 batt",
    "cellulose",
    "closed-cell spray foam",
    "XPS",
    "EPS type II",
];

/// A layer in that many parts of the same thickness; `None` where it can't be split.
fn split(layer: &str, parts: usize) -> Option<Vec<String>> {
    let of = |key: &str| {
        let from = layer.find(key)? + key.len();
        let rest = &layer[from..];
        Some(&rest[..rest.find([',', '}'])?])
    };
    let (name, material, thickness) = (of("name: ")?, of("material: ")?, of("thickness: ")?);
    if !BY_THICKNESS.contains(&material) {
        return None;
    }
    let whole = Length::read(thickness).expect("a length").as_m();
    let part = |n: usize| {
        let each = format!("{:.9} m", whole / parts as f64);
        let renamed = layer.replacen(&format!("name: {name}"), &format!("name: {name} {n}"), 1);
        renamed.replacen(thickness, &each, 1)
    };
    Some((1..=parts).map(part).collect())
}

/// Every judged check with its status and its margin.
fn told(findings: &[Finding]) -> Vec<(&'static Check, Status, f64)> {
    let judged = findings.iter().filter(|one| one.status != Status::Note);
    let told = judged.map(|one| {
        let margin = one.margin.map_or(0.0, |margin| margin.as_kelvin());
        (one.check, one.status, margin)
    });
    let mut all: Vec<(&'static Check, Status, f64)> = told.collect();
    all.sort_by_key(|(check, ..)| check.order());
    all
}

proptest! {
    #![proptest_config(config(48))]

    // Conductivity by the layer's own mean temperature makes halves of foam differ from the whole by
    // some hundredths of a kelvin.
    #[test]
    fn splitting_a_layer_changes_nothing(
        house in houses(), humidity in 25.0..70.0_f64, at in any::<prop::sample::Index>(),
        parts in 2..6_usize,
    ) {
        let n = at.index(house.layers.len());
        let Some(pieces) = split(house.layers[n], parts) else {
            return Ok(());
        };
        let mut layers: Vec<&str> = house.layers.clone();
        layers.splice(n..=n, pieces.iter().map(String::as_str));
        let text = house.text_of(&layers, humidity);
        let project = resolve_text("split.yaml", &text).unwrap_or_else(|error| panic!("{error}"));
        let study = Study::of(&project);
        let (whole, parted) = (told(&house.findings(humidity)), told(&study.assemblies[0].verdict.findings));
        prop_assert_eq!(whole.len(), parted.len());
        for (one, other) in whole.iter().zip(&parted) {
            prop_assert_eq!((one.0, one.1), (other.0, other.1), "{:?} in {}", house, parts);
            prop_assert!((one.2 - other.2).abs() < 0.05, "{:?}, {:?}", one, other);
        }
    }
}

/// 9 in of one insulation against a ventilated gap. Written as nine layers, the planes between them
/// used to be judged, down to 12 K under the dew point, and the whole not at all.
#[rstest]
fn nine_inches_are_nine_inches(#[values(1, 2, 4, 9)] parts: usize) {
    let wool = "{name: wool, material: sheep wool, thickness: 9 in}";
    let pieces = split(wool, parts).expect("it can be split");
    let mut layers = vec!["{name: lining, material: plywood, thickness: 1/2 in}"];
    layers.extend(pieces.iter().map(String::as_str));
    layers.push("{name: wrap, material: housewrap}");
    layers.push("{name: gap, air: ventilated, thickness: 3/4 in}");
    let house = House {
        kind: "wall",
        layers: Vec::new(),
        climate: "cold-continental",
        cooling: false,
    };
    let project = resolve_text("wall.yaml", &house.text_of(&layers, 50.0)).expect("a sound file");
    let study = Study::of(&project);
    let findings = &study.assemblies[0].verdict.findings;
    let leak = findings
        .iter()
        .find(|one| one.check == &check::air_leak::CHECK)
        .expect("judged");
    let place = leak.place.as_ref().expect("a place");
    assert!(place.plane.starts_with("lining / wool"), "{}", place.plane);
    let margin = leak.margin.expect("a margin").as_kelvin();
    assert!((8.0..11.0).contains(&margin), "{margin}");
    assert_eq!(leak.status, Status::Pass);
}
