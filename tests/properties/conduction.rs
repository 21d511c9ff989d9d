//! Heat in two dimensions.

use approx::assert_relative_eq;
use dewmargin::model::detail::{Area, Detail, DetailParts, FaceFilms};
use dewmargin::solve::conduction::{
    Conduction, Field, Grading, Grid, Precision, Solution, SolveTolerance, System, coldest,
    couplings, isotherms, solve_detail,
};
use proptest::prelude::*;

use super::{config, decades};
use crate::support::detail::{air, block, cut, mm, open, region, sound};

/// Edges of a patchwork of three by three, mm.
const EDGES: [f64; 4] = [0.0, 12.0, 45.0, 100.0];

/// A patchwork with a room in one corner, outdoor air on two sides and a film each.
fn patchwork(conductivities: &[f64; 9], temperatures: [f64; 2]) -> DetailParts {
    let mut parts = cut(100.0, 100.0);
    for (n, k) in conductivities.iter().enumerate() {
        let (column, row) = (n % 3, n / 3);
        let area = mm(EDGES[column], EDGES[column + 1], EDGES[row], EDGES[row + 1]);
        if n != 8 {
            block(&mut parts, &format!("patch {n}"), *k, area);
        }
    }
    let outdoors = air(&mut parts, "outdoors", temperatures[0]);
    let room = air(&mut parts, "room", temperatures[1]);
    region(
        &mut parts,
        room,
        FaceFilms::all(0.13),
        mm(45.0, 100.0, 45.0, 100.0),
    );
    open(&mut parts, "left", outdoors, 0.04, mm(0.0, 0.0, 0.0, 100.0));
    open(
        &mut parts,
        "below",
        outdoors,
        0.04,
        mm(0.0, 100.0, 0.0, 0.0),
    );
    parts
}

fn on_one_grid(parts: DetailParts) -> Solution {
    let detail = sound(parts);
    let grading = Grading {
        at_edge: 2e-3,
        scale: 1.0,
        ..Grading::default()
    };
    let grid = Grid::graded(&detail, &grading, 1).expect("few cells");
    let solution = Solution::on(&detail, grid, &SolveTolerance::default());
    assert!(solution.report().converged, "{:?}", solution.report());
    solution
}

/// From foam to copper.
fn patches() -> impl Strategy<Value = [f64; 9]> {
    prop::array::uniform9(decades(0.02, 400.0))
}

proptest! {
    #![proptest_config(config(24))]

    #[test]
    fn no_place_is_warmer_or_colder_than_the_air(
        k in patches(),
        outdoors in -40.0..40.0_f64,
        room in -40.0..40.0_f64,
    ) {
        let solution = on_one_grid(patchwork(&k, [outdoors, room]));
        let (least, most) = (outdoors.min(room) - 1e-6, outdoors.max(room) + 1e-6);
        let (columns, rows) = (solution.grid().x.cells(), solution.grid().y.cells());
        for cell in 0..columns * rows {
            if let Some(t) = solution.cell(cell % columns, cell / columns) {
                prop_assert!((least..=most).contains(&t), "{t} beside {outdoors} and {room}");
            }
        }
    }

    #[test]
    fn heat_that_comes_in_goes_out(k in patches()) {
        let solution = on_one_grid(patchwork(&k, [-10.0, 20.0]));
        let sum: f64 = solution.flows().iter().sum();
        prop_assert!(sum.abs() <= 1e-8 * solution.heat_flow(), "{sum}");
    }

    #[test]
    fn heat_flow_is_proportional_to_the_difference(k in patches(), room in -20.0..40.0_f64) {
        let flow = |outdoors: f64, room: f64| {
            on_one_grid(patchwork(&k, [outdoors, room])).flows()[1]
        };
        let unit = flow(0.0, 1.0);
        assert_relative_eq!(flow(-10.0, room), unit * (room + 10.0), max_relative = 1e-7, epsilon = 1e-9);
    }

    #[test]
    fn more_insulation_never_loses_more_heat(
        k in patches(),
        better in 0..8_usize,
        by in 1.0..100.0_f64,
    ) {
        let mut insulated = k;
        insulated[better] /= by;
        let flow = |k: &[f64; 9]| on_one_grid(patchwork(k, [0.0, 1.0])).heat_flow();
        prop_assert!(flow(&insulated) <= flow(&k) * (1.0 + 1e-7));
    }

    #[test]
    fn all_conductivities_alike_change_nothing_but_the_scale(k in patches(), scale in decades(1e-2, 1e2)) {
        // With films scaled too, the same temperatures.
        let scaled = k.map(|k| k * scale);
        let mut parts = patchwork(&scaled, [0.0, 1.0]);
        parts.regions[0].films = FaceFilms::all(0.13 / scale);
        for face in &mut parts.faces {
            if let dewmargin::model::detail::FaceContact::Air { film, .. } = &mut face.contact {
                *film /= scale;
            }
        }
        let (plain, scaled) = (on_one_grid(patchwork(&k, [0.0, 1.0])), on_one_grid(parts));
        assert_relative_eq!(scaled.heat_flow(), plain.heat_flow() * scale, max_relative = 1e-7);
    }

    #[test]
    fn a_mirror_and_a_quarter_turn_change_nothing(k in patches()) {
        let parts = patchwork(&k, [-10.0, 20.0]);
        let straight = on_one_grid(parts.clone());
        let mirror = |a: Area| Area::new(0.1 - a.right, 0.1 - a.left, a.bottom, a.top);
        let turn = |a: Area| Area::new(0.1 - a.top, 0.1 - a.bottom, a.left, a.right);
        for other in [on_one_grid(moved(&parts, mirror)), on_one_grid(moved(&parts, turn))] {
            assert_relative_eq!(other.heat_flow(), straight.heat_flow(), max_relative = 1e-8);
            let cold = |solution: &Solution| coldest(&solution.surface(1)).expect("a surface").temperature;
            assert_relative_eq!(cold(&other), cold(&straight), epsilon = 1e-6);
        }
    }
}

