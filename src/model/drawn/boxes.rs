//! A piece of a building in three dimensions, drawn box by box, whose air has no temperature yet.
//!
//! What a [`DetailCase`](super::DetailCase) is to a cut a [`BoxesCase`] is to a volume: the words for
//! blocks, airs, films and faces are the same.

use super::case::{AirSource, BlockFacts, CaseAir, CaseContact, gives_heat};
use super::films::{DetailFilms, FilmRole, StatedFilms};
use crate::model::volume::{
    AirRegion, Block, Extent, Face, Facing, Volume, VolumeParts, VolumeProblem,
};
use crate::quantity::Temperature;

/// A block with what is known of it.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseBox {
    /// The box the solver sees.
    pub block: Block,
    /// What it is made of, in words.
    pub label: String,
    /// What the checks see.
    pub facts: BlockFacts,
}

/// A box of air.
#[derive(Clone, Debug, PartialEq)]
pub struct BoxRegion {
    /// Which of the airs.
    pub air: usize,
    /// Where.
    pub extent: Extent,
    /// Which films the standard gives there.
    pub role: FilmRole,
    /// Films that stand instead.
    pub stated: StatedFilms,
}

/// A rectangle on the surface of a solid.
#[derive(Clone, Debug, PartialEq)]
pub struct BoxFace {
    /// Its name.
    pub name: String,
    /// Where.
    pub extent: Extent,
    /// What it meets.
    pub contact: CaseContact,
}

/// A detail in three dimensions under one variant. x runs to the right, y to the back, z upward.
#[derive(Clone, Debug, PartialEq)]
pub struct BoxesCase {
    /// Its name.
    pub name: String,
    /// The variant's name; `None` as drawn.
    pub variant: Option<String>,
    /// Its length along x, y and z, m.
    pub size: [f64; 3],
    /// Solids in drawing order.
    pub blocks: Vec<CaseBox>,
    /// The airs.
    pub airs: Vec<CaseAir>,
    /// Where they lie.
    pub regions: Vec<BoxRegion>,
    /// Faces held at a temperature, or sides of the volume that lie open to air.
    pub faces: Vec<BoxFace>,
    /// Places whose temperature is wanted: name, and x, y, z in m.
    pub points: Vec<(String, [f64; 3])>,
}

impl BoxesCase {
    /// The layers that are bonded because the file says so, each once.
    #[must_use]
    pub fn promises(&self) -> Vec<String> {
        let bonded = self.blocks.iter().filter(|one| one.facts.bond_is_promised);
        bonded
            .map(|one| format!("{} bonded", one.block.name))
            .collect()
    }

    /// Whether nothing has a temperature beside those of room and outdoor air.
    #[must_use]
    pub fn between_two_airs(&self) -> bool {
        let mut airs = self.airs.iter();
        let mut faces = self.faces.iter();
        airs.all(|air| !matches!(air.source, AirSource::Held(_)))
            && faces.all(|face| !matches!(face.contact, CaseContact::Held(_)))
    }

    /// The volume between room and outdoor air of given temperatures.
    ///
    /// # Errors
    /// Whatever keeps the boxes from being solved; see [`Volume::new`].
    pub fn volume_at(
        &self,
        indoor: Temperature,
        outdoor: Temperature,
        films: &DetailFilms,
    ) -> Result<Volume, Vec<VolumeProblem>> {
        let gives_heat = |air: usize| gives_heat(&self.airs, air, (indoor, outdoor));
        let region = |region: &BoxRegion| AirRegion {
            air: region.air,
            extent: region.extent,
            films: films.of_region(region.role, &region.stated, gives_heat(region.air)),
        };
        let face = |face: &BoxFace| Face {
            name: face.name.clone(),
            extent: face.extent,
            contact: face.contact.at(films, gives_heat),
        };
        Volume::new(VolumeParts {
            size: self.size,
            blocks: self.blocks.iter().map(|one| one.block.clone()).collect(),
            airs: self
                .airs
                .iter()
                .map(|air| air.at(indoor, outdoor))
                .collect(),
            regions: self.regions.iter().map(region).collect(),
            faces: self.faces.iter().map(face).collect(),
        })
    }
}

/// The way a face looks as films go by it: up, down or sideways.
#[must_use]
pub fn as_in_a_cut(facing: Facing) -> crate::model::detail::Facing {
    match facing {
        Facing::Up => crate::model::detail::Facing::Up,
        Facing::Down => crate::model::detail::Facing::Down,
        Facing::Left | Facing::Right | Facing::Front | Facing::Back => {
            crate::model::detail::Facing::Left
        }
    }
}
