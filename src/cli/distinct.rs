//! Names of files that are written together.

/// Numbers names that differ only in what a file name can't show, so that no file is lost. No plain name
/// has an underscore, so a numbered one looks like no other.
pub(super) fn distinct<T>(files: &mut [(String, T)]) {
    for n in 1..files.len() {
        let (before, rest) = files.split_at_mut(n);
        let Some((stem, ending)) = rest[0].0.rsplit_once('.') else {
            continue;
        };
        let (stem, ending) = (stem.to_owned(), ending.to_owned());
        let mut number = 2;
        while before.iter().any(|(name, _)| *name == rest[0].0) {
            rest[0].0 = format!("{stem}_{number}.{ending}");
            number += 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::distinct;

    #[test]
    fn no_file_takes_another_ones_name() {
        let mut files = ["a.svg", "a.svg", "b.svg", "a.svg"].map(|name| (name.to_owned(), ()));
        distinct(&mut files);
        let names = files.map(|(name, ())| name);
        assert_eq!(names, ["a.svg", "a_2.svg", "b.svg", "a_3.svg"]);
    }
}
