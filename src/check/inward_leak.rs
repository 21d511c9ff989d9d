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
use super::kind::{Column, Ranged, Run};
use super::words::{distance, place};
use super::{Check, Detail, Finding, On, Place, Status};
use crate::model::Conditions;
use crate::physics::moist_air::{dew_point, vapor_pressure};
use crate::quantity::{Style, month_name};

const SOURCE: &str = "dew point of the outdoor air, month by month (ISO 13788 saturation formula)";

/// Outdoor air leaking into a cooled house.
pub static CHECK: Check = Check {
    id: "inward-air-leak",
    title: "inward air leak",
    against: "outdoor dew point",
    run: Run::Group(|scene, group| check(scene.conditions, group).into_iter().collect()),
    ranged: Some(Ranged::MONTHS),
    column: Some(Column::MARGIN),
    say,
    ..Check::PLAIN
};

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
                    ..Finding::new(&CHECK, Status::Pass, SOURCE)
                });
            }
        }
    }
    if !year.iter().any(|state| state.cooled) {
        return None;
    }
    let mut finding = worst.unwrap_or_else(|| Finding::new(&CHECK, Status::Pass, SOURCE));
    if finding.slack.is_some_and(|slack| slack <= 0.0) {
        finding.status = Status::Depends;
        finding.on = Some(On::Tightness);
        finding.help = Some("an air seal on the outer side, or a warmer cooling set point".into());
    }
    Some(finding)
}

fn say(finding: &Finding, _: &Conditions, style: Style) -> String {
    let (Some(value), Some(limit), Some(margin), Detail::Month(month)) = (
        finding.value,
        finding.limit,
        finding.margin,
        &finding.detail,
    ) else {
        return "No plane that outdoor air reaches touches wood, a panel, open insulation or bare metal.".into();
    };
    let hangs = match finding.status {
        Status::Pass => "",
        _ => ": it hangs on airtightness",
    };
    format!(
        "In the cooled house of {} outdoor air that leaks inward meets {} at {}, {} its dew point \
         of {}{hangs}.",
        month_name(*month),
        place(finding),
        style.show(value),
        distance(margin, style),
        style.show(limit),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::judge;
    use crate::input::resolve_text;
    use crate::solve::solve;
    use approx::assert_abs_diff_eq;

    /// Dew point of air, °C: the formula of ISO 13788 above 0 °C and its inverse.
    fn dew_point_by_hand(celsius: f64, humidity: f64) -> f64 {
        let log = libm::log(humidity) + 17.269 * celsius / (237.3 + celsius);
        237.3 * log / (17.269 - log)
    }

    /// What is told of a wall of those layers through four cooled months, of which August brings the most
    /// vapor and July the most heat.
    fn told(layers: &str) -> Finding {
        let summer = [(6, 27.0, 70), (7, 33.0, 60), (8, 31.0, 75), (9, 26.0, 80)];
        let rows: String = (1..=12)
            .map(|month| {
                let found = summer.iter().find(|(n, ..)| *n == month);
                let (celsius, percent) = found.map_or((10.0, 70), |(_, t, h)| (*t, *h));
                format!(
                    "    - {{month: {month}, temperature: {celsius} C, humidity: {percent} %}}\n"
                )
            })
            .collect();
        let text = format!(
            "indoor: {{heating: 20 C, cooling: 24 C, humidity: 50 %}}
climate:
  name: here
  months:
{rows}assemblies:
  wall:
    kind: wall
    layers:
{layers}"
        );
        let project = resolve_text("wall.yaml", &text).expect("a sound file");
        let (case, stop) = (&project.cases[0], &project.stops[0]);
        let result = solve(&case.assembly, &stop.conditions);
        let mut findings = judge(case, stop, &result).findings.into_iter();
        let finding = findings.find(|one| one.check == &CHECK);
        finding.expect("the house is cooled")
    }

    // From inside to the film's outer face it is 0.13 + 0.1 of 3.37 m²K/W, and nothing that outdoor air
    // reaches is cooler.
    #[test]
    fn the_coolest_plane_in_the_month_with_the_highest_dew_point_is_told() {
        let finding = told(
            "      - {name: lining, kind: panel, r-value: RSI 0.1, permeance: 5 perm, thickness: 10 mm}
      - {name: film, material: polyethylene 6 mil, bonded: true}
      - {name: wool, kind: insulation, r-value: RSI 3, permeance: 50 perm, thickness: 120 mm}
      - {name: board, kind: panel, r-value: RSI 0.1, permeance: 5 perm, thickness: 10 mm}
",
        );
        assert_eq!(finding.detail, Detail::Month(7));
        let there = 24.0 + (31.0 - 24.0) * 0.23 / 3.37;
        let margin = finding.margin.expect("a margin").as_kelvin();
        let want = there - dew_point_by_hand(31.0, 0.75);
        assert_abs_diff_eq!(margin, want, epsilon = 1e-3);
        assert_eq!(finding.status, Status::Depends);
    }

    // Behind a board that is bonded no outdoor air gets to any plane: it passes without a margin.
    #[test]
    fn where_outdoor_air_gets_to_nothing_it_passes() {
        let finding = told(
            "      - {name: wool, kind: insulation, r-value: RSI 3, permeance: 50 perm, thickness: 120 mm}
      - {name: board, kind: panel, r-value: RSI 0.1, permeance: 5 perm, thickness: 10 mm, bonded: true}
",
        );
        assert_eq!((finding.status, finding.margin), (Status::Pass, None));
    }
}
