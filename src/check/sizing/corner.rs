//! The corner of the materials' ranges that is adverse to a target.

use rayon::prelude::*;

use super::bench::Bench;
use super::{Fidelity, Value};
use crate::model::{Moved, Property, PropertyKind, Target};
use crate::quantity::Length;

/// By part, by row: what is moved.
pub(super) type Corners = Vec<Vec<Vec<Moved>>>;

/// The adverse corners at a thickness: every property alone at an end of its spread.
pub(super) fn adverse(bench: &Bench<'_, '_>, thickness: Length) -> Corners {
    let parts = 0..bench.sizing.parts.len();
    parts.map(|part| of_part(bench, part, thickness)).collect()
}

fn of_part(bench: &Bench<'_, '_>, part: usize, thickness: Length) -> Vec<Vec<Moved>> {
    let properties = properties(bench, part);
    let at = |moved: &[Moved]| bench.of_part(part, thickness, moved, Fidelity::Direction);
    let nominal = at(&[]);
    let shifts: Vec<Vec<Option<Moved>>> = properties
        .par_iter()
        .map(|(of, property)| {
            let [low, high] = [property.spread.low, property.spread.high];
            let (lower, higher) = (
                end(low, &nominal, || at(&[(*of, *property, low)])),
                end(high, &nominal, || at(&[(*of, *property, high)])),
            );
            let worse = |row: usize| {
                let slack = |of: &[Option<Value>]| of[row].as_ref().map(|value| value.slack);
                let (below, above) = (slack(&lower)?, slack(&higher)?);
                let matters = property.kind == PropertyKind::Conductivity
                    || !by_heat_alone(bench.rows[row].target);
                let factor = if below < above { low } else { high };
                matters.then_some((*of, *property, factor))
            };
            (0..bench.rows.len()).map(worse).collect()
        })
        .collect();
    let of_row = |row: usize| shifts.iter().filter_map(|shift| shift[row]).collect();
    (0..bench.rows.len()).map(of_row).collect()
}

/// An end that is the nominal value needn't be solved.
fn end(
    factor: f64,
    nominal: &[Option<Value>],
    solve: impl FnOnce() -> Vec<Option<Value>>,
) -> Vec<Option<Value>> {
    if factor == 1.0 {
        nominal.to_vec()
    } else {
        solve()
    }
}

/// The properties with a known spread that can move a row.
fn properties(bench: &Bench<'_, '_>, part: usize) -> Vec<(usize, Property)> {
    let vapor = bench.rows.iter().any(|row| !by_heat_alone(row.target));
    let part = &bench.sizing.parts[part];
    let assemblies = part.assemblies().into_iter().enumerate();
    let all = assemblies.flat_map(|(n, assembly)| {
        let of = assembly.properties().into_iter();
        of.map(move |property| (n, property)).collect::<Vec<_>>()
    });
    let counts = |property: &Property| {
        property.spread.is_known() && (vapor || property.kind == PropertyKind::Conductivity)
    };
    all.filter(|(_, property)| counts(property)).collect()
}

fn by_heat_alone(target: Target) -> bool {
    !matches!(
        target,
        Target::DewPointMargin(_) | Target::DryWithinTheYear | Target::DaysToDry(_)
    )
}
