//! The year as a calendar of planes and months: the planes in the section's order, the months across,
//! in each cell the humidity there and the water it holds.

mod across;
mod air;
mod cells;
mod entry;
mod strip;
mod words;

use super::badge;
use super::cut::Cut;
use super::hatch;
use super::legend::{Item, patch};
use super::lettering::wrap;
use super::place::DASHES;
use super::room::Room;
use super::sheet::{FAINT, Figure, GRAY, INK, LINE, Lettering, MOISTURE, Sheet};
use super::title::{Frame, LETTER};
use super::water::{Told, first_month, judged_word};
use crate::model::{AssemblyKind, MonthState, Project};
use crate::quantity::{ArealDensity, Dimension, Style, fixed, month_short};
use crate::study::Judged;
use across::Across;
use entry::Entry;
use strip::Strip;
pub(in crate::report) use words::in_words;

/// Type size of the answer, and from one of its lines to the next.
const ANSWER: (i32, i32) = (520, 640);
/// The same where there is little room.
const SMALL_ANSWER: (i32, i32) = (400, 490);
/// Over the cells where names stand over them.
const NAME: i32 = LINE + 110;
/// Over and under what stands in a row, and where there is little room.
const AROUND: i32 = 160;
const TIGHT: i32 = 40;
/// The most a row is spread beyond what it needs.
const SPREAD: i32 = 640;

/// Draws it; `None` without a climate.
pub(super) fn draw(project: &Project, one: &Judged<'_>, style: Style) -> Option<Figure> {
    let subject = format!("{}, the year", one.case.name());
    let word = format!("all checks: {}", one.verdict.status.word());
    let frame = Frame::about(project, &subject, &word, "", [&one.case.assembly])
        .with_legend(LEGEND)
        .quiet();
    let room = Room::within(&frame);
    let body = Body::new(one, style, room)?;
    let height = room.sheet_height(body.height());
    let mut sheet = Sheet::new((LETTER.0, height));
    body.draw(&mut sheet, style);
    frame.draw(&mut sheet, height, &unit_words(style, room.width));
    let title = format!("{}: {subject}", project.title);
    Some(sheet.finish(&title, &in_words(one, style)))
}

/// What the numbers are, as fully as there is room for.
pub(in crate::report) fn unit_words(style: Style, room: i32) -> String {
    let unit = Dimension::Water.unit(style);
    let long = format!(
        "Relative humidity in %; water in {unit} of the path's own area. Layers in proportion."
    );
    match Lettering::PLAIN.width(&long) <= room {
        true => long,
        false => format!("Humidity %, water {unit}"),
    }
}

/// The calendar in the room it is given.
pub(in crate::report) struct Body<'a> {
    months: &'a [MonthState; 12],
    cut: Cut<'a>,
    kind: AssemblyKind,
    answer: Vec<String>,
    /// Type size of the answer, and from one of its lines to the next.
    set: (i32, i32),
    facts: Vec<(String, Lettering)>,
    rows: Vec<Entry>,
    across: Across,
    room: Room,
    /// Over and under what stands in a row.
    around: i32,
    /// Added to every row.
    more: i32,
}

impl<'a> Body<'a> {
    /// Lays it out; `None` without a climate. Where the height is limited the planes that matter least
    /// are left out.
    pub(in crate::report) fn new(one: &'a Judged<'_>, style: Style, room: Room) -> Option<Self> {
        let months = one.stop().conditions.year.as_ref()?;
        let told = Told::of(one);
        let path = told.path(one)?;
        let start = first_month(path.year.as_ref()?, months);
        let (rows, wet) = entry::entries(one, &told, path);
        let widths = rows.iter().map(|row| name_of(row).width(&row.name));
        let across = Across::new(room, widths.max().unwrap_or(0), start);
        let answer = if across.stacked { SMALL_ANSWER } else { ANSWER };
        let mut body = Self {
            months,
            cut: Cut::new(one, path),
            kind: one.case.assembly.kind,
            answer: wrap(&words::answer(one, &told), answer.0, true, room.width),
            set: answer,
            facts: Vec::new(),
            rows,
            across,
            room,
            around: AROUND,
            more: 0,
        };
        let mut dry = 0;
        loop {
            let facts = words::facts(one, &told, path, [wet, dry], style);
            let lines = |(words, set): (String, Lettering)| {
                let lines = wrap(&words, set.size, set.is_bold(), room.width).into_iter();
                lines.map(move |line| (line, set))
            };
            body.facts = facts.into_iter().flat_map(lines).collect();
            if !room.strict || body.height() <= room.height {
                break;
            }
            if body.around > TIGHT {
                body.around = TIGHT;
            } else if body.leave_one_out() {
                dry += 1;
            } else {
                break;
            }
        }
        let count = i32::try_from(body.rows.len()).unwrap_or(1).max(1);
        body.more = ((room.height - body.height()) / count).clamp(0, SPREAD);
        Some(body)
    }

