//! What `check` says to do first, carried out: every remedy of every example makes its own finding
//! better. Our own arithmetic against itself; the checks behind it are tested elsewhere.

use dewmargin::check::Finding;
use dewmargin::input::{read_project, resolve_text};
use dewmargin::model::Project;
use dewmargin::quantity::{Style, UnitSystem};
use dewmargin::report::remedy::measure_words;
use dewmargin::study::remedy::{Measure, Remedy, Told};
use dewmargin::study::{Part, Scope, Study, Subject};
use rstest::rstest;

use crate::support::repository;

const IMPERIAL: Style = Style {
    units: UnitSystem::Imperial,
};

/// The same finding of the same part after a change; `None` where there is nothing left to find.
fn again(after: &Study<'_>, variant: Option<&str>, part: &Part<'_>) -> Option<Finding> {
    let before = part.speaking()?;
    let is_detail = |part: &Part<'_>| matches!(part.subject, Subject::Detail(_));
    let parts = after.parts(variant);
    let same = parts
        .iter()
        .find(|one| one.name == part.name && is_detail(one) == is_detail(part));
    let same = same.expect("the same part after the change");
    let alike = same.verdict.findings.iter();
    let judged = alike.filter(|one| one.is_alike(before) && one.status.word() != "note");
    judged
        .cloned()
        .reduce(|kept, other| match other.is_worse_than(&kept) {
            true => other,
            false => kept,
        })
}

/// Severity and, within it, how far over the limit.
fn rank(finding: Option<&Finding>) -> (u8, f64) {
    finding.map_or((0, f64::NEG_INFINITY), |finding| {
        (finding.status.severity(), finding.excess())
    })
}

fn house_rank(study: &Study<'_>, variant: Option<&str>) -> (u8, f64) {
    let house = study.house(variant).expect("a house");
    let worst = house.worst_first()[0];
    let over = worst.slack().map_or(0.0, |slack| -slack);
    (worst.status.severity(), over)
}

/// Every measure of a part makes its finding better, or is one of those that can only be told.
fn holds(project: &Project, study: &Study<'_>, variant: Option<&str>, part: &Part<'_>) {
    let name = format!("{} under {variant:?}", part.name);
    let Some(remedy) = study.remedy(part) else {
        panic!("{name}: nothing to do about {:?}", part.speaking());
    };
    for measure in &remedy.measures {
        let words = measure_words(measure, IMPERIAL);
        assert!(!words.is_empty(), "{name}");
        let Some(changed) = measure.apply(project, remedy.variant.as_deref()) else {
            assert!(
                is_only_told(measure),
                "{name}: {words} can't be carried out"
            );
            continue;
        };
        // What the measure changes is of one variant, or as drawn.
        let own = remedy.variant.as_deref();
        let after = Study::within(&changed, Scope::Variant(own));
        let (before, after) = match part.subject {
            Subject::House(_) => (house_rank(study, variant), house_rank(&after, own)),
            _ => (
                rank(part.speaking()),
                rank(again(&after, own, part).as_ref()),
            ),
        };
        assert!(
            after.0 < before.0 || after.0 == before.0 && after.1 < before.1,
            "{name}: {words}: {before:?} to {after:?}"
        );
    }
}

fn is_only_told(measure: &Measure) -> bool {
    matches!(
        measure,
        Measure::Told(
            Told::Edition
                | Told::Draw(_)
                | Told::NotLookedAt(_)
                | Told::WoodSeal(_)
                | Told::State(_)
                | Told::Lighter(_)
        )
    )
}

#[rstest]
#[case("cabin.yaml")]
#[case("cabin-cross-members.yaml")]
#[case("cabin-fit.yaml")]
#[case("cabin-floor.yaml")]
#[case("cabin-floor-edge.yaml")]
#[case("cabin-roof.yaml")]
#[case("cabin-route.yaml")]
#[case("cabin-size.yaml")]
#[case("cabin-sweep.yaml")]
#[case("cabin-wall.yaml")]
fn every_remedy_of_an_example_makes_its_finding_better(#[case] file: &str) {
    let project = read_project(&repository().join("examples").join(file)).expect("an example");
    let study = Study::of(&project);
    let mut looked_at = 0;
    for variant in study.options() {
        for part in study.parts(variant) {
            if part.status.severity() > 0 {
                holds(&project, &study, variant, &part);
                looked_at += 1;
            }
        }
    }
    assert!(looked_at > 0, "{file} passes: nothing was looked at");
}

