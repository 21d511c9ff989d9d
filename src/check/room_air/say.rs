//! The room's air in words.

use super::{RoomAirDetail, RoomBalance};
use crate::check::{Detail, Finding};
use crate::quantity::{Dimension, Style, fixed, month_name, month_short};

pub(super) fn say(finding: &Finding, style: Style) -> String {
    let Detail::RoomAir(detail) = &finding.detail else {
        return String::new();
    };
    let mut text = balance(detail, style);
    if let (Some(month), Some(stated)) = (detail.unlikely, detail.stated) {
        text += &format!(
            " The {} stated is lower than this household makes likely: {} in {}.",
            style.show(stated),
            style.show(detail.months[month].humidity),
            month_name(month)
        );
    }
    text += &aired(detail);
    text += &capped(detail);
    text + &target(detail, style)
}

fn balance(detail: &RoomAirDetail, style: Style) -> String {
    let household = &detail.household;
    let people = household.people;
    let count = fixed(people, usize::from(people.fract() != 0.0));
    let changes = household.volume.map_or_else(String::new, |volume| {
        let changes = household.ventilation.as_m3_per_s() * 3_600.0 / volume.as_m3();
        format!(" ({} air changes an hour)", fixed(changes, 2))
    });
    let months: Vec<String> = detail
        .months
        .iter()
        .map(|m| format!("{} {}", month_short(m.month), style.show(m.humidity)))
        .collect();
    format!(
        "A household of {count} gives off {}; with {} of outdoor air{changes} the room comes to {}.",
        Dimension::WaterFlow.show(household.water.as_kg_per_s(), style),
        style.show(household.ventilation),
        months.join(", ")
    )
}

/// The months with windows open, and those that the cooler dries.
fn aired(detail: &RoomAirDetail) -> String {
    let named = |is_meant: fn(&&RoomBalance) -> bool| {
        let months = detail.months.iter().filter(is_meant);
        let names: Vec<&str> = months.map(|month| month_short(month.month)).collect();
        names.join(", ")
    };
    let open = named(|month| month.windows_open);
    let cooled = named(|month| month.cooled);
    let mut text = String::new();
    if !open.is_empty() {
        text += &format!(" Lived in with windows open: {open}.");
    }
    if !cooled.is_empty() {
        text += &format!(" Dried by the cooler: {cooled}.");
    }
    text
}

fn capped(detail: &RoomAirDetail) -> String {
    let months: Vec<&RoomBalance> = detail
        .months
        .iter()
        .filter(|month| month.uncapped.is_some())
        .collect();
    let Some(worst) = months.iter().max_by(|a, b| {
        a.uncapped
            .unwrap_or(0.0)
            .total_cmp(&b.uncapped.unwrap_or(0.0))
    }) else {
        return String::new();
    };
    let names: Vec<&str> = months
        .iter()
        .map(|month| month_short(month.month))
        .collect();
    let without = match worst.uncapped {
        Some(humidity) if humidity.is_finite() => format!(
            "; without that it would come to {} % in {}",
            fixed(humidity * 100.0, 0),
            month_name(worst.month)
        ),
        _ => "; nothing else takes the water away".into(),
    };
    let when = match names.len() {
        12 => "In every month".to_owned(),
        _ => format!("In {}", names.join(", ")),
    };
    format!(" {when} what condenses on the coldest surface caps it{without}: expect wet windows.")
}

fn target(detail: &RoomAirDetail, style: Style) -> String {
    let Some(target) = detail.household.target else {
        return String::new();
    };
    let flows: Vec<String> = detail
        .months
        .iter()
        .map(|month| {
            let name = month_short(month.month);
            match (month.needed, month.cooled) {
                (_, true) => format!("{name} the cooler's work"),
                _ if month.windows_open => format!("{name} windows open"),
                (Some(flow), _) => format!("{name} {}", style.show(flow)),
                (None, _) => format!("{name} can't: outdoor air is as wet"),
            }
        })
        .collect();
    format!(
        " Ventilation that holds {}: {}.",
        style.show(target),
        flows.join(", ")
    )
}
