//! A detail's findings in words.

use super::SpotDetail;
use crate::check::words::{cold_spell, distance};
use crate::check::{Detail, Finding, Status};
use crate::model::Conditions;
use crate::quantity::{Dimension, Style, month_name};

/// What every sentence about a spot has.
struct Said<'f> {
    place: &'f str,
    at: String,
    distance: String,
    limit: String,
    starts: String,
    spot: &'f SpotDetail,
}

const UNJUDGED: &str = "It can't be judged.";

impl<'f> Said<'f> {
    fn of(finding: &'f Finding, style: Style) -> Option<Self> {
        let Detail::Spot(spot) = &finding.detail else {
            return None;
        };
        let at = style.show(finding.value?);
        Some(Self {
            place: &finding.place.as_ref()?.path,
            at: format!("{at} {}", error_bar(spot, style)),
            distance: distance(finding.margin?, style),
            limit: style.show(finding.limit?),
            starts: spot.starts_at.map_or_else(String::new, |rh| {
                format!(" It starts there at {} in the room.", style.show(rh))
            }),
            spot,
        })
    }
}

pub(super) fn condensation(finding: &Finding, _: &Conditions, style: Style) -> String {
    let Some(said) = Said::of(finding, style) else {
        return UNJUDGED.into();
    };
    format!(
        "The coldest place of the {} is at {}, {} the dew point of the room air, {}{}.{}",
        said.place,
        said.at,
        said.distance,
        said.limit,
        cold_spell(finding, style),
        said.starts
    )
}

pub(super) fn mold(finding: &Finding, _: &Conditions, style: Style) -> String {
    let Some(said) = Said::of(finding, style) else {
        return UNJUDGED.into();
    };
    let month = said.spot.month.map_or_else(
        || "On the winter mean".to_owned(),
        |month| format!("In {}", month_name(month)),
    );
    format!(
        "{month} the coldest place of the {} is at {}, {} the temperature at which it would stand at \
         80 % humidity, {}.{}",
        said.place, said.at, said.distance, said.limit, said.starts
    )
}

pub(super) fn spot(finding: &Finding, _: &Conditions, style: Style) -> String {
    let Some(said) = Said::of(finding, style) else {
        return UNJUDGED.into();
    };
    match finding.status {
        Status::Note => format!(
            "The {} is at {} at its coldest; leaking room air doesn't get there.",
            said.place, said.at
        ),
        _ if said.spot.is_in_boxes() => format!(
            "The {} is at {} at its coldest, {} the dew point of the room air, {}{}. Where leaking air \
             gets to isn't looked for in three dimensions.",
            said.place,
            said.at,
            said.distance,
            said.limit,
            cold_spell(finding, style)
        ),
        _ => format!(
            "The {} is at {} where leaking room air gets to it{}, {} the dew point of the room air, \
             {}{}.",
            said.place,
            said.at,
            against(said.spot),
            said.distance,
            said.limit,
            cold_spell(finding, style)
        ),
    }
}

/// The parts that stay on the steel, each with its temperature and its distance.
pub(super) fn air_seal(finding: &Finding, _: &Conditions, style: Style) -> String {
    let Detail::AirSeal(spots) = &finding.detail else {
        return String::new();
    };
    let parts: Vec<String> = spots
        .iter()
        .map(|spot| {
            let distance = distance(spot.margin, style);
            format!("{} {} ({distance})", spot.part, style.show(spot.value))
        })
        .collect();
    let limit = finding
        .limit
        .map_or_else(String::new, |limit| style.show(limit));
    format!(
        "This wood stays on the steel whatever lies over it, and room air that gets to it is under \
         its dew point of {limit}: {}.",
        parts.join(", ")
    )
}

fn against(spot: &SpotDetail) -> String {
    match spot.against.is_empty() {
        true => String::new(),
        false => format!(" (against the {})", spot.against),
    }
}

/// `± 0.04 °F`
fn error_bar(spot: &SpotDetail, style: Style) -> String {
    let unit = Dimension::Difference.unit(style);
    format!("± {} {unit}", style.error_bar_number(spot.bar))
}
