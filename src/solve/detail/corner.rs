//! The corner that an edge of floor or roof makes with itself: where two flanges meet and the house's
//! coldest wood lies, or where two walls and the roof meet and the room's coldest surface.
//!
//! The edge turns the corner, mitred ([`VolumeParts::around_corner`]): what lies at a
//! place hangs on the smaller distance from the two outer faces, and on height. So whatever is known of
//! a place in the cut (what it touches, whether leaking air reaches it) holds at the corner too. It
//! is looked at where the cut is: at the wood that decides, inboard of both plates, with the usual
//! films, and at the room's surfaces with 0.25 m²·K/W inside. The conductivities are those that the
//! cut settled at.
//!
//! Under a roof the two walls alone meet as well, down to the floor: there a post stands, solid wood as
//! deep as the studs both ways ([`DetailCase::corner_post`]), and the wall's surface in the lower half of
//! the cut is told apart, where the roof's edge doesn't reach.
//!
//! Films, airs and temperatures are the cut's, so temperature factors hold as they do there. Limit:
//! both edges alike, a right angle, nothing that conducts differently in two directions.

use super::gate::with_cells;
use super::wood::{Side, beside_name, faces_outdoors, is_reached, plate_edge};
use super::{AirReach, DetailResult, WoodPart};
use crate::model::detail::{Detail, Facing};
use crate::model::drawn::{AirSource, DetailCase, DetailKind, Surface};
use crate::model::volume::{
    Block, Extent, Facing as VolumeFacing, Volume, VolumeParts, VolumeProblem,
};
use crate::solve::conduction::{Field, SolveTolerance};
use crate::solve::volume::{
    Extreme, FacePoint, Faces, Precision, Solution, VolumeError, VolumeResult, solve_volume,
};

/// The coldest place of something at the corner.
#[derive(Clone, Debug, PartialEq)]
pub struct CornerSpot {
    /// `subfloor at the corner`.
    pub name: String,
    /// What it is called along the edge: `subfloor inboard of the plate`.
    pub along: String,
    /// Distances from both outer faces, and height, m.
    pub at: [f64; 3],
    /// °C.
    pub temperature: f64,
    /// How far the temperature may be off, K.
    pub bar: f64,
    /// What lies against it there; empty for surfaces.
    pub against: String,
    /// The same place, a hair inside of what it belongs to, m.
    inside: [f64; 3],
}

/// A plane through the corner with the temperatures on it, usual films.
#[derive(Clone, Debug)]
pub struct CornerSlice {
    /// Where it lies along its axis, m.
    pub at: f64,
    /// Over the two other axes.
    pub field: Field,
}

/// The planes through the corner's coldest wood, or through its coldest surface where no wood is judged.
#[derive(Clone, Debug)]
pub struct CornerSlices {
    /// Level: over the distances from both outer faces.
    pub plan: CornerSlice,
    /// Along one wall: over the distance from the other wall's outer face, and height.
    pub section: CornerSlice,
}

/// What a corner comes to on the winter mean.
#[derive(Clone, Debug)]
pub struct Corner {
    /// The parts of wood that decide, as far as leaking air reaches them.
    pub wood: Vec<CornerSpot>,
    /// The room's surfaces, with 0.25 m²·K/W inside.
    pub surfaces: Vec<CornerSpot>,
    /// Under a roof: the wall's surface where two walls alone meet, with 0.25 m²·K/W inside.
    pub between_walls: Vec<CornerSpot>,
    /// Where it is coldest, for drawings.
    pub slices: Option<CornerSlices>,
    /// Cells of its grids, coarsest first.
    pub cells: Vec<usize>,
    /// Whether the equations were solved as well as asked.
    pub settled: bool,
}

/// Why a corner has no result.
#[derive(Clone, Debug, PartialEq)]
pub enum CornerFailure {
    /// Something in the cut conducts differently along it and upward.
    Directional,
    /// The parts can't be put together.
    Parts(Vec<VolumeProblem>),
    /// It can't be solved.
    Volume(VolumeError),
}

/// Cells with which corners are judged: within 0.04 K, with a bar of some 0.3 K in the median.
pub const CORNER_PRECISION: usize = 200_000;
/// Cells with which a corner is judged whose margin is within its bar: some 0.3 s for each set of films.
pub const CORNER_FINEST: usize = 500_000;
/// Temperatures then hold to a hundred-thousandth of a kelvin, far within any bar.
const CORNER_TOLERANCE: SolveTolerance = SolveTolerance {
    residual: 1e-8,
    imbalance: 1e-6,
};
/// Cells of the one grid on which they are searched: within some tenths of a kelvin.
const CORNER_SEARCH: usize = 30_000;

/// How a corner is solved where many are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CornerGrids {
    /// On one grid of few cells: no bar is known.
    One,
    /// On three, the finest of so many cells.
    Three(usize),
}

