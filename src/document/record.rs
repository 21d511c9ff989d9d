//! Records: typed values read from a tree, all problems collected.

use serde_json::{Value as Json, json};

use super::range::Range;
use super::tree::{Node, Value};
use crate::error::{Problem, Span, is_hidden};
use crate::quantity::Quantity;

/// The problems found so far.
pub type Problems = Vec<Problem>;

/// Marks in the schema a number that has no range; a test finds none.
pub(crate) const UNBOUNDED: &str = "a quantity without a range";

/// Something that can be read from a node.
pub trait FromNode: Sized {
    /// What is expected, for messages.
    fn expected() -> String;

    /// Reads the node; on failure the problems say why.
    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self>;

    /// Its part of the JSON schema for editors.
    fn schema() -> Json;

    /// Whether it is read from numbers, which the key it stands under must give a range.
    const MEASURED: bool = false;

    /// As [`FromNode::from_node`], with every number in it held within a range.
    fn from_node_within(node: &Node, _: Range, problems: &mut Problems) -> Option<Self> {
        Self::from_node(node, problems)
    }

    /// As [`FromNode::schema`], where every number in it has a range.
    fn schema_within(_: Range) -> Json {
        Self::schema()
    }
}

/// A value with the place it was read from.
#[derive(Clone, Debug, PartialEq)]
pub struct At<T> {
    /// The value.
    pub value: T,
    /// Where it stood.
    pub span: Span,
}

/// A free text such as a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word(pub String);

/// The problem of a character that can't be seen in a name: it could forge what is printed.
pub(crate) fn unprintable(hidden: char, node: &Node) -> Problem {
    let message = format!(
        "a character that can't be seen stands here: U+{:04X}",
        u32::from(hidden)
    );
    Problem::at(node.span, message).expected("expected letters, digits and signs on one line")
}

pub(crate) fn unexpected(node: &Node, expected: &str) -> Problem {
    let message = match &node.value {
        Value::Text(text) => format!("`{text}` isn't what belongs here"),
        Value::Empty => "nothing is written here".to_owned(),
        other => format!("{} stands where something else belongs", other.kind()),
    };
    Problem::at(node.span, message).expected(format!("expected {expected}"))
}

impl FromNode for At<Word> {
    fn expected() -> String {
        "a text".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        match &node.value {
            Value::Text(text) if !text.is_empty() => {
                let text = text.trim_end_matches('\n');
                if let Some(hidden) = text.chars().find(|c| is_hidden(*c)) {
                    problems.push(unprintable(hidden, node));
                    return None;
                }
                Some(Self {
                    value: Word(text.to_owned()),
                    span: node.span,
                })
            }
            _ => {
                problems.push(unexpected(node, &Self::expected()));
                None
            }
        }
    }

    fn schema() -> Json {
        json!({"type": ["string", "number", "boolean"]})
    }
}

impl<T: Quantity> FromNode for At<T> {
    const MEASURED: bool = T::RANGED.is_some();

    fn expected() -> String {
        T::EXPECTED.into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        let Value::Text(text) = &node.value else {
            problems.push(unexpected(node, T::EXPECTED));
            return None;
        };
        match T::read(text) {
            Ok(value) => Some(Self {
                value,
                span: node.span,
            }),
            Err(error) => {
                // The message up to the expectation, which goes under the caret.
                let message = error
                    .message
                    .split(": expected ")
                    .next()
                    .unwrap_or_default();
                let label = error
                    .message
                    .split_once(": expected ")
                    .map_or(T::EXPECTED, |(_, e)| e);
                let problem = Problem::at(node.span, message).expected(format!("expected {label}"));
                problems.push(problem.maybe_help(error.help));
                None
            }
        }
    }

    fn from_node_within(node: &Node, range: Range, problems: &mut Problems) -> Option<Self> {
        range.hold::<T>(node, problems)?;
        Self::from_node(node, problems)
    }

