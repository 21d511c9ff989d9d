//! The nodes of a path through the year: planes, the slices between them, the air at both ends.
//!
//! Node 0 is room air, node 1 the room's surface, the last node outdoor air and the one before it
//! the outer surface. Perfect barriers cut the nodes into compartments that no vapor leaves.

use crate::physics::moist_air::saturation_vapor_pressures;
use crate::physics::vapor::log_resistance_at;
use crate::solve::chain::{Heat, solve_heat};
use crate::solve::profile::{Boundary, Slab, SlabHeat};

/// Steps of less vapor resistance count as this, m²·s·Pa/kg: 20 µm of still air. It keeps the
/// flow between two wet planes finite where nothing lies between them. At the air it is no
/// resistance at all: such planes are at the air's own pressure.
const LEAST_STEP: f64 = 1.0e5;
/// Steps of more resistance count as this: a pinhole in a square kilometer.
const GREATEST_STEP: f64 = 1.0e20;

/// A layer whose vapor resistance follows its humidity.
#[derive(Debug)]
pub(super) struct Layer {
    pub(super) first: usize,
    pub(super) last: usize,
    /// Humidity and the logarithm of the resistance there.
    points: Vec<(f64, f64)>,
}

impl Layer {
    pub(super) fn log_resistance_at(&self, humidity: f64) -> f64 {
        log_resistance_at(&self.points, humidity)
    }

    /// Least and greatest logarithm of the resistance.
    pub(super) fn range(&self) -> (f64, f64) {
        let logs = self.points.iter().map(|(_, log)| *log);
        logs.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), log| {
            (low.min(log), high.max(log))
        })
    }
}

/// What doesn't change through the year.
#[derive(Debug, Default)]
pub(super) struct Nodes {
    /// Vapor resistance from each node to the next; the films stand in the months.
    pub(super) steps: Vec<f64>,
    /// The node of each plane.
    pub(super) planes: Vec<usize>,
    /// First and last node of each compartment.
    pub(super) compartments: Vec<(usize, usize)>,
    /// The layers that follow their humidity.
    pub(super) layers: Vec<Layer>,
    /// Thermal resistance from the room's surface to each node, where it is fixed.
    depth: Vec<f64>,
}

impl Nodes {
    /// How many nodes, both airs included.
    pub(super) fn count(&self) -> usize {
        self.steps.len() + 1
    }

    fn lay_out(&mut self, slabs: &[Slab], resistance: impl Fn(usize) -> f64) {
        let Self {
            steps,
            planes,
            compartments,
            layers,
            depth,
        } = self;
        steps.clear();
        steps.push(0.0);
        planes.clear();
        planes.push(1);
        depth.clear();
        depth.extend([0.0, 0.0]);
        layers.clear();
        compartments.clear();
        let (mut start, mut sum) = (0, 0.0);
        for (n, slab) in slabs.iter().enumerate() {
            let first = steps.len();
            let r = resistance(n);
            let pieces = slab.pieces(crate::quantity::ThermalResistance::from_si(r));
            if slab.vapor_resistance.is_infinite() {
                compartments.push((start, first));
                start = first + 1;
            }
            let step = slab.vapor_resistance / pieces as f64;
            let step = if step.is_finite() {
                step.clamp(LEAST_STEP, GREATEST_STEP)
            } else {
                f64::INFINITY
            };
            for piece in 1..=pieces {
                steps.push(step);
                depth.push(sum + r * piece as f64 / pieces as f64);
            }
            sum += r;
            let last = first + pieces;
            planes.push(last);
            if !slab.by_humidity.is_empty() && step.is_finite() {
                let log = |(humidity, z): &(f64, f64)| {
                    (*humidity, libm::log(z.clamp(LEAST_STEP, GREATEST_STEP)))
                };
                let points = slab.by_humidity.iter().map(log).collect();
                layers.push(Layer {
                    first,
                    last,
                    points,
                });
            }
        }
        depth.push(sum);
        steps.push(0.0);
        compartments.push((start, steps.len()));
    }

