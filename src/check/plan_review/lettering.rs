//! Characters that the sheets' lettering hasn't got.

use super::{Item, Missing, Paper};
use crate::model::{Assembly, Content, DetailCase, Layer, Project};

/// Most characters that are named at one place.
const MOST_NAMED: usize = 5;

pub(super) fn lettering(project: &Project, paper: &Paper<'_>) -> Vec<Missing> {
    let mut texts = of_project(project);
    for case in &project.cases {
        texts.extend(case.variant.iter().map(|name| variant(name)));
        texts.extend(of_assembly(&case.assembly));
    }
    texts.extend(project.details.iter().flat_map(of_detail));
    texts
        .into_iter()
        .filter_map(|(place, text)| {
            let strange = strange(text, paper);
            (!strange.is_empty()).then(|| Missing {
                item: Item::Lettering,
                place,
                write: format!("other characters than {}", strange.join(", ")),
            })
        })
        .collect()
}

/// The characters of a text that can't be drawn, each once, in its order. Where a line breaks is
/// up to the sheet.
fn strange(text: &str, paper: &Paper<'_>) -> Vec<String> {
    let mut found: Vec<char> = Vec::new();
    for c in text.chars() {
        if c != '\n' && !found.contains(&c) && !(paper.letters)(c) {
            found.push(c);
        }
    }
    let named = found.iter().take(MOST_NAMED);
    let mut named: Vec<String> = named.map(|c| format!("`{c}`")).collect();
    if found.len() > MOST_NAMED {
        named.push("and others".into());
    }
    named
}

type Text<'a> = (String, &'a str);

fn of_project(project: &Project) -> Vec<Text<'_>> {
    let title = &project.title_data;
    let mut texts: Vec<Text<'_>> = [
        ("title", &title.title),
        ("sheet prefix", &title.sheet_prefix),
        ("designer", &title.designer),
        ("owner", &title.owner),
        ("address", &title.address),
        ("revision", &title.revision),
        ("code basis", &title.code_basis),
        ("file name", &project.file),
    ]
    .map(|(place, text)| (place.to_owned(), text.as_str()))
    .into();
    for stop in &project.stops {
        let place = |what: &str| match stop.name.as_str() {
            "" => format!("{what} of the outdoor air"),
            name => format!("{what} of climate {name}"),
        };
        texts.push((place("name"), &stop.name));
        texts.push((place("source"), &stop.origin));
    }
    texts
}

fn variant(name: &str) -> Text<'_> {
    ("name of a variant".to_owned(), name)
}

fn of_assembly(assembly: &Assembly) -> Vec<Text<'_>> {
    let name = |what: &str| format!("{what} of {}", assembly.name);
    let mut texts = vec![("name of an assembly".to_owned(), assembly.name.as_str())];
    let over = assembly.strips.iter().flat_map(|strip| &strip.over);
    for layer in assembly.layers.iter().chain(over) {
        texts.extend(of_layer(layer).map(|text| (name("layers"), text)));
    }
    for strip in &assembly.strips {
        let words = [&strip.name, &strip.metal.label].into_iter();
        let words = words.chain(&strip.metal.sources);
        texts.extend(words.map(|text| (name("strips"), text.as_str())));
    }
    texts
}

/// A layer's name, what it is made of, and where its values come from.
fn of_layer(layer: &Layer) -> impl Iterator<Item = &str> {
    let substance = match &layer.content {
        Content::Solid(substance) => Some(substance),
        Content::Air(_) => None,
    };
    let member = layer.framing.as_ref().map(|framing| &framing.substance);
    let made_of = substance.into_iter().chain(member);
    let words = made_of.flat_map(|one| std::iter::once(&one.label).chain(&one.sources));
    std::iter::once(&layer.name)
        .chain(words)
        .map(String::as_str)
}

fn of_detail(case: &DetailCase) -> Vec<Text<'_>> {
    let place = format!("names in {}", case.name);
    let blocks = case.blocks.iter();
    let blocks = blocks.flat_map(|one| [&one.block.name, &one.block.label]);
    let airs = case.airs.iter().map(|air| &air.name);
    let points = case.points.iter().map(|(name, _)| name);
    let faces = case.faces.iter().map(|face| &face.name);
    let seals = case.seals.iter().map(|seal| &seal.name);
    let inside = blocks.chain(airs).chain(points).chain(faces).chain(seals);
    let mut texts: Vec<Text<'_>> = vec![("name of a detail".to_owned(), case.name.as_str())];
    texts.extend(case.variant.iter().map(|name| variant(name)));
    texts.extend(inside.map(|text| (place.clone(), text.as_str())));
    texts
}
