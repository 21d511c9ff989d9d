//! Title data: what a title block says beside the drawing.

use crate::quantity::Date;

/// What the file's `project:` block says, as typed and without blanks around it. Empty where it
/// isn't stated: a plan reviewer will ask, the physics doesn't.
///
/// ```
/// let text = "
/// project: {title: Fern Hollow cabin, date: 2026-11-25}
/// indoor: {heating: 68 F, humidity: 50 %}
/// climate: wet-coast
/// assemblies:
///   wall:
///     kind: wall
///     layers: [{name: sheathing, material: plywood, thickness: 1/2 in}]
/// ";
/// let title = dewmargin::input::resolve_text("cabin.yaml", text)?.title_data;
/// assert_eq!(title.title, "Fern Hollow cabin");
/// assert_eq!(title.date.unwrap().to_string(), "2026-11-25");
/// assert!(title.address.is_empty());
/// # Ok::<(), dewmargin::error::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TitleData {
    /// The project's title; one line of at most 200 characters.
    pub title: String,
    /// In front of sheet numbers; one line of at most 10 characters.
    pub sheet_prefix: String,
    /// Who drew it; at most 200 characters on at most 5 lines.
    pub designer: String,
    /// For whom; at most 200 characters on at most 5 lines.
    pub owner: String,
    /// Where it stands; at most 200 characters on at most 5 lines.
    pub address: String,
    /// The day of the drawings.
    pub date: Option<Date>,
    /// The revision's mark, such as `A` or `2`; one line of at most 20 characters.
    pub revision: String,
    /// The code and edition the plans go by, in the file's own words: shown, never judged by. At
    /// most 200 characters on at most 5 lines.
    pub code_basis: String,
}
