//! A sweep: one assembly under every combination of some changes.

use super::assembly::{Assembly, Layer};
use super::{Case, RoomVapor, Stop};
use crate::quantity::{Length, RelativeHumidity, VolumeFlow};

/// One entry of `sweep:`.
#[derive(Clone, Debug, PartialEq)]
pub struct Sweep {
    /// The entry's name; empty where the block is one sweep.
    pub name: String,
    /// The assembly everything starts from.
    pub case: Case,
    /// The surroundings everything starts from.
    pub stop: Stop,
    /// What is changed; at least one. The last one changes fastest.
    pub axes: Vec<Axis>,
}

/// One thing that is changed, and what it is changed to.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// What the file calls it.
    pub name: String,
    /// Its values.
    pub values: AxisValues,
}

/// The values of an axis.
#[derive(Clone, Debug, PartialEq)]
pub enum AxisValues {
    /// Thicknesses of a layer as the file writes them, m; at zero it is taken out.
    Thickness {
        /// The layer's name.
        layer: String,
        /// m.
        steps: Steps,
    },
    /// What a layer is made of.
    Material {
        /// The layer's name.
        layer: String,
        /// Each material's name, and the layer of it.
        choices: Vec<(String, Layer)>,
    },
    /// The room's relative humidity all year, fractions.
    Humidity(Steps),
    /// Climates, each with the room's air in it.
    Climate(Vec<Stop>),
    /// Outdoor air brought in by the household, m³/s.
    Ventilation(Steps),
}

/// Numbers one by one, or evenly spaced: a grid takes no memory.
#[derive(Clone, Debug, PartialEq)]
pub enum Steps {
    /// As listed.
    List(Vec<f64>),
    /// From the first on.
    Grid {
        /// The first.
        from: f64,
        /// From one to the next; may be negative.
        step: f64,
        /// How many.
        count: usize,
    },
}

impl Steps {
    /// How many there are.
    #[must_use]
    pub fn count(&self) -> usize {
        match self {
            Self::List(values) => values.len(),
            Self::Grid { count, .. } => *count,
        }
    }

    /// One of them; the last where there are fewer.
    #[must_use]
    pub fn at(&self, index: usize) -> f64 {
        match self {
            Self::List(values) => {
                let last = values.last().copied().unwrap_or(0.0);
                values.get(index).copied().unwrap_or(last)
            }
            // What is a rounding away from nothing is nothing.
            Self::Grid { from, step, .. } => {
                let value = from + step * index as f64;
                if value.abs() < 1e-9 * step.abs() {
                    0.0
                } else {
                    value
                }
            }
        }
    }
}

impl AxisValues {
    /// How many values there are.
    #[must_use]
    pub fn count(&self) -> usize {
        match self {
            Self::Thickness { steps, .. } | Self::Humidity(steps) | Self::Ventilation(steps) => {
                steps.count()
            }
            Self::Material { choices, .. } => choices.len(),
            Self::Climate(stops) => stops.len(),
        }
    }

    /// Whether it changes the assembly rather than the air around it.
    #[must_use]
    pub fn is_of_the_assembly(&self) -> bool {
        matches!(self, Self::Thickness { .. } | Self::Material { .. })
    }
}

impl Sweep {
    /// How many combinations there are; more than a `u64` holds count as the most it does.
    #[must_use]
    pub fn count(&self) -> u64 {
        let counts = self.axes.iter().map(|axis| axis.values.count() as u64);
        counts.fold(1, u64::saturating_mul)
    }

    /// Which value of each axis the combination of that number has; the last axis changes fastest.
    ///
    /// # Example
    /// ```
    /// let text = include_str!("../../examples/cabin-sweep.yaml");
    /// let project = dewmargin::input::resolve_text("sweep.yaml", text).unwrap();
    /// let sweep = &project.sweeps[0];
    /// let fast = sweep.axes[1].values.count();
    /// assert_eq!(sweep.choice(fast as u64 + 2), [1, 2]);
    /// ```
    #[must_use]
    pub fn choice(&self, number: u64) -> Vec<usize> {
        let mut left = number;
        let mut choice = vec![0; self.axes.len()];
        for (index, axis) in choice.iter_mut().zip(&self.axes).rev() {
            let count = (axis.values.count() as u64).max(1);
            *index = (left % count) as usize;
            left /= count;
        }
        choice
    }

