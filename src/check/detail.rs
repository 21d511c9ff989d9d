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
//! *At the corner.* Where a floor edge has an outside corner ([`crate::solve::detail::Corner`]) the wood
//! that decides and the room's surfaces are judged there too, by the same limits, but for mold: in the
//! corner of three planes that alone is `depends`, since it hangs on what stands in that corner. At a
//! roof's edge, where the room's surfaces alone are judged, so are they in the corner of two walls under
//! the roof, and below it where the two walls alone meet.
//!
//! *Drawn in three dimensions*, box by box ([`crate::solve::detail::BoxesResult`]), the room's surface and
//! every part of wood are judged by the same limits. Where leaking air gets to isn't looked for there: wood
//! under the dew point is `depends`, on tightness.
//!
//! *When it does not apply.* The hitch end, bolts, wind in the pan, moving air. Wood that air doesn't
//! reach is a note.
//!
//! *Example.* Floor surface in the corner at 5.9 °C, dew point 9.3 °C: `fail`.

mod air_seal;
mod boxes;
mod estimate;
mod say;
mod spot;

pub use air_seal::AIR_SEAL;
pub use boxes::judge_boxes;
pub use estimate::{HAND_CHECK, HandCheckDetail};
pub use spot::{SpotAt, SpotDetail};

use super::kind::{DetailScene, Run};
use super::room_surface::mold_limit;
use super::{Check, Detail, Finding, On, Place, Status, Times};
use crate::model::Conditions;
use crate::model::drawn::DetailKind;
use crate::physics::moist_air::{dew_point, saturation_vapor_pressure, vapor_pressure};
use crate::quantity::{RelativeHumidity, Temperature, TemperatureDifference};
use crate::solve::detail::{Between, WoodPart};
use spot::Found;

/// Wood at the steel of a detail, where room air reaches it, and other wood along with it.
pub static WOOD: Check = Check {
    id: "detail-wood-at-the-steel",
    title: "wood at the steel, 2-D",
    title_at_corner: Some("wood at the steel, corner"),
    by_place: true,
    run: Run::Detail(all_wood),
    say: say::spot,
    ..Check::PLAIN
};

/// Other wood of a detail that leaking room air reaches.
pub static LEAK: Check = Check {
    id: "detail-air-leak",
    title: "air leak, 2-D",
    title_in_boxes: Some("air leak, 3-D"),
    by_place: true,
    run: Run::Along,
    say: say::spot,
    ..Check::PLAIN
};

/// Condensation on the room's surfaces of a detail.
pub static CONDENSATION: Check = Check {
    id: "detail-condensation",
    title: "room surface, condensation, 2-D",
    title_at_corner: Some("room surface, condensation, corner"),
    title_in_boxes: Some("room surface, condensation, 3-D"),
    by_place: true,
    run: Run::Detail(|scene| every_surface(scene, condensation)),
    say: say::condensation,
    ..Check::PLAIN
};

/// Mold on the room's surfaces of a detail.
pub static MOLD: Check = Check {
    id: "detail-mold",
    title: "room surface, mold, 2-D",
    title_at_corner: Some("room surface, mold, corner"),
    title_in_boxes: Some("room surface, mold, 3-D"),
    against: "the mold limit",
    by_place: true,
    is_of_mold: true,
    run: Run::Detail(every_mold),
    say: say::mold,
    ..Check::PLAIN
};

const SURFACE_SOURCE: &str =
    "ISO 10211 conduction, inside film 0.25 m²K/W (ISO 13788, from memory)";
const WOOD_SOURCE: &str = "ISO 10211 conduction against the dew point of the room air";
const CORNER_SOURCE: &str =
    "ISO 10211 conduction in three dimensions against the dew point of the room air";

