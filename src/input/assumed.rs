//! The edge drawn without being asked: a strip at a floor's edge that no detail of the file shows
//! is drawn with each wall of the file, by stated defaults.
//!
//! The strip's own path errs on the unsafe side at an edge, so that what is judged there has to be
//! judged with a detail's temperatures. The defaults: frame and wall flush outside; a tube rail 2 in
//! wide of 3/16 in steel, as deep as joists and lining; what lies over the strip reaches out to the
//! plate's inner edge.

use super::detail::{REACH, TWO_BY};
use super::layer::{bare, material};
use super::resolve::assembly;
use super::schema::{AssemblyText, FramingText, LayerText};
use super::substance::substance;
use crate::document::{At, Word};
use crate::error::Span;
use crate::material::Library;
use crate::model::drawn::{
    AssumedEdge, DetailFilms, EdgeProblem, FloorEdge, FoamReach, Plate, Rail, RailShape,
    STATED_RAIL_METAL, STATED_WALL, StatedLayer, UndrawnEdge,
};
use crate::model::{Assembly, AssemblyKind, Case, DetailCase, StripPlace, Told};
use crate::quantity::{Length, Share, Temperature, Thickness, unit::INCH};

/// What the stated wall is called, unless the file has an assembly of that name.
const STATED_WALL_NAME: &str = "2x4 wall";
/// With more walls the first of them stand for the rest.
const MOST_WALLS: usize = 6;
/// The rail, m.
const RAIL_WIDTH: f64 = 2.0 * INCH;
const RAIL_THICKNESS: f64 = 3.0 / 16.0 * INCH;

/// Details drawn without being asked, and edges that can't be.
#[derive(Default)]
pub(super) struct Drawn {
    pub(super) details: Vec<DetailCase>,
    pub(super) undrawn: Vec<UndrawnEdge>,
}

/// How the edges of a file are drawn that no detail of it shows.
pub(super) struct Unasked {
    rail: Rail,
    /// The names of the file's walls, in its order.
    walls: Vec<String>,
    /// What stands on the edge where there are none.
    stated: Option<Assembly>,
    edges: Vec<Edge>,
}

/// A strip at an edge, with the name its details share.
struct Edge {
    floor: String,
    strip: String,
    subject: String,
}

/// A strip that no detail shows, under a variant.
struct Wanted<'a> {
    variant: Option<&'a str>,
    floor: &'a Assembly,
    strip: usize,
}

impl Unasked {
    /// The edges of a file. `None` where a detail shows each of them.
    pub(super) fn of(library: &Library, cases: &[Case], details: &[DetailCase]) -> Option<Self> {
        let wanted = wanted(cases, details);
        if wanted.is_empty() {
            return None;
        }
        let of_kind = |kind| {
            let drawn = cases.iter().filter(|case| case.variant.is_none());
            drawn
                .map(|case| &case.assembly)
                .filter(move |one| one.kind == kind)
        };
        let walls: Vec<String> = of_kind(AssemblyKind::Wall)
            .map(|wall| wall.name.clone())
            .collect();
        let taken = |name: &str| {
            cases.iter().any(|case| case.assembly.name == name)
                || details.iter().any(|detail| detail.name == name)
        };
        let stated = match walls.is_empty() {
            true => stated_wall(library, &numbered(STATED_WALL_NAME, taken)),
            false => None,
        };
        Some(Self {
            rail: rail(library)?,
            edges: named(&wanted, &walls, taken),
            walls,
            stated,
        })
    }

    /// All of them, as drawn and under every variant that changes them.
    pub(super) fn all(&self, cases: &[Case], details: &[DetailCase]) -> Drawn {
        let mut drawn = Drawn::default();
        for one in wanted(cases, details) {
            let walls = self.walls.iter().filter_map(|name| {
                let found = case(cases, one.variant, name)?;
                Some(&found.assembly)
            });
            let walls: Vec<&Assembly> = walls.collect();
            self.draw((one.variant, one.floor, one.strip), &walls, &mut drawn);
        }
        drawn
    }

