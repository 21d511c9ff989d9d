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
/// Source: sheet metal gauge chart, seen (check-values §7); the odd gauges from 13 on from memory, and
/// all of them by the rules the chart is made of: manufacturers' standard, ounces per square foot at
/// 41.82 lb/(ft²·in), 2.5 oz more with zinc; aluminum by ASTM B258 (both rules from memory).
const GAUGES: [(u8, f64, f64, f64); 22] = [
    (10, 0.1345, 0.1382, 0.1019),
    (11, 0.1196, 0.1233, 0.0907),
    (12, 0.1046, 0.1084, 0.0808),
    (13, 0.0897, 0.0934, 0.0720),
    (14, 0.0747, 0.0785, 0.0641),
    (15, 0.0673, 0.0710, 0.0571),
    (16, 0.0598, 0.0635, 0.0508),
    (17, 0.0538, 0.0575, 0.0453),
    (18, 0.0478, 0.0516, 0.0403),
    (19, 0.0418, 0.0456, 0.0359),
    (20, 0.0359, 0.0396, 0.0320),
    (21, 0.0329, 0.0366, 0.0285),
    (22, 0.0299, 0.0336, 0.0253),
    (23, 0.0269, 0.0306, 0.0226),
    (24, 0.0239, 0.0276, 0.0201),
    (25, 0.0209, 0.0247, 0.0179),
    (26, 0.0179, 0.0217, 0.0159),
    (27, 0.0164, 0.0202, 0.0142),
    (28, 0.0149, 0.0187, 0.0126),
    (29, 0.0135, 0.0172, 0.0113),
    (30, 0.0120, 0.0157, 0.0100),
    (31, 0.0105, 0.0142, 0.0089),
];

/// Thickness of a sheet by its gauge; `None` for a gauge that isn't in the chart.
///
/// Source: sheet metal gauge chart, gauges 10 to 31.
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

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// Ounces per square foot of the manufacturers' standard gauges 10 to 31 (from memory).
    const OUNCES: [f64; 22] = [
        90.0, 80.0, 70.0, 60.0, 50.0, 45.0, 40.0, 36.0, 32.0, 28.0, 24.0, 22.0, 20.0, 18.0, 16.0,
        14.0, 12.0, 11.0, 10.0, 9.0, 8.0, 7.0,
    ];

    // Manufacturers' standard gauge: 41.82 lb/(ft²·in), zinc 2.5 oz/ft²; ASTM B258:
    // 0.005 in · 92^((36 − n)/39). Both from memory; the chart rounds to 0.0001 in.
    #[test]
    fn the_chart_follows_its_rules() {
        for ((gauge, steel, galvanized, aluminum), ounces) in GAUGES.into_iter().zip(OUNCES) {
            let by_weight = |ounces: f64| ounces / 16.0 / 41.82;
            let wire = 0.005 * libm::pow(92.0, (36.0 - f64::from(gauge)) / 39.0);
            assert_abs_diff_eq!(steel, by_weight(ounces), epsilon = 1e-4);
            assert_abs_diff_eq!(galvanized, by_weight(ounces + 2.5), epsilon = 2e-4);
            assert_abs_diff_eq!(aluminum, wire, epsilon = 1e-4);
        }
    }

    // The commonest metal roofing.
    #[test]
    fn roofing_of_29_gauge() {
        let sheet = sheet_thickness(29, SheetMetal::Galvanized).expect("in the chart");
        assert_abs_diff_eq!(sheet.as_m() / unit::INCH, 0.0172, epsilon = 1e-9);
    }
}
