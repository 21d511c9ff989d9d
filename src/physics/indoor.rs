//! The humidity of a room: the standard's classes, and the balance of the water given off in it
//! against what ventilation carries away.

use super::moist_air::saturation_vapor_pressure;
use crate::quantity::{HumidityClass, MassFlow, Pressure, Temperature, VolumeFlow};

/// Gas constant of water vapor, J/(kg·K).
///
/// Source: 8.314 46 J/(mol·K) over 18.015 g/mol (computed).
pub const VAPOR_GAS_CONSTANT: f64 = 461.5;

/// The most vapor pressure a room of a humidity class holds over outdoor air.
///
/// ```text
/// Δp = Δp₀ · (20 − θe) / 20        Δp₀ for θe ≤ 0 °C, nothing for θe ≥ 20 °C
/// class   1    2    3    4     5
/// Δp₀     270  540  810  1080  1360   Pa
/// ```
/// θe outdoor monthly mean in °C; Δp in Pa. Class 5 has no upper limit; the number is its usual
/// worst.
///
/// Source: ISO 13788, annex A, humidity classes (from memory).
/// Valid: monthly means of a temperate or continental climate, naturally ventilated rooms.
/// Departure: none; the 10 % that the edition of 2001 adds for surfaces isn't added.
///
/// # Example
/// ```
/// # use dewmargin::physics::indoor::humidity_class_excess;
/// # use dewmargin::quantity::{HumidityClass, Temperature};
/// let excess = humidity_class_excess(HumidityClass::Three, Temperature::from_celsius(5.0));
/// assert!((excess.as_pa() - 607.5).abs() < 1e-9);
/// ```
#[must_use]
pub fn humidity_class_excess(class: HumidityClass, outdoor: Temperature) -> Pressure {
    let full = match class {
        HumidityClass::One => 270.0,
        HumidityClass::Two => 540.0,
        HumidityClass::Three => 810.0,
        HumidityClass::Four => 1_080.0,
        HumidityClass::Five => 1_360.0,
    };
    Pressure::from_pa(full * open_window_share(outdoor))
}

/// What is left of a room's excess of vapor over outdoor air as windows are opened in summer.
///
/// ```text
/// (20 − θe) / 20, held to 0 … 1
/// ```
/// θe outdoor monthly mean in °C.
///
/// Source: ISO 13788, annex A, the straight line of the humidity classes (from memory).
/// Valid: naturally ventilated rooms that nothing cools.
/// Departure: the classes' line is taken for any excess.
///
/// # Example
/// ```
/// # use dewmargin::physics::indoor::open_window_share;
/// # use dewmargin::quantity::Temperature;
/// assert_eq!(open_window_share(Temperature::from_celsius(15.0)), 0.25);
/// assert_eq!(open_window_share(Temperature::from_celsius(22.0)), 0.0);
/// ```
#[must_use]
pub fn open_window_share(outdoor: Temperature) -> f64 {
    ((20.0 - outdoor.as_celsius()) / 20.0).clamp(0.0, 1.0)
}

/// The vapor pressure a room settles at over outdoor air, by what it takes in and what
/// ventilation carries away.
///
/// ```text
/// Δv = G / V̇        Δp = Δv · R_v · T        R_v = 461.5 J/(kg·K)
/// ```
/// G water given off in kg/s; V̇ outdoor air in m³/s, measured at the room's temperature T in K;
/// Δv in kg/m³; Δp in Pa, infinite where water is given off and nothing ventilates.
///
/// Source: water balance of a ventilated room in the steady state, with the gas law of water
/// vapor (analytic; ISO 13788, annex A, has the same link).
/// Valid: mean of days or longer; a room that neither stores water nor lets it condense.
/// Departure: the room's temperature stands where ISO 13788 takes the mean of indoor and outdoor
/// (2.6 % more for 5 °C outside): the flow is the room's air, and heating air doesn't change its
/// vapor pressure.
///
/// # Example
/// ```
/// # use dewmargin::physics::indoor::ventilation_excess;
/// # use dewmargin::quantity::{MassFlow, Temperature, VolumeFlow};
/// // 1 kg an hour into 100 m³/h: 0.01 kg/m³.
/// let water = MassFlow::from_kg_per_s(1.0 / 3600.0);
/// let air = VolumeFlow::from_m3_per_s(100.0 / 3600.0);
/// let excess = ventilation_excess(water, air, Temperature::from_celsius(20.0));
/// assert!((excess.as_pa() - 1352.89).abs() < 0.01);
/// ```
#[must_use]
pub fn ventilation_excess(
    water: MassFlow,
    outdoor_air: VolumeFlow,
    indoor: Temperature,
) -> Pressure {
    if water.as_kg_per_s() <= 0.0 {
        return Pressure::from_pa(0.0);
    }
    let density = water.as_kg_per_s() / outdoor_air.as_m3_per_s();
    Pressure::from_pa(density * VAPOR_GAS_CONSTANT * kelvin(indoor))
}