fn moved(parts: &DetailParts, to: impl Fn(Area) -> Area) -> DetailParts {
    let mut parts = parts.clone();
    for block in &mut parts.blocks {
        block.area = to(block.area);
    }
    for region in &mut parts.regions {
        region.area = to(region.area);
    }
    for face in &mut parts.faces {
        face.line = to(face.line);
    }
    parts
}

fn coarse() -> Precision {
    Precision {
        grading: Grading {
            at_edge: 2e-3,
            scale: 2.0,
            ..Grading::default()
        },
        most_cells: 60_000,
        ..Precision::default()
    }
}

fn three_airs() -> Detail {
    let mut parts = patchwork(
        &[50.0, 0.03, 0.12, 0.03, 50.0, 0.12, 1.0, 0.2, 0.0],
        [-10.0, 20.0],
    );
    let cellar = air(&mut parts, "cellar", 8.0);
    open(
        &mut parts,
        "right",
        cellar,
        0.13,
        mm(100.0, 100.0, 0.0, 45.0),
    );
    sound(parts)
}

/// What i gives to j is what j gives to i, and the flows follow from the couplings.
#[test]
fn couplings_are_mutual_and_give_the_flows() {
    let detail = three_airs();
    let couplings = couplings(&detail, &coarse()).expect("few cells").between;
    let result: Conduction = solve_detail(&detail, &coarse()).expect("few cells");
    assert!(result.coupling.is_none());
    let temperature = |boundary: usize| detail.boundaries()[boundary].temperature;
    for (i, (from, flow)) in couplings.iter().zip(&result.flows).enumerate() {
        let (mut sum, mut bars) = (0.0, flow.bar);
        for (j, coupling) in from.iter().enumerate() {
            let back = couplings[j][i].value;
            assert_relative_eq!(coupling.value, back, max_relative = 1e-7);
            let difference = temperature(i) - temperature(j);
            sum += coupling.value * difference;
            bars += coupling.bar * difference.abs();
        }
        assert!((sum - flow.value).abs() <= bars, "{i}: {sum} {flow:?}");
    }
}

#[test]
fn one_temperature_means_no_heat() {
    let solution = on_one_grid(patchwork(&[1.0; 9], [18.0, 18.0]));
    assert_eq!(solution.heat_flow(), 0.0);
    assert_eq!(solution.cell(0, 0), Some(18.0));
    let detail = sound(patchwork(&[1.0; 9], [18.0, 18.0]));
    let result = solve_detail(&detail, &coarse()).expect("few cells");
    assert!(result.settled && result.coupling.is_none());
}

