//! Temperatures, vapor and condensation along a path.

use dewmargin::model::AirState;
use dewmargin::physics::moist_air::{dew_point, saturation_vapor_pressure, vapor_pressure};
use dewmargin::physics::vapor::vapor_flux;
use dewmargin::quantity::unit::{AIR_PERMEABILITY, R_VALUE};
use dewmargin::quantity::{Pressure, Temperature};
use dewmargin::solve::Profile;
use dewmargin::solve::profile::{Boundary, solve_path};
use dewmargin::solve::string::vapor_string;
use rstest::rstest;

use super::{Tolerance, close, printed};
use crate::build_up::{air, boundary, slab};

/// Dew point of air at °C and a fraction of saturation, °C.
fn room_dew_point(celsius: f64, humidity: f64) -> Temperature {
    let room = air(celsius, humidity);
    dew_point(vapor_pressure(room.temperature, room.humidity))
}

fn pa(pressure: Option<Pressure>) -> f64 {
    pressure.expect("no perfect barrier stands here").as_pa()
}

// P1: trade journal note on dew points in walls (seen): 70 °F at 50 %, dew point 50 °F; outdoors
// 32 °F; foam outside of a cavity. Faces to two decimals computed by hand from R-values alone.
#[rstest]
#[case::condenses(7.0, 18.0, 47.0, 46.78, true)]
#[case::dry(14.0, 25.0, 53.0, 53.28, false)]
fn foam_outside_a_cavity(
    #[case] foam: f64,
    #[case] total: f64,
    #[case] seen: f64,
    #[case] computed: f64,
    #[case] condenses: bool,
) {
    let indoor = air((70.0 - 32.0) / 1.8, 0.5);
    let slabs = [
        slab((total - foam) * R_VALUE, 1e9),
        slab(foam * R_VALUE, 1e11),
    ];
    let solved = solve_path(&slabs, &boundary(indoor, air(0.0, 0.8), (0.0, 0.0)));
    let face = solved.planes[1].temperature;
    let reading = Tolerance {
        absolute: 0.5,
        why: "printed in whole °F",
    };
    close(
        ("inner foam face, journal note", "°F"),
        face.as_fahrenheit(),
        seen,
        reading,
    );
    close(
        ("inner foam face", "°F"),
        face.as_fahrenheit(),
        computed,
        printed(2),
    );
    let dew = room_dew_point((70.0 - 32.0) / 1.8, 0.5);
    let chart = Tolerance {
        absolute: 1.0,
        why: "the note reads its dew point from a chart",
    };
    close(
        ("dew point, journal note", "°F"),
        dew.as_fahrenheit(),
        50.0,
        chart,
    );
    close(("dew point", "°F"), dew.as_fahrenheit(), 50.5, printed(1));
    assert_eq!(face < dew, condenses);
}

// Two planes at s_d 1 and 2 m of 3 m, outdoor 250 Pa, indoor 1200 Pa (analytic).
#[rstest]
#[case::both_condense(500.0, [3.0e-8, 1.0e-7], 500.0)]
#[case::one_condenses(760.0, [8.0e-8, 0.0], 750.0)]
fn two_planes(#[case] second: f64, #[case] condensing: [f64; 2], #[case] pressure: f64) {
    let meter = 1.0 / AIR_PERMEABILITY;
    let saturation = [f64::INFINITY, 300.0, second, f64::INFINITY];
    let solved = vapor_string(&[meter; 3], &saturation, 250.0, 1200.0);
    let rounding = Tolerance {
        absolute: 1e-19,
        why: "analytic: rounding",
    };
    for (plane, want) in condensing.into_iter().enumerate() {
        let case = format!("two planes, water at plane {}", plane + 1);
        close(
            (&case, "kg/m²s"),
            solved.condensing[plane + 1],
            want,
            rounding,
        );
    }
    let at = solved.pressures[2].unwrap();
    close(
        ("two planes, pressure at plane 2", "Pa"),
        at,
        pressure,
        printed(9),
    );
}

