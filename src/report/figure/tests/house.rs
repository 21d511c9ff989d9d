//! The house's figure: measures to scale, what is beyond a limit hatched, weights that add up, nothing
//! that overlaps.

use rstest::rstest;

use super::super::drawing::Mark;
use super::super::house;
use super::super::sheet::{Figure, Sheet};
use super::super::subject::Subject;
use super::{clipped, collisions, overlap};
use crate::input::resolve_text;
use crate::quantity::{Style, UnitSystem};
use crate::study::houses;

/// A shell whose measures are put in; its weights and limits follow. No details, so that it is quick.
pub(in crate::report::figure) fn file(deck: &str, wall: &str, roof: &str, rest: &str) -> String {
    format!(
        "
project: {{title: a house}}
indoor: {{heating: 68 F, humidity: 40 %}}
climate: wet-coast
assemblies:
  floor:
    kind: floor
    layers:
      - {{name: finish, material: oak flooring, thickness: 1/2 in}}
      - {{name: subfloor, material: plywood, thickness: 3/4 in}}
      - {{name: bay, material: closed-cell spray foam, thickness: 5-1/2 in}}
      - {{name: pan, material: galvanized steel, thickness: 20 ga}}
  wall:
    kind: wall
    layers:
      - {{name: lining, material: painted gypsum board, thickness: 1/2 in}}
      - {{name: studs, material: R-13 batt, thickness: 3-1/2 in, framing: {{material: spruce-pine-fir, share: 23 %}}}}
      - {{name: sheathing, material: plywood, thickness: 1/2 in}}
      - {{name: rain screen, air: ventilated, thickness: 3/4 in}}
      - {{name: siding, material: cedar siding, thickness: 5/8 in}}
  roof:
    kind: roof
    layers:
      - {{name: rafters, material: R-21 batt, thickness: 5-1/2 in, framing: {{material: spruce-pine-fir, share: 6 %}}}}
      - {{name: deck, material: plywood, thickness: 5/8 in}}
      - {{name: roofing, material: EPDM, thickness: 60 mil}}
house:
  deck: {deck}
  floor: {{assembly: floor, above-frame: subfloor}}
  walls: {{assembly: wall, height: {wall}}}
  roof: {{assembly: roof, {roof}}}
{rest}
"
    )
}

pub(in crate::report::figure) const DECK: &str = "{length: 22 ft, width: 96 in}";
pub(in crate::report::figure) const SHED: &str = "shape: shed, pitch: 1 in 12, low-side: right, stands-above: 4 in, \
                    overhangs: {left: 1/2 in, right: 1/2 in, front: 2 in, back: 2 in}";
pub(in crate::report::figure) const GABLE: &str = "shape: gable, pitch: 6 in 12, ridge: lengthwise, stands-above: 4 in, \
                     overhangs: {left: 3 in, right: 3 in, front: 12 in, back: 6 in}";
pub(in crate::report::figure) const ROAD: &str = "
  openings:
    - {name: door, in: right, width: 36 in, height: 82 in, weight: 95 lb, at: 15 ft}
    - {name: a window with a name that no drawing has room for, in: left, width: 60 in, height: 42 in, at: 8 ft}
    - {name: casement, in: right, width: 24 in, height: 36 in, count: 2, weight: 42 lb, at: 8 ft}
  allowances:
    - {name: cabinets, weight: 380 lb, at: 5 ft}
    - {name: a shelf, weight: 4 lb}
  trailer: {deck-height: 25 in, weight: 2950 lb, rating: 14000 lb, tongue: 4 ft, axles-at: 13 ft}
  road: {width: 8 ft 6 in, height: 13 ft 6 in, length: 30 ft}
";
const TIGHT: &str = "
  trailer: {deck-height: 25 in, weight: 2950 lb, rating: 5000 lb, tongue: 4 ft, axles-at: 13 ft}
  road: {width: 8 ft 4 in, height: 11 ft, length: 24 ft}
";

fn style(units: UnitSystem) -> Style {
    Style { units }
}

/// The whole figure.
fn figure(text: &str, units: UnitSystem) -> Figure {
    let project = resolve_text("house.yaml", text).expect("the house is read");
    house::draw(&project, &houses(&project)[0], style(units))
}

/// The same in black strokes alone: how many of them cross-hatch what is beyond a limit.
fn beyond(text: &str) -> usize {
    let marks = figure(text, UnitSystem::Imperial).drawing.marks;
    // The legend has a sample of that hatch in any case.
    let is_hatch = |mark: &&Mark| matches!(mark, Mark::Lines { width: 30, .. });
    marks.iter().filter(is_hatch).count() - 1
}

