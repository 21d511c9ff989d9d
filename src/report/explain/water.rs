//! Water: what diffuses and condenses on the winter mean, and what a leak carries beside it.

use super::Derivation;
use super::air::{self, Air, SATURATION};
use super::assembly::Section;
use super::formula::{Formula, Term, constant, sqrt, sum};
use super::plane::{VaporTerms, barrier, resistances};
use super::sheet::Sheet;
use crate::check::air_leak::{
    AIR_DENSITY, DISCHARGE, HOLE_SHARE, LEAK_PRESSURE, VAPOR_CONSTANT, leak_flow, leak_ratio,
};
use crate::quantity::{Dimension, Style, UnitSystem, month_name};
use crate::solve::PathResult;

const DIFFUSION: &str = "Fick's law and the condensing flow as in ISO 13788";

/// `floor / cavity / wetting`: flows in and out on the winter mean, and the leak beside them.
pub(super) fn derive(
    section: Section<'_>,
    path: &PathResult,
    place: &str,
    style: Style,
) -> Derivation {
    let mut sheet = Sheet::new(
        style,
        place,
        format!("{place}: vapor flows on the winter mean"),
        "How much vapor diffuses in, how much stays as water, and how much more would a leak carry?",
        &format!("{DIFFUSION}; {SATURATION}"),
    );
    if barrier(path).is_some() {
        sheet.note("A perfect barrier lies in this path: no vapor diffuses through it");
    }
    let boundary = &section.end.boundary;
    let room = air::state(&mut sheet, "i", "room air", boundary.indoor);
    let outside = air::state(
        &mut sheet,
        "e",
        "outdoor air, winter mean",
        boundary.outdoor,
    );
    let vapor = match barrier(path) {
        Some(_) => None,
        None => resistances(&mut sheet, section, path),
    };
    let profile = &path.winter;
    let wet: Vec<usize> = (0..profile.planes.len())
        .filter(|n| profile.planes[*n].condensing_flow > 0.0)
        .collect();
    let inside = profile.condensing_inside.iter().any(|flow| *flow > 0.0);
    let inflow = match (&vapor, wet.as_slice(), inside) {
        (Some(vapor), [], false) => Some(through(&mut sheet, path, vapor, (&room, &outside))),
        (Some(vapor), [plane], false) => Some(condensing(
            &mut sheet,
            path,
            *plane,
            vapor,
            (&room, &outside),
        )),
        _ => {
            by_solver(&mut sheet, path);
            None
        }
    };
    if let Some(inflow) = inflow {
        leak(&mut sheet, section, path, (&room, &outside), &inflow);
    }
    worst_month(&mut sheet, path);
    sheet.done()
}

/// A flow of vapor over a resistance: Δp/Z, or δ0 Δp/s_d.
fn over(sheet: &mut Sheet, difference: Formula, resistance: Formula) -> Formula {
    match sheet.style.units {
        UnitSystem::Metric => {
            // 2·10⁻¹⁰ kg/(m·s·Pa) by the hour.
            let still = constant("0.00072 g/m·h·Pa", 0.000_72);
            still * difference / resistance
        }
        UnitSystem::Imperial => {
            let mercury = constant("3386.389 Pa/inHg", 3_386.389);
            difference / mercury / resistance
        }
    }
}

/// Nothing condenses: one flow all the way.
fn through(
    sheet: &mut Sheet,
    path: &PathResult,
    vapor: &VaporTerms,
    (room, outside): (&Air, &Air),
) -> Term {
    let span = room.pressure.f() - outside.pressure.f();
    let formula = over(sheet, span, vapor.total.f());
    let named = ("g", "vapor that diffuses from the room; nothing condenses");
    sheet.result(named, Dimension::VaporFlow, path.winter.vapor_in, &formula)
}

/// One plane holds water at saturation: what flows to it less what flows on.
fn condensing(
    sheet: &mut Sheet,
    path: &PathResult,
    plane: usize,
    vapor: &VaporTerms,
    (room, outside): (&Air, &Air),
) -> Term {
    let state = &path.winter.planes[plane];
    let words = format!("temperature, {}", path.plane_names[plane]);
    let at = plane.to_string();
    let si = state.temperature.as_celsius();
    let theta = sheet.given((&format!("θ_{at}"), &words), Dimension::Temperature, si);
    let saturation = air::saturation(sheet, &at, &theta, state.temperature, state.saturation);
    let measure = Dimension::VaporFlow;
    let span = room.pressure.f() - saturation.f();
    let formula = over(sheet, span, sum(vapor.before(plane)));
    let named = (
        "g_in",
        "vapor that flows to that plane, which is at saturation",
    );
    let inflow = sheet.computed(named, measure, path.winter.vapor_in, &formula);
    let span = saturation.f() - outside.pressure.f();
    let formula = over(sheet, span, sum(vapor.after(plane)));
    let named = ("g_out", "vapor that flows on from there");
    let outflow = sheet.computed(named, measure, path.winter.vapor_out, &formula);
    let formula = inflow.f() - outflow.f();
    let named = ("g_c", "stays there as water");
    sheet.result(named, measure, state.condensing_flow, &formula);
    inflow
}

