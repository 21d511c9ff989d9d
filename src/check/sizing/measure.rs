//! A part with the layer in it held against the targets.

use super::{Fidelity, Row, Value};
use crate::check::drying::LONGEST;
use crate::model::drawn::DetailCase;
use crate::model::{Assembly, Conditions, SizedAt, SizedPart, Sizing, Stop, Target};
use crate::physics::heat::temperature_factor;
use crate::quantity::Temperature;
use crate::solve::conduction::Coldest;
use crate::solve::detail::{
    CornerSpot, DetailFailure, SpotPrecision, Spots, WoodPart, solve_spots,
};
use crate::solve::{AssemblyResult, Extent, PathKind, PathResult, solve_to};

/// Stands for "not within the time followed", days.
const NEVER: f64 = 1e4;

/// Values by row, `None` where a part can't be held against it.
pub(super) type Measured = Vec<Option<Value>>;

/// Measures a part at a stop; `rows` tells which rows are wanted.
///
/// # Errors
/// A detail that can't be solved.
pub(super) fn measure(
    sizing: &Sizing,
    part: &SizedPart,
    stop: &Stop,
    rows: &[Row],
    fidelity: Fidelity,
) -> Result<Measured, DetailFailure> {
    let place = sizing
        .place
        .as_deref()
        .filter(|place| part.has_place(place));
    match part {
        SizedPart::Assembly(case) => {
            let shown = shown(sizing, &case.assembly);
            Ok(of_assembly((&case.assembly, &shown), stop, rows, place))
        }
        SizedPart::Detail(case) => of_detail(case, stop, rows, place, fidelity),
    }
}

/// The strips of an assembly that a detail among the parts shows. What is judged there is judged
/// with the detail's temperatures: the strip's own path is a hand-check, too warm at an edge.
fn shown(sizing: &Sizing, assembly: &Assembly) -> Vec<usize> {
    let details = sizing.parts.iter().filter_map(|part| match part {
        SizedPart::Detail(case) => case.shows(),
        SizedPart::Assembly(_) => None,
    });
    let details: Vec<(&str, &str)> = details.collect();
    let strips = assembly.strips.iter().enumerate();
    let shown = strips.filter(|(_, strip)| details.contains(&(&assembly.name, &strip.name)));
    shown.map(|(n, _)| n).collect()
}

fn of_assembly(
    (assembly, shown): (&Assembly, &[usize]),
    stop: &Stop,
    rows: &[Row],
    place: Option<&str>,
) -> Measured {
    let dries = rows.iter().any(|row| row.target.needs_a_year());
    let extent = if dries {
        Extent::Drying(None)
    } else {
        Extent::Winter
    };
    let result = solve_to(assembly, &stop.conditions, extent);
    let of_row = |row: &Row| {
        let (value, at) = match row.target {
            Target::LeakMargin(_) => least((&result, shown), row, place, Margin::Leak),
            Target::DewPointMargin(_) => least((&result, &[]), row, place, Margin::Diffusion),
            Target::TemperatureFactor(_) => surface(&result, shown),
            Target::Transmittance(_) => return Some(Value::of(row, transmittance(&result), "")),
            Target::DryWithinTheYear | Target::DaysToDry(_) => slowest(&result),
        }?;
        Some(Value::of(row, value, &at))
    };
    rows.iter().map(of_row).collect()
}

#[derive(Clone, Copy, PartialEq)]
enum Margin {
    Leak,
    Diffusion,
}

fn paths(result: &AssemblyResult) -> impl Iterator<Item = &PathResult> {
    result.ends.iter().flat_map(|end| &end.paths)
}

/// Paths without those through strips that a detail shows.
fn paths_beside<'a>(
    result: &'a AssemblyResult,
    shown: &'a [usize],
) -> impl Iterator<Item = &'a PathResult> {
    let is_shown = |path: &&PathResult| match path.path.kind {
        PathKind::Strip(n) => shown.contains(&n),
        PathKind::Cavity | PathKind::Framing => false,
    };
    paths(result).filter(move |path| !is_shown(path))
}

