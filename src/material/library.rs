//! The materials inside the binary, and the user's own beside them.
//!
//! The YAML files of `materials/` are embedded as text. An index of names is scanned from their
//! top-level lines; an entry is parsed only when it is first asked for and kept from then on, so
//! that a check of one file doesn't pay for the materials it doesn't use.

use std::cell::OnceCell;

use super::{Material, MaterialText, MoldOn};
use crate::document::{FromNode, Value, entries, parse};
use crate::error::did_you_mean;

/// File name and text of each embedded family.
const FAMILIES: [(&str, &str); 9] = [
    (
        "materials/wood.yaml",
        include_str!("../../materials/wood.yaml"),
    ),
    (
        "materials/panels.yaml",
        include_str!("../../materials/panels.yaml"),
    ),
    (
        "materials/insulation.yaml",
        include_str!("../../materials/insulation.yaml"),
    ),
    (
        "materials/foam.yaml",
        include_str!("../../materials/foam.yaml"),
    ),
    (
        "materials/metals.yaml",
        include_str!("../../materials/metals.yaml"),
    ),
    (
        "materials/membranes.yaml",
        include_str!("../../materials/membranes.yaml"),
    ),
    (
        "materials/finishes.yaml",
        include_str!("../../materials/finishes.yaml"),
    ),
    (
        "materials/masonry.yaml",
        include_str!("../../materials/masonry.yaml"),
    ),
    (
        "materials/seals.yaml",
        include_str!("../../materials/seals.yaml"),
    ),
];
const SOURCES: &str = include_str!("../../materials/sources.yaml");

/// A name without case, blanks and hyphens, so that `Closed-cell Spray Foam` is found.
fn plain(name: &str) -> impl Iterator<Item = char> {
    name.chars()
        .filter(|c| !matches!(c, ' ' | '-' | '_'))
        .flat_map(char::to_lowercase)
}

fn is_same(one: &str, other: &str) -> bool {
    plain(one).eq(plain(other))
}

/// One entry of an embedded file: where its text lies and what it is called.
struct Slot {
    file: &'static str,
    text: &'static str,
    id: &'static str,
    names: Vec<&'static str>,
    parsed: OnceCell<Option<Material>>,
}

/// The library, the user's materials first.
pub struct Library {
    own: Vec<Material>,
    slots: Vec<Slot>,
    set_aside: Vec<String>,
}

impl Default for Library {
    fn default() -> Self {
        Self::new()
    }
}

impl Library {
    /// The embedded library.
    #[must_use]
    pub fn new() -> Self {
        let slots = FAMILIES
            .iter()
            .flat_map(|(file, text)| slots(file, text))
            .collect();
        Self {
            own: Vec::new(),
            slots,
            set_aside: Vec::new(),
        }
    }

    /// Remembers the name of a user's entry that can't be used: what uses it isn't a second mistake.
    pub fn set_aside(&mut self, name: String) {
        self.set_aside.push(name);
    }

    /// Whether the user has an entry of that name that can't be used.
    #[must_use]
    pub fn is_set_aside(&self, name: &str) -> bool {
        self.set_aside.iter().any(|other| is_same(other, name))
    }

    /// Adds a user's material; it hides any other that is found by its id. One of the library's with
    /// values of the user's stays the board that it is, and goes by the same gauges, unless the
    /// user says otherwise.
    pub fn add(&mut self, mut material: Material) {
        if let Some(known) = self
            .find(&material.id)
            .filter(|known| known.kind == material.kind)
        {
            material.board = material.board.or(known.board);
            material.gauge = material.gauge.or(known.gauge);
            // What its kind makes likely gives way to what is known of it.
            if material.mold == MoldOn::of_kind(material.kind, material.board) {
                material.mold = known.mold;
            }
        }
        self.own.push(material);
    }

    /// The material of that id or alias; letter case, blanks and hyphens don't matter.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<Material> {
        let is_own = |own: &&Material| {
            is_same(&own.id, name) || own.aliases.iter().any(|alias| is_same(alias, name))
        };
        if let Some(own) = self.own.iter().rev().find(is_own) {
            return Some(own.clone());
        }
        let slot = self
            .slots
            .iter()
            .find(|slot| slot.names.iter().any(|n| is_same(n, name)))?;
        slot.read()
    }

    /// Whether the material of that id may have one of the names: whether its entry holds the words.
    /// Nothing is parsed for it.
    pub(super) fn may_be_called(&self, id: &str, names: &[&str]) -> bool {
        let is_own = |own: &Material| {
            is_same(&own.id, id) || own.aliases.iter().any(|alias| is_same(alias, id))
        };
        let slot = self.slots.iter().find(|slot| slot.id == id);
        let holds = |name: &&str| slot.is_some_and(|slot| slot.text.contains(*name));
        // A user's hides the library's, whatever it is called.
        names.contains(&id) || names.iter().any(holds) || self.own.iter().any(is_own)
    }

    /// The name nearest to one that isn't there.
    #[must_use]
    pub fn nearest(&self, name: &str) -> Option<&str> {
        let own = self.own.iter().map(|own| own.id.as_str());
        did_you_mean(
            name,
            own.chain(self.slots.iter().flat_map(|s| s.names.iter().copied())),
        )
    }

    /// How many materials the library itself holds.
    #[must_use]
    pub fn count(&self) -> usize {
        self.slots.len()
    }

    /// Every material, the user's own first, then by file and id.
    #[must_use]
    pub fn all(&self) -> Vec<Material> {
        let own = self.own.iter().cloned();
        own.chain(self.slots.iter().filter_map(Slot::read))
            .collect()
    }
}

