//! What was found in a phrase: the number and its place, and under it where, when and how it came about.

use crate::check::{Check, Detail, Finding, HouseCheck, HouseFinding, On, Status, When};
use crate::quantity::{
    ArealDensity, Length, Mass, Style, TemperatureDifference, fixed, month_name, month_short,
};
use crate::report::sentence_mold::mold_briefly;
use crate::solve::wetting::WETTING;
use crate::study::{JudgedHouse, Part, Subject};

/// The finding in a phrase, with what it hangs on before it.
pub(super) fn phrase(finding: &Finding, style: Style) -> String {
    let said = said(finding, style);
    match finding.on {
        Some(on) if finding.status.severity() == 1 => format!("on {}: {said}", on.words()),
        _ => said,
    }
}

/// What was found, without what it hangs on.
pub(super) fn said(finding: &Finding, style: Style) -> String {
    if let Detail::AirSeal(spots) = &finding.detail {
        let parts: Vec<&str> = spots.iter().map(|spot| spot.part.as_str()).collect();
        return format!(
            "{} an air seal: {}",
            if parts.len() == 1 { "needs" } else { "need" },
            parts.join(", ")
        );
    }
    if let Some(words) = by_temperature(finding, style) {
        return words;
    }
    match &finding.detail {
        Detail::Year(year) if year.never_dry => format!("{} is never dry", place(finding)),
        Detail::Year(year) => {
            let water = |kg| style.water(ArealDensity::from_si(kg));
            let limit = year.limit.map_or_else(String::new, |(limit, _)| {
                format!(", limit {}", water(limit))
            });
            let dry = year.dry_by.map_or_else(String::new, |month| {
                format!("; wet until {}", month_name(month))
            });
            format!(
                "{} gathers {}{limit}{dry}",
                place(finding),
                water(year.peak)
            )
        }
        Detail::MoldIndex(_) => mold_briefly(finding).unwrap_or_default(),
        Detail::Closest { humidity, month } => format!(
            "{} is at {} % in {}, nothing condenses at the nominal values",
            place(finding),
            fixed(humidity * 100.0, 0),
            month_name(*month)
        ),
        Detail::Drying(drying) => {
            let at = place(finding);
            let put = style.water(ArealDensity::from_si(WETTING));
            match drying.days {
                Some(days) => format!(
                    "a wetting of {put} at {at} takes {} days to dry, limit 365",
                    fixed(days, 0)
                ),
                None => format!("a wetting of {put} at {at} isn't dry in five years"),
            }
        }
        _ => tabled(finding, style),
    }
}

/// Tables and what isn't looked at: the first sentence of what is told of them.
fn tabled(finding: &Finding, style: Style) -> String {
    let told = crate::report::sentence::briefly(finding, style);
    let told = told.trim_end_matches('.');
    let title = finding.title();
    match (told, finding.on) {
        ("", _) => title.to_owned(),
        // The title would say again what it hangs on.
        (_, Some(On::NotLookedAt)) => within_a_sentence(told),
        _ => format!("{title}: {told}"),
    }
}

/// A sentence as the part of another.
fn within_a_sentence(told: &str) -> String {
    let mut letters = told.chars();
    let first = letters.next().into_iter().flat_map(char::to_lowercase);
    first.chain(letters).collect()
}

fn place(finding: &Finding) -> String {
    let Some(place) = &finding.place else {
        return String::new();
    };
    match finding.detail {
        Detail::Spot(_) => place.path.clone(),
        _ => place.plane.clone(),
    }
}

/// Temperatures against the dew point of the room air, or against the mold limit.
fn by_temperature(finding: &Finding, style: Style) -> Option<String> {
    let times = finding.times()?;
    let when = finding.when();
    let (_, margin) = times.all().find(|(at, _)| *at == when)?;
    let size = style.show(TemperatureDifference::from_kelvin(margin.as_kelvin().abs()));
    let at = finding.value.filter(|_| when == When::WinterMean);
    let at = at.map_or_else(String::new, |at| match (&finding.detail, finding.on) {
        // What it hangs on has to be seen.
        (Detail::Spot(spot), Some(On::Tolerance)) => {
            format!(" {}", style.temperature_with_bar(at, spot.bar))
        }
        _ => format!(" {}", style.show(at)),
    });
    let side = match margin.as_kelvin() > 0.0 {
        true => "clear of",
        false => "under",
    };
    let limit = match finding.check {
        check if check.is_of_mold() => "the mold limit",
        Check::InwardLeak => "outdoor dew point",
        Check::Diffusion => "dew point of its vapor",
        _ => "dew point",
    };
    let leaks = match (finding.check, finding.on) {
        (Check::AirLeak | Check::DetailLeak, Some(On::Tightness | On::ColdSpell)) => {
            " if air leaks"
        }
        _ => "",
    };
    let joint = if at.is_empty() { " " } else { ", " };
    Some(format!(
        "{}{at}{joint}{size} {side} {limit}{leaks}",
        place(finding)
    ))
}

