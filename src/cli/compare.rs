//! `dewmargin compare FILE…`

use super::UNSETTLED;
use super::arguments::{CompareOptions, Format};
use super::output::{emphasize, out};
use super::reading::read_project;
use crate::error::Error;
use crate::report::{comparison, judge_all, judge_details};

pub(super) fn run(options: &CompareOptions) -> Result<u8, Error> {
    // Every file is read before anything is printed.
    let projects = options.files.iter().map(|file| read_project(file));
    let projects = projects.collect::<Result<Vec<_>, _>>()?;
    let mut unsettled = false;
    let reports: Vec<_> = projects
        .iter()
        .map(|project| {
            let judged = judge_all(project);
            let details = judge_details(project);
            unsettled |= details.iter().any(|one| !one.settled());
            match options.report.format {
                Format::Text => {
                    let style = options.report.style(project);
                    emphasize(&comparison::compare_text(project, &judged, &details, style))
                }
                Format::Json => format!(
                    "{:#}\n",
                    comparison::compare_json(project, &judged, &details)
                ),
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
    Ok(if unsettled { UNSETTLED } else { 0 })
}
