//! Printing water and air: amounts per area, water by time, ventilation, volume, power.

use super::{
    ArealDensity, MassFlow, Power, Pressure, Style, UnitSystem, Volume, VolumeFlow, fixed, unit,
};

impl Style {
    fn pick<T>(self, imperial: T, metric: T) -> T {
        match self.units {
            UnitSystem::Imperial => imperial,
            UnitSystem::Metric => metric,
        }
    }

    /// The unit of water held per area: `oz/ft²` or `kg/m²`.
    ///
    /// Ounces, since what condenses in a year is a few of them: 0.1 kg/m² is 0.33 oz/ft², but
    /// 0.020 lb/ft².
    #[must_use]
    pub fn water_unit(self) -> &'static str {
        self.pick("oz/ft²", "kg/m²")
    }

    /// Water held per area in the reader's unit, for axes.
    #[must_use]
    pub fn water_value(self, value: ArealDensity) -> f64 {
        self.pick(value.as_si() / unit::OUNCE_PER_SQUARE_FOOT, value.as_si())
    }

    /// Water held per area without its unit, for table columns: two decimals of oz/ft², three of
    /// kg/m².
    #[must_use]
    pub fn water_number(self, value: ArealDensity) -> String {
        fixed(self.water_value(value), self.pick(2, 3))
    }

    /// Water held per area with its unit; an amount too small for the last decimal is `under` it.
    #[must_use]
    pub fn water(self, value: ArealDensity) -> String {
        let least = self.pick(0.01, 0.001);
        let number = self.water_number(value);
        let unit = self.water_unit();
        let shows_nothing = number.bytes().all(|b| b == b'0' || b == b'.');
        match value.as_si() > 0.0 && shows_nothing {
            true => format!("under {least} {unit}"),
            false => format!("{number} {unit}"),
        }
    }

    /// The unit of vapor pressure: `inHg` or `Pa`.
    #[must_use]
    pub fn pressure_unit(self) -> &'static str {
        self.pick("inHg", "Pa")
    }

    /// A vapor pressure in the reader's unit, for axes.
    #[must_use]
    pub fn pressure_value(self, value: Pressure) -> f64 {
        self.pick(value.as_pa() / unit::INCH_OF_MERCURY, value.as_pa())
    }

    /// Water by time: pints or kilograms a day.
    #[must_use]
    pub fn water_flow(self, value: MassFlow) -> String {
        let per_day = value.as_kg_per_s() * 86_400.0;
        let pints = per_day / unit::PINT_OF_WATER;
        self.pick(
            format!("{} pints/day", fixed(pints, 1)),
            format!("{} kg/day", fixed(per_day, 2)),
        )
    }

    /// A flow of air: whole cfm, or m³/h; one decimal below 10.
    #[must_use]
    pub fn volume_flow(self, value: VolumeFlow) -> String {
        let (number, unit) = self.pick(
            (value.as_m3_per_s() / unit::CFM, "cfm"),
            (value.as_m3_per_s() * 3_600.0, "m³/h"),
        );
        format!("{} {unit}", fixed(number, usize::from(number < 9.95)))
    }

    /// A volume: whole ft³, or m³ with one decimal.
    #[must_use]
    pub fn volume(self, value: Volume) -> String {
        self.pick(
            format!("{} ft³", fixed(value.as_m3() / unit::CUBIC_FOOT, 0)),
            format!("{} m³", fixed(value.as_m3(), 1)),
        )
    }

    /// A rate of heat: whole Btu/h, or kW with two decimals.
    #[must_use]
    pub fn power(self, value: Power) -> String {
        self.pick(
            format!("{} Btu/h", fixed(value.as_w() / unit::BTU_PER_HOUR, 0)),
            format!("{} kW", fixed(value.as_w() / 1e3, 2)),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const OURS: Style = Style {
        units: UnitSystem::Imperial,
    };

    fn both(print: impl Fn(Style) -> String) -> [String; 2] {
        [print(OURS), print(OURS.other())]
    }

    #[test]
    fn water_per_area() {
        let water = |si| both(|style| style.water(ArealDensity::from_si(si)));
        assert_eq!(water(0.1), ["0.33 oz/ft²", "0.100 kg/m²"]);
        assert_eq!(water(1.0), ["3.28 oz/ft²", "1.000 kg/m²"]);
        assert_eq!(water(0.0), ["0.00 oz/ft²", "0.000 kg/m²"]);
        assert_eq!(water(1e-5), ["under 0.01 oz/ft²", "under 0.001 kg/m²"]);
    }

    #[test]
    fn water_and_air_by_time() {
        let water = both(|style| style.water_flow(MassFlow::from_kg_per_s(5.0 / 86_400.0)));
        assert_eq!(water, ["10.6 pints/day", "5.00 kg/day"]);
        let air = both(|style| style.volume_flow(VolumeFlow::from_m3_per_s(30.0 * unit::CFM)));
        assert_eq!(air, ["30 cfm", "51 m³/h"]);
        let little = both(|style| style.volume_flow(VolumeFlow::from_m3_per_s(unit::CFM)));
        assert_eq!(little, ["1.0 cfm", "1.7 m³/h"]);
    }

    #[test]
    fn rooms_heaters_and_vapor() {
        let room = both(|style| style.volume(Volume::from_m3(45.0)));
        assert_eq!(room, ["1589 ft³", "45.0 m³"]);
        let heater = both(|style| style.power(Power::from_w(2_000.0)));
        assert_eq!(heater, ["6824 Btu/h", "2.00 kW"]);
        let vapor = both(|style| style.pressure(Pressure::from_pa(1_168.48)));
        assert_eq!(vapor, ["0.345 inHg", "1168 Pa"]);
        assert!((OURS.pressure_value(Pressure::from_pa(1_168.48)) - 0.345).abs() < 5e-4);
        assert_eq!(both(|style| style.pressure_unit().into()), ["inHg", "Pa"]);
    }
}
