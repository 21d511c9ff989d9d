//! Finds what is wrong with a volume's parts.

use std::collections::HashSet;

use super::contact::{Contacts, Facing};
use super::problem::{MOST_PROBLEMS, VolumeProblem};
use super::raster::Raster;
use super::{Extent, GREATEST_SIDE, LEAST_SIZE, MOST_BOXES, Place, VolumeParts};
use crate::model::detail::FaceContact;

/// What is wrong with the parts one by one, before anything is drawn.
pub(super) fn parts(parts: &VolumeParts) -> Vec<VolumeProblem> {
    let is_sound = |side: &f64| *side > LEAST_SIZE && *side <= GREATEST_SIDE;
    if !parts.size.iter().all(is_sound) {
        return vec![VolumeProblem::Size { size: parts.size }];
    }
    let boxes = parts.blocks.len() + parts.regions.len();
    let count = boxes + parts.airs.len() + parts.faces.len();
    if count > MOST_BOXES {
        return vec![VolumeProblem::TooManyBoxes { count }];
    }
    let mut problems = names(parts);
    problems.extend(blocks(parts));
    problems.extend(airs(parts));
    problems.extend(faces(parts));
    problems.truncate(MOST_PROBLEMS);
    problems
}

fn names(parts: &VolumeParts) -> Vec<VolumeProblem> {
    let blocks = parts.blocks.iter().map(|block| &block.name);
    let airs = parts.airs.iter().map(|air| &air.name);
    let faces = parts.faces.iter().map(|face| &face.name);
    let names = blocks.chain(airs).chain(faces);
    let mut seen = HashSet::new();
    let twice = names.filter(|name| !seen.insert(*name));
    twice
        .map(|name| VolumeProblem::NameTwice { name: name.clone() })
        .collect()
}

fn blocks(parts: &VolumeParts) -> Vec<VolumeProblem> {
    let mut problems = Vec::new();
    for block in &parts.blocks {
        problems.extend(solid_box(parts, &block.name, &block.extent));
        let value = block.conductivity;
        if !(1e-6..=1e6).contains(&value) {
            let name = block.name.clone();
            problems.push(VolumeProblem::Conductivity { name, value });
        }
    }
    problems
}

/// A box that is not finite, has no size or lies outside.
fn solid_box(parts: &VolumeParts, name: &str, extent: &Extent) -> Option<VolumeProblem> {
    placed(parts, name, extent, |size| {
        size.iter().any(|side| *side <= LEAST_SIZE)
    })
}

fn placed(
    parts: &VolumeParts,
    name: &str,
    extent: &Extent,
    lacks_size: impl Fn([f64; 3]) -> bool,
) -> Option<VolumeProblem> {
    let (name, extent) = (name.to_owned(), *extent);
    let mut edges = extent.from.iter().chain(&extent.to);
    if !edges.all(|edge| edge.is_finite()) {
        return Some(VolumeProblem::NotFinite { name });
    }
    if lacks_size(extent.size()) {
        return Some(VolumeProblem::NoSize { name, extent });
    }
    let reaches_beyond = |axis: usize| {
        extent.from[axis] < -LEAST_SIZE || extent.to[axis] > parts.size[axis] + LEAST_SIZE
    };
    (0..3)
        .any(reaches_beyond)
        .then_some(VolumeProblem::Outside { name, extent })
}

fn temperature(name: &str, value: f64) -> Option<VolumeProblem> {
    let unsound = !(-273.15..=10_000.0).contains(&value);
    let name = name.to_owned();
    unsound.then_some(VolumeProblem::Temperature { name, value })
}

fn film(name: &str, value: f64) -> Option<VolumeProblem> {
    let unsound = !(0.0..=1e6).contains(&value);
    let name = name.to_owned();
    unsound.then_some(VolumeProblem::Film { name, value })
}

fn airs(parts: &VolumeParts) -> Vec<VolumeProblem> {
    let of_air = |air: &crate::model::detail::Air| temperature(&air.name, air.temperature);
    let mut problems: Vec<VolumeProblem> = parts.airs.iter().filter_map(of_air).collect();
    for (number, region) in parts.regions.iter().enumerate() {
        let Some(air) = parts.airs.get(region.air) else {
            problems.push(VolumeProblem::NoSuchAir {
                name: format!("air region {}", number + 1),
                air: region.air,
            });
            continue;
        };
        problems.extend(solid_box(parts, &air.name, &region.extent));
        let films = [region.films.up, region.films.sideways, region.films.down];
        problems.extend(films.into_iter().find_map(|value| film(&air.name, value)));
    }
    problems
}

