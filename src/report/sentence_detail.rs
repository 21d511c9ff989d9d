//! Sentences on details in two dimensions.

use super::sentence::{cold_spell, distance};
use crate::check::detail::SpotDetail;
use crate::check::{Check, Detail, Finding, Status};
use crate::quantity::{Dimension, Style, month_name};
use crate::solve::detail::{CornerFailure, DetailFailure, HandCheckKind};

/// What the bars of a bracketed result are.
pub(super) const BRACKET: &str = "No grid settles this cut: where good and bad conductors meet \
    crosswise in a corner nothing finer helps. So every number stands between finite volumes, which \
    pass too little heat there, and finite elements, which pass too much, and its bar reaches both";

/// What an estimate is called.
pub(super) fn estimate_name(kind: HandCheckKind) -> &'static str {
    match kind {
        HandCheckKind::ByStrip => "parallel path by strip",
        HandCheckKind::ByArea => "parallel path by area",
        HandCheckKind::IsothermalPlanes => "isothermal planes",
        HandCheckKind::Fin => "fin",
    }
}

/// Why a detail has no result.
pub(super) fn failure(why: &DetailFailure) -> String {
    match why {
        DetailFailure::Parts(problems) => {
            let words: Vec<String> = problems.iter().map(ToString::to_string).collect();
            format!("It can't be put together: {}.", words.join("; "))
        }
        DetailFailure::Conduction(error) => format!("It can't be solved: {error}."),
        DetailFailure::Corner(why) => corner_failure(why),
    }
}

/// Why a corner has no result.
pub(super) fn corner_failure(why: &CornerFailure) -> String {
    match why {
        CornerFailure::Directional => {
            "Something in the cut conducts differently along it and upward: it makes no corner."
                .into()
        }
        CornerFailure::Parts(problems) => {
            let words: Vec<String> = problems.iter().map(ToString::to_string).collect();
            format!("The corner can't be put together: {}.", words.join("; "))
        }
        CornerFailure::Volume(error) => format!("The corner can't be solved: {error}."),
    }
}

pub(super) fn spot(finding: &Finding, style: Style) -> String {
    let (Some(place), Some(value), Some(limit), Some(margin), Detail::Spot(spot)) = (
        &finding.place,
        finding.value,
        finding.limit,
        finding.margin,
        &finding.detail,
    ) else {
        return "It can't be judged.".into();
    };
    let at = style.show(value);
    let bar = error_bar(spot, style);
    let distance = distance(margin, style);
    let limit = style.show(limit);
    let starts = spot.starts_at.map_or_else(String::new, |rh| {
        format!(" It starts there at {} in the room.", style.show(rh))
    });
    let night = cold_spell(finding, style);
    match (finding.check, finding.status) {
        (Check::DetailCondensation, _) => format!(
            "The coldest place of the {} is at {at} {bar}, {distance} the dew point of the room air, \
             {limit}{night}.{starts}",
            place.path
        ),
        (Check::DetailMold, _) => {
            let month = spot.month.map_or_else(
                || "On the winter mean".to_owned(),
                |month| format!("In {}", month_name(month)),
            );
            format!(
                "{month} the coldest place of the {} is at {at} {bar}, {distance} the temperature at \
                 which it would stand at 80 % humidity, {limit}.{starts}",
                place.path
            )
        }
        (_, Status::Note) => format!(
            "The {} is at {at} {bar} at its coldest; leaking room air doesn't get there.",
            place.path
        ),
        _ => format!(
            "The {} is at {at} {bar} where leaking room air gets to it{}, {distance} the dew point \
             of the room air, {limit}{night}.",
            place.path,
            against(spot)
        ),
    }
}

/// The parts that stay on the steel, each with its temperature and its distance.
pub(super) fn air_seal(finding: &Finding, style: Style) -> String {
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
