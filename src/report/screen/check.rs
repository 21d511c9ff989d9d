//! The first screen of `check`.

use super::brief::grouped;
use super::phrase::{Words, of_house};
use super::{CAUTION, Columns, Line, ROWS, Row, Screen, UNSETTLED, counted, variants};
use rayon::prelude::*;

use crate::check::{Finding, On, Status};
use crate::quantity::Style;
use crate::report::Text;
use crate::report::remedy::words;
use crate::study::{Part, Study, Subject};

/// How much is told, from everything to the worst part alone with the others' amounts.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Telling {
    Whole,
    PassesByName,
    DependsInALine,
    AlsoByName,
    DependsByAmount,
    FailsInALine,
    FailsByAmount,
}

/// Lines of what to do first, where parts that fail are told in a line each.
const REMEDIES: usize = 3;

const TELLINGS: [Telling; 7] = [
    Telling::Whole,
    Telling::PassesByName,
    Telling::DependsInALine,
    Telling::AlsoByName,
    Telling::DependsByAmount,
    Telling::FailsInALine,
    Telling::FailsByAmount,
];

/// The first screen of `check` on a file called `file`, set to a width.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::{report::screen, study::Study};
///
/// let text = include_str!("../../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("cabin-wall.yaml", text).unwrap();
/// let style = Style { units: UnitSystem::Imperial };
/// let screen = screen::check_screen(&Study::of(&project), "cabin-wall.yaml", style, 80);
/// assert!(screen.lines.len() <= screen::ROWS);
/// ```
#[must_use]
pub fn check_screen(study: &Study<'_>, file: &str, style: Style, width: usize) -> Screen {
    let variant = study.options().first().copied().flatten();
    let parts = study.parts(variant);
    let remedies = remedies(study, &parts, style);
    let told = |telling| screen(study, (&parts, &remedies), telling, (file, style, width));
    let mut screens = TELLINGS.into_iter().map(told);
    let first = screens.next().unwrap_or_default();
    if first.lines.len() <= ROWS {
        return first;
    }
    let rest: Vec<Screen> = screens.collect();
    let fits = rest.iter().position(|screen| screen.lines.len() <= ROWS);
    let n = fits.unwrap_or(rest.len() - 1);
    rest.into_iter().nth(n).unwrap_or(first)
}

fn screen(
    study: &Study<'_>,
    (parts, remedies): (&[Part<'_>], &[(String, String)]),
    telling: Telling,
    (file, style, width): (&str, Style, usize),
) -> Screen {
    let columns = Columns::new(parts.iter().map(|part| part.name), width);
    let mut screen = Screen::default();
    screen.say(&verdict_line(study, parts), width);
    screen.say(&air(study, style), width);
    screen.blank();
    let (told, named): (Vec<&Part<'_>>, Vec<&Part<'_>>) =
        parts.iter().partition(|part| is_told(part, parts, telling));
    let rows = told
        .iter()
        .map(|part| row(Words { study, part, style }, telling));
    screen
        .lines
        .extend(columns.rows(&rows.collect::<Vec<Row>>()));
    let named: Vec<Words<'_>> = named
        .into_iter()
        .map(|part| Words { study, part, style })
        .collect();
    screen.lines.extend(by_name(&named, columns));
    screen.blank();
    if let Some(text) = variants(study, parts, file) {
        screen.lines.extend(columns.aside("variants", &text));
    }
    let most = match telling < Telling::FailsInALine {
        true => remedies.len(),
        false => REMEDIES,
    };
    screen.lines.extend(do_first(remedies, most, columns));
    screen.lines.extend(more(parts, columns));
    screen
}

/// The verdict and a row for each part, as text: the head of everything longer.
pub(in crate::report) fn rows_text(study: &Study<'_>, style: Style) -> Text {
    let variant = study.options().first().copied().flatten();
    let parts = study.parts(variant);
    let mut text = Text::default();
    text.say(0, verdict_line(study, &parts));
    text.blank();
    let rows = parts
        .iter()
        .map(|part| row(Words { study, part, style }, Telling::Whole));
    text.rows(rows.collect());
    for (n, (names, words)) in remedies(study, &parts, style).iter().enumerate() {
        if n == 0 {
            text.blank();
            text.line("do first");
        }
        text.say(2, format!("{names}: {words}"));
    }
    text
}

/// Whether a part has a row of its own; the worst has in any case.
fn is_told(part: &Part<'_>, parts: &[Part<'_>], telling: Telling) -> bool {
    match part.status.severity() {
        0 => telling < Telling::PassesByName,
        1 => telling < Telling::DependsByAmount,
        _ => telling < Telling::FailsByAmount || part.name == parts[0].name,
    }
}

/// The verdict as the first screen opens with it.
#[must_use]
pub fn check_verdict(study: &Study<'_>) -> Text {
    let variant = study.options().first().copied().flatten();
    let mut text = Text::default();
    text.say(0, verdict_line(study, &study.parts(variant)));
    text
}

/// `Fern Hollow cabin: 1 of 5 parts fails; 1 depends, on tightness`
pub(in crate::report) fn verdict_line(study: &Study<'_>, parts: &[Part<'_>]) -> String {
    let count = |severity: u8| {
        let of_it = parts
            .iter()
            .filter(|part| part.status.severity() == severity);
        of_it.count()
    };
    let (fails, depends) = (count(2), count(1));
    let of = match parts.len() {
        1 => "part".to_owned(),
        all => format!("of {all} parts"),
    };
    let mut words = Vec::new();
    match fails {
        0 => {}
        1 => words.push(format!("1 {of} fails")),
        fails => words.push(format!("{fails} {of} fail")),
    }
    if depends > 0 {
        let of = if fails == 0 {
            format!(" {of}")
        } else {
            String::new()
        };
        let verb = if depends == 1 { "depends" } else { "depend" };
        words.push(format!("{depends}{of} {verb}, {}", hangs_on(parts)));
    }
    let said = match (words.is_empty(), parts.len()) {
        (true, 1) => "its one part passes".to_owned(),
        (true, all) => format!("all {all} parts pass"),
        _ => words.join("; "),
    };
    let title = &study.project.title;
    let settled = match study.settled() {
        true => "",
        false => UNSETTLED,
    };
    format!("{title}: {said}{settled}")
}

