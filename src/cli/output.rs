//! Printing, and writing files so that none is ever half there, sets of them in their folder.

use std::borrow::Cow;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use anstyle::{AnsiColor, Style};

use crate::check::Status;
use crate::error::{Error, is_hidden};
use crate::report::screen::{self, Screen};

/// Prints to standard output; a reader that stopped listening isn't an error.
///
/// # Errors
/// When the output can't be written, a full disk for example.
pub(super) fn out(text: &str) -> Result<(), Error> {
    written(
        anstream::stdout()
            .lock()
            .write_all(harmless(text).as_bytes()),
    )
}

/// Prints to standard error.
pub(super) fn err(text: &str) -> Result<(), Error> {
    written(
        anstream::stderr()
            .lock()
            .write_all(harmless(text).as_bytes()),
    )
}

/// A text as a terminal may have it: of all control sequences only those that set bold and color, of all
/// hidden characters only blanks and line breaks. Names are refused where they are read; this is the
/// last guard.
fn harmless(text: &str) -> Cow<'_, str> {
    let is_wild = |c: char| is_hidden(c) && !matches!(c, '\n' | '\t');
    if !text.contains(is_wild) {
        return Cow::Borrowed(text);
    }
    let mut told = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let length = setting(rest).unwrap_or(0);
        if length > 0 {
            told.push_str(&rest[..length]);
            rest = &rest[length..];
            continue;
        }
        match is_wild(c) {
            true => told.push(char::REPLACEMENT_CHARACTER),
            false => told.push(c),
        }
        rest = &rest[c.len_utf8()..];
    }
    Cow::Owned(told)
}

/// The length of a sequence that sets bold or color, where the text begins with one.
fn setting(text: &str) -> Option<usize> {
    let inner = text.strip_prefix("\u{1b}[")?;
    let end = inner.find(|c: char| !c.is_ascii_digit() && c != ';')?;
    inner[end..].starts_with('m').then_some(end + 3)
}

fn written(result: io::Result<()>) -> Result<(), Error> {
    match result {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => Err(Error::output(
            "standard output",
            format!("the result can't be printed: {error}"),
        )),
        _ => Ok(()),
    }
}

/// Writes a file under a temporary name beside it, then renames it.
///
/// # Errors
/// When the folder is missing or can't be written to; nothing is left behind then.
pub(super) fn write_file(path: &Path, text: &str) -> Result<(), Error> {
    let name = path.display().to_string();
    let mut temporary = path.as_os_str().to_owned();
    temporary.push(format!(".{}.part", std::process::id()));
    let temporary = Path::new(&temporary);
    let written = fs::write(temporary, text).and_then(|()| fs::rename(temporary, path));
    written.map_err(|error| {
        let _ = fs::remove_file(temporary);
        Error::output(&name, format!("this file can't be written: {error}"))
    })
}

/// The width of the terminal that is printed on; what text is set to where there is none.
pub(super) fn width() -> usize {
    let columns = terminal_size::terminal_size().map(|(columns, _)| usize::from(columns.0));
    columns.map_or(screen::WIDTH, screen::set_to)
}

/// A screen with the words of its verdicts bold, and colored by status; plain where no terminal
/// reads it, or where color isn't wanted.
pub(super) fn set(screen: &Screen) -> String {
    let lines = screen.lines.iter().map(|line| match line.status {
        None => line.text() + "\n",
        Some(status) => {
            let style = styled(status);
            let word = status.word();
            let line = format!("{}{style}{word}{style:#}{}", line.before, line.after);
            format!("{}\n", line.trim_end())
        }
    });
    lines.collect()
}

/// Red and blue can be told apart by every eye, and the words stand without either.
fn styled(status: Status) -> Style {
    let color = match status.severity() {
        2 => Some(AnsiColor::Red.into()),
        1 => Some(AnsiColor::Blue.into()),
        _ => None,
    };
    Style::new().bold().fg_color(color)
}

/// A file's name and what goes into it.
pub(super) type File = (String, Vec<u8>);

/// Makes the folder where there is none, writes all files under temporary names, then gives each
/// its own.
///
/// # Errors
/// When the folder can't be made or written to; what stood there before is still there then, and
/// nothing else.
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
    for (name, _) in files {
        let path = folder.join(name);
        if path.is_dir() {
            let words = "there is a folder where this file would go";
            return Err(Error::output(&path.display().to_string(), words));
        }
    }
    let temporary = |name: &str| folder.join(format!("{name}.{}.part", std::process::id()));
    let remove = || {
        for (name, _) in files {
            let _ = fs::remove_file(temporary(name));
        }
    };
    for (name, bytes) in files {
        let path = temporary(name);
        fs::write(&path, bytes).map_err(|error| {
            remove();
            unwritable(&folder.join(name), &error)
        })?;
    }
    for (name, _) in files {
        let path = folder.join(name);
        fs::rename(temporary(name), &path).map_err(|error| {
            remove();
            unwritable(&path, &error)
        })?;
    }
    Ok(())
}

fn unwritable(path: &Path, error: &io::Error) -> Error {
    let words = format!("this can't be written: {error}");
    Error::output(&path.display().to_string(), words)
}

/// Words for a verdict, bold on a terminal; plain where color isn't wanted.
pub(super) fn emphasize(text: &str) -> String {
    let bold = |line: &str| {
        let ends = [": pass", ": depends", ": fail"];
        ends.iter().any(|end| line.ends_with(end)) && !line.starts_with(' ')
    };
    text.lines()
        .map(|line| {
            if bold(line) {
                format!("\x1b[1m{line}\x1b[0m\n")
            } else {
                format!("{line}\n")
            }
        })
        .collect()
}
