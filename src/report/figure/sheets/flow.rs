//! Groups put onto pages: each on the first page that has room, where that page is filled least,
//! broken between its pieces.

use super::super::sheet::{Point, Sheet};
use super::super::subject::Laid;
use super::piece::{Content, Page, Piece, heading, set};
use super::table;
use crate::quantity::Style;
use crate::report::packet::{Chapter, Group, Item, Width};

/// Between two columns.
pub(super) const GUTTER: i32 = 700;
/// Under a group.
const UNDER: i32 = 380;
/// Less room than this is left empty.
const LEAST: i32 = 2600;
/// No column of text is narrower.
const NARROWEST: i32 = 13_500;
/// A figure needs this width, if it can be had.
const FIGURE: i32 = 24_500;
/// The height a figure gets where the page has more.
const FIGURE_HEIGHT: i32 = 15_500;
/// The same for a drawing that gains from more.
const DRAWING_HEIGHT: i32 = 30_000;

/// Where a page's content goes.
#[derive(Clone, Copy)]
pub(super) struct Area {
    /// Upper left.
    pub(super) from: Point,
    /// Lower right.
    pub(super) to: Point,
    /// How much of the first page the title of the chapter takes, and of every other.
    pub(super) heads: (i32, i32),
}

/// Pieces that stand below each other.
struct Run<'a> {
    at: Point,
    page: Page,
    pieces: Vec<Piece<'a>>,
}

/// One page's content.
pub(super) struct Filled<'a> {
    runs: Vec<Run<'a>>,
    /// Down to where each column is filled.
    down_to: Vec<i32>,
}

impl Filled<'_> {
    fn figures(&self) -> impl Iterator<Item = Laid<'_>> {
        let runs = self.runs.iter();
        let pieces = runs.flat_map(|run| run.pieces.iter().map(|piece| (piece, &run.page)));
        pieces.filter_map(|(piece, page)| piece.laid((0, 0), page))
    }

    /// The scales of what is drawn on it, in words.
    pub(super) fn scale(&self) -> String {
        let mut words: Vec<String> = Vec::new();
        for scale in self.figures().filter_map(|laid| laid.scale) {
            if !words.contains(&scale.words()) {
                words.push(scale.words());
            }
        }
        words.join("; ")
    }

    /// What its figures show, in words.
    pub(super) fn words(&self) -> String {
        let words: Vec<String> = self.figures().map(|laid| laid.words).collect();
        words.join(" ")
    }

    /// Draws it, so far to the right.
    pub(super) fn draw(&self, sheet: &mut Sheet, shift: i32) {
        for run in &self.runs {
            let (x, mut y) = (run.at.0 + shift, run.at.1);
            for piece in &run.pieces {
                piece.draw(sheet, (x, y), &run.page);
                y += piece.height;
            }
        }
    }
}

/// Puts groups onto as many pages as they take.
pub(super) fn fill<'a>(
    chapter: &Chapter<'a>,
    area: Area,
    magnify: f64,
    style: Style,
) -> Vec<Filled<'a>> {
    let mut flow = Flow::new(area);
    for group in &chapter.groups {
        let span = flow.span(group);
        let most = match group.width {
            Width::Drawing => DRAWING_HEIGHT,
            _ => FIGURE_HEIGHT,
        };
        let page = Page {
            width: flow.width(span),
            most: flow.most().min(most),
            magnify,
            style,
        };
        flow.put(group, span, page);
    }
    flow.pages
}

struct Flow<'a> {
    area: Area,
    columns: usize,
    pages: Vec<Filled<'a>>,
}

impl<'a> Flow<'a> {
    fn new(area: Area) -> Self {
        let width = area.to.0 - area.from.0;
        let columns = ((width + GUTTER) / (NARROWEST + GUTTER)).max(1);
        let mut flow = Self {
            area,
            columns: usize::try_from(columns).unwrap_or(1),
            pages: Vec::new(),
        };
        flow.turn(area.heads.0);
        flow
    }

    /// Width of one column.
    fn column(&self) -> i32 {
        let count = i32::try_from(self.columns).unwrap_or(1);
        (self.area.to.0 - self.area.from.0 - GUTTER * (count - 1)) / count
    }

    fn width(&self, span: usize) -> i32 {
        let span = i32::try_from(span).unwrap_or(1);
        self.column() * span + GUTTER * (span - 1)
    }

