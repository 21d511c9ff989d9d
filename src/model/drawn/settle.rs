//! A detail's conductivities at the mean temperature of each of its rectangles or boxes.

use super::boxes::BoxesCase;
use super::case::{BlockFacts, DetailCase};
use crate::model::detail::PlaneConductivity;
use crate::physics::heat::conductivity_at;
use crate::quantity::Temperature;

impl DetailCase {
    /// Whether every conductivity is the same at every temperature.
    #[must_use]
    pub fn conducts_alike(&self) -> bool {
        let mut blocks = self.blocks.iter();
        let of_blocks = blocks.all(|one| one.facts.by_temperature.is_empty());
        let mut layers = self.references.iter().flat_map(|one| &one.layers);
        of_blocks && layers.all(|layer| layer.by_temperature.is_empty())
    }

    /// Sets the conductivities that follow the temperature to those at the blocks' mean temperatures, °C;
    /// a block without one keeps its own. Gives the greatest relative change.
    pub fn conduct_at(&mut self, means: &[Option<f64>]) -> f64 {
        let mut most = 0.0;
        for (one, mean) in self.blocks.iter_mut().zip(means) {
            let Some(now) = conductivity(&one.facts, *mean) else {
                continue;
            };
            let before = one.block.conductivity.x;
            most = f64::max(most, (now / before - 1.0).abs());
            one.block.conductivity = PlaneConductivity::isotropic(now);
        }
        most
    }
}

impl BoxesCase {
    /// Whether every conductivity is the same at every temperature.
    #[must_use]
    pub fn conducts_alike(&self) -> bool {
        let mut blocks = self.blocks.iter();
        blocks.all(|one| one.facts.by_temperature.is_empty())
    }

    /// As [`DetailCase::conduct_at`].
    pub fn conduct_at(&mut self, means: &[Option<f64>]) -> f64 {
        let mut most = 0.0;
        for (one, mean) in self.blocks.iter_mut().zip(means) {
            let Some(now) = conductivity(&one.facts, *mean) else {
                continue;
            };
            most = f64::max(most, (now / one.block.conductivity - 1.0).abs());
            one.block.conductivity = now;
        }
        most
    }
}

/// Conductivity at a mean temperature in °C; `None` where it follows none, or none is known.
fn conductivity(facts: &BlockFacts, mean: Option<f64>) -> Option<f64> {
    let mean = Temperature::from_celsius(mean?);
    let follows = !facts.by_temperature.is_empty();
    follows.then(|| conductivity_at(&facts.by_temperature, mean).as_si())
}
