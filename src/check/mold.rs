//! # Mold inside
//!
//! *What it checks.* How far mold grows, year after year, at every plane inside that touches wood, a
//! wood-based panel or air-permeable insulation, without any water condensing.
//!
//! *Why it matters.* Mold needs damp air, not water. A tight sheet inside of a cooled wall can stand at
//! 95 % all summer and pass every check that asks for water; and a plain limit of 80 % would condemn
//! every wall of a wet coast, where the air itself stands there.
//!
//! *Method and source.* The mold index of Hukka and Viitanen (1999) with the classes of Ojanen et al.
//! (2010): temperature and vapor pressure of the yearly balance, straight from mid-month to mid-month,
//! up to 20 years; the more sensitive of the two faces counts. Below 0 °C neither growth nor decline.
//!
//! *Limit.* An index of 3, where it begins to be seen by eye (ASHRAE 160 as amended, from memory): below
//! it at the nominal values and at both ends of the materials' ranges passes, else `depends` on mold. It
//! never fails: what a month stores and gives back isn't reckoned here.
//!
//! *When it does not apply.* Without a climate. Planes that no air touches: where a layer is bonded to
//! the other face, such as sprayed foam on wood, and where a panel is nailed to the members. Planes that face outdoor or vented air, and the room's
//! own surface, which has a check of its own. Which class a material belongs to, and that its mold goes
//! back a quarter as fast as on pine, are recalled and unsure; faster is kinder.
//!
//! *Example.* Panels at 5 °C and 92 % all winter: the index tends to 2.2, which passes.

use super::group::Group;
use super::kind::{Brief, Ranged, Run};
use super::words::{months, percent, place};
use super::{Check, Detail, Finding, MoldIndexDetail, On, Place, Status};
use crate::model::{Conditions, Kind};
use crate::quantity::{MoldClass, Style, fixed, month_name};
use crate::solve::mold::{PlaneMonths, mold_years};
use crate::solve::{PathKind, PathResult, Piece};

const SOURCE: &str = "mold index 3 (ASHRAE 160 as amended, from memory), Hukka and Viitanen 1999";

/// Mold at the planes inside, through the year.
pub static CHECK: Check = Check {
    id: "mold-inside",
    title: "mold inside",
    run: Run::Group(|_, group| check(group).into_iter().collect()),
    ranged: Some(Ranged {
        by_place: by_plane,
        // The indices were just followed: the highest decides.
        word: Some(word),
        // Mold that is nowhere near has nothing worth naming, and years to follow for it.
        always_ranked: false,
        on: On::Mold,
        ..Ranged::YEAR
    }),
    say,
    brief: Brief::Phrase(phrase),
    ..Check::PLAIN
};

/// The least index that isn't passed.
pub const LIMIT: f64 = 3.0;

/// The plane of a group where the index comes highest; `None` without a climate.
#[must_use]
pub fn check(group: &Group<'_>) -> Option<Finding> {
    if group.paths.iter().any(|path| path.year.is_none()) {
        return None;
    }
    let all = group.paths.iter().flat_map(|path| {
        let planes = (1..path.roles.len()).filter(|plane| is_judged(path, *plane));
        planes.filter_map(move |plane| at_plane(path, plane))
    });
    // Of planes where nothing grows the dampest is told.
    let worst = all.max_by(|a, b| {
        let slack = |finding: &Finding| finding.slack.unwrap_or(f64::INFINITY);
        let damp = |finding: &Finding| match &finding.detail {
            Detail::MoldIndex(detail) => detail.dampest.0,
            _ => 0.0,
        };
        let by_index = slack(b).total_cmp(&slack(a));
        by_index.then(damp(a).total_cmp(&damp(b)))
    });
    Some(worst.unwrap_or_else(|| Finding::new(&CHECK, Status::Pass, SOURCE)))
}

/// Whether mold is judged at a plane: where no air touches a face, nothing grows on it. What is bonded
/// adheres to the other face, and a panel is pressed to the members it is nailed to. Members between
/// sprayed foam count as bonded for the air that leaks; their faces are as open as any.
fn is_judged(path: &PathResult, plane: usize) -> bool {
    let role = path.roles[plane];
    let pieces = &path.path.pieces;
    if plane == 0 || plane >= pieces.len() || !role.vulnerable || role.within {
        return false;
    }
    let is_wood = |piece: &Piece| piece.kind.is_some_and(Kind::is_wood);
    let sides = &pieces[plane - 1..=plane];
    let adheres = sides.iter().any(|piece| piece.bonded && !is_wood(piece));
    let is_pressed = path.path.kind == PathKind::Framing && sides.iter().all(is_wood);
    !adheres && !is_pressed
}

