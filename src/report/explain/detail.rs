//! Details in two dimensions: how the solver came to its numbers, psi, and places on the cut.

use super::super::sentence::{Sites, sentence};
use super::Derivation;
use super::formula::{Term, constant, exp, ln, sum};
use super::path::Ends;
use super::sheet::Sheet;
use super::{air, corner, mold};
use crate::check::detail::SpotAt;
use crate::check::{self, Detail, Finding};
use crate::model::MonthState;
use crate::model::drawn::{DetailFilms, Reference};
use crate::quantity::{Dimension, Length, Style, TemperatureDifference, month_name};
use crate::solve::conduction::{Conduction, GridRecord, Method};
use crate::solve::detail::{DAMP_FILM, DetailResult};
use crate::study::JudgedDetail;

const CONDUCTION: &str = "ISO 10211, two-dimensional steady heat flow (from memory)";

/// `floor edge / heat flow`.
pub(super) fn derive_heat_flow(
    one: &JudgedDetail<'_>,
    result: &DetailResult,
    place: &str,
    style: Style,
) -> Derivation {
    let mut sheet = Sheet::new(
        style,
        place,
        format!("{}: heat flow and coupling in two dimensions", one.name()),
        "How much heat passes a unit of length of this cut?",
        CONDUCTION,
    );
    method(&mut sheet, one, &result.conduction);
    coupling(&mut sheet, one, result);
    for estimate in &one.here().hand_checks {
        let found = one.hand_check_errors(estimate.kind);
        let Some(share) = found.and_then(|found| Some(1.0 + found.heat_flow_error?)) else {
            continue;
        };
        let name = super::super::sentence_detail::estimate_name(estimate.kind);
        let words = format!("beside it, hand-check by {name}: its heat flow over the solver's");
        let number = Dimension::Ratio.with_decimals(share, 3, style).number;
        sheet.told(&words, number, "");
    }
    sheet.done()
}

/// Equations, boundaries, grids, residual and balance.
fn method(sheet: &mut Sheet, one: &JudgedDetail<'_>, conduction: &Conduction) {
    let case = one.case;
    let size = |meters: f64| sheet.style.show(Length::from_m(meters));
    sheet_note_method(
        sheet,
        &format!("{} by {}", size(case.width), size(case.height)),
    );
    for (n, grid) in conduction.grids.iter().enumerate() {
        let words = format!(
            "grid {}, {}: residual of the equations {:.0e}, heat in less heat out {:.0e} of it",
            n + 1,
            solved_by(grid),
            grid.report.residual,
            grid.report.imbalance,
        );
        sheet.told(&words, grid.cells.to_string(), "cells");
    }
    if conduction.bracket.is_some() {
        sheet.note(super::super::sentence_detail::BRACKET);
    }
    if !conduction.settled {
        sheet.note("The error bars are wider than asked for: don't rely on these numbers");
    }
}

fn sheet_note_method(sheet: &mut Sheet, size: &str) {
    sheet.note(format!(
        "The cut is {size}. In the solids ∂/∂x (k ∂θ/∂x) + ∂/∂y (k ∂θ/∂y) = 0; where they meet air \
         −k ∂θ/∂n = (θ − θ_air) / R with the film R; no heat crosses the cut's edges. Cell-centered \
         finite volumes, harmonic-mean conductances, every edge of a material on a grid line; each \
         grid has the intervals of the one before split by two"
    ));
}

fn solved_by(grid: &GridRecord) -> String {
    match grid.report.method {
        Method::Iterative => format!(
            "{} iterations of conjugate gradients",
            grid.report.iterations
        ),
        Method::Direct => "a sparse factorization".into(),
    }
}

/// Heat flow, extrapolated from the grids, and the coupling coefficient it gives.
fn coupling(sheet: &mut Sheet, one: &JudgedDetail<'_>, result: &DetailResult) -> Option<Term> {
    let conduction = &result.conduction;
    let flow = heat_flow(sheet, conduction);
    let ends = ends(sheet, one, result);
    let coupling = conduction.coupling.as_ref()?;
    let formula = flow.f() / (ends.indoor.f() - ends.outdoor.f());
    let named = ("L2D", "thermal coupling coefficient");
    Some(sheet.computed(
        named,
        Dimension::LinearTransmittance,
        coupling.value,
        &formula,
    ))
}

fn ends(sheet: &mut Sheet, one: &JudgedDetail<'_>, result: &DetailResult) -> Ends {
    let conditions = &one.stop().conditions;
    debug_assert_eq!(result.air.0, conditions.indoor.temperature);
    super::path::ends(
        sheet,
        conditions.indoor,
        conditions.winter_mean,
        "winter mean",
    )
}

