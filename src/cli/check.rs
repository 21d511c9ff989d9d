//! `dewmargin check FILE`

use super::arguments::{CheckOptions, Format};
use super::output::{emphasize, out};
use super::reading::{keep_variant, read_project};
use super::{FAILED, UNSETTLED};
use crate::check::{Status, worst};
use crate::error::Error;
use crate::report::{json, judge_all, judge_details, summary};

pub(super) fn run(options: &CheckOptions) -> Result<u8, Error> {
    let mut project = read_project(&options.file)?;
    if let Some(variant) = &options.variant {
        keep_variant(&mut project, variant, &options.file.display().to_string())?;
    }
    let judged = judge_all(&project);
    let details = judge_details(&project);
    match options.report.format {
        Format::Text => {
            let style = options.report.style(&project);
            out(&emphasize(&summary::check_text(
                &project, &judged, &details, style,
            )))?;
        }
        Format::Json => out(&format!(
            "{:#}\n",
            json::report("check", &project, &judged, &details)
        ))?,
    }
    let of_details = details.iter().map(|one| one.verdict.status);
    let status = worst(
        judged
            .iter()
            .map(|one| one.verdict.status)
            .chain(of_details),
    );
    if details.iter().any(|one| !one.settled()) {
        return Ok(UNSETTLED);
    }
    let failed = status == Status::Fail || options.strict && status == Status::Depends;
    Ok(if failed { FAILED } else { 0 })
}
