//! The convex string: vapor pressures where vapor condenses.
//!
//! In steady diffusion with condensation the pressure, drawn over vapor resistance, is the
//! greatest convex curve that joins the two air pressures and stays at or below saturation: a
//! string pulled tight under the saturation curve. Where it bends it touches saturation, and the
//! bend is the water that condenses there. That is the lower convex hull of the points, found in
//! one pass (Andrew's monotone chain, 1979); it finds several condensing planes at once.
//!
//! A perfect barrier splits the string. Its near end then is free: no vapor passes, so the
//! pressure falls along the hull to the least saturation pressure on that side and stays there.
//! Between two perfect barriers diffusion says nothing, and no pressure is given.

/// The string's solution, node by node.
#[derive(Clone, Debug, PartialEq)]
pub struct VaporString {
    /// Pressures in Pa; `None` between two perfect barriers.
    pub pressures: Vec<Option<f64>>,
    /// Water condensing at each node, kg/(m²·s).
    pub condensing: Vec<f64>,
    /// Vapor entering at the first node, kg/(m²·s).
    pub inflow: f64,
    /// Vapor leaving at the last node, kg/(m²·s).
    pub outflow: f64,
}

/// Solves the string over nodes joined by vapor resistances `steps` (m²·s·Pa/kg, one fewer than
/// nodes, zero or infinite allowed), below `saturation` (Pa, infinite at nodes that can't
/// condense), between the pressures `first` and `last` (Pa).
///
/// Source: ISO 13788 (tangents below saturation in s_d), stated as a convex hull.
///
/// # Example
/// Two planes at s_d 1 and 2 m of 3 m, both condensing (analytic):
/// ```
/// use dewmargin::solve::string::vapor_string;
/// let sd = 1.0 / 2.0e-10; // 1 m of still air
/// let solved = vapor_string(
///     &[sd, sd, sd], &[f64::INFINITY, 300.0, 500.0, f64::INFINITY], 250.0, 1200.0,
/// );
/// assert!((solved.condensing[1] - 3.0e-8).abs() < 1e-20);
/// assert!((solved.condensing[2] - 1.0e-7).abs() < 1e-20);
/// ```
#[must_use]
pub fn vapor_string(steps: &[f64], saturation: &[f64], first: f64, last: f64) -> VaporString {
    let nodes = saturation.len();
    let mut solved = VaporString {
        pressures: vec![None; nodes],
        condensing: vec![0.0; nodes],
        inflow: 0.0,
        outflow: 0.0,
    };
    let first_barrier = steps.iter().position(|step| step.is_infinite());
    match first_barrier {
        None => {
            let points = points(steps.iter(), saturation.iter(), first, Some(last));
            let chain = lower_hull(&points);
            lay(&points, &chain, None, |node| node, &mut solved);
        }
        Some(near) => {
            let far = steps
                .iter()
                .rposition(|step| step.is_infinite())
                .unwrap_or(near);
            // The room's side, read outward; the outer side, read inward from outdoors.
            let inner = points(
                steps[..near].iter(),
                saturation[..=near].iter(),
                first,
                None,
            );
            let outer = points(
                steps[far + 1..].iter().rev(),
                saturation[far + 1..].iter().rev(),
                last,
                None,
            );
            free_end(&inner, |node| node, &mut solved);
            free_end(&outer, |node| nodes - 1 - node, &mut solved);
        }
    }
    solved
}

/// A node: summed vapor resistance and the pressure it may not exceed.
type Point = (f64, f64);

/// Nodes with their bounds; the ends are held at the air's pressure. A node at no resistance from
/// the air (no vapor film) is pulled to the air's pressure as well, or to saturation if lower.
fn points<'a>(
    steps: impl Iterator<Item = &'a f64>,
    saturation: impl Iterator<Item = &'a f64>,
    first: f64,
    last: Option<f64>,
) -> Vec<Point> {
    let summed = std::iter::once(0.0).chain(steps.scan(0.0, |sum, step| {
        *sum += step;
        Some(*sum)
    }));
    let mut points: Vec<Point> = summed.zip(saturation.copied()).collect();
    pin(&mut points, first);
    if let Some(last) = last {
        points.reverse();
        pin(&mut points, last);
        points.reverse();
    }
    points
}

/// Holds the first point, and any at the same resistance, at an air pressure.
fn pin(points: &mut [Point], pressure: f64) {
    let z = points[0].0;
    let touching = points.iter().take_while(|point| point.0 == z).count();
    let held = points[..touching]
        .iter()
        .fold(pressure, |held, point| held.min(point.1));
    points[..touching]
        .iter_mut()
        .for_each(|point| point.1 = held);
}

/// Indices of the points on the lower convex hull, first and last included.
fn lower_hull(points: &[Point]) -> Vec<usize> {
    let mut chain: Vec<usize> = Vec::with_capacity(points.len());
    for (index, point) in points.iter().enumerate() {
        if point.1.is_infinite() {
            continue;
        }
        while let [.., a, b] = chain[..] {
            let (a, b) = (points[a], points[b]);
            let turn = (b.0 - a.0) * (point.1 - a.1) - (b.1 - a.1) * (point.0 - a.0);
            if turn > 0.0 {
                break;
            }
            chain.pop();
        }
        chain.push(index);
    }
    chain
}

