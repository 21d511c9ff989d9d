//! # Room surface: condensation and mold
//!
//! *What it checks.* Whether the room's own surface, on every path, stays above the dew point of
//! the room air (condensation), and above the temperature at which the air there would be at 80 %
//! (mold).
//!
//! *Why it matters.* Mold needs no liquid water: 80 % at the surface, month after month, is enough.
//!
//! *Method and source.* Surface temperature with the films of ISO 6946. Condensation: against the
//! dew point. Mold: against the temperature whose saturation pressure is the room's vapor pressure
//! divided by 0.8 (ISO 13788, from memory).
//!
//! In the months of a climate the required temperature factor is
//! f = (θ_si,min − θ_e) / (θ_i − θ_e), and the month that needs the most decides.
//!
//! *Limit.* 0 K. Condensation: the winter mean crossing fails, the design night alone gives
//! `depends`. Mold goes by the month: any month that crosses fails. Without a climate the winter
//! mean stands for the months.
//!
//! *When it does not apply.* Corners and places behind furniture are colder than a plane surface.
//!
//! *Example.* 20 °C at 50 %: mold limit 12.6 °C, condensation limit 9.3 °C.

use super::air_leak::{AtPlane, at_plane};
use super::group::{Group, spans};
use super::kind::{Column, Ranged, Run};
use super::words::{cold_spell, numbers, place};
use super::{Check, Detail, Finding, MoldDetail, On, Place, Status, Times};
use crate::model::{Conditions, MonthState};
use crate::physics::heat::temperature_factor;
use crate::physics::moist_air::{dew_point, saturation_vapor_pressure, vapor_pressure};
use crate::quantity::{Pressure, Style, Temperature, TemperatureDifference, fixed, month_name};
use crate::solve::{AssemblyResult, PathResult};

/// Condensation on the room's surface; of what a detail shows it judges that itself.
pub static CONDENSATION: Check = Check {
    id: "room-surface-condensation",
    title: "room surface, condensation",
    run: Run::Group(|scene, group| match group.is_shown() {
        true => Vec::new(),
        false => vec![condensation(scene.conditions, scene.result, group)],
    }),
    ranged: Some(Ranged::WINTER),
    column: Some(Column::MARGIN),
    say: say_condensation,
    ..Check::PLAIN
};

/// Mold on the room's surface, likewise.
pub static MOLD: Check = Check {
    id: "room-surface-mold",
    title: "room surface, mold",
    against: "the mold limit",
    is_of_mold: true,
    run: Run::Group(|scene, group| match group.is_shown() {
        true => Vec::new(),
        false => vec![mold(scene.conditions, scene.result, group)],
    }),
    ranged: Some(Ranged::MONTHS),
    column: Some(Column::MARGIN),
    say: say_mold,
    ..Check::PLAIN
};

/// Relative humidity at a surface above which mold grows, monthly mean (ISO 13788, from memory).
const MOLD_HUMIDITY: f64 = 0.8;
const CONDENSATION_SOURCE: &str = "dew point of the room air (ISO 13788 saturation formula)";
const MOLD_SOURCE: &str = "80 % at the surface, monthly mean (ISO 13788, from memory)";

/// Condensation on the room's surface.
#[must_use]
pub fn condensation(
    conditions: &Conditions,
    result: &AssemblyResult,
    group: &Group<'_>,
) -> Finding {
    let limit = result.room_dew_point;
    let coldest = coldest_surface(conditions, group, limit);
    // The month is left to the check on mold, which asks for more.
    let times = Times {
        month: None,
        ..coldest.times
    };
    let status = times.status((Status::Fail, None));
    let (status, on) = group.bounded(status, spans(conditions, &times));
    let finding = Finding::new(&CONDENSATION, status, CONDENSATION_SOURCE);
    Finding {
        on,
        slack: Some(times.winter.as_kelvin()),
        month_margin: None,
        ..coldest.describe(finding, limit)
    }
}

/// Mold on the room's surface.
#[must_use]
pub fn mold(conditions: &Conditions, result: &AssemblyResult, group: &Group<'_>) -> Finding {
    match &conditions.year {
        Some(year) => mold_by_month(year, group),
        None => mold_on_winter_mean(conditions, result, group),
    }
}

/// The critical month is the one that needs the highest temperature factor, not the one with the
/// least margin: in summer every margin is small, and no insulation changes it. A month that
/// crosses comes before any that doesn't.
fn mold_by_month(year: &[MonthState; 12], group: &Group<'_>) -> Finding {
    let months = year.iter().enumerate();
    let all = months.flat_map(|(month, state)| {
        let paths = group.paths.iter();
        paths.map(move |path| MoldMonth::new(month, state, path))
    });
    let worst = all.max_by(|a, b| {
        let crosses = |one: &MoldMonth<'_>| one.margin().as_kelvin() <= 0.0;
        let (a_short, b_short) = (a.shortage(), b.shortage());
        crosses(a)
            .cmp(&crosses(b))
            .then(a_short.total_cmp(&b_short))
            .then(b.margin().as_kelvin().total_cmp(&a.margin().as_kelvin()))
    });
    worst.map_or_else(
        || Finding::new(&MOLD, Status::Unknown, MOLD_SOURCE),
        |worst| worst.finding(&year[worst.month], group),
    )
}

/// The room's surface on one path in one month.
struct MoldMonth<'a> {
    month: usize,
    path: &'a PathResult,
    value: Temperature,
    limit: Temperature,
    /// Temperature factors needed and there, where the room is warmer than outdoors.
    factors: Option<(f64, f64)>,
}

