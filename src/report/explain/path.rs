//! A path: its resistances in series and the temperature of every plane.

use super::Derivation;
use super::air;
use super::assembly::{PathTerms, RESISTANCE, Section};
use super::formula::{Term, sum};
use super::sheet::Sheet;
use crate::model::AirState;
use crate::quantity::{Measure, Style};
use crate::solve::{PathResult, Profile};

/// Temperatures of the air on both sides.
pub(super) struct Ends {
    pub(super) indoor: Term,
    pub(super) outdoor: Term,
}

/// The steps for the air temperatures of a condition.
pub(super) fn ends(sheet: &mut Sheet, indoor: AirState, outdoor: AirState, when: &str) -> Ends {
    let indoor = air::temperature(sheet, "i", "room air", indoor);
    let words = format!("outdoor air, {when}");
    let outdoor = air::temperature(sheet, "e", &words, outdoor);
    Ends { indoor, outdoor }
}

/// The temperature of a plane: its share of the resistance from the room outward.
pub(super) fn plane_temperature(
    sheet: &mut Sheet,
    (path, terms, ends): (&PathResult, &PathTerms, &Ends),
    profile: &Profile,
    plane: usize,
) -> Term {
    let before = terms.layers.iter().take(plane).flatten().map(Term::f);
    let up_to = sum(std::iter::once(terms.interior.f()).chain(before));
    let span = ends.indoor.f() - ends.outdoor.f();
    let formula = ends.indoor.f() - span * up_to / terms.total.f();
    let symbol = format!("θ_{plane}");
    let words = format!("temperature, {}", path.plane_names[plane]);
    let si = profile.planes[plane].temperature.as_celsius();
    sheet.computed((&symbol, &words), Measure::Temperature, si, &formula)
}

/// The temperature factor of the room's surface.
fn factor(sheet: &mut Sheet, path: &PathResult, surface: &Term, ends: &Ends) {
    let Some(solved) = path.temperature_factor else {
        return;
    };
    let span = ends.indoor.f() - ends.outdoor.f();
    let formula = (surface.f() - ends.outdoor.f()) / span;
    let named = ("f_Rsi", "temperature factor of the room's surface");
    sheet.result(named, Measure::Ratio, solved, &formula);
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
    let u = 1.0 / path.winter.total_resistance.as_si();
    let formula = super::formula::constant("1", 1.0) / terms.total.f();
    let words = format!("transmittance of {} alone", path.path.name);
    sheet.result(("U", &words), Measure::Transmittance, u, &formula);
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
