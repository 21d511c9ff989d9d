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
//! *When it does not apply.* Planes behind the first bonded layer, planes that face outdoor or
//! vented air, and the room's own surface, which has checks of its own. Where outdoors is warmer
//! than the room, outdoor air leaks inward: that isn't judged here, and the finding is `unknown`.
//!
//! *Example.* Subfloor on a bare flange at 6 °C, room air's dew point 12 °C: margin −6 K, `depends`.

use super::{Check, Finding, Place, Status};
use crate::quantity::{Temperature, TemperatureDifference};
use crate::solve::{AssemblyResult, EndResult, PathResult, Profile};

const SOURCE: &str = "dew point of the room air (ISO 13788 saturation formula)";

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
        return Finding::new(Check::AirLeak, Status::Unknown, SOURCE);
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
        ..finding
    }
}
