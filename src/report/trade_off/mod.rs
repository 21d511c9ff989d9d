//! The options of a project side by side: as drawn, and each variant with all that it changes.
//!
//! An option is the whole project under one variant; what the variant leaves alone is as drawn. The
//! first table is of the whole, one more of every assembly and detail that any variant changes.
//! Nothing is weighed against anything: an option is only marked where another is at least as good
//! in every column ([`crate::check::trade_off`]).

mod column;
mod json;
mod part;
mod text;
mod whole;

pub use column::{Column, ColumnKind, Value};
pub use json::json;
pub use text::trade_off_text;

use super::{Judged, JudgedDetail};
use crate::check::{Better, Bracket, dominated_by};
use crate::model::Project;
use crate::quantity::Currency;

/// What a table is of.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// The whole option.
    Whole,
    /// One assembly, by name.
    Assembly(String),
    /// One detail, by name.
    Detail(String),
}

/// One table: its columns hold a value for every option.
#[derive(Clone, Debug, PartialEq)]
pub struct PartTable {
    /// What it is of.
    pub part: Part,
    /// Its columns; none in which nothing is known.
    pub columns: Vec<Column>,
}

/// The options of a project.
#[derive(Clone, Debug)]
pub struct TradeOff {
    /// The variants' names; `None` as drawn, which is first.
    pub options: Vec<Option<String>>,
    /// The tables.
    pub tables: Vec<PartTable>,
    /// For each option the indexes of those that dominate it.
    pub dominated_by: Vec<Vec<usize>>,
    /// The currency of its prices.
    pub currency: Option<Currency>,
    /// What the trailer's own weight includes and no weight or price counts here.
    pub included: Vec<String>,
    /// Whether head room lost is by the measures of a house rather than by layers alone.
    pub by_house: bool,
}

/// What the columns are gathered from.
struct Sources<'a> {
    project: &'a Project,
    judged: &'a [Judged<'a>],
    details: &'a [JudgedDetail<'a>],
}

/// Gathers the options; `None` where there is nothing to choose and no price to tell.
///
/// # Example
/// ```
/// use dewmargin::report::{judge_all, trade_off::trade_off};
/// let text = include_str!("../../../examples/cabin-floor.yaml");
/// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
/// let judged = judge_all(&project);
/// let options = trade_off(&project, &judged, &[]).unwrap();
/// assert_eq!(options.name(0), "as drawn");
/// ```
#[must_use]
pub fn trade_off(
    project: &Project,
    judged: &[Judged<'_>],
    details: &[JudgedDetail<'_>],
) -> Option<TradeOff> {
    let sources = Sources {
        project,
        judged,
        details,
    };
    let options = sources.options();
    if options.len() < 2 && project.currency.is_none() {
        return None;
    }
    let mut tables = vec![whole::table(&sources, &options)];
    tables.extend(part::tables(&sources, &options));
    for table in &mut tables {
        table.columns.retain(Column::is_known);
    }
    let columns = || tables.iter().flat_map(|table| &table.columns);
    let better: Vec<Better> = columns().map(|column| column.kind.better()).collect();
    let row = |n: usize| columns().map(|column| column.values[n].known).collect();
    let rows: Vec<Vec<Bracket>> = (0..options.len()).map(row).collect();
    Some(TradeOff {
        dominated_by: dominated_by(&better, &rows),
        options,
        tables,
        currency: project.currency,
        included: sources.included().to_vec(),
        by_house: project
            .house
            .as_ref()
            .is_some_and(|house| house.shell.is_some()),
    })
}

impl TradeOff {
    /// An option's name: that of its variant, or `as drawn`.
    #[must_use]
    pub fn name(&self, option: usize) -> &str {
        self.options[option].as_deref().unwrap_or("as drawn")
    }
}

impl<'a> Sources<'a> {
    /// As drawn, then the variants in the order they are met.
    fn options(&self) -> Vec<Option<String>> {
        let of_cases = self.judged.iter().map(|one| &one.case.variant);
        let of_details = self.details.iter().map(|one| &one.case.variant);
        let mut options = vec![None];
        for variant in of_cases.chain(of_details) {
            if !options.contains(variant) {
                options.push(variant.clone());
            }
        }
        options
    }

    /// An assembly under a variant, as drawn where that leaves it alone.
    fn assembly(&self, name: &str, variant: Option<&str>) -> Option<&'a Judged<'a>> {
        let of = |variant: Option<&str>| {
            self.judged.iter().find(|one| {
                one.case.assembly.name == name && one.case.variant.as_deref() == variant
            })
        };
        of(variant).or_else(|| of(None))
    }

    /// A detail under a variant, as drawn where that leaves it alone.
    fn detail(&self, name: &str, variant: Option<&str>) -> Option<&'a JudgedDetail<'a>> {
        let of = |variant: Option<&str>| {
            let mut details = self.details.iter();
            details.find(|one| one.case.name == name && one.case.variant.as_deref() == variant)
        };
        of(variant).or_else(|| of(None))
    }

    /// The names of all assemblies, in the file's order.
    fn assemblies(&self) -> Vec<&'a str> {
        let drawn = self.judged.iter().filter(|one| one.case.variant.is_none());
        drawn.map(|one| one.case.assembly.name.as_str()).collect()
    }

    /// The names of all details, in the file's order.
    fn all_details(&self) -> Vec<&'a str> {
        let drawn = self.details.iter().filter(|one| one.case.variant.is_none());
        drawn.map(|one| one.case.name.as_str()).collect()
    }

    fn included(&self) -> &'a [String] {
        let house = self.project.house.as_ref();
        house.map_or(&[], |house| &house.trailer.includes)
    }
}
