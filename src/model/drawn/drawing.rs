//! A detail being drawn: blocks get names of their own, and at the end the cut its corner.

use super::case::{
    AirSource, BlockFacts, CaseAir, CaseBlock, CaseRegion, DetailCase, DetailKind, Dimension, Part,
    Seal, Surface,
};
use super::films::{FilmRole, StatedFilms};
use super::layers::{CutLayer, CutLayers, outside_role};
use super::reference::Reference;
use crate::model::detail::{Area, Block, LEAST_SIZE, PlaneConductivity};
use crate::model::{Assembly, Content, Substance, Told};

/// What of a generator's input a problem is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EdgeKey {
    /// The floor or one of its layers.
    Floor,
    /// The wall or one of its layers.
    Wall,
    /// The roof or one of its layers.
    Roof,
    /// The floor's layer that the plate stands on.
    Deck,
    /// The strip: its width or thickness.
    Strip,
    /// How far the flange reaches inboard of the wall.
    Reach,
    /// The rail's height.
    RailHeight,
    /// The rail's width.
    RailWidth,
    /// The rail's or the member's wall thickness.
    RailThickness,
    /// The wall's bottom plate.
    Plate,
    /// The rim joist.
    RimJoist,
    /// The air seal.
    Seal,
    /// How far the cut runs into the floor or the roof.
    Inboard,
    /// How far the cut runs up.
    Up,
    /// How far the cut runs down.
    Down,
    /// The pitch of cross members.
    Pitch,
    /// The height of a cross member.
    MemberHeight,
}

/// Why a detail can't be generated.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeProblem {
    /// What it is about.
    pub key: EdgeKey,
    /// What is wrong.
    pub message: Told,
    /// What was expected.
    pub expected: Told,
}

impl EdgeProblem {
    pub(super) fn new(key: EdgeKey, message: impl Into<Told>, expected: impl Into<Told>) -> Self {
        Self {
            key,
            message: message.into(),
            expected: expected.into(),
        }
    }
}

/// What a block is made of.
pub(super) enum Stuff<'a> {
    Layer(&'a Assembly, CutLayer<'a>),
    Substance(&'a Substance, f64),
    Cavity(f64),
}

/// The detail so far, in coordinates of its own.
pub(super) struct Drawing {
    case: DetailCase,
}

impl Drawing {
    pub(super) fn new(name: &str, variant: Option<&str>, kind: DetailKind) -> Self {
        let air = |name: &str, source| CaseAir {
            name: name.into(),
            source,
        };
        Self {
            case: DetailCase {
                name: name.into(),
                variant: variant.map(str::to_owned),
                kind,
                width: 0.0,
                height: 0.0,
                blocks: Vec::new(),
                airs: vec![
                    air("room", AirSource::Room),
                    air("outdoors", AirSource::Outdoors),
                ],
                regions: Vec::new(),
                faces: Vec::new(),
                seals: Vec::new(),
                points: Vec::new(),
                surfaces: Vec::new(),
                references: Vec::new(),
                shows_strip: None,
                dimensions: Vec::new(),
                notes: Vec::new(),
                plan: None,
                assumed: None,
            },
        }
    }

    /// No air gets around or behind the block added last.
    pub(super) fn bond_last(&mut self) {
        if let Some(last) = self.case.blocks.last_mut() {
            last.facts.bonded = true;
        }
    }

    /// Adds a block where it has a size. `covers`: it is meant to lie over earlier ones.
    pub(super) fn block(
        &mut self,
        name: &str,
        part: Part,
        stuff: &Stuff<'_>,
        area: Area,
        covers: bool,
    ) {
        if area.right - area.left <= LEAST_SIZE || area.top - area.bottom <= LEAST_SIZE {
            return;
        }
        let (label, conductivity, facts) = describe(part, stuff);
        let taken = |name: &str| self.case.blocks.iter().any(|one| one.block.name == name);
        let name = unique(name, stuff, taken);
        self.case.blocks.push(CaseBlock {
            block: Block {
                name,
                label,
                area,
                conductivity: PlaneConductivity::isotropic(conductivity),
                covers,
            },
            facts,
        });
    }

    pub(super) fn region(&mut self, region: CaseRegion) {
        if region.area.right - region.area.left > LEAST_SIZE
            && region.area.top - region.area.bottom > LEAST_SIZE
        {
            self.case.regions.push(region);
        }
    }

    pub(super) fn seal(&mut self, name: &str, line: Area) {
        self.case.seals.push(Seal {
            name: name.into(),
            line,
            promised: false,
        });
    }

    /// A seal that nothing but the file's word stands for.
    pub(super) fn promised_seal(&mut self, name: &str, line: Area) {
        self.case.seals.push(Seal {
            name: name.into(),
            line,
            promised: true,
        });
    }

    pub(super) fn surface(&mut self, surface: Surface) {
        self.case.surfaces.push(surface);
    }

    pub(super) fn reference(&mut self, reference: Reference) {
        self.case.references.push(reference);
    }

    /// Psi is counted against that length of a plane assembly, with the films it states; a stated outer
    /// one holds at its outermost face alone, not in a gap.
    pub(super) fn counted_against(
        &mut self,
        assembly: &Assembly,
        length: f64,
        layers: &CutLayers<'_>,
    ) {
        let all = |film: Option<f64>| film.map_or_else(StatedFilms::default, StatedFilms::all);
        let outside = outside_role(layers);
        let (inner, outer) = stated(assembly);
        let outer = outer.filter(|_| outside == FilmRole::Outdoors);
        self.reference(Reference {
            assembly: assembly.name.clone(),
            kind: assembly.kind,
            length,
            layers: layers.as_reference(),
            outside,
            stated: (all(inner), all(outer)),
        });
    }

