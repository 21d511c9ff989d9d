//! Writing files so that none is ever half there, sets of them in their folder, and taking away what a
//! run that was killed left behind.

use std::fs::{self, File as Handle, OpenOptions, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::output::all_numbers;
use crate::error::Error;

/// A file's name and what goes into it.
pub(super) type File = (String, Vec<u8>);

/// Writes one file, as [`write_files`] does.
///
/// # Errors
/// As there.
pub(super) fn write_file(path: &Path, text: &str) -> Result<(), Error> {
    let Some(name) = path.file_name() else {
        return Err(Error::output(
            &path.display().to_string(),
            "this is no name for a file",
        ));
    };
    let folder = path.parent().unwrap_or(Path::new(""));
    let file = (
        name.to_string_lossy().into_owned(),
        text.as_bytes().to_vec(),
    );
    write_set(folder, &[file])
}

/// Makes the folder where there is none, writes all files under temporary names, then gives each
/// its own, in the order given.
///
/// # Errors
/// When the folder can't be made or written to, or a result is no number; what stood there before is
/// still there then, and nothing else.
pub(super) fn write_files(folder: &Path, files: &[File]) -> Result<(), Error> {
    let made = missing(folder);
    let written = fs::create_dir_all(folder)
        .map_err(|error| unwritable(folder, &error))
        .and_then(|()| write_set(folder, files));
    if written.is_err() {
        // Only empty folders can be removed, so nothing of anyone's goes with them.
        for folder in made {
            let _ = fs::remove_dir(folder);
        }
    }
    written
}

/// The folder and those it lies in, as far as they aren't there, the innermost first.
fn missing(folder: &Path) -> Vec<PathBuf> {
    let is_new = |path: &&Path| !path.as_os_str().is_empty() && !path.exists();
    let new = folder.ancestors().take_while(is_new);
    new.map(Path::to_path_buf).collect()
}

fn write_set(folder: &Path, files: &[File]) -> Result<(), Error> {
    for (name, bytes) in files {
        all_numbers(name, str::from_utf8(bytes).unwrap_or_default())?;
        let path = folder.join(name);
        let words = match fs::metadata(&path) {
            Ok(there) if there.is_dir() => "there is a folder where this file would go",
            Ok(there) if !there.is_file() => "there is no regular file where this one would go",
            _ => continue,
        };
        return Err(Error::output(&path.display().to_string(), words));
    }
    remove_leftovers(folder, files);
    let mut parts = Vec::with_capacity(files.len());
    for (name, bytes) in files {
        let path = folder.join(name);
        let mut part = Part::new(&path).map_err(|error| unwritable(&path, &error))?;
        let written = part.file.write_all(bytes);
        parts.push((part, path));
        written.map_err(|error| unwritable(&folder.join(name), &error))?;
    }
    for (part, path) in parts {
        part.rename(&path)
            .map_err(|error| unwritable(&path, &error))?;
    }
    Ok(())
}

fn unwritable(path: &Path, error: &io::Error) -> Error {
    let words = format!("this can't be written: {error}");
    Error::output(&path.display().to_string(), words)
}

/// A file under its temporary name, locked as long as it is being written: what can be locked was left by
/// a run that was killed. Dropped before it has its own name, it is removed.
struct Part {
    path: PathBuf,
    file: Handle,
    named: bool,
}

/// How a temporary name ends, behind a point and the number of the process.
const ENDING: &str = "part";

impl Part {
    fn new(path: &Path) -> io::Result<Self> {
        let mut temporary = path.as_os_str().to_owned();
        temporary.push(format!(".{}.{ENDING}", std::process::id()));
        let temporary = PathBuf::from(temporary);
        loop {
            let mut options = OpenOptions::new();
            let file = options.write(true).create(true).truncate(true);
            let file = file.open(&temporary)?;
            // Where files can't be locked nothing is known of others.
            let _ = file.lock();
            // Another run may have taken it for a leftover between the two.
            if temporary.exists() {
                return Ok(Self {
                    path: temporary,
                    file,
                    named: false,
                });
            }
        }
    }

    fn rename(mut self, path: &Path) -> io::Result<()> {
        fs::rename(&self.path, path)?;
        self.named = true;
        Ok(())
    }
}

impl Drop for Part {
    fn drop(&mut self) {
        if !self.named {
            let _ = fs::remove_file(&self.path);
        }
    }
}

/// Removes the temporary files that a killed run left of these files, and no others.
fn remove_leftovers(folder: &Path, files: &[File]) {
    let here = match folder.as_os_str().is_empty() {
        true => Path::new("."),
        false => folder,
    };
    let Ok(entries) = fs::read_dir(here) else {
        return;
    };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let is_ours = name.to_str().is_some_and(|name| is_leftover(name, files));
        let is_file = entry.file_type().is_ok_and(|kind| kind.is_file());
        if !(is_ours && is_file) {
            continue;
        }
        let Ok(file) = Handle::open(entry.path()) else {
            continue;
        };
        if !matches!(file.try_lock(), Err(TryLockError::WouldBlock)) {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// `floor.svg.4711.part` where `floor.svg` is among the files.
fn is_leftover(name: &str, files: &[File]) -> bool {
    let mut ends = name.rsplitn(3, '.');
    let (ending, process, rest) = (ends.next(), ends.next(), ends.next());
    ending == Some(ENDING)
        && process
            .is_some_and(|digits| !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit()))
        && rest.is_some_and(|rest| files.iter().any(|(name, _)| name == rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_killed_run_left_goes_and_nothing_else() {
        let folder = tempfile::tempdir().expect("a folder");
        let there = [
            "a.svg.17.part",
            "b.svg.17.part",
            "a.svg.part",
            "a.svg.x.part",
            "a.svg.18.part",
        ];
        for name in there {
            fs::write(folder.path().join(name), "half").expect("written");
        }
        let busy = Handle::open(folder.path().join("a.svg.18.part")).expect("there");
        busy.lock().expect("locked");
        let file = ("a.svg".to_owned(), b"whole".to_vec());
        write_files(folder.path(), &[file]).expect("written");
        let left = fs::read_dir(folder.path()).expect("read").flatten();
        let mut left: Vec<_> = left.map(|entry| entry.file_name()).collect();
        left.sort();
        let kept = [
            "a.svg",
            "a.svg.18.part",
            "a.svg.part",
            "a.svg.x.part",
            "b.svg.17.part",
        ];
        assert_eq!(left, kept);
    }

    #[test]
    fn a_result_that_is_no_number_is_not_written() {
        let folder = tempfile::tempdir().expect("a folder");
        let text = format!("<text>U {}</text>", crate::quantity::fixed(f64::NAN, 1));
        let error = write_files(
            &folder.path().join("new"),
            &[("a.svg".into(), text.into_bytes())],
        );
        let error = error.expect_err("refused");
        assert_eq!(error.exit_code(), 4);
        assert!(error.to_string().contains("U (no number)"), "{error}");
        assert_eq!(fs::read_dir(folder.path()).expect("read").count(), 0);
    }
}
