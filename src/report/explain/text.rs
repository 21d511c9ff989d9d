//! A derivation on a terminal.

use super::{Derivation, Entry, Step};
use crate::report::Text;

/// A derivation as text.
#[must_use]
pub fn derivation_text(derivation: &Derivation) -> Text {
    let mut text = Text::default();
    text.line(&derivation.title);
    text.say(2, &derivation.answers);
    text.say(2, format!("Source: {}.", derivation.source));
    text.blank();
    for step in &derivation.steps {
        say_step(&mut text, step);
    }
    let mut notes = derivation
        .materials
        .iter()
        .chain(&derivation.notes)
        .peekable();
    if notes.peek().is_some() {
        text.blank();
        text.line("  notes");
    }
    for note in notes {
        let note = note.trim_end_matches('.');
        text.say(4, format!("- {note}."));
    }
    text
}

fn say_step(text: &mut Text, step: &Step) {
    text.say(2, &step.words);
    let other = step.other.as_ref();
    let other = other.map_or_else(String::new, |amount| format!(" ({amount})"));
    let result = format!("{}{other}", step.result);
    match (step.symbol.is_empty(), step.formula.is_empty()) {
        (true, _) => text.say(4, result),
        (false, true) => text.say(4, format!("{} = {result}", step.symbol)),
        (false, false) => {
            text.say(4, format!("{} = {}", step.symbol, step.formula));
            if step.with_values != step.result.to_string() {
                text.say(6, format!("= {}", step.with_values));
            }
            text.say(6, format!("= {result}"));
        }
    }
}

/// All that can be asked, with what each tells.
#[must_use]
pub fn list_text(entries: &[Entry<'_>]) -> Text {
    let mut text = Text::default();
    text.line("What can be asked, and what it tells:");
    let mut before = "";
    for entry in entries {
        let line = match entry.tells == before {
            true => entry.place.clone(),
            false => format!("{}: {}", entry.place, entry.tells),
        };
        before = entry.tells;
        text.say(2, line);
    }
    let how = "Letter case, blanks and hyphens don't matter, and parts before the last may be left \
        out: `dewmargin explain FILE \"floor / subfloor / bay\"`.";
    text.blank();
    text.say(0, how);
    text
}
