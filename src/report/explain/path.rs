//! A path: its resistances in series and the temperature of every plane.

use super::Derivation;
use super::air;
use super::assembly::{PathTerms, RESISTANCE, Section};
use super::formula::{Term, sum};
use super::sheet::Sheet;
use crate::model::AirState;
use crate::quantity::{Dimension, Style};
use crate::solve::{PathResult, Profile};

/// Temperatures of the air on both sides.
pub(super) struct Ends {
    pub(super) indoor: Term,
    pub(super) outdoor: Term,
    /// The same, °C.
    pub(super) celsius: (f64, f64),
}

/// The steps for the air temperatures of a condition.
pub(super) fn ends(sheet: &mut Sheet, indoor: AirState, outdoor: AirState, when: &str) -> Ends {
    let celsius = (
        indoor.temperature.as_celsius(),
        outdoor.temperature.as_celsius(),
    );
    let indoor = air::temperature(sheet, "i", "room air", indoor);
    let words = format!("outdoor air, {when}");
    let outdoor = air::temperature(sheet, "e", &words, outdoor);
    Ends {
        indoor,
        outdoor,
        celsius,
    }
}

/// The temperature of a plane: its share of the resistance from the room outward.
pub(super) fn plane_temperature(
    sheet: &mut Sheet,
    (path, terms, ends): (&PathResult, &PathTerms, &Ends),
    profile: &Profile,
    plane: usize,
) -> Term {
    if path.by_strip.is_some() {
        return shown_temperature(sheet, (path, terms, ends), profile, plane);
    }
    let before = terms.layers.iter().take(plane).flatten().map(Term::f);
    let up_to = sum(std::iter::once(terms.interior.f()).chain(before));
    let span = ends.indoor.f() - ends.outdoor.f();
    let formula = ends.indoor.f() - span * up_to / terms.total.f();
    let symbol = format!("θ_{plane}");
    let words = format!("temperature, {}", path.plane_names[plane]);
    let si = profile.planes[plane].temperature.as_celsius();
    sheet.computed((&symbol, &words), Dimension::Temperature, si, &formula)
}

/// The temperature of a plane over a strip that a detail shows: surface and wood by the detail's
/// temperature factors, the rest in proportion to the layers' resistances.
fn shown_temperature(
    sheet: &mut Sheet,
    (path, terms, ends): (&PathResult, &PathTerms, &Ends),
    profile: &Profile,
    plane: usize,
) -> Term {
    let layers = |range: std::ops::Range<usize>| {
        let counted = terms.layers[range].iter().flatten();
        counted.map(Term::f).collect::<Vec<_>>()
    };
    let wood = path.roles.iter().position(|role| role.wood_at_steel);
    let wood = wood
        .filter(|wood| !layers(0..*wood).is_empty())
        .unwrap_or(0);
    sheet.note(
        "A detail shows this strip: the room's surface and the wood at the steel have the \
         temperature factors of the detail, whose derivation is that of its coldest places",
    );
    let factor_at = |sheet: &mut Sheet, plane: usize, symbol: &str, words: &str| {
        let (indoor, outdoor) = ends.celsius;
        let there = path.winter.planes[plane].temperature.as_celsius();
        let factor = (there - outdoor) / (indoor - outdoor);
        sheet.given((symbol, words), Dimension::Ratio, factor)
    };
    let span = ends.indoor.f() - ends.outdoor.f();
    let symbol = format!("θ_{plane}");
    let words = format!("temperature, {}", path.plane_names[plane]);
    let si = profile.planes[plane].temperature.as_celsius();
    let surface = factor_at(
        sheet,
        0,
        "f_s",
        "temperature factor of the floor's surface, detail",
    );
    let by_factor = |factor: &Term| ends.outdoor.f() + factor.f() * span.clone();
    let formula = match (plane, wood) {
        (0, _) => by_factor(&surface),
        (_, 0) => {
            let beyond = sum(layers(plane..terms.layers.len())
                .into_iter()
                .chain([terms.exterior.f()]));
            let all = sum(layers(0..terms.layers.len())
                .into_iter()
                .chain([terms.exterior.f()]));
            ends.outdoor.f() + surface.f() * span * beyond / all
        }
        _ => {
            let at_wood = factor_at(sheet, wood, "f_w", "temperature factor of the wood, detail");
            match plane {
                plane if plane == wood => by_factor(&at_wood),
                plane if plane < wood => {
                    let share = sum(layers(0..plane)) / sum(layers(0..wood));
                    ends.outdoor.f() + (surface.f() - (surface.f() - at_wood.f()) * share) * span
                }
                plane => {
                    let rest = |from: usize| {
                        let layers = layers(from..terms.layers.len()).into_iter();
                        sum(layers.chain([terms.exterior.f()]))
                    };
                    ends.outdoor.f() + at_wood.f() * span * rest(plane) / rest(wood)
                }
            }
        }
    };
    sheet.computed((&symbol, &words), Dimension::Temperature, si, &formula)
}

/// The temperature factor of the room's surface.
fn factor(sheet: &mut Sheet, path: &PathResult, surface: &Term, ends: &Ends) {
    let Some(solved) = path.temperature_factor else {
        return;
    };
    let span = ends.indoor.f() - ends.outdoor.f();
    let formula = (surface.f() - ends.outdoor.f()) / span;
    let named = ("f_Rsi", "temperature factor of the room's surface");
    sheet.result(named, Dimension::Ratio, solved, &formula);
}

/// `floor / cavity`: resistances and temperatures.
pub(super) fn derive(
    section: Section<'_>,
    path: &PathResult,
    place: &str,
    style: Style,
) -> Derivation {
    let mut sheet = Sheet::new(
        style,
        place,
        format!("{}: resistances and temperatures", place),
        "What does each layer resist, and how cold is every plane on the winter mean?",
        RESISTANCE,
    );
    let terms = section.resistances(&mut sheet, path, "", &mut Vec::new());
    let boundary = &section.end.boundary;
    let ends = ends(&mut sheet, boundary.indoor, boundary.outdoor, "winter mean");
    let u = 1.0 / path.in_one_dimension().total_resistance.as_si();
    let formula = super::formula::constant("1", 1.0) / terms.total.f();
    let words = format!("transmittance of {} alone", path.path.name);
    sheet.result(("U", &words), Dimension::Transmittance, u, &formula);
    let all: (&PathResult, &PathTerms, &Ends) = (path, &terms, &ends);
    let planes = 0..path.winter.planes.len();
    let thetas: Vec<Term> = planes
        .map(|plane| plane_temperature(&mut sheet, all, &path.winter, plane))
        .collect();
    if let Some(surface) = thetas.first() {
        factor(&mut sheet, path, surface, &ends);
    }
    sheet.done()
}
