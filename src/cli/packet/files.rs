//! Writing a set of files so that there is always a whole one: the old, or the new.

use std::fs;
use std::path::{Path, PathBuf};

use super::name::{CONTENTS, HOLDS, MARK};
use crate::cli::output::{File, write_files};
use crate::error::Error;
use crate::report::sweep::fingerprint;

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

/// Most bytes of a list that is believed to be one of ours.
const LONGEST_LIST: u64 = 1 << 20;

/// Files that an earlier packet in this folder listed, that still hold what it wrote, and that aren't
/// written now.
fn stale(folder: &Path, files: &[File]) -> Vec<PathBuf> {
    let list = folder.join(CONTENTS);
    let is_list = fs::metadata(&list).is_ok_and(|it| it.is_file() && it.len() <= LONGEST_LIST);
    let text = match is_list {
        true => fs::read_to_string(&list).unwrap_or_default(),
        false => String::new(),
    };
    if !text.lines().next().is_some_and(|line| line.contains(MARK)) {
        return Vec::new();
    }
    let held = text.lines().skip_while(|line| *line != HOLDS).skip(1);
    let ours = held.filter_map(|line| {
        let mut words = line.splitn(3, ' ');
        let (print, length, name) = (words.next()?, words.next()?, words.next()?);
        let is_kept = files.iter().any(|(kept, _)| kept == name);
        let ends = [".pdf", ".svg", ".html"];
        let is_plain = !name.contains(['/', '\\']) && ends.iter().any(|end| name.ends_with(end));
        let path = folder.join(name);
        let is_ours = || {
            let there = fs::symlink_metadata(&path).ok()?;
            let is_alike = there.is_file() && there.len() == length.parse::<u64>().ok()?;
            Some(is_alike && fingerprint(&fs::read(&path).ok()?) == print)
        };
        (is_plain && !is_kept && is_ours() == Some(true)).then(|| path.clone())
    });
    ours.collect()
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
        // What somebody changed since isn't ours any more, nor what only the first part names.
        let mut list = format!("x: {MARK} 1\na.pdf: A\nb.pdf: B\nmine.pdf: forged\n\n{HOLDS}\n");
        for name in ["a.pdf", "b.pdf", "c.pdf", "../d.pdf"] {
            list += &format!("{} 1 {name}\n", fingerprint(b"1"));
        }
        write_all(
            path,
            &[
                file("a.pdf", "1"),
                file("b.pdf", "1"),
                file("c.pdf", "1"),
                file(CONTENTS, &list),
            ],
        )
        .expect("written");
        fs::write(path.join("mine.pdf"), "kept").expect("written");
        fs::write(path.join("c.pdf"), "2").expect("changed");
        write_all(path, &[file("a.pdf", "2")]).expect("written");
        assert_eq!(fs::read_to_string(path.join("a.pdf")).expect("there"), "2");
        assert!(!path.join("b.pdf").exists() && path.join("mine.pdf").exists());
        assert_eq!(fs::read_to_string(path.join("c.pdf")).expect("there"), "2");
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
