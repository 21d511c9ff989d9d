//! U-values of a bridged assembly: parallel path, isothermal planes, combined method.
//!
//! ```text
//! parallel path      1/R' = Σ f_j / R_j                    over the paths j
//! isothermal planes  R''  = R_si + Σ R_k + R_se,  1/R_k = Σ f_j / R_kj   over the layers k
//! combined           R    = (R' + R'')/2,  e = (R' − R'')/(2R),  for R'/R'' ≤ 1.5
//! ```
//! Source: ISO 6946, combined method with its error bound and limit of use (from memory; worked
//! examples in `tests/published`).
//!
//! With metal strips in it none of the three stands alone: the parallel path is the low end and
//! the isothermal planes the high end of a bracket, and two-dimensional conduction decides.

use super::path::{Path, PathKind};
use super::profile::{Boundary, Profile};
use crate::model::Assembly;

/// Beyond this ratio of R' to R'' the combined method isn't applicable (ISO 6946).
pub const COMBINED_LIMIT: f64 = 1.5;

/// The thermal transmittances of an assembly, W/(m²·K).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Transmittance {
    /// By the parallel path, R'.
    pub parallel_path: f64,
    /// By isothermal planes, R''.
    pub isothermal_planes: f64,
    /// By the combined method; `None` where R'/R'' passes 1.5 or metal strips are present.
    pub combined: Option<f64>,
    /// Greatest relative error of the combined method, as a fraction.
    pub combined_error: f64,
    /// R'/R''.
    pub ratio: f64,
    /// By the parallel path with metal strips taken in series with what lies below them:
    /// for comparison only; `None` without strips.
    pub strips_in_series: Option<f64>,
}

/// A path with its solution.
pub type Solved<'a> = (&'a Path, &'a Profile);

/// Puts the solved paths of an assembly together. `in_series` holds, for each strip, its share
/// and its total resistance taken in series.
#[must_use]
pub fn transmittance(
    assembly: &Assembly,
    solved: &[Solved<'_>],
    boundary: &Boundary,
    in_series: &[(f64, f64)],
) -> Transmittance {
    let u_of =
        |(path, profile): &Solved<'_>| path.share.as_fraction() / profile.total_resistance.as_si();
    let parallel_path: f64 = solved.iter().map(u_of).sum();
    let by_planes = 1.0 / isothermal_planes(assembly, solved, boundary).total;
    let ratio = by_planes / parallel_path;
    let (upper, lower) = (1.0 / parallel_path, 1.0 / by_planes);
    let mean = 0.5 * (upper + lower);
    let applies = in_series.is_empty() && ratio <= COMBINED_LIMIT;
    let strips_in_series = (!in_series.is_empty()).then(|| {
        let off_strip = solved
            .iter()
            .filter(|(path, _)| !matches!(path.kind, PathKind::Strip(_)));
        let strips: f64 = in_series
            .iter()
            .map(|(share, resistance)| share / resistance)
            .sum();
        off_strip.map(u_of).sum::<f64>() + strips
    });
    Transmittance {
        parallel_path,
        isothermal_planes: by_planes,
        combined: applies.then(|| 1.0 / mean),
        combined_error: (upper - lower) / (2.0 * mean),
        ratio,
        strips_in_series,
    }
}

/// What R'' is made of, m²·K/W.
#[derive(Clone, Debug, PartialEq)]
pub struct IsothermalPlanes {
    /// Film at the room's surface.
    pub interior_film: f64,
    /// Every layer with cavity and members side by side.
    pub layers: Vec<f64>,
    /// How many of them lie above the metal; all without strips.
    pub common: usize,
    /// Film at the outer surface.
    pub exterior_film: f64,
    /// For every path through a strip its share of the area, and its resistance from the underside
    /// of the common layers to outdoors.
    pub through_strips: Vec<(f64, f64)>,
    /// R'' with both films.
    pub total: f64,
}

/// R'' with films. Above the highest strip the planes span the whole deck; below it the metal
/// and what it replaces stand side by side.
#[must_use]
pub fn isothermal_planes(
    assembly: &Assembly,
    solved: &[Solved<'_>],
    boundary: &Boundary,
) -> IsothermalPlanes {
    let (on_strip, off_strip): (Vec<&Solved<'_>>, Vec<&Solved<'_>>) = solved
        .iter()
        .partition(|(path, _)| matches!(path.kind, PathKind::Strip(_)));
    let count = off_strip.first().map_or(0, |(path, _)| path.pieces.len());
    let under = assembly.strips.iter().map(|strip| strip.under + 1).min();
    let common = under.unwrap_or(count).min(count);
    let interior_film = boundary.interior_film.as_si();
    let layers: Vec<f64> = (0..count)
        .map(|n| plane_resistance(&off_strip, n))
        .collect();
    let above: f64 = layers[..common].iter().sum();
    let below: f64 = layers[common..].iter().sum();
    let exterior_film = exterior_of(boundary, off_strip.first());
    let through_strips: Vec<(f64, f64)> = on_strip
        .iter()
        .map(|solved| {
            let (path, profile) = solved;
            let rest = profile.resistances[common..].iter().map(|r| r.as_si());
            let film = exterior_of(boundary, Some(solved));
            (path.share.as_fraction(), rest.sum::<f64>() + film)
        })
        .collect();
    let total = if through_strips.is_empty() {
        interior_film + above + below + exterior_film
    } else {
        let share: f64 = through_strips.iter().map(|(share, _)| share).sum();
        let metal: f64 = through_strips.iter().map(|(share, r)| share / r).sum();
        let beside = (1.0 - share) / (below + exterior_film);
        interior_film + above + 1.0 / (metal + beside)
    };
    IsothermalPlanes {
        interior_film,
        layers,
        common,
        exterior_film,
        through_strips,
        total,
    }
}

/// The exterior film of a path: what its total has over its layers and the interior film.
fn exterior_of(boundary: &Boundary, solved: Option<&&Solved<'_>>) -> f64 {
    solved.map_or(boundary.exterior_film.as_si(), |(_, profile)| {
        let layers: f64 = profile.resistances.iter().map(|r| r.as_si()).sum();
        profile.total_resistance.as_si() - layers - boundary.interior_film.as_si()
    })
}

/// One layer's resistance with cavity and members side by side.
fn plane_resistance(solved: &[&Solved<'_>], layer: usize) -> f64 {
    let total: f64 = solved
        .iter()
        .map(|(path, _)| path.share.as_fraction())
        .sum();
    let least = |r: f64| r.max(1e-12);
    let through = |(path, profile): &&Solved<'_>| {
        path.share.as_fraction() / total / least(profile.resistances[layer].as_si())
    };
    let resistance = 1.0 / solved.iter().map(through).sum::<f64>();
    if resistance < 1e-11 { 0.0 } else { resistance }
}
