//! The marks of one drawing on one page.

use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point, Rect, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ContentTag, Identifier, SpanTag, Tag, TagGroup};
use krilla::text::{Font, GlyphId, KrillaGlyph};

use super::POINTS;
use crate::report::figure::drawing::{Anchor, At, Drawing, Face, Mark, Rgb};
use crate::report::figure::font::face;
use crate::report::figure::lettering::{drawable, glyphs, visual_order};

/// How far slanted lettering leans: the tangent of 12°.
const SLANT: f32 = 0.212_556_56;
/// The handles of a quarter circle drawn as a cubic curve, over its radius.
const QUARTER: f64 = 0.552_284_75;
/// A text in a document's structure is no longer than this.
const LONGEST: usize = 8000;

/// Both faces of the font, as the writer takes them.
pub(super) struct Fonts {
    regular: Font,
    bold: Font,
}

impl Fonts {
    /// From the program.
    pub(super) fn read() -> Option<Self> {
        let read = |bold| Font::new(face(bold).data.into(), 0);
        Some(Self {
            regular: read(false)?,
            bold: read(true)?,
        })
    }
}

/// A text without the characters no document may hold, and not endless.
pub(super) fn clean(text: &str) -> String {
    text.chars().take(LONGEST).map(drawable).collect()
}

/// One drawing being laid on its page.
pub(super) struct Page<'a> {
    drawing: &'a Drawing,
    fonts: &'a Fonts,
    /// Points in one unit of the drawing.
    unit: f64,
    /// What is drawn beside the text.
    picture: Vec<Identifier>,
    /// Text by paragraph.
    paragraphs: Vec<TagGroup>,
}

/// Whether a text goes on in the next: the same lettering, a line further down.
fn continues(before: Option<&Mark>, mark: &Mark) -> bool {
    let line = |mark: &Mark| match mark {
        Mark::Words {
            at,
            size,
            face,
            color,
            anchor: Anchor::Start,
            ..
        } => Some((*at, *size, *face, *color)),
        _ => None,
    };
    match (before.and_then(line), line(mark)) {
        (Some(before), Some(now)) => {
            let down = now.0.1 - before.0.1;
            let same = (before.0.0, before.1, before.2, before.3) == (now.0.0, now.1, now.2, now.3);
            same && down > 0 && f64::from(down) < 1.5 * f64::from(now.1)
        }
        _ => false,
    }
}

impl<'a> Page<'a> {
    /// A page for a drawing.
    pub(super) fn new(drawing: &'a Drawing, fonts: &'a Fonts) -> Self {
        Self {
            drawing,
            fonts,
            unit: drawing.magnify / 100.0 * POINTS,
            picture: Vec::new(),
            paragraphs: Vec::new(),
        }
    }

    /// Draws it; returns the picture in words, then each paragraph in the order it was drawn.
    pub(super) fn draw(mut self, surface: &mut Surface<'_>) -> Vec<TagGroup> {
        let marks = &self.drawing.marks;
        let mut before = None;
        let mut rest = marks.as_slice();
        while let Some(mark) = rest.first() {
            if let Mark::Words { .. } = mark {
                self.text(surface, mark, continues(before, mark));
                before = Some(mark);
                rest = &rest[1..];
                continue;
            }
            let count = rest
                .iter()
                .take_while(|mark| !matches!(mark, Mark::Words { .. }));
            let count = count.count();
            self.graphics(surface, &rest[..count]);
            rest = &rest[count..];
        }
        self.groups()
    }

    fn groups(self) -> Vec<TagGroup> {
        let mut groups = Vec::new();
        if !self.picture.is_empty() {
            let words = clean(&self.drawing.words);
            let mut picture = TagGroup::new(Tag::Figure(Some(words)));
            for identifier in self.picture {
                picture.push(identifier);
            }
            groups.push(picture);
        }
        groups.extend(self.paragraphs);
        groups
    }

    /// Marks without text between them; where the drawing has no words for its picture, they are
    /// told to be ornament.
    fn graphics(&mut self, surface: &mut Surface<'_>, marks: &[Mark]) {
        match self.drawing.words.trim().is_empty() {
            true => {
                surface.start_tagged(ContentTag::Artifact(Artifact::default()));
            }
            false => self.picture.push(surface.start_tagged(ContentTag::Other)),
        }
        for mark in marks {
            self.mark(surface, mark);
        }
        surface.end_tagged();
    }

    fn mark(&self, surface: &mut Surface<'_>, mark: &Mark) {
        match mark {
            Mark::Line {
                points,
                color,
                width,
            } => self.stroke(surface, &self.path(&[points]), (*color, *width), true),
            Mark::Lines {
                lines,
                color,
                width,
            } => {
                let lines: Vec<&[At]> = lines.iter().map(Vec::as_slice).collect();
                self.stroke(surface, &self.path(&lines), (*color, *width), true);
            }
            Mark::Fill { from, to, color } => fill(surface, &self.rectangle(*from, *to), *color),
            Mark::Outline {
                from,
                to,
                color,
                width,
            } => {
                let path = self.rectangle(*from, *to);
                self.stroke(surface, &path, (*color, *width), false);
            }
            Mark::Polygon { points, color } => fill(surface, &self.path(&[points]), *color),
            Mark::Disc { at, radius, color } => fill(surface, &self.circle(*at, *radius), *color),
            Mark::Ring {
                at,
                radius,
                color,
                width,
            } => self.stroke(surface, &self.circle(*at, *radius), (*color, *width), false),
            Mark::Hatching(marks) => marks.iter().for_each(|mark| self.mark(surface, mark)),
            Mark::Words { .. } => {}
        }
    }

