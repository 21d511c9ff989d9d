//! The U-value of an assembly: parallel path, isothermal planes, combined method, or the bracket.

use super::Derivation;
use super::assembly::{Known, PathTerms, Section};
use super::formula::{Formula, Term, constant, sum};
use super::sheet::Sheet;
use crate::quantity::{Dimension, Length, Share, Style, fixed};
use crate::solve::transmittance::{COMBINED_LIMIT, IsothermalPlanes, Slice, isothermal_planes};
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
    let shares = shares(&mut sheet, section);
    let paths: Vec<Lettered<'_>> = section
        .end
        .paths
        .iter()
        .zip(letters().zip(shares))
        .map(|(path, (letter, share))| {
            lettered(&mut sheet, section, path, (&letter, share), &mut known)
        })
        .collect();
    let one = || constant("1", 1.0);
    let u = &section.end.transmittance;
    let through = paths
        .iter()
        .map(|path| path.share.f() / path.terms.total.f());
    let parallel = sheet.computed(
        ("U'", "by the parallel path: shares over resistances"),
        Dimension::Transmittance,
        u.parallel_path,
        &sum(through),
    );
    let upper = sheet.computed(
        ("R'", "upper limit of the resistance"),
        Dimension::Resistance,
        1.0 / u.parallel_path,
        &(one() / parallel.f()),
    );
    let lower = isothermal(&mut sheet, section, &paths);
    sheet.result(
        ("U''", "by isothermal planes"),
        Dimension::Transmittance,
        u.isothermal_planes,
        &(one() / lower.f()),
    );
    let ratio = upper.f() / lower.f();
    let words = format!("ratio of the limits; the combined method holds up to {COMBINED_LIMIT}");
    sheet.result(("R'/R''", &words), Dimension::Ratio, u.ratio, &ratio);
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

/// The paths' shares of the area: given, or from the members' width and spacing where one row of
/// members is all there is.
fn shares(sheet: &mut Sheet, section: Section<'_>) -> Vec<Term> {
    let row = row_of_members(section).map(|row| members_share(sheet, row));
    let paths = &section.end.paths;
    let derived = |path: &PathResult| match path.path.kind {
        PathKind::Strip(_) => None,
        PathKind::Framing => row.as_ref().map(Term::f),
        PathKind::Cavity => row.as_ref().map(|row| constant("1", 1.0) - row.f()),
    };
    let named = |path: &PathResult, letter: &str| {
        let words = format!("{}: share of the area", path.path.name);
        (format!("f_{letter}"), words, path.path.share.as_fraction())
    };
    // What is given comes first: the members stand in what the strips leave.
    let given: Vec<Option<Term>> = paths
        .iter()
        .zip(letters())
        .map(|(path, letter)| {
            let (symbol, words, share) = named(path, &letter);
            let given = derived(path).is_none();
            given.then(|| sheet.given((&symbol, &words), Dimension::Ratio, share))
        })
        .collect();
    let strips: Vec<Formula> = given.iter().flatten().map(Term::f).collect();
    let mut share = |((path, letter), given): ((&PathResult, String), Option<Term>)| {
        let (symbol, words, share) = named(path, &letter);
        let Some(part) = derived(path).filter(|_| given.is_none()) else {
            return given;
        };
        let formula = match strips.is_empty() {
            true => part,
            false => part * (constant("1", 1.0) - sum(strips.clone())),
        };
        Some(sheet.computed((&symbol, &words), Dimension::Ratio, share, &formula))
    };
    let all = paths.iter().zip(letters()).zip(given);
    all.filter_map(&mut share).collect()
}