/// Where, when and by which method: `high plain, winter mean; two-dimensional detail`.
pub(super) fn ground(finding: &Finding, part: &Part<'_>, style: Style) -> String {
    let site = part.site_of(finding).map(str::to_owned);
    let month = match &finding.detail {
        Detail::Spot(spot) => spot.month,
        Detail::Mold(mold) => Some(mold.month),
        Detail::Month(month) => Some(*month),
        _ => None,
    };
    let by_temperature = finding.times().is_some();
    let time = by_temperature.then(|| match (month, finding.when()) {
        (Some(month), _) | (None, When::ColdestMonth(month)) => month_name(month).to_owned(),
        (None, When::WinterMean) => "winter mean".to_owned(),
        (None, When::DesignNight) => match part.design_night_of(finding) {
            Some(night) => format!("design night {}", style.show(night)),
            None => "design night".to_owned(),
        },
    });
    let method = match (&finding.detail, part.subject) {
        (Detail::Spot(spot), _) if spot.is_at_corner() => Some("corner in three dimensions"),
        (Detail::Spot(_) | Detail::AirSeal(_), _) => Some("two-dimensional detail"),
        (_, Subject::Assembly(_)) if finding.strip.is_some() => Some("hand-check"),
        _ => None,
    };
    let first: Vec<String> = site.into_iter().chain(time).collect();
    let all = [first.join(", "), method.unwrap_or_default().to_owned()];
    let said: Vec<String> = all.into_iter().filter(|words| !words.is_empty()).collect();
    said.join("; ")
}

/// A pass in a line: when it is dry, and the margin that is least.
pub(super) fn passes(part: &Part<'_>, style: Style) -> String {
    let findings = || {
        let all = part.verdict.findings.iter();
        all.filter(|finding| finding.status != Status::Note)
    };
    let mut words = Vec::new();
    let drying = findings().find_map(|finding| match &finding.detail {
        Detail::Drying(drying) => drying.days.zip(drying.month),
        _ => None,
    });
    if let Some((days, month)) = drying {
        words.push(format!(
            "dry by {}, {} days",
            month_short(month),
            fixed(days, 0)
        ));
    }
    if let Some(finding) = part.speaking().filter(|finding| finding.margin.is_some()) {
        let margin = finding.margin.unwrap_or_default();
        let site = part.site_of(finding).map(|site| format!(", {site}"));
        words.push(format!(
            "margin {} at {}{}",
            style.show(margin),
            place(finding),
            site.unwrap_or_default()
        ));
    }
    if words.is_empty() {
        words.push("nothing here that water harms".to_owned());
    }
    let promises = match part.subject {
        Subject::Detail(one) => one.case.promises(),
        Subject::Assembly(one) => one.result().promises(),
        Subject::House(_) => Vec::new(),
    };
    if !promises.is_empty() {
        words.push(format!(
            "rests on what is promised: {}",
            promises.join(", ")
        ));
    }
    words.join("; ")
}

/// What is told of the house: what fails or isn't known, else its measures against their limits.
pub(super) fn of_house(house: &JudgedHouse<'_>, style: Style) -> String {
    let all = house.worst_first();
    let worst = house.verdict.status.severity();
    let of_word = |finding: &&&HouseFinding| finding.status.severity() == worst;
    let told: Vec<String> = all
        .iter()
        .filter(of_word)
        .filter(|finding| worst > 0 || finding.limit.is_some())
        .filter_map(|finding| measure(finding, style))
        .collect();
    match told.is_empty() {
        true => "no limit is stated".to_owned(),
        false => told.join(", "),
    }
}

fn measure(finding: &HouseFinding, style: Style) -> Option<String> {
    let print = |si: f64| match finding.check {
        HouseCheck::Weight => style.show(Mass::from_kg(si)),
        HouseCheck::Tongue => format!("{} %", fixed(si * 100.0, 1)),
        _ => style.measure(Length::from_m(si)),
    };
    let title = finding.check.title();
    match (finding.value, finding.limit) {
        (Some(value), Some(limit)) => Some(format!("{title} {} of {}", print(value), print(limit))),
        (_, Some(_)) => Some(format!("{title} isn't known")),
        _ => None,
    }
}
