//! A re-typed sample of the material library, so that a slipped digit is caught.
//!
//! The values were typed again from the sources' own units, not from `materials/`.

use dewmargin::material::{Library, Material, Measured, VaporRate};
use dewmargin::quantity::unit::{BTU_INCH, PERM, POUND_PER_CUBIC_FOOT};
use rstest::rstest;

use super::{Tolerance, close};

fn material(name: &str) -> Material {
    Library::new()
        .find(name)
        .unwrap_or_else(|| panic!("`{name}` isn't in the library"))
}

fn conductivity(name: &str) -> f64 {
    let value = material(name).conductivity;
    value.expect("a solid conducts").nominal.as_si()
}

/// The library writes three digits: half of the last one is at most 0.5 %.
fn three_digits(want: f64) -> Tolerance {
    Tolerance {
        absolute: 0.0051 * want,
        why: "the library writes three digits",
    }
}

/// The source prints two digits: half of the last one is at most 5 %.
fn two_digits(want: f64) -> Tolerance {
    Tolerance {
        absolute: 0.05 * want,
        why: "the source prints two digits",
    }
}

// Property sheet for EPS by ASTM C578 type (seen): Btu·in/(h·ft²·°F) at 25, 40 and 75 °F mean,
// minimum density in lb/ft³.
#[rstest]
#[case("eps-type-i", [0.23, 0.24, 0.26], 0.90)]
#[case("eps-type-viii", [0.22, 0.235, 0.255], 1.15)]
#[case("eps-type-ii", [0.21, 0.22, 0.24], 1.35)]
#[case("eps-type-ix", [0.20, 0.21, 0.23], 1.80)]
fn expanded_polystyrene(#[case] name: &str, #[case] k: [f64; 3], #[case] pcf: f64) {
    let eps = material(name);
    let means: Vec<f64> = eps
        .by_temperature
        .iter()
        .map(|p| p.0.as_fahrenheit().round())
        .collect();
    assert_eq!(means, [25.0, 40.0, 75.0]);
    for ((_, ours), want) in eps.by_temperature.iter().zip(k.map(|k| k * BTU_INCH)) {
        close(
            (&format!("{name}, conductivity"), "W/mK"),
            ours.as_si(),
            want,
            three_digits(want),
        );
    }
    let density = eps.density.unwrap().nominal.as_si();
    let want = pcf * POUND_PER_CUBIC_FOOT;
    close(
        (&format!("{name}, density"), "kg/m³"),
        density,
        want,
        three_digits(want),
    );
}

// Comparison of foams by mean temperature (seen): R per inch at 25, 40 and 75 °F.
#[rstest]
#[case("xps", [5.6, 5.4, 5.0])]
#[case("polyiso", [4.0, 4.9, 5.6])]
fn foams_by_temperature(#[case] name: &str, #[case] r_per_inch: [f64; 3]) {
    let foam = material(name);
    assert_eq!(foam.by_temperature.len(), 3);
    for ((_, ours), r) in foam.by_temperature.iter().zip(r_per_inch) {
        let want = BTU_INCH / r;
        close(
            (&format!("{name}, conductivity"), "W/mK"),
            ours.as_si(),
            want,
            three_digits(want),
        );
    }
}

// USDA Wood Handbook, species at 12 % moisture (seen). The library takes ASHRAE's values; the Wood
// Handbook gives ±20 % for its own.
#[rstest]
#[case("douglas-fir", 0.14)]
#[case("spruce-pine-fir", 0.11)]
#[case("red-cedar", 0.10)]
#[case("white-pine", 0.11)]
#[case("southern-pine", 0.15)]
#[case("oak-flooring", 0.19)]
fn woods(#[case] name: &str, #[case] want: f64) {
    let spread = Tolerance {
        absolute: 0.2 * want,
        why: "the Wood Handbook states ±20 %",
    };
    close(
        (&format!("{name}, conductivity"), "W/mK"),
        conductivity(name),
        want,
        spread,
    );
}

