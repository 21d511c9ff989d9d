//! The chapter of a detail.

use super::content::{Chapter, Group, Item, Table};
use super::{Said, words};
use crate::check::{self, Detail, Finding, Status};
use crate::model::drawn::DetailKind;
use crate::quantity::{Dimension, Style, TemperatureDifference};
use crate::report::figure::Subject;
use crate::report::places::{PlaceRow, rows, rows_of};
use crate::report::sentence::Sites;
use crate::report::sentence_detail::failure;
use crate::study::JudgedDetail;

/// The cut, its places with their margins, what was found, and how its numbers came about.
pub(super) fn chapter<'a>(one: &'a JudgedDetail<'a>, said: &mut Said<'a>) -> Chapter<'a> {
    let style = said.style;
    let sites = Sites(one.stops);
    let mut groups = vec![Group::drawing("", vec![Item::Figure(Subject::Detail(one))])];
    groups.extend(numbered_places(one, style));
    let sources = &mut said.sources;
    groups.extend(words::findings(
        &one.verdict,
        sites,
        style,
        sources,
        is_place,
    ));
    if one.case.kind != DetailKind::RoofEdge {
        let curve = vec![Item::Figure(Subject::Curve(one))];
        groups.push(Group::narrow("Surface of the floor", curve));
    }
    groups.extend(corner(one));
    groups.extend(stops(one));
    groups.extend(said.worked.of_detail(one));
    Chapter {
        name: one.name(),
        title: one.name(),
        word: Some(one.verdict.status.word()),
        face: match one.result() {
            Ok(_) => words::reason(&one.verdict, sites, style),
            Err(why) => failure(why),
        },
        facts: heat(one, style),
        stop: Some(one.stop()),
        groups,
    }
}

/// Whether the table of places has it with all its numbers.
pub(super) fn is_place(finding: &Finding) -> bool {
    matches!(finding.detail, Detail::Spot(_)) && finding.place.is_some()
}

/// How it comes out at every stop of the route.
fn stops<'a>(one: &JudgedDetail<'_>) -> Option<Group<'a>> {
    if one.route().is_empty() {
        return None;
    }
    let mut table = Table::new(&["stop", "", "what speaks there"], 3);
    for at in one.route() {
        let words = at.verdict.deciding().map_or("", |finding| finding.title());
        table.row(vec![
            at.stop.name.clone(),
            at.verdict.status.word().to_owned(),
            words.to_owned(),
        ]);
    }
    let heading = format!("At the stops (worst stop: {})", one.stop().name);
    Some(Group::narrow(&heading, vec![Item::Table(table)]))
}

/// Plan and section through the outside corner, where it was solved.
fn corner<'a>(one: &'a JudgedDetail<'a>) -> Option<Group<'a>> {
    let corner = one.result().as_ref().ok()?.corner.as_ref()?;
    let figure = vec![Item::Figure(Subject::Corner(one))];
    let drawn = corner.as_ref().is_ok_and(|corner| corner.slices.is_some());
    drawn.then(|| Group::narrow("Outside corner", figure))
}

/// The places of the cut that is drawn, by the numbers of its dots.
fn numbered_places<'a>(one: &JudgedDetail<'_>, style: Style) -> Option<Group<'a>> {
    table_of(&rows_of(one), true, style)
}

/// Every place with its temperature, its error bar and its margin.
pub(super) fn places<'a>(findings: &[Finding], style: Style) -> Option<Group<'a>> {
    table_of(&rows(findings, None), false, style)
}

fn table_of<'a>(rows: &[PlaceRow<'_>], numbered: bool, style: Style) -> Option<Group<'a>> {
    let (own, other) = (
        Dimension::Temperature.unit(style),
        Dimension::Temperature.unit(style.other()),
    );
    let bar = format!("± {own}");
    let margin = format!("margin,\n{own}");
    let mut headings = vec!["place", "check", own, other, &bar, &margin, "result"];
    if numbered {
        headings.insert(0, "no.");
    }
    let mut table = Table::new(&headings, if numbered { 3 } else { 2 });
    for row in rows {
        let margin = row.margin;
        let number = numbered.then(|| row.number.to_string());
        let cells = [
            row.name.to_owned(),
            check_words(row.finding),
            style.number(row.value),
            style.other().number(row.value),
            style.error_bar_number(row.bar),
            margin.map_or_else(|| "–".to_owned(), |margin| style.margin_number(margin)),
            match row.finding.status {
                Status::Note => "out of reach".to_owned(),
                status => status.word().to_owned(),
            },
        ];
        table.row(number.into_iter().chain(cells).collect());
    }
    (!table.rows.is_empty()).then(|| Group::tables("Coldest places", vec![Item::Table(table)]))
}

fn check_words(finding: &Finding) -> String {
    let words = match finding.check {
        one if one.is_of_mold => "mold, 80 % at the surface",
        one if one == &check::detail::CONDENSATION => "condensation",
        one if one == &check::detail::WOOD => "wood at the steel",
        one if one == &check::detail::AIR_SEAL => "needs an air seal",
        _ => "air leak",
    };
    words.to_owned()
}

/// Heat flow, psi, and what room air meets.
fn heat(one: &JudgedDetail<'_>, style: Style) -> Vec<String> {
    let Ok(result) = one.result() else {
        return Vec::new();
    };
    let flow = &result.conduction.heat_flow;
    let mut lines = vec![format!(
        "Heat flow from the room {}.",
        style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar)
    )];
    lines.push(match &result.psi {
        Some(psi) => format!(
            "Edge loss (psi) {}, by inside dimensions.",
            style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar)
        ),
        None => "Edge loss (psi): there is no plane assembly to count it against.".to_owned(),
    });
    let dew = result.room_dew_point;
    lines.push(format!(
        "Room air condenses below {}; temperatures lie {} apart, room to outdoors.",
        style.both(dew),
        style.show(TemperatureDifference::from_kelvin(
            one.stop().conditions.indoor.temperature.as_celsius()
                - one.stop().conditions.winter_mean.temperature.as_celsius()
        ))
    ));
    lines
}
