//! The report of `check` as text: verdict first, then the numbers, then the reasons, cautions last and once.

use super::boxes_text;
use super::detail_text;
use super::path_table::path_table;
use super::range::{corners, decides, flips, widened};
use super::route;
use super::sentence::{Sites, sentence};
use super::short::in_short;
use super::text::Text;
use super::year_table;
use crate::check::{Finding, Status, cautions};
use crate::model::{Content, Openness, Stop, Substance};
use crate::quantity::{Dimension, Style, fixed};
use crate::solve::EndResult;
use crate::study::{Judged, Study};

/// All of `check`: verdict first, then the numbers, then the reasons.
#[must_use]
pub fn check_text(study: &Study<'_>, style: Style) -> Text {
    let (judged, details) = (&study.assemblies, &study.details);
    let mut text = super::screen::rows_text(study, style);
    text.blank();
    text.add(conditions(study, style));
    text.add(undrawn(study, style));
    for one in judged {
        text.blank();
        text.add(headline(one, style));
    }
    for one in details {
        text.blank();
        text.add(detail_text::headline(one, style));
    }
    for one in &study.volumes {
        text.blank();
        text.add(boxes_text::headline(one, style));
    }
    text.blank();
    text.say(0, reading_aid(style));
    for one in judged {
        text.add(section(one, style));
    }
    for one in details {
        text.add(detail_text::section(one, style));
    }
    for one in &study.volumes {
        text.add(boxes_text::section(one, style));
    }
    text.add(super::house::headlines(&study.houses, style));
    text.add(caution_text(study));
    text
}

/// The numbers and the reasons of an assembly.
pub(super) fn section(one: &Judged<'_>, style: Style) -> Text {
    let mut text = Text::default();
    text.blank();
    text.line(one.name() + &route::shown_site(one));
    for end in &one.result().ends {
        text.add(numbers(one, end, style));
    }
    text.add(year_table::table(one, style));
    text.add(made_of(one));
    text.add(route::table(one));
    text.line("  reasons");
    for finding in &one.verdict.findings {
        let parts = [
            sentence(finding, Sites(one.stops), style),
            corners(finding),
            decides(finding, style),
        ];
        let parts: Vec<&str> = parts
            .iter()
            .map(String::as_str)
            .filter(|part| !part.is_empty())
            .collect();
        let line = format!(
            "{}, {}: {} [{}]",
            word(finding),
            finding.title(),
            parts.join(" "),
            finding.source
        );
        text.say(4, line);
    }
    text
}

/// `pass`, or `depends on tightness`.
pub(super) fn word(finding: &Finding) -> String {
    let word = finding.status.word();
    match (finding.status, finding.on) {
        (Status::Depends, Some(on)) => format!("{word} on {}", on.words()),
        _ => word.to_owned(),
    }
}

/// What details leave out.
pub(super) const DETAIL_CAUTION: &str = "Details are steady cuts in two dimensions. The outside corner of a \
    floor edge, where two flanges meet and wood at the steel is colder, and that of a roof edge, the room's \
    upper corner, are solved in three wherever the cut itself doesn't fail: both edges alike, at a right \
    angle. Other corners, the hitch end, bolts, wind in the pan and air movement are not in them.";

/// What details in three dimensions leave out.
const BOXES_CAUTION: &str = "A detail in three dimensions is steady conduction through the boxes as \
    drawn: what isn't drawn, air movement and wind are not in it.";

/// What the columns of the path tables mean.
pub const COLUMNS: &str = "In the tables each row is a layer with its thickness, thermal resistance and permeance; then, at \
    its outer face on the winter mean: the temperature, the dew point of the vapor there by \
    diffusion, the margin between them, and where leaking room air gets to, the margin over the \
    room air's dew point on the winter mean (leak) and on the design night (night).";

fn reading_aid(style: Style) -> String {
    // The metric unit is too long for a heading.
    let metric = COLUMNS.replace("permeance;", "permeance, ng/(s·m²·Pa);");
    style.pick(COLUMNS.to_owned(), metric)
}

