//! The year in words: the answer first, then small facts, and the whole for who can't see it.

use super::super::sheet::{GRAY, Lettering};
use super::super::water::{Told, judged_word, tanks, year_finding};
use super::entry::{Entry, path_words};
use crate::check::{self, Check, Detail, Finding, Status, YearDetail};
use crate::model::{MonthState, Stop};
use crate::quantity::{ArealDensity, Style, fixed, month_name, month_short};
use crate::report::range::widened;
use crate::solve::PathResult;
use crate::study::Judged;

/// The answer, with the place it is about at its end.
pub(super) fn answer(one: &Judged<'_>, told: &Told<'_>) -> String {
    let name = told.name();
    // Water that is only counted is water.
    let at = match tanks(one).is_empty() {
        true => "",
        false => " at wood or open insulation",
    };
    match told {
        Told::Tank(tank) if tank.status != Status::Note => {
            format!("{}: {name}", fate(&tank.detail))
        }
        Told::Closest(closest) => {
            let (humidity, month) = closest.most;
            let nominal = match closest.status {
                Status::Pass => "",
                _ => " at nominal values",
            };
            format!(
                "Nothing condenses{at}{nominal}; closest is {name}, {} % in {}",
                fixed(100.0 * humidity, 0),
                month_name(month)
            )
        }
        Told::Unknown(..) => format!("The vapor can't be told: {name}"),
        Told::Tank(_) => "Nothing condenses at wood or open insulation".into(),
        Told::Nothing => "Nothing condenses".into(),
    }
}

/// What becomes of the water.
fn fate(detail: &YearDetail) -> String {
    let months = detail
        .wet
        .map(|(first, last)| [first, last].map(month_name));
    match (detail.settled, detail.never_dry, months) {
        (false, ..) => "The yearly reckoning didn't settle".into(),
        (_, true, _) if detail.left_over > 0.0 => "Never dry, and wetter every year".into(),
        (_, true, _) => "Never dry, but no wetter year by year".into(),
        (_, _, Some([first, last])) if first == last => {
            format!("Wet in {first}, and dry again in it")
        }
        (_, _, Some([first, last])) => match detail.dry_by {
            Some(month) => format!("Wet from {first}, dry again by {}", month_name(month)),
            None => format!("Wet from {first} to {last}"),
        },
        (_, _, None) => "Wet, and dry again within the month".into(),
    }
}

fn water(kg: f64, style: Style) -> String {
    style.water(ArealDensity::from_si(kg))
}

/// Small facts, each as it is set: in bold what fails beside it.
pub(super) fn facts(
    one: &Judged<'_>,
    told: &Told<'_>,
    path: &PathResult,
    left_out: [usize; 2],
    style: Style,
) -> Vec<(String, Lettering)> {
    let mut facts = Vec::new();
    match told {
        Told::Tank(tank) => facts.push(amounts(&tank.detail, &tank.name, style)),
        _ => facts.extend(year_finding(one).map(widened)),
    }
    let mut findings = one.here().verdict.findings.iter();
    let drying = findings.find(|finding| finding.check == &check::drying::CHECK);
    let plain = Lettering::PLAIN;
    let mut facts: Vec<_> = facts.into_iter().map(|words| (words, plain)).collect();
    facts.extend(drying.map(|finding| {
        let fails = finding.status == Status::Fail;
        let set = if fails { plain.bold() } else { plain };
        (dries(finding, path, style), set)
    }));
    if let Some(months) = &one.stop().conditions.year {
        let words = conditions(one, path, months) + &remark(left_out);
        facts.push((words, plain.color(GRAY)));
    }
    facts.retain(|(words, _)| !words.is_empty());
    facts
}

/// How much, its limit and what is left over.
fn amounts(detail: &YearDetail, name: &str, style: Style) -> String {
    let when = detail
        .peak_month
        .map_or_else(String::new, |month| format!(" in {}", month_name(month)));
    let most = water(detail.peak, style);
    let frost = if detail.frost {
        ", in part as frost"
    } else {
        ""
    };
    let mut words = match (detail.limit, detail.never_dry) {
        (None, _) => format!("{name}: peak {most}{when}{frost}; counted, not judged"),
        (_, true) => format!("{most} more{when} than at its least{frost}"),
        (_, false) => format!("Peak {most}{when}{frost}"),
    };
    if let Some((limit, why)) = detail.limit {
        words += &format!(", limit {} ({why})", water(limit, style));
    }
    words += &format!("; {} condenses in a year", water(detail.yearly, style));
    if detail.left_over > 0.0 {
        words += &format!(
            ", {} of it is left over from year to year",
            water(detail.left_over, style)
        );
    }
    words + "."
}

