//! Findings as sentences a builder understands.

use super::sentence_detail;
use super::sentence_room;
use super::sentence_tables;
use super::sentence_year;
use crate::check::{Check, Detail, Finding, Status};
use crate::model::Conditions;
use crate::quantity::{Style, TemperatureDifference};

/// The finding in one or two plain sentences: what, where, when, how far from the limit.
pub(super) fn sentence(finding: &Finding, conditions: &Conditions, style: Style) -> String {
    let body = match finding.check {
        Check::WoodAtSteel => wood_at_steel(finding, conditions, style),
        Check::AirLeak => air_leak(finding, style) + &sentence_year::leak_ratio(finding, style),
        Check::InwardLeak => sentence_year::inward(finding, style),
        Check::SurfaceCondensation => surface(finding, style),
        Check::SurfaceMold => surface(finding, style) + &sentence_year::mold_month(finding),
        Check::Diffusion => diffusion(finding, style),
        Check::Year => sentence_year::year(finding, style),
        Check::Drying => sentence_year::drying(finding, style),
        Check::DoubleBarrier => sentence_year::barrier(finding),
        Check::Pan => sentence_year::pan(finding, style),
        Check::Sheathing => sentence_year::sheathing(finding),
        Check::DetailWood | Check::DetailLeak | Check::DetailCondensation | Check::DetailMold => {
            sentence_detail::spot(finding, style)
        }
        Check::RoomAir => sentence_room::room_air(finding, style),
        Check::Frame => frame(finding, style),
        _ if finding.detail != Detail::None => sentence_tables::sentence(finding, style),
        _ => return finding.help.clone().unwrap_or_default(),
    };
    match &finding.help {
        Some(help) if !body.is_empty() => format!("{body} What would help: {help}."),
        _ => body,
    }
}

fn frame(finding: &Finding, style: Style) -> String {
    match &finding.detail {
        Detail::Frame(remark) => remark.in_units(style),
        _ => String::new(),
    }
}

pub(super) fn place(finding: &Finding) -> String {
    finding.place.as_ref().map_or_else(String::new, |place| {
        format!("{} ({})", place.plane, place.path)
    })
}

/// `10.2 °F below` or `6.1 °F above`.
pub(super) fn distance(margin: TemperatureDifference, style: Style) -> String {
    let size = TemperatureDifference::from_kelvin(margin.as_kelvin().abs());
    let side = if margin.as_kelvin() > 0.0 {
        "above"
    } else {
        "below"
    };
    format!("{} {side}", style.difference(size))
}

fn night(finding: &Finding, style: Style) -> String {
    finding.night_margin.map_or_else(String::new, |margin| {
        format!("; on the design night {} it", distance(margin, style))
    })
}

fn numbers(finding: &Finding, style: Style) -> Option<(String, String, String)> {
    Some((
        style.temperature(finding.value?),
        distance(finding.margin?, style),
        style.temperature(finding.limit?),
    ))
}

fn wood_at_steel(finding: &Finding, conditions: &Conditions, style: Style) -> String {
    let Some((at, distance, limit)) = numbers(finding, style) else {
        return String::new();
    };
    let Some(place) = &finding.place else {
        return String::new();
    };
    if finding.status == Status::Note {
        let path = &place.path;
        return format!(
            "{path}: the wood nearest to the steel is at {at}; a bonded layer keeps room air from it."
        );
    }
    let wood = place.plane.split(" / ").next().unwrap_or_default();
    let (winter, indoor) = (conditions.winter_mean, conditions.indoor);
    format!(
        "On the winter mean ({}, {}) the {wood} over the {} is at {at}, {distance} the dew point of \
         the room air ({limit} at {} and {}){}.",
        style.temperature(winter.temperature),
        style.humidity(winter.humidity),
        place.path,
        style.temperature(indoor.temperature),
        style.humidity(indoor.humidity),
        night(finding, style),
    )
}

fn air_leak(finding: &Finding, style: Style) -> String {
    if finding.status == Status::Unknown {
        return "Outdoors is warmer than the room: outdoor air that leaks inward isn't judged on the winter mean.".into();
    }
    let Some((at, distance, limit)) = numbers(finding, style) else {
        return "No plane that leaking room air reaches touches wood, a panel, open insulation or bare metal.".into();
    };
    let place = place(finding);
    let night = night(finding, style);
    match finding.status {
        Status::Pass => format!(
            "The coldest plane that leaking room air reaches, {place}, is at {at}, {distance} its dew point of {limit}{night}."
        ),
        _ => format!(
            "Leaking room air meets {place} at {at}, {distance} its dew point of {limit}: it hangs on airtightness{night}."
        ),
    }
}

fn surface(finding: &Finding, style: Style) -> String {
    let Some((at, distance, limit)) = numbers(finding, style) else {
        return String::new();
    };
    let what = match finding.check {
        Check::SurfaceMold => "the temperature at which it would stand at 80 % humidity",
        _ => "the dew point of the room air",
    };
    let night = match finding.check {
        Check::SurfaceMold => String::new(),
        _ => night(finding, style),
    };
    format!(
        "The coldest room surface, {}, is at {at}, {distance} {what}, {limit}{night}.",
        place(finding)
    )
}

fn diffusion(finding: &Finding, style: Style) -> String {
    let place = place(finding);
    if finding.status == Status::Unknown && finding.condensing_flow.is_none() {
        return format!(
            "{place} lies between two perfect barriers: diffusion can't tell its vapor."
        );
    }
    let Some(flow) = finding.condensing_flow else {
        return match finding.margin {
            Some(margin) => format!(
                "Nothing condenses at a plane of wood or open insulation on the winter mean; the closest is {place}, {} the dew point of its vapor.",
                distance(margin, style)
            ),
            None => {
                "Nothing condenses at a plane of wood or open insulation on the winter mean.".into()
            }
        };
    };
    let water = style.water_per_month(flow);
    match finding.status {
        Status::Note => {
            format!("{place}: {water} condenses on the winter mean; counted, not judged.")
        }
        _ => format!(
            "{place}: {water} condenses on the winter mean. Whether it dries again takes the twelve months of a climate."
        ),
    }
}
