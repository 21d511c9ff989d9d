//! # Can it dry
//!
//! *What it checks.* How long 1 kg/m² of water at a vulnerable plane takes to leave, and to which
//! side: rain while building, a plumbing leak, a pan that was washed down.
//!
//! *Why it matters.* Every build-up gets wet some day. One that dries forgives; one that doesn't
//! rots, however well its winter numbers look.
//!
//! *Method and source.* From 1 April (1 October where July is colder than January) on through the
//! climate's months, by diffusion to both sides
//! (ISO 13788 balance), the layers that touch the wet plane at their damp permeance; on the cavity's
//! and the strips' paths, since water spreads sideways out of framing. Gone means gone from every
//! vulnerable plane.
//!
//! *Limit.* Gone within 365 days: pass. Later, but the plane drains: depends. Later, and nothing
//! drains: fail (common practice).
//!
//! *When it does not apply.* Without a climate (a note says so), or where nothing vulnerable lies
//! inside. Water that
//! runs down, wicks or is carried off by air isn't reckoned.
//!
//! *Example.* Wool over a sealed pan under 3/4 in plywood at 0.7 perm: over a year, `fail`.

use super::group::Group;
use super::{Check, Detail, DryingDetail, Finding, On, Place, Status};
use crate::solve::{Drying, PathKind, PathResult};

const SOURCE: &str = "1 kg/m² from spring on, ISO 13788 balance; 365 days by common practice";
/// Longest drying that passes, days.
pub const LONGEST: f64 = 365.0;
/// Water that moved to another plane is told from here on, kg/m².
const TELL: f64 = 0.005;

/// The slowest vulnerable plane of a group; without a climate a note that says so.
#[must_use]
pub fn check(group: &Group<'_>) -> Finding {
    let has_climate = group.paths.iter().any(|path| !path.months.is_empty());
    if !has_climate {
        return Finding::new(Check::Drying, Status::Note, SOURCE);
    }
    let all = group
        .paths
        .iter()
        .flat_map(|path| path.drying.iter().map(move |drying| finding(path, drying)));
    let slowest = all.max_by(|a, b| {
        let rank = |f: &Finding| (f.status.severity(), -f.slack.unwrap_or(0.0));
        rank(a)
            .partial_cmp(&rank(b))
            .unwrap_or(std::cmp::Ordering::Equal)
    });
    slowest.unwrap_or_else(|| Finding::new(Check::Drying, Status::Pass, SOURCE))
}

/// Steel lets nothing through: over a strip there is one side, and only what is there can give way.
fn help(path: &PathResult) -> &'static str {
    let is_strip = matches!(path.path.kind, PathKind::Strip(_));
    let open = path.path.pieces.iter().any(|piece| piece.air_permeable);
    match (is_strip, open) {
        (true, _) => "more open layers above it",
        (false, true) => "a more open layer on one side, or foam in place of open insulation",
        (false, false) => "a more open layer on one side",
    }
}

fn finding(path: &PathResult, drying: &Drying) -> Finding {
    let out = &drying.out;
    let drains = path.path.pieces[drying.plane - 1..=drying.plane]
        .iter()
        .any(|piece| piece.drains);
    let in_time = out.gone_after_days.is_some_and(|days| days <= LONGEST);
    let status = match (out.converged, in_time, drains) {
        (false, ..) => Status::Unknown,
        (true, true, _) => Status::Pass,
        (true, false, true) => Status::Depends,
        (true, false, false) => Status::Fail,
    };
    let on = match status {
        Status::Unknown => Some(On::Tolerance),
        // Whether the drain takes it isn't looked at.
        Status::Depends => Some(On::NotLookedAt),
        _ => None,
    };
    let both = out.to_room + out.to_outdoors;
    let named = |(n, water): (usize, &f64)| {
        let name = path.plane_names[n].clone();
        (n != drying.plane && *water > TELL).then_some((name, *water))
    };
    let within = |(n, water): (usize, &f64)| {
        let name = format!("inside {}", path.path.pieces[n].name);
        (*water > TELL).then_some((name, *water))
    };
    let moved = out.moved.iter().enumerate().filter_map(named);
    let moved = moved.chain(out.inside.iter().enumerate().filter_map(within));
    Finding {
        on,
        place: Some(Place {
            path: path.path.name.clone(),
            plane: path.plane_names[drying.plane].clone(),
        }),
        slack: Some(match out.gone_after_days {
            Some(days) => (LONGEST - days) / LONGEST,
            None => -10.0 - out.left,
        }),
        detail: Detail::Drying(DryingDetail {
            start: drying.start,
            days: out.gone_after_days,
            month: out.gone_in_month,
            share_to_room: (both > 0.0).then(|| (out.to_room / both).clamp(0.0, 1.0)),
            left: out.left,
            moved: moved.collect(),
            drains,
        }),
        help: (status.severity() > 0).then(|| help(path).to_owned()),
        ..Finding::new(Check::Drying, status, SOURCE)
    }
}
