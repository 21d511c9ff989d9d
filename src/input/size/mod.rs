//! Layers to be sized: the base's text is changed as a variant changes it, then resolved like any
//! other, at a thickness that counts for nothing.

mod edges;
mod stock;
mod targets;
mod text;
mod within;

pub(super) use text::SizeText;
use text::SizedLayer;

use super::assumed::Unasked;
use super::cases::{Bases, Variant};
use super::detail::{self, DetailText, Within};
use super::layer::missing_name;
use super::resolve::assembly;
use super::schema::{AddText, AssemblyText, ChangeText, Several};
use super::variant;
use crate::document::{At, Named, Problems, Word};
use crate::error::Problem;
use crate::model::{Case, DetailCase, LayerPlace, SizedPart, Sizing, Stop};

/// Every entry that can be used.
pub(super) fn sizings(
    read: Named<SizeText>,
    (bases, unasked): (&Bases<'_>, Option<&Unasked>),
    variants: &[Variant],
    stops: &[Stop],
    problems: &mut Problems,
) -> Vec<Sizing> {
    let entries = read.entries.iter();
    let found = entries.map(|(name, text)| {
        let entry = Entry {
            name,
            text,
            bases,
            unasked,
            stops,
        };
        bases.with_variant(("size", name), problems, |problems| {
            entry.resolve(variants, problems)
        })
    });
    found.flatten().collect()
}

/// One entry being resolved.
struct Entry<'a> {
    name: &'a At<Word>,
    text: &'a SizeText,
    bases: &'a Bases<'a>,
    unasked: Option<&'a Unasked>,
    stops: &'a [Stop],
}

/// What an entry starts from: the file as drawn, or with a variant's changes.
struct Start {
    assemblies: Vec<(At<Word>, AssemblyText)>,
    details: Vec<(At<Word>, DetailText)>,
}

