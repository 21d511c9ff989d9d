//! What is measured, once for everything at the edges: reading, printing, axes, tables, JSON keys.

mod formula;
mod reading;
mod table;

pub use formula::Printed;
pub use table::Dimension;

use super::print::{fixed, tape};
use super::scale::Scale;
use super::{QuantityError, Style, unit};

/// One row of the table: how a quantity is kept, read and shown.
struct Row {
    /// How a key of JSON ends that holds the SI number.
    key: &'static str,
    /// What the imperial and the metric reader have it in.
    units: [Unit; 2],
    /// The same in formulas, where another unit makes them come out.
    in_formulas: [Unit; 2],
    /// How it is read from a text with one number and one unit; `None` where no key of a file is one.
    reading: Option<&'static Scale>,
}

/// A unit, and the digits worth printing in it.
#[derive(Clone, Copy)]
struct Unit {
    name: &'static str,
    /// The SI value of one.
    si: f64,
    /// The unit's number at the SI zero: 32 for °F.
    zero: f64,
    digits: Digits,
    /// Digits of numbers that are to be added up by hand.
    fine: Digits,
}

/// How many decimals a number has.
#[derive(Clone, Copy)]
enum Digits {
    /// Always so many.
    Fixed(usize),
    /// Fewer the larger it is: so many below each size, none above the last.
    Falling(&'static [(f64, usize)]),
    /// Fractions of an inch, as on a tape.
    Tape,
}

impl Row {
    const fn new(key: &'static str, imperial: Unit, metric: Unit) -> Self {
        Self {
            key,
            units: [imperial, metric],
            in_formulas: [imperial, metric],
            reading: None,
        }
    }

    /// In one unit for every reader.
    const fn only(key: &'static str, unit: Unit) -> Self {
        Self::new(key, unit, unit)
    }

    const fn in_formulas(self, imperial: Unit, metric: Unit) -> Self {
        Self {
            in_formulas: [imperial, metric],
            ..self
        }
    }

    const fn reads(self, reading: &'static Scale) -> Self {
        Self {
            reading: Some(reading),
            ..self
        }
    }
}

impl Unit {
    const fn new(name: &'static str, si: f64, decimals: usize) -> Self {
        let digits = Digits::Fixed(decimals);
        Self {
            name,
            si,
            zero: 0.0,
            digits,
            fine: digits,
        }
    }

    const fn digits(self, digits: Digits) -> Self {
        Self {
            digits,
            fine: digits,
            ..self
        }
    }

    const fn fine(self, decimals: usize) -> Self {
        let fine = Digits::Fixed(decimals);
        Self { fine, ..self }
    }

    const fn zero_at(self, zero: f64) -> Self {
        Self { zero, ..self }
    }

    fn value(&self, si: f64) -> f64 {
        si / self.si + self.zero
    }

    fn number(&self, si: f64, digits: Digits) -> String {
        let value = self.value(si);
        let decimals = match digits {
            Digits::Fixed(decimals) => decimals,
            Digits::Falling(steps) => {
                let step = steps.iter().find(|(below, _)| value < *below);
                step.map_or(0, |(_, decimals)| *decimals)
            }
            Digits::Tape => return tape(si / unit::INCH),
        };
        fixed(value, decimals).replace('-', "−")
    }

    /// A number with the unit where the trade has it: `R 13.00` before, `20.0 °C` behind.
    fn with(&self, number: &str) -> String {
        match self.name {
            "R" => format!("R {number}"),
            "" => number.to_owned(),
            name => format!("{number} {name}"),
        }
    }
}

impl Dimension {
    /// How a key of JSON ends that holds it in SI: `_m`, `_kg_per_m2`.
    #[must_use]
    pub const fn key(self) -> &'static str {
        self.row().key
    }

