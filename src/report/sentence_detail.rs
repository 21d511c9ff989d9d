//! Sentences on details in two dimensions.

use crate::solve::detail::{CornerFailure, DetailFailure, HandCheckKind};

/// What the bars of a bracketed result are.
pub(super) const BRACKET: &str = "No grid settles this cut: where good and bad conductors meet \
    crosswise in a corner nothing finer helps. So every number stands between finite volumes, which \
    pass too little heat there, and finite elements, which pass too much, and its bar reaches both";

/// What an estimate is called.
pub(super) fn estimate_name(kind: HandCheckKind) -> &'static str {
    match kind {
        HandCheckKind::ByStrip => "parallel path by strip",
        HandCheckKind::ByArea => "parallel path by area",
        HandCheckKind::IsothermalPlanes => "isothermal planes",
        HandCheckKind::Fin => "fin",
    }
}

/// Why a detail has no result.
pub(super) fn failure(why: &DetailFailure) -> String {
    match why {
        DetailFailure::Parts(problems) => {
            let words: Vec<String> = problems.iter().map(ToString::to_string).collect();
            format!("It can't be put together: {}.", words.join("; "))
        }
        DetailFailure::Conduction(error) => format!("It can't be solved: {error}."),
        DetailFailure::Corner(why) => corner_failure(why),
    }
}

/// Why a corner has no result.
pub(super) fn corner_failure(why: &CornerFailure) -> String {
    match why {
        CornerFailure::Directional => {
            "Something in the cut conducts differently along it and upward: it makes no corner."
                .into()
        }
        CornerFailure::Parts(problems) => {
            let words: Vec<String> = problems.iter().map(ToString::to_string).collect();
            format!("The corner can't be put together: {}.", words.join("; "))
        }
        CornerFailure::Volume(error) => format!("The corner can't be solved: {error}."),
    }
}
