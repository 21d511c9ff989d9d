//! How a number of the report came about.
//!
//! A [`Derivation`] is plain data: steps with symbols, formulas, values and results, no layout.
//! The numbers are the solved ones. Each is printed once, with as many digits as the numbers before
//! it reproduce, so that every step can be redone on a calculator from the print alone.
//! [`entries`] lists what can be asked; [`derivation_text`] shows a derivation on a terminal.

mod air;
mod assembly;
mod check;
mod corner;
mod detail;
mod entry;
mod find;
mod formula;
mod hand_check;
mod mold;
mod path;
mod plane;
mod room;
mod sheet;
mod text;
mod transmittance;
mod water;

pub use entry::{Entry, entries};
pub use find::{Asked, find};
pub use text::{derivation_text, list_text};

pub(in crate::report) use detail::spot_place;

use crate::quantity::Printed;

/// How one number, or a few that belong together, came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Derivation {
    /// What it is asked by, such as `floor / U`.
    pub place: String,
    /// Its title.
    pub title: String,
    /// The question it answers.
    pub answers: String,
    /// The standard and the clause.
    pub source: String,
    /// The steps, each using only what stands before it.
    pub steps: Vec<Step>,
    /// What a reader has to know beside them.
    pub notes: Vec<String>,
    /// Where the materials' values come from.
    pub materials: Vec<String>,
}

/// One line of a calculation.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The quantity's symbol, such as `R_si`; empty for what has none.
    pub symbol: String,
    /// The quantity in words.
    pub words: String,
    /// The formula in symbols, without `symbol =`; empty for what is given.
    pub formula: String,
    /// The same with values and units put in.
    pub with_values: String,
    /// All of it on one line, a unit only where it isn't that of the last quantity of its letter:
    /// `R_a = R_si + R1 = 0.97 + 0.42 = 1.39`.
    pub in_brief: String,
    /// The symbols of the quantities in the formula.
    pub uses: Vec<String>,
    /// The result in the reader's units.
    pub result: Amount,
    /// The result in the other system, where the two differ.
    pub other: Option<Amount>,
    /// Whether it is what was asked for, not a value on the way: printed so that the numbers before
    /// it reproduce its last digit. Of the others the last digit may be off by one.
    pub is_result: bool,
}

/// A number with its unit, as printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amount {
    /// The digits.
    pub number: String,
    /// The unit; empty for a number without one.
    pub unit: String,
}

impl From<&Printed> for Amount {
    fn from(printed: &Printed) -> Self {
        Self {
            number: printed.number.clone(),
            unit: printed.unit.to_owned(),
        }
    }
}

impl std::fmt::Display for Amount {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self.unit.is_empty() {
            true => f.write_str(&self.number),
            false => write!(f, "{} {}", self.number, self.unit),
        }
    }
}