/// Several planes, or the inside of a layer: the string pulled tight below saturation.
fn by_solver(sheet: &mut Sheet, path: &PathResult) {
    let profile = &path.winter;
    let flow = |si: f64, sheet: &Sheet| Dimension::VaporFlow.told(si, sheet.style);
    let condensing = profile.condensing_total();
    for (words, si) in [
        ("vapor in from the room", profile.vapor_in),
        ("vapor out to outdoors", profile.vapor_out),
        ("stays as water, all planes together", condensing),
    ] {
        let printed = flow(si, sheet);
        sheet.told(words, printed.number, printed.unit);
    }
    sheet.note(
        "By the lower convex hull of the vapor pressure below saturation over vapor resistance, \
         layers split so that none exceeds 0.25 m²K/W; in less out is what stays",
    );
}

/// Water that leaking air carries over what diffuses.
fn leak(
    sheet: &mut Sheet,
    section: Section<'_>,
    path: &PathResult,
    (room, outside): (&Air, &Air),
    diffused: &Term,
) {
    let Some(ratio) = leak_ratio(section.end, path) else {
        return;
    };
    let named = (
        "a",
        "a hole of 1 in² in 32 ft², as a share (common practice)",
    );
    let hole = sheet.given(named, Dimension::Ratio, HOLE_SHARE);
    let named = (
        "v",
        "air through it for each area, discharge coefficient, 4 Pa (orifice equation)",
    );
    let coefficient = constant("0.6", DISCHARGE);
    let speed = sqrt(
        constant("2", 2.0) * constant("4 Pa", LEAK_PRESSURE) / constant("1.2 kg/m³", AIR_DENSITY),
    );
    let formula = constant("3600 s/h", 3_600.0) * coefficient * hole.f() * speed;
    let air = sheet.computed(named, Dimension::Leakage, leak_flow(), &formula);
    let kelvin = section.end.boundary.indoor.temperature.as_celsius() + 273.15;
    let named = ("T_i", "room temperature, absolute");
    let t = sheet.given(named, Dimension::Kelvin, kelvin);
    let span = room.pressure.f() - outside.pressure.f();
    let gas = constant("461.5 J/kg·K", VAPOR_CONSTANT);
    let by_hour = match sheet.style.units {
        UnitSystem::Metric => constant("1000 g/kg", 1_000.0),
        // A square meter in square feet over a grain in kilograms.
        UnitSystem::Imperial => constant("1433.713 grain·m²/kg·ft²", 1_433.713),
    };
    let formula = by_hour * air.f() * span / (gas * t.f());
    let named = ("g_leak", "water that air carries");
    let solved = ratio * path.winter.vapor_in;
    let leaked = sheet.computed(named, Dimension::VaporFlow, solved, &formula);
    let named = (
        "g_leak/g",
        "leak over diffusion; one or two digits of it can be trusted",
    );
    sheet.result(named, Dimension::Ratio, ratio, &(leaked.f() / diffused.f()));
}

/// The month of the year's balance that wets the most, with its flows: the solver's numbers.
fn worst_month(sheet: &mut Sheet, path: &PathResult) {
    let Some(year) = &path.year else { return };
    let gained = |month: usize| -> f64 {
        let places = year.planes.iter().chain(&year.inside);
        places.map(|water| water.change[month]).sum()
    };
    let worst = (0..12).max_by(|a, b| gained(*a).total_cmp(&gained(*b)));
    let Some(month) = worst.filter(|month| gained(*month) > 1e-9) else {
        sheet.note("Through the year nothing condenses in this path");
        return;
    };
    let name = month_name(month);
    let state = &year.months[month];
    let mut told = |words: &str, si: f64| {
        let printed = Dimension::Water.told(si, sheet.style);
        sheet.told(&format!("{name}, {words}"), printed.number, printed.unit);
    };
    told(
        "the worst month of the yearly balance: vapor in",
        state.vapor_in,
    );
    told("vapor out", state.vapor_out);
    told("held at the month's end over its beginning", gained(month));
    let residual = state.vapor_in - state.vapor_out - gained(month);
    told(
        "in less out less what is held: what the balance misses",
        residual,
    );
    sheet.note(
        "The yearly balance follows the permeances with humidity and splits months where a plane \
         dries out, so its flows aren't those of the winter mean",
    );
}
