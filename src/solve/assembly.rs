//! An assembly under its conditions: every path, both conditions, both ends of vented gaps.

use super::path::{Path, paths, strip_in_series};
use super::profile::{Boundary, Profile, solve_path};
use super::reach::{PlaneRole, plane_roles};
use super::transmittance::{Transmittance, transmittance};
use crate::model::{AirState, Assembly, AssemblyKind, Conditions, Film, Openness};
use crate::physics::heat::{
    Direction, exterior_film_handbook, exterior_surface_resistance, interior_film_handbook,
    interior_surface_resistance, temperature_factor,
};
use crate::physics::moist_air::{dew_point, vapor_pressure};
use crate::quantity::{ArealDensity, Length, Temperature, ThermalResistance};

/// One path solved under the winter mean and, where it is given, the design night.
#[derive(Clone, Debug, PartialEq)]
pub struct PathResult {
    /// The path.
    pub path: Path,
    /// Plane names from the room's surface to the outer surface, such as `subfloor / bay`.
    pub plane_names: Vec<String>,
    /// What each plane is to the checks.
    pub roles: Vec<PlaneRole>,
    /// On the winter mean.
    pub winter: Profile,
    /// On the design night.
    pub night: Option<Profile>,
    /// Temperature factor of the room's surface on the winter mean; `None` where indoors is as
    /// warm as outdoors.
    pub temperature_factor: Option<f64>,
}

/// The assembly with its vented air spaces at one end of their range.
#[derive(Clone, Debug, PartialEq)]
pub struct EndResult {
    /// Which end.
    pub openness: Openness,
    /// Films on the winter mean.
    pub boundary: Boundary,
    /// The paths: cavity first, then framing, then strips.
    pub paths: Vec<PathResult>,
    /// U-values on the winter mean.
    pub transmittance: Transmittance,
}

/// What was solved for an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct AssemblyResult {
    /// One end, or two where an air space is vented: closed first.
    pub ends: Vec<EndResult>,
    /// Thickness of all layers.
    pub thickness: Length,
    /// Weight per area of all layers with framing; `None` where a density isn't known.
    pub weight: Option<ArealDensity>,
    /// The layers whose weight isn't known.
    pub unweighed: Vec<String>,
    /// Dew point of the room air: what leaking air condenses below.
    pub room_dew_point: Temperature,
}

/// Solves an assembly.
#[must_use]
pub fn solve(assembly: &Assembly, conditions: &Conditions) -> AssemblyResult {
    let ends = if assembly.has_vented_air() {
        vec![Openness::Closed, Openness::Open]
    } else {
        vec![Openness::Closed]
    };
    let known: Vec<_> = assembly
        .layers
        .iter()
        .map(|l| (l, l.areal_density()))
        .collect();
    let unweighed: Vec<String> = known
        .iter()
        .filter(|(_, w)| w.is_none())
        .map(|(layer, _)| layer.name.clone())
        .collect();
    let total = known
        .iter()
        .filter_map(|(_, weight)| *weight)
        .map(ArealDensity::as_si)
        .sum();
    AssemblyResult {
        ends: ends
            .into_iter()
            .map(|end| solve_end(assembly, conditions, end))
            .collect(),
        thickness: assembly.thickness(),
        weight: unweighed.is_empty().then(|| ArealDensity::from_si(total)),
        unweighed,
        room_dew_point: dew_point(vapor_pressure(
            conditions.indoor.temperature,
            conditions.indoor.humidity,
        )),
    }
}

fn solve_end(assembly: &Assembly, conditions: &Conditions, openness: Openness) -> EndResult {
    let indoor = conditions.indoor;
    let outdoor = conditions.winter_mean;
    let direction = heat_direction(assembly.kind, indoor.temperature, outdoor.temperature);
    let paths = paths(assembly, openness, direction);
    let boundary_of = |path: &Path, outdoor: AirState| {
        boundary(assembly, path.ends_at_ventilated_air, indoor, outdoor)
    };
    let slabs = |path: &Path| {
        path.pieces
            .iter()
            .map(|piece| piece.slab.clone())
            .collect::<Vec<_>>()
    };
    let solved: Vec<PathResult> = paths
        .into_iter()
        .map(|path| {
            let slabs = slabs(&path);
            let winter = solve_path(&slabs, &boundary_of(&path, outdoor));
            let night = conditions
                .design_night
                .map(|night| solve_path(&slabs, &boundary_of(&path, night)));
            let surface = winter.planes[0].temperature;
            PathResult {
                plane_names: plane_names(assembly.kind, &path),
                roles: plane_roles(&path),
                temperature_factor: temperature_factor(
                    surface,
                    outdoor.temperature,
                    indoor.temperature,
                ),
                path,
                winter,
                night,
            }
        })
        .collect();
    let in_series: Vec<(f64, f64)> = assembly
        .strips
        .iter()
        .map(|strip| {
            let pieces = strip_in_series(assembly, strip, openness, direction);
            let slabs: Vec<_> = pieces.iter().map(|piece| piece.slab.clone()).collect();
            let ventilated = solved[0].path.ends_at_ventilated_air;
            let profile = solve_path(&slabs, &boundary(assembly, ventilated, indoor, outdoor));
            (strip.share.as_fraction(), profile.total_resistance.as_si())
        })
        .collect();
    let boundary = boundary(
        assembly,
        solved[0].path.ends_at_ventilated_air,
        indoor,
        outdoor,
    );
    let pairs: Vec<_> = solved
        .iter()
        .map(|result| (&result.path, &result.winter))
        .collect();
    let transmittance = transmittance(assembly, &pairs, &boundary, &in_series);
    EndResult {
        openness,
        boundary,
        paths: solved,
        transmittance,
    }
}

/// Which way heat flows through an assembly.
#[must_use]
pub fn heat_direction(kind: AssemblyKind, indoor: Temperature, outdoor: Temperature) -> Direction {
    match (kind, indoor >= outdoor) {
        (AssemblyKind::Wall, _) => Direction::Horizontal,
        (AssemblyKind::Floor, true) | (AssemblyKind::Roof, false) => Direction::Down,
        (AssemblyKind::Floor, false) | (AssemblyKind::Roof, true) => Direction::Up,
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

impl PathResult {
    /// The coldest plane among those with a given role on the winter mean.
    #[must_use]
    pub fn coldest(&self, has_role: impl Fn(&PlaneRole) -> bool) -> Option<usize> {
        let temperature = |n: &usize| self.winter.planes[*n].temperature.as_celsius();
        (0..self.roles.len())
            .filter(|n| has_role(&self.roles[*n]))
            .min_by(|a, b| temperature(a).total_cmp(&temperature(b)))
    }
}

fn plane_names(kind: AssemblyKind, path: &Path) -> Vec<String> {
    let surface = match kind {
        AssemblyKind::Wall => "wall surface",
        AssemblyKind::Floor => "floor surface",
        AssemblyKind::Roof => "ceiling surface",
    };
    let name = |n: usize| {
        path.pieces
            .get(n)
            .map_or("outdoors", |piece| piece.name.as_str())
    };
    let outer = if path.ends_at_ventilated_air {
        "ventilated gap"
    } else {
        "outdoors"
    };
    let last = path.pieces.len();
    let between = |n: usize| match n {
        n if n == last => format!("{} / {outer}", name(n - 1)),
        n => format!("{} / {}", name(n - 1), name(n)),
    };
    std::iter::once(surface.to_owned())
        .chain((1..=last).map(between))
        .collect()
}