    /// The assembly of a combination: materials first, then thicknesses.
    #[must_use]
    pub fn assembly(&self, choice: &[usize]) -> Assembly {
        let mut assembly = self.case.assembly.clone();
        for (axis, index) in self.axes.iter().zip(choice) {
            if let AxisValues::Material { layer, choices } = &axis.values
                && let (Some(place), Some((_, made))) =
                    (assembly.place_of(layer), choices.get(*index))
            {
                assembly = assembly.with_layer(place, made.clone());
            }
        }
        for (axis, index) in self.axes.iter().zip(choice) {
            if let AxisValues::Thickness { layer, steps } = &axis.values
                && let Some(place) = assembly.place_of(layer)
            {
                assembly = assembly.with_thickness(place, Length::from_m(steps.at(*index)));
            }
        }
        assembly
    }

    /// The surroundings of a combination: the climate first, then the room's air in it.
    #[must_use]
    pub fn stop(&self, choice: &[usize]) -> Stop {
        let axes = || self.axes.iter().zip(choice);
        let climate = axes().find_map(|(axis, index)| match &axis.values {
            AxisValues::Climate(stops) => stops.get(*index),
            _ => None,
        });
        let mut stop = climate.unwrap_or(&self.stop).clone();
        for (axis, index) in axes() {
            match &axis.values {
                AxisValues::Humidity(steps) => {
                    let humidity = RelativeHumidity::from_fraction(steps.at(*index));
                    stop = stop.with_humidity(humidity);
                }
                AxisValues::Ventilation(steps) => {
                    stop = stop.with_ventilation(VolumeFlow::from_m3_per_s(steps.at(*index)));
                }
                _ => {}
            }
        }
        stop
    }
}

impl Stop {
    /// The same with the household bringing in another flow of outdoor air: the room's air follows
    /// where it comes from the household's balance.
    #[must_use]
    pub fn with_ventilation(&self, flow: VolumeFlow) -> Self {
        let mut changed = self.clone();
        if let Some(household) = &mut changed.indoor.household {
            household.ventilation = flow;
        }
        let RoomVapor::Balance(mut household) = changed.indoor.vapor else {
            return changed;
        };
        household.ventilation = flow;
        changed.indoor.vapor = RoomVapor::Balance(household);
        let indoor = changed.indoor;
        let conditions = &mut changed.conditions;
        let winter = conditions.winter_mean;
        let room = indoor.room(winter.temperature, winter.vapor_pressure()).air;
        conditions.indoor.humidity = room.humidity;
        for month in conditions.year.iter_mut().flatten() {
            let outdoor = month.outdoor;
            month.indoor = indoor
                .room(outdoor.temperature, outdoor.vapor_pressure())
                .air;
        }
        changed
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    #[test]
    fn a_grid_meets_nothing_exactly() {
        let grid = Steps::Grid {
            from: 0.3,
            step: -0.1,
            count: 4,
        };
        assert_eq!(grid.at(3), 0.0);
        assert_abs_diff_eq!(grid.at(1), 0.2, epsilon = 1e-15);
    }

    #[test]
    fn the_household_airs_as_if_the_file_said_so() {
        let file = |flow: &str| {
            let text = format!(
                "indoor: {{heating: 68 F, moisture: {{people: 2, ventilation: {flow}, volume: 1500 ft3}}}}\n\
                 climate: wet-coast\n\
                 assemblies: {{wall: {{kind: wall, layers: [{{name: studs, material: R-13 batt}}]}}}}\n"
            );
            crate::input::resolve_text("room.yaml", &text)
                .unwrap()
                .stops
                .remove(0)
        };
        let (aired, wanted) = (
            file("30 cfm")
                .with_ventilation(VolumeFlow::from_m3_per_s(60.0 * crate::quantity::unit::CFM)),
            file("60 cfm"),
        );
        let both = |stop: &Stop| {
            let year = stop.conditions.year.unwrap();
            let months = year.map(|month| month.indoor.humidity.as_fraction());
            (months, stop.conditions.indoor.humidity.as_fraction())
        };
        for (one, other) in both(&aired).0.iter().zip(both(&wanted).0) {
            assert_abs_diff_eq!(*one, other, epsilon = 1e-12);
        }
        assert_abs_diff_eq!(both(&aired).1, both(&wanted).1, epsilon = 1e-12);
        assert_eq!(aired.indoor, wanted.indoor);
    }
}
