//! # Diffusion on the winter mean
//!
//! *What it checks.* Whether vapor that diffuses through the layers condenses at a vulnerable plane,
//! one that touches wood, a wood-based panel or air-permeable insulation.
//!
//! *Why it matters.* It is the wetting that no air seal prevents.
//!
//! *Method and source.* Steady diffusion with condensation taken out by the convex string
//! (ISO 13788), vapor properties at 50 % relative humidity.
//!
//! *Limit.* Nothing condenses at a vulnerable plane: pass. If something does, whether it dries
//! again takes the twelve months of a climate: `unknown` here, which counts as depends.
//!
//! *When it does not apply.* Water at other planes, such as foam on a steel pan, is a note with its
//! amount: counted, not judged. Between two perfect barriers diffusion says nothing: `unknown`.
//!
//! *Example.* Plywood outside mineral fiber at 50 % indoors: `unknown` with its kg/m² in 30 days.

use super::group::Group;
use super::kind::{Column, Run};
use super::words::{self, distance};
use super::{Check, Finding, Place, Status};
use crate::model::Conditions;
use crate::quantity::{Style, TemperatureDifference};
use crate::solve::PathResult;

const SOURCE: &str = "ISO 13788 steady diffusion, winter mean, vapor properties at 50 %";
/// Flows below this are rounding: a microgram per m² and day, kg/(m²·s).
const NOTHING: f64 = 1e-14;

/// Diffusion on the winter mean, where no climate is given.
pub static CHECK: Check = Check {
    id: "diffusion-on-the-winter-mean",
    title: "diffusion, winter mean",
    against: "dew point of its vapor",
    run: Run::Group(|scene, group| match scene.conditions.year {
        Some(_) => Vec::new(),
        None => check(group),
    }),
    column: Some(Column::MARGIN),
    say,
    ..Check::PLAIN
};

/// One judged finding, and one note for every other plane or layer where water collects.
#[must_use]
pub fn check(group: &Group<'_>) -> Vec<Finding> {
    let mut wet: Vec<Finding> = Vec::new();
    let mut driest: Option<(TemperatureDifference, Place)> = None;
    for path in &group.paths {
        for plane in 0..path.roles.len() {
            let state = &path.winter.planes[plane];
            let vulnerable = path.roles[plane].vulnerable;
            if vulnerable && state.vapor_pressure.is_none() {
                wet.push(sealed_in(path, plane));
            }
            if state.condensing_flow > NOTHING && plane + 1 < path.roles.len() {
                let status = if vulnerable {
                    Status::Unknown
                } else {
                    Status::Note
                };
                wet.push(describe(path, plane, status));
            }
            if let (true, Some(margin)) = (vulnerable, state.dew_point_margin)
                && driest.as_ref().is_none_or(|(least, _)| margin < *least)
            {
                driest = Some((margin, place(path, plane)));
            }
        }
        wet.extend(inside(path));
    }
    if !wet.iter().any(|finding| finding.status == Status::Unknown) {
        let mut dry = Finding::new(&CHECK, Status::Pass, SOURCE);
        if let Some((margin, place)) = driest.filter(|(margin, _)| margin.as_kelvin() > 0.0) {
            dry.margin = Some(margin);
            dry.place = Some(place);
        }
        wet.insert(0, dry);
    }
    wet
}

fn place(path: &PathResult, plane: usize) -> Place {
    Place {
        path: path.path.name.clone(),
        plane: path.plane_names[plane].clone(),
    }
}

/// Between two perfect barriers diffusion says nothing of the vapor, so nothing is passed.
fn sealed_in(path: &PathResult, plane: usize) -> Finding {
    Finding {
        place: Some(place(path, plane)),
        value: Some(path.winter.planes[plane].temperature),
        ..Finding::new(&CHECK, Status::Unknown, SOURCE)
    }
}

fn describe(path: &PathResult, plane: usize, status: Status) -> Finding {
    let state = &path.winter.planes[plane];
    let help = "a tighter vapor retarder inside, or drier room air";
    Finding {
        place: Some(place(path, plane)),
        value: Some(state.temperature),
        limit: state.dew_point,
        margin: state.dew_point_margin,
        condensing_flow: Some(state.condensing_flow),
        help: (status == Status::Unknown).then(|| help.to_owned()),
        ..Finding::new(&CHECK, status, SOURCE)
    }
}

