//! YAML as a tree that remembers where everything stood, and records read from it.
//!
//! Reading never stops at the first mistake: every problem is collected with its place, so that
//! a builder mends a file once. `record!` defines, in one place, what a mapping holds: the
//! struct it becomes, its keys, and its part of the editor schema.

mod named;
mod object;
mod range;
mod record;
mod split;
mod tree;

pub use named::Named;
pub use object::Object;
pub use range::Range;
#[cfg(test)]
pub(crate) use record::UNBOUNDED;
pub use record::{At, FromNode, Problems, Word};
pub(crate) use record::{record, unexpected, unprintable};
pub(crate) use split::entries;
pub use tree::{MAX_FILE_BYTES, Node, Value, parse};
