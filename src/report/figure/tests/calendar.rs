//! The calendar of planes and months: what stands in its cells, and that it fits its room.

use plotters::style::RGBColor;
use rstest::rstest;

use super::climate::{BOTH, at, bold, says, wet_walls};
use super::{FLOOR, Figure, Label, ROOF, WALL, collisions};
use crate::model::Project;
use crate::quantity::{Style, UnitSystem, fixed, month_short};
use crate::report::figure::drawing::Mark;
use crate::report::figure::sheet::{MOISTURE, Sheet};
use crate::report::figure::water::Told;
use crate::report::figure::{Look, Subject, calendar};
use crate::solve::PathResult;
use crate::study::{Judged, Study};

const STYLE: Style = Style {
    units: UnitSystem::Imperial,
};

fn drawn(project: &Project, one: &Judged<'_>) -> Figure {
    calendar::draw(project, one, STYLE).expect("there is a climate")
}

/// The path that decides.
fn path<'a>(one: &'a Judged<'_>) -> &'a PathResult {
    Told::of(one).path(one).expect("a path")
}

fn middle(label: &Label) -> i32 {
    i32::midpoint(label.corners[0], label.corners[2])
}

/// What stands in the row of a name and the column of a month.
fn cell<'a>(figure: &'a Figure, name: &str, month: usize) -> Option<&'a str> {
    let of = |words: &str| figure.labels.iter().find(|label| label.text == words);
    let (row, column) = (of(name)?, of(month_short(month))?);
    let is_there = |label: &&Label| {
        label.corners[1] == row.corners[1] && (middle(label) - middle(column)).abs() < 3
    };
    figure
        .labels
        .iter()
        .find(is_there)
        .map(|label| label.text.as_str())
}

#[rstest]
#[case::wall(at(WALL, "wet-coast"))]
#[case::wet(wet_walls("cold-continental"))]
#[case::roof(at(ROOF, "wet-coast"))]
fn a_cell_has_the_humidity_of_its_plane_and_month(#[case] project: Project) {
    let study = Study::of(&project);
    let one = &study.assemblies[0];
    let (figure, path) = (drawn(&project, one), path(one));
    let year = path.year.as_ref().expect("a year");
    let mut seen = 0;
    for (plane, name) in path.plane_names.iter().enumerate() {
        if path.roles[plane].within {
            continue;
        }
        for month in 0..12 {
            let humidity = year.months[month].humidity(plane).expect("known");
            let words = match fixed(100.0 * humidity, 0) {
                words if words == "100" && humidity < 1.0 - 1e-9 => ">99".to_owned(),
                words => words,
            };
            assert_eq!(
                cell(&figure, name, month),
                Some(words.as_str()),
                "{name}, {month}"
            );
            seen += 1;
        }
    }
    assert!(seen >= 48, "{seen}");
}

/// Heights of the bars of water that isn't frost, in the order drawn.
fn bars(figure: &Figure) -> Vec<i32> {
    let RGBColor(red, green, blue) = MOISTURE;
    let marks = figure.drawing.marks.iter();
    let heights = marks.filter_map(|mark| match mark {
        Mark::Fill { from, to, color } if *color == (red, green, blue) => Some(to.1 - from.1),
        _ => None,
    });
    // The last is the legend's.
    let mut heights: Vec<i32> = heights.collect();
    heights.pop();
    heights
}

// 800 hundredths of a millimeter for 1 kg/m² in every picture of every project.
#[rstest]
#[case::floor(at(FLOOR, "wet-coast"))]
#[case::wall(wet_walls("wet-coast"))]
fn bars_are_in_proportion_to_the_water_held(#[case] project: Project) {
    let study = Study::of(&project);
    let mut seen = 0;
    for one in &study.assemblies {
        let Told::Tank(tank) = Told::of(one) else {
            continue;
        };
        let heights = bars(&drawn(&project, one));
        for held in tank.water.held.iter().filter(|held| **held > 0.02) {
            let height = (800.0 * held).round() as i32;
            assert!(heights.contains(&height.min(1600)), "{held}: {heights:?}");
            seen += 1;
        }
    }
    assert!(seen > 3, "{seen}");
}

