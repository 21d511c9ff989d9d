//! U-values of a bridged assembly: parallel path, isothermal planes, combined method.
//!
//! ```text
//! parallel path      1/R' = Σ f_j / R_j                    over the paths j
//! isothermal planes  R''  = R_si + Σ R_k + R_se,  1/R_k = Σ f_j / R_kj   over the layers k, one
//!                    that raised joists end short of cut at their ends
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

/// A layer, or the part of it that raised joists cross or lie clear of.
#[derive(Clone, Debug, PartialEq)]
pub struct Slice {
    /// Index of the layer.
    pub layer: usize,
    /// For every path off the strips, the piece there and how much of its thickness, a fraction.
    pub parts: Vec<(usize, f64)>,
    /// Resistance with cavity and members side by side, m²·K/W.
    pub resistance: f64,
}

/// What R'' is made of, m²·K/W.
#[derive(Clone, Debug, PartialEq)]
pub struct IsothermalPlanes {
    /// Film at the room's surface.
    pub interior_film: f64,
    /// Every layer with cavity and members side by side, in two where joists end short of it.
    pub slices: Vec<Slice>,
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
    let slices = slices(&off_strip);
    let under = assembly.strips.iter().map(|strip| strip.under).min();
    let is_common = |slice: &&Slice| under.is_none_or(|under| slice.layer <= under);
    let common = slices.iter().take_while(is_common).count();
    let interior_film = boundary.interior_film.as_si();
    let sum = |slices: &[Slice]| slices.iter().map(|slice| slice.resistance).sum::<f64>();
    let (above, below) = (sum(&slices[..common]), sum(&slices[common..]));
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
        slices,
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

/// The slices of the paths off the strips. All of them pass the same layers; where members end
/// short of one it is cut at their ends, and the other paths' piece counts by its thickness.
fn slices(solved: &[&Solved<'_>]) -> Vec<Slice> {
    // Every layer's pieces along a path.
    let pieces = |path: &Path, layer: usize| -> Vec<usize> {
        let is_here = |n: &usize| path.pieces[*n].layer == Some(layer);
        (0..path.pieces.len()).filter(is_here).collect()
    };
    let last = solved.first().and_then(|(path, _)| path.pieces.last());
    let layers = last
        .and_then(|piece| piece.layer)
        .map_or(0, |last| last + 1);
    let mut slices = Vec::new();
    for layer in 0..layers {
        let along: Vec<Vec<usize>> = solved.iter().map(|(path, _)| pieces(path, layer)).collect();
        let cut = along
            .iter()
            .zip(solved)
            .find(|(pieces, _)| pieces.len() > 1);
        let shares = cut.map_or(vec![1.0], |(pieces, (path, _))| {
            let depth = |n: &usize| path.pieces[*n].thickness.as_m();
            let whole: f64 = pieces.iter().map(depth).sum();
            pieces.iter().map(|n| depth(n) / whole).collect()
        });
        for (nth, share) in shares.iter().enumerate() {
            let part = |pieces: &Vec<usize>| match pieces.len() {
                1 => (pieces[0], *share),
                _ => (pieces[nth], 1.0),
            };
            let parts: Vec<(usize, f64)> = along.iter().map(part).collect();
            let resistance = side_by_side(solved, &parts);
            slices.push(Slice {
                layer,
                parts,
                resistance,
            });
        }
    }
    slices
}

/// A slice's resistance with cavity and members side by side.
fn side_by_side(solved: &[&Solved<'_>], parts: &[(usize, f64)]) -> f64 {
    let total: f64 = solved
        .iter()
        .map(|(path, _)| path.share.as_fraction())
        .sum();
    let least = |r: f64| r.max(1e-12);
    let through = |((path, profile), (piece, part)): (&&Solved<'_>, &(usize, f64))| {
        path.share.as_fraction() / total / least(profile.resistances[*piece].as_si() * part)
    };
    let resistance = 1.0 / solved.iter().zip(parts).map(through).sum::<f64>();
    if resistance < 1e-11 { 0.0 } else { resistance }
}
