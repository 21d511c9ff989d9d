//! `dewmargin house FILE`

use super::UNSETTLED;
use super::arguments::{Format, HouseOptions};
use super::output::{as_json, emphasize, out, width};
use super::reading::read_project;
use crate::error::{Error, did_you_mean};
use crate::report::house::{house_text, json};
use crate::study::{JudgedHouse, houses};

pub(super) fn run(options: &HouseOptions) -> Result<u8, Error> {
    let project = read_project(&options.file)?;
    let file = options.file.display().to_string();
    if project.house.is_none() {
        let help = "give it a deck, a floor, walls and a roof as examples/cabin-fit.yaml does";
        let message = "this file has no `house:` block";
        return Err(Error::input(&file, message, Some(help.into())));
    }
    let houses = houses(&project);
    let only = options.variant.as_deref();
    if let Some(variant) = only {
        is_there(&houses, variant, &file)?;
    }
    match options.report.format {
        Format::Text => {
            let style = options.report.style(&project);
            let text = house_text(&project, &houses, only, style);
            out(&emphasize(&text.set(width())))?;
        }
        Format::Json => {
            out(&as_json(&json(&project, &houses, only))?)?;
        }
    }
    let settled = houses.iter().all(|one| one.settled());
    Ok(if settled { 0 } else { UNSETTLED })
}

fn is_there(houses: &[JudgedHouse<'_>], wanted: &str, file: &str) -> Result<(), Error> {
    let names: Vec<&str> = houses.iter().map(JudgedHouse::variant).collect();
    if names.contains(&wanted) {
        return Ok(());
    }
    let help = match did_you_mean(wanted, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("there are: {}", names.join("; ")),
    };
    let message = format!("no variant `{wanted}` changes the house");
    Err(Error::input(file, message, Some(help)))
}
