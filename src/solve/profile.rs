//! Temperatures and vapor pressures along one path.
//!
//! Problem: a chain of plane layers between room air and outdoor air, steady, one-dimensional.
//! Heat: the same flux q through every resistance, so the plane temperatures are
//! θ = θ_i·1 − q·c with c the vector of resistances summed from the room. Vapor: the same in
//! vapor resistances, where nothing condenses; [`super::string`] corrects it where something does.
//! Conductivities that depend on temperature are iterated until no plane moves by more than
//! 10⁻⁹ K. Conserved: the heat flux, to rounding. Exact: no discretization error in temperature.

use super::chain::{Heat, solve_heat};
use super::string::vapor_string;
use crate::model::AirState;
use crate::physics::moist_air::{
    dew_point, saturation_slope, saturation_vapor_pressure, vapor_pressure,
};
use crate::quantity::{
    Conductivity, Length, Pressure, Temperature, TemperatureDifference, ThermalResistance,
};

/// Layers are split so that no piece exceeds this, m²·K/W, when condensation is looked for.
///
/// Source: ISO 13788, subdivision of insulating layers.
pub const LARGEST_PIECE: f64 = 0.25;

/// How a layer resists heat.
#[derive(Clone, Debug, PartialEq)]
pub enum SlabHeat {
    /// A fixed resistance.
    Fixed(ThermalResistance),
    /// Conductivity by mean temperature, over a thickness.
    Curve(Length, Vec<(Temperature, Conductivity)>),
}

/// One plane layer of a path.
#[derive(Clone, Debug, PartialEq)]
pub struct Slab {
    /// Resistance to heat.
    pub heat: SlabHeat,
    /// Resistance to vapor, m²·s·Pa/kg; infinite for a perfect barrier.
    pub vapor_resistance: f64,
    /// Mean relative humidity of the layer (a fraction, rising) and its vapor resistance there,
    /// m²·s·Pa/kg; empty where `vapor_resistance` holds at any humidity. Only the year follows it.
    pub by_humidity: Vec<(f64, f64)>,
}

impl Slab {
    /// Into how many pieces the layer is split where condensation is looked for, given its
    /// resistance: none exceeds [`LARGEST_PIECE`]. A perfect barrier has no inside that vapor
    /// could reach.
    pub(super) fn pieces(&self, resistance: ThermalResistance) -> usize {
        if self.vapor_resistance.is_infinite() {
            return 1;
        }
        (resistance.as_si() / LARGEST_PIECE)
            .ceil()
            .clamp(1.0, 400.0) as usize
    }
}

/// Air and film on both sides of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boundary {
    /// Room air.
    pub indoor: AirState,
    /// Outdoor air.
    pub outdoor: AirState,
    /// Film at the room's surface, m²·K/W.
    pub interior_film: ThermalResistance,
    /// Film at the outer surface, m²·K/W.
    pub exterior_film: ThermalResistance,
    /// Vapor resistance of the interior film, m²·s·Pa/kg; zero where it is neglected.
    pub interior_vapor_film: f64,
    /// Vapor resistance of the exterior film, m²·s·Pa/kg.
    pub exterior_vapor_film: f64,
}

/// The state at one plane: a surface, or the boundary of two layers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlaneState {
    /// Temperature.
    pub temperature: Temperature,
    /// Saturation pressure at that temperature.
    pub saturation: Pressure,
    /// Vapor pressure by diffusion before condensation is taken out; `None` between two perfect
    /// barriers, where diffusion says nothing.
    pub vapor_pressure: Option<Pressure>,
    /// Dew point of that vapor.
    pub dew_point: Option<Temperature>,
    /// Temperature minus that dew point; negative where vapor condenses.
    pub dew_point_margin: Option<TemperatureDifference>,
    /// Vapor pressure with condensation taken out: never above saturation.
    pub corrected_pressure: Option<Pressure>,
    /// Water condensing at the plane, kg/(m²·s).
    pub condensing_flow: f64,
}

/// The least dew-point margin inside a layer, where it is less than at both its planes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InnerMinimum {
    /// Which layer, counted from the room.
    pub slab: usize,
    /// How far into the layer, as a fraction of its thickness.
    pub position: f64,
    /// The margin there.
    pub margin: TemperatureDifference,
}

/// The solved path.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// Planes from the room's surface to the outer surface: one more than there are layers.
    pub planes: Vec<PlaneState>,
    /// Resistance of each layer, m²·K/W.
    pub resistances: Vec<ThermalResistance>,
    /// Total resistance, films included.
    pub total_resistance: ThermalResistance,
    /// Heat flux from the room outward, W/m².
    pub heat_flux: f64,
    /// Least margins inside layers.
    pub inner_minima: Vec<InnerMinimum>,
    /// Water condensing inside each layer, kg/(m²·s).
    pub condensing_inside: Vec<f64>,
    /// Vapor entering from the room, kg/(m²·s), condensation taken into account.
    pub vapor_in: f64,
    /// Vapor leaving to outdoors, kg/(m²·s).
    pub vapor_out: f64,
    /// Whether temperature-dependent conductivities settled.
    pub converged: bool,
}

