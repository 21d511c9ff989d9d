//! A detail in three dimensions under its conditions: heat flows, surfaces, wood.
//!
//! As a cut is: once with the usual films for heat flow and wood, once with 0.25 m²·K/W inside for mold
//! and condensation, both on the winter mean, each conductivity at the mean temperature of its box. Where leaking air gets to isn't looked for: wood counts as
//! reached wherever it doesn't meet outdoor air.

use super::gate::with_cells;
use super::{Between, DAMP_FILM, settle};
use crate::model::Conditions;
use crate::model::detail::Place;
use crate::model::drawn::{AirSource, BoxesCase, DetailFilms};
use crate::model::volume::{Volume, VolumeProblem};
use crate::solve::conduction::{Estimate, SolveTolerance};
use crate::solve::volume::{
    Extreme, FacePoint, Faces, Precision, VolumeError, VolumeResult, solve_volume,
};

/// Cells of the finest of three grids: some 0.2 s for each set of films.
const CELLS: usize = 400_000;

/// A place of a detail in three dimensions.
#[derive(Clone, Debug, PartialEq)]
pub struct BoxSpot {
    /// x, y, z, m.
    pub at: [f64; 3],
    /// °C.
    pub temperature: Estimate,
}

impl From<Extreme> for BoxSpot {
    fn from(extreme: Extreme) -> Self {
        Self {
            at: extreme.at,
            temperature: extreme.temperature,
        }
    }
}

/// What meets an air.
#[derive(Clone, Debug, PartialEq)]
pub struct AirSurface {
    /// `room surface`, or by the name of another air.
    pub name: String,
    /// Where it is coldest with the usual films.
    pub coldest: BoxSpot,
    /// Where it is warmest with the usual films.
    pub warmest: BoxSpot,
    /// Where it is coldest with 0.25 m²·K/W inside: of the room alone.
    pub damp: Option<BoxSpot>,
}

/// A detail in three dimensions, solved on the winter mean.
#[derive(Clone, Debug)]
pub struct BoxesResult {
    /// Heat from every air and held face into the solid, W, with its name.
    pub flows: Vec<(String, Estimate)>,
    /// Heat from the warmer to the colder of them, W.
    pub heat_flow: Estimate,
    /// That over the difference of room and outdoors, W/K; `None` where something has a temperature of
    /// its own or there is no difference.
    pub coupling: Option<Estimate>,
    /// What meets the room, outdoors and other spaces.
    pub surfaces: Vec<AirSurface>,
    /// Every part of wood where it is coldest, but for faces that meet outdoor air.
    pub wood: Vec<(String, BoxSpot)>,
    /// The places asked for, °C.
    pub points: Vec<(String, Option<Estimate>)>,
    /// Cells of the three grids, coarsest first.
    pub cells: [usize; 3],
    /// Whether the conductivities settled and the equations were solved as well as asked.
    pub settled: bool,
    /// The air it lies between.
    pub between: Between,
}

/// Why a detail in three dimensions has no result.
#[derive(Clone, Debug, PartialEq)]
pub enum BoxesFailure {
    /// The boxes can't be put together.
    Parts(Vec<VolumeProblem>),
    /// It can't be solved.
    Volume(VolumeError),
}