/// Solves the corner of a floor edge whose cut is solved.
///
/// # Errors
/// [`CornerFailure`] where the cut makes no corner or the grid would be too large.
///
/// # Example
/// ```
/// use dewmargin::solve::conduction::Precision;
/// use dewmargin::solve::detail::{CORNER_PRECISION, solve_corner, solve_detail_case};
///
/// let text = include_str!("../../../examples/cabin-floor-edge.yaml");
/// let project = dewmargin::input::resolve_text("edge.yaml", text).unwrap();
/// let conditions = &project.stops[0].conditions;
/// let cut = solve_detail_case(&project.details[0], conditions, &Precision::quick()).unwrap();
/// let corner = solve_corner(&cut, CORNER_PRECISION).unwrap();
/// let along = cut.wood.iter().find(|part| part.decides).and_then(|part| part.coldest).unwrap();
/// assert_eq!(corner.wood[0].name, "subfloor at the corner");
/// assert!(corner.wood[0].temperature < along.point.temperature);
/// ```
pub fn solve_corner(cut: &DetailResult, cells: usize) -> Result<Corner, CornerFailure> {
    let case = &cut.case;
    let usual = cut.conduction.solution.detail();
    let damp = cut.damp.solution.detail();
    let solve = |films| Around::solve(case, films, CornerGrids::Three(cells));
    let (usual, damp) = rayon::join(|| solve(usual), || solve(damp));
    let (usual, damp) = (usual?, damp?);
    let wood = usual.wood(case, &cut.wood, &cut.reach);
    let surfaces = damp.surfaces(case);
    let spots = if wood.is_empty() { &surfaces } else { &wood };
    let coldest = spots
        .iter()
        .min_by(|a, b| a.temperature.total_cmp(&b.temperature));
    Ok(Corner {
        slices: coldest.and_then(|spot| usual.slices(spot)),
        wood,
        surfaces,
        between_walls: damp.between_walls(case).into_iter().collect(),
        cells: usual.cells(),
        settled: usual.converged() && damp.converged(),
    })
}

/// A cut that turned the corner, solved.
pub(super) struct Around<'a> {
    cut: &'a Detail,
    volume: Volume,
    solved: Solved,
}

enum Solved {
    Once(Box<Solution>),
    OnThree(Box<VolumeResult>),
}

impl<'a> Around<'a> {
    pub(super) fn solve(
        case: &DetailCase,
        cut: &'a Detail,
        grids: CornerGrids,
    ) -> Result<Self, CornerFailure> {
        let around = VolumeParts::around_corner(cut.parts());
        let mut parts = around.ok_or(CornerFailure::Directional)?;
        parts.blocks.extend(case.corner_post().map(|post| Block {
            name: "corner post".into(),
            extent: Extent::new(
                [post.left, post.left, post.bottom],
                [post.right, post.right, post.top],
            ),
            conductivity: post.conductivity,
            covers: true,
        }));
        let volume = Volume::new(parts).map_err(CornerFailure::Parts)?;
        let cells = match grids {
            CornerGrids::Three(cells) => cells,
            CornerGrids::One => CORNER_SEARCH,
        };
        let solved = with_cells(cells, || match grids {
            CornerGrids::Three(cells) => {
                let precision = Precision {
                    cells,
                    solve: CORNER_TOLERANCE,
                };
                solve_volume(&volume, &precision).map(|result| Solved::OnThree(Box::new(result)))
            }
            CornerGrids::One => Solution::of_few_cells(&volume, CORNER_SEARCH)
                .map(|solution| Solved::Once(Box::new(solution))),
        });
        Ok(Self {
            cut,
            volume,
            solved: solved.map_err(CornerFailure::Volume)?,
        })
    }

    /// Whether the equations were solved as well as asked.
    pub(super) fn converged(&self) -> bool {
        match &self.solved {
            Solved::Once(solution) => solution.report().converged,
            Solved::OnThree(result) => result.converged(),
        }
    }

    /// Planes through a place.
    fn slices(&self, spot: &CornerSpot) -> Option<CornerSlices> {
        let solution = match &self.solved {
            Solved::Once(solution) => solution,
            Solved::OnThree(result) => result.solution(),
        };
        let slice = |axis: usize| {
            let at = spot.inside[axis];
            let field = solution.layer(axis, at)?;
            Some(CornerSlice { at, field })
        };
        Some(CornerSlices {
            plan: slice(2)?,
            section: slice(1)?,
        })
    }

    /// By grid, coarsest first.
    fn cells(&self) -> Vec<usize> {
        match &self.solved {
            Solved::Once(solution) => vec![solution.grid().cells()],
            Solved::OnThree(result) => result.grids().iter().map(|grid| grid.cells).collect(),
        }
    }