    fn schema() -> Json {
        let kinds = match T::BARE_NUMBER {
            true => json!(["number", "string"]),
            false => json!("string"),
        };
        let mut schema = json!({"type": kinds, "description": T::EXPECTED});
        if Self::MEASURED {
            schema["$comment"] = UNBOUNDED.into();
        }
        schema
    }

    fn schema_within(range: Range) -> Json {
        let mut schema = Self::schema();
        let Some([least, most]) = range.ends::<T>() else {
            return schema;
        };
        let words = format!("{}, {}", T::EXPECTED, range.words::<T>());
        schema["description"] = words.into();
        if let Some(object) = schema.as_object_mut() {
            object.remove("$comment");
        }
        // The ends of a number that stands without a unit.
        if T::BARE_NUMBER && range.is_bare() {
            schema["minimum"] = least.into();
            schema["maximum"] = most.into();
        }
        schema
    }
}

impl FromNode for At<bool> {
    fn expected() -> String {
        "`true` or `false`".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        let value = match &node.value {
            Value::Text(text) => match text.to_lowercase().as_str() {
                "true" | "yes" => Some(true),
                "false" | "no" => Some(false),
                _ => None,
            },
            _ => None,
        };
        if value.is_none() {
            problems.push(unexpected(node, &Self::expected()));
        }
        value.map(|value| Self {
            value,
            span: node.span,
        })
    }

    fn schema() -> Json {
        json!({"type": ["boolean", "string"]})
    }
}

impl FromNode for At<u32> {
    const MEASURED: bool = true;

    fn expected() -> String {
        "a whole number".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        whole(node, None, problems)
    }

    fn from_node_within(node: &Node, range: Range, problems: &mut Problems) -> Option<Self> {
        whole(node, Some(range), problems)
    }

    fn schema() -> Json {
        json!({"type": "integer", "$comment": UNBOUNDED})
    }

    fn schema_within(Range { least, most }: Range) -> Json {
        let ends = [least, most].map(|end| end.parse::<u32>());
        match ends {
            [Ok(least), Ok(most)] => {
                json!({"type": "integer", "minimum": least, "maximum": most})
            }
            _ => Self::schema(),
        }
    }
}

fn whole(node: &Node, range: Option<Range>, problems: &mut Problems) -> Option<At<u32>> {
    let ends = range.map(|range| [range.least, range.most].map(|end| end.parse().ok()));
    let [least, most] = ends.unwrap_or_default();
    let value = match &node.value {
        Value::Text(text) => text.parse::<u32>().ok(),
        _ => None,
    };
    let fits =
        |n: &u32| least.is_none_or(|least| *n >= least) && most.is_none_or(|most| *n <= most);
    let value = value.filter(fits);
    if value.is_none() {
        let expected = match range {
            Some(Range { least, most }) => format!("a whole number from {least} to {most}"),
            None => At::<u32>::expected(),
        };
        problems.push(unexpected(node, &expected));
    }
    value.map(|value| At {
        value,
        span: node.span,
    })
}

impl<T: FromNode> FromNode for Vec<T> {
    const MEASURED: bool = T::MEASURED;

    fn from_node_within(node: &Node, range: Range, problems: &mut Problems) -> Option<Self> {
        let Value::List(items) = &node.value else {
            return Self::from_node(node, problems);
        };
        let read = |item| T::from_node_within(item, range, problems);
        Some(items.iter().filter_map(read).collect())
    }

    fn schema_within(range: Range) -> Json {
        json!({"type": "array", "items": T::schema_within(range)})
    }

    fn expected() -> String {
        format!("a list; each item: {}", T::expected())
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        match &node.value {
            Value::List(items) => Some(
                items
                    .iter()
                    .filter_map(|item| T::from_node(item, problems))
                    .collect(),
            ),
            Value::Empty => Some(Self::new()),
            _ => {
                problems.push(unexpected(
                    node,
                    "a list, each item on a line that starts with `-`",
                ));
                None
            }
        }
    }

    fn schema() -> Json {
        json!({"type": "array", "items": T::schema()})
    }
}

