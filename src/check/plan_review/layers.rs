//! What a reviewer misses in layers, members, strips and drawn rectangles.

use super::{Item, Missing};
use crate::model::{Case, Content, Kind, Layer, Project, Substance};

pub(super) fn layers(project: &Project) -> Vec<Missing> {
    let cases = project.cases.iter().flat_map(of_case);
    let blocks = project.details.iter().flat_map(|case| {
        // What is drawn from an assembly is asked for there.
        let own = case.blocks.iter().filter(|one| one.facts.from.is_none());
        own.filter_map(|one| unsourced(&one.facts.sources, &one.block.name, &case.name))
    });
    cases.chain(blocks).collect()
}

fn of_case(case: &Case) -> Vec<Missing> {
    let assembly = &case.assembly;
    let over = assembly.strips.iter().flat_map(|strip| &strip.over);
    let layers = assembly.layers.iter().chain(over);
    let mut missing: Vec<Missing> = layers
        .flat_map(|layer| of_layer(layer, &assembly.name))
        .collect();
    let metals = assembly.strips.iter();
    missing.extend(
        metals.filter_map(|strip| unsourced(&strip.metal.sources, &strip.name, &assembly.name)),
    );
    missing
}

fn of_layer(layer: &Layer, assembly: &str) -> Vec<Missing> {
    let mut missing = Vec::new();
    let place = || format!("{} of {assembly}", layer.name);
    let mut ask = |item, write: &str| {
        missing.push(Missing {
            item,
            place: place(),
            write: write.into(),
        });
    };
    if let Content::Solid(substance) = &layer.content {
        // A membrane or a coat of paint is known by its name.
        if layer.thickness.as_m() == 0.0 && substance.kind != Some(Kind::Membrane) {
            ask(Item::Thickness, "`thickness:` of the layer");
        }
        if layer.resistance.is_none() && resists(substance) && substance.conductivity.is_none() {
            ask(
                Item::Resistance,
                "`r-value:` of the layer, or `conductivity:` of its material",
            );
        }
        missing.extend(unsourced(&substance.sources, &layer.name, assembly));
    }
    if let Some(framing) = &layer.framing {
        let name = format!("{} framing", layer.name);
        missing.extend(unsourced(&framing.substance.sources, &name, assembly));
    }
    missing
}

/// Whether a reviewer looks for an R-value: sheets, metals and seals have next to none.
fn resists(substance: &Substance) -> bool {
    !matches!(
        substance.kind,
        Some(Kind::Membrane | Kind::Metal | Kind::Seal)
    )
}

fn unsourced(sources: &[String], name: &str, assembly: &str) -> Option<Missing> {
    sources
        .iter()
        .any(|source| source.ends_with(Substance::GIVEN))
        .then(|| Missing {
            item: Item::ValueSource,
            place: format!("{name} of {assembly}"),
            write: "the values under `materials:`, each with its `source:`, such as a data sheet"
                .into(),
        })
}
