//! The route: one case at every stop, a column each.

use super::columns::{self, Column, Layout};
use super::cut::{Cut, compared_path, drawn_end};
use super::lettering::wrap;
use super::sheet::{Figure, Lettering, SIZE, Sheet};
use super::title::{Frame, LETTER};
use super::water::worst_water;
use crate::check::{self, Detail, Finding, Status};
use crate::model::{AirState, MonthState, Project};
use crate::quantity::{ArealDensity, Style, fixed, month_name};
use crate::solve::{EndResult, PathResult};
use crate::study::Judged;

/// Lines a fact may take.
const MOST_LINES: usize = 4;

/// Draws it; `None` where there is no route.
pub(super) fn draw(project: &Project, one: &Judged<'_>, style: Style) -> Option<Figure> {
    if one.route().is_empty() {
        return None;
    }
    let beside = columns::beside(one.route().iter().map(|_| one.case));
    let width = columns::width(beside);
    let at_stops: Vec<Judged<'_>> = (0..one.sites.len()).map(|site| one.alone(site)).collect();
    let columns: Vec<Column<'_>> = at_stops
        .iter()
        .enumerate()
        .filter_map(|(n, at)| column(at, n == one.speaks, width, style))
        .collect();
    let columns = even(columns);
    let (name, word) = (one.case.name(), one.verdict.status.word());
    let conditions = format!(
        "{} stops in the order of the route. Each column is drawn for the winter mean of its stop \
         and shows the path of what decides there. The margin printed large is the least of the \
         air-leak check. The verdict is that of the worst stop.",
        one.route().len()
    );
    let subject = format!("{name}, the route");
    let frame = Frame::about(project, &subject, word, &conditions, [&one.case.assembly]);
    let layout = Layout::new(&columns, &frame, beside, style);
    let mut sheet = Sheet::new((LETTER.0, layout.height));
    for (n, column) in columns.iter().enumerate() {
        layout.draw(&mut sheet, n, column, style);
    }
    frame.draw(&mut sheet, layout.height, &layout.scale.foot());
    let title = format!("{}: {subject}", project.title);
    Some(sheet.finish(&title, &words(&columns, style)))
}

fn column<'a>(at: &'a Judged<'_>, is_worst: bool, width: i32, style: Style) -> Option<Column<'a>> {
    let end = drawn_end(at.result())?;
    let cut = Cut::new(at, deciding(at, end)?);
    let leak = at
        .verdict
        .findings
        .iter()
        .find(|f| f.check == &check::air_leak::CHECK);
    let at_leak = leak.and_then(|finding| Some((finding.margin?, place(finding))));
    let plane = cut.least();
    let own = || (cut.leak_margin(plane), cut.path.plane_names[plane].clone());
    let title = match at.stop().name.is_empty() {
        true => "stop".to_owned(),
        false => at.stop().name.clone(),
    };
    Some(Column {
        name: columns::name(&title, width),
        title,
        word: at.verdict.status.word(),
        mark: is_worst.then_some("worst stop"),
        margin: at_leak.unwrap_or_else(own),
        kind: at.case.assembly.kind,
        facts: facts(at, &cut, width, style),
        cut,
    })
}

/// The path of the worst finding that lies on one.
fn deciding<'a>(at: &Judged<'_>, end: &'a EndResult) -> Option<&'a PathResult> {
    let judged = at
        .verdict
        .findings
        .iter()
        .filter(|f| f.status != Status::Note);
    let mut places = judged.filter_map(|finding| finding.place.as_ref());
    let named = places.find_map(|place| {
        let mut paths = end.paths.iter();
        paths.find(|path| path.path.name == place.path)
    });
    named.or_else(|| compared_path(end))
}

fn place(finding: &Finding) -> String {
    finding
        .place
        .as_ref()
        .map_or_else(String::new, |place| place.plane.clone())
}

