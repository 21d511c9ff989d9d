//! The whole house: does it fit the road, what does it weigh, where does its heat go?
//!
//! Everything starts from one [`Layout`]: how the layers of floor, walls and roof lie to the deck's
//! edge, the frame's top and the rafters. Measures of the outside ([`Fit`]) are sums whose every
//! term is kept. Two sets of areas follow from it ([`AssemblyArea`]): *inside* ones for heat, by the
//! same inside dimensions that psi is counted by, and *framed* ones, out to out of the framing, for
//! weight.

mod area;
mod bolt;
mod edge;
mod fit;
mod head_room;
mod heat;
mod heat_part;
mod layout;
mod price;
mod take_off;
mod weight;

pub use area::{AreaPart, AssemblyArea, areas};
pub use edge::{DetailPsi, PsiOf, StripShare};
pub use fit::{Fit, HeadRoom, Measure, Term, TermKind, fit};
pub use head_room::{height_taken, thickness_as_built};
pub use heat::{HeatLoss, heat_loss};
pub use heat_part::{Basis, HeatPart, HeatPartKind, NotApplicable, Size};
pub use layout::{Layout, layout};
pub use price::{PartSum, house_price, sum};
pub use take_off::{Piece, take_off_per_area};
pub use weight::{Tongue, Weight, WeightGroup, WeightLine, weight};

use crate::model::Stop;
use crate::model::house::HouseCase;

/// What was solved for a house.
#[derive(Clone, Debug)]
pub struct HouseResult {
    /// How its layers lie; `None` without measures.
    pub layout: Option<Layout>,
    /// Outside measures and head room.
    pub fit: Fit,
    /// Net areas by assembly.
    pub areas: Vec<AssemblyArea>,
    /// Volume of the room, m³; `None` without measures.
    pub volume: Option<f64>,
    /// What it weighs.
    pub weight: Weight,
    /// Where its heat goes.
    pub heat: HeatLoss,
}

/// Solves a house at a stop, and the details along its edges with it.
#[must_use]
pub fn solve_house(case: &HouseCase<'_>, stop: &Stop) -> HouseResult {
    solve_house_with(case, stop, &|detail| {
        DetailPsi::solve(detail, &stop.conditions)
    })
}

/// Solves a house at a stop, where psi of the details along its edges is told.
#[must_use]
pub fn solve_house_with(case: &HouseCase<'_>, stop: &Stop, psi_of: &PsiOf<'_>) -> HouseResult {
    let layout = layout(case);
    let areas = areas(case, layout.as_ref());
    HouseResult {
        fit: fit(case, layout.as_ref()),
        volume: layout
            .as_ref()
            .zip(case.house.shell.as_ref())
            .map(|(layout, shell)| layout.volume(shell)),
        weight: weight(case, layout.as_ref(), &areas),
        heat: heat_loss(case, layout.as_ref(), &areas, stop, psi_of),
        layout,
        areas,
    }
}