/// The least margin among the planes that count.
fn least(
    (result, shown): (&AssemblyResult, &[usize]),
    row: &Row,
    place: Option<&str>,
    kind: Margin,
) -> Option<(f64, String)> {
    let mut least: Option<(f64, String)> = None;
    for path in paths_beside(result, shown) {
        let profile = match row.at {
            Some(SizedAt::DesignNight) => path.night.as_deref(),
            _ => Some(path.winter.as_ref()),
        };
        let Some(profile) = profile else {
            continue;
        };
        for (n, plane) in profile.planes.iter().enumerate() {
            let role = &path.roles[n];
            let counts = match kind {
                Margin::Leak => role.judged,
                Margin::Diffusion => role.vulnerable,
            };
            if !counts || !place.is_none_or(|place| is_at(path, n, place)) {
                continue;
            }
            let margin = match kind {
                Margin::Leak => Some(plane.temperature - result.room_dew_point),
                Margin::Diffusion => plane.dew_point_margin,
            };
            let Some(margin) = margin.map(|margin| margin.as_kelvin()) else {
                continue;
            };
            if least.as_ref().is_none_or(|(least, _)| margin < *least) {
                least = Some((margin, name(path, n)));
            }
        }
    }
    least
}

/// Whether a plane is meant by a place: the plane, its path, or a layer it touches.
fn is_at(path: &PathResult, plane: usize, place: &str) -> bool {
    let name = &path.plane_names[plane];
    name == place || path.path.name == place || name.split(" / ").any(|side| side == place)
}

fn name(path: &PathResult, plane: usize) -> String {
    format!("{} ({})", path.plane_names[plane], path.path.name)
}

fn surface(result: &AssemblyResult, shown: &[usize]) -> Option<(f64, String)> {
    let paths = paths_beside(result, shown);
    let factors = paths.filter_map(|path| Some((path.temperature_factor?, name(path, 0))));
    factors.min_by(|a, b| a.0.total_cmp(&b.0))
}

/// U by the combined method; where it doesn't apply, the greater end of the bracket.
fn transmittance(result: &AssemblyResult) -> f64 {
    let of = result.ends.iter().map(|end| {
        let u = &end.transmittance;
        u.combined.unwrap_or(u.isothermal_planes)
    });
    of.fold(f64::NEG_INFINITY, f64::max)
}

/// The plane that holds 1 kg/m² longest. Where nothing is vulnerable it is gone at once.
fn slowest(result: &AssemblyResult) -> Option<(f64, String)> {
    let all = paths(result).flat_map(|path| {
        path.drying.iter().map(move |drying| {
            let days = drying.out.gone_after_days;
            let days = days.unwrap_or(NEVER + 100.0 * drying.out.left);
            (days, name(path, drying.plane))
        })
    });
    all.max_by(|a, b| a.0.total_cmp(&b.0))
        .or(Some((0.0, String::new())))
}

fn of_detail(
    case: &DetailCase,
    stop: &Stop,
    rows: &[Row],
    place: Option<&str>,
    fidelity: Fidelity,
) -> Result<Measured, DetailFailure> {
    let precision = match fidelity {
        Fidelity::Full => SpotPrecision::full(),
        Fidelity::Quick => SpotPrecision::quick(),
        Fidelity::Direction => SpotPrecision::quick_cut(),
    };
    let asks = |wanted: fn(Target) -> bool| rows.iter().any(|row| wanted(row.target));
    let conditions = &stop.conditions;
    let solved = |damp| solve_spots(case, conditions, &precision, damp);
    let asks_margin = asks(|target| matches!(target, Target::LeakMargin(_)));
    let asks_factor = asks(|target| matches!(target, Target::TemperatureFactor(_)));
    let (usual, damp) = rayon::join(
        || asks_margin.then(|| solved(false)).transpose(),
        || asks_factor.then(|| solved(true)).transpose(),
    );
    let (usual, damp) = (usual?, damp?);
    let of_row = |row: &Row| match row.target {
        Target::LeakMargin(_) => wood(conditions, usual.as_ref()?, row, place, fidelity),
        Target::TemperatureFactor(_) => factor(conditions, damp.as_ref()?, row, place, fidelity),
        _ => None,
    };
    Ok(rows.iter().map(of_row).collect())
}

/// A temperature found in a detail, °C, with its error bar, K, and where.
struct Found {
    celsius: f64,
    bar: f64,
    at: String,
}

impl Found {
    fn new(coldest: &Coldest, at: String) -> Self {
        Self {
            celsius: coldest.point.temperature,
            bar: coldest.bar,
            at,
        }
    }

    fn at_corner(spot: &CornerSpot) -> Self {
        Self {
            celsius: spot.temperature,
            bar: spot.bar,
            at: against(&spot.name, &spot.against),
        }
    }
}

/// `subfloor, against the flange foam`.
fn against(name: &str, against: &str) -> String {
    match against {
        "" => name.to_owned(),
        against => format!("{name}, against the {against}"),
    }
}

