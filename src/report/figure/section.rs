//! The section plot: every path of one case, as built, to one scale.

use super::column;
use super::cut::{Cut, drawn_end, shown_paths};
use super::place::{AIR, AXIS, Place};
use super::scale::{Scale, Span};
use super::schedule;
use super::sheet::{Figure, GRAY, INK, LINE, Lettering, MOISTURE, Point, Sheet};
use super::title::{EDGE, Frame, LETTER, WIDTH};
use crate::model::{AssemblyKind, Openness, Project};
use crate::quantity::{Length, Style, TemperatureDifference, ThermalResistance};
use crate::report::Judged;
use crate::solve::{EndResult, PathResult};

/// Between columns.
const GAP: i32 = 650;
/// Three lines over a path: its name, its margin, the design night.
pub(super) const HEADER: i32 = 1500;
/// Place for the numbers of planes beside the layers.
pub(super) const NUMBERS: i32 = 650;
/// The least room given to the layers.
const LEAST_ROOM: i32 = 3000;

/// Draws it.
pub(super) fn draw(project: &Project, one: &Judged<'_>, style: Style) -> Figure {
    let (case, result, verdict) = (one.case, &one.result, &one.verdict);
    let end = drawn_end(result);
    let paths = end.map(shown_paths).unwrap_or_default();
    let left_out = end.map_or(0, |end| end.paths.len()) - paths.len();
    let cut = |path| Cut::new(one, path);
    let cuts: Vec<Cut<'_>> = paths.into_iter().map(cut).collect();
    let mut remark = end.map(|end| films(end, style)).unwrap_or_default();
    if let (true, Some(end)) = (result.ends.len() > 1, end) {
        let word = if end.openness == Openness::Open {
            "open"
        } else {
            "closed"
        };
        remark = format!("{remark} The vented gap is drawn {word}, the worse for leaks.");
    }
    if left_out > 0 {
        remark = format!("{remark} {left_out} more paths stand in the text report.");
    }
    let word = verdict.status.word();
    // The margins drawn are those of leaks; another check may decide.
    let severity = verdict.status.severity();
    let deciding = verdict
        .findings
        .iter()
        .find(|f| f.status.severity() == severity);
    if let (1.., Some(finding)) = (severity, deciding) {
        remark = format!(
            "{remark} The verdict is that of: {}.",
            finding.check.title()
        );
    }
    let frame = Frame::new(
        project,
        one.stop,
        &case.name(),
        word,
        &remark,
        [&case.assembly],
        style,
    )
    .with_dew_point(result.room_dew_point, style);
    let layout = match case.assembly.kind {
        AssemblyKind::Wall => rows(&cuts, &frame, style),
        _ => columns(&cuts, &frame, style),
    };
    let mut sheet = Sheet::new((LETTER.0, layout.height));
    for (n, cut) in cuts.iter().enumerate() {
        layout.draw(&mut sheet, case.assembly.kind, n, cut, style);
    }
    frame.draw(&mut sheet, layout.height, &layout.scale.foot());
    let title = format!("{}: {}", project.title, case.name());
    sheet.finish(&title, &words(&cuts, word, style))
}

/// The films, so that a temperature can be worked out again from the drawing.
fn films(end: &EndResult, style: Style) -> String {
    let outside = |path: &PathResult| {
        let layers: f64 = path.winter.resistances.iter().map(|r| r.as_si()).sum();
        let films = path.winter.total_resistance.as_si() - layers;
        style.resistance(ThermalResistance::from_si(
            films - end.boundary.interior_film.as_si(),
        ))
    };
    let mut values: Vec<String> = end.paths.iter().map(outside).collect();
    values.dedup();
    let inside = style.resistance(end.boundary.interior_film);
    format!("Films: inside {inside}, outside {}.", values.join(" or "))
}

/// Where the paths go on the sheet.
struct Layout {
    height: i32,
    scale: Scale,
    span: Span,
    cells: Vec<Cell>,
}

/// One path's place: its header, its drawing, its schedule.
struct Cell {
    header: (Point, i32),
    along: (i32, i32),
    layers: (i32, i32),
    chart: (i32, i32),
    schedule: (Point, i32),
}

impl Layout {
    fn draw(&self, sheet: &mut Sheet, kind: AssemblyKind, n: usize, cut: &Cut<'_>, style: Style) {
        let cell = &self.cells[n];
        header(sheet, cell.header.0, cell.header.1, cut, style);
        let (scale, span) = (self.scale, self.span);
        let place = Place {
            kind,
            along: cell.along,
            layers: cell.layers,
            chart: cell.chart,
            scale,
            span,
        };
        column::draw(sheet, place, cut, style);
        let list = match kind {
            AssemblyKind::Wall => schedule::one_line,
            _ => schedule::alternating,
        };
        list(sheet, cell.schedule.0, cell.schedule.1, cut, style);
    }
}

