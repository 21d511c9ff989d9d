//! The figures that need a climate: the year, its months, the route.

use rstest::rstest;

use super::{FLOOR, Figure, ROOF, WALL, clipped, collisions, is_well_formed, lettering, project};
use crate::check::{self, Detail, Status, year as year_check};
use crate::model::{Project, Stop};
use crate::quantity::{ArealDensity, Length, Style, UnitSystem};
use crate::report::figure::drawing::{Face, Mark};
use crate::report::figure::{calendar, months, route};
use crate::solve::AssemblyResult;
use crate::solve::year::WaterYear;
use crate::study::{Judged, Study};

pub(super) const BOTH: [UnitSystem; 2] = [UnitSystem::Imperial, UnitSystem::Metric];

/// An example in another climate or on a route.
pub(super) fn at(text: &str, climate: &str) -> Project {
    assert!(text.contains("climate: wet-coast"));
    project(&text.replace("climate: wet-coast ", &format!("climate: {climate} ")))
}

/// The walls in a room so humid that they get wet.
pub(super) fn wet_walls(climate: &str) -> Project {
    at(&WALL.replace("humidity: 50 %", "humidity: 62 %"), climate)
}

/// The year, the months and, where there is one, the route of every case.
fn all(project: &Project, judged: &[Judged<'_>], units: UnitSystem) -> Vec<Figure> {
    let style = Style { units };
    let of = |one: &Judged<'_>| {
        [
            calendar::draw(project, one, style),
            months::draw(project, one, style),
            route::draw(project, one, style),
        ]
    };
    judged.iter().flat_map(of).flatten().collect()
}

fn fine(figures: &[Figure]) {
    for figure in figures {
        assert_eq!(collisions(figure), []);
        assert_eq!(clipped(figure), Vec::<&str>::new());
        assert!(is_well_formed(&figure.drawing.svg()));
    }
}

pub(super) fn says(figure: &Figure, words: &str) -> usize {
    figure
        .labels
        .iter()
        .filter(|label| label.text == words)
        .count()
}

/// How often words stand in bold.
pub(super) fn bold(figure: &Figure, words: &str) -> usize {
    let is_so = |mark: &&Mark| match mark {
        Mark::Words { text, face, .. } => text == words && *face == Face::Bold,
        _ => false,
    };
    figure.drawing.marks.iter().filter(is_so).count()
}

#[rstest]
#[case::floor(at(FLOOR, "wet-coast"))]
#[case::roof(at(ROOF, "wet-coast"))]
#[case::wall(at(WALL, "wet-coast"))]
#[case::frost(at(FLOOR, "cold-continental"))]
#[case::cooled(at(WALL, "hot-humid"))]
#[case::wet(wet_walls("cold-continental"))]
#[case::route(wet_walls("[wet-coast, cold-continental, hot-humid]"))]
fn labels_neither_overlap_nor_leave_the_sheet(#[case] project: Project) {
    let judged = Study::of(&project).assemblies;
    for units in BOTH {
        let figures = all(&project, &judged, units);
        let each = if project.stops.len() > 1 { 3 } else { 2 };
        assert_eq!(figures.len(), each * project.cases.len());
        fine(&figures);
        for label in figures.iter().flat_map(|figure| &figure.labels) {
            assert_eq!(lettering::lacks(&label.text), [], "{}", label.text);
        }
        for (one, other) in figures.iter().zip(all(&project, &judged, units)) {
            assert_eq!(one.drawing, other.drawing);
        }
    }
}

#[test]
fn without_a_climate_or_a_route_there_is_nothing_to_draw() {
    let mut project = at(WALL, "wet-coast");
    let style = Style {
        units: UnitSystem::Metric,
    };
    assert!(
        Study::of(&project)
            .assemblies
            .iter()
            .all(|one| route::draw(&project, one, style).is_none())
    );
    project.stops[0].conditions.year = None;
    for one in Study::of(&project).assemblies {
        assert!(calendar::draw(&project, &one, style).is_none());
        assert!(months::draw(&project, &one, style).is_none());
    }
}

