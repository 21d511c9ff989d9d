//! Printing what materials are like: how they conduct heat, let vapor through, how heavy they are.

use super::{Conductivity, Density, Length, Permeability, Permeance, Style, UnitSystem};
use super::{fixed, unit};

impl Style {
    /// A conductivity: `R 4.01 per inch`, or `0.0360 W/mK`.
    ///
    /// # Example
    /// ```
    /// use dewmargin::quantity::{Conductivity, Style, UnitSystem};
    ///
    /// let wool = Conductivity::from_si(0.036);
    /// assert_eq!(Style { units: UnitSystem::Metric }.conductivity(wool), "0.0360 W/mK");
    /// assert_eq!(Style { units: UnitSystem::Imperial }.conductivity(wool), "R 4.01 per inch");
    /// ```
    #[must_use]
    pub fn conductivity(self, value: Conductivity) -> String {
        let si = value.as_si();
        match self.units {
            UnitSystem::Metric => format!("{} W/mK", fixed(si, if si < 10.0 { 4 } else { 0 })),
            UnitSystem::Imperial => {
                let r_per_inch = unit::BTU_INCH / si;
                let decimals = if r_per_inch < 0.1 { 4 } else { 2 };
                format!("R {} per inch", fixed(r_per_inch, decimals))
            }
        }
    }

    /// A permeability: perm-inches, or ng/(m·s·Pa).
    #[must_use]
    pub fn permeability(self, value: Permeability) -> String {
        match self.units {
            UnitSystem::Imperial => {
                // One inch of it: a permeance in perms is the permeability in perm-inches.
                let inch = Length::from_m(unit::INCH).as_m();
                self.permeance(Permeance::from_si(value.as_si() / inch))
                    .replace("perm", "perm-in")
            }
            UnitSystem::Metric => {
                let nano = value.as_si() * 1e12;
                let decimals = match nano {
                    n if n < 1.0 => 4,
                    n if n < 100.0 => 2,
                    _ => 0,
                };
                format!("{} ng/(m·s·Pa)", fixed(nano, decimals))
            }
        }
    }

    /// A density: lb/ft³, or kg/m³.
    #[must_use]
    pub fn density(self, value: Density) -> String {
        match self.units {
            UnitSystem::Imperial => {
                let pounds = value.as_si() / unit::POUND_PER_CUBIC_FOOT;
                format!("{} lb/ft³", fixed(pounds, 1))
            }
            UnitSystem::Metric => format!("{} kg/m³", fixed(value.as_si(), 0)),
        }
    }
}