    fn text(&mut self, surface: &mut Surface<'_>, mark: &Mark, goes_on: bool) {
        let Mark::Words {
            at,
            text,
            size,
            face: style,
            color,
            anchor,
        } = mark
        else {
            return;
        };
        // The space at its end keeps the words of neighboring labels apart when they are read.
        let said = format!("{} ", clean(text).trim_end());
        let bold = *style == Face::Bold;
        let (glyphs, width) = glyphs(&said, bold);
        let (_, space) = self::glyphs(" ", bold);
        let shift = match anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -(width - space) / 2.0,
            Anchor::End => -(width - space),
        };
        let x = ((f64::from(at.0) + shift * f64::from(*size)) * self.unit) as f32;
        let y = self.length(at.1);
        let units = f32::from(face(bold).units);
        let places = said.char_indices().map(|(at, c)| at..at + c.len_utf8());
        let places: Vec<_> = places.collect();
        let placed = visual_order(&said).into_iter().map(|n| {
            let (glyph, place) = (&glyphs[n], places[n].clone());
            let advance = f32::from(glyph.advance) / units;
            KrillaGlyph::new(GlyphId::new(glyph.id), advance, 0.0, 0.0, 0.0, place, None)
        });
        let placed = placed.collect::<Vec<_>>();
        let font = if bold {
            &self.fonts.bold
        } else {
            &self.fonts.regular
        };
        let identifier = surface.start_tagged(ContentTag::Span(SpanTag::empty()));
        surface.set_stroke(None);
        surface.set_fill(Some(paint(*color)));
        let size = (f64::from(*size) * self.unit) as f32;
        let slanted = *style == Face::Italic;
        if slanted {
            let lean = Transform::from_row(1.0, 0.0, -SLANT, 1.0, SLANT * y, 0.0);
            surface.push_transform(&lean);
        }
        let start = Point::from_xy(x, y);
        surface.draw_glyphs(start, &placed, font.clone(), &said, size, false);
        if slanted {
            surface.pop();
        }
        surface.end_tagged();
        match self.paragraphs.last_mut() {
            Some(paragraph) if goes_on => paragraph.push(identifier),
            _ => {
                let mut paragraph = TagGroup::new(Tag::P);
                paragraph.push(identifier);
                self.paragraphs.push(paragraph);
            }
        }
    }

    /// A length or a position in points.
    fn length(&self, units: i32) -> f32 {
        (f64::from(units) * self.unit) as f32
    }

    fn path(&self, lines: &[&[At]]) -> Option<Path> {
        let mut path = PathBuilder::new();
        for line in lines {
            for (n, (x, y)) in line.iter().enumerate() {
                let (x, y) = (self.length(*x), self.length(*y));
                if n == 0 {
                    path.move_to(x, y);
                } else {
                    path.line_to(x, y);
                }
            }
        }
        path.finish()
    }

    fn rectangle(&self, from: At, to: At) -> Option<Path> {
        let [left, top, right, bottom] = [
            from.0.min(to.0),
            from.1.min(to.1),
            from.0.max(to.0),
            from.1.max(to.1),
        ]
        .map(|units| self.length(units));
        let mut path = PathBuilder::new();
        path.push_rect(Rect::from_ltrb(left, top, right, bottom)?);
        path.finish()
    }

    fn circle(&self, at: At, radius: u32) -> Option<Path> {
        let (x, y) = (f64::from(at.0), f64::from(at.1));
        let radius = f64::from(radius);
        let point = |across: f64, down: f64| {
            let units = |at: f64, by: f64| ((at + by * radius) * self.unit) as f32;
            (units(x, across), units(y, down))
        };
        let mut path = PathBuilder::new();
        let (a, b) = point(1.0, 0.0);
        path.move_to(a, b);
        let mut from = (1.0, 0.0);
        for to in [(0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)] {
            let one = point(from.0 + QUARTER * to.0, from.1 + QUARTER * to.1);
            let other = point(to.0 + QUARTER * from.0, to.1 + QUARTER * from.1);
            let end = point(to.0, to.1);
            path.cubic_to(one.0, one.1, other.0, other.1, end.0, end.1);
            from = to;
        }
        path.close();
        path.finish()
    }

    fn stroke(
        &self,
        surface: &mut Surface<'_>,
        path: &Option<Path>,
        (color, width): (Rgb, u32),
        round: bool,
    ) {
        let Some(path) = path else { return };
        surface.set_fill(None);
        surface.set_stroke(Some(Stroke {
            paint: rgb::Color::new(color.0, color.1, color.2).into(),
            width: (self.drawing.line_width(width) * self.unit) as f32,
            line_cap: LineCap::Butt,
            line_join: if round {
                LineJoin::Round
            } else {
                LineJoin::Miter
            },
            ..Stroke::default()
        }));
        surface.draw_path(path);
    }
}

fn paint((red, green, blue): Rgb) -> Fill {
    Fill {
        paint: rgb::Color::new(red, green, blue).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn fill(surface: &mut Surface<'_>, path: &Option<Path>, color: Rgb) {
    let Some(path) = path else { return };
    surface.set_stroke(None);
    surface.set_fill(Some(paint(color)));
    surface.draw_path(path);
}
