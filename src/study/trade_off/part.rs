//! One assembly or detail under every option.

use super::column::{Column, ColumnKind, Value};
use super::{Part, PartTable, included};
use crate::check::{self, Check, Detail, Finding, Status};
use crate::model::Stop;
use crate::solve::house::{Piece, sum, take_off_per_area, thickness_as_built};
use crate::study::{Judged, JudgedDetail, Study};

/// Tables of the assemblies and details that a variant changes; of all, where there is none.
pub(super) fn tables(study: &Study<'_>, options: &[Option<String>]) -> Vec<PartTable> {
    let alone = options.len() < 2;
    let is_changed = |name: &&str| {
        let mut cases = study.assemblies.iter();
        alone || cases.any(|one| one.case.variant.is_some() && one.case.assembly.name == **name)
    };
    let is_redrawn = |name: &&str| {
        let mut details = study.details.iter();
        alone || details.any(|one| one.case.variant.is_some() && one.case.name == **name)
    };
    let assemblies = study.assembly_names().into_iter().filter(is_changed);
    let details = study.detail_names().into_iter().filter(is_redrawn);
    let mut tables: Vec<PartTable> = assemblies
        .map(|name| assembly(study, options, name))
        .collect();
    tables.extend(details.map(|name| detail(study, options, name)));
    tables
}

fn assembly(study: &Study<'_>, options: &[Option<String>], name: &str) -> PartTable {
    let included = included(study);
    let column = |kind: ColumnKind, value: &dyn Fn(&Judged<'_>) -> Value| {
        let of = |variant: &Option<String>| {
            let judged = study.assembly(name, variant.as_deref());
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
        column(ColumnKind::LeakMargin, &|one| {
            at_site(leak_margin(one), one.stops)
        }),
        column(ColumnKind::DewPointMargin, &|one| {
            at_site(dew_point_margin(one), one.stops)
        }),
        column(ColumnKind::Peak, &|one| {
            most(one, &check::year::CHECK, peak)
        }),
        column(ColumnKind::DaysToDry, &|one| {
            most(one, &check::drying::CHECK, days_to_dry)
        }),
        column(ColumnKind::Transmittance, &transmittance),
        column(ColumnKind::Thickness, &|one| {
            Value::of(Some(thickness_as_built(&one.case.assembly)))
        }),
        column(ColumnKind::WeightPerArea, &pieces(|piece| piece.mass())),
    ];
    if study.project.currency.is_some() {
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

fn detail(study: &Study<'_>, options: &[Option<String>], name: &str) -> PartTable {
    let column = |kind: ColumnKind, value: fn(&JudgedDetail<'_>) -> Value| {
        let of = |variant: &Option<String>| {
            let judged = study.detail(name, variant.as_deref());
            judged.map_or_else(Value::default, value)
        };
        Column {
            kind,
            values: options.iter().map(of).collect(),
        }
    };
    let psi = |one: &JudgedDetail<'_>| {
        let psi = one.result().as_ref().ok().and_then(|one| one.psi.as_ref());
        Value::between(psi.map(|psi| (psi.value - psi.bar, psi.value + psi.bar)))
    };
    PartTable {
        part: Part::Detail(name.to_owned()),
        columns: vec![
            column(ColumnKind::Verdict, |one| {
                Value::status(Some(one.verdict.status))
            }),
            column(ColumnKind::LeastMargin, least_margin),
            column(ColumnKind::Psi, psi),
        ],
    }
}

/// The number of the combined method where it applies, else the bracket; of vented gaps the end
/// that loses more.
fn transmittance(one: &Judged<'_>) -> Value {
    let ends = one.result().ends.iter().map(|end| {
        let u = &end.transmittance;
        let bracket = (u.parallel_path, u.isothermal_planes);
        u.combined.map_or(bracket, |u| (u, u))
    });
    Value::between(ends.max_by(|a, b| (a.0 + a.1).total_cmp(&(b.0 + b.1))))
}

/// The greatest value among a check's judged findings at any site; nothing where it wasn't judged.
fn most(one: &Judged<'_>, check: &Check, value: fn(&Finding) -> Option<f64>) -> Value {
    let findings = one.sites.iter().flat_map(|at| &at.verdict.findings);
    let judged = findings.filter(|one| one.check == check && one.status != Status::Note);
    let values = judged.filter_map(|finding| Some((value(finding)?, finding.site)));
    let most = values.max_by(|a, b| a.0.total_cmp(&b.0));
    at_site(most, one.stops)
}

/// A number with the name of the site it is of, where there are several.
pub(super) fn at_site(found: Option<(f64, usize)>, stops: &[Stop]) -> Value {
    let several = stops.len() > 1;
    Value {
        site: found
            .filter(|_| several)
            .map(|(_, site)| stops[site].name.clone()),
        ..Value::of(found.map(|(value, _)| value))
    }
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

/// The least leak margin of all sites, K.
pub(super) fn leak_margin(one: &Judged<'_>) -> Option<(f64, usize)> {
    one.least(|overview| Some(overview.leak_margin?.as_kelvin()))
}

/// The least dew-point margin of all sites, K.
pub(super) fn dew_point_margin(one: &Judged<'_>) -> Option<(f64, usize)> {
    one.least(|overview| Some(overview.dew_point_margin?.as_kelvin()))
}

/// The least margin of a detail's judged findings at any site, K.
fn least_margin(one: &JudgedDetail<'_>) -> Value {
    let findings = one.sites.iter().flat_map(|at| &at.verdict.findings);
    let judged = findings.filter(|finding| finding.status != Status::Note);
    let margins = judged.filter_map(|finding| Some((finding.margin?.as_kelvin(), finding.site)));
    at_site(margins.min_by(|a, b| a.0.total_cmp(&b.0)), one.stops)
}
