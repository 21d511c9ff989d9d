//! Bolts through insulation, by the correction for fasteners of ISO 6946 or a stated chi.

use super::heat_part::{Basis, HeatPart, HeatPartKind, NotApplicable, Size};
use crate::model::house::{Bolts, HouseCase};
use crate::model::{Conditions, Kind};
use crate::physics::fastener::{LEAST_CONDUCTIVITY, fastener_transmittance};
use crate::quantity::{Area, Length, ThermalResistance};
use crate::solve::{Extent, PathKind, solve_to};

/// What bolts of one kind add.
pub(super) fn bolt_part(case: &HouseCase<'_>, bolts: &Bolts, conditions: &Conditions) -> HeatPart {
    let (value, basis) = match bolts.chi {
        Some(chi) => (Some(chi.as_si()), Basis::Stated),
        None => by_correction(case, bolts, conditions),
    };
    HeatPart {
        name: bolts.name.clone(),
        kind: HeatPartKind::Bolts,
        size: Size::Count(bolts.count),
        value,
        bar: 0.0,
        basis,
    }
}

/// The correction for fasteners, or why it can't be taken.
fn by_correction(
    case: &HouseCase<'_>,
    bolts: &Bolts,
    conditions: &Conditions,
) -> (Option<f64>, Basis) {
    let nothing = (Some(0.0), Basis::NoSuchLayer);
    let Some(assembly) = case.assembly(&bolts.assembly) else {
        return nothing;
    };
    let solved = solve_to(assembly, conditions, Extent::Winter);
    let Some(end) = solved.ends.first() else {
        return nothing;
    };
    // Layers over a strip are on the strip's own path; the others on the cavity's.
    let on_path = end.paths.iter().find_map(|path| {
        let is_ours =
            path.path.kind == PathKind::Cavity || matches!(path.path.kind, PathKind::Strip(_));
        let pieces = &path.path.pieces;
        let at = pieces.iter().position(|piece| piece.name == bolts.through);
        at.filter(|_| is_ours).map(|at| (path, at))
    });
    let Some((path, at)) = on_path else {
        return nothing;
    };
    let pieces = &path.path.pieces;
    let conductivity = bolts.metal.conductivity.map_or(0.0, |k| k.as_si());
    if conductivity < LEAST_CONDUCTIVITY {
        return (Some(0.0), Basis::PoorConductor);
    }
    let is_metal = |n: Option<usize>| {
        n.and_then(|n| pieces.get(n))
            .is_some_and(|piece| piece.kind == Some(Kind::Metal))
    };
    if bolts.both_ends_on_steel {
        return (None, Basis::NotApplicable(NotApplicable::BothEndsOnSteel));
    }
    if is_metal(at.checked_sub(1)) && is_metal(Some(at + 1)) {
        return (None, Basis::NotApplicable(NotApplicable::BetweenMetal));
    }
    let thickness = pieces[at].thickness;
    let depth = bolts.embedded.unwrap_or(thickness);
    let depth = Length::from_m(depth.as_m().min(thickness.as_m()));
    let penetrated = path.winter.resistances[at].as_si() * depth.as_m() / thickness.as_m();
    let total = path.winter.total_resistance.as_si();
    let diameter = bolts.diameter.as_m();
    let section = std::f64::consts::PI / 4.0 * diameter * diameter;
    let chi = bolts.metal.conductivity.and_then(|k| {
        let resistances = (
            ThermalResistance::from_si(penetrated),
            ThermalResistance::from_si(total),
        );
        fastener_transmittance(k, Area::from_m2(section), (depth, thickness), resistances)
    });
    let basis = Basis::Fastener {
        conductivity,
        section,
        depth,
        thickness,
        penetrated,
        total,
    };
    (chi.map(|chi| chi.as_si()), basis)
}