/// Extremes either give the right answer or none.
#[test]
fn extremes_are_solved_or_refused() {
    // 1e6 between conductivities.
    let k = [1e3, 1e-3, 1e3, 1e-3, 1e3, 1e-3, 1e3, 1e-3, 1.0];
    let result = solve_detail(&sound(patchwork(&k, [-10.0, 20.0])), &coarse()).expect("few cells");
    assert!(result.grids.iter().all(|grid| grid.report.converged));

    // A film of steel 0.1 µm thick between layers: as good as none.
    let wall = |film: bool| {
        let mut parts = cut(100.0, 100.0);
        block(&mut parts, "foam", 0.025, mm(0.0, 100.0, 0.0, 100.0));
        if film {
            block(&mut parts, "foil", 50.0, mm(50.0, 50.0001, 0.0, 100.0));
        }
        let (cold, warm) = (air(&mut parts, "cold", 0.0), air(&mut parts, "warm", 1.0));
        open(&mut parts, "outer", cold, 0.04, mm(0.0, 0.0, 0.0, 100.0));
        open(
            &mut parts,
            "inner",
            warm,
            0.13,
            mm(100.0, 100.0, 0.0, 100.0),
        );
        solve_detail(&sound(parts), &coarse()).expect("few cells")
    };
    assert_relative_eq!(
        wall(true).heat_flow.value,
        wall(false).heat_flow.value,
        max_relative = 1e-5
    );

    // A cut a kilometer wide: the far end is clear floor.
    let mut parts = cut(1e6, 100.0);
    block(&mut parts, "foam", 0.025, mm(0.0, 1e6, 0.0, 100.0));
    let (cold, warm) = (air(&mut parts, "cold", 0.0), air(&mut parts, "warm", 1.0));
    open(&mut parts, "under", cold, 0.04, mm(0.0, 1e6, 0.0, 0.0));
    open(&mut parts, "over", warm, 0.17, mm(0.0, 1e6, 100.0, 100.0));
    let result = solve_detail(&sound(parts), &coarse()).expect("few cells");
    assert_relative_eq!(
        result.heat_flow.value,
        1e3 / (0.04 + 4.0 + 0.17),
        max_relative = 1e-8
    );
}

/// An even wall: isotherms are straight and go all the way through the cut. 9 °C lies where 11/20 of 0.13 +
/// 0.1/0.5 + 0.13 m²K/W are behind: 0.13 + x/0.5 = 0.253, x = 61.5 mm.
#[test]
fn an_isotherm_of_an_even_wall_is_straight_from_edge_to_edge() {
    let mut parts = cut(100.0, 60.0);
    block(&mut parts, "wall", 0.5, mm(0.0, 100.0, 0.0, 60.0));
    let room = air(&mut parts, "room", 20.0);
    let outdoors = air(&mut parts, "outdoors", 0.0);
    open(&mut parts, "inside", room, 0.13, mm(0.0, 0.0, 0.0, 60.0));
    open(
        &mut parts,
        "outside",
        outdoors,
        0.13,
        mm(100.0, 100.0, 0.0, 60.0),
    );
    let lines = isotherms(&Field::of(&on_one_grid(parts)), 9.0);
    assert_eq!(lines.len(), 1);
    for (x, _) in &lines[0] {
        assert_relative_eq!(*x, 0.0615, max_relative = 1e-6);
    }
    let ends = |of: fn(f64, f64) -> f64, from: f64| lines[0].iter().map(|at| at.1).fold(from, of);
    assert_eq!(ends(f64::min, f64::INFINITY), 0.0);
    assert_relative_eq!(ends(f64::max, 0.0), 0.06, max_relative = 1e-12);
}

/// The equations as another solver gets them: with our temperatures each row comes to its right-hand side,
/// heat that leaves a cell for its neighbors and the air.
#[test]
fn the_equations_given_to_others_are_those_that_are_solved() {
    let patches = [0.04, 0.12, 50.0, 0.2, 0.04, 160.0, 0.03, 1.0, 0.04];
    let detail = sound(patchwork(&patches, [-10.0, 20.0]));
    let grading = Grading {
        at_edge: 5e-3,
        ..Grading::default()
    };
    let grid = Grid::graded(&detail, &grading, 1).expect("few cells");
    let equations = System::of(&detail, &grid).equations();
    let (cells, report) = System::of(&detail, &grid).solve(&SolveTolerance::default());
    assert!(report.converged, "{report:?}");
    let above = |unknown: usize| cells[equations.cells[unknown]] + 10.0;
    let mut sums = vec![0.0; equations.cells.len()];
    let mut flows = vec![0.0_f64; equations.cells.len()];
    for (row, column, value) in &equations.entries {
        sums[*row] += value * above(*column);
        flows[*row] = flows[*row].max((value * above(*column)).abs());
    }
    for (row, sum) in sums.iter().enumerate() {
        let off = (sum - equations.right_hand_side[row]).abs();
        assert!(
            off <= 1e-6 * flows[row].max(1e-3),
            "row {row}: off by {off} W/m"
        );
    }
}
