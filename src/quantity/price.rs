//! What things cost: by volume, by area at a thickness, by the sheet, by the run of lumber.

use super::number::leading_number;
use super::scale::Scale;
use super::{Length, Quantity, QuantityError, unit};

/// A currency by its three letters, such as `USD`.
///
/// ```
/// use dewmargin::quantity::Currency;
/// assert_eq!(Currency::read("USD").unwrap().code(), "USD");
/// assert!(Currency::read("$").is_none());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency([u8; 3]);

impl Currency {
    /// Reads three capital letters (ISO 4217); anything else is none.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let letters: [u8; 3] = text.trim().as_bytes().try_into().ok()?;
        letters
            .iter()
            .all(u8::is_ascii_uppercase)
            .then_some(Self(letters))
    }

    /// Its three letters.
    #[must_use]
    pub fn code(&self) -> &str {
        std::str::from_utf8(&self.0).unwrap_or_default()
    }
}

/// What a price is for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PriceBasis {
    /// A cubic meter, whatever the thickness.
    Volume,
    /// A square meter of one thickness; `None`: of the only one it is used at.
    Area {
        /// That thickness.
        at: Option<Length>,
    },
}

/// A price as the trade states it.
///
/// A board foot is 144 in³ as it lies in the building. Lumber sold by *nominal* board feet is
/// therefore written by its run: `0.95 per ft of 2x6` takes the dressed size, 1-1/2 × 5-1/2 in.
///
/// ```
/// use dewmargin::quantity::{Length, Price, Quantity};
///
/// // A sheet of 32 ft² at 42 is 1.3125 per ft².
/// let sheet = Price::read("42 per sheet of 4 ft x 8 ft at 3/4 in").unwrap();
/// let per_m2 = sheet.per_area(Length::from_m(0.75 * 0.0254)).unwrap();
/// assert!((per_m2 * 0.3048 * 0.3048 - 1.3125).abs() < 1e-12);
/// assert_eq!(sheet.per_area(Length::from_m(0.0127)), None);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Price {
    /// Per m³ or per m².
    amount: f64,
    basis: PriceBasis,
    currency: Option<Currency>,
}

impl Price {
    /// What it is for.
    #[must_use]
    pub fn basis(&self) -> PriceBasis {
        self.basis
    }

    /// The currency stated beside the number.
    #[must_use]
    pub fn currency(&self) -> Option<Currency> {
        self.currency
    }

    /// The price of one m² at a thickness, in its currency; `None` where it doesn't hold for that.
    #[must_use]
    pub fn per_area(&self, thickness: Length) -> Option<f64> {
        match self.basis {
            PriceBasis::Volume => {
                (thickness.as_m() > 0.0).then_some(self.amount * thickness.as_m())
            }
            PriceBasis::Area { at: None } => Some(self.amount),
            PriceBasis::Area { at: Some(at) } => is_same(at, thickness).then_some(self.amount),
        }
    }

    /// Whether both hold for the same thickness, so that one of them is too much.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        match (self.basis, other.basis) {
            (PriceBasis::Area { at: Some(one) }, PriceBasis::Area { at: Some(other) }) => {
                is_same(one, other)
            }
            _ => true,
        }
    }
}

/// Thicknesses within a twentieth of a millimeter are the same board.
fn is_same(one: Length, other: Length) -> bool {
    (one.as_m() - other.as_m()).abs() < 5e-5
}

/// By volume, then by area; each the SI value of one unit.
const SCALE: Scale = Scale {
    units: &[
        (
            &["boardfoot", "boardfeet", "bf", "bdft", "fbm"],
            unit::SQUARE_FOOT * unit::INCH,
        ),
        (&["ft3", "cuft", "cubicfoot"], unit::CUBIC_FOOT),
        (&["m3", "cubicmeter"], 1.0),
    ],
    expected: Price::EXPECTED,
    range: (0.0, 1e9, "0 to 1000 million per m² or m³"),
};
const BY_AREA: Scale = Scale {
    units: &[
        (&["ft2", "sqft", "squarefoot"], unit::SQUARE_FOOT),
        (&["m2", "sqm", "squaremeter"], 1.0),
    ],
    ..SCALE
};