#[rstest]
#[case::passes(file(DECK, "90 in", SHED, ROAD))]
#[case::fails(file(DECK, "90 in", SHED, TIGHT))]
#[case::gable(file("{length: 40 ft, width: 99 in}", "11 ft", GABLE, ROAD))]
#[case::low_at_the_back(file(DECK, "7 ft", "shape: shed, pitch: 1 in 12, low-side: back", ROAD))]
#[case::ridge_across(file(DECK, "7 ft", "shape: gable, pitch: 3 in 12, ridge: crosswise", TIGHT))]
#[case::bare(file(DECK, "7 ft", "shape: flat", ""))]
#[case::tiny(file("{length: 3 ft, width: 3 ft}", "4 ft", "shape: flat", ""))]
fn nothing_overlaps_and_nothing_is_clipped(
    #[case] text: String,
    #[values(UnitSystem::Imperial, UnitSystem::Metric)] units: UnitSystem,
) {
    let figure = figure(&text, units);
    assert!(figure.labels.len() > 20);
    assert_eq!(collisions(&figure), []);
    assert_eq!(clipped(&figure), Vec::<&str>::new());
}

// Half a letter sheet upright, a letter sheet lying down less its frame, a large sheet's share.
#[rstest]
#[case(12_000, 23_000)]
#[case(24_800, 14_000)]
#[case(40_000, 30_000)]
fn it_fits_the_room_it_is_given(
    #[case] width: i32,
    #[case] height: i32,
    #[values(UnitSystem::Imperial, UnitSystem::Metric)] units: UnitSystem,
    #[values(SHED, GABLE)] roof: &str,
) {
    let text = file(DECK, "90 in", roof, ROAD);
    let project = resolve_text("house.yaml", &text).expect("the house is read");
    let one = &houses(&project)[0];
    let room = super::room((width, height));
    for subject in [
        Subject::House(one),
        Subject::WidthStack(one),
        Subject::Weight(one),
    ] {
        let laid = subject.laid(style(units), room).expect("a house");
        assert!(laid.height() <= height, "{} of {height}", laid.height());
        let mut sheet = Sheet::new((width + 2000, height + 2000));
        laid.draw(&mut sheet, style(units));
        let figure = sheet.finish("a house", &laid.words);
        assert_eq!(collisions(&figure), []);
        // Descenders of a legend's last line reach a little below it.
        let all = [1000, 1000, 1000 + width, 1000 + height + 10];
        let outside = |corners: [i32; 4]| {
            corners[0] < all[0] || corners[1] < all[1] || corners[2] > all[2] || corners[3] > all[3]
        };
        for label in &figure.labels {
            assert!(
                overlap(label, label) && !outside(label.corners),
                "{label:?}"
            );
        }
    }
}

// 96 in, and on each side 1/2 + 3/4 + 5/8 + 1/2 in: 100-3/4 in of 102 in, or of 100 in.
#[test]
fn only_what_is_beyond_a_limit_is_hatched() {
    assert_eq!(beyond(&file(DECK, "90 in", SHED, ROAD)), 0);
    assert_eq!(beyond(&file(DECK, "90 in", SHED, "")), 0);
    let wide = "  trailer: {deck-height: 25 in}\n  road: {width: 100 in, height: 14 ft}";
    // In the view across the wall, the roof and what stands above it; in the stack once.
    let found = beyond(&file(DECK, "90 in", SHED, wide));
    assert!(found >= 3, "{found}");
    let figure = figure(&file(DECK, "90 in", SHED, wide), UnitSystem::Imperial);
    let says = |words: &str| figure.labels.iter().any(|label| label.text == words);
    assert!(says("3/4 in over") && says("fail"));
}

#[test]
fn openings_of_unknown_place_are_said_and_not_drawn() {
    let text = file(DECK, "90 in", SHED, ROAD);
    let lettering = figure(&text, UnitSystem::Imperial).drawing.lettering();
    assert!(lettering.contains("right: door, 36 in × 82 in"));
    assert!(lettering.contains("casement (2)"));
    assert!(!lettering.contains("right: casement"));
    // Nothing is known of these in a file that doesn't tell.
    let bare = figure(&file(DECK, "90 in", SHED, ""), UnitSystem::Imperial);
    let is_mark = |text: &str| text == "axles" || text == "coupler";
    assert!(!bare.labels.iter().any(|label| is_mark(&label.text)));
}
