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
//! `depends` where only the design night does; mold goes by the month. Other wood that air reaches,
//! such as plate, packing and rim joist, stays on the steel whatever lies over it: `depends`, since
//! it hangs on airtightness. A margin within its error bar is `depends`: it can't be told.
//!
//! *When it does not apply.* Corners in three dimensions, the hitch end, bolts, wind in the pan,
//! moving air. Wood that air doesn't reach is a note.
//!
//! *Example.* Floor surface in the corner at 5.9 °C, dew point 9.3 °C: `fail`.

use super::room_surface::mold_limit;
use super::{Check, Detail, Finding, Place, Status};
use crate::model::drawn::DetailCase;
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
    /// Heat flow over that of the result, less one.
    pub heat_flow_error: f64,
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

fn night_margin(
    conditions: &Conditions,
    result: &DetailResult,
    celsius: f64,
) -> Option<TemperatureDifference> {
    let night = conditions.design_night?;
    let at = between(
        result.factor(celsius)?,
        conditions.indoor.temperature,
        night.temperature,
    );
    Some(at - result.room_dew_point)
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

/// Clear passes, the night alone gives depends, the winter mean crossing gives `crossed`; what
/// can't be told within the error bar is depends.
fn status(
    margin: TemperatureDifference,
    night: Option<TemperatureDifference>,
    bar: f64,
    crossed: Status,
) -> Status {
    let kelvin = margin.as_kelvin();
    if kelvin.abs() <= bar {
        return Status::Depends;
    }
    let night_clear = night.is_none_or(|margin| margin.as_kelvin() > 0.0);
    match (kelvin > 0.0, night_clear) {
        (true, true) => Status::Pass,
        (true, false) => Status::Depends,
        (false, _) => crossed,
    }
}

fn wood(conditions: &Conditions, result: &DetailResult, part: &WoodPart) -> Option<Finding> {
    let (coldest, against) = match &part.reached {
        Some((coldest, against)) => (*coldest, against.as_str()),
        None => (part.coldest?, ""),
    };
    let value = Temperature::from_celsius(coldest.point.temperature);
    let margin = value - result.room_dew_point;
    let night = night_margin(conditions, result, coldest.point.temperature);
    let (check, crossed) = match part.decides {
        true => (Check::DetailWood, Status::Fail),
        false => (Check::DetailLeak, Status::Depends),
    };
    let status = match (&part.reached, check) {
        (None, _) => Status::Note,
        // The design night decides wood at the steel alone.
        (Some(_), Check::DetailLeak) => status(margin, None, coldest.bar, crossed),
        (Some(_), _) => status(margin, night, coldest.bar, crossed),
    };
    let starts = starts_at(conditions.indoor.temperature, value, 1.0);
    Some(Finding {
        place: Some(Place {
            path: part.name.clone(),
            plane: "coldest face".into(),
        }),
        value: Some(value),
        limit: Some(result.room_dew_point),
        margin: Some(margin),
        night_margin: night,
        slack: Some(margin.as_kelvin()),
        detail: Detail::Spot(Box::new(spot(result, &coldest, Some(starts), against))),
        ..Finding::new(check, status, WOOD_SOURCE)
    })
}

fn surface_place(surface: &RoomSurface) -> Place {
    Place {
        path: surface.name.clone(),
        plane: "coldest place".into(),
    }
}

fn condensation(conditions: &Conditions, result: &DetailResult, surface: &RoomSurface) -> Finding {
    let coldest = &surface.damp;
    let value = Temperature::from_celsius(coldest.point.temperature);
    let margin = value - result.room_dew_point;
    let night = night_margin(conditions, result, coldest.point.temperature);
    let status = status(margin, night, coldest.bar, Status::Fail);
    let starts = starts_at(conditions.indoor.temperature, value, 1.0);
    Finding {
        place: Some(surface_place(surface)),
        value: Some(value),
        limit: Some(result.room_dew_point),
        margin: Some(margin),
        night_margin: night,
        slack: Some(margin.as_kelvin()),
        detail: Detail::Spot(Box::new(spot(result, coldest, Some(starts), ""))),
        ..Finding::new(Check::DetailCondensation, status, SURFACE_SOURCE)
    }
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
    let status = status(margin, None, coldest.bar, Status::Fail);
    let starts = starts_at(conditions.indoor.temperature, winter.1, 0.8);
    Finding {
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
            heat_flow_error: estimate.heat_flow / flow - 1.0,
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
