//! Reading a project, with a progress bar where a climate file is long.

use std::path::Path;

use indicatif::{ProgressBar, ProgressStyle};

use crate::error::{Error, did_you_mean};
use crate::input::read_project_with;
use crate::model::Project;
use crate::study::Scope;

/// Climate files shorter than this are read in a moment, bytes.
const LONG: u64 = 4_000_000;

/// Reads a project; the bar is drawn on a terminal only, and taken away when done.
pub(super) fn read_project(path: &Path) -> Result<Project, Error> {
    let mut bar: Option<ProgressBar> = None;
    let project = read_project_with(path, &mut |done, total| {
        if total < LONG {
            return;
        }
        let bar = bar.get_or_insert_with(|| {
            let words = "climate file {bar:40} {percent} %";
            let plain = ProgressStyle::default_bar();
            let style = ProgressStyle::with_template(words).unwrap_or(plain);
            ProgressBar::new(total).with_style(style)
        });
        bar.set_position(done);
    });
    if let Some(bar) = bar {
        bar.finish_and_clear();
    }
    project
}

/// What `--variant` calls the assemblies without changes.
pub(super) const AS_DRAWN: &str = "as drawn";

/// What one variant changes, or all of a project where none is named.
///
/// # Errors
/// When there is no such variant.
pub(super) fn scope<'a>(
    project: &Project,
    wanted: Option<&'a str>,
    path: &Path,
) -> Result<Scope<'a>, Error> {
    let Some(wanted) = wanted else {
        return Ok(Scope::All);
    };
    let of_cases = project.cases.iter().map(|case| case.variant.as_deref());
    let of_details = project.details.iter().map(|case| case.variant.as_deref());
    let of_volumes = project.volumes.iter().map(|case| case.variant.as_deref());
    let all = of_cases.chain(of_details).chain(of_volumes);
    let mut names: Vec<&str> = all.map(|name| name.unwrap_or(AS_DRAWN)).collect();
    names.sort_unstable();
    names.dedup();
    if names.contains(&wanted) {
        return Ok(Scope::Variant((wanted != AS_DRAWN).then_some(wanted)));
    }
    let help = match did_you_mean(wanted, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("there are: {}", names.join("; ")),
    };
    let message = format!("there is no variant `{wanted}`");
    Err(Error::input(
        &path.display().to_string(),
        message,
        Some(help),
    ))
}