    /// What is expected in a file, with the units; for messages and the editor schema. Empty for
    /// what no file states.
    #[must_use]
    pub const fn expected(self) -> &'static str {
        match self.row().reading {
            Some(reading) => reading.expected,
            None => "",
        }
    }

    /// The unit a reader has it in.
    #[must_use]
    pub fn unit(self, style: Style) -> &'static str {
        self.unit_for(style).name
    }

    /// A value given in SI, in the reader's unit: for axes and columns.
    ///
    /// ```
    /// # use dewmargin::quantity::{Dimension, Style, UnitSystem};
    /// let imperial = Style { units: UnitSystem::Imperial };
    /// assert!((Dimension::Temperature.value(20.0, imperial) - 68.0).abs() < 1e-12);
    /// assert!((Dimension::Length.value(0.0254, imperial) - 1.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn value(self, si: f64, style: Style) -> f64 {
        self.unit_for(style).value(si)
    }

    /// A value given in SI, without its unit: for columns whose heading names it.
    #[must_use]
    pub fn number(self, si: f64, style: Style) -> String {
        let unit = self.unit_for(style);
        unit.number(si, unit.digits)
    }

    /// A value given in SI, with its unit.
    ///
    /// ```
    /// # use dewmargin::quantity::{Dimension, Style, UnitSystem};
    /// let imperial = Style { units: UnitSystem::Imperial };
    /// assert_eq!(Dimension::HeatLoss.show(10.0, imperial), "18.96 Btu/h·°F");
    /// ```
    #[must_use]
    pub fn show(self, si: f64, style: Style) -> String {
        let unit = self.unit_for(style);
        unit.with(&unit.number(si, unit.digits))
    }

    /// As [`Dimension::number`], with the digits that a sum by hand wants.
    #[must_use]
    pub fn fine_number(self, si: f64, style: Style) -> String {
        let unit = self.unit_for(style);
        unit.number(si, unit.fine)
    }

    /// As [`Dimension::show`], with the digits that a sum by hand wants.
    #[must_use]
    pub fn show_fine(self, si: f64, style: Style) -> String {
        let unit = self.unit_for(style);
        unit.with(&unit.number(si, unit.fine))
    }

    /// A value given in SI, in the reader's unit with the other reader's behind it in brackets.
    ///
    /// ```
    /// # use dewmargin::quantity::{Dimension, Style};
    /// assert_eq!(Dimension::Length.both(0.1397, Style::SI), "140 mm (5-1/2 in)");
    /// ```
    #[must_use]
    pub fn both(self, si: f64, style: Style) -> String {
        format!(
            "{} ({})",
            self.show(si, style),
            self.show(si, style.other())
        )
    }

    /// From one value to another, given in SI, the unit once.
    ///
    /// ```
    /// # use dewmargin::quantity::{Dimension, Style};
    /// assert_eq!(Dimension::Transmittance.range([0.3, 0.4], Style::SI), "0.300 to 0.400 W/m²K");
    /// ```
    #[must_use]
    pub fn range(self, [low, high]: [f64; 2], style: Style) -> String {
        let unit = self.unit_for(style);
        let [low, high] = [low, high].map(|si| unit.number(si, unit.digits));
        unit.with(&format!("{low} to {high}"))
    }

    /// A value in the reader's unit, in SI: where a round mark of an axis lies.
    #[must_use]
    pub fn si(self, value: f64, style: Style) -> f64 {
        let unit = self.unit_for(style);
        (value - unit.zero) * unit.si
    }

    /// Reads a number with its unit, SI.
    pub(super) fn read(self, text: &str) -> Result<f64, QuantityError> {
        self.scale().read(text)
    }

    /// Units and range for what reads more than one number with one unit.
    pub(super) const fn scale(self) -> &'static Scale {
        match self.row().reading {
            Some(reading) => reading,
            None => &reading::NONE,
        }
    }

    fn unit_for(self, style: Style) -> Unit {
        let [imperial, metric] = self.row().units;
        style.pick(imperial, metric)
    }
}

impl Style {
    /// A quantity with its unit.
    ///
    /// ```
    /// # use dewmargin::quantity::{Style, Temperature, ThermalResistance, UnitSystem};
    /// let imperial = Style { units: UnitSystem::Imperial };
    /// assert_eq!(imperial.show(Temperature::from_celsius(-20.0)), "−4.0 °F");
    /// assert_eq!(imperial.show(ThermalResistance::from_si(0.88)), "R 5.00");
    /// assert_eq!(imperial.other().show(ThermalResistance::from_si(0.88)), "0.880 m²K/W");
    /// ```
    #[must_use]
    pub fn show<Q: Measured>(self, value: Q) -> String {
        Q::DIMENSION.show(value.si(), self)
    }

