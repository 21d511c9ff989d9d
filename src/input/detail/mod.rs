//! Resolving details: drawn by rectangles or by boxes, or generated from the assemblies of the file.

mod air;
mod boxes;
mod generated;
mod point;
mod problem;
mod rectangles;
mod roof_edge;
mod sketch;
mod text;

pub(super) use generated::{REACH, TWO_BY};
pub(super) use roof_edge::PLATES;
pub(super) use text::{DetailNode, DetailText};

use super::schema::AssemblyText;
use crate::document::{At, FromNode, Node, Problems, Word};
use crate::error::Problem;
use crate::material::Library;
use crate::model::drawn::{CaseBlock, DetailFilms};
use crate::model::{BoxesCase, DetailCase};
use crate::quantity::{Temperature, UnitSystem};

/// What details refer to.
pub(super) struct Within<'a> {
    pub(super) library: &'a Library,
    /// The assemblies by name, with a variant's changes made.
    pub(super) assemblies: &'a [(At<Word>, AssemblyText)],
    /// Names of assemblies that couldn't be read: that is reported already.
    pub(super) unreadable: &'a [Word],
    /// Those the file speaks.
    pub(super) units: UnitSystem,
}

/// A detail in two dimensions or in three.
pub(super) enum Resolved {
    Cut(Box<DetailCase>),
    Boxes(BoxesCase),
}

/// A detail in two dimensions or in three, if it can be solved as it is.
pub(super) fn detail(
    variant: Option<&At<Word>>,
    name: &At<Word>,
    text: &DetailText,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<Resolved> {
    let depth = text.cut.as_ref().and_then(|cut| cut.depth.as_ref());
    match (&text.boxes, is_in_two(text)) {
        // Before its points are read as those of a cut; after a mistake the boxes may be there.
        (None, _) if depth.is_some() => {
            if text.complete {
                let message = format!("detail `{}` has a depth, but no boxes", name.value.0);
                let label =
                    "expected `boxes:` whose `from:` and `to:` have three numbers, or no depth";
                let span = depth.map_or(name.span, |depth| depth.span);
                problems.push(Problem::at(span, message).expected(label));
            }
            None
        }
        (None, _) => {
            cut(variant, name, text, within, problems).map(|case| Resolved::Cut(Box::new(case)))
        }
        (Some(_), false) => {
            boxes::boxes(variant, name, text, within, problems).map(Resolved::Boxes)
        }
        (Some(_), true) => {
            problems.push(drawn_twice(name));
            None
        }
    }
}

/// Whether anything asks for a cut.
fn is_in_two(text: &DetailText) -> bool {
    text.rectangles.is_some()
        || text.floor_edge.is_some()
        || text.cross_members.is_some()
        || text.roof_edge.is_some()
}

fn drawn_twice(name: &At<Word>) -> Problem {
    let message = format!("detail `{}` is drawn in two ways", name.value.0);
    let label =
        "expected one of `floor-edge:`, `cross-members:`, `roof-edge:`, `rectangles:` and `boxes:`";
    Problem::at(name.span, message).expected(label)
}

/// A detail in two dimensions.
pub(super) fn cut(
    variant: Option<&At<Word>>,
    name: &At<Word>,
    text: &DetailText,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<DetailCase> {
    let by_hand = text.cut.is_some() || text.rectangles.is_some();
    let case = match (
        &text.floor_edge,
        &text.cross_members,
        &text.roof_edge,
        by_hand,
    ) {
        (Some(edge), None, None, false) => {
            generated::floor_edge(variant, name, edge, within, problems)?
        }
        (None, Some(members), None, false) => {
            generated::cross_members(variant, name, members, within, problems)?
        }
        (None, None, Some(edge), false) => {
            roof_edge::roof_edge(variant, name, edge, within, problems)?
        }
        (None, None, None, true) => rectangles::rectangles(variant, name, text, within, problems)?,
        (None, None, None, false) => {
            if text.complete {
                let message = format!("detail `{}` has nothing to draw", name.value.0);
                let label = "expected `floor-edge:`, `cross-members:`, `roof-edge:`, or `cut:` and \
                             `rectangles:`";
                problems.push(Problem::at(name.span, message).expected(label));
            }
            return None;
        }
        _ => {
            problems.push(drawn_twice(name));
            return None;
        }
    };
    if !by_hand && (text.air.is_some() || text.faces.is_some() || text.seals.is_some()) {
        let message = format!(
            "detail `{}` is generated and brings its own air",
            name.value.0
        );
        let label = "expected no `air:`, `faces:` or `seals:` here";
        problems.push(Problem::at(name.span, message).expected(label));
        return None;
    }
    sound(&case, name, text, problems)?;
    let points = points(&case, text, problems)?;
    Some(DetailCase { points, ..case })
}

/// Places whose temperature is wanted; each has to lie in a solid.
fn points(
    case: &DetailCase,
    text: &DetailText,
    problems: &mut Problems,
) -> Option<Vec<(String, (f64, f64))>> {
    let before = problems.len();
    let mut found = Vec::new();
    for point in text.points.iter().flatten() {
        let at = point.at.as_ref().and_then(|at| at.in_cut(problems));
        let Some([x, y]) = at else { continue };
        let holds = |one: &CaseBlock| {
            let area = one.block.area;
            (area.left..=area.right).contains(&x) && (area.bottom..=area.top).contains(&y)
        };
        if case.blocks.iter().any(holds) {
            found.push((point.name.value.0.clone(), (x, y)));
        } else {
            let message = format!("point `{}` lies in no solid", point.name.value.0);
            let label = "expected a place inside a part that is drawn";
            problems.push(Problem::at(point.name.span, message).expected(label));
        }
    }
    (problems.len() == before && text.complete).then_some(found)
}

/// Holds a detail against what can be solved: its temperatures don't matter for that.
fn sound(
    case: &DetailCase,
    name: &At<Word>,
    text: &DetailText,
    problems: &mut Problems,
) -> Option<()> {
    let [indoor, outdoor] = [20.0, 0.0].map(Temperature::from_celsius);
    let films = DetailFilms::default();
    match case.detail_at(indoor, outdoor, &films) {
        Ok(detail) => air::meets_both(case, &detail, (name, text), problems),
        Err(found) => {
            let parts = case.parts_at(indoor, outdoor, &films);
            let told = found
                .iter()
                .map(|one| problem::told(one, &parts, name, text));
            problems.extend(told);
            None
        }
    }
}

/// A detail's text with a variant's changes made.
pub(super) fn changed(
    base: &DetailNode,
    change: &Node,
    problems: &mut Problems,
) -> Option<DetailText> {
    let merged = text::merged(&base.node, change);
    DetailText::from_node(&merged, problems)
}

/// The floor and the strip of it that a detail is generated to show.
pub(super) fn shown_by(text: &DetailText) -> Option<(&Word, &Word)> {
    let edge = text
        .floor_edge
        .as_ref()
        .map(|edge| (&edge.floor.value, &edge.flange.value));
    let members = text.cross_members.as_ref();
    edge.or(members.map(|members| (&members.floor.value, &members.strip.value)))
}

/// The assemblies a detail is generated from.
pub(super) fn drawn_from(text: &DetailText) -> impl Iterator<Item = &Word> {
    let edge = text
        .floor_edge
        .iter()
        .flat_map(|edge| [&edge.floor, &edge.wall]);
    let members = text.cross_members.iter().map(|members| &members.floor);
    let roof = text.roof_edge.iter();
    let roof = roof.flat_map(|edge| [&edge.wall, &edge.roof]);
    edge.chain(members).chain(roof).map(|name| &name.value)
}
