//! # Air leak
//!
//! *What it checks.* Whether leaking room air meets a plane below its dew point, at every plane
//! it reaches that touches wood, a wood-based panel, air-permeable insulation or bare metal.
//!
//! *Why it matters.* Air that leaks carries many times more water than diffusion, 9 to 90 times in
//! published and computed examples.
//!
//! *Method and source.* Plane temperature minus the dew point of the room air, winter mean; the
//! design night's margin is printed beside it. Where air gets to: [`crate::solve::reach`].
//!
//! *Limit.* 0 K. A plane at or below the dew point gives `depends`, since it hangs on airtightness.
//!
//! *Beside it.* The ratio of the water that leaking air carries to what diffuses, on the winter
//! mean: a hole of 1 in² in 32 ft² at 4 Pa (common practice), its flow by the orifice equation with
//! a discharge coefficient of 0.6 (from memory), against diffusion through the same area. One to
//! two digits of it can be trusted.
//!
//! *When it does not apply.* Planes behind the first bonded layer, planes that face outdoor or
//! vented air, and the room's own surface, which has checks of its own. Where outdoors is warmer
//! than the room, outdoor air leaks inward: [`super::inward_leak`] judges that in the months of a
//! climate; with only a winter mean given the finding is `unknown`.
//!
//! *Example.* Subfloor on a bare flange at 6 °C, room air's dew point 12 °C: margin −6 K, `depends`.

use super::{Check, Detail, Finding, Place, Status};
use crate::physics::moist_air::vapor_pressure;
use crate::quantity::{Temperature, TemperatureDifference};
use crate::solve::{AssemblyResult, EndResult, PathResult, Profile};

const SOURCE: &str = "dew point of the room air (ISO 13788 saturation formula)";

/// The hole that leaking air is reckoned with: its area over the area of wall around it, 1 in² in
/// 32 ft² (common practice).
pub const HOLE_SHARE: f64 = 6.451_6e-4 / 2.972_897;
/// Pressure across the hole, Pa (common practice).
pub const LEAK_PRESSURE: f64 = 4.0;
/// Discharge coefficient of the hole (from memory).
pub const DISCHARGE: f64 = 0.6;
/// Density of air, kg/m³.
pub const AIR_DENSITY: f64 = 1.2;
/// Gas constant of water vapor, J/(kg·K).
pub const VAPOR_CONSTANT: f64 = 461.5;

/// What leaks through that hole, m³/s for each m² of wall.
#[must_use]
pub fn leak_flow() -> f64 {
    DISCHARGE * HOLE_SHARE * libm::sqrt(2.0 * LEAK_PRESSURE / AIR_DENSITY)
}

/// The coldest judged plane of a path with its margins on the winter mean and the design night.
pub(super) struct Coldest<'a> {
    pub(super) result: &'a PathResult,
    pub(super) plane: usize,
    pub(super) margin: TemperatureDifference,
    pub(super) night: Option<TemperatureDifference>,
}

/// The margins at one plane against a limit.
pub(super) fn at_plane(result: &PathResult, plane: usize, limit: Temperature) -> Coldest<'_> {
    let margin = |profile: &Profile| profile.planes[plane].temperature - limit;
    Coldest {
        result,
        plane,
        margin: margin(&result.winter),
        night: result.night.as_ref().map(margin),
    }
}

impl Coldest<'_> {
    /// Fills a finding in from the plane.
    pub(super) fn describe(&self, finding: Finding, limit: Temperature) -> Finding {
        Finding {
            place: Some(Place {
                path: self.result.path.name.clone(),
                plane: self.result.plane_names[self.plane].clone(),
            }),
            value: Some(self.result.winter.planes[self.plane].temperature),
            limit: Some(limit),
            margin: Some(self.margin),
            night_margin: self.night,
            ..finding
        }
    }
}

/// Runs the check over all paths and reports the plane with the least margin.
#[must_use]
pub fn check(result: &AssemblyResult, end: &EndResult) -> Finding {
    let limit = result.room_dew_point;
    if end.boundary.outdoor.temperature > end.boundary.indoor.temperature {
        let judged_by_month = !end.paths[0].months.is_empty();
        let status = if judged_by_month {
            Status::Pass
        } else {
            Status::Unknown
        };
        return Finding::new(Check::AirLeak, status, SOURCE);
    }
    let coldest = end
        .paths
        .iter()
        .filter_map(|path| Some(at_plane(path, path.coldest(|role| role.judged)?, limit)))
        .min_by(|a, b| a.margin.as_kelvin().total_cmp(&b.margin.as_kelvin()));
    let Some(coldest) = coldest else {
        return Finding::new(Check::AirLeak, Status::Pass, SOURCE);
    };
    let clear = coldest.margin.as_kelvin() > 0.0;
    let status = if clear { Status::Pass } else { Status::Depends };
    let finding = coldest.describe(Finding::new(Check::AirLeak, status, SOURCE), limit);
    let help =
        "more insulation outside that plane, an air seal bonded inside it, or drier room air";
    Finding {
        help: (!clear).then(|| help.to_owned()),
        slack: Some(coldest.margin.as_kelvin()),
        detail: Detail::LeakRatio(leak_ratio(end, coldest.result)),
        ..finding
    }
}

/// Water that leaking air carries over water that diffuses into a path on the winter mean; `None`
/// where none does.
#[must_use]
pub fn leak_ratio(end: &EndResult, path: &PathResult) -> Option<f64> {
    let boundary = &end.boundary;
    let (indoor, outdoor) = (boundary.indoor, boundary.outdoor);
    let inside = vapor_pressure(indoor.temperature, indoor.humidity).as_pa();
    let outside = vapor_pressure(outdoor.temperature, outdoor.humidity).as_pa();
    let diffused = path.winter.vapor_in;
    // The leak's air brings ρ_v = p/(R_v·T) with it.
    let flow = leak_flow();
    let kelvin = indoor.temperature.as_celsius() + 273.15;
    let leaked = flow * (inside - outside) / (VAPOR_CONSTANT * kelvin);
    (diffused > 0.0 && leaked > 0.0).then(|| leaked / diffused)
}
