//! # Plan-review pre-check
//!
//! *What it looks for.* What a plan reviewer will ask for and the file doesn't say: the title
//! block's entries, the code's edition and zone, the source of climate and of the values you
//! stated, a layer's thickness or resistance, a standard drawing scale, characters the sheets'
//! lettering hasn't got.
//!
//! *Why it matters.* An application comes back for a missing address as surely as for a wet wall.
//!
//! *Method and source.* Nothing is computed and no verdict hangs on it: this list stands beside
//! the findings, never among them. What offices ask for differs; these are the entries common to
//! title blocks and plan-check lists (common practice).
//!
//! *When it does not apply.* A layer's vapor class can't be missing: the reader refuses a layer
//! without a permeance. Which scales and which characters there are, the drawings know: they say
//! it through [`Paper`].
//!
//! *Example.* The built-in climates are invented, so a project in one of them always lacks the
//! source of its climate.

mod item;
mod layers;
mod lettering;
#[cfg(test)]
mod tests;

pub use item::Item;

use crate::model::{Assembly, ClimateSource, DetailCase, Project, Stop};

/// Something a plan reviewer will ask for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// What it is, and why a reviewer asks.
    pub item: Item,
    /// Where it is missing, such as `sheathing of wall`; empty where the project as a whole is
    /// meant.
    pub place: String,
    /// What to write in the file.
    pub write: String,
}

/// What the drawings can do, as they say themselves.
#[derive(Clone, Copy)]
pub struct Paper<'a> {
    /// Whether an assembly's section fits a sheet at a standard scale.
    pub section_fits: &'a dyn Fn(&Assembly) -> bool,
    /// Whether a detail does.
    pub detail_fits: &'a dyn Fn(&DetailCase) -> bool,
    /// Whether the lettering has a character.
    pub letters: &'a dyn Fn(char) -> bool,
}

impl Paper<'_> {
    /// Paper that takes everything, where nothing is drawn yet.
    pub const ANY: Paper<'static> = Paper {
        section_fits: &|_| true,
        detail_fits: &|_| true,
        letters: &|_| true,
    };
}

/// What a plan reviewer will ask for, by [`Item`] and then in the file's order; each once, however
/// many variants it stands in.
///
/// # Example
/// ```
/// use dewmargin::check::plan_review::{Item, Paper, plan_review};
///
/// let text = include_str!("../../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("cabin-wall.yaml", text)?;
/// let missing = plan_review(&project, &Paper::ANY);
/// assert!(missing.iter().any(|one| one.item == Item::Address));
/// assert!(!missing.iter().any(|one| one.item == Item::Title));
/// # Ok::<(), dewmargin::error::Error>(())
/// ```
#[must_use]
pub fn plan_review(project: &Project, paper: &Paper<'_>) -> Vec<Missing> {
    let mut missing = title_block(project);
    missing.extend(code(project));
    missing.extend(climate(project));
    missing.extend(layers::layers(project));
    missing.extend(scales(project, paper));
    missing.extend(lettering::lettering(project, paper));
    missing.sort_by_key(|one| one.item);
    let mut once: Vec<Missing> = Vec::new();
    for one in missing {
        if !once.contains(&one) {
            once.push(one);
        }
    }
    once
}

fn title_block(project: &Project) -> Vec<Missing> {
    let title = &project.title_data;
    let entries = [
        (Item::Title, title.title.is_empty(), "title"),
        (Item::Address, title.address.is_empty(), "address"),
        (Item::Owner, title.owner.is_empty(), "owner"),
        (Item::Designer, title.designer.is_empty(), "designer"),
        (Item::Date, title.date.is_none(), "date"),
        (Item::Revision, title.revision.is_empty(), "revision"),
        (Item::CodeBasis, title.code_basis.is_empty(), "code-basis"),
    ];
    let absent = entries.into_iter().filter(|(_, absent, _)| *absent);
    absent
        .map(|(item, _, key)| Missing {
            item,
            place: String::new(),
            write: format!("`{key}:` under `project:`"),
        })
        .collect()
}

fn code(project: &Project) -> Vec<Missing> {
    let stops = &project.stops;
    let unstated = stops.iter().any(|stop| stop.code.edition.is_none());
    let edition = unstated.then(|| Missing {
        item: Item::CodeEdition,
        place: String::new(),
        write: "`edition:` under `code:`, such as `IRC 2018`".into(),
    });
    let zoneless = stops.iter().filter(|stop| stop.code.zone.is_none());
    let zones = zoneless.map(|stop| Missing {
        item: Item::CodeZone,
        place: stop.name.clone(),
        write: match stops.len() {
            1 => "`zone:` under `code:`, such as `4C`".into(),
            _ => "`zone:` in that climate's block, such as `4C`".into(),
        },
    });
    edition.into_iter().chain(zones).collect()
}

fn climate(project: &Project) -> Vec<Missing> {
    let of = |stop: &Stop| {
        let write = match (&stop.source, stop.name.is_empty()) {
            (ClimateSource::Stated(_), _) => return None,
            (ClimateSource::Invented, _) => {
                "your site's own months and design night, with `source:`, in place of the \
                 invented climate"
            }
            (ClimateSource::NotStated, true) => "`source:` under `outdoor:`",
            (ClimateSource::NotStated, false) => {
                "`source:` in the climate's block, beside `months:` or `file:`"
            }
        };
        Some(Missing {
            item: Item::ClimateSource,
            place: stop.name.clone(),
            write: write.into(),
        })
    };
    project.stops.iter().filter_map(of).collect()
}

fn scales(project: &Project, paper: &Paper<'_>) -> Vec<Missing> {
    let cases = project.cases.iter();
    let sections = cases
        .filter(|case| !(paper.section_fits)(&case.assembly))
        .map(crate::model::Case::name);
    let details = project.details.iter();
    let cuts = details
        .filter(|case| !(paper.detail_fits)(case))
        .map(DetailCase::full_name);
    sections
        .chain(cuts)
        .map(|place| Missing {
            item: Item::Scale,
            place,
            write: "other measures, if these are a slip; it fits no sheet at a standard scale"
                .into(),
        })
        .collect()
}
