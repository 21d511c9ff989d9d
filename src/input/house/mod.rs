//! Resolving the house: every name found, every measure plausible, nothing larger than what holds
//! it.

mod parts;
mod roof;
mod shell;
mod text;

pub(super) use text::HouseText;

use super::detail::DetailNode;
use super::layer::missing_name;
use super::schema::AssemblyText;
use crate::document::{At, Named, Problems, Word};
use crate::error::Problem;
use crate::material::Library;
use crate::model::house::{Allowance, House, Road, Trailer};
use crate::model::{Assembly, AssemblyKind, Case, DetailCase};
use crate::quantity::{Area, Mass};

/// What the house refers to.
pub(super) struct Known<'a> {
    pub(super) library: &'a Library,
    pub(super) assemblies: &'a Named<AssemblyText>,
    pub(super) details: &'a Named<DetailNode>,
    /// The assemblies that could be resolved, variants included.
    pub(super) cases: &'a [Case],
    /// The details that could be.
    pub(super) drawn: &'a [DetailCase],
}

/// The house, if everything it needs is there.
pub(super) fn house(text: &HouseText, known: &Known<'_>, problems: &mut Problems) -> Option<House> {
    let before = problems.len();
    let shell = shell::shell(text, known, problems);
    let areas = areas(text, known, problems);
    let measured = text.deck.is_some() || text.floor.is_some();
    let measured = measured || text.walls.is_some() || text.roof.is_some();
    if text.complete && !measured && text.areas.is_none() {
        let message = "the house has no measures: its areas aren't known";
        let help = "`deck: {length: 22 ft, width: 8 ft}` with `floor:`, `walls:` and `roof:`, or \
                    `areas:` by assembly";
        problems.push(Problem::whole(message).help(help));
    }
    let openings = parts::openings(text, shell.as_ref(), problems);
    let edges = parts::edges(text, shell.as_ref(), &areas, known, problems);
    let bolts = parts::bolts(text, known, problems);
    let trailer = trailer(
        text,
        shell.as_ref().map(|shell| shell.floor.as_str()),
        known,
        problems,
    );
    let road = text.road.as_ref().map_or_else(Road::default, |road| Road {
        width: value(road.width.as_ref()),
        height: value(road.height.as_ref()),
        length: value(road.length.as_ref()),
    });
    let allowances = text.allowances.iter().flatten().filter_map(|one| {
        Some(Allowance {
            name: one.name.value.0.clone(),
            weight: one.weight.as_ref()?.value,
            at: one.at.as_ref().map(|at| at.value),
        })
    });
    let house = House {
        shell,
        areas,
        openings,
        edges,
        bolts,
        allowances: allowances.collect(),
        trailer,
        road,
    };
    (problems.len() == before && text.complete).then_some(house)
}

fn value<T: Copy>(at: Option<&At<T>>) -> Option<T> {
    at.map(|at| at.value)
}

/// Stated areas: of assemblies of this file.
fn areas(text: &HouseText, known: &Known<'_>, problems: &mut Problems) -> Vec<(String, Area)> {
    let stated = text.areas.iter().flat_map(|areas| &areas.entries);
    let mut found = Vec::new();
    for (name, area) in stated {
        if known.names(name, None, problems) {
            found.push((name.value.0.clone(), area.value));
        }
    }
    found
}

