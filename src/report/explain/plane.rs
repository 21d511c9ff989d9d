//! One plane: its temperature, the vapor there by diffusion, and both margins.

use super::Derivation;
use super::air::{self, SATURATION};
use super::assembly::{PathTerms, RESISTANCE, Section};
use super::formula::{Formula, Term, constant, sum};
use super::path::{Ends, plane_temperature};
use super::sheet::Sheet;
use crate::model::VaporRate;
use crate::quantity::{Dimension, Style, UnitSystem, unit};
use crate::solve::{PathResult, Piece};

/// Vapor resistances of a path without a perfect barrier, as they stand in formulas.
pub(super) struct VaporTerms {
    /// The film at the room's surface, where it is counted.
    interior: Option<Term>,
    layers: Vec<Term>,
    /// The film at the outer surface, where it is counted.
    exterior: Option<Term>,
    pub(super) total: Term,
}

impl VaporTerms {
    /// What lies between the room's air and a plane.
    pub(super) fn before(&self, plane: usize) -> Vec<Formula> {
        let layers = self.layers[..plane].iter();
        self.interior.iter().chain(layers).map(Term::f).collect()
    }

    /// What lies between a plane and outdoor air.
    pub(super) fn after(&self, plane: usize) -> Vec<Formula> {
        let layers = self.layers[plane..].iter();
        layers.chain(&self.exterior).map(Term::f).collect()
    }
}

/// `floor / cavity / subfloor / bay`.
pub(super) fn derive(
    section: Section<'_>,
    path: &PathResult,
    plane: usize,
    place: &str,
    style: Style,
) -> Derivation {
    let mut sheet = Sheet::new(
        style,
        place,
        format!("{place}: temperature and margins"),
        "How cold is this plane on the winter mean, and how far above the dew points?",
        &format!("{RESISTANCE}; {SATURATION}; Fick's law as in ISO 13788"),
    );
    let terms = section.resistances(&mut sheet, path, "", &mut Vec::new());
    let boundary = &section.end.boundary;
    let room = air::state(&mut sheet, "i", "room air", boundary.indoor);
    let outside = air::state(
        &mut sheet,
        "e",
        "outdoor air, winter mean",
        boundary.outdoor,
    );
    let ends = Ends {
        indoor: room.temperature.clone(),
        outdoor: outside.temperature.clone(),
        celsius: (
            boundary.indoor.temperature.as_celsius(),
            boundary.outdoor.temperature.as_celsius(),
        ),
    };
    let all: (&PathResult, &PathTerms, &Ends) = (path, &terms, &ends);
    let theta = plane_temperature(&mut sheet, all, &path.winter, plane);
    vapor_at(
        &mut sheet,
        section,
        (path, plane),
        &theta,
        (&room.pressure, &outside.pressure),
    );
    leak(&mut sheet, section, (path, plane), &theta, &room.pressure);
    sheet.done()
}

/// The dew-point margin by diffusion, where diffusion says anything.
fn vapor_at(
    sheet: &mut Sheet,
    section: Section<'_>,
    (path, plane): (&PathResult, usize),
    theta: &Term,
    (inside, outside): (&Term, &Term),
) {
    let state = &path.winter.planes[plane];
    let (Some(pressure), Some(dew), Some(margin)) = (
        state.vapor_pressure,
        state.dew_point,
        state.dew_point_margin,
    ) else {
        sheet.note("The plane lies between two perfect barriers: diffusion says nothing of the vapor there");
        return;
    };
    let formula = by_diffusion(sheet, section, (path, plane), (inside, outside));
    let at = plane.to_string();
    let symbol = format!("p_{at}");
    let named = (
        symbol.as_str(),
        "vapor pressure there by diffusion, before condensation",
    );
    let p = sheet.computed(named, Dimension::Pascal, pressure.as_pa(), &formula);
    air::saturation(sheet, &at, theta, state.temperature, state.saturation);
    let d = air::dew_point(sheet, &at, (&p, pressure), dew);
    sheet.result(
        ("Δθ_d", "dew-point margin: below zero, vapor condenses"),
        Dimension::Difference,
        margin.as_kelvin(),
        &(theta.f() - d.f()),
    );
}

/// The vapor pressure at a plane: its share of the vapor resistance from the room outward.
fn by_diffusion(
    sheet: &mut Sheet,
    section: Section<'_>,
    (path, plane): (&PathResult, usize),
    (inside, outside): (&Term, &Term),
) -> Formula {
    match barrier(path) {
        Some((first, _)) if plane <= first => {
            sheet.note("No vapor flows: a perfect barrier lies farther out");
            return inside.f();
        }
        Some(_) => {
            sheet.note("No vapor comes from the room: a perfect barrier lies farther in");
            return outside.f();
        }
        None => {}
    }
    let Some(vapor) = resistances(sheet, section, path) else {
        return inside.f();
    };
    let before = vapor.before(plane);
    match before.is_empty() {
        true => inside.f(),
        false => {
            let span = inside.f() - outside.f();
            inside.f() - span * sum(before) / vapor.total.f()
        }
    }
}

