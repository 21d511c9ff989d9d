//! Details side by side: sections at one scale with one set of isotherms, and what tells them apart.

use super::super::lettering::wrap;
use super::super::sheet::{Figure, GRAY, LINE, Lettering, Point, Sheet};
use super::super::title::{EDGE, Frame, LETTER, WIDTH};
use super::callout::{spots, with_bar};
use super::window::{self, Window};
use super::{LEFT_OUT, LEGEND, assemblies, isotherm, numbers, solid};
use crate::model::Project;
use crate::model::drawn::DetailKind;
use crate::quantity::{Dimension, Style, Temperature};
use crate::report::figure::Best;
use crate::report::sentence_detail::failure;
use crate::solve::conduction::Field;
use crate::solve::detail::DetailResult;
use crate::study::JudgedDetail;

/// How many stand beside each other.
const ABREAST: usize = 3;
const GAP: i32 = 550;
const NAME_SIZE: i32 = 400;
const NAME_LINE: i32 = 470;
/// The least and the greatest height of a section.
const HEIGHTS: (i32, i32) = (6800, 8600);

/// Draws those that are alike: edges of the floor with one another, not with the roof's. `None` where there
/// are no two of a kind.
pub(in super::super) fn draw(
    project: &Project,
    details: &[JudgedDetail<'_>],
    best: Best<'_>,
    style: Style,
) -> Option<Figure> {
    let of_kind = |kind: DetailKind| details.iter().filter(move |one| one.case.kind == kind);
    let has_another = |one: &&JudgedDetail<'_>| of_kind(one.case.kind).nth(1).is_some();
    let details: Vec<&JudgedDetail<'_>> = details.iter().filter(has_another).collect();
    let first = details.first()?;
    let columns: Vec<Column<'_>> = details
        .iter()
        .map(|one| Column::new(one, best.is(one.case.variant.as_deref()), style))
        .collect();
    let columns = grouped(columns);
    let remark = format!(
        "All sections at one scale and with the same isotherms, in {}. {LEFT_OUT}",
        Dimension::Temperature.unit(style)
    );
    let all = details.iter().flat_map(|one| assemblies(project, one));
    let word = format!("{} compared", details.len());
    let subject = "details compared";
    let frame = Frame::new(project, first.stop(), subject, &word, &remark, all, style);
    let frame = frame.with_legend(LEGEND);
    let layout = Layout::new(&columns, &frame, style);
    let results = details.iter().filter_map(|one| one.result().as_ref().ok());
    let steps = isotherm::steps(results.map(|result| result.air), style);
    let mut sheet = Sheet::new((LETTER.0, layout.height));
    for (n, column) in columns.iter().enumerate() {
        layout.draw(&mut sheet, n, column, &steps);
    }
    let foot = layout.scale.foot_of("sections");
    frame.draw(&mut sheet, layout.height, &foot);
    let each: Vec<String> = columns.iter().map(Column::in_words).collect();
    Some(sheet.finish(
        &format!("{}: {subject}", project.title),
        &format!("Sections at one scale, side by side. {}", each.join(" ")),
    ))
}

/// Variants of one detail beside each other, otherwise in their own order.
fn grouped(mut columns: Vec<Column<'_>>) -> Vec<Column<'_>> {
    let mut names: Vec<String> = Vec::new();
    for column in &columns {
        if !names.contains(&column.one.case.name) {
            names.push(column.one.case.name.clone());
        }
    }
    columns.sort_by_key(|column| names.iter().position(|name| *name == column.one.case.name));
    columns
}

fn whole(n: usize) -> i32 {
    i32::try_from(n).unwrap_or(0)
}

/// Width of a column.
fn width() -> i32 {
    (WIDTH - GAP * (whole(ABREAST) - 1)) / whole(ABREAST)
}

/// One detail.
struct Column<'a> {
    one: &'a JudgedDetail<'a>,
    name: Vec<String>,
    mark: &'static str,
    /// What is told, and its value at the right.
    facts: Vec<(String, String)>,
}

impl<'a> Column<'a> {
    fn new(one: &'a JudgedDetail<'a>, is_best: bool, style: Style) -> Self {
        let facts = match one.result() {
            Ok(result) => facts(one, result, style),
            Err(why) => {
                let lines = wrap(&failure(why), Lettering::PLAIN.size, false, width());
                let lines = lines.into_iter().take(6);
                lines.map(|line| (line, String::new())).collect()
            }
        };
        Self {
            one,
            name: wrap(&one.name(), NAME_SIZE, true, width()),
            mark: if is_best { "best by the rule" } else { "" },
            facts,
        }
    }

    fn in_words(&self) -> String {
        let facts = self.facts.iter();
        let facts: Vec<String> = facts
            .map(|(what, value)| format!("{what} {value}"))
            .collect();
        format!(
            "{}: {} {}; {}.",
            self.one.name(),
            self.one.verdict.status.word(),
            self.mark,
            facts.join(", ")
        )
    }
}

fn facts(one: &JudgedDetail<'_>, result: &DetailResult, style: Style) -> Vec<(String, String)> {
    let mut facts: Vec<(String, String)> = spots(result)
        .iter()
        .map(|spot| (spot.name.to_owned(), with_bar(spot.coldest, style)))
        .collect();
    facts.extend(result.wood_at_corner().iter().map(|spot| {
        let there = Temperature::from_celsius(spot.temperature);
        (
            spot.name.clone(),
            style.temperature_with_bar(there, spot.bar),
        )
    }));
    let own = |words: String| words.split(" (").next().unwrap_or_default().to_owned();
    let flow = &result.conduction.heat_flow;
    let words = own(style.with_bar(Dimension::HeatFlowByLength, flow.value, flow.bar));
    facts.push(("heat flow".into(), words));
    if let Some(psi) = &result.psi {
        let words = own(style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar));
        facts.push(("psi".into(), words));
    }
    let dew = style.show(result.room_dew_point);
    facts.push(("room air condenses below".into(), dew));
    if !one.route().is_empty() {
        facts.push(("worst stop".into(), one.stop().name.clone()));
    }
    if !one.settled() {
        let lines = wrap(numbers::UNSETTLED, Lettering::PLAIN.size, false, width());
        facts.extend(lines.into_iter().map(|line| (line, String::new())));
    }
    facts
}