/// The string from one held end to a perfect barrier: the hull down to the least saturation,
/// level from there.
fn free_end(points: &[Point], node_of: impl Fn(usize) -> usize, solved: &mut VaporString) {
    let least = points
        .iter()
        .enumerate()
        .min_by(|a, b| a.1.1.total_cmp(&b.1.1))
        .map_or(0, |(index, _)| index);
    let chain = lower_hull(&points[..=least]);
    lay(
        &points[..=least],
        &chain,
        Some(points.len()),
        node_of,
        solved,
    );
}

/// Writes pressures and flows along a hull. With `level_to`, the last pressure holds up to there
/// and all vapor that arrives at the hull's end condenses there.
fn lay(
    points: &[Point],
    chain: &[usize],
    level_to: Option<usize>,
    node_of: impl Fn(usize) -> usize,
    solved: &mut VaporString,
) {
    let flow = |from: usize, to: usize| {
        let z = points[to].0 - points[from].0;
        if z > 0.0 {
            (points[from].1 - points[to].1) / z
        } else {
            0.0
        }
    };
    for pair in chain.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        for index in from..=to {
            let along = points[from].1 - flow(from, to) * (points[index].0 - points[from].0);
            // Rounding must not lift a touching point over saturation.
            solved.pressures[node_of(index)] = Some(along.min(points[index].1));
        }
    }
    let flows: Vec<f64> = chain
        .windows(2)
        .map(|pair| flow(pair[0], pair[1]))
        .collect();
    // Between points without any resistance no flow can be told.
    let resists = |pair: &&[usize]| points[pair[1]].0 > points[pair[0]].0;
    let of_pair = |pair: &[usize]| flow(pair[0], pair[1]);
    let entering = chain.windows(2).find(resists).map_or(0.0, of_pair);
    let leaving = chain.windows(2).rev().find(resists).map_or(0.0, of_pair);
    for (at, pair) in flows.windows(2).enumerate() {
        let node = node_of(chain[at + 1]);
        // The first node of a zero-resistance film is air itself: its surplus isn't water.
        if points[chain[at + 1]].0 > points[0].0 {
            solved.condensing[node] = (pair[0] - pair[1]).max(0.0);
        }
    }
    match level_to {
        None => {
            solved.inflow = entering;
            solved.outflow = leaving;
        }
        Some(end) => {
            let last = points.len() - 1;
            for index in last..end {
                solved.pressures[node_of(index)] = Some(points[last].1);
            }
            if points[last].0 > points[0].0 {
                solved.condensing[node_of(last)] = flows.last().copied().unwrap_or(0.0).max(0.0);
            }
            // Only the side that starts at node 0 is fed by the room.
            if node_of(0) == 0 {
                solved.inflow = entering;
            } else {
                solved.outflow = -entering;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    const SD: f64 = 1.0 / 2.0e-10;
    const AIR: f64 = f64::INFINITY;

    // Two-plane tangent checks, analytic (check-values §2).
    #[test]
    fn one_plane_condenses_the_other_stays_dry() {
        let solved = vapor_string(&[SD, SD, SD], &[AIR, 300.0, 760.0, AIR], 250.0, 1200.0);
        assert_abs_diff_eq!(solved.condensing[1], 8.0e-8, epsilon = 1e-20);
        assert_abs_diff_eq!(solved.condensing[2], 0.0);
        assert_abs_diff_eq!(solved.pressures[2].unwrap(), 750.0, epsilon = 1e-9);
    }

    #[test]
    fn flows_balance() {
        let solved = vapor_string(&[SD, SD, SD], &[AIR, 300.0, 500.0, AIR], 250.0, 1200.0);
        let total: f64 = solved.condensing.iter().sum();
        assert_abs_diff_eq!(solved.inflow - solved.outflow, total, epsilon = 1e-20);
    }

    #[test]
    fn a_perfect_barrier_takes_no_vapor_and_holds_what_arrives() {
        // Room 1400 Pa, planes at 1 and 2 m, barrier behind the second one.
        let solved = vapor_string(
            &[SD, SD, f64::INFINITY, 0.0],
            &[AIR, 1300.0, 900.0, 800.0, AIR],
            1400.0,
            700.0,
        );
        assert_abs_diff_eq!(solved.pressures[1].unwrap(), 1150.0, epsilon = 1e-9);
        assert_abs_diff_eq!(solved.condensing[2], 500.0 / (2.0 * SD), epsilon = 1e-20);
        assert_abs_diff_eq!(solved.inflow, 500.0 / (2.0 * SD), epsilon = 1e-20);
        assert_abs_diff_eq!(solved.outflow, 0.0);
        assert_eq!(solved.pressures[3], Some(700.0));
    }

    #[test]
    fn between_two_barriers_nothing_is_known() {
        let steps = [f64::INFINITY, SD, f64::INFINITY];
        let solved = vapor_string(&steps, &[900.0, 500.0, 400.0, 300.0], 1000.0, 200.0);
        assert_eq!(solved.pressures[1], None);
        assert_eq!(solved.pressures[2], None);
    }
}
