//! A table of the code as it is written: rows by edition and zone, each with its clause and tag.

use crate::document::{At, FromNode, Problems, Value, Word, entries, parse, record};
use crate::error::Problem;
use crate::material::{Tag, one_of};
use crate::model::{Edition, Zone};

pub(super) const FILE: &str = "materials/code-tables.yaml";
pub(super) const TABLES: &str = include_str!("../../materials/code-tables.yaml");

/// What a row asks for where the table has none.
const NOTHING: &str = "nothing";

record! {
    /// A row as it is written.
    pub struct RowText {
        /// The editions it is for, by their titles.
        "editions" editions: required Vec<At<Word>>,
        /// The zones it is for; `4` without its marine half.
        "zones" zones: required Vec<At<Zone>>,
        /// Where it stands in those editions.
        "clause" clause: required At<Word>,
        /// What it asks for, in the table's own words, or `nothing`.
        "asks" asks: required At<Word>,
        /// `seen`, `from memory`, `computed`, `common practice` or `given`.
        "tag" tag: required At<Word>,
    }
}

/// Reads what a row asks for; nothing, and a problem, where it can't.
pub(super) type ReadAsked<V> = fn(&At<Word>, &mut Problems) -> Option<V>;

/// A row of a table.
#[derive(Debug)]
pub(super) struct Row<V> {
    pub(super) editions: Vec<Edition>,
    zones: Vec<Zone>,
    pub(super) clause: String,
    tag: Tag,
    asks: Option<V>,
}

/// A table of the code: what it asks for by edition and zone.
#[derive(Debug)]
pub(crate) struct Table<V> {
    rows: Vec<Row<V>>,
    /// What findings cite where no edition is stated, and in each of [`Edition::ALL`].
    sources: (String, [String; Edition::ALL.len()]),
}

impl<V> Table<V> {
    /// The embedded table of that name. The unit tests read every one, so nothing is lost in
    /// silence here.
    pub(super) fn embedded(name: &str, read: ReadAsked<V>) -> Self {
        Self::of(Self::rows(name, read).unwrap_or_default())
    }

    fn of(rows: Vec<Row<V>>) -> Self {
        let sources = (source(&rows), Edition::ALL.map(|one| source_in(&rows, one)));
        Self { rows, sources }
    }

    /// The rows of the table of that name.
    ///
    /// # Errors
    /// Where it isn't there or a row can't be read: every problem.
    pub(super) fn rows(name: &str, read: ReadAsked<V>) -> Result<Vec<Row<V>>, Problems> {
        let missing = || vec![Problem::whole(format!("no table `{name}`"))];
        let (_, text) = entries(TABLES)
            .find(|(key, _)| *key == name)
            .ok_or_else(missing)?;
        let tree = parse(FILE, text).map_err(|error| vec![Problem::whole(error.to_string())])?;
        let Value::Map(tables) = tree.value else {
            return Err(missing());
        };
        let mut problems = Problems::new();
        let list = tables.first().map(|(_, list)| list);
        let texts = list.and_then(|list| Vec::<RowText>::from_node(list, &mut problems));
        let row = |text: RowText| text.resolve(read, &mut problems);
        let rows = texts.unwrap_or_default().into_iter().filter_map(row);
        let rows = rows.collect();
        if problems.is_empty() {
            Ok(rows)
        } else {
            Err(problems)
        }
    }

    /// What the table asks for; `None` where it has nothing.
    pub(crate) fn asks(&self, edition: Edition, zone: Zone) -> Option<&V> {
        let row = self.rows.iter().find(|row| row.is_for(edition, zone))?;
        row.asks.as_ref()
    }

    /// What a finding by this table cites: edition and clause, and whether it is recalled alone.
    pub(crate) fn source(&self, edition: Option<Edition>) -> &str {
        let (any, each) = &self.sources;
        let known = Edition::ALL.iter().zip(each);
        known
            .filter(|(known, _)| Some(**known) == edition)
            .map(|(_, source)| source)
            .next()
            .unwrap_or(any)
    }
}

impl RowText {
    fn resolve<V>(self, read: ReadAsked<V>, problems: &mut Problems) -> Option<Row<V>> {
        let titles = Edition::ALL.map(|edition| (edition.title(), edition));
        let edition = |word: &At<Word>| one_of(word, &titles, "edition", problems);
        let editions = self.editions.iter().filter_map(edition).collect();
        let asks = match self.asks.value.0.as_str() {
            NOTHING => None,
            _ => Some(read(&self.asks, problems)?),
        };
        Some(Row {
            editions,
            zones: self.zones.iter().map(|at| at.value).collect(),
            clause: self.clause.value.0,
            tag: one_of(&self.tag, &Tag::WORDS, "tag", problems)?,
            asks,
        })
    }
}

impl<V> Row<V> {
    pub(super) fn is_for(&self, edition: Edition, zone: Zone) -> bool {
        let is_zone = |one: &Zone| entry(*one) == entry(zone);
        self.editions.contains(&edition) && self.zones.iter().any(is_zone)
    }
}

/// What the tables are entered with: the number, and of zone 4 whether it is marine.
fn entry(zone: Zone) -> (u8, bool) {
    let marine = zone.marine || matches!(zone.moist, Some('C' | 'c'));
    (zone.number, zone.number == 4 && marine)
}

/// `IRC R806.5 (2009: R806.4), check your local code`.
fn source<V>(rows: &[Row<V>]) -> String {
    let [older @ .., newest] = Edition::ALL;
    let newest = clause(rows, newest);
    let year = |edition: Edition| edition.title().trim_start_matches("IRC ");
    let others = older.into_iter().filter(|one| clause(rows, *one) != newest);
    let others = others.map(|one| format!("{}: {}", year(one), clause(rows, one)));
    let others: Vec<String> = others.collect();
    let others = match others.is_empty() {
        true => String::new(),
        false => format!(" ({})", others.join(", ")),
    };
    format!("IRC {newest}{others}{}", ending(rows))
}

/// `IRC 2009 R806.4, check your local code`.
fn source_in<V>(rows: &[Row<V>], edition: Edition) -> String {
    let (title, clause) = (edition.title(), clause(rows, edition));
    format!("{title} {clause}{}", ending(rows))
}

/// A clause for all rows of an edition, which a test holds.
fn clause<V>(rows: &[Row<V>], edition: Edition) -> &str {
    let row = rows.iter().find(|row| row.editions.contains(&edition));
    row.map_or("", |row| row.clause.as_str())
}

fn ending<V>(rows: &[Row<V>]) -> &'static str {
    match rows.iter().all(|row| row.tag == Tag::FromMemory) {
        true => " (from memory), check your local code",
        false => ", check your local code",
    }
}
