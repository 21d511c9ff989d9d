//! What a row of the calendar tells: a plane of the path that decides, or another place with water.

use super::super::water::{Tank, Told, tanks};
use crate::check::Status;
use crate::check::year::{At, Held, held};
use crate::model::{AssemblyKind, Openness};
use crate::solve::year::{WaterYear, Year};
use crate::solve::{EndResult, PathResult, bodies};
use crate::study::Judged;

/// Places of other paths shown at most.
const MOST_OTHERS: usize = 3;

/// One row.
pub(super) struct Entry {
    /// The plane's name, or `inside` a body.
    pub(super) name: String,
    /// Its path, where that isn't the one whose planes are shown.
    pub(super) elsewhere: Option<String>,
    /// Where it lies among the path's planes: 1.5 is the middle of the second layer.
    pub(super) place: Option<f64>,
    /// Relative humidity in each month, a fraction; `None` inside a body.
    pub(super) humidity: Option<[Option<f64>; 12]>,
    /// The months in which it is below 0 °C.
    pub(super) frozen: [bool; 12],
    /// The water it holds; `None` where it is dry all year.
    pub(super) water: Option<WaterYear>,
    /// The most it may hold, kg/m²; `None` where it isn't judged.
    pub(super) limit: Option<f64>,
    /// Whether it decides the year, and how that came out.
    pub(super) decides: Option<Status>,
    /// Whether a check looks at it.
    vulnerable: bool,
}

impl Entry {
    /// How much it matters where there isn't room for all.
    pub(super) fn rank(&self) -> u8 {
        match (self.decides.is_some(), &self.water, &self.elsewhere) {
            (true, ..) => 5,
            (_, Some(_), None) => 4,
            (_, Some(_), _) => 3,
            _ if self.vulnerable => 2,
            _ => 1,
        }
    }
}

/// The rows of a case, and how many places of other paths are left out.
pub(super) fn entries(one: &Judged<'_>, told: &Told<'_>, path: &PathResult) -> (Vec<Entry>, usize) {
    let Some(year) = &path.year else {
        return (Vec::new(), 0);
    };
    let mut wet = held(path, year);
    let mut entries: Vec<Entry> = Vec::new();
    for body in bodies(&path.path.pieces) {
        let inside = body.start as f64 + 0.5 * body.len() as f64;
        entries.push(plane(path, year, body.start, &mut wet));
        if let Some(held) = taken(&mut wet, &At::Inside(body)) {
            entries.push(Entry {
                place: Some(inside),
                ..of_water(held)
            });
        }
    }
    entries.push(plane(path, year, path.roles.len() - 1, &mut wet));
    if one.case.assembly.kind == AssemblyKind::Roof {
        // As built: outdoors is up.
        entries.reverse();
    }
    let (others, left_out) = others(one, &entries);
    entries.extend(others);
    if let Some(decides) = entries.iter_mut().find(|entry| entry.name == told.name()) {
        decides.decides = Some(told.status());
    }
    (entries, left_out)
}

fn plane(path: &PathResult, year: &Year, n: usize, wet: &mut Vec<Held>) -> Entry {
    let held = taken(wet, &At::Plane(n));
    let (water, limit) = held.map_or((None, None), |held| (Some(held.water), held.limit));
    Entry {
        name: path.plane_names[n].clone(),
        elsewhere: None,
        place: Some(n as f64),
        humidity: Some(std::array::from_fn(|month| year.months[month].humidity(n))),
        frozen: std::array::from_fn(|month| year.months[month].temperatures[n] < 0.0),
        water,
        limit,
        decides: None,
        vulnerable: path.roles[n].vulnerable,
    }
}

fn taken(wet: &mut Vec<Held>, at: &At) -> Option<Held> {
    let found = wet.iter().position(|held| held.at == *at)?;
    Some(wet.remove(found))
}

/// A place of which only the water is known.
fn of_water(held: Held) -> Entry {
    Entry {
        name: held.name,
        elsewhere: None,
        place: None,
        humidity: None,
        frozen: held.water.is_ice,
        water: Some(held.water),
        limit: held.limit,
        decides: None,
        vulnerable: held.limit.is_some(),
    }
}

/// The places that hold water elsewhere, at planes that aren't shown yet.
fn others(one: &Judged<'_>, shown: &[Entry]) -> (Vec<Entry>, usize) {
    let is_new = |tank: &Tank<'_>| shown.iter().all(|entry| entry.name != tank.name);
    let all: Vec<Tank<'_>> = tanks(one).into_iter().filter(is_new).collect();
    let entry = |tank: &Tank<'_>| {
        let path = tank.path;
        let year = path.year.as_ref()?;
        let mut wet = held(path, year);
        let entry = match path.plane_names.iter().position(|name| *name == tank.name) {
            Some(n) => plane(path, year, n, &mut wet),
            None => of_water(wet.into_iter().find(|held| held.name == tank.name)?),
        };
        Some(Entry {
            elsewhere: Some(path_words(one, path)),
            place: None,
            ..entry
        })
    };
    let entries = all.iter().take(MOST_OTHERS).filter_map(entry).collect();
    (entries, all.len().saturating_sub(MOST_OTHERS))
}

/// `cavity`, or where an air space is vented `cavity, vented gap closed`.
pub(super) fn path_words(one: &Judged<'_>, path: &PathResult) -> String {
    let ends = &one.result().ends;
    let is_here = |end: &&EndResult| end.paths.iter().any(|at| std::ptr::eq(at, path));
    let gap = match ends.iter().find(is_here).map(|end| end.openness) {
        _ if ends.len() < 2 => "",
        Some(Openness::Closed) => ", vented gap closed",
        Some(Openness::Open) => ", vented gap open",
        None => "",
    };
    format!("{}{gap}", path.path.name)
}
