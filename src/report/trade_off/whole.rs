//! The whole project under every option.

use super::column::{Column, ColumnKind, Value};
use super::part::{dew_point_margin, leak_margin};
use super::{Part, PartTable, Sources};
use crate::check::{Status, judge_on_road};
use crate::model::AssemblyKind;
use crate::model::house::HouseCase;
use crate::report::Judged;
use crate::solve::house::{
    Fit, PartSum, Weight, areas, fit, height_taken, house_price, layout, weight,
};

/// The house under one option.
struct Outcome {
    fit: Fit,
    weight: Weight,
    price: PartSum,
    road: Status,
}

pub(super) fn table(sources: &Sources<'_>, options: &[Option<String>]) -> PartTable {
    let houses: Vec<Option<Outcome>> = options
        .iter()
        .map(|variant| house(sources, variant.as_deref()))
        .collect();
    let of_project = |kind: ColumnKind, value: &dyn Fn(Option<&str>) -> Value| Column {
        kind,
        values: options.iter().map(|one| value(one.as_deref())).collect(),
    };
    let of_house = |kind: ColumnKind, value: &dyn Fn(&Outcome) -> Value| Column {
        kind,
        values: houses
            .iter()
            .map(|one| one.as_ref().map_or_else(Value::default, value))
            .collect(),
    };
    let least = |margin: fn(&Judged<'_>) -> Option<f64>| {
        move |variant: Option<&str>| Value::of(least_of_all(sources, variant, margin))
    };
    let lost = head_room_lost(sources, options, &houses);
    let mut columns = vec![
        of_project(ColumnKind::Verdict, &|variant| {
            Value::status(verdict(sources, variant))
        }),
        of_project(ColumnKind::LeakMargin, &least(leak_margin)),
        of_project(ColumnKind::DewPointMargin, &least(dew_point_margin)),
        Column {
            kind: ColumnKind::HeadRoomLost,
            values: lost,
        },
        of_house(ColumnKind::Road, &|one| Value::status(Some(one.road))),
        of_house(ColumnKind::Width, &|one| {
            Value::of(one.fit.width.as_ref().map(|width| width.total().as_m()))
        }),
        of_house(ColumnKind::Weight, &|one| {
            Value::sum(&PartSum {
                known: one.weight.house,
                unknown: one.weight.unknown.clone(),
            })
        }),
    ];
    if sources.project.currency.is_some() {
        columns.push(of_house(ColumnKind::Price, &|one| Value::sum(&one.price)));
    }
    PartTable {
        part: Part::Whole,
        columns,
    }
}

fn house(sources: &Sources<'_>, variant: Option<&str>) -> Option<Outcome> {
    let cases = sources.project.house_cases();
    // A variant that leaves the house alone leaves it as drawn.
    let of = |variant: Option<&str>| cases.iter().find(|case| case.variant == variant);
    let case: &HouseCase<'_> = of(variant).or_else(|| of(None))?;
    let layout = layout(case);
    let areas = areas(case, layout.as_ref());
    let fit = fit(case, layout.as_ref());
    let weight = weight(case, layout.as_ref(), &areas);
    Some(Outcome {
        road: judge_on_road(case, &fit, &weight).status,
        price: house_price(case, &areas),
        fit,
        weight,
    })
}

/// The worst verdict of all assemblies and details.
fn verdict(sources: &Sources<'_>, variant: Option<&str>) -> Option<Status> {
    let assemblies = sources.assemblies().into_iter();
    let of_assemblies = assemblies.filter_map(|name| sources.assembly(name, variant));
    let details = sources.all_details().into_iter();
    let of_details = details.filter_map(|name| sources.detail(name, variant));
    of_assemblies
        .map(|one| one.verdict.status)
        .chain(of_details.map(|one| one.verdict.status))
        .max_by_key(|status| status.severity())
}

fn least_of_all(
    sources: &Sources<'_>,
    variant: Option<&str>,
    margin: fn(&Judged<'_>) -> Option<f64>,
) -> Option<f64> {
    let assemblies = sources.assemblies().into_iter();
    let judged = assemblies.filter_map(|name| sources.assembly(name, variant));
    judged.filter_map(margin).min_by(f64::total_cmp)
}

/// By the measures of the house where it has any, else by the layers of floors and roofs.
fn head_room_lost(
    sources: &Sources<'_>,
    options: &[Option<String>],
    houses: &[Option<Outcome>],
) -> Vec<Value> {
    let by_house = |n: usize| houses[n].as_ref().and_then(|one| one.fit.height_taken());
    let base = by_house(0);
    let of = |(n, variant): (usize, &Option<String>)| match base {
        Some(base) => Value::of(by_house(n).map(|taken| taken - base)),
        None => Value::of(lost_by_layers(sources, variant.as_deref())),
    };
    options.iter().enumerate().map(of).collect()
}

/// What the floor and the roof that grow most take together, m; `None` without floor and roof.
fn lost_by_layers(sources: &Sources<'_>, variant: Option<&str>) -> Option<f64> {
    let most = |kind: AssemblyKind| {
        let assemblies = sources.assemblies().into_iter();
        let grown = assemblies.filter_map(|name| {
            let drawn = &sources.assembly(name, None)?.case.assembly;
            let changed = &sources.assembly(name, variant)?.case.assembly;
            (drawn.kind == kind).then(|| height_taken(changed) - height_taken(drawn))
        });
        grown.max_by(f64::total_cmp)
    };
    match (most(AssemblyKind::Floor), most(AssemblyKind::Roof)) {
        (None, None) => None,
        (floor, roof) => Some(floor.unwrap_or(0.0) + roof.unwrap_or(0.0)),
    }
}
