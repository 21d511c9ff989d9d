//! What of a cut a drawing has to show, and how far it goes on where there is room.

use super::super::scale::Scale;
use super::super::sheet::Point;
use super::window;
use crate::model::detail::{Area, Facing};
use crate::model::drawn::{DetailCase, DetailKind, Part};
use crate::quantity::{Length, UnitSystem};
use crate::report::places;
use crate::study::JudgedDetail;

/// What is drawn beyond the corner, where the cut goes on as plain layers, m: about a foot.
const FOOT: f64 = 0.3;
/// Around what has to be shown, m.
const NEAR: f64 = 0.03;
/// Of the air outside, m.
const AIR: f64 = 0.04;
/// Of the room over a floor on which nothing stands, m.
const ROOM: f64 = 0.05;
/// A cut no larger than this is shown whole, m.
const SMALL: f64 = 0.45;

/// What is shown of a cut, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Shown {
    /// What has to be: the judged places and the parts at the steel.
    pub(super) core: Area,
    /// The most that is.
    pub(super) most: Area,
}

impl Shown {
    /// Of one detail.
    pub(super) fn of(one: &JudgedDetail<'_>) -> Self {
        let case = one.case;
        let whole = whole(case);
        let core = match case.kind {
            _ if one.result().is_err() => window::core(case),
            DetailKind::RoofEdge => window::core(case),
            DetailKind::Rectangles if is_small(&whole) => whole,
            _ => around_places(one, &AT_STEEL).unwrap_or(whole),
        };
        let most = around(&beyond(case, &core), &core);
        Self {
            core,
            most: most.shared(&whole).unwrap_or(core),
        }
    }

    /// The same window, `size` m wide and high, for every detail of a kind, laid around its steel or its
    /// corner; `None` where neither is known.
    pub(super) fn a_foot(one: &JudgedDetail<'_>, size: f64) -> Option<Self> {
        let case = one.case;
        let (x, y) = anchor(case)?;
        let (left, below) = match case.kind {
            DetailKind::RoofEdge => (0.5 * size, 0.4 * size),
            _ => (NEAR, 0.62 * size),
        };
        let foot = Area::new(x - left, x - left + size, y - below, y - below + size);
        let whole = whole(case);
        let places = around_places(one, &[]).unwrap_or(foot);
        let shown = around(&foot, &places).shared(&whole)?;
        Some(Self {
            core: shown,
            most: shown,
        })
    }
}

fn whole(case: &DetailCase) -> Area {
    Area::new(0.0, case.width, 0.0, case.height)
}

fn is_small(area: &Area) -> bool {
    area.right - area.left <= SMALL && area.top - area.bottom <= SMALL
}

/// The least rectangle around two.
fn around(one: &Area, other: &Area) -> Area {
    Area::new(
        one.left.min(other.left),
        one.right.max(other.right),
        one.bottom.min(other.bottom),
        one.top.max(other.top),
    )
}

/// What a drawing of one cut shows beside the judged places.
const AT_STEEL: [Part; 5] = [
    Part::CrossMember,
    Part::Flange,
    Part::OverFlange,
    Part::Packing,
    Part::Plate,
];

/// Around the judged places and some parts.
fn around_places(one: &JudgedDetail<'_>, parts: &[Part]) -> Option<Area> {
    let rows = places::rows_of(one);
    let spots = rows.iter().filter_map(|row| row.at);
    let spots = spots.map(|(x, y)| Area::new(x, x, y, y));
    let blocks = one.case.blocks.iter();
    let blocks = blocks.filter(|one| parts.contains(&one.facts.part));
    let blocks = blocks.map(|one| one.block.area);
    let core = spots.chain(blocks).reduce(|a, b| around(&a, &b))?;
    grown(&core, NEAR).shared(&whole(one.case))
}

fn grown(area: &Area, by: f64) -> Area {
    Area::new(
        area.left - by,
        area.right + by,
        area.bottom - by,
        area.top + by,
    )
}

/// As far as a drawing goes on: a foot beyond the corner, and over all solids on their outer side.
fn beyond(case: &DetailCase, core: &Area) -> Area {
    let blocks = case.blocks.iter().map(|one| one.block.area);
    let solids = blocks.reduce(|a, b| around(&a, &b)).unwrap_or(*core);
    let solids = grown(&solids, AIR);
    let foot = grown(core, FOOT).shared(&solids).unwrap_or(solids);
    let surfaces = case.surfaces.iter();
    let mut level = surfaces.filter(|surface| matches!(surface.facing, Facing::Up | Facing::Down));
    let Some(corner) = level.next().map(|surface| surface.line) else {
        return foot;
    };
    match case.kind {
        DetailKind::FloorEdge | DetailKind::CrossMembers => Area::new(
            solids.left,
            corner.left.max(core.right) + FOOT,
            solids.bottom,
            corner.top
                + if case.kind == DetailKind::FloorEdge {
                    FOOT
                } else {
                    ROOM
                },
        ),
        DetailKind::RoofEdge => Area::new(
            solids.left,
            corner.left + FOOT,
            corner.bottom - FOOT,
            solids.top,
        ),
        DetailKind::Rectangles => foot,
    }
}

/// Where details of a kind are laid over one another: the steel's lower left corner, or that of room and
/// roof.
fn anchor(case: &DetailCase) -> Option<(f64, f64)> {
    let steel = [Part::Flange, Part::CrossMember];
    let mut blocks = case.blocks.iter();
    let steel = blocks.find(|one| steel.contains(&one.facts.part));
    let mut surfaces = case.surfaces.iter();
    let ceiling = surfaces.find(|one| one.facing == Facing::Down);
    match case.kind {
        DetailKind::RoofEdge => ceiling.map(|one| (one.line.left, one.line.bottom)),
        _ => steel.map(|one| (one.block.area.left, one.block.area.top)),
    }
}

/// The scale for several cuts: full size where all that is worth showing fits a room on paper, else the
/// largest standard one at which all that has to be shown does.
pub(super) fn scale(shown: &[Shown], room: Point, units: UnitSystem, magnify: f64) -> Scale {
    let full = Scale::full_size(magnify);
    let fits = |area: &Area| {
        let on_paper = |meters: f64| full.on_paper(Length::from_m(meters));
        on_paper(area.right - area.left) <= f64::from(room.0)
            && on_paper(area.top - area.bottom) <= f64::from(room.1)
    };
    if !shown.is_empty() && shown.iter().all(|one| fits(&one.most)) {
        return full;
    }
    let cores: Vec<Area> = shown.iter().map(|one| one.core).collect();
    window::scale(&cores, room, units, magnify)
}
