//! # Inward air leak
//!
//! *What it checks.* In the months in which the house is cooled: whether outdoor air that leaks
//! inward meets a plane below its own dew point.
//!
//! *Why it matters.* A cooled house in a hot and humid summer is the winter wall turned around.
//!
//! *Method and source.* Plane temperature minus the dew point of the outdoor air, month by month,
//! at the planes that outdoor air reaches: from outdoors inward to the outer face of the last bonded
//! layer, where they touch wood, a panel, air-permeable insulation or bare metal.
//!
//! *Limit.* 0 K. A plane at or below the dew point gives `depends`: it hangs on airtightness.
//!
//! *When it does not apply.* Where the file gives no climate or no month is cooled: a month is
//! cooled when its outdoor mean lies above the cooling set point.
//!
//! *Example.* Outdoors 28 °C with a dew point of 24.5 °C, room at 24 °C: the back of the wallboard at
//! 24.4 °C is 0.1 K below it, `depends`.

use super::group::Group;
use super::{Check, Detail, Finding, On, Place, Status};
use crate::model::Conditions;
use crate::physics::moist_air::{dew_point, vapor_pressure};

const SOURCE: &str = "dew point of the outdoor air, month by month (ISO 13788 saturation formula)";

/// The plane and month with the least margin; `None` where no month is cooled.
#[must_use]
pub fn check(conditions: &Conditions, group: &Group<'_>) -> Option<Finding> {
    let year = conditions.year.as_ref()?;
    let mut worst: Option<Finding> = None;
    for (month, state) in year.iter().enumerate().filter(|(_, state)| state.cooled) {
        let outdoor = state.outdoor;
        let limit = dew_point(vapor_pressure(outdoor.temperature, outdoor.humidity));
        for path in &group.paths {
            for (plane, role) in path.roles.iter().enumerate() {
                if !role.judged_inward {
                    continue;
                }
                let value = path.months[month][plane];
                let margin = value - limit;
                if worst
                    .as_ref()
                    .and_then(|finding| finding.margin)
                    .is_some_and(|least| least <= margin)
                {
                    continue;
                }
                worst = Some(Finding {
                    place: Some(Place {
                        path: path.path.name.clone(),
                        plane: path.plane_names[plane].clone(),
                    }),
                    value: Some(value),
                    limit: Some(limit),
                    margin: Some(margin),
                    slack: Some(margin.as_kelvin()),
                    detail: Detail::Month(month),
                    ..Finding::new(Check::InwardLeak, Status::Pass, SOURCE)
                });
            }
        }
    }
    if !year.iter().any(|state| state.cooled) {
        return None;
    }
    let mut finding =
        worst.unwrap_or_else(|| Finding::new(Check::InwardLeak, Status::Pass, SOURCE));
    if finding.slack.is_some_and(|slack| slack <= 0.0) {
        finding.status = Status::Depends;
        finding.on = Some(On::Tightness);
        finding.help = Some("an air seal on the outer side, or a warmer cooling set point".into());
    }
    Some(finding)
}
