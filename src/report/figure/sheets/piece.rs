//! A group set in a width: lines, rows and figures, each with its height.

use std::rc::Rc;

use super::super::lettering::{wrap, wrap_short};
use super::super::room::Room;
use super::super::sheet::{GRAY, LINE, Lettering, Point, SIZE, Sheet};
use super::super::subject::{Laid, Subject};
use super::table;
use crate::quantity::Style;
use crate::report::explain::Step;
use crate::report::packet::{Calculation, Group, Item, step_line};

/// What a piece is.
#[derive(Clone)]
pub(super) enum Content<'a> {
    /// Words on a line: where each begins or ends, and how it is set.
    Words(Vec<(i32, String, Lettering)>),
    /// A line across.
    Rule,
    /// Nothing.
    Gap,
    /// A box left empty for what it is named after.
    Blank(&'static str),
    /// A figure in a room of this height.
    Figure(Subject<'a>, i32),
}

/// Something that stays in one piece on a sheet.
#[derive(Clone)]
pub(super) struct Piece<'a> {
    /// The height it takes.
    pub(super) height: i32,
    /// What it is.
    pub(super) content: Content<'a>,
    /// Whether the next one belongs on the same sheet.
    pub(super) keep: bool,
    /// What is said again where the group goes on from here on another sheet.
    pub(super) head: Option<Rc<Vec<Piece<'a>>>>,
}

impl<'a> Piece<'a> {
    fn new(height: i32, content: Content<'a>) -> Self {
        Self {
            height,
            content,
            keep: false,
            head: None,
        }
    }

    /// Words that begin at the left.
    fn line(text: String, set: Lettering) -> Self {
        Self::new(LINE, Content::Words(vec![(0, text, set)]))
    }

    /// Words of a table's row.
    pub(super) fn row(words: Vec<(i32, String, Lettering)>) -> Self {
        Self::new(LINE, Content::Words(words))
    }

    /// A line across, close under what stands above it.
    pub(super) fn rule() -> Self {
        Self::new(110, Content::Rule).kept()
    }

    fn gap(height: i32) -> Self {
        Self::new(height, Content::Gap)
    }

    /// The same, staying with the next.
    pub(super) fn kept(self) -> Self {
        Self { keep: true, ..self }
    }

    /// Draws it with its upper left at a point.
    pub(super) fn draw(&self, sheet: &mut Sheet, (x, y): Point, page: &Page) {
        match &self.content {
            Content::Words(words) => {
                for (dx, text, set) in words {
                    sheet.text(text, (x + dx, y + SIZE * 8 / 10), *set);
                }
            }
            Content::Rule => sheet.line(vec![(x, y + 40), (x + page.width, y + 40)], GRAY, 18),
            Content::Gap => {}
            Content::Blank(name) => {
                sheet.outline((x, y), (x + BLANK.0, y + BLANK.1), GRAY, 18);
                let gray = Lettering::PLAIN.color(GRAY);
                sheet.text(name, (x + 150, y + SIZE), gray);
            }
            Content::Figure(..) => {
                if let Some(laid) = self.laid((x, y), page) {
                    laid.draw(sheet, page.style);
                }
            }
        }
    }

    /// The figure, with its upper left at a point.
    pub(super) fn laid(&self, at: Point, page: &Page) -> Option<Laid<'a>> {
        match self.content {
            Content::Figure(subject, height) => {
                let at = (at.0, at.1 + AROUND);
                subject.laid(page.style, page.room(at, height))
            }
            _ => None,
        }
    }
}

/// What a group is set for.
#[derive(Clone, Copy)]
pub(super) struct Page {
    /// Its width.
    pub(super) width: i32,
    /// The most height a figure may take.
    pub(super) most: i32,
    /// Hundredths of a millimeter on paper that one unit takes.
    pub(super) magnify: f64,
    /// The reader's units.
    pub(super) style: Style,
}

impl Page {
    fn room(&self, (left, top): Point, height: i32) -> Room {
        Room {
            left,
            top,
            width: self.width,
            height,
            magnify: self.magnify,
            strict: true,
        }
    }
}

/// Sets a group.
pub(super) fn set<'a>(group: &Group<'a>, page: &Page) -> Vec<Piece<'a>> {
    let mut pieces = heading(&group.heading, page.width);
    let taken: i32 = pieces.iter().map(|piece| piece.height).sum();
    for item in &group.items {
        pieces.extend(item_pieces(item, page, taken));
    }
    pieces
}

/// A group's heading with the line under it; nothing where it has none.
pub(super) fn heading<'a>(words: &str, width: i32) -> Vec<Piece<'a>> {
    if words.is_empty() {
        return Vec::new();
    }
    let bold = Lettering::PLAIN.bold().size(HEADING);
    let lines = wrap(words, HEADING, true, width).into_iter();
    let mut pieces: Vec<Piece<'a>> = lines.map(|line| Piece::line(line, bold).kept()).collect();
    if let Some(last) = pieces.last_mut() {
        last.height += 60;
    }
    pieces.push(Piece::rule());
    pieces.push(Piece::gap(60).kept());
    pieces
}

/// Type size of a group's heading.
const HEADING: i32 = 400;
/// Over and under a figure.
const AROUND: i32 = 200;
/// Under a paragraph.
const PARAGRAPH: i32 = 110;

