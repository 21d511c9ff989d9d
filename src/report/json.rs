//! Results as JSON: a schema version, SI units in the key names, the same order every time.

use serde_json::Value;

use crate::check::{Finding, On, overview};
use crate::model::{AirState, MonthState, Openness, Stop};
use crate::quantity::{Temperature, TemperatureDifference, month_name};
use crate::report::leaf::json;
use crate::solve::{EndResult, PathResult, Profile};
use crate::study::{AtSite, Choice, Judged, Part, Study, best_of};

/// Raised whenever a key changes its name or meaning.
pub const SCHEMA_VERSION: u32 = 1;

/// What `check` and `compare` print with `--format json`.
#[must_use]
pub fn report(command: &str, study: &Study<'_>) -> Value {
    let project = study.project;
    let conditions = &project.stops[0].conditions;
    let choices = study.choices();
    let best = best_of(&choices).filter(|_| choices.len() > 1);
    let best = best.map(|n| choices[n].variant.as_deref().unwrap_or("as drawn"));
    json!({
        "schema_version": SCHEMA_VERSION,
        "program": concat!("dewmargin ", env!("CARGO_PKG_VERSION")),
        "command": command,
        "file": project.file,
        "title": project.title,
        "conditions": json!({
            "indoor": air(conditions.indoor),
            "winter_mean": air(conditions.winter_mean),
            "design_night": conditions.design_night.map(air),
            "room_dew_point_c": conditions.indoor.dew_point().as_celsius(),
        }),
        "stops": project.stops.iter().map(stop).collect::<Vec<_>>(),
        "best": best,
        "options": choices.iter().map(|one| option(study, one)).collect::<Vec<_>>(),
        "cases": study.assemblies.iter().map(case).collect::<Vec<_>>(),
        "details": study.details.iter().map(super::json_detail::detail).collect::<Vec<_>>(),
        "volumes": study.volumes.iter().map(super::json_boxes::boxes).collect::<Vec<_>>(),
        "cautions": crate::check::cautions(
            study.assemblies.iter().map(|one| &one.case.assembly),
            &project.stops,
        ),
    })
}

/// The whole project under one variant: its parts, the worst first.
fn option(study: &Study<'_>, choice: &Choice) -> Value {
    let part = |part: &Part<'_>| {
        let speaking = part.speaking();
        json!({
            "name": part.name,
            "verdict": part.status.word(),
            "on": part.on.map(On::id),
            "site": speaking.and_then(|finding| part.site_of(finding)),
            "finding": speaking.map(finding),
        })
    };
    let parts = study.parts(choice.variant.as_deref());
    json!({
        "variant": choice.variant,
        "fails": choice.fails,
        "depends": choice.depends,
        "wood_margin_k": choice.wood_margin,
        "other_margin_k": choice.other_margin,
        "parts": parts.iter().map(part).collect::<Vec<_>>(),
    })
}

fn stop(stop: &Stop) -> Value {
    let month = |(n, month): (usize, &MonthState)| {
        json!({
            "month": month_name(n),
            "indoor": air(month.indoor),
            "outdoor": air(month.outdoor),
            "cooled": month.cooled,
        })
    };
    let year = stop.conditions.year.iter().flatten();
    json!({
        "name": stop.name,
        "origin": stop.origin,
        "notes": stop.notes,
        "zone": stop.code.zone.map(|zone| zone.to_string()),
        "indoor": air(stop.conditions.indoor),
        "winter_mean": air(stop.conditions.winter_mean),
        "design_night": stop.conditions.design_night.map(air),
        "months": year.enumerate().map(month).collect::<Vec<_>>(),
    })
}

pub(super) fn air(air: AirState) -> Value {
    json!({
        "temperature_c": air.temperature.as_celsius(),
        "relative_humidity": air.humidity.as_fraction(),
    })
}

fn case(one: &Judged<'_>) -> Value {
    let overview = overview(one.result());
    json!({
        "name": one.name(),
        "assembly": one.case.assembly.name,
        "variant": one.case.variant,
        "verdict": one.verdict.status.word(),
        "on": one.verdict.on().map(On::id),
        "worst_stop": one.stop().name,
        "at_stops": one.route().iter().map(at_stop).collect::<Vec<_>>(),
        "rests_on": one.result().promises(),
        "least_margin_k": one.verdict.least_margin.map(TemperatureDifference::as_kelvin),
        "overview": json!({
            "coldest_surface_c": overview.coldest_surface.as_celsius(),
            "wood_at_steel_c": overview.wood_at_steel.map(Temperature::as_celsius),
            "wood_at_steel_reached_by_room_air": overview.wood_is_reached,
            "wood_at_steel_margin_k": overview.wood_margin.map(TemperatureDifference::as_kelvin),
            "leak_margin_k": overview.leak_margin.map(TemperatureDifference::as_kelvin),
            "dew_point_margin_k": overview.dew_point_margin.map(TemperatureDifference::as_kelvin),
        }),
        "thickness_m": one.result().thickness.as_m(),
        "rise_m": one.case.assembly.rise.as_m(),
        "weight_kg_per_m2": one.result().weight.map(crate::quantity::ArealDensity::as_si),
        "weight_not_known_for": one.result().unweighed,
        "findings": one.verdict.findings.iter().map(finding).collect::<Vec<_>>(),
        "solutions": one.result().ends.iter().map(end).collect::<Vec<_>>(),
    })
}

