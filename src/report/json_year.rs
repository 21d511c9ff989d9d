//! Findings on the year and on the materials' ranges as JSON.

use serde_json::Value;

use crate::check::range::{FlipValue, Input, Mover, Range};
use crate::check::room_air::{RoomAirDetail, RoomBalance};
use crate::check::{
    Detail, DryingDetail, MoldDetail, MoldIndexDetail, SheathingDetail, YearDetail,
};
use crate::quantity::{RelativeHumidity, Style, VolumeFlow, month_name};
use crate::report::leaf::json;
use crate::solve::WaterWay;
use crate::solve::year::{Month, WaterYear, Year};
use crate::solve::{Drying, PathResult};

/// What a finding on the year says beyond temperatures; `Null` for the other checks.
pub(super) fn detail(detail: &Detail) -> Value {
    match detail {
        Detail::LeakRatio(ratio) => json!({"leaked_to_diffused_water": ratio}),
        Detail::Month(month) => json!({"month": month_name(*month)}),
        Detail::Mold(MoldDetail {
            month,
            required,
            factor,
        }) => json!({
            "month": month_name(*month),
            "temperature_factor_required": required,
            "temperature_factor": factor,
        }),
        Detail::Year(detail) => year(detail),
        Detail::Closest { humidity, month } => json!({
            "highest_relative_humidity": humidity,
            "month": month_name(*month),
        }),
        Detail::Drying(detail) => drying(detail),
        Detail::MoldIndex(detail) => mold_index(detail),
        Detail::DoubleBarrier(inner, outer) => json!({"inner": inner, "outer": outer}),
        Detail::Pan(yearly) => json!({"condensed_per_year_kg_per_m2": yearly}),
        Detail::Sheathing(SheathingDetail {
            months,
            highest,
            month,
        }) => json!({
            "months_under_80_percent": months[0],
            "months_from_80_to_95_percent": months[1],
            "months_over_95_percent": months[2],
            "highest_relative_humidity": highest,
            "month": month_name(*month),
        }),
        Detail::RoomAir(detail) => room_air(detail),
        Detail::Spot(detail) => super::json_detail::spot(detail),
        Detail::HandCheck(detail) => super::json_detail::hand_check(detail),
        Detail::Frame(remark) => json!({"remark": remark.in_units(Style::SI)}),
        // Those of the tables stand in `json_tables`.
        Detail::None
        | Detail::StripAlone(_)
        | Detail::AirSeal(_)
        | Detail::Unseen(_)
        | Detail::Retarder(_)
        | Detail::Insulation(_)
        | Detail::UnventedRoof(_)
        | Detail::Outboard(_)
        | Detail::Gap(_) => Value::Null,
    }
}

fn room_air(detail: &RoomAirDetail) -> Value {
    let month = |balance: &RoomBalance| {
        json!({
            "month": month_name(balance.month),
            "relative_humidity": balance.humidity.as_fraction(),
            "capped_by_condensation": balance.uncapped.is_some(),
            "ventilation_for_target_m3_per_s": balance.needed.map(VolumeFlow::as_m3_per_s),
            "cooled": balance.cooled,
            "windows_open": balance.windows_open,
        })
    };
    json!({
        "water_kg_per_s": detail.household.water.as_kg_per_s(),
        "ventilation_m3_per_s": detail.household.ventilation.as_m3_per_s(),
        "target_relative_humidity": detail.household.target.map(RelativeHumidity::as_fraction),
        "stated_relative_humidity": detail.stated.map(RelativeHumidity::as_fraction),
        "months": detail.months.iter().map(month).collect::<Vec<_>>(),
    })
}

fn year(detail: &YearDetail) -> Value {
    json!({
        "first_wet_month": detail.wet.map(|(first, _)| month_name(first)),
        "last_wet_month": detail.wet.map(|(_, last)| month_name(last)),
        "dry_by_month": detail.dry_by.map(month_name),
        "peak_kg_per_m2": detail.peak,
        "peak_month": detail.peak_month.map(month_name),
        "condensed_per_year_kg_per_m2": detail.yearly,
        "left_over_per_year_kg_per_m2": detail.left_over,
        "never_dry": detail.never_dry,
        "limit_kg_per_m2": detail.limit.map(|(limit, _)| limit),
        "limit_reason": detail.limit.map(|(_, why)| why),
        "frost": detail.frost,
        "settled": detail.settled,
    })
}

fn mold_index(detail: &MoldIndexDetail) -> Value {
    let grows = (0..12).filter(|month| detail.grows[*month]);
    json!({
        "mold_class": detail.class.word(),
        "index_first_year": detail.first,
        "index_last_year": detail.last,
        "years": detail.years,
        "grows_in": grows.map(month_name).collect::<Vec<_>>(),
        "frost": detail.frost,
        "highest_relative_humidity": detail.dampest.0,
        "month": month_name(detail.dampest.1),
        "limit": crate::check::mold::LIMIT,
    })
}

