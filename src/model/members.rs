//! Which layers the same members run through.

use std::ops::Range;

use super::{Framing, Layer};

impl Framing {
    /// Whether these members are those of the layer before, running on through this one: of the
    /// same material and share, and not laid across them.
    #[must_use]
    pub fn continues(&self, before: &Self) -> bool {
        !self.crosswise
            && self.substance.label == before.substance.label
            && (self.share.as_fraction() - before.share.as_fraction()).abs() < 1e-9
    }
}

/// Runs of layers that the same members run through, from inside to outside.
#[must_use]
pub fn runs_of_members(layers: &[Layer]) -> Vec<Range<usize>> {
    let mut runs: Vec<Range<usize>> = Vec::new();
    for (n, layer) in layers.iter().enumerate() {
        let Some(framing) = &layer.framing else {
            continue;
        };
        let before = n.checked_sub(1).and_then(|n| layers[n].framing.as_ref());
        match runs.last_mut() {
            Some(run) if before.is_some_and(|before| framing.continues(before)) => run.end = n + 1,
            _ => runs.push(n..n + 1),
        }
    }
    runs
}
