//! Where a case holds water through the year: what was found, with what was solved there.

use crate::check::{self, Detail, Finding, Status, YearDetail, year};
use crate::model::MonthState;
use crate::solve::year::{WaterYear, Year};
use crate::solve::{AssemblyResult, PathResult};
use crate::study::Judged;

/// A place that holds water during the year.
pub(super) struct Tank<'a> {
    /// Its plane, or `inside` a layer.
    pub(super) name: String,
    /// The path it lies on.
    pub(super) path: &'a PathResult,
    /// Its water, month by month.
    pub(super) water: WaterYear,
    /// What the check says about it.
    pub(super) detail: YearDetail,
    /// How it came out.
    pub(super) status: Status,
}

/// A plane that stays dry, the most humid of the vulnerable ones.
pub(super) struct Closest<'a> {
    /// Its name.
    pub(super) name: String,
    /// The path it lies on.
    pub(super) path: &'a PathResult,
    /// Its relative humidity in each month, a fraction.
    pub(super) humidity: [Option<f64>; 12],
    /// The highest, a fraction, and its month.
    pub(super) most: (f64, usize),
    /// How it came out.
    pub(super) status: Status,
}

/// The places that hold water: the worst that is judged, the other vulnerable ones, then those
/// that are only counted, the wettest first. Of paths that are wet at the same plane the worst
/// stands for all.
pub(super) fn tanks<'a>(one: &'a Judged<'_>) -> Vec<Tank<'a>> {
    let of_year = |finding: &&Finding| finding.check == &check::year::CHECK;
    let findings = one.here().verdict.findings.iter().filter(of_year);
    let (mut notes, judged): (Vec<&Finding>, Vec<&Finding>) =
        findings.partition(|finding| finding.status == Status::Note);
    let yearly = |finding: &Finding| match &finding.detail {
        Detail::Year(detail) => detail.yearly,
        _ => 0.0,
    };
    notes.sort_by(|a, b| yearly(b).total_cmp(&yearly(a)));
    let others: Vec<Finding> = one
        .result()
        .ends
        .iter()
        .flat_map(year::wet_places)
        .collect();
    let mut tanks: Vec<Tank<'a>> = Vec::new();
    for finding in judged.into_iter().chain(&others).chain(notes) {
        if let Some(tank) = tank(one.result(), finding)
            && tanks.iter().all(|known| known.name != tank.name)
        {
            tanks.push(tank);
        }
    }
    tanks
}

fn tank<'a>(result: &'a AssemblyResult, finding: &Finding) -> Option<Tank<'a>> {
    let (Detail::Year(detail), Some(place)) = (&finding.detail, &finding.place) else {
        return None;
    };
    let off = |water: &WaterYear| (water.peak - detail.peak).abs();
    let paths = result.ends.iter().flat_map(|end| &end.paths);
    let found = paths
        .filter(|path| path.path.name == place.path)
        .filter_map(|path| Some((path, path.year.as_ref()?)))
        .flat_map(|(path, year)| year::held(path, year).into_iter().map(move |at| (path, at)))
        .filter(|(_, held)| held.name == place.plane)
        .min_by(|a, b| off(&a.1.water).total_cmp(&off(&b.1.water)));
    let (path, held) = found?;
    Some(Tank {
        name: held.name,
        path,
        water: held.water,
        detail: detail.clone(),
        status: finding.status,
    })
}

/// The plane that comes closest to condensing, where the check found that none does.
fn closest<'a>(one: &'a Judged<'_>) -> Option<Closest<'a>> {
    let finding = year_finding(one)?;
    let (Detail::Closest { humidity, month }, Some(place)) = (&finding.detail, &finding.place)
    else {
        return None;
    };
    let paths = one.result().ends.iter().flat_map(|end| &end.paths);
    let found = paths
        .filter(|path| path.path.name == place.path)
        .filter_map(|path| {
            let plane = path.plane_names.iter().position(|n| *n == place.plane)?;
            let year = path.year.as_ref()?;
            Some((
                path,
                std::array::from_fn(|n| year.months[n].humidity(plane)),
            ))
        });
    let off = |humidities: &[Option<f64>; 12]| {
        humidities[*month].map_or(f64::INFINITY, |there| (there - humidity).abs())
    };
    let (path, humidities) = found.min_by(|a, b| off(&a.1).total_cmp(&off(&b.1)))?;
    Some(Closest {
        name: place.plane.clone(),
        path,
        humidity: humidities,
        most: (*humidity, *month),
        status: finding.status,
    })
}

