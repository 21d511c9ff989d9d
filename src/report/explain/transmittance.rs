//! The U-value of an assembly: parallel path, isothermal planes, combined method, or the bracket.

use super::Derivation;
use super::assembly::{Known, PathTerms, Section};
use super::formula::{Formula, Term, constant, sum};
use super::sheet::Sheet;
use crate::quantity::{Measure, Style, fixed};
use crate::solve::transmittance::{COMBINED_LIMIT, IsothermalPlanes, isothermal_planes};
use crate::solve::{PathKind, PathResult};

const SOURCE: &str = "ISO 6946, upper and lower limit of the total thermal resistance, combined \
    method and its error (from memory)";

/// A path with what its formulas call it.
struct Lettered<'a> {
    result: &'a PathResult,
    share: Term,
    terms: PathTerms,
    is_strip: bool,
}

/// `floor / U`.
pub(super) fn derive(section: Section<'_>, place: &str, style: Style) -> Derivation {
    let mut sheet = Sheet::new(
        style,
        place,
        format!("{}: thermal transmittance U", section.name()),
        "How much heat passes a unit of area for each degree, framing and steel included?",
        SOURCE,
    );
    let mut known: Known = Vec::new();
    let paths: Vec<Lettered<'_>> = section
        .end
        .paths
        .iter()
        .zip(letters())
        .map(|(path, letter)| lettered(&mut sheet, section, path, &letter, &mut known))
        .collect();
    let one = || constant("1", 1.0);
    let u = &section.end.transmittance;
    let through = paths
        .iter()
        .map(|path| path.share.f() / path.terms.total.f());
    let parallel = sheet.computed(
        ("U'", "by the parallel path: shares over resistances"),
        Measure::Transmittance,
        u.parallel_path,
        &sum(through),
    );
    let upper = sheet.computed(
        ("R'", "upper limit of the resistance"),
        Measure::Resistance,
        1.0 / u.parallel_path,
        &(one() / parallel.f()),
    );
    let lower = isothermal(&mut sheet, section, &paths);
    sheet.result(
        ("U''", "by isothermal planes"),
        Measure::Transmittance,
        u.isothermal_planes,
        &(one() / lower.f()),
    );
    let ratio = upper.f() / lower.f();
    let words = format!("ratio of the limits; the combined method holds up to {COMBINED_LIMIT}");
    sheet.result(("R'/R''", &words), Measure::Ratio, u.ratio, &ratio);
    combined(&mut sheet, section, &upper, &lower);
    sheet.done()
}

/// a, b, c … for the paths; beyond 26 they are numbered.
fn letters() -> impl Iterator<Item = String> {
    (0_u32..).map(
        |n| match char::from_u32('a' as u32 + n).filter(char::is_ascii_lowercase) {
            Some(letter) => letter.to_string(),
            None => format!("p{n}"),
        },
    )
}

fn lettered<'a>(
    sheet: &mut Sheet,
    section: Section<'_>,
    path: &'a PathResult,
    letter: &str,
    known: &mut Known,
) -> Lettered<'a> {
    let symbol = format!("f_{letter}");
    let words = format!("{}: share of the area", path.path.name);
    let share = path.path.share.as_fraction();
    let share = sheet.given((&symbol, &words), Measure::Ratio, share);
    let terms = section.resistances(sheet, path, letter, known);
    Lettered {
        result: path,
        share,
        terms,
        is_strip: matches!(path.path.kind, PathKind::Strip(_)),
    }
}

/// R'' with the steps of every layer whose paths differ.
fn isothermal(sheet: &mut Sheet, section: Section<'_>, paths: &[Lettered<'_>]) -> Term {
    let assembly = &section.one.case.assembly;
    let boundary = &section.end.boundary;
    let solved: Vec<_> = section
        .end
        .paths
        .iter()
        .map(|path| (&path.path, &path.winter))
        .collect();
    let planes = isothermal_planes(assembly, &solved, boundary);
    let off: Vec<&Lettered<'_>> = paths.iter().filter(|path| !path.is_strip).collect();
    let on: Vec<&Lettered<'_>> = paths.iter().filter(|path| path.is_strip).collect();
    let layers: Vec<Option<Term>> = (0..planes.layers.len())
        .map(|n| side_by_side(sheet, &off, n, planes.layers[n], !on.is_empty()))
        .collect();
    let Some(first) = off.first() else {
        return sheet.given(
            ("R''", "lower limit of the resistance"),
            Measure::Resistance,
            planes.total,
        );
    };
    let of = |range: std::ops::Range<usize>| -> Vec<Formula> {
        layers[range].iter().flatten().map(Term::f).collect()
    };
    let interior = first.terms.interior.f();
    let exterior = first.terms.exterior.f();
    let named = ("R''", "lower limit of the resistance");
    if on.is_empty() {
        let all = std::iter::once(interior)
            .chain(of(0..layers.len()))
            .chain([exterior]);
        return sheet.computed(named, Measure::Resistance, planes.total, &sum(all));
    }
    let above = sum(std::iter::once(interior).chain(of(0..planes.common)));
    let below = sum(of(planes.common..layers.len())
        .into_iter()
        .chain([exterior]));
    let formula = around_the_metal(sheet, &planes, (above, below), (&off, &on));
    sheet.computed(named, Measure::Resistance, planes.total, &formula)
}

