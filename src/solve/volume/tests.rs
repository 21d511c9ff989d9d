use approx::assert_relative_eq;

use super::assembly::Cells;
use super::coarsen::Merge;
use super::coarsest::Coarsest;
use super::network::Network;
use super::smooth::Smoother;
use super::symmetry::Symmetry;
use super::*;
use crate::model::detail::{Air, FaceContact, FaceFilms};
use crate::model::volume::{AirRegion, Block, Extent, Face, Volume, VolumeParts};
use crate::solve::conduction::{Grading, SolveTolerance};

/// A steel bar through insulation into the room, m.
fn bar() -> Volume {
    let block = |name: &str, from, to, conductivity| Block {
        name: name.into(),
        extent: Extent::new(from, to),
        conductivity,
        covers: true,
    };
    let region = |air, from, to| AirRegion {
        air,
        extent: Extent::new([0.0, 0.0, from], [0.3, 0.2, to]),
        films: FaceFilms::all(0.1),
    };
    let air = |name: &str, temperature| Air {
        name: name.into(),
        temperature,
    };
    Volume::new(VolumeParts {
        size: [0.3, 0.2, 0.5],
        blocks: vec![
            block("insulation", [0.0, 0.0, 0.1], [0.3, 0.2, 0.25], 0.04),
            block("bar", [0.25, 0.15, 0.1], [0.3, 0.2, 0.4], 50.0),
        ],
        airs: vec![air("outdoors", -10.0), air("room", 20.0)],
        regions: vec![region(0, 0.0, 0.1), region(1, 0.25, 0.5)],
        faces: vec![],
    })
    .expect("sound")
}

pub(super) fn grid(volume: &Volume, cells: usize) -> Grid {
    let grading = Grid::grading_for(volume, cells, 1);
    Grid::graded(volume, &grading, 1).expect("few cells")
}

fn network(cells: usize) -> (Network, Cells, Grid) {
    let volume = bar();
    let grid = grid(&volume, cells);
    let cells = Cells::of(&volume, &grid);
    (cells.network(&volume, &grid, Symmetry::None), cells, grid)
}

/// Numbers without a pattern in the solid cells, zero elsewhere.
pub(super) fn scattered(network: &Network, seed: u64) -> Vec<f64> {
    let mut values = network.layout.zeros();
    let mut state = seed;
    for row in &network.rows {
        for (offset, value) in values[row.at..][..row.len].iter_mut().enumerate() {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            let is_solid = network.diagonal(row.at + offset) > 0.0;
            *value = f64::from(is_solid) * ((state >> 11) as f64 / (1_u64 << 53) as f64 - 0.5);
        }
    }
    values
}

#[test]
fn a_grid_has_every_face_on_a_plane_and_its_finer_ones_keep_its_planes() {
    let volume = bar();
    let grading = Grid::grading_for(&volume, 2_000, 1);
    let coarse = Grid::graded(&volume, &grading, 1).expect("few cells");
    let fine = Grid::graded(&volume, &grading, 2).expect("few cells");
    for axis in 0..3 {
        let (coarse, fine) = (&coarse.axes[axis].lines, &fine.axes[axis].lines);
        let has = |lines: &[f64], at: f64| lines.iter().any(|line| (line - at).abs() < 1e-12);
        assert!(
            volume.edges()[axis]
                .iter()
                .all(|edge| coarse.contains(edge))
        );
        assert!(coarse.iter().all(|line| has(fine, *line)));
        assert!(coarse.windows(2).all(|pair| pair[0] < pair[1]));
    }
}

#[test]
fn cells_are_fine_at_faces_and_wide_at_planes_of_symmetry() {
    let grid = grid(&bar(), 20_000);
    let x = &grid.axes[0];
    let at_face = x.cell_at(0.25);
    assert!(x.width(0) > 20.0 * x.width(at_face), "{:?}", x.lines);
}

