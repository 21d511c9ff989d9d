//! The edge of the roof, generated: what its keys mean, and where a problem belongs.

use super::Within;
use super::generated::{OUTSIDE_OR_NONE, TWO_BY, cut_reach, drawn, referred};
use super::text::RoofEdgeText;
use crate::document::{At, Problems, Word};
use crate::error::Span;
use crate::material::one_of;
use crate::model::DetailCase;
use crate::model::drawn::{EdgeKey, RoofEdge};
use crate::quantity::Length;

/// Height of the plates on the studs where the file doesn't say: two of them (common practice).
pub(in crate::input) const PLATES: f64 = 2.0 * TWO_BY;

/// The roof's edge of the file's assemblies.
pub(super) fn roof_edge(
    variant: Option<&At<Word>>,
    name: &At<Word>,
    text: &RoofEdgeText,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<DetailCase> {
    let wall = referred(&text.wall, None, within, problems);
    let roof = referred(&text.roof, None, within, problems);
    let corner = match &text.corner {
        None => Some(true),
        Some(corner) => one_of(
            corner,
            &OUTSIDE_OR_NONE,
            "corner under a roof's edge",
            problems,
        ),
    };
    let inboard = cut_reach(text.inboard.as_ref(), problems);
    let down = cut_reach(text.down.as_ref(), problems);
    let plates = text.plates.as_ref().map(|at| at.value);
    let edge = RoofEdge {
        name: name.value.0.clone(),
        variant: variant.map(|variant| variant.value.0.clone()),
        wall: wall?,
        roof: roof?,
        plates: plates.unwrap_or(Length::from_m(PLATES)),
        corner: corner?,
        inboard: inboard?,
        down: down?,
    };
    drawn((edge.draw(), within.units), |key| span(text, key), problems)
}

/// The key a problem is about, or the nearest one that is written out.
fn span(text: &RoofEdgeText, key: EdgeKey) -> Span {
    let own = match key {
        EdgeKey::Plate => text.plates.as_ref(),
        EdgeKey::Inboard => text.inboard.as_ref(),
        EdgeKey::Down => text.down.as_ref(),
        _ => None,
    };
    match key {
        EdgeKey::Roof => text.roof.span,
        _ => own.map_or(text.wall.span, |at| at.span),
    }
}
