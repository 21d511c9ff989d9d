//! # Double barrier and undrained pan
//!
//! *What it checks.* Whether wood or open insulation lies between two tight layers; and whether a
//! metal pan under a floor has no way out for water.
//!
//! *Why it matters.* What gets wet between two tight layers stays wet, and a sealed pan holds what
//! reaches it.
//!
//! *Method and source.* Tight is vapor retarder class I, at most 0.1 perm by the dry cup. A class I
//! layer inside, not one that opens with humidity, together with class I outside needs an approved
//! design (IRC 2021, seen in an extract).
//!
//! *Limit.* Double barrier: `depends`, since it stands or falls by how it dries and that is checked
//! beside it. Pan: a note with what collects there by diffusion in a year; `depends` where wood or
//! open insulation lies on it.
//!
//! *When it does not apply.* A layer that drains (`drains: true`) isn't a sealed pan.
//!
//! *Example.* Polyethylene inside, foil-faced foam outside, plywood between: `depends` here, `fail`
//! where it can't dry.

use std::ops::Range;

use super::kind::{Brief, Column, Run};
use super::retarder::{RetarderClass, class_of};
use super::words::{place, water};
use super::{Check, Detail, Finding, On, Place, Status};
use crate::model::{AssemblyKind, Case, Conditions, Kind};
use crate::quantity::{Permeance, Style};
use crate::solve::{EndResult, PathKind, PathResult, Piece, bodies};

/// Wood between two tight layers.
pub static DOUBLE: Check = Check {
    id: "double-barrier",
    title: "double barrier",
    run: Run::End(|_, end| vec![double(end)]),
    column: Some(Column::STATUS),
    say: say_double,
    brief: Brief::Sentences,
    ..Check::PLAIN
};

/// A pan that water can't leave.
pub static PAN: Check = Check {
    id: "undrained-pan",
    title: "undrained pan",
    run: Run::End(|scene, end| pan(scene.case, end).into_iter().collect()),
    column: Some(Column::STATUS),
    say: say_pan,
    brief: Brief::Sentences,
    ..Check::PLAIN
};

const BARRIER_SOURCE: &str = "class I on both sides (IRC 2021, seen in an extract)";
const PAN_SOURCE: &str = "a metal pan that doesn't drain; ISO 13788 yearly balance";

/// Wood or open insulation between two class I layers, on the cavity's path.
#[must_use]
pub fn double(end: &EndResult) -> Finding {
    let cavity = end
        .paths
        .iter()
        .find(|path| path.path.kind == PathKind::Cavity);
    let pieces = cavity.map_or(&[][..], |path| &path.path.pieces);
    let bodies = bodies(pieces);
    let tight =
        |body: &Range<usize>| class_of(dry_permeance(&pieces[body.clone()])) == RetarderClass::One;
    let first = bodies.iter().position(tight);
    let last = bodies.iter().rposition(tight);
    let (Some(first), Some(last)) = (first, last) else {
        return Finding::new(&DOUBLE, Status::Pass, BARRIER_SOURCE);
    };
    let (first, last) = (bodies[first].end - 1, bodies[last].start);
    let between = pieces.get(first + 1..last).unwrap_or_default();
    if !between.iter().any(Piece::is_vulnerable) {
        return Finding::new(&DOUBLE, Status::Pass, BARRIER_SOURCE);
    }
    let (inner, outer) = (pieces[first].name.clone(), pieces[last].name.clone());
    Finding {
        on: Some(On::Material),
        detail: Detail::DoubleBarrier(inner, outer),
        help: Some("open one side to vapor, or a retarder inside that opens when humid".into()),
        ..Finding::new(&DOUBLE, Status::Depends, BARRIER_SOURCE)
    }
}

/// Permeance of a body by the dry cup, kg/(s·m²·Pa); a membrane that opens when humid counts as
/// open, since that is what it is for.
fn dry_permeance(body: &[Piece]) -> Permeance {
    let resistance = |piece: &Piece| {
        let points = &piece.slab.by_humidity;
        let opens = piece.kind == Some(Kind::Membrane) && points.len() > 1;
        match (points.first(), points.last()) {
            (Some(_), Some((_, damp))) if opens => *damp,
            (Some((_, dry)), _) => *dry,
            _ => piece.slab.vapor_resistance,
        }
    };
    Permeance::from_si(1.0 / body.iter().map(resistance).sum::<f64>())
}

/// A metal pan as the last layer of a floor.
#[must_use]
pub fn pan(case: &Case, end: &EndResult) -> Option<Finding> {
    let path = end
        .paths
        .iter()
        .find(|path| path.path.kind == PathKind::Cavity)?;
    let (pan, above) = path.path.pieces.split_last()?;
    let is_pan = case.assembly.kind == AssemblyKind::Floor && pan.kind == Some(Kind::Metal);
    if !is_pan || pan.drains {
        return None;
    }
    let on_it = above.last()?;
    let status = if on_it.is_vulnerable() {
        Status::Depends
    } else {
        Status::Note
    };
    let plane = above.len();
    Some(Finding {
        on: (status == Status::Depends).then_some(On::Material),
        place: Some(Place {
            path: path.path.name.clone(),
            plane: path.plane_names[plane].clone(),
        }),
        detail: Detail::Pan(yearly(path, plane)),
        help: (status == Status::Depends)
            .then(|| "a drain in the pan, or foam bonded to it in place of open insulation".into()),
        ..Finding::new(&PAN, status, PAN_SOURCE)
    })
}