impl Profile {
    /// Everything that condenses, kg/(m²·s).
    #[must_use]
    pub fn condensing_total(&self) -> f64 {
        let at_planes: f64 = self.planes.iter().map(|plane| plane.condensing_flow).sum();
        at_planes + self.condensing_inside.iter().sum::<f64>()
    }
}

/// Solves one path.
///
/// # Example
/// A plywood sheet with mineral fiber inside it:
/// ```
/// use dewmargin::model::AirState;
/// use dewmargin::quantity::{RelativeHumidity, Temperature, ThermalResistance};
/// use dewmargin::solve::profile::{Boundary, Slab, SlabHeat, solve_path};
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
/// let boundary = Boundary {
///     indoor: air(20.0, 0.5),
///     outdoor: air(0.0, 0.8),
///     interior_film: ThermalResistance::from_si(0.13),
///     exterior_film: ThermalResistance::from_si(0.04),
///     interior_vapor_film: 0.0,
///     exterior_vapor_film: 0.0,
/// };
/// let profile = solve_path(&[slab(1.9, 1.7e-9), slab(0.11, 2.9e-11)], &boundary);
/// // 20 − (0.13 + 1.9)/2.18 · 20 = 1.38 °C at the plywood's inner face.
/// assert!((profile.planes[1].temperature.as_celsius() - 1.376).abs() < 1e-3);
/// assert!(profile.planes[1].condensing_flow > 0.0);
/// ```
#[must_use]
pub fn solve_path(slabs: &[Slab], boundary: &Boundary) -> Profile {
    let heat = solve_heat(slabs, boundary);
    solve_vapor(slabs, boundary, heat)
}

fn solve_vapor(slabs: &[Slab], boundary: &Boundary, heat: Heat) -> Profile {
    let air_pressure = |air: AirState| vapor_pressure(air.temperature, air.humidity).as_pa();
    let (indoor, outdoor) = (
        air_pressure(boundary.indoor),
        air_pressure(boundary.outdoor),
    );
    let straight = straight_pressures(slabs, boundary, indoor, outdoor);
    let mut planes: Vec<PlaneState> = heat
        .temperatures
        .iter()
        .zip(&straight)
        .map(|(celsius, pressure)| plane_state(Temperature::from_celsius(*celsius), *pressure))
        .collect();
    let inner_minima: Vec<InnerMinimum> = (0..slabs.len())
        .filter_map(|n| inner_minimum(n, &planes[n], &planes[n + 1]))
        .collect();
    let is_wet = |margin: TemperatureDifference| margin.as_kelvin() < 0.0;
    let condenses = planes
        .iter()
        .any(|plane| plane.dew_point_margin.is_some_and(is_wet))
        || inner_minima.iter().any(|minimum| is_wet(minimum.margin));
    let mut inside = vec![0.0; slabs.len()];
    let (vapor_in, vapor_out) = if condenses {
        correct(
            slabs,
            boundary,
            &heat,
            (indoor, outdoor),
            &mut planes,
            &mut inside,
        )
    } else {
        let z: f64 = slabs.iter().map(|slab| slab.vapor_resistance).sum();
        let total = z + boundary.interior_vapor_film + boundary.exterior_vapor_film;
        // Without any resistance diffusion says nothing about the flow.
        let flow = if total > 0.0 {
            (indoor - outdoor) / total
        } else {
            0.0
        };
        (flow, flow)
    };
    Profile {
        planes,
        resistances: heat.resistances,
        total_resistance: ThermalResistance::from_si(heat.total),
        heat_flux: heat.flux,
        inner_minima,
        condensing_inside: inside,
        vapor_in,
        vapor_out,
        converged: heat.converged,
    }
}

fn plane_state(temperature: Temperature, pressure: Option<f64>) -> PlaneState {
    let vapor_pressure = pressure.map(Pressure::from_pa);
    let dew_point = vapor_pressure.map(dew_point);
    PlaneState {
        temperature,
        saturation: saturation_vapor_pressure(temperature),
        vapor_pressure,
        dew_point,
        dew_point_margin: dew_point.map(|dew_point| temperature - dew_point),
        corrected_pressure: vapor_pressure,
        condensing_flow: 0.0,
    }
}