    pub(super) fn shows_strip(&mut self, floor: &str, strip: &str) {
        self.case.shows_strip = Some((floor.into(), strip.into()));
    }

    pub(super) fn dimension(&mut self, name: &str, line: Area) {
        if line.right - line.left > LEAST_SIZE || line.top - line.bottom > LEAST_SIZE {
            self.case.dimensions.push(Dimension {
                name: name.into(),
                line,
            });
        }
    }

    pub(super) fn notes(&mut self, notes: impl IntoIterator<Item = String>) {
        for note in notes {
            if !self.case.notes.contains(&note) {
                self.case.notes.push(note);
            }
        }
    }

    /// The detail with its lower left corner at 0, cut to what `cut` encloses.
    pub(super) fn finish(self, cut: Area) -> DetailCase {
        let mut case = self.case;
        case.width = cut.right - cut.left;
        case.height = cut.top - cut.bottom;
        let blocks = case.blocks.iter_mut().map(|one| &mut one.block.area);
        let regions = case.regions.iter_mut().map(|one| &mut one.area);
        let seals = case.seals.iter_mut().map(|one| &mut one.line);
        let surfaces = case.surfaces.iter_mut().map(|one| &mut one.line);
        let dimensions = case.dimensions.iter_mut().map(|one| &mut one.line);
        let all = blocks.chain(regions).chain(seals);
        for area in all.chain(surfaces).chain(dimensions) {
            area.left -= cut.left;
            area.right -= cut.left;
            area.bottom -= cut.bottom;
            area.top -= cut.bottom;
        }
        case
    }
}

/// A name not taken yet: with its assembly's in front, then numbered.
fn unique(name: &str, stuff: &Stuff<'_>, taken: impl Fn(&str) -> bool) -> String {
    // The airs have these names.
    let taken = |name: &str| ["room", "outdoors"].contains(&name) || taken(name);
    if !taken(name) {
        return name.to_owned();
    }
    let name = match stuff {
        Stuff::Layer(assembly, _) => format!("{} {name}", assembly.name),
        _ => name.to_owned(),
    };
    let numbered = (2..).map(|number| format!("{name} {number}"));
    let mut names = std::iter::once(name.clone()).chain(numbered);
    names.find(|name| !taken(name)).unwrap_or(name)
}

fn describe(part: Part, stuff: &Stuff<'_>) -> (String, f64, BlockFacts) {
    let of_substance = |substance: &Substance, (bonded, bond_is_promised), from| BlockFacts {
        part,
        kind: substance.kind,
        air_permeable: substance.air_permeable,
        bonded,
        bond_is_promised,
        by_temperature: substance.by_temperature.clone(),
        from,
        sources: substance.sources.clone(),
    };
    let of_air = |from| BlockFacts {
        part,
        kind: None,
        air_permeable: true,
        bonded: false,
        bond_is_promised: false,
        by_temperature: Vec::new(),
        from,
        sources: vec!["conductivity: ISO 6946, resistance of the air space by thickness".into()],
    };
    match stuff {
        Stuff::Layer(assembly, cut) => {
            let from = Some((assembly.name.clone(), cut.layer.name.clone()));
            match &cut.layer.content {
                Content::Solid(substance) => (
                    substance.label.clone(),
                    cut.conductivity,
                    // A resistance that is stated holds at any temperature.
                    BlockFacts {
                        by_temperature: cut.curve(),
                        ..of_substance(
                            substance,
                            (cut.layer.bonded, cut.layer.bond_is_promised),
                            from,
                        )
                    },
                ),
                Content::Air(_) => ("still air".into(), cut.conductivity, of_air(from)),
            }
        }
        Stuff::Substance(substance, conductivity) => (
            substance.label.clone(),
            *conductivity,
            of_substance(substance, (false, false), None),
        ),
        Stuff::Cavity(conductivity) => ("still air".into(), *conductivity, of_air(None)),
    }
}

/// The films an assembly states: its inner ones where the room is, its outer ones outdoors. The
/// handbook's go by the direction of heat flow in winter.
pub(super) fn stated(assembly: &Assembly) -> (Option<f64>, Option<f64>) {
    use crate::model::AssemblyKind;
    use crate::physics::heat::{Direction, exterior_film_handbook, interior_film_handbook};
    let direction = match assembly.kind {
        AssemblyKind::Wall => Direction::Horizontal,
        AssemblyKind::Floor => Direction::Down,
        AssemblyKind::Roof => Direction::Up,
    };
    let films = assembly.films;
    let handbook = |film: crate::quantity::ThermalResistance| films.handbook.then_some(film);
    let inside = films.inside.resistance;
    let outside = films.outside.resistance;
    (
        inside
            .or(handbook(interior_film_handbook(direction)))
            .map(|film| film.as_si()),
        outside
            .or(handbook(exterior_film_handbook()))
            .map(|film| film.as_si()),
    )
}

/// The films of one side of floor and wall: what looks sideways is the wall's, the rest the
/// floor's.
pub(super) fn stated_by_facing(floor: Option<f64>, wall: Option<f64>) -> StatedFilms {
    StatedFilms {
        up: floor,
        sideways: wall,
        down: None,
    }
}
