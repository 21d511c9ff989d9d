//! # Details in two dimensions
//!
//! *What it checks.* At a cut through the building, computed in two dimensions: condensation and
//! mold on the room's surfaces; the wood that leaking room air reaches, at the steel and elsewhere;
//! and how far off the simple estimates are.
//!
//! *Why it matters.* Heat runs along steel. What decides a floor edge is how far the steel reaches
//! inboard of the wall, and no one-dimensional path sees that.
//!
//! *Method and source.* Steady conduction (ISO 10211), three grids, the coldest place with the
//! difference of the two finest ones as its error bar. Surfaces with 0.25 m²·K/W inside (ISO 13788,
//! from memory), wood with the usual films. Months and the design night by the temperature factor.
//! Where air gets to: [`crate::solve::detail::AirReach`].
//!
//! *Limit.* As in the checks of the same names on assemblies: condensation fails, and so does the
//! deck inboard of the plate, where the winter mean crosses the dew point of the room air, and
//! `depends`, on a cold spell, where only the coldest month or the design night does; mold goes by the
//! month. Other wood that air reaches hangs on airtightness: `depends`. Of a floor edge that is plate,
//! packing, rim joist and sheathing, which stay on the steel whatever lies over it: one line says
//! that they need an air seal, and it never leads. A margin within its error bar is `depends`: it
//! can't be told.
//!
//! *When it does not apply.* Corners in three dimensions, the hitch end, bolts, wind in the pan,
//! moving air. Wood that air doesn't reach is a note.
//!
//! *Example.* Floor surface in the corner at 5.9 °C, dew point 9.3 °C: `fail`.

use super::room_surface::mold_limit;
use super::{Check, Detail, Finding, On, Place, SealedSpot, Status, Times};
use crate::model::drawn::{DetailCase, DetailKind};
use crate::model::{Conditions, Stop};
use crate::physics::moist_air::{dew_point, saturation_vapor_pressure, vapor_pressure};
use crate::quantity::{RelativeHumidity, Temperature, TemperatureDifference};
use crate::solve::conduction::Coldest;
use crate::solve::detail::{DetailResult, HandCheck, HandCheckKind, RoomSurface, WoodPart};

const SURFACE_SOURCE: &str =
    "ISO 10211 conduction, inside film 0.25 m²K/W (ISO 13788, from memory)";
const WOOD_SOURCE: &str = "ISO 10211 conduction against the dew point of the room air";
const HAND_SOURCE: &str = "simple estimates of the same cut against the two-dimensional result";

/// A place in a detail with what was found there.
#[derive(Clone, Debug, PartialEq)]
pub struct SpotDetail {
    /// Where, m from the cut's lower left corner.
    pub at: (f64, f64),
    /// Error bar of the temperature, K.
    pub bar: f64,
    /// Temperature factor there.
    pub factor: Option<f64>,
    /// The room humidity at which it starts there: 100 % at the surface, or 80 % for mold.
    pub starts_at: Option<RelativeHumidity>,
    /// The month that decides, 0 is January; `None` for the winter mean.
    pub month: Option<usize>,
    /// What lies against the wood there; empty for surfaces.
    pub against: String,
}

/// One estimate beside the two-dimensional result.
#[derive(Clone, Debug, PartialEq)]
pub struct HandCheckDetail {
    /// Which estimate.
    pub kind: HandCheckKind,
    /// Heat flow over that of the result, less one; `None` where the room is as warm as outdoors and
    /// none flows.
    pub heat_flow_error: Option<f64>,
    /// Coldest floor surface less that of the result, K: positive is too warm, the unsafe side.
    pub floor_error: f64,
    /// The same for the wood nearest to the steel.
    pub wood_error: Option<f64>,
}

/// Judges a detail.
#[must_use]
pub fn check(
    case: &DetailCase,
    stop: &Stop,
    result: &DetailResult,
    estimates: &[HandCheck],
) -> Vec<Finding> {
    let conditions = &stop.conditions;
    let mut findings: Vec<Finding> = result
        .wood
        .iter()
        .filter_map(|part| wood(conditions, result, part))
        .collect();
    if case.kind == DetailKind::FloorEdge {
        findings = sealed(findings);
    }
    for surface in &result.surfaces {
        findings.push(condensation(conditions, result, surface));
        findings.push(mold(conditions, result, surface));
    }
    findings.extend(compared(case, result, estimates));
    findings
}

/// Temperature of a factor between two airs.
fn between(factor: f64, indoor: Temperature, outdoor: Temperature) -> Temperature {
    let span = (indoor - outdoor).as_kelvin();
    outdoor + TemperatureDifference::from_kelvin(factor * span)
}

