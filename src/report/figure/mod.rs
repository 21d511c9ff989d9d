//! Figures: sections drawn as built, to scale, with the margin as the picture.
//!
//! Drawn once through plotters on a backend of our own that notes the marks (`drawing`), in
//! hundredths of a millimeter on letter paper; `svg` and `pdf` write them. Nothing here computes physics: temperatures, margins and words come
//! from what was solved and judged. Same input, same bytes.

mod axis;
mod badge;
mod calendar;
mod column;
mod columns;
mod comparison;
mod cut;
mod detail;
mod drawing;
mod font;
mod hatch;
mod house;
mod legend;
mod lettering;
mod look;
mod marks;
mod month;
mod months;
mod pdf;
mod place;
mod recorder;
mod room;
mod route;
mod scale;
mod schedule;
mod section;
mod sheet;
mod sheets;
mod subject;
mod svg;
mod swept;
mod title;
mod water;

use crate::study::{Judged, JudgedDetail, JudgedHouse};

/// The best option, whose rows are marked: its variant, `None` as drawn. Nothing is marked where there
/// is nothing to choose.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Best<'a>(pub Option<Option<&'a str>>);

impl Best<'_> {
    fn is(self, variant: Option<&str>) -> bool {
        self.0 == Some(variant)
    }
}
use crate::check::sweep::Row;
use crate::model::{Project, Sweep};
use crate::quantity::Style;
pub(super) use cut::{Cut, drawn_end, shown_paths};
pub(super) use detail::{LEFT_OUT as LEFT_OUT_OF_CUT, assemblies as assemblies_of, shown_of};
pub use drawing::Drawing;
pub(super) use house::without as drawn_without;
pub use look::Look;
pub use pdf::{Info, Unwritten, pdf};
pub(super) use section::remark;
pub use sheets::Paper;
pub(super) use sheets::{Listed, Part, Setting, conditions, draw as draw_sheets, stated};
pub(super) use subject::Subject;
pub(super) use svg::escape;

/// Every character of a text that the font in the program lacks, each once, in the order of the
/// text. On paper a box stands for it.
///
/// # Example
/// ```
/// use dewmargin::report::figure;
///
/// assert!(figure::lacks("5-1/2 in, ψ in W/(m·K), −3 °C").is_empty());
/// assert_eq!(figure::lacks("山 cabin"), ['山']);
/// ```
#[must_use]
pub fn lacks(text: &str) -> Vec<char> {
    lettering::lacks(text)
}

/// The section plot of one case.
///
/// Letter paper lying down; taller where many layers need more room. Temperatures are those of
/// the winter mean; `style` says which unit comes first.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::figure;
/// use dewmargin::study::Study;
///
/// let text = include_str!("../../../examples/cabin-floor.yaml");
/// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
/// let style = Style { units: UnitSystem::Imperial };
/// let one = &Study::of(&project).assemblies[0];
/// let svg = figure::section(&project, one, style).svg();
/// assert!(svg.starts_with("<svg") && svg.contains("Fern Hollow cabin"));
/// ```
#[must_use]
pub fn section(project: &Project, one: &Judged<'_>, style: Style) -> Drawing {
    section::draw(project, one, style).drawing
}

/// The comparison plot, one column per row.
///
/// Rows of the best option are marked.
#[must_use]
pub fn comparison(project: &Project, rows: &[Judged<'_>], best: Best<'_>, style: Style) -> Drawing {
    comparison::draw(project, rows, best, style).drawing
}

/// A sweep: lines over its one axis, or a map over its first two.
///
/// The rows are those of the first two axes in order, the other axes at their first values.
///
/// # Example
/// ```
/// use dewmargin::check::sweep::Rows;
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::figure;
///
/// let text = include_str!("../../../examples/cabin-sweep.yaml");
/// let project = dewmargin::input::resolve_text("cabin-sweep.yaml", text).unwrap();
/// let rows = Rows::new(&project.sweeps[0]);
/// let shown = rows.of_first_two();
/// let style = Style { units: UnitSystem::Imperial };
/// let svg = figure::sweep(&project, &project.sweeps[0], &shown, style).svg();
/// assert!(svg.contains("room humidity"));
/// ```
#[must_use]
pub fn sweep(project: &Project, sweep: &Sweep, rows: &[Row], style: Style) -> Drawing {
    swept::draw(project, sweep, rows, style).drawing
}

/// The year of one case; `None` without a climate.
///
/// A calendar of planes and months through the path that decides: in each cell the humidity there,
/// frost, and the water held at the month's end against its limit; over them the air outdoors and in
/// the room.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::figure;
/// use dewmargin::study::Study;
///
/// let text = include_str!("../../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("cabin-wall.yaml", text).unwrap();
/// let style = Style { units: UnitSystem::Imperial };
/// let svg = figure::year(&project, &Study::of(&project).assemblies[0], style).unwrap().svg();
/// assert!(svg.contains("Nothing condenses") && svg.contains("outdoors"));
/// ```
#[must_use]
pub fn year(project: &Project, one: &Judged<'_>, style: Style) -> Option<Drawing> {
    calendar::draw(project, one, style).map(|figure| figure.drawing)
}

/// Vapor pressure against saturation pressure through the path that decides the year, one small
/// chart for each month; `None` without a climate.
#[must_use]
pub fn months(project: &Project, one: &Judged<'_>, style: Style) -> Option<Drawing> {
    months::draw(project, one, style).map(|figure| figure.drawing)
}

/// One case at every stop of its route, a row each with its verdict and three measures; `None`
/// where there is a single climate.
#[must_use]
pub fn route(project: &Project, one: &Judged<'_>, style: Style) -> Option<Drawing> {
    route::draw(project, one, style).map(|figure| figure.drawing)
}

/// The drawing of one detail: the cut to scale with its isotherms,
/// the coldest places with their error bars, and the temperature of the floor's surface from the
/// wall inward. A detail that couldn't be solved is drawn with its dimensions and the reason.
///
/// Temperatures are those of the winter mean at the detail's worst stop.
#[must_use]
pub fn detail(project: &Project, one: &JudgedDetail<'_>, style: Style) -> Drawing {
    detail::draw(project, one, style).drawing
}

/// Details of a kind side by side at one scale with the same isotherms; `None` where there are no two of a
/// kind.
///
/// Details of the best option are marked.
#[must_use]
pub fn detail_comparison(
    project: &Project,
    details: &[JudgedDetail<'_>],
    best: Best<'_>,
    style: Style,
) -> Option<Drawing> {
    detail::compare(project, details, best, style).map(|figure| figure.drawing)
}

/// The house on its trailer: across and along to scale against the road's limits, the width stack
/// enlarged, the weight as a bar against the rating.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::figure;
/// use dewmargin::study::houses;
///
/// let text = include_str!("../../../examples/cabin-fit.yaml");
/// let project = dewmargin::input::resolve_text("cabin-fit.yaml", text).unwrap();
/// let style = Style { units: UnitSystem::Imperial };
/// let svg = figure::house(&project, &houses(&project)[0], style).svg();
/// // 101-1/4 in of 102 in.
/// assert!(svg.contains("3/4 in to spare"));
/// ```
#[must_use]
pub fn house(project: &Project, one: &JudgedHouse<'_>, style: Style) -> Drawing {
    house::draw(project, one, style).drawing
}

#[cfg(test)]
mod tests;
