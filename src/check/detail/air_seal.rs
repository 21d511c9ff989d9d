//! Wood at a detail's steel that stays there whatever lies over it.

use super::super::kind::Run;
use super::{LEAK, say};
use crate::check::{Check, Detail, Finding, SealedSpot, Status};

/// One line for all of it.
pub static AIR_SEAL: Check = Check {
    id: "air-seal",
    title: "needs an air seal, 2-D",
    run: Run::Along,
    say: say::air_seal,
    ..Check::PLAIN
};

/// Wood of a floor edge that stays on the steel and is under the dew point in every layout, such as
/// plate, packing and rim joist, is one line: it needs an air seal, whatever lies over the steel.
pub(super) fn sealed(findings: Vec<Finding>) -> Vec<Finding> {
    let crosses = |finding: &Finding| finding.check == &LEAK && finding.status == Status::Depends;
    let (cold, mut others): (Vec<Finding>, Vec<Finding>) = findings.into_iter().partition(crosses);
    let spots = cold.iter().filter_map(|finding| {
        Some(SealedSpot {
            bar: finding.bar()?,
            part: finding.place.as_ref()?.path.clone(),
            value: finding.value?,
            margin: finding.margin?,
        })
    });
    let spots: Vec<SealedSpot> = spots.collect();
    let margin = |finding: &Finding| finding.slack.unwrap_or(f64::INFINITY);
    let coldest = cold
        .into_iter()
        .min_by(|a, b| margin(a).total_cmp(&margin(b)));
    others.extend(coldest.map(|coldest| Finding {
        check: &AIR_SEAL,
        detail: Detail::AirSeal(spots),
        help: Some("an air seal on the room side of that wood, along its whole length".into()),
        ..coldest
    }));
    others
}
