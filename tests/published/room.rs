//! Room air, through a whole project as a builder writes it: humidity classes, a household's
//! balance, the temperature factor that mold asks for, the humidity a foam's face allows.

use rstest::rstest;
use serde_json::Value;

use super::{Tolerance, close, printed};
use crate::support::{checked, finding, number};

const CFM: f64 = 0.3048 * 0.3048 * 0.3048 / 60.0;

/// A project in a climate whose every month is the same.
fn in_every_month(indoor: &str, (celsius, percent): (f64, f64), assemblies: &str) -> Value {
    let months: String = (1..=12)
        .map(|n| {
            format!("    - {{month: {n}, temperature: {celsius} °C, humidity: {percent} %}}\n")
        })
        .collect();
    checked(&format!(
        "indoor: {{{indoor}}}\nclimate:\n  months:\n{months}assemblies:\n{assemblies}"
    ))
}

const WALL: &str = "  wall:
    kind: wall
    layers:
      - {name: board, r-value: RSI 2, permeance: 100 ng/(s·m²·Pa)}
";

/// Saturation by the formula of ISO 13788 (from memory), in Pa.
fn saturation(celsius: f64) -> f64 {
    let (a, b) = match celsius < 0.0 {
        true => (21.875, 265.5),
        false => (17.269, 237.3),
    };
    610.5 * (a * celsius / (b + celsius)).exp()
}

// Rooms and outdoor temperatures with the surface temperature and the temperature factor at which
// the surface stands at 80 % (computed from the ISO 13788 formula). The first is DIN 4108-2's
// standard room, printed as 12.6 °C and 0.70 (from memory).
#[rstest]
#[case::standard_room(20.0, 50, -5.0, 12.625, 0.7050)]
#[case::mild(20.0, 50, 0.0, 12.625, 0.6312)]
#[case::damp(20.0, 60, 5.0, 15.435, 0.6957)]
#[case::cold(21.0, 40, -10.0, 10.187, 0.6512)]
#[case::dry(20.0, 35, -15.0, 7.304, 0.6373)]
fn mold_asks_for_a_temperature_factor(
    #[case] room: f64,
    #[case] percent: u32,
    #[case] outdoor: f64,
    #[case] surface: f64,
    #[case] factor: f64,
) {
    let indoor = format!("heating: {room} °C, humidity: {percent} %");
    let report = in_every_month(&indoor, (outdoor, 80.0), WALL);
    let mold = finding(&report["cases"][0], "room-surface-mold");
    close(
        ("surface at 80 %, by the month", "°C"),
        number(&mold["limit_c"]),
        surface,
        printed(3),
    );
    let required = number(&mold["detail"]["temperature_factor_required"]);
    close(
        ("temperature factor, by the month", "-"),
        required,
        factor,
        printed(4),
    );
    if outdoor == -5.0 {
        close(
            ("DIN 4108-2, surface", "°C"),
            number(&mold["limit_c"]),
            12.6,
            printed(1),
        );
        let cut = Tolerance {
            absolute: 0.01,
            why: "printed as a bound, cut to two digits",
        };
        close(("DIN 4108-2, factor", "-"), required, 0.70, cut);
    }
    // 0.13 of 2.17 m²K/W lie inside of the surface.
    let there = number(&mold["detail"]["temperature_factor"]);
    assert!((there - (1.0 - 0.13 / 2.17)).abs() < 1e-9, "{there}");
}

/// ISO 13788: the critical month is the one that needs the highest temperature factor (from
/// memory), which isn't the one whose surface comes closest to its limit. By hand on the wet
/// coast in class 3: December needs 0.650, January 0.647, August none at all.
#[test]
fn the_critical_month_needs_the_most() {
    let report = checked(&format!(
        "indoor: {{heating: 20 °C, humidity-class: 3}}\nclimate: wet-coast\nassemblies:\n{WALL}"
    ));
    let mold = finding(&report["cases"][0], "room-surface-mold");
    assert_eq!(mold["detail"]["month"], "December");
    let vapor = 0.84 * saturation(4.9) + 810.0 * (20.0 - 4.9) / 20.0;
    let l = (vapor / 0.8 / 610.5).ln();
    let factor = (237.3 * l / (17.269 - l) - 4.9) / (20.0 - 4.9);
    assert!((factor - 0.650).abs() < 5e-4, "by hand {factor}");
    let by_hand = Tolerance {
        absolute: 1e-6,
        why: "the same arithmetic, by hand",
    };
    let required = &mold["detail"]["temperature_factor_required"];
    close(
        ("factor of the critical month", "-"),
        number(required),
        factor,
        by_hand,
    );
}