/// The margin over the room air's dew point, where leaking room air gets to.
fn leak(
    sheet: &mut Sheet,
    section: Section<'_>,
    (path, plane): (&PathResult, usize),
    theta: &Term,
    pressure: &Term,
) {
    if !path.roles[plane].reached {
        sheet.note("Leaking room air doesn't get here: a bonded layer lies before it");
        return;
    }
    let room = section.end.boundary.indoor.vapor_pressure();
    let solved = section.one.result().room_dew_point;
    let dew = air::dew_point(sheet, "i", (pressure, room), solved);
    let margin = path.winter.planes[plane].temperature - solved;
    sheet.result(
        ("Δθ_leak", "leak margin: over the dew point of the room air"),
        Dimension::Difference,
        margin.as_kelvin(),
        &(theta.f() - dew.f()),
    );
}

/// The first and last layer that is a perfect barrier.
pub(super) fn barrier(path: &PathResult) -> Option<(usize, usize)> {
    let is_barrier = |piece: &Piece| piece.slab.vapor_resistance.is_infinite();
    let pieces = &path.path.pieces;
    pieces
        .iter()
        .position(is_barrier)
        .zip(pieces.iter().rposition(is_barrier))
}

/// Vapor resistances of every layer and their sum; `None` where there is none at all.
pub(super) fn resistances(
    sheet: &mut Sheet,
    section: Section<'_>,
    path: &PathResult,
) -> Option<VaporTerms> {
    let letter = letter(sheet.style);
    let mut terms = Vec::new();
    let films = [
        (
            "si",
            section.end.boundary.interior_vapor_film,
            "vapor film at the room's surface",
        ),
        (
            "se",
            section.end.boundary.exterior_vapor_film,
            "vapor film at the outer surface",
        ),
    ];
    let film = |sheet: &mut Sheet, (at, si, words): (&str, f64, &str)| {
        (si > 0.0).then(|| {
            let symbol = format!("{letter}_{at}");
            sheet.given((&symbol, words), Dimension::VaporResistance, si)
        })
    };
    let inner = film(sheet, films[0]);
    for (n, piece) in path.path.pieces.iter().enumerate() {
        terms.push(layer(sheet, n + 1, piece));
    }
    let outer = film(sheet, films[1]);
    let boundary = &section.end.boundary;
    let layers: f64 = path
        .path
        .pieces
        .iter()
        .map(|p| p.slab.vapor_resistance)
        .sum();
    let si = layers + boundary.interior_vapor_film + boundary.exterior_vapor_film;
    if si <= 0.0 {
        sheet.note("Nothing resists vapor: the room's vapor pressure stands throughout");
        return None;
    }
    let all = inner.iter().chain(&terms).chain(&outer).map(Term::f);
    let symbol = format!("{letter}_T");
    let named = (symbol.as_str(), "vapor resistance of the path");
    let total = sheet.computed(named, Dimension::VaporResistance, si, &sum(all));
    Some(VaporTerms {
        interior: inner,
        layers: terms,
        exterior: outer,
        total,
    })
}

/// What vapor resistances are called: s_d, or Z.
fn letter(style: Style) -> &'static str {
    match style.units {
        UnitSystem::Metric => "s_d",
        UnitSystem::Imperial => "Z",
    }
}

fn layer(sheet: &mut Sheet, number: usize, piece: &Piece) -> Term {
    let symbol = format!("{}{number}", letter(sheet.style));
    let what = format!("{}, {}: vapor resistance", piece.name, piece.label);
    let si = piece.slab.vapor_resistance;
    let metric = sheet.style.units == UnitSystem::Metric;
    let thickness = piece.thickness.as_m();
    let t = sheet.term(&format!("t{number}"), Dimension::Length, thickness);
    // s_d compares with still air; Z doesn't.
    let still = sheet.term("δ0", Dimension::Permeability, unit::AIR_PERMEABILITY);
    let of = |symbol: &str, measure, si| sheet.term(&format!("{symbol}{number}"), measure, si);
    let formula = match (piece.vapor, metric) {
        (None, true) => t.f(),
        (None, false) => t.f() / still.f(),
        (Some(VaporRate::PerThickness(delta)), _) => {
            let delta = of("δ", Dimension::Permeability, delta.as_si());
            match metric {
                true => still.f() * t.f() / delta.f(),
                false => t.f() / delta.f(),
            }
        }
        (Some(VaporRate::PerSheet(permeance)), _) => {
            let w = of("W", Dimension::Permeance, permeance.as_si());
            match metric {
                true => still.f() / w.f(),
                false => constant("1", 1.0) / w.f(),
            }
        }
    };
    sheet.computed((&symbol, &what), Dimension::VaporResistance, si, &formula)
}
