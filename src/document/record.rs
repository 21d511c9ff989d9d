//! Records: typed values read from a tree, all problems collected.

use serde_json::{Value as Json, json};

use super::object::Object;
use super::tree::{Node, Value};
use crate::error::{Problem, Span, is_hidden};
use crate::quantity::Quantity;

/// The problems found so far.
pub type Problems = Vec<Problem>;

/// Something that can be read from a node.
pub trait FromNode: Sized {
    /// What is expected, for messages.
    fn expected() -> String;

    /// Reads the node; on failure the problems say why.
    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self>;

    /// Its part of the JSON schema for editors.
    fn schema() -> Json;
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

    fn schema() -> Json {
        let kinds = match T::BARE_NUMBER {
            true => json!(["number", "string"]),
            false => json!("string"),
        };
        json!({"type": kinds, "description": T::EXPECTED})
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
    fn expected() -> String {
        "a whole number from 1 to 1000".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        let value = match &node.value {
            Value::Text(text) => text.parse().ok().filter(|n| (1..=1000).contains(n)),
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
        json!({"type": "integer", "minimum": 1, "maximum": 1000})
    }
}

impl<T: FromNode> FromNode for Vec<T> {
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

/// A block whose keys are names the user chooses, in the file's order.
#[derive(Clone, Debug, PartialEq)]
pub struct Named<T> {
    /// Name and content.
    pub entries: Vec<(At<Word>, T)>,
    /// Names whose content couldn't be read: that is one problem, and no second one is made of it.
    pub unreadable: Vec<Word>,
}

impl<T> Default for Named<T> {
    fn default() -> Self {
        Self {
            entries: Vec::new(),
            unreadable: Vec::new(),
        }
    }
}

impl<T: FromNode> FromNode for Named<T> {
    fn expected() -> String {
        "a block of names".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        let mut object = Object::new(node, &[], problems)?;
        let mut named = Self::default();
        for (key, value) in object.take_all() {
            let Some(name) = At::<Word>::from_node(key, problems) else {
                // There is something, if nothing that has a name.
                named.unreadable.push(Word(String::new()));
                continue;
            };
            match T::from_node(value, problems) {
                Some(content) => named.entries.push((name, content)),
                None => named.unreadable.push(name.value),
            }
        }
        Some(named)
    }

    fn schema() -> Json {
        json!({"type": "object", "additionalProperties": T::schema()})
    }
}

/// Defines a record: a struct, its keys with their documentation, and its schema.
///
/// Each field is `"key" field: required Type` (without it there is no record), `"key" field: needed
/// Type` (a problem, but the rest is still looked at) or `"key" field: optional Type`.
macro_rules! record {
    (
        $(#[doc = $doc:literal])*
        pub struct $name:ident {
            $( $(#[doc = $field_doc:literal])* $key:literal $field:ident : $need:ident $type:ty ),* $(,)?
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
                let before = problems.len();
                let mut object = $crate::document::Object::new(node, &[$($key),*], problems)?;
                $( let $field = $crate::document::record!(@read $need $type, object, $key, problems); )*
                let complete = problems.len() == before;
                Some(Self { $( $field: $crate::document::record!(@keep $need $field), )* complete })
            }

            fn schema() -> serde_json::Value {
                let mut properties = serde_json::Map::new();
                let mut required: Vec<&str> = Vec::new();
                $(
                    let mut part = <$type as $crate::document::FromNode>::schema();
                    let about = concat!($($field_doc, "\n"),*).trim();
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
    (@type required $type:ty) => { $type };
    (@type needed $type:ty) => { Option<$type> };
    (@type optional $type:ty) => { Option<$type> };
    (@read required $type:ty, $object:ident, $key:literal, $problems:ident) => {
        $object.required::<$type>($key, $problems)
    };
    (@read needed $type:ty, $object:ident, $key:literal, $problems:ident) => {
        $object.required::<$type>($key, $problems)
    };
    (@read optional $type:ty, $object:ident, $key:literal, $problems:ident) => {
        $object.optional::<$type>($key, $problems)
    };
    (@keep required $field:ident) => { $field? };
    (@keep needed $field:ident) => { $field };
    (@keep optional $field:ident) => { $field };
}
pub(crate) use record;
