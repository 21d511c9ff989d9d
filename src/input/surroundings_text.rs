//! What a project file says of the air on both sides and of the code it goes by.

use serde_json::{Value as Json, json};

use super::title::AnyText;
use crate::document::{At, FromNode, Node, Problems, Range, Value, Word, record, unexpected};
use crate::error::Span;
use crate::quantity::{
    Count, HumidityClass, Power, RelativeHumidity, Share, Temperature, Ventilation, Volume,
};

record! {
    /// Room air.
    pub struct IndoorText {
        /// Room temperature while heating.
        "heating" heating: required At<Temperature> ["32 °F", "113 °F"],
        /// Room temperature while cooling, or a block that states the humidity then as well; left out,
        /// the house isn't cooled.
        "cooling" cooling: optional CoolingText ["32 °F", "113 °F"],
        /// Room humidity, the same all year.
        "humidity" humidity: optional At<RelativeHumidity> ["0 %", "100 %"],
        /// Instead of it: a humidity class of ISO 13788, `1` (dry) to `5` (very damp).
        "humidity-class" humidity_class: optional At<HumidityClass>,
        /// Instead of it: what the household gives off and how it airs. Beside a stated humidity it
        /// tells whether that is likely.
        "moisture" moisture: optional MoistureText,
    }
}

record! {
    /// The cooled room.
    pub struct CoolingBlock {
        /// Room temperature while cooling.
        "temperature" temperature: required At<Temperature> ["32 °F", "113 °F"],
        /// The most humid it is then; left out, 60 % where its humidity follows the outdoors.
        "humidity" humidity: optional At<RelativeHumidity> ["0 %", "100 %"],
    }
}

/// A cooling set point: by its temperature, or as a block.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub)]
pub struct CoolingText(pub CoolingBlock);

impl FromNode for CoolingText {
    const MEASURED: bool = true;

    fn from_node_within(node: &Node, range: Range, problems: &mut Problems) -> Option<Self> {
        if !matches!(node.value, Value::Map(_)) {
            range.hold::<Temperature>(node, problems)?;
        }
        Self::from_node(node, problems)
    }

    fn schema_within(range: Range) -> Json {
        let temperature = At::<Temperature>::schema_within(range);
        json!({"anyOf": [temperature, CoolingBlock::schema()]})
    }

    fn expected() -> String {
        "a temperature such as `75 F`, or a block with `temperature:` and `humidity:`".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        if let Value::Map(_) = &node.value {
            return CoolingBlock::from_node(node, problems).map(Self);
        }
        let temperature = At::<Temperature>::from_node(node, problems)?;
        Some(Self(CoolingBlock {
            temperature,
            humidity: None,
            complete: true,
        }))
    }

    fn schema() -> Json {
        json!({"anyOf": [At::<Temperature>::schema(), CoolingBlock::schema()]})
    }
}

record! {
    /// A household's moisture.
    pub struct MoistureText {
        /// How many people live there.
        "people" people: needed At<Count> ["0", "100"],
        /// What is cooked on: `gas`, `propane` or `electric`.
        "cooking" cooking: optional At<Word>,
        /// Mean heat of an unvented propane heater.
        "unvented-heater" unvented_heater: optional At<Power> ["0 Btu/h", "100000 Btu/h"],
        /// Loads of laundry dried indoors in a week.
        "laundry" laundry: optional At<Count> ["0", "100"],
        /// Outdoor air brought in.
        "ventilation" ventilation: needed At<Ventilation> ["0 cfm", "5000 cfm"],
        /// The room's volume.
        "volume" volume: optional At<Volume> ["35 ft³", "350000 ft³"],
        /// Temperature factor of the coldest surface, such as a window's edge; 60 % if left out.
        "coldest-surface" coldest_surface: optional At<Share> ["0 %", "100 %"],
        /// A humidity to hold: the ventilation for it is told month by month.
        "target" target: optional At<RelativeHumidity> ["0 %", "100 %"],
    }
}

record! {
    /// Outdoor air.
    pub struct OutdoorText {
        /// Mean of the three coldest months: it decides pass or fail.
        "winter-mean" winter_mean: required AirText,
        /// The cold design value: alone it gives `depends`.
        "design-night" design_night: optional AirText,
        /// Where these values come from.
        "source" source: optional AnyText,
    }
}

record! {
    /// Air by temperature and humidity.
    pub struct AirText {
        /// Air temperature.
        "temperature" temperature: required At<Temperature> ["-60 °C", "70 °C"],
        /// Relative humidity.
        "humidity" humidity: required At<RelativeHumidity> ["0 %", "100 %"],
    }
}

record! {
    /// The code whose tables are held against the assemblies.
    pub struct CodeText {
        /// `IRC 2009`, `IRC 2012`, `IRC 2015`, `IRC 2018` or `IRC 2021`.
        "edition" edition: optional At<Word>,
        /// The climate zone, such as `6A` or `marine 4`; left out, the climate's own.
        "zone" zone: optional At<crate::climate::Zone>,
    }
}

record! {
    /// A climate of your own.
    pub struct ClimateBlock {
        /// What it is called.
        "name" name: optional At<Word>,
        /// A CSV file of monthly means or of hours, from this file's folder.
        "file" file: optional At<Word>,
        /// The climate zone it lies in.
        "zone" zone: optional At<crate::climate::Zone>,
        /// The cold design value.
        "design-night" design_night: optional AirText,
        /// Twelve months, written out.
        "months" months: optional Vec<MonthText>,
        /// Where its data come from, such as a station and its years.
        "source" source: optional AnyText,
    }
}

record! {
    /// One month of outdoor air.
    pub struct MonthText {
        /// Its name or number.
        "month" month: required At<Word>,
        /// Mean temperature.
        "temperature" temperature: required At<Temperature> ["-60 °C", "70 °C"],
        /// Relative humidity at it.
        "humidity" humidity: required At<RelativeHumidity> ["0 %", "100 %"],
    }
}

/// A climate: by a name or a file's name, or as a block.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub)]
pub enum ClimateText {
    /// The name of a built-in climate or of a CSV file.
    Named(At<Word>),
    /// Written out, with the place it stands.
    Block(Box<ClimateBlock>, Span),
}

impl ClimateText {
    /// Where it stands.
    pub(super) fn span(&self) -> Span {
        match self {
            Self::Named(name) => name.span,
            Self::Block(_, span) => *span,
        }
    }
}

impl FromNode for ClimateText {
    fn expected() -> String {
        format!(
            "one of {}, a CSV file, or a block",
            crate::climate::BUILT_IN.join(", ")
        )
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        match &node.value {
            Value::Map(_) => ClimateBlock::from_node(node, problems)
                .map(|block| Self::Block(Box::new(block), node.span)),
            Value::Text(text) if !text.is_empty() => {
                At::<Word>::from_node(node, problems).map(Self::Named)
            }
            _ => {
                problems.push(unexpected(node, &Self::expected()));
                None
            }
        }
    }

    fn schema() -> Json {
        json!({"anyOf": [{"type": "string"}, ClimateBlock::schema()]})
    }
}