#[test]
fn along_an_axis_on_which_nothing_changes_one_cell_is_enough() {
    let held = |name: &str, x, celsius| Face {
        name: name.into(),
        extent: Extent::new([x, 0.0, 0.0], [x, 1.0, 1.0]),
        contact: FaceContact::Held(celsius),
    };
    let volume = Volume::new(VolumeParts {
        size: [1.0; 3],
        blocks: vec![Block {
            name: "slab".into(),
            extent: Extent::new([0.0; 3], [1.0; 3]),
            conductivity: 2.0,
            covers: false,
        }],
        faces: vec![held("cold", 0.0, 0.0), held("warm", 1.0, 10.0)],
        ..VolumeParts::default()
    })
    .expect("sound");
    let grid = grid(&volume, 100);
    assert_eq!(grid.counts()[1..], [1, 1]);
    let solution = Solution::on(&volume, grid, &SolveTolerance::default());
    assert_relative_eq!(solution.heat_flow(), 20.0, max_relative = 1e-9);
    assert_relative_eq!(
        solution.at([0.3, 0.9, 0.1]).expect("inside"),
        3.0,
        max_relative = 1e-9
    );
    assert_eq!(solution.at([0.3, 1.1, 0.1]), None);
}

#[test]
fn grids_too_large_are_refused_before_they_are_made() {
    let grading = Grading {
        at_edge: 1e-9,
        growth: 1e-9,
        scale: 1e-9,
    };
    let refused = Grid::graded(&bar(), &grading, 1);
    assert!(matches!(refused, Err(VolumeError::TooManyCells { .. })));
}

/// What the rounding of single precision, 6·10⁻⁸, may come to in sums over some thousand cells.
pub(super) const SINGLE: f64 = 1e-5;

fn single(values: &[f64]) -> Vec<f32> {
    values.iter().map(|value| *value as f32).collect()
}

/// ‖b − A x‖ / ‖b‖.
fn residual(network: &Network, b: &[f64], x: &[f32]) -> f64 {
    let x: Vec<f64> = x.iter().map(|value| f64::from(*value)).collect();
    let mut left = network.layout.zeros();
    network.residual(b, &x, &mut left);
    (network.dot(&left, &left) / network.dot(b, b)).sqrt()
}

#[test]
fn restriction_is_the_transpose_of_interpolation_along_every_axis() {
    let (network, cells, grid) = network(9_000);
    let mut spacing = cells.spacing(&grid, Symmetry::None);
    let mut finer = network;
    for (axis, first) in spacing.coarsen() {
        let (coarser, merge) = Merge::of(&finer, axis, first);
        let (fine, coarse) = (scattered(&finer, 1), scattered(&coarser, 2));
        let (mut up, mut down) = (finer.layout.zeros(), coarser.layout.zeros());
        merge.prolong(&single(&coarse), &mut up);
        merge.restrict(&single(&fine), &mut down);
        let (one, other) = (finer.dot(&fine, &up), coarser.dot(&coarse, &down));
        assert_relative_eq!(one, other, max_relative = SINGLE);
        finer = coarser;
    }
}

#[test]
fn coarser_networks_lose_no_sink_and_no_conductance_of_a_plane_wall() {
    let (network, cells, grid) = network(9_000);
    let sinks: f64 = network.sink.iter().sum();
    let mut spacing = cells.spacing(&grid, Symmetry::None);
    let mut last = network;
    while spacing.cells() > 8.0 {
        let merges = spacing.coarsen();
        assert!(!merges.is_empty());
        for (axis, first) in merges {
            last = Merge::of(&last, axis, first).0;
        }
        assert_relative_eq!(last.sink.iter().sum::<f64>(), sinks, max_relative = 1e-12);
    }
}

#[test]
fn the_smoother_undoes_its_own_factors_of_a_chain() {
    // Without a second row or plane nothing fills in: IC(0) is exact.
    let mut network = Network::bare([30, 1, 1]);
    let at = |x| network.layout.at([x, 0, 0]);
    let (first, last) = (at(0), at(29));
    for cell in first..last {
        network.along[0][cell] = 1.0 + (cell % 3) as f64;
    }
    network.sink[first] = 0.5;
    network.find_rows();
    let right = scattered(&network, 3);
    let mut z: Vec<f32> = network.layout.zeros();
    Smoother::of(&network).solve(&network.in_single(), &single(&right), &mut z);
    assert!(residual(&network, &right, &z) < SINGLE);
}

#[test]
fn the_smoother_is_symmetric() {
    let (network, ..) = network(6_000);
    let smoother = Smoother::of(&network);
    let (a, b) = (scattered(&network, 4), scattered(&network, 5));
    let (mut of_a, mut of_b) = (network.layout.zeros(), network.layout.zeros());
    smoother.solve(&network.in_single(), &single(&a), &mut of_a);
    smoother.solve(&network.in_single(), &single(&b), &mut of_b);
    let (one, other) = (network.dot(&b, &of_a), network.dot(&a, &of_b));
    assert_relative_eq!(one, other, max_relative = SINGLE);
}

