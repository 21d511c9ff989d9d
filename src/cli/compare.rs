//! `dewmargin compare FILE…`

use super::arguments::{CompareOptions, Format};
use super::code_of;
use super::output::{emphasize, out};
use super::reading::read_project;
use crate::error::Error;
use crate::report::comparison;
use crate::study::Study;

pub(super) fn run(options: &CompareOptions) -> Result<u8, Error> {
    // Every file is read before anything is printed.
    let projects = options.files.iter().map(|file| read_project(file));
    let projects = projects.collect::<Result<Vec<_>, _>>()?;
    let studies: Vec<Study<'_>> = projects.iter().map(Study::of).collect();
    let reports: Vec<String> = studies
        .iter()
        .map(|study| match options.report.format {
            Format::Text => {
                let style = options.report.style(study.project);
                emphasize(&comparison::compare_text(study, style))
            }
            Format::Json => format!("{:#}\n", comparison::compare_json(study)),
        })
        .collect();
    match (options.report.format, reports.len()) {
        (Format::Json, 2..) => {
            let list: Vec<&str> = reports.iter().map(|report| report.trim_end()).collect();
            out(&format!("[{}]\n", list.join(",\n")))?;
        }
        _ => out(&reports.join("\n"))?,
    }
    Ok(studies.iter().map(code_of).max().unwrap_or(0))
}
