//! The months: their names for people, and reading them.

/// The months' names, January first.
pub const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// A month's name by its index, 0 for January; 12 is January again, as months go around.
///
/// ```
/// # use dewmargin::quantity::month_name;
/// assert_eq!(month_name(0), "January");
/// assert_eq!(month_name(13), "February");
/// ```
#[must_use]
pub const fn month_name(index: usize) -> &'static str {
    MONTHS[index % 12]
}

/// A month's name in three letters by its index, 0 for January.
///
/// ```
/// # use dewmargin::quantity::month_short;
/// assert_eq!(month_short(8), "Sep");
/// ```
#[must_use]
pub fn month_short(index: usize) -> &'static str {
    &month_name(index)[..3]
}

/// The month's index, 0 for January, from a number (1 to 12), a name, or its first three letters
/// or more (`Jan`, `sept.`, `FEBRUARY`).
///
/// ```
/// # use dewmargin::quantity::month_in;
/// assert_eq!(month_in("Sept."), Some(8));
/// assert_eq!(month_in("09"), Some(8));
/// assert_eq!(month_in("13"), None);
/// ```
#[must_use]
pub fn month_in(text: &str) -> Option<usize> {
    let text = text.trim().trim_end_matches('.');
    // A table program may have written `1.0`.
    let digits = text
        .split_once('.')
        .filter(|(_, zeros)| zeros.bytes().all(|b| b == b'0'))
        .map_or(text, |(whole, _)| whole);
    if !digits.is_empty() && digits.len() <= 2 && digits.bytes().all(|b| b.is_ascii_digit()) {
        let number: usize = digits.parse().ok()?;
        return (1..=12).contains(&number).then(|| number - 1);
    }
    if text.len() < 3 || !text.is_ascii() {
        return None;
    }
    let is_it = |name: &&str| {
        name.get(..text.len())
            .is_some_and(|start| start.eq_ignore_ascii_case(text))
    };
    MONTHS.iter().position(is_it)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("1", Some(0))]
    #[case("12", Some(11))]
    #[case("07", Some(6))]
    #[case("1.0", Some(0))]
    #[case("jan", Some(0))]
    #[case("Mar", Some(2))]
    #[case("May", Some(4))]
    #[case(" DECEMBER ", Some(11))]
    #[case("0", None)]
    #[case("1.5", None)]
    #[case("-1", None)]
    #[case("ja", None)]
    #[case("Januar", Some(0))]
    #[case("Janua1", None)]
    #[case("annual", None)]
    #[case("März", None)]
    #[case("", None)]
    fn months_are_read(#[case] text: &str, #[case] month: Option<usize>) {
        assert_eq!(month_in(text), month);
    }

    #[test]
    fn every_name_reads_back() {
        for index in 0..12 {
            assert_eq!(month_in(month_name(index)), Some(index));
            assert_eq!(month_in(month_short(index)), Some(index));
        }
    }
}