/// Wood of the cut, then of its corner.
fn all_wood(scene: &DetailScene<'_>) -> Vec<Finding> {
    let (conditions, result) = (scene.conditions, scene.result);
    let air = &result.between();
    let parts = result.wood.iter();
    let mut findings: Vec<Finding> = parts
        .filter_map(|part| wood(conditions, air, part))
        .collect();
    if scene.case.kind == DetailKind::FloorEdge {
        findings = air_seal::sealed(findings);
    }
    match &result.corner {
        None => {}
        Some(Err(_)) => findings.push(unsolved()),
        Some(Ok(corner)) => findings.extend(corner.wood.iter().map(|spot| {
            let crossed = (&WOOD, (Status::Fail, None));
            let part = (spot.name.as_str(), spot.against.as_str());
            reached_wood(conditions, air, part, spot.into(), crossed)
        })),
    }
    findings
}

/// Every surface of the cut, then of its corner.
fn every_surface(
    scene: &DetailScene<'_>,
    judge: fn(&Conditions, &Between, &str, Found) -> Finding,
) -> Vec<Finding> {
    let (conditions, result) = (scene.conditions, scene.result);
    let air = &result.between();
    let of_cut = result.surfaces.iter().map(|surface| {
        let found = Found::from(&surface.damp);
        judge(conditions, air, &surface.name, found)
    });
    let corner = result.corner.iter().flatten();
    let at_corner = corner.flat_map(|corner| corner.surfaces.iter().chain(&corner.between_walls));
    let at_corner = at_corner.map(|spot| judge(conditions, air, &spot.name, spot.into()));
    of_cut.chain(at_corner).collect()
}

/// Every surface, those where three planes meet by a milder rule.
fn every_mold(scene: &DetailScene<'_>) -> Vec<Finding> {
    let corner = scene.result.corner.iter().flatten();
    let planes: Vec<&str> = corner
        .flat_map(|corner| &corner.surfaces)
        .map(|spot| spot.name.as_str())
        .collect();
    let judge = |finding: Finding| {
        let path = finding.place.as_ref().map(|place| place.path.as_str());
        mild(path.is_some_and(|path| planes.contains(&path)), finding)
    };
    let all = every_surface(scene, mold).into_iter();
    all.map(judge).collect()
}

/// Where three planes meet mold alone doesn't fail: it hangs on what stands there.
fn mild(three_planes: bool, mold: Finding) -> Finding {
    match (three_planes, mold.status) {
        (true, Status::Fail) => Finding {
            status: Status::Depends,
            on: Some(On::Mold),
            help: Some("keep furniture and boxes off that corner, and air it".into()),
            ..mold
        },
        _ => mold,
    }
}

/// A corner that couldn't be solved isn't known.
fn unsolved() -> Finding {
    let place = Place {
        path: "the corner".into(),
        plane: "not solved".into(),
    };
    Finding {
        place: Some(place),
        ..Finding::new(&WOOD, Status::Unknown, CORNER_SOURCE)
    }
}

/// Temperature of a factor between two airs.
fn at_factor(factor: f64, indoor: Temperature, outdoor: Temperature) -> Temperature {
    let span = (indoor - outdoor).as_kelvin();
    outdoor + TemperatureDifference::from_kelvin(factor * span)
}

