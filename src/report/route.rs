//! A house that moves: what holds at every stop of its route.

use super::range::widened;
use super::sentence::{Sites, sentence};
use super::table::Table;
use super::text::Text;
use crate::check::{Check, Status, worst};
use crate::quantity::Style;
use crate::study::{AtSite, Judged};

/// ` (worst stop: cold-continental)`, nothing for a single climate.
pub(super) fn worst_stop(one: &Judged<'_>) -> String {
    match one.route().is_empty() {
        true => String::new(),
        false => format!(" (worst stop: {})", one.stop().name),
    }
}

/// ` (numbers of cold-continental)`, nothing for a single climate.
pub(super) fn shown_site(one: &Judged<'_>) -> String {
    match one.route().is_empty() {
        true => String::new(),
        false => format!(" (tables of {})", one.stop().name),
    }
}

/// The verdict at every stop in one line, and why at those that don't pass.
pub(super) fn verdicts(one: &Judged<'_>, style: Style) -> Text {
    let mut text = Text::default();
    if one.route().is_empty() {
        return text;
    }
    let words: Vec<String> = one
        .route()
        .iter()
        .map(|at| format!("{} {}", at.stop.name, at.verdict.status.word()))
        .collect();
    text.say(2, format!("At the stops: {}.", words.join("; ")));
    for at in one
        .route()
        .iter()
        .filter(|at| at.stop.name != one.stop().name)
    {
        let severity = at.verdict.status.severity();
        if let (1.., Some(finding)) = (severity, at.verdict.deciding()) {
            let words = format!(
                "{}, {}. {} {}",
                finding.title(),
                finding.status.word(),
                sentence(finding, Sites(one.stops), style),
                widened(finding)
            );
            text.say(2, words);
        }
    }
    text
}

/// How every check comes out at every stop.
pub(super) fn table(one: &Judged<'_>) -> Text {
    let mut text = Text::default();
    let stops = one.route();
    if stops.is_empty() {
        return text;
    }
    let mut header = vec!["check by stop"];
    header.extend(stops.iter().map(|at| at.stop.name.as_str()));
    let mut table = Table::new(&header, 1);
    let mut checks: Vec<&Check> = Vec::new();
    for finding in one.route().iter().flat_map(|at| &at.verdict.findings) {
        if finding.status != Status::Note && !checks.contains(&finding.check) {
            checks.push(finding.check);
        }
    }
    for check in checks {
        let word = |at: &AtSite<'_>| {
            let of_check =
                |f: &&crate::check::Finding| f.check == check && f.status != Status::Note;
            let found = at.verdict.findings.iter().filter(of_check);
            let statuses: Vec<Status> = found.map(|finding| finding.status).collect();
            match statuses.is_empty() {
                true => "-".to_owned(),
                false => worst(statuses).word().to_owned(),
            }
        };
        let mut row = vec![check.title.to_owned()];
        row.extend(stops.iter().map(word));
        table.row(row);
    }
    text.table(2, table);
    text
}
