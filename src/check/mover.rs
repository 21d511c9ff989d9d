//! The inputs that move a finding most, and the values at which each of them changes its status.

use super::Status;
use super::flip::{Flip, FlipValue, Input, Mover};
use super::range::Aim;
use crate::model::{Conditions, Property, PropertyKind};
use crate::quantity::{Permeance, RelativeHumidity, ThermalResistance};

/// Where flip values of the room's humidity are looked for.
const HUMIDITIES: [f64; 2] = [0.20, 0.80];
/// Factor up and down within which flip values of a permeance are looked for.
const PERMEANCE_REACH: f64 = 30.0;
/// The same for a resistance.
const RESISTANCE_REACH: f64 = 2.5;
/// Halvings of the span in which a status changes: to a hundredth of it.
const HALVINGS: usize = 9;

/// What is moved.
pub(super) enum Lever<'a> {
    Humidity,
    Material(&'a Property),
}

impl Aim<'_> {
    pub(super) fn mover(&self, lever: &Lever<'_>, nominal: Status) -> Mover {
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
pub(super) fn moved(conditions: &Conditions, step: f64) -> Conditions {
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