/// The one row of members of an assembly with their width and spacing; `None` where there are
/// several, or only a share is stated.
fn row_of_members(section: Section<'_>) -> Option<(Share, (Length, Length))> {
    let paths = &section.end.paths;
    let count = |kind: PathKind| paths.iter().filter(|path| path.path.kind == kind).count();
    let one_row = count(PathKind::Cavity) == 1 && count(PathKind::Framing) == 1;
    let mut layers = section.one.case.assembly.layers.iter();
    let framing = layers.find_map(|layer| layer.framing.as_ref())?;
    framing
        .members
        .filter(|_| one_row)
        .map(|members| (framing.share, members))
}

fn members_share(sheet: &mut Sheet, (share, (width, spacing)): (Share, (Length, Length))) -> Term {
    let w = sheet.given(("w", "width of a member"), Dimension::Length, width.as_m());
    let named = ("s", "spacing of the members, center to center");
    let s = sheet.given(named, Dimension::Length, spacing.as_m());
    let named = ("f_m", "share of the members in their layer");
    let formula = w.f() / s.f();
    sheet.computed(named, Dimension::Ratio, share.as_fraction(), &formula)
}

fn lettered<'a>(
    sheet: &mut Sheet,
    section: Section<'_>,
    path: &'a PathResult,
    (letter, share): (&str, Term),
    known: &mut Known,
) -> Lettered<'a> {
    Lettered {
        result: path,
        share,
        terms: section.resistances(sheet, path, letter, known),
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
        .map(|path| (path.path.as_ref(), path.in_one_dimension()))
        .collect();
    let planes = isothermal_planes(assembly, &solved, boundary);
    let off: Vec<&Lettered<'_>> = paths.iter().filter(|path| !path.is_strip).collect();
    let on: Vec<&Lettered<'_>> = paths.iter().filter(|path| path.is_strip).collect();
    let layers: Vec<Option<Term>> = named_slices(&planes.slices)
        .map(|(name, slice)| side_by_side(sheet, &off, (&name, slice), !on.is_empty()))
        .collect();
    let Some(first) = off.first() else {
        return sheet.given(
            ("R''", "lower limit of the resistance"),
            Dimension::Resistance,
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
        return sheet.computed(named, Dimension::Resistance, planes.total, &sum(all));
    }
    let above = sum(std::iter::once(interior).chain(of(0..planes.common)));
    let below = sum(of(planes.common..layers.len())
        .into_iter()
        .chain([exterior]));
    let formula = around_the_metal(sheet, &planes, (above, below), (&off, &on));
    sheet.computed(named, Dimension::Resistance, planes.total, &formula)
}

/// R'' where metal stands beside what it replaces.
fn around_the_metal(
    sheet: &mut Sheet,
    planes: &IsothermalPlanes,
    (above, below): (Formula, Formula),
    (off, on): (&[&Lettered<'_>], &[&Lettered<'_>]),
) -> Formula {
    let layers = |range: std::ops::Range<usize>| -> f64 {
        let slices = planes.slices[range].iter();
        slices.map(|slice| slice.resistance).sum()
    };
    let si = planes.interior_film + layers(0..planes.common);
    let named = ("R_above", "what lies above the metal, with the inner film");
    let above = sheet.computed(named, Dimension::Resistance, si, &above);
    let si = layers(planes.common..planes.slices.len()) + planes.exterior_film;
    let named = ("R_beside", "beside the metal, from there to outdoors");
    let beside = sheet.computed(named, Dimension::Resistance, si, &below);
    let mut through: Vec<Formula> = Vec::new();
    for (strip, (_, resistance)) in on.iter().zip(&planes.through_strips) {
        let rest = strip.terms.layers[planes.common..].iter().flatten();
        let parts = rest.map(Term::f).chain([strip.terms.exterior.f()]);
        let letter = strip.share.symbol.trim_start_matches("f_");
        let symbol = format!("R_metal,{letter}");
        let words = format!("{}: from there to outdoors", strip.result.path.name);
        let named = (symbol.as_str(), words.as_str());
        let metal = sheet.computed(named, Dimension::Resistance, *resistance, &sum(parts));
        through.push(strip.share.f() / metal.f());
    }
    let shares = sum(off.iter().map(|path| path.share.f()));
    through.push(shares / beside.f());
    above.f() + constant("1", 1.0) / sum(through)
}

/// Slices with their numbers: `3`, or `3,1` and `3,2` where a layer is cut.
fn named_slices(slices: &[Slice]) -> impl Iterator<Item = (String, &Slice)> {
    slices.iter().enumerate().map(|(n, slice)| {
        let same = |other: &&Slice| other.layer == slice.layer;
        let number = slice.layer + 1;
        let name = match slices.iter().filter(same).count() {
            1 => number.to_string(),
            _ => format!("{number},{}", slices[..=n].iter().filter(same).count()),
        };
        (name, slice)
    })
}

/// One layer, or a part of it, with cavity and members side by side.
fn side_by_side(
    sheet: &mut Sheet,
    off: &[&Lettered<'_>],
    (name, slice): (&str, &Slice),
    beside_metal: bool,
) -> Option<Term> {
    let mut cut: Vec<Term> = Vec::new();
    let terms: Vec<Option<Term>> = off
        .iter()
        .zip(&slice.parts)
        .map(|(path, part)| in_slice(sheet, path, *part, name, &mut cut))
        .collect();
    let first = terms.first()?.clone();
    if terms.iter().all(|term| *term == first) {
        return first;
    }
    // A path that resists nothing there lets the heat past the others.
    if slice.resistance == 0.0 {
        return None;
    }
    let through = off
        .iter()
        .zip(&terms)
        .filter_map(|(path, term)| Some(path.share.f() / term.as_ref()?.f()));
    let whole = match beside_metal {
        true => sum(off.iter().map(|path| path.share.f())),
        false => constant("1", 1.0),
    };
    let formula = whole / sum(through);
    let symbol = format!("R{name}''");
    let words = format!("layer {name}, cavity and members side by side");
    let named = (symbol.as_str(), words.as_str());
    Some(sheet.computed(named, Dimension::Resistance, slice.resistance, &formula))
}

/// What a path resists in a slice: its piece, or the part of it by thickness.
fn in_slice(
    sheet: &mut Sheet,
    path: &Lettered<'_>,
    (piece, part): (usize, f64),
    name: &str,
    cut: &mut Vec<Term>,
) -> Option<Term> {
    let whole = path.terms.layers[piece].clone()?;
    if part == 1.0 {
        return Some(whole);
    }
    let symbol = match name.split_once(',') {
        Some((_, nth)) => format!("{},{nth}", whole.symbol),
        None => whole.symbol.clone(),
    };
    if let Some(known) = cut.iter().find(|term| term.symbol == symbol) {
        return Some(known.clone());
    }
    let depth = path.result.path.pieces[piece].thickness.as_m();
    let thickness = |symbol: &str| symbol.replacen('R', "t", 1);
    let t = sheet.term(&thickness(&whole.symbol), Dimension::Length, depth);
    let named = thickness(&symbol);
    let of = sheet.term(&named, Dimension::Length, part * depth);
    let words = match name.ends_with(",1") {
        true => "beside the members, as deep as they are",
        false => "the rest, below where they end",
    };
    let si = part * path.result.winter.resistances[piece].as_si();
    let formula = whole.f() * of.f() / t.f();
    let term = sheet.computed((&symbol, words), Dimension::Resistance, si, &formula);
    cut.push(term.clone());
    Some(term)
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
    let total = sheet.computed(named, Dimension::Resistance, 1.0 / combined, &mean);
    let named = ("U", "thermal transmittance by the combined method");
    let formula = constant("1", 1.0) / total.f();
    sheet.result(named, Dimension::Transmittance, combined, &formula);
    let formula = (upper.f() - lower.f()) / (constant("2", 2.0) * total.f());
    let named = ("e", "greatest relative error of the combined method");
    sheet.result(named, Dimension::Ratio, u.combined_error, &formula);
}
