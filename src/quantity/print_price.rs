//! Printing prices: per area, and of the whole house.

use super::{Currency, Style, UnitSystem, fixed, unit};

impl Style {
    /// The unit of prices per area, such as `USD/ft²`.
    #[must_use]
    pub fn price_per_area_unit(self, currency: Currency) -> String {
        format!("{}/{}", currency.code(), self.area_unit())
    }

    /// A price per m² without its unit, two decimals.
    #[must_use]
    pub fn price_per_area_number(self, per_m2: f64) -> String {
        let factor = match self.units {
            UnitSystem::Imperial => unit::SQUARE_FOOT,
            UnitSystem::Metric => 1.0,
        };
        fixed(per_m2 * factor, 2)
    }

    /// A price without its currency, whole.
    #[must_use]
    pub fn price_number(self, amount: f64) -> String {
        fixed(amount, 0)
    }
}
