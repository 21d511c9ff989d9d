//! Sentences on mold: inside, year after year, and on the room's surface by the month.

use super::sentence::place;
use super::sentence_year::{months, percent};
use crate::check::mold::LIMIT;
use crate::check::{Detail, Finding, MoldDetail, Status};
use crate::quantity::{fixed, month_name};

/// The months in which something is so: `from June to September`, `in May`, `all year round`.
fn when_it_grows(grows: &[bool; 12]) -> String {
    let starts = (0..12).find(|month| grows[*month] && !grows[(*month + 11) % 12]);
    match starts {
        None if grows[0] => "all year round".into(),
        None => "in no month".into(),
        Some(first) => {
            let length = (0..12).take_while(|n| grows[(first + n) % 12]).count();
            let spells = (0..12).filter(|month| grows[*month] && !grows[(*month + 11) % 12]);
            let more = match spells.count() {
                0 | 1 => "",
                _ => " and again later",
            };
            format!("{}{more}", months(first, (first + length - 1) % 12))
        }
    }
}

/// `index 3.4 at film / studs, growing from June to September`.
pub(super) fn mold_briefly(finding: &Finding, place: &str) -> Option<String> {
    let Detail::MoldIndex(detail) = &finding.detail else {
        return None;
    };
    let index = detail.first.max(detail.last);
    Some(format!(
        "index {} at {place}, growing {}{}",
        fixed(index, 1),
        when_it_grows(&detail.grows),
        over_where_worst(finding)
    ))
}

/// What an index under the limit depends on.
pub(super) fn over_where_worst(finding: &Finding) -> &'static str {
    match (&finding.detail, finding.status) {
        (Detail::MoldIndex(mold), Status::Depends) if mold.first.max(mold.last) < LIMIT => {
            ", over 3 where the materials are worst"
        }
        _ => "",
    }
}

pub(super) fn mold_index(finding: &Finding) -> String {
    let Detail::MoldIndex(detail) = &finding.detail else {
        return "No plane of wood or open insulation lies inside that mold could grow on.".into();
    };
    let (humidity, month) = detail.dampest;
    let grown = match detail.first.max(detail.last) > 0.0 {
        false => format!(
            "No mold grows at {} ({}), the dampest plane for it",
            place(finding),
            detail.class.word()
        ),
        true => format!(
            "Mold at {} ({}) grows {}: index {} after the first year, {} in year {}, of 6 in all; 3 is \
             seen by eye",
            place(finding),
            detail.class.word(),
            when_it_grows(&detail.grows),
            fixed(detail.first, 2),
            fixed(detail.last, 2),
            detail.years
        ),
    };
    let frost = if detail.frost {
        "; below 0 °C, where there is frost, it stands still"
    } else {
        ""
    };
    format!(
        "{grown}; at most {} in {}{frost}.",
        percent(humidity),
        month_name(month)
    )
}

pub(super) fn mold_month(finding: &Finding) -> String {
    match &finding.detail {
        Detail::Mold(MoldDetail {
            month,
            required,
            factor,
        }) => {
            let beyond = match *required > 1.0 {
                true => {
                    " More than 1 is more than any wall can give: the room's own air is above 80 % \
                     then. Drier air would do: more ventilation, or a cooler that dries."
                }
                false => "",
            };
            format!(
                " The month that needs most is {}: temperature factor {} needed, {} there.{beyond}",
                month_name(*month),
                fixed(*required, 3),
                fixed(*factor, 3)
            )
        }
        Detail::Month(month) => format!(" The critical month is {}.", month_name(*month)),
        _ => String::new(),
    }
}
