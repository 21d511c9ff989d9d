//! Water through the year in words.

use crate::check::words::{months, percent, place, water};
use crate::check::{Detail, Finding, Status, YearDetail};
use crate::quantity::{Style, fixed, month_name};

/// What was found in a sentence or two.
#[must_use]
pub fn say(finding: &Finding, style: Style) -> String {
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

/// The same in a few words about a place.
pub(super) fn phrase(finding: &Finding, at: &str, style: Style) -> Option<String> {
    match &finding.detail {
        Detail::Year(year) if year.never_dry => Some(format!("{at} is never dry")),
        Detail::Year(year) => {
            let limit = year.limit.map_or_else(String::new, |(limit, _)| {
                format!(", limit {}", water(limit, style))
            });
            let dry = year.dry_by.map_or_else(String::new, |month| {
                format!("; wet until {}", month_name(month))
            });
            Some(format!(
                "{at} gathers {}{limit}{dry}",
                water(year.peak, style)
            ))
        }
        Detail::Closest { humidity, month } => Some(format!(
            "{at} is at {} % in {}, nothing condenses at the nominal values",
            fixed(humidity * 100.0, 0),
            month_name(*month)
        )),
        _ => None,
    }
}
