//! What stands beside a drawing: places with their margins, heat flow, psi, the reason.

use super::super::lettering::wrap;
use super::super::sheet::{GRAY, LINE, Lettering, MOISTURE, Point, SIZE, Sheet};
use super::measure;
use crate::check::{self, Detail, Finding, Status};
use crate::quantity::{Dimension, Style, Temperature};
use crate::report::sentence_detail::failure;
use crate::solve::detail::DetailResult;
use crate::study::JudgedDetail;

/// Said where a result isn't as precise as was asked for.
pub(super) const UNSETTLED: &str =
    "Not settled: the error bars are wider than asked for. Don't build on these numbers.";
/// What stands there where the numbers lie between two methods.
const BRACKETED: &str = "Every number stands between finite volumes and finite elements; its ± \
    reaches both.";
const MORE: &str = "More stands in the tables or the text report.";

/// A line with what ends it at the right.
type Row = (String, String, Lettering);

/// The most rows the sheet grows for.
const MOST_ROWS: usize = 34;

/// Everything that could be said.
fn all(one: &JudgedDetail<'_>, width: i32, style: Style) -> Vec<Row> {
    match one.result() {
        Ok(result) => rows(one, result, width, style),
        Err(why) => {
            let sentence = format!("No result. {}", failure(why));
            let mut rows = broken(&sentence, width, Lettering::PLAIN.bold());
            let sizes = measure::in_words(one.case, style);
            rows.extend(broken(&sizes, width, Lettering::PLAIN.color(GRAY)));
            rows
        }
    }
}

/// Height of all rows, or of as many as there may be.
pub(super) fn height(one: &JudgedDetail<'_>, width: i32, style: Style) -> i32 {
    let rows = all(one, width, style).len().min(MOST_ROWS);
    i32::try_from(rows).unwrap_or(0) * LINE
}

/// Draws as many rows as there is room for.
pub(super) fn draw(
    sheet: &mut Sheet,
    (from, to): (Point, Point),
    one: &JudgedDetail<'_>,
    style: Style,
) {
    let width = to.0 - from.0;
    let rows = all(one, width, style);
    let room = usize::try_from((to.1 - from.1) / LINE).unwrap_or(0).max(2);
    let short = rows.len() > room;
    let shown = if short { room - 1 } else { rows.len() };
    let more = (MORE.to_owned(), String::new(), Lettering::PLAIN.color(GRAY));
    let mut y = from.1 + SIZE * 8 / 10;
    for (words, right, set) in rows.into_iter().take(shown).chain(short.then_some(more)) {
        sheet.text(&right, (to.0, y), set.right());
        let room = width - set.width(&right) - if right.is_empty() { 0 } else { 200 };
        sheet.text(&set.fit(&words, room), (from.0, y), set);
        y += LINE;
    }
}

fn broken(words: &str, width: i32, set: Lettering) -> Vec<Row> {
    let bold = matches!(set.face, plotters::style::FontStyle::Bold);
    wrap(words, set.size, bold, width)
        .into_iter()
        .map(|line| (line, String::new(), set))
        .collect()
}

fn rows(one: &JudgedDetail<'_>, result: &DetailResult, width: i32, style: Style) -> Vec<Row> {
    let (plain, bold) = (Lettering::PLAIN, Lettering::PLAIN.bold());
    let gray = plain.color(GRAY);
    let mut rows = Vec::new();
    if !one.settled() {
        rows.extend(broken(UNSETTLED, width, bold));
    }
    if result.bracketed() {
        rows.extend(broken(BRACKETED, width, plain));
    }
    let flow = &result.conduction.heat_flow;
    let flow = style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar);
    rows.extend(broken(&format!("Heat flow {flow}"), width, plain));
    rows.extend(match &result.psi {
        Some(psi) => {
            let psi = style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar);
            broken(&format!("psi {psi}, by inside dimensions"), width, plain)
        }
        None => broken("psi: no plane assembly to count it against", width, gray),
    });
    let (judged, noted): (Vec<&Finding>, Vec<&Finding>) = one
        .verdict
        .findings
        .iter()
        .filter(|finding| finding.check != &check::detail::HAND_CHECK)
        .partition(|finding| finding.status != Status::Note);
    for finding in judged.into_iter().chain(noted) {
        rows.extend(place(finding, style));
    }
    let sizes = measure::in_words(one.case, style);
    rows.extend(broken(&sizes, width, gray));
    for note in &one.case.notes {
        rows.extend(broken(note, width, gray));
    }
    rows
}

/// A place with its word, then how cold it is and its margin.
fn place(finding: &Finding, style: Style) -> Vec<Row> {
    let (Some(place), Some(value), Some(margin), Detail::Spot(spot)) = (
        &finding.place,
        finding.value,
        finding.margin,
        &finding.detail,
    ) else {
        return Vec::new();
    };
    let (plain, bold) = (Lettering::PLAIN, Lettering::PLAIN.bold());
    let what = match (finding.check.is_of_mold, spot.month) {
        (true, Some(month)) => format!(", mold, {}", crate::quantity::month_name(month)),
        (true, None) => ", mold".to_owned(),
        _ if finding.check == &check::detail::CONDENSATION => ", condensation".to_owned(),
        _ if finding.status == Status::Note => ", out of the air's reach".to_owned(),
        _ => String::new(),
    };
    let celsius = |value: Temperature| style.other().show(value);
    let temperature = format!(
        "{} ({})",
        style.temperature_with_bar(value, spot.bar),
        celsius(value)
    );
    let set = match margin.as_kelvin() <= 0.0 && finding.status != Status::Note {
        true => plain.color(MOISTURE),
        false => plain,
    };
    let word = match finding.status {
        Status::Note => "",
        status => status.word(),
    };
    let (head, tail) = match finding.status {
        Status::Note => (plain.color(GRAY), plain.color(GRAY)),
        _ => (bold, set),
    };
    vec![
        (format!("{}{what}", place.path), word.to_owned(), head),
        (temperature, style.margin(margin), tail),
    ]
}
