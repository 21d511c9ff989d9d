//! What stands in and along the shell: openings, edges, bolts.

use super::Known;
use super::shell::SIDES;
use super::text::{BoltText, EdgeText, HouseText, OpeningText};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::input::layer::{self, bare, missing_name};
use crate::input::substance::substance;
use crate::material::one_of;
use crate::model::Assembly;
use crate::model::house::{
    Bolts, Edge, EdgePsi, EdgeRun, NO_INSETS, Opening, OpeningPlace, Shell, Side,
};
use crate::quantity::{Area, Length};

/// Openings, each no larger than what holds it.
pub(super) fn openings(
    text: &HouseText,
    shell: Option<&Shell>,
    problems: &mut Problems,
) -> Vec<Opening> {
    let texts: Vec<&OpeningText> = text.openings.iter().flatten().collect();
    let found: Vec<Option<Opening>> = texts.iter().map(|text| opening(text, problems)).collect();
    if let Some(shell) = shell {
        let before = problems.len();
        for (opening, text) in found.iter().zip(&texts) {
            if let Some(opening) = opening {
                fits(opening, text, shell, problems);
            }
        }
        // What is larger than its wall needn't be told twice.
        if problems.len() > before {
            return Vec::new();
        }
        for side in Side::ALL {
            let place = OpeningPlace::Wall(side);
            let here = found.iter().zip(&texts).filter_map(|(opening, text)| {
                opening
                    .as_ref()
                    .filter(|one| one.place == place)
                    .map(|one| (one, text))
            });
            let most = shell.wall_area(side, &NO_INSETS);
            let mut taken = 0.0;
            for (opening, text) in here {
                let before = taken;
                taken += opening.area().as_m2();
                if before <= most && taken > most {
                    let message = format!(
                        "the openings in the {} wall are larger than the wall",
                        side.word()
                    );
                    let label = "expected less area up to here";
                    problems.push(Problem::at(text.name.span, message).expected(label));
                }
            }
        }
    }
    found.into_iter().flatten().collect()
}