/// The least margin of the wood that counts, at the corner too. A full solution's error bar counts
/// against it.
fn wood(
    conditions: &Conditions,
    spots: &Spots,
    row: &Row,
    place: Option<&str>,
    fidelity: Fidelity,
) -> Option<Value> {
    let counts = |part: &&WoodPart| match place {
        None => part.decides,
        Some(place) => begins_with(&part.name, place),
    };
    let dew_point = conditions.indoor.dew_point();
    let along = spots.wood.iter().filter(counts).filter_map(|part| {
        let (coldest, beside) = part.reached.as_ref()?;
        Some(Found::new(coldest, against(&part.name, beside)))
    });
    let corner = spots.corner.iter();
    let corner = corner.filter(|spot| place.is_none_or(|place| begins_with(&spot.along, place)));
    let of = |found: Found| {
        let (there, bar) = at_condition(conditions, row, &found)?;
        let margin = (there - dew_point).as_kelvin();
        let told = (margin, found.at.as_str(), bar);
        Some(Value::with_bar(row, told, fidelity, spots.settled))
    };
    let all = along.chain(corner.map(Found::at_corner)).filter_map(of);
    all.min_by(|a, b| a.slack.total_cmp(&b.slack))
}

/// Whether a part is meant by a place: by its name, or the first words of it.
fn begins_with(name: &str, place: &str) -> bool {
    let rest = name.strip_prefix(place);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
}

/// Temperature of a place at a row's condition, with its error bar in K.
fn at_condition(conditions: &Conditions, row: &Row, found: &Found) -> Option<(Temperature, f64)> {
    let there = Temperature::from_celsius(found.celsius);
    if row.at != Some(SizedAt::DesignNight) {
        return Some((there, found.bar));
    }
    // Conduction is linear: the temperature factor holds on the design night too.
    let (indoor, winter) = (
        conditions.indoor.temperature,
        conditions.winter_mean.temperature,
    );
    let night = conditions.design_night?.temperature;
    let factor = temperature_factor(there, winter, indoor)?;
    let span = |outdoor: Temperature| (indoor - outdoor).as_kelvin();
    let celsius = night.as_celsius() + factor * span(night);
    let bar = found.bar * (span(night) / span(winter)).abs();
    Some((Temperature::from_celsius(celsius), bar))
}

/// The least temperature factor of the room's surfaces, at the corner too.
fn factor(
    conditions: &Conditions,
    spots: &Spots,
    row: &Row,
    place: Option<&str>,
    fidelity: Fidelity,
) -> Option<Value> {
    let (indoor, outdoor) = (
        conditions.indoor.temperature,
        conditions.winter_mean.temperature,
    );
    let surface = place.filter(|place| spots.surfaces.iter().any(|(name, _)| name == place));
    let along = spots.surfaces.iter();
    let along = along.filter(|(name, _)| surface.is_none_or(|surface| name == surface));
    let corner = spots.corner.iter();
    let corner = corner.filter(|spot| surface.is_none_or(|name| spot.along == name));
    let of = |found: Found| {
        let there = Temperature::from_celsius(found.celsius);
        let factor = temperature_factor(there, outdoor, indoor)?;
        let bar = found.bar / (indoor - outdoor).as_kelvin().abs();
        let told = (factor, found.at.as_str(), bar);
        Some(Value::with_bar(row, told, fidelity, spots.settled))
    };
    along
        .map(|(name, coldest)| Found::new(coldest, name.clone()))
        .chain(corner.map(Found::at_corner))
        .filter_map(of)
        .min_by(|a, b| a.slack.total_cmp(&b.slack))
}

impl Value {
    fn of(row: &Row, value: f64, at: &str) -> Self {
        Self {
            value,
            slack: row.slack(value),
            at: at.to_owned(),
            bar: 0.0,
            part: 0,
            stop: 0,
            settled: true,
        }
    }

    fn with_bar(
        row: &Row,
        (value, at, bar): (f64, &str, f64),
        fidelity: Fidelity,
        settled: bool,
    ) -> Self {
        let plain = Self::of(row, value, at);
        match fidelity {
            Fidelity::Quick | Fidelity::Direction => plain,
            Fidelity::Full => Self {
                slack: plain.slack - bar,
                bar,
                settled,
                ..plain
            },
        }
    }
}

impl Row {
    /// Distance from the target in its own unit, positive where it is met.
    fn slack(&self, value: f64) -> f64 {
        match self.target {
            Target::LeakMargin(least) | Target::DewPointMargin(least) => value - least.as_kelvin(),
            Target::TemperatureFactor(least) => value - least,
            Target::Transmittance(most) => most - value,
            Target::DryWithinTheYear => LONGEST - value,
            Target::DaysToDry(most) => most - value,
        }
    }
}
