//! The first screen of `compare`: the options of one whole project, one below the other.

use super::check::air;
use super::phrase::{ground, of_house, passes, phrase};
use super::{Columns, ROWS, Screen, counted, tally};
use crate::check::Status;
use crate::quantity::{Length, Mass, Style};
use crate::report::trade_off::cost;
use crate::study::trade_off::{ColumnKind, Part as Of, TradeOff, trade_off};
use crate::study::{Choice, Part, Study, Subject, best_of};

/// One option with what is told of it.
struct Row<'s> {
    name: &'s str,
    status: Status,
    decides: String,
    ground: String,
    costs: String,
}

/// The first screen of `compare` on a file called `file`, set to a width.
#[must_use]
pub fn compare_screen(study: &Study<'_>, file: &str, style: Style, width: usize) -> Screen {
    let choices = study.choices();
    let parts: Vec<Vec<Part<'_>>> = choices
        .iter()
        .map(|choice| study.parts(choice.variant.as_deref()))
        .collect();
    let costs = trade_off(study);
    let row = |(n, parts): (usize, &'_ Vec<Part<'_>>)| {
        let name = choices[n].variant.as_deref().unwrap_or("as drawn");
        row(name, parts, &costs_of(costs.as_ref(), n, style), style)
    };
    let rows: Vec<Row<'_>> = parts.iter().enumerate().map(row).collect();
    let best = best_of(&choices).filter(|_| choices.len() > 1);
    let told = |most: usize| screen(study, &rows, best, most, (file, style, width));
    let whole = told(3);
    match whole.lines.len() {
        lines if lines <= ROWS => whole,
        _ => {
            let shorter = told(2);
            match shorter.lines.len() {
                lines if lines <= ROWS => shorter,
                _ => told(1),
            }
        }
    }
}

/// An option: its worst part, what was found of it, where, and what the option costs.
fn row<'s>(name: &'s str, parts: &[Part<'_>], costs: &str, style: Style) -> Row<'s> {
    let Some(worst) = parts.first() else {
        return Row {
            name,
            status: Status::Pass,
            decides: String::new(),
            ground: String::new(),
            costs: costs.to_owned(),
        };
    };
    let speaking = worst.speaking();
    let said = match (worst.subject, speaking) {
        (Subject::House(house), _) => of_house(house, style),
        (_, Some(finding)) if worst.status.severity() > 0 => phrase(finding, style),
        _ => passes(worst, style),
    };
    let alike = |part: &&Part<'_>| part.status.severity() == worst.status.severity();
    let count = parts.iter().filter(alike).count();
    let others = match (count, worst.status.severity()) {
        (2.., 1..) => format!(" (and {} more)", counted(count - 1, "part", "parts")),
        _ => String::new(),
    };
    Row {
        name,
        status: worst.status,
        decides: format!("{}: {said}{others}", worst.name),
        ground: speaking
            .filter(|_| worst.status.severity() > 0)
            .map_or_else(String::new, |finding| ground(finding, worst)),
        costs: costs.to_owned(),
    }
}

/// What an option costs: inches, pounds, money, and the U of what it changes.
fn costs_of(costs: Option<&TradeOff>, option: usize, style: Style) -> String {
    let Some(costs) = costs else {
        return String::new();
    };
    let mut words: Vec<String> = Vec::new();
    for table in &costs.tables {
        for column in &table.columns {
            let value = &column.values[option];
            let said = match (&table.part, column.kind) {
                (Of::Whole, ColumnKind::HeadRoomLost) => {
                    value.known.map(|(low, _)| match low.abs() < 1e-6 {
                        true => "no head room lost".to_owned(),
                        false => {
                            format!("{} of head room", style.measure(Length::from_m(low.abs())))
                        }
                    })
                }
                (Of::Whole, ColumnKind::Width) => value
                    .known
                    .map(|(low, _)| format!("{} wide", style.measure(Length::from_m(low)))),
                (Of::Whole, ColumnKind::Weight) => {
                    value.known.map(|(low, _)| style.mass(Mass::from_kg(low)))
                }
                (Of::Whole, ColumnKind::Price) => {
                    costs.currency.zip(value.known).map(|(currency, (low, _))| {
                        format!("{} {}", currency.code(), style.price_number(low))
                    })
                }
                (Of::Assembly(name), ColumnKind::Transmittance) => {
                    Some(format!("U of {name} {}", cost(column.kind, value, style)))
                }
                _ => None,
            };
            words.extend(said);
        }
    }
    words.join("; ")
}

fn screen(
    study: &Study<'_>,
    rows: &[Row<'_>],
    best: Option<usize>,
    most: usize,
    (file, style, width): (&str, Style, usize),
) -> Screen {
    let columns = Columns::new(rows.iter().map(|row| row.name), width);
    let mut screen = Screen::default();
    screen.say(&verdict_line(study, rows, best), width);
    screen.say(&air(study, style), width);
    screen.blank();
    for row in rows {
        let told = [&row.decides, &row.ground, &row.costs];
        // What fails keeps its reason and its site, whatever the others are cut to.
        let keeps = match row.status {
            Status::Fail => most.max(2),
            _ => most,
        };
        let told: Vec<String> = told.into_iter().take(keeps).cloned().collect();
        screen
            .lines
            .extend(columns.row(row.name, row.status, &told));
    }
    screen.blank();
    if best.is_some() {
        let rule = format!("{}; the whole project each", Choice::RULE);
        screen.lines.extend(columns.aside("rule", &rule));
    }
    screen.lines.extend(columns.aside(
        "more",
        &format!("compare {file} --part NAME, --full; check {file}"),
    ));
    screen.lines.extend(columns.aside(
        "caution",
        "an estimate: not structural; local codes and licensed practice govern",
    ));
    screen
}

/// `Fern Hollow cabin, 4 options: 2 fail, 2 depend; best by the rule: proud, foam under the plate`
fn verdict_line(study: &Study<'_>, rows: &[Row<'_>], best: Option<usize>) -> String {
    let statuses = rows.iter().map(|row| row.status);
    let told = tally(statuses.map(Status::severity));
    let best = best.map_or_else(String::new, |n| format!("; best: {}", rows[n].name));
    format!(
        "{}, {}: {told}{best}",
        study.project.title,
        counted(rows.len(), "option", "options"),
    )
}
