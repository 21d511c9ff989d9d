//! Sizes of paper.

use crate::quantity::UnitSystem;

/// A size of paper, lying down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 8-1/2 by 11 in.
    Letter,
    /// 11 by 17 in.
    Tabloid,
    /// 24 by 36 in.
    Large,
    /// 210 by 297 mm.
    A4,
    /// 297 by 420 mm.
    A3,
    /// 594 by 841 mm.
    A1,
}

impl Paper {
    /// All of them with the word for each.
    pub const ALL: [(&'static str, Self); 6] = [
        ("letter", Self::Letter),
        ("11x17", Self::Tabloid),
        ("24x36", Self::Large),
        ("A4", Self::A4),
        ("A3", Self::A3),
        ("A1", Self::A1),
    ];

    /// The size of a plan sheet where these units are: one sheet holds all about an assembly, and
    /// it can be read when it is copied at half its size.
    #[must_use]
    pub fn usual(units: UnitSystem) -> Self {
        match units {
            UnitSystem::Imperial => Self::Large,
            UnitSystem::Metric => Self::A1,
        }
    }

    /// Its name.
    #[must_use]
    pub fn word(self) -> &'static str {
        let named = Self::ALL.iter().find(|(_, paper)| *paper == self);
        named.map_or("", |(word, _)| word)
    }

    /// Width and height lying down, mm.
    #[must_use]
    pub fn size(self) -> (f64, f64) {
        match self {
            Self::Letter => (279.4, 215.9),
            Self::Tabloid => (431.8, 279.4),
            Self::Large => (914.4, 609.6),
            Self::A4 => (297.0, 210.0),
            Self::A3 => (420.0, 297.0),
            Self::A1 => (841.0, 594.0),
        }
    }

    /// Hundredths of a millimeter that one unit of a drawing takes: capitals are 2.0 mm high on letter
    /// and A4 (type of 7.8 pt), 3/32 in on 11x17 and 24x36, 2.5 mm on A3 and A1 (a height of ISO 3098).
    #[must_use]
    pub fn magnify(self) -> f64 {
        match self {
            Self::Letter | Self::A4 => 0.8,
            Self::Tabloid | Self::Large => 0.9525,
            Self::A3 | Self::A1 => 1.0,
        }
    }

    /// Whether a stamp has room in the title block of every sheet; else it stands on the cover.
    pub(in crate::report) fn is_large(self) -> bool {
        matches!(self, Self::Large | Self::A1)
    }

    /// How many panels stand side by side on a sheet, each with a subject of its own.
    pub(super) fn panels(self) -> usize {
        if self.is_large() { 2 } else { 1 }
    }

    /// Width and height in units.
    pub(super) fn units(self) -> (i32, i32) {
        let (width, height) = self.size();
        let units = |mm: f64| (mm * 100.0 / self.magnify()).round() as i32;
        (units(width), units(height))
    }
}