/// Margins of a place over the room air's dew point at the three times. Only the winter mean is told
/// where something has a temperature of its own.
fn times(conditions: &Conditions, result: &DetailResult, celsius: f64) -> Times {
    let factor = result.factor(celsius);
    let night = factor.zip(conditions.design_night).map(|(factor, night)| {
        let at = between(factor, conditions.indoor.temperature, night.temperature);
        at - result.room_dew_point
    });
    let coldest = conditions.coldest_month().zip(conditions.year.as_ref());
    let month = factor.zip(coldest).map(|(factor, (month, year))| {
        let state = &year[month];
        let at = between(factor, state.indoor.temperature, state.outdoor.temperature);
        (month, at - state.indoor.dew_point())
    });
    Times {
        winter: Temperature::from_celsius(celsius) - result.room_dew_point,
        month,
        night,
    }
}

/// Room humidity at which the vapor reaches that share of saturation at the surface.
fn starts_at(room: Temperature, surface: Temperature, share: f64) -> RelativeHumidity {
    let saturation = saturation_vapor_pressure(surface).as_pa();
    let room = saturation_vapor_pressure(room).as_pa();
    RelativeHumidity::from_fraction((share * saturation / room).min(1.0))
}

fn spot(
    result: &DetailResult,
    coldest: &Coldest,
    starts: Option<RelativeHumidity>,
    against: &str,
) -> SpotDetail {
    SpotDetail {
        at: (coldest.point.x, coldest.point.y),
        bar: coldest.bar,
        factor: result.factor(coldest.point.temperature),
        starts_at: starts,
        month: None,
        against: against.to_owned(),
    }
}

/// The status of margins with an error bar: what can't be told within it is depends.
fn status(times: &Times, bar: f64, crossed: (Status, Option<On>)) -> (Status, Option<On>) {
    if times.winter.as_kelvin().abs() <= bar {
        return (Status::Depends, Some(On::Tolerance));
    }
    times.status(crossed)
}

fn wood(conditions: &Conditions, result: &DetailResult, part: &WoodPart) -> Option<Finding> {
    let (coldest, against) = match &part.reached {
        Some((coldest, against)) => (*coldest, against.as_str()),
        None => (part.coldest?, ""),
    };
    let celsius = coldest.point.temperature;
    let times = times(conditions, result, celsius);
    let (check, crossed) = match part.decides {
        true => (Check::DetailWood, (Status::Fail, None)),
        false => (Check::DetailLeak, (Status::Depends, Some(On::Tightness))),
    };
    let (status, on) = match &part.reached {
        None => (Status::Note, None),
        Some(_) => status(&times, coldest.bar, crossed),
    };
    let value = Temperature::from_celsius(celsius);
    let starts = starts_at(conditions.indoor.temperature, value, 1.0);
    let spot = spot(result, &coldest, Some(starts), against);
    let place = Place {
        path: part.name.clone(),
        plane: "coldest face".into(),
    };
    let finding = Finding {
        on,
        ..Finding::new(check, status, WOOD_SOURCE)
    };
    Some(placed(finding, place, result, times, spot))
}

/// A finding at a place of the detail, against the dew point of the room air.
fn placed(
    finding: Finding,
    place: Place,
    result: &DetailResult,
    times: Times,
    spot: SpotDetail,
) -> Finding {
    Finding {
        place: Some(place),
        value: Some(result.room_dew_point + times.winter),
        limit: Some(result.room_dew_point),
        margin: Some(times.winter),
        month_margin: times.month,
        night_margin: times.night,
        slack: Some(times.winter.as_kelvin()),
        detail: Detail::Spot(Box::new(spot)),
        ..finding
    }
}

/// Wood of a floor edge that stays on the steel and is under the dew point in every layout, such as
/// plate, packing and rim joist, is one line: it needs an air seal, whatever lies over the steel.
fn sealed(findings: Vec<Finding>) -> Vec<Finding> {
    let crosses =
        |finding: &Finding| finding.check == Check::DetailLeak && finding.status == Status::Depends;
    let (cold, mut others): (Vec<Finding>, Vec<Finding>) = findings.into_iter().partition(crosses);
    let spots = cold.iter().filter_map(|finding| {
        Some(SealedSpot {
            part: finding.place.as_ref()?.path.clone(),
            value: finding.value?,
            margin: finding.margin?,
        })
    });
    let spots: Vec<SealedSpot> = spots.collect();
    let margin = |finding: &Finding| finding.slack.unwrap_or(f64::INFINITY);
    let coldest = cold
        .into_iter()
        .min_by(|a, b| margin(a).total_cmp(&margin(b)));
    others.extend(coldest.map(|coldest| Finding {
        check: Check::AirSeal,
        detail: Detail::AirSeal(spots),
        help: Some("an air seal on the room side of that wood, along its whole length".into()),
        ..coldest
    }));
    others
}