/// The heat flow with the three grids it comes from.
fn heat_flow(sheet: &mut Sheet, conduction: &Conduction) -> Term {
    let found = &conduction.heat_flow;
    let measure = Dimension::HeatFlowByLength;
    let grids = &conduction.grids;
    let last = &grids[grids.len().saturating_sub(3)..];
    let (Some(order), [first, before, finest]) = (found.order, last) else {
        let words = "heat flow on the finest grid; the grids' differences don't shrink in order";
        return sheet.solved(("Q", words), measure, found.value, found.bar);
    };
    let symbol = |n: usize| format!("Q{}", grids.len() - 3 + n);
    let mut given = |n: usize, grid: &GridRecord| {
        let words = format!("heat flow on the grid of {} cells", grid.cells);
        sheet.given((&symbol(n), &words), measure, grid.heat_flow)
    };
    let (_, q2, q3) = (given(1, first), given(2, before), given(3, finest));
    let words = "order observed, log2 of the ratio of the differences, held between 1 and 2";
    let p = sheet.given(("p", words), Dimension::Ratio, order);
    let one = || constant("1", 1.0);
    let power = exp(p.f() * ln(constant("2", 2.0)));
    let formula = q3.f() + (q3.f() - q2.f()) / (power - one());
    let bar = measure.told(found.bar, sheet.style);
    let words = format!(
        "heat flow extrapolated (Richardson), error bar {} {}",
        bar.number, bar.unit
    );
    sheet.computed(("Q", &words), measure, found.value, &formula)
}

/// `floor edge / psi`.
pub(super) fn derive_psi(
    one: &JudgedDetail<'_>,
    result: &DetailResult,
    place: &str,
    style: Style,
) -> Derivation {
    let mut sheet = Sheet::new(
        style,
        place,
        format!("{}: linear thermal transmittance psi", one.name()),
        "What does the edge pass beyond floor and wall reckoned by their inside dimensions?",
        "ISO 10211, linear thermal transmittance (from memory)",
    );
    method(&mut sheet, one, &result.conduction);
    let coupling = coupling(&mut sheet, one, result);
    let warmer = result.air.0 >= result.air.1;
    let clear: Vec<_> = result
        .case
        .references
        .iter()
        .enumerate()
        .map(|(n, reference)| {
            let (u, length) = plane_assembly(&mut sheet, n + 1, reference, warmer);
            u.f() * length.f()
        })
        .collect();
    if let (Some(coupling), Some(psi)) = (coupling, &result.psi) {
        let bar = Dimension::LinearTransmittance.told(psi.bar, style);
        let words = format!(
            "linear thermal transmittance by inside dimensions, error bar {} {}",
            bar.number, bar.unit
        );
        let formula = coupling.f() - sum(clear);
        let named = ("psi", words.as_str());
        sheet.result(named, Dimension::LinearTransmittance, psi.value, &formula);
    }
    sheet.done()
}

/// U between the members of a plane assembly, and its inside length in the cut.
fn plane_assembly(
    sheet: &mut Sheet,
    n: usize,
    reference: &Reference,
    warmer: bool,
) -> (Term, Term) {
    let name = &reference.assembly;
    let films = DetailFilms::default();
    let (inside, outside) = reference.films(warmer, &films);
    let mut given = |symbol: &str, words: &str, measure, si| {
        let symbol = format!("{symbol}_{n}");
        let words = format!("{name}: {words}");
        sheet.given((&symbol, &words), measure, si)
    };
    let inner = given("R_si", "film inside", Dimension::Resistance, inside);
    let layers = given(
        "R",
        "layers between the members",
        Dimension::Resistance,
        reference.resistance(),
    );
    let outer = given("R_se", "film outside", Dimension::Resistance, outside);
    let length = given(
        "l",
        "inside length in the cut",
        Dimension::Run,
        reference.length,
    );
    let formula = constant("1", 1.0) / (inner.f() + layers.f() + outer.f());
    let symbol = format!("U_{n}");
    let words = format!("{name}: U between the members");
    let u = reference.transmittance(warmer, &films);
    let u = sheet.computed((&symbol, &words), Dimension::Transmittance, u, &formula);
    (u, length)
}

/// What a place on the cut is asked by: `floor surface / mold`, `subfloor inboard of the plate`.
pub(in crate::report) fn spot_place(finding: &Finding) -> Option<String> {
    let place = &finding.place.as_ref()?.path;
    Some(match (finding.check.is_of_mold, is_of_surface(finding)) {
        (true, _) => format!("{place} / mold"),
        (false, true) => format!("{place} / condensation"),
        _ => place.clone(),
    })
}

fn is_of_surface(finding: &Finding) -> bool {
    finding.check == &check::detail::CONDENSATION || finding.check.is_of_mold
}