    /// One edge with each of the walls.
    pub(super) fn draw(
        &self,
        (variant, floor, strip): (Option<&str>, &Assembly, usize),
        walls: &[&Assembly],
        drawn: &mut Drawn,
    ) {
        let Some(edge) = self.edge(&floor.name, &floor.strips[strip].name) else {
            return;
        };
        let undrawn = |wall: Option<&str>, why: Told| UndrawnEdge {
            assembly: floor.name.clone(),
            variant: variant.map(str::to_owned),
            strip: Some(edge.strip.clone()),
            wall: wall.map(str::to_owned),
            why,
        };
        let pairs: Vec<(Option<&str>, &Assembly)> = match &self.stated {
            Some(stated) => vec![(None, stated)],
            None => walls.iter().map(|w| (Some(w.name.as_str()), *w)).collect(),
        };
        if pairs.is_empty() {
            let why = "the stated 2x4 wall can't be built from the file's own materials";
            drawn.undrawn.push(undrawn(None, Told::from(why)));
        }
        for (n, (own, wall)) in pairs.into_iter().enumerate() {
            if n >= MOST_WALLS {
                let why = Told::from(format!("more than {MOST_WALLS} walls"));
                drawn.undrawn.push(undrawn(own, why));
                continue;
            }
            let plan = FloorEdge {
                name: self.name(edge, own),
                variant: variant.map(str::to_owned),
                floor: floor.clone(),
                wall: wall.clone(),
                flange: strip,
                deck: None,
                rail: Some(self.rail.clone()),
                plate: two_by(),
                rim_joist: two_by(),
                reach: None,
                foam: FoamReach::PlateInnerEdge,
                seal: None,
                corner: true,
                inboard: Length::from_m(REACH),
                up: Length::from_m(REACH),
            };
            match ready(plan.draw()) {
                Ok(case) => drawn.details.push(DetailCase {
                    assumed: Some(AssumedEdge {
                        subject: edge.subject.clone(),
                        wall: own.map(str::to_owned),
                    }),
                    ..case
                }),
                Err(why) => drawn.undrawn.push(undrawn(own, why)),
            }
        }
    }

    fn edge(&self, floor: &str, strip: &str) -> Option<&Edge> {
        let mut edges = self.edges.iter();
        edges.find(|edge| edge.floor == floor && edge.strip == strip)
    }

    fn name(&self, edge: &Edge, wall: Option<&str>) -> String {
        match wall {
            Some(wall) if self.walls.len() > 1 => format!("{} at {wall}", edge.subject),
            _ => edge.subject.clone(),
        }
    }
}

/// Strips at edges that no detail shows: as drawn, then under every variant that changes the floor,
/// a wall, or the detail that showed it.
fn wanted<'a>(cases: &'a [Case], details: &'a [DetailCase]) -> Vec<Wanted<'a>> {
    let mut variants: Vec<Option<&str>> = vec![None];
    let changed = cases.iter().map(|case| case.variant.as_deref());
    for variant in changed.chain(details.iter().map(|one| one.variant.as_deref())) {
        if !variants.contains(&variant) {
            variants.push(variant);
        }
    }
    let mut found = Vec::new();
    for variant in variants {
        let own = cases
            .iter()
            .filter(|case| case.variant.as_deref() == variant);
        let changes_a_wall = own
            .clone()
            .any(|case| case.assembly.kind == AssemblyKind::Wall);
        for base in cases.iter().filter(|case| case.variant.is_none()) {
            let Some(case) = case(cases, variant, &base.assembly.name) else {
                continue;
            };
            let floor = &case.assembly;
            for strip in at_edge(floor) {
                let name = &floor.strips[strip].name;
                let changes = changes_a_wall || case.variant.is_some() || variant.is_none();
                let is_shown = |variant| is_shown(details, variant, &floor.name, name);
                if !is_shown(variant) && (changes || is_shown(None)) {
                    found.push(Wanted {
                        variant,
                        floor,
                        strip,
                    });
                }
            }
        }
    }
    found
}

/// The strips of a floor that lie at its edge.
pub(super) fn at_edge(floor: &Assembly) -> impl Iterator<Item = usize> {
    let strips = floor.strips.iter().enumerate();
    let at_edge = strips
        .filter(|(_, strip)| floor.kind == AssemblyKind::Floor && strip.at == StripPlace::Edge);
    at_edge.map(|(n, _)| n)
}

/// An assembly with a variant's changes made, or as drawn where it makes none.
pub(super) fn case<'a>(cases: &'a [Case], variant: Option<&str>, name: &str) -> Option<&'a Case> {
    let of = |variant: Option<&str>| {
        let mut cases = cases.iter();
        cases.find(|case| case.assembly.name == name && case.variant.as_deref() == variant)
    };
    of(variant).or_else(|| of(None))
}

/// Whether a detail shows a strip, with a variant's changes made.
fn is_shown(details: &[DetailCase], variant: Option<&str>, floor: &str, strip: &str) -> bool {
    let has_own = |name: &str| {
        let mut details = details.iter();
        details.any(|one| one.name == name && one.variant.as_deref() == variant)
    };
    let mut there = details.iter().filter(|one| match &one.variant {
        Some(own) => Some(own.as_str()) == variant,
        None => variant.is_none() || !has_own(&one.name),
    });
    there.any(|one| one.shows() == Some((floor, strip)))
}

