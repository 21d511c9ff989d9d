//! # Air leak
//!
//! *What it checks.* Whether leaking room air meets a plane below its dew point, at every plane
//! it reaches that touches wood, a wood-based panel, air-permeable insulation or bare metal.
//!
//! *Why it matters.* Air that leaks carries many times more water than diffusion, 9 to 90 times in
//! published and computed examples.
//!
//! *Method and source.* Plane temperature minus the dew point of the room air, on the winter mean,
//! in the coldest month and on the design night. Where air gets to: [`crate::solve::reach`].
//!
//! *Limit.* 0 K. A plane at or below the dew point on the winter mean gives `depends`, since it hangs
//! on airtightness; one that crosses in the coldest month or on the design night alone hangs on a
//! cold spell.
//!
//! *Beside it.* The ratio of the water that leaking air carries to what diffuses, on the winter
//! mean: a hole of 1 in² in 32 ft² at 4 Pa (common practice), its flow by the orifice equation with
//! a discharge coefficient of 0.6 (from memory), against diffusion through the same area. One to
//! two digits of it can be trusted.
//!
//! *When it does not apply.* Planes behind the first bonded layer, planes that face outdoor or
//! vented air, and the room's own surface, which has checks of its own. A strip that a detail shows
//! is judged there; without a detail a strip passes only by more than its hand-check may err. Where outdoors is warmer
//! than the room, outdoor air leaks inward: [`super::inward_leak`] judges that in the months of a
//! climate; with only a winter mean given the finding is `unknown`.
//!
//! *Example.* Subfloor on a bare flange at 6 °C, room air's dew point 12 °C: margin −6 K, `depends`.

use super::group::{Group, spans};
use super::kind::{Column, Ranged, Run};
use super::words::{cold_spell, numbers, place};
use super::{Check, Detail, Finding, On, Place, Status, Times};
use crate::model::Conditions;
use crate::physics::moist_air::vapor_pressure;
use crate::quantity::{Style, Temperature, UnitSystem, fixed};
use crate::solve::{AssemblyResult, EndResult, PathResult};

const SOURCE: &str = "dew point of the room air (ISO 13788 saturation formula)";

/// Leaking room air at the planes it reaches; what a detail shows it judges itself.
pub static CHECK: Check = Check {
    id: "air-leak",
    title: "air leak",
    run: Run::Group(|scene, group| match group.is_shown() {
        true => Vec::new(),
        false => vec![check(scene.conditions, scene.result, group)],
    }),
    ranged: Some(Ranged::WINTER),
    column: Some(Column::MARGIN),
    say,
    ..Check::PLAIN
};

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

/// A plane with its margins over a limit.
pub(super) struct AtPlane<'a> {
    pub(super) result: &'a PathResult,
    pub(super) plane: usize,
    pub(super) times: Times,
}

/// The margins at one plane over the dew point of the room air.
pub(super) fn at_plane<'a>(
    result: &'a PathResult,
    plane: usize,
    conditions: &Conditions,
    limit: Temperature,
) -> AtPlane<'a> {
    AtPlane {
        result,
        plane,
        times: Times::at_plane(result, plane, conditions, limit),
    }
}

impl AtPlane<'_> {
    /// Fills a finding in from the plane.
    pub(super) fn describe(&self, finding: Finding, limit: Temperature) -> Finding {
        Finding {
            place: Some(Place {
                path: self.result.path.name.clone(),
                plane: self.result.plane_names[self.plane].clone(),
            }),
            value: Some(self.result.winter.planes[self.plane].temperature),
            limit: Some(limit),
            margin: Some(self.times.winter),
            month_margin: self.times.month,
            night_margin: self.times.night,
            ..finding
        }
    }
}

