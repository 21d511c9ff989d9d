//! `dewmargin size FILE`

use super::arguments::{Format, SizeOptions};
use super::output::{as_json, emphasize, out, width};
use super::reading::read_project;
use super::{FAILED, UNSETTLED};
use crate::check::Status;
use crate::check::sizing::{Sized, size};
use crate::error::{Error, did_you_mean};
use crate::model::{Project, Sizing};
use crate::quantity::{Quantity, RelativeHumidity};
use crate::report::{json_sizing, sizing};

pub(super) fn run(options: &SizeOptions) -> Result<u8, Error> {
    let file = options.file.display().to_string();
    let mut project = read_project(&options.file)?;
    let humidity = humidity(options)?;
    let mut wanted = chosen(&mut project, options.entry.as_deref(), &file)?;
    if humidity.is_some() {
        wanted.iter_mut().for_each(|one| one.humidity = humidity);
    }
    let sized: Vec<Sized<'_>> = wanted.iter().map(|one| size(one, &project.stops)).collect();
    match options.report.format {
        Format::Text => {
            let style = options.report.style(&project);
            let text = sizing::size_text(&project, &sized, style);
            out(&emphasize(&text.set(width())))?;
        }
        Format::Json => {
            out(&as_json(&json_sizing::size_report(&project, &sized))?)?;
        }
    }
    if sized.iter().any(|one| !one.settled) {
        return Ok(UNSETTLED);
    }
    let fails = |one: &Sized<'_>| {
        one.status == Status::Fail || options.strict && one.status == Status::Depends
    };
    Ok(if sized.iter().any(fails) { FAILED } else { 0 })
}

fn humidity(options: &SizeOptions) -> Result<Option<RelativeHumidity>, Error> {
    let Some(text) = &options.humidity else {
        return Ok(None);
    };
    let read = RelativeHumidity::read(text);
    let told = |error: crate::quantity::QuantityError| {
        Error::input("--humidity", error.message, error.help)
    };
    read.map(Some).map_err(told)
}

/// The entries asked for, taken out of the project.
fn chosen(project: &mut Project, entry: Option<&str>, file: &str) -> Result<Vec<Sizing>, Error> {
    let all = std::mem::take(&mut project.sizings);
    if all.is_empty() {
        let help = "write a `size:` block into it, as in examples/cabin-size.yaml";
        let message = "this file has no layer to be sized";
        return Err(Error::input(file, message, Some(help.into())));
    }
    let Some(wanted) = entry else {
        return Ok(all);
    };
    let names: Vec<String> = all.iter().map(|one| one.name.clone()).collect();
    let kept: Vec<Sizing> = all.into_iter().filter(|one| one.name == wanted).collect();
    if !kept.is_empty() {
        return Ok(kept);
    }
    let help = match did_you_mean(wanted, names.iter().map(String::as_str)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("there are: {}", names.join("; ")),
    };
    let message = format!("there is no entry `{wanted}` under `size:`");
    Err(Error::input(file, message, Some(help)))
}
