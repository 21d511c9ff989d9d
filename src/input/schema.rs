//! What a project file holds, key by key. This mirrors the YAML: nothing is judged here.

use serde_json::{Value as Json, json};

use super::detail::DetailNode;
use super::house::HouseText;
use super::prices::PricesText;
use super::size::SizeText;
use super::surroundings_text::{ClimateText, CodeText, IndoorText, OutdoorText};
use super::sweep::SweepsText;
use super::title::TitleText;
use crate::document::{At, FromNode, Named, Node, Problems, Value, Word, record};
use crate::material::MaterialText;
use crate::quantity::{
    Conductivity, Length, Permeability, Permeance, Share, TemperatureDifference, ThermalResistance,
    Thickness,
};

record! {
    /// A whole project.
    pub struct ProjectText {
        /// Title data.
        "project" project: optional TitleText,
        /// Room air.
        "indoor" indoor: needed IndoorText,
        /// Outdoor air where there is no climate: a winter mean and a design night.
        "outdoor" outdoor: optional OutdoorText,
        /// A built-in climate, a CSV file, a block of months, or a list of these: a route.
        "climate" climate: optional Several<ClimateText>,
        /// The code whose prescriptive tables are held against the assemblies.
        "code" code: optional CodeText,
        /// Your own materials; one named like a library material replaces it.
        "materials" materials: optional Named<MaterialText>,
        /// What materials cost: `currency:`, and under a material's name its price or a list of them.
        "prices" prices: optional PricesText,
        /// The build-ups, each with a name.
        "assemblies" assemblies: required Named<AssemblyText>,
        /// Cuts through the house, each with a name.
        "details" details: optional Named<DetailNode>,
        /// The whole house: fit on the road, weight, heat loss.
        "house" house: optional HouseText,
        /// Changes to compare with the assemblies and details as drawn, each with a name.
        "variants" variants: optional Named<Named<ChangeNode>>,
        /// Layers whose thickness is wanted, each with a name: `dewmargin size` finds the least
        /// that meets the targets.
        "size" size: optional Named<SizeText>,
        /// One assembly under every combination of some changes, or several such sweeps with
        /// names: `dewmargin sweep` judges them all.
        "sweep" sweep: optional SweepsText,
    }
}

record! {
    /// A build-up of layers.
    pub struct AssemblyText {
        /// `wall`, `floor` or `roof`.
        "kind" kind: needed At<Word>,
        /// Surface films, where the standard's aren't wanted.
        "films" films: optional FilmsText,
        /// Sun and night sky on the outer surface.
        "outer-surface" outer_surface: optional OuterSurfaceText,
        /// `flush`: joists level with the steel; `proud`: raised by what lies over the strips.
        "frame" frame: optional At<Word>,
        /// The layers from inside to outside.
        "layers" layers: required Vec<LayerText>,
        /// Metal bands that replace part of the area.
        "strips" strips: optional Vec<StripText>,
    }
}

record! {
    /// How sun and night sky move the outer surface away from the air's temperature.
    pub struct OuterSurfaceText {
        /// Mean warming by the sun in the coldest month.
        "sun-in-winter" sun_in_winter: optional At<TemperatureDifference> ["-15 K", "60 K"],
        /// Mean warming by the sun in the warmest month.
        "sun-in-summer" sun_in_summer: optional At<TemperatureDifference> ["-15 K", "60 K"],
        /// Mean cooling by the night sky.
        "night-sky" night_sky: optional At<TemperatureDifference> ["-15 K", "60 K"],
    }
}

record! {
    /// Surface films.
    pub struct FilmsText {
        /// `iso-6946` or `handbook`: where the values come from that aren't given here.
        "values" values: optional At<Word>,
        /// At the room's surface.
        "inside" inside: optional FilmText,
        /// At the outer surface.
        "outside" outside: optional FilmText,
    }
}

record! {
    /// One film.
    pub struct FilmText {
        /// Its thermal resistance.
        "resistance" resistance: optional At<ThermalResistance> ["R-0", "R-10"],
        /// Its vapor permeance; left out, the film doesn't resist vapor.
        "permeance" permeance: optional At<Permeance> ["0 perm", "17000 perm"],
    }
}

