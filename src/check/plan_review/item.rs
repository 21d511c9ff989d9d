//! What can be missing, and why it is asked for.

/// What a plan reviewer asks for, in the order of a sheet: title block, code, climate, layers,
/// drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Item {
    /// The project's title.
    Title,
    /// The site's address.
    Address,
    /// The owner.
    Owner,
    /// Who drew it.
    Designer,
    /// The drawings' date.
    Date,
    /// The revision.
    Revision,
    /// The code the plans go by, in words.
    CodeBasis,
    /// The edition whose tables are held against the assemblies.
    CodeEdition,
    /// The climate zone.
    CodeZone,
    /// Where the outdoor air comes from.
    ClimateSource,
    /// A layer's thickness.
    Thickness,
    /// A layer's thermal resistance.
    Resistance,
    /// Where a value of your own comes from.
    ValueSource,
    /// A standard drawing scale.
    Scale,
    /// Characters the lettering hasn't got.
    Lettering,
}

impl Item {
    /// The stable id for JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Title => "title",
            Self::Address => "address",
            Self::Owner => "owner",
            Self::Designer => "designer",
            Self::Date => "date",
            Self::Revision => "revision",
            Self::CodeBasis => "code-basis",
            Self::CodeEdition => "code-edition",
            Self::CodeZone => "code-zone",
            Self::ClimateSource => "climate-source",
            Self::Thickness => "thickness",
            Self::Resistance => "resistance",
            Self::ValueSource => "value-source",
            Self::Scale => "scale",
            Self::Lettering => "lettering",
        }
    }

    /// What it is called in lists.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Title => "title",
            Self::Address => "address",
            Self::Owner => "owner",
            Self::Designer => "designer",
            Self::Date => "date",
            Self::Revision => "revision",
            Self::CodeBasis => "code basis",
            Self::CodeEdition => "code edition",
            Self::CodeZone => "climate zone",
            Self::ClimateSource => "source of the climate",
            Self::Thickness => "thickness",
            Self::Resistance => "thermal resistance",
            Self::ValueSource => "source of a value",
            Self::Scale => "drawing scale",
            Self::Lettering => "lettering",
        }
    }

    /// Why a reviewer asks for it.
    #[must_use]
    pub fn why(self) -> &'static str {
        match self {
            Self::Title => "sheets of one application are told by it",
            Self::Address => "applications are filed by the site",
            Self::Owner => "the application names the owner, and so do its sheets",
            Self::Designer => "someone must answer questions about the sheets",
            Self::Date => "a sheet without a date can't be told from an older one",
            Self::Revision => "corrections are checked against the revision before",
            Self::CodeBasis => "plans are reviewed against the code they name",
            Self::CodeEdition => "the prescriptive tables differ by edition",
            Self::CodeZone => "the prescriptive tables are entered by zone",
            Self::ClimateSource => "design conditions are compared with the site's",
            Self::Thickness => "the section is checked layer by layer",
            Self::Resistance => "insulation is checked by its R-value",
            Self::ValueSource => {
                "a stated R-value or permeance, and so the vapor class, needs the product's data"
            }
            Self::Scale => "a section is measured on paper, at a scale that rulers have",
            Self::Lettering => "what can't be printed can't be read",
        }
    }
}
