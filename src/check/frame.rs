//! # Frame
//!
//! *What it checks.* Whether foam over a flange meets joists that stand as proud as it is thick.
//!
//! *Why it matters.* With joists flush with the steel, foam on the flange lifts the subfloor off
//! them.
//!
//! *Method and source.* Thickness of what lies over each strip against the frame's rise.
//!
//! *Limit.* A note, never a failure: the floor may be packed another way.
//!
//! *Example.* 1 in of foam over the flange, frame flush: the subfloor stands 1 in above the joists.

use super::kind::{Column, Run};
use super::{Check, Detail, Finding, Status};
use crate::model::{Case, Conditions, Told};
use crate::quantity::Style;

/// Remarks on frame and bays.
pub static CHECK: Check = Check {
    id: "frame",
    title: "frame",
    anywhere: true,
    run: Run::Whole(|scene| check(scene.case)),
    column: Some(Column::STATUS),
    say,
    ..Check::PLAIN
};

/// A note for every remark made while the file was read.
#[must_use]
pub fn check(case: &Case) -> Vec<Finding> {
    let note = |remark: &Told| Finding {
        detail: Detail::Frame(remark.clone()),
        ..Finding::new(&CHECK, Status::Note, "the layers as drawn")
    };
    case.assembly.notes.iter().map(note).collect()
}

fn say(finding: &Finding, _: &Conditions, style: Style) -> String {
    match &finding.detail {
        Detail::Frame(remark) => remark.in_units(style),
        _ => String::new(),
    }
}