#[test]
fn the_coarsest_network_is_solved_outright() {
    let (network, ..) = network(1_500);
    let wanted = scattered(&network, 6);
    let mut right = network.layout.zeros();
    network.apply(&wanted, &mut right);
    let mut found: Vec<f32> = network.layout.zeros();
    Coarsest::of(&network).solve(&single(&right), &mut found);
    assert!(residual(&network, &right, &found) < SINGLE);
}

#[test]
fn the_cycle_needs_few_iterations_and_meets_the_true_residual() {
    let volume = bar();
    let solution = Solution::on(&volume, grid(&volume, 30_000), &SolveTolerance::default());
    let report = solution.report();
    assert!(report.converged && report.residual < 1e-10, "{report:?}");
    assert!(
        report.imbalance < 1e-8 && report.iterations <= 20,
        "{report:?}"
    );
}

#[test]
fn a_sliver_and_the_greatest_jump_of_conductivity_are_solved() {
    let mut parts = bar().parts().clone();
    parts.blocks[1].conductivity = 1e6;
    parts.blocks[0].conductivity = 1e-6;
    parts.blocks.push(Block {
        name: "sliver".into(),
        extent: Extent::new([0.1, 0.0, 0.1], [0.1 + 2e-9, 0.2, 0.25]),
        conductivity: 1e6,
        covers: true,
    });
    let volume = Volume::new(parts).expect("sound");
    let solution = Solution::on(&volume, grid(&volume, 20_000), &SolveTolerance::default());
    assert!(solution.report().converged, "{:?}", solution.report());
}

#[test]
fn everything_at_one_temperature_stays_there() {
    let mut parts = bar().parts().clone();
    parts.airs[0].temperature = 20.0;
    let volume = Volume::new(parts).expect("sound");
    let few = Precision {
        cells: 3_000,
        ..Precision::default()
    };
    let result = solve_volume(&volume, &few).expect("few cells");
    assert_eq!((result.heat_flow.value, result.heat_flow.bar), (0.0, 0.0));
    let coldest = result.coldest(Faces::Around(1), None).expect("a bar");
    assert_eq!(coldest.temperature.value, 20.0);
}

#[test]
fn faces_are_found_by_what_they_are() {
    let volume = bar();
    let solution = Solution::on(&volume, grid(&volume, 8_000), &SolveTolerance::default());
    let area = |faces, within: Option<&Extent>| -> f64 {
        let points = solution.points(faces, within);
        points.iter().map(|point| point.area).sum()
    };
    assert_relative_eq!(area(Faces::Surface(0), None), 0.06, max_relative = 1e-9);
    // Two sides of the bar in the insulation; the other two are planes of symmetry.
    let between = area(Faces::Between(0, 1), None);
    assert_relative_eq!(between, 2.0 * 0.05 * 0.15, max_relative = 1e-9);
    assert_relative_eq!(
        between,
        area(Faces::Between(1, 0), None),
        max_relative = 1e-9
    );
    let whole = 4.0 * 0.05 * 0.3 + 2.0 * 0.05 * 0.05;
    assert_relative_eq!(area(Faces::Around(1), None), whole, max_relative = 1e-9);
    let tip = Extent::new([0.25, 0.15, 0.4], [0.3, 0.2, 0.4]);
    assert_relative_eq!(
        area(Faces::Surface(1), Some(&tip)),
        0.0025,
        max_relative = 1e-9
    );
}

#[test]
fn a_face_has_one_temperature_from_both_sides() {
    let volume = bar();
    let solution = Solution::on(&volume, grid(&volume, 8_000), &SolveTolerance::default());
    let of = |faces| {
        let mut points = solution.points(faces, None);
        points.sort_by(|a, b| a.at.iter().partial_cmp(b.at.iter()).expect("numbers"));
        points
    };
    let pairs = of(Faces::Between(0, 1))
        .into_iter()
        .zip(of(Faces::Between(1, 0)));
    for (one, other) in pairs {
        assert_eq!(one.at, other.at);
        assert_relative_eq!(one.temperature, other.temperature, epsilon = 1e-10);
        let there = solution.at(one.at).expect("solid");
        assert_relative_eq!(one.temperature, there, epsilon = 1e-9);
    }
}