fn thickest(cuts: &[Cut<'_>]) -> Length {
    Length::from_m(
        cuts.iter()
            .map(|cut| cut.thickness().as_m())
            .fold(0.0, f64::max),
    )
}

/// Paper the thickest path takes, never less than a hundredth of a millimeter.
fn paper(scale: Scale, cuts: &[Cut<'_>]) -> i32 {
    (scale.on_paper(thickest(cuts)).ceil() as i32).max(1)
}

/// Floors and roofs: columns side by side.
fn columns(cuts: &[Cut<'_>], frame: &Frame, style: Style) -> Layout {
    let count = i32::try_from(cuts.len().max(1)).unwrap_or(1);
    let width = ((WIDTH - GAP * (count - 1)) / count).min(12_600);
    let beside = count <= 2;
    let lines = cuts
        .iter()
        .map(schedule::alternating_lines)
        .max()
        .unwrap_or(0);
    let list = LINE * lines;
    let fixed = HEADER + 2 * AXIS + 2 * AIR;
    let below = if beside { 0 } else { list + 330 };
    let free = LETTER.1 - frame.top() - frame.bottom() - fixed - below;
    let room = free
        .max(LEAST_ROOM)
        .max(if beside { list - 2 * AIR - AXIS } else { 0 });
    let scale = Scale::largest(thickest(cuts), room, style.units);
    let top = frame.top() + HEADER + AXIS;
    let bottom = top + 2 * AIR + paper(scale, cuts);
    let (drawing, list_width) = if beside {
        (width * 47 / 100, width * 50 / 100)
    } else {
        (width, width)
    };
    let cell = |n: usize| {
        let x = EDGE + i32::try_from(n).unwrap_or(0) * (width + GAP);
        let layers = (x + NUMBERS, x + NUMBERS + drawing * 23 / 100);
        let list = if beside {
            (x + width - list_width, top + 250)
        } else {
            (x, bottom + AXIS + 450)
        };
        Cell {
            header: ((x, frame.top()), width),
            along: (top, bottom),
            layers,
            chart: (layers.1 + 200, x + drawing - 600),
            schedule: (list, list_width),
        }
    };
    Layout {
        height: LETTER.1 + room - free.min(room),
        scale,
        span: Span::around(cuts.iter().flat_map(Cut::temperatures)),
        cells: (0..cuts.len()).map(cell).collect(),
    }
}

/// Walls: rows stacked.
fn rows(cuts: &[Cut<'_>], frame: &Frame, style: Style) -> Layout {
    let count = i32::try_from(cuts.len().max(1)).unwrap_or(1);
    let lines = cuts.iter().map(schedule::one_line_lines).max().unwrap_or(0);
    let free = (LETTER.1 - frame.top() - frame.bottom()) / count;
    let needed = (HEADER + LINE * lines + 300).max(4800);
    let row = free.max(needed).min(needed.max(6800));
    let (list_width, list_x) = (11_000, EDGE + WIDTH - 11_000);
    let (left, right) = (EDGE + 1450, list_x - 2050);
    let scale = Scale::largest(thickest(cuts), right - left - 2 * AIR, style.units);
    let along = (left, left + 2 * AIR + paper(scale, cuts));
    let cell = |n: usize| {
        let y = frame.top() + i32::try_from(n).unwrap_or(0) * row;
        let layers = (y + NUMBERS, y + NUMBERS + 1300);
        Cell {
            header: ((list_x, y), list_width),
            along,
            layers,
            chart: (y + row - 700, layers.1 + 150),
            schedule: ((list_x, y + HEADER + 300), list_width),
        }
    };
    Layout {
        height: LETTER.1 + (row - free).max(0) * count,
        scale,
        span: Span::around(cuts.iter().flat_map(Cut::temperatures)),
        cells: (0..cuts.len()).map(cell).collect(),
    }
}

/// A path's name and word, its least leak margin large with the plane's name, the design night.
fn header(sheet: &mut Sheet, (x, y): Point, width: i32, cut: &Cut<'_>, style: Style) {
    let name = Lettering::PLAIN.bold().size(420);
    let word = cut.status.word();
    sheet.text(word, (x + width, y + 310), name.right());
    let room = width - name.width(word) - 250;
    sheet.text(&name.fit(&cut.path.path.name, room), (x, y + 310), name);
    margin_line(sheet, (x, y + 860), width, cut, style);
    if let Some(night) = cut.night_margin(cut.least()) {
        let words = format!("{} there on the design night", style.margin(night));
        let gray = Lettering::PLAIN.color(GRAY);
        sheet.text(&gray.fit(&words, width), (x, y + 1290), gray);
    }
}

/// The least leak margin, large, and the plane's name.
fn margin_line(sheet: &mut Sheet, (x, y): Point, width: i32, cut: &Cut<'_>, style: Style) {
    let from = margin_large(sheet, (x, y), cut.leak_margin(cut.least()), style) + 250;
    let gray = Lettering::PLAIN.color(GRAY);
    let plane = &cut.path.plane_names[cut.least()];
    sheet.text(&gray.fit(plane, width - from), (x + from, y), gray);
}

/// The least leak margin, large; returns its width.
pub(super) fn margin_large(
    sheet: &mut Sheet,
    at: Point,
    margin: TemperatureDifference,
    style: Style,
) -> i32 {
    let color = if margin.as_kelvin() <= 0.0 {
        MOISTURE
    } else {
        INK
    };
    let large = Lettering::PLAIN.bold().size(480).color(color);
    let words = style.margin(margin);
    sheet.text(&words, at, large);
    large.width(&words)
}

/// The plot in words.
fn words(cuts: &[Cut<'_>], word: &str, style: Style) -> String {
    let each = cuts.iter().map(|cut| {
        let plane = cut.least();
        format!(
            "{}: {}, {} at {}, leak margin {}.",
            cut.path.path.name,
            cut.status.word(),
            style.temperature(cut.temperature(plane)),
            cut.path.plane_names[plane],
            style.margin(cut.leak_margin(plane)),
        )
    });
    let each: Vec<String> = each.collect();
    format!(
        "Section to scale with the temperature through each path on the winter mean. Verdict: \
         {word}. {}",
        each.join(" ")
    )
}
