//! What holds between a detail's drawing and its list: dot n is at the place of row n.

use super::super::drawing::Mark;
use super::super::room::Room;
use super::super::sheet::{Label, Sheet, WET};
use super::super::tests::detail::solved;
use super::{Body, Dimension, Style, changed, dot_plot, dots, draw, places};
use crate::check::Status;
use crate::model::drawn::{DetailKind, Part};
use crate::quantity::{Temperature, UnitSystem};
use crate::report::figure::sheet::{Lettering, Point, SIZE};
use crate::study::JudgedDetail;

const IMPERIAL: Style = Style {
    units: UnitSystem::Imperial,
};

/// Rooms as on letter paper, wide and low, and as on a large sheet.
const ROOMS: [(i32, i32); 3] = [(26_000, 13_000), (24_000, 9000), (60_000, 60_000)];

fn body(one: &JudgedDetail<'_>, (width, height): (i32, i32)) -> Body {
    let room = Room {
        left: 1000,
        top: 2000,
        width,
        height,
        magnify: 1.0,
        strict: true,
    };
    Body::new(one, IMPERIAL, room)
}

#[test]
fn numbers_follow_the_findings_and_a_place_has_one() {
    let (_, details) = solved();
    for one in details {
        let rows = places::rows_of(one);
        let each = places::worst_of_each(&rows);
        let numbers: Vec<usize> = each.iter().map(|row| row.number).collect();
        assert_eq!(numbers, (1..=each.len()).collect::<Vec<_>>());
        let severity = |n: usize| each[n].finding.status.severity();
        assert!((1..each.len()).all(|n| severity(n) <= severity(n - 1)));
        for row in &rows {
            let same = rows.iter().filter(|other| other.name == row.name);
            assert!(same.clone().all(|other| other.number == row.number));
        }
    }
}

#[test]
fn every_judged_place_has_its_dot_or_the_figure_says_where_it_is() {
    let (_, details) = solved();
    for one in details {
        for room in ROOMS {
            let body = body(one, room);
            let dots = dots::of(&places::rows_of(one), &body.window);
            let elsewhere = body.elsewhere(one);
            for row in places::worst_of_each(&places::rows_of(one)) {
                let dot = dots.iter().find(|dot| dot.number == row.number);
                match row.at {
                    Some((x, y)) => {
                        let dot = dot.expect("what decides lies in the window");
                        assert_eq!(dot.at, body.window.point(x, y));
                        assert_eq!(dot.status, row.finding.status);
                    }
                    None => {
                        assert!(dot.is_none() && one.case.has_corner());
                        assert!(elsewhere.contains(&row.number.to_string()), "{elsewhere}");
                    }
                }
            }
        }
    }
}

fn middle(label: &Label) -> Point {
    let [left, top, right, bottom] = label.corners;
    (i32::midpoint(left, right), i32::midpoint(top, bottom))
}

#[test]
fn the_points_drawn_are_the_places_and_the_rows_have_their_numbers() {
    let (project, details) = solved();
    for one in details {
        let figure = draw(project, one, IMPERIAL);
        let points = figure.drawing.marks.iter().filter_map(|mark| match mark {
            Mark::Disc { at, radius: 62, .. } => Some(*at),
            _ => None,
        });
        let points: Vec<Point> = points.collect();
        let rows = places::worst_of_each(&places::rows_of(one));
        let in_cut = rows.iter().filter(|row| row.at.is_some()).count();
        assert_eq!(points.len(), in_cut, "{}", one.name());
        for row in &rows {
            let named = figure.labels.iter().filter(|label| label.text == row.name);
            let has_number = |name: &Label| {
                figure.labels.iter().any(|label| {
                    let before = name.corners[0] - label.corners[2];
                    label.text == row.number.to_string()
                        && (0..700).contains(&before)
                        && (middle(label).1 - middle(name).1).abs() < SIZE / 2
                })
            };
            assert!(
                named.clone().any(has_number),
                "{} of {}",
                row.name,
                one.name()
            );
        }
    }
}

#[test]
fn a_closed_tube_and_steel_are_never_tinted_wet() {
    let (project, details) = solved();
    let edges = details
        .iter()
        .filter(|one| one.case.kind == DetailKind::FloorEdge);
    let mut tinted = 0;
    for one in edges {
        let body = body(one, ROOMS[2]);
        let mut sheet = Sheet::new((70_000, 70_000));
        body.draw(&mut sheet, one, IMPERIAL);
        let tube = one.case.blocks_of(Part::Cavity).next().expect("a tube");
        let (from, to) = body
            .window
            .rectangle(&tube.block.area)
            .expect("it is shown");
        let wet = (WET.0, WET.1, WET.2);
        for mark in sheet.finish("", "").drawing.marks {
            let Mark::Polygon { points, color } = mark else {
                continue;
            };
            if color != wet {
                continue;
            }
            tinted += 1;
            let inside = |(x, y): &Point| x > &from.0 && x < &to.0 && y > &from.1 && y < &to.1;
            assert!(!points.iter().any(inside), "{}", one.name());
        }
    }
    assert!(tinted > 0, "{}", project.title);
}

