//! What a project file holds of layers to be sized, key by key.

use serde_json::{Value as Json, json};

use crate::document::{At, FromNode, Node, Problems, Value, Word, record};
use crate::input::schema::{FramingText, LayerText, Several};
use crate::quantity::{
    Conductivity, Days, Factor, Length, Offset, Permeability, Permeance, RelativeHumidity,
    TemperatureDifference, ThermalTransmittance,
};

record! {
    /// A layer whose thickness is wanted, and what it has to meet.
    pub struct SizeText {
        /// The layer: the name of one that is there, or a new one with its place.
        "layer" layer: required SizedLayer,
        /// The assembly it is in, or several; left out, the one that has that place.
        "in" within: optional Several<At<Word>>,
        /// `flush` or `proud`, as in a variant.
        "frame" frame: optional At<Word>,
        /// The variant to start from; left out, the file as drawn.
        "variant" variant: optional At<Word>,
        /// The assemblies and details that have to meet the targets; left out, those the layer is
        /// in and every detail drawn from them.
        "of" of: optional Several<At<Word>>,
        /// What has to be met.
        "targets" targets: required TargetsText,
        /// The conditions margins are taken at: `winter mean` (if left out), `design night`, or both.
        /// `corner` beside them says what goes without saying: an edge with an outside corner is sized
        /// there too.
        "at" at: optional Several<At<Word>>,
        /// The place whose margins count, such as `subfloor inboard of the plate`; left out, every
        /// place that is judged.
        "place" place: optional At<Word>,
        /// The thicknesses you can buy; left out, those the material is commonly sold in.
        "sold" sold: optional Vec<At<Length>> ["0.001 mm", "78.75 in"],
        /// The least and the greatest thickness looked at: `[0 in, 4 in]`.
        "between" between: optional Vec<At<Offset>> ["0 in", "78 in"],
        /// The room's humidity it is sized for; left out, the file's.
        "humidity" humidity: optional At<RelativeHumidity> ["0 %", "100 %"],
    }
}

record! {
    /// Targets, at least one.
    pub struct TargetsText {
        /// How far places that leaking room air reaches stay above its dew point.
        "leak-margin" leak_margin: optional At<TemperatureDifference> ["0 °F", "54 °F"],
        /// How far wood and open insulation stay above the dew point of the vapor that diffuses there.
        "dew-point-margin" dew_point_margin: optional At<TemperatureDifference> ["0 °F", "54 °F"],
        /// The least temperature factor of the room's surfaces, for mold.
        "temperature-factor" temperature_factor: optional At<Factor> ["0.01", "0.99"],
        /// The greatest U-value; with strips in it, of the greater end of the bracket.
        "u-value" u_value: optional At<ThermalTransmittance> ["U-0.002", "U-5"],
        /// Whether 1 kg/m² put at any vulnerable plane has to be gone within a year.
        "dry-within-the-year" dry_within_the_year: optional At<bool>,
        /// Within how many days it has to be gone.
        "days-to-dry" days_to_dry: optional At<Days> ["1", "3650"],
    }
}

record! {
    /// A layer to add, and where: one of the three places. Its thickness is what is wanted.
    pub struct NewLayerText {
        /// Directly over the metal of this strip.
        "over" over: optional At<Word>,
        /// On the room's side of this layer.
        "inside-of" inside_of: optional At<Word>,
        /// On the outer side of this layer.
        "outside-of" outside_of: optional At<Word>,
        /// Your name for it; the material's if left out.
        "name" name: optional At<Word>,
        /// A material of the library or of `materials:`.
        "material" material: required At<Word>,
        /// Its conductivity, instead of the material's.
        "conductivity" conductivity: optional At<Conductivity> ["0.001 W/mK", "500 W/mK"],
        /// Its permeance, instead of the material's.
        "permeance" permeance: optional At<Permeance> ["0 perm", "17000 perm"],
        /// Its permeability, instead of the material's.
        "permeability" permeability: optional At<Permeability> ["0 perm-in", "200 perm-in"],
        /// Sprayed on, or set in sealant or adhesive, with no air path around or behind it.
        "bonded" bonded: optional At<bool>,
        /// Water that gets here runs out.
        "drains" drains: optional At<bool>,
        /// Wet when it is closed in.
        "built-in-water" built_in_water: optional At<bool>,
        /// Members crossing it.
        "framing" framing: optional FramingText,
    }
}

/// The layer to be sized.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub, clippy::large_enum_variant)]
pub enum SizedLayer {
    /// One that is there, by name.
    Named(At<Word>),
    /// One to add.
    New(NewLayerText),
}

impl FromNode for SizedLayer {
    fn expected() -> String {
        "a layer's name, or a block with `over:`, `inside-of:` or `outside-of:` and `material:`"
            .into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        match &node.value {
            Value::Map(_) => NewLayerText::from_node(node, problems).map(Self::New),
            _ => At::<Word>::from_node(node, problems).map(Self::Named),
        }
    }

    fn schema() -> Json {
        json!({"anyOf": [At::<Word>::schema(), NewLayerText::schema()]})
    }
}

impl NewLayerText {
    /// What it is called.
    pub(in crate::input) fn name(&self) -> &At<Word> {
        self.name.as_ref().unwrap_or(&self.material)
    }

    /// It as any other layer, at a thickness to start from.
    pub(in crate::input) fn layer(&self, thickness: crate::quantity::Thickness) -> LayerText {
        LayerText {
            material: Some(self.material.clone()),
            thickness: Some(At {
                value: thickness,
                span: self.material.span,
            }),
            conductivity: self.conductivity.clone(),
            permeance: self.permeance.clone(),
            permeability: self.permeability.clone(),
            bonded: self.bonded.clone(),
            drains: self.drains.clone(),
            built_in_water: self.built_in_water.clone(),
            framing: self.framing.clone(),
            ..crate::input::layer::bare(self.name())
        }
    }
}
