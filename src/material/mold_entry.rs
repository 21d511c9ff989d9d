//! How a material says that mold takes to it: a class alone, or a block with its source.

use serde_json::{Value as Json, json};

use super::{MoldOn, Tag, one_of};
use crate::document::{At, FromNode, Node, Problems, Value, Word, record};
use crate::quantity::{MoldClass, Share};

record! {
    /// How mold takes to a material.
    pub struct MoldText {
        /// `very sensitive`, `sensitive`, `medium resistant` or `resistant`.
        "class" class: required At<Word>,
        /// How fast mold goes back in dry air over how fast on pine; 25 % if left out.
        "decline" decline: optional At<Share> ["0 %", "100 %"],
        /// Where that comes from.
        "source" source: optional At<Word>,
        /// `seen`, `from memory`, `computed`, `common practice` or `given`.
        "tag" tag: optional At<Word>,
    }
}

/// A class written short, `sensitive`, or as a block.
#[derive(Clone, Debug, PartialEq)]
pub struct MoldEntry(MoldText);

impl FromNode for MoldEntry {
    fn expected() -> String {
        "`very sensitive`, `sensitive`, `medium resistant`, `resistant`, or a block with `class:`"
            .into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        if let Value::Map(_) = node.value {
            return MoldText::from_node(node, problems).map(Self);
        }
        Some(Self(MoldText {
            class: At::<Word>::from_node(node, problems)?,
            decline: None,
            source: None,
            tag: None,
            complete: true,
        }))
    }

    fn schema() -> Json {
        json!({"anyOf": [At::<Word>::schema(), MoldText::schema()]})
    }
}

impl MoldEntry {
    /// The class, if it is a known one.
    pub(super) fn resolve(self, problems: &mut Problems) -> Option<MoldOn> {
        let text = self.0;
        let class = one_of(&text.class, &MoldClass::WORDS, "mold class", problems);
        let tag = match &text.tag {
            None => Tag::Given,
            Some(word) => one_of(word, &Tag::WORDS, "tag", problems)?,
        };
        Some(MoldOn {
            class: class?,
            decline: text
                .decline
                .map_or(MoldOn::SLOW, |at| at.value.as_fraction()),
            source: text
                .source
                .map_or_else(String::new, |source| source.value.0),
            tag,
        })
    }
}
