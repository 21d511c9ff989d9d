//! U-values of bridged assemblies. Level corrections for air gaps and fasteners (ISO 6946) are
//! not part of the library, so the examples are compared before that step.

use dewmargin::quantity::unit::{R_VALUE, U_VALUE};
use dewmargin::solve::{Transmittance, solve};
use rstest::rstest;

use super::{Tolerance, close, printed};
use crate::build_up::{framed, layer, measured, ordinary_winter, transmittance, wall};

/// The printed line of a worked example: both section totals, R', R'', R_T in m²·K/W, U in
/// W/(m²·K).
struct Example {
    name: &'static str,
    sections: [f64; 2],
    section_decimals: i32,
    upper: f64,
    lower: f64,
    total: f64,
    u: f64,
    decimals: i32,
}

fn holds(example: &Example, assembly: &dewmargin::model::Assembly) -> Transmittance {
    let solved = solve(assembly, &ordinary_winter());
    let end = &solved.ends[0];
    for (path, want) in end.paths.iter().zip(example.sections) {
        let case = format!("{}, {} section", example.name, path.path.name);
        let ours = path.winter.total_resistance.as_si();
        close(
            (&case, "m²K/W"),
            ours,
            want,
            printed(example.section_decimals),
        );
    }
    let u = &end.transmittance;
    let combined = u.combined.expect("R'/R'' is below 1.5");
    let rows = [
        ("R'", 1.0 / u.parallel_path, example.upper, example.decimals),
        (
            "R''",
            1.0 / u.isothermal_planes,
            example.lower,
            example.decimals,
        ),
        (
            "R_T",
            1.0 / combined,
            example.total,
            example.section_decimals.max(example.decimals),
        ),
    ];
    for (what, ours, want, decimals) in rows {
        close(
            (&format!("{}, {what}", example.name), "m²K/W"),
            ours,
            want,
            printed(decimals),
        );
    }
    let decimals = if example.decimals == 4 { 4 } else { 3 };
    close(
        (&format!("{}, U", example.name), "W/m²K"),
        combined,
        example.u,
        printed(decimals),
    );
    *u
}

// Timber wall, Scottish Technical Standards, annex 6.B: inputs and section totals (seen); the
// limits were outside the excerpt and are computed here by hand (computed).
#[test]
fn worked_example_a() {
    let cavity = framed(layer("mineral wool", 3.333), 1.077, 0.095);
    let layers = vec![
        layer("plasterboard", 0.100),
        cavity,
        layer("plywood", 0.146),
        layer("air space", 0.090),
        layer("brick", 0.132),
    ];
    let example = Example {
        name: "worked example A",
        sections: [3.971, 1.715],
        section_decimals: 3,
        upper: 3.5299,
        lower: 3.4178,
        total: 3.4739,
        u: 0.2879,
        decimals: 4,
    };
    let u = holds(&example, &wall(layers, (0.13, 0.04)));
    close(
        ("worked example A, e", "%"),
        100.0 * u.combined_error,
        1.61,
        printed(2),
    );
}

// Approved Document L1 2002, appendix B style (from memory, reproduced): the wool, the studs, the
// plywood and the plasterboard by thickness and conductivity. Its level 1 correction of 0.006
// isn't in the library's scope.
#[test]
fn worked_example_b() {
    let layers = vec![
        measured("plasterboard", 0.0125, 0.25),
        framed(measured("mineral wool", 0.140, 0.038), 0.140 / 0.13, 0.15),
        measured("plywood", 0.019, 0.13),
        layer("air space", 0.090),
        layer("brick", 0.132),
    ];
    let example = Example {
        name: "worked example B",
        sections: [4.272, 1.665],
        section_decimals: 3,
        upper: 3.46,
        lower: 3.29,
        total: 3.375,
        u: 0.296,
        decimals: 2,
    };
    holds(&example, &wall(layers, (0.13, 0.04)));
}