fn remedy_of(text: &str, part: &str) -> (Remedy, String) {
    let project = resolve_text("house.yaml", text).expect("a project");
    let study = Study::of(&project);
    let parts = study.parts(None);
    let part = parts.iter().find(|one| one.name == part).expect("the part");
    let Some(remedy) = study.remedy(part) else {
        panic!("nothing to do about {:?}", part.speaking());
    };
    holds(&project, &study, None, part);
    let words = dewmargin::report::remedy::words(&remedy, IMPERIAL);
    (remedy, words)
}

fn edge(humidity: &str, over: &str) -> String {
    format!(
        "indoor: {{heating: 68 F, humidity: {humidity}}}
climate: cold-continental
assemblies:
  floor:
    kind: floor
    frame: proud
    layers:
      - {{name: finish, material: oak flooring, thickness: 1/2 in}}
      - {{name: subfloor, material: plywood, thickness: 3/4 in}}
      - name: bay
        material: closed-cell spray foam
        thickness: 5-1/2 in
        framing: {{material: spruce-pine-fir, width: 1.5 in, spacing: 16 in}}
      - {{name: pan, material: galvanized steel, thickness: 20 ga}}
    strips:
      - name: flange
        metal: carbon steel
        thickness: 1/4 in
        width: 4 in
        across: 96 in
        count: 2
        under: subfloor
        over: [{over}]
  wall:
    kind: wall
    layers:
      - {{name: lining, material: painted gypsum board, thickness: 1/2 in}}
      - name: studs
        material: R-13 batt
        thickness: 3-1/2 in
        framing: {{material: spruce-pine-fir, share: 25 %}}
      - {{name: sheathing, material: plywood, thickness: 1/2 in}}
      - {{name: rain screen, air: ventilated, thickness: 3/4 in}}
      - {{name: siding, material: cedar siding}}
details:
  edge: {{floor-edge: {{floor: floor, wall: wall, flange: flange, rail: {{shape: tube, material: carbon steel, height: 5 in, width: 2 in, thickness: 3/16 in}}}}}}
"
    )
}

#[test]
fn where_no_board_passes_nothing_says_more_foam() {
    let foam = "{name: foam, material: XPS, thickness: 3-1/2 in, bonded: true}";
    let (remedy, words) = remedy_of(&edge("60 %", foam), "edge");
    for measure in &remedy.measures {
        let is_foam = matches!(measure, Measure::OverStrip(over) if !over.winter_alone);
        assert!(!is_foam, "{words}");
    }
    assert!(!words.contains("more"), "{words}");
}

#[test]
fn loose_foam_is_set_in_adhesive_first() {
    let loose = "{name: foam, material: XPS, thickness: 2 in}";
    // Inland no board saves the corner of so narrow a plate.
    let text = edge("50 %", loose).replace("cold-continental", "wet-coast");
    let (remedy, words) = remedy_of(&text, "edge");
    let Measure::OverStrip(over) = &remedy.measures[0] else {
        panic!("{words}");
    };
    assert_eq!(over.replaces.as_deref(), Some("foam"));
    assert!(
        words.contains("adhesive") || words.contains("bonded"),
        "{words}"
    );
}

#[test]
fn a_leaking_wall_is_sealed_or_gets_a_board_outside() {
    let text = "indoor: {heating: 68 F, humidity: 45 %}
climate: wet-coast
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, material: painted gypsum board, thickness: 1/2 in}
      - name: studs
        material: R-13 batt
        thickness: 3-1/2 in
        framing: {material: spruce-pine-fir, share: 25 %}
      - {name: sheathing, material: plywood, thickness: 1/2 in}
      - {name: wrap, material: housewrap}
      - {name: rain screen, air: ventilated, thickness: 3/4 in}
      - {name: siding, material: cedar siding}
";
    let (remedy, words) = remedy_of(text, "wall");
    let is_seal = |measure: &&Measure| matches!(measure, Measure::Seal { .. });
    let is_board = |measure: &&Measure| matches!(measure, Measure::Outside(_));
    assert!(remedy.measures.iter().any(|one| is_seal(&one)), "{words}");
    assert!(remedy.measures.iter().any(|one| is_board(&one)), "{words}");
}

#[test]
fn a_flange_is_never_told_to_drain() {
    let bare = edge("50 %", "");
    let (_, words) = remedy_of(&bare, "edge");
    assert!(!words.contains("drain"), "{words}");
}
