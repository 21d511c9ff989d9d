//! What a whole house needs: areas, weights, transmittances of openings, edges and bolts, pitch.

use super::number::leading_number;
use super::scale::{Scale, plain};
use super::{Dimension, Measured, Quantity, QuantityError, ThermalTransmittance, unit};

impl Quantity for ThermalTransmittance {
    const EXPECTED: &'static str = Self::DIMENSION.expected();

    const RANGED: Option<Dimension> = Some(Self::DIMENSION);

    fn number(self) -> Option<f64> {
        Some(self.si())
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        let scale = Self::DIMENSION.scale();
        let trimmed = text.trim();
        let Some(digits) = trimmed.strip_prefix(['U', 'u']) else {
            return scale.read(text).map(Self::from_si);
        };
        // The dash of `U-0.30` is a dash, not a minus sign.
        let digits = digits.trim_start();
        let digits = digits.strip_prefix('-').unwrap_or(digits);
        let (number, rest) = leading_number(digits).map_err(|error| scale.expecting(error))?;
        let factor = match rest {
            "" => unit::U_VALUE,
            unit => scale.factor(text, unit)?,
        };
        scale.check(text, number * factor).map(Self::from_si)
    }
}

/// A roof's slope, rise over run.
///
/// ```
/// use dewmargin::quantity::{Pitch, Quantity};
///
/// assert_eq!(Pitch::read("3 in 12").unwrap().as_ratio(), 0.25);
/// assert_eq!(Pitch::read("3:12").unwrap().as_ratio(), 0.25);
/// assert_eq!(Pitch::read("25 %").unwrap().as_ratio(), 0.25);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Pitch(f64);

impl Pitch {
    /// From rise over run.
    #[must_use]
    pub const fn from_ratio(value: f64) -> Self {
        Self(value)
    }

    /// Rise over run.
    #[must_use]
    pub const fn as_ratio(self) -> f64 {
        self.0
    }

    /// How much longer the slope is than its run.
    #[must_use]
    pub fn stretch(self) -> f64 {
        (1.0 + self.0 * self.0).sqrt()
    }
}

impl Quantity for Pitch {
    const EXPECTED: &'static str = "a pitch such as `2 in 12`, `2:12`, `10 %` or `9.5°`";

    const RANGED: Option<Dimension> = Some(Dimension::Ratio);

    fn number(self) -> Option<f64> {
        Some(self.0)
    }

    fn read(text: &str) -> Result<Self, QuantityError> {
        let scale = Scale {
            units: &[(&["percent", "%"], 0.01)],
            expected: Self::EXPECTED,
            range: (1e-3, 4.0, "0.1 % to 400 % (up to 48 in 12)"),
        };
        let (number, rest) = leading_number(text).map_err(|error| scale.expecting(error))?;
        let degrees = ["°", "deg", "degrees"].contains(&rest.trim());
        let ratio = if degrees {
            libm::tan(number.to_radians())
        } else if let Some(run) = run(rest) {
            let (run, unit) = leading_number(run).map_err(|error| scale.expecting(error))?;
            if !unit.is_empty() || run <= 0.0 {
                let message = format!("`{text}` isn't a pitch");
                return Err(scale.expecting(QuantityError::new(message)));
            }
            number / run
        } else if rest.is_empty() {
            let error = QuantityError::new(format!("`{text}` has no unit"));
            return Err(scale.expecting(error.with_help(format!("did you mean `{text} in 12`?"))));
        } else {
            number * scale.factor(text, rest)?
        };
        scale.check(text, ratio).map(Self)
    }
}

/// What stands behind `in` or the colon of `2 in 12`.
fn run(rest: &str) -> Option<&str> {
    let run = rest
        .strip_prefix(':')
        .or_else(|| rest.strip_prefix("in "))?;
    plain(run)
        .starts_with(|c: char| c.is_ascii_digit())
        .then_some(run)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Area, LinearTransmittance, Mass, PointTransmittance};
    use approx::assert_relative_eq;
    use rstest::rstest;

    // 1 ft = 0.3048 m, 1 lb = 0.45359237 kg by definition.
    #[test]
    fn areas_weights_and_transmittances() {
        let close = |got: f64, want: f64| assert_relative_eq!(got, want, max_relative = 1e-9);
        close(Area::read("176 ft2").unwrap().as_m2(), 16.350_935_04);
        close(Area::read("176 sq ft").unwrap().as_m2(), 16.350_935_04);
        close(Mass::read("10000 lb").unwrap().as_kg(), 4_535.923_7);
        let u = |text| ThermalTransmittance::read(text).unwrap().as_si();
        close(u("U-0.30"), 0.3 * 5.678_263_341);
        close(u("U 1.7 W/m2K"), 1.7);
        close(u("0.30 Btu/(h·ft²·°F)"), 0.3 * 5.678_263_341);
        let psi = LinearTransmittance::read("0.1 Btu/(h·ft·°F)").unwrap();
        close(psi.as_si(), 0.173_073_466_6);
        let chi = PointTransmittance::read("1 Btu/(h·°F)").unwrap();
        close(chi.as_si(), 0.527_527_926_4);
    }

    #[rstest]
    #[case("1 in 12", 1.0 / 12.0)]
    #[case("1:12", 1.0 / 12.0)]
    #[case("1/12 in 1", 1.0 / 12.0)]
    #[case("2-1/2 in 12", 2.5 / 12.0)]
    #[case("45°", 1.0)]
    #[case("8 %", 0.08)]
    fn pitches(#[case] text: &str, #[case] ratio: f64) {
        assert_relative_eq!(
            Pitch::read(text).unwrap().as_ratio(),
            ratio,
            max_relative = 1e-12
        );
    }

    #[rstest]
    #[case("2", "`2` has no unit: expected a pitch")]
    #[case("0 in 12", "`0 in 12` is out of range")]
    #[case("-1 in 12", "`-1 in 12` is out of range")]
    #[case("2 in 0", "`2 in 0` isn't a pitch")]
    #[case("90°", "`90°` is out of range")]
    #[case("2 in", "`in` in `2 in` isn't a unit for this")]
    fn refused_pitches(#[case] text: &str, #[case] message: &str) {
        let error = Pitch::read(text).unwrap_err();
        assert!(error.message.starts_with(message), "{}", error.message);
    }

    #[test]
    fn refused_others() {
        assert!(Mass::read("0 lb").is_err());
        assert!(Mass::read("-5 lb").is_err());
        assert!(Mass::read("2 tons").is_err());
        assert!(Area::read("0 ft2").is_err());
        assert!(ThermalTransmittance::read("U-0").is_err());
        assert!(ThermalTransmittance::read("0.3").is_err());
    }
}
