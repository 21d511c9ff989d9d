//! The corners of the materials' ranges, against all of them, and rooms that get damper.
//!
//! A section of n properties with a known spread has 2ⁿ corners; here each of them is solved and judged
//! at its values, and the worst and the best word of every check compared with those that the search
//! finds.

use dewmargin::check::{self, Check, Finding, Status, judge_nominal};
use dewmargin::input::resolve_text;
use dewmargin::model::{Project, Property};
use dewmargin::solve::solve;
use dewmargin::study::Study;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use rayon::prelude::*;
use rstest::rstest;

use super::config;
use super::verdict::{House, houses};

/// Sections in the suite; `SECTIONS` asks for others.
const SECTIONS: usize = 20;
/// Properties of a section at most; `PROPERTIES` asks for others.
const PROPERTIES: usize = 8;

fn asked(name: &str, usual: usize) -> usize {
    let asked = std::env::var(name).ok().and_then(|text| text.parse().ok());
    asked.unwrap_or(usual)
}

const RANGED: [&Check; 6] = [
    &check::drying::CHECK,
    &check::air_leak::CHECK,
    &check::inward_leak::CHECK,
    &check::year::CHECK,
    &check::room_surface::CONDENSATION,
    &check::room_surface::MOLD,
];

fn judged<'f>(findings: &'f [Finding], check: &Check) -> Option<&'f Finding> {
    let mut all = findings.iter();
    all.find(|finding| finding.check == check && finding.status != Status::Note)
}

/// Severities of the ranged checks with every property at one end: bit n is the n-th one's.
fn at_corner(project: &Project, spread: &[Property], bits: usize) -> [Option<u8>; 6] {
    let mut case = project.cases[0].clone();
    for (n, property) in spread.iter().enumerate() {
        let factor = match bits >> n & 1 {
            0 => property.spread.low,
            _ => property.spread.high,
        };
        case.assembly.multiply(property, factor);
    }
    let stop = &project.stops[0];
    let result = solve(&case.assembly, &stop.conditions);
    let verdict = judge_nominal(&case, stop, &result);
    RANGED.map(|check| Some(judged(&verdict.findings, check)?.status.severity()))
}

#[test]
fn no_corner_is_worse_than_the_adverse_one() {
    let (sections, most) = (asked("SECTIONS", SECTIONS), asked("PROPERTIES", PROPERTIES));
    let mut runner = TestRunner::new(config(1));
    let (mut seen, mut compared, mut missed) = (0, 0, Vec::new());
    while seen < sections {
        let drawn = (houses(), 25.0..70.0_f64)
            .new_tree(&mut runner)
            .expect("a section");
        let (house, humidity) = drawn.current();
        let project = house.project(humidity);
        let all = project.cases[0].assembly.properties();
        let spread: Vec<Property> = all
            .into_iter()
            .filter(|one| one.spread.is_known())
            .collect();
        if spread.len() > most {
            continue;
        }
        seen += 1;
        let corners = (0..1_usize << spread.len()).into_par_iter();
        let corners: Vec<[Option<u8>; 6]> = corners
            .map(|bits| at_corner(&project, &spread, bits))
            .collect();
        let study = Study::of(&project);
        let findings = &study.assemblies[0].verdict.findings;
        for (n, check) in RANGED.into_iter().enumerate() {
            let Some(range) = judged(findings, check).and_then(|one| one.range.as_deref()) else {
                continue;
            };
            let severities = || corners.iter().filter_map(|corner| corner[n]);
            let (worst, best) = (severities().max(), severities().min());
            let found = (range.adverse.severity(), range.kind.severity());
            compared += 1;
            if (Some(found.0), Some(found.1)) != (worst, best) {
                missed.push(format!(
                    "{check:?} {found:?}, all: {worst:?} {best:?}; {house:?} {humidity}"
                ));
            }
        }
    }
    println!(
        "{seen} sections, {compared} checks compared, {} missed",
        missed.len()
    );
    assert!(compared > 3 * sections, "{compared}");
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}

