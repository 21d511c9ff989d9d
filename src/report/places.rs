//! The judged places of a detail by their numbers: a drawing's dots and a table's rows are made of these.

use crate::check::{Detail, Finding, Status};
use crate::model::drawn::DetailCase;
use crate::model::{AirSpace, Content, Layer};
use crate::quantity::{Temperature, TemperatureDifference};
use crate::solve::detail::DetailResult;
use crate::study::JudgedDetail;

/// A place with what one check found there.
#[derive(Clone, Copy)]
pub(super) struct PlaceRow<'a> {
    /// The number of its place: 1 is the worst. Several rows of one place have one number.
    pub(super) number: usize,
    /// The place's name.
    pub(super) name: &'a str,
    /// What was found.
    pub(super) finding: &'a Finding,
    /// How cold it is there.
    pub(super) value: Temperature,
    /// Error bar of that, K.
    pub(super) bar: f64,
    /// That less its limit.
    pub(super) margin: Option<TemperatureDifference>,
    /// Where in the cut, m; `None` of what lies at a corner or in three dimensions.
    pub(super) at: Option<(f64, f64)>,
}

/// The rows of a detail at the site that speaks, which is the one that is drawn.
pub(super) fn rows_of<'a>(one: &'a JudgedDetail<'_>) -> Vec<PlaceRow<'a>> {
    let at = one.here();
    rows(&at.verdict.findings, at.result.as_ref().ok())
}

/// A row for every finding that is of a place, the worst first; of what needs an air seal, one for every
/// part. Where those lie is told by the result.
pub(super) fn rows<'a>(
    findings: &'a [Finding],
    result: Option<&DetailResult>,
) -> Vec<PlaceRow<'a>> {
    let mut rows: Vec<PlaceRow<'a>> = Vec::new();
    for finding in findings {
        rows.extend(of_finding(finding, result));
    }
    let mut names: Vec<&str> = Vec::new();
    for row in &mut rows {
        let known = names.iter().position(|name| *name == row.name);
        row.number = 1 + known.unwrap_or_else(|| {
            names.push(row.name);
            names.len() - 1
        });
    }
    rows
}

fn of_finding<'a>(finding: &'a Finding, result: Option<&DetailResult>) -> Vec<PlaceRow<'a>> {
    let row = |name, value, bar, margin, at| PlaceRow {
        number: 0,
        name,
        finding,
        value,
        bar,
        margin,
        at,
    };
    match (&finding.detail, &finding.place, finding.value) {
        (Detail::Spot(spot), Some(place), Some(value)) => {
            let name = place.path.as_str();
            vec![row(name, value, spot.bar, finding.margin, spot.in_cut())]
        }
        (Detail::AirSeal(spots), ..) => {
            let mut spots: Vec<_> = spots.iter().collect();
            spots.sort_by(|a, b| a.margin.as_kelvin().total_cmp(&b.margin.as_kelvin()));
            let spots = spots.into_iter().map(|spot| {
                let at = result.and_then(|result| reached(result, &spot.part));
                row(&spot.part, spot.value, spot.bar, Some(spot.margin), at)
            });
            spots.collect()
        }
        _ => Vec::new(),
    }
}

/// Where leaking air reaches the coldest place of a part, m.
fn reached(result: &DetailResult, part: &str) -> Option<(f64, f64)> {
    let part = result.wood.iter().find(|wood| wood.name == part)?;
    let (coldest, _) = part.reached.as_ref()?;
    Some((coldest.point.x, coldest.point.y))
}

/// Of every place the row that comes first: what is worst there.
pub(super) fn worst_of_each<'a>(rows: &[PlaceRow<'a>]) -> Vec<PlaceRow<'a>> {
    let mut kept: Vec<PlaceRow<'a>> = Vec::new();
    for row in rows {
        if kept.iter().all(|one| one.number != row.number) {
            kept.push(*row);
        }
    }
    kept
}

impl PlaceRow<'_> {
    /// Whether something is judged there; else it is told, since room air doesn't get to it.
    pub(super) fn is_judged(&self) -> bool {
        self.finding.status != Status::Note
    }
}

/// Layers that the file states and a generated cut leaves out, such as a rain screen and its siding: from
/// the first air that counts as outdoors on.
pub(super) fn left_out(case: &DetailCase) -> Vec<&str> {
    let is_open = |layer: &&Layer| {
        let air = &layer.content;
        matches!(air, Content::Air(AirSpace::Vented | AirSpace::Ventilated))
    };
    let assemblies = case.plan.iter().flat_map(|plan| plan.assemblies());
    let layers = assemblies.flat_map(|one| one.layers.iter().skip_while(|layer| !is_open(layer)));
    let mut names: Vec<&str> = Vec::new();
    for layer in layers {
        if !names.contains(&layer.name.as_str()) {
            names.push(&layer.name);
        }
    }
    names
}