/// A wall in h·ft²·°F/Btu: what lies inside and outside of the framed layer, the cavity, the
/// members and their share. U-values by parallel path and isothermal planes in Btu/(h·ft²·°F).
fn imperial(rest: f64, cavity: f64, member: f64, share: f64) -> [f64; 2] {
    let cavity = framed(layer("cavity", cavity * R_VALUE), member * R_VALUE, share);
    let u = transmittance(&wall(
        vec![cavity, layer("rest", rest * R_VALUE)],
        (0.0, 0.0),
    ));
    [u.parallel_path / U_VALUE, u.isothermal_planes / U_VALUE]
}

// Handbook-type 2x4 wall: siding 0.81, fiberboard 1.32, gypsum 0.45, films 0.17 and 0.68, framing
// 25 %, stud 4.38. R-11 by parallel path from older handbook editions (from memory, reproduced);
// the others computed.
#[rstest]
#[case::r11(11.0, 0.0840, 0.0876)]
#[case::r13(13.0, 0.0777, 0.0824)]
fn handbook_wall(#[case] batt: f64, #[case] parallel: f64, #[case] isothermal: f64) {
    let rest = 0.81 + 1.32 + 0.45 + 0.17 + 0.68;
    let [p, i] = imperial(rest, batt, 4.38, 0.25);
    let case = format!("handbook 2x4 wall, R-{batt}");
    close(
        (&format!("{case}, parallel path"), "Btu/hft²F"),
        p,
        parallel,
        printed(4),
    );
    close(
        (&format!("{case}, isothermal planes"), "Btu/hft²F"),
        i,
        isothermal,
        printed(4),
    );
    let sections = [rest + batt, rest + 4.38];
    let by_hand = 0.75 / sections[0] + 0.25 / sections[1];
    let rounding = Tolerance {
        absolute: 1e-12,
        why: "the same two fractions, added by hand",
    };
    close(
        (&format!("{case}, by hand"), "Btu/hft²F"),
        p,
        by_hand,
        rounding,
    );
}

// Deemed-to-comply wood-frame walls, 75 % cavity, 25 % framing of R-1.25/in, R-2.05 for films,
// stucco and gypsum (from memory), by parallel path; the U-values seen in published tables, or
// from memory where said.
#[rstest]
#[case::r11_ci5(3.5, 11.0, 5.0, 0.063)]
#[case::r13_ci3_8(3.5, 13.0, 3.8, 0.064)]
#[case::r19_ci2(5.5, 18.0, 2.0, 0.057)]
#[case::r20_ci4(5.5, 20.0, 4.0, 0.048)]
#[case::r21_ci4_2(5.5, 21.0, 4.2, 0.047)]
#[case::r11_from_memory(3.5, 11.0, 0.0, 0.096)]
#[case::r13_from_memory(3.5, 13.0, 0.0, 0.089)]
#[case::r15_from_memory(3.5, 15.0, 0.0, 0.083)]
#[case::r13_ci7_5_from_memory(3.5, 13.0, 7.5, 0.051)]
#[case::r13_ci10_from_memory(3.5, 13.0, 10.0, 0.045)]
fn deemed_to_comply_wall(
    #[case] depth: f64,
    #[case] cavity: f64,
    #[case] continuous: f64,
    #[case] want: f64,
) {
    let [parallel, _] = imperial(2.05 + continuous, cavity, 1.25 * depth, 0.25);
    let case = format!("wall R-{cavity} + ci R-{continuous}");
    close((&case, "Btu/hft²F"), parallel, want, printed(3));
}

// The 2x6 walls without continuous insulation were recalled with a header only 3-1/2 in deep over
// 4 % of the area (computed: 0.0672 for R-18 in the cavity, 0.0623 for R-21; the table itself is
// recalled as 0.067 and, unsure, 0.063, which 0.0623 does not round to: that row is left out).
// The walls with continuous insulation above fit only with the full depth, 0.048 for R-20 + R-4.
#[rstest]
#[case::r19(18.0, 0.0672)]
#[case::r21(21.0, 0.0623)]
fn wall_with_a_shallow_header(#[case] cavity: f64, #[case] want: f64) {
    let section = |r: f64, share: f64| share * imperial(2.05, r, r, 0.5)[0];
    let u = section(cavity, 0.75) + section(6.875, 0.21) + section(4.375, 0.04);
    close(
        ("2x6 wall with a shallow header", "Btu/hft²F"),
        u,
        want,
        printed(4),
    );
}

