//! What a remedy may ask for: the boards the file builds with, and a little from the library.

use super::substance::plain;
use crate::material::{Library, Material, boards};
use crate::model::drawn::DetailCase;
use crate::model::{Case, Content, Layer, SoldBoard, Stock};
use crate::quantity::Length;

/// The board that is asked for where the file has none (common practice).
const USUAL: &str = "xps";
/// Class II, a film that opens when humid, class I.
const RETARDERS: [&str; 3] = ["kraft facing", "polyamide film", "polyethylene"];

/// The boards of all cases in the order they are met, those over strips first.
pub(super) fn stock(library: &Library, cases: &[Case], details: &[DetailCase]) -> Stock {
    let of_details = details.iter().filter_map(|detail| detail.plan.as_ref());
    let drawn = of_details.flat_map(|plan| plan.assemblies());
    let assemblies = cases.iter().map(|case| &case.assembly).chain(drawn);
    let strips = assemblies.flat_map(|assembly| &assembly.strips);
    let over = strips.flat_map(|strip| &strip.over);
    let among = cases.iter().flat_map(|case| &case.assembly.layers);
    let made_of = |layer: &Layer| match &layer.content {
        Content::Solid(substance) => Some(substance.label.clone()),
        Content::Air(_) => None,
    };
    let mut found: Vec<SoldBoard> = Vec::new();
    let mut labels: Vec<String> = Vec::new();
    for label in over.chain(among).filter_map(made_of) {
        if !labels.contains(&label) {
            labels.push(label);
        }
    }
    let names = labels.iter().map(String::as_str).chain([USUAL]);
    let known = boards(library, &names.collect::<Vec<_>>());
    let own = labels
        .iter()
        .filter_map(|label| known.iter().find(|(one, _)| one.name == *label));
    let usual = known.iter().find(|(one, _)| one.id == USUAL);
    for (material, sold) in own.chain(usual) {
        let label = |one: &SoldBoard| one.substance.label == material.name;
        if !found.iter().any(label) {
            found.push(board(material, sold));
        }
    }
    let retarders = RETARDERS.iter().filter_map(|name| library.find(name));
    Stock {
        boards: found,
        retarders: retarders.map(|found| plain(&found)).collect(),
    }
}

fn board(material: &Material, sold: &[Length]) -> SoldBoard {
    // `eps-type-ii` is said `EPS type II`.
    let word = |word: &str| match word.len() {
        ..=3 => word.to_uppercase(),
        _ => word.to_owned(),
    };
    let words: Vec<String> = material.id.split('-').map(word).collect();
    SoldBoard {
        name: words.join(" "),
        substance: plain(material),
        sold: sold.to_vec(),
    }
}
