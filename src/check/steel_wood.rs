//! # Wood at the steel
//!
//! *What it checks.* Whether the wood nearest to each metal strip stays above the dew point of the
//! room air that reaches it.
//!
//! *Why it matters.* The strip goes as cold as the weather. Judging by the floor's surface alone
//! is a false pass: foam under the finish floor warms feet and leaves the subfloor colder.
//!
//! *Method and source.* Temperature of the outer face of the wood on the strip's path (parallel
//! path, the steel short-circuiting what lies below it) minus the dew point of the room air.
//!
//! *Limit.* 0 K: clear on the winter mean passes; only the coldest month or the design night crossing
//! gives `depends`, on a cold spell; the winter mean crossing fails. A strip that no detail shows is a
//! hand-check: what passes by less than it may err depends on the drawing ([`super::group`]).
//!
//! *When it does not apply.* Where a bonded layer keeps air from the wood: then it is a note. Where a
//! detail shows the strip, the detail judges, and what the strip alone shows is a note with its error
//! on this section.
//!
//! *Example.* Subfloor bare on the flange at 43.2 °F, dew point 53.6 °F: margin −10.4 °F, `fail`.

use super::air_leak::at_plane;
use super::group::{Group, spans};
use super::kind::{Column, Ranged, Run};
use super::words::{cold_spell, numbers};
use super::{Check, Detail, Finding, On, Status, StripAloneDetail};
use crate::model::{Conditions, Strip};
use crate::quantity::Style;
use crate::solve::{AssemblyResult, PathResult};

const SOURCE: &str = "dew point of the room air (ISO 13788 saturation formula); hand-check";
const ALONE: &str = "parallel path over the strip alone, a hand-check; the detail decides";

/// Wood at the steel, where room air reaches it.
pub static CHECK: Check = Check {
    id: "wood-at-the-steel",
    title: "wood at the steel",
    run: Run::Group(|scene, group| {
        check(scene.conditions, scene.result, group)
            .into_iter()
            .collect()
    }),
    ranged: Some(Ranged::WINTER),
    column: Some(Column::MARGIN),
    say,
    ..Check::PLAIN
};

/// The wood of a group that is a strip with wood on it.
#[must_use]
pub fn check(
    conditions: &Conditions,
    result: &AssemblyResult,
    group: &Group<'_>,
) -> Option<Finding> {
    let (strip, path) = (group.strip?, *group.paths.first()?);
    let plane = path.roles.iter().position(|role| role.wood_at_steel)?;
    if group.is_shown() {
        return Some(alone(path, plane));
    }
    let limit = result.room_dew_point;
    let wood = at_plane(path, plane, conditions, limit);
    let (status, on) = match path.roles[plane].reached {
        false => (Status::Note, None),
        true => group.bounded(
            wood.times.status((Status::Fail, None)),
            spans(conditions, &wood.times),
        ),
    };
    let finding = wood.describe(Finding::new(&CHECK, status, SOURCE), limit);
    let on_metal = plane + 1 == path.path.pieces.len();
    Some(Finding {
        on,
        help: (status.severity() > 0).then(|| help(strip, on, on_metal)),
        slack: Some(wood.times.winter.as_kelvin()),
        ..finding
    })
}

fn help(strip: &Strip, on: Option<On>, on_metal: bool) -> String {
    let name = &strip.name;
    match (on, on_metal) {
        (Some(On::Drawing), _) => {
            format!("draw the edge at the {name} as a detail: it decides")
        }
        (_, true) => format!(
            "foam over the {name}, under the wood, bonded; foam above the wood makes it colder"
        ),
        (_, false) => format!("more foam over the {name}, under the wood"),
    }
}

/// What the strip alone shows of wood that a detail judges, with its error on this section.
fn alone(path: &PathResult, plane: usize) -> Finding {
    let wood = path.in_one_dimension().planes[plane].temperature;
    Finding {
        place: Some(super::Place {
            path: path.path.name.clone(),
            plane: path.plane_names[plane].clone(),
        }),
        detail: Detail::StripAlone(StripAloneDetail {
            wood,
            too_warm: wood - path.winter.planes[plane].temperature,
        }),
        ..Finding::new(&super::detail::HAND_CHECK, Status::Note, ALONE)
    }
}

fn say(finding: &Finding, conditions: &Conditions, style: Style) -> String {
    let Some([at, distance, limit]) = numbers(finding, style) else {
        return String::new();
    };
    let Some(place) = &finding.place else {
        return String::new();
    };
    if finding.status == Status::Note {
        let path = &place.path;
        return format!(
            "{path}: the wood nearest to the steel is at {at}; a bonded layer keeps room air from it."
        );
    }
    let wood = place.plane.split(" / ").next().unwrap_or_default();
    let (winter, indoor) = (conditions.winter_mean, conditions.indoor);
    format!(
        "On the winter mean ({}, {}) the {wood} over the {} is at {at}, {distance} the dew point of \
         the room air ({limit} at {} and {}){}.",
        style.show(winter.temperature),
        style.show(winter.humidity),
        place.path,
        style.show(indoor.temperature),
        style.show(indoor.humidity),
        cold_spell(finding, style),
    )
}
