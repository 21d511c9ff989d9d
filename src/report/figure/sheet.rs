//! A sheet of paper to draw on, and the box of every label on it.

use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, IntoDrawingArea};
use plotters::element::{Circle, PathElement, Polygon, Rectangle, Text};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, FontStyle, IntoFont, RGBColor, ShapeStyle, TextStyle};

use super::drawing::{Drawing, Mark, Marks};
use super::lettering;
use super::look::Look;
use super::recorder::Recorder;

/// Black: layers, words.
pub(super) const INK: RGBColor = RGBColor(0x1a, 0x1a, 0x1a);
/// Dark gray: what accompanies.
pub(super) const GRAY: RGBColor = RGBColor(0x5c, 0x5c, 0x5c);
/// Light gray: plane lines, hatches.
pub(super) const FAINT: RGBColor = RGBColor(0x8c, 0x8c, 0x8c);
/// The margin band.
pub(super) const BAND: RGBColor = RGBColor(0xe8, 0xe4, 0xdc);
/// The heat accent: temperature.
pub(super) const HEAT: RGBColor = RGBColor(0x9a, 0x3b, 0x12);
/// The moisture accent: dew points and what is wet.
pub(super) const MOISTURE: RGBColor = RGBColor(0x0b, 0x5a, 0x6f);
/// Tints of humidity, from the palest on: shares of the moisture accent on paper, which ink can be read on.
pub(super) const DAMP: [RGBColor; 3] = [
    RGBColor(0xe9, 0xf1, 0xf3),
    RGBColor(0xcb, 0xdf, 0xe4),
    RGBColor(0xa2, 0xc6, 0xcf),
];
/// What is wet if room air gets in, so pale that lines and hatches are read on it.
pub(super) const WET: RGBColor = RGBColor(0xd0, 0xe6, 0xea);
/// What an option adds or changes.
pub(super) const CHANGED: RGBColor = RGBColor(0xf3, 0xdf, 0xae);
/// The paper.
pub(super) const PAPER: RGBColor = RGBColor(0xff, 0xff, 0xff);

/// Type size whose capitals stand 2.5 mm high.
pub(super) const SIZE: i32 = 343;
/// From one line of that size to the next.
pub(super) const LINE: i32 = 420;

/// A point on the sheet in hundredths of a millimeter, from the upper left.
pub(super) type Point = (i32, i32);

/// How a label is set.
#[derive(Clone, Copy)]
pub(super) struct Lettering {
    /// Type size.
    pub(super) size: i32,
    /// Upright, bold or italic.
    pub(super) face: FontStyle,
    /// Color.
    pub(super) color: RGBColor,
    /// Which part of the label stands at the point.
    pub(super) anchor: HPos,
}

impl Lettering {
    /// The sheet's ordinary lettering.
    pub(super) const PLAIN: Self = Self {
        size: SIZE,
        face: FontStyle::Normal,
        color: INK,
        anchor: HPos::Left,
    };

    /// The same in bold.
    pub(super) fn bold(self) -> Self {
        Self {
            face: FontStyle::Bold,
            ..self
        }
    }

    /// The same in italic.
    pub(super) fn italic(self) -> Self {
        Self {
            face: FontStyle::Italic,
            ..self
        }
    }

    /// The same in another color.
    pub(super) fn color(self, color: RGBColor) -> Self {
        Self { color, ..self }
    }

    /// The same in another size.
    pub(super) fn size(self, size: i32) -> Self {
        Self { size, ..self }
    }

    /// The same ending at its point.
    pub(super) fn right(self) -> Self {
        Self {
            anchor: HPos::Right,
            ..self
        }
    }

    /// The same centered on its point.
    pub(super) fn centered(self) -> Self {
        Self {
            anchor: HPos::Center,
            ..self
        }
    }

    /// Width of a text so set.
    pub(super) fn width(self, text: &str) -> i32 {
        lettering::width(text, self.size, self.is_bold())
    }

    /// The text, shortened to a width.
    pub(super) fn fit(self, text: &str, room: i32) -> String {
        lettering::fit(text, self.size, self.is_bold(), room)
    }

    /// Whether it is bold.
    pub(super) fn is_bold(self) -> bool {
        matches!(self.face, FontStyle::Bold)
    }
}

/// The box a label takes: left, top, right, bottom.
#[derive(Clone, Debug)]
#[cfg_attr(not(test), expect(dead_code, reason = "the tests look for overlaps"))]
pub(super) struct Label {
    /// What it says.
    pub(super) text: String,
    /// Left, top, right, bottom.
    pub(super) corners: [i32; 4],
}

/// A sheet being drawn on.
pub(super) struct Sheet {
    area: DrawingArea<Recorder, Shift>,
    marks: Marks,
    size: (u32, u32),
    look: Look,
    labels: Vec<Label>,
}

impl Sheet {
    /// An empty sheet of that width and height in hundredths of a millimeter.
    pub(super) fn new(size: Point) -> Self {
        Self::with(size, Look::default())
    }

    /// An empty sheet of that size, looking so when it is finished.
    pub(super) fn with((width, height): Point, look: Look) -> Self {
        let marks = Marks::default();
        let size = (width.unsigned_abs(), height.unsigned_abs());
        let area = Recorder::new(marks.clone(), size).into_drawing_area();
        Self {
            area,
            marks,
            size,
            look,
            labels: Vec::new(),
        }
    }

