//! The materials of the packet: every property used, its range and its source.

use super::content::{Group, Item, Table};
use crate::material::{Source, VaporRate, sources};
use crate::model::{Assembly, Content, Spread, Substance};
use crate::quantity::{Conductivity, Dimension, Style};
use crate::study::Judged;

const HOW: &str = "Vapor at a humidity is at that of the air around. Range: the spread between specimens at the same \
    humidity; worst cases are taken over it. R is at each layer's own mean temperature where the conductivity depends on it. `seen` \
    was read in the source, `from memory` wasn't looked up, `computed` follows from values of the \
    source, `common practice` has none.";

/// The properties used, and the documents they come from.
pub(super) fn groups<'a>(judged: &'a [Judged<'a>], style: Style) -> [Group<'a>; 2] {
    let substances = substances(judged.iter().map(|one| &one.case.assembly));
    let headings = [
        "material",
        "property",
        "value",
        "in other units",
        "range",
        "source",
    ];
    let mut table = Table::new(&headings, headings.len());
    for substance in &substances {
        let mut name = substance.label.clone();
        for row in rows(substance, style) {
            let name = std::iter::once(std::mem::take(&mut name));
            table.row(name.chain(row).collect());
        }
    }
    let properties = vec![Item::Text(HOW.to_owned()), Item::Table(table)];
    [
        Group::narrow("Properties used", properties),
        cited(&substances),
    ]
}

/// Everything the assemblies are made of, each once.
fn substances<'a>(assemblies: impl Iterator<Item = &'a Assembly>) -> Vec<&'a Substance> {
    let mut all: Vec<&Substance> = Vec::new();
    let mut add = |substance: &'a Substance| {
        let same =
            |one: &&Substance| one.label == substance.label && one.sources == substance.sources;
        if !all.iter().any(same) {
            all.push(substance);
        }
    };
    for assembly in assemblies {
        let over = assembly.strips.iter().flat_map(|strip| &strip.over);
        for layer in assembly.layers.iter().chain(over) {
            if let Content::Solid(substance) = &layer.content {
                add(substance);
            }
            if let Some(framing) = &layer.framing {
                add(&framing.substance);
            }
        }
        assembly.strips.iter().for_each(|strip| add(&strip.metal));
    }
    all
}

fn rows(substance: &Substance, style: Style) -> Vec<[String; 5]> {
    let other = style.other();
    let mut rows: Vec<[String; 5]> = Vec::new();
    if let Some(k) = substance.conductivity {
        let print = |factor: f64, style: Style| {
            style.conductivity(Conductivity::from_si(k.as_si() * factor))
        };
        let range = range(substance.conductivity_spread, |low, high| {
            style.conductivity_range([low, high].map(|factor| k.as_si() * factor))
        });
        let source = source_of(substance, "conductivity");
        rows.push([
            "conductivity".into(),
            print(1.0, style),
            print(1.0, other),
            range,
            source,
        ]);
    } else if let Some(source) = stated(substance, "resistance") {
        let given = "as stated in the file".to_owned();
        rows.push([
            "resistance".into(),
            given,
            String::new(),
            String::new(),
            source,
        ]);
    }
    let (dimension, si) = match substance.vapor {
        VaporRate::PerSheet(permeance) => (Dimension::Permeance, permeance.as_si()),
        VaporRate::PerThickness(value) => (Dimension::Permeability, value.as_si()),
    };
    let vapor = |factor: f64, style: Style| dimension.show(si * factor, style);
    let range = range(substance.vapor_spread, |low, high| {
        dimension.range([low, high].map(|factor| si * factor), style)
    });
    let source = source_of(substance, "vapor");
    rows.push([
        "vapor".into(),
        vapor(1.0, style),
        vapor(1.0, other),
        range,
        source,
    ]);
    let others = substance
        .by_humidity
        .iter()
        .filter(|(_, factor)| *factor != 1.0);
    for (humidity, factor) in others {
        let what = format!("vapor at {}", style.show(*humidity));
        let values = [vapor(*factor, style), vapor(*factor, other)];
        let [own, in_other] = values;
        rows.push([what, own, in_other, String::new(), String::new()]);
    }
    if let Some(density) = substance.density {
        let source = source_of(substance, "density");
        let values = [style.show(density), other.show(density)];
        let [own, in_other] = values;
        rows.push(["density".into(), own, in_other, String::new(), source]);
    } else if let Some(weight) = substance.areal_density {
        let values = [style.show(weight), other.show(weight)];
        let [own, in_other] = values;
        let source = source_of(substance, "weight");
        rows.push(["weight".into(), own, in_other, String::new(), source]);
    }
    rows
}

/// From one end to the other, where the ends are known.
fn range(spread: Spread, print: impl Fn(f64, f64) -> String) -> String {
    match spread.is_known() {
        true => print(spread.low, spread.high),
        false => "none known".to_owned(),
    }
}

fn stated(substance: &Substance, what: &str) -> Option<String> {
    let mut words = substance.sources.iter();
    words.find_map(|words| Some(words.strip_prefix(what)?.strip_prefix(": ")?.to_owned()))
}

/// Where a value comes from; of a layer given by numbers alone one source holds for both.
fn source_of(substance: &Substance, what: &str) -> String {
    let both = || stated(substance, "resistance and vapor");
    stated(substance, what).or_else(both).unwrap_or_default()
}

/// The documents behind the names of sources.
fn cited<'a>(substances: &[&Substance]) -> Group<'a> {
    let words = substances.iter().flat_map(|substance| &substance.sources);
    let names: Vec<&str> = words
        .filter_map(|words| words.split_once(": ").map(|(_, name)| name))
        .filter_map(|name| name.split(' ').next())
        .collect();
    let all = sources();
    let found = all
        .iter()
        .filter(|source| names.contains(&source.id.as_str()));
    let items = found.map(|source| Item::Text(document(source)));
    Group::narrow("Sources of the properties", items.collect())
}

fn document(source: &Source) -> String {
    let title = source.title.trim_end_matches('.');
    format!("{}: {title}. {}", source.id, source.detail)
}
