//! The section plot: every path of one case, as built, to one scale.

use super::column;
use super::cut::{Cut, drawn_end, shown_paths};
use super::place::{AIR, AXIS, Place};
use super::room::Room;
use super::scale::{Scale, Span};
use super::schedule;
use super::sheet::{Figure, GRAY, INK, LINE, Lettering, MOISTURE, Point, Sheet};
use super::title::{Frame, LETTER};
use crate::model::{AssemblyKind, Openness, Project};
use crate::quantity::{Length, Style, TemperatureDifference, ThermalResistance, UnitSystem};
use crate::report::sentence::UNSETTLED;
use crate::solve::{EndResult, PathResult};
use crate::study::Judged;

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
    let word = one.verdict.status.word();
    let frame = Frame::new(
        project,
        one.stop(),
        &one.case.name(),
        word,
        &remark(one, style),
        [&one.case.assembly],
        style,
    )
    .with_dew_point(one.result().room_dew_point, style);
    let room = Room::within(&frame);
    let body = Body::new(one, style, room);
    let height = room.sheet_height(body.height());
    let mut sheet = Sheet::new((LETTER.0, height));
    body.draw(&mut sheet, style);
    frame.draw(&mut sheet, height, &body.layout.scale.foot());
    let title = format!("{}: {}", project.title, one.case.name());
    sheet.finish(&title, &body.words(word, style))
}

/// What is listed beside a path's drawing.
#[derive(Clone, Copy, PartialEq, Eq)]
enum List {
    /// Its layers, its planes and their margins.
    Full,
    /// Its layers; its planes stand in a table elsewhere.
    Layers,
    /// Nothing: all of it stands in tables.
    None,
}

/// A section in the room it is given.
pub(in crate::report) struct Body<'a> {
    kind: AssemblyKind,
    cuts: Vec<Cut<'a>>,
    layout: Layout,
}

impl<'a> Body<'a> {
    /// Lays out the paths of a case, at the largest standard scale that fits.
    pub(in crate::report) fn new(one: &'a Judged<'_>, style: Style, room: Room) -> Self {
        let paths = drawn_end(one.result()).map(shown_paths).unwrap_or_default();
        let mut cuts: Vec<Cut<'_>> = paths.into_iter().map(|path| Cut::new(one, path)).collect();
        let kind = one.case.assembly.kind;
        loop {
            let lists: &[List] = match room.strict {
                true => &[List::Layers, List::None],
                false => &[List::Full],
            };
            let laid = lists.iter().map(|list| match kind {
                AssemblyKind::Wall => rows(&cuts, room, *list, style),
                _ => columns(&cuts, room, *list, style),
            });
            let mut laid: Vec<Layout> = laid.collect();
            let fits = |layout: &Layout| !room.strict || layout.height <= room.height;
            let found = laid.iter().position(fits);
            if found.is_none() && cuts.len() > 1 {
                // The first stays, and of the others the coldest.
                let warmest = (1..cuts.len()).max_by(|a, b| {
                    let at = |n: usize| cuts[n].temperature(cuts[n].least()).as_celsius();
                    at(*a).total_cmp(&at(*b))
                });
                warmest.map(|n| cuts.remove(n));
                continue;
            }
            let layout = laid.swap_remove(found.unwrap_or(laid.len() - 1));
            return Self { kind, cuts, layout };
        }
    }

    /// The height it takes.
    pub(in crate::report) fn height(&self) -> i32 {
        self.layout.height
    }

    /// The scale its layers are drawn to.
    pub(in crate::report) fn scale(&self) -> Scale {
        self.layout.scale
    }

    /// Draws it.
    pub(in crate::report) fn draw(&self, sheet: &mut Sheet, style: Style) {
        for (n, cut) in self.cuts.iter().enumerate() {
            self.layout.draw(sheet, self.kind, n, cut, style);
        }
    }

    /// The plot in words.
    pub(in crate::report) fn words(&self, word: &str, style: Style) -> String {
        words(&self.cuts, word, style)
    }
}

/// What has to be known beside the conditions to read the section.
pub(in crate::report) fn remark(one: &Judged<'_>, style: Style) -> String {
    let end = drawn_end(one.result());
    let mut remark = end.map(|end| films(end, style)).unwrap_or_default();
    if !one.settled() {
        remark = format!("{UNSETTLED} {remark}");
    }
    if let (true, Some(end)) = (one.result().ends.len() > 1, end) {
        let word = if end.openness == Openness::Open {
            "open"
        } else {
            "closed"
        };
        remark = format!("{remark} The vented gap is drawn {word}, the worse for leaks.");
    }
    let left_out = end.map_or(0, |end| end.paths.len() - shown_paths(end).len());
    if left_out > 0 {
        remark = format!("{remark} {left_out} more paths stand in the text report.");
    }
    // The margins drawn are those of leaks; another check may decide.
    let severity = one.verdict.status.severity();
    if let (1.., Some(finding)) = (severity, one.verdict.deciding()) {
        let title = finding.title();
        remark = format!("{remark} The verdict is that of: {title}.");
    }
    remark
}