    /// The coldest of those pieces that count by their place in the cut. Both edges being alike, the
    /// first of them says it for both.
    fn coldest(&self, faces: Faces, counts: impl Fn(&Side) -> bool) -> Option<Extreme> {
        let counts = |piece: &FacePoint| in_cut(piece).is_some_and(|side| counts(&side));
        match &self.solved {
            Solved::Once(solution) => solution.coldest_among(faces, counts),
            Solved::OnThree(result) => result.coldest_among(faces, counts),
        }
    }

    /// The wood that decides, inboard of both plates, where leaking air reaches it.
    pub(super) fn wood(
        &self,
        case: &DetailCase,
        parts: &[WoodPart],
        reach: &AirReach,
    ) -> Vec<CornerSpot> {
        let cut = self.cut;
        let edge = plate_edge(case).unwrap_or(f64::NEG_INFINITY);
        let of_part = |part: &WoodPart| {
            let name = &case.blocks[part.block].block.name;
            let counts = |side: &Side| {
                side.x > edge
                    && !faces_outdoors(case, cut, side)
                    && is_reached(case, cut, reach, part.block, side)
            };
            let coldest = self.coldest(Faces::Around(self.volume.block(name)?), counts)?;
            let side = in_cut(&coldest.piece);
            let against = side.map_or_else(String::new, |side| beside_name(case, cut, &side));
            Some(spot((name, &part.name), &coldest, against))
        };
        let deciding = parts.iter().filter(|part| part.decides);
        let reached = deciding.filter(|part| part.reached.is_some());
        reached.filter_map(of_part).collect()
    }

    /// The room's surfaces.
    pub(super) fn surfaces(&self, case: &DetailCase) -> Vec<CornerSpot> {
        let spots = case.surfaces.iter().filter_map(|surface| {
            let coldest = self.on_surface(case, surface, surface.line.top)?;
            let name = surface.name.as_str();
            Some(spot((name, name), &coldest, String::new()))
        });
        spots.collect()
    }

    /// The wall's surface where two walls meet, below where their roof's edge reaches.
    pub(super) fn between_walls(&self, case: &DetailCase) -> Option<CornerSpot> {
        if case.kind != DetailKind::RoofEdge {
            return None;
        }
        let mut surfaces = case.surfaces.iter();
        let wall = surfaces.find(|surface| surface.facing == Facing::Right)?;
        let middle = f64::midpoint(wall.line.bottom, wall.line.top);
        let coldest = self.on_surface(case, wall, middle)?;
        let spot = spot((&wall.name, &wall.name), &coldest, String::new());
        Some(CornerSpot {
            name: format!("{} between the walls", wall.name),
            ..spot
        })
    }

    /// Where a surface of the room is coldest, as far up as told.
    fn on_surface(&self, case: &DetailCase, surface: &Surface, top: f64) -> Option<Extreme> {
        const NEAR: f64 = 1e-7;
        let mut airs = case.airs.iter();
        let room = airs.position(|air| air.source == AirSource::Room)?;
        let line = &surface.line;
        let counts = |side: &Side| {
            side.facing == surface.facing
                && (line.left - NEAR..=line.right + NEAR).contains(&side.x)
                && (line.bottom - NEAR..=top + NEAR).contains(&side.y)
        };
        self.coldest(Faces::Surface(room), counts)
    }
}

/// A place of a part or a surface: its name, and what it is called along the edge.
fn spot((name, along): (&str, &str), coldest: &Extreme, against: String) -> CornerSpot {
    CornerSpot {
        name: format!("{name} at the corner"),
        along: along.to_owned(),
        at: coldest.at,
        temperature: coldest.temperature.value,
        bar: coldest.temperature.bar,
        against,
        inside: inside(coldest),
    }
}

/// A place of a face, moved a hair toward the middle of its piece and into the solid.
fn inside(coldest: &Extreme) -> [f64; 3] {
    const HAIR: f64 = 1e-6;
    let piece = &coldest.piece;
    let inward = match piece.facing.is_onward() {
        true => -HAIR,
        false => HAIR,
    };
    [0, 1, 2].map(|axis| match axis == piece.facing.axis() {
        true => coldest.at[axis] + inward,
        false => coldest.at[axis] + HAIR * (piece.at[axis] - coldest.at[axis]).signum(),
    })
}

/// The place in the cut that a piece of a face lies at, and the way it looks there; `None` for one that
/// looks along the edge, as only the mitre makes them.
fn in_cut(piece: &FacePoint) -> Option<Side> {
    let [x, y, z] = piece.at;
    let facing = match piece.facing {
        VolumeFacing::Down => Facing::Down,
        VolumeFacing::Up => Facing::Up,
        VolumeFacing::Left if x <= y => Facing::Left,
        VolumeFacing::Right if x <= y => Facing::Right,
        VolumeFacing::Front if y <= x => Facing::Left,
        VolumeFacing::Back if y <= x => Facing::Right,
        _ => return None,
    };
    Some(Side {
        x: x.min(y),
        y: z,
        facing,
    })
}
