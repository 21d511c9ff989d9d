//! # Options against each other
//!
//! **What it tells.** Which option another one beats or equals in everything shown, so that nobody
//! needs to think about it any longer.
//!
//! **Method.** An option is *dominated* by another that is at least as good in every column and
//! better in one. There is no score and no weight of one column against another: options that each
//! win somewhere stay, and choosing among them is the builder's.
//!
//! **What isn't known** is never equal to or better than anything, nor is it worse: where either
//! of two options lacks a value in a column, neither dominates the other. Nor can a column that
//! isn't shown speak: water held and days to dry are columns, since a film can win on every margin
//! and still never dry. A sum that is only a least value isn't known. A value with a bracket or an
//! error bar is at least as good where both of its ends are.
//!
//! **Limit.** Equal is equal within one part in a thousand million: rounding of sums, no more. Two
//! numbers that print alike may differ.
//!
//! **Example.** Foam at 4.0 lb/ft² and 6 °F clear dominates foam at 4.2 lb/ft² and 5 °F clear; with
//! the second one cheaper, or its price unknown, it doesn't.

use std::cmp::Ordering;

/// Which way a column is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Better {
    /// The lower the better.
    Lower,
    /// The higher the better.
    Higher,
}

/// The low and the high end of a value, equal where it has no bracket; `None`: not known.
pub type Bracket = Option<(f64, f64)>;

/// For each option the indexes of those that dominate it. A row of `options` holds one value for
/// each of the columns, whose better end `columns` tells.
///
/// # Example
/// ```
/// use dewmargin::check::{Better, dominated_by};
/// let columns = [Better::Higher, Better::Lower]; // a margin, a weight
/// let at = |margin: f64, weight: f64| vec![Some((margin, margin)), Some((weight, weight))];
/// let options = [at(3.0, 20.0), at(5.0, 20.0), at(1.0, 10.0)];
/// assert_eq!(dominated_by(&columns, &options), [vec![1], vec![], vec![]]);
/// ```
#[must_use]
pub fn dominated_by(columns: &[Better], options: &[Vec<Bracket>]) -> Vec<Vec<usize>> {
    let of = |one: &Vec<Bracket>| {
        let others = options.iter().enumerate();
        let better = others.filter(|(_, other)| dominates(columns, other, one));
        better.map(|(n, _)| n).collect()
    };
    options.iter().map(of).collect()
}

fn dominates(columns: &[Better], one: &[Bracket], other: &[Bracket]) -> bool {
    let cells = columns.iter().zip(one.iter().zip(other));
    let mut is_better = false;
    for (better, (one, other)) in cells {
        match compare(*better, *one, *other) {
            Some(Ordering::Greater) => is_better = true,
            Some(Ordering::Equal) => {}
            Some(Ordering::Less) | None => return false,
        }
    }
    is_better
}

/// `Greater` where the first is better; `None` where that can't be told.
#[must_use]
pub fn compare(better: Better, one: Bracket, other: Bracket) -> Option<Ordering> {
    let ((one_low, one_high), (other_low, other_high)) = (one?, other?);
    let low = by_value(better, one_low, other_low)?;
    let high = by_value(better, one_high, other_high)?;
    match (low, high) {
        (Ordering::Equal, end) | (end, Ordering::Equal) => Some(end),
        _ => (low == high).then_some(low),
    }
}

fn by_value(better: Better, one: f64, other: f64) -> Option<Ordering> {
    // Two that are never dry are equal, though their difference isn't a number.
    if one == other {
        return Some(Ordering::Equal);
    }
    if one.is_infinite() || other.is_infinite() {
        return ordered(better, one, other);
    }
    let scale = one.abs().max(other.abs()).max(1e-3);
    if (one - other).abs() <= 1e-9 * scale {
        return Some(Ordering::Equal);
    }
    ordered(better, one, other)
}

fn ordered(better: Better, one: f64, other: f64) -> Option<Ordering> {
    match better {
        Better::Higher => one.partial_cmp(&other),
        Better::Lower => other.partial_cmp(&one),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    const COLUMNS: [Better; 2] = [Better::Higher, Better::Lower];

    fn cell(text: &str) -> Bracket {
        match text.split_once("..") {
            Some((low, high)) => Some((low.parse().unwrap(), high.parse().unwrap())),
            None => text.parse().ok().map(|value| (value, value)),
        }
    }

    /// A margin, higher is better, then a weight, lower is better; `?` isn't known.
    #[rstest]
    #[case::better_in_both("5 10", "4 11", true, false)]
    #[case::better_in_one("5 10", "4 10", true, false)]
    #[case::each_wins_somewhere("5 11", "4 10", false, false)]
    #[case::ties("5 10", "5 10", false, false)]
    #[case::rounding_is_a_tie("5 10.00000000001", "5 10", false, false)]
    #[case::tie_in_rounding_better_elsewhere("5.1 10.00000000001", "5 10", true, false)]
    #[case::unknown_does_not_dominate("? 10", "4 11", false, false)]
    #[case::unknown_is_not_dominated("5 10", "4 ?", false, false)]
    #[case::both_unknown("5 ?", "4 ?", false, false)]
    #[case::nothing_known("? ?", "? ?", false, false)]
    #[case::bracket_clear("5 1..2", "5 3..4", true, false)]
    #[case::bracket_end_by_end("5 1..3", "5 2..4", true, false)]
    #[case::bracket_one_end_equal("5 1..3", "5 1..4", true, false)]
    #[case::bracket_inside("5 2..3", "5 1..4", false, false)]
    #[case::number_in_bracket("5 2", "5 1..4", false, false)]
    #[case::number_at_its_end("5 1", "5 1..4", true, false)]
    #[case::below_zero("-1 10", "-2 10", true, false)]
    #[case::zero_and_rounding("0 10", "0.0000000000001 10", false, false)]
    #[case::never_dry_ties("5 inf", "4 inf", true, false)]
    #[case::never_dry_loses("5 200", "5 inf", true, false)]
    #[case::not_a_number("NaN 10", "4 11", false, false)]
    fn pairs(#[case] one: &str, #[case] other: &str, #[case] first: bool, #[case] second: bool) {
        let row = |text: &str| text.split(' ').map(cell).collect::<Vec<_>>();
        let by = dominated_by(&COLUMNS, &[row(one), row(other)]);
        assert_eq!((by[1] == [0], by[0] == [1]), (first, second));
        // The order of the options changes nothing.
        let by = dominated_by(&COLUMNS, &[row(other), row(one)]);
        assert_eq!((by[0] == [1], by[1] == [0]), (first, second));
    }

    #[test]
    fn without_columns_or_alone_nothing_dominates() {
        assert_eq!(dominated_by(&[], &[vec![], vec![]]), [vec![0; 0], vec![]]);
        assert_eq!(dominated_by(&COLUMNS, &[]), Vec::<Vec<usize>>::new());
    }

    proptest::proptest! {
        /// Never two options each other, never one itself, and always through to the end of a chain.
        #[test]
        fn it_is_an_order(rows in proptest::collection::vec((0..4_i32, 0..4_i32), 1..8)) {
            let both = |value: i32| Some((f64::from(value), f64::from(value)));
            let options: Vec<Vec<Bracket>> =
                rows.iter().map(|(a, b)| vec![both(*a), both(*b)]).collect();
            let by = dominated_by(&COLUMNS, &options);
            for (n, better) in by.iter().enumerate() {
                for m in better {
                    assert!(*m != n && !by[*m].contains(&n));
                    assert!(by[*m].iter().all(|best| better.contains(best)));
                }
            }
        }
    }
}
