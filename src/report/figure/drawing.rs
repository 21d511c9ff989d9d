//! What is on a drawing, before it is written as SVG or PDF.

use std::cell::RefCell;
use std::rc::Rc;

/// Red, green, blue.
pub(in crate::report) type Rgb = (u8, u8, u8);
/// A point in the drawing's units from the upper left.
pub(in crate::report) type At = (i32, i32);

/// No line is printed finer than this, hundredths of a millimeter on paper (the finest of the
/// line widths of ISO 128 that copies well).
const FINEST: f64 = 18.0;

/// Where a text stands relative to its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::report) enum Anchor {
    /// It begins there.
    Start,
    /// It is centered there.
    Middle,
    /// It ends there.
    End,
}

/// Upright, bold or italic.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::report) enum Face {
    /// Upright.
    Plain,
    /// Bold.
    Bold,
    /// Slanted.
    Italic,
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::report) enum Mark {
    /// A line through points, its corners rounded.
    Line {
        /// Its points.
        points: Vec<At>,
        /// Its color.
        color: Rgb,
        /// Its width.
        width: u32,
    },
    /// Many lines of one color and width.
    Lines {
        /// Their points.
        lines: Vec<Vec<At>>,
        /// Their color.
        color: Rgb,
        /// Their width.
        width: u32,
    },
    /// A filled rectangle.
    Fill {
        /// Upper left.
        from: At,
        /// Lower right.
        to: At,
        /// Its color.
        color: Rgb,
    },
    /// The outline of a rectangle.
    Outline {
        /// Upper left.
        from: At,
        /// Lower right.
        to: At,
        /// Its color.
        color: Rgb,
        /// Its width.
        width: u32,
    },
    /// A filled polygon.
    Polygon {
        /// Its corners.
        points: Vec<At>,
        /// Its color.
        color: Rgb,
    },
    /// A filled circle.
    Disc {
        /// Its middle.
        at: At,
        /// Its radius.
        radius: u32,
        /// Its color.
        color: Rgb,
    },
    /// The outline of a circle.
    Ring {
        /// Its middle.
        at: At,
        /// Its radius.
        radius: u32,
        /// Its color.
        color: Rgb,
        /// The line's width.
        width: u32,
    },
    /// What fills a material, left out where materials aren't hatched.
    Hatching(Vec<Mark>),
    /// A text on its baseline.
    Words {
        /// Where it stands on its baseline.
        at: At,
        /// What it says.
        text: String,
        /// Type size.
        size: u32,
        /// Upright, bold or italic.
        face: Face,
        /// Its color.
        color: Rgb,
        /// Which part of it stands at the point.
        anchor: Anchor,
    },
}

/// The marks made so far, shared between a sheet and the backend plotters draws on.
pub(super) type Marks = Rc<RefCell<Vec<Mark>>>;

/// A finished drawing: drawn once, written as SVG or PDF.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Width and height in the drawing's units.
    pub(in crate::report) size: (u32, u32),
    /// Hundredths of a millimeter on paper that one unit takes: 1 where lettering is 2.5 mm high.
    pub(in crate::report) magnify: f64,
    /// Width and height on paper, mm.
    pub(in crate::report) paper: (f64, f64),
    /// Its title, for those who can't see it.
    pub(in crate::report) title: String,
    /// What it shows in words.
    pub(in crate::report) words: String,
    /// What is drawn, in the order it is laid on the paper.
    pub(in crate::report) marks: Vec<Mark>,
}

impl Drawing {
    /// Width and height on paper, mm.
    #[must_use]
    pub fn paper(&self) -> (f64, f64) {
        self.paper
    }

    /// Every text on it, a line each.
    #[must_use]
    pub fn lettering(&self) -> String {
        let lettered = self.marks.iter().filter_map(|mark| match mark {
            Mark::Words { text, .. } => Some(text.as_str()),
            _ => None,
        });
        let told = [self.title.as_str(), self.words.as_str()];
        told.into_iter()
            .chain(lettered)
            .collect::<Vec<_>>()
            .join("\n")
    }

    /// The drawing as an SVG document.
    #[must_use]
    pub fn svg(&self) -> String {
        super::svg::document(self)
    }

    /// The drawing as a part of an HTML page, on which it goes by `name`.
    #[must_use]
    pub(in crate::report) fn svg_of_page(&self, name: &str) -> String {
        super::svg::element_of_page(self, name)
    }

    /// A line's width in the drawing's units, never finer than prints well.
    pub(in crate::report) fn line_width(&self, width: u32) -> f64 {
        f64::from(width).max(FINEST / self.magnify)
    }
}