    /// Leaves out the row that matters least, the last of equals; never the one that decides.
    fn leave_one_out(&mut self) -> bool {
        let least = (0..self.rows.len())
            .rev()
            .min_by_key(|n| self.rows[*n].rank());
        match least.filter(|_| self.rows.len() > 1) {
            Some(n) => {
                self.rows.remove(n);
                true
            }
            None => false,
        }
    }

    /// The height a row takes.
    fn row_height(&self, row: &Entry) -> i32 {
        let cells = cells::height(row);
        let beside = match (&row.water, row.decides) {
            (Some(_), _) => 3 * LINE + 80,
            _ => LINE,
        };
        let all = match self.across.stacked {
            true => NAME + cells,
            false => cells.max(beside),
        };
        all + 2 * self.around + self.more
    }

    /// Where the head begins, where the rows begin.
    fn tops(&self) -> (i32, i32) {
        let lines = |count: usize| i32::try_from(count).unwrap_or(i32::MAX / LINE / 8);
        let head = self.room.top
            + self.set.1 * lines(self.answer.len())
            + LINE * lines(self.facts.len())
            + LINE / 2;
        (head, head + air::height(&self.across, self.months))
    }

    /// The height it takes.
    pub(in crate::report) fn height(&self) -> i32 {
        let rows: i32 = self.rows.iter().map(|row| self.row_height(row)).sum();
        self.tops().1 + rows + LINE * 5 / 4 - self.room.top
    }

    /// Draws it.
    pub(in crate::report) fn draw(&self, sheet: &mut Sheet, style: Style) {
        let mut y = self.room.top + self.set.0 * 3 / 4;
        let set = Lettering::PLAIN.bold().size(self.set.0);
        for line in &self.answer {
            sheet.text(line, (self.room.left, y), set);
            y += self.set.1;
        }
        y += LINE - self.set.1 + 160;
        for (line, set) in &self.facts {
            sheet.text(line, (self.room.left, y), *set);
            y += LINE;
        }
        let (head, rows) = self.tops();
        air::draw(sheet, &self.across, head, self.months, (self.kind, style));
        self.rows(sheet, rows, style);
    }

    fn rows(&self, sheet: &mut Sheet, top: i32, style: Style) {
        let mut y = top;
        let mut leaders = Vec::new();
        let mut planes_end = top;
        for (n, row) in self.rows.iter().enumerate() {
            let end = y + self.row_height(row);
            let cells = self.row(sheet, (y, end), row, style);
            let is_last = n + 1 == self.rows.len();
            self.rule(sheet, end, is_last, [Some(row), self.rows.get(n + 1)]);
            if let Some(place) = row.place {
                leaders.push((place, cells + cells::middle(row), row.decides.is_some()));
                planes_end = end;
            }
            y = end;
        }
        let strip = Strip {
            cut: &self.cut,
            kind: self.kind,
            ends: (top + TIGHT, planes_end - TIGHT),
        };
        strip.draw(sheet, &self.across, &leaders);
    }

    /// The line under a row: ink over and under the one that decides.
    fn rule(&self, sheet: &Sheet, y: i32, is_last: bool, beside: [Option<&Entry>; 2]) {
        let decides = beside
            .into_iter()
            .flatten()
            .any(|row| row.decides.is_some());
        let (color, width) = match decides {
            true => (INK, 30),
            false if is_last => (FAINT, 14),
            false => (FAINT, 8),
        };
        let ends = [self.across.names.0, self.across.words.1];
        sheet.line(ends.map(|x| (x, y)).to_vec(), color, width);
    }

