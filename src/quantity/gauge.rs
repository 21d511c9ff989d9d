//! Sheet gauges. The same number means another thickness for steel, galvanized steel and aluminum.

use super::{Length, unit};

/// Which gauge table holds for a metal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetMetal {
    /// Uncoated sheet steel: manufacturers' standard gauge.
    Steel,
    /// Hot-dip galvanized sheet: the zinc counts.
    Galvanized,
    /// Aluminum and other non-ferrous sheet.
    Aluminum,
}

impl SheetMetal {
    /// Every table with the word used in files.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("steel", Self::Steel),
        ("galvanized", Self::Galvanized),
        ("aluminum", Self::Aluminum),
    ];

    /// The word used in files.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Galvanized => "galvanized",
            Self::Aluminum => "aluminum",
        }
    }
}

/// Gauge, then inches for steel, galvanized steel, aluminum.
///
/// Source: sheet metal gauge chart, seen (check-values §7).
const GAUGES: [(u8, f64, f64, f64); 12] = [
    (10, 0.1345, 0.1382, 0.1019),
    (11, 0.1196, 0.1233, 0.0907),
    (12, 0.1046, 0.1084, 0.0808),
    (14, 0.0747, 0.0785, 0.0641),
    (16, 0.0598, 0.0635, 0.0508),
    (18, 0.0478, 0.0516, 0.0403),
    (20, 0.0359, 0.0396, 0.0320),
    (22, 0.0299, 0.0336, 0.0253),
    (24, 0.0239, 0.0276, 0.0201),
    (26, 0.0179, 0.0217, 0.0159),
    (28, 0.0149, 0.0187, 0.0126),
    (30, 0.0120, 0.0157, 0.0100),
];

/// Thickness of a sheet by its gauge; `None` for a gauge that isn't in the chart.
///
/// Source: sheet metal gauge chart (gauges 10 to 30, even numbers and 11), seen.
///
/// ```
/// # use dewmargin::quantity::{SheetMetal, sheet_thickness};
/// let pan = sheet_thickness(22, SheetMetal::Galvanized).unwrap();
/// assert!((pan.as_m() / 0.0254 - 0.0336).abs() < 1e-9); // 0.0336 in
/// ```
#[must_use]
pub fn sheet_thickness(gauge: u8, metal: SheetMetal) -> Option<Length> {
    let (_, steel, galvanized, aluminum) = GAUGES.iter().find(|row| row.0 == gauge)?;
    let inches = match metal {
        SheetMetal::Steel => steel,
        SheetMetal::Galvanized => galvanized,
        SheetMetal::Aluminum => aluminum,
    };
    Some(Length::from_m(inches * unit::INCH))
}
