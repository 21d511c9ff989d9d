//! The whole project under every option.

use super::column::{Column, ColumnKind, Value};
use super::part::{at_site, dew_point_margin, leak_margin};
use super::{Part, PartTable};
use crate::check::Status;
use crate::model::AssemblyKind;
use crate::solve::house::{PartSum, height_taken};
use crate::study::{Judged, JudgedHouse, Study, Subject};

pub(super) fn table(study: &Study<'_>, options: &[Option<String>]) -> PartTable {
    let houses: Vec<Option<&JudgedHouse<'_>>> = options
        .iter()
        .map(|variant| study.house(variant.as_deref()))
        .collect();
    let of_project = |kind: ColumnKind, value: &dyn Fn(Option<&str>) -> Value| Column {
        kind,
        values: options.iter().map(|one| value(one.as_deref())).collect(),
    };
    let of_house = |kind: ColumnKind, value: &dyn Fn(&JudgedHouse<'_>) -> Value| Column {
        kind,
        values: houses
            .iter()
            .map(|one| one.map_or_else(Value::default, value))
            .collect(),
    };
    let least = |margin: fn(&Judged<'_>) -> Option<(f64, usize)>| {
        move |variant: Option<&str>| least_of_all(study, variant, margin)
    };
    let lost = head_room_lost(study, options, &houses);
    let mut columns = vec![
        of_project(ColumnKind::Verdict, &|variant| {
            Value::status(verdict(study, variant))
        }),
        of_project(ColumnKind::LeakMargin, &least(leak_margin)),
        of_project(ColumnKind::DewPointMargin, &least(dew_point_margin)),
        Column {
            kind: ColumnKind::HeadRoomLost,
            values: lost,
        },
        of_house(ColumnKind::Road, &|one| {
            Value::status(Some(one.verdict.status))
        }),
        of_house(ColumnKind::Width, &|one| {
            let width = one.result.fit.width.as_ref();
            Value::of(width.map(|width| width.total().as_m()))
        }),
        of_house(ColumnKind::Weight, &|one| {
            Value::sum(&PartSum {
                known: one.result.weight.house,
                unknown: one.result.weight.unknown.clone(),
            })
        }),
    ];
    if study.project.currency.is_some() {
        columns.push(of_house(ColumnKind::Price, &|one| Value::sum(&one.price)));
    }
    PartTable {
        part: Part::Whole,
        columns,
    }
}

/// The worst verdict of all assemblies and details.
fn verdict(study: &Study<'_>, variant: Option<&str>) -> Option<Status> {
    let parts = study.parts(variant).into_iter();
    let parts = parts.filter(|part| !matches!(part.subject, Subject::House(_)));
    parts
        .map(|part| part.status)
        .max_by_key(|status| status.severity())
}

fn least_of_all(
    study: &Study<'_>,
    variant: Option<&str>,
    margin: fn(&Judged<'_>) -> Option<(f64, usize)>,
) -> Value {
    let assemblies = study.assembly_names().into_iter();
    let judged = assemblies.filter_map(|name| study.assembly(name, variant));
    let least = judged.filter_map(margin).min_by(|a, b| a.0.total_cmp(&b.0));
    at_site(least, &study.project.stops)
}

/// By the measures of the house where it has any, else by the layers of floors and roofs.
fn head_room_lost(
    study: &Study<'_>,
    options: &[Option<String>],
    houses: &[Option<&JudgedHouse<'_>>],
) -> Vec<Value> {
    let by_house = |n: usize| houses[n].and_then(|one| one.result.fit.height_taken());
    let base = by_house(0);
    let of = |(n, variant): (usize, &Option<String>)| match base {
        Some(base) => Value::of(by_house(n).map(|taken| taken - base)),
        None => Value::of(lost_by_layers(study, variant.as_deref())),
    };
    options.iter().enumerate().map(of).collect()
}

/// What the floor and the roof that grow most take together, m; `None` without floor and roof.
fn lost_by_layers(study: &Study<'_>, variant: Option<&str>) -> Option<f64> {
    let most = |kind: AssemblyKind| {
        let assemblies = study.assembly_names().into_iter();
        let grown = assemblies.filter_map(|name| {
            let drawn = &study.assembly(name, None)?.case.assembly;
            let changed = &study.assembly(name, variant)?.case.assembly;
            (drawn.kind == kind).then(|| height_taken(changed) - height_taken(drawn))
        });
        grown.max_by(f64::total_cmp)
    };
    match (most(AssemblyKind::Floor), most(AssemblyKind::Roof)) {
        (None, None) => None,
        (floor, roof) => Some(floor.unwrap_or(0.0) + roof.unwrap_or(0.0)),
    }
}
