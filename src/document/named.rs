//! Blocks whose keys are names of the user's.

use serde_json::{Value as Json, json};

use super::object::Object;
use super::range::Range;
use super::record::{At, FromNode, Problems, Word};
use super::tree::Node;

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
    const MEASURED: bool = T::MEASURED;

    fn expected() -> String {
        "a block of names".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        named(node, &T::from_node, problems)
    }

    fn from_node_within(node: &Node, range: Range, problems: &mut Problems) -> Option<Self> {
        let read =
            |node: &Node, problems: &mut Problems| T::from_node_within(node, range, problems);
        named(node, &read, problems)
    }

    fn schema() -> Json {
        json!({"type": "object", "additionalProperties": T::schema()})
    }

    fn schema_within(range: Range) -> Json {
        json!({"type": "object", "additionalProperties": T::schema_within(range)})
    }
}

fn named<T: FromNode>(
    node: &Node,
    read: &dyn Fn(&Node, &mut Problems) -> Option<T>,
    problems: &mut Problems,
) -> Option<Named<T>> {
    let mut object = Object::new(node, &[], problems)?;
    let mut named = Named::default();
    for (key, value) in object.take_all() {
        let Some(name) = At::<Word>::from_node(key, problems) else {
            // There is something, if nothing that has a name.
            named.unreadable.push(Word(String::new()));
            continue;
        };
        match read(value, problems) {
            Some(content) => named.entries.push((name, content)),
            None => named.unreadable.push(name.value),
        }
    }
    Some(named)
}
