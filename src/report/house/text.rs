//! The report of `house` as text: verdict first, then variants side by side, then every term.

use super::{heat, sentence, table, words};
use crate::check::Status;
use crate::check::house::TONGUE;
use crate::model::Project;
use crate::quantity::Style;
use crate::report::Text;
use crate::study::JudgedHouse;

/// The report of `house`; of one variant alone where its name is given, `as drawn` for none.
#[must_use]
pub fn house_text(
    project: &Project,
    houses: &[JudgedHouse<'_>],
    only: Option<&str>,
    style: Style,
) -> Text {
    let mut text = Text::default();
    let Some(base) = houses.first() else {
        return text;
    };
    let is_shown = |one: &&JudgedHouse<'_>| only.is_none_or(|name| one.variant() == name);
    let shown: Vec<&JudgedHouse<'_>> = houses.iter().filter(is_shown).collect();
    text.say(0, opening(project, base, style));
    for one in &shown {
        text.blank();
        text.add(headline(one, base, style));
    }
    if shown.len() > 1 {
        text.blank();
        text.line("side by side");
        text.table(2, table::compared(houses, style));
        let words =
            "lost: head room at the same overall height; of edges: their part of the heat loss.";
        text.say(2, words);
    }
    for one in &shown {
        text.say(2, heat::covered(one, base, style));
    }
    if let Some(first) = shown.first() {
        text.add(details(first, style));
    }
    if shown.len() > 1 {
        text.blank();
        text.say(0, "The tables of a variant: `--variant NAME`.");
    }
    text.cautions(words::CAUTIONS);
    text
}

/// How each house comes out and why; the tables are those of `house`. Empty without a house.
pub(in crate::report) fn headlines(houses: &[JudgedHouse<'_>], style: Style) -> Text {
    let mut text = Text::default();
    for one in houses {
        text.blank();
        text.add(headline(one, &houses[0], style));
    }
    text
}

fn opening(project: &Project, base: &JudgedHouse<'_>, style: Style) -> String {
    let heat = &base.result.heat;
    let night = heat.design_night.map_or_else(
        || "no design night given".to_owned(),
        |night| format!("design night {}", style.show(night)),
    );
    let stop = match base.stop.name.as_str() {
        "" => String::new(),
        name if project.stops.len() > 1 => format!(" at the coldest stop, {name}"),
        name => format!(" at {name}"),
    };
    format!(
        "{}: the house on the road, on the scale, and where its heat goes{stop}; room {}, winter mean \
         {}, {night}. Left and right are the driver's; front is the tongue's end.",
        project.title,
        style.show(heat.indoor),
        style.show(heat.winter_mean),
    )
}

fn headline(one: &JudgedHouse<'_>, base: &JudgedHouse<'_>, style: Style) -> Text {
    let mut text = Text::default();
    text.line(format!("{}: {}", one.name(), one.verdict.status.word()));
    for finding in one.worst_first() {
        let told = finding.sentence(style);
        let line = format!("{}, {}: {told}", finding.check.title, finding.status.word());
        text.say(2, line);
    }
    text.say(2, sentence::head_room(one, base, style));
    let lost = heat::sentence(&one.result.heat, style) + &heat::saved(one, base, style);
    text.say(2, lost);
    if !one.result.heat.settled {
        text.say(2, words::UNSETTLED);
    }
    text
}

/// Every term behind the numbers of one house.
fn details(one: &JudgedHouse<'_>, style: Style) -> Text {
    let result = &one.result;
    let mut text = Text::default();
    let told = |text: &mut Text, table| {
        text.blank();
        text.table(2, table);
    };
    text.blank();
    text.line(one.name());
    for (name, measure, limit) in one.measures() {
        told(&mut text, table::measure(name, measure, limit, style));
    }
    text.say(2, words::membranes(one).unwrap_or_default());
    text.say(2, words::not_stated(one).unwrap_or_default());
    if let Some(room) = &result.fit.head_room {
        told(&mut text, table::head_room(room, style));
    }
    told(&mut text, table::areas(&result.areas, style));
    text.say(2, words::areas(one, style).unwrap_or_default());
    told(&mut text, table::weight(&result.weight, style));
    text.say(2, words::included(one).unwrap_or_default());
    text.say(2, words::placed(one).unwrap_or_default());
    told(&mut text, heat::table(&result.heat, style));
    text.say(2, heat::units(style));
    for line in heat::origins(&result.heat, style) {
        text.say(4, line);
    }
    for line in heat::edge_words(&result.heat, style) {
        text.say(2, line);
    }
    text.line("  reasons");
    for finding in &one.verdict.findings {
        let line = format!(
            "{}, {}: {} [{}]",
            finding.status.word(),
            finding.check.title,
            finding.sentence(style),
            finding.source
        );
        let told = finding.status != Status::Note || finding.check != &TONGUE;
        if told {
            text.say(4, line);
        }
    }
    text
}
