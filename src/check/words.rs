//! Amounts and places as the sentences of several checks have them.

use super::Finding;
use crate::model::{Code, Edition};
use crate::quantity::{
    ArealDensity, Style, TemperatureDifference, ThermalResistance, fixed, month_name,
};

/// What ends every sentence about a table.
pub(super) const LOCAL: &str = "Check your local code.";

/// `studs / sheathing (cavity)`.
pub(super) fn place(finding: &Finding) -> String {
    finding.place.as_ref().map_or_else(String::new, |place| {
        format!("{} ({})", place.plane, place.path)
    })
}

/// `10.2 °F below` or `6.1 °F above`.
#[must_use]
pub fn distance(margin: TemperatureDifference, style: Style) -> String {
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

/// Value, distance and limit.
pub(super) fn numbers(finding: &Finding, style: Style) -> Option<[String; 3]> {
    Some([
        style.show(finding.value?),
        distance(finding.margin?, style),
        style.show(finding.limit?),
    ])
}

/// An amount of water, kg/m².
pub(super) fn water(kg_per_m2: f64, style: Style) -> String {
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

/// `IRC 2021, marine zone 4`.
pub(super) fn code(code: Code) -> String {
    let edition = code.edition.map(Edition::title);
    let zone = code.zone.map(|zone| zone.to_string());
    let parts: Vec<String> = edition.map(str::to_owned).into_iter().chain(zone).collect();
    parts.join(", ")
}

/// A resistance, a round R-value without decimals as tables print it.
pub(super) fn resistance(style: Style, value: ThermalResistance) -> String {
    let r = style.value(value);
    match style.pick((r - r.round()).abs() < 0.005, false) {
        true => format!("R {}", fixed(r, 0)),
        false => style.show(value),
    }
}