/// The films, so that a temperature can be worked out again from the drawing.
fn films(end: &EndResult, style: Style) -> String {
    let outside = |path: &PathResult| {
        let layers: f64 = path
            .in_one_dimension()
            .resistances
            .iter()
            .map(|r| r.as_si())
            .sum();
        let films = path.in_one_dimension().total_resistance.as_si() - layers;
        style.show(ThermalResistance::from_si(
            films - end.boundary.interior_film.as_si(),
        ))
    };
    let mut values: Vec<String> = end.paths.iter().map(outside).collect();
    values.dedup();
    let inside = style.show(end.boundary.interior_film);
    format!("Films: inside {inside}, outside {}.", values.join(" or "))
}

/// Where the paths go on the sheet.
struct Layout {
    height: i32,
    scale: Scale,
    span: Span,
    list: List,
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
        let list = match (self.list, kind) {
            (List::None, _) => return,
            (List::Layers, _) => schedule::layers,
            (List::Full, AssemblyKind::Wall) => schedule::one_line,
            (List::Full, _) => schedule::alternating,
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

/// The largest standard scale that fits; on the sheets of a packet none above 3 in to the foot or
/// 1:5, which are for details.
fn scale_of(thickness: Length, most: i32, room: Room, style: Style) -> Scale {
    let largest = match style.units {
        UnitSystem::Imperial => 4.0,
        UnitSystem::Metric => 5.0,
    };
    let taken = thickness.as_m() * 1e5 / (largest * room.magnify);
    let most = match room.strict {
        true => most.min(taken.ceil() as i32),
        false => most,
    };
    Scale::largest(thickness, most, style.units, room.magnify)
}

/// Floors and roofs: columns side by side.
fn columns(cuts: &[Cut<'_>], room: Room, list: List, style: Style) -> Layout {
    let count = i32::try_from(cuts.len().max(1)).unwrap_or(1);
    let width = ((room.width - GAP * (count - 1)) / count).min(12_600);
    let beside = count <= 2;
    let lines = |cut: &Cut<'_>| match list {
        List::Full => schedule::alternating_lines(cut),
        List::Layers => schedule::layers_lines(cut),
        List::None => 0,
    };
    let listed = LINE * cuts.iter().map(lines).max().unwrap_or(0);
    let fixed = HEADER + 2 * AXIS + 2 * AIR;
    let below = match (beside, list) {
        (true, _) | (_, List::None) => 0,
        _ => listed + 330,
    };
    let most = (room.height - fixed - below)
        .max(LEAST_ROOM)
        .max(if beside { listed - 2 * AIR - AXIS } else { 0 });
    let scale = scale_of(thickest(cuts), most, room, style);
    let top = room.top + HEADER + AXIS;
    let bottom = top + 2 * AIR + paper(scale, cuts);
    let (drawing, list_width) = if beside {
        (width * 47 / 100, width * 50 / 100)
    } else {
        (width, width)
    };
    let list_top = match beside {
        true => top + 250,
        false => bottom + AXIS + 450,
    };
    let list_end = match list {
        List::None => 0,
        _ => list_top + listed - LINE + 90,
    };
    let cell = |n: usize| {
        let x = room.left + i32::try_from(n).unwrap_or(0) * (width + GAP);
        let layers = (x + NUMBERS, x + NUMBERS + drawing * 23 / 100);
        Cell {
            header: ((x, room.top), width),
            along: (top, bottom),
            layers,
            chart: (layers.1 + 200, x + drawing - 600),
            schedule: ((x + width - list_width, list_top), list_width),
        }
    };
    Layout {
        height: (bottom + AXIS).max(list_end) - room.top,
        scale,
        span: Span::around(cuts.iter().flat_map(Cut::temperatures)),
        list,
        cells: (0..cuts.len()).map(cell).collect(),
    }
}

/// Walls: rows stacked.
fn rows(cuts: &[Cut<'_>], room: Room, list: List, style: Style) -> Layout {
    let count = i32::try_from(cuts.len().max(1)).unwrap_or(1);
    let lines = |cut: &Cut<'_>| match list {
        List::Full => schedule::one_line_lines(cut),
        List::Layers => schedule::layers_lines(cut),
        List::None => 0,
    };
    let lines = cuts.iter().map(lines).max().unwrap_or(0);
    let free = room.height / count;
    let needed = (HEADER + LINE * lines + 300).max(4800);
    let row = free.max(needed).min(needed.max(6800));
    let (list_width, list_x) = (11_000, room.right() - 11_000);
    let (left, right) = (room.left + 1450, list_x - 2050);
    let most = right - left - 2 * AIR;
    let scale = scale_of(thickest(cuts), most, room, style);
    let along = (left, left + 2 * AIR + paper(scale, cuts));
    let cell = |n: usize| {
        let y = room.top + i32::try_from(n).unwrap_or(0) * row;
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
        height: row * count,
        scale,
        span: Span::around(cuts.iter().flat_map(Cut::temperatures)),
        list,
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
            style.show(cut.temperature(plane)),
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
