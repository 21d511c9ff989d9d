//! How much of a report is told: the first screen, one part, or everything.

use super::arguments::ToldOptions;
use super::output::{emphasize, set, width};
use crate::error::{Error, did_you_mean};
use crate::report::Text;
use crate::report::screen::{ROWS, Screen};
use crate::study::Study;

/// The three ways to tell a report.
pub(super) struct Ways<'w> {
    /// The verdict in a line: what ends anything longer than a screen.
    pub(super) verdict: &'w dyn Fn() -> Text,
    /// The first screen, set to a width.
    pub(super) screen: &'w dyn Fn(usize) -> Screen,
    /// All of one part.
    pub(super) part: &'w dyn Fn(&str) -> Text,
    /// Everything.
    pub(super) full: &'w dyn Fn() -> Text,
}

/// What is printed: as asked, with the first line again where it would have scrolled away.
///
/// # Errors
/// When there is no such part.
pub(super) fn told(
    study: &Study<'_>,
    options: &ToldOptions,
    file: &str,
    ways: &Ways<'_>,
) -> Result<String, Error> {
    let text = match (&options.part, options.full) {
        (Some(part), _) => {
            is_there(study, part, file)?;
            (ways.part)(part)
        }
        (None, true) => (ways.full)(),
        (None, false) => return Ok(set(&(ways.screen)(width()))),
    };
    let text = text.set(width());
    let again = match text.lines().count() > ROWS {
        true => format!("\n{}", (ways.verdict)().set(width())),
        false => String::new(),
    };
    Ok(emphasize(&text) + &again)
}

/// Whether a part is there.
///
/// # Errors
/// When it isn't, with the nearest name.
pub(super) fn is_there(study: &Study<'_>, wanted: &str, file: &str) -> Result<(), Error> {
    let names = study.part_names();
    if names.contains(&wanted) {
        return Ok(());
    }
    let help = match did_you_mean(wanted, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("there are: {}", names.join("; ")),
    };
    let message = format!("there is no part `{wanted}`");
    Err(Error::input(file, message, Some(help)))
}