/// What is told of a stop in numbers.
fn facts(at: &Judged<'_>, cut: &Cut<'_>, width: i32, style: Style) -> Vec<(String, Vec<String>)> {
    let conditions = &at.stop().conditions;
    let winter = conditions.winter_mean;
    let air = |air: AirState| {
        format!(
            "{}, {}",
            style.show(air.temperature),
            style.show(air.vapor_pressure())
        )
    };
    let mut facts = vec![
        ("path drawn".to_owned(), cut.path.path.name.clone()),
        ("winter mean".to_owned(), air(winter)),
    ];
    if let Some(months) = &conditions.year {
        let (month, state) = warmest(months);
        let cooled = if state.cooled { ", cooled" } else { "" };
        let outdoor = state.outdoor;
        facts.push((
            format!("{}, warmest{cooled}", month_name(month)),
            air(outdoor),
        ));
        facts.push(("room in winter".to_owned(), air(conditions.indoor)));
        facts.push(("water in the year".to_owned(), water(at, style)));
        facts.push(("1 kg/m² put there in spring".to_owned(), drying(at)));
    }
    let broken = |(what, value): (String, String)| {
        let mut lines = wrap(&value, SIZE, false, width);
        if lines.len() > MOST_LINES {
            let rest = lines.split_off(MOST_LINES - 1).join(" ");
            lines.push(Lettering::PLAIN.fit(&rest, width));
        }
        (what, lines)
    };
    facts.into_iter().map(broken).collect()
}

fn warmest(months: &[MonthState; 12]) -> (usize, &MonthState) {
    let celsius = |n: usize| months[n].outdoor.temperature.as_celsius();
    let month = (0..12)
        .max_by(|a, b| celsius(*a).total_cmp(&celsius(*b)))
        .unwrap_or(0);
    (month, &months[month])
}

/// The worst place's peak against its limit, by when it is dry, and where.
fn water(at: &Judged<'_>, style: Style) -> String {
    let print = |kg: f64| style.water(ArealDensity::from_si(kg));
    let Some(finding) = worst_water(at) else {
        return "nothing condenses inside".into();
    };
    let place = place(finding);
    match &finding.detail {
        Detail::Year(detail) => {
            let against = match detail.limit {
                Some((limit, _)) => format!("limit {}", print(limit)),
                None => "counted, not judged".into(),
            };
            let fate = match (detail.never_dry, detail.dry_by) {
                (true, _) => ", never dry".to_owned(),
                (false, Some(month)) => format!(", dry by {}", month_name(month)),
                (false, None) => String::new(),
            };
            format!("{}, {against}{fate}; {place}", print(detail.peak))
        }
        Detail::Closest { humidity, month } => format!(
            "nothing condenses; most humid {} % in {}; {place}",
            fixed(100.0 * humidity, 0),
            month_name(*month)
        ),
        _ => "can't be judged in full".into(),
    }
}

/// When 1 kg/m² is gone, and from where it takes longest.
fn drying(at: &Judged<'_>) -> String {
    let mut findings = at.verdict.findings.iter();
    let Some(finding) = findings.find(|finding| finding.check == &check::drying::CHECK) else {
        return "not reckoned".into();
    };
    let Detail::Drying(detail) = &finding.detail else {
        return "nothing inside that has to dry".into();
    };
    let when = match (detail.days, detail.month) {
        (Some(days), Some(month)) => format!(
            "gone by {}, {} days",
            check::drying::when(detail.start, days, month),
            fixed(days, 0)
        ),
        _ => "not gone in five years".into(),
    };
    format!("{when}; {}", place(finding))
}

/// Gives every fact the same number of lines in all columns, so that they stand side by side.
fn even(mut columns: Vec<Column<'_>>) -> Vec<Column<'_>> {
    let count = columns
        .iter()
        .map(|column| column.facts.len())
        .max()
        .unwrap_or(0);
    for n in 0..count {
        let lines = columns.iter().filter_map(|column| column.facts.get(n));
        let most = lines.map(|(_, lines)| lines.len()).max().unwrap_or(0);
        for column in &mut columns {
            if let Some((_, lines)) = column.facts.get_mut(n) {
                lines.resize(most, String::new());
            }
        }
    }
    columns
}

/// The plot in words.
fn words(columns: &[Column<'_>], style: Style) -> String {
    let each = columns.iter().map(|column| {
        let mark = column.mark.map(|mark| format!(", {mark}"));
        let facts = column.facts.iter().map(|(what, lines)| {
            let value = lines.join(" ");
            format!("{what}: {}", value.trim_end())
        });
        format!(
            "{}: {}{}; least leak margin {} at {}; {}.",
            column.title,
            column.word,
            mark.unwrap_or_default(),
            style.margin(column.margin.0),
            column.margin.1,
            facts.collect::<Vec<_>>().join("; ")
        )
    });
    format!(
        "Sections at every stop of the route, at one scale. {}",
        each.collect::<Vec<_>>().join(" ")
    )
}