/// Sizes common to all columns.
struct Layout {
    height: i32,
    top: i32,
    band: i32,
    names: i32,
    room: Point,
    scale: super::super::scale::Scale,
}

impl Layout {
    fn new(columns: &[Column<'_>], frame: &Frame, style: Style) -> Self {
        let most = |count: fn(&Column<'_>) -> usize| columns.iter().map(count).max().unwrap_or(0);
        let names = NAME_LINE * whole(most(|column| column.name.len()));
        let facts = LINE * whole(most(|column| column.facts.len()));
        let bands = whole(columns.len().div_ceil(ABREAST).max(1));
        let around = names + LINE + 350 + facts + 900;
        let free = (LETTER.1 - frame.top() - frame.bottom()) / bands - around;
        let high = free.clamp(HEIGHTS.0, HEIGHTS.1);
        let cores: Vec<_> = columns.iter().map(|c| window::core(c.one.case)).collect();
        let scale = window::scale(&cores, (width(), high), style.units, 1.0);
        let shown = columns.iter().map(|column| {
            let window = Window::new(column.one.case, scale, (0, 0), (width(), high));
            window.far().1
        });
        let high = shown.max().unwrap_or(high).clamp(1, high.max(1));
        let room = (width(), high);
        let band = around + high;
        Self {
            height: LETTER.1.max(frame.top() + frame.bottom() + band * bands),
            top: frame.top(),
            band,
            names,
            room,
            scale,
        }
    }

    fn draw(
        &self,
        sheet: &mut Sheet,
        n: usize,
        column: &Column<'_>,
        steps: &[(Temperature, String)],
    ) {
        let x = EDGE + whole(n % ABREAST) * (width() + GAP);
        let top = self.top + whole(n / ABREAST) * self.band;
        let name = Lettering::PLAIN.bold().size(NAME_SIZE);
        for (n, line) in column.name.iter().enumerate() {
            sheet.text(line, (x, top + 310 + NAME_LINE * whole(n)), name);
        }
        let y = top + 310 + self.names;
        let bold = Lettering::PLAIN.bold();
        let word = column.one.verdict.status.word();
        sheet.text(word, (x, y), bold);
        let mark = (x + bold.width(word) + 150, y);
        sheet.text(column.mark, mark, Lettering::PLAIN.italic());
        let corner = (x, y + 350);
        let window = Window::new(column.one.case, self.scale, corner, self.room);
        section(sheet, &window, column.one, steps);
        let mut y = corner.1 + self.room.1 + 500;
        let plain = Lettering::PLAIN;
        for (what, value) in &column.facts {
            sheet.text(value, (x + width(), y), plain.right());
            let gray = plain.color(GRAY);
            let room = width() - plain.width(value) - 200;
            sheet.text(&gray.fit(what, room), (x, y), gray);
            y += LINE;
        }
    }
}

/// A section with isotherms and the marks of its coldest places.
fn section(
    sheet: &mut Sheet,
    window: &Window,
    one: &JudgedDetail<'_>,
    steps: &[(Temperature, String)],
) {
    solid::blocks(sheet, window, one.case);
    solid::airs(sheet, window, one.case);
    let Ok(result) = one.result() else {
        return;
    };
    let field = Field::of(&result.conduction.solution);
    solid::cold(sheet, window, result, &field);
    let thin = isotherm::thin(sheet, window, &field, steps);
    isotherm::limits(sheet, window, &field, one, result);
    let points = spots(result).into_iter().map(|spot| spot.coldest.point);
    let marks: Vec<Point> = points
        .filter(|point| window.shows(point.x, point.y))
        .map(|point| window.point(point.x, point.y))
        .collect();
    isotherm::label(sheet, &thin, (window.corner, window.far()), 1, &marks);
    for at in marks {
        sheet.ring(at, 60, super::HEAT, 32);
    }
}