    /// Lays a layer's resistance over its steps.
    pub(super) fn resist(&mut self, layer: usize, log_resistance: f64) {
        let Layer { first, last, .. } = self.layers[layer];
        let step = libm::exp(log_resistance) / (last - first) as f64;
        self.steps[first..last].fill(step.max(LEAST_STEP));
    }

    /// Vapor resistance summed from the first plane of each compartment to its nodes.
    pub(super) fn sum_up(&self, summed: &mut Vec<f64>) {
        summed.clear();
        summed.resize(self.count(), 0.0);
        let mut sum = 0.0;
        for (node, step) in self.steps.iter().enumerate().skip(1) {
            sum = if step.is_finite() { sum + step } else { 0.0 };
            summed[node + 1] = sum;
        }
    }
}

/// The air at one end of the nodes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Shore {
    /// The innermost node at the air's own pressure: the air, or planes without any resistance
    /// between them and the air.
    pub(super) node: usize,
    /// The pressure there: the air's, or saturation where a surface is wet with dew, Pa.
    pub(super) pressure: f64,
    /// Vapor resistance of the film.
    pub(super) film: f64,
}

/// What the months bring: temperatures, saturation and the air at both ends.
#[derive(Debug, Default)]
pub(super) struct Weather {
    count: usize,
    /// °C, by month and node.
    temperatures: Vec<f64>,
    /// Pa, by month and node.
    saturation: Vec<f64>,
    /// Room side and outer side, by month.
    pub(super) shores: Vec<(Shore, Shore)>,
    laid: Laid,
}

/// What the temperatures were laid out for: the year and every drying of a path share them.
#[derive(Debug, Default)]
struct Laid {
    heats: Vec<SlabHeat>,
    barriers: Vec<bool>,
    months: Vec<Boundary>,
    /// Thermal resistances, where they vary the greatest of all months.
    resistances: Vec<f64>,
}

impl Laid {
    fn is_for(&self, slabs: &[Slab], months: &[Boundary]) -> bool {
        let is_barrier = |slab: &Slab| slab.vapor_resistance.is_infinite();
        let heats = self.heats.iter().zip(&self.barriers);
        self.heats.len() == slabs.len()
            && !slabs.is_empty()
            && self.months.len() == months.len()
            && self.months.iter().zip(months).all(is_as_warm)
            && heats
                .zip(slabs)
                .all(|((heat, barrier), slab)| *heat == slab.heat && *barrier == is_barrier(slab))
    }

    fn note(&mut self, slabs: &[Slab], months: &[Boundary]) {
        self.heats.clear();
        self.heats
            .extend(slabs.iter().map(|slab| slab.heat.clone()));
        let barriers = slabs.iter().map(|slab| slab.vapor_resistance.is_infinite());
        self.barriers.clear();
        self.barriers.extend(barriers);
        self.months.clear();
        self.months.extend_from_slice(months);
        self.resistances.clear();
    }
}

impl Weather {
    pub(super) fn temperatures(&self, month: usize) -> &[f64] {
        &self.temperatures[month * self.count..][..self.count]
    }

    pub(super) fn saturation(&self, month: usize) -> &[f64] {
        &self.saturation[month * self.count..][..self.count]
    }

    /// Lays out nodes and months.
    pub(super) fn prepare(&mut self, nodes: &mut Nodes, slabs: &[Slab], months: &[Boundary]) {
        if self.laid.is_for(slabs, months) {
            // Only resistances to vapor are other ones: it is as warm as before.
            let resistances = &self.laid.resistances;
            nodes.lay_out(slabs, |n| resistances[n]);
        } else {
            self.lay_out(nodes, slabs, months);
        }
        self.shores.clear();
        for (month, boundary) in months.iter().enumerate() {
            let shores = self.both_shores(nodes, month, boundary);
            self.shores.push(shores);
        }
    }

