//! A text of ours split at its top-level keys, so that each entry is parsed only when it is asked for.

/// Key and text of each entry of an embedded file, in its order: an entry begins at a line that
/// begins with a letter or a digit. A user's file is never read so; ours are held against the
/// real parser by the tests of whoever splits them.
pub(crate) fn entries(text: &str) -> impl Iterator<Item = (&str, &str)> {
    let lines = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1));
    let mut starts = lines
        .filter(|at| text[*at..].starts_with(|c: char| c.is_ascii_alphanumeric()))
        .peekable();
    std::iter::from_fn(move || {
        let start = starts.next()?;
        let end = starts.peek().copied().unwrap_or(text.len());
        let entry = &text[start..end];
        Some((entry.split(':').next().unwrap_or_default(), entry))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_entry_reaches_to_the_next_key() {
        let text = "# head\nfirst:\n  a: 1\n\n# of the second\nsecond: [x,\n  y]\n";
        let found: Vec<_> = entries(text).collect();
        let first = ("first", "first:\n  a: 1\n\n# of the second\n");
        assert_eq!(found, [first, ("second", "second: [x,\n  y]\n")]);
        assert_eq!(entries("# nothing\n").count(), 0);
    }
}
