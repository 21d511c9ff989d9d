//! # Room air
//!
//! *What it checks.* How the room's humidity comes about: what a household's moisture balance
//! gives month by month, where condensation on the coldest surface caps it, the ventilation that
//! holds a target, and whether a stated humidity is likely for the household stated beside it.
//!
//! *Why it matters.* The room's humidity decides more than any layer does. In a small house 35 to
//! 40 % isn't realistic in a wet winter.
//!
//! *Method and source.* Vapor given off over outdoor air brought in, added to the outdoor vapor
//! pressure (mass balance); the sources of water are in [`crate::physics::moisture_source`]. The
//! cap is saturation at the coldest surface, whose temperature factor the file gives (60 % by
//! common practice for a window's edge).
//!
//! Where nothing cools, months in which the house would be warm by itself (outdoors 5 K under the
//! heating set point or warmer, common practice) are lived in with windows open: the excess falls
//! along the straight line of ISO 13788's humidity classes. A cooled room is dried by its cooler, to 60 % at
//! most where the file doesn't state it (common practice).
//!
//! *Limit.* None: notes. The humidity it gives is what every other check is run with. A stated
//! humidity is remarked on where the balance would make it higher by more than 5 % in any of the
//! three coldest months (common practice).
//!
//! *When it does not apply.* Where the file states a humidity and no household.
//!
//! *Example.* Two people, propane cooking, 30 cfm, 5 °C outside: 54 %.

mod say;

use super::kind::{Column, Run};
use super::{Check, Detail, Finding, Status};
use crate::model::{Household, Indoor, MonthState, RoomVapor, Stop};
use crate::physics::moist_air::{saturation_vapor_pressure, vapor_pressure};
use crate::quantity::{RelativeHumidity, VolumeFlow};

/// How the room's humidity comes about.
pub static CHECK: Check = Check {
    id: "room-air",
    title: "room air",
    run: Run::Whole(|scene| check(scene.stop).into_iter().collect()),
    column: Some(Column::STATUS),
    say: |finding, _, style| say::say(finding, style),
    ..Check::PLAIN
};

const SOURCE: &str = "moisture balance of the household, month by month";
/// How far the balance may lie above a stated humidity before it is remarked on, as a fraction.
const UNLIKELY: f64 = 0.05;

/// What the household's balance gives in a month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoomBalance {
    /// The month, 0 is January.
    pub month: usize,
    /// The humidity it gives, capped, as a fraction.
    pub humidity: RelativeHumidity,
    /// The humidity if nothing condensed; `None` where nothing does, infinite without ventilation.
    pub uncapped: Option<f64>,
    /// The ventilation that holds the target; `None` where outdoor air is as wet, or no target.
    pub needed: Option<VolumeFlow>,
    /// Whether the house is cooled in that month: then the cooler dries it as well.
    pub cooled: bool,
    /// Whether it is lived in with windows open.
    pub windows_open: bool,
}

/// What there is to say of the room's air.
#[derive(Clone, Debug, PartialEq)]
pub struct RoomAirDetail {
    /// The household.
    pub household: Household,
    /// The humidity the file states, where it does.
    pub stated: Option<RelativeHumidity>,
    /// The balance by the month, January first.
    pub months: Vec<RoomBalance>,
    /// The most humid winter month is more humid than the stated humidity by more than 5 %.
    pub unlikely: Option<usize>,
}

/// A note on the room's air; `None` where no household is stated or there is no climate.
#[must_use]
pub fn check(stop: &Stop) -> Option<Finding> {
    let household = match (stop.indoor.vapor, stop.indoor.household) {
        (RoomVapor::Balance(household), _) => household,
        (_, household) => household?,
    };
    let year = stop.conditions.year.as_ref()?;
    let months: Vec<RoomBalance> = year
        .iter()
        .enumerate()
        .map(|(month, state)| balance(month, state, &stop.indoor, household))
        .collect();
    let stated = match stop.indoor.vapor {
        RoomVapor::Humidity(humidity) => Some(humidity),
        _ => None,
    };
    let mut coldest: Vec<usize> = (0..12).collect();
    coldest.sort_by(|a, b| {
        let celsius = |n: &usize| year[*n].outdoor.temperature.as_celsius();
        celsius(a).total_cmp(&celsius(b))
    });
    let likely = |month: &&usize| months[**month].humidity.as_fraction();
    let dampest = coldest[..3]
        .iter()
        .max_by(|a, b| likely(a).total_cmp(&likely(b)))
        .copied();
    let unlikely = dampest.filter(|month| {
        stated.is_some_and(|stated| {
            months[*month].humidity.as_fraction() > stated.as_fraction() + UNLIKELY
        })
    });
    Some(Finding {
        detail: Detail::RoomAir(Box::new(RoomAirDetail {
            household,
            stated,
            months,
            unlikely,
        })),
        ..Finding::new(&CHECK, Status::Note, SOURCE)
    })
}

fn balance(month: usize, state: &MonthState, indoor: &Indoor, household: Household) -> RoomBalance {
    let outdoor = state.outdoor;
    let outdoor_vapor = vapor_pressure(outdoor.temperature, outdoor.humidity);
    let by_balance = Indoor {
        vapor: RoomVapor::Balance(household),
        ..*indoor
    };
    let room = by_balance.room(outdoor.temperature, outdoor_vapor);
    let temperature = room.air.temperature;
    let saturation = saturation_vapor_pressure(temperature).as_pa();
    let uncapped = household.pressure(temperature, outdoor_vapor).as_pa() / saturation;
    RoomBalance {
        month,
        humidity: room.air.humidity,
        uncapped: room.uncapped.map(|_| uncapped),
        needed: household
            .target
            .and_then(|target| household.ventilation_to_hold(target, temperature, outdoor_vapor)),
        cooled: room.cooled,
        windows_open: room.windows_open,
    }
}
