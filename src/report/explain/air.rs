//! Moist air: saturation pressure, vapor pressure, dew point.

use super::Derivation;
use super::formula::{Formula, Term, constant, exp, ln};
use super::sheet::{Named, Sheet};
use crate::model::{AirState, Stop};
use crate::quantity::{Dimension, Pressure, RelativeHumidity, Style, Temperature, UnitSystem};

/// Vapor pressure at 0 °C in the saturation formula, Pa.
const P0: (&str, f64) = ("610.5 Pa", 610.5);

pub(super) const SATURATION: &str =
    "ISO 13788, saturation pressure over water, over ice below 0 °C (from memory)";

/// The coefficients of the saturation formula as written: over water, or over ice.
fn coefficients(is_ice: bool) -> (Formula, Formula) {
    match is_ice {
        true => (constant("21.875", 21.875), constant("265.5 °C", 265.5)),
        false => (constant("17.269", 17.269), constant("237.3 °C", 237.3)),
    }
}

/// A temperature in °C, with the step that turns it from the reader's unit.
pub(super) fn celsius(sheet: &mut Sheet, of: &Term, si: Temperature) -> Term {
    if sheet.style.units == UnitSystem::Metric {
        return of.clone();
    }
    let symbol = format!("{},C", of.symbol);
    let formula = (of.f() - constant("32", 32.0)) / constant("1.8", 1.8);
    let named = (
        symbol.as_str(),
        "the same in °C, for the saturation formula",
    );
    sheet.computed(named, Dimension::Celsius, si.as_celsius(), &formula)
}

/// Saturation pressure at a temperature; `at` names it in the symbol: `p_sat,i`.
pub(super) fn saturation(
    sheet: &mut Sheet,
    at: &str,
    temperature: &Term,
    si: Temperature,
    solved: Pressure,
) -> Term {
    let theta = celsius(sheet, temperature, si);
    let is_ice = si.as_celsius() < 0.0;
    let (a, b) = coefficients(is_ice);
    let formula = constant(P0.0, P0.1) * exp(a * theta.f() / (b + theta.f()));
    let words = match is_ice {
        true => "saturation pressure there, over ice",
        false => "saturation pressure there, over water",
    };
    let symbol = format!("p_sat,{at}");
    sheet.computed(
        (&symbol, words),
        Dimension::Pascal,
        solved.as_pa(),
        &formula,
    )
}

/// The dew point of a vapor pressure, in the reader's unit, as a value on the way.
pub(super) fn dew_point(
    sheet: &mut Sheet,
    at: &str,
    pressure: (&Term, Pressure),
    solved: Temperature,
) -> Term {
    dew_point_as(Sheet::computed, sheet, at, pressure, solved)
}

/// The same, its last step told in some way.
fn dew_point_as(
    told: fn(&mut Sheet, Named<'_>, Dimension, f64, &Formula) -> Term,
    sheet: &mut Sheet,
    at: &str,
    pressure: (&Term, Pressure),
    solved: Temperature,
) -> Term {
    let (p, pa) = (pressure.0, pressure.1.as_pa());
    let logarithm = libm::log(pa.max(1.0) / P0.1);
    let is_ice = logarithm < 0.0;
    let symbol = format!("L_{at}");
    let formula = ln(p.f() / constant(P0.0, P0.1));
    let named = (symbol.as_str(), "logarithm of the vapor pressure");
    let l = sheet.computed(named, Dimension::Ratio, logarithm, &formula);
    let (a, b) = coefficients(is_ice);
    let formula = b * l.f() / (a - l.f());
    let words = match is_ice {
        true => "frost point of that vapor, below 0 °C",
        false => "dew point of that vapor",
    };
    let symbol = format!("θ_d,{at}");
    if sheet.style.units == UnitSystem::Metric {
        let si = solved.as_celsius();
        return told(
            sheet,
            (&symbol, words),
            Dimension::Temperature,
            si,
            &formula,
        );
    }
    let in_celsius = format!("{symbol},C");
    let si = solved.as_celsius();
    let theta = sheet.computed((&in_celsius, words), Dimension::Celsius, si, &formula);
    let formula = constant("1.8", 1.8) * theta.f() + constant("32", 32.0);
    let named = (symbol.as_str(), "the same in °F");
    told(sheet, named, Dimension::Temperature, si, &formula)
}

/// Temperature, humidity and vapor pressure of an air.
pub(super) struct Air {
    pub(super) temperature: Term,
    pub(super) pressure: Term,
}

/// The air's temperature alone.
pub(super) fn temperature(sheet: &mut Sheet, at: &str, name: &str, air: AirState) -> Term {
    let words = format!("{name}, temperature");
    let symbol = format!("θ_{at}");
    let si = air.temperature.as_celsius();
    sheet.given((&symbol, &words), Dimension::Temperature, si)
}

/// The vapor pressure of an air: saturation times humidity.
pub(super) fn vapor(sheet: &mut Sheet, at: &str, name: &str, air: AirState, theta: Term) -> Air {
    let words = format!("{name}, relative humidity as a fraction");
    let symbol = format!("φ_{at}");
    let humidity = air.humidity.as_fraction();
    let phi = sheet.given((&symbol, &words), Dimension::Ratio, humidity);
    let at_hundred = AirState {
        humidity: RelativeHumidity::from_fraction(1.0),
        ..air
    };
    let solved = at_hundred.vapor_pressure();
    let saturated = saturation(sheet, at, &theta, air.temperature, solved);
    let words = format!("{name}, vapor pressure");
    let symbol = format!("p_{at}");
    let formula = phi.f() * saturated.f();
    let si = air.vapor_pressure().as_pa();
    let pressure = sheet.computed((&symbol, &words), Dimension::Pascal, si, &formula);
    Air {
        temperature: theta,
        pressure,
    }
}

/// Temperature and vapor pressure of an air.
pub(super) fn state(sheet: &mut Sheet, at: &str, name: &str, air: AirState) -> Air {
    let theta = temperature(sheet, at, name, air);
    vapor(sheet, at, name, air, theta)
}

/// `dew point`: of the room air on the winter mean.
pub(super) fn derive_dew_point(
    place: &str,
    stop: &Stop,
    solved: Temperature,
    style: Style,
) -> Derivation {
    let mut sheet = Sheet::new(
        style,
        place,
        "Dew point of the room air".into(),
        "Below which temperature does leaking room air leave water?",
        SATURATION,
    );
    let room = stop.conditions.indoor;
    let air = state(&mut sheet, "i", "room air", room);
    let pressure = (&air.pressure, room.vapor_pressure());
    dew_point_as(Sheet::result, &mut sheet, "i", pressure, solved);
    sheet.done()
}
