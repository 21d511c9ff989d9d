//! Sentences with lengths in them, told in the units of who reads them.

use crate::quantity::{Length, Style};

/// A sentence, or a part of one, that keeps its lengths as such until it is known which units its
/// reader speaks.
#[derive(Clone, Debug, PartialEq)]
pub struct Told(Vec<ToldPart>);

/// A part of a sentence.
#[derive(Clone, Debug, PartialEq)]
pub enum ToldPart {
    /// Words.
    Text(String),
    /// A length.
    Length(Length),
}

impl Told {
    /// A sentence from its parts.
    pub fn of<const N: usize>(parts: [ToldPart; N]) -> Self {
        Self(parts.into())
    }

    /// In words.
    ///
    /// # Example
    /// ```
    /// use dewmargin::model::Told;
    /// use dewmargin::quantity::{Length, Style, UnitSystem};
    ///
    /// let told = Told::of(["a pitch of ".into(), Length::from_m(0.0508).into()]);
    /// let in_units = |units| told.in_units(Style { units });
    /// assert_eq!(in_units(UnitSystem::Imperial), "a pitch of 2 in");
    /// assert_eq!(in_units(UnitSystem::Metric), "a pitch of 50.8 mm");
    /// ```
    #[must_use]
    pub fn in_units(&self, style: Style) -> String {
        let part = |part: &ToldPart| match part {
            ToldPart::Text(text) => text.clone(),
            ToldPart::Length(length) => style.show(*length),
        };
        self.0.iter().map(part).collect()
    }
}

impl From<&str> for ToldPart {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<Length> for ToldPart {
    fn from(length: Length) -> Self {
        Self::Length(length)
    }
}

impl From<String> for Told {
    fn from(text: String) -> Self {
        Self(vec![ToldPart::Text(text)])
    }
}

impl From<&str> for Told {
    fn from(text: &str) -> Self {
        text.to_owned().into()
    }
}