/// The ventilation that holds a room at a vapor pressure; `None` where outdoor air is as wet as
/// that, so that no ventilation can.
///
/// ```text
/// V̇ = G · R_v · T / (p − p_e)
/// ```
/// G in kg/s; T of the room in K; p wanted and p_e outdoor in Pa; V̇ in m³/s at the room's
/// temperature.
///
/// Source: inverse of the water balance (analytic).
/// Valid: as [`ventilation_excess`].
/// Departure: as [`ventilation_excess`].
///
/// # Example
/// ```
/// # use dewmargin::physics::indoor::ventilation_for;
/// # use dewmargin::quantity::{MassFlow, Pressure, Temperature};
/// let water = MassFlow::from_kg_per_s(1.0 / 3600.0);
/// let [dry, wet] = [700.0, 1300.0].map(Pressure::from_pa);
/// let indoor = Temperature::from_celsius(20.0);
/// let air = ventilation_for(water, wet, dry, indoor).unwrap();
/// assert!((air.as_m3_per_s() * 3600.0 - 225.48).abs() < 0.01);
/// assert!(ventilation_for(water, dry, wet, indoor).is_none());
/// ```
#[must_use]
pub fn ventilation_for(
    water: MassFlow,
    wanted: Pressure,
    outdoor: Pressure,
    indoor: Temperature,
) -> Option<VolumeFlow> {
    let span = (wanted - outdoor).as_pa();
    let flow = water.as_kg_per_s() * VAPOR_GAS_CONSTANT * kelvin(indoor) / span;
    // A span next to nothing asks for more air than a number can hold.
    (span > 0.0 && flow.is_finite()).then(|| VolumeFlow::from_m3_per_s(flow))
}

/// The vapor pressure at which a room's coldest surface starts to take water out of its air.
///
/// ```text
/// θsi = θe + f_Rsi (θi − θe)        p = p_sat(min(θsi, θi))
/// ```
/// f_Rsi temperature factor of the coldest surface; θ in °C; p in Pa.
///
/// Source: ISO 13788, definition of the temperature factor, and its saturation formula.
/// Valid: 0 ≤ f_Rsi ≤ 1, the monthly mean.
/// Departure: where it is warmer outside than inside the room's air itself is the limit: a
/// surface warmer than the room takes nothing.
///
/// # Example
/// ```
/// # use dewmargin::physics::indoor::coldest_surface_saturation;
/// # use dewmargin::quantity::Temperature;
/// let [indoor, outdoor] = [20.0, -5.0].map(Temperature::from_celsius);
/// // 12.625 °C at a factor of 0.705 holds room air below 50 % / 0.8.
/// let cap = coldest_surface_saturation(indoor, outdoor, 0.705);
/// assert!((cap.as_pa() - 1460.6).abs() < 0.1);
/// ```
#[must_use]
pub fn coldest_surface_saturation(
    indoor: Temperature,
    outdoor: Temperature,
    temperature_factor: f64,
) -> Pressure {
    let span = (indoor - outdoor).as_kelvin();
    let surface = outdoor.as_celsius() + temperature_factor * span;
    let coldest = surface.min(indoor.as_celsius());
    saturation_vapor_pressure(Temperature::from_celsius(coldest))
}

/// A room's vapor pressure: outdoor air and the excess over it, capped by what the coldest
/// surface lets stand.
///
/// ```text
/// p = min(p_e + Δp, p_cap)
/// ```
/// All in Pa; an infinite excess gives the cap.
///
/// Source: mass balance in the steady state; water beyond the cap condenses on that surface.
/// Valid: a surface large enough to take what is over; else the cap is passed for a while.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::indoor::room_vapor_pressure;
/// # use dewmargin::quantity::Pressure;
/// let [outdoor, excess, cap] = [715.0, 1651.0, 1460.0].map(Pressure::from_pa);
/// assert_eq!(room_vapor_pressure(outdoor, excess, cap), cap);
/// ```
#[must_use]
pub fn room_vapor_pressure(outdoor: Pressure, excess: Pressure, cap: Pressure) -> Pressure {
    Pressure::from_pa((outdoor + excess).as_pa().min(cap.as_pa()))
}