// EN 12524 / ISO 10456 (seen through a package's table), W/(m·K).
#[rstest]
#[case("carbon-steel", 50.0)]
#[case("stainless-steel", 17.0)]
#[case("aluminum", 160.0)]
#[case("copper", 380.0)]
#[case("concrete", 2.0)]
#[case("linoleum", 0.17)]
#[case("butyl-tape", 0.24)]
#[case("neoprene", 0.23)]
#[case("epdm", 0.25)]
fn conductivities(#[case] name: &str, #[case] want: f64) {
    let exact = Tolerance {
        absolute: 1e-12,
        why: "a table value read back",
    };
    close(
        (&format!("{name}, conductivity"), "W/mK"),
        conductivity(name),
        want,
        exact,
    );
}

/// Humidity at which a library value holds: 0 dry, 1 mid, 2 damp.
fn at(material: &Material, humidity: usize) -> Measured<VaporRate> {
    let vapor = &material.vapor;
    let values = [
        vapor.dry.clone(),
        Some(vapor.mid.clone()),
        vapor.damp.clone(),
    ];
    values[humidity].clone().expect("a value at that humidity")
}

// ASHRAE Handbook—Fundamentals 2021 (SI), ch. 26, Table 6 (seen): specimen thickness in mm and
// permeance in ng/(s·m²·Pa) at 30, 50 and 90 % mean humidity.
#[rstest]
#[case("plywood", 12.0, [49.0, 120.0, 540.0])]
#[case("gypsum-board", 12.5, [2720.0, 3190.0, 4470.0])]
#[case("cement-board", 12.5, [600.0, 740.0, 1290.0])]
#[case("hardboard", 10.8, [400.0, 430.0, 520.0])]
#[case("cellulose", 64.5, [2170.0, 2420.0, 2760.0])]
#[case("xps", 25.4, [48.0, 48.0, 48.0])]
#[case("polyiso", 24.6, [130.0, 140.0, 190.0])]
#[case("concrete", 25.0, [50.0, 56.0, 260.0])]
#[case("brick", 12.4, [360.0, 380.0, 440.0])]
#[case("stucco", 14.0, [82.0, 120.0, 230.0])]
#[case("red-cedar", 18.0, [13.0, 27.0, 130.0])]
#[case("white-pine", 19.0, [9.4, 35.0, 540.0])]
#[case("southern-pine", 19.5, [21.0, 70.0, 870.0])]
#[case("spruce-pine-fir", 19.5, [55.0, 160.0, 1510.0])]
fn permeabilities(#[case] name: &str, #[case] millimeters: f64, #[case] permeance: [f64; 3]) {
    let material = material(name);
    for (humidity, nanograms) in permeance.into_iter().enumerate() {
        let value = at(&material, humidity);
        let percent = [30.0, 50.0, 90.0][humidity];
        assert_eq!(
            value.at.map(|at| (at.as_fraction() * 100.0).round()),
            Some(percent),
            "{name}"
        );
        assert!(value.nominal.is_per_thickness(), "{name}");
        let want = nanograms * 1e-12 * millimeters * 1e-3;
        let case = format!("{name} at {percent} %");
        close(
            (&case, "kg/msPa"),
            value.nominal.as_si(),
            want,
            three_digits(want),
        );
    }
}

// The same chapter, Tables 5 and 6 (seen): sheets, in ng/(s·m²·Pa); 0 dry, 1 mid, 2 damp.
#[rstest]
#[case("humidity-variable-membrane", 0, 53.0)]
#[case("humidity-variable-membrane", 1, 240.0)]
#[case("humidity-variable-membrane", 2, 2000.0)]
#[case("painted-gypsum-board", 0, 210.0)]
#[case("painted-gypsum-board", 1, 400.0)]
#[case("painted-gypsum-board", 2, 1650.0)]
#[case("cedar-bevel-siding", 1, 2010.0)]
fn sheets(#[case] name: &str, #[case] humidity: usize, #[case] nanograms: f64) {
    let rate = at(&material(name), humidity).nominal;
    assert!(!rate.is_per_thickness(), "{name}");
    let exact = Tolerance {
        absolute: 1e-9,
        why: "a table value read back",
    };
    close((name, "ng/sm²Pa"), rate.as_si() * 1e12, nanograms, exact);
}

