//! Unit factors, each the SI value of one unit. Exact by definition unless said otherwise.

/// One inch in m.
pub const INCH: f64 = 0.0254;
/// One foot in m.
pub const FOOT: f64 = 0.3048;
/// One avoirdupois pound in kg.
pub const POUND: f64 = 0.453_592_37;
/// One grain in kg: a seven-thousandth of a pound.
pub const GRAIN: f64 = POUND / 7000.0;
/// One International Table Btu in J.
pub const BTU: f64 = 1_055.055_852_62;
/// One Fahrenheit degree of difference in K.
pub const FAHRENHEIT_DEGREE: f64 = 1.0 / 1.8;
/// One inch of mercury at 0 °C in Pa.
///
/// Source: the conventional value 13 595.1 kg/m³ × 9.806 65 m/s² × 25.4 mm.
pub const INCH_OF_MERCURY: f64 = 13_595.1 * 9.806_65 * INCH;

/// One R, h·ft²·°F/Btu, in m²·K/W (0.176 110 183 7).
pub const R_VALUE: f64 = 3_600.0 * FOOT * FOOT * FAHRENHEIT_DEGREE / BTU;
/// One Btu/(h·ft²·°F) in W/(m²·K) (5.678 263 341).
pub const U_VALUE: f64 = 1.0 / R_VALUE;
/// One Btu·in/(h·ft²·°F) in W/(m·K) (0.144 227 888 9).
pub const BTU_INCH: f64 = INCH * U_VALUE;
/// One Btu/(h·ft·°F) in W/(m·K).
pub const BTU_PER_FOOT: f64 = FOOT * U_VALUE;
/// One Btu/(lb·°F) in J/(kg·K) (4186.8).
pub const BTU_PER_POUND: f64 = BTU / (POUND * FAHRENHEIT_DEGREE);
/// One U.S. perm, grain/(h·ft²·inHg at 0 °C), in kg/(s·m²·Pa) (5.721 35·10⁻¹¹).
pub const PERM: f64 = GRAIN / (3_600.0 * FOOT * FOOT * INCH_OF_MERCURY);
/// One U.S. perm-inch in kg/(m·s·Pa) (1.453 22·10⁻¹²).
pub const PERM_INCH: f64 = PERM * INCH;
/// One pound per cubic foot in kg/m³.
pub const POUND_PER_CUBIC_FOOT: f64 = POUND / (FOOT * FOOT * FOOT);
/// One pound per square foot in kg/m².
pub const POUND_PER_SQUARE_FOOT: f64 = POUND / (FOOT * FOOT);
/// One square foot in m².
pub const SQUARE_FOOT: f64 = FOOT * FOOT;
/// One cubic foot in m³.
pub const CUBIC_FOOT: f64 = FOOT * FOOT * FOOT;
/// One cubic foot per minute in m³/s (4.719 474·10⁻⁴).
pub const CFM: f64 = CUBIC_FOOT / 60.0;
/// One Btu per hour in W (0.293 071).
pub const BTU_PER_HOUR: f64 = BTU / 3_600.0;
/// One Btu/(h·°F) in W/K (0.527 528).
pub const BTU_PER_HOUR_DEGREE: f64 = BTU_PER_HOUR / FAHRENHEIT_DEGREE;
/// One ounce per square foot in kg/m²: a sixteenth of a pound.
pub const OUNCE_PER_SQUARE_FOOT: f64 = POUND_PER_SQUARE_FOOT / 16.0;
/// One U.S. liquid pint in m³: an eighth of a gallon of 231 cubic inches.
pub const PINT: f64 = 231.0 / 8.0 * INCH * INCH * INCH;
/// The mass of one U.S. pint of water in kg, at 1000 kg/m³ (0.473 176).
///
/// Source: density of water near 4 °C; 0.2 % less at room temperature.
pub const PINT_OF_WATER: f64 = 1_000.0 * PINT;
/// Vapor permeability of still air used for s_d values, kg/(m·s·Pa).
///
/// Source: ISO 13788, δ₀ = 2·10⁻¹⁰ (from memory).
pub const AIR_PERMEABILITY: f64 = 2.0e-10;

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use rstest::rstest;

    // Computed from exact definitions in check-values §7; printed to nine or ten digits there.
    #[rstest]
    #[case::r_value(R_VALUE, 0.176_110_183_7, 1e-9)]
    #[case::u_value(U_VALUE, 5.678_263_341, 1e-9)]
    #[case::btu_inch(BTU_INCH, 0.144_227_888_9, 1e-9)]
    #[case::specific_heat(BTU_PER_POUND, 4_186.8, 1e-9)]
    #[case::pcf(POUND_PER_CUBIC_FOOT, 16.018_463_37, 1e-9)]
    #[case::perm(PERM, 5.721_35e-11, 1e-6)]
    #[case::perm_inch(PERM_INCH, 1.453_223e-12, 1e-6)]
    // 1 perm = 57.2135 ng/(Pa·s·m²): encyclopedia article on the perm, seen.
    #[case::perm_in_ng(PERM * 1e12, 57.2135, 1e-6)]
    // s_d of one perm with δ₀ = 2·10⁻¹⁰: 3.49568 m, computed.
    #[case::sd_of_one_perm(AIR_PERMEABILITY / PERM, 3.495_68, 2e-6)]
    fn factor(#[case] ours: f64, #[case] published: f64, #[case] relative: f64) {
        assert_relative_eq!(ours, published, max_relative = relative);
    }
}
