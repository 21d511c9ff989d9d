//! # Not looked at
//!
//! *What it checks.* Whether there is wood or open insulation that none of the other checks looks at:
//! a deck outside a gap of a roof that is open to outdoor air, and layers whose joints let room air
//! in while no plane of theirs is judged, as in a wall of logs or solid panels.
//!
//! *Why it matters.* Silence would be read as a pass.
//!
//! *Method and source.* The layers as drawn (common practice).
//!
//! *Limit.* Any such layer gives `depends`, on what isn't looked at.
//!
//! *When it does not apply.* Cladding outside a wall's gap: it is meant to get wet and to dry. Joints
//! that the file declares tight (`bonded: true`). Where nothing lies inside that water harms, there
//! is nothing to look at.
//!
//! *Example.* Rafters with a ventilated gap under a plywood deck: `depends`.

use super::kind::{Brief, Run};
use super::{Check, Detail, Finding, Status, UnseenDetail};
use crate::model::{AssemblyKind, Case, Conditions, Content, Layer};
use crate::quantity::Style;
use crate::solve::{AssemblyResult, PathKind, PathResult, Piece};

/// Wood or open insulation that this method doesn't look at.
pub static CHECK: Check = Check {
    id: "not-looked-at",
    title: "not looked at",
    by_place: true,
    run: Run::Whole(|scene| check(scene.case, scene.result)),
    say,
    brief: Brief::Sentences,
    ..Check::PLAIN
};

const SOURCE: &str = "the layers as drawn";

/// One finding for each place that isn't looked at.
#[must_use]
pub fn check(case: &Case, result: &AssemblyResult) -> Vec<Finding> {
    let found = beyond_gap(case).into_iter().chain(joints(result));
    let finding = |(unseen, help): (UnseenDetail, &str)| Finding {
        detail: Detail::Unseen(unseen),
        help: Some(help.to_owned()),
        ..Finding::new(&CHECK, Status::Depends, SOURCE)
    };
    found.map(finding).collect()
}

/// Wood outside a roof's first gap that is open to outdoor air.
fn beyond_gap(case: &Case) -> Option<(UnseenDetail, &'static str)> {
    let layers = &case.assembly.layers;
    let gap = layers.iter().position(Layer::is_open_air)?;
    let is_wood = |layer: &&Layer| match &layer.content {
        Content::Solid(substance) => substance.kind.is_some_and(crate::model::Kind::is_wood),
        Content::Air(_) => false,
    };
    let layer = layers[gap + 1..].iter().find(is_wood)?;
    (case.assembly.kind == AssemblyKind::Roof).then(|| {
        let unseen = UnseenDetail::BeyondGap {
            gap: layers[gap].name.clone(),
            layer: layer.name.clone(),
        };
        (
            unseen,
            "the gap's inlets and outlets by the code's rule for vented roofs",
        )
    })
}

/// The innermost layer that room air gets into, where no plane of the whole path is judged.
fn joints(result: &AssemblyResult) -> Option<(UnseenDetail, &'static str)> {
    let paths = result.ends.first()?.paths.iter();
    let mut cavity = paths.filter(|path| path.path.kind == PathKind::Cavity);
    let path: &PathResult = cavity.next()?;
    if path.roles.iter().any(|role| role.judged) {
        return None;
    }
    let open = path.path.pieces.iter().take_while(|piece| !piece.bonded);
    let mut inside = open.take_while(|piece| !piece.vented);
    let piece = inside.find(|piece| Piece::is_vulnerable(piece))?;
    let unseen = UnseenDetail::Joints {
        layer: piece.name.clone(),
    };
    Some((
        unseen,
        "say `bonded: true` of the layer where its joints are sealed",
    ))
}

fn say(finding: &Finding, _: &Conditions, _: Style) -> String {
    match &finding.detail {
        Detail::Unseen(UnseenDetail::BeyondGap { gap, layer }) => format!(
            "The {layer} lies outside the {gap}, in outdoor air with what leaks into it: that isn't \
             looked at."
        ),
        Detail::Unseen(UnseenDetail::Joints { layer }) => format!(
            "Room air gets into the joints of the {layer}, and how warm they are isn't looked at."
        ),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::tests::solved;

    // Two ventilated gaps, wood beyond each: it begins beyond the first gap, with the wood nearest to it.
    #[test]
    fn the_first_gap_and_the_wood_nearest_to_it_are_named() {
        let (case, result) = solved(
            "roof",
            &[
                "{name: ceiling, material: plywood, thickness: 1/2 in}",
                "{name: wool, material: R-13 batt, thickness: 3-1/2 in}",
                "{name: lower gap, air: ventilated, thickness: 1 in}",
                "{name: lower deck, material: plywood, thickness: 1/2 in}",
                "{name: upper gap, air: ventilated, thickness: 1 in}",
                "{name: upper deck, material: plywood, thickness: 1/2 in}",
            ],
        );
        let findings = check(&case, &result);
        assert_eq!(findings.len(), 1);
        let Detail::Unseen(UnseenDetail::BeyondGap { gap, layer }) = &findings[0].detail else {
            panic!("{:?}", findings[0].detail);
        };
        assert_eq!((gap.as_str(), layer.as_str()), ("lower gap", "lower deck"));
    }
}