fn trailer(
    text: &HouseText,
    floor: Option<&str>,
    known: &Known<'_>,
    problems: &mut Problems,
) -> Trailer {
    let Some(trailer) = &text.trailer else {
        return Trailer::default();
    };
    let includes: Vec<&At<Word>> = trailer.includes.iter().flat_map(|list| &list.0).collect();
    if let Some(assembly) = floor.and_then(|floor| known.as_drawn(floor)) {
        let strips = assembly.strips.iter().map(|strip| strip.name.as_str());
        let layers = assembly.layers.iter().map(|layer| layer.name.as_str());
        let names: Vec<&str> = layers.chain(strips).collect();
        for name in &includes {
            if !names.contains(&name.value.0.as_str()) {
                let mut problem = missing_name("layer or strip", name, names.iter().copied());
                problem.label = "not a layer or strip of the floor".into();
                problems.push(problem);
            }
        }
    }
    over_rating(trailer.weight.as_ref(), trailer.rating.as_ref(), problems);
    Trailer {
        deck_height: value(trailer.deck_height.as_ref()),
        weight: value(trailer.weight.as_ref()),
        rating: value(trailer.rating.as_ref()),
        includes: includes.iter().map(|name| name.value.0.clone()).collect(),
        weight_at: value(trailer.weight_at.as_ref()),
        tongue: value(trailer.tongue.as_ref()),
        axles_at: axles_at(trailer, problems),
    }
}

fn over_rating(weight: Option<&At<Mass>>, rating: Option<&At<Mass>>, problems: &mut Problems) {
    if let (Some(weight), Some(rating)) = (weight, rating)
        && weight.value >= rating.value
    {
        let message = "the trailer alone weighs as much as its rating";
        let label = "expected less than `rating:`";
        problems.push(Problem::at(weight.span, message).expected(label));
    }
}

/// Axles ahead of the coupler can't carry it.
fn axles_at(
    trailer: &text::TrailerText,
    problems: &mut Problems,
) -> Option<crate::quantity::Offset> {
    let axles = trailer.axles_at.as_ref()?;
    let coupler = -trailer.tongue.as_ref().map_or(0.0, |at| at.value.as_m());
    if axles.value.as_m() <= coupler {
        let message = "the axles stand at the coupler or ahead of it";
        let label = "expected a place behind the coupler, measured from the deck's front";
        problems.push(Problem::at(axles.span, message).expected(label));
        return None;
    }
    Some(axles.value)
}

impl Known<'_> {
    /// An assembly as drawn; `None` where it couldn't be resolved, which is reported already.
    fn as_drawn(&self, name: &str) -> Option<&Assembly> {
        let mut cases = self.cases.iter().filter(|case| case.variant.is_none());
        let found = cases.find(|case| case.assembly.name == name);
        found.map(|case| &case.assembly)
    }

    /// Whether an assembly is in the file, and of the kind wanted; says so where it isn't.
    fn names(&self, name: &At<Word>, kind: Option<AssemblyKind>, problems: &mut Problems) -> bool {
        if self.assemblies.unreadable.contains(&name.value) {
            return false;
        }
        let entries = || self.assemblies.entries.iter().map(|(name, _)| name);
        if !entries().any(|known| known.value == name.value) {
            let known = entries().map(|name| name.value.0.as_str());
            let mut problem = missing_name("assembly", name, known);
            problem.label = "not an assembly of this file".into();
            problems.push(problem);
            return false;
        }
        let found = self.as_drawn(&name.value.0).map(|assembly| assembly.kind);
        let (Some(kind), Some(found)) = (kind, found) else {
            return found.is_some();
        };
        if found != kind {
            let word = |kind| match kind {
                AssemblyKind::Wall => "wall",
                AssemblyKind::Floor => "floor",
                AssemblyKind::Roof => "roof",
            };
            let message = format!("`{}` is a {}", name.value.0, word(found));
            let label = format!("expected an assembly with `kind: {}`", word(kind));
            problems.push(Problem::at(name.span, message).expected(label));
        }
        found == kind
    }

    /// Whether an assembly has a layer of that name; says so where it hasn't.
    fn has_layer(&self, assembly: &str, name: &At<Word>, problems: &mut Problems) {
        let Some(assembly) = self.as_drawn(assembly) else {
            return;
        };
        let layers = || assembly.layers.iter().map(|layer| layer.name.as_str());
        if !layers().any(|layer| layer == name.value.0) {
            let mut problem = missing_name("layer", name, layers());
            problem.label = format!("not a layer of `{}`", assembly.name);
            problems.push(problem);
        }
    }
}