record! {
    /// One layer.
    pub struct LayerText {
        /// Your name for it.
        "name" name: required At<Word>,
        /// A material of the library or of `materials:`.
        "material" material: optional At<Word>,
        /// For a gap instead of a material: `still`, `vented` or `ventilated`.
        "air" air: optional At<Word>,
        /// Its thickness, or a sheet gauge.
        "thickness" thickness: optional At<Thickness> ["0.001 mm", "78.75 in"],
        /// Its thermal resistance, instead of the material's.
        "r-value" r_value: optional At<ThermalResistance> ["R-0", "R-200"],
        /// Its conductivity, instead of the material's.
        "conductivity" conductivity: optional At<Conductivity> ["0.001 W/mK", "500 W/mK"],
        /// Its permeance, instead of the material's.
        "permeance" permeance: optional At<Permeance> ["0 perm", "17000 perm"],
        /// Its permeability, instead of the material's.
        "permeability" permeability: optional At<Permeability> ["0 perm-in", "200 perm-in"],
        /// For a layer without a material: what it is, such as `wood` or `insulation`.
        "kind" kind: optional At<Word>,
        /// Sprayed on, or set in sealant or adhesive, with no air path around or behind it.
        "bonded" bonded: optional At<bool>,
        /// Water that gets here runs out: weep holes, a drained gap, a pan with a drain.
        "drains" drains: optional At<bool>,
        /// Wet when it is closed in: rained on, green lumber, put in with water.
        "built-in-water" built_in_water: optional At<bool>,
        /// Members crossing it.
        "framing" framing: optional FramingText,
    }
}

record! {
    /// Members crossing a layer, by width and spacing or by share.
    pub struct FramingText {
        /// What they are made of.
        "material" material: required At<Word>,
        /// Width of one member.
        "width" width: optional At<Length> ["0.02 in", "20 in"],
        /// From center to center.
        "spacing" spacing: optional At<Length> ["0.2 in", "32 ft"],
        /// Share of the area, plates and headers included.
        "share" share: optional At<Share> ["0 %", "100 %"],
        /// They run across the framing of the layer beside.
        "crosswise" crosswise: optional At<bool>,
    }
}

record! {
    /// A band of metal that reaches cold air.
    pub struct StripText {
        /// Your name for it.
        "name" name: required At<Word>,
        /// Where it lies: `edge`, under a wall, or `mid-floor`, as cross members do; `edge` if
        /// left out.
        "at" at: optional At<Word>,
        /// Its metal.
        "metal" metal: required At<Word>,
        /// The metal's thickness, or a sheet gauge.
        "thickness" thickness: needed At<Thickness> ["0.001 mm", "8 in"],
        /// Width of one strip.
        "width" width: needed At<Length> ["0.02 in", "65 ft"],
        /// Width of the deck the strips lie in.
        "across" across: needed At<Length> ["0.4 in", "320 ft"],
        /// How many there are across that width; 1 if left out.
        "count" count: optional At<u32> ["1", "1000"],
        /// The layer it lies directly under.
        "under" under: required At<Word>,
        /// Layers between that one and the metal, inside to outside.
        "over" over: optional Vec<LayerText>,
    }
}

record! {
    /// What a variant changes in one assembly.
    pub struct ChangeText {
        /// `flush` or `proud`.
        "frame" frame: optional At<Word>,
        /// Layers to add.
        "add" add: optional Several<AddText>,
        /// Layers to replace.
        "replace" replace: optional Several<ReplaceText>,
        /// Layers or strips to remove, by name.
        "remove" remove: optional Several<At<Word>>,
    }
}

record! {
    /// A layer to add, and where: one of the three places.
    pub struct AddText {
        /// Directly over the metal of this strip.
        "over" over: optional At<Word>,
        /// On the room's side of this layer.
        "inside-of" inside_of: optional At<Word>,
        /// On the outer side of this layer.
        "outside-of" outside_of: optional At<Word>,
        /// The layer.
        "layer" layer: required LayerText,
    }
}

record! {
    /// A layer to replace.
    pub struct ReplaceText {
        /// The layer's name.
        "layer" layer: required At<Word>,
        /// What stands there instead.
        "with" with: required LayerText,
    }
}

/// What a variant changes in an assembly or a detail: only the name tells which of them it is.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub)]
pub struct ChangeNode(pub(super) Node);

impl FromNode for ChangeNode {
    fn expected() -> String {
        ChangeText::expected()
    }

    fn from_node(node: &Node, _: &mut Problems) -> Option<Self> {
        Some(Self(node.clone()))
    }

    fn schema() -> Json {
        let detail = json!({
            "type": "object",
            "description": "Keys of a detail, in the place of its own.",
        });
        json!({"anyOf": [ChangeText::schema(), detail]})
    }
}

/// One of something, or a list of them.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub)]
pub struct Several<T>(pub Vec<T>);

impl<T: FromNode> FromNode for Several<T> {
    const MEASURED: bool = T::MEASURED;

    fn expected() -> String {
        T::expected()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        match &node.value {
            Value::List(_) => Vec::from_node(node, problems).map(Self),
            _ => T::from_node(node, problems).map(|one| Self(vec![one])),
        }
    }

    fn schema() -> Json {
        json!({"anyOf": [T::schema(), {"type": "array", "items": T::schema()}]})
    }
}