// Drying of plane 1 at 1700 Pa toward 1200 Pa on both sides, over s_d 1 and 2 m: −1.5e-7
// kg/(m²s), 0.1 kg/m² gone after 666 667 s (analytic).
#[test]
fn drying_to_both_sides() {
    let meter = 1.0 / AIR_PERMEABILITY;
    let flow = vapor_flux(1700.0, 1200.0, meter) + vapor_flux(1700.0, 1200.0, 2.0 * meter);
    let rounding = Tolerance {
        absolute: 1e-19,
        why: "analytic: rounding",
    };
    close(("drying flow", "kg/m²s"), flow, 1.5e-7, rounding);
    close(
        ("time to dry 0.1 kg/m²", "s"),
        0.1 / flow,
        666_667.0,
        printed(0),
    );
}

/// Permeance in ng/(s·m²·Pa) to vapor resistance.
fn ng(permeance: f64) -> f64 {
    1.0 / (permeance * 1e-12)
}

/// P2: ASHRAE Handbook—Fundamentals 2021 (SI), ch. 27, Example 8 (seen). Inside to outside:
/// painted gypsum, mineral fiber, plywood, wood siding.
fn handbook_example_8(vapor_films: bool, (indoor, outdoor): (AirState, AirState)) -> Profile {
    let slabs = [
        slab(0.08, ng(290.0)),
        slab(1.90, ng(1700.0)),
        slab(0.11, ng(29.0)),
        slab(0.18, ng(2010.0)),
    ];
    let thermal = boundary(indoor, outdoor, (0.12, 0.03));
    let (inside, outside) = if vapor_films {
        (ng(9200.0), ng(57_000.0))
    } else {
        (0.0, 0.0)
    };
    let boundary = Boundary {
        interior_vapor_film: inside,
        exterior_vapor_film: outside,
        ..thermal
    };
    solve_path(&slabs, &boundary)
}

/// The example's air by temperature and humidity: 40 and 50 %.
fn given() -> (AirState, AirState) {
    (air(21.0, 0.40), air(-6.6, 0.50))
}

/// The example's air by its printed vapor pressures, 995 and 175 Pa: the ISO formula makes 994.2
/// and 174.8 of the humidities, which moves the net by 0.16 %.
fn as_printed() -> (AirState, AirState) {
    let holding = |celsius: f64, pressure: f64| {
        let saturation = saturation_vapor_pressure(Temperature::from_celsius(celsius)).as_pa();
        air(celsius, pressure / saturation)
    };
    (holding(21.0, 995.0), holding(-6.6, 175.0))
}

const FORMULA: Tolerance = Tolerance {
    absolute: 4.0,
    why: "the ISO formula lies 3 Pa off the handbook's at 18.7 °C, and rounding",
};

// Face, °C; saturation, Pa; pressure without condensation, Pa: all printed.
#[rstest]
#[case::gypsum_inside(0, 19.6, 2286.0, 993.0)]
#[case::gypsum_fiber(1, 18.7, 2161.0, 921.0)]
#[case::fiber_plywood(2, -2.9, 478.0, 908.0)]
#[case::plywood_siding(3, -4.2, 430.0, 186.0)]
#[case::siding_outside(4, -6.3, 361.0, 175.0)]
fn handbook_example_8_faces(
    #[case] plane: usize,
    #[case] celsius: f64,
    #[case] saturation: f64,
    #[case] pressure: f64,
) {
    let state = handbook_example_8(true, given()).planes[plane];
    let tenth = Tolerance {
        absolute: 0.06,
        why: "printed in tenths of a kelvin, from rounded steps",
    };
    let case = |what: &str| format!("handbook example 8, plane {plane}, {what}");
    close(
        (&case("face"), "°C"),
        state.temperature.as_celsius(),
        celsius,
        tenth,
    );
    close(
        (&case("saturation"), "Pa"),
        state.saturation.as_pa(),
        saturation,
        FORMULA,
    );
    close(
        (&case("pressure"), "Pa"),
        pa(state.vapor_pressure),
        pressure,
        FORMULA,
    );
}

// Printed: room and outdoor vapor 995 and 175 Pa.
#[test]
fn handbook_example_8_air() {
    for (celsius, humidity, want) in [(21.0, 0.40, 995.0), (-6.6, 0.50, 175.0)] {
        let air = air(celsius, humidity);
        let ours = vapor_pressure(air.temperature, air.humidity).as_pa();
        close(("handbook example 8, air", "Pa"), ours, want, FORMULA);
    }
}

