//! What a project file holds of details, key by key.

use serde_json::Value as Json;

use super::point::Point;
use crate::document::{At, FromNode, Node, Problems, Value, Word, record};
use crate::quantity::{Conductivity, Length, Offset, Temperature, ThermalResistance, Thickness};

record! {
    /// A cut through the house: drawn by rectangles, or generated; or a piece of it, drawn by boxes.
    pub struct DetailText {
        /// Size of a cut drawn by rectangles, or of a piece drawn by boxes.
        "cut" cut: optional CutText,
        /// Solids in drawing order.
        "rectangles" rectangles: optional Vec<RectangleText>,
        /// The same in three dimensions: `from:` and `to:` have three numbers.
        "boxes" boxes: optional Vec<RectangleText>,
        /// Where air lies, beneath the solids.
        "air" air: optional Vec<AirText>,
        /// Faces held at a temperature, or edges of the cut that lie open to air.
        "faces" faces: optional Vec<FaceText>,
        /// Lines that leaking air doesn't cross.
        "seals" seals: optional Vec<SealText>,
        /// Places whose temperature is wanted.
        "points" points: optional Vec<PointText>,
        /// Where floor and wall meet the steel frame: generated.
        "floor-edge" floor_edge: optional FloorEdgeText,
        /// Steel under the floor on a pitch: generated.
        "cross-members" cross_members: optional CrossMembersText,
        /// Where wall and roof meet above the room, and its upper corner: generated.
        "roof-edge" roof_edge: optional RoofEdgeText,
    }
}

record! {
    /// A place whose temperature is wanted.
    pub struct PointText {
        /// Your name for it.
        "name" name: required At<Word>,
        /// Where, from the cut's lower left corner: `[x, y]`, or `[x, y, z]` among boxes.
        "at" at: needed Point,
    }
}

record! {
    /// Size of a cut.
    pub struct CutText {
        /// From left to right, x.
        "width" width: needed At<Length> ["0.04 in", "1000 m"],
        /// Of a piece drawn by boxes: from front to back, y; z then runs upward.
        "depth" depth: optional At<Length> ["0.04 in", "1000 m"],
        /// From bottom to top.
        "height" height: needed At<Length> ["0.04 in", "1000 m"],
    }
}

record! {
    /// A rectangle or a box of solid, or of air shut in.
    pub struct RectangleText {
        /// Your name for it.
        "name" name: required At<Word>,
        /// A material of the library or of `materials:`.
        "material" material: optional At<Word>,
        /// Its conductivity, with or instead of a material.
        "conductivity" conductivity: optional At<Conductivity> ["0.001 W/mK", "10000 W/mK"],
        /// For a cavity: `still`.
        "air" air: optional At<Word>,
        /// Of a cavity: which way heat crosses it, `up`, `sideways` or `down`.
        "heat-flow" heat_flow: optional At<Word>,
        /// Lower left corner: `[x, y]`.
        "from" from: needed Point,
        /// Upper right corner: `[x, y]`.
        "to" to: needed Point,
        /// It is meant to lie over earlier rectangles.
        "covers" covers: optional At<bool>,
        /// No air path around or behind it.
        "bonded" bonded: optional At<bool>,
    }
}

record! {
    /// A rectangle of air.
    pub struct AirText {
        /// `room`, `outdoors`, or a space of its own.
        "name" name: required At<Word>,
        /// Of a space of its own: its temperature.
        "temperature" temperature: optional At<Temperature> ["-60 °C", "70 °C"],
        /// Lower left corner: `[x, y]`.
        "from" from: needed Point,
        /// Upper right corner: `[x, y]`.
        "to" to: needed Point,
        /// Films of the faces that meet it, where the standard's aren't wanted.
        "films" films: optional AirFilmsText,
        /// Outdoor air in a ventilated gap: the inner film stands there.
        "sheltered" sheltered: optional At<bool>,
    }
}

record! {
    /// Films by the way a face looks.
    pub struct AirFilmsText {
        /// Of faces that look up, as a floor does.
        "up" up: optional At<ThermalResistance> ["R-0", "R-10"],
        /// Of faces that look sideways.
        "sideways" sideways: optional At<ThermalResistance> ["R-0", "R-10"],
        /// Of faces that look down, as a ceiling does.
        "down" down: optional At<ThermalResistance> ["R-0", "R-10"],
    }
}

