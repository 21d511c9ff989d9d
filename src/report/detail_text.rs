//! Details as text: verdict first, then the numbers with their error bars, then the reasons.

use super::edge_yaml::edge_yaml;
use super::sentence::{Sites, sentence};
use super::sentence_detail::{BRACKET, estimate_name, failure};
use super::table::Table;
use super::text::Text;
use crate::check::detail::SpotAt;
use crate::check::{self, Detail, Finding, Status, Verdict};
use crate::model::Stop;
use crate::model::drawn::DetailCase;
use crate::quantity::{Dimension, Length, Style, Temperature, TemperatureDifference, fixed};
use crate::solve::conduction::{Estimate, Method};
use crate::solve::detail::DetailResult;
use crate::study::JudgedDetail;

/// What the headline of a detail tells.
pub(super) struct Headline<'a> {
    pub(super) name: String,
    pub(super) verdict: &'a Verdict,
    pub(super) stops: &'a [Stop],
    /// The site that speaks.
    pub(super) speaks: &'a str,
    /// Why there is no result.
    pub(super) failure: Option<String>,
    pub(super) settled: bool,
    /// Every site with its word.
    pub(super) at_stops: Vec<(&'a str, Status)>,
}

/// Name and verdict, then the sentence that decides.
pub(super) fn headline(one: &JudgedDetail<'_>, style: Style) -> Text {
    let at_stops = one.sites.iter();
    let at_stops = at_stops.map(|at| (at.stop.name.as_str(), at.verdict.status));
    let told = Headline {
        name: one.name(),
        verdict: &one.verdict,
        stops: one.stops,
        speaks: &one.stop().name,
        failure: one.result().as_ref().err().map(failure),
        settled: one.settled(),
        at_stops: at_stops.collect(),
    };
    headline_of(&told, style)
}

/// The headline of a detail in two or three dimensions.
pub(super) fn headline_of(one: &Headline<'_>, style: Style) -> Text {
    let is_route = one.at_stops.len() > 1;
    let stop = match is_route {
        false => String::new(),
        true => format!(" (worst stop: {})", one.speaks),
    };
    let mut text = Text::default();
    let word = one.verdict.status.word();
    text.line(format!("{}: {word}{stop}", one.name));
    if let Some(why) = &one.failure {
        text.say(2, why);
        return text;
    }
    let judged = one
        .verdict
        .findings
        .iter()
        .filter(|f| f.status != Status::Note);
    if let Some(finding) = one.verdict.speaking() {
        text.say(2, sentence(finding, Sites(one.stops), style));
    }
    let others = judged
        .filter(|finding| finding.status.severity() > 0)
        .count();
    if others > 1 {
        let words = match others {
            2 => "finding isn't clear",
            _ => "findings aren't clear",
        };
        text.say(2, format!("{} more {words}.", others - 1));
    }
    if !one.settled {
        let words = "The error bars are wider than asked for: don't rely on these numbers.";
        text.say(2, words);
    }
    if is_route {
        let at_stops = one.at_stops.iter();
        let words: Vec<String> = at_stops
            .map(|(stop, status)| format!("{stop} {}", status.word()))
            .collect();
        text.say(2, format!("At the stops: {}.", words.join("; ")));
    }
    text
}

/// The numbers and reasons of a detail.
pub(super) fn section(one: &JudgedDetail<'_>, style: Style) -> Text {
    let mut text = Text::default();
    text.blank();
    text.line(one.name());
    for note in &one.case.notes {
        text.say(2, format!("{}.", note.trim_end_matches('.')));
    }
    if let Some(yaml) = edge_yaml(one.case, style.units) {
        let words = "drawn without being asked, by stated defaults; in the file, to be corrected:";
        text.say(2, words);
        for line in yaml.lines() {
            text.line(format!("    {line}"));
        }
    }
    if let Ok(result) = one.result() {
        text.table(2, places(&one.verdict.findings, "x, y", style));
        text.say(2, points_of(&result.points, style));
        text.say(2, flows(one.case, result, style));
        if !one.here().hand_checks.is_empty() {
            text.table(2, estimates(one, style));
        }
        text.say(2, reckoning(result));
    }
    text.add(reasons(&one.verdict, one.stops, style));
    text
}

/// Every place judged or told: its temperature with the bar, its margin, its factor, and the room
/// humidity at which trouble starts there.
pub(super) fn places(findings: &[Finding], whereabouts: &str, style: Style) -> Table {
    let unit = Dimension::Temperature.unit(style);
    let header = [
        "on the winter mean",
        "check",
        unit,
        "±",
        "margin",
        "night",
        "factor",
        "starts at",
        whereabouts,
    ];
    let mut table = Table::new(&header, 2);
    for finding in findings {
        let Detail::Spot(spot) = &finding.detail else {
            continue;
        };
        let name = finding.place.as_ref().map_or("", |place| &place.path);
        let margin = |margin: Option<TemperatureDifference>| {
            margin.map_or_else(|| "-".to_owned(), |margin| style.margin_number(margin))
        };
        let number = |t: Option<Temperature>| t.map_or_else(|| "-".to_owned(), |t| style.number(t));
        table.row(vec![
            name.to_owned(),
            check_word(finding).into(),
            number(finding.value),
            style.error_bar_number(spot.bar),
            margin(finding.margin),
            margin(finding.night_margin),
            spot.factor
                .map_or_else(|| "-".to_owned(), |factor| fixed(factor, 3)),
            spot.starts_at
                .map_or_else(|| "-".to_owned(), |rh| style.show(rh)),
            place(spot.at, style),
        ]);
    }
    table
}

