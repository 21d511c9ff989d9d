//! The options as JSON, SI units in the key names.

use crate::report::leaf::json;
use serde_json::{Map, Value as Json};

use super::text::unknown;
use crate::study::trade_off::{Column, ColumnKind, Part, TradeOff, Value, verdict_word};

/// The options, each with its tables.
#[must_use]
pub fn json(options: &TradeOff) -> Json {
    let one = |n: usize| {
        let by = options.dominated_by[n].iter();
        let tables = options.tables.iter().map(|table| {
            let (kind, name) = match &table.part {
                Part::Whole => ("whole", None),
                Part::Assembly(name) => ("assembly", Some(name)),
                Part::Detail(name) => ("detail", Some(name)),
            };
            let columns = &table.columns;
            let mut table = json!({"of": kind, "values": values(columns, n)});
            let sites = sites(columns, n);
            if !sites.is_empty() {
                table["sites"] = Json::Object(sites);
            }
            if let Some(name) = name {
                table["name"] = name.as_str().into();
            }
            table
        });
        json!({
            "name": options.name(n),
            "variant": options.options[n],
            "dominated_by": by.map(|n| options.name(*n)).collect::<Vec<_>>(),
            "tables": tables.collect::<Vec<_>>(),
        })
    };
    let prices = [ColumnKind::PricePerArea, ColumnKind::Price];
    let mut report = json!({
        "head_room_by": if options.by_house { "house" } else { "layers" },
        "not_counted_included_in_trailer": options.included,
        "options": (0..options.options.len()).map(one).collect::<Vec<_>>(),
    });
    if let Some(currency) = &options.currency {
        report["currency"] = currency.code().into();
        report["materials_without_price"] = unknown(options, prices).into();
    }
    report
}

fn values(columns: &[Column], option: usize) -> Json {
    let mut object = Map::new();
    for column in columns {
        let value = value(column.kind, &column.values[option]);
        object.insert(column.kind.id().into(), value);
    }
    Json::Object(object)
}

/// The site of each value that is of one of several.
fn sites(columns: &[Column], option: usize) -> Map<String, Json> {
    let named = columns.iter().filter_map(|column| {
        let site = column.values[option].site.as_deref()?;
        Some((column.kind.id().to_owned(), site.into()))
    });
    named.collect()
}

fn value(kind: ColumnKind, value: &Value) -> Json {
    match (kind, value.known, value.at_least) {
        (ColumnKind::Verdict | ColumnKind::Road, Some((low, _)), _) => verdict_word(low).into(),
        (ColumnKind::Transmittance | ColumnKind::Psi, Some((low, high)), _) => {
            json!({"low": low, "high": high})
        }
        (ColumnKind::DaysToDry, Some((days, _)), _) if days.is_infinite() => json!({"over": 1825}),
        (_, Some((low, _)), _) => json!(low),
        (_, None, Some(least)) => json!({"at_least": least, "not_known_for": value.unknown}),
        (_, None, None) => Json::Null,
    }
}