    /// How many columns a group takes.
    fn span(&self, group: &Group<'_>) -> usize {
        let first = |fits: &dyn Fn(i32) -> bool| {
            let found = (1..=self.columns).find(|span| fits(self.width(*span)));
            found.unwrap_or(self.columns)
        };
        let figure = || first(&|width| width >= FIGURE);
        match group.width {
            Width::Column => 1,
            Width::Table => first(&|width| {
                let tables = group.items.iter().filter_map(|item| match item {
                    Item::Table(table) => Some(table),
                    _ => None,
                });
                tables.into_iter().all(|one| table::fits(one, width))
            }),
            Width::Figure => figure(),
            Width::Drawing => figure().max(self.columns * 3 / 5),
        }
    }

    /// The height an empty page has, whichever it is.
    fn most(&self) -> i32 {
        self.area.to.1 - self.area.from.1 - self.area.heads.0.max(self.area.heads.1)
    }

    fn turn(&mut self, head: i32) {
        self.pages.push(Filled {
            runs: Vec::new(),
            down_to: vec![self.area.from.1 + head; self.columns],
        });
    }

    /// The column of a page that is filled least, and from where down it is free.
    fn place(&self, page: usize, span: usize) -> (usize, i32) {
        let down_to = &self.pages[page].down_to;
        let top = |n: usize| down_to[n..n + span].iter().copied().max().unwrap_or(0);
        let starts = 0..=self.columns.saturating_sub(span);
        let best = starts.min_by_key(|n| (top(*n), *n)).unwrap_or(0);
        (best, top(best))
    }

    /// Puts a group where the first page has room for its beginning, and goes on from there.
    fn put(&mut self, group: &Group<'a>, span: usize, page: Page) {
        let mut pieces = set(group, &page);
        let mut at = 0;
        while !pieces.is_empty() {
            if at == self.pages.len() {
                self.turn(self.area.heads.1);
            }
            let (column, top) = self.place(at, span);
            let room = self.area.to.1 - top;
            let count = match (fitting(&pieces, room), self.pages[at].runs.is_empty()) {
                // What doesn't even fit an empty page stands there alone, with its heading.
                (0, true) => alone(&pieces),
                (0, false) => 0,
                // A few lines alone at a page's foot aren't worth a heading.
                (count, false) if count < pieces.len() && room < LEAST => 0,
                (count, _) => count,
            };
            if count == 0 {
                at += 1;
                continue;
            }
            let rest = pieces.split_off(count);
            let before = i32::try_from(column).unwrap_or(0) * (self.column() + GUTTER);
            let x = self.area.from.0 + before;
            let bottom = top + pieces.iter().map(|piece| piece.height).sum::<i32>() + UNDER;
            let filled = &mut self.pages[at];
            filled.down_to[column..column + span].fill(bottom);
            filled.runs.push(Run {
                at: (x, top),
                page,
                pieces,
            });
            pieces = again(rest, &group.heading, page.width);
        }
    }
}

/// The first piece that isn't only kept with the next one.
fn alone(pieces: &[Piece<'_>]) -> usize {
    let first = pieces.iter().position(|piece| !piece.keep);
    first.map_or(pieces.len(), |n| n + 1)
}

/// How many pieces fit a height without parting what belongs together.
fn fitting(pieces: &[Piece<'_>], room: i32) -> usize {
    let mut height = 0;
    let mut count = 0;
    for (n, piece) in pieces.iter().enumerate() {
        height += piece.height;
        if height > room {
            break;
        }
        if !piece.keep {
            count = n + 1;
        }
    }
    count
}

/// The rest of a group with what has to be said again in front of it.
fn again<'a>(rest: Vec<Piece<'a>>, words: &str, width: i32) -> Vec<Piece<'a>> {
    let blank = |piece: &&Piece<'_>| matches!(piece.content, Content::Gap);
    let skip = rest.iter().take_while(blank).count();
    if skip == rest.len() {
        return Vec::new();
    }
    let mut pieces = match words.is_empty() {
        true => Vec::new(),
        false => heading(&format!("{words}, continued"), width),
    };
    let head = rest[skip].head.clone();
    let said = head.iter().flat_map(|head| head.iter().cloned());
    pieces.extend(said.map(Piece::kept));
    pieces.extend(rest.into_iter().skip(skip));
    pieces
}