/// Splits a family file at its top-level keys.
fn slots(file: &'static str, text: &'static str) -> Vec<Slot> {
    let slot = |(id, text): (&'static str, &'static str)| {
        let aliases = text
            .lines()
            .find_map(|line| line.strip_prefix("  aliases:"));
        let aliases = aliases.unwrap_or_default().trim().trim_matches(['[', ']']);
        let names = aliases
            .split(',')
            .map(|alias| alias.trim().trim_matches(['"', '\'']));
        let names = std::iter::once(id)
            .chain(names.filter(|name| !name.is_empty()))
            .collect();
        Slot {
            file,
            text,
            id,
            names,
            parsed: OnceCell::new(),
        }
    };
    entries(text).map(slot).collect()
}

impl Slot {
    /// Parses the entry. The unit tests read every one, so nothing is lost in silence here.
    fn read(&self) -> Option<Material> {
        self.parsed.get_or_init(|| self.parse().ok()).clone()
    }

    fn parse(&self) -> Result<Material, String> {
        let tree = parse(self.file, self.text).map_err(|error| error.to_string())?;
        let Value::Map(entries) = tree.value else {
            return Err(format!("{}: no map", self.id));
        };
        let mut problems = Vec::new();
        let material = entries
            .first()
            .and_then(|(_, node)| MaterialText::from_node(node, &mut problems))
            .and_then(|text| text.resolve(self.id, &mut problems));
        match material {
            Some(material) if problems.is_empty() => Ok(material),
            _ => Err(format!("{}: {problems:?}", self.id)),
        }
    }
}

/// A source of material values.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Its id in the library's files.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Edition, table, and what was read there.
    pub detail: String,
}

/// The sources the library cites.
#[must_use]
pub fn sources() -> Vec<Source> {
    let Ok(tree) = parse("materials/sources.yaml", SOURCES) else {
        return Vec::new();
    };
    let Value::Map(entries) = tree.value else {
        return Vec::new();
    };
    let text = |node: &crate::document::Node, wanted: &str| match &node.value {
        Value::Map(fields) => fields.iter().find_map(|(key, value)| {
            let is_it = key.value == Value::Text(wanted.into());
            match (&value.value, is_it) {
                (Value::Text(text), true) => Some(text.clone()),
                _ => None,
            }
        }),
        _ => None,
    };
    entries
        .iter()
        .filter_map(|(key, node)| {
            let Value::Text(id) = &key.value else {
                return None;
            };
            let title = text(node, "title")?;
            Some(Source {
                id: id.clone(),
                title,
                detail: text(node, "detail").unwrap_or_default(),
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_entry_is_read_and_none_is_lost_by_the_split() {
        let library = Library::new();
        for slot in &library.slots {
            slot.parse().unwrap_or_else(|error| panic!("{error}"));
        }
        for (file, text) in FAMILIES {
            let Value::Map(entries) = parse(file, text).unwrap().value else {
                panic!("{file}")
            };
            assert_eq!(entries.len(), slots(file, text).len(), "{file}");
        }
    }

    #[test]
    fn names_are_unique_and_keys_sorted() {
        let library = Library::new();
        let mut seen = BTreeSet::new();
        for slot in &library.slots {
            for name in &slot.names {
                assert!(
                    seen.insert(plain(name).collect::<String>()),
                    "`{name}` stands twice"
                );
            }
        }
        for (file, text) in FAMILIES {
            let ids: Vec<_> = slots(file, text).iter().map(|slot| slot.id).collect();
            assert!(ids.is_sorted(), "{file}: {ids:?}");
        }
    }

    #[test]
    fn every_value_names_a_source_that_exists_and_every_source_is_used() {
        let known: BTreeSet<String> = sources().into_iter().map(|source| source.id).collect();
        let mut used = BTreeSet::new();
        for material in Library::new().all() {
            let vapor = &material.vapor;
            let vapor = vapor.dry.iter().chain([&vapor.mid]).chain(&vapor.damp);
            let cited = vapor
                .map(|value| &value.source)
                .chain(material.conductivity.iter().map(|value| &value.source))
                .chain(material.density.iter().map(|value| &value.source))
                .chain(material.areal_density.iter().map(|value| &value.source))
                .chain(material.specific_heat.iter().map(|value| &value.source))
                .chain(material.mold.iter().map(|mold| &mold.source));
            for source in cited {
                assert!(known.contains(source), "{}: source `{source}`", material.id);
                used.insert(source.clone());
            }
        }
        assert_eq!(used, known);
    }

    #[test]
    fn values_lie_in_physical_ranges() {
        for material in Library::new().all() {
            if let Some(k) = &material.conductivity {
                assert!(
                    (0.005..=400.0).contains(&k.nominal.as_si()),
                    "{}",
                    material.id
                );
            }
            if let Some(density) = &material.density {
                assert!(
                    (5.0..=9_000.0).contains(&density.nominal.as_si()),
                    "{}",
                    material.id
                );
            }
            if let VaporRate::PerThickness(value) = material.vapor.mid.nominal {
                assert!(
                    value.as_si() <= 2.0e-10,
                    "{}: tighter than air",
                    material.id
                );
            }
        }
    }

    use super::super::VaporRate;
}
