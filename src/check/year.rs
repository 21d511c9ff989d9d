//! # Diffusion through the year
//!
//! *What it checks.* Whether vapor that diffuses through the layers wets a vulnerable plane, one
//! that touches wood, a wood-based panel or air-permeable insulation; how much water gathers there,
//! in which months, and by when it is dry again.
//!
//! *Why it matters.* It is the wetting that no air seal prevents, and a cold night alone can't tell
//! whether it dries.
//!
//! *Method and source.* The yearly vapor balance of ISO 13788: months, convex string under
//! saturation, wet planes held at saturation until they are empty, repeated to a steady yearly
//! cycle; permeances follow the humidity.
//!
//! *Limit.* Nothing condenses at a vulnerable plane: pass. It wets one, stays below the limit and is
//! dry again within the year: depends. Above the limit, or water left from year to year: fail.
//! Limits (DIN 4108-3, seen in an article on it): 5 % of the mass of wood, 3 % of that of a
//! wood-based panel; never more than 1.0 kg/m², or 0.5 kg/m² between faces that take up no water.
//!
//! *When it does not apply.* Water at other planes, such as foam on a steel pan, is a note with its
//! amount: counted, not judged. Between two perfect barriers diffusion says nothing: `unknown`. A
//! reckoning that didn't settle is `unknown` too.
//!
//! *Example.* 0.12 kg/m² at plywood of 6 kg/m² from December to March, dry by April: limit 0.18,
//! `depends`.

mod say;

use std::ops::Range;

use super::group::Group;
use super::kind::{Brief, Column, Ranged, Run};
use super::{Check, Detail, Finding, On, Place, Status, YearDetail};
use crate::model::Kind;
use crate::quantity::Dimension;
use crate::solve::year::{WaterYear, Year};
use crate::solve::{EndResult, PathResult, Piece, bodies};
pub use say::say;

/// Diffusion through the twelve months, where a climate is given.
pub static CHECK: Check = Check {
    id: "diffusion-through-the-year",
    title: "diffusion through the year",
    run: Run::Group(|_, group| check(group)),
    ranged: Some(Ranged::YEAR),
    column: Some(Column {
        dimension: Some(Dimension::Water),
        has_limit: true,
        measure: |finding| match (&finding.detail, finding.status) {
            (Detail::Year(year), _) => [Some(year.peak), year.limit.map(|(limit, _)| limit)],
            // Nothing condenses anywhere vulnerable.
            (_, Status::Pass) => [Some(0.0), None],
            _ => [None, None],
        },
    }),
    say: |finding, _, style| say(finding, style),
    brief: Brief::Phrase(say::phrase),
    ..Check::PLAIN
};

const SOURCE: &str = "ISO 13788 yearly balance; limits as in DIN 4108-3";
/// Share of its mass that solid wood may take up.
const WOOD_SHARE: f64 = 0.05;
/// Share of its mass that a wood-based panel may take up.
const PANEL_SHARE: f64 = 0.03;
/// Most water at any plane, kg/m².
const GENERAL: f64 = 1.0;
/// Most water between faces that take up none: it runs off, kg/m².
const RUN_OFF: f64 = 0.5;
/// Below this a plane is dry, kg/m²: a tenth of a milligram is rounding.
const NOTHING: f64 = 1e-7;

/// Where in a path water lies.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum At {
    /// At a plane between two bodies.
    Plane(usize),
    /// Inside a body, by its layers.
    Inside(Range<usize>),
}

/// Water at a place of a path through the year.
pub(crate) struct Held {
    /// Where.
    pub(crate) at: At,
    /// The name findings give the place.
    pub(crate) name: String,
    /// The water.
    pub(crate) water: WaterYear,
    /// The most it may hold, kg/m²; `None` where it isn't judged.
    pub(crate) limit: Option<f64>,
}

/// One judged finding, and a note for every other place where water gathers; empty without a
/// climate.
#[must_use]
pub fn check(group: &Group<'_>) -> Vec<Finding> {
    let paths = &group.paths;
    let Some((judged, notes)) = findings(paths) else {
        return Vec::new();
    };
    let finding = judged.into_iter().next().unwrap_or_else(|| dry(paths));
    std::iter::once(finding).chain(notes).collect()
}

/// A finding for every vulnerable place that is wetted, worst first: [`check`] tells the first of
/// them, a drawing of the year shows more. Empty where nothing vulnerable is wetted.
#[must_use]
pub fn wet_places(end: &EndResult) -> Vec<Finding> {
    let paths: Vec<&PathResult> = end.paths.iter().collect();
    let mut judged = findings(&paths)
        .map(|(judged, _)| judged)
        .unwrap_or_default();
    judged.retain(|finding| matches!(finding.detail, Detail::Year(_)));
    judged
}

