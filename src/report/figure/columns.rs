//! Columns side by side: a name, a verdict, a margin, a section at the scale of all, facts.

use super::column;
use super::cut::Cut;
use super::lettering::wrap;
use super::place::{AIR, AXIS, Place};
use super::scale::{Scale, Span};
use super::schedule::{layer_words, swatch};
use super::section::{NUMBERS, margin_large};
use super::sheet::{GRAY, LINE, Lettering, Point, Sheet};
use super::title::{EDGE, Frame, LETTER, WIDTH};
use crate::model::{AssemblyKind, Case};
use crate::quantity::{Length, Style, TemperatureDifference};

/// Columns beside each other; fewer where walls lie across them.
const MOST: usize = 6;
const MOST_WALLS: usize = 4;
const GAP: i32 = 500;
const NAME_SIZE: i32 = 400;
const NAME_LINE: i32 = 470;
/// The least room given to the layers.
const LEAST_ROOM: i32 = 2600;
/// Across the chart of a wall.
const WALL_CHART: i32 = 3000;

/// One column.
pub(super) struct Column<'a> {
    /// Its name, broken into lines.
    pub(super) name: Vec<String>,
    /// The same unbroken.
    pub(super) title: String,
    /// The verdict's word.
    pub(super) word: &'static str,
    /// What follows the word.
    pub(super) mark: Option<&'static str>,
    /// The margin printed large, and the plane it lies at.
    pub(super) margin: (TemperatureDifference, String),
    /// Wall, floor or roof.
    pub(super) kind: AssemblyKind,
    /// The path drawn.
    pub(super) cut: Cut<'a>,
    /// What is told in numbers: what it is, and the lines of its value.
    pub(super) facts: Vec<(String, Vec<String>)>,
}

/// How many of a number of cases stand beside each other.
pub(super) fn beside<'a>(mut cases: impl ExactSizeIterator<Item = &'a Case>) -> usize {
    let count = cases.len();
    let is_wall = |case: &Case| case.assembly.kind == AssemblyKind::Wall;
    let most = if cases.any(is_wall) { MOST_WALLS } else { MOST };
    count.clamp(1, most)
}

/// The width of one of that many columns.
pub(super) fn width(beside: usize) -> i32 {
    let count = i32::try_from(beside).unwrap_or(1);
    ((WIDTH - GAP * (count - 1)) / count).min(8000)
}

/// A name broken to a column's width.
pub(super) fn name(words: &str, width: i32) -> Vec<String> {
    wrap(words, NAME_SIZE, true, width)
}

fn fact_lines(column: &Column<'_>) -> usize {
    column.facts.iter().map(|(_, value)| 1 + value.len()).sum()
}

/// Sizes common to all columns.
pub(super) struct Layout {
    /// Height of the sheet.
    pub(super) height: i32,
    top: i32,
    band: i32,
    beside: usize,
    width: i32,
    names: i32,
    deep: i32,
    layers: i32,
    /// Scale of the layers.
    pub(super) scale: Scale,
    span: Span,
}

fn lines(counts: impl Iterator<Item = usize>) -> i32 {
    i32::try_from(counts.max().unwrap_or(0)).unwrap_or(1)
}

