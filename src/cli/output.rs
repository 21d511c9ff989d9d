//! Printing: nothing that a terminal obeys but bold and color, and no number that isn't one.

use std::borrow::Cow;
use std::io::{self, Write};

use anstyle::{AnsiColor, Style};

use crate::check::Status;
use crate::error::{Error, is_hidden};
use crate::quantity::NO_NUMBER;
use crate::report::screen::{self, Screen};

/// Prints to standard output; a reader that stopped listening isn't an error.
///
/// # Errors
/// When the output can't be written, a full disk for example.
pub(super) fn out(text: &str) -> Result<(), Error> {
    all_numbers("standard output", text)?;
    written(
        anstream::stdout()
            .lock()
            .write_all(harmless(text).as_bytes()),
    )
}

/// The last guard before anything is told or written: where a number was to stand that isn't one, the
/// run ends and names the line.
///
/// # Errors
/// When the text holds [`NO_NUMBER`].
pub(super) fn all_numbers(name: &str, text: &str) -> Result<(), Error> {
    let Some(line) = text.lines().find(|line| line.contains(NO_NUMBER)) else {
        return Ok(());
    };
    let line = line.trim().replace(NO_NUMBER, "(no number)");
    Err(Error::no_number(name, &line))
}

/// A report as JSON.
///
/// # Errors
/// When a number in it isn't one.
pub(super) fn as_json(report: &serde_json::Value) -> Result<String, Error> {
    let json = format!("{report:#}\n");
    all_numbers("the report", &json)?;
    Ok(json)
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

/// The width that text is set to: of the terminal that is printed on, else what `COLUMNS` says, else 80.
pub(super) fn width() -> usize {
    let terminal = terminal_size::terminal_size().map(|(columns, _)| usize::from(columns.0));
    let said = || std::env::var("COLUMNS").ok()?.parse().ok();
    terminal.or_else(said).map_or(screen::WIDTH, screen::set_to)
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
