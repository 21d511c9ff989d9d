//! The yearly vapor balance of a path: where water gathers, how much, and when it is gone.
//!
//! Problem: twelve months of steady air on both sides, one after the other, in one dimension.
//! Temperatures are steady in each month. Vapor diffuses; where it would pass saturation it stays
//! as water (frost below 0 °C), and a node that holds water stays at saturation until it is empty.
//! Layers are split so that no piece exceeds 0.25 m²·K/W. Source: ISO 13788 (method from memory;
//! analytic cases and an independent solution in `tests/published/year.rs`).
//!
//! - `nodes`: planes and slices, the air at both ends, temperatures by month.
//! - `wet_string`: the convex string below saturation, pinned where water is held. Within a month
//!   the flows are steady until a node dries out, which `engine` finds exactly: the month is split
//!   there. No time step, no error of one.
//! - `humidity`: permeances that follow the humidity of their layer, a fixed point in each phase.
//! - `engine`: months and phases. [`solver`]: years until they are steady. `record`: their tables.
//! - [`mod@dry_out`]: a wetting that isn't the weather's. [`block`]: stretches of any length.
//!
//! The year starts with the first month that wets a dry path after one that doesn't, and is
//! repeated until a year adds the same water to every node as the one before it: nothing, or the
//! same growth. Conserved: vapor in less vapor out is the water gained, to rounding. What
//! condenses on the surfaces themselves runs off and is counted nowhere: vapor in is what passes
//! the room's surface.

pub mod block;
pub mod dry_out;
mod engine;
mod humidity;
mod nodes;
mod record;
pub mod solver;
mod wet_string;

pub use block::{BlockEnd, solve_blocks};
pub(super) use dry_out::dry_out_with;
pub use dry_out::{DryOut, Watched, dry_out};
pub use solver::{YearSolver, solve_years};

use super::profile::{Boundary, Slab};
use crate::physics::moist_air::saturation_vapor_pressure;
use crate::quantity::Temperature;

