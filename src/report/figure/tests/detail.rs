//! What holds for the figures of details.

use std::sync::OnceLock;

use rstest::rstest;

use super::super::detail::{compare, draw};
use super::super::sheet::Figure;
use super::{WALL, clipped, collisions, is_well_formed, lettering, project};
use crate::model::drawn::{
    CrossMembers, DetailCase, FloorEdge, FoamReach, Plate, Rail, RailShape, RoofEdge,
};
use crate::model::{Assembly, AssemblyKind, Project};
use crate::quantity::{Dimension, Length, Style, Temperature, UnitSystem};
use crate::report::figure::Best;
use crate::study::{JudgedDetail, Study};

fn length(inches: f64) -> Length {
    Length::from_m(inches * crate::quantity::unit::INCH)
}

fn assembly(project: &Project, variant: Option<&str>) -> Assembly {
    let mut cases = project.cases.iter();
    let found = cases.find(|case| case.variant.as_deref() == variant);
    found.expect("a case").assembly.clone()
}

fn edge(floor: &Assembly, wall: &Assembly, variant: Option<&str>, wide: f64) -> DetailCase {
    let mut floor = floor.clone();
    floor.strips[0].width = length(wide);
    let member = || Plate {
        substance: None,
        thickness: length(1.5),
    };
    let metal = floor.strips[0].metal.clone();
    let edge = FloorEdge {
        name: "floor edge".into(),
        variant: variant.map(str::to_owned),
        flange: 0,
        deck: None,
        rail: Some(Rail {
            shape: RailShape::Tube,
            conductivity: metal.conductivity.expect("steel conducts").as_si(),
            substance: (*metal).clone(),
            hollow: true,
            height: Some(length(6.0)),
            width: Some(length(2.0)),
            thickness: length(0.1875),
        }),
        plate: member(),
        rim_joist: member(),
        reach: None,
        seal: None,
        corner: true,
        foam: FoamReach::PlateInnerEdge,
        inboard: length(24.0),
        up: length(24.0),
        floor,
        wall: wall.clone(),
    };
    edge.draw().expect("it can be built")
}

/// Fern Hollow's floor with its edge in four ways, a cross member, and the edge of a roof.
pub(super) fn with_details() -> Project {
    let mut all = project(super::FLOOR);
    let wall = assembly(&project(WALL), None);
    let variants = [
        (None, 4.0),
        (Some("foam over flange"), 4.0),
        (Some("foam under finish floor"), 6.0),
        (Some("foam over flange"), 6.0),
    ];
    let mut details: Vec<DetailCase> = variants
        .iter()
        .map(|(variant, wide)| edge(&assembly(&all, *variant), &wall, *variant, *wide))
        .collect();
    details[3].name = "wide floor edge".into();
    let members = CrossMembers {
        name: "cross member".into(),
        variant: None,
        floor: assembly(&all, None),
        strip: 0,
        pitch: length(24.0),
        height: None,
        web: None,
    };
    details.push(members.draw().expect("it can be built"));
    let roof = RoofEdge {
        name: "roof edge".into(),
        variant: None,
        roof: Assembly {
            name: "roof".into(),
            kind: AssemblyKind::Roof,
            ..wall.clone()
        },
        wall,
        plates: length(3.0),
        corner: true,
        inboard: length(24.0),
        down: length(24.0),
    };
    details.push(roof.draw().expect("it can be built"));
    all.details = details;
    all
}