/// A dot's middle against two marks of the axis, which are drawn by their own numbers.
#[test]
fn a_layouts_dot_stands_where_its_temperature_is() {
    let (_, details) = solved();
    let edges = details
        .iter()
        .filter(|one| one.case.kind == DetailKind::FloorEdge);
    let edges: Vec<&JudgedDetail<'_>> = edges.collect();
    for units in [UnitSystem::Imperial, UnitSystem::Metric] {
        let style = Style { units };
        let plot = dot_plot::Plot::new(&edges, 1000, 25_000).expect("they are solved");
        let mut sheet = Sheet::new((27_000, 60_000));
        plot.draw(&mut sheet, 1000, 1000, style);
        let labels = sheet.finish("", "").labels;
        let gray = Lettering::PLAIN;
        let unit = Dimension::Temperature.unit(style);
        let marks: Vec<(f64, f64)> = labels
            .iter()
            .filter_map(|label| {
                let number = label
                    .text
                    .strip_suffix(unit)
                    .unwrap_or(&label.text)
                    .trim_end();
                let value: f64 = number.parse().ok()?;
                // The numbers of layouts are lower than any temperature here.
                let x = label.corners[0] + gray.width(number) / 2;
                (value > edges.len() as f64).then_some((value, f64::from(x)))
            })
            .collect();
        let (first, last) = (marks[0], marks[marks.len() - 1]);
        let across = |celsius: f64| {
            let value = style.value(Temperature::from_celsius(celsius));
            first.1 + (value - first.0) / (last.0 - first.0) * (last.1 - first.1)
        };
        let mut found = 0;
        for (n, one) in edges.iter().enumerate() {
            for row in places::rows_of(one) {
                if row.finding.check.is_of_mold {
                    continue;
                }
                let expected = across(row.value.as_celsius());
                let mut dots = labels
                    .iter()
                    .filter(|label| label.text == (n + 1).to_string());
                let is_there = dots.any(|dot| (f64::from(middle(dot).0) - expected).abs() < 6.0);
                assert!(is_there, "{} of {}", row.name, one.name());
                found += 1;
            }
        }
        assert!(found > 20);
    }
}

#[test]
fn what_an_option_adds_is_told_apart_from_the_rest() {
    let (_, details) = solved();
    let all: Vec<&JudgedDetail<'_>> = details.iter().collect();
    let names = |n: usize| -> Vec<&str> {
        let case = details[n].case;
        let changed = changed::changed(case, &all);
        let blocks = case.blocks.iter().zip(changed);
        let blocks = blocks.filter(|(_, changed)| *changed);
        blocks.map(|(one, _)| one.block.name.as_str()).collect()
    };
    assert_eq!(names(0), Vec::<&str>::new());
    // Under the plate the foam gives way to solid wood, and this flange ends there.
    assert_eq!(names(1), ["packing under the plate"]);
    assert_eq!(names(2), ["floor foam"]);
}

#[test]
fn layers_beyond_the_first_open_air_are_said_to_be_left_out() {
    let (project, details) = solved();
    let edge = &details[0];
    assert_eq!(places::left_out(edge.case), ["rain screen", "siding"]);
    let figure = draw(project, edge, IMPERIAL);
    let foot = "Not drawn: rain screen, siding.";
    assert!(figure.labels.iter().any(|label| label.text.ends_with(foot)));
    let members = details
        .iter()
        .find(|one| one.case.kind == DetailKind::CrossMembers);
    assert!(places::left_out(members.expect("one").case).is_empty());
}

#[test]
fn a_place_that_fails_is_black_and_one_that_passes_is_not() {
    let mut sheet = Sheet::new((5000, 5000));
    dots::disc(&mut sheet, (1000, 1000), 1, Status::Fail);
    dots::disc(&mut sheet, (3000, 1000), 2, Status::Pass);
    let marks = sheet.finish("", "").drawing.marks;
    let filled = |x: i32| {
        let mut discs = marks.iter().filter_map(|mark| match mark {
            Mark::Disc { at, color, .. } if at.0 == x => Some(*color),
            _ => None,
        });
        discs.any(|color| color == (0x1a, 0x1a, 0x1a))
    };
    assert!(filled(1000) && !filled(3000));
}
