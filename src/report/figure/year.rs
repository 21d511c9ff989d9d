//! The year as a tank: water held place by place, what wets and dries it, the vapor on both sides.

use super::axis::{Axis, MonthAxis};
use super::legend::{Item, patch};
use super::lettering::wrap;
use super::place::DASHES;
use super::room::Room;
use super::row::{Line, NAMES, Row, gutter, words};
use super::sheet::{Figure, GRAY, INK, LINE, Lettering, MOISTURE, PAPER, SIZE, Sheet};
use super::tank::judged_word;
use super::title::{Frame, LETTER, WIDTH};
use super::water::{Closest, Tank, closest, tanks, year_finding};
use super::{hatch, tank, vapor};
use crate::check::{self, Status};
use crate::model::{MonthState, Project, Stop};
use crate::quantity::{Dimension, Style, fixed, month_name};
use crate::study::Judged;

/// Tanks shown at most.
const MOST: usize = 4;
/// Left of a chart, for its axis.
const AXIS: i32 = 1350;
/// Right of a chart, for the words at its lines' ends.
const GUTTER: i32 = 3700;
/// Width of the words beside a chart.
const WORDS: i32 = 7790;
/// Between two rows.
const GAP: i32 = 420;
/// The month a dry year begins with on paper: the winter stands in its middle.
pub(super) const JULY: usize = 6;

/// What a row shows.
enum Content<'a> {
    Tank(Tank<'a>),
    Closest(Closest<'a>),
    Vapor(&'a [MonthState; 12]),
}

impl Content<'_> {
    /// The least and the greatest height.
    fn heights(&self) -> (i32, i32) {
        match self {
            Content::Tank(_) => (3350, 6500),
            Content::Closest(_) => (2700, 8000),
            Content::Vapor(_) => (2500, 6500),
        }
    }
}

/// Draws it; `None` without a climate.
pub(super) fn draw(project: &Project, one: &Judged<'_>, style: Style) -> Option<Figure> {
    let content = Year::of(one)?;
    let name = one.case.name();
    let frame = Frame::about(
        project,
        &format!("{name}, the year"),
        one.verdict.status.word(),
        &content.conditions(one, style),
        [&one.case.assembly],
    )
    .with_legend(LEGEND);
    let room = Room::within(&frame);
    let body = Body::new(content, one, style, room);
    let height = room.sheet_height(body.height());
    let mut sheet = Sheet::new((LETTER.0, height));
    body.draw(&mut sheet, style);
    frame.draw(&mut sheet, height, &unit_words(style));
    let title = format!("{}: {name}, the year", project.title);
    Some(sheet.finish(&title, &in_words(one, style)))
}

/// What the water is counted in.
pub(in crate::report) fn unit_words(style: Style) -> String {
    let unit = Dimension::Water.unit(style);
    format!("Water in {unit} of the path's own area, bars in {unit} a month")
}

/// What a case's year has to show.
pub(in crate::report) struct Year<'a> {
    months: &'a [MonthState; 12],
    contents: Vec<Content<'a>>,
    left_out: usize,
    start: usize,
}

impl<'a> Year<'a> {
    /// The year of a case; `None` without a climate.
    pub(in crate::report) fn of(one: &'a Judged<'_>) -> Option<Self> {
        let months = one.stop().conditions.year.as_ref()?;
        let mut tanks = tanks(one);
        let left_out = tanks.len().saturating_sub(MOST);
        let start = tanks.first().and_then(|tank| tank.year.start);
        tanks.truncate(MOST);
        let mut contents: Vec<Content<'_>> =
            closest(one).map(Content::Closest).into_iter().collect();
        contents.extend(tanks.into_iter().map(Content::Tank));
        contents.truncate(MOST);
        Some(Self {
            months,
            contents,
            left_out,
            start: start.unwrap_or(JULY),
        })
    }

    /// Leaves out the last places until the rest fits a height.
    fn fitted(mut self, room: Room, head: i32) -> Self {
        let least = |contents: &[Content<'_>]| {
            let heights = contents.iter().map(|content| content.heights().0 + GAP);
            heights.sum::<i32>() + Content::Vapor(self.months).heights().0 + GAP
        };
        while room.strict && self.contents.len() > 1 && least(&self.contents) > room.height - head {
            self.contents.pop();
            self.left_out += 1;
        }
        self
    }

    /// What it is drawn for, in words.
    pub(in crate::report) fn conditions(&self, one: &Judged<'_>, style: Style) -> String {
        let remark = remark(one, &self.contents, self.left_out);
        let conditions = conditions_words(one.stop(), self.months, style);
        format!("{conditions}{remark}")
    }
}

