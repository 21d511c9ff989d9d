//! One assembly or detail under every option.

use super::column::{Column, ColumnKind, Value};
use super::{Part, PartTable, Sources};
use crate::check::{Check, Detail, Finding, Overview, Status, overview};
use crate::quantity::TemperatureDifference;
use crate::report::{Judged, JudgedDetail};
use crate::solve::house::{Piece, sum, take_off_per_area, thickness_as_built};

/// Tables of the assemblies and details that a variant changes; of all, where there is none.
pub(super) fn tables(sources: &Sources<'_>, options: &[Option<String>]) -> Vec<PartTable> {
    let alone = options.len() < 2;
    let is_changed = |name: &&str| {
        let mut cases = sources.judged.iter();
        alone || cases.any(|one| one.case.variant.is_some() && one.case.assembly.name == **name)
    };
    let is_redrawn = |name: &&str| {
        let mut details = sources.details.iter();
        alone || details.any(|one| one.case.variant.is_some() && one.case.name == **name)
    };
    let assemblies = sources.assemblies().into_iter().filter(is_changed);
    let details = sources.all_details().into_iter().filter(is_redrawn);
    let mut tables: Vec<PartTable> = assemblies
        .map(|name| assembly(sources, options, name))
        .collect();
    tables.extend(details.map(|name| detail(sources, options, name)));
    tables
}

fn assembly(sources: &Sources<'_>, options: &[Option<String>], name: &str) -> PartTable {
    let included = sources.included();
    let column = |kind: ColumnKind, value: &dyn Fn(&Judged<'_>) -> Value| {
        let of = |variant: &Option<String>| {
            let judged = sources.assembly(name, variant.as_deref());
            judged.map_or_else(Value::default, value)
        };
        Column {
            kind,
            values: options.iter().map(of).collect(),
        }
    };
    let pieces = |value: fn(&Piece<'_>) -> Option<f64>| {
        move |one: &Judged<'_>| {
            Value::sum(&sum(
                &take_off_per_area(&one.case.assembly, included),
                value,
            ))
        }
    };
    let mut columns = vec![
        column(ColumnKind::LeakMargin, &|one| Value::of(leak_margin(one))),
        column(ColumnKind::DewPointMargin, &|one| {
            Value::of(dew_point_margin(one))
        }),
        column(ColumnKind::Peak, &|one| {
            Value::of(most(one, Check::Year, peak))
        }),
        column(ColumnKind::DaysToDry, &|one| {
            Value::of(most(one, Check::Drying, days_to_dry))
        }),
        column(ColumnKind::Transmittance, &transmittance),
        column(ColumnKind::Thickness, &|one| {
            Value::of(Some(thickness_as_built(&one.case.assembly)))
        }),
        column(ColumnKind::WeightPerArea, &pieces(|piece| piece.mass())),
    ];
    if sources.project.currency.is_some() {
        columns.push(column(
            ColumnKind::PricePerArea,
            &pieces(|piece| piece.price()),
        ));
    }
    PartTable {
        part: Part::Assembly(name.to_owned()),
        columns,
    }
}

fn detail(sources: &Sources<'_>, options: &[Option<String>], name: &str) -> PartTable {
    let column = |kind: ColumnKind, value: fn(&JudgedDetail<'_>) -> Value| {
        let of = |variant: &Option<String>| {
            let judged = sources.detail(name, variant.as_deref());
            judged.map_or_else(Value::default, value)
        };
        Column {
            kind,
            values: options.iter().map(of).collect(),
        }
    };
    let psi = |one: &JudgedDetail<'_>| {
        let psi = one.result.as_ref().ok().and_then(|one| one.psi.as_ref());
        Value::between(psi.map(|psi| (psi.value - psi.bar, psi.value + psi.bar)))
    };
    PartTable {
        part: Part::Detail(name.to_owned()),
        columns: vec![
            column(ColumnKind::Verdict, |one| {
                Value::status(Some(one.verdict.status))
            }),
            column(ColumnKind::LeastMargin, |one| Value::of(least_margin(one))),
            column(ColumnKind::Psi, psi),
        ],
    }
}

/// The number of the combined method where it applies, else the bracket.
fn transmittance(one: &Judged<'_>) -> Value {
    let Some(u) = one.result.ends.first().map(|end| &end.transmittance) else {
        return Value::default();
    };
    let bracket = (u.parallel_path, u.isothermal_planes);
    Value::between(Some(u.combined.map_or(bracket, |u| (u, u))))
}

/// The greatest value among a check's judged findings at any stop; `None` where it wasn't judged.
fn most(one: &Judged<'_>, check: Check, value: fn(&Finding) -> Option<f64>) -> Option<f64> {
    let stops = one.route.iter().map(|at| &at.verdict);
    let verdicts = std::iter::once(&one.verdict).chain(stops);
    let findings = verdicts.flat_map(|verdict| &verdict.findings);
    let judged = findings.filter(|one| one.check == check && one.status != Status::Note);
    judged.filter_map(value).max_by(f64::total_cmp)
}

/// Water held at most, kg/m²: none where nothing condenses.
fn peak(finding: &Finding) -> Option<f64> {
    match &finding.detail {
        Detail::Year(detail) => Some(detail.peak),
        _ => Some(0.0),
    }
}

fn days_to_dry(finding: &Finding) -> Option<f64> {
    match &finding.detail {
        Detail::Drying(detail) => Some(detail.days.unwrap_or(f64::INFINITY)),
        _ => None,
    }
}

/// The least leak margin at any stop, K.
pub(super) fn leak_margin(one: &Judged<'_>) -> Option<f64> {
    least(one, |overview| overview.leak_margin)
}

/// The least dew-point margin at any stop, K.
pub(super) fn dew_point_margin(one: &Judged<'_>) -> Option<f64> {
    least(one, |overview| overview.dew_point_margin)
}

fn least(one: &Judged<'_>, margin: fn(&Overview) -> Option<TemperatureDifference>) -> Option<f64> {
    let stops = one.route.iter().map(|at| &at.result);
    let results = std::iter::once(&one.result).chain(stops);
    let margins = results.filter_map(|result| margin(&overview(result)));
    margins
        .map(TemperatureDifference::as_kelvin)
        .min_by(f64::total_cmp)
}

/// The least margin of a detail at any stop, K.
fn least_margin(one: &JudgedDetail<'_>) -> Option<f64> {
    let stops = one.route.iter().map(|(_, verdict)| verdict);
    let verdicts = std::iter::once(&one.verdict).chain(stops);
    let margins = verdicts.filter_map(|verdict| verdict.least_margin);
    margins
        .map(TemperatureDifference::as_kelvin)
        .min_by(f64::total_cmp)
}