#[test]
fn the_limit_and_the_peak_drawn_are_the_findings() {
    let project = wet_walls("wet-coast");
    let style = Style {
        units: UnitSystem::Imperial,
    };
    let mut seen = 0;
    for one in Study::of(&project).assemblies {
        let figure = calendar::draw(&project, &one, style).expect("there is a climate");
        for finding in &one.verdict.findings {
            let Detail::Year(detail) = &finding.detail else {
                continue;
            };
            let print = |kg| style.water(ArealDensity::from_si(kg));
            let peak = format!("peak {}", print(detail.peak));
            assert!(says(&figure, &peak) > 0, "{detail:?}");
            if let Some((limit, _)) = detail.limit {
                assert!(says(&figure, &format!("limit {}", print(limit))) > 0);
                seen += 1;
            }
        }
    }
    assert!(seen > 0);
}

#[test]
fn what_is_drawn_first_is_what_the_check_tells() {
    let project = wet_walls("cold-continental");
    let study = Study::of(&project);
    let judged = &study.assemblies[0];
    let of_year = |finding: &&crate::check::Finding| finding.check == &check::year::CHECK;
    let told = judged
        .verdict
        .findings
        .iter()
        .find(of_year)
        .expect("a finding");
    let places = year_check::wet_places(&judged.result().ends[0]);
    assert!(places.len() > 1);
    assert_eq!(told.place, places[0].place);
    let slack: Vec<f64> = places.iter().filter_map(|finding| finding.slack).collect();
    assert!(slack.windows(2).all(|pair| pair[0] <= pair[1]), "{slack:?}");
}

/// Every amount of water times a factor, in what was solved and in what was found.
fn scale_water(one: &mut Judged<'_>, factor: f64) {
    let water = |water: &mut WaterYear| {
        for kg in water.change.iter_mut().chain(&mut water.held) {
            *kg *= factor;
        }
        water.peak *= factor;
        water.left_over *= factor;
    };
    let years = |result: &mut AssemblyResult| {
        let paths = result.ends.iter_mut().flat_map(|end| &mut end.paths);
        for year in paths.filter_map(|path| path.year.as_mut()) {
            let year = std::sync::Arc::make_mut(year);
            year.planes
                .iter_mut()
                .chain(&mut year.inside)
                .for_each(water);
        }
    };
    let at = &mut one.sites[one.speaks];
    years(&mut at.result);
    for finding in &mut at.verdict.findings {
        if let Detail::Year(detail) = &mut finding.detail {
            detail.peak *= factor;
            detail.left_over *= factor;
            detail.yearly *= factor;
        }
    }
}

#[rstest]
fn absurd_amounts_stay_on_the_sheet(
    #[values(1e-6, 500.0, 1e15, f64::INFINITY, f64::NAN)] factor: f64,
    #[values(UnitSystem::Imperial, UnitSystem::Metric)] units: UnitSystem,
) {
    for project in [wet_walls("cold-continental"), at(FLOOR, "cold-continental")] {
        let mut judged = Study::of(&project).assemblies;
        judged.iter_mut().for_each(|one| scale_water(one, factor));
        fine(&all(&project, &judged, units));
    }
}

#[rstest]
#[case::thick(1e6)]
#[case::nothing(0.0)]
fn absurd_thickness_stays_on_the_sheet(#[case] meters: f64) {
    let mut project = wet_walls("[wet-coast, hot-humid]");
    for case in &mut project.cases {
        case.assembly.layers[1].thickness = Length::from_m(meters);
    }
    fine(&all(
        &project,
        &Study::of(&project).assemblies,
        UnitSystem::Imperial,
    ));
}