/// Every place of a path that holds water in some month: planes, then bodies, from the room outward.
pub(crate) fn held(path: &PathResult, year: &Year) -> Vec<Held> {
    let wet = places(path, year).into_iter();
    let wet = wet.filter(|(_, water)| is_wet(water));
    let held = wet.map(|(at, water)| Held {
        name: place(path, &at).plane,
        limit: is_vulnerable(path, &at).then(|| limit(path, &beside(path, &at)).0),
        water,
        at,
    });
    held.collect()
}

fn is_wet(water: &WaterYear) -> bool {
    water.peak > NOTHING || water.never_dry
}

/// What is judged, worst first, and what is counted; `None` without a climate.
fn findings(paths: &[&PathResult]) -> Option<(Vec<Finding>, Vec<Finding>)> {
    let mut judged: Vec<Finding> = Vec::new();
    let mut notes: Vec<Finding> = Vec::new();
    for path in paths {
        let year = path.year.as_ref()?;
        for (at, water) in places(path, year) {
            let (at, water) = (&at, &water);
            let vulnerable = is_vulnerable(path, at);
            match (vulnerable, is_wet(water)) {
                (true, true) => judged.push(wetted(path, at, year, water)),
                (true, false) if unknown(year, at) => judged.push(Finding {
                    place: Some(place(path, at)),
                    ..Finding::new(&CHECK, Status::Unknown, SOURCE)
                }),
                (false, true) => note(&mut notes, noted(path, at, year, water)),
                _ => {}
            }
        }
    }
    // Worst first; of equals the last, as the outermost is met last.
    judged.reverse();
    judged.sort_by(|a, b| {
        let rank = |f: &Finding| (f.status.severity(), -f.slack.unwrap_or(0.0));
        rank(b)
            .partial_cmp(&rank(a))
            .unwrap_or(std::cmp::Ordering::Equal)
    });
    Some((judged, notes))
}

/// Adds a note; of paths that gather water at the same plane the wettest is told.
fn note(notes: &mut Vec<Finding>, new: Finding) {
    let plane = |finding: &Finding| finding.place.as_ref().map(|place| place.plane.clone());
    let yearly = |finding: &Finding| match &finding.detail {
        Detail::Year(detail) => detail.yearly,
        _ => 0.0,
    };
    match notes.iter_mut().find(|kept| plane(kept) == plane(&new)) {
        Some(kept) if yearly(&new) > yearly(kept) => *kept = new,
        Some(_) => {}
        None => notes.push(new),
    }
}

/// Every place of a path that can hold water, surfaces left out: planes between bodies, and what the
/// slices of a body and the planes between its layers hold together.
fn places(path: &PathResult, year: &Year) -> Vec<(At, WaterYear)> {
    let last = path.roles.len() - 1;
    let between = (1..last).filter(|plane| !path.roles[*plane].within);
    let planes = between.map(|plane| (At::Plane(plane), year.planes[plane].clone()));
    let inside = bodies(&path.path.pieces).into_iter().filter_map(|body| {
        let seams = year.planes[body.start + 1..body.end].iter();
        let all: Vec<&WaterYear> = year.inside[body.clone()].iter().chain(seams).collect();
        Some((At::Inside(body), WaterYear::together(&all)?))
    });
    planes.chain(inside).collect()
}

/// The bodies that touch a place.
fn beside(path: &PathResult, at: &At) -> Vec<Range<usize>> {
    let touches = |body: &Range<usize>| match at {
        At::Plane(plane) => body.contains(plane) || body.end == *plane,
        At::Inside(inside) => body == inside,
    };
    let all = bodies(&path.path.pieces).into_iter();
    all.filter(touches).collect()
}

fn is_vulnerable(path: &PathResult, at: &At) -> bool {
    match at {
        At::Plane(n) => path.roles[*n].vulnerable,
        At::Inside(body) => path.path.pieces[body.clone()]
            .iter()
            .any(Piece::is_vulnerable),
    }
}

/// Between two perfect barriers without water nothing is known.
fn unknown(year: &Year, at: &At) -> bool {
    match *at {
        At::Plane(n) => year.months.iter().any(|month| month.pressures[n].is_none()),
        At::Inside(_) => false,
    }
}

fn place(path: &PathResult, at: &At) -> Place {
    Place {
        path: path.path.name.clone(),
        plane: match at {
            At::Plane(n) => path.plane_names[*n].clone(),
            At::Inside(body) => {
                let (first, last) = (
                    &path.path.pieces[body.start],
                    &path.path.pieces[body.end - 1],
                );
                match body.len() {
                    1 => format!("inside {}", first.name),
                    _ => format!("inside {} to {}", first.name, last.name),
                }
            }
        },
    }
}

