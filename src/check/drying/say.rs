//! How a wetting dries, in words.

use super::LONGEST;
use crate::check::words::{percent, place, water};
use crate::check::{Detail, DryingDetail, Finding, Status};
use crate::quantity::{Style, fixed, month_name};
use crate::solve::WaterWay;
use crate::solve::wetting::WETTING;

/// What is put at a plane to see it dry, kg/m².
const PUT: f64 = 1.0;

/// What was found in a sentence or two.
#[must_use]
pub fn say(finding: &Finding, style: Style) -> String {
    if let (Detail::Drying(detail), Status::Note) = (&finding.detail, finding.status) {
        return elsewhere(finding, detail, style);
    }
    if finding.status == Status::Note {
        return "Not judged: how what gets wet dries again takes the twelve months of a climate."
            .into();
    }
    let Detail::Drying(detail) = &finding.detail else {
        return "No plane of wood or open insulation gets water by a named way: there is nothing to dry."
            .into();
    };
    if finding.status == Status::Unknown {
        return format!(
            "{}: the drying didn't settle, so it isn't judged.",
            place(finding)
        );
    }
    let one = "1 kg/m² (3.3 oz/ft²)";
    let spring = month_name(detail.start);
    let mut text = match (detail.days, detail.month) {
        (Some(days), Some(month)) if days > LONGEST => format!(
            "It can't dry within a year at {}: {one} put there on 1 {spring} is gone only by {}, in \
             {} days",
            place(finding),
            when(detail.start, days, month),
            fixed(days, 0),
        ),
        (Some(days), Some(month)) => format!(
            "The slowest plane is {}: {one} put there on 1 {spring} is gone by {}, in {} days",
            place(finding),
            when(detail.start, days, month),
            fixed(days, 0),
        ),
        _ if detail.left > PUT => format!(
            "It can't dry at {}: {one} put there on 1 {spring} has become {} after five years, since \
             more condenses than dries",
            place(finding),
            water(detail.left, style),
        ),
        _ => format!(
            "It can't dry at {}: of {one} put there on 1 {spring} {} is left after five years",
            place(finding),
            water(detail.left, style),
        ),
    };
    text += &detail
        .way
        .map_or_else(String::new, |way| format!(" (water {})", by_way(way)));
    text += &to_sides(detail);
    let moved: Vec<String> = detail
        .moved
        .iter()
        .map(|(name, kg)| format!("{} to {name}", water(*kg, style)))
        .collect();
    if !moved.is_empty() {
        text += &format!("; of it moved {}", moved.join(", "));
    }
    if detail.days.is_none_or(|days| days > LONGEST) {
        text += if detail.drains {
            ". But the plane drains"
        } else {
            ". Nothing drains there"
        };
    }
    text + "."
}

/// What a plane would take that no water gets to by a named way.
fn elsewhere(finding: &Finding, detail: &DryingDetail, style: Style) -> String {
    let at = place(finding);
    let lasts = match detail.days {
        Some(days) => format!("would take {} days to go", fixed(days, 0)),
        None => format!("would leave {} after five years", water(detail.left, style)),
    };
    format!(
        "Not judged: water gets to {at} neither with room air, nor as rain, nor built in; 1 kg/m² \
         there {lasts}. Say `built-in-water: true` of a layer that is wet when it is closed in."
    )
}

/// How water gets to a plane.
fn by_way(way: WaterWay) -> &'static str {
    match way {
        WaterWay::BuiltIn => "built in wet",
        WaterWay::RoomAir => "left by room air that leaks",
        WaterWay::Rain => "rain past the cladding, which has no open gap behind it",
        WaterWay::Plumbing => "from a pipe over the pan",
    }
}

fn to_sides(detail: &DryingDetail) -> String {
    detail.share_to_room.map_or_else(String::new, |share| {
        format!(
            ", {} of it to the room and {} outward",
            percent(share),
            percent(1.0 - share)
        )
    })
}

/// `June`, or `June 2 years later`, for water put there at the start of a month.
#[must_use]
pub fn when(start: usize, days: f64, month: usize) -> String {
    // 1 April is the 90th day after New Year, 1 October the 273rd.
    let before = if start < 6 { 90.0 } else { 273.0 };
    let years = ((days + before) / 365.0).floor();
    match years as u32 {
        0 => month_name(month).into(),
        1 => format!("{} of the next year", month_name(month)),
        n => format!("{} {n} years later", month_name(month)),
    }
}

/// The same in a few words about a place.
pub(super) fn phrase(finding: &Finding, at: &str, style: Style) -> Option<String> {
    let Detail::Drying(drying) = &finding.detail else {
        return None;
    };
    let put = water(WETTING, style);
    Some(match drying.days {
        Some(days) => format!(
            "a wetting of {put} at {at} takes {} days to dry, limit 365",
            fixed(days, 0)
        ),
        None => format!("a wetting of {put} at {at} isn't dry in five years"),
    })
}
