//! A part under one heading, and what stands in it.

use maud::{Markup, PreEscaped, html};

use super::super::calculation::parts;
use super::super::content::{Calculation, Group, Item};
use super::{Setting, table, typed, verdict};
use crate::report::explain::Step;
use crate::report::figure::Subject;

/// The part of a chapter; `name` is what its figures go by on the page.
pub(super) fn group(group: &Group<'_>, chapter: &str, name: &str, setting: Setting<'_>) -> Markup {
    if let [Item::Steps(steps)] = &group.items[..] {
        return calculation(&group.heading, steps);
    }
    let each = group.items.iter().enumerate();
    html! {
        div.group {
            @if !group.heading.is_empty() { h3 { bdi { (typed(&group.heading)) } } }
            @for (n, one) in each {
                @let before = n.checked_sub(1).and_then(|n| group.items.get(n));
                @match (one, before, group.items.get(n + 1)) {
                    // The table has it for its caption.
                    (Item::Caption(_), _, Some(Item::Table(_))) => {}
                    (Item::Table(rows), Some(Item::Caption(words)), _) => {
                        (table::table(rows, words, true))
                    }
                    (Item::Table(rows), ..) => (table::table(rows, &group.heading, false)),
                    (Item::Figure(subject), ..) => {
                        (figure(*subject, chapter, &format!("{name}-{n}"), setting))
                    }
                    (one, ..) => (item(one)),
                }
            }
        }
        "\n"
    }
}

fn item(item: &Item<'_>) -> Markup {
    html! {
        @match item {
            Item::Text(words) => p { (typed(words)) },
            Item::Caption(words) => p.caption { (typed(words)) },
            Item::Note(words) => p.note { (typed(words)) },
            Item::Verdict(name, word, words) => div.finding {
                h4 { bdi { (typed(name)) } " " (verdict(word)) }
                @if !words.is_empty() { p { (typed(words)) } }
            },
            Item::Steps(steps) => (calculation(&steps.derivation.title, steps)),
            Item::Table(_) | Item::Figure(_) | Item::Blank(_) => {}
        }
    }
}

/// A figure on white, which scrolls by itself where the page is narrower.
fn figure(subject: Subject<'_>, chapter: &str, name: &str, setting: Setting<'_>) -> Markup {
    let what = match subject {
        Subject::Section(_) => "section",
        Subject::Year(_) => "the year",
        Subject::Detail(_) => "the cut",
        Subject::Curve(_) => "the floor's surface",
        Subject::Corner(_) => "the outside corner",
        Subject::House(_) => "across and along",
        Subject::WidthStack(_) => "width stack",
        Subject::Weight(_) => "weight",
    };
    let title = format!("{chapter}: {what}");
    let drawing = subject.drawing(&title, setting.style, setting.look);
    html! {
        @if let Some(drawing) = drawing {
            figure.scroll tabindex="0" aria-label=(typed(&title)) {
                (PreEscaped(drawing.svg_of_page(name)))
            }
        }
    }
}

/// A hand calculation, folded.
fn calculation(title: &str, calculation: &Calculation) -> Markup {
    let derivation = &calculation.derivation;
    html! {
        details {
            summary { (typed(title)) }
            p { (typed(&derivation.answers)) " Source: " (typed(&derivation.source)) "." }
            @for known in &calculation.known { p { (typed(known)) } }
            ol.steps { @for one in &derivation.steps { (step(one)) } }
            @for note in &derivation.notes { p.note { (typed(note)) } }
        }
        "\n"
    }
}

/// A step: its words, then what is equal below each other.
fn step(step: &Step) -> Markup {
    html! {
        li.result[step.is_result] {
            @if !step.words.is_empty() { p { (typed(&step.words)) } }
            @let parts = parts(step);
            @let (asked, equal) = parts.split_at(asked(step).min(parts.len()));
            p.formula {
                span { (typed(&asked.join(" = "))) }
                @for part in equal { span { " = " (typed(part)) } }
            }
        }
    }
}

/// How many parts stand on the first line: the symbol with its formula.
fn asked(step: &Step) -> usize {
    let said = [&step.symbol, &step.formula];
    said.iter().filter(|part| !part.is_empty()).count().max(1)
}
