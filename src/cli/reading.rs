//! Reading a project, with a progress bar where a climate file is long.

use std::path::Path;

use indicatif::{ProgressBar, ProgressStyle};

use crate::error::{Error, did_you_mean};
use crate::input::read_project_with;
use crate::model::Project;

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

/// Leaves only the cases of one variant.
///
/// # Errors
/// When there is no such variant.
pub(super) fn keep_variant(project: &mut Project, wanted: &str, file: &str) -> Result<(), Error> {
    let name = |variant: &Option<String>| variant.clone().unwrap_or_else(|| AS_DRAWN.to_owned());
    let mut names: Vec<String> = project
        .cases
        .iter()
        .map(|case| name(&case.variant))
        .chain(project.details.iter().map(|case| name(&case.variant)))
        .collect();
    names.sort();
    names.dedup();
    if !names.iter().any(|name| name == wanted) {
        let near = did_you_mean(wanted, names.iter().map(String::as_str));
        let help = match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("there are: {}", names.join("; ")),
        };
        return Err(Error::input(
            file,
            format!("there is no variant `{wanted}`"),
            Some(help),
        ));
    }
    project.cases.retain(|case| name(&case.variant) == wanted);
    project.details.retain(|case| name(&case.variant) == wanted);
    project.undrawn.retain(|edge| name(&edge.variant) == wanted);
    Ok(())
}
