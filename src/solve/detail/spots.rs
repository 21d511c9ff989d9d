//! A detail solved with one set of films: its wood and its surfaces, for searches that solve many.

use super::{AirReach, DAMP_FILM, DetailFailure, WoodPart, coldest_on, settle, wood};
use crate::model::Conditions;
use crate::model::drawn::{AirSource, DetailCase, DetailFilms};
use crate::solve::conduction::{Coldest, Precision, solve_detail};

/// What one solution gives.
#[derive(Clone, Debug)]
pub struct Spots {
    /// The parts of wood, in drawing order.
    pub wood: Vec<WoodPart>,
    /// The room's surfaces by name with their coldest place.
    pub surfaces: Vec<(String, Coldest)>,
    /// Whether the result is as precise as was asked for.
    pub settled: bool,
}

/// Solves a detail on the winter mean with the usual films, or with those for mold.
///
/// # Errors
/// As [`super::solve_detail_case`].
pub fn solve_spots(
    case: &DetailCase,
    conditions: &Conditions,
    precision: &Precision,
    damp: bool,
) -> Result<Spots, DetailFailure> {
    let films = DetailFilms {
        room: damp.then_some(DAMP_FILM),
        ..DetailFilms::default()
    };
    let (indoor, outdoor) = (
        conditions.indoor.temperature,
        conditions.winter_mean.temperature,
    );
    let (case, conductivity_settled) = settle::settled(case, (indoor, outdoor), precision)?;
    let case = &case;
    let detail = case
        .detail_at(indoor, outdoor, &films)
        .map_err(DetailFailure::Parts)?;
    let conduction = solve_detail(&detail, precision).map_err(DetailFailure::Conduction)?;
    let reach = AirReach::of(case, conduction.solution.detail());
    let is_room = |air: &crate::model::drawn::CaseAir| air.source == AirSource::Room;
    let surfaces = case
        .airs
        .iter()
        .position(is_room)
        .map_or_else(Vec::new, |room| {
            let named = case.surfaces.iter().filter_map(|surface| {
                let coldest = coldest_on(&conduction, room, &surface.line, surface.facing)?;
                Some((surface.name.clone(), coldest))
            });
            named.collect()
        });
    Ok(Spots {
        wood: wood::parts(case, &conduction, &reach),
        surfaces,
        settled: conduction.settled && conductivity_settled,
    })
}
