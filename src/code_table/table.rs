//! A table of the code as it is written: an entry for each edition, its rows by zone, each with a tag.

use std::sync::OnceLock;

use crate::document::{At, FromNode, Problems, Value, Word, entries, parse, record};
use crate::error::Problem;
use crate::material::{Tag, one_of};
use crate::model::{Edition, Zone};

pub(super) const FILE: &str = "materials/code-tables.yaml";
pub(super) const TABLES: &str = include_str!("../../materials/code-tables.yaml");

/// What a row asks for where the table has none.
const NOTHING: &str = "nothing";

record! {
    /// A table in one edition.
    pub struct EntryText {
        /// Where it stands in that edition.
        "clause" clause: required At<Word>,
        /// What it asks for by zone.
        "rows" rows: required Vec<RowText>,
    }
}

record! {
    /// A row as it is written.
    pub struct RowText {
        /// The zones it is for; `4` without its marine half.
        "zones" zones: required Vec<At<Zone>>,
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
    zones: Vec<Zone>,
    asks: Option<V>,
}

/// A table of the code: what it asks for by edition and zone. An edition is parsed when it is first
/// asked for and kept from then on.
#[derive(Debug)]
pub(crate) struct Table<V> {
    name: &'static str,
    read: ReadAsked<V>,
    parsed: [OnceLock<Vec<Row<V>>>; Edition::ALL.len()],
    /// What findings cite where no edition is stated, and in each of [`Edition::ALL`].
    sources: OnceLock<(String, [String; Edition::ALL.len()])>,
}

impl<V> Table<V> {
    /// The embedded table of that name.
    pub(super) const fn embedded(name: &'static str, read: ReadAsked<V>) -> Self {
        Self {
            name,
            read,
            parsed: [const { OnceLock::new() }; Edition::ALL.len()],
            sources: OnceLock::new(),
        }
    }

    /// What the table asks for; `None` where it has nothing. The unit tests read every row, so
    /// nothing is lost in silence here.
    pub(crate) fn asks(&self, edition: Edition, zone: Zone) -> Option<&V> {
        let mut known = Edition::ALL.iter().zip(&self.parsed);
        let (_, parsed) = known.find(|(known, _)| **known == edition)?;
        let rows = parsed.get_or_init(|| self.rows(edition).unwrap_or_default());
        let row = rows.iter().find(|row| row.is_for(zone))?;
        row.asks.as_ref()
    }

    /// The rows of an edition.
    ///
    /// # Errors
    /// Where the table isn't there or a row can't be read: every problem.
    pub(super) fn rows(&self, edition: Edition) -> Result<Vec<Row<V>>, Problems> {
        let mut problems = Problems::new();
        let rows = self.written(edition)?.rows.into_iter();
        let rows = rows.filter_map(|row| row.resolve(self.read, &mut problems));
        let rows = rows.collect();
        match problems.is_empty() {
            true => Ok(rows),
            false => Err(problems),
        }
    }

    /// The table in an edition, as it is written.
    pub(super) fn written(&self, edition: Edition) -> Result<EntryText, Problems> {
        let title = edition.title();
        let missing = || vec![Problem::whole(format!("no table `{}`, {title}", self.name))];
        let text = self.text(edition).ok_or_else(missing)?;
        let tree = parse(FILE, text).map_err(|error| vec![Problem::whole(error.to_string())])?;
        let Value::Map(tables) = tree.value else {
            return Err(missing());
        };
        let (_, content) = tables.first().ok_or_else(missing)?;
        let mut problems = Problems::new();
        let text = EntryText::from_node(content, &mut problems);
        text.filter(|_| problems.is_empty()).ok_or(problems)
    }

    /// What a finding by this table cites: edition and clause, and whether nothing of the table was
    /// seen. Nothing is parsed for it.
    pub(crate) fn source(&self, edition: Option<Edition>) -> &str {
        let (any, each) = self.sources.get_or_init(|| self.sources());
        let mut known = Edition::ALL.iter().zip(each);
        let found = known.find(|(known, _)| Some(**known) == edition);
        found.map_or(any, |(_, source)| source)
    }

    /// `IRC R806.5 (2009: R806.4), check your local code`, and `IRC 2009 R806.4, check your local code`.
    fn sources(&self) -> (String, [String; Edition::ALL.len()]) {
        let [older @ .., newest] = Edition::ALL;
        let newest = self.clause(newest);
        let others = older.into_iter().filter(|one| self.clause(*one) != newest);
        let year = |edition: Edition| edition.title().trim_start_matches("IRC ");
        let others = others.map(|one| format!("{}: {}", year(one), self.clause(one)));
        let others = match others.collect::<Vec<_>>().join(", ") {
            none if none.is_empty() => none,
            others => format!(" ({others})"),
        };
        let texts = Edition::ALL.map(|edition| self.text(edition));
        let ending = match texts
            .iter()
            .flatten()
            .any(|text| text.contains("tag: seen"))
        {
            true => ", check your local code",
            false => " (from memory), check your local code",
        };
        let each =
            |edition: Edition| format!("{} {}{ending}", edition.title(), self.clause(edition));
        (
            format!("IRC {newest}{others}{ending}"),
            Edition::ALL.map(each),
        )
    }

    /// Where the table stands in an edition.
    pub(super) fn clause(&self, edition: Edition) -> &'static str {
        let mut lines = self.text(edition).unwrap_or_default().lines();
        let clause = lines.find_map(|line| line.strip_prefix("  clause: "));
        clause.unwrap_or_default()
    }

    /// The text of an edition's entry.
    fn text(&self, edition: Edition) -> Option<&'static str> {
        let is_it = |key: &str| {
            let title = key
                .strip_prefix(self.name)
                .and_then(|rest| rest.strip_prefix(", "));
            title == Some(edition.title())
        };
        entries(TABLES)
            .find(|(key, _)| is_it(key))
            .map(|(_, text)| text)
    }
}

impl RowText {
    fn resolve<V>(self, read: ReadAsked<V>, problems: &mut Problems) -> Option<Row<V>> {
        one_of(&self.tag, &Tag::WORDS, "tag", problems)?;
        let asks = match self.asks.value.0.as_str() {
            NOTHING => None,
            _ => Some(read(&self.asks, problems)?),
        };
        Some(Row {
            zones: self.zones.iter().map(|at| at.value).collect(),
            asks,
        })
    }
}

impl<V> Row<V> {
    pub(super) fn is_for(&self, zone: Zone) -> bool {
        self.zones
            .iter()
            .any(|one| entered_by(*one) == entered_by(zone))
    }
}

/// What the tables are entered with: the number, and of zone 4 whether it is marine.
fn entered_by(zone: Zone) -> (u8, bool) {
    let marine = zone.marine || matches!(zone.moist, Some('C' | 'c'));
    (zone.number, zone.number == 4 && marine)
}