record! {
    /// A line along the surface of a solid.
    pub struct FaceText {
        /// Your name for it.
        "name" name: required At<Word>,
        /// One end: `[x, y]`.
        "from" from: needed Point,
        /// The other end: `[x, y]`.
        "to" to: needed Point,
        /// The temperature it is held at, with no film.
        "temperature" temperature: optional At<Temperature> ["-60 °C", "70 °C"],
        /// Instead of it: the air it meets, `room` or `outdoors`.
        "air" air: optional At<Word>,
        /// The film there, where the standard's isn't wanted.
        "film" film: optional At<ThermalResistance> ["R-0", "R-10"],
    }
}

record! {
    /// A line that leaking air doesn't cross.
    pub struct SealText {
        /// Your name for it.
        "name" name: required At<Word>,
        /// One end: `[x, y]`.
        "from" from: needed Point,
        /// The other end: `[x, y]`.
        "to" to: needed Point,
    }
}

record! {
    /// Where floor and wall meet the steel frame.
    pub struct FloorEdgeText {
        /// The floor, an assembly of this file.
        "floor" floor: required At<Word>,
        /// The wall, an assembly of this file.
        "wall" wall: required At<Word>,
        /// The strip of the floor that floor and wall stand on.
        "flange" flange: required At<Word>,
        /// How far the flange reaches inboard of the wall's inner face; left out, frame and wall
        /// are flush outside.
        "flange-reach" flange_reach: optional At<Offset> ["-40 in", "40 in"],
        /// The frame's edge member below the flange.
        "rail" rail: optional RailText,
        /// `flush` or `proud`, where it isn't as in the floor.
        "frame" frame: optional At<Word>,
        /// The floor's layer the plate stands on; left out, the outermost wooden one above the
        /// flange.
        "deck" deck: optional At<Word>,
        /// The wall's bottom plate; left out, 1.5 in of the studs' wood.
        "plate" plate: optional PlateText,
        /// The joist along the edge; left out, 1.5 in of the joists' wood.
        "rim-joist" rim_joist: optional PlateText,
        /// Foam over the flange.
        "foam" foam: optional FoamText,
        /// An air seal on the room side of the wood that stays on the steel.
        "seal" seal: optional EdgeSealText,
        /// `outside` where this edge meets another like it at an outside corner of the house, judged
        /// there too; `none` where it doesn't. `outside` if left out.
        "corner" corner: optional At<Word>,
        /// How far the cut runs into the floor from the wall's inner face; 40 in if left out.
        "inboard" inboard: optional At<Length> ["1 in", "100 ft"],
        /// How far it runs up from the floor's surface; 40 in if left out.
        "up" up: optional At<Length> ["1 in", "100 ft"],
    }
}

record! {
    /// The frame's edge member.
    pub struct RailText {
        /// `tube`, `angle` or `channel`.
        "shape" shape: required At<Word>,
        /// What it is made of.
        "material" material: required At<Word>,
        /// Overall height below the flange; left out, down to the pan.
        "height" height: optional At<Length> ["0.1 in", "78 in"],
        /// Overall width; an angle without one has the flange as its other leg.
        "width" width: optional At<Length> ["0.1 in", "78 in"],
        /// Thickness of its walls, or a sheet gauge.
        "thickness" thickness: needed At<Thickness> ["0.001 in", "12 in"],
        /// Of a tube: `false` where it is solid.
        "hollow" hollow: optional At<bool>,
    }
}

record! {
    /// A wooden member in section.
    pub struct PlateText {
        /// What it is made of.
        "material" material: optional At<Word>,
        /// A plate's height, a joist's width.
        "thickness" thickness: optional At<Length> ["0.04 in", "40 in"],
    }
}

record! {
    /// Foam over the flange; its layers are those `over` the strip.
    pub struct FoamText {
        /// `plate-inner-edge` or `under-plate`.
        "reach" reach: required At<Word>,
    }
}

record! {
    /// An air seal at the floor edge.
    pub struct EdgeSealText {
        /// Where it starts: `wall-lining` (the lining sealed over its whole height), `plate` or
        /// `deck` (the joint under the plate).
        "from" from: required At<Word>,
        /// Where it ends: `deck`, `flange` (packing and sheathing bedded on it) or `rim-joist`
        /// (that sealed all around as well).
        "to" to: required At<Word>,
    }
}

