//! What the materials' ranges do to a finding, and the values at which it flips.

use super::Status;
use crate::quantity::{Permeance, RelativeHumidity, ThermalResistance};

/// A finding at both corners of the materials' ranges, and what moves it.
#[derive(Clone, Debug, PartialEq)]
pub struct Range {
    /// At the nominal values.
    pub nominal: Status,
    /// At the adverse corner.
    pub adverse: Status,
    /// At the kind corner.
    pub kind: Status,
    /// Slack at the adverse and at the kind corner, in the check's own unit.
    pub slack: [f64; 2],
    /// The margin is too close to zero to be told from it.
    pub too_close: bool,
    /// The inputs that move the result most, the strongest first.
    pub movers: Vec<Mover>,
}

/// An input and the value at which it changes the status.
#[derive(Clone, Debug, PartialEq)]
pub struct Mover {
    /// Which input.
    pub input: Input,
    /// Where the status changes, if it does within reach.
    pub flip: Option<Flip>,
}

/// An input that can decide.
#[derive(Clone, Debug, PartialEq)]
pub enum Input {
    /// The room's relative humidity.
    RoomHumidity,
    /// The permeance of a layer, by its name.
    Permeance(String),
    /// The thermal resistance of a layer, by its name.
    Resistance(String),
}

/// A value of an input, at which the status changes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flip {
    /// The value.
    pub at: FlipValue,
    /// The status on the far side.
    pub becomes: Status,
    /// The status on the near side, at the nominal value.
    pub from: Status,
    /// Whether the far side lies above the value.
    pub above: bool,
}

/// The value of a flip in its own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FlipValue {
    /// Of the room.
    Humidity(RelativeHumidity),
    /// Of a layer at mid humidity.
    Permeance(Permeance),
    /// Of a layer.
    Resistance(ThermalResistance),
}
