//! # The house on the road
//!
//! **What it checks.** Overall width, height and length against the limits the file states; the
//! dry weight against the trailer's rating less its own weight; the share on the tongue.
//!
//! **Why it matters.** Foam, rain screens and siding stand outside of the framing and add up on
//! both sides; a proud frame lifts the house.
//!
//! **Method.** The sums of [`crate::solve::house`]. Where one is over its limit, the help names what
//! could give way: whatever reaches beyond the siding, else the thickest solid layer that is thick
//! enough, else the deck or the walls themselves.
//!
//! **Limit.** Only what the file states. Road limits are state law: without one there is nothing to
//! judge, and a note tells what is common. A tongue share of 10 to 15 % is common practice and isn't
//! judged.
//!
//! **When it does not apply.** Furniture, water and people aren't counted; what isn't known of a
//! weight makes it `unknown`, or `fail` where the known part alone is too heavy.
//!
//! **Example.** A 96 in deck with 1/2 in sheathing, 3/4 in gap and 5/8 in siding each side is
//! 99-3/4 in wide: pass where 102 in are stated, a note where nothing is.

mod measure;
mod shave;
mod tongue;
mod weight;

use std::fmt;

pub use measure::{HEIGHT, LENGTH, WIDTH};
pub use shave::Shave;
pub use tongue::TONGUE;
pub use weight::WEIGHT;

use super::{Status, worst};
use crate::model::house::HouseCase;
use crate::quantity::{Length, Style};
use crate::solve::house::{Fit, HouseResult, Weight};

/// Sums of this many terms in meters are equal within it, m or kg.
const ROUNDING: f64 = 1e-6;

/// What is held against a limit: one value, in the file that carries it out.
pub struct HouseCheck {
    /// The stable id used in JSON.
    pub id: &'static str,
    /// What it is called in reports.
    pub title: &'static str,
    /// What its value is counted in: m, kg or a share.
    pub unit: &'static str,
    /// A value as a reader has it.
    pub print: fn(f64, Style) -> String,
    run: fn(&Scene<'_>) -> Option<HouseFinding>,
    say: fn(&HouseFinding, Style) -> String,
}

/// What a check of the house looks at.
struct Scene<'a> {
    case: &'a HouseCase<'a>,
    fit: &'a Fit,
    weight: &'a Weight,
}

/// The checks of the house, in the order of its report.
pub static HOUSE_CHECKS: [&HouseCheck; 5] = [&WIDTH, &HEIGHT, &LENGTH, &WEIGHT, &TONGUE];

impl PartialEq for HouseCheck {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for HouseCheck {}

impl fmt::Debug for HouseCheck {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id)
    }
}

/// One check of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseFinding {
    /// Which.
    pub check: &'static HouseCheck,
    /// How it came out.
    pub status: Status,
    /// The value, m or kg; of the tongue its share. `None`: not known.
    pub value: Option<f64>,
    /// The stated limit, in the same unit.
    pub limit: Option<f64>,
    /// What could give way, the least first.
    pub shaves: Vec<Shave>,
    /// What isn't known and would be needed.
    pub missing: Vec<String>,
    /// Where the limit comes from.
    pub source: &'static str,
}

impl HouseFinding {
    /// How far the value keeps below its limit, in its unit.
    #[must_use]
    pub fn slack(&self) -> Option<f64> {
        Some(self.limit? - self.value?)
    }

    /// What was found in a sentence or two.
    #[must_use]
    pub fn sentence(&self, style: Style) -> String {
        (self.check.say)(self, style)
    }
}

/// The findings of a house and what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseVerdict {
    /// The worst status.
    pub status: Status,
    /// Width, height, length, weight, tongue.
    pub findings: Vec<HouseFinding>,
}

/// Judges a house.
#[must_use]
pub fn judge_house(case: &HouseCase<'_>, result: &HouseResult) -> HouseVerdict {
    judge_on_road(case, &result.fit, &result.weight)
}

/// The same from measures and weight alone: heat has no limit.
#[must_use]
pub fn judge_on_road(case: &HouseCase<'_>, fit: &Fit, weight: &Weight) -> HouseVerdict {
    let scene = Scene { case, fit, weight };
    let run = |check: &&HouseCheck| (check.run)(&scene);
    let findings: Vec<HouseFinding> = HOUSE_CHECKS.iter().filter_map(run).collect();
    HouseVerdict {
        status: worst(findings.iter().map(|finding| finding.status)),
        findings,
    }
}

/// A measure as a reader has it.
fn measured(meters: f64, style: Style) -> String {
    style.measure(Length::from_m(meters))
}