impl Layout {
    pub(super) fn new(columns: &[Column<'_>], frame: &Frame, beside: usize, style: Style) -> Self {
        let width = width(beside);
        let names = NAME_LINE * lines(columns.iter().map(|column| column.name.len()));
        let layers = lines(columns.iter().map(|column| column.cut.cells.len()));
        let numbers = lines(columns.iter().map(|column| fact_lines(column)));
        let bands = i32::try_from(columns.len().div_ceil(beside)).unwrap_or(1);
        let around = names + 3 * LINE + 2 * AXIS + 300 + 550 + LINE * (layers + numbers) + 500;
        let walls = columns
            .iter()
            .any(|column| column.kind == AssemblyKind::Wall);
        let free = (LETTER.1 - frame.top() - frame.bottom()) / bands - around - 2 * AIR;
        let thickest = columns
            .iter()
            .map(|c| c.cut.thickness().as_m())
            .fold(0.0, f64::max);
        let flat = free.max(LEAST_ROOM);
        let room = if walls {
            (width - 2 * AIR - 2 * 1250).max(LEAST_ROOM / 2)
        } else {
            flat
        };
        let scale = Scale::largest(Length::from_m(thickest), room, style.units, 1.0);
        let paper = (scale.on_paper(Length::from_m(thickest)).ceil() as i32).max(1);
        let deep = (paper + 2 * AIR).max(if walls { WALL_CHART + 1500 } else { 0 });
        let band = around + deep;
        let needed = frame.top() + frame.bottom() + band * bands;
        Self {
            height: LETTER.1.max(needed),
            top: frame.top(),
            band,
            beside,
            width,
            names,
            deep,
            layers,
            scale,
            span: Span::around(columns.iter().flat_map(|column| column.cut.temperatures())),
        }
    }

    /// Draws one column.
    pub(super) fn draw(&self, sheet: &mut Sheet, n: usize, column: &Column<'_>, style: Style) {
        let whole = |n: usize| i32::try_from(n).unwrap_or(0);
        let x = EDGE + whole(n % self.beside) * (self.width + GAP);
        let mut y = self.top + whole(n / self.beside) * self.band + 310;
        let name = Lettering::PLAIN.bold().size(NAME_SIZE);
        for line in &column.name {
            sheet.text(line, (x, y), name);
            y += NAME_LINE;
        }
        y = self.top + whole(n / self.beside) * self.band + 310 + self.names;
        self.verdict(sheet, (x, y), column);
        let (margin, plane) = &column.margin;
        margin_large(sheet, (x, y + 560), *margin, style);
        let gray = Lettering::PLAIN.color(GRAY);
        sheet.text(&gray.fit(plane, self.width), (x, y + 560 + LINE), gray);
        let top = y + 560 + LINE + 300 + AXIS;
        column::draw(sheet, self.place(column, (x, top)), &column.cut, style);
        let mut y = top + self.deep + AXIS + 450;
        for cell in &column.cut.cells {
            swatch(sheet, (x, y), cell);
            let words = layer_words(cell, self.width - 560, style);
            sheet.text(&words, (x + 560, y), Lettering::PLAIN);
            y += LINE;
        }
        y = top + self.deep + AXIS + 450 + LINE * self.layers + 150;
        for (what, value) in &column.facts {
            sheet.text(&gray.fit(what, self.width), (x, y), gray);
            let plain = Lettering::PLAIN;
            for line in value {
                y += LINE;
                sheet.text(&plain.fit(line, self.width), (x, y), plain);
            }
            y += LINE;
        }
    }

    fn verdict(&self, sheet: &mut Sheet, (x, y): Point, column: &Column<'_>) {
        let bold = Lettering::PLAIN.bold();
        sheet.text(column.word, (x, y), bold);
        if let Some(mark) = column.mark {
            let from = bold.width(column.word) + 120;
            let italic = Lettering::PLAIN.italic();
            sheet.text(&italic.fit(mark, self.width - from), (x + from, y), italic);
        }
    }

    fn place(&self, column: &Column<'_>, (x, top): Point) -> Place {
        let kind = column.kind;
        let (scale, span) = (self.scale, self.span);
        if kind == AssemblyKind::Wall {
            let along = (x + 1250, x + self.width - 1250);
            let layers = (top, top + 1000);
            let chart = (top + self.deep - 300, top + 1200);
            return Place {
                kind,
                along,
                layers,
                chart,
                scale,
                span,
            };
        }
        let layers = (x + NUMBERS, x + NUMBERS + self.width * 18 / 100);
        let chart = (layers.1 + 150, x + self.width - 600);
        Place {
            kind,
            along: (top, top + self.deep),
            layers,
            chart,
            scale,
            span,
        }
    }
}
