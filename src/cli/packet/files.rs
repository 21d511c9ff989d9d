//! Writing a set of files so that there is always a whole one: the old, or the new.

use std::fs;
use std::path::{Path, PathBuf};

use super::name::{CONTENTS, MARK};
use crate::cli::output::{File, write_files};
use crate::error::Error;

/// Writes all files; what an earlier packet listed and this one doesn't have is removed.
///
/// # Errors
/// When the folder can't be made or written to; what stood there before is still there then.
pub(super) fn write_all(folder: &Path, files: &[File]) -> Result<(), Error> {
    let stale = stale(folder, files);
    write_files(folder, files)?;
    for path in stale {
        // A leftover does no harm: the list of contents is the new one.
        let _ = fs::remove_file(path);
    }
    Ok(())
}

/// Files that an earlier packet in this folder listed and that aren't written now.
fn stale(folder: &Path, files: &[File]) -> Vec<PathBuf> {
    let text = fs::read_to_string(folder.join(CONTENTS)).unwrap_or_default();
    let mut lines = text.lines();
    if !lines.next().is_some_and(|line| line.contains(MARK)) {
        return Vec::new();
    }
    let names = lines.filter_map(|line| line.split_once(": ").map(|(name, _)| name));
    let ours = |name: &&str| {
        let ends = [".pdf", ".svg", ".html"];
        !name.contains(['/', '\\']) && ends.iter().any(|end| name.ends_with(end))
    };
    let old = names.filter(ours);
    let gone = old.filter(|name| !files.iter().any(|(kept, _)| kept == name));
    gone.map(|name| folder.join(name)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(name: &str, text: &str) -> File {
        (name.to_owned(), text.as_bytes().to_vec())
    }

    #[test]
    fn what_an_earlier_packet_left_goes_and_nothing_else() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path();
        let list = format!("x: {MARK} 1\na.pdf: A\nb.pdf: B\n../c.pdf: C\n");
        write_all(
            path,
            &[
                file("a.pdf", "1"),
                file("b.pdf", "1"),
                file(CONTENTS, &list),
            ],
        )
        .expect("written");
        fs::write(path.join("mine.pdf"), "kept").expect("written");
        write_all(path, &[file("a.pdf", "2")]).expect("written");
        assert_eq!(fs::read_to_string(path.join("a.pdf")).expect("there"), "2");
        assert!(!path.join("b.pdf").exists() && path.join("mine.pdf").exists());
    }

    #[test]
    fn a_packet_that_cannot_be_written_leaves_the_old_one() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path();
        write_all(path, &[file("a.pdf", "old")]).expect("written");
        fs::create_dir(path.join("b.pdf")).expect("made");
        assert!(write_all(path, &[file("a.pdf", "new"), file("b.pdf", "new")]).is_err());
        assert_eq!(
            fs::read_to_string(path.join("a.pdf")).expect("there"),
            "old"
        );
        assert_eq!(fs::read_dir(path).expect("read").count(), 2);
    }
}
