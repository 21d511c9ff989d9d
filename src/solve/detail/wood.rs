//! Parts of wood in a detail: the coldest of their faces, and the coldest that leaking air reaches.

use super::reach::AirReach;
use crate::model::detail::{Detail, Facing, Place};
use crate::model::drawn::{AirSource, DetailCase, DetailKind, Part, Seal};
use crate::solve::conduction::{Coldest, Conduction, SurfacePoint};

/// One part of wood.
#[derive(Clone, Debug, PartialEq)]
pub struct WoodPart {
    /// Which block of the detail.
    pub block: usize,
    /// Its name.
    pub name: String,
    /// The coldest place of its faces, those that look at outdoor air left out.
    pub coldest: Option<Coldest>,
    /// The coldest place that leaking room air reaches, and what lies against it there.
    pub reached: Option<(Coldest, String)>,
    /// Whether the part touches bare metal.
    pub at_steel: bool,
    /// Whether it is what the foam at the steel is meant to keep warm: the deck inboard of the
    /// wall, and over cross members; in details drawn by hand all wood at the steel. The rest, such
    /// as plate and rim joist, stays on the steel whatever is done.
    pub decides: bool,
}

/// Every part of wood, in drawing order; none of a roof's edge, where the room's surfaces alone are looked
/// at.
pub(super) fn parts(case: &DetailCase, conduction: &Conduction, reach: &AirReach) -> Vec<WoodPart> {
    if case.kind == DetailKind::RoofEdge {
        return Vec::new();
    }
    let wood = case.blocks.iter().enumerate();
    let wood = wood.filter(|(_, one)| one.facts.is_wood());
    let plate_edge = plate_edge(case);
    let search = Search {
        case,
        conduction,
        reach,
    };
    wood.flat_map(|(block, one)| {
        let name = &one.block.name;
        let is_deck = case.kind == DetailKind::FloorEdge && one.facts.part == Part::Floor;
        let Some(plate_edge) = plate_edge.filter(|_| is_deck) else {
            return vec![search.part(block, name.clone(), |_| true)];
        };
        let inboard = |point: &SurfacePoint| point.x > plate_edge;
        let mut deck = search.part(block, format!("{name} inboard of the plate"), inboard);
        deck.decides = true;
        let under = |point: &SurfacePoint| point.x <= plate_edge;
        let below = search.part(block, format!("{name} under the plate"), under);
        match below.coldest {
            Some(_) => vec![deck, below],
            None => vec![deck],
        }
    })
    .collect()
}

/// Where the wall's bottom plate ends inboard, m; `None` where there is none.
pub(super) fn plate_edge(case: &DetailCase) -> Option<f64> {
    let plates = case.blocks_of(Part::Plate);
    let ends = plates.map(|plate| plate.block.area.right);
    ends.reduce(f64::max)
}

/// A place on the outline of a part and the way it looks, in the cut.
#[derive(Clone, Copy)]
pub(super) struct Side {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) facing: Facing,
}

impl From<&SurfacePoint> for Side {
    fn from(point: &SurfacePoint) -> Self {
        Self {
            x: point.x,
            y: point.y,
            facing: point.facing,
        }
    }
}

/// Looks along the outlines of parts.
struct Search<'a> {
    case: &'a DetailCase,
    conduction: &'a Conduction,
    reach: &'a AirReach,
}

impl Search<'_> {
    /// The part as far as its points count.
    fn part(&self, block: usize, name: String, counts: impl Fn(&SurfacePoint) -> bool) -> WoodPart {
        let Self {
            case,
            conduction,
            reach,
        } = *self;
        let detail = conduction.solution.detail();
        let inner =
            |point: &SurfacePoint| counts(point) && !faces_outdoors(case, detail, &point.into());
        let reached = |point: &SurfacePoint| {
            inner(point) && is_reached(case, detail, reach, block, &point.into())
        };
        let beside = |coldest: Coldest| {
            let name = beside_name(case, detail, &(&coldest.point).into());
            (coldest, name)
        };
        let at_steel = conduction
            .solution
            .outline(block)
            .iter()
            .any(|point| counts(point) && is_metal(case, detail, &point.into()));
        WoodPart {
            block,
            name,
            coldest: coldest(conduction, block, inner),
            reached: coldest(conduction, block, reached).map(beside),
            at_steel,
            decides: match case.kind {
                DetailKind::Rectangles => at_steel,
                DetailKind::CrossMembers => case.blocks[block].facts.part == Part::Floor,
                DetailKind::FloorEdge | DetailKind::RoofEdge => false,
            },
        }
    }
}

