//! `dewmargin check FILE`

use super::arguments::{CheckOptions, Format};
use super::output::{emphasize, out};
use super::reading::{read_project, scope};
use super::{FAILED, code_of};
use crate::check::Status;
use crate::error::Error;
use crate::report::{json, summary};
use crate::study::Study;

pub(super) fn run(options: &CheckOptions) -> Result<u8, Error> {
    let project = read_project(&options.file)?;
    let scope = scope(&project, options.variant.as_deref(), &options.file)?;
    let study = Study::within(&project, scope);
    match options.report.format {
        Format::Text => {
            let style = options.report.style(&project);
            out(&emphasize(&summary::check_text(&study, style)))?;
        }
        Format::Json => out(&format!("{:#}\n", json::report("check", &study)))?,
    }
    let status = study.status();
    let failed = status == Status::Fail || options.strict && status == Status::Depends;
    Ok(match failed {
        true => FAILED,
        false => code_of(&study),
    })
}
