//! # Can it dry
//!
//! *What it checks.* How long 1 kg/m² of water takes to leave, and to which side, at a vulnerable
//! plane that water gets to by a named way: room air that leaks; a layer that is wet when it is closed
//! in (`built-in-water: true`); rain behind a wall's cladding without an open gap; a pipe that leaks
//! over a pan that doesn't drain.
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
//! *Limit.* Gone within 365 days: pass. Later, but the plane drains: depends. Later at the nominal
//! values, and nothing drains: fail (common practice), whatever the kind end of the materials' ranges
//! says.
//!
//! *When it does not apply.* Without a climate (a note says so), or where nothing vulnerable lies
//! inside. Where no water gets by a named way, such as behind closed-cell foam under a roof's
//! membrane, the days are a note. Water that runs down, wicks or is carried off by air isn't reckoned.
//!
//! *Example.* Wool over a sealed pan under 3/4 in plywood at 0.7 perm: over a year, `fail`.

mod say;

use super::group::Group;
use super::kind::{Brief, Column, Ranged, Run};
use super::memo::Depth;
use super::{Check, Detail, DryingDetail, Finding, On, Place, Status};
use crate::quantity::Dimension;
use crate::solve::{Drying, PathKind, PathResult, WaterWay};
pub use say::{say, when};

/// Whether 1 kg/m² at a vulnerable plane dries within a year.
pub static CHECK: Check = Check {
    id: "drying",
    title: "can it dry",
    run: Run::Group(|_, group| check(group)),
    ranged: Some(Ranged {
        needs: Depth::Drying,
        by_place: by_days,
        ranked_by_named_place: true,
        // What takes over a year to dry at the nominal values isn't saved by a kind value.
        stands: true,
        ..Ranged::WINTER
    }),
    column: Some(Column {
        dimension: Some(Dimension::Days),
        has_limit: false,
        measure: |finding| match &finding.detail {
            Detail::Drying(drying) => [drying.days, None],
            _ => [None, None],
        },
    }),
    say: |finding, _, style| say(finding, style),
    brief: Brief::Phrase(say::phrase),
    ..Check::PLAIN
};

/// The same at planes that no water gets to by a named way: told, not judged.
pub static ELSEWHERE: Check = Check {
    id: "drying-elsewhere",
    title: "drying elsewhere",
    run: Run::Along,
    say: |finding, _, style| say(finding, style),
    ..Check::PLAIN
};

const SOURCE: &str = "1 kg/m² from spring on, ISO 13788 balance; 365 days by common practice";
/// Longest drying that passes, days.
pub const LONGEST: f64 = 365.0;
/// Days that stand for a drying that doesn't end.
const NEVER: f64 = 1e6;
/// Water that moved to another plane is told from here on, kg/m².
const TELL: f64 = 0.005;

/// The slowest plane of a group that water gets to, and a note of the slowest of the others where one
/// takes over a year; without a climate a note that says so.
#[must_use]
pub fn check(group: &Group<'_>) -> Vec<Finding> {
    let has_climate = group.paths.iter().any(|path| !path.months.is_empty());
    if !has_climate {
        return vec![Finding::new(&CHECK, Status::Note, SOURCE)];
    }
    let slowest = |is_meant: fn(Option<WaterWay>) -> bool| {
        let paths = group.paths.iter();
        let all = paths.flat_map(|path| {
            let meant = move |drying: &&Drying| is_meant(path.roles[drying.plane].water);
            let dryings = path.drying.iter().filter(meant);
            dryings.map(move |drying| finding(path, drying))
        });
        all.max_by(|a, b| {
            let rank = |f: &Finding| (f.status.severity(), -f.slack.unwrap_or(0.0));
            rank(a)
                .partial_cmp(&rank(b))
                .unwrap_or(std::cmp::Ordering::Equal)
        })
    };
    let judged =
        slowest(|way| way.is_some()).unwrap_or_else(|| Finding::new(&CHECK, Status::Pass, SOURCE));
    let elsewhere = slowest(|way| way.is_none()).filter(|one| one.status != Status::Pass);
    let noted = elsewhere.map(|finding| Finding {
        check: &ELSEWHERE,
        status: Status::Note,
        on: None,
        help: None,
        ..finding
    });
    std::iter::once(judged).chain(noted).collect()
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
            way: path.roles[drying.plane].water,
        }),
        help: (status.severity() > 0).then(|| help(path).to_owned()),
        ..Finding::new(&CHECK, status, SOURCE)
    }
}

/// Days to dry by plane, for ranking inputs.
fn by_days(path: &PathResult) -> Vec<f64> {
    let mut days = vec![f64::NEG_INFINITY; path.roles.len()];
    for drying in path.drying.iter() {
        let out = &drying.out;
        days[drying.plane] = out.gone_after_days.unwrap_or(NEVER + out.left);
    }
    days
}