#[test]
fn many_layers_and_hostile_names_stay_on_the_sheet() {
    let mut project = wet_walls("[cold-continental, hot-humid]");
    project.title = "<script>alert(\"1\")</script> & \u{0} 日本".into();
    project.stops[0].name = "</text><b>日本 ".repeat(9);
    project.stops[0].origin = "<i>&".repeat(40);
    for case in &mut project.cases {
        case.assembly.layers[2].name = "</text><b>&\"long ".repeat(12);
        let layer = case.assembly.layers[0].clone();
        for _ in 0..25 {
            case.assembly.layers.insert(0, layer.clone());
        }
    }
    let figures = all(
        &project,
        &Study::of(&project).assemblies,
        UnitSystem::Imperial,
    );
    fine(&figures);
    for figure in figures {
        assert!(!figure.drawing.svg().contains("<script") && !figure.drawing.svg().contains("<b>"));
        assert!(
            figure
                .drawing
                .svg()
                .contains("&lt;script&gt;alert(&quot;1&quot;)")
        );
    }
}

#[test]
fn the_route_has_a_row_for_each_of_many_stops() {
    let climates = ["wet-coast", "cold-continental", "mixed-humid", "hot-humid"];
    let mut project = wet_walls("[wet-coast, cold-continental, mixed-humid, hot-humid]");
    project.cases.truncate(1);
    let stops: Vec<Stop> = project.stops.iter().cycle().take(24).cloned().collect();
    project.stops = stops;
    let judged = Study::of(&project).assemblies;
    let style = Style {
        units: UnitSystem::Imperial,
    };
    let figure = route::draw(&project, &judged[0], style).expect("a route");
    for climate in climates {
        assert_eq!(says(&figure, climate), 6, "{climate}");
    }
    let bold = climates.map(|climate| bold(&figure, climate));
    assert_eq!(bold.iter().sum::<usize>(), 1, "{bold:?}");
    fine(&[figure]);
}

#[test]
fn the_worst_stop_is_marked_and_gives_the_verdict() {
    let project = wet_walls("[hot-humid, cold-continental]");
    let judged = Study::of(&project).assemblies;
    let style = Style {
        units: UnitSystem::Metric,
    };
    let figure = route::draw(&project, &judged[0], style).expect("a route");
    assert_eq!(judged[0].stop().name, "cold-continental");
    assert_eq!(bold(&figure, "cold-continental"), 1);
    assert_eq!(bold(&figure, "hot-humid"), 0);
    assert_eq!(judged[0].verdict.status, Status::Fail);
}

// Half a year later the same months are as wet: only their names move.
#[test]
fn south_of_the_equator_the_year_starts_half_a_year_later() {
    let north = wet_walls("cold-continental");
    let mut south = north.clone();
    let months = south.stops[0].conditions.year.as_mut().expect("a climate");
    months.rotate_left(6);
    let style = Style {
        units: UnitSystem::Imperial,
    };
    let first = |project: &Project| {
        let judged = Study::of(project).assemblies;
        let figure = months::draw(project, &judged[0], style).expect("a climate");
        fine(&all(project, &judged, UnitSystem::Metric));
        let names = crate::quantity::MONTHS;
        let label = figure
            .labels
            .iter()
            .find(|label| names.contains(&label.text.as_str()));
        names
            .iter()
            .position(|name| Some(*name) == label.map(|l| l.text.as_str()))
    };
    let (north, south) = (
        first(&north).expect("a month"),
        first(&south).expect("a month"),
    );
    assert_eq!((north + 6) % 12, south);
}

#[test]
fn cooled_months_are_named() {
    let style = Style {
        units: UnitSystem::Imperial,
    };
    for (climate, is_cooled) in [("hot-humid", true), ("wet-coast", false)] {
        let project = at(WALL, climate);
        let figure =
            calendar::draw(&project, &Study::of(&project).assemblies[0], style).expect("a climate");
        assert_eq!(says(&figure, "cooled") > 0, is_cooled, "{climate}");
    }
}
