//! Units as builders and reviewers write them, and sheet gauges.

use dewmargin::physics::vapor::sd_value;
use dewmargin::quantity::{
    ArealDensity, Conductivity, Density, Length, Permeability, Permeance, Quantity, SheetMetal,
    SpecificHeat, Temperature, ThermalResistance, sheet_thickness, unit,
};
use rstest::rstest;

use super::{Tolerance, close, printed};

const TEN_DIGITS: &str = "computed from exact definitions, printed to ten digits";
const SIX_DIGITS: &str = "computed, printed to six digits";

fn relative(want: f64, part: f64, why: &'static str) -> Tolerance {
    Tolerance {
        absolute: want * part,
        why,
    }
}

// Computed from the exact definitions of inch, pound, Btu and °F.
#[rstest]
#[case("R-1", ThermalResistance::read("R-1").unwrap().as_si(), 0.176_110_183_7)]
#[case("1 Btu·in/(h·ft²·°F)", Conductivity::read("1 Btu·in/(h·ft²·°F)").unwrap().as_si(), 0.144_227_888_9)]
#[case("1 Btu/(lb·°F)", SpecificHeat::read("1 Btu/(lb·°F)").unwrap().as_si(), 4_186.8)]
#[case("1 pcf", Density::read("1 pcf").unwrap().as_si(), 16.018_463_37)]
#[case("1 Btu/(h·ft²·°F)", unit::U_VALUE, 5.678_263_341)]
#[case("1 psf", ArealDensity::read("1 psf").unwrap().as_si(), 16.018_463_37 * 0.3048)]
#[case("1 ft", Length::read("1 ft").unwrap().as_m(), 0.3048)]
#[case("1 mil", Length::read("1 mil").unwrap().as_m(), 25.4e-6)]
fn exact_units(#[case] text: &str, #[case] ours: f64, #[case] want: f64) {
    close((text, "SI"), ours, want, relative(want, 1e-9, TEN_DIGITS));
}

// One perm: computed from 0 °C inches of mercury; 57.2135 ng seen in an encyclopedia article.
#[rstest]
#[case("1 perm", Permeance::read("1 perm").unwrap().as_si(), 5.721_35e-11, 1e-6)]
#[case("1 perm in ng", Permeance::read("1 perm").unwrap().as_si() * 1e12, 57.2135, 1e-6)]
#[case("1 perm-in", Permeability::read("1 perm-in").unwrap().as_si(), 1.453_223e-12, 1e-6)]
// 1 g/(24 h·m²·mmHg), mmHg 133.322 Pa, is 1.51735 US perm: same article (seen).
#[case("1 metric perm", 1e-3 / 86_400.0 / 133.322_4 / unit::PERM, 1.517_35, 5e-6)]
#[case("s_d of 1 perm", sd_value(1.0 / unit::PERM), 3.495_68, 2e-6)]
#[case("s_d of 0.1 perm", sd_value(10.0 / unit::PERM), 34.957, 2e-5)]
#[case("s_d of 10 perm", sd_value(0.1 / unit::PERM), 0.349_57, 2e-5)]
#[case("mu of 1 perm-in", unit::AIR_PERMEABILITY / unit::PERM_INCH, 137.625, 4e-6)]
fn vapor_units(#[case] text: &str, #[case] ours: f64, #[case] want: f64, #[case] part: f64) {
    close((text, "SI"), ours, want, relative(want, part, SIX_DIGITS));
}

// Exact: 32 °F and 212 °F are 0 °C and 100 °C; −40 is the same in both.
#[rstest]
#[case("32 F", 0.0)]
#[case("-40 F", -40.0)]
#[case("70 F", 21.111_111_111)]
#[case("122 F", 50.0)]
fn temperatures(#[case] text: &str, #[case] want: f64) {
    let ours = Temperature::read(text).unwrap().as_celsius();
    close(
        (text, "°C"),
        ours,
        want,
        Tolerance {
            absolute: 1e-9,
            why: "exact, written to nine decimals",
        },
    );
}

// Sheet metal gauge chart (seen): inches for steel, galvanized steel, aluminum.
#[rstest]
#[case(10, [0.1345, 0.1382, 0.1019])]
#[case(11, [0.1196, 0.1233, 0.0907])]
#[case(12, [0.1046, 0.1084, 0.0808])]
#[case(14, [0.0747, 0.0785, 0.0641])]
#[case(16, [0.0598, 0.0635, 0.0508])]
#[case(18, [0.0478, 0.0516, 0.0403])]
#[case(20, [0.0359, 0.0396, 0.0320])]
#[case(22, [0.0299, 0.0336, 0.0253])]
#[case(24, [0.0239, 0.0276, 0.0201])]
#[case(26, [0.0179, 0.0217, 0.0159])]
#[case(28, [0.0149, 0.0187, 0.0126])]
#[case(30, [0.0120, 0.0157, 0.0100])]
fn gauges(#[case] gauge: u8, #[case] inches: [f64; 3]) {
    let metals = [
        SheetMetal::Steel,
        SheetMetal::Galvanized,
        SheetMetal::Aluminum,
    ];
    for (metal, want) in metals.into_iter().zip(inches) {
        let ours = sheet_thickness(gauge, metal).unwrap().as_m() / 0.0254;
        let case = format!("{gauge} gauge, {metal:?}");
        close(
            (&case, "in"),
            ours,
            want,
            Tolerance {
                absolute: 1e-12,
                why: "a chart value read back",
            },
        );
    }
}

// A pan of 22-gauge galvanized steel is 0.0336 in; a 3/16 in flange 4.76 mm (common practice).
#[test]
fn a_pan_and_a_flange() {
    let pan = sheet_thickness(22, SheetMetal::Galvanized).unwrap().as_m();
    close(("22 ga pan", "mm"), pan * 1e3, 0.853, printed(3));
    let flange = Length::read("3/16 in").unwrap().as_m();
    close(("3/16 in flange", "mm"), flange * 1e3, 4.76, printed(2));
}
