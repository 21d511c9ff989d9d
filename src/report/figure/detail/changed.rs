//! What an option changed in a cut, against the same cut as drawn.

use crate::material::Kind;
use crate::model::drawn::{CaseBlock, DetailCase};
use crate::study::JudgedDetail;

/// Sizes nearer than this are the same, m.
const SAME: f64 = 1e-6;

/// By block, whether the option is about it: the insulation that it adds, else whatever it adds, else
/// what has another material or another size.
pub(super) fn changed(one: &DetailCase, details: &[&JudgedDetail<'_>]) -> Vec<bool> {
    let mut cases = details.iter().map(|one| one.case);
    let base = cases.find(|case| case.variant.is_none() && case.name == one.name);
    let Some(base) = base.filter(|_| one.variant.is_some()) else {
        return vec![false; one.blocks.len()];
    };
    let of = |counts: &dyn Fn(&CaseBlock) -> bool| -> Vec<bool> {
        one.blocks.iter().map(counts).collect()
    };
    let like = |block: &CaseBlock| {
        let name = &block.block.name;
        base.blocks.iter().find(|other| other.block.name == *name)
    };
    let is_new = |block: &CaseBlock| like(block).is_none();
    let insulates =
        |block: &CaseBlock| matches!(block.facts.kind, Some(Kind::Foam | Kind::Insulation));
    let is_other = |block: &CaseBlock| like(block).is_some_and(|other| differs(block, other));
    let ways = [
        of(&|block| is_new(block) && insulates(block)),
        of(&is_new),
        of(&is_other),
    ];
    let mut ways = ways.into_iter();
    let found = ways.find(|found| found.contains(&true));
    found.unwrap_or_else(|| vec![false; one.blocks.len()])
}

fn differs(one: &CaseBlock, other: &CaseBlock) -> bool {
    let size = |block: &CaseBlock| {
        let area = &block.block.area;
        [area.right - area.left, area.top - area.bottom]
    };
    let sizes = size(one).into_iter().zip(size(other));
    one.block.label != other.block.label || sizes.into_iter().any(|(a, b)| (a - b).abs() > SAME)
}