    /// A row's name, cells, verdict and amounts; returns where its cells begin.
    fn row(&self, sheet: &mut Sheet, (top, end): (i32, i32), row: &Entry, style: Style) -> i32 {
        let free = end - top - self.row_height(row) + self.more;
        let first = top + self.around + free / 2;
        let base = first + BASE;
        let across = &self.across;
        let lines = amounts(row, style);
        let left = self.verdict(sheet, base, row, &lines);
        let room = match across.stacked {
            true => left - across.names.0 - 200,
            false => across.names.1 - across.names.0,
        };
        let set = name_of(row);
        sheet.text(
            &set.fit(&name_words(row, across.stacked), room),
            (across.names.0, base),
            set,
        );
        if let (Some(path), false) = (&row.elsewhere, across.stacked) {
            let gray = Lettering::PLAIN.color(GRAY);
            sheet.text(&gray.fit(path, room), (across.names.0, base + LINE), gray);
        }
        let cells = if across.stacked { first + NAME } else { first };
        cells::draw(sheet, across, cells, row, style);
        cells
    }

    /// The verdict in its badge and the amounts; returns where they begin.
    fn verdict(&self, sheet: &mut Sheet, base: i32, row: &Entry, lines: &[String]) -> i32 {
        let across = &self.across;
        let (mut left, right) = across.words;
        let plain = Lettering::PLAIN;
        let badge = row.decides.map(|status| (judged_word(status), status));
        if across.stacked {
            left = right;
            if let Some((word, status)) = badge {
                left -= badge::width(word);
                badge::draw(sheet, (left, base), word, status);
            }
            let words = lines.first().map_or("", String::as_str);
            let name = name_of(row).width(&name_words(row, true));
            if !words.is_empty() && name + plain.width(words) + 400 <= left - across.names.0 {
                left -= 160;
                sheet.text(words, (left, base), plain.right());
                left -= plain.width(words);
            }
            return left;
        }
        let mut y = base;
        if let Some((word, status)) = badge {
            badge::draw(sheet, (left, base), word, status);
            if row.water.is_some() {
                y += LINE + 60;
            } else {
                left += badge::width(word) + 200;
            }
        }
        for line in lines {
            sheet.text(&plain.fit(line, right - left), (left, y), plain);
            y += LINE;
        }
        left
    }
}

/// From the top of a row's cells to the baseline of its name.
const BASE: i32 = cells::BAND / 2 + 125;

fn name_of(row: &Entry) -> Lettering {
    match row.decides {
        Some(_) => Lettering::PLAIN.bold(),
        None => Lettering::PLAIN,
    }
}

fn name_words(row: &Entry, with_path: bool) -> String {
    match (&row.elsewhere, with_path) {
        (Some(path), true) => format!("{} ({path})", row.name),
        _ => row.name.clone(),
    }
}

/// What stands at a row's right: the most it holds and its limit, or the highest humidity of a plane
/// that decides and stays dry.
fn amounts(row: &Entry, style: Style) -> Vec<String> {
    let print = |kg: f64| style.water(ArealDensity::from_si(kg));
    if let Some(water) = &row.water {
        let limit = row.limit.map(|limit| format!("limit {}", print(limit)));
        let limit = limit.unwrap_or_else(|| "counted, not judged".into());
        return vec![format!("peak {}", print(water.peak)), limit];
    }
    let known = row.decides.and(row.humidity).into_iter();
    let known = known.flatten().enumerate();
    let known = known.filter_map(|(month, humidity)| Some((month, humidity?)));
    let most = known.max_by(|a, b| a.1.total_cmp(&b.1));
    let words = |(month, humidity): (usize, f64)| {
        format!("{} % in {}", fixed(100.0 * humidity, 0), month_short(month))
    };
    most.map(words).into_iter().collect()
}

pub(in crate::report) const LEGEND: &[Item] = &[
    ("70 % humidity and more", |sheet, at| {
        cells::sample(sheet, at, 0)
    }),
    ("80 %", |sheet, at| cells::sample(sheet, at, 1)),
    ("95 %", |sheet, at| cells::sample(sheet, at, 2)),
    ("below freezing", |sheet, (x, y)| {
        cells::star(sheet, (x + 450, y))
    }),
    ("water at the month's end", |sheet, (x, y)| {
        sheet.fill((x, y - 130), (x + 900, y + 130), MOISTURE);
    }),
    ("held as frost", |sheet, at| hatch::frost(sheet, &patch(at))),
    ("the most it may hold", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], DASHES, INK, 30);
    }),
];