/// Roofs in whose closed-cell foam a permeance acts one way or the other as the room gets damper. Moving
/// one property at a time from the nominal values called the first `depends` at 47 and 48 %, `pass` at
/// 49 % and `depends` from 50 % on.
#[rstest]
#[case("", "plywood", "2 in")]
#[case("{name: film, material: polyamide film}", "plywood", "2 in")]
#[case("{name: film, material: polyamide film}", "OSB", "2 in")]
#[case("{name: film, material: kraft facing}", "plywood", "2 in")]
fn a_damper_room_is_never_better(#[case] film: &str, #[case] deck: &str, #[case] foam: &str) {
    let deck = format!("{{name: deck, material: {deck}, thickness: 5/8 in}}");
    let foam = format!("{{name: foam, material: polyiso, thickness: {foam}}}");
    let layers = [
        "{name: ceiling, material: white pine, thickness: 3/4 in}",
        film,
        "{name: bay, material: closed-cell spray foam, thickness: 5-1/2 in}",
        &deck,
        &foam,
        "{name: roofing, material: EPDM, thickness: 60 mil}",
    ];
    let layers: String = layers
        .iter()
        .filter(|layer| !layer.is_empty())
        .map(|layer| format!("      - {layer}\n"))
        .collect();
    let severities = (36..60).map(|humidity| {
        let text = format!(
            "indoor: {{heating: 68 F, cooling: 75 F, humidity: {humidity} %}}\n\
             climate: cold-continental\nassemblies:\n  roof:\n    kind: roof\n    layers:\n{layers}"
        );
        let project = resolve_text("roof.yaml", &text).unwrap_or_else(|error| panic!("{error}"));
        let study = Study::of(&project);
        let findings = &study.assemblies[0].verdict.findings;
        judged(findings, &check::year::CHECK)
            .expect("judged")
            .status
            .severity()
    });
    let severities: Vec<u8> = severities.collect();
    assert!(severities.is_sorted(), "{severities:?}");
    assert!(severities.first() < severities.last(), "{severities:?}");
}

const FLOOR: [&str; 3] = [
    "{name: subfloor, material: plywood, thickness: 3/4 in}",
    "{name: bay, material: closed-cell spray foam, thickness: 5-1/2 in}",
    "{name: pan, material: galvanized steel, thickness: 20 ga}",
];

proptest! {
    #![proptest_config(config(24))]

    #[test]
    fn wood_at_the_steel_is_never_better_in_a_damper_room(
        humidity in 20.0..70.0_f64, more in 0.0..25.0_f64, foam in 0.0..3.0_f64, place in 0..2_usize,
    ) {
        let house = House {
            kind: "floor",
            layers: FLOOR.to_vec(),
            climate: "wet-coast",
            cooling: false,
        };
        let at = ["mid-floor", "edge"][place];
        let over = match foam > 0.5 {
            true => format!("over: [{{name: foam, material: XPS, thickness: {foam:.3} in, bonded: true}}], "),
            false => String::new(),
        };
        // An edge that isn't drawn: the flange is wider than the cut runs inboard.
        let strip = format!(
            "    frame: proud\n    strips:\n      - {{name: flange, metal: carbon steel, thickness: 1/4 in, \
             width: 60 in, across: 96 in, {over}under: subfloor, at: {at}}}\n"
        );
        let severity = |humidity: f64| {
            let text = house.text(humidity) + &strip;
            let project = resolve_text("floor.yaml", &text).unwrap_or_else(|error| panic!("{error}"));
            let study = Study::of(&project);
            let findings = &study.assemblies[0].verdict.findings;
            judged(findings, &check::steel_wood::CHECK).map(|finding| finding.status.severity())
        };
        let (dry, damp) = (severity(humidity), severity(humidity + more));
        prop_assert!(dry.is_some() && dry <= damp, "{dry:?}, {damp:?}");
    }
}