/// `on tightness`, or `2 on tightness, 1 on a cold spell`, in the order they rank.
fn hangs_on(parts: &[Part<'_>]) -> String {
    let count = |on: On| {
        let depends = parts.iter().filter(|part| part.status.severity() == 1);
        depends.filter(|part| part.on == Some(on)).count()
    };
    let counts = On::ALL.into_iter().map(|on| (count(on), on));
    let counts: Vec<(usize, On)> = counts.filter(|(count, _)| *count > 0).collect();
    match counts[..] {
        [(_, on)] => format!("on {}", on.words()),
        _ => {
            let each = counts
                .iter()
                .map(|(n, on)| format!("{n} on {}", on.words()));
            each.collect::<Vec<_>>().join(", ")
        }
    }
}

/// The room's air and the sites.
pub(super) fn air(study: &Study<'_>, style: Style) -> String {
    let stops = &study.project.stops;
    let rooms = stops.iter().map(|stop| {
        let room = stop.conditions.indoor;
        format!(
            "room {} at {}, dew point {}",
            style.show(room.temperature),
            style.show(room.humidity),
            style.show(room.dew_point())
        )
    });
    let mut rooms: Vec<String> = rooms.collect();
    rooms.dedup();
    let names = stops.iter().map(|stop| stop.name.as_str());
    let names: Vec<&str> = names.filter(|name| !name.is_empty()).collect();
    let outdoors = match (&stops[..], names.len()) {
        ([stop], _) => {
            let winter = stop.conditions.winter_mean;
            let name = match stop.name.as_str() {
                "" => String::new(),
                name => format!("{name}, "),
            };
            let (at, humidity) = (style.show(winter.temperature), style.show(winter.humidity));
            format!("; {name}winter mean {at} at {humidity}")
        }
        _ => format!("; sites {}", names.join(", ")),
    };
    match &rooms[..] {
        [room] => room.clone() + &outdoors,
        // Each site has its own room.
        _ => {
            let each = rooms
                .iter()
                .zip(&names)
                .map(|(room, name)| format!("{name}: {room}"));
            each.collect::<Vec<_>>().join("; ")
        }
    }
}

/// A part with what is told of it.
fn row(words: Words<'_>, telling: Telling) -> Row {
    Row {
        name: words.part.name.to_owned(),
        status: words.part.status,
        told: told(words, telling),
    }
}

/// What is told of a part, in paragraphs.
fn told(words: Words<'_>, telling: Telling) -> Vec<String> {
    let part = words.part;
    match (part.subject, part.speaking()) {
        (Subject::House(house), _) => vec![of_house(house, words.style)],
        (_, Some(finding)) if part.status == Status::Fail && telling >= Telling::FailsInALine => {
            vec![in_a_line(words, finding)]
        }
        (_, Some(finding)) if part.status == Status::Fail => {
            let told = [words.phrase(finding), words.ground(finding), others(part)];
            told.into_iter().chain(words.also_by_name()).collect()
        }
        (_, Some(finding)) if part.status.severity() > 0 => {
            let also = match telling < Telling::AlsoByName {
                true => words.also(),
                false => words.also_by_name(),
            };
            let said = words.phrase(finding);
            let told = match telling < Telling::DependsInALine {
                true => vec![said, words.ground(finding)],
                false => vec![in_a_line(words, finding)],
            };
            told.into_iter().chain(also).collect()
        }
        (_, _) if part.status.severity() > 0 => vec!["it can't be judged".to_owned()],
        _ => vec![words.passes()],
    }
}

/// What was found, at which site and when.
fn in_a_line(words: Words<'_>, finding: &Finding) -> String {
    let said = [words.phrase(finding), words.site_and_time(finding)];
    let said: Vec<String> = said.into_iter().filter(|said| !said.is_empty()).collect();
    said.join("; ")
}

/// `2 more checks fail: can it dry, air leak`; nothing where the one told is alone.
fn others(part: &Part<'_>) -> String {
    let Some(told) = part.speaking().filter(|_| part.status == Status::Fail) else {
        return String::new();
    };
    let mut titles: Vec<&str> = Vec::new();
    for finding in &part.verdict.findings {
        let title = finding.title();
        let fails = finding.status == Status::Fail && finding.check != told.check;
        if fails && !titles.contains(&title) {
            titles.push(title);
        }
    }
    match titles.is_empty() {
        true => String::new(),
        // Titles have commas of their own.
        false => format!("fails too: {}", titles.join("; ")),
    }
}

/// What isn't told row by row, counted and named; what depends with what it hangs on and by how much.
fn by_name(parts: &[Words<'_>], columns: Columns) -> Vec<Line> {
    let of = |severity: u8| -> Vec<Words<'_>> {
        let of_it = parts.iter().copied();
        of_it
            .filter(|words| words.part.status.severity() == severity)
            .collect()
    };
    let mut lines = Vec::new();
    let words = [(2, Status::Fail), (1, Status::Depends), (0, Status::Pass)];
    for (severity, status) in words {
        let of_it = of(severity);
        let members: Vec<&Part<'_>> = of_it.iter().map(|words| words.part).collect();
        let (name, told) = match (&of_it[..], severity) {
            ([], _) => continue,
            // One alone has its name where names stand.
            ([alone], 1 | 2) => (alone.part.name.to_owned(), vec![alone.alone()]),
            ([alone], _) => (alone.part.name.to_owned(), Vec::new()),
            ([first, ..], 1 | 2) => (String::new(), grouped(&members, first.style)),
            _ => {
                let names: Vec<&str> = members.iter().map(|part| part.name).collect();
                (String::new(), vec![names.join(", ")])
            }
        };
        let name = match name.is_empty() {
            true => counted(members.len(), "part", "parts"),
            false => name,
        };
        lines.extend(columns.row(&[&name], status, &told));
    }
    lines
}

/// What to do first about what fails or depends, as drawn: one line for parts of the same words.
fn remedies(study: &Study<'_>, parts: &[Part<'_>], style: Style) -> Vec<(String, String)> {
    let worded = parts.par_iter().map(|part| {
        let remedy = study.remedy(part);
        let told = remedy.map(|remedy| words(&remedy, style));
        (part.name, told)
    });
    let worded: Vec<(&str, Option<String>)> = worded.collect();
    let mut lines: Vec<(String, String)> = Vec::new();
    for (name, words) in worded {
        let Some(words) = words else { continue };
        match lines.iter_mut().find(|(_, said)| *said == words) {
            Some((names, _)) => *names = format!("{names}, {name}"),
            None => lines.push((name.to_owned(), words)),
        }
    }
    lines
}

fn do_first(remedies: &[(String, String)], most: usize, columns: Columns) -> Vec<Line> {
    let mut lines = Vec::new();
    for (names, words) in remedies.iter().take(most) {
        let heading = if lines.is_empty() { "do first" } else { "" };
        lines.extend(columns.aside(heading, &format!("{names}: {words}")));
    }
    let more = remedies.len().saturating_sub(most);
    if more > 0 {
        let words = format!("{more} more, for the others: --full, or --part NAME");
        lines.extend(columns.aside("", &words));
    }
    lines
}

fn more(parts: &[Part<'_>], columns: Columns) -> Vec<Line> {
    let name = parts.first().map_or("NAME", |part| part.name);
    let quoted = match name.contains(' ') {
        true => format!("\"{name}\""),
        false => name.to_owned(),
    };
    let text = format!("--part {quoted}, or --full; dewmargin explain, plot, packet");
    let mut lines = columns.aside("more", &text);
    lines.push(Line::plain(CAUTION));
    lines
}