/// Runs the check over the paths of a group and reports the plane that decides: with the least
/// margin on the winter mean, where that crosses or nothing does, else in the cold spell.
#[must_use]
pub fn check(conditions: &Conditions, result: &AssemblyResult, group: &Group<'_>) -> Finding {
    let limit = result.room_dew_point;
    let end = group.end;
    if end.boundary.outdoor.temperature > end.boundary.indoor.temperature {
        let judged_by_month = !end.paths[0].months.is_empty();
        let status = if judged_by_month {
            Status::Pass
        } else {
            Status::Unknown
        };
        return Finding::new(&CHECK, status, SOURCE);
    }
    let judged: Vec<AtPlane<'_>> = group
        .paths
        .iter()
        .flat_map(|path| {
            let planes = (0..path.roles.len()).filter(|plane| path.roles[*plane].judged);
            planes.map(|plane| at_plane(path, plane, conditions, limit))
        })
        .collect();
    let Some(coldest) = deciding(&judged) else {
        return Finding::new(&CHECK, Status::Pass, SOURCE);
    };
    let crossed = (Status::Depends, Some(On::Tightness));
    let (status, on) = coldest.times.status(crossed);
    let (status, on) = group.bounded((status, on), spans(conditions, &coldest.times));
    let finding = coldest.describe(Finding::new(&CHECK, status, SOURCE), limit);
    Finding {
        on,
        help: (status.severity() > 0).then(|| help(group).to_owned()),
        slack: Some(coldest.times.winter.as_kelvin()),
        detail: Detail::LeakRatio(leak_ratio(end, coldest.result)),
        ..finding
    }
}

/// Over steel only what lies between the wood and the steel warms the plane.
fn help(group: &Group<'_>) -> &'static str {
    match group.strip {
        Some(_) => "an air seal bonded inside that plane, or drier room air",
        None => {
            "more insulation outside that plane, an air seal bonded inside it, or drier room air"
        }
    }
}

/// The plane that crosses first of the three times, by the most.
fn deciding<'a, 'b>(judged: &'a [AtPlane<'b>]) -> Option<&'a AtPlane<'b>> {
    let at = |which: usize| {
        move |plane: &&AtPlane<'_>| {
            let margin = plane.times.all().nth(which);
            margin.map_or(f64::INFINITY, |(_, margin)| margin.as_kelvin())
        }
    };
    let least = |which: usize| {
        let margin = at(which);
        judged.iter().min_by(|a, b| margin(a).total_cmp(&margin(b)))
    };
    let times = judged.first().map_or(0, |plane| plane.times.all().count());
    let crossing = (0..times)
        .filter_map(|which| Some((which, least(which)?)))
        .find(|(which, plane)| at(*which)(plane) <= 0.0);
    crossing.map(|(_, plane)| plane).or_else(|| least(0))
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

fn say(finding: &Finding, _: &Conditions, style: Style) -> String {
    leak(finding, style) + &ratio(finding, style)
}

fn leak(finding: &Finding, style: Style) -> String {
    if finding.status == Status::Unknown {
        return "Outdoors is warmer than the room: outdoor air that leaks inward isn't judged on the winter mean.".into();
    }
    let Some([at, distance, limit]) = numbers(finding, style) else {
        return "Nothing here that water harms: no plane that leaking room air reaches touches wood, a panel, open insulation or bare metal.".into();
    };
    let place = place(finding);
    let night = cold_spell(finding, style);
    match finding.on {
        Some(On::Tightness) => format!(
            "Leaking room air meets {place} at {at}, {distance} its dew point of {limit}: it hangs on airtightness{night}."
        ),
        _ => format!(
            "The coldest plane that leaking room air reaches, {place}, is at {at}, {distance} its dew point of {limit}{night}."
        ),
    }
}

/// How much more a leak carries than diffusion.
fn ratio(finding: &Finding, style: Style) -> String {
    let hole = match style.units {
        UnitSystem::Imperial => "1 in² in 32 ft²",
        UnitSystem::Metric => "6.5 cm² in 3.0 m²",
    };
    match finding.detail {
        Detail::LeakRatio(Some(ratio)) => {
            let digits = usize::from(ratio < 10.0);
            format!(
                " A leak of {hole} at 4 Pa carries about {} times the water that diffuses in winter.",
                fixed(ratio, digits)
            )
        }
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::leak_flow;
    use approx::assert_relative_eq;

    // Flow through an orifice, Q/A = C_d √(2 Δp/ρ) (Bernoulli): √(2 · 4 Pa/1.2 kg/m³) = 2.58199 m/s,
    // six tenths of it through 1 in² of 4,608 in².
    #[test]
    fn what_leaks_through_the_hole_by_hand() {
        assert_relative_eq!(leak_flow(), 0.6 * 2.581_989 / 4608.0, max_relative = 1e-6);
    }
}
