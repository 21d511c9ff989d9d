//! What the moisture balance of a room needs: volume, ventilation, power, how many.

use super::number::leading_number;
use super::{AirChanges, Count, Dimension, Measured, Quantity, QuantityError, Volume, VolumeFlow};

/// Outdoor air into a room: as a flow, or by how often it replaces the room's air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ventilation {
    /// Measured or rated.
    Flow(VolumeFlow),
    /// By the room's volume.
    Changes(AirChanges),
}

impl Ventilation {
    /// The flow into a room of that volume.
    ///
    /// ```
    /// # use dewmargin::quantity::{Quantity, Ventilation, Volume};
    /// let changes = Ventilation::read("0.5 ach").unwrap();
    /// let flow = changes.into_room(Volume::from_m3(45.0));
    /// assert!((flow.as_m3_per_s() - 0.00625).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn into_room(self, volume: Volume) -> VolumeFlow {
        match self {
            Self::Flow(flow) => flow,
            Self::Changes(changes) => {
                VolumeFlow::from_m3_per_s(changes.as_per_hour() * volume.as_m3() / 3_600.0)
            }
        }
    }
}

impl Quantity for Ventilation {
    const EXPECTED: &'static str =
        "a ventilation such as `30 cfm`, `50 m3/h`, `14 L/s` or `0.5 ach`";

    const RANGED: Option<Dimension> = Some(Dimension::AirFlow);

    fn number(self) -> Option<f64> {
        match self {
            Self::Flow(flow) => Some(flow.si()),
            // A flow once the room is known.
            Self::Changes(_) => None,
        }
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        let changes = AirChanges::DIMENSION.scale();
        let is_changes =
            leading_number(text).is_ok_and(|(_, unit)| changes.factor(text, unit).is_ok());
        if is_changes {
            return AirChanges::read(text).map(Self::Changes);
        }
        VolumeFlow::read(text)
            .map(Self::Flow)
            .map_err(|error| QuantityError {
                message: error.message.replace(VolumeFlow::EXPECTED, Self::EXPECTED),
                ..error
            })
    }
}

impl Quantity for Count {
    const EXPECTED: &'static str = Self::DIMENSION.expected();
    const BARE_NUMBER: bool = true;

    const RANGED: Option<Dimension> = Some(Self::DIMENSION);

