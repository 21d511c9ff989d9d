//! Details side by side: a foot around the steel at one scale, with what the option changed and the dew
//! point; under them one plot of all places.

use super::super::badge;
use super::super::legend::{Item, patch};
use super::super::lettering::wrap;
use super::super::place::DASHES;
use super::super::sheet::{
    CHANGED, Figure, HEAT, INK, LINE, Lettering, MOISTURE, Point, SIZE, Sheet, WET,
};
use super::super::title::{EDGE, Frame, LETTER, WIDTH};
use super::cold::Cold;
use super::dot_plot::Plot;
use super::shown::{self, Shown};
use super::window::Window;
use super::{LEFT_OUT, assemblies, changed, dots, isotherm, left_out, list, solid};
use crate::check::{Detail, Finding};
use crate::model::Project;
use crate::model::drawn::DetailKind;
use crate::quantity::{Dimension, Style, Temperature};
use crate::report::figure::Best;
use crate::report::places;
use crate::report::screen::margin_words;
use crate::report::sentence_detail::failure;
use crate::solve::conduction::Field;
use crate::study::JudgedDetail;

/// Between columns, and between what stands above each other.
const GAP: Point = (550, 600);
const NAME_SIZE: i32 = 400;
const NAME_LINE: i32 = 470;
/// For the badge under a name.
const BADGE: i32 = 620;
/// The most lines of why.
const REASONS: usize = 4;
/// The greatest height of a section.
const HIGHEST: i32 = 12_800;

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
    let details = grouped(details);
    let first = details.first()?;
    let abreast = abreast(details.len());
    let numbered = details.iter().copied().enumerate();
    let columns = numbered.map(|(n, one)| {
        let is_best = best.is(one.case.variant.as_deref());
        let room = (width(abreast), size(abreast));
        Column::new(n + 1, one, is_best, room, style)
    });
    let columns: Vec<Column<'_>> = columns.collect();
    let remark = format!(
        "All sections at one scale, a foot around the steel, with two isotherms in {}. {LEFT_OUT}",
        Dimension::Temperature.unit(style)
    );
    let all = details.iter().flat_map(|one| assemblies(project, one));
    let word = format!("{} compared", details.len());
    let subject = "details compared";
    let frame = Frame::new(project, first.stop(), subject, &word, &remark, all, style);
    let frame = frame.with_legend(LEGEND);
    let plot = Plot::new(&details, EDGE, WIDTH);
    let layout = Layout::new(&columns, &frame, plot.as_ref(), style);
    let results = details.iter().filter_map(|one| one.result().as_ref().ok());
    let steps = isotherm::steps(results.map(|result| result.air), style);
    let mut sheet = Sheet::new((LETTER.0, layout.height));
    for (n, column) in columns.iter().enumerate() {
        let changed = changed::changed(column.one.case, &details);
        layout.draw(&mut sheet, n, column, (&steps, &changed));
    }
    if let Some(plot) = &plot {
        plot.draw(&mut sheet, EDGE, layout.plot, style);
    }
    let foot = layout.scale.foot_of("sections");
    let foot = match left_out(first) {
        words if words.is_empty() => foot,
        words => format!("{foot}. {words}"),
    };
    frame.draw(&mut sheet, layout.height, &foot);
    let each = columns.iter().map(|column| column.in_words(style));
    let each: Vec<String> = each.collect();
    Some(sheet.finish(
        &format!("{}: {subject}", project.title),
        &format!("Sections at one scale, side by side. {}", each.join(" ")),
    ))
}

/// Variants of one detail beside each other, otherwise in their own order.
fn grouped<'a, 'b>(mut details: Vec<&'a JudgedDetail<'b>>) -> Vec<&'a JudgedDetail<'b>> {
    let mut names: Vec<&str> = Vec::new();
    for one in &details {
        if !names.contains(&one.case.name.as_str()) {
            names.push(&one.case.name);
        }
    }
    details.sort_by_key(|one| names.iter().position(|name| *name == one.case.name));
    details
}

fn whole(n: usize) -> i32 {
    i32::try_from(n).unwrap_or(0)
}

/// How many stand beside each other.
fn abreast(count: usize) -> usize {
    if count <= 4 { 2 } else { 3 }
}

/// Width of a column.
fn width(abreast: usize) -> i32 {
    (WIDTH - GAP.0 * (whole(abreast) - 1)) / whole(abreast)
}