/// Conditions in both units, and the dew point they give; of a route, stop by stop.
pub(super) fn conditions(study: &Study<'_>, style: Style) -> Text {
    let project = study.project;
    conditions_of(&project.title, &project.stops, style)
}

/// Conditions under the project's title.
pub(super) fn conditions_of(title: &str, stops: &[Stop], style: Style) -> Text {
    let mut text = Text::default();
    match &stop_sentences(stops, style)[..] {
        [] => {}
        [one] => text.say(0, format!("{title}: {one}")),
        all => {
            text.say(0, format!("{title}: a route of {} stops", all.len()));
            for one in all {
                text.say(2, format!("- {one}"));
            }
        }
    }
    text
}

/// The edges that no detail shows and that can't be drawn without being asked, each with why.
fn undrawn(study: &Study<'_>, style: Style) -> Text {
    let mut text = Text::default();
    for edge in &study.project.undrawn {
        let at = edge.wall.as_ref().map(|wall| format!(" at {wall}"));
        let variant = edge.variant.as_ref().map(|name| format!(", {name}"));
        let strip = edge.strip.as_ref().map(|strip| format!(" at the {strip}"));
        let words = format!(
            "{}{}: the edge{}{} isn't drawn: {}.",
            edge.assembly,
            variant.unwrap_or_default(),
            strip.unwrap_or_default(),
            at.unwrap_or_default(),
            edge.why.in_units(style)
        );
        text.say(0, words);
    }
    text
}

/// The conditions at each stop in a sentence.
pub(super) fn stop_sentences(stops: &[Stop], style: Style) -> Vec<String> {
    stops.iter().map(|stop| surroundings(stop, style)).collect()
}

/// A climate with room air and outdoor air, and what the room air's dew point is.
pub(super) fn surroundings(stop: &Stop, style: Style) -> String {
    let air = |air: crate::model::AirState| {
        format!(
            "{} at {}",
            style.both(air.temperature),
            style.show(air.humidity)
        )
    };
    let conditions = &stop.conditions;
    let mut line = format!(
        "{}room {}; winter mean {}",
        climate(stop),
        air(conditions.indoor),
        air(conditions.winter_mean)
    );
    if let Some(night) = conditions.design_night {
        line += &format!("; design night {}", air(night));
    }
    let dew = conditions.indoor.dew_point();
    line += &format!(". Room air condenses below {}.", style.both(dew));
    for note in &stop.notes {
        line += &format!(" {}.", note.trim_end_matches('.'));
    }
    line
}

/// `climate wet-coast (invented, built in), marine zone 4; `, nothing where the file gives none.
fn climate(stop: &Stop) -> String {
    if stop.name.is_empty() {
        return String::new();
    }
    let zone = stop.code.zone.map(|zone| format!(", {zone}"));
    format!(
        "climate {} ({}){}; ",
        stop.name,
        stop.origin,
        zone.unwrap_or_default()
    )
}

/// Name and verdict, then the sentence that decides.
pub(super) fn headline(one: &Judged<'_>, style: Style) -> Text {
    let verdict = &one.verdict;
    let mut text = Text::default();
    text.line(format!(
        "{}: {}{}",
        one.name(),
        verdict.status.word(),
        route::worst_stop(one)
    ));
    let judged = verdict
        .findings
        .iter()
        .filter(|finding| finding.status != Status::Note);
    if let Some(finding) = verdict.speaking() {
        let words = format!(
            "{} {} {}",
            sentence(finding, Sites(one.stops), style),
            widened(finding),
            flips(finding, style)
        );
        text.say(2, words);
    }
    text.say(2, in_short(verdict, Sites(one.stops), style));
    text.add(route::verdicts(one, style));
    let others = judged
        .filter(|finding| finding.status.severity() > 0)
        .skip(1)
        .map(|finding| format!("{} {}", finding.title(), finding.status.word()));
    let others: Vec<String> = others.collect();
    if !others.is_empty() {
        text.say(2, format!("Not clear either: {}.", others.join(", ")));
    }
    text
}

