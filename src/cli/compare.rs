//! `dewmargin compare FILE…`

use super::arguments::{CompareOptions, Format};
use super::code_of;
use super::output::{as_json, out};
use super::reading::read_project;
use super::told::{Ways, told};
use crate::error::Error;
use crate::report::{comparison, screen};
use crate::study::Study;

pub(super) fn run(options: &CompareOptions) -> Result<u8, Error> {
    // Every file is read before anything is printed.
    let projects = options.files.iter().map(|file| read_project(file));
    let projects = projects.collect::<Result<Vec<_>, _>>()?;
    let studies: Vec<Study<'_>> = projects.iter().map(Study::of).collect();
    let texts =
        studies
            .iter()
            .zip(&options.files)
            .map(|(study, file)| match options.report.format {
                Format::Text => {
                    let style = options.report.style(study.project);
                    let file = file.display().to_string();
                    let ways = Ways {
                        verdict: &|| screen::compare_verdict(study),
                        screen: &|width| screen::compare_screen(study, &file, style, width),
                        part: &|name| comparison::compare_text(&study.part(name), style),
                        full: &|| comparison::compare_text(study, style),
                    };
                    told(study, &options.told, &file, &ways)
                }
                Format::Json => as_json(&comparison::compare_json(study)),
            });
    let reports = texts.collect::<Result<Vec<String>, Error>>()?;
    match (options.report.format, reports.len()) {
        (Format::Json, 2..) => {
            let list: Vec<&str> = reports.iter().map(|report| report.trim_end()).collect();
            out(&format!("[{}]\n", list.join(",\n")))?;
        }
        _ => out(&reports.join("\n"))?,
    }
    Ok(studies.iter().map(code_of).max().unwrap_or(0))
}
