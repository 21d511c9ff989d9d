//! The corners that the edges of a project file make.

use dewmargin::input::resolve_text;
use dewmargin::model::drawn::{DetailCase, DetailFilms, Part};
use dewmargin::model::volume::{Extent, VolumeParts};
use dewmargin::solve::volume::Faces;
use rstest::rstest;

use super::super::{Tolerance, close};
use super::solved;

const EDGES: &str = include_str!("../../../examples/cabin-floor-edge.yaml");

// An independent volume solver (computed, a throw-away program on a grid of its own) on an edge like
// this one, mitred around the outside corner, from 20 to 5 °C: the subfloor inboard of the plate over a
// flange of 6 in, told to one decimal. Theirs is the middle of a cell beside the plate's edge, which they
// don't tell the width of; ours is the edge itself, where 1 mm is some 0.15 K.
#[rstest]
#[case::under_the_plate("proud, foam under the plate", "1 in", 10.3)]
#[case::thicker("proud, foam under the plate", "1-1/2 in", 10.9)]
#[case::to_the_plate("proud, foam to the plate", "1 in", 8.4)]
fn wood_inboard_of_the_plate_at_the_corner(
    #[case] variant: &str,
    #[case] foam: &str,
    #[case] expected: f64,
) {
    let drawn = EDGES.replace(
        "thickness: 1 in, bonded",
        &format!("thickness: {foam}, bonded"),
    );
    let project = resolve_text("edges.yaml", &drawn).expect("the example");
    let mut details = project.details.iter();
    let is_it =
        |one: &&DetailCase| one.name == "flange inboard" && one.variant.as_deref() == Some(variant);
    let case = details.find(is_it).expect("the edge");
    let cut = case.on_winter_mean(&project.stops[0].conditions, &DetailFilms::default());
    let parts = VolumeParts::around_corner(cut.expect("a sound cut").parts()).expect("isotropic");

    let plate = case
        .blocks_of(Part::Plate)
        .next()
        .expect("a plate")
        .block
        .area
        .right;
    let inboard = Extent::new([plate + 1e-6, plate + 1e-6, 0.0], parts.size);
    let subfloor = parts
        .blocks
        .iter()
        .position(|block| block.name == "subfloor");
    let result = solved(parts.clone(), 150_000);
    let wood = result.coldest(Faces::Around(subfloor.expect("a subfloor")), Some(&inboard));
    let case = ("wood inboard of the plate, at the corner", "°C");
    let beside = Tolerance {
        absolute: 0.2,
        why: "up to 1 mm and a bit beside the edge",
    };
    close(
        case,
        wood.expect("wood").temperature.value,
        expected,
        beside,
    );
}