    /// The part of the sheet in a rectangle, for a chart.
    pub(super) fn part(&self, from: Point, to: Point) -> DrawingArea<Recorder, Shift> {
        self.area
            .clone()
            .shrink(from, ((to.0 - from.0).max(1), (to.1 - from.1).max(1)))
    }

    /// A line through points.
    pub(super) fn line(&self, points: Vec<Point>, color: RGBColor, width: u32) {
        drawn(
            self.area
                .draw(&PathElement::new(points, stroke(color, width))),
        );
    }

    /// Many lines of one color and width.
    pub(super) fn strokes(
        &self,
        lines: impl IntoIterator<Item = Vec<Point>>,
        color: RGBColor,
        width: u32,
    ) {
        let lines: Vec<Vec<Point>> = lines.into_iter().collect();
        if !lines.is_empty() {
            let RGBColor(red, green, blue) = color;
            self.marks.borrow_mut().push(Mark::Lines {
                lines,
                color: (red, green, blue),
                width,
            });
        }
    }

    /// Draws what fills a material, which is left out where materials aren't hatched.
    pub(super) fn hatching(&self, draw: impl FnOnce(&Self)) {
        let before = self.marks.borrow().len();
        draw(self);
        let mut marks = self.marks.borrow_mut();
        let drawn = marks.split_off(before);
        if !drawn.is_empty() {
            marks.push(Mark::Hatching(drawn));
        }
    }

    /// A line of dashes `on` long, `off` apart.
    pub(super) fn dashes(
        &self,
        points: &[Point],
        pattern: (f64, f64),
        color: RGBColor,
        width: u32,
    ) {
        self.strokes(super::hatch::dashes(points, pattern), color, width);
    }

    /// A filled rectangle.
    pub(super) fn fill(&self, from: Point, to: Point, color: RGBColor) {
        drawn(self.area.draw(&Rectangle::new([from, to], color.filled())));
    }

    /// A filled polygon.
    pub(super) fn polygon(&self, points: Vec<Point>, color: RGBColor) {
        drawn(self.area.draw(&Polygon::new(points, color.filled())));
    }

    /// A filled circle.
    pub(super) fn disc(&self, at: Point, radius: i32, color: RGBColor) {
        drawn(self.area.draw(&Circle::new(at, radius, color.filled())));
    }

    /// The outline of a rectangle.
    pub(super) fn outline(&self, from: Point, to: Point, color: RGBColor, width: u32) {
        drawn(
            self.area
                .draw(&Rectangle::new([from, to], stroke(color, width))),
        );
    }

    /// A mark: a ring with paper inside.
    pub(super) fn ring(&self, at: Point, radius: i32, color: RGBColor, width: u32) {
        drawn(self.area.draw(&Circle::new(at, radius, PAPER.filled())));
        drawn(
            self.area
                .draw(&Circle::new(at, radius, stroke(color, width))),
        );
    }

    /// A label with its baseline at a height.
    pub(super) fn text(&mut self, text: &str, at: Point, lettering: Lettering) {
        if text.is_empty() {
            return;
        }
        let font = ("sans-serif", lettering.size)
            .into_font()
            .style(lettering.face);
        let style = TextStyle::from(font)
            .color(&lettering.color)
            .pos(Pos::new(lettering.anchor, VPos::Bottom));
        drawn(self.area.draw(&Text::new(text.to_owned(), at, style)));
        let corners = corners(text, at, lettering);
        self.labels.push(Label {
            text: text.to_owned(),
            corners,
        });
    }

    /// The box a label would take: left, top, right, bottom.
    pub(super) fn would_take(text: &str, at: Point, lettering: Lettering) -> [i32; 4] {
        corners(text, at, lettering)
    }

    /// Whether no label drawn so far reaches into a box.
    pub(super) fn is_free(&self, [left, top, right, bottom]: [i32; 4]) -> bool {
        self.labels.iter().all(|label| {
            let [l, t, r, b] = label.corners;
            left >= r || l >= right || top >= b || t >= bottom
        })
    }

    /// The finished drawing and its labels.
    pub(super) fn finish(self, title: &str, words: &str) -> Figure {
        let drawing = Drawing {
            size: self.size,
            magnify: 1.0,
            paper: (
                f64::from(self.size.0) / 100.0,
                f64::from(self.size.1) / 100.0,
            ),
            title: title.to_owned(),
            words: words.to_owned(),
            marks: self.look.over(self.marks.take()),
        };
        Figure {
            drawing,
            labels: self.labels,
        }
    }
}

/// A finished drawing.
pub(super) struct Figure {
    /// What is drawn.
    pub(super) drawing: Drawing,
    /// The labels drawn.
    #[cfg_attr(not(test), expect(dead_code, reason = "the tests look for overlaps"))]
    pub(super) labels: Vec<Label>,
}

fn corners(text: &str, (x, y): Point, lettering: Lettering) -> [i32; 4] {
    let width = lettering.width(text);
    let left = match lettering.anchor {
        HPos::Left => x,
        HPos::Center => x - width / 2,
        HPos::Right => x - width,
    };
    let part = |share: f64| (f64::from(lettering.size) * share).ceil() as i32;
    [
        left,
        y - part(lettering::CAPITAL),
        left + width,
        y + part(lettering::DESCENT),
    ]
}

/// A line's style.
pub(super) fn stroke(color: RGBColor, width: u32) -> ShapeStyle {
    color.stroke_width(width)
}

/// Our backend writes to memory and can't fail, nor is it drawn to from within a drawing call.
pub(super) fn drawn<E>(result: Result<(), E>) {
    debug_assert!(result.is_ok(), "drawing to memory failed");
}