// ISO 13788, annex A (from memory): excess of the room's vapor pressure over the outdoors by
// class, whole at 0 °C and below, none from 20 °C on, straight between.
#[rstest]
fn humidity_classes(
    #[values((1, 270.0), (2, 540.0), (3, 810.0), (4, 1080.0), (5, 1360.0))] class: (u32, f64),
    #[values((-10.0, 1.0), (0.0, 1.0), (5.0, 0.75), (10.0, 0.5), (15.0, 0.25), (20.0, 0.0))]
    outdoor: (f64, f64),
) {
    let ((class, full), (celsius, part)) = (class, outdoor);
    let indoor = format!("heating: 22 °C, humidity-class: {class}");
    let report = in_every_month(&indoor, (celsius, 60.0), WALL);
    let humidity = number(&report["conditions"]["indoor"]["relative_humidity"]);
    let excess = humidity * saturation(22.0) - 0.60 * saturation(celsius);
    let rounding = Tolerance {
        absolute: 1e-6,
        why: "rounding of the program's arithmetic",
    };
    close(
        ("excess by humidity class", "Pa"),
        excess,
        full * part,
        rounding,
    );
}

// Two people who cook on propane, 45 m³ at 20 °C, 5 °C and 82 % outside: about 102, 66, 54 and 48 %
// at 10, 20, 30 and 40 cfm. Source: a study made for this project, by its own sources of water
// (computed); no published case was found. Ours are the published sources (seen: 60 to 120 g/h
// awake, 40 to 60 asleep, half a pint a shower, dinner 1.2 + 0.68 pints and 1.6 of gas for four).
#[rstest]
#[case(10, 102.0)]
#[case(20, 66.0)]
#[case(30, 54.0)]
#[case(40, 48.0)]
fn two_people_in_a_small_room(#[case] cfm: u32, #[case] percent: f64) {
    // The coldest surface as warm as the room: nothing caps the humidity.
    let indoor = format!(
        "heating: 20 °C, moisture: {{people: 2, cooking: propane, ventilation: {cfm} cfm, \
         volume: 45 m3, coldest-surface: 100 %}}"
    );
    let report = in_every_month(&indoor, (5.0, 82.0), WALL);
    let detail = &finding(&report["cases"][0], "room-air")["detail"];
    // 16 h at 90 g and 8 h at 50 g; pints of water are 0.473 kg.
    let pint = 0.473_176_473;
    let water = 2.0 * (1.84 + pint * (0.5 + (1.2 + 0.68 + 1.6) / 4.0));
    let mass = Tolerance {
        absolute: 0.001,
        why: "the same sources added by hand, a gram",
    };
    let day = number(&detail["water_kg_per_s"]) * 86_400.0;
    close(
        ("water of two people and a flame", "kg/day"),
        day,
        water,
        mass,
    );
    // G / n̊ brings G·R·T/M in Pa, with the gas constant of water vapor 461.5 J/(kg·K).
    let excess = water / 86_400.0 / (f64::from(cfm) * CFM) * 461.5 * 293.15;
    let by_hand = 100.0 * (excess + 0.82 * saturation(5.0)) / saturation(20.0);
    let capped = Tolerance {
        absolute: 0.1,
        why: "the gas constant to four digits",
    };
    let humidity = 100.0 * number(&detail["months"][0]["relative_humidity"]);
    close(
        ("room by its balance", "%"),
        humidity,
        by_hand.min(100.0),
        capped,
    );
    let study = Tolerance {
        absolute: 2.0,
        why: "ours: two studies' choices of sources, in whole percent",
    };
    close(("room, the study", "%"), by_hand, percent, study);
}

// C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O: 4 · 18.015 / 44.097 = 1.634 kg of water per kg (analytic); published
// upper value 1.6 L per kg of gas (seen). 46.35 MJ/kg is the lower heating value (from memory).
#[test]
fn an_unvented_heater_burns_propane_to_water() {
    let water = |heater: &str| {
        let indoor = format!(
            "heating: 20 °C, moisture: {{people: 0, unvented-heater: {heater}, ventilation: 30 cfm}}"
        );
        let report = in_every_month(&indoor, (5.0, 82.0), WALL);
        number(&finding(&report["cases"][0], "room-air")["detail"]["water_kg_per_s"])
    };
    let per_kg = water("2 kW") / (2000.0 / 46.35e6);
    close(("water of propane", "kg/kg"), per_kg, 1.634, printed(3));
    let seen = Tolerance {
        absolute: 0.05,
        why: "printed to a tenth of a liter",
    };
    close(("water of gas, seen", "L/kg"), per_kg, 1.6, seen);
    assert_eq!(water("0 kW"), 0.0);
}