/// Water inside layers: a note, except in wood and air-permeable insulation.
fn inside(path: &PathResult) -> impl Iterator<Item = Finding> + '_ {
    let wet = path
        .winter
        .condensing_inside
        .iter()
        .enumerate()
        .filter(|(_, flow)| **flow > NOTHING);
    wet.map(|(n, flow)| {
        let piece = &path.path.pieces[n];
        let vulnerable = piece.is_vulnerable();
        let status = if vulnerable {
            Status::Unknown
        } else {
            Status::Note
        };
        let minimum = path
            .winter
            .inner_minima
            .iter()
            .find(|minimum| minimum.slab == n);
        Finding {
            place: Some(Place {
                path: path.path.name.clone(),
                plane: format!("inside {}", piece.name),
            }),
            margin: minimum.map(|minimum| minimum.margin),
            condensing_flow: Some(*flow),
            ..Finding::new(&CHECK, status, SOURCE)
        }
    })
}

fn say(finding: &Finding, _: &Conditions, style: Style) -> String {
    let place = words::place(finding);
    if finding.status == Status::Unknown && finding.condensing_flow.is_none() {
        return format!(
            "{place} lies between two perfect barriers: diffusion can't tell its vapor."
        );
    }
    let Some(flow) = finding.condensing_flow else {
        return match finding.margin {
            Some(margin) => format!(
                "Nothing condenses at a plane of wood or open insulation on the winter mean; the closest is {place}, {} the dew point of its vapor.",
                distance(margin, style)
            ),
            None => {
                "Nothing condenses at a plane of wood or open insulation on the winter mean.".into()
            }
        };
    };
    let water = style.water_per_month(flow);
    match finding.status {
        Status::Note => {
            format!("{place}: {water} condenses on the winter mean; counted, not judged.")
        }
        _ => format!(
            "{place}: {water} condenses on the winter mean. Whether it dries again takes the twelve months of a climate."
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::resolve_text;
    use crate::study::Study;
    use rstest::rstest;

    // Between open surfaces vapor falls along a straight line, in mineral wool; saturation hangs below it
    // where the room is damp enough. Halfway between 20 °C and −10 °C it is 872 Pa (ISO 13788, at 5 °C);
    // vapor there (0.9 · 2337 + 0.9 · 260)/2 = 1169 Pa, or (0.3 · 2337 + 0.9 · 260)/2 = 468 Pa.
    #[rstest]
    #[case::damp(90, 1, Status::Unknown)]
    #[case::dry(30, 0, Status::Pass)]
    fn water_inside_a_layer_is_told_where_there_is_some(
        #[case] percent: u32,
        #[case] inside: usize,
        #[case] status: Status,
    ) {
        let text = format!(
            "
indoor: {{heating: 20 C, humidity: {percent} %}}
outdoor: {{winter-mean: {{temperature: -10 C, humidity: 90 %}}}}
assemblies:
  wall:
    kind: wall
    layers:
      - {{name: wool, kind: insulation, r-value: RSI 6, permeance: 10 perm, thickness: 240 mm}}
"
        );
        let project = resolve_text("test.yaml", &text).unwrap();
        let verdict = &Study::of(&project).assemblies[0].verdict;
        let of_diffusion = |one: &&Finding| one.check == &CHECK;
        let found: Vec<&Finding> = verdict.findings.iter().filter(of_diffusion).collect();
        let is_inside = |one: &&&Finding| {
            one.place
                .as_ref()
                .is_some_and(|place| place.plane == "inside wool")
        };
        assert_eq!(found.iter().filter(is_inside).count(), inside);
        assert_eq!(found[0].status, status);
        let flows = found.iter().filter_map(|one| one.condensing_flow);
        assert!(flows.into_iter().all(|flow| flow > 0.0));
    }

    // Wood between two perfect barriers: diffusion says nothing, so nothing may be passed.
    #[test]
    fn between_two_perfect_barriers_nothing_is_passed() {
        let text = "
indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: skin, material: aluminum, thickness: 22 ga, bonded: true}
      - {name: panel, material: plywood, thickness: 3/4 in}
      - {name: foam, material: XPS, thickness: 4 in}
      - {name: outer skin, material: aluminum, thickness: 22 ga}
";
        let project = resolve_text("test.yaml", text).unwrap();
        assert_eq!(
            Study::of(&project).assemblies[0].verdict.status.word(),
            "depends"
        );
    }
}
