//! A detail whose air has no temperature yet.

use super::assumed::AssumedEdge;
use super::films::{DetailFilms, FilmRole, StatedFilms};
use super::plan::DetailPlan;
use super::reference::Reference;
use crate::material::ConductivityCurve;
use crate::model::detail::{
    Air, AirRegion, Area, Block, Detail, DetailParts, DetailProblem, Face, FaceContact, Facing,
};
use crate::model::{Conditions, Kind};
use crate::quantity::Temperature;

/// How a detail came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DetailKind {
    /// Drawn in the file, rectangle by rectangle.
    Rectangles,
    /// Generated: where floor and wall meet the steel frame.
    FloorEdge,
    /// Generated: steel under the floor on a pitch.
    CrossMembers,
    /// Generated: where wall and roof meet above the room. Its room surfaces alone are judged: what air
    /// leaks do to wood there is judged of wall and roof.
    RoofEdge,
}

/// What a block is in the building.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A rectangle the file draws.
    Drawn,
    /// Air shut in on all sides, by its equivalent conductivity.
    Cavity,
    /// A layer of the floor.
    Floor,
    /// The sheet metal under the floor.
    Pan,
    /// A layer of the wall.
    Wall,
    /// A layer of the roof.
    Roof,
    /// The wall's bottom plate, or the plates on its studs.
    Plate,
    /// Solid wood between plate and steel where no foam lies.
    Packing,
    /// The joist along the edge.
    RimJoist,
    /// The strip of metal that floor and wall stand on.
    Flange,
    /// What lies over that strip.
    OverFlange,
    /// The frame's edge member below it.
    Rail,
    /// A steel member under the floor.
    CrossMember,
}

/// What checks and sentences need to know of a block.
#[derive(Clone, Debug, PartialEq)]
pub struct BlockFacts {
    /// What it is in the building.
    pub part: Part,
    /// What it is made of; `None` for air and where the file gives only numbers.
    pub kind: Option<Kind>,
    /// Whether air moves through it.
    pub air_permeable: bool,
    /// No air path around or behind it.
    pub bonded: bool,
    /// Bonded because the file says so, rather than by its nature.
    pub bond_is_promised: bool,
    /// Conductivity by mean temperature; empty where it is constant.
    pub by_temperature: ConductivityCurve,
    /// The assembly and the layer it was drawn from.
    pub from: Option<(String, String)>,
    /// Where its conductivity comes from.
    pub sources: Vec<String>,
}

impl BlockFacts {
    /// Solid wood or a wood-based panel: what rots.
    #[must_use]
    pub fn is_wood(&self) -> bool {
        self.kind.is_some_and(Kind::is_wood)
    }
}

/// A block with what is known of it.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseBlock {
    /// The rectangle the solver sees.
    pub block: Block,
    /// What the checks see.
    pub facts: BlockFacts,
}

/// Where the temperature of an air comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AirSource {
    /// The room's air.
    Room,
    /// Outdoor air.
    Outdoors,
    /// Another space, held at a temperature of its own.
    Held(Temperature),
}

impl AirSource {
    /// Its temperature between room and outdoor air.
    pub(super) fn temperature(self, indoor: Temperature, outdoor: Temperature) -> Temperature {
        match self {
            Self::Room => indoor,
            Self::Outdoors => outdoor,
            Self::Held(held) => held,
        }
    }
}

/// Whether an air is the warmer side. A space at a temperature of its own gives heat where it is warmer than
/// the room.
pub(super) fn gives_heat(
    airs: &[CaseAir],
    air: usize,
    (indoor, outdoor): (Temperature, Temperature),
) -> bool {
    match airs.get(air).map_or(AirSource::Room, |air| air.source) {
        AirSource::Room => indoor >= outdoor,
        AirSource::Outdoors => outdoor > indoor,
        AirSource::Held(held) => held > indoor,
    }
}

/// Air by name.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseAir {
    /// `room`, `outdoors` or the file's own name.
    pub name: String,
    /// Its temperature's source.
    pub source: AirSource,
}

impl CaseAir {
    /// The air that the solver sees between room and outdoor air.
    pub(super) fn at(&self, indoor: Temperature, outdoor: Temperature) -> Air {
        Air {
            name: self.name.clone(),
            temperature: self.source.temperature(indoor, outdoor).as_celsius(),
        }
    }
}

/// A rectangle of air.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseRegion {
    /// Which of the detail's airs.
    pub air: usize,
    /// Where.
    pub area: Area,
    /// Which films the standard gives there.
    pub role: FilmRole,
    /// Films that stand instead.
    pub stated: StatedFilms,
}

/// What a face meets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CaseContact {
    /// A temperature right at the surface.
    Held(Temperature),
    /// Air behind a film.
    Air {
        /// Which of the detail's airs.
        air: usize,
        /// Which film the standard gives there.
        role: FilmRole,
        /// The way the face looks.
        facing: Facing,
        /// A film stated instead, m²·K/W.
        film: Option<f64>,
    },
}

impl CaseContact {
    /// What the solver sees of it, where an air gives heat or takes it.
    pub(super) fn at(self, films: &DetailFilms, gives_heat: impl Fn(usize) -> bool) -> FaceContact {
        match self {
            Self::Held(held) => FaceContact::Held(held.as_celsius()),
            Self::Air {
                air,
                role,
                facing,
                film,
            } => {
                let stated = film.map_or_else(StatedFilms::default, StatedFilms::all);
                let film = films.at(role, &stated, facing, gives_heat(air));
                FaceContact::Air { air, film }
            }
        }
    }
}

/// A line along the surface of a solid.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseFace {
    /// Its name.
    pub name: String,
    /// Where.
    pub line: Area,
    /// What it meets.
    pub contact: CaseContact,
}