// Printed: water at the plywood's inner face only, net 116 000 ng/(s·m²), 0.30 kg/m² in 720 h.
// Its "corrected" pressures and its moisture content are wrong in print and not used. From the
// printed air pressures and the ISO formula, 116 213 and, without the vapor films, 119 571
// (computed by hand outside this project).
#[rstest]
#[case::printed(
    true,
    given(),
    116_000.0,
    0.003,
    "printed to three digits; two saturation formulas lie 0.3 % apart"
)]
#[case::computed(
    true,
    as_printed(),
    116_213.0,
    1e-5,
    "computed with the same formula, to six digits"
)]
#[case::without_films(
    false,
    as_printed(),
    119_571.0,
    1e-5,
    "computed with the same formula, to six digits"
)]
fn handbook_example_8_water(
    #[case] vapor_films: bool,
    #[case] air: (AirState, AirState),
    #[case] want: f64,
    #[case] part: f64,
    #[case] why: &'static str,
) {
    let solved = handbook_example_8(vapor_films, air);
    let net = solved.planes[2].condensing_flow;
    close(
        ("handbook example 8, net", "ng/sm²"),
        net * 1e12,
        want,
        Tolerance {
            absolute: want * part,
            why,
        },
    );
    let elsewhere = solved.condensing_total() - net;
    assert_eq!(
        elsewhere, 0.0,
        "water elsewhere than at the plywood: {solved:?}"
    );
    if vapor_films {
        close(
            ("handbook example 8, 720 h", "kg/m²"),
            net * 720.0 * 3600.0,
            0.30,
            printed(2),
        );
    }
}

// P3: same chapter, Example 7 (seen): foam's inner face 4.3 °C, 831 Pa, room limit 34 %; 4.35 °C,
// 833 Pa and 33.5 % computed.
#[test]
fn handbook_example_7() {
    let layers = [0.08, 3.34, 0.88, 0.12, 0.107].map(|r| slab(r, 1e10));
    let solved = solve_path(
        &layers,
        &boundary(air(21.0, 0.30), air(-1.0, 0.80), (0.12, 0.03)),
    );
    let face = solved.planes[2];
    let room = saturation_vapor_pressure(Temperature::from_celsius(21.0));
    let limit = 100.0 * face.saturation.as_pa() / room.as_pa();
    let rounded = |absolute| Tolerance {
        absolute,
        why: "printed from rounded steps",
    };
    close(
        ("handbook example 7, face", "°C"),
        face.temperature.as_celsius(),
        4.3,
        rounded(0.1),
    );
    close(
        ("handbook example 7, saturation", "Pa"),
        face.saturation.as_pa(),
        831.0,
        rounded(5.0),
    );
    close(
        ("handbook example 7, room limit", "% RH"),
        limit,
        34.0,
        rounded(1.0),
    );
    close(
        ("example 7 computed, face", "°C"),
        face.temperature.as_celsius(),
        4.35,
        printed(2),
    );
    close(
        ("example 7 computed, saturation", "Pa"),
        face.saturation.as_pa(),
        833.0,
        printed(0),
    );
    close(
        ("example 7 computed, room limit", "% RH"),
        limit,
        33.5,
        printed(1),
    );
}

// P5: a textbook wall. Only its inputs are published (seen); every output here is our own
// calculation with the ISO formula, made outside this project: a second computation, no proof.
// Lime mortar, foam concrete, vibrated brick: m²K/W and m²·h·Pa/g.
#[test]
fn textbook_wall_by_our_own_calculation() {
    let per_hour = 3600.0 / 1e-3;
    let slabs =
        [(0.025, 166.67), (0.263, 251.51), (0.173, 2098.95)].map(|(r, h)| slab(r, h * per_hour));
    let solved = solve_path(
        &slabs,
        &boundary(air(16.0, 0.60), air(-4.0, 0.50), (0.11, 0.04)),
    );
    for (plane, want) in [12.40, 11.58, 2.97, -2.69].into_iter().enumerate() {
        let ours = solved.planes[plane].temperature.as_celsius();
        close(
            (&format!("textbook wall, plane {plane}"), "°C"),
            ours,
            want,
            printed(2),
        );
    }
    let net = solved.planes[2].condensing_flow;
    close(
        ("textbook wall, net", "g/m²h"),
        net * per_hour,
        0.5438,
        printed(4),
    );
    assert_eq!(
        solved.condensing_total(),
        net,
        "water elsewhere: {solved:?}"
    );
}
