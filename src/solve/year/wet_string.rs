//! The convex string with water on it.
//!
//! A node that holds water is at saturation until it is empty: it pins the string, and vapor may
//! leave it as well as gather there. Between pins the string is the one of [`crate::solve::string`]:
//! the lower convex hull below saturation. What flows to a node less what flows from it is the
//! water it gains.

use super::nodes::Shore;

/// Pressures and gains under one month's air.
#[derive(Debug, Default)]
pub(super) struct WetString {
    /// Water gained at each node, kg/(m²·s); at the shores, the vapor that crosses them.
    pub(super) gains: Vec<f64>,
    /// Pa; known at bends only until [`WetString::fill`], NaN where nothing is known.
    pub(super) pressures: Vec<f64>,
    /// The greatest flow along the string, kg/(m²·s).
    greatest: f64,
    /// The nodes where the string bends, compartment by compartment.
    pub(super) bends: Vec<usize>,
    /// Where each compartment's bends begin.
    starts: Vec<usize>,
}

/// Everything the string hangs on.
#[derive(Clone, Copy)]
pub(super) struct Posts<'a> {
    /// Vapor resistance summed along each compartment, by node.
    pub(super) summed: &'a [f64],
    /// Saturation by node, Pa.
    pub(super) saturation: &'a [f64],
    /// The nodes that hold water, in order.
    pub(super) wet: &'a [usize],
    /// First and last node of each compartment.
    pub(super) compartments: &'a [(usize, usize)],
    /// The room's side and the outer side.
    pub(super) shores: (Shore, Shore),
}

impl WetString {
    /// Lays the string: bends, their pressures, and what each gains.
    pub(super) fn lay(&mut self, posts: &Posts<'_>) {
        let count = posts.saturation.len();
        self.gains.clear();
        self.gains.resize(count, 0.0);
        self.pressures.resize(count, 0.0);
        self.greatest = 0.0;
        self.bends.clear();
        self.starts.clear();
        for &(from, to) in posts.compartments {
            let start = self.bends.len();
            self.starts.push(start);
            self.lay_compartment(posts, from, to);
            for at in start + 1..self.bends.len() {
                let (a, b) = (self.bends[at - 1], self.bends[at]);
                let fall = self.pressures[a] - self.pressures[b];
                let flow = fall / (posts.summed[b] - posts.summed[a]);
                self.greatest = self.greatest.max(flow.abs());
                self.gains[a] -= flow;
                self.gains[b] += flow;
            }
        }
    }

    fn lay_compartment(&mut self, posts: &Posts<'_>, from: usize, to: usize) {
        let (inner, outer) = posts.shores;
        let last = posts.saturation.len() - 1;
        let end = if to == last { outer.node } else { to + 1 };
        let (mut held, mut next) = (None, from);
        if from == 0 {
            self.bend(inner.node, inner.pressure);
            (held, next) = (Some(inner.node), inner.node + 1);
            if to == last && next > end {
                // Nothing resists: air on both sides, and diffusion says nothing about the flow.
                return;
            }
        }
        for &node in posts.wet {
            if (next..end).contains(&node) {
                self.span(posts, (held, from), node, posts.saturation[node]);
                held = Some(node);
            }
        }
        if to == last {
            self.span(posts, (held, from), outer.node, outer.pressure);
        } else if let Some(held) = held {
            let free = held + 1..=to;
            if let Some(least) = least(posts.saturation, free, self.pressures[held]) {
                self.span(posts, (Some(held), from), least, posts.saturation[least]);
            }
        }
    }

    /// The string from the last held node, or from the compartment's free end, to a held one.
    fn span(
        &mut self,
        posts: &Posts<'_>,
        (held, from): (Option<usize>, usize),
        node: usize,
        pressure: f64,
    ) {
        self.pressures[node] = pressure;
        match held {
            Some(held) => self.hull(posts, held, node),
            None => match least(posts.saturation, (from..node).rev(), pressure) {
                Some(least) => {
                    self.bend(least, posts.saturation[least]);
                    self.hull(posts, least, node);
                }
                None => self.bends.push(node),
            },
        }
    }