/// The most water a place may hold that touches these bodies, kg/m², and what sets it.
fn limit(path: &PathResult, bodies: &[Range<usize>]) -> (f64, &'static str) {
    let pieces = || {
        let of_body = |body: &Range<usize>| &path.path.pieces[body.clone()];
        bodies.iter().map(of_body)
    };
    let takes_up = |piece: &Piece| {
        !piece.air_permeable
            && !matches!(
                piece.kind,
                Some(Kind::Foam | Kind::Metal | Kind::Membrane | Kind::Insulation) | None
            )
    };
    let mut least = match pieces().flatten().any(takes_up) {
        true => (GENERAL, "general"),
        false => (RUN_OFF, "between faces that take up no water"),
    };
    for body in pieces() {
        let share = match body.first().and_then(|piece| piece.kind) {
            Some(Kind::Wood) => (WOOD_SHARE, "5 % of the wood's mass"),
            Some(Kind::Panel) => (PANEL_SHARE, "3 % of the panel's mass"),
            _ => continue,
        };
        let masses = body.iter().map(|piece| Some(piece.mass?.as_si()));
        if let Some(mass) = masses.sum::<Option<f64>>()
            && mass * share.0 < least.0
        {
            least = (mass * share.0, share.1);
        }
    }
    least
}

fn detail(year: &Year, water: &WaterYear, limit: Option<(f64, &'static str)>) -> YearDetail {
    let gained = water.change.iter().filter(|change| **change > 0.0);
    YearDetail {
        wet: water.first_wet.zip(water.last_wet),
        dry_by: water.dry_by,
        peak: water.peak,
        peak_month: water.peak_month,
        yearly: gained.sum(),
        left_over: water.left_over,
        never_dry: water.never_dry,
        limit,
        frost: water
            .is_ice
            .iter()
            .zip(&water.held)
            .any(|(ice, held)| *ice && *held > NOTHING),
        settled: year.settled && year.converged,
    }
}

fn wetted(path: &PathResult, at: &At, year: &Year, water: &WaterYear) -> Finding {
    let limit = limit(path, &beside(path, at));
    let over = water.peak > limit.0 || water.never_dry || water.left_over > NOTHING;
    let status = match (year.settled && year.converged, over) {
        (false, _) => Status::Unknown,
        (true, true) => Status::Fail,
        (true, false) => Status::Depends,
    };
    let on = match status {
        Status::Unknown => Some(On::Tolerance),
        Status::Depends => Some(On::Material),
        _ => None,
    };
    Finding {
        on,
        place: Some(place(path, at)),
        slack: Some(-(water.peak + 12.0 * water.left_over) / limit.0),
        detail: Detail::Year(detail(year, water, Some(limit))),
        help: Some(help(year, water).into()),
        ..Finding::new(&CHECK, status, SOURCE)
    }
}

/// What would help depends on which side the water comes from while it gathers.
fn help(year: &Year, water: &WaterYear) -> &'static str {
    let gathering = year
        .months
        .iter()
        .zip(&water.change)
        .filter(|(_, change)| **change > 0.0);
    let (mut from_room, mut from_outdoors) = (0.0, 0.0);
    for (month, _) in gathering {
        from_room += month.vapor_in.max(0.0);
        from_outdoors += (-month.vapor_out).max(0.0);
    }
    match from_outdoors > from_room {
        true => "a more open layer inside, or a tighter one outside",
        false => "a tighter vapor retarder inside, or drier room air",
    }
}

fn noted(path: &PathResult, at: &At, year: &Year, water: &WaterYear) -> Finding {
    Finding {
        place: Some(place(path, at)),
        detail: Detail::Year(detail(year, water, None)),
        ..Finding::new(&CHECK, Status::Note, SOURCE)
    }
}

/// Nothing condenses: how close the closest vulnerable plane comes to saturation, and when.
fn dry(paths: &[&PathResult]) -> Finding {
    let mut closest: Option<(f64, usize, Place)> = None;
    for path in paths {
        let Some(year) = &path.year else { continue };
        for (n, role) in path.roles.iter().enumerate() {
            if !role.vulnerable {
                continue;
            }
            for (month, state) in year.months.iter().enumerate() {
                let Some(humidity) = state.humidity(n) else {
                    continue;
                };
                if closest.as_ref().is_none_or(|(most, ..)| humidity > *most) {
                    closest = Some((humidity, month, place(path, &At::Plane(n))));
                }
            }
        }
    }
    let finding = Finding::new(&CHECK, Status::Pass, SOURCE);
    match closest {
        None => finding,
        Some((humidity, month, place)) => Finding {
            place: Some(place),
            slack: Some(1.0 - humidity),
            detail: Detail::Closest { humidity, month },
            ..finding
        },
    }
}
