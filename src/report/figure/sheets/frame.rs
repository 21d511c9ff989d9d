//! What stands on every sheet around its content: border, title of the chapter with its verdict,
//! title block, room for a stamp.

use super::super::lettering::{wrap, wrap_short};
use super::super::sheet::{GRAY, INK, LINE, Lettering, Point, SIZE, Sheet};
use super::super::title::both;
use super::Setting;
use super::flow::{Area, GUTTER};
use super::paper::Paper;
use crate::model::{AirState, Project, Stop};
use crate::quantity::Style;
use crate::report::packet::Chapter;

/// Empty edges of the paper: left for binding, then the others.
const EDGES: (i32, i32) = (1500, 900);
/// Height of the title block: two inches where a stamp stands in it, else six lines of lettering;
/// at most 12 % of a sheet.
fn strip(paper: Paper) -> i32 {
    match paper.is_large() {
        true => (5080.0 / paper.magnify()) as i32,
        false => 420 + 5 * LINE + 180,
    }
}

/// Room for a stamp: 2-1/2 in wide at least.
const STAMP: i32 = 6400;
/// Width of the cell with the sheet's number.
const NUMBER: i32 = 5600;
/// Between border and content.
const INSIDE: i32 = 350;
/// Lines of the face's sentence.
const FACE_LINES: usize = 5;
/// Type size of the face: what decides is read before anything else.
const FACE: i32 = 400;
/// From one line of the face to the next.
const FACE_LINE: i32 = 490;
/// The share of a sheet's width that the face takes at most, hundredths.
const FACE_SHARE: i32 = 60;

const CAUTION: &str = "Estimates by the methods named. Not structural. Local codes govern; licensed \
                       practice where it is required.";

/// What a sheet says about itself.
pub(super) struct Page<'a> {
    /// Its number, such as `A-5.1`.
    pub(super) number: &'a str,
    /// Which of how many.
    pub(super) count: (usize, usize),
    /// Its title.
    pub(super) title: &'a str,
    /// The scales of what is drawn on it.
    pub(super) scale: &'a str,
}

/// The border's upper left and lower right.
fn border(paper: Paper) -> (Point, Point) {
    let (width, height) = paper.units();
    ((EDGES.0, EDGES.1), (width - EDGES.1, height - EDGES.1))
}

/// Where a chapter's content goes on the first panel of a sheet.
pub(super) fn area(chapter: &Chapter<'_>, paper: Paper) -> Area {
    let (from, to) = border(paper);
    let panels = i32::try_from(paper.panels()).unwrap_or(1);
    let width = (to.0 - from.0) / panels;
    let from = (from.0 + INSIDE, from.1 + INSIDE);
    let to = (from.0 + width - 2 * INSIDE, to.1 - strip(paper) - INSIDE);
    let opening = Opening::of(chapter, to.0 - from.0).height();
    Area {
        from,
        to,
        heads: (TITLE + opening + 150, TITLE + 150),
    }
}

/// How far right of the first panel another one stands.
pub(super) fn shift(paper: Paper, panel: usize) -> i32 {
    let (from, to) = border(paper);
    let width = (to.0 - from.0) / i32::try_from(paper.panels()).unwrap_or(1);
    width * i32::try_from(panel).unwrap_or(0)
}

/// Height of a chapter's title.
const TITLE: i32 = 760;

/// What stands under a chapter's title on its first sheet: what decides, and its numbers beside it.
struct Opening {
    face: Vec<String>,
    /// Where the numbers begin, from the left.
    beside: i32,
    facts: Vec<String>,
}

impl Opening {
    fn of(chapter: &Chapter<'_>, width: i32) -> Self {
        let alone = chapter.facts.is_empty();
        let room = if alone {
            width
        } else {
            width * FACE_SHARE / 100
        };
        let mut face = wrap_short(&chapter.face, FACE, false, room - GUTTER);
        face.truncate(FACE_LINES);
        let widest = face
            .iter()
            .map(|line| Lettering::PLAIN.size(FACE).width(line));
        let beside = widest.max().map_or(0, |widest| widest + GUTTER);
        let facts = chapter.facts.iter();
        let facts = facts.flat_map(|words| wrap_short(words, SIZE, false, width - beside));
        Self {
            face,
            beside,
            facts: facts.collect(),
        }
    }

    fn height(&self) -> i32 {
        let lines = |of: &[String]| i32::try_from(of.len()).unwrap_or(0);
        (FACE_LINE * lines(&self.face)).max(LINE * lines(&self.facts))
    }

