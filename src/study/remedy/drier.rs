//! The air that a place of a detail takes: the temperature factor it needs in the room as it is, and the
//! most humid room at which it is clear.

use super::Measure;
use super::ground::DRIEST;
use crate::check::detail::LEAK;
use crate::check::{self, Check, Detail, Finding, On, Status};
use crate::model::Stop;
use crate::physics::moist_air::saturation_vapor_pressure;
use crate::quantity::{RelativeHumidity, Temperature, TemperatureDifference};
use crate::solve::detail::{CORNER_PRECISION, CornerSpot, solve_corner};
use crate::study::{JudgedBoxes, JudgedDetail};

/// Relative humidity above which mold grows.
const MOLD: f64 = 0.8;

/// Room and outdoor temperature at the times a check looks at, with the humidity of the room.
fn times(
    stop: &Stop,
    check: &Check,
    winter_alone: bool,
) -> Vec<(Temperature, Temperature, RelativeHumidity)> {
    let conditions = &stop.conditions;
    let room = conditions.indoor;
    let winter = (
        room.temperature,
        conditions.winter_mean.temperature,
        room.humidity,
    );
    let by_month = |month: &crate::model::MonthState| {
        let indoor = month.indoor;
        (
            indoor.temperature,
            month.outdoor.temperature,
            indoor.humidity,
        )
    };
    let mut all = vec![winter];
    if check.is_of_mold {
        let months: Vec<_> = conditions.year.iter().flatten().map(by_month).collect();
        return if months.is_empty() { all } else { months };
    }
    if winter_alone {
        return all;
    }
    let night = conditions.design_night;
    all.extend(night.map(|night| (room.temperature, night.temperature, room.humidity)));
    if check != &check::detail::CONDENSATION {
        let month = conditions.coldest_month().zip(conditions.year.as_ref());
        all.extend(month.map(|(month, year)| by_month(&year[month])));
    }
    all
}

/// The vapor's share of saturation at the place that a check allows.
fn allowed(check: &Check) -> f64 {
    if check.is_of_mold { MOLD } else { 1.0 }
}

/// Temperature factors that a check needs at a site.
pub(super) fn needed_at(stop: &Stop, check: &Check, winter_alone: bool) -> Vec<f64> {
    let all = times(stop, check, winter_alone).into_iter();
    let factor = |(indoor, outdoor, humidity): (Temperature, Temperature, RelativeHumidity)| {
        let span = (indoor - outdoor).as_kelvin();
        let vapor = saturation_vapor_pressure(indoor).as_pa() * humidity.as_fraction();
        let at = crate::physics::moist_air::dew_point(crate::quantity::Pressure::from_pa(
            vapor / allowed(check),
        ));
        (span > 0.0).then(|| (at - outdoor).as_kelvin() / span)
    };
    all.filter_map(factor).collect()
}

/// Whether it fails on the winter mean: what fails by the month needs every month.
pub(super) fn fails_on_the_mean(finding: &Finding) -> bool {
    finding.status.severity() == 2 && !finding.check.is_of_mold
}

/// The most humid room, in whole percent, at which a place of a detail is clear at every site; on the winter
/// mean alone, of what fails on it, where nobody would live in the air that a cold spell asks for.
pub(super) fn drier(one: &JudgedDetail<'_>, finding: &Finding) -> Option<Measure> {
    most_humid(one.stops, finding, corner_factor(one, finding))
}

/// The most humid room at which every surface of a detail drawn box by box is clear that has such a status.
pub(super) fn drier_of_boxes(one: &JudgedBoxes<'_>, status: Status) -> Option<Measure> {
    let findings = one.verdict.findings.iter();
    let of_surfaces = findings.filter(|one| one.status == status && one.check != &LEAK);
    let measures = of_surfaces.filter_map(|finding| most_humid(one.stops, finding, f64::INFINITY));
    let humidity = |measure: &Measure| match measure {
        Measure::DrierRoom { humidity, .. } => humidity.as_fraction(),
        _ => f64::INFINITY,
    };
    measures.min_by(|a, b| humidity(a).total_cmp(&humidity(b)))
}

/// A difference in K between room and outdoors on the winter mean as a part of all of it.
fn as_factor(kelvin: f64, stop: &Stop) -> f64 {
    let winter = &stop.conditions;
    let span = (winter.indoor.temperature - winter.winter_mean.temperature).as_kelvin();
    kelvin / span.abs().max(1e-9)
}

/// `other`: another temperature factor that has to be clear.
fn most_humid(stops: &[Stop], finding: &Finding, other: f64) -> Option<Measure> {
    let Detail::Spot(spot) = &finding.detail else {
        return None;
    };
    let factor = (spot.factor? - as_factor(spot.bar, &stops[finding.site])).min(other);
    let clear = |(indoor, outdoor, _): (Temperature, Temperature, RelativeHumidity)| {
        let kelvin = factor * (indoor - outdoor).as_kelvin();
        let there = outdoor + TemperatureDifference::from_kelvin(kelvin);
        let at_place = saturation_vapor_pressure(there).as_pa();
        let room = saturation_vapor_pressure(indoor).as_pa();
        allowed(finding.check) * at_place / room
    };
    // Just under it, in whole percent.
    let percent = |winter_alone: bool| {
        let all = stops
            .iter()
            .flat_map(|stop| times(stop, finding.check, winter_alone));
        let least = all.map(clear).fold(f64::INFINITY, f64::min);
        ((least - 1e-3) * 100.0).floor()
    };
    let always = percent(false);
    let winter_alone = fails_on_the_mean(finding) && always < 100.0 * DRIEST;
    let percent = if winter_alone { percent(true) } else { always };
    (percent >= 1.0).then(|| Measure::DrierRoom {
        humidity: RelativeHumidity::from_fraction(percent / 100.0),
        winter_alone,
        for_cold_spell: finding.on == Some(On::ColdSpell),
    })
}

/// The least temperature factor, less its bar, that has to be clear at the corner with a finding in the
/// cut. Where the cut fails, its corner isn't solved yet.
fn corner_factor(one: &JudgedDetail<'_>, finding: &Finding) -> f64 {
    let site = &one.sites[finding.site];
    let place = finding.place.as_ref().map(|place| place.path.as_str());
    let (Ok(result), Some(place), true) = (&site.result, place, one.case.has_corner()) else {
        return f64::INFINITY;
    };
    let of_wood = finding.check == &check::detail::WOOD;
    let is_meant = |spot: &CornerSpot| of_wood || spot.along == place;
    // What was solved spoke for itself; mold at the corner alone is judged more mildly.
    if result.corner.is_some() || finding.check.is_of_mold {
        return f64::INFINITY;
    }
    let Ok(corner) = solve_corner(result, CORNER_PRECISION) else {
        return f64::INFINITY;
    };
    let spots = match of_wood {
        true => corner.wood,
        false => corner.surfaces,
    };
    let spots = spots.iter().filter(|spot| is_meant(spot));
    let bar = |spot: &CornerSpot| as_factor(spot.bar, site.stop);
    let factors = spots.filter_map(|spot| Some(result.factor(spot.temperature)? - bar(spot)));
    factors.fold(f64::INFINITY, f64::min)
}
