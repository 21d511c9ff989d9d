//! Whether the air on both sides of a detail gets to its solids: without that no heat flows, and
//! everything would pass.

use super::sketch::{Meant, sketch};
use super::text::DetailText;
use crate::document::{At, Problems, Word};
use crate::error::{Problem, Span};
use crate::model::DetailCase;
use crate::model::detail::{Detail, Facing, Place};
use crate::model::drawn::AirSource;

/// Room and outdoors, by the names they have in a file.
const SIDES: [(&str, AirSource); 2] =
    [("room", AirSource::Room), ("outdoors", AirSource::Outdoors)];

/// Room and outdoor air each have to meet a surface. One that isn't drawn may be stood for by a
/// space or a face with a temperature of its own.
pub(super) fn meets_both(
    case: &DetailCase,
    detail: &Detail,
    (name, text): (&At<Word>, &DetailText),
    problems: &mut Problems,
) -> Option<()> {
    let met = met(detail);
    let before = problems.len();
    let is_a_side = |n: usize| {
        let source = case.airs.get(n).map(|air| air.source);
        SIDES.iter().any(|(_, side)| Some(*side) == source)
    };
    let others = (0..met.len()).any(|n| met[n] && !is_a_side(n));
    for (word, side) in SIDES {
        let air = case.airs.iter().position(|air| air.source == side);
        match air {
            Some(air) if met[air] => {}
            Some(air) => problems.push(hidden(case, detail, (word, air), (name, text))),
            None if others => {}
            None => {
                let message = format!("detail `{}` shows no {}", name.value.0, told(word));
                let label = format!("expected `{word}` under `air:`, or a face with `air: {word}`");
                let problem = Problem::at(name.span, message).expected(label);
                problems.push(problem.help("without it no heat flows, and nothing is judged"));
            }
        }
    }
    (problems.len() == before).then_some(())
}

fn hidden(
    case: &DetailCase,
    detail: &Detail,
    (word, air): (&str, usize),
    (name, text): (&At<Word>, &DetailText),
) -> Problem {
    let message = format!(
        "the {} meets no surface in detail `{}`",
        told(word),
        name.value.0
    );
    let span = span_of(word, text).unwrap_or(name.span);
    let label = "expected a place beside a rectangle, not beneath one";
    let problem = Problem::at(span, message).expected(label);
    let region = case.regions.iter().rfind(|region| region.air == air);
    let shown = region.map(|region| sketch(detail.parts(), &Meant::Place(&region.area)));
    problem.maybe_help(shown)
}

fn told(word: &str) -> &'static str {
    match word {
        "room" => "room's air",
        _ => "outdoor air",
    }
}

/// Where the air stands in the file.
fn span_of(word: &str, text: &DetailText) -> Option<Span> {
    let mut air = text.air.iter().flatten();
    let air = air.rfind(|one| one.name.value.0 == word);
    air.map(|one| one.name.span)
}

/// By boundary: whether a solid meets it.
fn met(detail: &Detail) -> Vec<bool> {
    let mut met = vec![false; detail.boundaries().len()];
    for row in 0..detail.rows().len() - 1 {
        for column in 0..detail.columns().len() - 1 {
            if !matches!(detail.place(column, row), Place::Block(_)) {
                continue;
            }
            let contacts = Facing::ALL
                .into_iter()
                .filter_map(|facing| detail.contact(column, row, facing));
            contacts.for_each(|contact| met[contact.boundary] = true);
        }
    }
    met
}