/// The same solved once for all tests.
pub(in crate::report::figure) fn solved() -> (&'static Project, &'static [JudgedDetail<'static>]) {
    static PROJECT: OnceLock<Project> = OnceLock::new();
    static DETAILS: OnceLock<Vec<JudgedDetail<'static>>> = OnceLock::new();
    let project = PROJECT.get_or_init(with_details);
    (project, DETAILS.get_or_init(|| Study::of(project).details))
}

fn figures(details: &[JudgedDetail<'_>], project: &Project, units: UnitSystem) -> Vec<Figure> {
    let style = Style { units };
    let mut figures: Vec<Figure> = details
        .iter()
        .map(|one| draw(project, one, style))
        .collect();
    let best = details.get(1).and_then(|one| one.case.variant.as_deref());
    figures.extend(compare(project, details, Best(Some(best)), style));
    figures
}

#[rstest]
fn details_are_drawn_without_overlap_or_clipping(
    #[values(UnitSystem::Imperial, UnitSystem::Metric)] units: UnitSystem,
) {
    let (project, details) = solved();
    for figure in &figures(details, project, units) {
        sound(figure);
        assert!(figure.labels.len() > 25 && figure.drawing.svg().len() < 200_000);
    }
}

/// Nothing overlaps, nothing is clipped, every width is known, every element is closed.
fn sound(figure: &Figure) {
    assert_eq!(collisions(figure), []);
    assert_eq!(clipped(figure), Vec::<&str>::new());
    assert!(is_well_formed(&figure.drawing.svg()));
    for label in &figure.labels {
        assert_eq!(lettering::lacks(&label.text), [], "{}", label.text);
    }
}

fn says(figure: &Figure, words: &str) -> bool {
    let all: Vec<&str> = figure
        .labels
        .iter()
        .map(|label| label.text.as_str())
        .collect();
    all.join(" ").contains(words)
}

#[test]
fn the_same_detail_gives_the_same_bytes() {
    let (project, details) = solved();
    let again = Project {
        details: vec![project.details[1].clone()],
        ..project.clone()
    };
    let style = Style {
        units: UnitSystem::Imperial,
    };
    let one = draw(project, &details[1], style);
    assert_eq!(
        one.drawing,
        draw(&again, &Study::of(&again).details[0], style).drawing
    );
}

#[test]
fn the_numbers_drawn_are_the_results() {
    let (project, details) = solved();
    let style = Style {
        units: UnitSystem::Imperial,
    };
    let one = &details[0];
    let result = one.result().as_ref().expect("it is solved");
    let figure = draw(project, one, style);
    let psi = result.psi.expect("a reference");
    let flow = result.conduction.heat_flow;
    let floor = Temperature::from_celsius(result.surfaces[0].usual.point.temperature);
    for words in [
        style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar),
        style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar),
        style.show(floor),
        one.verdict.status.word().to_owned(),
        "4 in flange".to_owned(),
    ] {
        assert!(says(&figure, &words), "{words}");
    }
    let compared = compare(
        project,
        details,
        Best(Some(details[1].case.variant.as_deref())),
        style,
    );
    let best = compared.as_ref().expect("two of a kind").labels.iter();
    assert_eq!(
        best.filter(|label| label.text == "best by the rule")
            .count(),
        // Both details of that option.
        2
    );
}

#[test]
fn a_detail_that_cannot_be_solved_is_drawn_with_the_reason() {
    let mut project = with_details();
    project.details.truncate(2);
    project.details[0].regions.pop();
    let details = Study::of(&project).details;
    assert!(details[0].result().is_err());
    let all = figures(&details, &project, UnitSystem::Imperial);
    for figure in &all {
        sound(figure);
    }
    assert!(says(&all[0], "No result. It can't be put together"));
    assert!(says(&all[0], "4 in flange"));
    assert!(all[0].labels.iter().any(|label| label.text == "depends"));
}

#[test]
fn an_unsettled_result_says_so_on_its_face() {
    let (project, details) = solved();
    let mut details = details[..2].to_vec();
    details[1].sites[0]
        .result
        .as_mut()
        .expect("solved")
        .conduction
        .settled = false;
    let all = figures(&details, project, UnitSystem::Metric);
    assert!(says(&all[1], "Not settled") && !says(&all[0], "Not settled"));
    assert!(says(all.last().expect("compared"), "Not settled"));
    sound(&all[1]);
}

#[test]
fn markup_in_the_names_of_a_detail_stays_text() {
    let (project, details) = solved();
    let mut hostile = project.details[0].clone();
    hostile.name = "<script>alert(\"1\")</script> & 日本".into();
    for one in &mut hostile.blocks {
        one.block.name = format!("</text><b>{}", one.block.name);
    }
    let mut details = details[..2].to_vec();
    details[0].case = &hostile;
    for figure in figures(&details, project, UnitSystem::Imperial) {
        assert!(is_well_formed(&figure.drawing.svg()));
        assert!(!figure.drawing.svg().contains("<script") && !figure.drawing.svg().contains("<b>"));
        assert_eq!(clipped(&figure), Vec::<&str>::new());
    }
}

/// Every length of a detail times a factor.
fn scaled(case: &mut DetailCase, factor: f64) {
    case.width *= factor;
    case.height *= factor;
    let areas = case.blocks.iter_mut().map(|one| &mut one.block.area);
    let areas = areas.chain(case.regions.iter_mut().map(|one| &mut one.area));
    let areas = areas.chain(case.surfaces.iter_mut().map(|one| &mut one.line));
    for area in areas.chain(case.dimensions.iter_mut().map(|one| &mut one.line)) {
        area.left *= factor;
        area.right *= factor;
        area.bottom *= factor;
        area.top *= factor;
    }
}

#[rstest]
#[case::nothing(0.0)]
#[case::tiny(1e-6)]
#[case::large(1e3)]
#[case::beyond_all(1e12)]
fn absurd_sizes_of_a_detail_stay_on_the_sheet(#[case] factor: f64) {
    let mut project = with_details();
    project.details = vec![project.details[1].clone(), project.details[4].clone()];
    for case in &mut project.details {
        scaled(case, factor);
    }
    let details = Study::of(&project).details;
    for figure in figures(&details, &project, UnitSystem::Imperial) {
        assert_eq!(clipped(&figure), Vec::<&str>::new());
        assert_eq!(collisions(&figure), []);
    }
}
