//! The tree of a YAML text, each node with its place.

use std::fmt;

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_yaml::{Budget, DuplicateKeyPolicy, NonFiniteFloatPolicy, Spanned};

use crate::error::{Error, Problem, Span};

/// The largest file that is read: far above any project, far below what could hurt.
pub const MAX_FILE_BYTES: usize = 1 << 20;

/// A value with its place in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// The value.
    pub value: Value,
    /// Where it stands.
    pub span: Span,
}

/// What a node holds. Numbers and booleans stay text: only the reader knows what was meant.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Nothing was written.
    Empty,
    /// A scalar, as written.
    Text(String),
    /// A sequence.
    List(Vec<Node>),
    /// A mapping in its order; keys may stand twice, which the record reader refuses.
    Map(Vec<(Node, Node)>),
}

impl Value {
    /// What a builder would call it.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Empty => "nothing",
            Self::Text(_) => "a text",
            Self::List(_) => "a list",
            Self::Map(_) => "a block of keys",
        }
    }
}

/// Parses one YAML document.
///
/// Depth, node count and alias use are bounded, so hostile input is refused in bounded time.
///
/// # Errors
/// When the text isn't one YAML document within those bounds.
pub fn parse(file: &str, text: &str) -> Result<Node, Error> {
    // A byte order mark is what some editors put first; it means nothing.
    let content = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut budget = Budget::default();
    budget.max_nodes = 50_000;
    budget.max_depth = 40;
    budget.max_aliases = 200;
    let options = serde_yaml::options! {
        duplicate_keys: DuplicateKeyPolicy::LastWins,
        non_finite_float_policy: NonFiniteFloatPolicy::PassThrough,
        with_snippet: false,
        budget: Some(budget),
    };
    let raw: Spanned<Raw> = serde_yaml::from_str_with_options(content, options)
        .map_err(|error| Error::in_text(file, content, vec![syntax_problem(content, &error)]))?;
    Ok(place(raw, content))
}

fn syntax_problem(text: &str, error: &serde_yaml::Error) -> Problem {
    let message = error.without_snippet().to_string();
    // The reader's own "at line …" stands in the arrow line already.
    let message = message.split(" at line ").next().unwrap_or(&message).trim();
    let (message, help) = in_our_words(message);
    let Some(location) = error.location() else {
        return Problem::whole(message).help(help);
    };
    let (line, column) = (location.line() as usize, location.column() as usize);
    let start = byte_of(text, line, column);
    let end = text[start..]
        .chars()
        .next()
        .map_or(start, |c| start + c.len_utf8());
    Problem::at(
        Span {
            start,
            end,
            line,
            column,
        },
        message,
    )
    .help(help)
}

/// What the YAML reader says to programmers, as a builder would hear it, and what would help.
fn in_our_words(message: &str) -> (String, &'static str) {
    const WORDS: [(&[&str], &str, &str); 5] = [
        (
            &["tabs disallowed"],
            "a tab stands where blanks belong",
            "indent with blanks, two for each step",
        ),
        (
            &["multiple YAML documents"],
            "a second document starts here",
            "keep one project in a file: remove the line `---` and what follows it",
        ),
        (
            &["recursive references", "Aliases", "AliasAnchorRatio"],
            "an alias (`*name`) refers to the block it stands in, or there are far too many",
            "write the block out instead",
        ),
        (
            &["recursion limit", "Depth"],
            "blocks are nested far deeper than a project needs",
            "look for a bracket that isn't closed, or a line indented too far",
        ),
        (
            &["budget breached"],
            "this file holds far more than a project needs",
            "look for aliases (`*name`) that repeat each other, or for text pasted twice",
        ),
    ];
    let known = WORDS
        .iter()
        .find(|(signs, ..)| signs.iter().any(|sign| message.contains(sign)));
    match known {
        Some((_, words, help)) => ((*words).to_owned(), help),
        None => (
            format!("this isn't YAML that can be read: {message}"),
            "check brackets, quotes, colons and the blanks at the start of the line",
        ),
    }
}