/// Solves a detail in three dimensions on the winter mean.
///
/// Source: ISO 10211, three-dimensional steady heat flow (from memory; its cases 3 and 4 in
/// `tests/published`).
///
/// # Errors
/// [`BoxesFailure`] where the boxes don't fit or the grid would be too large.
///
/// # Example
/// ```
/// use dewmargin::solve::detail::solve_boxes;
///
/// let text = "
/// indoor: {heating: 20 C, humidity: 50 %}
/// outdoor: {winter-mean: {temperature: 0 C, humidity: 80 %}}
/// assemblies: {wall: {kind: wall, layers: [{name: board, material: XPS, thickness: 100 mm}]}}
/// details:
///   pipe through the wall:
///     cut: {width: 500 mm, depth: 200 mm, height: 200 mm}
///     boxes:
///       - {name: board, material: XPS, from: [100 mm, 0, 0], to: [200 mm, 200 mm, 200 mm]}
///       - {name: pipe, conductivity: 50 W/mK, covers: true,
///          from: [100 mm, 90 mm, 90 mm], to: [400 mm, 110 mm, 110 mm]}
///     air:
///       - {name: outdoors, from: [0, 0, 0], to: [100 mm, 200 mm, 200 mm]}
///       - {name: room, from: [200 mm, 0, 0], to: [500 mm, 200 mm, 200 mm]}
/// ";
/// let project = dewmargin::input::resolve_text("pipe.yaml", text).unwrap();
/// let result = solve_boxes(&project.volumes[0], &project.stops[0].conditions).unwrap();
/// // What the room gives outdoor air takes.
/// assert!((result.flows[0].1.value + result.flows[1].1.value).abs() < 1e-6);
/// assert!(result.coupling.unwrap().value > 0.04 * 0.03 / 0.1);
/// ```
pub fn solve_boxes(case: &BoxesCase, conditions: &Conditions) -> Result<BoxesResult, BoxesFailure> {
    let between = Between::on_winter_mean(conditions, case.between_two_airs());
    let (settled, conductivity_settled) = settle::settled_boxes(case, &between)?;
    let case = &settled;
    let solve = |films: &DetailFilms| solve_with(case, &between, films);
    let usual_films = DetailFilms::default();
    let damp_films = DetailFilms {
        room: Some(DAMP_FILM),
        ..usual_films
    };
    let has_room = case.airs.iter().any(|air| air.source == AirSource::Room);
    let (volume, usual) = solve(&usual_films)?;
    let damp = match has_room {
        true => Some(solve(&damp_films)?.1),
        false => None,
    };
    let boundaries = volume.boundaries().iter();
    let flows: Vec<(String, Estimate)> = boundaries
        .map(|one| one.name.clone())
        .zip(usual.flows.iter().copied())
        .collect();
    let points = case.points.iter();
    let points = points.map(|(name, at)| (name.clone(), usual.at(*at)));
    let span = (between.indoor - between.outdoor).as_kelvin();
    let has_span = between.alone && span.abs() > 1e-9;
    Ok(BoxesResult {
        coupling: has_span.then(|| over(&usual.heat_flow, span.abs())),
        flows,
        heat_flow: usual.heat_flow,
        surfaces: surfaces(case, &usual, damp.as_ref()),
        wood: wood(case, &volume, &usual),
        points: points.collect(),
        cells: usual.grids().map(|grid| grid.cells),
        settled: conductivity_settled
            && usual.converged()
            && damp.is_none_or(|damp| damp.converged()),
        between,
    })
}

fn solve_with(
    case: &BoxesCase,
    between: &Between,
    films: &DetailFilms,
) -> Result<(Volume, VolumeResult), BoxesFailure> {
    let volume = case.volume_at(between.indoor, between.outdoor, films);
    let volume = volume.map_err(BoxesFailure::Parts)?;
    let precision = Precision {
        cells: CELLS,
        solve: SolveTolerance::default(),
    };
    let result = with_cells(CELLS, || solve_volume(&volume, &precision));
    Ok((volume, result.map_err(BoxesFailure::Volume)?))
}

fn over(flow: &Estimate, span: f64) -> Estimate {
    Estimate {
        value: flow.value / span,
        bar: flow.bar / span,
        order: flow.order,
    }
}

/// What meets each air, by its coldest and its warmest place.
fn surfaces(
    case: &BoxesCase,
    usual: &VolumeResult,
    damp: Option<&VolumeResult>,
) -> Vec<AirSurface> {
    let airs = case.airs.iter().enumerate();
    let of_air = airs.filter_map(|(n, air)| {
        let is_room = air.source == AirSource::Room;
        let coldest = |of: &VolumeResult| of.coldest(Faces::Surface(n), None).map(BoxSpot::from);
        Some(AirSurface {
            name: format!("{} surface", air.name),
            coldest: coldest(usual)?,
            warmest: usual.warmest(Faces::Surface(n), None)?.into(),
            damp: damp.filter(|_| is_room).and_then(coldest),
        })
    });
    of_air.collect()
}

fn wood(case: &BoxesCase, volume: &Volume, usual: &VolumeResult) -> Vec<(String, BoxSpot)> {
    let is_outdoors = |piece: &FacePoint| match volume.beyond(piece.at, piece.facing) {
        Some(Place::Air(region)) => {
            let region = case.regions.get(region as usize);
            let air = region.and_then(|region| case.airs.get(region.air));
            air.is_some_and(|air| air.source == AirSource::Outdoors)
        }
        // Beyond the volume it goes on.
        None => true,
        Some(Place::Block(_) | Place::Nothing) => false,
    };
    let blocks = case.blocks.iter().enumerate();
    let of_wood = blocks.filter(|(_, one)| one.facts.is_wood());
    let found = of_wood.filter_map(|(n, one)| {
        let coldest = usual.coldest_among(Faces::Around(n), |piece| !is_outdoors(piece))?;
        Some((one.block.name.clone(), coldest.into()))
    });
    found.collect()
}