// NBC-style isothermal layer: 2x6 framing 23 %, RSI 3.87 beside wood of 0.0085·140 (inputs from
// memory, result computed).
#[test]
fn a_bridged_layer_alone() {
    let layers = vec![framed(layer("cavity", 3.87), 1.19, 0.23)];
    let r = 1.0 / transmittance(&wall(layers, (0.0, 0.0))).isothermal_planes;
    close(("2x6 layer, RSI", "m²K/W"), r, 2.549, printed(3));
}

/// ASHRAE Handbook—Fundamentals 2021 (SI), ch. 27, Example 3: wood stud wall.
fn stud_wall() -> Transmittance {
    let layers = vec![
        layer("gypsum", 0.08),
        framed(layer("batt", 2.30), 0.77, 0.25),
        layer("sheathing", 0.70),
        layer("siding", 0.11),
    ];
    transmittance(&wall(layers, (0.12, 0.03)))
}

// Seen: isothermal planes R 2.58, U 0.388; to four digits computed.
#[test]
fn stud_wall_by_isothermal_planes() {
    let u = stud_wall().isothermal_planes;
    close(("stud wall, printed R", "m²K/W"), 1.0 / u, 2.58, printed(2));
    close(("stud wall, printed U", "W/m²K"), u, 0.388, printed(3));
    close(("stud wall, R", "m²K/W"), 1.0 / u, 2.5767, printed(4));
    close(("stud wall, U", "W/m²K"), u, 0.3881, printed(4));
}

// The same example prints R 2.78 by parallel path. Its own layers add up to 3.34 and 1.81, hence
// U 0.3627 and R 2.757: a sum error in print, which the library must not reproduce.
#[test]
fn stud_wall_by_parallel_path_is_not_the_printed_sum() {
    let u = stud_wall().parallel_path;
    let cavity = 0.12 + 0.08 + 2.30 + 0.70 + 0.11 + 0.03;
    let stud = 0.12 + 0.08 + 0.77 + 0.70 + 0.11 + 0.03;
    close(("stud wall, cavity sum", "m²K/W"), cavity, 3.34, printed(6));
    close(("stud wall, stud sum", "m²K/W"), stud, 1.81, printed(6));
    close(("stud wall, parallel U", "W/m²K"), u, 0.3627, printed(4));
    close(
        ("stud wall, parallel R", "m²K/W"),
        1.0 / u,
        2.757,
        printed(3),
    );
    assert!(
        (1.0 / u - 2.78).abs() > 0.005,
        "the printed sum error is reproduced"
    );
}

// Same chapter, Example 4 (seen): block with webs 0.190 of the area; isothermal planes R 0.608,
// U 1.64. The hot box gave R 0.551: a measurement, which no sum of layers claims to meet.
#[test]
fn concrete_block() {
    let cores = framed(layer("filled cores", 2.60), 0.09, 0.190);
    let layers = vec![cores, layer("shells", 0.045)];
    let u = transmittance(&wall(layers, (0.12, 0.03)));
    close(
        ("block, R", "m²K/W"),
        1.0 / u.isothermal_planes,
        0.608,
        printed(3),
    );
    close(
        ("block, U", "W/m²K"),
        u.isothermal_planes,
        1.64,
        Tolerance {
            absolute: 0.0064,
            why: "half the last digit, and U was printed from R rounded to 0.608",
        },
    );
}

// ISO 6946: the combined method isn't applicable where R'/R'' exceeds 1.5 (from memory). Ratios by
// hand: films 0.5 and 0.5, cavity 4.0, members 0.1 over the share given.
#[rstest]
#[case::within(0.01, 1.245, true)]
#[case::just_within(0.0237, 1.498, true)]
#[case::just_beyond(0.0240, 1.503, false)]
#[case::beyond(0.10, 2.032, false)]
fn the_combined_method_has_a_limit(#[case] share: f64, #[case] ratio: f64, #[case] applies: bool) {
    let u = transmittance(&wall(
        vec![framed(layer("cavity", 4.0), 0.1, share)],
        (0.5, 0.5),
    ));
    close(("R'/R''", "1"), u.ratio, ratio, printed(3));
    assert_eq!(u.combined.is_some(), applies, "R'/R'' = {}", u.ratio);
}
