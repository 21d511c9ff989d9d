//! What a remedy may ask for: boards in the thicknesses they are sold in, and vapor retarders.

use super::Substance;
use crate::quantity::Length;

/// A board that can be bought.
#[derive(Clone, Debug, PartialEq)]
pub struct SoldBoard {
    /// What it is called on the site, such as `XPS`.
    pub name: String,
    /// What it is made of.
    pub substance: Substance,
    /// The thicknesses it is sold in, rising; at least one.
    pub sold: Vec<Length>,
}

/// What a remedy may ask for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stock {
    /// The file's own insulation boards in the order they are met, those over strips first; then the
    /// library's usual one.
    pub boards: Vec<SoldBoard>,
    /// Vapor retarders: class II, one that opens when humid, class I.
    pub retarders: Vec<Substance>,
}

impl Stock {
    /// The board of that label.
    #[must_use]
    pub fn board(&self, label: &str) -> Option<&SoldBoard> {
        self.boards
            .iter()
            .find(|board| board.substance.label == label)
    }
}
