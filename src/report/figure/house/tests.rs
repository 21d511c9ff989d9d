//! What is drawn holds against the study: measures, limits, weights.

use rstest::rstest;

use super::super::tests::house::{DECK, GABLE, ROAD, SHED, file};
use super::beyond::{sideways, upward};
use super::load::Load;
use super::paper::Paper;
use super::shape::Shape;
use super::views::Views;
use crate::input::resolve_text;
use crate::model::Project;
use crate::quantity::{Style, UnitSystem};
use crate::study::houses;

const STYLE: Style = Style {
    units: UnitSystem::Imperial,
};

fn project(roof: &str) -> Project {
    let text = file(DECK, "90 in", roof, ROAD);
    resolve_text("house.yaml", &text).expect("the house is read")
}

// A unit of the drawing is a hundredth of a millimeter on paper: nothing is off by more than its two
// ends' rounding.
#[rstest]
#[case(SHED)]
#[case(GABLE)]
#[case("shape: shed, pitch: 3 in 12, low-side: back")]
#[case("shape: flat")]
fn measures_as_drawn_are_the_studys(#[case] roof: &str) {
    let project = project(roof);
    let one = &houses(&project)[0];
    let views = Views::new(one, STYLE, (24_000, 14_000), 1.0, true).expect("measures");
    let paper = Paper {
        scale: views.scale(),
        origin: (0, 0),
    };
    let shape = Shape::of(one).expect("measures");
    let fit = &one.result.fit;
    let total = |measure: &Option<crate::solve::house::Measure>| {
        measure.as_ref().expect("known").total().as_m()
    };
    let unit = paper.scale.in_life(1);
    let holds = |drawn: i32, meters: f64| (paper.scale.in_life(drawn) - meters).abs() <= unit;
    let (left, right) = shape.across().extent();
    assert!(holds(paper.x(right) - paper.x(left), total(&fit.width)));
    assert!(holds(paper.y(0.0) - paper.y(shape.top), total(&fit.height)));
    let room = fit.head_room.expect("a room");
    let (_, floor, ceiling) = shape.across().head_room();
    assert!(holds(paper.y(floor) - paper.y(ceiling), room.least));
    // The highest of what is drawn, and what stands above it.
    let highest = |pieces: Vec<super::shape::Corners>| {
        pieces
            .iter()
            .flatten()
            .map(|corner| corner.1)
            .fold(0.0, f64::max)
    };
    let above = shape.across().above().map_or(0.0, |_| 4.0 * 0.0254);
    for view in [shape.across(), shape.along()] {
        let pieces = [view.outside(), view.behind(), view.cut()].concat();
        assert!((highest(pieces) + above - shape.top).abs() < 1e-9, "{roof}");
    }
}

#[test]
fn beyond_a_limit_is_what_the_study_finds_over_it() {
    let project = project(SHED);
    let one = &houses(&project)[0];
    let shape = Shape::of(one).expect("measures");
    let view = shape.across();
    let (left, right) = view.extent();
    let cut = view.cut();
    let inch = 0.0254;
    assert!(sideways(&view, &cut, right).is_empty());
    assert!(upward(&view, &cut, shape.top).is_empty());
    let over = sideways(&view, &cut, right - 3.0 * inch);
    let ends = over.iter().flatten().map(|corner| corner.0);
    let (from, to) = ends.fold((right, left), |(a, b), x| (a.min(x), b.max(x)));
    assert!((to - from - 3.0 * inch).abs() < 1e-9, "{from} {to}");
    // Vents of 4 in and the top of the roof below them.
    assert!(upward(&view, &cut, shape.top - 5.0 * inch).len() > 1);
    assert_eq!(upward(&view, &cut, shape.top - 2.0 * inch).len(), 1);
}

#[test]
fn the_parts_of_the_weight_add_up() {
    let project = project(SHED);
    let one = &houses(&project)[0];
    let weight = &one.result.weight;
    let load = Load::new(one, STYLE, 24_000, true);
    let sum: f64 = load.parts.iter().map(|part| part.mass).sum();
    let all = weight.house + weight.trailer.expect("stated");
    assert!((sum - all).abs() < 1e-9, "{sum} {all}");
    // Trailer, floor, wall, roof, openings, allowances.
    assert_eq!(load.parts.len(), 6);
}
