//! What can be wrong with a detail, each with its place.

use std::fmt::{self, Display, Formatter};

use super::{Area, GREATEST_SIZE, MOST_BOUNDARIES, MOST_PLACES, MOST_RECTANGLES};

/// As many problems are reported at once.
pub(super) const MOST_PROBLEMS: usize = 50;

/// Why a detail can't be solved.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum DetailProblem {
    /// The cut's width or height is missing, not a number or beyond reason.
    Cut {
        /// m.
        width: f64,
        /// m.
        height: f64,
    },
    /// More rectangles than can be handled.
    TooManyRectangles {
        /// How many.
        count: usize,
    },
    /// More air and held faces than can be handled.
    TooManyBoundaries {
        /// How many.
        count: usize,
    },
    /// The edges divide the cut into more places than can be handled.
    TooManyEdges {
        /// Places side by side.
        columns: usize,
        /// Places one above the other.
        rows: usize,
    },
    /// An edge is not a finite number.
    NotFinite {
        /// What has it.
        name: String,
    },
    /// A rectangle without width or height, or thinner than a nanometer; edges the wrong way
    /// around count too.
    NoSize {
        /// Which.
        name: String,
        /// As given.
        area: Area,
    },
    /// Something that reaches beyond the cut.
    OutsideCut {
        /// Which.
        name: String,
        /// As given.
        area: Area,
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
    /// A region or face of an air that the detail doesn't have.
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
        area: Area,
    },
    /// Different air at the same place.
    AirOverlap {
        /// One.
        first: String,
        /// The other.
        second: String,
        /// Where.
        area: Area,
    },
    /// A part of the cut that nothing fills.
    Gap {
        /// The rectangle around it.
        area: Area,
    },
    /// No block is to be seen anywhere.
    AllAir,
    /// No solid meets air or a face of given temperature.
    NoBoundary,
    /// Solid that meets neither air nor a face of given temperature.
    Island {
        /// A block in it.
        name: String,
        /// The rectangle around it.
        area: Area,
    },
    /// A face that is neither level nor upright.
    FaceNotStraight {
        /// Which.
        name: String,
        /// As given.
        line: Area,
    },
    /// A face that doesn't lie along the surface of a solid.
    FaceOffSurface {
        /// Which.
        name: String,
        /// As given.
        line: Area,
    },
    /// A face that lies on another face.
    FaceTwice {
        /// The later one.
        name: String,
        /// As given.
        line: Area,
    },
}

/// The problems, if there are any.
pub(super) fn none_of(problems: Vec<DetailProblem>) -> Result<(), Vec<DetailProblem>> {
    if problems.is_empty() {
        Ok(())
    } else {
        Err(problems)
    }
}

/// Coordinates in millimeters.
struct At<'a>(&'a Area);

impl Display for At<'_> {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        // Thousandths of a millimeter, and no more digits than needed.
        let mm = |meters: f64| (meters * 1e6).round() / 1e3 + 0.0;
        let Area {
            left,
            right,
            bottom,
            top,
        } = *self.0;
        let (left, right, bottom, top) = (mm(left), mm(right), mm(bottom), mm(top));
        write!(f, "x {left} to {right} mm, y {bottom} to {top} mm")
    }
}

impl Display for DetailProblem {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cut { width, height } => write!(
                f,
                "the cut is {width} m wide and {height} m high: expected more than 0 and at most {GREATEST_SIZE} m"
            ),
            Self::TooManyRectangles { count } => {
                write!(
                    f,
                    "{count} rectangles: at most {MOST_RECTANGLES} can be handled"
                )
            }
            Self::TooManyBoundaries { count } => write!(
                f,
                "{count} airs and faces of given temperature: at most {MOST_BOUNDARIES} can be handled"
            ),
            Self::TooManyEdges { columns, rows } => write!(
                f,
                "the edges divide the cut into {columns} by {rows} places: at most {MOST_PLACES} can be handled"
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
            Self::AllAir => write!(f, "the cut holds nothing but air"),
            Self::NoBoundary => write!(
                f,
                "nothing in the cut meets air or a face of given temperature, so no temperature can be found"
            ),
            placed => placed.fmt_placed(f),
        }
    }
}

impl DetailProblem {
    /// The problems that are told with their coordinates.
    fn fmt_placed(&self, f: &mut Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFinite { name } => write!(f, "an edge of `{name}` is not a number"),
            Self::NoSize { name, area } => write!(f, "`{name}` has no size: {}", At(area)),
            Self::OutsideCut { name, area } => {
                write!(f, "`{name}` reaches beyond the cut: {}", At(area))
            }
            Self::Overlap { upper, lower, area } => write!(
                f,
                "`{upper}` lies over `{lower}` and isn't declared to cover it: {}",
                At(area)
            ),
            Self::AirOverlap {
                first,
                second,
                area,
            } => write!(f, "`{first}` and `{second}` share a place: {}", At(area)),
            Self::Gap { area } => {
                write!(
                    f,
                    "neither a solid nor air fills a part of the cut: {}",
                    At(area)
                )
            }
            Self::Island { name, area } => write!(
                f,
                "`{name}` touches neither air nor a face of given temperature, directly or through others: {}",
                At(area)
            ),
            Self::FaceNotStraight { name, line } => write!(
                f,
                "the face `{name}` runs neither along x nor along y: {}",
                At(line)
            ),
            Self::FaceOffSurface { name, line } => write!(
                f,
                "the face `{name}` doesn't lie along the surface of a solid: {}",
                At(line)
            ),
            Self::FaceTwice { name, line } => {
                write!(f, "the face `{name}` lies on another face: {}", At(line))
            }
            _ => Ok(()),
        }
    }
}

impl std::error::Error for DetailProblem {}
