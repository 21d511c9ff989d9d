//! What is judged of a detail in three dimensions: the room's surface, and wood where it is coldest.

use super::spot::Found;
use super::{LEAK, WOOD, condensation, mold, reached_wood};
use crate::check::verdict::{spanned, weighed};
use crate::check::{Finding, On, Status, Verdict};
use crate::model::{Conditions, Stop};
use crate::solve::detail::{BoxesFailure, BoxesResult};

/// Judges a detail in three dimensions by the limits of one in two. One that couldn't be solved can't be
/// judged, and says so.
#[must_use]
pub fn judge_boxes(stop: &Stop, result: &Result<BoxesResult, BoxesFailure>) -> Verdict {
    let conditions = &stop.conditions;
    let findings = match result {
        Ok(result) => found(conditions, result),
        Err(_) => vec![Finding {
            on: Some(On::Tolerance),
            ..Finding::new(&WOOD, Status::Unknown, "the detail couldn't be solved")
        }],
    };
    weighed(spanned(findings, conditions))
}

fn found(conditions: &Conditions, result: &BoxesResult) -> Vec<Finding> {
    let air = &result.between;
    let surfaces = result.surfaces.iter();
    let damp =
        surfaces.filter_map(|one| Some((one.name.as_str(), Found::from(one.damp.as_ref()?))));
    let of_surfaces = damp.flat_map(|(name, found)| {
        let condensation = condensation(conditions, air, name, found);
        [condensation, mold(conditions, air, name, found)]
    });
    let of_wood = result.wood.iter().map(|(name, spot)| {
        let crossed = (&LEAK, (Status::Depends, Some(On::Tightness)));
        reached_wood(conditions, air, (name, ""), spot.into(), crossed)
    });
    of_surfaces.chain(of_wood).collect()
}
