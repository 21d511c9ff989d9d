//! A detail's heat flows and coldest surfaces with their error bars.

use super::ConductionError;
use super::assembly::Network;
use super::elements::Elements;
use super::field::Field;
use super::refine::{Climb, Estimate, Precision, climb, is_hopeless};
use super::solution::{Solution, SurfacePoint, coldest, mean_temperature};
use super::solver::{SolveReport, Solver};
use crate::model::detail::Detail;

/// The most boundaries [`couplings`] takes: it solves once for each.
pub const MOST_COUPLED: usize = 16;

/// The coldest place of a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coldest {
    /// Where, and how cold on the finest grid.
    pub point: SurfacePoint,
    /// How far the temperature may be off, K.
    pub bar: f64,
}

/// What one grid gave.
#[derive(Clone, Debug, PartialEq)]
pub struct GridRecord {
    /// Cells, air included.
    pub cells: usize,
    /// Heat from each boundary into the solid, W/m.
    pub flows: Vec<f64>,
    /// Heat from warmer to colder boundaries, W/m.
    pub heat_flow: f64,
    /// The coldest temperature of each boundary's surface, °C.
    pub coldest: Vec<Option<f64>>,
    /// How well the equations are met.
    pub report: SolveReport,
}

/// A detail solved with error bars.
#[derive(Clone, Debug)]
pub struct Conduction {
    /// Heat from each boundary into the solid, W/m, in the order of the detail's boundaries.
    pub flows: Vec<Estimate>,
    /// Heat from warmer to colder boundaries, W/m.
    pub heat_flow: Estimate,
    /// Thermal coupling coefficient L2D, W/(m·K); `None` unless the boundaries have exactly two
    /// temperatures. Of more, see [`couplings`].
    pub coupling: Option<Estimate>,
    /// The coldest place of each boundary's surface; `None` where it meets no solid.
    pub coldest: Vec<Option<Coldest>>,
    /// The solution on the finest grid.
    pub solution: Solution,
    /// On the two grids before it, the coarser one first, which the error bars of other places come
    /// from.
    pub coarser: [Solution; 2],
    /// All grids, coarsest first.
    pub grids: Vec<GridRecord>,
    /// The finest grid by elements, where the bars of the grids alone stayed wider than asked for: every
    /// bar then reaches from one to the other, and further by the last step of the grids.
    pub bracket: Option<Elements>,
    /// Whether every bar is within what was asked for or holds by a bracket, and every system solved.
    /// Otherwise the result has to be marked.
    pub settled: bool,
}

