//! How readily mold grows on a surface.

/// The class of a surface (Ojanen et al. 2010; which materials it holds is from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MoldClass {
    /// Polished plastics, metal.
    Resistant,
    /// Mineral wool, concrete.
    MediumResistant,
    /// Planed wood, panels, paper facings.
    Sensitive,
    /// Sawn lumber.
    VerySensitive,
}

impl MoldClass {
    /// Every class with the word used in files.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("very sensitive", Self::VerySensitive),
        ("sensitive", Self::Sensitive),
        ("medium resistant", Self::MediumResistant),
        ("resistant", Self::Resistant),
    ];

    /// The word used in files.
    ///
    /// ```
    /// # use dewmargin::quantity::MoldClass;
    /// assert_eq!(MoldClass::VerySensitive.word(), "very sensitive");
    /// ```
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::VerySensitive => "very sensitive",
            Self::Sensitive => "sensitive",
            Self::MediumResistant => "medium resistant",
            Self::Resistant => "resistant",
        }
    }
}
