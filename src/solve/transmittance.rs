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
    let isothermal_planes = 1.0 / isothermal_resistance(assembly, solved, boundary);
    let ratio = isothermal_planes / parallel_path;
    let (upper, lower) = (1.0 / parallel_path, 1.0 / isothermal_planes);
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
        isothermal_planes,
        combined: applies.then(|| 1.0 / mean),
        combined_error: (upper - lower) / (2.0 * mean),
        ratio,
        strips_in_series,
    }
}

/// R'' with films. Above the highest strip the planes span the whole deck; below it the metal
/// and what it replaces stand side by side.
fn isothermal_resistance(assembly: &Assembly, solved: &[Solved<'_>], boundary: &Boundary) -> f64 {
    let (on_strip, off_strip): (Vec<&Solved<'_>>, Vec<&Solved<'_>>) = solved
        .iter()
        .partition(|(path, _)| matches!(path.kind, PathKind::Strip(_)));
    let layers = off_strip.first().map_or(0, |(path, _)| path.pieces.len());
    let common = assembly
        .strips
        .iter()
        .map(|strip| strip.under + 1)
        .min()
        .unwrap_or(layers);
    let common = common.min(layers);
    let interior = boundary.interior_film.as_si();
    let above: f64 = (0..common).map(|n| plane_resistance(&off_strip, n)).sum();
    let below: f64 = (common..layers)
        .map(|n| plane_resistance(&off_strip, n))
        .sum();
    let exterior = exterior_of(boundary, off_strip.first());
    if on_strip.is_empty() {
        return interior + above + below + exterior;
    }
    let strip_share: f64 = on_strip
        .iter()
        .map(|(path, _)| path.share.as_fraction())
        .sum();
    let through_strips: f64 = on_strip
        .iter()
        .map(|solved| {
            let (path, profile) = solved;
            let rest: f64 = profile.resistances[common..]
                .iter()
                .map(|r| r.as_si())
                .sum();
            path.share.as_fraction() / (rest + exterior_of(boundary, Some(solved)))
        })
        .sum();
    let beside = (1.0 - strip_share) / (below + exterior);
    interior + above + 1.0 / (through_strips + beside)
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
