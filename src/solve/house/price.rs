//! What the materials cost: price per area × share × area, piece by piece of the take-off.
//!
//! Members by their share of the layer's volume. No waste, no fasteners, no labor, no openings:
//! only the assemblies. A material without a price makes the sum a least value, and is named.

use super::area::AssemblyArea;
use super::take_off::{Piece, take_off};
use super::weight::rafters;
use crate::model::house::HouseCase;

/// A sum over the pieces of a take-off, and what it lacks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartSum {
    /// What is known of it.
    pub known: f64,
    /// The materials it isn't known for, each once.
    pub unknown: Vec<String>,
}

impl PartSum {
    /// The sum, where all of it is known.
    #[must_use]
    pub fn complete(&self) -> Option<f64> {
        self.unknown.is_empty().then_some(self.known)
    }
}

/// Adds up a value of pieces, such as [`Piece::price`] or [`Piece::mass`].
#[must_use]
pub fn sum<'a>(pieces: &[Piece<'a>], value: fn(&Piece<'a>) -> Option<f64>) -> PartSum {
    let mut sum = PartSum::default();
    for piece in pieces {
        match value(piece) {
            Some(value) => sum.known += value,
            None if !sum.unknown.contains(&piece.substance.label) => {
                sum.unknown.push(piece.substance.label.clone());
            }
            None => {}
        }
    }
    sum
}

/// The price of a house's assemblies, without what the trailer's own weight includes.
#[must_use]
pub fn house_price(case: &HouseCase<'_>, areas: &[AssemblyArea]) -> PartSum {
    let includes = &case.house.trailer.includes;
    let pieces = areas.iter().filter_map(|area| {
        let assembly = case.assembly(&area.assembly)?;
        Some(take_off(assembly, area, rafters(case, assembly), includes))
    });
    sum(&pieces.flatten().collect::<Vec<_>>(), Piece::price)
}
