//! What a detail meets at its surfaces: air behind a film, or a given temperature.

use std::collections::HashMap;

use super::problem::{DetailProblem, MOST_PROBLEMS};
use super::raster::{Facing, Place, Raster};
use super::{Area, DetailParts};

/// Air of one temperature, wherever it lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Air {
    /// What results call it; once in a detail.
    pub name: String,
    /// °C.
    pub temperature: f64,
}

/// Surface resistances by the way a solid's face looks, m²·K/W; 0 to 1e6.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceFilms {
    /// Of faces that look up, as a floor does.
    pub up: f64,
    /// Of faces that look sideways, as a wall does.
    pub sideways: f64,
    /// Of faces that look down, as a ceiling does.
    pub down: f64,
}

impl FaceFilms {
    /// The same in every direction, m²·K/W.
    #[must_use]
    pub const fn all(resistance: f64) -> Self {
        Self {
            up: resistance,
            sideways: resistance,
            down: resistance,
        }
    }

    /// The film of a face that looks that way, m²·K/W.
    #[must_use]
    pub const fn of(&self, facing: Facing) -> f64 {
        match facing {
            Facing::Up => self.up,
            Facing::Down => self.down,
            Facing::Left | Facing::Right => self.sideways,
        }
    }
}

/// A rectangle filled with air, as far as no block lies over it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirRegion {
    /// Which of the detail's airs.
    pub air: usize,
    /// Where.
    pub area: Area,
    /// Films of the faces that meet this region.
    pub films: FaceFilms,
}

/// A straight line along the surface of a solid, at the cut's edge or against air.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// What results call it; once in a detail.
    pub name: String,
    /// From, to: along x or along y; one of the two has no extent.
    pub line: Area,
    /// What it meets there.
    pub contact: FaceContact,
}

/// What a face meets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FaceContact {
    /// A temperature right at the surface, °C; no film.
    Held(f64),
    /// One of the detail's airs behind a film, m²·K/W.
    Air {
        /// Which of the detail's airs.
        air: usize,
        /// m²·K/W; 0 to 1e6.
        film: f64,
    },
}

/// Something of a given temperature that heat flows from or to.
#[derive(Clone, Debug, PartialEq)]
pub struct Boundary {
    /// The air's or the face's.
    pub name: String,
    /// °C.
    pub temperature: f64,
    /// Whether it is air; otherwise a face held at that temperature.
    pub is_air: bool,
}

impl Boundary {
    pub(super) fn of(parts: &DetailParts) -> Vec<Self> {
        let air = |air: &Air| Self {
            name: air.name.clone(),
            temperature: air.temperature,
            is_air: true,
        };
        let held = |face: &Face| match face.contact {
            FaceContact::Held(temperature) => Some(Self {
                name: face.name.clone(),
                temperature,
                is_air: false,
            }),
            FaceContact::Air { .. } => None,
        };
        let airs = parts.airs.iter().map(air);
        airs.chain(parts.faces.iter().filter_map(held)).collect()
    }
}

/// What a solid meets on one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// Which of the detail's boundaries.
    pub boundary: usize,
    /// Resistance between the surface and it, m²·K/W.
    pub film: f64,
}

/// The faces of a detail, by the place and side they lie on.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Contacts {
    by_side: HashMap<(usize, Facing), Contact>,
}

impl Contacts {
    pub(super) fn of(parts: &DetailParts, raster: &Raster) -> (Self, Vec<DetailProblem>) {
        let mut by_side = HashMap::new();
        let mut wrong = Vec::new();
        let mut held = parts.airs.len();
        for face in &parts.faces {
            let contact = match face.contact {
                FaceContact::Air { air, film } => Contact {
                    boundary: air,
                    film,
                },
                FaceContact::Held(_) => {
                    held += 1;
                    Contact {
                        boundary: held - 1,
                        film: 0.0,
                    }
                }
            };
            let place =
                |problem: fn(String, Area) -> DetailProblem| problem(face.name.clone(), face.line);
            for side in raster.sides(&face.line) {
                let Some(side) = side else {
                    wrong.push(place(|name, line| DetailProblem::FaceOffSurface {
                        name,
                        line,
                    }));
                    break;
                };
                if by_side.insert(side, contact).is_some() {
                    wrong.push(place(|name, line| DetailProblem::FaceTwice { name, line }));
                    break;
                }
            }
            if wrong.len() >= MOST_PROBLEMS {
                break;
            }
        }
        (Self { by_side }, wrong)
    }

    pub(super) fn at(
        &self,
        parts: &DetailParts,
        raster: &Raster,
        (column, row): (usize, usize),
        facing: Facing,
    ) -> Option<Contact> {
        let side = (raster.index(column, row), facing);
        if let Some(contact) = self.by_side.get(&side) {
            return Some(*contact);
        }
        match raster.beside(column, row, facing) {
            Some(Place::Air(region)) => {
                let region = &parts.regions[region as usize];
                Some(Contact {
                    boundary: region.air,
                    film: region.films.of(facing),
                })
            }
            _ => None,
        }
    }
}