/// A line that leaking air doesn't cross.
#[derive(Clone, Debug, PartialEq)]
pub struct Seal {
    /// Its name.
    pub name: String,
    /// Where: level or upright.
    pub line: Area,
    /// Declared as a seal by the file, rather than the edge of a bonded layer: a promise about the
    /// work on the site.
    pub promised: bool,
}

/// A surface of the room by name.
#[derive(Clone, Debug, PartialEq)]
pub struct Surface {
    /// `floor surface`, `wall surface`.
    pub name: String,
    /// Where.
    pub line: Area,
    /// The way it looks.
    pub facing: Facing,
}

/// A length worth printing on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// What it measures.
    pub name: String,
    /// From, to: level or upright.
    pub line: Area,
}

/// A detail under one variant.
#[derive(Clone, Debug, PartialEq)]
pub struct DetailCase {
    /// Its name.
    pub name: String,
    /// The variant's name; `None` as drawn.
    pub variant: Option<String>,
    /// How it came about.
    pub kind: DetailKind,
    /// Width of the cut, m.
    pub width: f64,
    /// Height of the cut, m.
    pub height: f64,
    /// Solids in drawing order.
    pub blocks: Vec<CaseBlock>,
    /// The airs.
    pub airs: Vec<CaseAir>,
    /// Where they lie.
    pub regions: Vec<CaseRegion>,
    /// Faces held at a temperature, or edges of the cut that lie open to air.
    pub faces: Vec<CaseFace>,
    /// Where leaking air stops.
    pub seals: Vec<Seal>,
    /// Places whose temperature is wanted: name, and x, y in m.
    pub points: Vec<(String, (f64, f64))>,
    /// The room's surfaces by name; empty in details drawn by hand.
    pub surfaces: Vec<Surface>,
    /// What psi is counted against, by inside dimensions; empty where nothing is stated.
    pub references: Vec<Reference>,
    /// The floor and the strip of it that the cut shows: what psi stands for, wherever the floor's
    /// U-value leaves that strip out.
    pub shows_strip: Option<(String, String)>,
    /// What the drawing measures.
    pub dimensions: Vec<Dimension>,
    /// Remarks on what was drawn and what was left out.
    pub notes: Vec<String>,
    /// What it was generated from; `None` where the file draws it.
    pub plan: Option<DetailPlan>,
    /// What it stands for where it was drawn without being asked; `None` where the file asks for
    /// it.
    pub assumed: Option<AssumedEdge>,
}

impl DetailCase {
    /// `floor edge` or `floor edge, foam over flange`.
    #[must_use]
    pub fn full_name(&self) -> String {
        match &self.variant {
            None => self.name.clone(),
            Some(variant) => format!("{}, {variant}", self.name),
        }
    }

    /// What the file promises here about the work on the site: air seals by name and layers that are
    /// bonded, each once.
    #[must_use]
    pub fn promises(&self) -> Vec<String> {
        let seals = self.seals.iter().filter(|seal| seal.promised);
        let bonds = self.blocks.iter().filter(|one| one.facts.bond_is_promised);
        let seals = seals.map(|seal| seal.name.clone());
        let all = seals.chain(bonds.map(|one| format!("{} bonded", one.block.name)));
        let mut names: Vec<String> = Vec::new();
        for name in all {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names
    }

    /// The blocks that are that part of the building.
    pub fn blocks_of(&self, part: Part) -> impl Iterator<Item = &CaseBlock> {
        self.blocks.iter().filter(move |one| one.facts.part == part)
    }

    /// The detail between room and outdoor air of given temperatures.
    ///
    /// # Errors
    /// Whatever keeps the parts from being solved; see [`Detail::new`].
    pub fn detail_at(
        &self,
        indoor: Temperature,
        outdoor: Temperature,
        films: &DetailFilms,
    ) -> Result<Detail, Vec<DetailProblem>> {
        Detail::new(self.parts_at(indoor, outdoor, films))
    }

    /// The detail on the mean of the three coldest months.
    ///
    /// # Errors
    /// As [`Self::detail_at`].
    pub fn on_winter_mean(
        &self,
        conditions: &Conditions,
        films: &DetailFilms,
    ) -> Result<Detail, Vec<DetailProblem>> {
        let indoor = conditions.indoor.temperature;
        self.detail_at(indoor, conditions.winter_mean.temperature, films)
    }

    /// Σ U·l of the plane assemblies, W/(m·K): the coupling coefficient less this is psi.
    #[must_use]
    pub fn plane_coupling(
        &self,
        indoor: Temperature,
        outdoor: Temperature,
        films: &DetailFilms,
    ) -> f64 {
        let of = |one: &Reference| one.length * one.transmittance(indoor >= outdoor, films);
        self.references.iter().map(of).sum()
    }

    /// The parts the solver works on, not yet checked.
    #[must_use]
    pub fn parts_at(
        &self,
        indoor: Temperature,
        outdoor: Temperature,
        films: &DetailFilms,
    ) -> DetailParts {
        let gives_heat = |air: usize| gives_heat(&self.airs, air, (indoor, outdoor));
        DetailParts {
            width: self.width,
            height: self.height,
            blocks: self.blocks.iter().map(|one| one.block.clone()).collect(),
            airs: self
                .airs
                .iter()
                .map(|air| air.at(indoor, outdoor))
                .collect(),
            regions: self
                .regions
                .iter()
                .map(|region| AirRegion {
                    air: region.air,
                    area: region.area,
                    films: films.of_region(region.role, &region.stated, gives_heat(region.air)),
                })
                .collect(),
            faces: self
                .faces
                .iter()
                .map(|face| Face {
                    name: face.name.clone(),
                    line: face.line,
                    contact: face.contact.at(films, gives_heat),
                })
                .collect(),
        }
    }
}