impl Quantity for Price {
    const EXPECTED: &'static str = "a price such as `1.10 per board foot`, `0.15 per ft2`, \
         `42 per sheet of 4 ft x 8 ft at 3/4 in` or `0.95 per ft of 2x6`";

    fn read(text: &str) -> Result<Self, QuantityError> {
        let wrong = |message: String| SCALE.expecting(QuantityError::new(message));
        let Some((money, per)) = text.split_once(" per ") else {
            return Err(wrong(format!("`{text}` doesn't say what it is for")));
        };
        let (number, currency) = money_of(money)?;
        let (per, at) = match per.rsplit_once(" at ") {
            Some((per, at)) => (per.trim(), Some(thickness(at)?)),
            None => (per.trim(), None),
        };
        let (size, basis) = match (volume(text, per)?, at) {
            (Some(size), None) => (size, PriceBasis::Volume),
            (Some(_), Some(_)) => {
                let error = wrong(format!("`{text}` is a price by volume at one thickness"));
                return Err(
                    error.with_help("leave `at …` away: it holds at every thickness".into())
                );
            }
            (None, at) => (area(text, per)?, PriceBasis::Area { at }),
        };
        let amount = SCALE.check(text, number / size)?;
        Ok(Self {
            amount,
            basis,
            currency,
        })
    }
}

/// The number, and the currency in front of it or behind it.
fn money_of(money: &str) -> Result<(f64, Option<Currency>), QuantityError> {
    let money = money.trim();
    if let Some(sign) = money.chars().find(|c| "$€£¥".contains(*c)) {
        let message = format!("`{sign}` in `{money}` is the sign of several currencies");
        let help = "write `currency:` with three letters, such as `USD`, and the number alone";
        let error = QuantityError::new(message).with_help(help.into());
        return Err(SCALE.expecting(error));
    }
    let front = money.get(..3).and_then(Currency::read);
    let digits = if front.is_some() { &money[3..] } else { money };
    let (number, rest) = leading_number(digits).map_err(|error| SCALE.expecting(error))?;
    let behind = Currency::read(rest);
    if !rest.is_empty() && (behind.is_none() || front.is_some()) {
        let message = format!("`{rest}` in `{money}` isn't a currency");
        let help = "three letters such as `USD`, or the number alone and `currency:` above";
        let error = QuantityError::new(message).with_help(help.into());
        return Err(SCALE.expecting(error));
    }
    Ok((number, front.or(behind)))
}

fn thickness(text: &str) -> Result<Length, QuantityError> {
    Length::read(text.trim())
}

/// The volume that is priced, m³; `None` where it is an area.
fn volume(text: &str, per: &str) -> Result<Option<f64>, QuantityError> {
    for run in ["ft of ", "foot of ", "lineal foot of ", "linear foot of "] {
        if let Some(member) = per.strip_prefix(run) {
            return dressed(member).map(|section| Some(section * unit::FOOT));
        }
    }
    let is_known = |scale: &Scale| scale.factor(text, per).ok();
    Ok(is_known(&SCALE))
}

/// The area that is priced, m².
fn area(text: &str, per: &str) -> Result<f64, QuantityError> {
    let sheet = per
        .strip_prefix("sheet")
        .or_else(|| per.strip_suffix("sheet"));
    let Some(sheet) = sheet else {
        return BY_AREA.factor(text, per);
    };
    let size = sheet.trim().trim_start_matches("of ").trim();
    let Some((width, length)) = size.split_once(['x', '×']) else {
        let error = QuantityError::new(format!("`{text}` doesn't say how large the sheet is"));
        return Err(SCALE.expecting(error));
    };
    let side = |side: &str| {
        Length::read(side.trim()).map_err(|error| {
            let bare = leading_number(side).is_ok_and(|(_, unit)| unit.is_empty());
            let (width, length) = (width.trim(), length.trim());
            let help = format!("did you mean `{width} ft x {length} ft`?");
            if bare { error.with_help(help) } else { error }
        })
    };
    Ok(side(width)?.as_m() * side(length)?.as_m())
}

