//! What the `sweep:` block holds, key by key.

use serde_json::{Value as Json, json};

use crate::document::{At, FromNode, Named, Node, Object, Problems, Range, Value, Word, record};
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
        "thickness" thickness: optional StepsText<Offset> ["0 in", "78 in"],
        /// What it is made of: materials of the library or of `materials:`.
        "material" material: optional Several<At<Word>>,
        /// The room's humidity all year: a list, or `{from: 30 %, to: 70 %, step: 5 %}`.
        "humidity" humidity: optional StepsText<RelativeHumidity> ["0 %", "100 %"],
        /// Climates, as under `climate:`.
        "climate" climate: optional Several<ClimateText>,
        /// Outdoor air the household brings in: a list, or `{from: 10 cfm, to: 60 cfm, step: 10 cfm}`.
        "ventilation" ventilation: optional StepsText<Ventilation> ["0 cfm", "5000 cfm"],
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
    const MEASURED: bool = At::<T>::MEASURED;

    fn expected() -> String {
        format!(
            "{}, a list of these, or `from:`, `to:` and `step:`",
            T::EXPECTED
        )
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        Self::read(node, None, problems)
    }

    fn from_node_within(node: &Node, range: Range, problems: &mut Problems) -> Option<Self> {
        Self::read(node, Some(range), problems)
    }

    fn schema() -> Json {
        Self::schema_of(&At::<T>::schema())
    }

    fn schema_within(range: Range) -> Json {
        Self::schema_of(&At::<T>::schema_within(range))
    }
}

impl<T: Quantity> StepsText<T> {
    fn read(node: &Node, range: Option<Range>, problems: &mut Problems) -> Option<Self> {
        let one = |node: &Node, problems: &mut Problems| match range {
            Some(range) => At::from_node_within(node, range, problems),
            None => At::from_node(node, problems),
        };
        match &node.value {
            Value::List(items) => {
                let before = problems.len();
                let values = items
                    .iter()
                    .filter_map(|item| one(item, problems))
                    .collect();
                (problems.len() == before).then_some(Self::List(values, node.span))
            }
            Value::Map(_) => {
                let mut object = Object::new(node, &GRID, problems)?;
                let ends = GRID.map(|key| object.required::<At<T>>(key, range, problems));
                let [from, to, step] = ends;
                let grid = from.zip(to).zip(step);
                Some(Self::Grid(grid.map(|((from, to), step)| [from, to, step])))
            }
            _ => {
                let one = one(node, problems)?;
                Some(Self::List(vec![one], node.span))
            }
        }
    }

    fn schema_of(one: &Json) -> Json {
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