/// Defines a record: a struct, its keys with their documentation, and its schema.
///
/// Each field is `"key" field: required Type` (without it there is no record), `"key" field: needed
/// Type` (a problem, but the rest is still looked at) or `"key" field: optional Type`.
/// Behind the type of a number stands what is plausible for its key, `["1 in", "8 ft"]`: a number
/// without its range doesn't compile.
macro_rules! record {
    (
        $(#[doc = $doc:literal])*
        pub struct $name:ident {
            $( $(#[doc = $field_doc:literal])* $key:literal $field:ident : $need:ident $type:ty $([$least:literal, $most:literal])? ),* $(,)?
        }
    ) => {
        $(#[doc = $doc])*
        #[derive(Clone, Debug, PartialEq)]
        #[allow(unreachable_pub)]
        pub struct $name {
            $( $(#[doc = $field_doc])* pub $field: $crate::document::record!(@type $need $type), )*
            /// Whether all of it could be read: what is missing after a mistake isn't a second one.
            pub complete: bool,
        }

        impl $crate::document::FromNode for $name {
            fn expected() -> String {
                format!("a block with keys such as {}", [$(concat!("`", $key, "`")),*][..].iter().take(4)
                    .copied().collect::<Vec<_>>().join(", "))
            }

            fn from_node(
                node: &$crate::document::Node,
                problems: &mut $crate::document::Problems,
            ) -> Option<Self> {
                // A number without a range, or a range without a number, doesn't compile.
                $( const _: () = assert!(
                    <$type as $crate::document::FromNode>::MEASURED
                        == $crate::document::record!(@range $([$least, $most])?).is_some(),
                    concat!("give `", $key, "` a range, as `[least, most]`, where it is a number, and only there"),
                ); )*
                let before = problems.len();
                let mut object = $crate::document::Object::new(node, &[$($key),*], problems)?;
                $( let $field = $crate::document::record!(@read $need $type, object, $key,
                    $crate::document::record!(@range $([$least, $most])?), problems); )*
                let complete = problems.len() == before;
                Some(Self { $( $field: $crate::document::record!(@keep $need $field), )* complete })
            }

            fn schema() -> serde_json::Value {
                let mut properties = serde_json::Map::new();
                let mut required: Vec<&str> = Vec::new();
                $(
                    let range = $crate::document::record!(@range $([$least, $most])?);
                    let mut part = match range {
                        Some(range) => <$type as $crate::document::FromNode>::schema_within(range),
                        None => <$type as $crate::document::FromNode>::schema(),
                    };
                    let about = concat!($($field_doc, "\n"),*).trim();
                    let about = match range {
                        Some(range) => format!("{about} From {} to {}.", range.least, range.most),
                        None => about.to_owned(),
                    };
                    if let (Some(part), false) = (part.as_object_mut(), about.is_empty()) {
                        part.insert("description".into(), about.into());
                    }
                    properties.insert($key.into(), part);
                    if stringify!($need) != "optional" {
                        required.push($key);
                    }
                )*
                serde_json::json!({
                    "type": "object",
                    "properties": properties,
                    "required": required,
                    "additionalProperties": false,
                })
            }
        }
    };
    (@range) => { None::<$crate::document::Range> };
    (@range [$least:literal, $most:literal]) => {
        Some($crate::document::Range { least: $least, most: $most })
    };
    (@type required $type:ty) => { $type };
    (@type needed $type:ty) => { Option<$type> };
    (@type optional $type:ty) => { Option<$type> };
    (@read required $type:ty, $object:ident, $key:literal, $range:expr, $problems:ident) => {
        $object.required::<$type>($key, $range, $problems)
    };
    (@read needed $type:ty, $object:ident, $key:literal, $range:expr, $problems:ident) => {
        $object.required::<$type>($key, $range, $problems)
    };
    (@read optional $type:ty, $object:ident, $key:literal, $range:expr, $problems:ident) => {
        $object.optional::<$type>($key, $range, $problems)
    };
    (@keep required $field:ident) => { $field? };
    (@keep needed $field:ident) => { $field };
    (@keep optional $field:ident) => { $field };
}
pub(crate) use record;
