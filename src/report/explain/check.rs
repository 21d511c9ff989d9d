//! A check: what it found, against which limit, and where the numbers come from.

use super::super::range::{corners, decides};
use super::super::sentence::{Sites, sentence};
use super::Derivation;
use super::formula::Term;
use super::sheet::Sheet;
use super::{air, mold};
use crate::check::{self, Detail, Finding};
use crate::quantity::{Dimension, Pressure, Style, Temperature, month_name};
use crate::solve::PathResult;
use crate::solve::wetting::{Drying, WETTING};
use crate::study::Judged;

/// `floor / can it dry`.
pub(super) fn derive(one: &Judged<'_>, finding: &Finding, place: &str, style: Style) -> Derivation {
    let title = format!("{place}: {}", finding.status.word());
    let mut sheet = Sheet::new(
        style,
        place,
        title,
        "What did this check find, and against which limit?",
        finding.source,
    );
    against_limit(&mut sheet, one, finding);
    let path = one.plane_of(finding);
    match (&finding.detail, path) {
        (Detail::Drying(_), Some((path, plane))) => drying(&mut sheet, path, plane),
        (Detail::Year(_), Some((path, plane))) => year(&mut sheet, path, plane),
        (Detail::Closest { humidity, month }, Some((path, plane))) => {
            closest(&mut sheet, path, plane, (*humidity, *month));
        }
        (Detail::Mold(mold), _) => {
            let month = month_name(mold.month);
            let mut factor = |words: &str, value: f64| {
                let printed = Dimension::Ratio.with_decimals(value, 3, style);
                sheet.told(&format!("{month}, {words}"), printed.number, "");
            };
            factor("temperature factor needed", mold.required);
            factor("temperature factor of the surface", mold.factor);
        }
        _ => {}
    }
    let words = sentence(finding, Sites(one.stops), style);
    for note in [words, corners(finding), decides(finding, style)] {
        if !note.is_empty() {
            sheet.note(note);
        }
    }
    if finding.range.is_some() {
        sheet.note(
            "Corners: every material property at the end of its range that is adverse to this \
             check, then at the kind one; a value at which the status flips is found by halving to \
             a hundredth of its span",
        );
    }
    sheet.done()
}

/// Value, limit and margin as temperatures, where the check is about one.
fn against_limit(sheet: &mut Sheet, one: &Judged<'_>, finding: &Finding) {
    let (Some(value), Some(limit), Some(margin)) = (finding.value, finding.limit, finding.margin)
    else {
        return;
    };
    let place = finding.place.as_ref();
    let words = place.map_or_else(String::new, |place| {
        format!("temperature, {} ({})", place.plane, place.path)
    });
    let t = sheet.given(("θ", &words), Dimension::Temperature, value.as_celsius());
    let by_month = matches!(finding.detail, Detail::Mold(_) | Detail::Month(_));
    let l = limit_of(sheet, one, finding, limit);
    let formula = t.f() - l.f();
    let named = ("Δθ", "margin");
    sheet.result(named, Dimension::Difference, margin.as_kelvin(), &formula);
    if let Some(place) = place.filter(|_| !by_month) {
        sheet.note(format!(
            "How that temperature comes about: `{} / {} / {}`",
            one.case.name(),
            place.path,
            place.plane
        ));
    }
}

/// The limit: derived where it is the mold limit of a month, else given.
fn limit_of(sheet: &mut Sheet, one: &Judged<'_>, finding: &Finding, limit: Temperature) -> Term {
    let month = match &finding.detail {
        Detail::Mold(mold) => Some(mold.month),
        Detail::Month(month) => Some(*month),
        _ => None,
    };
    let conditions = &one.stop().conditions;
    if finding.check == &check::room_surface::MOLD {
        let room = match (month, &conditions.year) {
            (Some(month), Some(year)) => year[month].indoor,
            _ => conditions.indoor,
        };
        let indoor = air::temperature(sheet, "i", "room air", room);
        return mold::limit(sheet, room, indoor, limit);
    }
    let words = match month {
        Some(month) => format!("limit in {}", month_name(month)),
        None => "dew point it is held against".to_owned(),
    };
    sheet.given(
        ("θ_min", &words),
        Dimension::Temperature,
        limit.as_celsius(),
    )
}