fn surface_place(surface: &RoomSurface) -> Place {
    Place {
        path: surface.name.clone(),
        plane: "coldest place".into(),
    }
}

fn condensation(conditions: &Conditions, result: &DetailResult, surface: &RoomSurface) -> Finding {
    let coldest = &surface.damp;
    // The month is left to the check on mold, which asks for more.
    let times = Times {
        month: None,
        ..times(conditions, result, coldest.point.temperature)
    };
    let (status, on) = status(&times, coldest.bar, (Status::Fail, None));
    let value = Temperature::from_celsius(coldest.point.temperature);
    let starts = starts_at(conditions.indoor.temperature, value, 1.0);
    let spot = spot(result, coldest, Some(starts), "");
    let finding = Finding {
        on,
        ..Finding::new(Check::DetailCondensation, status, SURFACE_SOURCE)
    };
    placed(finding, surface_place(surface), result, times, spot)
}

/// Mold by the month that needs the most; on the winter mean where only that is known.
fn mold(conditions: &Conditions, result: &DetailResult, surface: &RoomSurface) -> Finding {
    let coldest = &surface.damp;
    let celsius = coldest.point.temperature;
    let limit_of = |air: crate::model::AirState| {
        mold_limit(dew_point(vapor_pressure(air.temperature, air.humidity)))
    };
    let winter = (
        None,
        Temperature::from_celsius(celsius),
        limit_of(conditions.indoor),
    );
    let by_month = conditions.year.iter().flatten().enumerate();
    let months = by_month.filter_map(|(month, state)| {
        let factor = result.factor(celsius)?;
        let at = between(factor, state.indoor.temperature, state.outdoor.temperature);
        Some((Some(month), at, limit_of(state.indoor)))
    });
    let (month, value, limit) = months
        .min_by(|a, b| (a.1 - a.2).as_kelvin().total_cmp(&(b.1 - b.2).as_kelvin()))
        .unwrap_or(winter);
    let margin = value - limit;
    let alone = Times {
        winter: margin,
        month: None,
        night: None,
    };
    let (status, on) = status(&alone, coldest.bar, (Status::Fail, None));
    let starts = starts_at(conditions.indoor.temperature, winter.1, 0.8);
    Finding {
        on,
        place: Some(surface_place(surface)),
        value: Some(value),
        limit: Some(limit),
        margin: Some(margin),
        slack: Some(margin.as_kelvin()),
        detail: Detail::Spot(Box::new(SpotDetail {
            month,
            ..spot(result, coldest, Some(starts), "")
        })),
        ..Finding::new(Check::DetailMold, status, SURFACE_SOURCE)
    }
}

/// Less heat than this isn't a flow but what the solver leaves of none, W/m.
const NO_FLOW: f64 = 1e-6;

/// Each estimate with its errors: a note.
fn compared(case: &DetailCase, result: &DetailResult, estimates: &[HandCheck]) -> Vec<Finding> {
    use crate::model::detail::Facing;
    let flow = result.conduction.heat_flow.value;
    let floors: Vec<&str> = case
        .surfaces
        .iter()
        .filter(|surface| surface.facing == Facing::Up)
        .map(|surface| surface.name.as_str())
        .collect();
    let floor = result
        .surfaces
        .iter()
        .find(|s| floors.contains(&s.name.as_str()));
    let Some(floor) = floor.map(|surface| surface.usual.point.temperature) else {
        return Vec::new();
    };
    let deciding = result.wood.iter().filter(|part| part.decides);
    let deck = deciding
        .filter_map(|part| part.reached.as_ref())
        .map(|(coldest, _)| coldest.point.temperature)
        .reduce(f64::min);
    let note = |estimate: &HandCheck| Finding {
        detail: Detail::HandCheck(HandCheckDetail {
            kind: estimate.kind,
            heat_flow_error: (flow.abs() > NO_FLOW).then(|| estimate.heat_flow / flow - 1.0),
            floor_error: estimate.floor.as_celsius() - floor,
            wood_error: estimate
                .wood
                .zip(deck)
                .map(|(wood, deck)| wood.as_celsius() - deck),
        }),
        ..Finding::new(Check::HandCheck, Status::Note, HAND_SOURCE)
    };
    estimates.iter().map(note).collect()
}
