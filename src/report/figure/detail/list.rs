//! What stands beside a drawing: its numbered places with their limits, the worst on top, then heat flow,
//! psi and remarks.

use super::super::lettering::wrap;
use super::super::sheet::{GRAY, LINE, Lettering, MOISTURE, Point, SIZE, Sheet};
use super::window::Window;
use super::{dots, measure};
use crate::check::{self, Status};
use crate::model::drawn::DetailKind;
use crate::quantity::{Dimension, Style, TemperatureDifference, month_short};
use crate::report::places::{PlaceRow, rows_of, worst_of_each};
use crate::report::sentence_detail::failure;
use crate::study::JudgedDetail;

/// Said where a result isn't as precise as was asked for.
pub(super) const UNSETTLED: &str =
    "Not settled: the error bars are wider than asked for. Don't build on these numbers.";
/// What stands there where the numbers lie between two methods.
const BRACKETED: &str = "Every number stands between finite volumes and finite elements; its ± \
    reaches both.";
const MORE: &str = "More stands in the tables or the text report.";
/// Error bars below this aren't told at each place, K.
const SMALL: f64 = 0.1;
/// For a number before its place.
const INDENT: i32 = 680;
/// Height of a place: two lines, and a gap.
const PLACE: i32 = 2 * LINE + 80;
/// The most places and the most lines under them.
const MOST: (usize, usize) = (14, 14);

/// A line under the places, and how it is set.
type Told = (String, Lettering);

/// Height of the places.
pub(super) fn height(one: &JudgedDetail<'_>) -> i32 {
    whole(worst_of_each(&rows_of(one)).len().min(MOST.0)) * PLACE
}

/// Draws as many places as there is room for, the worst first.
pub(super) fn draw(
    sheet: &mut Sheet,
    (from, to): (Point, Point),
    one: &JudgedDetail<'_>,
    window: &Window,
    style: Style,
) {
    let rows = worst_of_each(&rows_of(one));
    let room = usize::try_from((to.1 - from.1) / PLACE).unwrap_or(0);
    let shown = match rows.len() > room {
        true => room.saturating_sub(1),
        false => rows.len(),
    };
    let mut y = from.1;
    for row in &rows[..shown] {
        place(sheet, ((from.0, y), to.0), row, window, style);
        y += PLACE;
    }
    if shown < rows.len() {
        sheet.text(MORE, (from.0, y + SIZE), Lettering::PLAIN.color(GRAY));
    }
}

/// A place with its word, then how cold it is, its limit and its margin.
fn place(
    sheet: &mut Sheet,
    ((left, top), right): (Point, i32),
    row: &PlaceRow<'_>,
    window: &Window,
    style: Style,
) {
    let status = row.finding.status;
    let base = top + SIZE * 8 / 10;
    let center = (left + 290, base - SIZE * 36 / 100);
    dots::disc(sheet, center, row.number, status);
    let (bold, plain) = match status {
        Status::Note => {
            let gray = Lettering::PLAIN.color(GRAY);
            (gray, gray)
        }
        _ => (Lettering::PLAIN.bold(), Lettering::PLAIN),
    };
    let margin = row.margin.map(|margin| style.margin(margin));
    let is_over = row.margin.is_some_and(|margin| margin.as_kelvin() <= 0.0);
    let of_margin = match is_over && row.is_judged() {
        true => bold.color(MOISTURE),
        false => plain,
    };
    let name = format!("{}{}", row.name, whereabouts(row, window));
    let left = left + INDENT;
    let of_word = match status {
        Status::Fail => bold,
        _ => plain,
    };
    // A name isn't shortened for what a word hangs on.
    let room = right - left - bold.width(&name) - 200;
    let word = match word(row) {
        long if of_word.width(&long) > room => status.word().to_owned(),
        word => word,
    };
    pair(sheet, (left, base), right, (&name, bold), (&word, of_word));
    let at = (left, base + LINE);
    let margin = margin.unwrap_or_default();
    pair(
        sheet,
        at,
        right,
        (&cold(row, style), plain),
        (&margin, of_margin),
    );
}

/// Words at the left and at the right of a line; those at the left give way.
fn pair(
    sheet: &mut Sheet,
    (left, base): Point,
    right: i32,
    (words, set): (&str, Lettering),
    (end, of_end): (&str, Lettering),
) {
    sheet.text(end, (right, base), of_end.right());
    let room = right - left - of_end.width(end) - 200;
    sheet.text(&set.fit(words, room), (left, base), set);
}

/// What it came out as, and on what it hangs.
fn word(row: &PlaceRow<'_>) -> String {
    let finding = row.finding;
    match (finding.status, finding.on) {
        (Status::Note, _) => "not judged".to_owned(),
        (Status::Depends, Some(on)) => format!("depends on {}", on.words()),
        (status, _) => status.word().to_owned(),
    }
}

