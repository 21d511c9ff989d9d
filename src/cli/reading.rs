//! Reading a project, with a progress bar where a climate file is long.

use std::path::Path;

use indicatif::{ProgressBar, ProgressStyle};

use crate::error::Error;
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