fn water_way(way: WaterWay) -> &'static str {
    match way {
        WaterWay::BuiltIn => "built-in water",
        WaterWay::RoomAir => "room air",
        WaterWay::Rain => "rain",
        WaterWay::Plumbing => "plumbing",
    }
}

fn drying(detail: &DryingDetail) -> Value {
    let moved = detail
        .moved
        .iter()
        .map(|(place, water)| json!({"place": place, "water_kg_per_m2": water}));
    json!({
        "put_there_on_1": month_name(detail.start),
        "gone_after_days": detail.days,
        "gone_in_month": detail.month.map(month_name),
        "share_to_room": detail.share_to_room,
        "left_kg_per_m2": detail.left,
        "moved": moved.collect::<Vec<_>>(),
        "drains": detail.drains,
        "water_comes_by": detail.way.map_or("no named way", water_way),
    })
}

/// The corners of the materials' ranges and the inputs that decide.
pub(super) fn range(range: &Range) -> Value {
    json!({
        "nominal": range.nominal.word(),
        "adverse": range.adverse.word(),
        "kind": range.kind.word(),
        "too_close_to_call": range.too_close,
        "inputs": range.movers.iter().map(mover).collect::<Vec<_>>(),
    })
}

fn mover(mover: &Mover) -> Value {
    let (input, layer) = match &mover.input {
        Input::RoomHumidity => ("room-humidity", None),
        Input::Permeance(layer) => ("permeance", Some(layer)),
        Input::Resistance(layer) => ("resistance", Some(layer)),
    };
    let flip = mover.flip.map(|flip| {
        let (side, becomes) = match flip.above {
            true => ("above", flip.becomes.word()),
            false => ("below", flip.becomes.word()),
        };
        match flip.at {
            FlipValue::Humidity(value) => {
                json!({"relative_humidity": value.as_fraction(), "side": side, "becomes": becomes})
            }
            FlipValue::Permeance(value) => {
                json!({"permeance_kg_per_s_m2_pa": value.as_si(), "side": side, "becomes": becomes})
            }
            FlipValue::Resistance(value) => {
                json!({"resistance_m2k_per_w": value.as_si(), "side": side, "becomes": becomes})
            }
        }
    });
    json!({"input": input, "layer": layer, "flip": flip})
}

/// The steady yearly cycle of a path: months of every plane, water where there is any.
pub(super) fn of_path(result: &PathResult, year: &Year) -> Value {
    let month = |(n, month): (usize, &Month)| {
        json!({
            "month": month_name(n),
            "temperatures_c": month.temperatures,
            "vapor_pressures_pa": month.pressures,
            "vapor_in_kg_per_m2": month.vapor_in,
            "vapor_out_kg_per_m2": month.vapor_out,
        })
    };
    let names = result.plane_names.iter().cloned();
    let inside = result
        .path
        .pieces
        .iter()
        .map(|piece| format!("inside {}", piece.name));
    let places = names.zip(&year.planes).chain(inside.zip(&year.inside));
    let wet = places.filter(|(_, water)| water.peak > 0.0 || water.never_dry);
    json!({
        "starts_with": year.start.map(month_name),
        "cycles": year.cycles,
        "settled": year.settled,
        "permeances_converged": year.converged,
        "months": year.months.iter().enumerate().map(month).collect::<Vec<_>>(),
        "water": wet.map(|(name, water)| self::water(&name, water)).collect::<Vec<_>>(),
    })
}

fn water(name: &str, water: &WaterYear) -> Value {
    json!({
        "place": name,
        "change_by_month_kg_per_m2": water.change,
        "held_by_month_kg_per_m2": water.held,
        "peak_kg_per_m2": water.peak,
        "peak_month": water.peak_month.map(month_name),
        "first_wet_month": water.first_wet.map(month_name),
        "last_wet_month": water.last_wet.map(month_name),
        "dry_by_month": water.dry_by.map(month_name),
        "left_over_per_year_kg_per_m2": water.left_over,
        "never_dry": water.never_dry,
        "frost_by_month": water.is_ice,
    })
}

/// How 1 kg/m² at one plane dries.
pub(super) fn dried(result: &PathResult, drying: &Drying) -> Value {
    let out = &drying.out;
    json!({
        "plane": result.plane_names[drying.plane],
        "gone_after_days": out.gone_after_days,
        "gone_in_month": out.gone_in_month.map(month_name),
        "to_room_kg_per_m2": out.to_room,
        "to_outdoors_kg_per_m2": out.to_outdoors,
        "left_kg_per_m2": out.left,
    })
}