/// Byte offset of a line and column, both from 1.
fn byte_of(text: &str, line: usize, column: usize) -> usize {
    let line_start: usize = text
        .split_inclusive('\n')
        .take(line.saturating_sub(1))
        .map(str::len)
        .sum();
    let rest = &text[line_start.min(text.len())..];
    let inside = rest
        .char_indices()
        .nth(column.saturating_sub(1))
        .map_or(rest.len(), |(at, _)| at);
    (line_start + inside).min(text.len())
}

/// The tree as serde gives it, before places are turned into ours.
enum Raw {
    Empty,
    /// A quoted or plain string.
    Text(String),
    /// A scalar that YAML takes for a number or a boolean: its text is taken from the source.
    Scalar,
    List(Vec<Spanned<Raw>>),
    Map(Vec<(Spanned<Raw>, Spanned<Raw>)>),
}

fn place(raw: Spanned<Raw>, text: &str) -> Node {
    let span = raw.defined.span();
    let start = usize_of(span.byte_offset()).min(text.len());
    let end = (start + usize_of(span.byte_len())).clamp(start, text.len());
    let (line, column) = (raw.defined.line() as usize, raw.defined.column() as usize);
    let span = Span {
        start,
        end,
        line,
        column,
    };
    let value = match raw.value {
        Raw::Empty => Value::Empty,
        Raw::Text(value) => Value::Text(value),
        Raw::Scalar => Value::Text(text.get(start..end).unwrap_or_default().trim().to_owned()),
        Raw::List(items) => Value::List(items.into_iter().map(|item| place(item, text)).collect()),
        Raw::Map(entries) => Value::Map(
            entries
                .into_iter()
                .map(|(key, value)| (place(key, text), place(value, text)))
                .collect(),
        ),
    };
    Node { value, span }
}

fn usize_of(number: Option<u64>) -> usize {
    number.and_then(|n| usize::try_from(n).ok()).unwrap_or(0)
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(RawVisitor)
    }
}

struct RawVisitor;

impl<'de> Visitor<'de> for RawVisitor {
    type Value = Raw;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a text, a list or a block of keys")
    }

    fn visit_unit<E>(self) -> Result<Raw, E> {
        Ok(Raw::Empty)
    }

    fn visit_bool<E>(self, _: bool) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_i64<E>(self, _: i64) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_u64<E>(self, _: u64) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_i128<E>(self, _: i128) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_u128<E>(self, _: u128) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_f64<E>(self, _: f64) -> Result<Raw, E> {
        Ok(Raw::Scalar)
    }

    fn visit_str<E>(self, value: &str) -> Result<Raw, E> {
        Ok(Raw::Text(value.trim().to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Raw, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Raw::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Raw, A::Error> {
        let mut map = Vec::new();
        while let Some(entry) = entries.next_entry()? {
            map.push(entry);
        }
        Ok(Raw::Map(map))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_booleans_stay_as_written() {
        let tree = parse("t", "a: [5.50, no, 1e400, .nan, 017]").unwrap();
        let Value::Map(entries) = tree.value else {
            panic!("a map")
        };
        let Value::List(items) = &entries[0].1.value else {
            panic!("a list")
        };
        let texts: Vec<_> = items.iter().map(|item| item.value.clone()).collect();
        let expected = ["5.50", "no", "1e400", ".nan", "017"];
        assert_eq!(texts, expected.map(|text| Value::Text(text.into())));
    }

    #[test]
    fn places_count_characters_and_bytes() {
        let tree = parse("t", "é: x\nb: {c: y}").unwrap();
        let Value::Map(entries) = tree.value else {
            panic!("a map")
        };
        assert_eq!(
            entries[0].1.span,
            Span {
                start: 4,
                end: 5,
                line: 1,
                column: 4
            }
        );
        let Value::Map(inner) = &entries[1].1.value else {
            panic!("a map")
        };
        assert_eq!((inner[0].1.span.line, inner[0].1.span.column), (2, 8));
    }

    #[test]
    fn hostile_texts_are_refused() {
        assert!(parse("t", &"[".repeat(100_000)).is_err());
        assert!(parse("t", "a: &a [*a]").is_err());
        let bomb: String = (0..9_i32)
            .map(|n| {
                format!(
                    "x{n}: &x{n} [{}]\n",
                    vec![format!("*x{}", n - 1); 9].join(",")
                )
            })
            .collect::<String>()
            .replace("*x-1", "lol");
        assert!(parse("t", &bomb).is_err());
    }
}
