//! Finds what is wrong with a detail's parts.

use std::collections::HashSet;

use super::boundary::{Contacts, FaceContact};
use super::problem::{DetailProblem, MOST_PROBLEMS};
use super::raster::{Facing, Place, Raster};
use super::{Area, DetailParts, GREATEST_SIZE, LEAST_SIZE, MOST_BOUNDARIES, MOST_RECTANGLES};

/// What is wrong with the parts one by one, before anything is drawn.
pub(super) fn parts(parts: &DetailParts) -> Vec<DetailProblem> {
    let size_is_sound = |size: f64| size > LEAST_SIZE && size <= GREATEST_SIZE;
    if !size_is_sound(parts.width) || !size_is_sound(parts.height) {
        return vec![DetailProblem::Cut {
            width: parts.width,
            height: parts.height,
        }];
    }
    let count = parts.blocks.len() + parts.regions.len() + parts.faces.len();
    if count > MOST_RECTANGLES {
        return vec![DetailProblem::TooManyRectangles { count }];
    }
    let count = parts.airs.len() + parts.faces.len();
    if count > MOST_BOUNDARIES {
        return vec![DetailProblem::TooManyBoundaries { count }];
    }
    let mut problems = names(parts);
    problems.extend(blocks(parts));
    problems.extend(airs(parts));
    problems.extend(faces(parts));
    problems.truncate(MOST_PROBLEMS);
    problems
}

fn names(parts: &DetailParts) -> Vec<DetailProblem> {
    let blocks = parts.blocks.iter().map(|block| &block.name);
    let airs = parts.airs.iter().map(|air| &air.name);
    let faces = parts.faces.iter().map(|face| &face.name);
    let mut seen = HashSet::new();
    let twice = blocks
        .chain(airs)
        .chain(faces)
        .filter(|name| !seen.insert(*name));
    twice
        .map(|name| DetailProblem::NameTwice { name: name.clone() })
        .collect()
}

fn blocks(parts: &DetailParts) -> Vec<DetailProblem> {
    let mut problems = Vec::new();
    for block in &parts.blocks {
        problems.extend(rectangle(parts, &block.name, &block.area));
        let conductivity = block.conductivity;
        let unsound = |value: &f64| !(1e-6..=1e6).contains(value);
        if let Some(value) = [conductivity.x, conductivity.y].into_iter().find(unsound) {
            let name = block.name.clone();
            problems.push(DetailProblem::Conductivity { name, value });
        }
    }
    problems
}

/// A rectangle that is not finite, has no size or lies outside.
fn rectangle(parts: &DetailParts, name: &str, area: &Area) -> Option<DetailProblem> {
    let (name, area) = (name.to_owned(), *area);
    if !area.is_finite() {
        return Some(DetailProblem::NotFinite { name });
    }
    let least = area.right - area.left;
    if least.min(area.top - area.bottom) <= LEAST_SIZE {
        return Some(DetailProblem::NoSize { name, area });
    }
    lies_outside(parts, &area).then_some(DetailProblem::OutsideCut { name, area })
}

fn lies_outside(parts: &DetailParts, area: &Area) -> bool {
    area.left.min(area.bottom) < -LEAST_SIZE
        || area.right > parts.width + LEAST_SIZE
        || area.top > parts.height + LEAST_SIZE
}

fn temperature(name: &str, value: f64) -> Option<DetailProblem> {
    let unsound = !(-273.15..=10_000.0).contains(&value);
    let name = name.to_owned();
    unsound.then_some(DetailProblem::Temperature { name, value })
}

fn film(name: &str, value: f64) -> Option<DetailProblem> {
    let unsound = !(0.0..=1e6).contains(&value);
    let name = name.to_owned();
    unsound.then_some(DetailProblem::Film { name, value })
}

fn airs(parts: &DetailParts) -> Vec<DetailProblem> {
    let of_air = |air: &super::Air| temperature(&air.name, air.temperature);
    let mut problems: Vec<DetailProblem> = parts.airs.iter().filter_map(of_air).collect();
    for (number, region) in parts.regions.iter().enumerate() {
        let Some(air) = parts.airs.get(region.air) else {
            problems.push(DetailProblem::NoSuchAir {
                name: format!("air region {}", number + 1),
                air: region.air,
            });
            continue;
        };
        problems.extend(rectangle(parts, &air.name, &region.area));
        let films = [region.films.up, region.films.sideways, region.films.down];
        problems.extend(films.into_iter().find_map(|value| film(&air.name, value)));
    }
    problems
}

fn faces(parts: &DetailParts) -> Vec<DetailProblem> {
    let mut problems = Vec::new();
    for face in &parts.faces {
        problems.extend(match face.contact {
            FaceContact::Held(value) => temperature(&face.name, value),
            FaceContact::Air { air, film: value } if air < parts.airs.len() => {
                film(&face.name, value)
            }
            FaceContact::Air { air, .. } => Some(DetailProblem::NoSuchAir {
                name: face.name.clone(),
                air,
            }),
        });
        problems.extend(line(parts, &face.name, &face.line));
    }
    problems
}

fn line(parts: &DetailParts, name: &str, line: &Area) -> Option<DetailProblem> {
    let (name, line) = (name.to_owned(), *line);
    if !line.is_finite() {
        return Some(DetailProblem::NotFinite { name });
    }
    let (wide, high) = (line.right - line.left, line.top - line.bottom);
    if wide.max(high) <= LEAST_SIZE || wide.min(high) < 0.0 {
        return Some(DetailProblem::NoSize { name, area: line });
    }
    if wide.min(high) > LEAST_SIZE {
        return Some(DetailProblem::FaceNotStraight { name, line });
    }
    lies_outside(parts, &line).then_some(DetailProblem::OutsideCut { name, area: line })
}