fn item_pieces<'a>(item: &Item<'a>, page: &Page, taken: i32) -> Vec<Piece<'a>> {
    match item {
        Item::Text(words) => paragraph(words, Lettering::PLAIN, page.width),
        Item::Caption(words) => {
            let bold = Lettering::PLAIN.bold();
            let lines = wrap(words, bold.size, true, page.width);
            lines
                .into_iter()
                .map(|line| Piece::line(line, bold).kept())
                .collect()
        }
        Item::Note(words) => paragraph(words, Lettering::PLAIN.color(GRAY), page.width),
        Item::Verdict(name, word, words) => {
            let bold = Lettering::PLAIN.bold();
            let room = page.width - bold.width(word) - 300;
            let head = vec![
                (0, bold.fit(name, room), bold),
                (page.width, (*word).to_owned(), bold.right()),
            ];
            let mut pieces = vec![Piece::row(head).kept()];
            pieces.extend(paragraph(words, Lettering::PLAIN, page.width));
            pieces
        }
        Item::Table(table) => {
            let mut pieces = table::set(table, page.width);
            pieces.push(Piece::gap(PARAGRAPH * 2));
            pieces
        }
        Item::Steps(calculation) => steps(calculation, page.width),
        Item::Blank(name) => vec![blank(name)],
        Item::Figure(subject) => figure(*subject, page, taken).into_iter().collect(),
    }
}

fn figure<'a>(subject: Subject<'a>, page: &Page, taken: i32) -> Option<Piece<'a>> {
    let most = page.most - taken - 2 * AROUND;
    let laid = subject.laid(page.style, page.room((0, 0), most))?;
    Some(Piece::new(
        laid.height() + 2 * AROUND,
        Content::Figure(subject, most),
    ))
}

/// A hand calculation: what it answers, its source, its steps, what has to be known beside them.
fn steps<'a>(calculation: &Calculation, width: i32) -> Vec<Piece<'a>> {
    let derivation = &calculation.derivation;
    let gray = Lettering::PLAIN.color(GRAY);
    let source = format!("Source: {}.", derivation.source);
    let mut pieces = paragraph(&source, gray, width);
    for known in &calculation.known {
        pieces.extend(paragraph(known, Lettering::PLAIN, width));
    }
    // What is given needs no line of its own.
    let is_given = |step: &Step| step.formula.is_empty() && !step.is_result;
    for steps in derivation.steps.chunk_by(|a, b| is_given(a) && is_given(b)) {
        match steps {
            [step] => pieces.extend(step_lines(step, width)),
            given => {
                let each: Vec<String> = given.iter().map(told).collect();
                pieces.extend(paragraph(&each.join("; "), Lettering::PLAIN, width));
            }
        }
    }
    for note in &derivation.notes {
        pieces.extend(paragraph(note, gray, width));
    }
    pieces.push(Piece::gap(PARAGRAPH * 2));
    pieces
}

/// What stands before a step's symbol.
fn before(step: &Step) -> String {
    match step.words.is_empty() {
        true => String::new(),
        false => format!("{}: ", step.words),
    }
}

/// A step in words and symbols.
fn told(step: &Step) -> String {
    before(step) + &step_line(step)
}

/// A step on as few lines as it takes: its words in gray, then what is equal.
fn step_lines<'a>(step: &Step, width: i32) -> Vec<Piece<'a>> {
    let set = match step.is_result {
        true => Lettering::PLAIN.bold(),
        false => Lettering::PLAIN,
    };
    let words = before(step);
    let text = told(step);
    let lines = wrap_short(&text, SIZE, step.is_result, width - INDENT);
    // Characters of the words that are still to come.
    let mut gray = words.trim_end().chars().count();
    let count = lines.len();
    let each = lines.into_iter().enumerate().map(|(n, line)| {
        let indent = if n == 0 { 0 } else { INDENT };
        let split = line
            .char_indices()
            .nth(gray)
            .map_or(line.len(), |(at, _)| at);
        let (head, tail) = line.split_at(split);
        // A blank between two lines isn't on either.
        gray = gray.saturating_sub(line.chars().count() + 1);
        let named = set.color(GRAY);
        let after = indent + named.width(head);
        let mut on_it = vec![
            (indent, head.to_owned(), named),
            (after, tail.to_owned(), set),
        ];
        on_it.retain(|(_, words, _)| !words.is_empty());
        let piece = Piece::row(on_it);
        if n + 1 < count { piece.kept() } else { piece }
    });
    each.collect()
}

/// How far a step's second line stands in.
const INDENT: i32 = 300;

/// A box with its name in a corner.
fn blank<'a>(name: &'static str) -> Piece<'a> {
    Piece::new(BLANK.1 + PARAGRAPH, Content::Blank(name))
}

/// Room for a stamp, 2-3/8 by 1-3/4 in on letter.
const BLANK: (i32, i32) = (7600, 5560);

/// Two lines are never parted from a paragraph's beginning, nor one from its end.
fn paragraph<'a>(words: &str, set: Lettering, width: i32) -> Vec<Piece<'a>> {
    let lines = wrap_short(words, set.size, false, width);
    let count = lines.len();
    let line = |(n, text): (usize, String)| {
        let piece = Piece::line(text, set);
        match n == 0 && count > 1 || n + 2 == count {
            true => piece.kept(),
            false => piece,
        }
    };
    let mut pieces: Vec<Piece<'a>> = lines.into_iter().enumerate().map(line).collect();
    if !pieces.is_empty() {
        pieces.push(Piece::gap(PARAGRAPH));
    }
    pieces
}