/// A judged place of a detail.
pub(super) fn derive_spot(
    one: &JudgedDetail<'_>,
    result: &DetailResult,
    finding: &Finding,
    place: &str,
    style: Style,
) -> Derivation {
    let mut sheet = Sheet::new(
        style,
        place,
        place.to_owned(),
        "How cold is the coldest place there, and how far above the limit?",
        finding.source,
    );
    let surface = is_of_surface(finding);
    let conduction = match surface {
        true => &result.damp,
        false => &result.conduction,
    };
    if surface {
        sheet.note(format!(
            "Surfaces are judged with {} m²K/W inside",
            Dimension::Ratio.with_decimals(DAMP_FILM, 2, style).number
        ));
    }
    let (Some(value), Detail::Spot(spot)) = (finding.value, &finding.detail) else {
        method(&mut sheet, one, conduction);
        return sheet.done();
    };
    let size = |meters: f64| style.show(Length::from_m(meters));
    match spot.at {
        SpotAt::Cut(x, y) => {
            method(&mut sheet, one, conduction);
            sheet.note(format!(
                "The coldest place lies {} from the left and {} from the bottom of the cut; it is \
                 that of the finest grid, its bar the difference to the one before it",
                size(x),
                size(y),
            ));
        }
        SpotAt::Corner(at) => corner::place(&mut sheet, result, at),
        // Told in the report: no cut stands behind it.
        SpotAt::Boxes(_) => {}
    }
    margin(
        &mut sheet,
        one,
        result,
        (finding, value.as_celsius(), spot.bar),
    );
    sheet.note(sentence(finding, Sites(one.stops), style));
    sheet.done()
}

/// Temperature, factor and margin of a place on the winter mean.
fn margin(
    sheet: &mut Sheet,
    one: &JudgedDetail<'_>,
    result: &DetailResult,
    (finding, celsius, bar): (&Finding, f64, f64),
) {
    let month = match &finding.detail {
        Detail::Spot(spot) => spot.month.zip(spot.factor),
        _ => None,
    };
    match (month, one.stop().conditions.year.as_ref()) {
        (Some((month, factor)), Some(year)) => {
            let name = month_name(month);
            by_month(sheet, &year[month], name, (finding, factor, bar));
        }
        _ => on_winter_mean(sheet, one, result, (finding, celsius, bar)),
    }
}

/// Mold in the month that needs the most, by the temperature factor of the place.
fn by_month(
    sheet: &mut Sheet,
    state: &MonthState,
    month: &str,
    (finding, factor, bar): (&Finding, f64, f64),
) {
    let ends = super::path::ends(sheet, state.indoor, state.outdoor, month);
    let words = "temperature factor there, from the solver on the winter mean";
    let f = sheet.given(("f", words), Dimension::Ratio, factor);
    let (Some(value), Some(limit), Some(margin)) = (finding.value, finding.limit, finding.margin)
    else {
        return;
    };
    let formula = ends.outdoor.f() + f.f() * (ends.indoor.f() - ends.outdoor.f());
    let words = format!(
        "temperature there in {month}; error bar on the winter mean {} {}",
        sheet.style.error_bar_number(bar),
        Dimension::Difference.unit(sheet.style)
    );
    let named = ("θ", words.as_str());
    let t = sheet.computed(named, Dimension::Temperature, value.as_celsius(), &formula);
    let limit = mold::limit(sheet, state.indoor, ends.indoor, limit);
    difference(sheet, ("Δθ", "margin"), margin, (&t, &limit));
}

/// Against the dew point of the room air, or against mold where only a winter mean is given.
fn on_winter_mean(
    sheet: &mut Sheet,
    one: &JudgedDetail<'_>,
    result: &DetailResult,
    (finding, celsius, bar): (&Finding, f64, f64),
) {
    let room = one.stop().conditions.indoor;
    let ends = ends(sheet, one, result);
    let named = ("θ", "temperature there, winter mean");
    let t = sheet.solved(named, Dimension::Temperature, celsius, bar);
    if let Some(factor) = result.factor(celsius) {
        let span = ends.indoor.f() - ends.outdoor.f();
        let formula = (t.f() - ends.outdoor.f()) / span;
        let named = ("f", "temperature factor");
        sheet.computed(named, Dimension::Ratio, factor, &formula);
    }
    let (Some(limit), Some(margin)) = (finding.limit, finding.margin) else {
        return;
    };
    let limit = match finding.check.is_of_mold {
        true => mold::limit(sheet, room, ends.indoor, limit),
        false => {
            let indoor = air::vapor(sheet, "i", "room air", room, ends.indoor);
            let pressure = (&indoor.pressure, room.vapor_pressure());
            air::dew_point(sheet, "i", pressure, limit)
        }
    };
    difference(sheet, ("Δθ", "margin"), margin, (&t, &limit));
}

fn difference(
    sheet: &mut Sheet,
    named: (&str, &str),
    solved: TemperatureDifference,
    (a, b): (&Term, &Term),
) {
    let formula = a.f() - b.f();
    sheet.result(named, Dimension::Difference, solved.as_kelvin(), &formula);
}