    fn draw(&self, sheet: &mut Sheet, (x, y): Point) {
        let (face, plain) = (Lettering::PLAIN.size(FACE), Lettering::PLAIN);
        let mut baseline = y + FACE * 8 / 10;
        for line in &self.face {
            sheet.text(line, (x, baseline), face);
            baseline += FACE_LINE;
        }
        baseline = y + SIZE * 8 / 10;
        for line in &self.facts {
            sheet.text(line, (x + self.beside, baseline), plain);
            baseline += LINE;
        }
    }
}

/// Draws the border and the title block; what it says of the air is of all chapters on the sheet.
pub(super) fn draw<'a>(
    sheet: &mut Sheet,
    project: &Project,
    stops: impl Iterator<Item = Option<&'a Stop>>,
    page: &Page<'_>,
    setting: Setting,
) {
    let (from, to) = border(setting.paper);
    sheet.outline(from, to, INK, 50);
    let top = to.1 - strip(setting.paper);
    sheet.line(vec![(from.0, top), (to.0, top)], INK, 35);
    let number = to.0 - NUMBER;
    let stamp = match setting.paper.is_large() {
        true => number - STAMP,
        false => number,
    };
    let project_cell = ((stamp - from.0) * 2 / 5).min(10_000);
    let basis = from.0 + project_cell;
    for x in [basis, stamp, number] {
        sheet.line(vec![(x, top), (x, to.1)], INK, 25);
    }
    let height = to.1 - top;
    project_entries(sheet, (from.0, top), (project_cell, height), project);
    let mut words: Vec<Entry> = Vec::new();
    for entry in stops.flat_map(|stop| conditions(project, stop, setting.style)) {
        if !words.contains(&entry) {
            words.push(entry);
        }
    }
    // The caution ends them.
    words.sort_by_key(|(caption, _)| caption.is_empty());
    cell(sheet, (basis, top), (stamp - basis, height), &words);
    if setting.paper.is_large() {
        let gray = Lettering::PLAIN.color(GRAY);
        sheet.text("stamp", (stamp + 200, top + 400), gray);
    }
    number_cell(sheet, (number, top), to, project, page);
}

/// The chapter's title on a panel with its verdict, boxed, and what decides.
pub(super) fn title(
    sheet: &mut Sheet,
    chapter: &Chapter<'_>,
    continued: bool,
    paper: Paper,
    panel: usize,
) {
    let mut area = area(chapter, paper);
    let shift = shift(paper, panel);
    area.from.0 += shift;
    area.to.0 += shift;
    let large = Lettering::PLAIN.bold().size(560);
    let baseline = area.from.1 + 440;
    let mut right = area.to.0;
    if let Some(word) = chapter.word {
        // A word alone in a box would look like the stamp of a plan check.
        let word = &format!("computed: {word}");
        let width = large.width(word) + 360;
        let (from, to) = (
            (right - width, area.from.1 - 130),
            (right, area.from.1 + 620),
        );
        sheet.outline(from, to, INK, 50);
        sheet.text(word, (right - 180, baseline), large.right());
        right -= width + 400;
    }
    let words = match continued {
        true => format!("{}, continued", chapter.title),
        false => chapter.title.clone(),
    };
    let room = right - area.from.0;
    sheet.text(&large.fit(&words, room), (area.from.0, baseline), large);
    if continued {
        return;
    }
    let opening = Opening::of(chapter, area.to.0 - area.from.0);
    opening.draw(sheet, (area.from.0, area.from.1 + TITLE));
}

