//! The chapter of a detail.

use super::content::{Chapter, Group, Item, Order, Table};
use super::words;
use crate::check::{self, Detail, Finding, Status};
use crate::model::Project;
use crate::model::drawn::DetailKind;
use crate::quantity::{Dimension, Style, TemperatureDifference};
use crate::report::figure::{LEFT_OUT_OF_CUT, Subject, assemblies_of};
use crate::report::sentence::Sites;
use crate::report::sentence_detail::failure;
use crate::study::JudgedDetail;

/// The cut, its places with their margins, what was found and how.
pub(super) fn chapter<'a>(
    project: &'a Project,
    one: &'a JudgedDetail<'a>,
    style: Style,
) -> Chapter<'a> {
    let note = Item::Note(LEFT_OUT_OF_CUT.to_owned());
    let mut groups = vec![Group::drawing(
        "Section",
        vec![Item::Figure(Subject::Detail(one)), note],
    )];
    if one.case.kind != DetailKind::RoofEdge {
        let curve = vec![Item::Figure(Subject::Curve(one))];
        groups.push(Group::narrow("Surface of the floor", curve));
    }
    groups.extend(corner(one));
    groups.extend(places(&one.verdict.findings, style));
    groups.extend(heat(one, style));
    if !one.route().is_empty() {
        let each = one.route().iter().map(|at| {
            let words = at.verdict.deciding().map_or("", |finding| finding.title());
            Item::Verdict(
                at.stop.name.clone(),
                at.verdict.status.word(),
                words.to_owned(),
            )
        });
        let heading = format!("At the stops (worst stop: {})", one.stop().name);
        groups.push(Group::narrow(&heading, each.collect()));
    }
    groups.push(words::findings(&one.verdict, Sites(one.stops), style));
    groups.push(words::methods(&words::DETAIL_METHODS));
    groups.push(words::caution_group(
        assemblies_of(project, one),
        &project.stops,
    ));
    let face = match one.result() {
        Ok(_) => words::reason(&one.verdict, Sites(one.stops), style),
        Err(why) => failure(why),
    };
    Chapter {
        name: one.name(),
        order: Order::Across,
        title: one.name(),
        word: Some(one.verdict.status.word()),
        face,
        stop: Some(one.stop()),
        groups,
    }
}

/// Plan and section through the outside corner, where it was solved.
fn corner<'a>(one: &'a JudgedDetail<'a>) -> Option<Group<'a>> {
    let corner = one.result().as_ref().ok()?.corner.as_ref()?;
    let figure = vec![Item::Figure(Subject::Corner(one))];
    let drawn = corner.as_ref().is_ok_and(|corner| corner.slices.is_some());
    drawn.then(|| Group::wide("Outside corner", figure))
}

/// Every place with its temperature, its error bar and its margin.
pub(super) fn places<'a>(findings: &[Finding], style: Style) -> Option<Group<'a>> {
    let (own, other) = (
        Dimension::Temperature.unit(style),
        Dimension::Temperature.unit(style.other()),
    );
    let kelvin = Dimension::Difference.unit(style.other());
    let bar = format!("± {own}");
    let margins = [format!("margin,\n{own}"), format!("margin,\n{kelvin}")];
    let headings = [
        "place",
        "check",
        own,
        other,
        &bar,
        &margins[0],
        &margins[1],
        "result",
    ];
    let mut table = Table::new(&headings, 2);
    for finding in findings {
        let (Some(place), Some(value), Detail::Spot(spot)) =
            (&finding.place, finding.value, &finding.detail)
        else {
            continue;
        };
        let margin = |style: Style| {
            finding
                .margin
                .map_or_else(|| "–".to_owned(), |margin| style.margin_number(margin))
        };
        table.row(vec![
            place.path.clone(),
            check_words(finding),
            style.number(value),
            style.other().number(value),
            style.error_bar_number(spot.bar),
            margin(style),
            margin(style.other()),
            match finding.status {
                Status::Note => "out of reach".to_owned(),
                status => status.word().to_owned(),
            },
        ]);
    }
    (!table.rows.is_empty()).then(|| Group::wide("Coldest places", vec![Item::Table(table)]))
}

fn check_words(finding: &Finding) -> String {
    let words = match finding.check {
        one if one.is_of_mold => "mold, 80 % at the surface",
        one if one == &check::detail::CONDENSATION => "condensation",
        one if one == &check::detail::WOOD => "wood at the steel",
        _ => "air leak",
    };
    words.to_owned()
}

/// Heat flow, psi, and how well the field closes.
fn heat<'a>(one: &JudgedDetail<'_>, style: Style) -> Option<Group<'a>> {
    let result = one.result().as_ref().ok()?;
    let flow = &result.conduction.heat_flow;
    let mut words = vec![format!(
        "Heat flow from the room {}.",
        style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar)
    )];
    words.push(match &result.psi {
        Some(psi) => format!(
            "psi {}, by inside dimensions.",
            style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar)
        ),
        None => "psi: there is no plane assembly to count it against.".to_owned(),
    });
    let dew = result.room_dew_point;
    words.push(format!(
        "Room air condenses below {}; temperatures lie {} apart, room to outdoors.",
        style.both(dew),
        style.show(TemperatureDifference::from_kelvin(
            one.stop().conditions.indoor.temperature.as_celsius()
                - one.stop().conditions.winter_mean.temperature.as_celsius()
        ))
    ));
    Some(Group::narrow(
        "Heat",
        words.into_iter().map(Item::Text).collect(),
    ))
}