/// Pressures by diffusion alone. Up to the first perfect barrier the room's pressure stands,
/// beyond the last one the outdoor pressure; between two of them nothing is known.
fn straight_pressures(
    slabs: &[Slab],
    boundary: &Boundary,
    indoor: f64,
    outdoor: f64,
) -> Vec<Option<f64>> {
    let is_barrier = |slab: &Slab| slab.vapor_resistance.is_infinite();
    if let Some(first) = slabs.iter().position(is_barrier) {
        let last = slabs.iter().rposition(is_barrier).unwrap_or(first);
        let at = |plane: usize| match plane {
            p if p <= first => Some(indoor),
            p if p > last => Some(outdoor),
            _ => None,
        };
        return (0..=slabs.len()).map(at).collect();
    }
    let z: f64 = slabs.iter().map(|slab| slab.vapor_resistance).sum();
    let total = z + boundary.interior_vapor_film + boundary.exterior_vapor_film;
    let flow = if total > 0.0 {
        (indoor - outdoor) / total
    } else {
        0.0
    };
    let mut sum = boundary.interior_vapor_film;
    let first = indoor - flow * sum;
    let rest = slabs.iter().map(|slab| {
        sum += slab.vapor_resistance;
        indoor - flow * sum
    });
    std::iter::once(first).chain(rest).map(Some).collect()
}

/// Looks for a least margin between two planes: saturation is a convex curve, so it can come
/// nearest to the straight vapor line inside a layer. It does where the margin falls from the
/// inner plane and rises toward the outer one.
fn inner_minimum(slab: usize, inner: &PlaneState, outer: &PlaneState) -> Option<InnerMinimum> {
    let (p1, p2) = (inner.vapor_pressure?.as_pa(), outer.vapor_pressure?.as_pa());
    let (t1, t2) = (
        inner.temperature.as_celsius(),
        outer.temperature.as_celsius(),
    );
    // d(margin)/dx = dθ/dx − (dp/dx) / (dp_sat/dθ at the dew point).
    let slope = |dew: Temperature, p: f64| {
        (t2 - t1) - (p2 - p1) / saturation_slope(dew, Pressure::from_pa(p))
    };
    if slope(inner.dew_point?, p1) >= 0.0 || slope(outer.dew_point?, p2) <= 0.0 {
        return None;
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        let p = p1 + middle * (p2 - p1);
        if slope(dew_point(Pressure::from_pa(p)), p) < 0.0 {
            low = middle
        } else {
            high = middle
        }
    }
    let position = 0.5 * (low + high);
    let dew = dew_point(Pressure::from_pa(p1 + position * (p2 - p1)));
    let margin = Temperature::from_celsius(t1 + position * (t2 - t1)) - dew;
    Some(InnerMinimum {
        slab,
        position,
        margin,
    })
}

/// Takes condensation out: pressures by the convex string over subdivided layers. Returns the
/// vapor flows in from the room and out to outdoors.
fn correct(
    slabs: &[Slab],
    boundary: &Boundary,
    heat: &Heat,
    (indoor, outdoor): (f64, f64),
    planes: &mut [PlaneState],
    inside: &mut [f64],
) -> (f64, f64) {
    // Nodes: room air, the planes with the points between them, outdoor air. `owner` says where
    // the water at a node is counted.
    let mut steps = vec![boundary.interior_vapor_film];
    let mut saturation = vec![f64::INFINITY, planes[0].saturation.as_pa()];
    let mut owner = vec![Owner::Air, Owner::Plane(0)];
    for (n, slab) in slabs.iter().enumerate() {
        let pieces = slab.pieces(heat.resistances[n]);
        let (t1, t2) = (heat.temperatures[n], heat.temperatures[n + 1]);
        for piece in 1..=pieces {
            steps.push(slab.vapor_resistance / pieces as f64);
            if piece == pieces {
                saturation.push(planes[n + 1].saturation.as_pa());
                owner.push(Owner::Plane(n + 1));
            } else {
                let t = Temperature::from_celsius(t1 + (t2 - t1) * piece as f64 / pieces as f64);
                saturation.push(saturation_vapor_pressure(t).as_pa());
                owner.push(Owner::Inside(n));
            }
        }
    }
    steps.push(boundary.exterior_vapor_film);
    saturation.push(f64::INFINITY);
    owner.push(Owner::Air);

    let solved = vapor_string(&steps, &saturation, indoor, outdoor);
    for (node, owner) in owner.iter().enumerate() {
        match *owner {
            Owner::Air => {}
            Owner::Plane(n) => {
                planes[n].corrected_pressure = solved.pressures[node].map(Pressure::from_pa);
                planes[n].condensing_flow = solved.condensing[node];
            }
            Owner::Inside(n) => inside[n] += solved.condensing[node],
        }
    }
    (solved.inflow, solved.outflow)
}

/// Where the water that condenses at a node belongs.
#[derive(Clone, Copy)]
enum Owner {
    Air,
    Plane(usize),
    Inside(usize),
}
