//! A mapping, its keys held against those that are known.

use super::range::Range;
use super::record::{FromNode, Problems, unexpected};
use super::tree::{Node, Value};
use crate::error::{Problem, Span, did_you_mean};

/// A mapping being read key by key.
pub struct Object<'a> {
    span: Span,
    entries: Vec<(&'a Node, &'a Node)>,
    /// Known keys that unknown ones were probably meant to be: they aren't missing as well.
    meant: Vec<&'static str>,
}

impl<'a> Object<'a> {
    /// Opens a mapping. Keys that aren't known (where any are) and keys that stand twice are
    /// problems, the rest can still be read.
    pub fn new(node: &'a Node, known: &[&'static str], problems: &mut Problems) -> Option<Self> {
        let Value::Map(entries) = &node.value else {
            problems.push(unexpected(node, &expected_keys(known)));
            return None;
        };
        let mut kept: Vec<(&Node, &Node)> = Vec::new();
        let mut meant = Vec::new();
        for (key, value) in entries {
            let Value::Text(name) = &key.value else {
                problems.push(unexpected(key, "a name"));
                continue;
            };
            if let Some((first, _)) = kept.iter().find(|(other, _)| other.value == key.value) {
                let message = format!("`{name}` stands twice in this block");
                let help = format!("the first one is on line {}", first.span.line);
                problems.push(
                    Problem::at(key.span, message)
                        .expected("keep one of them")
                        .help(help),
                );
            } else if !known.is_empty() && !known.contains(&name.as_str()) {
                let near = nearest_key(name, known);
                problems.push(unknown_key(key, name, near, known));
                meant.extend(near);
            } else {
                kept.push((key, value));
            }
        }
        // A mapping's own span is a point; for messages its first key is the better place.
        let span = entries.first().map_or(node.span, |(key, _)| key.span);
        Some(Self {
            span,
            entries: kept,
            meant,
        })
    }

    /// Reads one key if it is there.
    pub fn optional<T: FromNode>(
        &mut self,
        key: &str,
        range: Option<Range>,
        problems: &mut Problems,
    ) -> Option<T> {
        let is_key = |node: &Node| matches!(&node.value, Value::Text(text) if text == key);
        let (_, value) = self.entries.iter().find(|(name, _)| is_key(name))?;
        match range {
            Some(range) => T::from_node_within(value, range, problems),
            None => T::from_node(value, problems),
        }
    }

    /// Reads one key that must be there.
    pub fn required<T: FromNode>(
        &mut self,
        key: &str,
        range: Option<Range>,
        problems: &mut Problems,
    ) -> Option<T> {
        let is_key = |node: &Node| matches!(&node.value, Value::Text(text) if text == key);
        if self.meant.contains(&key) {
            return None;
        }
        if !self.entries.iter().any(|(name, _)| is_key(name)) {
            let message = format!("`{key}` is missing in this block");
            let label = format!("expected `{key}:` with {}", T::expected());
            problems.push(Problem::at(self.span, message).expected(label));
            return None;
        }
        self.optional(key, range, problems)
    }

    pub(super) fn take_all(&mut self) -> Vec<(&'a Node, &'a Node)> {
        std::mem::take(&mut self.entries)
    }
}

fn expected_keys(known: &[&str]) -> String {
    match known {
        [] => "a block of names".into(),
        keys => format!(
            "a block with keys such as `{}`",
            keys[..keys.len().min(4)].join("`, `")
        ),
    }
}

fn nearest_key(name: &str, known: &[&'static str]) -> Option<&'static str> {
    let plain = name.to_lowercase().replace(['_', ' '], "-");
    let near = known.iter().find(|k| **k == plain).copied();
    near.or_else(|| did_you_mean(name, known.iter().copied()))
}

fn unknown_key(key: &Node, name: &str, near: Option<&str>, known: &[&str]) -> Problem {
    let help = match near {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("known keys: {}", known.join(", ")),
    };
    Problem::at(key.span, format!("unknown key `{name}`"))
        .expected("not a key of this block")
        .help(help)
}