/// A year in the room it is given.
pub(in crate::report) struct Body<'a> {
    contents: Vec<Content<'a>>,
    rows: Vec<Row>,
    drying: Vec<String>,
    room: Room,
}

impl<'a> Body<'a> {
    /// Lays out its rows.
    pub(in crate::report) fn new(
        year: Year<'a>,
        one: &Judged<'_>,
        style: Style,
        room: Room,
    ) -> Self {
        let drying = drying_lines(one, room.width, style);
        let head = LINE * i32::try_from(drying.len()).unwrap_or(0) + 300;
        let year = year.fitted(room, head);
        let mut contents = year.contents;
        contents.push(Content::Vapor(year.months));
        let words = (room.right() - WORDS, room.right());
        let months = MonthAxis {
            start: year.start,
            ends: (room.left + AXIS, words.0 - GUTTER),
        };
        let ends = rows(&contents, room.top + head, room.height - head);
        let row = |(top, bottom)| Row {
            top,
            bottom,
            months,
            words,
        };
        Self {
            rows: ends.into_iter().map(row).collect(),
            contents,
            drying,
            room,
        }
    }

    /// The height it takes.
    pub(in crate::report) fn height(&self) -> i32 {
        let bottom = self.rows.last().map_or(self.room.top, |row| row.bottom);
        bottom + GAP - self.room.top
    }

    /// Draws it.
    pub(in crate::report) fn draw(&self, sheet: &mut Sheet, style: Style) {
        for (n, line) in self.drying.iter().enumerate() {
            let y = self.room.top + 60 + LINE * i32::try_from(n).unwrap_or(0);
            sheet.text(line, (self.room.left, y), Lettering::PLAIN);
        }
        for (content, row) in self.contents.iter().zip(&self.rows) {
            match content {
                Content::Tank(tank) => tank::draw(sheet, *row, tank, style),
                Content::Closest(closest) => humidity(sheet, *row, closest),
                Content::Vapor(months) => vapor::draw(sheet, *row, months, style),
            }
        }
    }
}

/// Tops and bottoms of the rows.
fn rows(contents: &[Content<'_>], top: i32, height: i32) -> Vec<(i32, i32)> {
    let count = i32::try_from(contents.len()).unwrap_or(1);
    let least: i32 = contents.iter().map(|content| content.heights().0).sum();
    let most: i32 = contents.iter().map(|content| content.heights().1).sum();
    let free = height - GAP * count;
    let more = (free - least).clamp(0, most - least);
    let mut y = top;
    let mut rows = Vec::new();
    for content in contents {
        let (low, high) = content.heights();
        let height = low + more * (high - low) / (most - least).max(1);
        rows.push((y, y + height));
        y += height + GAP;
    }
    rows
}

fn remark(one: &Judged<'_>, contents: &[Content<'_>], left_out: usize) -> String {
    let mut remark = String::new();
    if contents.is_empty() {
        remark += " Nothing condenses inside in any month.";
    }
    if year_finding(one).is_some_and(|finding| finding.status == Status::Unknown) {
        remark += " The year can't be judged in full: see the text report.";
    }
    if left_out > 0 {
        let hold = if left_out == 1 {
            "place holds"
        } else {
            "places hold"
        };
        remark += &format!(" {left_out} more {hold} water: see the text report.");
    }
    remark
}

/// `Drawn for the twelve months of wet-coast (invented, built in): …`.
pub(super) fn conditions_words(stop: &Stop, months: &[MonthState; 12], style: Style) -> String {
    let climate = match stop.name.is_empty() {
        true => "the climate given".to_owned(),
        false => format!("{} ({})", stop.name, stop.origin),
    };
    let celsius = |n: &usize| months[*n].outdoor.temperature.as_celsius();
    let all = 0..12_usize;
    let coldest = all
        .clone()
        .min_by(|a, b| celsius(a).total_cmp(&celsius(b)))
        .unwrap_or(0);
    let warmest = all
        .max_by(|a, b| celsius(a).total_cmp(&celsius(b)))
        .unwrap_or(0);
    let air = |month: usize| {
        let state = &months[month];
        format!(
            "{}: outdoors {} at {}, room {} at {}",
            month_name(month),
            style.show(state.outdoor.temperature),
            style.show(state.outdoor.humidity),
            style.show(state.indoor.temperature),
            style.show(state.indoor.humidity),
        )
    };
    format!(
        "Drawn for the twelve monthly means of {climate}. {}. {}. By diffusion alone, repeated until \
         the years are alike.",
        air(coldest),
        air(warmest)
    )
}