fn whereabouts(row: &PlaceRow<'_>, window: &Window) -> &'static str {
    match row.at {
        Some((x, y)) if window.shows(x, y) => "",
        Some(_) => ", outside of the drawing",
        None => "",
    }
}

/// `54.6 °F (12.6 °C) in Jan; mold at 54.7 °F`.
fn cold(row: &PlaceRow<'_>, style: Style) -> String {
    let own = match row.bar < SMALL {
        true => style.show(row.value),
        false => style.temperature_with_bar(row.value, row.bar),
    };
    let other = style.other().show(row.value);
    let month = match &row.finding.detail {
        check::Detail::Spot(spot) => spot.month.map(month_short),
        _ => None,
    };
    let month = month.map_or_else(String::new, |month| format!(" in {month}"));
    let limit = match row.finding.limit {
        _ if !row.is_judged() => "; air doesn't get there".to_owned(),
        Some(limit) if row.finding.check.is_of_mold => format!("; mold at {}", style.show(limit)),
        Some(limit) => format!("; dew point {}", style.show(limit)),
        None => String::new(),
    };
    format!("{own} ({other}){month}{limit}")
}

/// What the heat is called that a cut loses beyond its plane assemblies.
pub(super) fn loss(kind: DetailKind) -> &'static str {
    match kind {
        DetailKind::FloorEdge | DetailKind::RoofEdge => "Edge loss (psi)",
        DetailKind::CrossMembers | DetailKind::Rectangles => "Linear loss (psi)",
    }
}

/// What is told under the places.
fn remarks(one: &JudgedDetail<'_>, width: i32, style: Style) -> Vec<Told> {
    let (plain, bold) = (Lettering::PLAIN, Lettering::PLAIN.bold());
    let gray = plain.color(GRAY);
    let mut told: Vec<Told> = Vec::new();
    let mut say = |words: &str, set: Lettering| {
        let is_bold = matches!(set.face, plotters::style::FontStyle::Bold);
        let lines = wrap(words, set.size, is_bold, width);
        told.extend(lines.into_iter().map(|line| (line, set)));
    };
    match one.result() {
        Err(why) => say(&format!("No result. {}", failure(why)), bold),
        Ok(result) => {
            if !one.settled() {
                say(UNSETTLED, bold);
            }
            if result.bracketed() {
                say(BRACKETED, plain);
            }
            let flow = &result.conduction.heat_flow;
            let flow = style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar);
            say(&format!("Heat flow {flow}"), plain);
            match &result.psi {
                Some(psi) => {
                    let psi = style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar);
                    let loss = loss(one.case.kind);
                    say(&format!("{loss} {psi}, by inside dimensions"), plain);
                }
                None => say("psi: no plane assembly to count it against", gray),
            }
            let small = style.show(TemperatureDifference::from_kelvin(SMALL));
            say(
                &format!("Grid error below {small} where no ± stands."),
                gray,
            );
        }
    }
    say(&measure::in_words(one.case, style), gray);
    for note in &one.case.notes {
        say(&note.replace('`', ""), gray);
    }
    told
}

/// Height of the remarks in a width.
pub(super) fn height_of_remarks(one: &JudgedDetail<'_>, width: i32, style: Style) -> i32 {
    whole(remarks(one, width, style).len().min(MOST.1)) * LINE
}

/// Draws as many of them as there is room for.
pub(super) fn draw_remarks(
    sheet: &mut Sheet,
    (from, to): (Point, Point),
    one: &JudgedDetail<'_>,
    style: Style,
) {
    let all = remarks(one, to.0 - from.0, style);
    let room = usize::try_from((to.1 - from.1) / LINE).unwrap_or(0).max(2);
    let short = all.len() > room;
    let shown = if short { room - 1 } else { all.len() };
    let more = (MORE.to_owned(), Lettering::PLAIN.color(GRAY));
    let mut y = from.1 + SIZE * 8 / 10;
    for (words, set) in all.into_iter().take(shown).chain(short.then_some(more)) {
        sheet.text(&words, (from.0, y), set);
        y += LINE;
    }
}

/// A place in a sentence: `1, subfloor inboard of the plate: 44.0 °F (6.7 °C); dew point 48.7 °F, −4.6 °F`.
pub(super) fn in_words(row: &PlaceRow<'_>, style: Style) -> String {
    let margin = row.margin.map(|margin| style.margin(margin));
    let margin = margin.map_or_else(String::new, |margin| format!(", margin {margin}"));
    format!(
        "{}, {}: {}{margin}, {}.",
        row.number,
        row.name,
        cold(row, style),
        word(row)
    )
}

fn whole(count: usize) -> i32 {
    i32::try_from(count).unwrap_or(0)
}
