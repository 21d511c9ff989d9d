//! What a year of phases comes to, place by place.

use super::engine::{Engine, Phase};
use super::{Month, WaterYear};

/// Sums over one year, taken while it runs.
#[derive(Debug)]
pub(super) struct Record {
    planes: usize,
    /// Which place the water of each node belongs to: planes first, then the layers' insides.
    place_of: Vec<Option<usize>>,
    /// Pa·s and the seconds in which the pressure was known, by month and plane.
    pressures: Vec<Vec<(f64, f64)>>,
    flows: [(f64, f64); 12],
    places: Vec<Place>,
    amounts: Vec<f64>,
}

/// One place through the year, kg/m².
#[derive(Clone, Debug, Default)]
struct Place {
    at_start: f64,
    at_end_of: [f64; 12],
    wet_in: [bool; 12],
    peak: f64,
    peak_month: usize,
    least: f64,
    latest: f64,
}

/// To which place the water of each node belongs: a plane, or the inside of a layer.
pub(super) fn places(engine: &Engine) -> Vec<Option<usize>> {
    let planes = &engine.nodes.planes;
    let mut place_of = vec![None; engine.nodes.count()];
    for (plane, node) in planes.iter().enumerate() {
        place_of[*node] = Some(plane);
        if let Some(next) = planes.get(plane + 1) {
            place_of[node + 1..*next].fill(Some(planes.len() + plane));
        }
    }
    place_of
}

impl Record {
    pub(super) fn new(engine: &Engine) -> Self {
        let planes = engine.nodes.planes.len();
        Self {
            planes,
            place_of: places(engine),
            pressures: vec![vec![(0.0, 0.0); planes]; 12],
            flows: [(0.0, 0.0); 12],
            places: vec![Place::default(); 2 * planes - 1],
            amounts: vec![0.0; 2 * planes - 1],
        }
    }

    /// Begins a year with the water the last one left.
    pub(super) fn begin(&mut self, water: &[f64]) {
        for month in &mut self.pressures {
            month.fill((0.0, 0.0));
        }
        self.flows = [(0.0, 0.0); 12];
        self.add_up(water);
        for (place, amount) in self.places.iter_mut().zip(&self.amounts) {
            *place = Place {
                at_start: *amount,
                least: *amount,
                latest: *amount,
                ..Place::default()
            };
        }
    }

    fn add_up(&mut self, water: &[f64]) {
        self.amounts.fill(0.0);
        for (place, water) in self.place_of.iter().zip(water) {
            if let Some(place) = place {
                self.amounts[*place] += water;
            }
        }
    }

    pub(super) fn note(&mut self, month: usize, phase: &Phase<'_>, planes: &[usize]) {
        self.flows[month].0 += phase.flows.0 * phase.seconds;
        self.flows[month].1 += phase.flows.1 * phase.seconds;
        for (sum, node) in self.pressures[month].iter_mut().zip(planes) {
            let pressure = phase.pressures[*node];
            if !pressure.is_nan() {
                *sum = (sum.0 + pressure * phase.seconds, sum.1 + phase.seconds);
            }
        }
        self.add_up(phase.water);
        for (place, amount) in self.places.iter_mut().zip(&self.amounts) {
            place.wet_in[month] |= place.latest > 0.0 || *amount > 0.0;
            if *amount > place.peak {
                (place.peak, place.peak_month) = (*amount, month);
            }
            place.least = place.least.min(*amount);
            place.latest = *amount;
            place.at_end_of[month] = *amount;
        }
    }

    /// The months' table.
    pub(super) fn months(&self, engine: &Engine) -> [Month; 12] {
        std::array::from_fn(|month| {
            let temperatures = engine.weather.temperatures(month);
            let mean = |sum: &(f64, f64)| (sum.1 > 0.0).then(|| sum.0 / sum.1);
            Month {
                temperatures: engine
                    .nodes
                    .planes
                    .iter()
                    .map(|n| temperatures[*n])
                    .collect(),
                pressures: self.pressures[month].iter().map(mean).collect(),
                vapor_in: self.flows[month].0,
                vapor_out: self.flows[month].1,
            }
        })
    }

    /// Water at the planes and inside the layers, in a year that began with month `start`.
    pub(super) fn water(&self, engine: &Engine, start: usize) -> (Vec<WaterYear>, Vec<WaterYear>) {
        let mut all: Vec<WaterYear> = self.places.iter().map(|place| place.year(start)).collect();
        for month in 0..12 {
            let temperatures = engine.weather.temperatures(month);
            for (place, celsius) in self.place_of.iter().zip(temperatures) {
                if let Some(place) = place {
                    all[*place].is_ice[month] |= *celsius < 0.0;
                }
            }
        }
        let inside = all.split_off(self.planes);
        (all, inside)
    }
}

impl Place {
    fn year(&self, start: usize) -> WaterYear {
        let before = |month: usize| {
            if month == start {
                self.at_start
            } else {
                self.at_end_of[(month + 11) % 12]
            }
        };
        let never_dry = self.least > 0.0;
        let ever_wet = self.wet_in.contains(&true);
        let change = std::array::from_fn(|month| self.at_end_of[month] - before(month));
        let mut year = WaterYear {
            change,
            held: self.at_end_of.map(|held| held - self.least),
            peak: self.peak - self.least,
            peak_month: ever_wet.then_some(self.peak_month),
            first_wet: None,
            last_wet: None,
            dry_by: None,
            left_over: self.latest - self.at_start,
            never_dry,
            is_ice: [false; 12],
        };
        if !ever_wet {
            return year;
        }
        if never_dry {
            // Wet all year: from the month that first gains after one that loses.
            let order = (0..12).map(|n| (start + n) % 12);
            let turns = |m: &usize| change[*m] > 0.0 && change[(*m + 11) % 12] <= 0.0;
            let first = order.clone().find(turns).unwrap_or(start);
            year.first_wet = Some(first);
            year.last_wet = Some((first + 11) % 12);
            return year;
        }
        // The spell around the peak: back and forth until a month's end is dry.
        let (mut first, mut last) = (self.peak_month, self.peak_month);
        for _ in 0..11 {
            if self.at_end_of[(first + 11) % 12] <= 0.0 {
                break;
            }
            first = (first + 11) % 12;
        }
        for _ in 0..11 {
            if self.at_end_of[last] <= 0.0 {
                break;
            }
            last = (last + 1) % 12;
        }
        year.first_wet = Some(first);
        year.last_wet = Some(last);
        year.dry_by = Some(last);
        year
    }
}