/// Names of their own for the strips that are wanted.
fn named(wanted: &[Wanted<'_>], walls: &[String], taken: impl Fn(&str) -> bool) -> Vec<Edge> {
    let mut strips: Vec<(&str, &str)> = Vec::new();
    for one in wanted {
        let pair = (
            one.floor.name.as_str(),
            one.floor.strips[one.strip].name.as_str(),
        );
        if !strips.contains(&pair) {
            strips.push(pair);
        }
    }
    let is_only_floor = strips.iter().all(|(floor, _)| *floor == strips[0].0);
    let mut edges: Vec<Edge> = Vec::new();
    for (floor, strip) in &strips {
        let of_floor = strips.iter().filter(|(other, _)| other == floor).count();
        let rest = match of_floor {
            1 => String::new(),
            _ => format!(", {strip}"),
        };
        let is_free = |name: &str| {
            let mut at_walls = walls.iter().map(|wall| format!("{name} at {wall}"));
            !taken(name)
                && !edges.iter().any(|edge| edge.subject == name)
                && !at_walls.any(|name| taken(&name))
        };
        let plain = format!("floor edge{rest}");
        let full = format!("{floor} edge{rest}");
        let subject = match is_only_floor && is_free(&plain) {
            true => plain,
            false => numbered(&full, |name| !is_free(name)),
        };
        edges.push(Edge {
            floor: (*floor).to_owned(),
            strip: (*strip).to_owned(),
            subject,
        });
    }
    edges
}

/// The name, or with the first number that makes it a new one.
pub(super) fn numbered(name: &str, taken: impl Fn(&str) -> bool) -> String {
    let numbers = (2..).map(|number| format!("{name} {number}"));
    let mut names = std::iter::once(name.to_owned()).chain(numbers);
    names.find(|name| !taken(name)).unwrap_or_default()
}

/// An edge that was drawn, ready to be solved, or why it can't be.
pub(super) fn ready(drawn: Result<DetailCase, EdgeProblem>) -> Result<DetailCase, Told> {
    let case = drawn.map_err(|problem| problem.message)?;
    // Its temperatures don't matter for that.
    let [indoor, outdoor] = [20.0, 0.0].map(Temperature::from_celsius);
    match case.detail_at(indoor, outdoor, &DetailFilms::default()) {
        Ok(_) => Ok(case),
        Err(problems) => Err(problems
            .first()
            .map_or_else(|| Told::of([]), |one| Told::from(one.to_string()))),
    }
}

fn two_by() -> Plate {
    Plate {
        substance: None,
        thickness: Length::from_m(TWO_BY),
    }
}

/// What stands nowhere in the file.
fn unplaced<T>(value: T) -> At<T> {
    let span = Span {
        start: 0,
        end: 0,
        line: 1,
        column: 1,
    };
    At { value, span }
}

fn word(name: &str) -> At<Word> {
    unplaced(Word(name.to_owned()))
}

fn rail(library: &Library) -> Option<Rail> {
    let name = word(STATED_RAIL_METAL);
    let steel = material(&name, library, &mut Vec::new())?;
    let substance = substance(&steel, &bare(&name));
    Some(Rail {
        shape: RailShape::Tube,
        conductivity: substance.conductivity.map(|k| k.as_si())?,
        substance,
        height: None,
        width: Some(Length::from_m(RAIL_WIDTH)),
        thickness: Length::from_m(RAIL_THICKNESS),
        hollow: true,
    })
}

fn stated_wall(library: &Library, name: &str) -> Option<Assembly> {
    let text = AssemblyText {
        kind: Some(word("wall")),
        films: None,
        outer_surface: None,
        frame: None,
        layers: STATED_WALL.iter().map(layer_text).collect(),
        strips: None,
        complete: true,
    };
    let mut problems = Vec::new();
    let wall = assembly(&word(name), &text, library, &mut problems);
    wall.filter(|_| problems.is_empty())
}

fn layer_text(layer: &StatedLayer) -> LayerText {
    let framing = |(material, share): (&str, f64)| FramingText {
        material: word(material),
        width: None,
        spacing: None,
        share: Some(unplaced(Share::from_fraction(share))),
        crosswise: None,
        complete: true,
    };
    let length = |meters| unplaced(Thickness::Length(Length::from_m(meters)));
    LayerText {
        material: layer.material.map(word),
        air: layer.material.is_none().then(|| word("ventilated")),
        thickness: layer.thickness.map(length),
        framing: layer.framing.map(framing),
        ..bare(&word(layer.name))
    }
}