fn numbers(one: &Judged<'_>, end: &EndResult, style: Style) -> Text {
    let mut text = Text::default();
    if one.case.assembly.has_vented_air() {
        let words = match end.openness {
            Openness::Closed => "vented air spaces taken closed",
            Openness::Open => "vented air spaces taken open",
        };
        text.say(2, words);
    }
    for path in &end.paths {
        text.add(path_table(path, end, one, style));
    }
    text.say(2, transmittance(end, style));
    text.say(2, weight(one, style));
    text
}

/// What every layer, member and strip is made of, and where its numbers come from.
fn made_of(one: &Judged<'_>) -> Text {
    let assembly = &one.case.assembly;
    let over = assembly.strips.iter().flat_map(|strip| &strip.over);
    let mut parts: Vec<(String, &Substance)> = Vec::new();
    for layer in assembly.layers.iter().chain(over) {
        if let Content::Solid(substance) = &layer.content {
            parts.push((layer.name.clone(), substance));
        }
        if let Some(framing) = &layer.framing {
            parts.push((format!("{} framing", layer.name), &framing.substance));
        }
    }
    let strips = assembly
        .strips
        .iter()
        .map(|strip| (strip.name.clone(), &*strip.metal));
    parts.extend(strips);
    let mut text = Text::default();
    text.say(
        2,
        "made of (R at the layer's own mean temperature; sources by `dewmargin materials`)",
    );
    for (name, substance) in parts {
        let sources = substance.sources.join("; ");
        text.say(4, format!("{name}: {}. {sources}", substance.label));
    }
    text
}

fn transmittance(end: &EndResult, style: Style) -> String {
    let u = &end.transmittance;
    let mut line = format!(
        "U {} by the parallel path, {} by isothermal planes",
        Dimension::Transmittance.number(u.parallel_path, style),
        Dimension::Transmittance.show(u.isothermal_planes, style),
    );
    match (u.combined, u.strips_in_series) {
        (Some(combined), _) => {
            line += &format!(
                "; {} by the combined method, error at most {} %.",
                Dimension::Transmittance.number(combined, style),
                fixed(u.combined_error * 100.0, 1)
            );
        }
        (None, Some(series)) => {
            line += &format!(
                "; in isothermal planes the metal stands beside what it replaces, each with its own outer film: a bracket, since metal runs through (R'/R'' {}); the combined method isn't applicable. \
                 With the strips in series with what lies below them it would be {}: for comparison only.",
                fixed(u.ratio, 2),
                Dimension::Transmittance.number(series, style)
            );
        }
        (None, None) => {
            line += &format!(
                "; the combined method isn't applicable (R'/R'' {}, over 1.5).",
                fixed(u.ratio, 2)
            );
        }
    }
    line
}

fn weight(one: &Judged<'_>, style: Style) -> String {
    let thickness = style.show(one.result().thickness);
    let weight = match one.result().weight {
        Some(weight) => style.show(weight),
        None => format!("weight not known for {}", one.result().unweighed.join(", ")),
    };
    if one.result().thickness.as_m() == 0.0 {
        return format!("thickness not given, {weight}");
    }
    format!("{thickness} thick, {weight}")
}

pub(super) fn caution_text(study: &Study<'_>) -> Text {
    let assemblies = study.assemblies.iter().map(|one| &one.case.assembly);
    let mut list = cautions(assemblies, &study.project.stops);
    if !study.details.is_empty() {
        list.insert(list.len() - 1, DETAIL_CAUTION);
    }
    if !study.volumes.is_empty() {
        list.insert(list.len() - 1, BOXES_CAUTION);
    }
    let mut text = Text::default();
    text.cautions(list);
    text
}