/// Solves a detail on finer and finer grids until it is as precise as asked.
///
/// Source: ISO 10211, two-dimensional steady heat flow and L2D (from memory; its cases 1 and 2
/// in `tests/published`).
///
/// # Errors
/// [`ConductionError::TooManyCells`] where three grids don't fit. A result that isn't precise
/// enough when the cells run out is no error: it says so in [`Conduction::settled`].
///
/// # Example
/// A plane wall 1 m high gives its U-value, on every grid:
/// ```
/// use dewmargin::model::detail::{
///     Air, Area, Block, Detail, DetailParts, Face, FaceContact, PlaneConductivity,
/// };
/// use dewmargin::solve::conduction::{Precision, solve_detail};
///
/// let air = |name: &str, celsius| Air { name: name.into(), temperature: celsius };
/// let open = |name: &str, air, film, x| Face {
///     name: name.into(),
///     line: Area::new(x, x, 0.0, 1.0),
///     contact: FaceContact::Air { air, film },
/// };
/// let detail = Detail::new(DetailParts {
///     width: 0.1,
///     height: 1.0,
///     blocks: vec![Block {
///         name: "wall".into(),
///         label: "foam".into(),
///         area: Area::new(0.0, 0.1, 0.0, 1.0),
///         conductivity: PlaneConductivity::isotropic(0.025),
///         covers: false,
///     }],
///     airs: vec![air("outdoors", -10.0), air("room", 20.0)],
///     regions: vec![],
///     faces: vec![open("outer face", 0, 0.04, 0.0), open("inner face", 1, 0.13, 0.1)],
/// })
/// .expect("a sound detail");
/// let result = solve_detail(&detail, &Precision::default()).expect("few cells");
/// let coupling = result.coupling.expect("two temperatures");
/// assert!((coupling.value - 1.0 / (0.04 + 4.0 + 0.13)).abs() < 1e-9);
/// assert!(result.settled);
/// ```
pub fn solve_detail(detail: &Detail, precision: &Precision) -> Result<Conduction, ConductionError> {
    let solve = |grid| {
        let solution = Solution::on(detail, grid, &precision.solve);
        let record = GridRecord::of(&solution);
        (solution, record)
    };
    // Only the last three solutions are kept.
    let mut kept: Vec<Solution> = Vec::new();
    let record = |grid| {
        let (solution, record) = solve(grid);
        if kept.len() == 3 {
            kept.remove(0);
        }
        kept.push(solution);
        record
    };
    let say = |grids: &[GridRecord]| match is_settled(detail, precision, grids) {
        true => Climb::Settled,
        false if is_hopeless(&heat_flow(grids), grids.len()) => Climb::Hopeless,
        false => Climb::On,
    };
    let (grids, settled) = climb(detail, precision, record, say)?;
    let cells = grids.last().map_or(0, |grid| grid.cells);
    let Ok([coarsest, coarse, solution]) = <[Solution; 3]>::try_from(kept) else {
        return Err(ConductionError::TooManyCells { cells });
    };
    let solved = grids.iter().all(|grid| grid.report.converged);
    let bracket = match !settled && solved {
        true => Elements::on(detail, solution.grid(), &precision.solve),
        false => None,
    };
    let mut result = Conduction {
        flows: flows(&grids),
        heat_flow: heat_flow(&grids),
        coupling: None,
        coldest: Vec::new(),
        solution,
        coarser: [coarsest, coarse],
        grids,
        settled: settled || bracket.is_some(),
        bracket,
    };
    result.bracket_flows();
    result.coupling = temperature_span(detail).map(|span| result.heat_flow.scaled(1.0 / span));
    result.coldest = (0..detail.boundaries().len())
        .map(|boundary| result.coldest_among(|solution| solution.surface(boundary)))
        .collect();
    Ok(result)
}

/// Heat that passes from the warmer boundaries to the colder ones, in the unit of the flows.
pub(in crate::solve) fn through(flows: &[f64]) -> f64 {
    let into: f64 = flows.iter().filter(|flow| **flow > 0.0).sum();
    let out: f64 = flows.iter().filter(|flow| **flow < 0.0).sum();
    0.5 * (into - out)
}

impl GridRecord {
    fn of(solution: &Solution) -> Self {
        let boundaries = 0..solution.flows().len();
        let coldest = |boundary| coldest(&solution.surface(boundary));
        Self {
            cells: solution.grid().cells(),
            flows: solution.flows().to_vec(),
            heat_flow: solution.heat_flow(),
            coldest: boundaries
                .map(|boundary| coldest(boundary).map(|point| point.temperature))
                .collect(),
            report: *solution.report(),
        }
    }
}

fn flows(grids: &[GridRecord]) -> Vec<Estimate> {
    let count = grids.first().map_or(0, |grid| grid.flows.len());
    let of =
        |boundary: usize| -> Vec<f64> { grids.iter().map(|grid| grid.flows[boundary]).collect() };
    (0..count)
        .map(|boundary| Estimate::extrapolated(&of(boundary)))
        .collect()
}

fn heat_flow(grids: &[GridRecord]) -> Estimate {
    let values: Vec<f64> = grids.iter().map(|grid| grid.heat_flow).collect();
    Estimate::extrapolated(&values)
}

/// `None` where the boundary meets no solid.
fn coldest_of(grids: &[GridRecord], boundary: usize) -> Option<Estimate> {
    let values: Option<Vec<f64>> = grids.iter().map(|grid| grid.coldest[boundary]).collect();
    values.map(|values| Estimate::coldest(&values))
}