    /// The lower convex hull between two nodes of known pressure, the first one a bend already.
    ///
    /// The node that lies farthest below the line between the two is on the hull (the halving of
    /// quickhull, Eddy 1977): few bends and long loops without a branch, rather than a stack.
    fn hull(&mut self, posts: &Posts<'_>, a: usize, b: usize) {
        if let Some(node) = self.farthest_below(posts, a, b) {
            self.pressures[node] = posts.saturation[node];
            self.hull(posts, a, node);
            self.hull(posts, node, b);
        } else {
            self.bends.push(b);
        }
    }

    /// The node between two others whose saturation lies farthest below their line.
    fn farthest_below(&self, posts: &Posts<'_>, a: usize, b: usize) -> Option<usize> {
        let z = &posts.summed[a..=b];
        let saturation = &posts.saturation[a..=b];
        let inside = b - a;
        let (pa, pb, za) = (self.pressures[a], self.pressures[b], z[0]);
        let slope = (pb - pa) / (z[inside] - za);
        let below = |z: f64, saturation: f64| pa + slope * (z - za) - saturation;
        let pairs = || z[1..inside].iter().zip(&saturation[1..inside]);
        // Counted without a branch: most spans hold nothing.
        let any: u64 = pairs().map(|(z, s)| u64::from(below(*z, *s) > 0.0)).sum();
        if any == 0 {
            return None;
        }
        let (mut most, mut at) = (0.0, 0);
        for (n, (z, s)) in pairs().enumerate() {
            let below = below(*z, *s);
            let farther = below > most;
            most = if farther { below } else { most };
            at = if farther { n } else { at };
        }
        Some(a + 1 + at)
    }

    fn bend(&mut self, node: usize, pressure: f64) {
        self.bends.push(node);
        self.pressures[node] = pressure;
    }

    /// Fills in the pressures between bends.
    pub(super) fn fill(&mut self, posts: &Posts<'_>) {
        let z = posts.summed;
        for (n, &(from, to)) in posts.compartments.iter().enumerate() {
            let end = self.starts.get(n + 1).copied();
            let bends = &self.bends[self.starts[n]..end.unwrap_or(self.bends.len())];
            let (Some(&first), Some(&last)) = (bends.first(), bends.last()) else {
                self.pressures[from..=to].fill(f64::NAN);
                continue;
            };
            let (p_first, p_last) = (self.pressures[first], self.pressures[last]);
            self.pressures[from..first].fill(p_first);
            self.pressures[last + 1..=to].fill(p_last);
            for pair in bends.windows(2) {
                let (a, b) = (pair[0], pair[1]);
                let (pa, pb) = (self.pressures[a], self.pressures[b]);
                let slope = (pb - pa) / (z[b] - z[a]);
                for node in a + 1..b {
                    // Rounding must not lift a touching point over saturation.
                    let along = pa + slope * (z[node] - z[a]);
                    self.pressures[node] = along.min(posts.saturation[node]);
                }
            }
        }
    }

    /// Whether the string bends anywhere, or ends at a perfect barrier; else nothing gathers.
    pub(super) fn is_bent(&self) -> bool {
        self.bends.len() > 2 || self.starts.len() > 1
    }

    /// Gains up to this are rounding, kg/(m²·s): they wet nothing.
    pub(super) fn nothing(&self) -> f64 {
        1e-20 + 1e-14 * self.greatest
    }

    /// Vapor past the room's surface, kg/(m²·s): what gathers on the surface runs off before.
    pub(super) fn inflow(&self, shore: &Shore) -> f64 {
        -self.gains[..=shore.node.max(1)].iter().sum::<f64>()
    }

    /// Vapor that arrives at the outer surface from within, kg/(m²·s).
    pub(super) fn outflow(&self, shore: &Shore) -> f64 {
        let surface = self.gains.len() - 2;
        self.gains[shore.node.min(surface)..].iter().sum()
    }
}

/// The node of least saturation, if that is below a pressure; the first one met among equals.
fn least(saturation: &[f64], nodes: impl Iterator<Item = usize>, pressure: f64) -> Option<usize> {
    let mut found = (None, pressure);
    for node in nodes {
        if saturation[node] < found.1 {
            found = (Some(node), saturation[node]);
        }
    }
    found.0
}
