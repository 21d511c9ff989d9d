//! `dewmargin compare FILE…`

use super::arguments::{CompareOptions, Format};
use super::output::{emphasize, out};
use super::reading::read_project;
use crate::error::Error;
use crate::report::{comparison, json, judge_all};

pub(super) fn run(options: &CompareOptions) -> Result<u8, Error> {
    // Every file is read before anything is printed.
    let projects = options.files.iter().map(|file| read_project(file));
    let projects = projects.collect::<Result<Vec<_>, _>>()?;
    let reports: Vec<_> = projects
        .iter()
        .map(|project| {
            let judged = judge_all(project);
            match options.report.format {
                Format::Text => {
                    let style = options.report.style(project);
                    emphasize(&comparison::compare_text(project, &judged, style))
                }
                Format::Json => format!("{:#}\n", json::report("compare", project, &judged)),
            }
        })
        .collect();
    match (options.report.format, reports.len()) {
        (Format::Json, 2..) => {
            let list: Vec<_> = reports
                .iter()
                .map(|report| report.trim_end().to_owned())
                .collect();
            out(&format!("[{}]\n", list.join(",\n")))?;
        }
        _ => out(&reports.join("\n"))?,
    }
    Ok(0)
}
