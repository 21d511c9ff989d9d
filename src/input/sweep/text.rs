//! What the `sweep:` block holds, key by key.

use serde_json::{Value as Json, json};

use crate::document::{At, FromNode, Named, Node, Object, Problems, Value, Word, record};
use crate::error::Span;
use crate::input::schema::Several;
use crate::input::surroundings_text::ClimateText;
use crate::quantity::{Offset, Quantity, RelativeHumidity, Ventilation};

record! {
    /// One assembly under every combination of some changes.
    pub struct SweepText {
        /// The assembly.
        "of" of: required At<Word>,
        /// What is changed, each with a name of yours: it heads a column.
        "axes" axes: required Named<AxisText>,
    }
}

record! {
    /// One thing that is changed: the room's humidity, the climate, the ventilation, or a layer's
    /// thickness or material.
    pub struct AxisText {
        /// The layer whose thickness or material is changed.
        "layer" layer: optional At<Word>,
        /// Its thicknesses: a list, or `{from: 0 in, to: 3 in, step: 1/2 in}`; 0 is without it.
        "thickness" thickness: optional StepsText<Offset>,
        /// What it is made of: materials of the library or of `materials:`.
        "material" material: optional Several<At<Word>>,
        /// The room's humidity all year: a list, or `{from: 30 %, to: 70 %, step: 5 %}`.
        "humidity" humidity: optional StepsText<RelativeHumidity>,
        /// Climates, as under `climate:`.
        "climate" climate: optional Several<ClimateText>,
        /// Outdoor air the household brings in: a list, or `{from: 10 cfm, to: 60 cfm, step: 10 cfm}`.
        "ventilation" ventilation: optional StepsText<Ventilation>,
    }
}

/// Values one by one, or evenly spaced.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub)]
pub enum StepsText<T> {
    /// As listed, and where an empty list stands.
    List(Vec<At<T>>, Span),
    /// From the first to the last; all three may be unreadable.
    Grid(Option<[At<T>; 3]>),
}

const GRID: [&str; 3] = ["from", "to", "step"];

impl<T: Quantity> FromNode for StepsText<T> {
    fn expected() -> String {
        format!(
            "{}, a list of these, or `from:`, `to:` and `step:`",
            T::EXPECTED
        )
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        match &node.value {
            Value::List(_) => {
                let before = problems.len();
                let values = Vec::from_node(node, problems)?;
                (problems.len() == before).then_some(Self::List(values, node.span))
            }
            Value::Map(_) => {
                let mut object = Object::new(node, &GRID, problems)?;
                let ends = GRID.map(|key| object.required::<At<T>>(key, problems));
                let [from, to, step] = ends;
                let grid = from.zip(to).zip(step);
                Some(Self::Grid(grid.map(|((from, to), step)| [from, to, step])))
            }
            _ => {
                let one = At::<T>::from_node(node, problems)?;
                Some(Self::List(vec![one], node.span))
            }
        }
    }

    fn schema() -> Json {
        let one = At::<T>::schema();
        let grid = json!({
            "type": "object",
            "properties": {"from": one, "to": one, "step": one},
            "required": GRID,
            "additionalProperties": false,
        });
        json!({"anyOf": [one, {"type": "array", "items": one}, grid]})
    }
}

/// The block: one sweep, or several with names.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub)]
pub struct SweepsText(pub Vec<(Option<At<Word>>, SweepText)>);

impl FromNode for SweepsText {
    fn expected() -> String {
        "a block with `of:` and `axes:`, or a block of such blocks, each with a name".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        let is_one =
            |key: &Node| matches!(&key.value, Value::Text(text) if text == "of" || text == "axes");
        match &node.value {
            Value::Map(entries) if entries.iter().any(|(key, _)| is_one(key)) => {
                SweepText::from_node(node, problems).map(|one| Self(vec![(None, one)]))
            }
            _ => {
                let named = Named::<SweepText>::from_node(node, problems)?;
                let named = named.entries.into_iter();
                Some(Self(named.map(|(name, one)| (Some(name), one)).collect()))
            }
        }
    }

    fn schema() -> Json {
        json!({"anyOf": [SweepText::schema(), Named::<SweepText>::schema()]})
    }
}
