//! What a `depends` hangs on: a word without its reason is no answer.

/// What a `depends` hangs on, in the order they rank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum On {
    /// The materials: it flips within the range of their values, or they have to bear the water.
    Material,
    /// Whether mold grows where it stays damp without water.
    Mold,
    /// The coldest month or the design night, which alone cross the limit.
    ColdSpell,
    /// Whether room air, or outdoor air in a cooled house, leaks in.
    Tightness,
    /// A drawing: the section alone can't show the edge.
    Drawing,
    /// Something this method doesn't look at.
    NotLookedAt,
    /// A margin within the error of the numbers, or a solver that didn't settle.
    Tolerance,
    /// The edition or the zone of the code, which isn't stated.
    Edition,
}

impl On {
    /// All of them, in the order they rank.
    pub const ALL: [Self; 8] = [
        Self::Material,
        Self::Mold,
        Self::ColdSpell,
        Self::Tightness,
        Self::Drawing,
        Self::NotLookedAt,
        Self::Tolerance,
        Self::Edition,
    ];

    /// The words after `depends on`.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Material => "material",
            Self::Mold => "mold",
            Self::ColdSpell => "a cold spell",
            Self::Tightness => "tightness",
            Self::Drawing => "the drawing",
            Self::NotLookedAt => "what isn't looked at",
            Self::Tolerance => "tolerance",
            Self::Edition => "the code's edition",
        }
    }

    /// The stable id used in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Material => "material",
            Self::Mold => "mold",
            Self::ColdSpell => "cold-spell",
            Self::Tightness => "tightness",
            Self::Drawing => "drawing",
            Self::NotLookedAt => "not-looked-at",
            Self::Tolerance => "tolerance",
            Self::Edition => "edition",
        }
    }
}
