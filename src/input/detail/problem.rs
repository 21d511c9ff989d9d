//! What a detail's problems are to whoever drew it: which line of the file, where in the cut.

use super::sketch::{Meant, sketch};
use super::text::DetailText;
use crate::document::{At, Word};
use crate::error::{Problem, Span};
use crate::model::detail::{Area, DetailParts, DetailProblem};
use crate::quantity::{fixed, unit::INCH};

/// A problem with its place in the file, and where there is one a sketch.
pub(super) fn told(
    problem: &DetailProblem,
    parts: &DetailParts,
    detail: &At<Word>,
    text: &DetailText,
) -> Problem {
    use DetailProblem as P;
    let (about, message, expected) = words(problem, &detail.value.0);
    let span = about
        .and_then(|name| span_of(name, text))
        .unwrap_or(detail.span);
    let told = Problem::at(span, message).expected(expected);
    match problem {
        P::Overlap { area, .. }
        | P::AirOverlap { area, .. }
        | P::FaceOffSurface { line: area, .. }
        | P::FaceTwice { line: area, .. } => told.help(sketch(parts, &Meant::Place(area))),
        P::Gap { area } => told.help(sketch(parts, &Meant::Nothing(area))),
        P::AllAir | P::NoBoundary => told.help(sketch(parts, &Meant::All)),
        _ => told,
    }
}

/// What it is about, what is wrong, and what was expected.
fn words<'a>(problem: &'a DetailProblem, detail: &str) -> (Option<&'a str>, String, String) {
    use DetailProblem as P;
    let of = |name: &'a String, message: String, expected: &str| {
        (Some(name.as_str()), message, expected.to_owned())
    };
    let whole = |message: String, expected: &str| (None, message, expected.to_owned());
    match problem {
        P::NameTwice { name } => of(
            name,
            format!("the name `{name}` stands twice in detail `{detail}`"),
            "expected a name of its own",
        ),
        P::NoSize { name, area } => of(
            name,
            format!("`{name}` has no size: {}", place(area)),
            "expected `from:` below and left of `to:`",
        ),
        P::OutsideCut { name, area } => of(
            name,
            format!("`{name}` reaches beyond the cut: {}", place(area)),
            "expected a place within `cut:`",
        ),
        P::Overlap { upper, lower, area } => of(
            upper,
            format!("`{upper}` lies over `{lower}`: {}", place(area)),
            "expected `covers: true` if that is meant",
        ),
        P::AirOverlap {
            first,
            second,
            area,
        } => of(
            first,
            format!("`{first}` and `{second}` share a place: {}", place(area)),
            "expected one air in one place",
        ),
        P::Gap { area } => whole(
            format!("nothing fills a part of detail `{detail}`: {}", place(area)),
            "expected a rectangle or air there",
        ),
        P::AllAir => whole(
            format!("detail `{detail}` holds nothing but air"),
            "expected `rectangles:` that show",
        ),
        P::NoBoundary => whole(
            format!("nothing in detail `{detail}` meets air or a face of given temperature"),
            "expected `air:` beside the rectangles, or `faces:`",
        ),
        P::FaceNotStraight { name, line } => of(
            name,
            format!(
                "the face `{name}` runs neither along x nor along y: {}",
                place(line)
            ),
            "expected `from:` and `to:` with the same x or the same y",
        ),
        P::FaceOffSurface { name, line } => of(
            name,
            format!(
                "the face `{name}` doesn't lie on a surface: {}",
                place(line)
            ),
            "expected a line where a rectangle meets air or the cut's edge",
        ),
        P::FaceTwice { name, line } => of(
            name,
            format!("the face `{name}` lies on another face: {}", place(line)),
            "expected one face in one place",
        ),
        other => whole(format!("detail `{detail}`: {other}"), "can't be computed"),
    }
}

/// Where a name of a detail drawn by hand stands: the last one, as later ones are to blame.
fn span_of(name: &str, text: &DetailText) -> Option<Span> {
    let rectangles = text.rectangles.iter().flatten().map(|one| &one.name);
    let air = text.air.iter().flatten().map(|one| &one.name);
    let faces = text.faces.iter().flatten().map(|one| &one.name);
    let mut all = rectangles.chain(air).chain(faces);
    all.rfind(|at| at.value.0 == name).map(|at| at.span)
}

/// Coordinates from the cut's lower left corner, in inches and millimeters.
fn place(area: &Area) -> String {
    let span = |from: f64, to: f64, scale: f64, decimals: usize| {
        let number = |meters: f64| {
            let text = fixed(meters / scale, decimals);
            match text.contains('.') {
                true => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
                false => text,
            }
        };
        match number(from) == number(to) {
            true => number(from),
            false => format!("{} to {}", number(from), number(to)),
        }
    };
    let both = |scale: f64, decimals: usize, unit: &str| {
        let x = span(area.left, area.right, scale, decimals);
        let y = span(area.bottom, area.top, scale, decimals);
        format!("x {x} {unit}, y {y} {unit}")
    };
    format!("{} ({})", both(INCH, 3, "in"), both(1e-3, 1, "mm"))
}
