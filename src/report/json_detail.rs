//! Details as JSON.

use serde_json::Value;

use crate::check::On;
use crate::check::detail::{HandCheckDetail, SpotAt, SpotDetail};
use crate::quantity::{RelativeHumidity, Temperature, month_name};
use crate::report::leaf::json;
use crate::solve::conduction::{Coldest, Estimate};
use crate::solve::detail::{
    Corner, CornerFailure, CornerSpot, DetailResult, RoomSurface, WoodPart,
};
use crate::study::JudgedDetail;

/// A detail with its findings, its results and their error bars.
pub(super) fn detail(one: &JudgedDetail<'_>) -> Value {
    let route = one
        .route()
        .iter()
        .map(|at| json!({"stop": at.stop.name, "verdict": at.verdict.status.word()}));
    let hand_checks = one.here().hand_checks.iter().map(|estimate| {
        json!({
            "estimate": super::sentence_detail::estimate_name(estimate.kind),
            "heat_flow_w_per_m": estimate.heat_flow,
            "floor_c": estimate.floor.as_celsius(),
            "wood_c": estimate.wood.map(Temperature::as_celsius),
        })
    });
    json!({
        "name": one.name(),
        "detail": one.case.name,
        "variant": one.case.variant,
        "verdict": one.verdict.status.word(),
        "on": one.verdict.on().map(On::id),
        "worst_stop": one.stop().name,
        "at_stops": route.collect::<Vec<_>>(),
        "rests_on": one.case.promises(),
        "settled": one.settled(),
        "failure": one.result().as_ref().err().map(super::sentence_detail::failure),
        "findings": one.verdict.findings.iter().map(super::json::finding).collect::<Vec<_>>(),
        "hand_checks": hand_checks.collect::<Vec<_>>(),
        "result": one.result().as_ref().ok().map(result),
    })
}

fn result(result: &DetailResult) -> Value {
    let grids = result.conduction.grids.iter().map(|grid| {
        json!({
            "cells": grid.cells,
            "heat_flow_w_per_m": grid.heat_flow,
            "residual": grid.report.residual,
            "heat_imbalance": grid.report.imbalance,
            "iterations": grid.report.iterations,
        })
    });
    json!({
        "indoor_c": result.air.0.as_celsius(),
        "outdoor_c": result.air.1.as_celsius(),
        "heat_flow_w_per_m": estimate(&result.conduction.heat_flow),
        "coupling_coefficient_w_per_mk": result.conduction.coupling.as_ref().map(estimate),
        "plane_coupling_w_per_mk": result.plane_coupling,
        "psi_w_per_mk": result.psi.as_ref().map(estimate),
        "surfaces": result.surfaces.iter().map(surface).collect::<Vec<_>>(),
        "points": result.points.iter().map(|(name, found)| {
            json!({"name": name, "temperature_c": found.as_ref().map(estimate)})
        }).collect::<Vec<_>>(),
        "wood": result.wood.iter().map(wood).collect::<Vec<_>>(),
        "grids": grids.collect::<Vec<_>>(),
        "bracketed": result.bracketed(),
        "corner": result.corner.as_ref().map(corner),
    })
}

fn corner(corner: &Result<Corner, CornerFailure>) -> Value {
    let corner = match corner {
        Ok(corner) => corner,
        Err(why) => return json!({"failure": super::sentence_detail::corner_failure(why)}),
    };
    let spot = |spot: &CornerSpot| {
        json!({
            "name": spot.name,
            "temperature_c": spot.temperature,
            "bar_k": spot.bar,
            "at_m": spot.at,
            "against": spot.against,
        })
    };
    json!({
        "wood": corner.wood.iter().map(spot).collect::<Vec<_>>(),
        "surfaces_film_0_25": corner.surfaces.iter().map(spot).collect::<Vec<_>>(),
        "between_walls_film_0_25": corner.between_walls.iter().map(spot).collect::<Vec<_>>(),
        "cells": corner.cells,
        "settled": corner.settled,
    })
}

pub(super) fn estimate(estimate: &Estimate) -> Value {
    json!({"value": estimate.value, "bar": estimate.bar, "observed_order": estimate.order})
}

fn coldest(coldest: &Coldest) -> Value {
    json!({
        "temperature_c": coldest.point.temperature,
        "bar_k": coldest.bar,
        "x_m": coldest.point.x,
        "y_m": coldest.point.y,
    })
}

fn surface(surface: &RoomSurface) -> Value {
    json!({
        "name": surface.name,
        "usual_film": coldest(&surface.usual),
        "film_0_25": coldest(&surface.damp),
    })
}

fn wood(part: &WoodPart) -> Value {
    json!({
        "name": part.name,
        "at_steel": part.at_steel,
        "decides": part.decides,
        "coldest": part.coldest.as_ref().map(coldest),
        "coldest_reached_by_room_air": part.reached.as_ref().map(|(at, _)| coldest(at)),
        "reached_against": part.reached.as_ref().map(|(_, against)| against),
    })
}

/// A place that a finding is about.
pub(super) fn spot(spot: &SpotDetail) -> Value {
    let mut told = match spot.at {
        SpotAt::Cut(x, y) => json!({"x_m": x, "y_m": y}),
        SpotAt::Corner(at) => json!({"corner_m": at}),
        SpotAt::Boxes(at) => json!({"at_m": at}),
    };
    told["bar_k"] = json!(spot.bar);
    told["temperature_factor"] = json!(spot.factor);
    let starts_at = spot.starts_at.map(RelativeHumidity::as_fraction);
    told["starts_at_relative_humidity"] = json!(starts_at);
    told["month"] = json!(spot.month.map(month_name));
    told["against"] = json!(spot.against);
    told
}

/// An estimate's errors.
pub(super) fn hand_check(detail: &HandCheckDetail) -> Value {
    json!({
        "estimate": super::sentence_detail::estimate_name(detail.kind),
        "heat_flow_relative_error": detail.heat_flow_error,
        "floor_error_k": detail.floor_error,
        "wood_error_k": detail.wood_error,
    })
}