/// The finding on the year that is judged.
pub(super) fn year_finding<'a>(one: &'a Judged<'_>) -> Option<&'a Finding> {
    let mut findings = one.here().verdict.findings.iter();
    findings.find(|finding| finding.check == &check::year::CHECK && finding.status != Status::Note)
}

/// The finding on water worth telling: the judged one, or where nothing judged is wetted the
/// wettest counted one.
pub(super) fn worst_water<'a>(one: &'a Judged<'_>) -> Option<&'a Finding> {
    let judged = year_finding(one);
    if judged.is_some_and(|finding| finding.detail != Detail::None) {
        return judged;
    }
    let yearly = |finding: &&Finding| match &finding.detail {
        Detail::Year(detail) => finite(detail.yearly),
        _ => 0.0,
    };
    let notes = one
        .verdict
        .findings
        .iter()
        .filter(|f| f.check == &check::year::CHECK && f.status == Status::Note);
    notes
        .max_by(|a, b| yearly(a).total_cmp(&yearly(b)))
        .or(judged.filter(|finding| finding.status == Status::Unknown))
}

/// What the year is told of: the place that decides it.
pub(super) enum Told<'a> {
    /// Water at a place.
    Tank(Tank<'a>),
    /// The plane that comes closest to water.
    Closest(Closest<'a>),
    /// A plane whose vapor can't be told.
    Unknown(String, &'a PathResult),
    /// Nothing.
    Nothing,
}

impl<'a> Told<'a> {
    /// What decides a case's year.
    pub(super) fn of(one: &'a Judged<'_>) -> Self {
        if let Some(closest) = closest(one) {
            return Self::Closest(closest);
        }
        let finding = year_finding(one).filter(|finding| finding.status == Status::Unknown);
        let tank = tanks(one).into_iter().next();
        let unknown = finding.and_then(|finding| one.plane_of(finding));
        match (tank, unknown) {
            (Some(tank), _) if tank.status != Status::Note => Self::Tank(tank),
            (_, Some((path, plane))) => Self::Unknown(path.plane_names[plane].clone(), path),
            (Some(tank), _) => Self::Tank(tank),
            _ => Self::Nothing,
        }
    }

    /// The place's name; empty for nothing.
    pub(super) fn name(&self) -> &str {
        match self {
            Self::Tank(tank) => &tank.name,
            Self::Closest(closest) => &closest.name,
            Self::Unknown(name, _) => name,
            Self::Nothing => "",
        }
    }

    /// How it came out.
    pub(super) fn status(&self) -> Status {
        match self {
            Self::Tank(tank) => tank.status,
            Self::Closest(closest) => closest.status,
            Self::Unknown(..) => Status::Unknown,
            Self::Nothing => Status::Pass,
        }
    }

    /// The path it lies on; of nothing the cavity.
    pub(super) fn path(&self, one: &'a Judged<'_>) -> Option<&'a PathResult> {
        match self {
            Self::Tank(tank) => Some(tank.path),
            Self::Closest(closest) => Some(closest.path),
            Self::Unknown(_, path) => Some(path),
            Self::Nothing => one.result().ends.first().and_then(|end| end.paths.first()),
        }
    }
}

/// The word over a place that is judged, or that it is only counted.
pub(super) fn judged_word(status: Status) -> &'static str {
    match status {
        Status::Note => "counted",
        other => other.word(),
    }
}

/// The month a picture begins with: the first that wets the path, or of a dry one the month half a
/// year from the coldest, so that the winter stands in the middle.
pub(super) fn first_month(year: &Year, months: &[MonthState; 12]) -> usize {
    let celsius = |n: &usize| months[*n].outdoor.temperature.as_celsius();
    let coldest = (0..12_usize).min_by(|a, b| celsius(a).total_cmp(&celsius(b)));
    year.start.unwrap_or((coldest.unwrap_or(0) + 6) % 12)
}

/// A number a drawing can use: what isn't finite is nothing.
pub(super) fn finite(value: f64) -> f64 {
    if value.is_finite() { value } else { 0.0 }
}