#[test]
fn the_row_that_decides_is_bold_and_has_the_verdict() {
    let project = wet_walls("cold-continental");
    let study = Study::of(&project);
    let one = &study.assemblies[0];
    let told = Told::of(one);
    let figure = drawn(&project, one);
    assert!(bold(&figure, told.name()) > 0);
    assert_eq!(says(&figure, told.status().word()), 1);
    let words = &figure.drawing.words;
    assert!(
        words.contains(told.name()) && words.contains("Jan"),
        "{words}"
    );
}

#[test]
fn in_black_alone_there_is_no_color_and_the_numbers_stay() {
    let project = wet_walls("cold-continental");
    let study = Study::of(&project);
    let drawing = drawn(&project, &study.assemblies[0]).drawing;
    let look = Look {
        mono: true,
        ..Look::default()
    };
    let texts = |svg: &str| svg.matches("<text ").count();
    let (colored, mono) = (drawing.svg(), drawing.looking(look).svg());
    let colors = mono.split("=\"#").skip(1).map(|rest| &rest[..6]);
    assert!(colors.clone().count() > 50);
    assert!(
        colors
            .clone()
            .all(|color| ["000000", "ffffff"].contains(&color))
    );
    assert_eq!(texts(&mono), texts(&colored));
}

/// The calendar in a room of a width and a height that mustn't be exceeded.
fn within(one: &Judged<'_>, (width, height): (i32, i32), style: Style) -> (Figure, i32) {
    let room = super::room((width, height));
    let laid = Subject::Year(one).laid(style, room).expect("a climate");
    let taken = laid.height();
    let mut sheet = Sheet::new((width + 2000, taken + 2000));
    laid.draw(&mut sheet, style);
    (sheet.finish("", ""), taken)
}

/// What reaches over the sides of the room.
fn outside(figure: &Figure, width: i32) -> Vec<&Label> {
    let is_outside = |label: &&Label| label.corners[0] < 1000 || label.corners[2] > width + 1000;
    figure.labels.iter().filter(is_outside).collect()
}

// Numbers of two digits fit columns from 90 mm on; tints alone are left below that.
#[test]
fn it_fits_the_width_it_is_given() {
    let is_number = |label: &&Label| {
        label.text.len() == 2 && label.text.bytes().all(|byte| byte.is_ascii_digit())
    };
    for project in [wet_walls("cold-continental"), at(FLOOR, "hot-humid")] {
        let study = Study::of(&project);
        for (units, one) in BOTH.into_iter().cycle().zip(&study.assemblies) {
            for width in [6000, 9000, 11_000, 19_999, 20_000, 26_000, 33_000] {
                let (figure, _) = within(one, (width, 40_000), Style { units });
                assert_eq!(collisions(&figure), [], "{width}");
                assert!(
                    outside(&figure, width).is_empty(),
                    "{:?}",
                    outside(&figure, width)
                );
                let numbers = figure.labels.iter().filter(is_number).count();
                assert!(numbers > 40 || width < 9000, "{numbers} at {width}");
            }
        }
    }
}

#[test]
fn where_height_is_short_the_plane_that_decides_stays_and_the_rest_is_told() {
    let project = wet_walls("cold-continental");
    let study = Study::of(&project);
    let one = &study.assemblies[0];
    let told = Told::of(one);
    let has = |figure: &Figure, words: &str| {
        let mut labels = figure.labels.iter();
        labels.any(|label| label.text.contains(words))
    };
    for width in [9000, 25_000] {
        let (_, all) = within(one, (width, 40_000), STYLE);
        let (figure, taken) = within(one, (width, all * 2 / 3), STYLE);
        assert!(taken < all, "{taken} of {all}");
        assert!(
            has(&figure, told.name()) && has(&figure, "shown"),
            "{width}"
        );
        assert_eq!(collisions(&figure), []);
    }
}
