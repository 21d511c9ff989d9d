//! The inputs that move a finding most, and the values at which each of them changes its status.

use super::Status;
use super::flip::{Flip, FlipValue, Input, Mover};
use super::range::{Aim, View};
use crate::model::{Conditions, Property, PropertyKind};
use crate::quantity::{Permeance, RelativeHumidity, ThermalResistance};

/// How far the room's humidity is moved to rank it among the inputs, as a fraction.
const HUMIDITY_STEP: f64 = 0.05;
/// What moves a result less than this doesn't move it, in the check's own unit.
const NO_EFFECT: f64 = 1e-6;
/// How many inputs are named.
const NAMED: usize = 3;
/// Where flip values of the room's humidity are looked for.
const HUMIDITIES: [f64; 2] = [0.20, 0.80];
/// Factor up and down within which flip values of a permeance are looked for.
const PERMEANCE_REACH: f64 = 30.0;
/// The same for a resistance.
const RESISTANCE_REACH: f64 = 2.5;
/// Halvings of the span in which a status changes: to a hundredth of it.
const HALVINGS: usize = 9;

/// What is moved.
enum Lever<'a> {
    Humidity,
    Material(&'a Property),
}

impl Aim<'_> {
    /// The inputs that move the result most, the strongest first; `singles` has the ends of each
    /// property that has a spread.
    pub(super) fn movers(
        &self,
        nominal: Status,
        spread: &[usize],
        singles: &[[View; 2]],
    ) -> Vec<Mover> {
        let properties = &self.memo.properties;
        let (assembly, conditions) = (&self.case.assembly, &self.stop.conditions);
        let mut effects: Vec<(f64, Lever<'_>)> = Vec::new();
        for (n, [low, high]) in spread.iter().zip(singles) {
            let effect = (high.named - low.named).abs();
            effects.push((effect, Lever::Material(&properties[*n])));
        }
        let humidity = |step| self.evaluate(assembly, &moved(conditions, step)).1;
        let effect = (humidity(HUMIDITY_STEP) - humidity(-HUMIDITY_STEP)).abs();
        effects.push((effect, Lever::Humidity));
        effects.retain(|(effect, _)| *effect > NO_EFFECT);
        effects.sort_by(|a, b| b.0.total_cmp(&a.0));
        let named = effects.iter().take(NAMED);
        named.map(|(_, lever)| self.mover(lever, nominal)).collect()
    }

    fn mover(&self, lever: &Lever<'_>, nominal: Status) -> Mover {
        let assembly = &self.case.assembly;
        let input = match lever {
            Lever::Humidity => Input::RoomHumidity,
            Lever::Material(property) => {
                let name = assembly.part_name(property);
                match property.kind {
                    PropertyKind::Conductivity => Input::Resistance(name),
                    PropertyKind::Vapor => Input::Permeance(name),
                }
            }
        };
        Mover {
            input,
            flip: self.flip(lever, nominal),
        }
    }

    /// Where the status changes: outward from the nominal value, downward first.
    fn flip(&self, lever: &Lever<'_>, nominal: Status) -> Option<Flip> {
        let conditions = &self.stop.conditions;
        let assembly = &self.case.assembly;
        let room = conditions.indoor.humidity.as_fraction();
        // Everything in one coordinate: humidity straight, factors by their logarithm.
        let (start, ends) = match lever {
            Lever::Humidity => (room, HUMIDITIES),
            Lever::Material(property) => {
                let reach = match property.kind {
                    PropertyKind::Conductivity => libm::log(RESISTANCE_REACH),
                    PropertyKind::Vapor => libm::log(PERMEANCE_REACH),
                };
                (0.0, [-reach, reach])
            }
        };
        let status = |x: f64| match lever {
            Lever::Humidity => self.evaluate(assembly, &moved(conditions, x - room)).0,
            Lever::Material(property) => {
                let changed = assembly.with(property, libm::exp(x));
                self.evaluate(&changed, conditions).0
            }
        };
        let changes = |end: f64| status(end).severity() != nominal.severity();
        let end = ends.into_iter().find(|end| changes(*end))?;
        let (mut near, mut far) = (start, end);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (near + far);
            if changes(middle) {
                far = middle
            } else {
                near = middle
            }
        }
        let at = 0.5 * (near + far);
        let value = |property: &Property, x: f64| {
            assembly
                .layer_value(property)
                .map(|value| value * libm::exp(x))
        };
        let (at, above) = match lever {
            Lever::Humidity => (
                FlipValue::Humidity(RelativeHumidity::from_fraction(at)),
                end > start,
            ),
            Lever::Material(property) => match property.kind {
                PropertyKind::Vapor => (
                    FlipValue::Permeance(Permeance::from_si(value(property, at)?)),
                    end > start,
                ),
                // More conductivity is less resistance.
                PropertyKind::Conductivity => (
                    FlipValue::Resistance(ThermalResistance::from_si(value(property, -at)?)),
                    end < start,
                ),
            },
        };
        Some(Flip {
            at,
            becomes: status(far),
            from: nominal,
            above,
        })
    }
}

/// Conditions with the room's humidity moved in every month, within what air can hold.
fn moved(conditions: &Conditions, step: f64) -> Conditions {
    let shift = |humidity: RelativeHumidity| {
        RelativeHumidity::from_fraction((humidity.as_fraction() + step).clamp(0.01, 1.0))
    };
    let mut moved = *conditions;
    moved.indoor.humidity = shift(moved.indoor.humidity);
    for month in moved.year.iter_mut().flatten() {
        month.indoor.humidity = shift(month.indoor.humidity);
    }
    moved
}