/// Whether and when 1 kg/m² dries, in words.
fn drying_lines(one: &Judged<'_>, width: i32, style: Style) -> Vec<String> {
    let mut findings = one.here().verdict.findings.iter();
    let Some(finding) = findings.find(|finding| finding.check == &check::drying::CHECK) else {
        return Vec::new();
    };
    let words = format!(
        "{}, {}: {}",
        finding.title(),
        finding.status.word(),
        check::drying::say(finding, style)
    );
    let words = format!("C{}", words.trim_start_matches('c'));
    let mut lines = wrap(&words, SIZE, false, width);
    lines.truncate(4);
    lines
}

/// The humidity of the plane that comes closest.
fn humidity(sheet: &mut Sheet, row: Row, closest: &Closest<'_>) {
    let known = closest
        .humidity
        .iter()
        .flatten()
        .copied()
        .filter(|h| h.is_finite());
    let least = known.fold(1.0, f64::min);
    let axis = Axis {
        values: (
            ((least * 10.0).floor() * 10.0 - 10.0).clamp(0.0, 60.0),
            108.0,
        ),
        ends: (row.bottom - NAMES, row.top),
    };
    axis.draw(sheet, row.months.ends.0);
    let across = |y: i32| [(row.months.ends.0, y), (row.months.ends.1, y)];
    let (full, mold) = (across(axis.at(100.0)), across(axis.at(80.0)));
    sheet.line(full.to_vec(), INK, 55);
    sheet.dashes(&mold, DASHES, GRAY, 18);
    let labels = [
        (full[0].1, "100 %: water", Lettering::PLAIN.bold()),
        (mold[0].1, "80 %", Lettering::PLAIN.color(GRAY)),
    ];
    let labels = labels.map(|(y, words, set)| (y, words.to_owned(), set));
    gutter(sheet, row, labels.to_vec());
    let at = |(place, month): (usize, usize)| {
        let humidity = closest.humidity[month].filter(|humidity| humidity.is_finite())?;
        Some((row.months.middle(place), axis.at(100.0 * humidity)))
    };
    let points: Vec<_> = row.months.months().map(at).collect();
    for run in points.split(Option::is_none) {
        sheet.line(run.iter().flatten().copied().collect(), MOISTURE, 30);
    }
    let (humidity, month) = closest.most;
    let percent = format!("{} %", fixed(100.0 * humidity, 0));
    if let Some((x, y)) = points[row.months.place(month)] {
        let bold = Lettering::PLAIN.bold();
        let half = bold.width(&percent) / 2 + 50;
        sheet.fill((x - half, y + 110), (x + half, y + 470), PAPER);
        sheet.text(&percent, (x, y + 400), bold.centered());
        sheet.ring((x, y), 65, MOISTURE, 36);
    }
    row.months.draw(sheet, row.bottom - NAMES);
    let lines = [
        Line::heading(&closest.name, judged_word(closest.status)),
        Line::gray(format!("path {}", closest.path.path.name)),
        Line::plain("nothing condenses in any month at a plane of wood or open insulation".into()),
        Line::plain(format!("most humid {percent} in {}", month_name(month))),
    ];
    words(sheet, row, &lines);
}

pub(in crate::report) const LEGEND: &[Item] = &[
    ("water held; what wets", |sheet, at| {
        hatch::wet(sheet, &patch(at));
    }),
    ("held as frost", |sheet, at| {
        hatch::frost(sheet, &patch(at));
    }),
    ("what dries; cooled months", |sheet, at| {
        hatch::drying(sheet, &patch(at));
    }),
    ("limit, or water at 100 %", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], INK, 55);
    }),
    ("humidity", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], MOISTURE, 30);
    }),
    ("indoor vapor pressure", |sheet, (x, y)| {
        sheet.line(vec![(x, y), (x + 900, y)], INK, 50);
    }),
    ("outdoor", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], DASHES, MOISTURE, 45);
    }),
];

/// The plot in words.
pub(in crate::report) fn in_words(one: &Judged<'_>, style: Style) -> String {
    let of_year = one
        .verdict
        .findings
        .iter()
        .filter(|f| f.check == &check::year::CHECK);
    let sentences = of_year.map(|finding| check::year::say(finding, style));
    let drying = drying_lines(one, WIDTH, style).join(" ");
    format!(
        "Water held through the twelve months, against its limit. Verdict: {}. {} {drying}",
        one.verdict.status.word(),
        sentences.collect::<Vec<_>>().join(" ")
    )
}
