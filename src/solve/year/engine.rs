//! One month after another: the string is laid, water grows and shrinks at a steady rate until a
//! node dries out or the month ends.

use super::nodes::{Nodes, Weather};
use super::wet_string::{Posts, WetString};
use crate::solve::profile::{Boundary, Slab};

/// Phases of a month whose permeances are remembered for the next year.
const REMEMBERED: usize = 3;
/// A node that dries keeps this part of its water by rounding.
const ROUNDING: f64 = 1e-14;

/// The reckoning with all its room to work in: used again, it asks for no memory.
#[derive(Debug, Default)]
pub(super) struct Engine {
    pub(super) nodes: Nodes,
    pub(super) weather: Weather,
    pub(super) string: WetString,
    /// Water held by node, kg/m².
    pub(super) water: Vec<f64>,
    /// Whether the permeances fitted the humidity in every phase so far.
    pub(super) consistent: bool,
    summed: Vec<f64>,
    /// The nodes that hold water, in order.
    wet: Vec<usize>,
    /// Logarithms of the resistances of the layers that follow their humidity.
    pub(super) logs: Vec<f64>,
    /// What the humidity makes of them.
    pub(super) answers: Vec<f64>,
    /// The secant's last logarithms and answers.
    pub(super) before: Vec<(f64, f64)>,
    remembered: Vec<f64>,
}

/// A stretch of steady flows.
pub(super) struct Phase<'a> {
    pub(super) seconds: f64,
    /// Vapor past the room's surface and to the outer one, kg/(m²·s).
    pub(super) flows: (f64, f64),
    /// By node, Pa; filled where [`Engine::month`] is asked to.
    pub(super) pressures: &'a [f64],
    /// By node at the end of the phase, kg/m².
    pub(super) water: &'a [f64],
}

impl Engine {
    /// Lays out the nodes under a list of boundaries, here called months, all dry.
    pub(super) fn prepare(&mut self, slabs: &[Slab], months: &[Boundary]) {
        self.weather.prepare(&mut self.nodes, slabs, months);
        self.consistent = true;
        self.wet.clear();
        self.water.clear();
        self.water.resize(self.nodes.count(), 0.0);
        self.nodes.sum_up(&mut self.summed);
        let layers = &self.nodes.layers;
        self.logs.clear();
        self.logs.extend(layers.iter().map(|layer| {
            let (low, high) = layer.range();
            let steps = self.nodes.steps[layer.first..layer.last].iter();
            libm::log(steps.sum::<f64>()).clamp(low, high)
        }));
        self.answers.clone_from(&self.logs);
        self.before.clear();
        self.before.resize(layers.len(), (0.0, 0.0));
        self.remembered.clear();
        let size = months.len() * REMEMBERED * layers.len();
        self.remembered.resize(size, f64::NAN);
    }

    /// The nodes that may hold water: from a surface it runs off.
    pub(super) fn holding(&self, month: usize) -> std::ops::Range<usize> {
        let (inner, outer) = &self.weather.shores[month];
        let surface = self.nodes.count() - 2;
        inner.node.max(1) + 1..outer.node.min(surface)
    }

    /// Lays the string under a month's air for the resistances as they stand.
    fn lay(&mut self, month: usize, fill: bool) {
        let shores = self.weather.shores[month];
        let last = self.summed.len() - 1;
        self.summed[0] = -shores.0.film;
        self.summed[last] = self.summed[last - 1] + shores.1.film;
        let posts = Posts {
            summed: &self.summed,
            saturation: self.weather.saturation(month),
            wet: &self.wet,
            compartments: &self.nodes.compartments,
            shores,
        };
        self.string.lay(&posts);
        if fill {
            self.string.fill(&posts);
        }
    }

    /// Lays the string for the resistances in `logs` and says what the humidity then makes of
    /// them.
    pub(super) fn respond(&mut self, month: usize) {
        for layer in 0..self.logs.len() {
            self.nodes.resist(layer, self.logs[layer]);
        }
        self.nodes.sum_up(&mut self.summed);
        self.lay(month, true);
        let saturation = self.weather.saturation(month);
        for (n, layer) in self.nodes.layers.iter().enumerate() {
            let humidity = |node: usize| self.string.pressures[node] / saturation[node];
            let (first, last) = (layer.first, layer.last);
            let ends = 0.5 * (humidity(first) + humidity(last));
            let sum = ends + (first + 1..last).map(humidity).sum::<f64>();
            let mean = sum / (last - first) as f64;
            // Between two perfect barriers nothing is known, and nothing follows.
            self.answers[n] = if mean.is_nan() {
                self.logs[n]
            } else {
                layer.log_resistance_at(mean)
            };
        }
    }

