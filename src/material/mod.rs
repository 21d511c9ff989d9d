//! Building materials: each property with its range, its source and how well it is known.

mod entry;
mod library;
mod mold_entry;
mod sold;

pub(crate) use entry::one_of;
pub use entry::{MaterialText, VaporRate};
pub use library::{Library, Source, sources};
pub use sold::{Sold, boards, sold};

use crate::quantity::{
    ArealDensity, Conductivity, Density, Length, MoldClass, Price, RelativeHumidity, SheetMetal,
    SpecificHeat, Temperature,
};

/// What a material is, as far as the checks care.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Solid wood.
    Wood,
    /// A wood-based panel.
    Panel,
    /// Insulation that may let air through.
    Insulation,
    /// Plastic foam, cellular glass.
    Foam,
    /// Metal.
    Metal,
    /// A sheet, film, paper or coating.
    Membrane,
    /// A wall or ceiling lining.
    Lining,
    /// A floor covering.
    Flooring,
    /// Siding.
    Cladding,
    /// Masonry, concrete, plaster.
    Masonry,
    /// A sealant, tape or gasket.
    Seal,
}

impl Kind {
    /// Every kind with the word used in files.
    pub const WORDS: [(&'static str, Self); 11] = [
        ("wood", Self::Wood),
        ("panel", Self::Panel),
        ("insulation", Self::Insulation),
        ("foam", Self::Foam),
        ("metal", Self::Metal),
        ("membrane", Self::Membrane),
        ("lining", Self::Lining),
        ("flooring", Self::Flooring),
        ("cladding", Self::Cladding),
        ("masonry", Self::Masonry),
        ("seal", Self::Seal),
    ];

    /// The word used in files.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, kind)| *kind == self)
            .map_or("", |(word, _)| word)
    }

    /// Solid wood or a wood-based panel: what rots.
    #[must_use]
    pub fn is_wood(self) -> bool {
        matches!(self, Self::Wood | Self::Panel)
    }
}

/// A board that the code's tables tell from others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Board {
    /// Gypsum board and gypsum sheathing, by whatever name it is sold.
    Gypsum,
    /// Fiberboard sheathing.
    Fiberboard,
}

impl Board {
    /// Every board with the word used in files.
    pub const WORDS: [(&'static str, Self); 2] =
        [("gypsum", Self::Gypsum), ("fiberboard", Self::Fiberboard)];

    /// The word used in files.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Gypsum => "gypsum",
            Self::Fiberboard => "fiberboard",
        }
    }
}

/// How mold takes to a material.
#[derive(Clone, Debug, PartialEq)]
pub struct MoldOn {
    /// How readily it grows.
    pub class: MoldClass,
    /// How fast it goes back in dry air over how fast on pine, 0 to 1.
    pub decline: f64,
    /// Where that comes from; empty where the file gives it.
    pub source: String,
    /// How well it is known.
    pub tag: Tag,
}

impl MoldOn {
    /// How fast mold goes back where nothing is stated: slowly, the unsafe side for what is built
    /// (Ojanen et al. 2010, from memory, unsure).
    pub const SLOW: f64 = 0.25;

    /// What is taken of a material of a kind that says nothing of mold; `None` where it has no
    /// surface to grow on.
    #[must_use]
    pub fn of_kind(kind: Kind, board: Option<Board>) -> Option<Self> {
        let class = match kind {
            Kind::Wood => MoldClass::VerySensitive,
            Kind::Panel | Kind::Flooring | Kind::Cladding => MoldClass::Sensitive,
            Kind::Lining if board == Some(Board::Gypsum) => MoldClass::Sensitive,
            Kind::Insulation | Kind::Masonry => MoldClass::MediumResistant,
            _ => return None,
        };
        Some(Self {
            class,
            decline: Self::SLOW,
            source: "mold-index-memory".to_owned(),
            tag: Tag::FromMemory,
        })
    }
}

/// How well a value is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tag {
    /// Read in the named source.
    Seen,
    /// Recalled, not looked up.
    FromMemory,
    /// Computed from seen or exact values.
    Computed,
    /// A fact of the trade without a source.
    CommonPractice,
    /// Given by the user's own file.
    Given,
}

impl Tag {
    /// Every tag with the words used in files and reports.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("seen", Self::Seen),
        ("from memory", Self::FromMemory),
        ("computed", Self::Computed),
        ("common practice", Self::CommonPractice),
        ("given", Self::Given),
    ];

    /// The words used in files and reports.
    #[must_use]
    pub fn words(self) -> &'static str {
        Self::WORDS
            .iter()
            .find(|(_, tag)| *tag == self)
            .map_or("", |(words, _)| words)
    }
}

/// A value with its range and origin.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured<T> {
    /// The value to compute with.
    pub nominal: T,
    /// The least value among specimens, where known.
    pub low: Option<T>,
    /// The greatest value among specimens, where known.
    pub high: Option<T>,
    /// Id of the source in `materials/sources.yaml`, or the user's file.
    pub source: String,
    /// How well it is known.
    pub tag: Tag,
    /// The relative humidity it holds at, for vapor values.
    pub at: Option<RelativeHumidity>,
}

/// Conductivity at given mean temperatures, rising in temperature.
pub type ConductivityCurve = Vec<(Temperature, Conductivity)>;

/// Vapor permeability or permeance at three humidities; `mid` is the nominal one.
#[derive(Clone, Debug, PartialEq)]
pub struct Vapor {
    /// Dry, about 25 to 30 % mean relative humidity.
    pub dry: Option<Measured<VaporRate>>,
    /// About 50 %.
    pub mid: Measured<VaporRate>,
    /// Damp, 75 to 90 %.
    pub damp: Option<Measured<VaporRate>>,
}

/// One material.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// Its id, lower case with hyphens.
    pub id: String,
    /// What it is called in reports.
    pub name: String,
    /// Other names it is found by.
    pub aliases: Vec<String>,
    /// What it is.
    pub kind: Kind,
    /// The board it is to the code's tables, where they tell it from others.
    pub board: Option<Board>,
    /// The chart its sheet gauges go by, for metals.
    pub gauge: Option<SheetMetal>,
    /// Air moves through it: fibrous insulation.
    pub air_permeable: bool,
    /// Air can't get around it by nature: sprayed or self-adhered.
    pub bonded: bool,
    /// The thickness it comes in, for sheets.
    pub thickness: Option<Length>,
    /// Mass per volume.
    pub density: Option<Measured<Density>>,
    /// Mass per area, for sheets.
    pub areal_density: Option<Measured<ArealDensity>>,
    /// Thermal conductivity; `None` for sheets whose resistance is negligible.
    pub conductivity: Option<Measured<Conductivity>>,
    /// Conductivity by mean temperature; empty where it is taken as constant.
    pub by_temperature: ConductivityCurve,
    /// Specific heat capacity.
    pub specific_heat: Option<Measured<SpecificHeat>>,
    /// Vapor behavior.
    pub vapor: Vapor,
    /// How mold takes to it; `None` where it has no surface to grow on.
    pub mold: Option<MoldOn>,
    /// What a user should know.
    pub note: Option<String>,
    /// What it costs, where the file says so: the library knows no prices.
    pub prices: Vec<Price>,
}