fn opening(text: &OpeningText, problems: &mut Problems) -> Option<Opening> {
    let mut places: Vec<(&'static str, OpeningPlace)> = SIDES
        .iter()
        .map(|(word, side)| (*word, OpeningPlace::Wall(*side)))
        .collect();
    places.push(("roof", OpeningPlace::Roof));
    let place = text.place.as_ref();
    let place = place.and_then(|word| one_of(word, &places, "place of an opening", problems));
    Some(Opening {
        name: text.name.value.0.clone(),
        place: place?,
        width: text.width.as_ref()?.value,
        height: text.height.as_ref()?.value,
        count: text.count.as_ref().map_or(1, |at| at.value),
        u_value: text.u_value.as_ref().map(|at| at.value),
        weight: text.weight.as_ref().map(|at| at.value),
        at: text.at.as_ref().map(|at| at.value),
    })
}

fn fits(opening: &Opening, text: &OpeningText, shell: &Shell, problems: &mut Problems) {
    let OpeningPlace::Wall(side) = opening.place else {
        return;
    };
    let limits = [
        (&text.width, opening.width, shell.side_length(side), "wider"),
        (
            &text.height,
            opening.height,
            shell.greatest_height(side),
            "higher",
        ),
    ];
    for (at, size, most, word) in limits {
        if let (Some(at), true) = (at, size.as_m() > most) {
            let message = format!(
                "opening `{}` is {word} than the {} wall",
                opening.name,
                side.word()
            );
            let most = crate::quantity::inches(Length::from_m(most));
            let label = format!("expected less than the wall's {most}");
            problems.push(Problem::at(at.span, message).expected(label));
        }
    }
}

/// Edges, each with a psi and a length.
pub(super) fn edges(
    text: &HouseText,
    shell: Option<&Shell>,
    areas: &[(String, Area)],
    known: &Known<'_>,
    problems: &mut Problems,
) -> Vec<Edge> {
    let of_shell = shell.iter().flat_map(|shell| {
        let walls = shell.walls.iter().map(|wall| wall.assembly.as_str());
        walls.chain([shell.floor.as_str(), shell.roof.assembly.as_str()])
    });
    let stated = areas.iter().map(|(name, _)| name.as_str());
    let of_house: Vec<&str> = of_shell.chain(stated).collect();
    let has_shell = text.deck.is_some();
    let floor = shell.and_then(|shell| known.as_drawn(&shell.floor));
    let texts = text.edges.iter().flatten();
    let found: Vec<_> = texts
        .map(|edge| self::edge(edge, (has_shell, floor), &of_house, known, problems))
        .collect();
    found.into_iter().flatten().collect()
}

fn edge(
    text: &EdgeText,
    (has_shell, floor): (bool, Option<&Assembly>),
    of_house: &[&str],
    known: &Known<'_>,
    problems: &mut Problems,
) -> Option<Edge> {
    let place = text.detail.as_ref().or(text.name.as_ref());
    let Some(place) = place else {
        if text.complete {
            problems.push(
                Problem::whole("an edge of the house has neither a detail nor a name")
                    .help("write `detail:`, or `name:` with `psi:`"),
            );
        }
        return None;
    };
    let psi = match (&text.detail, &text.psi) {
        (Some(detail), None) => self::detail(detail, of_house, known, problems),
        (None, Some(psi)) => Some(EdgePsi::Stated(psi.value)),
        (Some(_), Some(psi)) => {
            let message = "the detail gives its psi, but another one stands here";
            problems.push(Problem::at(psi.span, message).expected("expected `detail:` or `psi:`"));
            None
        }
        (None, None) => {
            if text.complete {
                let message = format!("edge `{}` has no psi", place.value.0);
                let label = "expected `psi:` beside it, or `detail:` with a detail of this file";
                problems.push(Problem::at(place.span, message).expected(label));
            }
            None
        }
    };
    let run = run(text, place, has_shell, problems);
    if let (Some(name), Some(floor)) = (&text.instead_of, floor) {
        let strips = || floor.strips.iter().map(|strip| strip.name.as_str());
        if !strips().any(|strip| strip == name.value.0) {
            let mut problem = missing_name("strip", name, strips());
            problem.label = format!("not a strip of `{}`", floor.name);
            problems.push(problem);
        }
    }
    Some(Edge {
        name: text.name.as_ref().unwrap_or(place).value.0.clone(),
        psi: psi?,
        run: run?,
        instead_of: text.instead_of.as_ref().map(|at| at.value.0.clone()),
    })
}

/// A detail that has a psi.
fn detail(
    name: &At<Word>,
    of_house: &[&str],
    known: &Known<'_>,
    problems: &mut Problems,
) -> Option<EdgePsi> {
    if known.details.unreadable.contains(&name.value) {
        return None;
    }
    let entries = || known.details.entries.iter().map(|(name, _)| name);
    if !entries().any(|entry| entry.value == name.value) {
        let names = entries().map(|name| name.value.0.as_str());
        let mut problem = missing_name("detail", name, names);
        problem.label = "not a detail of this file".into();
        if known.details.entries.is_empty() {
            problem.help = None;
        }
        problems.push(problem);
        return None;
    }
    let mut texts = known.details.entries.iter();
    if texts.any(|(entry, base)| entry.value == name.value && base.text.boxes.is_some()) {
        let message = format!(
            "detail `{}` is in three dimensions: it has no psi",
            name.value.0
        );
        let label = "expected a generated detail, or `name:` with `psi:`";
        problems.push(Problem::at(name.span, message).expected(label));
        return None;
    }
    let found = known.drawn.iter().find(|one| one.name == name.value.0)?;
    if found.references.is_empty() {
        let message = format!(
            "detail `{}` is drawn by hand: no plane assemblies tell its psi",
            name.value.0
        );
        let label = "expected a generated detail, or `name:` with `psi:`";
        problems.push(Problem::at(name.span, message).expected(label));
        return None;
    }
    let strangers = found.references.iter().map(|one| one.assembly.as_str());
    let mut strangers = strangers.filter(|one| !of_house.is_empty() && !of_house.contains(one));
    if let Some(stranger) = strangers.next() {
        let message = format!(
            "detail `{}` is drawn from `{stranger}`, which the house isn't made of",
            name.value.0
        );
        let label = "expected a detail of the house's own floor and walls";
        problems.push(Problem::at(name.span, message).expected(label));
        return None;
    }
    Some(EdgePsi::Detail(name.value.0.clone()))
}

fn run(
    text: &EdgeText,
    place: &At<Word>,
    has_shell: bool,
    problems: &mut Problems,
) -> Option<EdgeRun> {
    match (&text.along, &text.length) {
        (None, Some(length)) => Some(EdgeRun::Length(length.value)),
        (Some(sides), None) => {
            if !has_shell {
                if let Some(first) = sides.0.first().filter(|_| text.complete) {
                    let message = "without `deck:` the length of a side isn't known";
                    let label = "expected `length:` instead";
                    problems.push(Problem::at(first.span, message).expected(label));
                }
                return None;
            }
            let mut found = Vec::new();
            for word in &sides.0 {
                if word.value.0.eq_ignore_ascii_case("all") {
                    found.extend(Side::ALL);
                } else {
                    found.push(one_of(word, &SIDES, "side", problems)?);
                }
            }
            let twice = (1..found.len()).find(|n| found[..*n].contains(&found[*n]));
            if let Some(side) = twice.map(|n| found[n]) {
                let message = format!("the {} side stands twice along this edge", side.word());
                problems.push(Problem::at(place.span, message).expected("expected it once"));
                return None;
            }
            Some(EdgeRun::Along(found))
        }
        _ if !text.complete => None,
        _ => {
            let message = format!("how far does edge `{}` run?", place.value.0);
            let label = "expected `along:` with its sides, or `length:`";
            problems.push(Problem::at(place.span, message).expected(label));
            None
        }
    }
}

/// Bolts, each through a layer that is there.
pub(super) fn bolts(text: &HouseText, known: &Known<'_>, problems: &mut Problems) -> Vec<Bolts> {
    let texts = text.bolts.iter().flatten();
    let found: Vec<_> = texts
        .map(|bolt| self::bolt(bolt, known, problems))
        .collect();
    found.into_iter().flatten().collect()
}

fn bolt(text: &BoltText, known: &Known<'_>, problems: &mut Problems) -> Option<Bolts> {
    let metal = text.metal.as_ref();
    let metal = metal.and_then(|name| {
        let found = layer::material(name, known.library, problems)?;
        let substance = substance(&found, &bare(name));
        if substance.conductivity.is_none() {
            let message = format!("`{}` has no conductivity", name.value.0);
            let label = "expected a metal such as `carbon steel`";
            problems.push(Problem::at(name.span, message).expected(label));
            return None;
        }
        Some(substance)
    });
    let diameter = text.diameter.as_ref().map(|at| at.value);
    let words = [("none", false), ("one", false), ("both", true)];
    let both = match &text.ends_on_steel {
        None => Some(false),
        Some(word) => one_of(word, &words, "number of ends", problems),
    };
    let assembly = text.assembly.as_ref()?;
    let through = text.through.as_ref()?;
    if known.names(assembly, None, problems) {
        is_there(text, assembly, through, known, problems);
    }
    Some(Bolts {
        name: text.name.value.0.clone(),
        count: text.count.as_ref()?.value,
        diameter: diameter?,
        metal: metal?,
        assembly: assembly.value.0.clone(),
        through: through.value.0.clone(),
        embedded: text.embedded.as_ref().map(|at| at.value),
        both_ends_on_steel: both?,
        chi: text.chi.as_ref().map(|at| at.value),
    })
}

/// The layer is one of the assembly's, or of those over its strips, in some variant; and the bolt
/// isn't deeper in it than it is thick.
fn is_there(
    text: &BoltText,
    assembly: &At<Word>,
    through: &At<Word>,
    known: &Known<'_>,
    problems: &mut Problems,
) {
    let ours = known
        .cases
        .iter()
        .filter(|case| case.assembly.name == assembly.value.0);
    let layers = ours.flat_map(|case| {
        let over = case.assembly.strips.iter().flat_map(|strip| &strip.over);
        case.assembly.layers.iter().chain(over)
    });
    let layers: Vec<_> = layers.collect();
    let Some(found) = layers.iter().find(|layer| layer.name == through.value.0) else {
        let mut names: Vec<&str> = Vec::new();
        for layer in &layers {
            if !names.contains(&layer.name.as_str()) {
                names.push(&layer.name);
            }
        }
        let mut problem = missing_name("layer", through, names.iter().copied());
        problem.label = format!("not a layer of `{}`", assembly.value.0);
        problems.push(problem);
        return;
    };
    if let Some(embedded) = &text.embedded
        && embedded.value > found.thickness
    {
        let message = format!(
            "the bolt reaches deeper into `{}` than that is thick",
            found.name
        );
        let thick = crate::quantity::inches(found.thickness);
        let label = format!("expected at most {thick}, or nothing where it goes through");
        problems.push(Problem::at(embedded.span, message).expected(label));
    }
}
