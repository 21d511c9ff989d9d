//! `dewmargin check FILE`

use super::arguments::{CheckOptions, Format};
use super::output::{emphasize, out};
use super::reading::read_project;
use super::{FAILED, UNSETTLED};
use crate::check::{Status, worst};
use crate::error::{Error, did_you_mean};
use crate::model::Project;
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

/// What `--variant` calls the assemblies without changes.
const AS_DRAWN: &str = "as drawn";

fn keep_variant(project: &mut Project, wanted: &str, file: &str) -> Result<(), Error> {
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
    Ok(())
}