/// What is wrong with how the parts lie together.
pub(super) fn places(parts: &DetailParts, raster: &Raster) -> Vec<DetailProblem> {
    let mut problems = overlaps(parts);
    problems.extend(air_overlaps(parts, raster));
    let nothing = |place: Place| place == Place::Nothing;
    let gaps = connected(raster, nothing);
    problems.extend(gaps.into_iter().map(|gap| DetailProblem::Gap {
        area: around(raster, &gap),
    }));
    let solid = |place: &Place| matches!(place, Place::Block(_));
    if problems.is_empty() && !raster.places().iter().any(solid) {
        problems.push(DetailProblem::AllAir);
    }
    problems.truncate(MOST_PROBLEMS);
    problems
}

fn overlaps(parts: &DetailParts) -> Vec<DetailProblem> {
    let mut problems = Vec::new();
    for (number, upper) in parts.blocks.iter().enumerate() {
        if upper.covers || problems.len() >= MOST_PROBLEMS {
            continue;
        }
        problems.extend(parts.blocks[..number].iter().filter_map(|lower| {
            let area = upper.area.shared(&lower.area)?;
            let (upper, lower) = (upper.name.clone(), lower.name.clone());
            Some(DetailProblem::Overlap { upper, lower, area })
        }));
    }
    problems
}

/// Different air in one place, as far as no block hides it.
fn air_overlaps(parts: &DetailParts, raster: &Raster) -> Vec<DetailProblem> {
    // Painted with the lowest number on top, then with the highest: a place that isn't of one
    // air differs between the two.
    let mut regions: Vec<(Place, Area)> = parts
        .regions
        .iter()
        .map(|region| (Place::Air(region.air as u32), region.area))
        .collect();
    regions.sort_by_key(|(air, _)| match air {
        Place::Air(number) => *number,
        _ => 0,
    });
    let first = raster.painted(regions.iter().copied());
    let last = raster.painted(regions.iter().rev().copied());
    let mut problems: Vec<DetailProblem> = Vec::new();
    let shown = raster.places().iter().zip(first.iter().zip(&last));
    for (at, (place, pair)) in shown.enumerate() {
        if let (Place::Air(_), (Place::Air(one), Place::Air(other))) = (place, pair)
            && one != other
            && problems.len() < MOST_PROBLEMS
        {
            let columns = raster.column_count();
            let name = |air: u32| parts.airs[air as usize].name.clone();
            problems.push(DetailProblem::AirOverlap {
                first: name(*one),
                second: name(*other),
                area: raster.area(at % columns, at / columns),
            });
        }
    }
    problems
}

/// Solid whose temperature nothing settles.
pub(super) fn islands(
    parts: &DetailParts,
    raster: &Raster,
    contacts: &Contacts,
) -> Vec<DetailProblem> {
    let columns = raster.column_count();
    let touches = |place: &usize| {
        let at = (place % columns, place / columns);
        let mut sides = Facing::ALL.into_iter();
        sides.any(|facing| contacts.at(parts, raster, at, facing).is_some())
    };
    let solids = connected(raster, |place| matches!(place, Place::Block(_)));
    let count = solids.len();
    let loose: Vec<Vec<usize>> = solids
        .into_iter()
        .filter(|solid| !solid.iter().any(touches))
        .collect();
    if loose.len() == count {
        return vec![DetailProblem::NoBoundary];
    }
    let told = loose.iter().take(MOST_PROBLEMS);
    told.filter_map(|solid| match raster.places()[solid[0]] {
        Place::Block(block) => Some(DetailProblem::Island {
            name: parts.blocks[block as usize].name.clone(),
            area: around(raster, solid),
        }),
        _ => None,
    })
    .collect()
}

/// The connected parts of what fits, each as its places.
fn connected(raster: &Raster, fits: impl Fn(Place) -> bool) -> Vec<Vec<usize>> {
    let (columns, rows) = (raster.column_count(), raster.row_count());
    let mut open: Vec<bool> = raster.places().iter().map(|place| fits(*place)).collect();
    let mut parts = Vec::new();
    for start in 0..open.len() {
        if !std::mem::take(&mut open[start]) {
            continue;
        }
        let (mut part, mut done) = (vec![start], 0);
        while done < part.len() {
            let place = part[done];
            done += 1;
            let (column, row) = (place % columns, place / columns);
            let around = [
                (column > 0).then(|| place - 1),
                (column + 1 < columns).then_some(place + 1),
                (row > 0).then(|| place - columns),
                (row + 1 < rows).then_some(place + columns),
            ];
            let found = around.into_iter().flatten();
            part.extend(found.filter(|&place| std::mem::take(&mut open[place])));
        }
        parts.push(part);
    }
    parts
}

/// The rectangle around some places.
fn around(raster: &Raster, places: &[usize]) -> Area {
    let columns = raster.column_count();
    let areas = places
        .iter()
        .map(|place| raster.area(place % columns, place / columns));
    let nothing = Area::new(
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::INFINITY,
        f64::NEG_INFINITY,
    );
    areas.fold(nothing, |all, one| Area {
        left: all.left.min(one.left),
        right: all.right.max(one.right),
        bottom: all.bottom.min(one.bottom),
        top: all.top.max(one.top),
    })
}
