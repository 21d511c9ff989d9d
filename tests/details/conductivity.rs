//! Conductivities in details at the temperatures they have there.

use approx::assert_relative_eq;
use dewmargin::input::resolve_text;
use dewmargin::model::Project;
use dewmargin::solve::conduction::Precision;
use dewmargin::solve::detail::{DetailResult, solve_detail_case};
use dewmargin::solve::solve;
use rstest::rstest;

/// A plane wall of one board, as a section and as a drawing 300 mm high.
fn board(material: &str, outdoor: &str) -> Project {
    let text = format!(
        "indoor: {{heating: 20 C, humidity: 50 %}}
outdoor: {{winter-mean: {{temperature: {outdoor}, humidity: 80 %}}}}
assemblies:
  wall: {{kind: wall, layers: [{{name: board, material: {material}, thickness: 100 mm}}]}}
details:
  cut:
    cut: {{width: 500 mm, height: 300 mm}}
    rectangles:
      - {{name: board, material: {material}, from: [200 mm, 0], to: [300 mm, 300 mm]}}
    air:
      - {{name: outdoors, from: [0, 0], to: [200 mm, 300 mm]}}
      - {{name: room, from: [300 mm, 0], to: [500 mm, 300 mm]}}
"
    );
    resolve_text("board.yaml", &text).unwrap_or_else(|error| panic!("{error}"))
}

fn solved(project: &Project) -> DetailResult {
    let conditions = &project.stops[0].conditions;
    let result = solve_detail_case(&project.details[0], conditions, &Precision::default());
    result.unwrap_or_else(|failure| panic!("{failure:?}"))
}

// The drawing of a plane wall passes what the section does, whose foam has its conductivity at its own
// mean temperature. With the value at 75 °F foil-faced polyiso was up to 15 % off.
#[rstest]
fn a_drawing_conducts_as_the_section_does(
    #[values("foil-faced polyiso", "polyiso", "XPS", "EPS type II")] material: &str,
    #[values("5 C", "-20 C")] outdoor: &str,
) {
    let project = board(material, outdoor);
    let conditions = &project.stops[0].conditions;
    let section = solve(&project.cases[0].assembly, conditions);
    let path = &section.ends[0].paths[0];
    let span = (conditions.indoor.temperature - conditions.winter_mean.temperature).as_kelvin();
    let by_section = 0.3 * span / path.winter.total_resistance.as_si();
    let detail = solved(&project);
    assert!(detail.conductivity_settled);
    assert_relative_eq!(
        detail.conduction.heat_flow.value,
        by_section,
        max_relative = 1e-4
    );
    let block = &detail.case.blocks[0].block;
    let drawn = project.details[0].blocks[0].block.conductivity.x;
    assert!(
        (block.conductivity.x / drawn - 1.0).abs() > 0.01,
        "{}",
        block.conductivity.x
    );
}

// A conductivity that is stated holds at any temperature.
#[test]
fn a_stated_conductivity_stays() {
    let project = board("XPS, conductivity: 0.03 W/mK", "-20 C");
    let detail = solved(&project);
    assert_eq!(detail.case.blocks[0].block.conductivity.x, 0.03);
}

// Psi is a site's own: the floor's edge in a colder place has colder foam.
#[test]
fn psi_is_told_by_site() {
    let text = crate::support::example(
        "cabin-floor-edge.yaml",
        "climate: wet-coast",
        "climate: [wet-coast, cold-continental]",
    );
    let project = resolve_text("edge.yaml", &text).unwrap_or_else(|error| panic!("{error}"));
    let case = project
        .details
        .iter()
        .find(|one| one.variant.is_some())
        .expect("foam");
    let psi = |site: usize| {
        let conditions = &project.stops[site].conditions;
        let result = solve_detail_case(case, conditions, &Precision::default()).expect("solved");
        result.psi.expect("two airs").value
    };
    let (mild, cold) = (psi(0), psi(1));
    assert!((mild - cold).abs() > 1e-4, "{mild}, {cold}");
}
