//! `dewmargin check FILE`

use super::arguments::{CheckOptions, Format};
use super::output::{as_json, out};
use super::reading::{read_project, scope};
use super::told::{Ways, told};
use super::{FAILED, code_of};
use crate::check::Status;
use crate::error::Error;
use crate::report::{json, screen, summary};
use crate::study::Study;

pub(super) fn run(options: &CheckOptions) -> Result<u8, Error> {
    let project = read_project(&options.file)?;
    let scope = scope(&project, options.variant.as_deref(), &options.file)?;
    let study = Study::within(&project, scope);
    let file = options.file.display().to_string();
    match options.report.format {
        Format::Text => {
            let style = options.report.style(&project);
            let ways = Ways {
                verdict: &|| screen::check_verdict(&study),
                screen: &|width| screen::check_screen(&study, &file, style, width),
                part: &|name| summary::check_text(&study.part(name), style),
                full: &|| summary::check_text(&study, style),
            };
            out(&told(&study, &options.told, &file, &ways)?)?;
        }
        Format::Json => {
            out(&as_json(&json::report("check", &study))?)?;
        }
    }
    let status = study.status();
    let failed = status == Status::Fail || options.strict && status == Status::Depends;
    Ok(match failed {
        true => FAILED,
        false => code_of(&study),
    })
}
