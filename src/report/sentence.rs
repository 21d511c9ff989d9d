//! Findings as sentences a builder understands.

use super::sentence_detail;
use super::sentence_mold;
use super::sentence_room;
use super::sentence_tables;
use super::sentence_year;
use crate::check::{Check, Detail, Finding, On, Status, UnseenDetail};
use crate::model::{Conditions, Stop};
use crate::quantity::{Style, TemperatureDifference, month_name};

/// What stands before the numbers of an assembly whose temperatures found no balance.
pub(super) const UNSETTLED: &str = "Not settled: a conductivity that follows the temperature found \
    no value. Don't build on these numbers.";

/// The sites that findings are of. A sentence names its own where there are several.
#[derive(Clone, Copy)]
pub(super) struct Sites<'a>(pub(super) &'a [Stop]);

impl<'a> Sites<'a> {
    /// The air a finding was judged in.
    pub(super) fn conditions(self, finding: &Finding) -> &'a Conditions {
        &self.0[finding.site].conditions
    }

    /// Where a finding is of, where there are several sites.
    pub(super) fn name(self, finding: &Finding) -> Option<&'a str> {
        (self.0.len() > 1).then(|| self.0[finding.site].name.as_str())
    }
}

/// The finding in one or two plain sentences: what, where, when, how far from the limit; of several
/// sites it begins with the name of its own.
pub(super) fn sentence(finding: &Finding, sites: Sites<'_>, style: Style) -> String {
    let said = at_site(finding, sites.conditions(finding), style);
    let by_air = !matches!(finding.check, Check::Frame | Check::Gap);
    match sites.name(finding) {
        Some(site) if by_air && !said.is_empty() => format!("{site}: {said}"),
        _ => said,
    }
}

pub(super) fn at_site(finding: &Finding, conditions: &Conditions, style: Style) -> String {
    let body = match finding.check {
        Check::WoodAtSteel => wood_at_steel(finding, conditions, style),
        Check::AirLeak => air_leak(finding, style) + &sentence_year::leak_ratio(finding, style),
        Check::InwardLeak => sentence_year::inward(finding, style),
        Check::SurfaceCondensation => surface(finding, style),
        Check::SurfaceMold => surface(finding, style) + &sentence_mold::mold_month(finding),
        Check::Diffusion => diffusion(finding, style),
        Check::Year => sentence_year::year(finding, style),
        Check::MoldInside => sentence_mold::mold_index(finding),
        Check::Drying | Check::DryingElsewhere => sentence_year::drying(finding, style),
        Check::DoubleBarrier => sentence_year::barrier(finding),
        Check::Pan => sentence_year::pan(finding, style),
        Check::Sheathing => sentence_year::sheathing(finding),
        Check::DetailWood | Check::DetailLeak | Check::DetailCondensation | Check::DetailMold => {
            sentence_detail::spot(finding, style)
        }
        Check::AirSeal => sentence_detail::air_seal(finding, style),
        Check::NotLookedAt => unseen(finding),
        Check::HandCheck => strip_alone(finding, style),
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

/// The first two sentences of what is told of a finding that isn't about temperatures.
pub(super) fn briefly(finding: &Finding, style: Style) -> String {
    let said = match finding.check {
        Check::NotLookedAt => unseen(finding),
        Check::DoubleBarrier => sentence_year::barrier(finding),
        Check::Pan => sentence_year::pan(finding, style),
        _ if finding.detail != Detail::None => sentence_tables::sentence(finding, style),
        _ => String::new(),
    };
    let first: String = said.split_inclusive(". ").take(2).collect();
    first.trim_end().to_owned()
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
    format!("{} {side}", style.show(size))
}

/// `; in January 3.1 °F above it; on the design night 4.0 °F below it`
pub(super) fn cold_spell(finding: &Finding, style: Style) -> String {
    let month = finding
        .month_margin
        .map_or_else(String::new, |(month, margin)| {
            let name = month_name(month);
            format!("; in {name} {} it", distance(margin, style))
        });
    let night = finding.night_margin.map_or_else(String::new, |margin| {
        format!("; on the design night {} it", distance(margin, style))
    });
    month + &night
}

fn numbers(finding: &Finding, style: Style) -> Option<(String, String, String)> {
    Some((
        style.show(finding.value?),
        distance(finding.margin?, style),
        style.show(finding.limit?),
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
        style.show(winter.temperature),
        style.show(winter.humidity),
        place.path,
        style.show(indoor.temperature),
        style.show(indoor.humidity),
        cold_spell(finding, style),
    )
}

fn air_leak(finding: &Finding, style: Style) -> String {
    if finding.status == Status::Unknown {
        return "Outdoors is warmer than the room: outdoor air that leaks inward isn't judged on the winter mean.".into();
    }
    let Some((at, distance, limit)) = numbers(finding, style) else {
        return "Nothing here that water harms: no plane that leaking room air reaches touches wood, a panel, open insulation or bare metal.".into();
    };
    let place = place(finding);
    let night = cold_spell(finding, style);
    match finding.on {
        Some(On::Tightness) => format!(
            "Leaking room air meets {place} at {at}, {distance} its dew point of {limit}: it hangs on airtightness{night}."
        ),
        _ => format!(
            "The coldest plane that leaking room air reaches, {place}, is at {at}, {distance} its dew point of {limit}{night}."
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
        _ => cold_spell(finding, style),
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

fn unseen(finding: &Finding) -> String {
    match &finding.detail {
        Detail::Unseen(UnseenDetail::BeyondGap { gap, layer }) => format!(
            "The {layer} lies outside the {gap}, in outdoor air with what leaks into it: that isn't \
             looked at."
        ),
        Detail::Unseen(UnseenDetail::Joints { layer }) => format!(
            "Room air gets into the joints of the {layer}, and how warm they are isn't looked at."
        ),
        _ => String::new(),
    }
}

/// A strip alone, and how far off it is from the detail.
fn strip_alone(finding: &Finding, style: Style) -> String {
    let (Detail::StripAlone(alone), Some(place)) = (&finding.detail, &finding.place) else {
        return String::new();
    };
    let error = alone.too_warm.as_kelvin();
    let size = style.show(TemperatureDifference::from_kelvin(error.abs()));
    let side = match error > 0.0 {
        true => "too warm, the unsafe side",
        false => "too cold, the safe side",
    };
    format!(
        "The {} alone shows {} at {}: against the detail {size} {side}.",
        place.path,
        place.plane,
        style.show(alone.wood),
    )
}