/// Section of a member called by its nominal size, m².
///
/// Source: dressed dry sizes of PS 20, American Softwood Lumber Standard (check in
/// `tests/published/house.rs`).
fn dressed(name: &str) -> Result<f64, QuantityError> {
    let size = |nominal: &str| match nominal.trim() {
        "1" => Some(0.75),
        "2" => Some(1.5),
        "3" => Some(2.5),
        "4" => Some(3.5),
        "6" => Some(5.5),
        "8" => Some(7.25),
        "10" => Some(9.25),
        "12" => Some(11.25),
        _ => None,
    };
    let found = name
        .split_once(['x', '×'])
        .and_then(|(one, other)| Some(size(one)? * size(other)? * unit::INCH * unit::INCH));
    found.ok_or_else(|| {
        let error = QuantityError::new(format!("`{name}` isn't a size of dressed lumber"));
        SCALE.expecting(error.with_help("sizes such as `2x4`, `2x6` or `2x12`".into()))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use rstest::rstest;

    const FT2: f64 = 0.3048 * 0.3048;

    // By hand, per ft² at that many inches.
    #[rstest]
    #[case::board_foot("1.10 per board foot", 1.0, 1.10)]
    #[case::two_inches("1.10 per board foot", 2.0, 2.20)]
    #[case::cubic_foot("12 per ft3", 1.0, 1.00)]
    #[case::sheet("42 per sheet of 4 ft x 8 ft at 3/4 in", 0.75, 42.0 / 32.0)]
    #[case::sheet_behind("42 per 4 ft x 8 ft sheet at 3/4 in", 0.75, 42.0 / 32.0)]
    #[case::any("0.15 per sq ft", 0.006, 0.15)]
    #[case::board("18 USD per m2 at 50.8 mm", 2.0, 18.0 * FT2)]
    #[case::in_front("USD 18 per m²", 2.0, 18.0 * FT2)]
    // A 2x6 is 1-1/2 × 5-1/2 in: 8.25 × 12 = 99 in³ in a foot; 1 in over 1 ft² is 144 in³.
    #[case::lumber("0.99 per ft of 2x6", 1.0, 1.44)]
    fn prices(#[case] text: &str, #[case] inches: f64, #[case] per_ft2: f64) {
        let price = Price::read(text).unwrap();
        let got = price.per_area(Length::from_m(inches * 0.0254)).unwrap();
        assert_relative_eq!(got * FT2, per_ft2, max_relative = 1e-12);
    }

    #[rstest]
    #[case("1.10", "`1.10` doesn't say what it is for")]
    #[case("1.10 per board", "`board` in `1.10 per board` isn't a unit for this")]
    #[case("-1 per ft2", "`-1 per ft2` is out of range")]
    #[case("$1 per ft2", "`$` in `$1` is the sign of several currencies")]
    #[case("1 dollar per ft2", "`dollar` in `1 dollar` isn't a currency")]
    #[case("USD 1 EUR per ft2", "`EUR` in `USD 1 EUR` isn't a currency")]
    #[case("42 per sheet", "`42 per sheet` doesn't say how large the sheet is")]
    #[case("42 per sheet of 4 x 8", "`4` has no unit")]
    #[case(
        "1 per board foot at 1 in",
        "`1 per board foot at 1 in` is a price by volume"
    )]
    #[case("1 per ft of 2x5", "`2x5` isn't a size of dressed lumber")]
    fn refused(#[case] text: &str, #[case] message: &str) {
        let error = Price::read(text).unwrap_err();
        assert!(error.message.starts_with(message), "{}", error.message);
    }

    #[test]
    fn zero_is_a_price_and_no_thickness_has_none_by_volume() {
        let free = Price::read("0 per ft2").unwrap();
        assert_eq!(free.per_area(Length::from_m(0.0)), Some(0.0));
        let foam = Price::read("1 per board foot").unwrap();
        assert_eq!(foam.per_area(Length::from_m(0.0)), None);
    }

    proptest::proptest! {
        #[test]
        fn no_text_panics(text in "\\PC{0,12} per \\PC{0,16}") {
            let _ = Price::read(&text);
        }
    }
}