/// The more sensitive face at a plane; of two alike the one where mold goes back more slowly.
fn face(pieces: &[Piece]) -> Option<(MoldClass, f64)> {
    let faces = pieces.iter().filter_map(|piece| piece.mold);
    faces.max_by(|a, b| a.0.cmp(&b.0).then(b.1.total_cmp(&a.1)))
}

/// The word of the highest index, and how far it is below the limit.
fn word(index: f64) -> (Status, f64) {
    match index < LIMIT {
        true => (Status::Pass, LIMIT - index),
        false => (Status::Depends, LIMIT - index),
    }
}

/// The highest index that a plane comes to; `None` where nothing grows on its faces or its vapor isn't
/// known.
fn index_at(path: &PathResult, plane: usize) -> Option<f64> {
    let (class, decline) = face(&path.path.pieces[plane - 1..=plane])?;
    let months = PlaneMonths::of(path.year.as_ref()?, plane)?;
    let years = mold_years(&months, class, decline);
    Some(years.first.max(years.last))
}

fn at_plane(path: &PathResult, plane: usize) -> Option<Finding> {
    let (class, decline) = face(&path.path.pieces[plane - 1..=plane])?;
    let months = PlaneMonths::of(path.year.as_ref()?, plane)?;
    let years = mold_years(&months, class, decline);
    let most = years.first.max(years.last);
    let (status, slack) = word(most);
    Some(Finding {
        on: (status == Status::Depends).then_some(On::Mold),
        place: Some(Place {
            path: path.path.name.clone(),
            plane: path.plane_names[plane].clone(),
        }),
        slack: Some(slack),
        help: (status == Status::Depends).then(|| {
            "a tighter layer on the damp side of that plane, a more open one on the other, or drier air"
                .to_owned()
        }),
        detail: Detail::MoldIndex(MoldIndexDetail {
            class,
            first: years.first,
            last: years.last,
            years: years.years,
            grows: years.grows,
            frost: years.frost.contains(&true),
            dampest: years.dampest,
        }),
        ..Finding::new(&CHECK, status, SOURCE)
    })
}

/// The highest index by plane, for ranking inputs.
fn by_plane(path: &PathResult) -> Vec<f64> {
    let index = |plane| match is_judged(path, plane) {
        true => index_at(path, plane).unwrap_or(0.0),
        false => 0.0,
    };
    (0..path.roles.len()).map(index).collect()
}

fn say(finding: &Finding, _: &Conditions, _: Style) -> String {
    let Detail::MoldIndex(detail) = &finding.detail else {
        return "No plane of wood or open insulation lies inside that mold could grow on.".into();
    };
    let (humidity, month) = detail.dampest;
    let grown = match detail.first.max(detail.last) > 0.0 {
        false => format!(
            "No mold grows at {} ({}), the dampest plane for it",
            place(finding),
            detail.class.word()
        ),
        true => format!(
            "Mold at {} ({}) grows {}: index {} after the first year, {} in year {}, of 6 in all; 3 is \
             seen by eye",
            place(finding),
            detail.class.word(),
            when_it_grows(&detail.grows),
            fixed(detail.first, 2),
            fixed(detail.last, 2),
            detail.years
        ),
    };
    let frost = if detail.frost {
        "; below 0 °C, where there is frost, it stands still"
    } else {
        ""
    };
    format!(
        "{grown}; at most {} in {}{frost}.",
        percent(humidity),
        month_name(month)
    )
}

/// The months in which something is so: `from June to September`, `in May`, `all year round`.
fn when_it_grows(grows: &[bool; 12]) -> String {
    let starts = (0..12).find(|month| grows[*month] && !grows[(*month + 11) % 12]);
    match starts {
        None if grows[0] => "all year round".into(),
        None => "in no month".into(),
        Some(first) => {
            let length = (0..12).take_while(|n| grows[(first + n) % 12]).count();
            let spells = (0..12).filter(|month| grows[*month] && !grows[(*month + 11) % 12]);
            let more = match spells.count() {
                0 | 1 => "",
                _ => " and again later",
            };
            format!("{}{more}", months(first, (first + length - 1) % 12))
        }
    }
}

/// `index 3.4 at film / studs, growing from June to September`.
fn phrase(finding: &Finding, place: &str, _: Style) -> Option<String> {
    let Detail::MoldIndex(detail) = &finding.detail else {
        return None;
    };
    let index = detail.first.max(detail.last);
    Some(format!(
        "index {} at {place}, growing {}{}",
        fixed(index, 1),
        when_it_grows(&detail.grows),
        over_where_worst(finding)
    ))
}

/// What an index under the limit depends on.
#[must_use]
pub fn over_where_worst(finding: &Finding) -> &'static str {
    match (&finding.detail, finding.status) {
        (Detail::MoldIndex(mold), Status::Depends) if mold.first.max(mold.last) < LIMIT => {
            ", over 3 where the materials are worst"
        }
        _ => "",
    }
}