/// Whether and when 1 kg/m² dries.
fn drying_words(finding: &Finding, style: Style) -> String {
    let said = check::drying::say(finding, style);
    format!("Can it dry, {}: {said}", finding.status.word())
}

/// The same in short, where it has an end.
fn dries(finding: &Finding, path: &PathResult, style: Style) -> String {
    let (Detail::Drying(detail), Some(place)) = (&finding.detail, &finding.place) else {
        return drying_words(finding, style);
    };
    let (Some(days), Some(month)) = (detail.days, detail.month) else {
        return drying_words(finding, style);
    };
    let plane = match place.path == path.path.name {
        true => place.plane.clone(),
        false => format!("{} ({})", place.plane, place.path),
    };
    format!(
        "Can it dry, {}: 1 kg/m² (3.3 oz/ft²) put at {plane} on 1 {} is gone by {}, in {} days.",
        finding.status.word(),
        month_name(detail.start),
        check::drying::when(detail.start, days, month),
        fixed(days, 0)
    )
}

/// What it is drawn for.
fn conditions(one: &Judged<'_>, path: &PathResult, months: &[MonthState; 12]) -> String {
    let Stop { name, origin, .. } = one.stop();
    let climate = match name.is_empty() {
        true => "the climate given".to_owned(),
        false => format!("{name} ({origin})"),
    };
    let inward = months
        .iter()
        .filter(|month| month.outdoor.vapor_pressure() > month.indoor.vapor_pressure())
        .count();
    let inward = match inward {
        0 => "The air outdoors is the drier in every month.".to_owned(),
        n => format!("Vapor moves inward in {n} of 12 months."),
    };
    format!(
        "Path {}, in the monthly means of {climate}, by diffusion alone, repeated until the years \
         are alike. {inward}",
        path_words(one, path)
    )
}

fn remark([wet, dry]: [usize; 2]) -> String {
    let mut words = String::new();
    for (count, one, many) in [
        (wet, "place holds water", "places hold water"),
        (dry, "plane isn't shown", "planes aren't shown"),
    ] {
        if count > 0 {
            let what = if count == 1 { one } else { many };
            words += &format!(" {count} more {what}: see the text report.");
        }
    }
    words
}

/// The picture in words.
pub(in crate::report) fn in_words(one: &Judged<'_>, style: Style) -> String {
    let told = Told::of(one);
    let of = |check: &'static Check| {
        let findings = one.here().verdict.findings.iter();
        findings.filter(move |finding| finding.check == check)
    };
    let year = of(&check::year::CHECK).map(|finding| check::year::say(finding, style));
    let drying = of(&check::drying::CHECK)
        .take(1)
        .map(|finding| drying_words(finding, style));
    format!(
        "Calendar of planes and months: relative humidity at every plane, and water held at the \
         months' ends. {}. The year there: {}. {} {}",
        answer(one, &told),
        judged_word(told.status()),
        year.chain(drying).collect::<Vec<_>>().join(" "),
        by_month(one, &told, style)
    )
}

/// The place that decides, month by month.
fn by_month(one: &Judged<'_>, told: &Told<'_>, style: Style) -> String {
    let Some(path) = told.path(one) else {
        return String::new();
    };
    let (entries, _) = super::entry::entries(one, told, path);
    let decides = entries.iter().find(|entry| entry.decides.is_some());
    decides.map_or_else(String::new, |entry| months_of(entry, style))
}

/// `At bay / pan: January 97 %, …`.
fn months_of(entry: &Entry, style: Style) -> String {
    let month = |month: usize| {
        let humidity = entry.humidity.and_then(|all| all[month]);
        let humidity = humidity.map(|humidity| format!(" {} %", fixed(100.0 * humidity, 0)));
        let held = entry.water.as_ref().map(|water| water.held[month]);
        let held = held
            .filter(|held| *held > 0.0)
            .map(|held| format!(" {}", water(held, style)));
        let frost = if entry.frozen[month] {
            " below freezing"
        } else {
            ""
        };
        let [humidity, held] = [humidity, held].map(Option::unwrap_or_default);
        format!("{}{humidity}{held}{frost}", month_short(month))
    };
    let months: Vec<String> = (0..12).map(month).collect();
    format!("At {}: {}.", entry.name, months.join(", "))
}