fn faces(parts: &VolumeParts) -> Vec<VolumeProblem> {
    let mut problems = Vec::new();
    for face in &parts.faces {
        let (name, extent) = (&face.name, face.extent);
        problems.extend(match face.contact {
            FaceContact::Held(value) => temperature(name, value),
            FaceContact::Air { air, film: value } if air < parts.airs.len() => film(name, value),
            FaceContact::Air { air, .. } => Some(VolumeProblem::NoSuchAir {
                name: name.clone(),
                air,
            }),
        });
        let thin = |size: [f64; 3]| size.into_iter().filter(|side| *side <= LEAST_SIZE).count();
        let lacks_area = |size: [f64; 3]| thin(size) > 1 || size.iter().any(|side| *side < 0.0);
        let problem = placed(parts, name, &extent, lacks_area);
        let is_flat = problem.is_some() || thin(extent.size()) == 1;
        problems.extend(problem);
        problems.extend((!is_flat).then(|| VolumeProblem::FaceNotFlat {
            name: name.clone(),
            extent,
        }));
    }
    problems
}

/// What is wrong with how the parts lie together.
pub(super) fn places(parts: &VolumeParts, raster: &Raster) -> Vec<VolumeProblem> {
    let mut problems = overlaps(parts);
    problems.extend(air_overlaps(parts, raster));
    problems.extend(gaps(raster));
    let solid = |place: &Place| matches!(place, Place::Block(_));
    if problems.is_empty() && !raster.places().iter().any(solid) {
        problems.push(VolumeProblem::AllAir);
    }
    problems.truncate(MOST_PROBLEMS);
    problems
}

fn overlaps(parts: &VolumeParts) -> Vec<VolumeProblem> {
    let mut problems = Vec::new();
    for (number, upper) in parts.blocks.iter().enumerate() {
        if upper.covers || problems.len() >= MOST_PROBLEMS {
            continue;
        }
        problems.extend(parts.blocks[..number].iter().filter_map(|lower| {
            let extent = upper.extent.shared(&lower.extent)?;
            let (upper, lower) = (upper.name.clone(), lower.name.clone());
            Some(VolumeProblem::Overlap {
                upper,
                lower,
                extent,
            })
        }));
    }
    problems
}

/// Different air in one place, as far as no block hides it; each two airs once.
fn air_overlaps(parts: &VolumeParts, raster: &Raster) -> Vec<VolumeProblem> {
    // Painted with the highest number on top, then with the lowest: a place that isn't of one air
    // differs between the two.
    let mut regions: Vec<(usize, &Extent)> = parts
        .regions
        .iter()
        .map(|region| (region.air, &region.extent))
        .collect();
    regions.sort_by_key(|(air, _)| *air);
    let air = |&(air, extent): &(usize, _)| (Place::Air(air as u32), extent);
    let last = raster.painted(regions.iter().map(air));
    let first = raster.painted(regions.iter().rev().map(air));
    let mut told = HashSet::new();
    let mut problems = Vec::new();
    for (index, place) in raster.places().iter().enumerate() {
        if let (Place::Air(_), Place::Air(one), Place::Air(other)) =
            (place, first[index], last[index])
            && one != other
            && told.insert((one, other))
        {
            let name = |air: u32| parts.airs[air as usize].name.clone();
            problems.push(VolumeProblem::AirOverlap {
                first: name(one),
                second: name(other),
                extent: raster.extent(raster.at(index)),
            });
        }
    }
    problems
}

/// The connected parts of the volume that nothing fills.
fn gaps(raster: &Raster) -> Vec<VolumeProblem> {
    let mut open: Vec<bool> = raster
        .places()
        .iter()
        .map(|place| *place == Place::Nothing)
        .collect();
    let mut gaps = Vec::new();
    for start in 0..open.len() {
        if !std::mem::take(&mut open[start]) {
            continue;
        }
        let mut around = raster.extent(raster.at(start));
        let mut left = vec![start];
        while let Some(index) = left.pop() {
            let place = raster.at(index);
            let one = raster.extent(place);
            for axis in 0..3 {
                around.from[axis] = around.from[axis].min(one.from[axis]);
                around.to[axis] = around.to[axis].max(one.to[axis]);
            }
            let beside = Facing::ALL.map(|facing| raster.beside(place, facing));
            let beside = beside
                .into_iter()
                .flatten()
                .map(|place| raster.index(place));
            left.extend(beside.filter(|&index| std::mem::take(&mut open[index])));
        }
        gaps.push(VolumeProblem::Gap { extent: around });
    }
    gaps
}

/// Solid everywhere, and nothing that settles its temperature; air that settles none. A part of the
/// solid can't hang in the air without touching it, and gaps are refused: so the whole is all there
/// is to test.
pub(super) fn boundaries(
    parts: &VolumeParts,
    raster: &Raster,
    contacts: &Contacts,
) -> Vec<VolumeProblem> {
    let mut touched = HashSet::new();
    for (index, place) in raster.places().iter().enumerate() {
        if matches!(place, Place::Block(_)) {
            let place = raster.at(index);
            let contact = |facing| contacts.at(parts, raster, place, facing);
            let contacts = Facing::ALL.into_iter().filter_map(contact);
            touched.extend(contacts.map(|contact| contact.boundary));
        }
    }
    if touched.is_empty() {
        return vec![VolumeProblem::NoBoundary];
    }
    let airs = parts.airs.iter().enumerate();
    let idle = airs.filter(|(number, _)| !touched.contains(number));
    idle.map(|(_, air)| VolumeProblem::AirTouchesNothing {
        name: air.name.clone(),
    })
    .collect()
}