/// Margins of a place over the room air's dew point at the three times. Only the winter mean is told
/// where something has a temperature of its own.
fn times(conditions: &Conditions, air: &Between, celsius: f64) -> Times {
    let factor = air.factor(celsius);
    let night = factor.zip(conditions.design_night).map(|(factor, night)| {
        let at = at_factor(factor, conditions.indoor.temperature, night.temperature);
        at - air.room_dew_point
    });
    let coldest = conditions.coldest_month().zip(conditions.year.as_ref());
    let month = factor.zip(coldest).map(|(factor, (month, year))| {
        let state = &year[month];
        let at = at_factor(factor, state.indoor.temperature, state.outdoor.temperature);
        (month, at - state.indoor.dew_point())
    });
    Times {
        winter: Temperature::from_celsius(celsius) - air.room_dew_point,
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

/// The status of margins with an error bar: what can't be told within it is depends.
fn status(times: &Times, bar: f64, crossed: (Status, Option<On>)) -> (Status, Option<On>) {
    if times.winter.as_kelvin().abs() <= bar {
        return (Status::Depends, Some(On::Tolerance));
    }
    times.status(crossed)
}

fn wood(conditions: &Conditions, air: &Between, part: &WoodPart) -> Option<Finding> {
    let crossed = match part.decides {
        true => (&WOOD, (Status::Fail, None)),
        false => (&LEAK, (Status::Depends, Some(On::Tightness))),
    };
    Some(match &part.reached {
        Some((coldest, against)) => reached_wood(
            conditions,
            air,
            (&part.name, against),
            coldest.into(),
            crossed,
        ),
        None => Finding {
            status: Status::Note,
            on: None,
            ..reached_wood(
                conditions,
                air,
                (&part.name, ""),
                (&part.coldest?).into(),
                crossed,
            )
        },
    })
}

/// Wood where room air reaches it.
fn reached_wood(
    conditions: &Conditions,
    air: &Between,
    (name, against): (&str, &str),
    found: Found,
    (check, crossed): (&'static Check, (Status, Option<On>)),
) -> Finding {
    let times = times(conditions, air, found.celsius);
    let (status, on) = status(&times, found.bar, crossed);
    let starts = starts_at(conditions.indoor.temperature, found.temperature(), 1.0);
    let spot = found.spot(air, Some(starts), against);
    let place = Place {
        path: name.to_owned(),
        plane: "coldest face".into(),
    };
    let source = match found.is_in_three_dimensions() {
        true => CORNER_SOURCE,
        false => WOOD_SOURCE,
    };
    let finding = Finding {
        on,
        ..Finding::new(check, status, source)
    };
    placed(finding, place, air, times, spot)
}

/// A finding at a place of the detail, against the dew point of the room air.
fn placed(
    finding: Finding,
    place: Place,
    air: &Between,
    times: Times,
    spot: SpotDetail,
) -> Finding {
    Finding {
        place: Some(place),
        value: Some(air.room_dew_point + times.winter),
        limit: Some(air.room_dew_point),
        margin: Some(times.winter),
        month_margin: times.month,
        night_margin: times.night,
        slack: Some(times.winter.as_kelvin()),
        detail: Detail::Spot(Box::new(spot)),
        ..finding
    }
}

fn surface_place(name: &str) -> Place {
    Place {
        path: name.to_owned(),
        plane: "coldest place".into(),
    }
}

fn condensation(conditions: &Conditions, air: &Between, name: &str, found: Found) -> Finding {
    // The month is left to the check on mold, which asks for more.
    let times = Times {
        month: None,
        ..times(conditions, air, found.celsius)
    };
    let (status, on) = status(&times, found.bar, (Status::Fail, None));
    let starts = starts_at(conditions.indoor.temperature, found.temperature(), 1.0);
    let spot = found.spot(air, Some(starts), "");
    let finding = Finding {
        on,
        ..Finding::new(&CONDENSATION, status, SURFACE_SOURCE)
    };
    placed(finding, surface_place(name), air, times, spot)
}

/// Mold by the month that needs the most; on the winter mean where only that is known.
fn mold(conditions: &Conditions, air: &Between, name: &str, found: Found) -> Finding {
    let celsius = found.celsius;
    let limit_of = |air: crate::model::AirState| {
        mold_limit(dew_point(vapor_pressure(air.temperature, air.humidity)))
    };
    let winter = (None, found.temperature(), limit_of(conditions.indoor));
    let by_month = conditions.year.iter().flatten().enumerate();
    let months = by_month.filter_map(|(month, state)| {
        let factor = air.factor(celsius)?;
        let at = at_factor(factor, state.indoor.temperature, state.outdoor.temperature);
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
    let (status, on) = status(&alone, found.bar, (Status::Fail, None));
    let starts = starts_at(conditions.indoor.temperature, winter.1, 0.8);
    Finding {
        on,
        place: Some(surface_place(name)),
        value: Some(value),
        limit: Some(limit),
        margin: Some(margin),
        slack: Some(margin.as_kelvin()),
        detail: Detail::Spot(Box::new(SpotDetail {
            month,
            ..found.spot(air, Some(starts), "")
        })),
        ..Finding::new(&MOLD, status, SURFACE_SOURCE)
    }
}