// P3: ASHRAE Handbook—Fundamentals 2021 (SI), ch. 27, Example 7 (seen): 21 °C inside, −1 °C
// outside; the foam's inner face at 4.3 °C, so the room may have at most 34 %. Resistances in
// m²K/W as printed. Here as the value at which the air-leak check flips.
#[test]
fn handbook_example_7_as_a_flip() {
    let wall = "  wall:
    kind: wall
    films: {inside: {resistance: RSI 0.12}, outside: {resistance: RSI 0.03}}
    layers:
      - {name: gypsum, r-value: RSI 0.08, permeance: 290 ng/(s·m²·Pa)}
      - {name: fiber, kind: insulation, r-value: RSI 3.34, permeance: 1700 ng/(s·m²·Pa)}
      - {name: foam, kind: foam, r-value: RSI 0.88, permeance: 48 ng/(s·m²·Pa), bonded: true}
      - {name: OSB, kind: panel, r-value: RSI 0.12, permeance: 100 ng/(s·m²·Pa)}
      - {name: siding, kind: wood, r-value: RSI 0.107, permeance: 2010 ng/(s·m²·Pa)}
";
    let report = in_every_month("heating: 21 °C, humidity: 30 %", (-1.0, 50.0), wall);
    let leak = finding(&report["cases"][0], "air-leak");
    assert_eq!(
        (leak["status"].as_str(), leak["plane"].as_str()),
        (Some("pass"), Some("fiber / foam"))
    );
    let face = Tolerance {
        absolute: 0.1,
        why: "rounded steps in print",
    };
    close(
        ("Example 7, foam's face", "°C"),
        number(&leak["value_c"]),
        4.3,
        face,
    );
    let inputs = leak["range"]["inputs"].as_array().expect("inputs");
    let room = inputs
        .iter()
        .find(|input| input["input"] == "room-humidity")
        .expect("the room's");
    assert_eq!(
        (
            room["flip"]["side"].as_str(),
            room["flip"]["becomes"].as_str()
        ),
        (Some("above"), Some("depends"))
    );
    let limit = 100.0 * number(&room["flip"]["relative_humidity"]);
    let whole = Tolerance {
        absolute: 1.0,
        why: "printed in whole percent, from a rounded face",
    };
    close(("Example 7, room limit", "%"), limit, 34.0, whole);
    let halved = Tolerance {
        absolute: 0.1,
        why: "ours: the flip is found to a tenth of a percent",
    };
    // 33.5 % (computed): saturation at 4.35 °C over saturation at 21 °C.
    close(("Example 7, computed", "%"), limit, 33.5, halved);
}

// P1, trade journal note on dew points in walls (seen): 70 °F and 50 %, 32 °F outside; foam of R-7
// in R-18 in all condenses at "47 °F", R-14 in R-25 is dry at "53 °F"; dew point "50 °F" by chart.
#[rstest]
#[case::condenses(7.0, 18.0, 47.0, "depends")]
#[case::dry(14.0, 25.0, 53.0, "pass")]
fn shares_of_foam_outside_a_cavity(
    #[case] foam: f64,
    #[case] total: f64,
    #[case] face: f64,
    #[case] status: &str,
) {
    // The note leaves the films out: here they are part of what lies on their side.
    let (inside, outside) = (0.68, 0.17);
    let wall = format!(
        "  wall:
    kind: wall
    films: {{inside: {{resistance: R-{inside}}}, outside: {{resistance: R-{outside}}}}}
    layers:
      - {{name: bay, kind: insulation, r-value: R-{:.4}, permeance: 30 perm, thickness: 3.5 in}}
      - {{name: sheathing, kind: panel, r-value: R-0.5, permeance: 1 perm, thickness: 1/2 in}}
      - {{name: foam, kind: foam, r-value: R-{:.4}, permeance: 1 perm, thickness: 2 in, bonded: true}}
",
        total - foam - inside,
        foam - outside - 0.5,
    );
    let report = in_every_month("heating: 70 °F, humidity: 50 %", (0.0, 80.0), &wall);
    let case = &report["cases"][0];
    let fahrenheit = |value: &Value| number(value) * 1.8 + 32.0;
    let share = finding(case, "outboard-share");
    let reading = Tolerance {
        absolute: 0.5,
        why: "printed in whole °F",
    };
    close(
        ("P1, inner face of the sheathing", "°F"),
        fahrenheit(&share["value_c"]),
        face,
        reading,
    );
    let rounding = Tolerance {
        absolute: 1e-4,
        why: "the resistances as written, four decimals",
    };
    let has = number(&share["detail"]["share_outboard"]);
    close(("P1, share outboard", "-"), has, foam / total, rounding);
    // (50.5 − 32) / 38, with the computed dew point.
    let needed = number(&share["detail"]["share_needed_at_room_humidity"]);
    let digits = Tolerance {
        absolute: 0.05 / 38.0,
        why: "a dew point in tenths of °F",
    };
    close(("P1, share needed", "-"), needed, 18.5 / 38.0, digits);
    assert_eq!(has > needed, status == "pass");
}
