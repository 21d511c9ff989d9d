//! The number in front of a unit: decimals, fractions, mixed numbers.

use super::QuantityError;

/// Splits `5.5 in` into 5.5 and `in`, `1-1/2 in` into 1.5 and `in`, `3/4"` into 0.75 and `"`.
pub(super) fn leading_number(text: &str) -> Result<(f64, &str), QuantityError> {
    let text = text.trim();
    let end = number_end(text);
    if !text[..end].contains(|c: char| c.is_ascii_digit()) {
        return Err(QuantityError::new(format!(
            "`{text}` doesn't start with a number"
        )));
    }
    let value = parse(&text[..end])?;
    Ok((value, text[end..].trim()))
}

/// Where the number stops: digits, signs, points, fraction bars, an exponent, and the blank or
/// dash inside a mixed number.
fn number_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut end = 0;
    while end < bytes.len() {
        let rest = &text[end..];
        let is_part = match bytes[end] {
            b'0'..=b'9' | b'.' | b'/' | b',' => true,
            b'-' | b'+' if end == 0 => true,
            // The minus sign as typeset, three bytes.
            0xE2 if rest.starts_with('\u{2212}') && end == 0 => {
                end += 3;
                continue;
            }
            b'e' | b'E' => exponent_follows(&bytes[end + 1..]),
            b'-' | b'+' if matches!(bytes[end - 1], b'e' | b'E') => true,
            b' ' | b'-' => fraction_follows(&rest[1..]),
            _ => false,
        };
        if !is_part {
            break;
        }
        end += 1;
    }
    end
}

fn exponent_follows(rest: &[u8]) -> bool {
    let digits = rest
        .strip_prefix(b"-")
        .or(rest.strip_prefix(b"+"))
        .unwrap_or(rest);
    digits.first().is_some_and(u8::is_ascii_digit)
}

fn fraction_follows(rest: &str) -> bool {
    let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
    digits > 0
        && rest[digits..].starts_with('/')
        && rest[digits + 1..].starts_with(|c: char| c.is_ascii_digit())
}

fn parse(text: &str) -> Result<f64, QuantityError> {
    if text.contains(',') {
        return Err(
            QuantityError::new(format!("`{text}` has a comma in it")).with_help(format!(
                "write a decimal point: `{}`",
                text.replace(',', ".")
            )),
        );
    }
    let minus = text.starts_with(['-', '\u{2212}']);
    let digits = text.trim_start_matches(['-', '+', '\u{2212}']);
    let value = match digits.split_once('/') {
        None => decimal(digits),
        Some((before, denominator)) => match before.split_once([' ', '-']) {
            None => Some((0.0, before)),
            Some((whole, numerator)) => decimal(whole).map(|whole| (whole, numerator)),
        }
        .and_then(|(whole, numerator)| {
            let (numerator, denominator) = (decimal(numerator)?, decimal(denominator)?);
            (denominator != 0.0).then_some(whole + numerator / denominator)
        }),
    };
    match value {
        Some(value) if value.is_finite() => Ok(if minus { -value } else { value }),
        Some(_) => Err(QuantityError::new(format!(
            "`{text}` is too large a number"
        ))),
        None => Err(QuantityError::new(format!("`{text}` isn't a number"))),
    }
}

/// A plain decimal; Rust's own parser would also take `inf` and `nan`, which never get here.
fn decimal(text: &str) -> Option<f64> {
    text.starts_with(|c: char| c.is_ascii_digit() || c == '.')
        .then(|| text.parse().ok())
        .flatten()
}