/// Days of the months of a year of 365 days, January first.
pub const MONTH_DAYS: [u32; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
/// Years run at most until the cycle is steady.
pub const MOST_CYCLES: usize = 30;

/// Seconds of a month.
pub(super) fn seconds_of(month: usize) -> f64 {
    f64::from(MONTH_DAYS[month % 12]) * 86_400.0
}

/// The steady yearly cycle of a path.
#[derive(Clone, Debug, PartialEq)]
pub struct Year {
    /// The months, January first.
    pub months: [Month; 12],
    /// Water at each plane, from the room's surface to the outer one: one more than layers.
    pub planes: Vec<WaterYear>,
    /// Water at the slices inside each layer, together.
    pub inside: Vec<WaterYear>,
    /// The month the reckoning starts with: the first that condenses after one that doesn't, or
    /// January where every month does. `None` where nothing ever condenses.
    pub start: Option<usize>,
    /// Yearly cycles run.
    pub cycles: usize,
    /// Whether the cycle became steady; the same growth in every year counts as steady too.
    pub settled: bool,
    /// Whether humidity-dependent permeances fitted the humidity in every step.
    pub converged: bool,
}

/// One month of the steady cycle.
#[derive(Clone, Debug, PartialEq)]
pub struct Month {
    /// Temperature of each plane, °C.
    pub temperatures: Vec<f64>,
    /// Vapor pressure at each plane, Pa, the mean over the month; `None` between two perfect
    /// barriers with no water between them.
    pub pressures: Vec<Option<f64>>,
    /// Vapor past the room's surface into the layers, kg/m² in the month.
    pub vapor_in: f64,
    /// Vapor from the layers to the outer surface, kg/m² in the month.
    pub vapor_out: f64,
}

impl Month {
    /// Saturation pressure at a share of a layer's thickness from its inner plane, Pa; `0.0` is the
    /// inner plane, `1.0` the outer one. The temperature is taken linear between them.
    #[must_use]
    pub fn saturation(&self, layer: usize, share: f64) -> f64 {
        let inner = self.temperatures[layer];
        let outer = self.temperatures.get(layer + 1).copied().unwrap_or(inner);
        let celsius = inner + share * (outer - inner);
        saturation_vapor_pressure(Temperature::from_celsius(celsius)).as_pa()
    }

    /// Relative humidity at a plane as a fraction, over ice below 0 °C; `None` where the pressure
    /// isn't known.
    #[must_use]
    pub fn humidity(&self, plane: usize) -> Option<f64> {
        let saturation = self.saturation(plane, 0.0);
        self.pressures[plane].map(|pressure| pressure / saturation)
    }
}

impl Year {
    /// Permeance of a layer in a month, kg/(s·m²·Pa): the vapor that passed it over the mean
    /// difference of pressure across it. `None` where that difference is too small to tell.
    #[must_use]
    pub fn permeance(&self, month: usize, layer: usize) -> Option<f64> {
        let state = &self.months[month];
        let across = state.pressures[layer]? - state.pressures[layer + 1]?;
        // What stayed at the planes and layers before it doesn't pass it.
        let planes = self.planes[..=layer].iter();
        let before: f64 = planes.map(|water| water.change[month]).sum();
        let layers = self.inside[..layer].iter();
        let inside: f64 = layers.map(|water| water.change[month]).sum();
        let stays = self.inside[layer].change[month];
        let passed = (state.vapor_in - before - inside) / seconds_of(month);
        let told = across.abs() > 1.0 && stays.abs() < 1e-9;
        told.then(|| passed / across)
            .filter(|permeance| *permeance > 0.0)
    }
}

/// Water at one place through the steady year, months from January.
#[derive(Clone, Debug, PartialEq)]
pub struct WaterYear {
    /// Gained (+) or lost (−) in each month, kg/m².
    pub change: [f64; 12],
    /// Held at each month's end, kg/m². A place that is never dry keeps what it gained in
    /// earlier years, as many as were reckoned: there it counts from the least of this year.
    pub held: [f64; 12],
    /// The most held, kg/m², counted as `held` is.
    pub peak: f64,
    /// The month in which that is reached.
    pub peak_month: Option<usize>,
    /// The first month of the wet spell around the peak.
    pub first_wet: Option<usize>,
    /// The last month of that spell, in which it ends.
    pub last_wet: Option<usize>,
    /// The month in which it is dry again; `None` if never wet or never dry.
    pub dry_by: Option<usize>,
    /// Gained from one year to the next in the steady cycle, kg/m².
    pub left_over: f64,
    /// Whether it is wet at every moment of the year.
    pub never_dry: bool,
    /// Whether what is held in a month is frost: below 0 °C; inside a layer, at any slice.
    pub is_ice: [bool; 12],
}

impl WaterYear {
    /// Water at several places that are one to whoever judges it, such as the slices of one
    /// insulation written as two layers; `None` of no place.
    ///
    /// Within a month the sum may pass what it is at the month's ends by what one place loses while
    /// another gains: its peak is that of the ends, or of the wettest place alone.
    #[must_use]
    pub fn together(places: &[&Self]) -> Option<Self> {
        let wettest = *places
            .iter()
            .reduce(|a, b| if b.peak > a.peak { b } else { a })?;
        if places.len() == 1 {
            return Some(wettest.clone());
        }
        let sum = |of: fn(&Self, usize) -> f64| -> [f64; 12] {
            std::array::from_fn(|month| places.iter().map(|place| of(place, month)).sum())
        };
        let held = sum(|place, month| place.held[month]);
        let fullest = (0..12).max_by(|a, b| held[*a].total_cmp(&held[*b]))?;
        let (peak, peak_month) = match held[fullest] > wettest.peak {
            true => (held[fullest], Some(fullest)),
            false => (wettest.peak, wettest.peak_month),
        };
        Some(Self {
            change: sum(|place, month| place.change[month]),
            held,
            peak,
            peak_month,
            left_over: places.iter().map(|place| place.left_over).sum(),
            never_dry: places.iter().any(|place| place.never_dry),
            is_ice: std::array::from_fn(|month| places.iter().any(|place| place.is_ice[month])),
            ..wettest.clone()
        })
    }
}

/// Solves the year of a path.
///
/// # Example
/// A sheathing too tight for the room behind it:
/// ```
/// use dewmargin::model::AirState;
/// use dewmargin::quantity::{RelativeHumidity, Temperature, ThermalResistance};
/// use dewmargin::solve::profile::{Boundary, Slab, SlabHeat};
/// use dewmargin::solve::year::solve_year;
///
/// let air = |celsius, humidity| AirState {
///     temperature: Temperature::from_celsius(celsius),
///     humidity: RelativeHumidity::from_fraction(humidity),
/// };
/// let slab = |r, permeance: f64| Slab {
///     heat: SlabHeat::Fixed(ThermalResistance::from_si(r)),
///     vapor_resistance: 1.0 / permeance,
///     by_humidity: Vec::new(),
/// };
/// let outdoors = [-5.0, -4.0, 1.0, 7.0, 13.0, 18.0, 21.0, 20.0, 15.0, 9.0, 3.0, -3.0];
/// let months = outdoors.map(|celsius| Boundary {
///     indoor: air(20.0, 0.5),
///     outdoor: air(celsius, 0.8),
///     interior_film: ThermalResistance::from_si(0.13),
///     exterior_film: ThermalResistance::from_si(0.04),
///     interior_vapor_film: 0.0,
///     exterior_vapor_film: 0.0,
/// });
/// let year = solve_year(&[slab(1.9, 1.7e-9), slab(0.11, 5.0e-11)], &months);
/// assert_eq!(year.start, Some(10)); // wet from November on: 1168 Pa passes 9.8 °C in October
/// assert_eq!(year.planes[1].dry_by, Some(7)); // dry again in August
/// assert!(year.planes[1].peak > 1.0); // kg/m²
/// assert!(year.settled && year.planes[1].left_over == 0.0);
/// ```
#[must_use]
pub fn solve_year(slabs: &[Slab], months: &[Boundary; 12]) -> Year {
    YearSolver::default().solve(slabs, months)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A place that holds so much, kg/m², at the end of January and of February, and dries in March.
    fn place(january: f64, february: f64) -> WaterYear {
        let mut held = [0.0; 12];
        (held[0], held[1]) = (january, february);
        let before = |month: usize| held[(month + 11) % 12];
        WaterYear {
            change: std::array::from_fn(|month| held[month] - before(month)),
            held,
            peak: january.max(february),
            peak_month: Some(usize::from(february > january)),
            first_wet: Some(0),
            last_wet: Some(2),
            dry_by: Some(2),
            left_over: 0.0,
            never_dry: false,
            is_ice: [false; 12],
        }
    }

    // Two slices of one insulation: what they hold and gain is the sum, month by month, and the peak is
    // that of the sum, in February, though the wetter one has its own in January.
    #[test]
    fn places_that_are_one_hold_what_they_hold_together() {
        let (one, other) = (place(0.3, 0.25), place(0.05, 0.2));
        let both = WaterYear::together(&[&one, &other]).expect("two places");
        let sums = [0.3 + 0.05, 0.25 + 0.2];
        assert_eq!(both.held[..2], sums);
        assert_eq!((both.peak, both.peak_month), (sums[1], Some(1)));
        assert_eq!(both.change[0], sums[0]);
        assert_eq!(WaterYear::together(&[&one]), Some(one));
        assert_eq!(WaterYear::together(&[]), None);
    }
}