record! {
    /// Steel under the floor on a pitch.
    pub struct CrossMembersText {
        /// The floor, an assembly of this file.
        "floor" floor: required At<Word>,
        /// The strip of the floor that is a member's upper face.
        "strip" strip: required At<Word>,
        /// From center to center.
        "pitch" pitch: needed At<Length> ["0.4 in", "32 ft"],
        /// Overall height of a member; left out, down to the pan.
        "height" height: optional At<Length> ["0.1 in", "78 in"],
        /// Thickness of the web below the strip; left out, as the strip.
        "web" web: optional At<Length> ["0.001 in", "12 in"],
    }
}

record! {
    /// Where wall and roof meet above the room.
    pub struct RoofEdgeText {
        /// The wall, an assembly of this file.
        "wall" wall: required At<Word>,
        /// The roof, an assembly of this file.
        "roof" roof: required At<Word>,
        /// Height of the plates on the studs, all together; left out, two of 1.5 in.
        "plates" plates: optional At<Length> ["0.04 in", "40 in"],
        /// `outside` where two such walls meet under the roof at an outside corner of the house, judged
        /// there too; `none` where they don't. `outside` if left out.
        "corner" corner: optional At<Word>,
        /// How far the cut runs into the roof from the wall's inner face; 40 in if left out.
        "inboard" inboard: optional At<Length> ["1 in", "100 ft"],
        /// How far it runs down the wall from the ceiling; 40 in if left out.
        "down" down: optional At<Length> ["1 in", "100 ft"],
    }
}

/// A detail with its tree: variants replace parts of it.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub)]
pub struct DetailNode {
    /// As written.
    pub(in crate::input) node: Node,
    /// As read.
    pub(in crate::input) text: DetailText,
}

impl FromNode for DetailNode {
    fn expected() -> String {
        DetailText::expected()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        DetailText::from_node(node, problems).map(|text| Self {
            node: node.clone(),
            text,
        })
    }

    fn schema() -> Json {
        DetailText::schema()
    }
}

/// The keys that say of which kind a detail is.
const KINDS: [&str; 3] = ["floor-edge", "cross-members", "roof-edge"];
/// Keys that stand beside those.
const BESIDE: [&str; 7] = [
    "cut",
    "rectangles",
    "boxes",
    "air",
    "faces",
    "seals",
    "points",
];

/// A detail's tree with a variant's keys in the place of its own. Keys of a generated detail may
/// stand directly under its name.
pub(super) fn merged(base: &Node, change: &Node) -> Node {
    let (Value::Map(own), Value::Map(new)) = (&base.value, &change.value) else {
        return change.clone();
    };
    let key = |node: &Node| match &node.value {
        Value::Text(text) => text.clone(),
        _ => String::new(),
    };
    let kind = own
        .iter()
        .find(|(name, _)| KINDS.contains(&key(name).as_str()));
    let is_outer = |name: &Node| {
        let name = key(name);
        KINDS.contains(&name.as_str()) || BESIDE.contains(&name.as_str())
    };
    let (outer, inner): (Vec<_>, Vec<_>) = match kind {
        Some(_) => new.iter().cloned().partition(|(name, _)| is_outer(name)),
        None => (new.clone(), Vec::new()),
    };
    let mut entries = replaced(own, &outer);
    if let (Some((name, _)), false) = (kind, inner.is_empty()) {
        let inside = Node {
            value: Value::Map(inner),
            span: change.span,
        };
        entries = replaced(&entries, &[(name.clone(), inside)]);
    }
    Node {
        value: Value::Map(entries),
        span: base.span,
    }
}

/// Entries with others of the same key in their place; blocks are merged, lists are not.
fn replaced(own: &[(Node, Node)], new: &[(Node, Node)]) -> Vec<(Node, Node)> {
    let mut entries = own.to_vec();
    for (name, value) in new {
        match entries.iter_mut().find(|(own, _)| own.value == name.value) {
            Some((_, old)) => match (&old.value, &value.value) {
                (Value::Map(inside), Value::Map(with)) => {
                    *old = Node {
                        value: Value::Map(replaced(inside, with)),
                        span: old.span,
                    };
                }
                _ => *old = value.clone(),
            },
            None => entries.push((name.clone(), value.clone())),
        }
    }
    entries
}
