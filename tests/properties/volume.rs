//! Heat in three dimensions.

use approx::assert_relative_eq;
use dewmargin::model::detail::FaceFilms;
use dewmargin::model::volume::{Extent, VolumeParts};
use dewmargin::solve::conduction::SolveTolerance;
use dewmargin::solve::volume::{Faces, Grid, Solution};
use proptest::prelude::*;

use super::{config, decades};
use crate::support::volume::{air, block, empty, mm, open, region, sound};

/// Edges of a patchwork of two by three by two, mm.
const EDGES: [&[f64]; 3] = [
    &[0.0, 12.0, 60.0],
    &[0.0, 30.0, 45.0, 100.0],
    &[0.0, 20.0, 70.0],
];

/// A patchwork with a room in its farthest corner and outdoor air at its left and below.
fn patchwork(conductivities: &[f64; 12], [outdoors, room]: [f64; 2]) -> VolumeParts {
    let size = [60.0, 100.0, 70.0];
    let mut parts = empty(size);
    for (n, k) in conductivities.iter().enumerate() {
        let place = [n % 2, n / 2 % 3, n / 6];
        let edge = |after: usize| [0, 1, 2].map(|axis| EDGES[axis][place[axis] + after]);
        if n != 11 {
            block(&mut parts, &format!("patch {n}"), *k, mm(edge(0), edge(1)));
        }
    }
    let outdoors = air(&mut parts, "outdoors", outdoors);
    let room = air(&mut parts, "room", room);
    region(
        &mut parts,
        room,
        FaceFilms::all(0.13),
        mm([12.0, 45.0, 20.0], size),
    );
    open(
        &mut parts,
        "left",
        outdoors,
        0.04,
        mm([0.0; 3], [0.0, 100.0, 70.0]),
    );
    open(
        &mut parts,
        "below",
        outdoors,
        0.04,
        mm([0.0; 3], [60.0, 100.0, 0.0]),
    );
    parts
}

/// The same with other axes, or mirrored.
fn moved(mut parts: VolumeParts, change: impl Fn([f64; 3]) -> [f64; 3]) -> VolumeParts {
    let change = |extent: &mut Extent| {
        let (a, b) = (change(extent.from), change(extent.to));
        extent.from = [0, 1, 2].map(|axis| a[axis].min(b[axis]));
        extent.to = [0, 1, 2].map(|axis| a[axis].max(b[axis]));
    };
    let mut all = Extent::new([0.0; 3], parts.size);
    change(&mut all);
    parts.size = all.size();
    parts
        .blocks
        .iter_mut()
        .for_each(|one| change(&mut one.extent));
    parts
        .regions
        .iter_mut()
        .for_each(|one| change(&mut one.extent));
    parts
        .faces
        .iter_mut()
        .for_each(|one| change(&mut one.extent));
    parts
}

/// Large enough for the multigrid cycle.
fn on_one_grid(parts: VolumeParts) -> Solution {
    let volume = sound(parts);
    let grading = Grid::grading_for(&volume, 8_000, 1);
    let grid = Grid::graded(&volume, &grading, 1).expect("few cells");
    let solution = Solution::on(&volume, grid, &SolveTolerance::default());
    assert!(solution.report().converged, "{:?}", solution.report());
    solution
}

/// From foam to copper.
fn patches() -> impl Strategy<Value = [f64; 12]> {
    prop::array::uniform12(decades(0.02, 400.0))
}

/// The coldest place of the room's surface, °C.
fn coldest(solution: &Solution) -> f64 {
    let points = solution.points(Faces::Surface(1), None);
    let temperatures = points.into_iter().map(|point| point.temperature);
    temperatures.fold(f64::INFINITY, f64::min)
}

proptest! {
    #![proptest_config(config(6))]

    #[test]
    fn no_place_is_warmer_or_colder_than_the_air_and_the_balance_closes(
        k in patches(),
        outdoors in -40.0..40.0_f64,
        room in -40.0..40.0_f64,
    ) {
        let solution = on_one_grid(patchwork(&k, [outdoors, room]));
        let (least, most) = (outdoors.min(room) - 1e-6, outdoors.max(room) + 1e-6);
        let [nx, ny, nz] = solution.grid().counts();
        for cell in 0..nx * ny * nz {
            if let Some(t) = solution.cell([cell % nx, cell / nx % ny, cell / (nx * ny)]) {
                prop_assert!((least..=most).contains(&t), "{t} beside {outdoors} and {room}");
            }
        }
        for faces in [Faces::Surface(0), Faces::Surface(1), Faces::Around(3)] {
            for point in solution.points(faces, None) {
                prop_assert!((least..=most).contains(&point.temperature));
            }
        }
        let sum: f64 = solution.flows().iter().sum();
        prop_assert!(sum.abs() <= 1e-7 * solution.heat_flow(), "{:?}", solution.flows());
    }

    #[test]
    fn x_y_and_z_in_any_order_give_the_same(k in patches()) {
        let solution = on_one_grid(patchwork(&k, [-5.0, 20.0]));
        for order in [[1, 2, 0], [2, 1, 0], [0, 2, 1]] {
            let parts = moved(patchwork(&k, [-5.0, 20.0]), |point| order.map(|axis| point[axis]));
            let other = on_one_grid(parts);
            assert_relative_eq!(solution.heat_flow(), other.heat_flow(), max_relative = 1e-6);
            assert_relative_eq!(coldest(&solution), coldest(&other), epsilon = 1e-5);
        }
    }

    #[test]
    fn a_mirror_changes_nothing(k in patches()) {
        let solution = on_one_grid(patchwork(&k, [-5.0, 20.0]));
        for axis in 0..3 {
            let parts = patchwork(&k, [-5.0, 20.0]);
            let size = parts.size;
            let other = on_one_grid(moved(parts, |mut point| {
                point[axis] = size[axis] - point[axis];
                point
            }));
            assert_relative_eq!(solution.heat_flow(), other.heat_flow(), max_relative = 1e-6);
            assert_relative_eq!(coldest(&solution), coldest(&other), epsilon = 1e-5);
        }
    }

    #[test]
    fn temperatures_scale_and_shift(k in patches(), shift in -30.0..30.0_f64) {
        let solution = on_one_grid(patchwork(&k, [0.0, 1.0]));
        let other = on_one_grid(patchwork(&k, [shift, shift + 25.0]));
        assert_relative_eq!(25.0 * solution.heat_flow(), other.heat_flow(), max_relative = 1e-7);
        let expected = shift + 25.0 * coldest(&solution);
        assert_relative_eq!(expected, coldest(&other), epsilon = 1e-6);
    }

    #[test]
    fn a_patch_that_conducts_more_lets_no_less_heat_through(
        k in patches(),
        patch in 0..11_usize,
        factor in 1.0..10.0_f64,
    ) {
        let mut better = k;
        better[patch] *= factor;
        let less = on_one_grid(patchwork(&k, [-5.0, 20.0])).heat_flow();
        let more = on_one_grid(patchwork(&better, [-5.0, 20.0])).heat_flow();
        prop_assert!(more >= less * (1.0 - 1e-7), "{less} {more}");
    }
}
