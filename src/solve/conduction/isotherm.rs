//! Lines of equal temperature, by marching squares over the quarters of the field.

use std::collections::BTreeMap;

use super::field::Field;

/// A line of equal temperature: points in m; closed if the last is the first.
pub type Polyline = Vec<(f64, f64)>;

/// An edge of the lattice: its lower left end, and whether it runs upward.
type Edge = (usize, usize, bool);

/// The isotherms at a temperature, °C: they end at surfaces and at the cut.
///
/// Points lie on the lattice's edges by linear interpolation. Where a line could be joined in two
/// ways (a saddle), the mean of the four corners decides.
#[must_use]
pub fn isotherms(field: &Field, temperature: f64) -> Vec<Polyline> {
    let mut joints: BTreeMap<Edge, Vec<Edge>> = BTreeMap::new();
    for row in 0..field.y.len() - 1 {
        for column in 0..field.x.len() - 1 {
            if field.is_solid_quarter(column, row) {
                for (from, to) in segments(field, temperature, column, row) {
                    joints.entry(from).or_default().push(to);
                    joints.entry(to).or_default().push(from);
                }
            }
        }
    }
    chains(joints)
        .into_iter()
        .map(|chain| {
            chain
                .into_iter()
                .map(|edge| crossing(field, temperature, edge))
                .collect()
        })
        .collect()
}

/// What crosses one quarter.
fn segments(field: &Field, temperature: f64, column: usize, row: usize) -> Vec<(Edge, Edge)> {
    let above = |column, row| field.value(column, row) > temperature;
    // Counterclockwise from the lower left corner, each with the edge that follows it.
    let corners = [
        above(column, row),
        above(column + 1, row),
        above(column + 1, row + 1),
        above(column, row + 1),
    ];
    let edges: [Edge; 4] = [
        (column, row, false),
        (column + 1, row, true),
        (column, row + 1, false),
        (column, row, true),
    ];
    let crossed: Vec<Edge> = (0..4)
        .filter(|&n| corners[n] != corners[(n + 1) % 4])
        .map(|n| edges[n])
        .collect();
    match crossed[..] {
        [from, to] => vec![(from, to)],
        [bottom, right, top, left] => {
            let sum = field.value(column, row)
                + field.value(column + 1, row)
                + field.value(column, row + 1)
                + field.value(column + 1, row + 1);
            // The lower left corner and the middle are on the same side: they stay together.
            if corners[0] == (0.25 * sum > temperature) {
                vec![(bottom, right), (top, left)]
            } else {
                vec![(left, bottom), (right, top)]
            }
        }
        _ => Vec::new(),
    }
}

/// Joins segments end to end: open chains first, from their ends, then closed ones.
fn chains(mut joints: BTreeMap<Edge, Vec<Edge>>) -> Vec<Vec<Edge>> {
    let ends = joints.iter().filter(|(_, next)| next.len() == 1);
    let mut starts: Vec<Edge> = ends.map(|(edge, _)| *edge).collect();
    starts.extend(joints.keys().copied());
    let mut chains = Vec::new();
    for start in starts {
        let mut chain = vec![start];
        let mut at = start;
        while let Some(next) = joints.get_mut(&at).and_then(Vec::pop) {
            if let Some(back) = joints.get_mut(&next) {
                back.retain(|edge| *edge != at);
            }
            chain.push(next);
            at = next;
        }
        if chain.len() > 1 {
            chains.push(chain);
        }
    }
    chains
}

fn crossing(field: &Field, temperature: f64, (column, row, upward): Edge) -> (f64, f64) {
    let end = if upward {
        (column, row + 1)
    } else {
        (column + 1, row)
    };
    let (from, to) = (field.value(column, row), field.value(end.0, end.1));
    let share = ((temperature - from) / (to - from)).clamp(0.0, 1.0);
    let between = |a: f64, b: f64| a + share * (b - a);
    (
        between(field.x[column], field.x[end.0]),
        between(field.y[row], field.y[end.1]),
    )
}
