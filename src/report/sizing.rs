//! The report of `size` as text: which board, the least thickness, and what the targets come to.

use super::sizing_table::{places, stock, table};
use super::summary::{DETAIL_CAUTION, conditions_of};
use super::text::Text;
use crate::check::sizing::{AtThickness, Row, Searched, Sized, Value, missed};
use crate::check::{Status, cautions};
use crate::model::{Project, SizedAt, SizedPart, Target};
use crate::quantity::{Dimension, Length, Style, TemperatureDifference, fixed};
use crate::solve::sizing::Trend;

/// Days from here on mean that it never dries within the time followed.
pub(super) const NEVER: f64 = 1e4;

/// The report of `size`.
#[must_use]
pub fn size_text(project: &Project, sized: &[Sized<'_>], style: Style) -> Text {
    let mut text = Text::default();
    let mut told: Option<Text> = None;
    for one in sized {
        // Entries for another humidity have conditions of their own.
        let conditions = conditions_of(&project.title, &one.stops, style);
        if told.as_ref() != Some(&conditions) {
            if told.is_some() {
                text.blank();
            }
            text.add(conditions.clone());
            told = Some(conditions);
        }
        text.blank();
        text.add(entry(one, style));
    }
    text.add(caution_text(sized));
    text
}

fn entry(one: &Sized<'_>, style: Style) -> Text {
    let mut text = Text::default();
    text.line(format!("{}: {}", one.sizing.name, one.status.word()));
    text.say(2, sentences(one, style).join(" "));
    text.blank();
    text.add(table(one, style));
    text.say(2, places(one, style));
    text.say(2, stock(one, style));
    text
}

/// `XPS over the flange`, `bay (closed-cell spray foam)`.
fn what(one: &Sized<'_>) -> String {
    let sizing = one.sizing;
    match sizing.position.as_str() {
        "" => format!("{} ({})", sizing.layer, sizing.material),
        position => format!("{} {position}", sizing.material),
    }
}

fn sentences(one: &Sized<'_>, style: Style) -> Vec<String> {
    let mut said = match (&one.board, one.status) {
        (Some(board), Status::Pass) => meets(one, board, style),
        (Some(board), _) => meets_nominally(one, board, style),
        (None, _) => meets_nothing(one, style),
    };
    let mixed = one.rows.iter().zip(&one.nominal.trends);
    for (row, _) in mixed.filter(|(_, trend)| **trend == Trend::Mixed) {
        said.push(format!(
            "The {} rises and falls with the thickness: it was searched on a grid, and a narrow \
             window between its points may be missed.",
            row_name(row)
        ));
    }
    if let Some((length, why)) = &one.unbuildable {
        let (length, why) = (style.show(*length), why.in_units(style));
        said.push(format!("From {length} on it can't be built here: {why}."));
    }
    if !one.settled {
        said.push("The detail didn't reach the precision asked for: take it with care.".into());
    }
    said
}

fn meets(one: &Sized<'_>, board: &AtThickness, style: Style) -> Vec<String> {
    if board.thickness.as_m() == 0.0 {
        let what = what(one);
        let mut said = vec![format!(
            "No {what} is needed: every target is met without it."
        )];
        // Without the layer a place may be gone that is judged with it.
        if board.nominal.iter().any(Option::is_none) {
            said.push("Without it there is no place that a margin is judged at.".into());
        }
        return said;
    }
    let mut said = vec![format!(
        "{} of {} meets every target, at the worst case of the materials' ranges too.",
        style.show(board.thickness),
        what(one)
    )];
    said.extend(least(one, style));
    said.extend(thinner(one, style));
    said
}

fn meets_nominally(one: &Sized<'_>, board: &AtThickness, style: Style) -> Vec<String> {
    let bought = match board.thickness.as_m() {
        0.0 => format!("Without {} every target is met", what(one)),
        _ => format!(
            "{} of {} meets every target",
            style.show(board.thickness),
            what(one)
        ),
    };
    let mut said = vec![format!(
        "{bought} at the materials' nominal values, but not at the worst case of their ranges; \
         nothing thicker that is sold does."
    )];
    said.extend(least(one, style));
    said.extend(thinner(one, style));
    said.extend(stoppers(one, &one.worst, "at the worst case", style));
    said
}

fn meets_nothing(one: &Sized<'_>, style: Style) -> Vec<String> {
    let (from, to) = one.sizing.between;
    let span = match from.as_m() {
        0.0 => format!("up to {}", style.show(to)),
        _ => format!("from {} to {}", style.show(from), style.show(to)),
    };
    if let Some(least) = one.nominal.least {
        return vec![format!(
            "No {} that is sold meets every target {span}: it would take {}.",
            what(one),
            style.least_length(least)
        )];
    }
    let mut said = vec![format!(
        "No thickness of {} meets every target {span}.",
        what(one)
    )];
    said.extend(stoppers(one, &one.nominal, "", style));
    said
}

/// The least thickness, at nominal values and at the worst case.
fn least(one: &Sized<'_>, style: Style) -> Option<String> {
    let said = |searched: &Searched| searched.least.map(|least| style.least_length(least));
    match (said(&one.nominal), said(&one.worst)) {
        (Some(nominal), Some(worst)) if nominal == worst => {
            Some(format!("{nominal} would be the least."))
        }
        (Some(nominal), Some(worst)) => Some(format!(
            "{nominal} would be the least at nominal values, {worst} at the worst case."
        )),
        (Some(nominal), None) => Some(format!("{nominal} would be the least at nominal values.")),
        (None, _) => None,
    }
}

/// What the next thinner one misses.
fn thinner(one: &Sized<'_>, style: Style) -> Option<String> {
    let thinner = one.thinner.as_ref()?;
    let name = match thinner.thickness.as_m() {
        0.0 => "It is the thinnest sold; without it".to_owned(),
        _ => format!("With {}, the next thinner,", style.show(thinner.thickness)),
    };
    let (values, case) = match missed(&thinner.nominal).is_empty() {
        true => (&thinner.worst, " at the worst case"),
        false => (&thinner.nominal, ""),
    };
    let row = *missed(values).first()?;
    let (row, value) = (&one.rows[row], values[row].as_ref()?);
    Some(format!(
        "{name} the {} is {}{case}, where {} is asked for.",
        row_name(row),
        value_text(row.target, value, style),
        asked(row.target, style)
    ))
}

/// The targets that no thickness meets, with the best that can be reached.
fn stoppers(one: &Sized<'_>, searched: &Searched, case: &str, style: Style) -> Vec<String> {
    let short = |(_, best): &(Length, Option<Value>)| {
        best.as_ref()
            .is_some_and(|value| value.slack.is_nan() || value.slack < 0.0)
    };
    let rows: Vec<usize> = (0..one.rows.len())
        .filter(|n| short(&searched.best[*n]))
        .collect();
    if rows.is_empty() && searched.least.is_none() {
        return vec![format!(
            "Each target can be met, but not all at one thickness{}.",
            if case.is_empty() {
                String::new()
            } else {
                format!(" {case}")
            }
        )];
    }
    let said = rows.into_iter().filter_map(|n| {
        let (length, value) = &searched.best[n];
        let (row, value) = (&one.rows[n], value.as_ref()?);
        let case = if case.is_empty() {
            String::new()
        } else {
            format!(" {case}")
        };
        let effect = match searched.trends[n] {
            Trend::Falling => " More of it makes that worse.",
            Trend::Flat => " Its thickness changes nothing there.",
            Trend::Rising | Trend::Mixed => "",
        };
        let at = match length.as_m() {
            0.0 => "without it".to_owned(),
            _ => format!("with {}", style.show(*length)),
        };
        Some(format!(
            "What stops it{case}: the {} ({}) is {} at best, {at}, where {} is asked for.{effect}",
            row_name(row),
            place(one, value),
            value_text(row.target, value, style),
            asked(row.target, style)
        ))
    });
    said.collect()
}

/// `leak margin, design night`.
pub(super) fn row_name(row: &Row) -> String {
    let name = match row.target {
        Target::LeakMargin(_) => "leak margin",
        Target::DewPointMargin(_) => "dew-point margin",
        Target::TemperatureFactor(_) => "temperature factor",
        Target::Transmittance(_) => "U-value",
        Target::DryWithinTheYear | Target::DaysToDry(_) => "drying time",
    };
    match row.at {
        None => name.to_owned(),
        Some(SizedAt::WinterMean) => format!("{name} on the winter mean"),
        Some(SizedAt::DesignNight) => format!("{name} on the design night"),
    }
}

fn asked(target: Target, style: Style) -> String {
    match target {
        Target::LeakMargin(least) | Target::DewPointMargin(least) => style.margin(least),
        Target::TemperatureFactor(least) => fixed(least, 3),
        Target::Transmittance(most) => Dimension::Transmittance.show(most, style),
        Target::DryWithinTheYear => "a year at most".into(),
        Target::DaysToDry(most) => format!("{} days at most", fixed(most, 0)),
    }
}

fn value_text(target: Target, value: &Value, style: Style) -> String {
    match target {
        _ if value.value.is_nan() => "not to be built".into(),
        Target::LeakMargin(_) | Target::DewPointMargin(_) => {
            let margin = style.margin(TemperatureDifference::from_kelvin(value.value));
            // Where the error bar alone misses the target, it has to be seen.
            match value.slack < 0.0 && value.slack + value.bar >= 0.0 {
                true => format!("{margin} ± {}", style.error_bar_number(value.bar)),
                false => margin,
            }
        }
        Target::TemperatureFactor(_) => fixed(value.value, 3),
        Target::Transmittance(_) => Dimension::Transmittance.show(value.value, style),
        _ if value.value >= NEVER => "over 1825 days".into(),
        _ => format!("{} days", fixed(value.value, 0)),
    }
}

/// Where a value is worst: the part, the place in it, and the stop of a route.
pub(super) fn place(one: &Sized<'_>, value: &Value) -> String {
    let part = one.sizing.parts[value.part].name();
    let mut words = match value.at.as_str() {
        "" => part.to_owned(),
        at => format!("{part}: {at}"),
    };
    if one.stops.len() > 1 {
        words += &format!(", {}", one.stops[value.stop].name);
    }
    words
}

fn caution_text(sized: &[Sized<'_>]) -> Text {
    let parts = || sized.iter().flat_map(|one| &one.sizing.parts);
    let stops = sized.iter().flat_map(|one| &one.stops);
    let mut list = cautions(parts().flat_map(SizedPart::assemblies), stops);
    if parts().any(|part| matches!(part, SizedPart::Detail(_))) {
        list.insert(list.len() - 1, DETAIL_CAUTION);
    }
    list.insert(
        list.len() - 1,
        "A thickness that meets these targets isn't a verdict on the whole: put it into the file \
         and run `dewmargin check`.",
    );
    let mut text = Text::default();
    text.cautions(list);
    text
}
