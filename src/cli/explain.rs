//! `dewmargin explain FILE [WHERE]`

use super::UNSETTLED;
use super::arguments::{ExplainOptions, style};
use super::output::{out, width};
use super::reading::{read_project, scope};
use crate::error::{Error, did_you_mean};
use crate::report::explain::{Asked, Entry, derivation_text, entries, find, list_text};
use crate::study::Study;

pub(super) fn run(options: &ExplainOptions) -> Result<u8, Error> {
    let file = options.file.display().to_string();
    let project = read_project(&options.file)?;
    let scope = scope(&project, options.variant.as_deref(), &options.file)?;
    let style = style(options.units, &project);
    let study = Study::within(&project, scope);
    let all = entries(&study.assemblies, &study.details);
    let place = options.place.join(" ");
    if place.trim().is_empty() {
        return out(&list_text(&all).set(width())).map(|()| 0);
    }
    let found = match find(&all, &place) {
        Asked::Found(found) => found,
        Asked::TooMany(found) => return Err(too_many(&file, &place, &found)),
        Asked::Nothing => return Err(nothing(&file, &place, &all)),
    };
    let texts: Vec<String> = found
        .iter()
        .map(|entry| derivation_text(&entry.derive(style)).set(width()))
        .collect();
    out(&texts.join("\n"))?;
    let unsettled = found.iter().any(|entry| !entry.settled());
    Ok(if unsettled { UNSETTLED } else { 0 })
}

/// The most places named in a message.
const NAMED: usize = 8;

fn too_many(file: &str, place: &str, found: &[&Entry<'_>]) -> Error {
    let names = found.iter().take(NAMED);
    let names: Vec<String> = names.map(|entry| format!("`{}`", entry.place)).collect();
    let more = match found.len() - names.len() {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let message = format!("`{place}` fits {} places: name more of it", found.len());
    Error::input(
        file,
        message,
        Some(format!("there are {}{more}", names.join(", "))),
    )
}

fn nothing(file: &str, place: &str, all: &[Entry<'_>]) -> Error {
    let places = || {
        let also = all.iter().flat_map(|entry| &entry.also);
        all.iter().map(|entry| &entry.place).chain(also)
    };
    let last = |place: &String| place.rsplit(" / ").next().unwrap_or(place).to_owned();
    let lasts: Vec<String> = places().map(last).collect();
    let near = did_you_mean(place, places().map(String::as_str))
        .or_else(|| did_you_mean(place, lasts.iter().map(String::as_str)));
    let asks = place.contains(char::is_alphanumeric);
    let help = match near.filter(|_| asks) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "`dewmargin explain FILE` lists all that can be asked".to_owned(),
    };
    let message = format!("there is nothing called `{place}` to explain");
    Error::input(file, message, Some(help))
}
