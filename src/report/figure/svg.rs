//! A drawing backend that writes SVG in hundredths of a millimeter on paper.

use std::cell::RefCell;
use std::convert::Infallible;
use std::fmt::Write;
use std::rc::Rc;

use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
    FontFamily, FontStyle,
};

use super::lettering;
use crate::quantity::fixed;

type Drawn = Result<(), DrawingErrorKind<Infallible>>;

/// The elements drawn so far, shared between the backend and the sheet it is drawn for.
pub(super) type Elements = Rc<RefCell<String>>;

/// Writes what plotters draws as SVG elements, one a line.
pub(super) struct Svg {
    elements: Elements,
    size: (u32, u32),
}

impl Svg {
    /// A backend for a sheet of that size in hundredths of a millimeter.
    pub(super) fn new(elements: Elements, size: (u32, u32)) -> Self {
        Self { elements, size }
    }

    fn write(&self, element: &str) {
        let mut elements = self.elements.borrow_mut();
        elements.push_str(element);
        elements.push('\n');
    }
}

/// Wraps elements into a whole document with a title and a description for those who can't see it.
pub(super) fn document(size: (u32, u32), title: &str, words: &str, elements: &str) -> String {
    let (width, height) = size;
    let mm = |hundredths: u32| fixed(f64::from(hundredths) / 100.0, 2);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}mm\" height=\"{}mm\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"title desc\">\n\
         <title id=\"title\">{}</title>\n<desc id=\"desc\">{}</desc>\n\
         <rect width=\"{width}\" height=\"{height}\" fill=\"#ffffff\"/>\n{elements}</svg>\n",
        mm(width),
        mm(height),
        escape(title),
        escape(words),
    )
}

/// Text as XML holds it; characters XML forbids become the replacement character.
pub(super) fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\t' | '\n' | '\r' => escaped.push(' '),
            '\u{0}'..='\u{1F}' | '\u{FFFE}' | '\u{FFFF}' => escaped.push('\u{FFFD}'),
            _ => escaped.push(character),
        }
    }
    escaped
}

/// Many lines of one color and width as one element, which keeps hatched drawings small.
pub(super) fn strokes(
    elements: &Elements,
    lines: impl IntoIterator<Item = Vec<BackendCoord>>,
    (red, green, blue): (u8, u8, u8),
    width: u32,
) {
    let mut path = String::new();
    for line in lines {
        for (n, (x, y)) in line.iter().enumerate() {
            let to = if n == 0 { 'M' } else { 'L' };
            // Writing to a String can't fail.
            let _ = write!(path, "{to}{x} {y}");
        }
    }
    if !path.is_empty() {
        let _ = writeln!(
            elements.borrow_mut(),
            "<path d=\"{path}\" fill=\"none\" stroke=\"#{red:02x}{green:02x}{blue:02x}\" \
             stroke-width=\"{width}\"/>"
        );
    }
}

fn color(color: BackendColor) -> String {
    let (red, green, blue) = color.rgb;
    format!("#{red:02x}{green:02x}{blue:02x}")
}

fn paint<S: BackendStyle>(style: &S, fill: bool) -> String {
    let color = color(style.color());
    match fill {
        true => format!("fill=\"{color}\""),
        false => format!(
            "fill=\"none\" stroke=\"{color}\" stroke-width=\"{}\"",
            style.stroke_width()
        ),
    }
}

fn points(path: impl IntoIterator<Item = BackendCoord>) -> String {
    let mut text = String::new();
    for (x, y) in path {
        let gap = if text.is_empty() { "" } else { " " };
        // Writing to a String can't fail.
        let _ = write!(text, "{gap}{x},{y}");
    }
    text
}

impl DrawingBackend for Svg {
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

    fn draw_pixel(&mut self, (x, y): BackendCoord, at: BackendColor) -> Drawn {
        let fill = color(at);
        self.write(&format!(
            "<rect x=\"{x}\" y=\"{y}\" width=\"1\" height=\"1\" fill=\"{fill}\"/>"
        ));
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
        (left, top): BackendCoord,
        (right, bottom): BackendCoord,
        style: &S,
        fill: bool,
    ) -> Drawn {
        let (width, height) = (right - left, bottom - top);
        let paint = paint(style, fill);
        self.write(&format!(
            "<rect x=\"{left}\" y=\"{top}\" width=\"{width}\" height=\"{height}\" {paint}/>"
        ));
        Ok(())
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Drawn {
        let (points, paint) = (points(path), paint(style, false));
        self.write(&format!(
            "<polyline points=\"{points}\" {paint} stroke-linejoin=\"round\"/>"
        ));
        Ok(())
    }

    fn draw_circle<S: BackendStyle>(
        &mut self,
        (x, y): BackendCoord,
        radius: u32,
        style: &S,
        fill: bool,
    ) -> Drawn {
        let paint = paint(style, fill);
        self.write(&format!(
            "<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\" {paint}/>"
        ));
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        vertices: I,
        style: &S,
    ) -> Drawn {
        let (points, paint) = (points(vertices), paint(style, true));
        self.write(&format!("<polygon points=\"{points}\" {paint}/>"));
        Ok(())
    }

    fn draw_text<T: BackendTextStyle>(&mut self, text: &str, style: &T, at: BackendCoord) -> Drawn {
        let size = style.size();
        let anchor = match style.anchor().h_pos {
            HPos::Left => "",
            HPos::Center => " text-anchor=\"middle\"",
            HPos::Right => " text-anchor=\"end\"",
        };
        let rise = match style.anchor().v_pos {
            VPos::Top => lettering::CAPITAL,
            VPos::Center => lettering::CAPITAL / 2.0,
            VPos::Bottom => 0.0,
        };
        let face = match style.style() {
            FontStyle::Bold => " font-weight=\"bold\"",
            FontStyle::Italic | FontStyle::Oblique => " font-style=\"italic\"",
            FontStyle::Normal => "",
        };
        let family = match style.family() {
            FontFamily::Name(name) => escape(name),
            other => escape(other.as_str()),
        };
        let (x, y) = (at.0, f64::from(at.1) + rise * size);
        self.write(&format!(
            "<text x=\"{x}\" y=\"{}\" font-family=\"{family}\" font-size=\"{}\" fill=\"{}\"\
             {face}{anchor}>{}</text>",
            fixed(y, 0),
            fixed(size, 0),
            color(style.color()),
            escape(text),
        ));
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markup_and_control_characters_are_escaped() {
        assert_eq!(
            escape("<script>&\"\u{7}\n"),
            "&lt;script&gt;&amp;&quot;\u{FFFD} "
        );
    }
}
