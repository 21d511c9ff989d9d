//! A detail's conductivities at the mean temperature of each of its rectangles.

use super::case::DetailCase;
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
            let (false, Some(mean)) = (one.facts.by_temperature.is_empty(), mean) else {
                continue;
            };
            let mean = Temperature::from_celsius(*mean);
            let now = conductivity_at(&one.facts.by_temperature, mean).as_si();
            let before = one.block.conductivity.x;
            most = f64::max(most, (now / before - 1.0).abs());
            one.block.conductivity = PlaneConductivity::isotropic(now);
        }
        most
    }
}
