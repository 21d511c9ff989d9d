//! A set of files with a list of them, written last: it tells what belongs together, and which files of
//! an earlier set may go.

use std::fs;
use std::path::{Path, PathBuf};

use super::written::{File, write_files};
use crate::error::Error;
use crate::report::sweep::fingerprint;

/// What stands over the fingerprints of the files: a later run removes only what still has its own.
const HOLDS: &str = "fingerprint and length of each; a later run removes only what is still so";

/// The list of a set of files.
pub(super) struct List<'a> {
    /// The list's own file name.
    pub(super) name: String,
    /// The project's title.
    pub(super) title: &'a str,
    /// What kind of set it is, on the first line after the title.
    pub(super) mark: &'static str,
    /// A line on each file, in the files' order.
    pub(super) lines: Vec<String>,
}

/// Writes all files, then their list; what an earlier list of that name named and this one doesn't is
/// removed.
///
/// # Errors
/// When the folder can't be made or written to; what stood there before is still there then.
pub(super) fn write_listed(
    folder: &Path,
    mut files: Vec<File>,
    list: &List<'_>,
) -> Result<(), Error> {
    let stale = stale(folder, &files, list);
    files.push((list.name.clone(), list.text(&files).into_bytes()));
    write_files(folder, &files)?;
    for path in stale {
        // A leftover does no harm: the list is the new one.
        let _ = fs::remove_file(path);
    }
    Ok(())
}

impl List<'_> {
    fn text(&self, files: &[File]) -> String {
        let mut text = format!(
            "{}: {} {}\n",
            self.title,
            self.mark,
            env!("CARGO_PKG_VERSION")
        );
        for line in &self.lines {
            text += &format!("{line}\n");
        }
        text += &format!("\n{HOLDS}\n");
        for (name, bytes) in files {
            text += &format!("{} {} {name}\n", fingerprint(bytes), bytes.len());
        }
        text
    }
}

/// Most bytes of a list that is believed to be one of ours.
const LONGEST_LIST: u64 = 1 << 20;

/// Files that an earlier list in this folder named, that still hold what was written then, and that
/// aren't written now.
fn stale(folder: &Path, files: &[File], list: &List<'_>) -> Vec<PathBuf> {
    let mark = list.mark;
    let list = folder.join(&list.name);
    let is_list = fs::metadata(&list).is_ok_and(|it| it.is_file() && it.len() <= LONGEST_LIST);
    let text = match is_list {
        true => fs::read_to_string(&list).unwrap_or_default(),
        false => String::new(),
    };
    if !text.lines().next().is_some_and(|line| line.contains(mark)) {
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

    fn written(folder: &Path, files: &[File]) -> Result<(), Error> {
        let list = List {
            name: "list.txt".into(),
            title: "x",
            mark: "a set",
            lines: files.iter().map(|(name, _)| format!("{name}: A")).collect(),
        };
        write_listed(folder, files.to_vec(), &list)
    }

    #[test]
    fn what_an_earlier_set_left_goes_and_nothing_else() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path();
        let three = ["a.pdf", "b.pdf", "c.pdf"].map(|name| file(name, "1"));
        written(path, &three).expect("written");
        // What somebody changed since isn't ours any more, nor what only the first part names.
        let list = fs::read_to_string(path.join("list.txt")).expect("there");
        let list = list.replacen("a.pdf: A", "a.pdf: A\nmine.pdf: forged", 1);
        let list = format!("{list}{} 1 ../d.pdf\n", fingerprint(b"1"));
        fs::write(path.join("list.txt"), list).expect("written");
        fs::write(path.join("mine.pdf"), "kept").expect("written");
        fs::write(path.join("c.pdf"), "2").expect("changed");
        written(path, &[file("a.pdf", "2")]).expect("written");
        assert_eq!(fs::read_to_string(path.join("a.pdf")).expect("there"), "2");
        assert!(!path.join("b.pdf").exists() && path.join("mine.pdf").exists());
        assert_eq!(fs::read_to_string(path.join("c.pdf")).expect("there"), "2");
    }

    #[test]
    fn a_set_that_cannot_be_written_leaves_the_old_one() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path();
        written(path, &[file("a.pdf", "old")]).expect("written");
        fs::create_dir(path.join("b.pdf")).expect("made");
        assert!(written(path, &[file("a.pdf", "new"), file("b.pdf", "new")]).is_err());
        assert_eq!(
            fs::read_to_string(path.join("a.pdf")).expect("there"),
            "old"
        );
        assert_eq!(fs::read_dir(path).expect("read").count(), 3);
    }
}
