//! What holds for the figures of details.

use rstest::rstest;

use super::super::detail::{compare, draw};
use super::super::sheet::Figure;
use super::{WALL, clipped, collisions, is_well_formed, lettering, project};
use crate::model::drawn::{CrossMembers, DetailCase, FloorEdge, FoamReach, Plate, Rail, RailShape};
use crate::model::{Assembly, Project};
use crate::quantity::{Length, Style, UnitSystem};
use crate::report::{JudgedDetail, judge_details};

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
            substance: metal,
            hollow: true,
            height: Some(length(6.0)),
            width: Some(length(2.0)),
            thickness: length(0.1875),
        }),
        plate: member(),
        rim_joist: member(),
        reach: None,
        foam: FoamReach::PlateInnerEdge,
        inboard: length(24.0),
        up: length(24.0),
        floor,
        wall: wall.clone(),
    };
    edge.draw().expect("it can be built")
}

/// Fern Hollow's floor with its edge in four ways and a cross member.
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
    all.details = details;
    all
}

fn figures(details: &[JudgedDetail<'_>], project: &Project, units: UnitSystem) -> Vec<Figure> {
    let style = Style { units };
    let mut figures: Vec<Figure> = details
        .iter()
        .map(|one| draw(project, one, style))
        .collect();
    figures.push(compare(project, details, Some(1), style));
    figures
}

#[rstest]
#[case(UnitSystem::Imperial)]
#[case(UnitSystem::Metric)]
fn details_are_drawn_without_overlap_or_clipping(#[case] units: UnitSystem) {
    let project = with_details();
    let details = judge_details(&project);
    for (n, figure) in figures(&details, &project, units).iter().enumerate() {
        if let Some(folder) = std::env::var_os("FIGD") {
            let name = format!("{n}-{units:?}.svg");
            std::fs::write(std::path::Path::new(&folder).join(name), &figure.svg).expect("written");
        }
    }
    for figure in figures(&details, &project, units) {
        assert_eq!(collisions(&figure), []);
        assert_eq!(clipped(&figure), Vec::<&str>::new());
        assert!(is_well_formed(&figure.svg));
        assert!(
            figure.svg.len() < 200_000 * details.len(),
            "{}",
            figure.svg.len()
        );
        for label in &figure.labels {
            let known = |c: char| lettering::advance(c, label.bold).is_some();
            assert!(label.text.chars().all(known), "{}", label.text);
        }
    }
}
