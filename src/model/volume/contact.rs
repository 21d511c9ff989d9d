//! What a volume meets at its surfaces: air behind a film, or a given temperature.

use std::collections::HashMap;

use super::problem::{MOST_PROBLEMS, VolumeProblem};
use super::raster::Raster;
use super::{Extent, Place, VolumeParts};
use crate::model::detail::{Boundary, Contact, FaceContact, FaceFilms};

/// The way a face looks, from the solid outward.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Facing {
    /// Toward smaller x.
    Left,
    /// Toward greater x.
    Right,
    /// Toward smaller y.
    Front,
    /// Toward greater y.
    Back,
    /// Toward smaller z.
    Down,
    /// Toward greater z.
    Up,
}

impl Facing {
    /// All six.
    pub const ALL: [Self; 6] = [
        Self::Left,
        Self::Right,
        Self::Front,
        Self::Back,
        Self::Down,
        Self::Up,
    ];

    /// Toward greater positions along an axis (0, 1, 2 for x, y, z), or toward smaller ones.
    #[must_use]
    pub(crate) const fn along(axis: usize, onward: bool) -> Self {
        Self::ALL[2 * axis + onward as usize]
    }

    /// The axis it looks along: 0, 1 or 2 for x, y or z.
    #[must_use]
    pub const fn axis(self) -> usize {
        self as usize / 2
    }

    /// Whether it looks toward greater positions.
    #[must_use]
    pub const fn is_onward(self) -> bool {
        self as usize % 2 == 1
    }

    const fn film(self, films: &FaceFilms) -> f64 {
        match self {
            Self::Up => films.up,
            Self::Down => films.down,
            _ => films.sideways,
        }
    }
}

/// A rectangle on the surface of a solid, at a side of the volume or against air.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// What results call it; once in a volume.
    pub name: String,
    /// From, to: along one of the axes it has no extent.
    pub extent: Extent,
    /// What it meets there.
    pub contact: FaceContact,
}

/// Air first, then held faces.
pub(super) fn boundaries(parts: &VolumeParts) -> Vec<Boundary> {
    let boundary = |name: &str, temperature, is_air| Boundary {
        name: name.to_owned(),
        temperature,
        is_air,
    };
    let airs = parts.airs.iter();
    let airs = airs.map(|air| boundary(&air.name, air.temperature, true));
    let held = parts.faces.iter().filter_map(|face| match face.contact {
        FaceContact::Held(temperature) => Some(boundary(&face.name, temperature, false)),
        FaceContact::Air { .. } => None,
    });
    airs.chain(held).collect()
}

/// The faces of a volume, by the place and side they lie on.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Contacts {
    by_side: HashMap<([usize; 3], Facing), Contact>,
}

impl Contacts {
    pub(super) fn of(parts: &VolumeParts, raster: &Raster) -> (Self, Vec<VolumeProblem>) {
        let mut by_side = HashMap::new();
        let mut wrong = Vec::new();
        let mut held = parts.airs.len();
        for face in &parts.faces {
            let (boundary, film) = match face.contact {
                FaceContact::Air { air, film } => (air, film),
                FaceContact::Held(_) => {
                    held += 1;
                    (held - 1, 0.0)
                }
            };
            let contact = Contact { boundary, film };
            let (name, extent) = (face.name.clone(), face.extent);
            let Some(sides) = raster.sides(&extent) else {
                wrong.push(VolumeProblem::FaceOffSurface { name, extent });
                continue;
            };
            let mut taken = false;
            for side in sides {
                taken |= by_side.insert(side, contact).is_some();
            }
            if taken {
                wrong.push(VolumeProblem::FaceTwice { name, extent });
            }
        }
        wrong.truncate(MOST_PROBLEMS);
        (Self { by_side }, wrong)
    }

    pub(super) fn at(
        &self,
        parts: &VolumeParts,
        raster: &Raster,
        place: [usize; 3],
        facing: Facing,
    ) -> Option<Contact> {
        if let Some(contact) = self.by_side.get(&(place, facing)) {
            return Some(*contact);
        }
        let Place::Air(region) = raster.place(raster.beside(place, facing)?) else {
            return None;
        };
        let region = &parts.regions[region as usize];
        Some(Contact {
            boundary: region.air,
            film: facing.film(&region.films),
        })
    }
}
