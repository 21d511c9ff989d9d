//! The simple estimates of a detail, in full, with their errors against the solver.

use super::super::sentence_detail::estimate_name;
use super::Derivation;
use super::formula::{Formula, Term, constant, sqrt, tanh};
use super::sheet::Sheet;
use crate::quantity::{Dimension, Style, Temperature};
use crate::solve::detail::{DetailResult, HandCheck, HandCheckBasis, HandCheckKind};
use crate::study::JudgedDetail;

const SOURCE: &str = "simple estimates of the same cut: parallel path, isothermal planes (ISO 6946, \
    from memory), the straight fin with an adiabatic tip (textbooks on heat transfer)";

/// Numbers that every estimate starts with.
struct Start {
    indoor: Term,
    outdoor: Term,
    wall: Term,
    width: Term,
    length: Term,
    film: Term,
}

/// `floor edge / hand-check by strip`.
pub(super) fn derive(
    one: &JudgedDetail<'_>,
    result: &DetailResult,
    estimate: &HandCheck,
    place: &str,
    style: Style,
) -> Derivation {
    let name = estimate_name(estimate.kind);
    let mut sheet = Sheet::new(
        style,
        place,
        format!("{}: hand-check, {name}", one.name()),
        "What does a simple estimate say, and how far off is it?",
        SOURCE,
    );
    let start = start(&mut sheet, &estimate.basis);
    let flow = match estimate.kind {
        HandCheckKind::ByStrip | HandCheckKind::ByArea => strip(&mut sheet, &start, estimate),
        HandCheckKind::IsothermalPlanes => isothermal(&mut sheet, &start, estimate),
        HandCheckKind::Fin => fin(&mut sheet, &start, estimate),
    };
    let solved = &result.conduction.heat_flow;
    let measure = Dimension::HeatFlowByLength;
    let named = ("Q_2D", "heat flow of the two-dimensional result");
    let two = sheet.solved(named, measure, solved.value, solved.bar);
    let found = one.hand_check_errors(estimate.kind);
    if let Some(error) = found.and_then(|found| found.heat_flow_error) {
        let formula = flow.f() / two.f() - constant("1", 1.0);
        let named = (
            "e_Q",
            "error of the heat flow; below zero is the unsafe side",
        );
        sheet.result(named, Dimension::Ratio, error, &formula);
    }
    if let Some(found) = found {
        errors(&mut sheet, found.floor_error, found.wood_error);
    }
    sheet.note("A hand-check: at the wall's edge only the two-dimensional detail decides");
    sheet.done()
}

fn start(sheet: &mut Sheet, basis: &HandCheckBasis) -> Start {
    let celsius = |air: Temperature| air.as_celsius();
    let t = Dimension::Temperature;
    Start {
        indoor: sheet.given(("θ_i", "room air"), t, celsius(basis.air.0)),
        outdoor: sheet.given(("θ_e", "outdoor air, winter mean"), t, celsius(basis.air.1)),
        wall: sheet.given(
            ("Q_w", "heat through the wall, U · l · (θ_i − θ_e)"),
            Dimension::HeatFlowByLength,
            basis.wall,
        ),
        width: sheet.given(
            ("w", "width of steel under the floor inside the wall"),
            Dimension::Run,
            basis.width,
        ),
        length: sheet.given(
            ("l", "inside length of the floor"),
            Dimension::Run,
            basis.length,
        ),
        film: sheet.given(
            ("R_si", "film at the floor's surface"),
            Dimension::Resistance,
            basis.film,
        ),
    }
}

impl Start {
    fn span(&self) -> Formula {
        self.indoor.f() - self.outdoor.f()
    }

    /// Heat through the wall and the floor beside the steel.
    fn beside(&self, cavity: &Term) -> Formula {
        self.wall.f() + self.span() * (self.length.f() - self.width.f()) / cavity.f()
    }

    /// The floor's surface where so much resists below the room's air.
    fn floor(&self, sheet: &mut Sheet, total: &Term, solved: Temperature) {
        let formula = self.indoor.f() - self.span() * self.film.f() / total.f();
        let named = ("θ_floor", "floor surface over the steel");
        sheet.computed(named, Dimension::Temperature, solved.as_celsius(), &formula);
    }
}

fn resistance(sheet: &mut Sheet, symbol: &str, words: &str, si: f64) -> Term {
    sheet.given((symbol, words), Dimension::Resistance, si)
}

