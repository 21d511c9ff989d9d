//! Figures: sections drawn as built, to scale, with the margin as the picture.
//!
//! Drawn through plotters on a backend of our own (`svg`) that writes SVG in hundredths of a
//! millimeter on letter paper. Nothing here computes physics: temperatures, margins and words come
//! from what was solved and judged. Same input, same bytes.

mod column;
mod comparison;
mod cut;
mod hatch;
mod lettering;
mod marks;
mod place;
mod scale;
mod schedule;
mod section;
mod sheet;
mod svg;
mod title;

#[cfg(test)]
mod tests;

use crate::check::Verdict;
use crate::model::{Case, Project};
use crate::quantity::Style;
use crate::solve::AssemblyResult;

/// The section plot of one case, as the text of an SVG document.
///
/// Letter paper lying down; taller where many layers need more room. Temperatures are those of
/// the winter mean; `style` says which unit comes first.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::{figure, judge_all};
///
/// let text = include_str!("../../../examples/cabin-floor.yaml");
/// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
/// let style = Style { units: UnitSystem::Imperial };
/// let one = &judge_all(&project)[0];
/// let svg = figure::section(&project, one.case, &one.result, &one.verdict, style);
/// assert!(svg.starts_with("<svg") && svg.contains("Fern Hollow cabin"));
/// ```
#[must_use]
pub fn section(
    project: &Project,
    case: &Case,
    result: &AssemblyResult,
    verdict: &Verdict,
    style: Style,
) -> String {
    section::draw(project, case, result, verdict, style).svg
}

/// One row of a comparison.
#[derive(Clone, Debug)]
pub struct Compared<'a> {
    /// What the row is called.
    pub name: String,
    /// The case.
    pub case: &'a Case,
    /// What was solved for it.
    pub result: &'a AssemblyResult,
    /// What it came to.
    pub verdict: &'a Verdict,
}

/// The comparison plot, one column per row, as the text of an SVG document.
///
/// `best` is the index of the row to be marked as best by the rule.
#[must_use]
pub fn comparison(
    project: &Project,
    rows: &[Compared<'_>],
    best: Option<usize>,
    style: Style,
) -> String {
    comparison::draw(project, rows, best, style).svg
}
