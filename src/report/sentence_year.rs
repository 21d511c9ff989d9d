//! Sentences on water through the year: wetting, drying, barriers, sheathing, inward leaks.

use super::sentence::{distance, place};
use crate::check::drying::LONGEST;
use crate::check::{Detail, DryingDetail, Finding, SheathingDetail, Status, YearDetail};
use crate::quantity::{ArealDensity, Style, UnitSystem, fixed, month_name};
use crate::solve::WaterWay;

fn water(kg_per_m2: f64, style: Style) -> String {
    style.water(ArealDensity::from_si(kg_per_m2))
}

/// `in November`, `from November to March` or `all year round`.
pub(super) fn months(first: usize, last: usize) -> String {
    match (first == last, (last + 1) % 12 == first) {
        (true, _) => format!("in {}", month_name(first)),
        (_, true) => "all year round".into(),
        _ => format!("from {} to {}", month_name(first), month_name(last)),
    }
}

pub(super) fn percent(fraction: f64) -> String {
    format!("{} %", fixed(fraction * 100.0, 0))
}

pub(super) fn year(finding: &Finding, style: Style) -> String {
    match (&finding.detail, finding.status) {
        (Detail::Year(detail), Status::Note) => noted(finding, detail, style),
        (Detail::Year(detail), _) => wetted(finding, detail, style),
        (Detail::Closest { humidity, month }, _) => format!(
            "Nothing condenses at a plane of wood or open insulation in any month; the most humid \
             is {} at {} in {}.",
            place(finding),
            percent(*humidity),
            month_name(*month),
        ),
        (_, Status::Unknown) => format!(
            "{} lies between two perfect barriers: diffusion can't tell its vapor.",
            place(finding)
        ),
        _ => "Nothing condenses at a plane of wood or open insulation in any month.".into(),
    }
}

/// `is wet all year` or `is wet from November to March, most in February (0.12 kg/m²)`.
fn spell(detail: &YearDetail, style: Style) -> String {
    let peak = water(detail.peak, style);
    let frost = if detail.frost {
        ", in part as frost"
    } else {
        ""
    };
    let when = detail.peak_month.map_or("", month_name);
    match (detail.never_dry, detail.wet) {
        (true, _) if detail.left_over > 0.0 => format!(
            "is never dry{frost}: it gains {} a year, and {peak} between its least and {when}",
            water(detail.left_over, style)
        ),
        (true, _) => {
            format!("is never dry{frost}: it holds {peak} more in {when} than at its least")
        }
        (false, Some((first, last))) => format!(
            "gathers water {}, at most {peak} in {when}{frost}",
            months(first, last)
        ),
        (false, None) => format!("gathers at most {peak}{frost}"),
    }
}

fn wetted(finding: &Finding, detail: &YearDetail, style: Style) -> String {
    if !detail.settled {
        return format!(
            "{}: the yearly reckoning didn't settle, so it isn't judged.",
            place(finding)
        );
    }
    let mut text = format!("{} {}", place(finding), spell(detail, style));
    if let Some((limit, why)) = detail.limit {
        let side = if detail.peak > limit { "over" } else { "under" };
        text += &format!(", {side} its limit of {} ({why})", water(limit, style));
        if detail.never_dry && detail.peak <= limit {
            text += "; it fails because it never dries";
        }
    }
    if let Some(month) = detail.dry_by {
        text += &format!("; dry again in {}", month_name(month));
    }
    text + "."
}

fn noted(finding: &Finding, detail: &YearDetail, style: Style) -> String {
    format!(
        "{} {}, {} condensing in a year; counted, not judged.",
        place(finding),
        spell(detail, style),
        water(detail.yearly, style)
    )
}

/// What is put at a plane to see it dry, kg/m².
const PUT: f64 = 1.0;

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

pub(super) fn drying(finding: &Finding, style: Style) -> String {
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

/// `June`, or `June 2 years later`, for water put there at the start of a month.
pub(super) fn when(start: usize, days: f64, month: usize) -> String {
    // 1 April is the 90th day after New Year, 1 October the 273rd.
    let before = if start < 6 { 90.0 } else { 273.0 };
    let years = ((days + before) / 365.0).floor();
    match years as u32 {
        0 => month_name(month).into(),
        1 => format!("{} of the next year", month_name(month)),
        n => format!("{} {n} years later", month_name(month)),
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

pub(super) fn barrier(finding: &Finding) -> String {
    match &finding.detail {
        Detail::DoubleBarrier(inner, outer) => format!(
            "Wood or open insulation lies between two tight layers, {inner} and {outer}: what gets \
             wet there stays wet, and such a wall needs an approved design."
        ),
        _ => "No wood or open insulation lies between two tight layers.".into(),
    }
}

pub(super) fn pan(finding: &Finding, style: Style) -> String {
    let Detail::Pan(yearly) = finding.detail else {
        return String::new();
    };
    let gathered = match yearly > 0.0 {
        true => format!(
            "{} a year collects there by diffusion",
            water(yearly, style)
        ),
        false => "nothing collects there by diffusion".into(),
    };
    format!(
        "{} has no drain: {gathered}, and water that gets there any other way stays.",
        place(finding)
    )
}

pub(super) fn sheathing(finding: &Finding) -> String {
    let Detail::Sheathing(SheathingDetail {
        months: [dry, watch, wet],
        highest,
        month,
    }) = finding.detail
    else {
        return String::new();
    };
    format!(
        "{} stands under 80 % in {dry} months, from 80 to 95 % in {watch}, over 95 % in {wet}; the \
         highest monthly mean is {} in {}.",
        place(finding),
        percent(highest),
        month_name(month)
    )
}

pub(super) fn inward(finding: &Finding, style: Style) -> String {
    let (Some(value), Some(limit), Some(margin), Detail::Month(month)) = (
        finding.value,
        finding.limit,
        finding.margin,
        &finding.detail,
    ) else {
        return "No plane that outdoor air reaches touches wood, a panel, open insulation or bare metal.".into();
    };
    let hangs = match finding.status {
        Status::Pass => "",
        _ => ": it hangs on airtightness",
    };
    format!(
        "In the cooled house of {} outdoor air that leaks inward meets {} at {}, {} its dew point \
         of {}{hangs}.",
        month_name(*month),
        place(finding),
        style.show(value),
        distance(margin, style),
        style.show(limit),
    )
}

/// What the critical month adds to the sentence on mold.
/// How much more a leak carries than diffusion.
pub(super) fn leak_ratio(finding: &Finding, style: Style) -> String {
    let hole = match style.units {
        UnitSystem::Imperial => "1 in² in 32 ft²",
        UnitSystem::Metric => "6.5 cm² in 3.0 m²",
    };
    match finding.detail {
        Detail::LeakRatio(Some(ratio)) => {
            let digits = usize::from(ratio < 10.0);
            format!(
                " A leak of {hole} at 4 Pa carries about {} times the water that diffuses in winter.",
                fixed(ratio, digits)
            )
        }
        _ => String::new(),
    }
}