/// What is shown around the steel, m: about a foot. Two abreast are 1:2 by it.
fn size(abreast: usize) -> f64 {
    if abreast == 2 { 0.25 } else { 0.3 }
}

/// One detail.
struct Column<'a> {
    number: usize,
    one: &'a JudgedDetail<'a>,
    name: Vec<String>,
    mark: &'static str,
    /// What decides.
    reason: String,
    reasons: Vec<String>,
    shown: Shown,
}

impl<'a> Column<'a> {
    fn new(
        number: usize,
        one: &'a JudgedDetail<'a>,
        is_best: bool,
        (width, size): (i32, f64),
        style: Style,
    ) -> Self {
        let reason = reason(one, style);
        let mut reasons = wrap(&reason, SIZE, false, width);
        reasons.truncate(REASONS);
        reasons.extend(loss(one, style));
        let indent = 2 * dots::RADIUS + 200;
        Self {
            number,
            one,
            name: wrap(&one.name(), NAME_SIZE, true, width - indent),
            mark: if is_best { "best by the rule" } else { "" },
            reason,
            reasons,
            shown: Shown::a_foot(one, size).unwrap_or_else(|| Shown::of(one)),
        }
    }

    fn in_words(&self, style: Style) -> String {
        let rows = places::worst_of_each(&places::rows_of(self.one));
        let each: Vec<String> = rows.iter().map(|row| list::in_words(row, style)).collect();
        format!(
            "{}, {}: {} {}. {} {}",
            self.number,
            self.one.name(),
            self.one.verdict.status.word(),
            self.mark,
            self.reason,
            each.join(" ")
        )
    }
}

/// The heat it loses beyond its plane assemblies.
fn loss(one: &JudgedDetail<'_>, style: Style) -> Option<String> {
    let psi = one.result().as_ref().ok()?.psi?;
    let psi = Dimension::LinearTransmittance.show(psi.value, style);
    Some(format!("{} {psi}", list::loss(one.case.kind)))
}

/// The line that decides.
fn reason(one: &JudgedDetail<'_>, style: Style) -> String {
    if let Err(why) = one.result() {
        return failure(why);
    }
    let said = one.verdict.speaking().map(|finding| said(finding, style));
    let mut told = said.unwrap_or_else(|| "Nothing here that water harms".to_owned());
    if !one.route().is_empty() {
        told += &format!(", {}", one.stop().name);
    }
    match one.settled() {
        true => told,
        false => format!("{told}. {}", list::UNSETTLED),
    }
}

/// `subfloor inboard of the plate 4.6 °F under dew point`.
fn said(finding: &Finding, style: Style) -> String {
    let place = finding
        .place
        .as_ref()
        .map_or("", |place| place.path.as_str());
    let on = finding.on.filter(|_| finding.status.severity() == 1);
    let on = on.map_or_else(String::new, |on| format!("on {}: ", on.words()));
    let seal = match finding.detail {
        Detail::AirSeal(_) => "needs an air seal: ",
        _ => "",
    };
    match margin_words(finding, style) {
        Some(margin) => format!("{on}{seal}{place} {margin} {}", finding.check.against),
        None => format!("{on}{place} {}", finding.title()),
    }
}

/// Sizes common to all columns.
struct Layout {
    height: i32,
    top: i32,
    abreast: usize,
    band: i32,
    names: i32,
    room: Point,
    scale: super::super::scale::Scale,
    /// Where the plot begins.
    plot: i32,
}

