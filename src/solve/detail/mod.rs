//! A detail in two dimensions under its conditions: surfaces, wood at the steel, heat flow.
//!
//! The cut is solved twice on the winter mean: with the usual films, for heat flow and the
//! temperatures of parts, and with 0.25 m²·K/W inside, for mold and condensation in corners and
//! behind furniture (ISO 13788, from memory). Conduction is linear, so between two airs the
//! temperature factor of a place holds for every month and for the design night as well. With a
//! space or a face of a temperature of its own it doesn't, and only the winter mean is told.
//!
//! Where a conductivity follows the temperature, it is taken at the mean temperature of its rectangle
//! on the winter mean of the site, as in the paths: so psi and the factors are a site's own. The factors
//! then stand for that site's other months and its design night too: between 24 and −4 °C foam changes
//! by about a tenth, and the factor of the coldest place by far less.

mod between;
mod boxes;
mod corner;
mod gate;
mod hand_check;
mod reach;
mod settle;
mod spots;
mod wood;

pub use between::Between;
pub use boxes::{AirSurface, BoxSpot, BoxesFailure, BoxesResult, solve_boxes};
pub use corner::{
    CORNER_FINEST, CORNER_PRECISION, Corner, CornerFailure, CornerGrids, CornerSlice, CornerSlices,
    CornerSpot, solve_corner,
};
pub use hand_check::{Fin, HandCheck, HandCheckBasis, HandCheckKind, hand_checks};
pub use reach::AirReach;
pub use spots::{SpotPrecision, Spots, solve_spots};
pub use wood::WoodPart;

use super::conduction::{Coldest, Conduction, ConductionError, Estimate, Precision, solve_detail};
use crate::model::Conditions;
use crate::model::detail::{Area, DetailProblem, Facing};
use crate::model::drawn::{AirSource, CaseContact, DetailCase, DetailFilms};
use crate::physics::moist_air::{dew_point, vapor_pressure};
use crate::quantity::Temperature;
use crate::solve::StripFactors;

/// Inside film where mold and condensation are judged, m²·K/W (ISO 13788, from memory).
pub const DAMP_FILM: f64 = 0.25;

/// A surface of the room with its coldest place.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomSurface {
    /// `floor surface`, `wall surface`, or `room` where the detail names none.
    pub name: String,
    /// With the usual films.
    pub usual: Coldest,
    /// With 0.25 m²·K/W inside.
    pub damp: Coldest,
}

/// A detail solved on the winter mean.
#[derive(Clone, Debug)]
pub struct DetailResult {
    /// The detail, its conductivities at the mean temperatures they were solved with.
    pub case: DetailCase,
    /// Whether those conductivities settled.
    pub conductivity_settled: bool,
    /// With the usual films.
    pub conduction: Conduction,
    /// With 0.25 m²·K/W inside.
    pub damp: Conduction,
    /// The room's surfaces.
    pub surfaces: Vec<RoomSurface>,
    /// The parts of wood, in drawing order.
    pub wood: Vec<WoodPart>,
    /// The places asked for, with their temperatures in °C.
    pub points: Vec<(String, Option<Estimate>)>,
    /// Where leaking room air gets to.
    pub reach: AirReach,
    /// Σ U·l of the plane assemblies by inside dimensions, W/(m·K); `None` where the detail
    /// states none.
    pub plane_coupling: Option<f64>,
    /// Linear thermal transmittance by inside dimensions, W/(m·K).
    pub psi: Option<Estimate>,
    /// Dew point of the room air.
    pub room_dew_point: Temperature,
    /// Indoor and outdoor temperature it was solved for.
    pub air: (Temperature, Temperature),
    /// Whether nothing has a temperature of its own beside those two.
    pub between_two_airs: bool,
    /// What its corner comes to; `None` where there is none or nobody asked.
    pub corner: Option<Result<Corner, CornerFailure>>,
}

/// Why a detail has no result.
#[derive(Clone, Debug, PartialEq)]
pub enum DetailFailure {
    /// Its parts can't be put together.
    Parts(Vec<DetailProblem>),
    /// It can't be solved.
    Conduction(ConductionError),
    /// Its corner can't, where that was asked for with it.
    Corner(CornerFailure),
}

/// Solves a detail on the winter mean.
///
/// # Errors
/// [`DetailFailure`] where the parts don't fit or the grid would be too large.
pub fn solve_detail_case(
    case: &DetailCase,
    conditions: &Conditions,
    precision: &Precision,
) -> Result<DetailResult, DetailFailure> {
    let (indoor, outdoor) = (
        conditions.indoor.temperature,
        conditions.winter_mean.temperature,
    );
    let (settled, conductivity_settled) = settle::settled(case, (indoor, outdoor), precision)?;
    let case = &settled;
    let solve = |films: &DetailFilms| {
        let detail = case
            .detail_at(indoor, outdoor, films)
            .map_err(DetailFailure::Parts)?;
        solve_detail(&detail, precision).map_err(DetailFailure::Conduction)
    };
    let usual_films = DetailFilms::default();
    let damp_films = DetailFilms {
        room: Some(DAMP_FILM),
        ..usual_films
    };
    let conduction = solve(&usual_films)?;
    let damp = solve(&damp_films)?;
    let reach = AirReach::of(case, conduction.solution.detail());
    let wood = wood::parts(case, &conduction, &reach);
    let has_reference = !case.references.is_empty();
    let plane_coupling = has_reference.then(|| case.plane_coupling(indoor, outdoor, &usual_films));
    let places: Vec<(f64, f64)> = case.points.iter().map(|(_, at)| *at).collect();
    let names = case.points.iter().map(|(name, _)| name.clone());
    let points = names.zip(conduction.temperatures_at(&places)).collect();
    Ok(DetailResult {
        points,
        surfaces: surfaces(case, &conduction, &damp),
        wood,
        reach,
        psi: plane_coupling.and_then(|clear| conduction.psi(clear)),
        plane_coupling,
        room_dew_point: dew_point(vapor_pressure(indoor, conditions.indoor.humidity)),
        air: (indoor, outdoor),
        between_two_airs: between_two_airs(case),
        conduction,
        damp,
        conductivity_settled,
        case: settled,
        corner: None,
    })
}

