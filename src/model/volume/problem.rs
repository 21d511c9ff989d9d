//! What can be wrong with a volume, each with its place.

use std::fmt::{self, Display, Formatter};

use super::{Extent, GREATEST_SIDE, MOST_BOXES, MOST_PLACES};
use crate::quantity::unit::INCH;

/// As many problems are reported at once.
pub(super) const MOST_PROBLEMS: usize = 50;

/// Why a volume can't be solved.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum VolumeProblem {
    /// A side of the volume is missing, not a number or beyond reason.
    Size {
        /// m.
        size: [f64; 3],
    },
    /// More boxes and airs than can be handled.
    TooManyBoxes {
        /// How many.
        count: usize,
    },
    /// The edges divide the volume into more places than can be handled.
    TooManyEdges {
        /// Places along x, y and z.
        counts: [usize; 3],
    },
    /// An edge is not a finite number.
    NotFinite {
        /// What has it.
        name: String,
    },
    /// A box thinner than a nanometer, or a face without area; edges the wrong way around count too.
    NoSize {
        /// Which.
        name: String,
        /// As given.
        extent: Extent,
    },
    /// Something that reaches beyond the volume.
    Outside {
        /// Which.
        name: String,
        /// As given.
        extent: Extent,
    },
    /// A conductivity that isn't between 1e-6 and 1e6 W/(m·K).
    Conductivity {
        /// Of which block.
        name: String,
        /// W/(m·K).
        value: f64,
    },
    /// A film that isn't between 0 and 1e6 m²·K/W.
    Film {
        /// Of which air region or face.
        name: String,
        /// m²·K/W.
        value: f64,
    },
    /// A temperature that isn't between absolute zero and 10,000 °C.
    Temperature {
        /// Of which air or face.
        name: String,
        /// °C.
        value: f64,
    },
    /// A name that is used more than once.
    NameTwice {
        /// Which.
        name: String,
    },
    /// A region or face of an air that the volume doesn't have.
    NoSuchAir {
        /// Which region or face.
        name: String,
        /// The number given.
        air: usize,
    },
    /// A block over another one without being declared to cover it.
    Overlap {
        /// The later one.
        upper: String,
        /// The earlier one.
        lower: String,
        /// Where.
        extent: Extent,
    },
    /// Different air at the same place.
    AirOverlap {
        /// One.
        first: String,
        /// The other.
        second: String,
        /// Where.
        extent: Extent,
    },
    /// A part of the volume that nothing fills.
    Gap {
        /// The box around it.
        extent: Extent,
    },
    /// No block is to be seen anywhere.
    AllAir,
    /// No solid meets air or a face of given temperature.
    NoBoundary,
    /// An air that no solid meets.
    AirTouchesNothing {
        /// Which.
        name: String,
    },
    /// A face that isn't flat.
    FaceNotFlat {
        /// Which.
        name: String,
        /// As given.
        extent: Extent,
    },
    /// A face that doesn't lie on the surface of a solid.
    FaceOffSurface {
        /// Which.
        name: String,
        /// As given.
        extent: Extent,
    },
    /// A face that lies on another face.
    FaceTwice {
        /// The later one.
        name: String,
        /// As given.
        extent: Extent,
    },
}

/// The problems, if there are any.
pub(super) fn none_of(problems: Vec<VolumeProblem>) -> Result<(), Vec<VolumeProblem>> {
    if problems.is_empty() {
        Ok(())
    } else {
        Err(problems)
    }
}

/// Coordinates in inches and millimeters.
struct At<'a>(&'a Extent);

impl Display for At<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        // Thousandths, and no more digits than needed.
        let place = |scale: f64, unit: &str| {
            let number = |meters: f64| (meters / scale * 1e3).round() / 1e3 + 0.0;
            ["x", "y", "z"]
                .into_iter()
                .enumerate()
                .map(|(axis, name)| {
                    let (from, to) = (number(self.0.from[axis]), number(self.0.to[axis]));
                    match from == to {
                        true => format!("{name} {from} {unit}"),
                        false => format!("{name} {from} to {to} {unit}"),
                    }
                })
                .collect::<Vec<_>>()
                .join(", ")
        };
        write!(f, "{} ({})", place(INCH, "in"), place(1e-3, "mm"))
    }
}

impl Display for VolumeProblem {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::Size { size: [x, y, z] } => write!(
                f,
                "the volume is {x} by {y} by {z} m: expected more than 0 and at most {GREATEST_SIDE} m"
            ),
            Self::TooManyBoxes { count } => write!(
                f,
                "{count} boxes, airs and faces: at most {MOST_BOXES} can be handled"
            ),
            Self::TooManyEdges { counts: [x, y, z] } => write!(
                f,
                "the edges divide the volume into {x} by {y} by {z} places: at most {MOST_PLACES} can be handled"
            ),
            Self::Conductivity { name, value } => write!(
                f,
                "`{name}` conducts {value} W/(m·K): expected 0.000001 to 1000000"
            ),
            Self::Film { name, value } => write!(
                f,
                "the film at `{name}` is {value} m²·K/W: expected 0 to 1000000"
            ),
            Self::Temperature { name, value } => {
                write!(f, "`{name}` has {value} °C: expected −273.15 to 10000")
            }
            Self::NameTwice { name } => write!(f, "`{name}` is the name of two things"),
            Self::NoSuchAir { name, air } => {
                write!(f, "`{name}` is of air number {air}, which isn't there")
            }
            Self::AllAir => write!(f, "the volume holds nothing but air"),
            Self::NoBoundary => write!(
                f,
                "nothing in the volume meets air or a face of given temperature, so no temperature can be found"
            ),
            Self::AirTouchesNothing { name } => {
                write!(f, "the air `{name}` touches nothing solid")
            }
            placed => placed.fmt_placed(f),
        }
    }
}

impl VolumeProblem {
    /// The problems that are told with their coordinates.
    fn fmt_placed(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite { name } => write!(f, "an edge of `{name}` is not a number"),
            Self::NoSize { name, extent } => write!(f, "`{name}` has no size: {}", At(extent)),
            Self::Outside { name, extent } => {
                write!(f, "`{name}` reaches beyond the volume: {}", At(extent))
            }
            Self::Overlap {
                upper,
                lower,
                extent,
            } => write!(
                f,
                "`{upper}` lies over `{lower}` and isn't declared to cover it: {}",
                At(extent)
            ),
            Self::AirOverlap {
                first,
                second,
                extent,
            } => write!(f, "`{first}` and `{second}` share a place: {}", At(extent)),
            Self::Gap { extent } => write!(
                f,
                "neither a solid nor air fills a part of the volume: {}",
                At(extent)
            ),
            Self::FaceNotFlat { name, extent } => {
                write!(f, "the face `{name}` isn't flat: {}", At(extent))
            }
            Self::FaceOffSurface { name, extent } => write!(
                f,
                "the face `{name}` doesn't lie on the surface of a solid: {}",
                At(extent)
            ),
            Self::FaceTwice { name, extent } => {
                write!(f, "the face `{name}` lies on another face: {}", At(extent))
            }
            _ => Ok(()),
        }
    }
}

impl std::error::Error for VolumeProblem {}