/// What condenses at a plane in a year, kg/m².
fn yearly(path: &PathResult, plane: usize) -> f64 {
    let Some(year) = &path.year else { return 0.0 };
    let gained = year.planes[plane]
        .change
        .iter()
        .filter(|change| **change > 0.0);
    gained.sum()
}

fn say_double(finding: &Finding, _: &Conditions, _: Style) -> String {
    match &finding.detail {
        Detail::DoubleBarrier(inner, outer) => format!(
            "Wood or open insulation lies between two tight layers, {inner} and {outer}: what gets \
             wet there stays wet, and such a wall needs an approved design."
        ),
        _ => "No wood or open insulation lies between two tight layers.".into(),
    }
}

fn say_pan(finding: &Finding, _: &Conditions, style: Style) -> String {
    let Detail::Pan(yearly) = finding.detail else {
        return String::new();
    };
    let gathered = match yearly > 0.0 {
        true => format!(
            "{} a year collects there by diffusion",
            water(yearly, style)
        ),
        false => "nothing collects there by diffusion".into(),
    };
    format!(
        "{} has no drain: {gathered}, and water that gets there any other way stays.",
        place(finding)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::judge;
    use crate::input::resolve_text;
    use crate::model::Content;
    use crate::quantity::RelativeHumidity;
    use crate::solve::solve;
    use rstest::rstest;

    const WALL: &str = "
indoor: {heating: 68 F, humidity: 50 %}
climate: wet-coast
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, material: gypsum board, thickness: 1/2 in}
      - {name: film, material: polyethylene 6 mil}
      - {name: studs, material: R-13 batt, thickness: 3-1/2 in}
      - {name: sheathing, material: plywood, thickness: 1/2 in}
      - {name: skin, material: self-adhered membrane}
";

    // A film of 0.06 perm dry that lets thirty times as much through when damp is class I by the dry cup,
    // and no barrier: 1.8 perm.
    #[rstest]
    #[case::as_tight_when_damp(1.0, Status::Depends)]
    #[case::opens(30.0, Status::Pass)]
    fn a_film_that_opens_when_damp_is_no_second_barrier(
        #[case] opens: f64,
        #[case] status: Status,
    ) {
        let mut project = resolve_text("wall.yaml", WALL).expect("a sound file");
        let Content::Solid(film) = &mut project.cases[0].assembly.layers[1].content else {
            panic!("a film");
        };
        let at = RelativeHumidity::from_fraction;
        std::sync::Arc::make_mut(film).by_humidity = vec![(at(0.25), 1.0), (at(0.8), opens)];
        let result = solve(&project.cases[0].assembly, &project.stops[0].conditions);
        assert_eq!(double(&result.ends[0]).status, status);
    }

    /// What is told of a floor whose last two layers are those, among all findings.
    fn told_of_pan(last: &str) -> Option<Status> {
        let text = format!(
            "indoor: {{heating: 68 F, humidity: 50 %}}
climate: wet-coast
assemblies:
  floor:
    kind: floor
    layers:
      - {{name: deck, material: plywood, thickness: 3/4 in}}
{last}"
        );
        let project = resolve_text("floor.yaml", &text).expect("a sound file");
        let (case, stop) = (&project.cases[0], &project.stops[0]);
        let verdict = judge(case, stop, &solve(&case.assembly, &stop.conditions));
        let mut findings = verdict.findings.into_iter();
        findings.find(|one| one.check == &PAN).map(|one| one.status)
    }

    // By the rule above: what lies on a pan decides; where it drains, or the last layer is no metal, nothing
    // is said of it.
    #[rstest]
    #[case::wool(
        "R-21 batt, thickness: 5-1/2 in",
        "galvanized steel, thickness: 22 ga",
        Some(Status::Depends)
    )]
    #[case::foam(
        "XPS, thickness: 4 in",
        "galvanized steel, thickness: 22 ga",
        Some(Status::Note)
    )]
    #[case::drained(
        "R-21 batt, thickness: 5-1/2 in",
        "galvanized steel, thickness: 22 ga, drains: true",
        None
    )]
    #[case::no_pan("R-21 batt, thickness: 5-1/2 in", "plywood, thickness: 1/2 in", None)]
    fn an_undrained_pan_is_told_of(
        #[case] on_it: &str,
        #[case] last: &str,
        #[case] status: Option<Status>,
    ) {
        let layers = format!(
            "      - {{name: bay, material: {on_it}}}\n      - {{name: last, material: {last}}}\n"
        );
        assert_eq!(told_of_pan(&layers), status);
    }
}