/// Temperatures at the places asked for.
pub(super) fn points_of(points: &[(String, Option<Estimate>)], style: Style) -> String {
    let words = points.iter().map(|(name, found)| match found {
        Some(found) => format!(
            "{name} {} ± {}",
            style.show(Temperature::from_celsius(found.value)),
            style.error_bar_number(found.bar)
        ),
        None => format!("{name} -"),
    });
    let words: Vec<String> = words.collect();
    match words.is_empty() {
        true => String::new(),
        false => format!("points: {}.", words.join("; ")),
    }
}

/// `x, y` in the cut; of a place at the corner the smaller distance from the outer faces, and height.
fn place(at: SpotAt, style: Style) -> String {
    let places = match at {
        SpotAt::Cut(x, y) => vec![x, y],
        SpotAt::Corner([x, y, z]) => vec![x.min(y), z],
        SpotAt::Boxes(at) => at.to_vec(),
    };
    let places: Vec<String> = places.into_iter().map(|at| along(at, style)).collect();
    places.join(", ")
}

fn check_word(finding: &Finding) -> &'static str {
    match finding.check {
        one if one == &check::detail::CONDENSATION => "condensation",
        one if one.is_of_mold => "mold",
        _ if finding.status == Status::Note => "no air there",
        one if one == &check::detail::WOOD => "wood at steel",
        _ => "air leak",
    }
}

fn along(meters: f64, style: Style) -> String {
    fixed(Dimension::Length.value(meters, style), style.pick(1, 0))
}

fn flows(case: &DetailCase, result: &DetailResult, style: Style) -> String {
    let flow = &result.conduction.heat_flow;
    let mut line = format!(
        "heat flow {}",
        style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar)
    );
    if let Some(coupling) = &result.conduction.coupling {
        line += &format!(
            "; coupling coefficient {}",
            style.with_bar(Dimension::LinearTransmittance, coupling.value, coupling.bar)
        );
    }
    if let (Some(value), Some(clear)) = (&result.psi, result.plane_coupling) {
        let lengths: Vec<String> = case
            .references
            .iter()
            .map(|one| {
                format!(
                    "{} {}",
                    one.assembly,
                    style.show(Length::from_m(one.length))
                )
            })
            .collect();
        line += &format!(
            "; psi {} by inside dimensions ({}; between the members {})",
            style.with_bar(Dimension::LinearTransmittance, value.value, value.bar),
            lengths.join(", "),
            style.with_bar(Dimension::LinearTransmittance, clear, 0.0),
        );
    }
    line + "."
}

/// The simple estimates, each with its error and its side.
fn estimates(one: &JudgedDetail<'_>, style: Style) -> Table {
    let difference = format!("floor, {}", Dimension::Temperature.unit(style));
    let header = ["hand-checks", "heat flow", "", &difference, "", "wood", ""];
    let mut table = Table::new(&header, 1);
    for estimate in &one.here().hand_checks {
        let found = one.hand_check_errors(estimate.kind);
        let flow = found.and_then(|detail| detail.heat_flow_error);
        let error = |kelvin: Option<f64>| {
            kelvin.map_or_else(
                || ("-".to_owned(), String::new()),
                |kelvin| {
                    let side = if kelvin > 0.0 { "unsafe" } else { "safe" };
                    let margin = TemperatureDifference::from_kelvin(kelvin);
                    (style.margin_number(margin), side.to_owned())
                },
            )
        };
        let (floor, floor_side) = error(found.map(|detail| detail.floor_error));
        let (wood, wood_side) = error(found.and_then(|detail| detail.wood_error));
        table.row(vec![
            estimate_name(estimate.kind).into(),
            flow.map_or_else(
                || "-".to_owned(),
                |flow| format!("{} %", signed_percent(flow)),
            ),
            flow.map_or("", side_of_flow).into(),
            floor,
            floor_side,
            wood,
            wood_side,
        ]);
    }
    table
}

fn signed_percent(share: f64) -> String {
    let number = fixed((share * 100.0).abs(), 0);
    match share < 0.0 {
        true => format!("−{number}"),
        false => format!("+{number}"),
    }
}

fn side_of_flow(error: f64) -> &'static str {
    if error < 0.0 { "unsafe" } else { "safe" }
}

/// How the numbers came about.
fn reckoning(result: &DetailResult) -> String {
    let grids = &result.conduction.grids;
    let cells: Vec<String> = grids.iter().map(|grid| grid.cells.to_string()).collect();
    let Some(last) = grids.last() else {
        return String::new();
    };
    let report = &last.report;
    let method = match report.method {
        Method::Iterative => format!("{} iterations on the finest", report.iterations),
        Method::Direct => "a sparse factorization on the finest".to_owned(),
    };
    let order = result
        .conduction
        .heat_flow
        .order
        .map_or_else(String::new, |order| {
            format!(", observed order {}", fixed(order, 2))
        });
    let words = format!(
        "Conduction on grids of {} cells, {method}{order}; residual {:.0e}, heat balance {:.0e} of \
         the flow. Coldest places are those of the finest grid, their bars the difference to the one \
         before it.",
        cells.join(", "),
        report.residual,
        report.imbalance,
    );
    let bracket = match result.bracketed() {
        true => format!(" {BRACKET}."),
        false => String::new(),
    };
    words + &bracket
}

pub(super) fn reasons(verdict: &Verdict, stops: &[Stop], style: Style) -> Text {
    let mut text = Text::default();
    text.line("  reasons");
    let told = verdict
        .findings
        .iter()
        .filter(|f| f.check != &check::detail::HAND_CHECK);
    for finding in told {
        let line = format!(
            "{}, {}: {} [{}]",
            finding.status.word(),
            finding.title(),
            sentence(finding, Sites(stops), style),
            finding.source
        );
        text.say(4, line);
    }
    text
}
