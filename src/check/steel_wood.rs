//! # Wood at the steel
//!
//! *What it checks.* Whether the wood nearest to each metal strip stays above the dew point of the
//! room air that reaches it.
//!
//! *Why it matters.* The strip goes as cold as the weather. Judging by the floor's surface alone
//! is a false pass: foam under the finish floor warms feet and leaves the subfloor colder.
//!
//! *Method and source.* Temperature of the outer face of the wood on the strip's path (parallel
//! path, the steel short-circuiting what lies below it) minus the dew point of the room air.
//!
//! *Limit.* 0 K: clear on the winter mean passes; only the design night crossing gives `depends`;
//! the winter mean crossing fails.
//!
//! *When it does not apply.* Where a bonded layer keeps air from the wood: then it is a note. It
//! is a hand-check: at a wall edge only the two-dimensional detail decides.
//!
//! *Example.* Subfloor bare on the flange at 43.2 °F, dew point 53.6 °F: margin −10.4 °F, `fail`.

use super::air_leak::at_plane;
use super::{Check, Finding, Status};
use crate::model::Case;
use crate::quantity::TemperatureDifference;
use crate::solve::{AssemblyResult, EndResult, PathKind};

const SOURCE: &str = "dew point of the room air (ISO 13788 saturation formula); hand-check";

/// One finding per strip path that has wood on it.
#[must_use]
pub fn check(case: &Case, result: &AssemblyResult, end: &EndResult) -> Vec<Finding> {
    let limit = result.room_dew_point;
    let mut findings = Vec::new();
    for path in &end.paths {
        let PathKind::Strip(strip) = path.path.kind else {
            continue;
        };
        let Some(plane) = path.roles.iter().position(|role| role.wood_at_steel) else {
            continue;
        };
        let wood = at_plane(path, plane, limit);
        let status = match path.roles[plane].reached {
            false => Status::Note,
            true => status(wood.margin, wood.night),
        };
        let finding = wood.describe(Finding::new(Check::WoodAtSteel, status, SOURCE), limit);
        let touches = plane + 1 == path.path.pieces.len();
        let help = (status.severity() > 0).then(|| {
            let strip = &case.assembly.strips[strip].name;
            match touches {
                true => format!("foam over the {strip}, under the wood, bonded; foam above the wood makes it colder"),
                false => format!("more foam over the {strip}, under the wood"),
            }
        });
        let slack = Some(wood.margin.as_kelvin());
        findings.push(Finding {
            help,
            slack,
            ..finding
        });
    }
    findings
}

/// Clear passes, the night alone gives depends, the winter mean fails.
pub(super) fn status(
    winter: TemperatureDifference,
    night: Option<TemperatureDifference>,
) -> Status {
    let clear = |margin: TemperatureDifference| margin.as_kelvin() > 0.0;
    match (clear(winter), night.is_none_or(clear)) {
        (true, true) => Status::Pass,
        (true, false) => Status::Depends,
        (false, _) => Status::Fail,
    }
}
