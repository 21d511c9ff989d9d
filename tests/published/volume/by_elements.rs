//! Outside corners of random floor edges against finite elements of general-purpose libraries.
//!
//! `by_elements.py` made them: scikit-fem 12.0.2 assembles trilinear elements, SciPy 1.17.1 solves; it knows
//! nothing of this project's boxes, only what lies at a distance from the outer faces and at a height.

use dewmargin::model::detail::{
    Air, AirRegion, Area, Block, DetailParts, FaceFilms, PlaneConductivity,
};
use dewmargin::model::volume::{Extent, VolumeParts};
use dewmargin::solve::conduction::Estimate;
use dewmargin::solve::volume::Faces;
use serde::Deserialize;

use super::super::{Tolerance, close};
use super::solved;

const CORNERS: &str = include_str!("by_elements.json");

#[derive(Deserialize)]
struct Corner {
    seed: u32,
    end: f64,
    height: f64,
    /// Where the plate ends, and the wall.
    inboard: f64,
    wall: f64,
    /// Heights of the subfloor's sides.
    top: [f64; 2],
    rectangles: Vec<Rectangle>,
    airs: Vec<AirBox>,
    wood: Value,
    floor: Value,
    watts: Value,
}

#[derive(Deserialize)]
struct Rectangle {
    name: String,
    from: [f64; 2],
    to: [f64; 2],
    conductivity: f64,
}

#[derive(Deserialize)]
struct AirBox {
    name: String,
    celsius: f64,
    from: [f64; 2],
    to: [f64; 2],
    films: Films,
}

#[derive(Deserialize)]
struct Films {
    up: f64,
    sideways: f64,
    down: f64,
}

/// On their finer grid, and how far it lies from that on their coarser one.
#[derive(Deserialize)]
struct Value {
    value: f64,
    moved: f64,
}

fn area(from: [f64; 2], to: [f64; 2]) -> Area {
    Area::new(from[0], to[0], from[1], to[1])
}

/// The cut, turned around the corner by this project.
fn parts(corner: &Corner) -> VolumeParts {
    let block = |one: &Rectangle| Block {
        name: one.name.clone(),
        label: one.name.clone(),
        area: area(one.from, one.to),
        conductivity: PlaneConductivity::isotropic(one.conductivity),
        covers: true,
    };
    let region = |(air, one): (usize, &AirBox)| AirRegion {
        air,
        area: area(one.from, one.to),
        films: FaceFilms {
            up: one.films.up,
            sideways: one.films.sideways,
            down: one.films.down,
        },
    };
    let air = |one: &AirBox| Air {
        name: one.name.clone(),
        temperature: one.celsius,
    };
    let cut = DetailParts {
        width: corner.end,
        height: corner.height,
        blocks: corner.rectangles.iter().map(block).collect(),
        airs: corner.airs.iter().map(air).collect(),
        regions: corner.airs.iter().enumerate().map(region).collect(),
        ..DetailParts::default()
    };
    VolumeParts::around_corner(&cut).expect("alike in every direction")
}

#[test]
fn bars_of_twenty_corners_cover_what_finite_elements_give() {
    let corners: Vec<Corner> = serde_json::from_str(CORNERS).expect("corners");
    assert_eq!(corners.len(), 20);
    for corner in &corners {
        let parts = parts(corner);
        let subfloor = parts.blocks.iter().position(|one| one.name == "subfloor");
        let subfloor = Faces::Around(subfloor.expect("a subfloor"));
        let room = parts.airs.iter().position(|air| air.name == "room");
        let room = room.expect("a room");
        let within = |from: f64, [bottom, top]: [f64; 2]| {
            Extent::new([from, from, bottom], [corner.end, corner.end, top])
        };
        let result = solved(parts, 200_000);
        let coldest = |faces, within| {
            let found = result.coldest(faces, Some(&within));
            found.expect("a place").temperature
        };
        let wood = coldest(subfloor, within(corner.inboard, corner.top));
        let floor = coldest(
            Faces::Surface(room),
            within(corner.wall, [corner.top[1]; 2]),
        );
        let told = [
            ("wood inboard of the plate", "°C", wood, &corner.wood),
            ("floor", "°C", floor, &corner.floor),
            ("heat from the room", "W", result.flows[room], &corner.watts),
        ];
        for (what, unit, ours, theirs) in told {
            covers(&format!("{what}, seed {}", corner.seed), unit, ours, theirs);
        }
    }
}

/// Of first order, with steps of two thirds, twice what the last grid moved is left of their error.
fn covers(case: &str, unit: &str, ours: Estimate, theirs: &Value) {
    let tolerance = Tolerance {
        absolute: ours.bar + 2.0 * theirs.moved,
        why: "our error bar, and theirs",
    };
    close((case, unit), ours.value, theirs.value, tolerance);
}