fn water(sheet: &mut Sheet, words: &str, si: f64) {
    let printed = Dimension::Water.told(si, sheet.style);
    sheet.told(words, printed.number, printed.unit);
}

/// What a balance misses: rounding, so only its size is told.
pub(super) fn misses(sheet: &mut Sheet, words: &str, si: f64) {
    let value = Dimension::Water.value(si.abs(), sheet.style);
    sheet.told(
        words,
        format!("{value:.0e}"),
        Dimension::Water.unit(sheet.style),
    );
}

/// Nothing condenses: the most humid plane and month, with the solver's vapor pressure.
fn closest(sheet: &mut Sheet, path: &PathResult, plane: usize, (humidity, month): (f64, usize)) {
    let Some(year) = &path.year else { return };
    let state = &year.months[month];
    let Some(pressure) = state.pressures[plane] else {
        return;
    };
    let place = format!("{}, {}", path.plane_names[plane], month_name(month));
    let celsius = Temperature::from_celsius(state.temperatures[plane]);
    let words = format!("temperature, {place}");
    let t = sheet.given(("θ", &words), Dimension::Temperature, celsius.as_celsius());
    let saturation = Pressure::from_pa(state.saturation(plane, 0.0));
    let saturation = air::saturation(sheet, "m", &t, celsius, saturation);
    let words = "vapor pressure there by the yearly balance, the month's mean";
    let p = sheet.given(("p", words), Dimension::Pascal, pressure);
    let named = ("φ", "relative humidity there as a fraction");
    sheet.result(named, Dimension::Ratio, humidity, &(p.f() / saturation.f()));
    sheet.told(
        "yearly cycles run until steady",
        year.cycles.to_string(),
        "",
    );
    sheet.note(format!(
        "Hand-check beside it, on the winter mean and without humidity-dependent permeances: \
         `{} / wetting`",
        path.path.name
    ));
}

/// Inputs, result and balance of a drying.
fn drying(sheet: &mut Sheet, path: &PathResult, plane: usize) {
    let of_plane = |drying: &&Drying| drying.plane == plane;
    let Some(drying) = path.drying.iter().find(of_plane) else {
        return;
    };
    let start = month_name(drying.start);
    let words = format!("put at {} on the first of {start}", path.plane_names[plane]);
    water(sheet, &words, WETTING);
    let out = &drying.out;
    if let Some(days) = out.gone_after_days {
        let days = Dimension::Ratio.with_decimals(days, 1, sheet.style);
        let words = "until it is gone from every plane that touches wood or wool";
        sheet.told(words, days.number, "days");
    }
    water(sheet, "went to the room by then, net", out.to_room);
    water(sheet, "went to outdoors, net", out.to_outdoors);
    let held: f64 = out.moved.iter().chain(&out.inside).sum();
    water(sheet, "held at other planes and inside layers", held);
    let missing = WETTING - out.to_room - out.to_outdoors - held;
    misses(sheet, "what the balance misses", missing);
    sheet.note(
        "Months of steady air one after the other, wet planes at saturation until empty, layers \
         that touch the wet plane at their damp permeance; the month is split where a plane dries \
         out, so there is no time step",
    );
}

/// The yearly cycle of a path and the water at one of its planes.
fn year(sheet: &mut Sheet, path: &PathResult, plane: usize) {
    let Some(year) = &path.year else { return };
    let at = &year.planes[plane];
    for month in (0..12).filter(|month| at.change[*month].abs() > 1e-7) {
        let words = format!("{}, gained (+) or lost (−)", month_name(month));
        water(sheet, &words, at.change[month]);
    }
    water(sheet, "the most held", at.peak);
    let flows: f64 = year.months.iter().map(|m| m.vapor_in - m.vapor_out).sum();
    let places = year.planes.iter().chain(&year.inside);
    let kept: f64 = places.map(|place| place.left_over).sum();
    let words = "through the year, vapor in less out less what is kept: what the balance misses";
    misses(sheet, words, flows - kept);
    sheet.told(
        "yearly cycles run until steady",
        year.cycles.to_string(),
        "",
    );
    sheet.note(
        "ISO 13788's yearly balance: months of steady air, vapor pressure by the lower convex hull \
         below saturation, wet planes at saturation until empty, repeated until a year adds to \
         every plane what the one before it added",
    );
}