fn at_stop(at: &AtSite<'_>) -> Value {
    json!({
        "stop": at.stop.name,
        "verdict": at.verdict.status.word(),
        "findings": at.verdict.findings.iter().map(finding).collect::<Vec<_>>(),
    })
}

pub(super) fn finding(finding: &Finding) -> Value {
    json!({
        "check": finding.check.id,
        "status": finding.status.word(),
        "on": finding.on.map(On::id),
        "site": finding.site,
        "strip": finding.strip,
        "path": finding.place.as_ref().map(|place| &place.path),
        "plane": finding.place.as_ref().map(|place| &place.plane),
        "value_c": finding.value.map(Temperature::as_celsius),
        "limit_c": finding.limit.map(Temperature::as_celsius),
        "margin_k": finding.margin.map(TemperatureDifference::as_kelvin),
        "coldest_month_margin_k": finding.month_margin.map(|(_, margin)| margin.as_kelvin()),
        "design_night_margin_k": finding.night_margin.map(TemperatureDifference::as_kelvin),
        "condensing_flow_kg_per_m2_s": finding.condensing_flow,
        "detail": super::json_tables::detail(&finding.detail),
        "range": finding.range.as_deref().map(super::json_year::range),
        "source": finding.source,
        "help": finding.help,
    })
}

fn end(end: &EndResult) -> Value {
    let u = &end.transmittance;
    json!({
        "vented_air_spaces": match end.openness {
            Openness::Closed => "closed",
            Openness::Open => "open",
        },
        "interior_film_m2k_per_w": end.boundary.interior_film.as_si(),
        "exterior_film_m2k_per_w": end.boundary.exterior_film.as_si(),
        "u_value_w_per_m2k": json!({
            "parallel_path": u.parallel_path,
            "isothermal_planes": u.isothermal_planes,
            "combined": u.combined,
            "combined_relative_error": u.combined_error,
            "ratio_of_upper_to_lower_resistance": u.ratio,
            "strips_in_series_for_comparison": u.strips_in_series,
        }),
        "paths": end.paths.iter().map(path).collect::<Vec<_>>(),
    })
}

fn path(result: &PathResult) -> Value {
    let layer = |(n, piece): (usize, &crate::solve::Piece)| {
        let vapor = piece.slab.vapor_resistance;
        json!({
            "name": piece.name,
            "material": piece.label,
            "thickness_m": piece.thickness.as_m(),
            "resistance_m2k_per_w": result.in_one_dimension().resistances[n].as_si(),
            // An air space has no resistance, and no permeance then.
            "permeance_kg_per_s_m2_pa": (vapor > 0.0).then(|| 1.0 / vapor),
            "bonded": piece.bonded,
            "condensing_inside_kg_per_m2_s": result.winter.condensing_inside[n],
        })
    };
    json!({
        "name": result.path.name,
        "share_of_area": result.path.share.as_fraction(),
        "shown_by_a_detail": result.by_strip.is_some(),
        "total_resistance_m2k_per_w": result.winter.total_resistance.as_si(),
        "temperature_factor": result.temperature_factor,
        "layers": result.path.pieces.iter().enumerate().map(layer).collect::<Vec<_>>(),
        "winter_mean": profile(result, &result.winter),
        "design_night": result.night.as_ref().map(|night| profile(result, night)),
        "year": result.year.as_ref().map(|year| super::json_year::of_path(result, year)),
        "drying": result.drying.iter().map(|one| super::json_year::dried(result, one)).collect::<Vec<_>>(),
    })
}

fn profile(result: &PathResult, profile: &Profile) -> Value {
    let planes = profile
        .planes
        .iter()
        .zip(result.plane_names.iter())
        .zip(result.roles.iter());
    let plane = |((plane, name), role): (
        (&crate::solve::PlaneState, &String),
        &crate::solve::PlaneRole,
    )| {
        json!({
            "name": name,
            "temperature_c": plane.temperature.as_celsius(),
            "saturation_pressure_pa": plane.saturation.as_pa(),
            "vapor_pressure_pa": plane.vapor_pressure.map(crate::quantity::Pressure::as_pa),
            "dew_point_c": plane.dew_point.map(Temperature::as_celsius),
            "dew_point_margin_k": plane.dew_point_margin.map(TemperatureDifference::as_kelvin),
            "corrected_vapor_pressure_pa": plane.corrected_pressure.map(crate::quantity::Pressure::as_pa),
            "condensing_flow_kg_per_m2_s": plane.condensing_flow,
            "reached_by_room_air": role.reached,
            "judged_for_air_leak": role.judged,
            "vulnerable": role.vulnerable,
            "wood_at_steel": role.wood_at_steel,
        })
    };
    let minimum = |least: &crate::solve::profile::InnerMinimum| {
        json!({
            "layer": result.path.pieces[least.slab].name,
            "fraction_of_thickness": least.position,
            "dew_point_margin_k": least.margin.as_kelvin(),
        })
    };
    json!({
        "heat_flux_w_per_m2": profile.heat_flux,
        "vapor_in_kg_per_m2_s": profile.vapor_in,
        "vapor_out_kg_per_m2_s": profile.vapor_out,
        "converged": profile.converged,
        "planes": planes.map(plane).collect::<Vec<_>>(),
        "least_margins_inside_layers": profile.inner_minima.iter().map(minimum).collect::<Vec<_>>(),
    })
}