/// The difference between the boundaries' temperatures, if there are exactly two.
fn temperature_span(detail: &Detail) -> Option<f64> {
    let temperatures = || detail.boundaries().iter().map(|one| one.temperature);
    let (least, most) = (
        temperatures().fold(f64::INFINITY, f64::min),
        temperatures().fold(f64::NEG_INFINITY, f64::max),
    );
    let of_two = temperatures().all(|t| t == least || t == most);
    (of_two && most > least).then_some(most - least)
}

fn is_settled(detail: &Detail, precision: &Precision, grids: &[GridRecord]) -> bool {
    let whole = heat_flow(grids).value;
    let flows_settle = flows(grids)
        .iter()
        .all(|flow| flow.bar <= precision.heat_flow * whole.abs());
    // The coldest surface of the coldest air decides nothing.
    let temperatures = detail.boundaries().iter().map(|one| one.temperature);
    let least = temperatures.fold(f64::INFINITY, f64::min);
    let warm = |boundary: &usize| detail.boundaries()[*boundary].temperature > least;
    let surfaces_settle = (0..detail.boundaries().len())
        .filter(warm)
        .filter_map(|boundary| coldest_of(grids, boundary))
        .all(|coldest| coldest.bar <= precision.surface);
    let solved = grids.iter().all(|grid| grid.report.converged);
    flows_settle && surfaces_settle && solved
}

impl Conduction {
    /// The last three solutions, the finest last.
    pub(in crate::solve) fn all(&self) -> [&Solution; 3] {
        let [coarsest, coarse] = &self.coarser;
        [coarsest, coarse, &self.solution]
    }

    /// Linear thermal transmittance ψ, W/(m·K): what the detail passes beyond the clear
    /// elements, whose Σ U·l the caller gives by the lengths the reference dimension asks for.
    ///
    /// ```text
    /// ψ = L2D − Σ U l
    /// ```
    /// `None` where there is no L2D.
    #[must_use]
    pub fn psi(&self, clear_elements: f64) -> Option<Estimate> {
        self.coupling.map(|coupling| Estimate {
            value: coupling.value - clear_elements,
            ..coupling
        })
    }

    /// Widens the bars of the heat flows to the bracket, if there is one.
    fn bracket_flows(&mut self) {
        let Some(bracket) = &self.bracket else {
            return;
        };
        let between = |of_grids: &dyn Fn(&GridRecord) -> f64, by_elements: f64, order| {
            let values: Vec<f64> = self.grids.iter().map(of_grids).collect();
            Estimate::between(&values, by_elements, order)
        };
        let flows = bracket.flows().iter().zip(&self.flows).enumerate();
        let flows = flows.map(|(n, (flow, one))| between(&|grid| grid.flows[n], *flow, one.order));
        let flows: Vec<Estimate> = flows.collect();
        let order = self.heat_flow.order;
        self.heat_flow = between(&|grid| grid.heat_flow, through(bracket.flows()), order);
        self.flows = flows;
    }

    /// Temperatures at points (x, y in m), °C; `None` in air or off the cut.
    #[must_use]
    pub fn temperatures_at(&self, points: &[(f64, f64)]) -> Vec<Option<Estimate>> {
        let fields = self.all().map(Field::of);
        let at = |(x, y): &(f64, f64)| {
            let found = on_grids(fields.each_ref().map(|field| field.at(*x, *y)))?;
            let by_elements = self.bracket.as_ref().map(|bracket| bracket.at(*x, *y));
            Some(found.reaching(by_elements))
        };
        points.iter().map(at).collect()
    }

    /// The coldest of some points of the surface on each grid; `None` where there are none.
    #[must_use]
    pub fn coldest_among(
        &self,
        points: impl Fn(&Solution) -> Vec<SurfacePoint>,
    ) -> Option<Coldest> {
        let [first, second, finest] = self.all().map(&points);
        let point = coldest(&finest)?;
        let temperatures = [coldest(&first)?, coldest(&second)?, point].map(|one| one.temperature);
        let by_elements = self.bracket.as_ref().and_then(|bracket| {
            let there = finest.iter().map(|point| bracket.at(point.x, point.y));
            there.min_by(f64::total_cmp)
        });
        let bar = Estimate::coldest(&temperatures).reaching(by_elements).bar;
        Some(Coldest { point, bar })
    }

