//! What `size` prints with `--format json`.

use serde_json::Value as Json;

use super::json::SCHEMA_VERSION;
use super::sizing::row_name;
use crate::check::sizing::{AtThickness, Row, Searched, Sized, Value};
use crate::model::{Project, SizedAt, SizedPart, Target};
use crate::quantity::{Length, Style};
use crate::report::leaf::json;
use crate::solve::sizing::Trend;

/// The report of `size`.
#[must_use]
pub fn size_report(project: &Project, sized: &[Sized<'_>]) -> Json {
    json!({
        "schema_version": SCHEMA_VERSION,
        "program": concat!("dewmargin ", env!("CARGO_PKG_VERSION")),
        "command": "size",
        "file": project.file,
        "title": project.title,
        "entries": sized.iter().map(entry).collect::<Vec<_>>(),
    })
}

fn entry(one: &Sized<'_>) -> Json {
    let sizing = one.sizing;
    let stop = |stop: &crate::model::Stop| {
        json!({
            "name": stop.name,
            "indoor": super::json::air(stop.conditions.indoor),
            "winter_mean": super::json::air(stop.conditions.winter_mean),
            "design_night": stop.conditions.design_night.map(super::json::air),
        })
    };
    let rows = one.rows.iter().enumerate();
    json!({
        "name": sizing.name,
        "status": one.status.word(),
        "layer": sizing.layer,
        "material": sizing.material,
        "position": sizing.position,
        "within": sizing.within,
        "judged": sizing.parts.iter().map(SizedPart::name).collect::<Vec<_>>(),
        "stops": one.stops.iter().map(stop).collect::<Vec<_>>(),
        "between_m": [sizing.between.0.as_m(), sizing.between.1.as_m()],
        "sold_m": sizing.sold.iter().map(|one| one.as_m()).collect::<Vec<_>>(),
        "sold_source": sizing.sold_source,
        "least_m": one.nominal.least.map(Length::as_m),
        "least_at_worst_case_m": one.worst.least.map(Length::as_m),
        "board_m": one.board.as_ref().map(|at| at.thickness.as_m()),
        "next_thinner_m": one.thinner.as_ref().map(|at| at.thickness.as_m()),
        "settled": one.settled,
        "not_built_from": one.unbuildable.as_ref().map(|(length, why)| json!({
            "thickness_m": length.as_m(), "why": why.in_units(Style::SI),
        })),
        "targets": rows.map(|(n, row)| target(one, n, row)).collect::<Vec<_>>(),
    })
}

fn target(one: &Sized<'_>, n: usize, row: &Row) -> Json {
    let at = |at: &Option<AtThickness>| {
        at.as_ref().map(|at| {
            json!({
                "thickness_m": at.thickness.as_m(),
                "nominal": value(one, &at.nominal[n]),
                "worst_case": value(one, &at.worst[n]),
            })
        })
    };
    let (name, unit, limit) = limit(row.target);
    json!({
        "target": name,
        "title": row_name(row),
        "at": row.at.map(|at| match at {
            SizedAt::WinterMean => "winter mean",
            SizedAt::DesignNight => "design night",
        }),
        "unit": unit,
        "limit": limit,
        "trend": trend(&one.nominal, n),
        "trend_at_worst_case": trend(&one.worst, n),
        "best": best(one, &one.nominal, n),
        "best_at_worst_case": best(one, &one.worst, n),
        "at_worst_case_least": at(&one.least),
        "at_next_thinner": at(&one.thinner),
        "at_board": at(&one.board),
        "at_ends": one.ends.iter().map(|end| at(&Some(end.clone()))).collect::<Vec<_>>(),
    })
}

fn limit(target: Target) -> (&'static str, &'static str, f64) {
    match target {
        Target::LeakMargin(least) => ("leak-margin", "K", least.as_kelvin()),
        Target::DewPointMargin(least) => ("dew-point-margin", "K", least.as_kelvin()),
        Target::TemperatureFactor(least) => ("temperature-factor", "1", least),
        Target::Transmittance(most) => ("u-value", "W/(m2 K)", most),
        Target::DryWithinTheYear => ("dry-within-the-year", "d", crate::check::drying::LONGEST),
        Target::DaysToDry(most) => ("days-to-dry", "d", most),
    }
}

fn trend(searched: &Searched, n: usize) -> &'static str {
    match searched.trends[n] {
        Trend::Rising => "more helps",
        Trend::Falling => "more hurts",
        Trend::Flat => "changes nothing",
        Trend::Mixed => "helps and hurts",
    }
}

fn best(one: &Sized<'_>, searched: &Searched, n: usize) -> Json {
    let (length, best) = &searched.best[n];
    json!({"thickness_m": length.as_m(), "value": value(one, best)})
}

fn value(one: &Sized<'_>, value: &Option<Value>) -> Json {
    let Some(value) = value else {
        return Json::Null;
    };
    json!({
        "value": value.value,
        "slack": value.slack,
        "error_bar": value.bar,
        "in": one.sizing.parts[value.part].name(),
        "place": value.at,
        "stop": one.stops[value.stop].name,
        "met": value.slack >= 0.0,
    })
}