    fn lay_out(&mut self, nodes: &mut Nodes, slabs: &[Slab], months: &[Boundary]) {
        let fixed = |slab: &Slab| match slab.heat {
            SlabHeat::Fixed(r) => Some(r.as_si()),
            SlabHeat::Curve(..) => None,
        };
        self.laid.note(slabs, months);
        let resistances = &mut self.laid.resistances;
        self.temperatures.clear();
        if slabs.iter().all(|slab| fixed(slab).is_some()) {
            resistances.extend(slabs.iter().filter_map(fixed));
            nodes.lay_out(slabs, |n| resistances[n]);
            months
                .iter()
                .for_each(|month| self.straight(&nodes.depth, month));
        } else {
            let heats: Vec<Heat> = months
                .iter()
                .map(|month| solve_heat(slabs, month))
                .collect();
            let of = |n: usize| heats.iter().map(move |heat| heat.resistances[n].as_si());
            resistances.extend((0..slabs.len()).map(|n| of(n).fold(0.0, f64::max)));
            nodes.lay_out(slabs, |n| resistances[n]);
            for (month, heat) in months.iter().zip(&heats) {
                self.between_planes(&nodes.planes, month, heat);
            }
        }
        self.count = nodes.count();
        self.saturation.resize(self.temperatures.len(), 0.0);
        saturation_vapor_pressures(&self.temperatures, &mut self.saturation);
    }

    /// Temperatures where every resistance is fixed: linear in the two air temperatures.
    fn straight(&mut self, depth: &[f64], month: &Boundary) {
        let (indoor, outdoor) = air_temperatures(month);
        let within = depth.last().copied().unwrap_or(0.0);
        let film = month.interior_film.as_si();
        let total = film + within + month.exterior_film.as_si();
        let flux = if total > 0.0 {
            (indoor - outdoor) / total
        } else {
            0.0
        };
        let from = self.temperatures.len();
        let at = |depth: &f64| indoor - flux * (film + depth);
        self.temperatures.extend(depth.iter().map(at));
        self.temperatures[from] = indoor;
        if let Some(last) = self.temperatures.last_mut() {
            *last = outdoor;
        }
    }

    /// Temperatures between planes that are known.
    fn between_planes(&mut self, planes: &[usize], month: &Boundary, heat: &Heat) {
        let (indoor, outdoor) = air_temperatures(month);
        self.temperatures.extend([indoor, heat.temperatures[0]]);
        for (n, pair) in planes.windows(2).enumerate() {
            let (t1, t2) = (heat.temperatures[n], heat.temperatures[n + 1]);
            let pieces = pair[1] - pair[0];
            let at = |piece: usize| t1 + (t2 - t1) * piece as f64 / pieces as f64;
            self.temperatures.extend((1..=pieces).map(at));
        }
        self.temperatures.push(outdoor);
    }

    fn both_shores(&self, nodes: &Nodes, month: usize, boundary: &Boundary) -> (Shore, Shore) {
        let saturation = self.saturation(month);
        let steps = &nodes.steps;
        let last = nodes.count() - 1;
        let room = boundary.indoor.humidity.as_fraction() * saturation[0];
        let outdoors = boundary.outdoor.humidity.as_fraction() * saturation[last];
        let mut inner = Shore::of_air(0, room, boundary.interior_vapor_film);
        let mut outer = Shore::of_air(last, outdoors, boundary.exterior_vapor_film);
        // From the air inward as long as nothing resists.
        let mut step = inner.film;
        while step <= LEAST_STEP && inner.node + 1 < last {
            inner.node += 1;
            inner.pressure = inner.pressure.min(saturation[inner.node]);
            step = steps[inner.node];
        }
        let mut step = outer.film;
        while step <= LEAST_STEP && outer.node > 1 {
            outer.node -= 1;
            outer.pressure = outer.pressure.min(saturation[outer.node]);
            step = steps[outer.node - 1];
        }
        (inner, outer)
    }
}

impl Shore {
    fn of_air(node: usize, pressure: f64, film: f64) -> Self {
        Self {
            node,
            pressure,
            film: film.min(GREATEST_STEP),
        }
    }
}

/// Whether it is as warm in one as in the other, whatever their humidity.
fn is_as_warm((one, other): (&Boundary, &Boundary)) -> bool {
    air_temperatures(one) == air_temperatures(other)
        && one.interior_film == other.interior_film
        && one.exterior_film == other.exterior_film
}

fn air_temperatures(month: &Boundary) -> (f64, f64) {
    (
        month.indoor.temperature.as_celsius(),
        month.outdoor.temperature.as_celsius(),
    )
}