impl Entry<'_> {
    fn resolve(&self, variants: &[Variant], problems: &mut Problems) -> Option<Sizing> {
        let mut start = self.start(variants, problems)?;
        let within = self.within(&start, problems)?;
        let change = self.change();
        for name in &within {
            let found = start
                .assemblies
                .iter_mut()
                .find(|(at, _)| at.value == *name);
            let Some((_, text)) = found else { continue };
            *text = variant::changed(text, &change, problems);
        }
        let parts = self.parts(&start, &within, problems)?;
        let stock = self.stock((&start, &parts), &within, problems);
        let targets = self.targets(&parts, problems);
        let at = self.conditions(problems);
        self.has_its_corner(&parts, problems);
        let place = self.place(&parts, problems);
        let (material, sold, sold_source, between) = stock?;
        Some(Sizing {
            name: self.name.value.0.clone(),
            layer: self.layer_name().value.0.clone(),
            material,
            position: self.position(),
            within: within.into_iter().map(|name| name.0).collect(),
            parts,
            targets: targets?,
            at: at?,
            place: place?,
            sold,
            sold_source,
            between,
            humidity: self.text.humidity.as_ref().map(|at| at.value),
        })
    }

    fn layer_name(&self) -> &At<Word> {
        match &self.text.layer {
            SizedLayer::Named(name) => name,
            SizedLayer::New(layer) => layer.name(),
        }
    }

    fn position(&self) -> String {
        let SizedLayer::New(layer) = &self.text.layer else {
            return String::new();
        };
        let places = [
            ("over the", &layer.over),
            ("inside of the", &layer.inside_of),
            ("outside of the", &layer.outside_of),
        ];
        let said = places
            .iter()
            .find_map(|(word, at)| at.as_ref().map(|at| format!("{word} {}", at.value.0)));
        said.unwrap_or_default()
    }

    /// What has to be changed for the layer to be there.
    fn change(&self) -> ChangeText {
        let add = match &self.text.layer {
            SizedLayer::Named(_) => None,
            SizedLayer::New(layer) => Some(Several(vec![AddText {
                over: layer.over.clone(),
                inside_of: layer.inside_of.clone(),
                outside_of: layer.outside_of.clone(),
                layer: layer.layer(stock::START),
                complete: layer.complete,
            }])),
        };
        ChangeText {
            frame: self.text.frame.clone(),
            add,
            replace: None,
            remove: None,
            complete: true,
        }
    }

    /// What is judged, resolved with the layer in it.
    fn parts(
        &self,
        start: &Start,
        within: &[Word],
        problems: &mut Problems,
    ) -> Option<Vec<SizedPart>> {
        let before = problems.len();
        let holder = self.bases.within(&start.assemblies);
        let hangs_on =
            |text: &DetailText| detail::drawn_from(text).any(|word| within.contains(word));
        let edges = self.edges(start, within);
        let mut asked: Vec<&DetailCase> = Vec::new();
        let mut parts = Vec::new();
        match &self.text.of {
            None => {
                let assemblies = start
                    .assemblies
                    .iter()
                    .filter(|(at, _)| within.contains(&at.value));
                parts.extend(assemblies.filter_map(|one| self.assembly(one, &holder, problems)));
                let details = start.details.iter().filter(|(_, text)| hangs_on(text));
                parts.extend(details.filter_map(|one| self.detail(one, &holder, problems)));
                if self.asks_of_details() {
                    parts.extend(edges.into_iter().map(SizedPart::Detail));
                }
            }
            Some(of) => {
                if of.0.is_empty() {
                    let label = "expected an assembly or a detail, or leave `of:` out";
                    problems.push(
                        Problem::at(self.name.span, "nothing is to be judged").expected(label),
                    );
                }
                for name in &of.0 {
                    let one = start
                        .assemblies
                        .iter()
                        .find(|(at, _)| at.value == name.value);
                    let detail = start.details.iter().find(|(at, _)| at.value == name.value);
                    match (one, detail) {
                        (Some(one), _) if within.contains(&name.value) => {
                            parts.extend(self.assembly(one, &holder, problems));
                            asked.extend(edges.iter().filter(|edge| {
                                self.asks_of_details()
                                    && edge.shows().is_some_and(|(floor, _)| floor == name.value.0)
                            }));
                        }
                        (_, Some(one)) if hangs_on(&one.1) => {
                            parts.extend(self.detail(one, &holder, problems));
                        }
                        (None, None) if edges.iter().any(|edge| goes_by(edge, &name.value.0)) => {
                            asked.extend(edges.iter().filter(|edge| goes_by(edge, &name.value.0)));
                        }
                        (None, None) => problems.extend(self.bases.unknown(name)),
                        _ => problems.push(self.without_the_layer(name, within)),
                    }
                }
                let asked = edges.iter().filter(|edge| asked.contains(edge));
                parts.extend(asked.cloned().map(SizedPart::Detail));
            }
        }
        (problems.len() == before && !parts.is_empty()).then_some(parts)
    }

    fn without_the_layer(&self, name: &At<Word>, within: &[Word]) -> Problem {
        let within: Vec<&str> = within.iter().map(|word| word.0.as_str()).collect();
        let message = format!("the layer isn't in `{}`", name.value.0);
        let label = format!(
            "expected `{}` or a detail drawn from it",
            within.join("`, `")
        );
        Problem::at(name.span, message).expected(label)
    }

    fn assembly(
        &self,
        (name, text): &(At<Word>, AssemblyText),
        within: &Within<'_>,
        problems: &mut Problems,
    ) -> Option<SizedPart> {
        let assembly = assembly(name, text, within.library, problems)?;
        Some(SizedPart::Assembly(Case {
            variant: Some(self.name.value.0.clone()),
            assembly,
        }))
    }

    fn detail(
        &self,
        (name, text): &(At<Word>, DetailText),
        within: &Within<'_>,
        problems: &mut Problems,
    ) -> Option<SizedPart> {
        if text.boxes.is_some() {
            let message = format!(
                "detail `{}` is in three dimensions: it isn't sized",
                name.value.0
            );
            let label = "expected an assembly, or a detail of rectangles or generated";
            problems.push(Problem::at(self.name.span, message).expected(label));
            return None;
        }
        detail::cut(Some(self.name), name, text, within, problems).map(SizedPart::Detail)
    }

    fn place(&self, parts: &[SizedPart], problems: &mut Problems) -> Option<Option<String>> {
        let Some(place) = &self.text.place else {
            return Some(None);
        };
        if parts.iter().any(|part| part.has_place(&place.value.0)) {
            return Some(Some(place.value.0.clone()));
        }
        let known: Vec<String> = parts.iter().flat_map(SizedPart::places).collect();
        let mut problem = missing_name("place", place, known.iter().map(String::as_str));
        problem.label = "not a place of what is judged".into();
        problems.push(problem);
        None
    }
}

/// Whether an edge drawn without being asked is meant by a name: its own, or what its walls share.
fn goes_by(edge: &DetailCase, name: &str) -> bool {
    let assumed = edge.assumed.as_ref();
    edge.name == name || assumed.is_some_and(|assumed| assumed.subject == name)
}

/// Where the layer stands in the first assembly that has it.
fn sized_in<'a>(
    parts: &'a [SizedPart],
    within: &[Word],
    layer: &str,
) -> Option<(&'a crate::model::Assembly, LayerPlace)> {
    let assemblies = parts.iter().flat_map(SizedPart::assemblies);
    let mut concerned = assemblies.filter(|one| within.iter().any(|word| word.0 == one.name));
    concerned.find_map(|one| one.place_of(layer).map(|place| (one, place)))
}
