//! A detail solved with one set of films: its wood and its surfaces, for searches that solve many.

use super::corner::{Around, CORNER_PRECISION, CornerGrids, CornerSpot};
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
    /// The same at the corner, where that was asked for: the wood that decides with the usual films, the
    /// surfaces with those for mold.
    pub corner: Vec<CornerSpot>,
    /// Whether the result is as precise as was asked for.
    pub settled: bool,
}

/// How precisely places are searched: the cut, and its corner where it has one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpotPrecision {
    /// Of the cut.
    pub cut: Precision,
    /// Of the corner; `None` where it isn't looked at.
    pub corner: Option<CornerGrids>,
}

impl SpotPrecision {
    /// As a check is.
    #[must_use]
    pub fn full() -> Self {
        Self {
            cut: Precision::default(),
            corner: Some(CornerGrids::Three(CORNER_PRECISION)),
        }
    }

    /// On coarse grids.
    #[must_use]
    pub fn quick() -> Self {
        Self {
            cut: Precision::quick(),
            corner: Some(CornerGrids::One),
        }
    }

    /// The cut alone, on coarse grids.
    #[must_use]
    pub fn quick_cut() -> Self {
        Self {
            corner: None,
            ..Self::quick()
        }
    }
}

/// Solves a detail on the winter mean with the usual films, or with those for mold; its corner too, where
/// it has one.
///
/// # Errors
/// As [`super::solve_detail_case`], and where the corner can't be solved.
pub fn solve_spots(
    case: &DetailCase,
    conditions: &Conditions,
    precision: &SpotPrecision,
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
    let (case, conductivity_settled) = settle::settled(case, (indoor, outdoor), &precision.cut)?;
    let case = &case;
    let detail = case
        .detail_at(indoor, outdoor, &films)
        .map_err(DetailFailure::Parts)?;
    let conduction = solve_detail(&detail, &precision.cut).map_err(DetailFailure::Conduction)?;
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
    let wood = wood::parts(case, &conduction, &reach);
    let grids = precision.corner.filter(|_| case.has_corner());
    let around = grids.map(|grids| Around::solve(case, &detail, grids));
    let around = around.transpose().map_err(DetailFailure::Corner)?;
    let corner = around.as_ref().map_or_else(Vec::new, |around| match damp {
        false => around.wood(case, &wood, &reach),
        true => around.surfaces(case),
    });
    let corner_settled = around.as_ref().is_none_or(Around::converged);
    Ok(Spots {
        wood,
        surfaces,
        corner,
        settled: conduction.settled && conductivity_settled && corner_settled,
    })
}
