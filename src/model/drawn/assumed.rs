//! Edges that no detail of the file shows: drawn without being asked, by stated defaults.

use crate::model::Told;

/// What an edge that was drawn without being asked stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AssumedEdge {
    /// The name it shares with the same edge at other walls, such as `floor edge`: the worst of
    /// them speaks.
    pub subject: String,
    /// The floor, by the name of its assembly.
    pub floor: String,
    /// The strip of it that the edge shows.
    pub strip: String,
    /// The wall, by the name of its assembly; `None` where the file has none and a stated 2x4 wall
    /// stands on the edge.
    pub wall: Option<String>,
}

/// An edge that no detail of the file shows and that can't be drawn by the stated defaults.
#[derive(Clone, Debug, PartialEq)]
pub struct UndrawnEdge {
    /// The floor, by the name of its assembly.
    pub assembly: String,
    /// The variant's name; `None` as drawn.
    pub variant: Option<String>,
    /// The strip at its edge.
    pub strip: String,
    /// The wall; `None` where it is the stated one.
    pub wall: Option<String>,
    /// What keeps it from being drawn.
    pub why: Told,
}
