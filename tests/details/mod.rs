//! Details as a project file draws or generates them.

mod assumed;
mod boxes;
mod conductivity;
mod corner;
mod cross_members;
mod drawn;
mod floor_edge;
mod pasted;
mod roof_edge;
mod seal;
mod sized;
mod sound;

use dewmargin::input::resolve_text;
use dewmargin::model::DetailCase;
use dewmargin::model::detail::{Detail, Place};
use dewmargin::model::drawn::DetailFilms;
use dewmargin::quantity::{Temperature, unit::INCH};

use crate::support::repository;

const ROOM: Temperature = Temperature::from_celsius(20.0);
const COLD: Temperature = Temperature::from_celsius(-10.0);

/// The details of an example, with those of its variants.
fn example(file: &str) -> Vec<DetailCase> {
    let path = repository().join("examples").join(file);
    let text = std::fs::read_to_string(path).expect("an example");
    details(&text)
}

fn details(text: &str) -> Vec<DetailCase> {
    let project = resolve_text("house.yaml", text).unwrap_or_else(|error| panic!("{error}"));
    project.details
}

fn find<'a>(details: &'a [DetailCase], name: &str) -> &'a DetailCase {
    let found = details.iter().find(|one| one.full_name() == name);
    found.unwrap_or_else(|| panic!("no detail `{name}`"))
}

/// Left, right, bottom, top of a block, in.
fn place_of(detail: &DetailCase, block: &str) -> [f64; 4] {
    let found = detail.blocks.iter().find(|one| one.block.name == block);
    let area = found
        .unwrap_or_else(|| panic!("no block `{block}` in {}", detail.full_name()))
        .block
        .area;
    [area.left, area.right, area.bottom, area.top].map(|meters| meters / INCH)
}

fn solved_between(detail: &DetailCase) -> Detail {
    let films = DetailFilms::default();
    detail
        .detail_at(ROOM, COLD, &films)
        .unwrap_or_else(|problems| panic!("{}: {problems:?}", detail.full_name()))
}

/// What is seen of solids whose name fits, in².
fn seen_area(detail: &DetailCase, fits: impl Fn(&str) -> bool) -> f64 {
    let sound = solved_between(detail);
    let (x, y) = (sound.columns(), sound.rows());
    let mut area = 0.0;
    for row in 0..y.len() - 1 {
        for column in 0..x.len() - 1 {
            if let Place::Block(n) = sound.place(column, row)
                && fits(&sound.parts().blocks[n as usize].name)
            {
                area += (x[column + 1] - x[column]) * (y[row + 1] - y[row]);
            }
        }
    }
    area / (INCH * INCH)
}

/// A house with a floor and a wall, and what else is written under them.
fn house(rest: &str) -> String {
    format!(
        "indoor: {{heating: 68 F, humidity: 50 %}}
outdoor: {{winter-mean: {{temperature: 41 F, humidity: 82 %}}}}
assemblies:
  floor:
    kind: floor
    layers:
      - {{name: finish, material: oak flooring, thickness: 1/2 in}}
      - {{name: subfloor, material: plywood, thickness: 3/4 in}}
      - name: bay
        material: closed-cell spray foam
        thickness: 6 in
        framing: {{material: spruce-pine-fir, width: 1.5 in, spacing: 16 in}}
    strips:
      - {{name: flange, metal: carbon steel, thickness: 1/4 in, width: 6 in, across: 96 in, under: subfloor}}
  wall:
    kind: wall
    layers:
      - {{name: lining, material: painted gypsum board, thickness: 1/2 in}}
      - name: studs
        material: R-13 batt
        thickness: 3-1/2 in
        framing: {{material: spruce-pine-fir, share: 25 %}}
      - {{name: sheathing, material: plywood, thickness: 1/2 in}}
      - {{name: gap, air: still, thickness: 1 in}}
      - {{name: siding, material: cedar siding, thickness: 3/4 in}}
{rest}"
    )
}