impl DetailResult {
    /// Temperature factor of a temperature found in this detail; `None` where indoors is as warm
    /// as outdoors, or where something has a temperature of its own.
    #[must_use]
    pub fn factor(&self, celsius: f64) -> Option<f64> {
        self.between().factor(celsius)
    }

    /// The air it lies between.
    #[must_use]
    pub fn between(&self) -> Between {
        Between {
            indoor: self.air.0,
            outdoor: self.air.1,
            room_dew_point: self.room_dew_point,
            alone: self.between_two_airs,
        }
    }

    /// Temperature factors over the strip that the detail shows: of the coldest floor surface, and of
    /// the wood that decides where room air gets to it. `None` where the detail has neither, or where
    /// something has a temperature of its own.
    #[must_use]
    pub fn strip_factors(&self, case: &DetailCase) -> Option<StripFactors> {
        let is_floor = |surface: &&RoomSurface| {
            let mut named = case.surfaces.iter();
            named.any(|one| one.facing == Facing::Up && one.name == surface.name)
        };
        let floors = self.surfaces.iter().filter(is_floor);
        let surface = floors.map(|surface| surface.usual.point.temperature);
        let deciding = self.wood.iter().filter(|part| part.decides);
        let wood = deciding.filter_map(|part| {
            let reached = part.reached.as_ref().map(|(coldest, _)| coldest);
            Some(reached.or(part.coldest.as_ref())?.point.temperature)
        });
        Some(StripFactors {
            surface: self.factor(surface.min_by(f64::total_cmp)?)?,
            wood: self.factor(wood.min_by(f64::total_cmp)?)?,
        })
    }

    /// The wood that decides at its corner; empty where that isn't solved.
    #[must_use]
    pub fn wood_at_corner(&self) -> &[CornerSpot] {
        match &self.corner {
            Some(Ok(corner)) => &corner.wood,
            _ => &[],
        }
    }

    /// Whether its bars are those of a bracket, see [`Conduction::bracket`].
    #[must_use]
    pub fn bracketed(&self) -> bool {
        self.conduction.bracket.is_some() || self.damp.bracket.is_some()
    }

    /// Whether every error bar is within what was asked for, or holds by a bracket.
    #[must_use]
    pub fn settled(&self) -> bool {
        let corner = self.corner.as_ref();
        let corner = corner.is_none_or(|one| one.as_ref().is_ok_and(|corner| corner.settled));
        self.conduction.settled && self.damp.settled && self.conductivity_settled && corner
    }
}

fn between_two_airs(case: &DetailCase) -> bool {
    let spaces = case.airs.iter().map(|air| air.source);
    let mut faces = case.faces.iter().map(|face| face.contact);
    spaces
        .into_iter()
        .all(|source| !matches!(source, AirSource::Held(_)))
        && faces.all(|contact| !matches!(contact, CaseContact::Held(_)))
}

/// The coldest place of every surface of the room.
fn surfaces(case: &DetailCase, usual: &Conduction, damp: &Conduction) -> Vec<RoomSurface> {
    let Some(room) = case
        .airs
        .iter()
        .position(|air| air.source == AirSource::Room)
    else {
        return Vec::new();
    };
    let named = case.surfaces.iter().filter_map(|surface| {
        let coldest = |of: &Conduction| coldest_on(of, room, &surface.line, surface.facing);
        Some(RoomSurface {
            name: surface.name.clone(),
            usual: coldest(usual)?,
            damp: coldest(damp)?,
        })
    });
    let named: Vec<RoomSurface> = named.collect();
    if !named.is_empty() {
        return named;
    }
    let whole = |of: &Conduction| of.coldest.get(room).copied().flatten();
    let pair = whole(usual).zip(whole(damp));
    pair.map(|(usual, damp)| RoomSurface {
        name: "room surface".into(),
        usual,
        damp,
    })
    .into_iter()
    .collect()
}

fn coldest_on(of: &Conduction, room: usize, line: &Area, facing: Facing) -> Option<Coldest> {
    const NEAR: f64 = 1e-7;
    of.coldest_among(|solution| {
        let on_line = solution.surface(room).into_iter().filter(|point| {
            point.facing == facing
                && (line.left - NEAR..=line.right + NEAR).contains(&point.x)
                && (line.bottom - NEAR..=line.top + NEAR).contains(&point.y)
        });
        on_line.collect()
    })
}
