//! What gives water off in a room: people, cooking, an unvented heater, laundry.

use crate::quantity::{Count, MassFlow, Power, unit};

/// Seconds of a day.
const DAY: f64 = 86_400.0;
/// Hours awake at home and grams of water per hour: the middle of 60 to 120 g/h.
const AWAKE: (f64, f64) = (16.0, 90.0);
/// Hours asleep and grams of water per hour: the middle of 40 to 60 g/h.
const ASLEEP: (f64, f64) = (8.0, 50.0);
/// Pints of water from one shower of five minutes.
const SHOWER: f64 = 0.5;
/// Pints from cooking a dinner for four, and from washing up after it.
const DINNER_FOR_FOUR: (f64, f64) = (1.2, 0.68);
/// Pints more where a gas flame cooks that dinner.
const GAS_FLAME_FOR_FOUR: f64 = 1.6;
/// Pints from one load of laundry dried indoors: the middle of 4.7 to 6.2.
const LAUNDRY_LOAD: f64 = (4.7 + 6.2) / 2.0;
/// Molar masses of carbon, hydrogen and oxygen, g/mol.
const MOLAR_MASSES: (f64, f64, f64) = (12.011, 1.008, 15.999);
/// Lower heating value of propane, J/kg.
const PROPANE_HEAT: f64 = 46.35e6;

/// Water that people give off: breath and skin, showers, meals and dishes.
///
/// ```text
/// awake 16 h at 90 g/h, asleep 8 h at 50 g/h, a shower of 0.5 pint,
/// a quarter each of 1.2 pints (dinner for four) and 0.68 pint (its dishes): 2.30 kg/day each
/// ```
/// Result in kg/s, the mean of a day.
///
/// Source: published moisture sources of homes (seen; upper values, a study of 2016 measured
/// less): 60 to 120 g/h active and 40 to 60 g/h resting, of which the middle is taken. Hours, one
/// shower and one cooked meal a day: common practice.
/// Valid: people at home all day; count those who are out for half of it as half.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::moisture_source::water_from_people;
/// # use dewmargin::quantity::Count;
/// let two = water_from_people(Count::from_number(2.0));
/// assert!((two.as_kg_per_s() * 86_400.0 - 4.598).abs() < 0.001);
/// ```
#[must_use]
pub fn water_from_people(people: Count) -> MassFlow {
    let body = (AWAKE.0 * AWAKE.1 + ASLEEP.0 * ASLEEP.1) * 1e-3;
    let meals = (DINNER_FOR_FOUR.0 + DINNER_FOR_FOUR.1) / 4.0;
    let each = body + (SHOWER + meals) * unit::PINT_OF_WATER;
    MassFlow::from_kg_per_s(people.as_number() * each / DAY)
}

/// Water that the flame adds where meals are cooked on gas or propane.
///
/// ```text
/// a quarter of 1.6 pints per person and day: 0.19 kg/day each
/// ```
/// Result in kg/s, the mean of a day; cooking on electricity adds nothing to
/// [`water_from_people`].
///
/// Source: published moisture sources of homes (seen): dinner for four 1.2 pints, 1.6 more with
/// gas.
/// Valid: one cooked meal a day.
/// Departure: none; propane is taken as gas.
///
/// # Example
/// ```
/// # use dewmargin::physics::moisture_source::water_from_gas_cooking;
/// # use dewmargin::quantity::Count;
/// let two = water_from_gas_cooking(Count::from_number(2.0));
/// assert!((two.as_kg_per_s() * 86_400.0 - 0.3785).abs() < 1e-4);
/// ```
#[must_use]
pub fn water_from_gas_cooking(people: Count) -> MassFlow {
    let each = GAS_FLAME_FOR_FOUR / 4.0 * unit::PINT_OF_WATER;
    MassFlow::from_kg_per_s(people.as_number() * each / DAY)
}

/// Water in the exhaust of propane, by mass of fuel.
///
/// ```text
/// C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O        4 · 18.015 / 44.097 = 1.634 kg/kg
/// ```
///
/// Source: stoichiometry, with the atomic masses 12.011, 1.008 and 15.999 g/mol.
/// Valid: complete combustion of pure propane.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::moisture_source::water_per_propane;
/// assert!((water_per_propane() - 1.634).abs() < 5e-4);
/// ```
#[must_use]
pub fn water_per_propane() -> f64 {
    let (carbon, hydrogen, oxygen) = MOLAR_MASSES;
    4.0 * (2.0 * hydrogen + oxygen) / (3.0 * carbon + 8.0 * hydrogen)
}

/// Water that an unvented propane heater gives the room.
///
/// ```text
/// G = P / H · 1.634        H = 46.35 MJ/kg
/// ```
/// P mean heat in W; H lower heating value of propane; G in kg/s: 0.127 kg/h for each kW.
///
/// Source: stoichiometry ([`water_per_propane`]); heating value from memory. Natural gas gives
/// about a quarter more for the same heat.
/// Valid: the mean over the day, not the rating of a heater that runs now and then.
/// Departure: none. On the higher heating value, by which U.S. heaters are rated, it would be 8 %
/// less.
///
/// # Example
/// ```
/// # use dewmargin::physics::moisture_source::water_from_unvented_heater;
/// # use dewmargin::quantity::Power;
/// let water = water_from_unvented_heater(Power::from_w(1000.0));
/// assert!((water.as_kg_per_s() * 3600.0 - 0.1269).abs() < 1e-4);
/// ```
#[must_use]
pub fn water_from_unvented_heater(heat: Power) -> MassFlow {
    MassFlow::from_kg_per_s(heat.as_w() / PROPANE_HEAT * water_per_propane())
}

/// Water from laundry dried indoors.
///
/// ```text
/// 5.45 pints a load: 0.37 kg/day for a load a week
/// ```
/// Result in kg/s, the mean of a week.
///
/// Source: published moisture sources of homes (seen): 4.7 to 6.2 pints a load, of which the
/// middle is taken.
/// Valid: laundry spun by a machine.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::moisture_source::water_from_laundry;
/// # use dewmargin::quantity::Count;
/// let one = water_from_laundry(Count::from_number(1.0));
/// assert!((one.as_kg_per_s() * 86_400.0 * 7.0 - 2.579).abs() < 0.001);
/// ```
#[must_use]
pub fn water_from_laundry(loads_per_week: Count) -> MassFlow {
    let load = LAUNDRY_LOAD * unit::PINT_OF_WATER;
    MassFlow::from_kg_per_s(loads_per_week.as_number() * load / (7.0 * DAY))
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    #[test]
    fn a_kilowatt_of_propane() {
        // Published upper value (seen): 1.6 L of water per kg of gas.
        assert_abs_diff_eq!(water_per_propane(), 1.6, epsilon = 0.05);
        let day = water_from_unvented_heater(Power::from_w(1_000.0)).as_kg_per_s() * DAY;
        assert_abs_diff_eq!(day, 86.4e6 / 46.35e6 * 72.06 / 44.097, epsilon = 1e-9);
    }
}