    /// A quantity without its unit.
    #[must_use]
    pub fn number<Q: Measured>(self, value: Q) -> String {
        Q::DIMENSION.number(value.si(), self)
    }

    /// A quantity's value in the reader's unit.
    #[must_use]
    pub fn value<Q: Measured>(self, value: Q) -> f64 {
        Q::DIMENSION.value(value.si(), self)
    }

    /// A quantity in the reader's unit with the other reader's behind it in brackets.
    #[must_use]
    pub fn both<Q: Measured>(self, value: Q) -> String {
        Q::DIMENSION.both(value.si(), self)
    }
}

/// A quantity with its own type, and the row of the table that says how it is shown.
pub trait Measured: Copy {
    /// Its row.
    const DIMENSION: Dimension;

    /// Its number in SI.
    fn si(self) -> f64;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Quantity, UnitSystem};
    use rstest::rstest;

    const OURS: Style = Style {
        units: UnitSystem::Imperial,
    };

    // Each of what one unit is by definition: unit.rs.
    #[rstest]
    #[case(Dimension::Temperature, -20.0, "−4.0 °F", "−20.0 °C")]
    #[case(Dimension::Difference, 10.0, "18.0 °F", "10.0 K")]
    #[case(Dimension::Length, 0.01905, "3/4 in", "19.1 mm")]
    #[case(Dimension::Length, 2.4384, "96 in", "2438 mm")]
    #[case(Dimension::Run, 6.7056, "22.00 ft", "6.71 m")]
    #[case(Dimension::Area, 16.350_935_04, "176.0 ft²", "16.35 m²")]
    #[case(Dimension::Volume, 45.0, "1589 ft³", "45.0 m³")]
    #[case(Dimension::Mass, 4_535.923_7, "10000 lb", "4535.9 kg")]
    #[case(Dimension::Resistance, 0.88, "R 5.00", "0.880 m²K/W")]
    #[case(Dimension::HeatLoss, 0.527_527_926_4, "1.00 Btu/h·°F", "0.53 W/K")]
    #[case(Dimension::Power, 2_000.0, "6824 Btu/h", "2.00 kW")]
    #[case(Dimension::Pressure, 1_168.48, "0.345 inHg", "1168 Pa")]
    #[case(Dimension::WaterFlow, 5.0 / 86_400.0, "10.6 pints/day", "5.00 kg/day")]
    #[case(Dimension::AirFlow, 30.0 * unit::CFM, "30 cfm", "51 m³/h")]
    #[case(Dimension::AirFlow, unit::CFM, "1.0 cfm", "1.7 m³/h")]
    #[case(Dimension::Humidity, 0.6, "60 %", "60 %")]
    fn shown(
        #[case] dimension: Dimension,
        #[case] si: f64,
        #[case] imperial: &str,
        #[case] metric: &str,
    ) {
        assert_eq!(dimension.show(si, OURS), imperial);
        assert_eq!(dimension.show(si, OURS.other()), metric);
    }

    #[test]
    fn what_is_shown_is_read_as_itself() {
        for dimension in Dimension::ALL {
            for style in [OURS, OURS.other()] {
                let back = dimension.si(dimension.value(0.3, style), style);
                approx::assert_relative_eq!(back, 0.3, max_relative = 1e-12);
            }
        }
        let read = |text: String| crate::quantity::Length::read(&text).map(|l| l.as_m());
        assert_eq!(read(Dimension::Length.show(0.1397, OURS)), Ok(0.1397));
    }

    // The words of a range are what a builder tries next: its upper end has to be taken.
    #[test]
    fn a_range_says_what_is_taken() {
        let linear = Dimension::ALL.iter().filter(|d| d.scale().units.len() > 1);
        for dimension in linear {
            let (least, greatest, words) = dimension.scale().range;
            // The same in other units stands behind it in brackets.
            let words = words
                .strip_suffix(')')
                .and_then(|w| w.rsplit_once(" ("))
                .map_or(words, |(w, _)| w);
            let upper = words.rsplit(" to ").next().unwrap_or(words);
            let upper = upper.replace(" million", "000000");
            if upper.starts_with(['R', 'U']) {
                continue;
            }
            let read = dimension.read(&upper).expect("the upper end");
            assert!(read > 0.9 * greatest && least < read, "{words}: {read}");
        }
    }
}
