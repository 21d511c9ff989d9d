//! An assembly under its conditions: every path, both conditions, both ends of vented gaps.

use std::sync::Arc;

use super::again::Paths;
use super::chain::plane_temperatures;
use super::path::{Path, PathKind, paths, strip_in_series};
use super::profile::{Boundary, Profile, Slab, solve_path};
use super::reach::{PlaneRole, plane_roles};
use super::setting::{Setting, When, heat_direction};
use super::shown::{StripFactors, as_shown};
use super::transmittance::{Transmittance, transmittance};
use super::wetting::{Drying, dry_path};
use super::year::{Year, YearSolver};
use crate::model::{Assembly, AssemblyKind, Conditions, Openness};
use crate::physics::heat::temperature_factor;
use crate::physics::moist_air::{dew_point, vapor_pressure};
use crate::quantity::{ArealDensity, Length, Temperature};

/// How much is solved. The winter mean and the design night always are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent<'a> {
    /// Nothing beside them.
    Winter,
    /// Temperatures of the months, nothing else of the year.
    Heat,
    /// The yearly vapor balance as well.
    Year,
    /// The drying of every plane that water gets to, or only of the one named by path and plane.
    Drying(Option<(&'a str, usize)>),
    /// Everything.
    All,
}

/// One path solved under the winter mean and, where they are given, the design night and the
/// months of a climate. What takes room is shared between copies: a path whose properties stay is
/// taken over as it is when those of another one move ([`super::Again`]).
#[derive(Clone, Debug, PartialEq)]
pub struct PathResult {
    /// The path.
    pub path: Arc<Path>,
    /// Plane names from the room's surface to the outer surface, such as `subfloor / bay`.
    pub plane_names: Arc<[String]>,
    /// What each plane is to the checks.
    pub roles: Arc<[PlaneRole]>,
    /// On the winter mean.
    pub winter: Arc<Profile>,
    /// On the path of a strip that a detail shows: the strip's own winter mean, in one dimension. It
    /// is a hand-check there, since all else here has the detail's temperatures.
    pub by_strip: Option<Arc<Profile>>,
    /// On the design night.
    pub night: Option<Arc<Profile>>,
    /// The month with the coldest outdoor air, 0 is January, and the plane temperatures in it;
    /// `None` without a climate.
    pub coldest_month: Option<(usize, Arc<[Temperature]>)>,
    /// Plane temperatures month by month, January first; empty without a climate.
    pub months: Arc<[Vec<Temperature>]>,
    /// The yearly vapor balance.
    pub year: Option<Arc<Year>>,
    /// How 1 kg/m² dries from each vulnerable plane.
    pub drying: Arc<[Drying]>,
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
    /// What details show of its strips, strip by strip; empty where none is asked.
    pub shown: Vec<Option<StripFactors>>,
}

impl AssemblyResult {
    /// Whether every conductivity that follows the temperature settled.
    #[must_use]
    pub fn settled(&self) -> bool {
        let mut paths = self.ends.iter().flat_map(|end| &end.paths);
        paths.all(|path| {
            let night = path.night.as_ref().is_none_or(|night| night.converged);
            path.winter.converged && path.in_one_dimension().converged && night
        })
    }

    /// What the file promises about the work on the site and the result rests on: layers that are
    /// bonded because it says so, and keep room air from what it would harm.
    #[must_use]
    pub fn promises(&self) -> Vec<String> {
        let mut names: Vec<String> = Vec::new();
        for path in self.ends.iter().flat_map(|end| &end.paths) {
            let keeps = |role: &PlaneRole| role.vulnerable && !role.reached;
            let first = path.path.pieces.iter().find(|piece| piece.bonded);
            let first = first.filter(|piece| piece.bond_is_promised);
            if let Some(piece) = first.filter(|_| path.roles.iter().any(keeps)) {
                let name = format!("{} bonded", piece.name);
                if !names.contains(&name) {
                    names.push(name);
                }
            }
        }
        names
    }
}

/// Solves an assembly in full.
#[must_use]
pub fn solve(assembly: &Assembly, conditions: &Conditions) -> AssemblyResult {
    solve_to(assembly, conditions, Extent::All)
}

/// Solves as much of an assembly as is asked for.
#[must_use]
pub fn solve_to(
    assembly: &Assembly,
    conditions: &Conditions,
    extent: Extent<'_>,
) -> AssemblyResult {
    solve_with(&mut YearSolver::default(), assembly, conditions, extent)
}

/// As [`solve_to`], with the strips that details show at the details' temperatures: one entry for
/// every strip, `None` where none shows it; strips beyond the list aren't shown either.
#[must_use]
pub fn solve_shown(
    assembly: &Assembly,
    conditions: &Conditions,
    extent: Extent<'_>,
    shown: &[Option<StripFactors>],
) -> AssemblyResult {
    let setting = Setting {
        assembly,
        conditions,
    };
    solved(&mut YearSolver::default(), &setting, extent, shown)
}

/// As [`solve_to`], in the memory of a solver that is used again and again.
///
/// # Example
/// ```
/// use dewmargin::solve::year::YearSolver;
/// use dewmargin::solve::{Extent, solve, solve_with};
///
/// let text = include_str!("../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("wall.yaml", text).unwrap();
/// let conditions = &project.stops[0].conditions;
/// let mut solver = YearSolver::default();
/// for case in &project.cases {
///     let again = solve_with(&mut solver, &case.assembly, conditions, Extent::All);
///     assert_eq!(again, solve(&case.assembly, conditions));
/// }
/// ```
#[must_use]
pub fn solve_with(
    solver: &mut YearSolver,
    assembly: &Assembly,
    conditions: &Conditions,
    extent: Extent<'_>,
) -> AssemblyResult {
    let setting = Setting {
        assembly,
        conditions,
    };
    solved(solver, &setting, extent, &[])
}

pub(super) fn solved(
    solver: &mut impl Paths,
    setting: &Setting<'_>,
    extent: Extent<'_>,
    shown: &[Option<StripFactors>],
) -> AssemblyResult {
    let (assembly, conditions) = (setting.assembly, setting.conditions);
    let ends: &[Openness] = if assembly.has_vented_air() {
        &[Openness::Closed, Openness::Open]
    } else {
        &[Openness::Closed]
    };
    let weights = assembly.layers.iter().map(|l| (l, l.areal_density()));
    let (known, unknown): (Vec<_>, Vec<_>) = weights.partition(|(_, weight)| weight.is_some());
    let unweighed: Vec<String> = unknown
        .iter()
        .map(|(layer, _)| layer.name.clone())
        .collect();
    let weights = known.iter().filter_map(|(_, weight)| *weight);
    let total = weights.map(ArealDensity::as_si).sum();
    AssemblyResult {
        ends: ends
            .iter()
            .map(|end| solve_end(solver, setting, *end, extent, shown))
            .collect(),
        thickness: assembly.thickness(),
        weight: unweighed.is_empty().then(|| ArealDensity::from_si(total)),
        unweighed,
        room_dew_point: dew_point(vapor_pressure(
            conditions.indoor.temperature,
            conditions.indoor.humidity,
        )),
        shown: shown.to_vec(),
    }
}

fn solve_end(
    solver: &mut impl Paths,
    setting: &Setting<'_>,
    openness: Openness,
    extent: Extent<'_>,
    shown: &[Option<StripFactors>],
) -> EndResult {
    let (assembly, conditions) = (setting.assembly, setting.conditions);
    let direction = heat_direction(
        assembly.kind,
        conditions.indoor.temperature,
        conditions.winter_mean.temperature,
    );
    let solved: Vec<PathResult> = paths(assembly, openness, direction)
        .into_iter()
        .enumerate()
        .map(|(n, path)| {
            let factors = match path.kind {
                PathKind::Strip(n) => shown.get(n).copied().flatten(),
                _ => None,
            };
            solver.path((n, openness), setting, path, extent, factors)
        })
        .collect();
    let in_series: Vec<(f64, f64)> = assembly
        .strips
        .iter()
        .map(|strip| {
            let pieces = strip_in_series(assembly, strip, openness, direction);
            let slabs: Vec<_> = pieces.iter().map(|piece| piece.slab.clone()).collect();
            let profile = solve_path(&slabs, &setting.at(&solved[0].path, When::Winter));
            (strip.share.as_fraction(), profile.total_resistance.as_si())
        })
        .collect();
    let boundary = setting.at(&solved[0].path, When::Winter);
    let pairs: Vec<_> = solved
        .iter()
        .map(|result| (result.path.as_ref(), result.in_one_dimension()))
        .collect();
    let transmittance = transmittance(assembly, &pairs, &boundary, &in_series);
    EndResult {
        openness,
        boundary,
        paths: solved,
        transmittance,
    }
}

pub(super) fn solve_one(
    solver: &mut YearSolver,
    setting: &Setting<'_>,
    path: Path,
    plane_names: Arc<[String]>,
    extent: Extent<'_>,
    factors: Option<StripFactors>,
) -> PathResult {
    let own: Vec<Slab> = path.pieces.iter().map(|piece| piece.slab.clone()).collect();
    let conditions = setting.conditions;
    let films = setting.at(&path, When::Winter);
    let in_one = solve_path(&own, &films);
    let roles = plane_roles(&path, setting.assembly.kind);
    let wood = roles.iter().position(|role| role.wood_at_steel);
    let shown = factors.map(|factors| as_shown(&own, &in_one, films.exterior_film, wood, factors));
    let slabs = shown.as_ref().map_or(&own, |shown| &shown.slabs);
    let boundary = |when: When| {
        let boundary = setting.at(&path, when);
        shown
            .as_ref()
            .map_or(boundary, |shown| shown.within(boundary))
    };
    let (winter, by_strip) = match shown {
        None => (in_one, None),
        Some(_) => (solve_path(slabs, &boundary(When::Winter)), Some(in_one)),
    };
    let night = conditions
        .design_night
        .map(|_| solve_path(slabs, &boundary(When::Night)));
    let coldest_month = conditions.coldest_month();
    let months: Option<[Boundary; 12]> = match (extent, &conditions.year) {
        (Extent::Winter, _) | (_, None) => None,
        _ => Some(std::array::from_fn(|month| boundary(When::Month(month)))),
    };
    let year = match extent {
        Extent::Year | Extent::All => months.as_ref().map(|months| solver.solve(slabs, months)),
        Extent::Winter | Extent::Heat | Extent::Drying(_) => None,
    };
    let drying = match (extent, &months) {
        (Extent::All | Extent::Drying(_), Some(months)) => {
            let is_wanted = |plane: usize| match extent {
                Extent::Drying(Some((name, only))) => name == path.name && only == plane,
                Extent::Drying(None) => roles[plane].water.is_some(),
                _ => true,
            };
            dry_path(solver, (&path, slabs), &roles, months, is_wanted)
        }
        _ => Vec::new(),
    };
    PathResult {
        plane_names,
        temperature_factor: temperature_factor(
            winter.planes[0].temperature,
            conditions.winter_mean.temperature,
            conditions.indoor.temperature,
        ),
        coldest_month: coldest_month.map(|month| {
            let boundary = boundary(When::Month(month));
            (month, plane_temperatures(slabs, &boundary).into())
        }),
        months: months
            .iter()
            .flatten()
            .map(|month| plane_temperatures(slabs, month))
            .collect(),
        roles: roles.into(),
        winter: Arc::new(winter),
        by_strip: by_strip.map(Arc::new),
        night: night.map(Arc::new),
        year: year.map(Arc::new),
        drying: drying.into(),
        path: Arc::new(path),
    }
}

impl PathResult {
    /// The winter mean in one dimension, whatever a detail shows: what U-values are made of.
    #[must_use]
    pub fn in_one_dimension(&self) -> &Profile {
        self.by_strip.as_deref().unwrap_or(&self.winter)
    }

    /// The coldest plane among those with a given role on the winter mean.
    #[must_use]
    pub fn coldest(&self, has_role: impl Fn(&PlaneRole) -> bool) -> Option<usize> {
        let temperature = |n: &usize| self.winter.planes[*n].temperature.as_celsius();
        (0..self.roles.len())
            .filter(|n| has_role(&self.roles[*n]))
            .min_by(|a, b| temperature(a).total_cmp(&temperature(b)))
    }
}

pub(super) fn plane_names(kind: AssemblyKind, path: &Path) -> Arc<[String]> {
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
