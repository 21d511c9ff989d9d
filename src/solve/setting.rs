//! What air and films a path lies between: on the winter mean, the design night, in every month.

use super::path::Path;
use super::profile::Boundary;
use crate::model::{AirState, Assembly, AssemblyKind, Conditions, Film, MonthState};
use crate::physics::heat::{
    Direction, exterior_film_handbook, exterior_surface_resistance, interior_film_handbook,
    interior_surface_resistance,
};
use crate::physics::moist_air::{saturation_vapor_pressure, vapor_pressure};
use crate::quantity::{RelativeHumidity, Temperature, TemperatureDifference, ThermalResistance};

/// Which way heat flows through an assembly.
#[must_use]
pub fn heat_direction(kind: AssemblyKind, indoor: Temperature, outdoor: Temperature) -> Direction {
    match (kind, indoor >= outdoor) {
        (AssemblyKind::Wall, _) => Direction::Horizontal,
        (AssemblyKind::Floor, true) | (AssemblyKind::Roof, false) => Direction::Down,
        (AssemblyKind::Floor, false) | (AssemblyKind::Roof, true) => Direction::Up,
    }
}

/// Where in the year a boundary holds; sun and night sky depend on it.
#[derive(Clone, Copy)]
pub(super) enum When {
    /// The three coldest months together.
    Winter,
    /// The cold design value.
    Night,
    /// A month, 0 is January.
    Month(usize),
}

/// An assembly's surroundings.
pub(super) struct Setting<'a> {
    pub(super) assembly: &'a Assembly,
    pub(super) conditions: &'a Conditions,
}

impl Setting<'_> {
    /// Air and films of a path at a time.
    pub(super) fn at(&self, path: &Path, when: When) -> Boundary {
        let (indoor, outdoor) = match when {
            When::Winter => (self.conditions.indoor, self.conditions.winter_mean),
            When::Night => (
                self.conditions.indoor,
                self.conditions
                    .design_night
                    .unwrap_or(self.conditions.winter_mean),
            ),
            When::Month(month) => match &self.conditions.year {
                Some(year) => (year[month].indoor, year[month].outdoor),
                None => (self.conditions.indoor, self.conditions.winter_mean),
            },
        };
        // Behind a ventilated gap there is no sun and no sky.
        let offset = if path.ends_at_ventilated_air {
            0.0
        } else {
            self.offset(when)
        };
        boundary(
            self.assembly,
            path.ends_at_ventilated_air,
            indoor,
            moved(outdoor, offset),
        )
    }

    /// How far sun and night sky move the outer surface's surroundings, K.
    fn offset(&self, when: When) -> f64 {
        let offsets = &self.assembly.surface_offsets;
        let sky = offsets.night_sky.as_kelvin();
        let (winter, summer) = (
            offsets.sun_in_winter.as_kelvin(),
            offsets.sun_in_summer.as_kelvin(),
        );
        match (when, &self.conditions.year) {
            (When::Night, _) => -sky,
            (When::Month(month), Some(year)) => {
                let part = warmth(year, month);
                winter + (summer - winter) * part - sky
            }
            (When::Winter | When::Month(_), _) => winter - sky,
        }
    }
}

/// 0 in the coldest month, 1 in the warmest: how far the sun has come.
fn warmth(year: &[MonthState; 12], month: usize) -> f64 {
    let outdoor = |state: &MonthState| state.outdoor.temperature.as_celsius();
    let coldest = year.iter().map(outdoor).fold(f64::INFINITY, f64::min);
    let warmest = year.iter().map(outdoor).fold(f64::NEG_INFINITY, f64::max);
    let span = warmest - coldest;
    if span > 0.0 {
        (outdoor(&year[month]) - coldest) / span
    } else {
        0.0
    }
}

/// Outdoor air as the outer surface feels it: another temperature, the same vapor.
fn moved(air: AirState, offset: f64) -> AirState {
    if offset == 0.0 {
        return air;
    }
    let pressure = vapor_pressure(air.temperature, air.humidity);
    let temperature = air.temperature + TemperatureDifference::from_kelvin(offset);
    let humidity = pressure.as_pa() / saturation_vapor_pressure(temperature).as_pa();
    AirState {
        temperature,
        humidity: RelativeHumidity::from_fraction(humidity),
    }
}

fn boundary(
    assembly: &Assembly,
    ends_at_ventilated_air: bool,
    indoor: AirState,
    outdoor: AirState,
) -> Boundary {
    let films = &assembly.films;
    let direction = heat_direction(assembly.kind, indoor.temperature, outdoor.temperature);
    let interior: fn(Direction) -> ThermalResistance = if films.handbook {
        interior_film_handbook
    } else {
        interior_surface_resistance
    };
    let exterior: fn() -> ThermalResistance = if films.handbook {
        exterior_film_handbook
    } else {
        exterior_surface_resistance
    };
    let exterior_film = films.outside.resistance.unwrap_or_else(|| {
        if ends_at_ventilated_air {
            interior(direction)
        } else {
            exterior()
        }
    });
    Boundary {
        indoor,
        outdoor,
        interior_film: films
            .inside
            .resistance
            .unwrap_or_else(|| interior(direction)),
        exterior_film,
        interior_vapor_film: vapor_film(films.inside),
        exterior_vapor_film: vapor_film(films.outside),
    }
}

fn vapor_film(film: Film) -> f64 {
    film.permeance
        .map_or(0.0, |permeance| 1.0 / permeance.as_si())
}
