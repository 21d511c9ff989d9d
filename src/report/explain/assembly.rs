//! An assembly's paths and layers in the order and with the letters that formulas use.

use super::formula::{Term, sum};
use super::sheet::Sheet;
use crate::model::{Content, Film, Layer, Openness, Substance};
use crate::quantity::{Dimension, Temperature};
use crate::solve::{EndResult, HeatSource, PathResult, Piece};
use crate::study::Judged;

pub(super) const RESISTANCE: &str =
    "ISO 6946, thermal resistance of homogeneous layers and total thermal resistance (from memory)";

/// One end of an assembly's vented air spaces, about which something is asked.
#[derive(Clone, Copy)]
pub(super) struct Section<'a> {
    pub(super) one: &'a Judged<'a>,
    pub(super) end: &'a EndResult,
}

/// The resistances of a path as they stand in formulas.
pub(super) struct PathTerms {
    pub(super) interior: Term,
    /// One per layer; `None` for layers whose resistance isn't counted.
    pub(super) layers: Vec<Option<Term>>,
    pub(super) exterior: Term,
    pub(super) total: Term,
}

/// A layer's resistance once printed, to be found again by paths that share it.
pub(super) type Known = Vec<(String, f64, Option<Term>)>;

impl<'a> Section<'a> {
    /// `floor`, or `floor, foam over flange`; which end where an air space is vented.
    pub(super) fn name(&self) -> String {
        let name = self.one.case.name();
        match (self.one.case.assembly.has_vented_air(), self.end.openness) {
            (false, _) => name,
            (true, Openness::Closed) => format!("{name} / closed"),
            (true, Openness::Open) => format!("{name} / open"),
        }
    }

    /// Resistances of a path with the steps that give them. `letter` tells paths apart.
    pub(super) fn resistances(
        &self,
        sheet: &mut Sheet,
        path: &PathResult,
        letter: &str,
        known: &mut Known,
    ) -> PathTerms {
        let interior = self.interior_film(sheet, known);
        let mut layers = Vec::new();
        for (n, piece) in path.path.pieces.iter().enumerate() {
            layers.push(self.layer(sheet, path, n, piece, letter, known));
        }
        let exterior = self.exterior_film(sheet, path, letter, known);
        let all = std::iter::once(interior.f())
            .chain(layers.iter().flatten().map(Term::f))
            .chain([exterior.f()]);
        let symbol = match letter {
            "" => "R_T".to_owned(),
            letter => format!("R_{letter}"),
        };
        let words = format!("{}: total resistance, films included", path.path.name);
        let si = path.in_one_dimension().total_resistance.as_si();
        let total = sheet.computed((&symbol, &words), Dimension::Resistance, si, &sum(all));
        PathTerms {
            interior,
            layers,
            exterior,
            total,
        }
    }

    fn interior_film(&self, sheet: &mut Sheet, known: &mut Known) -> Term {
        let film = self.end.boundary.interior_film.as_si();
        if let Some((_, _, Some(term))) = known.iter().find(|(name, ..)| name == "R_si") {
            return term.clone();
        }
        let words = format!(
            "film at the room's surface, {}",
            self.film_source(|f| f.inside)
        );
        let term = sheet.given(("R_si", &words), Dimension::Resistance, film);
        known.push(("R_si".into(), film, Some(term.clone())));
        term
    }

    fn exterior_film(
        &self,
        sheet: &mut Sheet,
        path: &PathResult,
        letter: &str,
        known: &mut Known,
    ) -> Term {
        let film = exterior_film(self.end, path);
        let same = |(name, si, _): &&(String, f64, Option<Term>)| {
            name == "R_se" && (si - film).abs() < 1e-9
        };
        if let Some((_, _, Some(term))) = known.iter().find(same) {
            return term.clone();
        }
        let place = match path.path.ends_at_ventilated_air {
            true => "film to the ventilated gap, as at an inner surface",
            false => "film at the outer surface",
        };
        let first = known.iter().all(|(name, ..)| name != "R_se");
        let symbol = match (first, letter) {
            (true, _) | (false, "") => "R_se".to_owned(),
            (false, letter) => format!("R_se,{letter}"),
        };
        let words = format!("{place}, {}", self.film_source(|films| films.outside));
        let term = sheet.given((&symbol, &words), Dimension::Resistance, film);
        known.push(("R_se".into(), film, Some(term.clone())));
        term
    }

