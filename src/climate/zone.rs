//! The climate zones of the building code.

use std::fmt;

use crate::quantity::{Quantity, QuantityError};

/// A climate zone of the building code: 1 (very hot) to 8 (subarctic), with its moisture regime
/// where it was given.
///
/// Source: the zones of IECC and IRC; `4C` is what the code's tables call Marine 4 (common
/// practice).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Zone {
    /// 1 to 8.
    pub number: u8,
    /// Whether it is a marine zone (C).
    pub marine: bool,
    /// The letter: A moist, B dry, C marine; `None` where it wasn't given.
    pub moist: Option<char>,
}

impl Zone {
    /// A zone from its number and letter; `None` where there is no such zone.
    ///
    /// ```
    /// # use dewmargin::climate::Zone;
    /// assert!(Zone::new(4, Some('C')).unwrap().marine);
    /// assert!(Zone::new(9, None).is_none());
    /// ```
    #[must_use]
    pub fn new(number: u8, letter: Option<char>) -> Option<Self> {
        let letter = letter.map(|c| c.to_ascii_uppercase());
        let known = match letter {
            None | Some('A' | 'B') => (1..=8).contains(&number),
            // Marine zones are 3C, 4C and 5C.
            Some('C') => (3..=5).contains(&number),
            Some(_) => false,
        };
        known.then_some(Self {
            number,
            marine: letter == Some('C'),
            moist: letter,
        })
    }
}

impl fmt::Display for Zone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.marine, self.moist) {
            (true, _) => write!(f, "marine zone {}", self.number),
            (false, Some(letter)) => write!(f, "zone {}{letter}", self.number),
            (false, None) => write!(f, "zone {}", self.number),
        }
    }
}

impl Quantity for Zone {
    const EXPECTED: &'static str = "a climate zone such as `6`, `6A`, `4C` or `marine 4`";
    const BARE_NUMBER: bool = true;

    fn read(text: &str) -> Result<Self, QuantityError> {
        let lower = text.to_lowercase();
        let mut letter = None;
        let mut number = None;
        let mut is_right = true;
        for word in lower.split([' ', '-', '_']).filter(|word| !word.is_empty()) {
            match word {
                "zone" | "climate" => {}
                "marine" => is_right &= letter.replace('c').is_none_or(|known| known == 'c'),
                _ => {
                    let end = word.find(|c: char| !c.is_ascii_digit());
                    let (digits, rest) = word.split_at(end.unwrap_or(word.len()));
                    let mut rest = rest.chars();
                    if !digits.is_empty() {
                        is_right &= number.replace(digits.to_owned()).is_none();
                    }
                    if let Some(c) = rest.next() {
                        is_right &= letter.replace(c).is_none_or(|known| known == c);
                    }
                    is_right &= rest.next().is_none();
                }
            }
        }
        let zone = number
            .filter(|_| is_right)
            .and_then(|digits| digits.parse().ok())
            .and_then(|number| Self::new(number, letter));
        zone.ok_or_else(|| QuantityError {
            message: format!("`{text}` isn't a climate zone: expected {}", Self::EXPECTED),
            help: Some(
                "zones run from 1 (very hot) to 8 (subarctic), with A moist, B dry or C marine; \
                 the marine ones are 3C, 4C and 5C"
                    .into(),
            ),
            beyond: None,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("6", "zone 6")]
    #[case("6A", "zone 6A")]
    #[case("6a", "zone 6A")]
    #[case("zone 6", "zone 6")]
    #[case("Zone 6 B", "zone 6B")]
    #[case("climate zone 2A", "zone 2A")]
    #[case("4C", "marine zone 4")]
    #[case("marine 4", "marine zone 4")]
    #[case("Marine Zone 4", "marine zone 4")]
    #[case("zone 4 marine", "marine zone 4")]
    #[case("marine 4C", "marine zone 4")]
    fn zones(#[case] text: &str, #[case] printed: &str) {
        let zone = Zone::read(text).unwrap();
        assert_eq!(zone.to_string(), printed);
        assert_eq!(Zone::read(printed), Ok(zone));
    }

    #[rstest]
    #[case("0")]
    #[case("9")]
    #[case("6D")]
    #[case("6C")]
    #[case("marine 4A")]
    #[case("marine")]
    #[case("4 5")]
    #[case("A")]
    #[case("6AB")]
    #[case("-6x")]
    #[case("999")]
    #[case("é")]
    #[case("")]
    fn no_zones(#[case] text: &str) {
        let error = Zone::read(text).unwrap_err();
        assert!(error.message.contains("isn't a climate zone"), "{text}");
    }
}