/// R'' where metal stands beside what it replaces.
fn around_the_metal(
    sheet: &mut Sheet,
    planes: &IsothermalPlanes,
    (above, below): (Formula, Formula),
    (off, on): (&[&Lettered<'_>], &[&Lettered<'_>]),
) -> Formula {
    let layers = |range: std::ops::Range<usize>| -> f64 { planes.layers[range].iter().sum() };
    let si = planes.interior_film + layers(0..planes.common);
    let named = ("R_above", "what lies above the metal, with the inner film");
    let above = sheet.computed(named, Measure::Resistance, si, &above);
    let si = layers(planes.common..planes.layers.len()) + planes.exterior_film;
    let named = ("R_beside", "beside the metal, from there to outdoors");
    let beside = sheet.computed(named, Measure::Resistance, si, &below);
    let mut through: Vec<Formula> = Vec::new();
    for (strip, (_, resistance)) in on.iter().zip(&planes.through_strips) {
        let rest = strip.terms.layers[planes.common..].iter().flatten();
        let parts = rest.map(Term::f).chain([strip.terms.exterior.f()]);
        let letter = strip.share.symbol.trim_start_matches("f_");
        let symbol = format!("R_metal,{letter}");
        let words = format!("{}: from there to outdoors", strip.result.path.name);
        let named = (symbol.as_str(), words.as_str());
        let metal = sheet.computed(named, Measure::Resistance, *resistance, &sum(parts));
        through.push(strip.share.f() / metal.f());
    }
    let shares = sum(off.iter().map(|path| path.share.f()));
    through.push(shares / beside.f());
    above.f() + constant("1", 1.0) / sum(through)
}

/// One layer with cavity and members side by side.
fn side_by_side(
    sheet: &mut Sheet,
    off: &[&Lettered<'_>],
    n: usize,
    si: f64,
    beside_metal: bool,
) -> Option<Term> {
    let first = off.first()?.terms.layers[n].clone();
    let differs = off.iter().any(|path| path.terms.layers[n] != first);
    if !differs {
        return first;
    }
    // A path that resists nothing there lets the heat past the others.
    if si == 0.0 {
        return None;
    }
    let through = off
        .iter()
        .filter_map(|path| Some(path.share.f() / path.terms.layers[n].as_ref()?.f()));
    let whole = match beside_metal {
        true => sum(off.iter().map(|path| path.share.f())),
        false => constant("1", 1.0),
    };
    let formula = whole / sum(through);
    let symbol = format!("R{}''", n + 1);
    let words = format!("layer {}, cavity and members side by side", n + 1);
    Some(sheet.computed((&symbol, &words), Measure::Resistance, si, &formula))
}

fn combined(sheet: &mut Sheet, section: Section<'_>, upper: &Term, lower: &Term) {
    let u = &section.end.transmittance;
    let Some(combined) = u.combined else {
        sheet.note(match u.strips_in_series {
            Some(_) => format!(
                "The combined method isn't applicable: metal runs through. U' and U'' are a \
                 bracket (R'/R'' {}); the two-dimensional detail decides",
                fixed(u.ratio, 2)
            ),
            None => format!(
                "The combined method isn't applicable: R'/R'' {} is over {COMBINED_LIMIT}",
                fixed(u.ratio, 2)
            ),
        });
        return;
    };
    let mean = (upper.f() + lower.f()) / constant("2", 2.0);
    let named = ("R", "total resistance by the combined method");
    let total = sheet.computed(named, Measure::Resistance, 1.0 / combined, &mean);
    let named = ("U", "thermal transmittance by the combined method");
    let formula = constant("1", 1.0) / total.f();
    sheet.result(named, Measure::Transmittance, combined, &formula);
    let formula = (upper.f() - lower.f()) / (constant("2", 2.0) * total.f());
    let named = ("e", "greatest relative error of the combined method");
    sheet.result(named, Measure::Ratio, u.combined_error, &formula);
}