/// A caption and what is stated.
pub(in crate::report) type Entry = (&'static str, String);

/// What the file says in one line, or that it says nothing.
pub(in crate::report) fn stated(text: &str) -> String {
    match text.is_empty() {
        true => "not stated".to_owned(),
        false => text.split_whitespace().collect::<Vec<_>>().join(" "),
    }
}

fn project_entries(
    sheet: &mut Sheet,
    (x, top): Point,
    (width, height): (i32, i32),
    project: &Project,
) {
    let data = &project.title_data;
    let title = Lettering::PLAIN.bold().size(430);
    let room = width - 400;
    sheet.text(
        &title.fit(&project.title, room),
        (x + 200, top + 480),
        title,
    );
    let entries = [
        ("address", stated(&data.address)),
        ("owner", stated(&data.owner)),
        ("drawn by", stated(&data.designer)),
    ];
    cell(sheet, (x, top + 500), (width, height - 900), &entries);
    let foot = format!("{} · dewmargin {}", project.file, env!("CARGO_PKG_VERSION"));
    let gray = Lettering::PLAIN.color(GRAY);
    let at = (x + 200, top + height - 180);
    sheet.text(&gray.fit(&foot, room), at, gray);
}

/// The climate, the air on both sides, the code as stated, the caution.
pub(in crate::report) fn conditions(
    project: &Project,
    stop: Option<&Stop>,
    style: Style,
) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    match stop {
        Some(stop) => {
            if !stop.name.is_empty() {
                entries.push(("climate", format!("{}, {}", stop.name, stop.origin)));
            }
            let conditions = &stop.conditions;
            entries.push(("room", air(conditions.indoor, style)));
            entries.push(("winter mean", air(conditions.winter_mean, style)));
            if let Some(night) = conditions.design_night {
                entries.push(("design night", air(night, style)));
            }
        }
        None => {
            let names = project.stops.iter().map(|stop| stop.name.as_str());
            let names: Vec<&str> = names.filter(|name| !name.is_empty()).collect();
            if !names.is_empty() {
                entries.push(("climates", names.join(", ")));
            }
        }
    }
    let code = stop.or(project.stops.first()).map(|stop| stop.code);
    let edition = code
        .and_then(|code| code.edition)
        .map(|one| one.title().to_owned());
    let zone = stop
        .and_then(|stop| stop.code.zone)
        .map(|one| one.to_string());
    let tables: Vec<String> = edition.into_iter().chain(zone).collect();
    entries.push(("code, as stated", stated(&project.title_data.code_basis)));
    if !tables.is_empty() {
        entries.push(("tables", tables.join(", ")));
    }
    entries.push(("", CAUTION.to_owned()));
    entries
}

fn air(air: AirState, style: Style) -> String {
    let humidity = style.show(air.humidity);
    format!("{} at {humidity}", both(air.temperature, style))
}

/// Entries one after another, each whole on a line where it fits one; as many lines as there is room
/// for.
fn cell(sheet: &mut Sheet, (x, top): Point, (width, height): (i32, i32), entries: &[Entry]) {
    let (plain, gray) = (Lettering::PLAIN, Lettering::PLAIN.color(GRAY));
    let (left, room) = (x + 200, width - 400);
    let bottom = top + height - 100;
    // Right of what stands on the line already, and its baseline.
    let (mut taken, mut y) = (0, top + 420);
    for (caption, words) in entries {
        let caption = match caption.is_empty() {
            true => String::new(),
            false => format!("{caption}: "),
        };
        let whole = format!("{caption}{words}");
        if taken > 0 && taken + plain.width(&whole) > room {
            (taken, y) = (0, y + LINE);
        }
        let lines = wrap(&whole, SIZE, false, room - taken);
        for (n, line) in lines.iter().enumerate() {
            if n > 0 {
                (taken, y) = (0, y + LINE);
            }
            if y > bottom {
                return;
            }
            let at = (left + taken, y);
            match (n, line.strip_prefix(caption.trim_end())) {
                (0, Some(rest)) if !caption.is_empty() => {
                    sheet.text(caption.trim_end(), at, gray);
                    let at = (at.0 + gray.width(&caption), y);
                    sheet.text(rest.trim_start(), at, plain);
                }
                _ => sheet.text(line, at, plain),
            }
            taken += plain.width(line) + BETWEEN;
        }
    }
}

/// Between two entries on one line.
const BETWEEN: i32 = 500;

fn number_cell(
    sheet: &mut Sheet,
    (x, top): Point,
    (right, bottom): Point,
    project: &Project,
    page: &Page<'_>,
) {
    let data = &project.title_data;
    let date = data
        .date
        .as_ref()
        .map_or_else(String::new, ToString::to_string);
    let (of, all) = page.count;
    let entries = [
        ("sheet", format!("{of} of {all}: {}", page.title)),
        ("scale", page.scale.to_owned()),
        ("date", stated(&date)),
        ("revision", stated(&data.revision)),
    ];
    cell(sheet, (x, top), (right - x, bottom - top - 900), &entries);
    let room = right - x - 400;
    let wide = Lettering::PLAIN.bold().size(760);
    let size = (760 * room / wide.width(page.number).max(room)).max(SIZE);
    let number = wide.size(size);
    let at = (right - 200, bottom - 250);
    sheet.text(&number.fit(page.number, room), at, number.right());
}