    fn solve(&mut self, month: usize, phase: usize, fill: bool) {
        let layers = self.logs.len();
        if layers == 0 {
            self.lay(month, fill);
            return;
        }
        let slot = (month * REMEMBERED + phase.min(REMEMBERED - 1)) * layers;
        let slot = slot..slot + layers;
        if self.remembered[slot.start].is_finite() {
            self.logs.copy_from_slice(&self.remembered[slot.clone()]);
        }
        self.consistent &= self.fit_humidity(month);
        self.remembered[slot].copy_from_slice(&self.logs);
    }

    /// Whether water would gather in a month; asked while all is dry.
    pub(super) fn condenses(&mut self, month: usize) -> bool {
        if let Some(straight) = self.straight_line_condenses(month) {
            return straight;
        }
        self.solve(month, 0, false);
        let nothing = self.string.nothing();
        self.string.is_bent()
            && self.string.gains[self.holding(month)]
                .iter()
                .any(|gain| *gain > nothing)
    }

    /// The same by the straight line from air to air, where that is enough to tell: without
    /// barriers, vapor films and layers that follow their humidity, and not by a hair.
    fn straight_line_condenses(&self, month: usize) -> Option<bool> {
        const HAIR: f64 = 1e-9;
        let (inner, outer) = &self.weather.shores[month];
        let one_piece = self.nodes.compartments.len() == 1 && self.logs.is_empty();
        let last = self.nodes.count() - 1;
        if !one_piece || inner.node == 0 || outer.node == last || inner.node >= outer.node {
            return None;
        }
        let (z, saturation) = (&self.summed, self.weather.saturation(month));
        let (from, to) = (inner.node, outer.node);
        let slope = (outer.pressure - inner.pressure) / (z[to] - z[from]);
        let (mut over, mut near) = (0_u64, 0_u64);
        for (z_at, saturation) in z[from + 1..to].iter().zip(&saturation[from + 1..to]) {
            let pressure = inner.pressure + slope * (z_at - z[from]);
            over += u64::from(pressure > saturation * (1.0 + HAIR));
            near += u64::from(pressure > saturation * (1.0 - HAIR));
        }
        match (over, near) {
            (0, 0) => Some(false),
            (0, _) => None,
            _ => Some(true),
        }
    }

    /// Finds the nodes that hold water, and whether there are none.
    pub(super) fn is_dry(&mut self) -> bool {
        self.wet.clear();
        let water = self.water.iter().enumerate();
        self.wet.extend(
            water
                .filter(|(_, water)| **water > 0.0)
                .map(|(node, _)| node),
        );
        self.wet.is_empty()
    }

    /// Runs a month, or a part of it, and shows each phase to `watch` until that says stop.
    pub(super) fn month(
        &mut self,
        month: usize,
        seconds: f64,
        fill: bool,
        mut watch: impl FnMut(&Phase<'_>) -> bool,
    ) {
        let holding = self.holding(month);
        let shores = self.weather.shores[month];
        let mut left = seconds;
        self.is_dry();
        // Each phase but the last empties a node; with humidity one may fill again.
        let most = 3 * self.nodes.count() + 10;
        for phase in 0..most {
            self.solve(month, phase, fill);
            let mut span = left;
            if phase + 1 < most {
                span = self.until_dry().min(left);
            } else {
                self.consistent = false;
            }
            self.gather(&holding, span);
            let shown = Phase {
                seconds: span,
                flows: (
                    self.string.inflow(&shores.0),
                    self.string.outflow(&shores.1),
                ),
                pressures: &self.string.pressures,
                water: &self.water,
            };
            left -= span;
            if !watch(&shown) || left <= 0.0 {
                return;
            }
        }
    }

    /// Seconds until the first wet node is dry.
    fn until_dry(&self) -> f64 {
        let rates = self
            .wet
            .iter()
            .map(|node| (self.water[*node], self.string.gains[*node]));
        rates
            .filter(|(_, gain)| *gain < 0.0)
            .fold(f64::INFINITY, |least, (water, gain)| {
                least.min(water / -gain)
            })
    }

    /// Lets the water grow and shrink: at the bends, where alone the flow changes. Wet nodes are
    /// bends as well.
    fn gather(&mut self, holding: &std::ops::Range<usize>, seconds: f64) {
        let nothing = self.string.nothing();
        self.wet.clear();
        for &node in &self.string.bends {
            if !holding.contains(&node) {
                continue;
            }
            let (before, gain) = (self.water[node], self.string.gains[node]);
            let mut now = 0.0;
            if before > 0.0 {
                now = before + gain * seconds;
                // What rounding leaves of a node that dried is nothing.
                now = if now > ROUNDING * before { now } else { 0.0 };
            } else if gain > nothing {
                now = gain * seconds;
            }
            self.water[node] = now;
            if now > 0.0 {
                self.wet.push(node);
            }
        }
    }
}
