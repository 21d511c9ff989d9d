//! Writes a drawing as SVG.

use std::fmt::Write;

use super::drawing::{Anchor, At, Drawing, Face, Mark, Rgb};
use super::lettering;
use super::sheet::SIZE;
use crate::quantity::fixed;

/// The family lettering is measured in; others are mostly narrower.
const FAMILY: &str = "DejaVu Sans, sans-serif";

/// The whole document, one element a line, with a title and a description for those who can't see
/// it.
pub(super) fn document(drawing: &Drawing) -> String {
    let (width, height) = drawing.size;
    let (wide, high) = drawing.paper();
    let head = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}mm\" height=\"{}mm\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\" aria-labelledby=\"title desc\">\n",
        fixed(wide, 2),
        fixed(high, 2),
    );
    written(drawing, &head, "")
}

/// As part of a page: lettering is 16 px high, and what the title and the description are called by
/// begins with `name`, which is the drawing's own on that page.
pub(super) fn element_of_page(drawing: &Drawing, name: &str) -> String {
    let (width, height) = drawing.size;
    let pixels = |units: u32| fixed(f64::from(units) * PIXELS / f64::from(SIZE), 0);
    let head = format!(
        "<svg width=\"{}\" height=\"{}\" viewBox=\"0 0 {width} {height}\" role=\"img\" \
         aria-labelledby=\"{name}-title\" aria-describedby=\"{name}-desc\">\n",
        pixels(width),
        pixels(height),
    );
    written(drawing, &head, &format!("{name}-"))
}

/// Type size of ordinary lettering on a screen, CSS pixels.
const PIXELS: f64 = 16.0;

fn written(drawing: &Drawing, head: &str, name: &str) -> String {
    let (width, height) = drawing.size;
    let mut text = format!(
        "{head}<title id=\"{name}title\">{}</title>\n<desc id=\"{name}desc\">{}</desc>\n\
         <rect width=\"{width}\" height=\"{height}\" fill=\"#ffffff\"/>\n",
        escape(&drawing.title),
        escape(&drawing.words),
    );
    for mark in &drawing.marks {
        // Writing to a String can't fail.
        let _ = element(&mut text, drawing, mark);
    }
    text.push_str("</svg>\n");
    text
}

fn element(text: &mut String, drawing: &Drawing, mark: &Mark) -> std::fmt::Result {
    let stroke = |color: Rgb, width: u32| Stroke(color, drawing.line_width(width));
    match mark {
        Mark::Line {
            points,
            color,
            width,
        } => {
            text.push_str("<polyline points=\"");
            corners(text, points)?;
            let paint = stroke(*color, *width);
            writeln!(text, "\" {paint} stroke-linejoin=\"round\"/>")
        }
        Mark::Lines {
            lines,
            color,
            width,
        } => {
            text.push_str("<path d=\"");
            for line in lines {
                for (n, (x, y)) in line.iter().enumerate() {
                    let to = if n == 0 { 'M' } else { 'L' };
                    write!(text, "{to}{x} {y}")?;
                }
            }
            let paint = stroke(*color, *width);
            writeln!(text, "\" {paint} stroke-linejoin=\"round\"/>")
        }
        Mark::Fill { from, to, color } => rectangle(text, *from, *to, &Fill(*color)),
        Mark::Outline {
            from,
            to,
            color,
            width,
        } => rectangle(text, *from, *to, &stroke(*color, *width)),
        Mark::Polygon { points, color } => {
            text.push_str("<polygon points=\"");
            corners(text, points)?;
            writeln!(text, "\" {}/>", Fill(*color))
        }
        Mark::Disc { at, radius, color } => circle(text, *at, *radius, &Fill(*color)),
        Mark::Ring {
            at,
            radius,
            color,
            width,
        } => circle(text, *at, *radius, &stroke(*color, *width)),
        Mark::Hatching(marks) => marks
            .iter()
            .try_for_each(|mark| element(text, drawing, mark)),
        Mark::Words { .. } => words(text, mark),
    }
}

fn words(out: &mut String, mark: &Mark) -> std::fmt::Result {
    let Mark::Words {
        at: (x, y),
        text,
        size,
        face,
        color,
        anchor,
    } = mark
    else {
        return Ok(());
    };
    let anchor = match anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let face = match face {
        Face::Bold => " font-weight=\"bold\"",
        Face::Italic => " font-style=\"italic\"",
        Face::Plain => "",
    };
    writeln!(
        out,
        "<text x=\"{x}\" y=\"{y}\" font-family=\"{FAMILY}\" font-size=\"{size}\" {}\
         {face}{anchor}>{}</text>",
        Fill(*color),
        escape(text),
    )
}

fn rectangle(
    text: &mut String,
    from: At,
    to: At,
    paint: &dyn std::fmt::Display,
) -> std::fmt::Result {
    let ((left, top), (width, height)) = (from, (to.0 - from.0, to.1 - from.1));
    writeln!(
        text,
        "<rect x=\"{left}\" y=\"{top}\" width=\"{width}\" height=\"{height}\" {paint}/>"
    )
}

fn circle(
    text: &mut String,
    (x, y): At,
    radius: u32,
    paint: &dyn std::fmt::Display,
) -> std::fmt::Result {
    writeln!(
        text,
        "<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\" {paint}/>"
    )
}

fn corners(text: &mut String, points: &[At]) -> std::fmt::Result {
    for (n, (x, y)) in points.iter().enumerate() {
        let gap = if n == 0 { "" } else { " " };
        write!(text, "{gap}{x},{y}")?;
    }
    Ok(())
}

/// How a surface is painted.
struct Fill(Rgb);

impl std::fmt::Display for Fill {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (red, green, blue) = self.0;
        write!(out, "fill=\"#{red:02x}{green:02x}{blue:02x}\"")
    }
}

/// How a line is painted.
struct Stroke(Rgb, f64);

impl std::fmt::Display for Stroke {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (red, green, blue) = self.0;
        let width = fixed(self.1, if self.1.fract() == 0.0 { 0 } else { 2 });
        write!(
            out,
            "fill=\"none\" stroke=\"#{red:02x}{green:02x}{blue:02x}\" stroke-width=\"{width}\""
        )
    }
}

/// Text as XML and HTML hold it, in quotes too; characters they forbid become the replacement
/// character.
pub(in crate::report) fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            _ => escaped.push(lettering::drawable(character)),
        }
    }
    escaped
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