impl Layout {
    fn new(columns: &[Column<'_>], frame: &Frame, plot: Option<&Plot>, style: Style) -> Self {
        let most = |count: fn(&Column<'_>) -> usize| columns.iter().map(count).max().unwrap_or(0);
        let names = NAME_LINE * whole(most(|column| column.name.len()));
        let reasons = LINE * whole(most(|column| column.reasons.len()));
        let abreast = abreast(columns.len());
        let bands = whole(columns.len().div_ceil(abreast).max(1));
        let shown: Vec<Shown> = columns.iter().map(|column| column.shown).collect();
        let room = (width(abreast), HIGHEST);
        let scale = shown::scale(&shown, room, style.units, 1.0);
        let highest = shown.iter().map(|shown| {
            let window = Window::new(shown, scale, (0, 0), room);
            window.far().1
        });
        let high = highest.max().unwrap_or(HIGHEST).clamp(1, HIGHEST);
        let band = names + BADGE + reasons + 450 + high + GAP.1;
        let below = frame.top() + band * bands;
        let plotted = plot.map_or(0, |plot| plot.height() + GAP.1);
        Self {
            height: LETTER.1.max(below + plotted + frame.bottom()),
            top: frame.top(),
            abreast,
            band,
            names,
            room: (room.0, high),
            scale,
            plot: below,
        }
    }

    fn draw(&self, sheet: &mut Sheet, n: usize, column: &Column<'_>, lines: Lines<'_>) {
        let x = EDGE + whole(n % self.abreast) * (width(self.abreast) + GAP.0);
        let top = self.top + whole(n / self.abreast) * self.band;
        let name = Lettering::PLAIN.bold().size(NAME_SIZE);
        let status = column.one.verdict.status;
        let center = (x + dots::RADIUS + 30, top + 310 - NAME_SIZE * 36 / 100);
        dots::disc(sheet, center, column.number, status);
        let indent = x + 2 * dots::RADIUS + 200;
        for (n, line) in column.name.iter().enumerate() {
            sheet.text(line, (indent, top + 310 + NAME_LINE * whole(n)), name);
        }
        let mut y = top + 310 + self.names + 130;
        badge::draw(sheet, (x, y), status.word(), status);
        let end = x + badge::width(status.word());
        sheet.text(column.mark, (end + 200, y), Lettering::PLAIN.italic());
        y += BADGE - 20;
        for line in &column.reasons {
            sheet.text(line, (x, y), Lettering::PLAIN);
            y += LINE;
        }
        let corner = (x, top + self.band - GAP.1 - self.room.1);
        let window = Window::new(&column.shown, self.scale, corner, self.room);
        section(sheet, &window, column.one, lines);
    }
}

/// Isotherms to choose from, and what the option changed.
type Lines<'a> = (&'a [(Temperature, String)], &'a [bool]);

/// A section with what the option changed, two isotherms, the dew point and the place that decides.
fn section(
    sheet: &mut Sheet,
    window: &Window,
    one: &JudgedDetail<'_>,
    (steps, changed): Lines<'_>,
) {
    let result = one.result().as_ref().ok();
    let field = result.map(|result| Field::of(&result.conduction.solution));
    let solved = result.zip(field.as_ref());
    let cold = solved.map(|(result, field)| Cold::of(one.case, result, field));
    let over = solid::Over {
        cold: cold.as_ref(),
        changed,
    };
    solid::blocks(sheet, window, one.case, over);
    solid::airs(sheet, window, one.case);
    let Some((result, field)) = solved else {
        return;
    };
    let two = isotherm::two(steps, result.air, result.room_dew_point);
    let lines = isotherm::thin(sheet, window, field, &two);
    isotherm::dew_point(sheet, window, field, result.room_dew_point);
    let place = decides(one).filter(|(x, y)| window.shows(*x, *y));
    let marks: Vec<Point> = place.map(|(x, y)| window.point(x, y)).into_iter().collect();
    // Away from the place that decides, and from the lines that crowd there.
    let from = marks.first().copied().unwrap_or(window.corner);
    let rank = |at: Point| -(at.0 - from.0).abs() - (at.1 - from.1).abs();
    isotherm::label(sheet, &lines, (window.corner, window.far()), &marks, rank);
    for at in marks {
        dots::place(sheet, at);
    }
}

/// Where the place that decides lies in the cut, m.
fn decides(one: &JudgedDetail<'_>) -> Option<(f64, f64)> {
    let finding = one.here().verdict.speaking()?;
    let name = finding.place.as_ref()?.path.as_str();
    let rows = places::rows_of(one);
    rows.iter().find(|row| row.name == name)?.at
}

const LEGEND: &[Item] = &[
    ("isotherm", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], HEAT, 14);
    }),
    ("dew point of the room air", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], DASHES, MOISTURE, 55);
    }),
    ("wet if room air gets in", |sheet, at| {
        sheet.polygon(patch(at).to_vec(), WET);
    }),
    ("what the option adds or changes", |sheet, at| {
        let [from, _, to, _] = patch(at);
        sheet.fill(from, to, CHANGED);
        sheet.outline(from, to, INK, solid::HEAVY);
    }),
    ("place that decides", |sheet, (x, y)| {
        dots::place(sheet, (x + 450, y));
    }),
    ("mold begins on surfaces", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], isotherm::DOTS, INK, 30);
    }),
    ("fails", dots::FAILS),
    dots::DEPENDS,
    dots::PASSES,
];
