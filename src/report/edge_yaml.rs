//! An edge drawn without being asked, as the lines of a file that draw it: to be put into the file
//! and corrected.

use crate::model::drawn::{
    FloorEdge, FoamReach, Rail, RailShape, RoofEdge, STATED_RAIL_METAL, STATED_WALL, StatedLayer,
};
use crate::model::{Assembly, DetailCase, DetailPlan};
use crate::quantity::{Length, UnitSystem, fixed, inches, unit::INCH};

/// The `details:` block that draws the same edge, and before it the `assemblies:` block of the wall
/// where a stated one stands on it; `None` for details that the file asks for.
///
/// The lines below `assemblies:` and `details:` belong under the keys of that name where the file
/// has them.
///
/// # Example
/// ```
/// use dewmargin::{quantity::UnitSystem, report::edge_yaml};
///
/// let text = include_str!("../../examples/cabin-floor.yaml");
/// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
/// let yaml = edge_yaml(&project.details[0], UnitSystem::Imperial).unwrap();
/// assert!(yaml.contains("  floor edge:\n    floor-edge:\n      floor: floor\n"));
/// assert!(yaml.contains("width: 2 in, thickness: 3/16 in"));
/// ```
#[must_use]
pub fn edge_yaml(case: &DetailCase, units: UnitSystem) -> Option<String> {
    let assumed = case.assumed.as_ref()?;
    let edge = match case.plan.as_ref()? {
        DetailPlan::FloorEdge(edge) => edge,
        DetailPlan::RoofEdge(edge) => return Some(roof_edge_block(edge, units)),
        DetailPlan::CrossMembers(_) => return None,
    };
    let wall = match &assumed.wall {
        Some(_) => String::new(),
        None => wall_block(&edge.wall, units),
    };
    Some(format!("{wall}{}", edge_block(edge, units)))
}

fn edge_block(edge: &FloorEdge, units: UnitSystem) -> String {
    let flange = edge.floor.strips.get(edge.flange);
    let mut lines = vec![
        "details:".to_owned(),
        format!("  {}:", word(&edge.name)),
        "    floor-edge:".to_owned(),
        format!("      floor: {}", word(&edge.floor.name)),
        format!("      wall: {}", word(&edge.wall.name)),
    ];
    lines.extend(flange.map(|flange| format!("      flange: {}", word(&flange.name))));
    lines.push("      # without `flange-reach:` frame and wall are flush outside".to_owned());
    if let Some(rail) = &edge.rail {
        if rail.height.is_none() {
            lines.push("      # without `height:` the rail runs down to the pan".to_owned());
        }
        lines.push(format!("      rail: {}", rail_block(rail, units)));
    }
    let reach = match edge.foam {
        FoamReach::PlateInnerEdge => "plate-inner-edge",
        FoamReach::UnderPlate => "under-plate",
    };
    lines.push(format!("      foam: {{reach: {reach}}}"));
    lines.push(String::new());
    lines.join("\n")
}

fn roof_edge_block(edge: &RoofEdge, units: UnitSystem) -> String {
    let lines = [
        "details:".to_owned(),
        format!("  {}:", word(&edge.name)),
        "    roof-edge:".to_owned(),
        format!("      wall: {}", word(&edge.wall.name)),
        format!("      roof: {}", word(&edge.roof.name)),
        format!("      plates: {}", written(edge.plates, units)),
        "      corner: outside".to_owned(),
        String::new(),
    ];
    lines.join("\n")
}

fn rail_block(rail: &Rail, units: UnitSystem) -> String {
    let shape = match rail.shape {
        RailShape::Tube => "tube",
        RailShape::Angle => "angle",
        RailShape::Channel => "channel",
    };
    let length = |key: &str, length: Option<Length>| {
        length.map(|length| format!("{key}: {}", written(length, units)))
    };
    let mut keys = vec![
        format!("shape: {shape}"),
        format!("material: {STATED_RAIL_METAL}"),
    ];
    keys.extend(length("height", rail.height));
    keys.extend(length("width", rail.width));
    keys.extend(length("thickness", Some(rail.thickness)));
    format!("{{{}}}", keys.join(", "))
}

fn wall_block(wall: &Assembly, units: UnitSystem) -> String {
    let mut lines = vec![
        "assemblies:".to_owned(),
        format!(
            "  {}:   # stated, since the file has no wall",
            word(&wall.name)
        ),
        "    kind: wall".to_owned(),
        "    layers:".to_owned(),
    ];
    let layers = STATED_WALL.iter();
    lines.extend(layers.map(|layer| format!("      - {{{}}}", layer_keys(layer, units))));
    lines.push(String::new());
    lines.join("\n")
}

fn layer_keys(layer: &StatedLayer, units: UnitSystem) -> String {
    let content = match layer.material {
        Some(material) => format!("material: {material}"),
        None => "air: ventilated".to_owned(),
    };
    let thickness = layer.thickness.map(Length::from_m);
    let mut keys = vec![format!("name: {}", layer.name), content];
    keys.extend(thickness.map(|thickness| format!("thickness: {}", written(thickness, units))));
    let keys = keys.join(", ");
    // On a line of its own, so that none gets wider than a terminal.
    match layer.framing {
        None => keys,
        Some((material, share)) => {
            let percent = number(share * 100.0);
            format!("{keys},\n         framing: {{material: {material}, share: {percent} %}}")
        }
    }
}

/// A length that reads back as the same: a fraction of an inch where it is one.
fn written(length: Length, units: UnitSystem) -> String {
    let meters = length.as_m();
    if units == UnitSystem::Metric {
        return format!("{} mm", number(meters * 1e3));
    }
    let sixteenths = meters / INCH * 16.0;
    match sixteenths >= 1.0 && (sixteenths - sixteenths.round()).abs() < 1e-9 {
        true => inches(length),
        false => format!("{} in", number(meters / INCH)),
    }
}

/// As many digits as tell, up to nine decimals.
fn number(value: f64) -> String {
    let text = fixed(value, 9);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A name as YAML takes it: in quotes where it holds more than letters, digits and plain signs.
fn word(name: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || " -_./()".contains(c);
    let starts = name.starts_with(char::is_alphanumeric);
    let is_plain = starts && !name.ends_with(' ') && name.chars().all(plain);
    match is_plain && !name.eq_ignore_ascii_case("null") {
        true => name.to_owned(),
        // A JSON string is a YAML string.
        false => serde_json::Value::from(name).to_string(),
    }
}
