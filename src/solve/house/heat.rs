//! Where the house's heat goes: H = Σ U·A + Σ psi·l + Σ chi·n, W/K, through its skin alone.
//!
//! **One system of dimensions, nothing twice.** Areas of assemblies are inside ones, and psi of a
//! generated detail is its coupling coefficient less Σ U·l by inside lengths between the members
//! ([`crate::model::drawn::Reference`]). So:
//! - A strip that a detail shows is left out of the floor's U-value wherever an edge of the house
//!   names that detail: its steel, what lies over it and the cold of the rail are in psi already.
//!   The floor's U is then that of its cavity and framing by the combined method.
//! - A strip that no edge shows stays in the floor's U-value. None of the three methods is trusted
//!   with it, so the middle of the bracket stands with half its width as its error.
//! - Members on a spacing are in U (framing shares) and not in psi (the cut runs between them).
//!   Bottom plate and rim joist are in psi; where the wall's framing share counts plates too, the
//!   plate is counted twice: a small error on the safe side.
//! - Bolts are in neither: they are added by the correction for fasteners of ISO 6946 where it
//!   applies ([`crate::physics::fastener`]), or by a stated chi.
//!
//! Transmittances are those of the winter mean; the design night's heat loss is H times its
//! difference. Air that leaks or is exchanged on purpose isn't in it.
//!
//! Source: transmission heat transfer coefficient of ISO 13789 and linear transmittance of ISO
//! 10211 and ISO 14683 (from memory).

use rayon::prelude::*;

use super::area::AssemblyArea;
use super::bolt::bolt_part;
use super::edge::{PsiOf, SolvedEdge, StripShare, share};
use super::heat_part::{Basis, HeatPart, HeatPartKind, Size};
use super::layout::Layout;
use crate::model::house::HouseCase;
use crate::model::{Assembly, Conditions, Stop};
use crate::quantity::Temperature;
use crate::solve::{EndResult, Extent, solve_to};

/// The heat loss of a house.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatLoss {
    /// Assemblies, openings, edges, bolts.
    pub parts: Vec<HeatPart>,
    /// The strips that an edge stands for.
    pub strips: Vec<StripShare>,
    /// Room air and outdoor air on the winter mean and on the design night.
    pub indoor: Temperature,
    /// Winter mean.
    pub winter_mean: Temperature,
    /// Design night; `None` where the file gives none.
    pub design_night: Option<Temperature>,
    /// Whether every detail reached its precision.
    pub settled: bool,
}

impl HeatLoss {
    /// H, W/K, of all parts that are known.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.parts.iter().map(HeatPart::loss).sum()
    }

    /// Error bars of the parts added up, W/K.
    #[must_use]
    pub fn bar(&self) -> f64 {
        self.parts.iter().map(HeatPart::loss_bar).sum()
    }

    /// Names of the parts that aren't known.
    #[must_use]
    pub fn unknown(&self) -> Vec<&str> {
        let parts = self.parts.iter().filter(|part| part.value.is_none());
        parts.map(|part| part.name.as_str()).collect()
    }

    /// What one part loses of the whole, as a fraction.
    #[must_use]
    pub fn share(&self, part: &HeatPart) -> f64 {
        part.loss() / self.total().max(f64::MIN_POSITIVE)
    }

    /// Heat loss on the winter mean, W.
    #[must_use]
    pub fn on_winter_mean(&self) -> f64 {
        self.total() * (self.indoor - self.winter_mean).as_kelvin()
    }

    /// Heat loss on the design night, W.
    #[must_use]
    pub fn on_design_night(&self) -> Option<f64> {
        let night = self.design_night?;
        Some(self.total() * (self.indoor - night).as_kelvin())
    }
}

/// Adds up the heat loss at a stop, psi of details as told.
#[must_use]
pub fn heat_loss(
    case: &HouseCase<'_>,
    layout: Option<&Layout>,
    areas: &[AssemblyArea],
    stop: &Stop,
    psi_of: &PsiOf<'_>,
) -> HeatLoss {
    let conditions = &stop.conditions;
    let edges = case.house.edges.par_iter();
    let edges: Vec<SolvedEdge> = edges
        .map(|edge| SolvedEdge::of(case, layout, edge, psi_of))
        .collect();
    let mut parts: Vec<HeatPart> = Vec::new();
    let mut strips = Vec::new();
    for area in areas {
        let Some(assembly) = case.assembly(&area.assembly) else {
            continue;
        };
        let mut left_out: Vec<String> = Vec::new();
        for (floor, strip) in edges.iter().filter_map(|edge| edge.strip.as_ref()) {
            if *floor == assembly.name && !left_out.contains(strip) {
                left_out.push(strip.clone());
            }
        }
        let shares = left_out.iter();
        strips.extend(
            shares.filter_map(|strip| share(strip, &edges, assembly, area.inside, conditions)),
        );
        parts.push(assembly_part(assembly, &left_out, area.inside, conditions));
    }
    parts.extend(case.house.openings.iter().map(|opening| HeatPart {
        name: opening.name.clone(),
        kind: HeatPartKind::Opening,
        size: Size::Area(opening.area().as_m2()),
        value: opening.u_value.map(|u| u.as_si()),
        bar: 0.0,
        basis: opening.u_value.map_or(Basis::Unknown, |_| Basis::Stated),
    }));
    let settled = edges.iter().all(|edge| edge.settled);
    parts.extend(edges.into_iter().map(|edge| edge.part));
    let bolts = case.house.bolts.iter();
    parts.extend(bolts.map(|bolts| bolt_part(case, bolts, conditions)));
    HeatLoss {
        parts,
        strips,
        indoor: conditions.indoor.temperature,
        winter_mean: conditions.winter_mean.temperature,
        design_night: conditions.design_night.map(|night| night.temperature),
        settled,
    }
}

/// An assembly without the strips that a detail shows.
fn without_strips(assembly: &Assembly, names: &[String]) -> Assembly {
    let mut rest = assembly.clone();
    rest.strips.retain(|strip| !names.contains(&strip.name));
    rest
}

/// U, its error, and where they come from; of a vented gap's two ends the worse.
pub(super) fn transmittance(
    assembly: &Assembly,
    left_out: &[String],
    conditions: &Conditions,
) -> (f64, f64, Basis) {
    let rest = without_strips(assembly, left_out);
    let result = solve_to(&rest, conditions, Extent::Winter);
    let of = |end: &EndResult| {
        let u = &end.transmittance;
        match u.combined {
            Some(combined) => {
                let left_to_detail = left_out.to_vec();
                (
                    combined,
                    combined * u.combined_error,
                    Basis::Combined { left_to_detail },
                )
            }
            None => {
                let (low, high) = (u.parallel_path, u.isothermal_planes);
                let strips = rest.strips.iter().map(|strip| strip.name.clone()).collect();
                let basis = Basis::Bracket { low, high, strips };
                (0.5 * (low + high), 0.5 * (high - low).abs(), basis)
            }
        }
    };
    let ends = result.ends.iter().map(of);
    ends.max_by(|a, b| a.0.total_cmp(&b.0))
        .unwrap_or((0.0, 0.0, Basis::Unknown))
}

fn assembly_part(
    assembly: &Assembly,
    left_out: &[String],
    area: f64,
    conditions: &Conditions,
) -> HeatPart {
    let (u, bar, basis) = transmittance(assembly, left_out, conditions);
    HeatPart {
        name: assembly.name.clone(),
        kind: HeatPartKind::Assembly,
        size: Size::Area(area),
        value: Some(u),
        bar,
        basis,
    }
}
