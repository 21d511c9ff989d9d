//! The standard's humidity classes of rooms.

use super::{Quantity, QuantityError};

/// How much moisture a room's use adds to the air, by the standard's five classes.
///
/// Source: ISO 13788, annex A (numbers and uses from memory; the wording of the uses moved
/// between the editions of 2001 and 2012).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HumidityClass {
    /// Class 1: storage, unoccupied buildings.
    One,
    /// Class 2: offices, dwellings with ordinary occupancy and ventilation.
    Two,
    /// Class 3: dwellings of unknown occupancy.
    Three,
    /// Class 4: sports halls, kitchens, canteens.
    Four,
    /// Class 5: laundries, breweries, pools.
    Five,
}

impl HumidityClass {
    /// All five, the driest first.
    pub const ALL: [Self; 5] = [Self::One, Self::Two, Self::Three, Self::Four, Self::Five];

    /// The number of the class, 1 to 5.
    #[must_use]
    pub const fn number(self) -> u8 {
        match self {
            Self::One => 1,
            Self::Two => 2,
            Self::Three => 3,
            Self::Four => 4,
            Self::Five => 5,
        }
    }

    /// The use the class stands for, in a few words.
    #[must_use]
    pub const fn usage(self) -> &'static str {
        match self {
            Self::One => "storage, unoccupied",
            Self::Two => "offices, dwellings with ordinary occupancy and ventilation",
            Self::Three => "dwellings of unknown occupancy",
            Self::Four => "sports halls, kitchens, canteens",
            Self::Five => "laundries, breweries, pools",
        }
    }
}

impl Quantity for HumidityClass {
    const EXPECTED: &'static str = "a humidity class, `1` (dry) to `5` (very damp)";
    const BARE_NUMBER: bool = true;

    fn read(text: &str) -> Result<Self, QuantityError> {
        let lower = text.trim().to_lowercase();
        let number = lower.strip_prefix("class").unwrap_or(&lower).trim();
        Self::ALL
            .into_iter()
            .find(|class| number.parse() == Ok(class.number()))
            .ok_or_else(|| QuantityError {
                message: format!(
                    "`{text}` isn't a humidity class: expected {}",
                    Self::EXPECTED
                ),
                help: Some(
                    "2 is a dwelling with ordinary occupancy and ventilation, 3 one of unknown \
                     occupancy"
                        .into(),
                ),
                beyond: None,
            })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_are_read_and_others_refused() {
        for class in HumidityClass::ALL {
            let number = class.number();
            assert_eq!(HumidityClass::read(&number.to_string()), Ok(class));
            assert_eq!(HumidityClass::read(&format!("Class {number}")), Ok(class));
        }
        for text in ["0", "6", "2.5", "-1", "", "class", "60 %"] {
            let error = HumidityClass::read(text).unwrap_err();
            assert!(error.message.contains("isn't a humidity class"), "{text}");
        }
    }
}
