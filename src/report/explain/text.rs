//! A derivation on a terminal.

use super::super::summary::WIDTH;
use super::super::table::wrap;
use super::{Derivation, Entry, Step};

/// A derivation as text, no line wider than a terminal.
#[must_use]
pub fn derivation_text(derivation: &Derivation) -> String {
    let mut text = format!("{}\n", derivation.title);
    text += &wrap(&derivation.answers, "  ", WIDTH);
    text += &wrap(&format!("Source: {}.", derivation.source), "  ", WIDTH);
    text.push('\n');
    for step in &derivation.steps {
        text += &step_text(step);
    }
    let mut notes = derivation
        .materials
        .iter()
        .chain(&derivation.notes)
        .peekable();
    if notes.peek().is_some() {
        text += "\n  notes\n";
    }
    for note in notes {
        let note = note.trim_end_matches('.');
        text += &wrap(&format!("- {note}."), "    ", WIDTH);
    }
    text
}

fn step_text(step: &Step) -> String {
    let mut text = wrap(&step.words, "  ", WIDTH);
    let other = step.other.as_ref();
    let other = other.map_or_else(String::new, |amount| format!(" ({amount})"));
    let result = format!("{}{other}", step.result);
    if step.symbol.is_empty() {
        return text + &wrap(&result, "    ", WIDTH);
    }
    if step.formula.is_empty() {
        return text + &wrap(&format!("{} = {result}", step.symbol), "    ", WIDTH);
    }
    let formula = format!("{} = {}", step.symbol, step.formula);
    text += &wrap(&formula, "    ", WIDTH);
    if step.with_values != step.result.to_string() {
        text += &wrap(&format!("= {}", step.with_values), "      ", WIDTH);
    }
    text + &wrap(&format!("= {result}"), "      ", WIDTH)
}

/// All that can be asked, with what each tells.
#[must_use]
pub fn list_text(entries: &[Entry<'_>]) -> String {
    let mut text = String::from("What can be asked, and what it tells:\n");
    let mut before = "";
    for entry in entries {
        let line = match entry.tells == before {
            true => entry.place.clone(),
            false => format!("{}: {}", entry.place, entry.tells),
        };
        before = entry.tells;
        text += &wrap(&line, "  ", WIDTH);
    }
    let how = "Letter case, blanks and hyphens don't matter, and parts before the last may be left \
        out: `dewmargin explain FILE \"floor / subfloor / bay\"`.";
    text + "\n" + &wrap(how, "", WIDTH)
}