impl<'a> MoldMonth<'a> {
    fn new(month: usize, state: &MonthState, path: &'a PathResult) -> Self {
        let (indoor, outdoor) = (state.indoor.temperature, state.outdoor.temperature);
        let limit = mold_limit(dew_point(vapor_pressure(indoor, state.indoor.humidity)));
        let value = path.months[month][0];
        let factors = temperature_factor(limit, outdoor, indoor)
            .zip(temperature_factor(value, outdoor, indoor))
            .filter(|_| indoor > outdoor);
        Self {
            month,
            path,
            value,
            limit,
            factors,
        }
    }

    fn margin(&self) -> TemperatureDifference {
        self.value - self.limit
    }

    /// Temperature factor needed less the one there.
    fn shortage(&self) -> f64 {
        self.factors
            .map_or(f64::NEG_INFINITY, |(needed, there)| needed - there)
    }

    fn finding(&self, state: &MonthState, group: &Group<'_>) -> Finding {
        let margin = self.margin();
        let span = state.indoor.temperature - state.outdoor.temperature;
        let (status, on) = group.bounded(clear(margin), [(margin, span)]);
        let month = self.month;
        let detail = |(required, factor)| {
            Detail::Mold(MoldDetail {
                month,
                required,
                factor,
            })
        };
        Finding {
            on,
            place: Some(Place {
                path: self.path.path.name.clone(),
                plane: self.path.plane_names[0].clone(),
            }),
            value: Some(self.value),
            limit: Some(self.limit),
            margin: Some(margin),
            slack: Some(margin.as_kelvin()),
            detail: self.factors.map_or(Detail::Month(month), detail),
            ..Finding::new(&MOLD, status, MOLD_SOURCE)
        }
    }
}

fn clear(margin: TemperatureDifference) -> (Status, Option<On>) {
    match margin.as_kelvin() > 0.0 {
        true => (Status::Pass, None),
        false => (Status::Fail, None),
    }
}

fn mold_on_winter_mean(
    conditions: &Conditions,
    result: &AssemblyResult,
    group: &Group<'_>,
) -> Finding {
    let limit = mold_limit(result.room_dew_point);
    let coldest = coldest_surface(conditions, group, limit);
    let margin = coldest.times.winter;
    let span = conditions.indoor.temperature - conditions.winter_mean.temperature;
    let (status, on) = group.bounded(clear(margin), [(margin, span)]);
    let finding = Finding::new(&MOLD, status, MOLD_SOURCE);
    Finding {
        on,
        slack: Some(margin.as_kelvin()),
        ..coldest.describe(finding, limit)
    }
}

/// The surface temperature at which the room's vapor stands at 80 %.
#[must_use]
pub fn mold_limit(room_dew_point: Temperature) -> Temperature {
    let pressure = saturation_vapor_pressure(room_dew_point).as_pa() / MOLD_HUMIDITY;
    dew_point(Pressure::from_pa(pressure))
}

fn coldest_surface<'a>(
    conditions: &Conditions,
    group: &Group<'a>,
    limit: Temperature,
) -> AtPlane<'a> {
    let first = at_plane(group.paths[0], 0, conditions, limit);
    let others = group.paths[1..].iter();
    let others = others.map(|path| at_plane(path, 0, conditions, limit));
    others.fold(first, |a, b| match b.times.winter < a.times.winter {
        true => b,
        false => a,
    })
}

fn say_condensation(finding: &Finding, _: &Conditions, style: Style) -> String {
    let night = cold_spell(finding, style);
    surface(finding, "the dew point of the room air", &night, style)
}

fn say_mold(finding: &Finding, _: &Conditions, style: Style) -> String {
    let what = "the temperature at which it would stand at 80 % humidity";
    surface(finding, what, "", style) + &mold_month(finding)
}

fn surface(finding: &Finding, what: &str, night: &str, style: Style) -> String {
    let Some([at, distance, limit]) = numbers(finding, style) else {
        return String::new();
    };
    format!(
        "The coldest room surface, {}, is at {at}, {distance} {what}, {limit}{night}.",
        place(finding)
    )
}

/// What the critical month adds to the sentence on mold.
fn mold_month(finding: &Finding) -> String {
    match &finding.detail {
        Detail::Mold(MoldDetail {
            month,
            required,
            factor,
        }) => {
            let beyond = match *required > 1.0 {
                true => {
                    " More than 1 is more than any wall can give: the room's own air is above 80 % \
                     then. Drier air would do: more ventilation, or a cooler that dries."
                }
                false => "",
            };
            format!(
                " The month that needs most is {}: temperature factor {} needed, {} there.{beyond}",
                month_name(*month),
                fixed(*required, 3),
                fixed(*factor, 3)
            )
        }
        Detail::Month(month) => format!(" The critical month is {}.", month_name(*month)),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::moist_air::vapor_pressure;
    use crate::quantity::RelativeHumidity;
    use approx::assert_abs_diff_eq;

    // 20 °C at 50 %: DIN 4108-2 prints 12.6 °C (from memory).
    #[test]
    fn mold_limit_of_the_standard_room() {
        let room = vapor_pressure(
            Temperature::from_celsius(20.0),
            RelativeHumidity::from_fraction(0.5),
        );
        assert_abs_diff_eq!(
            mold_limit(dew_point(room)).as_celsius(),
            12.6,
            epsilon = 0.05
        );
    }
}