fn heat_flow(sheet: &mut Sheet, solved: f64, formula: &Formula) -> Term {
    let named = ("Q", "heat flow by this estimate");
    sheet.computed(named, Dimension::HeatFlowByLength, solved, formula)
}

fn strip(sheet: &mut Sheet, start: &Start, estimate: &HandCheck) -> Term {
    let basis = &estimate.basis;
    let cavity = resistance(
        sheet,
        "R_f",
        "floor between the members, with films",
        basis.cavity,
    );
    let words = match estimate.kind {
        HandCheckKind::ByStrip => "layers over the steel, the steel, and the outer film",
        _ => "the steel in series with what lies below it, with films",
    };
    let steel = resistance(sheet, "R_s", words, basis.steel);
    let formula = start.beside(&cavity) + start.span() * start.width.f() / steel.f();
    start.floor(sheet, &steel, estimate.floor);
    heat_flow(sheet, estimate.heat_flow, &formula)
}

fn isothermal(sheet: &mut Sheet, start: &Start, estimate: &HandCheck) -> Term {
    let basis = &estimate.basis;
    let above = resistance(
        sheet,
        "R_above",
        "from the room's air to the underside of what floor and steel have in common",
        basis.above,
    );
    let metal = resistance(
        sheet,
        "R_metal",
        "from there outward at the steel",
        basis.below.0,
    );
    let beside = resistance(
        sheet,
        "R_beside",
        "from there outward beside it",
        basis.below.1,
    );
    let share = basis.width / basis.length;
    let formula = start.width.f() / start.length.f();
    let named = ("f", "share of the steel");
    let f = sheet.computed(named, Dimension::Ratio, share, &formula);
    let one = || constant("1", 1.0);
    let through = f.f() / metal.f() + (one() - f.f()) / beside.f();
    let below = 1.0 / (share / basis.below.0 + (1.0 - share) / basis.below.1);
    let named = ("R''", "total resistance by isothermal planes");
    let formula = above.f() + one() / through;
    let total = sheet.computed(named, Dimension::Resistance, basis.above + below, &formula);
    start.floor(sheet, &total, estimate.floor);
    let formula = start.wall.f() + start.span() * start.length.f() / total.f();
    heat_flow(sheet, estimate.heat_flow, &formula)
}

fn fin(sheet: &mut Sheet, start: &Start, estimate: &HandCheck) -> Term {
    let basis = &estimate.basis;
    let cavity = resistance(
        sheet,
        "R_f",
        "floor between the members, with films",
        basis.cavity,
    );
    let up = resistance(sheet, "R_up", "from the room's air to the steel", basis.up);
    let down = resistance(
        sheet,
        "R_down",
        "from the steel outward beside it",
        basis.below.1,
    );
    let measure = Dimension::LinearTransmittance;
    let k = sheet.given(("λ", "conductivity of the steel"), measure, basis.metal.0);
    let t = sheet.given(
        ("t", "thickness of the steel"),
        Dimension::Run,
        basis.metal.1,
    );
    let one = || constant("1", 1.0);
    let c = sheet.computed(
        ("U_c", "from the steel both ways"),
        Dimension::Transmittance,
        basis.fin.conductance,
        &(one() / up.f() + one() / down.f()),
    );
    let m = sheet.computed(
        ("m", "how steeply the steel warms inward"),
        Dimension::PerLength,
        basis.fin.parameter,
        &sqrt(c.f() / (k.f() * t.f())),
    );
    let far = sheet.computed(
        (
            "θ_far",
            "what the steel would come to without its cold edge",
        ),
        Dimension::Temperature,
        basis.fin.far,
        &((start.indoor.f() / up.f() + start.outdoor.f() / down.f()) / c.f()),
    );
    let along = (far.f() - start.outdoor.f()) * tanh(m.f() * start.width.f()) / m.f();
    let lost = (start.width.f() * (start.indoor.f() - far.f()) + along) / up.f();
    start.floor(sheet, &up, estimate.floor);
    heat_flow(sheet, estimate.heat_flow, &(start.beside(&cavity) + lost))
}

/// How far the floor and the wood of an estimate are off, told beside it.
fn errors(sheet: &mut Sheet, floor: f64, wood: Option<f64>) {
    let mut told = |words: &str, kelvin: f64| {
        let printed = Dimension::Difference.told(kelvin, sheet.style);
        sheet.told(words, printed.number, printed.unit);
    };
    told(
        "floor surface less that of the two-dimensional result",
        floor,
    );
    if let Some(wood) = wood {
        told(
            "wood at the steel less that of the two-dimensional result",
            wood,
        );
    }
}