    /// The coldest place on the outline of a block; `None` where none of it is to be seen.
    #[must_use]
    pub fn coldest_of_block(&self, block: usize) -> Option<Coldest> {
        self.coldest_among(|solution| solution.outline(block))
    }

    /// The mean temperature of a block's outline, °C.
    #[must_use]
    pub fn mean_of_block(&self, block: usize) -> Option<Estimate> {
        self.mean_of(|solution| solution.outline(block))
    }

    /// The mean temperature of the surface that meets a boundary, °C.
    #[must_use]
    pub fn mean_of_surface(&self, boundary: usize) -> Option<Estimate> {
        self.mean_of(|solution| solution.surface(boundary))
    }

    fn mean_of(&self, points: impl Fn(&Solution) -> Vec<SurfacePoint>) -> Option<Estimate> {
        let [first, second, finest] = self.all().map(&points);
        let found = on_grids([&first, &second, &finest].map(|points| mean_temperature(points)))?;
        let by_elements = self.bracket.as_ref().and_then(|bracket| {
            let moved = finest.iter().map(|point| SurfacePoint {
                temperature: bracket.at(point.x, point.y),
                ..*point
            });
            mean_temperature(&moved.collect::<Vec<_>>())
        });
        Some(found.reaching(by_elements))
    }
}

/// The finest of three values with its bar; `None` where one of them is missing.
fn on_grids(values: [Option<f64>; 3]) -> Option<Estimate> {
    let [first, second, third] = values;
    Some(Estimate::finest(&[first?, second?, third?]))
}

/// Couplings between all boundaries of a detail.
#[derive(Clone, Debug, PartialEq)]
pub struct Couplings {
    /// L_ij, W/(m·K): i gives L_ij (T_i − T_j) to j. Zero from a boundary to itself.
    pub between: Vec<Vec<Estimate>>,
    /// Whether every bar is within what was asked for, as a share of the largest coupling.
    pub settled: bool,
}

/// Thermal coupling coefficients between every two boundaries, whatever their temperatures.
///
/// # Errors
/// [`ConductionError::TooManyBoundaries`] beyond [`MOST_COUPLED`], else as [`solve_detail`].
pub fn couplings(detail: &Detail, precision: &Precision) -> Result<Couplings, ConductionError> {
    let count = detail.boundaries().len();
    if count > MOST_COUPLED {
        return Err(ConductionError::TooManyBoundaries { count });
    }
    let solve = |grid: super::Grid| {
        let mut solver = Solver::of(Network::of(detail, &grid));
        let with_one_warm = |warm: usize| {
            let temperatures: Vec<f64> = (0..count).map(|n| f64::from(n == warm)).collect();
            let (cells, report) = solver.solve(&temperatures, &precision.solve);
            let flows = solver.network.flows(&temperatures, &cells);
            (flows, report.converged)
        };
        (0..count).map(with_one_warm).collect::<Vec<_>>()
    };
    let pair = |grids: &[Vec<(Vec<f64>, bool)>], from: usize, to: usize| {
        let values: Vec<f64> = grids.iter().map(|grid| -grid[from].0[to]).collect();
        if from == to {
            Estimate::extrapolated(&[0.0; 3])
        } else {
            Estimate::extrapolated(&values)
        }
    };
    let all = |grids: &[Vec<(Vec<f64>, bool)>]| -> Vec<Vec<Estimate>> {
        let row = |from| (0..count).map(|to| pair(grids, from, to)).collect();
        (0..count).map(row).collect()
    };
    let say = |grids: &[Vec<(Vec<f64>, bool)>]| {
        let all = all(grids);
        let largest = all.iter().flatten().fold(0.0, |most, l| l.value.max(most));
        let precise = |coupling: &Estimate| coupling.bar <= precision.heat_flow * largest;
        let solved = grids.iter().flatten().all(|(_, converged)| *converged);
        match solved && all.iter().flatten().all(precise) {
            true => Climb::Settled,
            false => Climb::On,
        }
    };
    let (grids, settled) = climb(detail, precision, solve, say)?;
    Ok(Couplings {
        between: all(&grids),
        settled,
    })
}
