//! The whole house: what fits, what it weighs, where its heat goes.

mod fit;
mod heat;
mod printed;
mod program;
mod weight;

use dewmargin::input::resolve_text;
use dewmargin::model::Project;
use dewmargin::study::{JudgedHouse, houses};

/// One inch in m.
pub(crate) const INCH: f64 = 0.0254;

/// A small house: the deck's strips lie under the subfloor, the wall has a gap and siding.
pub(crate) const ASSEMBLIES: &str = "
indoor: {heating: 68 F, humidity: 50 %}
outdoor:
  winter-mean: {temperature: 41 F, humidity: 82 %}
  design-night: {temperature: 25 F, humidity: 80 %}
assemblies:
  floor:
    kind: floor
    layers:
      - {name: finish, material: oak flooring, thickness: 1/2 in}
      - {name: subfloor, material: plywood, thickness: 3/4 in}
      - name: bay
        material: XPS
        thickness: 5-1/2 in
        framing: {material: SPF, width: 1.5 in, spacing: 16 in}
      - {name: lining, material: XPS, thickness: 1 in}
    strips:
      - {name: flange, metal: carbon steel, thickness: 1/4 in, width: 4 in, across: 96 in, count: 2, under: subfloor}
  wall:
    kind: wall
    layers:
      - {name: lining, material: gypsum board, thickness: 1/2 in}
      - name: studs
        material: R-13 batt
        thickness: 3-1/2 in
        framing: {material: SPF, share: 25 %}
      - {name: sheathing, material: plywood, thickness: 1/2 in}
      - {name: wrap, material: housewrap}
      - {name: gap, air: ventilated, thickness: 3/4 in}
      - {name: siding, material: cedar siding, thickness: 5/8 in}
  roof:
    kind: roof
    layers:
      - {name: ceiling, material: white pine, thickness: 3/4 in}
      - name: rafters
        material: XPS
        thickness: 5-1/2 in
        framing: {material: SPF, width: 1.5 in, spacing: 24 in}
      - {name: deck, material: plywood, thickness: 5/8 in}
";

/// A `house:` block of a flat-roofed house with more keys behind.
pub(crate) fn flat(more: &str) -> String {
    format!(
        "house:
  deck: {{length: 22 ft, width: 96 in}}
  floor: {{assembly: floor}}
  walls: {{assembly: wall, height: 90 in}}
  roof: {{assembly: roof, shape: flat}}
{more}"
    )
}

/// The project of those assemblies and a house.
#[track_caller]
pub(crate) fn project(house: &str) -> Project {
    let text = format!("{ASSEMBLIES}{house}");
    match resolve_text("house.yaml", &text) {
        Ok(project) => project,
        Err(error) => panic!("{error}"),
    }
}

/// The house as drawn.
pub(crate) fn as_drawn(project: &Project) -> JudgedHouse<'_> {
    houses(project).remove(0)
}

#[track_caller]
pub(crate) fn close(ours: f64, want: f64, tolerance: f64) {
    assert!((ours - want).abs() <= tolerance, "{ours}, want {want}");
}
