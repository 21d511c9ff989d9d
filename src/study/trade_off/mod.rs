//! The options of a project side by side: as drawn, and each variant with all that it changes.
//!
//! An option is the whole project under one variant; what the variant leaves alone is as drawn. The
//! first table is of the whole, one more of every assembly and detail that any variant changes.
//! Nothing is weighed against anything: an option is only marked where another is at least as good
//! in every column ([`crate::check::trade_off`]).

mod column;
mod part;
mod whole;

pub use column::{Column, ColumnKind, Value, verdict_word};

use super::Study;
use crate::check::{Better, Bracket, dominated_by};
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

/// Gathers the options; `None` where there is nothing to choose and no price to tell.
///
/// # Example
/// ```
/// use dewmargin::study::{Study, trade_off::trade_off};
/// let text = include_str!("../../../examples/cabin-floor.yaml");
/// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
/// let options = trade_off(&Study::of(&project)).unwrap();
/// assert_eq!(options.name(0), "as drawn");
/// ```
#[must_use]
pub fn trade_off(study: &Study<'_>) -> Option<TradeOff> {
    let project = study.project;
    let options: Vec<Option<String>> = study
        .options()
        .into_iter()
        .map(|variant| variant.map(str::to_owned))
        .collect();
    if options.len() < 2 && project.currency.is_none() {
        return None;
    }
    let mut tables = vec![whole::table(study, &options)];
    tables.extend(part::tables(study, &options));
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
        included: included(study).to_vec(),
        by_house: project
            .house
            .as_ref()
            .is_some_and(|house| house.shell.is_some()),
    })
}

/// What the trailer's own weight includes.
fn included<'a>(study: &Study<'a>) -> &'a [String] {
    let house = study.project.house.as_ref();
    house.map_or(&[], |house| &house.trailer.includes)
}

impl TradeOff {
    /// An option's name: that of its variant, or `as drawn`.
    #[must_use]
    pub fn name(&self, option: usize) -> &str {
        self.options[option].as_deref().unwrap_or("as drawn")
    }
}