    fn film_source(&self, side: impl Fn(&crate::model::Films) -> Film) -> &'static str {
        let films = &self.one.case.assembly.films;
        match (side(films).resistance, films.handbook) {
            (Some(_), _) => "stated in the file",
            (None, true) => "ASHRAE handbook, surface films (from memory)",
            (None, false) => "ISO 6946, surface resistances (from memory)",
        }
    }

    /// The step of one layer, unless another path had the same one.
    fn layer(
        &self,
        sheet: &mut Sheet,
        path: &PathResult,
        n: usize,
        piece: &Piece,
        letter: &str,
        known: &mut Known,
    ) -> Option<Term> {
        let si = path.in_one_dimension().resistances[n].as_si();
        let at = piece.layer.unwrap_or(n);
        let key = format!("{at} {}", piece.name);
        let same = |(name, r, _): &&(String, f64, Option<Term>)| *name == key && *r == si;
        if let Some((_, _, term)) = known.iter().find(same) {
            return term.clone();
        }
        let first = known
            .iter()
            .all(|(name, ..)| !name.starts_with(&format!("{at} ")));
        // Below raised joists a path meets their layer a second time.
        let before = n.checked_sub(1).and_then(|n| path.path.pieces[n].layer);
        let again = piece.layer.is_some() && before == piece.layer;
        let number = match (first, again) {
            (true, _) => format!("{}", at + 1),
            (false, false) => format!("{}{letter}", at + 1),
            (false, true) => format!("{}{letter},2", at + 1),
        };
        let term = layer_step(sheet, &number, piece, si, mean(path, n));
        if let Some(substance) = self.substance(piece) {
            let sources = substance.sources.join("; ");
            if !sources.is_empty() {
                sheet.material(format!("{}: {}. {sources}", piece.name, piece.label));
            }
        }
        known.push((key, si, term.clone()));
        term
    }

    /// What a piece is made of, for its sources.
    fn substance(&self, piece: &Piece) -> Option<&'a Substance> {
        let assembly = &self.one.case.assembly;
        let over = assembly.strips.iter().flat_map(|strip| &strip.over);
        let of_layer = |layer: &'a Layer| {
            let own = match &layer.content {
                Content::Solid(own) => Some(own),
                Content::Air(_) => None,
            };
            let framing = layer.framing.iter().map(|framing| &framing.substance);
            own.into_iter().chain(framing)
        };
        let metals = assembly.strips.iter().map(|strip| &strip.metal);
        let mut all = assembly
            .layers
            .iter()
            .chain(over)
            .flat_map(of_layer)
            .chain(metals);
        all.find(|substance| substance.label == piece.label)
            .map(|substance| &**substance)
    }
}

/// The film at a path's outer surface, m²·K/W.
pub(super) fn exterior_film(end: &EndResult, path: &PathResult) -> f64 {
    let layers: f64 = path
        .in_one_dimension()
        .resistances
        .iter()
        .map(|r| r.as_si())
        .sum();
    path.in_one_dimension().total_resistance.as_si() - layers - end.boundary.interior_film.as_si()
}

/// Mean temperature of a layer.
fn mean(path: &PathResult, n: usize) -> Temperature {
    let own = path.in_one_dimension();
    let celsius = |plane: usize| own.planes[plane].temperature.as_celsius();
    Temperature::from_celsius(0.5 * (celsius(n) + celsius(n + 1)))
}

fn layer_step(
    sheet: &mut Sheet,
    number: &str,
    piece: &Piece,
    si: f64,
    mean: Temperature,
) -> Option<Term> {
    let symbol = format!("R{number}");
    let what = match piece.name == piece.label {
        true => piece.name.clone(),
        false => format!("{}, {}", piece.name, piece.label),
    };
    let thickness = |sheet: &Sheet| {
        let name = format!("t{number}");
        sheet.term(&name, Dimension::Length, piece.thickness.as_m())
    };
    let over = |sheet: &mut Sheet, words: &str, conductivity: f64| {
        let t = thickness(sheet);
        let name = format!("λ{number}");
        let lambda = sheet.term(&name, Dimension::Conductivity, conductivity);
        sheet.computed(
            (&symbol, words),
            Dimension::Resistance,
            si,
            &(t.f() / lambda.f()),
        )
    };
    match piece.heat {
        HeatSource::Conductivity(k) => Some(over(sheet, &what, k.as_si())),
        HeatSource::Curve => {
            let at = sheet.style.show(mean);
            let words = format!("{what}, conductivity at its own mean temperature, {at}");
            Some(over(sheet, &words, piece.thickness.as_m() / si))
        }
        HeatSource::Stated => {
            let words = format!("{what}, stated in the file");
            Some(sheet.given((&symbol, &words), Dimension::Resistance, si))
        }
        HeatSource::AirSpace => {
            let t = sheet.style.show(piece.thickness);
            let words = format!(
                "{what} of {t}, ISO 6946, table of unventilated air layers by thickness and \
                 direction of heat flow (from memory)"
            );
            Some(sheet.given((&symbol, &words), Dimension::Resistance, si))
        }
        HeatSource::Neglected => {
            sheet.note(format!("{what}: no thermal resistance is counted"));
            None
        }
    }
}