    fn number(self) -> Option<f64> {
        Some(self.si())
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        let scale = Self::DIMENSION.scale();
        let (number, rest) = leading_number(text).map_err(|error| scale.expecting(error))?;
        if number < 0.0 {
            let message = format!("`{text}` is fewer than none");
            return Err(scale.expecting(QuantityError::new(message)));
        }
        if !rest.is_empty() {
            let error = QuantityError::new(format!("`{rest}` in `{text}` isn't part of a count"));
            let help = format!("write the number alone: `{number}`");
            return Err(scale.expecting(error.with_help(help)));
        }
        scale.check(text, number).map(Self::from_number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{MassFlow, Power, TemperatureDifference};
    use approx::assert_relative_eq;
    use rstest::rstest;

    // 1 ft³ = 0.028316846592 m³ and 1 Btu(IT) = 1055.05585262 J by definition.
    #[rstest]
    #[case("1500 ft3", 42.475_269_888)]
    #[case("1500 cubic feet", 42.475_269_888)]
    #[case("1500 cu ft", 42.475_269_888)]
    #[case("1500 ft³", 42.475_269_888)]
    #[case("45 m³", 45.0)]
    #[case("200 L", 0.2)]
    fn volumes(#[case] text: &str, #[case] m3: f64) {
        assert_relative_eq!(
            Volume::read(text).unwrap().as_m3(),
            m3,
            max_relative = 1e-12
        );
    }

    #[rstest]
    #[case("30 cfm", 0.014_158_423_296)]
    #[case("30 ft3/min", 0.014_158_423_296)]
    #[case("36 m3/h", 0.01)]
    #[case("36 m³/h", 0.01)]
    #[case("10 L/s", 0.01)]
    #[case("0 cfm", 0.0)]
    fn flows(#[case] text: &str, #[case] m3_per_s: f64) {
        let flow = VolumeFlow::read(text).unwrap();
        assert_relative_eq!(flow.as_m3_per_s(), m3_per_s, max_relative = 1e-12);
        assert_eq!(Ventilation::read(text), Ok(Ventilation::Flow(flow)));
    }

    #[rstest]
    #[case("2 kW", 2_000.0)]
    #[case("800 W", 800.0)]
    #[case("7000 Btu/h", 2_051.497_491_205_556)]
    #[case("7000 BTU/hr", 2_051.497_491_205_556)]
    #[case("0 kW", 0.0)]
    fn powers(#[case] text: &str, #[case] watts: f64) {
        assert_relative_eq!(
            Power::read(text).unwrap().as_w(),
            watts,
            max_relative = 1e-12
        );
    }

    #[test]
    fn water_by_time() {
        let pints = MassFlow::read("10 pints/day").unwrap();
        assert_relative_eq!(
            pints.as_kg_per_s() * 86_400.0,
            4.731_764_73,
            max_relative = 1e-9
        );
        let grams = MassFlow::read("90 g/h").unwrap();
        assert_relative_eq!(grams.as_kg_per_s(), 2.5e-5, max_relative = 1e-12);
    }

    #[rstest]
    #[case("3 K", 3.0)]
    #[case("9 F", 5.0)]
    #[case("9 °F", 5.0)]
    #[case("-9 °F", -5.0)]
    #[case("2.8 C", 2.8)]
    #[case("2.8 °C", 2.8)]
    fn differences_have_no_offset(#[case] text: &str, #[case] kelvin: f64) {
        let difference = TemperatureDifference::read(text).unwrap();
        assert_relative_eq!(difference.as_kelvin(), kelvin, max_relative = 1e-12);
    }

    #[test]
    fn air_changes_wait_for_the_volume() {
        let half = Ventilation::read("0.5 ach").unwrap();
        assert_eq!(half, Ventilation::Changes(AirChanges::from_per_hour(0.5)));
        let flow = half.into_room(Volume::from_m3(36.0));
        assert_relative_eq!(flow.as_m3_per_s(), 0.005, max_relative = 1e-12);
    }

    #[rstest]
    #[case("2", 2.0)]
    #[case("1.5", 1.5)]
    #[case("0", 0.0)]
    #[case("1 1/2", 1.5)]
    fn counts(#[case] text: &str, #[case] number: f64) {
        assert_relative_eq!(Count::read(text).unwrap().as_number(), number);
    }

    #[rstest]
    #[case("-1", "`-1` is fewer than none: expected a number")]
    #[case("2 people", "`people` in `2 people` isn't part of a count")]
    #[case("two", "`two` doesn't start with a number")]
    #[case("1e9", "`1e9` is out of range: expected 0 to 100")]
    #[case("nan", "`nan` doesn't start with a number")]
    fn refused_counts(#[case] text: &str, #[case] message: &str) {
        let error = Count::read(text).unwrap_err();
        assert!(error.message.starts_with(message), "{}", error.message);
    }

    #[rstest]
    #[case("30", "`30` has no unit: expected a ventilation such as")]
    #[case("-5 cfm", "`-5 cfm` is out of range")]
    #[case(
        "0.5 perm",
        "`perm` in `0.5 perm` isn't a unit for this: expected a ventilation"
    )]
    #[case("-1 ach", "`-1 ach` is out of range: expected 0 to 1000 ach")]
    fn refused_ventilation(#[case] text: &str, #[case] message: &str) {
        let error = Ventilation::read(text).unwrap_err();
        assert!(error.message.starts_with(message), "{}", error.message);
    }

    #[test]
    fn refused_others() {
        assert!(Volume::read("0 m3").is_err());
        assert!(Power::read("-1 kW").is_err());
        assert!(Power::read("5 kJ").is_err());
    }
}