fn coldest(
    conduction: &Conduction,
    block: usize,
    counts: impl Fn(&SurfacePoint) -> bool,
) -> Option<Coldest> {
    conduction.coldest_among(|solution| {
        let points = solution.outline(block).into_iter();
        points.filter(|point| counts(point)).collect()
    })
}

/// What lies beyond a point of an outline; `None` at the cut's edge.
fn beyond(detail: &Detail, side: &Side) -> Option<Place> {
    const STEP: f64 = 1e-7;
    let (x, y) = match side.facing {
        Facing::Left => (side.x - STEP, side.y),
        Facing::Right => (side.x + STEP, side.y),
        Facing::Down => (side.x, side.y - STEP),
        Facing::Up => (side.x, side.y + STEP),
    };
    let place_in = |edges: &[f64], at: f64| {
        let after = edges.partition_point(|edge| *edge <= at);
        (after > 0 && after < edges.len()).then(|| after - 1)
    };
    let column = place_in(detail.columns(), x)?;
    let row = place_in(detail.rows(), y)?;
    Some(detail.place(column, row))
}

fn air_source(case: &DetailCase, region: u32) -> Option<AirSource> {
    let region = case.regions.get(region as usize)?;
    case.airs.get(region.air).map(|air| air.source)
}

pub(super) fn faces_outdoors(case: &DetailCase, detail: &Detail, side: &Side) -> bool {
    match beyond(detail, side) {
        Some(Place::Air(region)) => air_source(case, region) == Some(AirSource::Outdoors),
        // The cut's edge isn't a face of the part.
        Some(Place::Nothing) | None => true,
        Some(Place::Block(_)) => false,
    }
}

/// Air passes all around a part that isn't bonded, and up to the face of one that is. A seal keeps it
/// from the part beyond; the one that a floor edge promises fills its joints, so that neither face
/// there is reached.
pub(super) fn is_reached(
    case: &DetailCase,
    detail: &Detail,
    reach: &AirReach,
    block: usize,
    side: &Side,
) -> bool {
    let mut along = case.seals.iter().filter(|seal| is_along(seal, side));
    let is_sealed = along.clone().next().is_some();
    if case.kind == DetailKind::FloorEdge && along.any(|seal| seal.promised) {
        return false;
    }
    let beyond_passes = match beyond(detail, side) {
        _ if is_sealed => false,
        Some(Place::Block(other)) => reach.passes[other as usize],
        Some(Place::Air(region)) => air_source(case, region) == Some(AirSource::Room),
        _ => false,
    };
    reach.passes[block] || beyond_passes
}

/// Whether a point of an outline lies in a sealed joint.
fn is_along(seal: &Seal, side: &Side) -> bool {
    const NEAR: f64 = 1e-7;
    let line = &seal.line;
    let holds = |from: f64, to: f64, at: f64| (from - NEAR..=to + NEAR).contains(&at);
    let is_level = line.right - line.left > NEAR;
    let looks_across = match side.facing {
        Facing::Up | Facing::Down => is_level,
        Facing::Left | Facing::Right => !is_level,
    };
    looks_across && holds(line.left, line.right, side.x) && holds(line.bottom, line.top, side.y)
}

fn is_metal(case: &DetailCase, detail: &Detail, side: &Side) -> bool {
    match beyond(detail, side) {
        Some(Place::Block(other)) => {
            case.blocks[other as usize].facts.kind == Some(crate::model::Kind::Metal)
        }
        _ => false,
    }
}

pub(super) fn beside_name(case: &DetailCase, detail: &Detail, side: &Side) -> String {
    match beyond(detail, side) {
        Some(Place::Block(other)) => case.blocks[other as usize].block.name.clone(),
        Some(Place::Air(region)) => case
            .regions
            .get(region as usize)
            .and_then(|region| case.airs.get(region.air))
            .map_or_else(String::new, |air| air.name.clone()),
        _ => String::new(),
    }
}