fn kelvin(temperature: Temperature) -> f64 {
    temperature.as_celsius() + 273.15
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::moist_air::vapor_pressure;
    use crate::physics::moisture_source::{water_from_gas_cooking, water_from_people};
    use crate::quantity::{Count, RelativeHumidity, unit};
    use approx::{assert_abs_diff_eq, assert_relative_eq};
    use rstest::rstest;

    fn celsius(value: f64) -> Temperature {
        Temperature::from_celsius(value)
    }

    // ISO 13788, annex A, from memory: upper limits at 0 °C and below, nothing from 20 °C on.
    #[rstest]
    #[case(HumidityClass::One, 270.0)]
    #[case(HumidityClass::Two, 540.0)]
    #[case(HumidityClass::Three, 810.0)]
    #[case(HumidityClass::Four, 1_080.0)]
    #[case(HumidityClass::Five, 1_360.0)]
    fn class_limits(#[case] class: HumidityClass, #[case] full: f64) {
        let excess = |t| humidity_class_excess(class, celsius(t)).as_pa();
        assert_eq!([excess(-15.0), excess(0.0)], [full, full]);
        assert_eq!([excess(20.0), excess(31.0)], [0.0, 0.0]);
        assert_relative_eq!(excess(10.0), full / 2.0);
    }

    /// A study before this project found about 102 % at 10 cfm, 66 % at 20, 54 % at 30 and 48 % at
    /// 40 for two people who cook on propane, 20 °C inside, 5 °C and 82 % outside, uncapped
    /// (design.md §4). Of our 4.98 kg a day bodies give 3.68, showers 0.47, the flame 0.38, meals
    /// 0.28 and dishes 0.16. Steady, so the 45 m³ of that room don't enter.
    #[rstest]
    #[case(10.0, 102.0)]
    #[case(20.0, 66.0)]
    #[case(30.0, 54.0)]
    #[case(40.0, 48.0)]
    fn two_people_cooking_on_propane(#[case] cfm: f64, #[case] percent: f64) {
        let two = Count::from_number(2.0);
        let water = water_from_people(two) + water_from_gas_cooking(two);
        assert_abs_diff_eq!(water.as_kg_per_s() * 86_400.0, 4.98, epsilon = 0.005);
        let air = VolumeFlow::from_m3_per_s(cfm * unit::CFM);
        let outdoor = vapor_pressure(celsius(5.0), RelativeHumidity::from_fraction(0.82));
        let inside = outdoor + ventilation_excess(water, air, celsius(20.0));
        let humidity = inside.as_pa() / saturation_vapor_pressure(celsius(20.0)).as_pa();
        eprintln!(
            "{cfm} cfm: {:.1} %, found before {percent} %",
            humidity * 100.0
        );
        assert_abs_diff_eq!(humidity * 100.0, percent, epsilon = 2.0);
        // And back.
        let again = ventilation_for(water, inside, outdoor, celsius(20.0)).unwrap();
        assert_relative_eq!(again.as_m3_per_s(), air.as_m3_per_s(), max_relative = 1e-12);
    }

    #[test]
    fn no_ventilation_is_capped_and_no_water_adds_nothing() {
        let none = VolumeFlow::from_m3_per_s(0.0);
        let two = water_from_people(Count::from_number(2.0));
        let excess = ventilation_excess(two, none, celsius(20.0));
        assert!(excess.as_pa().is_infinite());
        let cap = coldest_surface_saturation(celsius(20.0), celsius(0.0), 0.5);
        assert_eq!(cap, saturation_vapor_pressure(celsius(10.0)));
        assert_eq!(
            room_vapor_pressure(Pressure::from_pa(500.0), excess, cap),
            cap
        );
        let nobody = water_from_people(Count::from_number(0.0));
        let excess = ventilation_excess(nobody, none, celsius(20.0));
        assert_eq!(excess, Pressure::from_pa(0.0));
    }

    #[test]
    fn a_hot_outside_caps_at_the_room_itself() {
        let cap = coldest_surface_saturation(celsius(24.0), celsius(32.0), 0.7);
        assert_eq!(cap, saturation_vapor_pressure(celsius(24.0)));
    }

    #[test]
    fn outdoor_air_as_wet_as_the_target_cannot_dry() {
        let water = water_from_people(Count::from_number(1.0));
        let flow = |wanted, outdoor| {
            let [wanted, outdoor] = [wanted, outdoor].map(Pressure::from_pa);
            ventilation_for(water, wanted, outdoor, celsius(20.0))
        };
        assert_eq!(flow(1_000.0, 1_000.0), None);
        assert_eq!(flow(1_000.0, 1_200.0), None);
        assert!(flow(1_000.0, 900.0) > flow(1_000.0, 500.0));
    }
}
