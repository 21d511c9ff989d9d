//! Details in three dimensions as JSON.

use serde_json::Value;

use super::json_detail::estimate;
use crate::check::On;
use crate::report::leaf::json;
use crate::solve::detail::{AirSurface, BoxSpot, BoxesResult};
use crate::study::JudgedBoxes;

/// A detail in three dimensions with its findings, its results and their error bars.
pub(super) fn boxes(one: &JudgedBoxes<'_>) -> Value {
    let here = one.here();
    let at_stops = one.sites.iter();
    let at_stops =
        at_stops.map(|at| json!({"stop": at.stop.name, "verdict": at.verdict.status.word()}));
    json!({
        "name": one.name(),
        "detail": one.case.name,
        "variant": one.case.variant,
        "verdict": one.verdict.status.word(),
        "on": one.verdict.on().map(On::id),
        "worst_stop": here.stop.name,
        "at_stops": at_stops.collect::<Vec<_>>(),
        "rests_on": one.case.promises(),
        "settled": one.settled(),
        "failure": here.result.as_ref().err().map(super::boxes_text::failure),
        "findings": one.verdict.findings.iter().map(super::json::finding).collect::<Vec<_>>(),
        "result": here.result.as_ref().ok().map(result),
    })
}

fn result(result: &BoxesResult) -> Value {
    let flows = result.flows.iter();
    let flows = flows.map(|(name, flow)| json!({"from": name, "heat_flow_w": estimate(flow)}));
    let points = result
        .points
        .iter()
        .map(|(name, found)| json!({"name": name, "temperature_c": found.as_ref().map(estimate)}));
    let wood = result.wood.iter().map(|(name, at)| {
        json!({
            "name": name,
            "coldest": spot(at),
        })
    });
    json!({
        "indoor_c": result.between.indoor.as_celsius(),
        "outdoor_c": result.between.outdoor.as_celsius(),
        "flows": flows.collect::<Vec<_>>(),
        "heat_flow_w": estimate(&result.heat_flow),
        "coupling_coefficient_w_per_k": result.coupling.as_ref().map(estimate),
        "surfaces": result.surfaces.iter().map(surface).collect::<Vec<_>>(),
        "points": points.collect::<Vec<_>>(),
        "wood": wood.collect::<Vec<_>>(),
        "cells": result.cells,
    })
}

fn surface(surface: &AirSurface) -> Value {
    json!({
        "name": surface.name,
        "coldest_usual_film": spot(&surface.coldest),
        "warmest_usual_film": spot(&surface.warmest),
        "coldest_film_0_25": surface.damp.as_ref().map(spot),
    })
}

fn spot(spot: &BoxSpot) -> Value {
    json!({
        "temperature_c": estimate(&spot.temperature),
        "at_m": spot.at,
    })
}
