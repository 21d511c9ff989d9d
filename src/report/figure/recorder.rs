//! The backend plotters draws on: it notes what is drawn.

use std::convert::Infallible;

use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind, FontStyle,
};

use super::drawing::{Anchor, Face, Mark, Marks};
use super::lettering;

type Drawn = Result<(), DrawingErrorKind<Infallible>>;

/// Notes what plotters draws as marks.
pub(super) struct Recorder {
    marks: Marks,
    size: (u32, u32),
}

impl Recorder {
    /// A backend for a sheet of that size.
    pub(super) fn new(marks: Marks, size: (u32, u32)) -> Self {
        Self { marks, size }
    }

    fn note(&self, mark: Mark) {
        self.marks.borrow_mut().push(mark);
    }
}

impl DrawingBackend for Recorder {
    type ErrorType = Infallible;

    fn get_size(&self) -> (u32, u32) {
        self.size
    }

    fn ensure_prepared(&mut self) -> Drawn {
        Ok(())
    }

    fn present(&mut self) -> Drawn {
        Ok(())
    }

    fn draw_pixel(&mut self, (x, y): BackendCoord, at: plotters_backend::BackendColor) -> Drawn {
        self.note(Mark::Fill {
            from: (x, y),
            to: (x + 1, y + 1),
            color: at.rgb,
        });
        Ok(())
    }

    fn draw_line<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
    ) -> Drawn {
        self.draw_path([from, to], style)
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
        fill: bool,
    ) -> Drawn {
        let (color, width) = (style.color().rgb, style.stroke_width());
        self.note(match fill {
            true => Mark::Fill { from, to, color },
            false => Mark::Outline {
                from,
                to,
                color,
                width,
            },
        });
        Ok(())
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Drawn {
        self.note(Mark::Line {
            points: path.into_iter().collect(),
            color: style.color().rgb,
            width: style.stroke_width(),
        });
        Ok(())
    }

    fn draw_circle<S: BackendStyle>(
        &mut self,
        at: BackendCoord,
        radius: u32,
        style: &S,
        fill: bool,
    ) -> Drawn {
        let (color, width) = (style.color().rgb, style.stroke_width());
        self.note(match fill {
            true => Mark::Disc { at, radius, color },
            false => Mark::Ring {
                at,
                radius,
                color,
                width,
            },
        });
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        vertices: I,
        style: &S,
    ) -> Drawn {
        self.note(Mark::Polygon {
            points: vertices.into_iter().collect(),
            color: style.color().rgb,
        });
        Ok(())
    }

    fn draw_text<T: BackendTextStyle>(&mut self, text: &str, style: &T, at: BackendCoord) -> Drawn {
        let anchor = match style.anchor().h_pos {
            HPos::Left => Anchor::Start,
            HPos::Center => Anchor::Middle,
            HPos::Right => Anchor::End,
        };
        let rise = match style.anchor().v_pos {
            VPos::Top => lettering::CAPITAL,
            VPos::Center => lettering::CAPITAL / 2.0,
            VPos::Bottom => 0.0,
        };
        let face = match style.style() {
            FontStyle::Bold => Face::Bold,
            FontStyle::Italic | FontStyle::Oblique => Face::Italic,
            FontStyle::Normal => Face::Plain,
        };
        self.note(Mark::Words {
            at: (at.0, at.1 + (rise * style.size()).round() as i32),
            text: text.to_owned(),
            size: style.size().round() as u32,
            face,
            color: style.color().rgb,
            anchor,
        });
        Ok(())
    }

    fn estimate_text_size<T: BackendTextStyle>(
        &self,
        text: &str,
        style: &T,
    ) -> Result<(u32, u32), DrawingErrorKind<Infallible>> {
        // Sizes here are hundreds of units: the rounding is far below what is seen.
        let size = style.size().round() as i32;
        let width = lettering::width(text, size, matches!(style.style(), FontStyle::Bold));
        Ok((width.unsigned_abs(), size.unsigned_abs()))
    }
}
