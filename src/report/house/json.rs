//! The house as JSON, SI units in the key names.

use serde_json::Value;

use super::sentence::lost;
use crate::check::{HouseFinding, Shave};
use crate::model::Project;
use crate::quantity::{Length, Temperature};
use crate::report::json::SCHEMA_VERSION;
use crate::report::leaf::json;
use crate::solve::house::{
    AssemblyArea, Basis, HeatPart, HeatPartKind, Measure, NotApplicable, Size, StripShare,
    WeightGroup, WeightLine,
};
use crate::study::JudgedHouse;

/// What `house` prints with `--format json`; of one variant alone where its name is given.
#[must_use]
pub fn json(project: &Project, houses: &[JudgedHouse<'_>], only: Option<&str>) -> Value {
    let base = houses.first();
    let is_shown = |one: &&JudgedHouse<'_>| only.is_none_or(|name| one.variant() == name);
    let shown = houses.iter().filter(is_shown);
    json!({
        "schema_version": SCHEMA_VERSION,
        "program": concat!("dewmargin ", env!("CARGO_PKG_VERSION")),
        "command": "house",
        "file": project.file,
        "title": project.title,
        "stop": base.map(|one| &one.stop.name),
        "houses": shown.map(|one| house(one, base.unwrap_or(one))).collect::<Vec<_>>(),
    })
}

fn house(one: &JudgedHouse<'_>, base: &JudgedHouse<'_>) -> Value {
    let (fit, weight, heat) = (&one.result.fit, &one.result.weight, &one.result.heat);
    json!({
        "variant": one.case.variant,
        "verdict": one.verdict.status.word(),
        "findings": one.verdict.findings.iter().map(finding).collect::<Vec<_>>(),
        "width": fit.width.as_ref().map(measure),
        "height": fit.height.as_ref().map(measure),
        "length": fit.length.as_ref().map(measure),
        "taken_as_nothing": fit.not_stated,
        "head_room": fit.head_room.map(|room| json!({
            "least_m": room.least,
            "greatest_m": room.greatest,
            "framed_m": room.framed,
            "floor_m": room.floor,
            "ceiling_m": room.ceiling,
            "lost_at_same_height_m": lost(one, base),
        })),
        "room_volume_m3": one.result.volume,
        "areas": one.result.areas.iter().map(area).collect::<Vec<_>>(),
        "weight": json!({
            "house_kg": weight.house,
            "trailer_kg": weight.trailer,
            "capacity_kg": weight.capacity,
            "not_known": weight.unknown,
            "not_counted": ["furniture", "water", "people"],
            "groups": weight.groups.iter().map(group).collect::<Vec<_>>(),
            "tongue": weight.tongue.as_ref().map(|tongue| json!({
                "load_kg": tongue.load,
                "share": tongue.share,
                "at_centroid": tongue.at_centroid,
            })),
        }),
        "heat": json!({
            "loss_w_per_k": heat.total(),
            "bar_w_per_k": heat.bar(),
            "indoor_c": heat.indoor.as_celsius(),
            "winter_mean_c": heat.winter_mean.as_celsius(),
            "design_night_c": heat.design_night.map(Temperature::as_celsius),
            "on_winter_mean_w": heat.on_winter_mean(),
            "on_design_night_w": heat.on_design_night(),
            "not_known": heat.unknown(),
            "settled": heat.settled,
            "parts": heat.parts.iter().map(|one| part(one, heat.share(one))).collect::<Vec<_>>(),
            "strips": heat.strips.iter().map(strip).collect::<Vec<_>>(),
        }),
    })
}

fn finding(finding: &HouseFinding) -> Value {
    let suffix = finding.check.unit;
    let mut value = json!({
        "check": finding.check.id,
        "status": finding.status.word(),
    });
    if let Some(object) = value.as_object_mut() {
        object.insert(format!("value_{suffix}"), json!(finding.value));
        object.insert(format!("limit_{suffix}"), json!(finding.limit));
        object.insert(format!("slack_{suffix}"), json!(finding.slack()));
        let shaves: Vec<Value> = finding.shaves.iter().map(shave).collect();
        object.insert("shave".into(), shaves.into());
        object.insert("missing".into(), finding.missing.clone().into());
        object.insert("source".into(), finding.source.into());
    }
    value
}

fn shave(shave: &Shave) -> Value {
    json!({
        "what": shave.what,
        "assembly": shave.assembly,
        "each_side": shave.each_side,
        "by_m": shave.by.as_m(),
        "leaves_m": shave.leaves.map(Length::as_m),
    })
}

fn measure(measure: &Measure) -> Value {
    let term = |term: &crate::solve::house::Term| {
        json!({
            "name": term.name,
            "assembly": term.layer.as_ref().map(|layer| &layer.0),
            "layer": term.layer.as_ref().map(|layer| &layer.1),
            "value_m": term.value,
            "square_to_slope_m": term.square,
        })
    };
    json!({
        "terms": measure.terms.iter().map(term).collect::<Vec<_>>(),
        "total_m": measure.total().as_m(),
    })
}

fn area(area: &AssemblyArea) -> Value {
    let part = |part: &crate::solve::house::AreaPart| {
        json!({
            "name": part.name,
            "inside_m2": part.inside,
            "framed_m2": part.framed,
            "openings_m2": part.openings,
        })
    };
    json!({
        "assembly": area.assembly,
        "stated": area.stated,
        "net_inside_m2": area.inside,
        "net_framed_m2": area.framed,
        "net_with_overhangs_m2": area.with_overhangs,
        "parts": area.parts.iter().map(part).collect::<Vec<_>>(),
    })
}

fn group(group: &WeightGroup) -> Value {
    json!({
        "name": group.name,
        "mass_kg": group.mass,
        "not_known": group.unknown,
        "middle_from_front_m": group.at,
        "place_stated": group.placed,
        "lines": group.lines.iter().map(line).collect::<Vec<_>>(),
    })
}

fn line(line: &WeightLine) -> Value {
    json!({
        "name": line.name,
        "thickness_m": line.thickness,
        "density_kg_per_m3": line.density.map(crate::quantity::Density::as_si),
        "areal_density_kg_per_m2": line.areal.map(crate::quantity::ArealDensity::as_si),
        "share_of_area": line.share,
        "area_m2": line.area,
        "mass_kg": line.mass,
    })
}

fn part(part: &HeatPart, share: f64) -> Value {
    let kind = match part.kind {
        HeatPartKind::Assembly => "assembly",
        HeatPartKind::Opening => "opening",
        HeatPartKind::Edge => "edge",
        HeatPartKind::Bolts => "bolts",
    };
    let (size, value) = match part.size {
        Size::Area(_) => ("area_m2", "u_w_per_m2k"),
        Size::Length(_) => ("length_m", "psi_w_per_mk"),
        Size::Count(_) => ("count", "chi_w_per_k"),
    };
    let mut json = json!({"name": part.name, "kind": kind});
    if let Some(object) = json.as_object_mut() {
        object.insert(size.into(), json!(part.size.number()));
        object.insert(value.into(), json!(part.value));
        object.insert("bar".into(), json!(part.bar));
        object.insert(
            "loss_w_per_k".into(),
            json!(part.value.map(|_| part.loss())),
        );
        object.insert("share".into(), json!(share));
        object.insert("basis".into(), basis(&part.basis));
    }
    json
}

fn basis(basis: &Basis) -> Value {
    match basis {
        Basis::Combined { left_to_detail } => {
            json!({"method": "combined", "strips_left_to_details": left_to_detail})
        }
        Basis::Bracket { low, high, strips } => json!({
            "method": "middle-of-bracket",
            "parallel_path_w_per_m2k": low,
            "isothermal_planes_w_per_m2k": high,
            "strips": strips,
        }),
        Basis::Stated => json!({"method": "stated"}),
        Basis::Detail { twice } => json!({"method": "detail", "half_a_member": twice}),
        Basis::Fastener {
            conductivity,
            section,
            depth,
            thickness,
            penetrated,
            total,
        } => json!({
            "method": "fastener-correction",
            "conductivity_w_per_mk": conductivity,
            "section_m2": section,
            "depth_m": depth.as_m(),
            "thickness_m": thickness.as_m(),
            "penetrated_m2k_per_w": penetrated,
            "total_m2k_per_w": total,
        }),
        Basis::PoorConductor => json!({"method": "none-needed"}),
        Basis::NoSuchLayer => json!({"method": "no-such-layer"}),
        Basis::NotApplicable(NotApplicable::BothEndsOnSteel) => {
            json!({"method": "not-applicable", "why": "both-ends-on-steel"})
        }
        Basis::NotApplicable(NotApplicable::BetweenMetal) => {
            json!({"method": "not-applicable", "why": "between-metal-sheets"})
        }
        Basis::Unknown => json!({"method": "unknown"}),
    }
}

fn strip(strip: &StripShare) -> Value {
    json!({
        "floor": strip.floor,
        "strip": strip.strip,
        "edges": strip.edges,
        "by_detail_w_per_k": strip.by_detail,
        "by_bracket_w_per_k": strip.by_bracket,
        "edge_length_m": strip.edge_length,
        "strip_length_m": strip.strip_length,
    })
}