// The same in perms, two digits as they were noted (seen, except where said).
#[rstest]
#[case("building-paper-10-minute", 1, 13.6)]
#[case("building-paper-30-minute", 1, 22.0)]
#[case("building-paper-60-minute", 1, 43.0)]
#[case("cedar-bevel-siding", 1, 35.0)]
#[case("housewrap", 1, 76.0)]
#[case("painted-gypsum-board", 1, 7.0)]
#[case("felt-15", 0, 1.0)]
#[case("felt-15", 2, 5.6)]
#[case("polyethylene-6-mil", 1, 0.06)]
#[case("polyethylene-4-mil", 1, 0.08)]
#[case("kraft-facing", 0, 0.40)]
#[case("vapor-retarder-paint", 1, 0.45)]
fn sheets_in_perms(#[case] name: &str, #[case] humidity: usize, #[case] perms: f64) {
    let rate = at(&material(name), humidity).nominal;
    assert!(!rate.is_per_thickness(), "{name}");
    close(
        (name, "perm"),
        rate.as_si() / PERM,
        perms,
        two_digits(perms),
    );
}

// Boards at a trade thickness in inches, in perms (seen).
#[rstest]
#[case("osb", 0, 0.425, 0.98)]
#[case("osb", 1, 0.425, 1.9)]
#[case("plywood", 1, 0.472, 2.1)]
#[case("plywood", 0, 0.472, 0.86)]
#[case("gypsum-board", 1, 0.492, 56.0)]
fn boards_in_perms(
    #[case] name: &str,
    #[case] humidity: usize,
    #[case] inches: f64,
    #[case] perms: f64,
) {
    let ours = at(&material(name), humidity).nominal.as_si() / (inches * 0.0254) / PERM;
    close(
        (&format!("{name}, {inches} in"), "perm"),
        ours,
        perms,
        two_digits(perms),
    );
}

// Metals are perfect barriers, not very tight ones.
#[rstest]
#[case("carbon-steel")]
#[case("galvanized-steel")]
#[case("stainless-steel")]
#[case("aluminum")]
#[case("copper")]
fn metals_let_no_vapor_through(#[case] name: &str) {
    assert_eq!(material(name).vapor.mid.nominal.as_si(), 0.0);
}

// Misprints found in the tables of the package the library draws on (seen there): each must stand
// corrected here, or not at all. What the package prints, and what the library must not have.
#[rstest]
#[case::cork_tile("cork-tile", 65.0, 0.065)]
// Particleboard of high density 1.18 is 0.118 in the handbook; the library takes 0.14 at 600 kg/m³.
#[case::particleboard("particleboard", 1.18, 0.14)]
// Waferboard 0.072: the library has oriented strand board at 12.7 mm over 0.12 m²·K/W.
#[case::waferboard("osb", 0.072, 0.106)]
fn misprinted_conductivities(#[case] name: &str, #[case] misprint: f64, #[case] want: f64) {
    let ours = conductivity(name);
    close(
        (name, "W/mK"),
        ours,
        want,
        Tolerance {
            absolute: 1e-12,
            why: "a table value read back",
        },
    );
    assert!(
        (ours - misprint).abs() > 0.2 * want,
        "{name} has the misprint"
    );
}

// Gypsum board's specific heat is printed as 1880 J/(kg·K), plywood's; EN 12524 gives 1000.
#[rstest]
#[case("gypsum-board")]
#[case("painted-gypsum-board")]
fn misprinted_specific_heat(#[case] name: &str) {
    let ours = material(name).specific_heat.unwrap().nominal.as_si();
    close(
        (name, "J/kgK"),
        ours,
        1000.0,
        Tolerance {
            absolute: 1e-9,
            why: "a table value read back",
        },
    );
}

// Underlayment of particleboard, 15.9 mm, is printed with R 1.22 m²·K/W, about nine times what its
// conductivity gives; 0.14 is the likely value, so only the misprint is ruled out.
#[test]
fn misprinted_underlayment() {
    let r = 0.0159 / conductivity("particle board underlayment");
    assert!(r < 0.2, "underlayment of R {r} m²·K/W has the misprint");
}
