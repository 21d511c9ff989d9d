//! How wide lettering is, so that nothing overlaps or is clipped.
//!
//! Advance widths come from the font itself, in thousandths of the type size, rounded up.

use unicode_bidi::{BidiInfo, Level};

use super::font::{Glyph, face};

/// Height of a capital over the type size.
pub(super) const CAPITAL: f64 = 0.729;
/// How far letters reach below the baseline, over the type size.
pub(super) const DESCENT: f64 = 0.236;

/// The width of one character in thousandths of the type size, rounded up: that of the box drawn
/// for it where the font lacks it.
fn advance(character: char, bold: bool) -> u32 {
    let face = face(bold);
    (u32::from(face.drawn(character).advance) * 1000).div_ceil(u32::from(face.units))
}

/// Every character of a text that the font lacks, each once, in the order of the text.
pub(super) fn lacks(text: &str) -> Vec<char> {
    let mut lacking = Vec::new();
    for character in text.chars().map(drawable) {
        let faces = [false, true].map(|bold| face(bold).glyph(character));
        if faces.contains(&None) && !lacking.contains(&character) {
            lacking.push(character);
        }
    }
    lacking
}

/// The character drawn for one: a space for tabs and ends of lines, the replacement character for
/// what no document may hold.
pub(super) fn drawable(character: char) -> char {
    match character {
        '\t' | '\n' | '\r' => ' ',
        '\u{0}'..='\u{1F}' | '\u{7F}'..='\u{9F}' | '\u{FEFF}' | '\u{FDD0}'..='\u{FDEF}' => {
            '\u{FFFD}'
        }
        // The last two of every plane are no characters.
        _ if u32::from(character) & 0xFFFE == 0xFFFE => '\u{FFFD}',
        _ => character,
    }
}

/// The glyphs of a text, and its exact width over the type size.
pub(super) fn glyphs(text: &str, bold: bool) -> (Vec<Glyph>, f64) {
    let face = face(bold);
    let glyphs: Vec<Glyph> = text.chars().map(|c| face.drawn(c)).collect();
    let units: u64 = glyphs.iter().map(|glyph| u64::from(glyph.advance)).sum();
    (glyphs, units as f64 / f64::from(face.units))
}

/// The places of a text's characters in the order they are drawn from left to right: words written
/// from right to left are turned around, in lines that begin at the left (Unicode Standard Annex 9).
pub(super) fn visual_order(text: &str) -> Vec<usize> {
    let plain = || (0..text.chars().count()).collect();
    if text.chars().all(|c| c < FIRST_FROM_THE_RIGHT) {
        return plain();
    }
    let bidi = BidiInfo::new(text, Some(Level::ltr()));
    match &bidi.paragraphs[..] {
        [line] => {
            let levels = bidi.reordered_levels_per_char(line, line.range.clone());
            BidiInfo::reorder_visual(&levels)
        }
        _ => plain(),
    }
}

/// No letter before it is written from right to left: the first of the Hebrew block.
const FIRST_FROM_THE_RIGHT: char = '\u{590}';

/// The width of a text in the unit of `size`, rounded up.
pub(super) fn width(text: &str, size: i32, bold: bool) -> i32 {
    let thousandths: i64 = text.chars().map(|c| i64::from(advance(c, bold))).sum();
    let width = (thousandths * i64::from(size) + 999) / 1000;
    i32::try_from(width).unwrap_or(i32::MAX)
}

/// The text, or as much of it as fits followed by an ellipsis.
pub(super) fn fit(text: &str, size: i32, bold: bool, room: i32) -> String {
    if width(text, size, bold) <= room {
        return text.to_owned();
    }
    let mut kept = String::new();
    for character in text.chars() {
        kept.push(character);
        if width(&kept, size, bold) + width("…", size, bold) > room {
            kept.pop();
            break;
        }
    }
    format!("{}…", kept.trim_end())
}

/// Breaks a text into lines between words; a word wider than a line is shortened.
pub(super) fn wrap(text: &str, size: i32, bold: bool, room: i32) -> Vec<String> {
    broken(text, size, bold, room, usize::MAX)
}

/// The same for text that is read on: no line has more than 80 characters.
pub(super) fn wrap_short(text: &str, size: i32, bold: bool, room: i32) -> Vec<String> {
    broken(text, size, bold, room, LINE_OF_TEXT)
}

/// Characters of a line of text that the eye still follows to the next (common practice).
const LINE_OF_TEXT: usize = 80;

fn broken(text: &str, size: i32, bold: bool, room: i32, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let word = fit(word, size, bold, room);
        let longer = lines.last().map(|line| format!("{line} {word}"));
        let longer = longer
            .filter(|longer| width(longer, size, bold) <= room && longer.chars().count() <= most);
        match (longer, lines.last_mut()) {
            (Some(longer), Some(line)) => *line = longer,
            _ => lines.push(word),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_between_words_and_fit() {
        let lines = wrap("one two three four", 100, false, 600);
        assert_eq!(lines.join(" "), "one two three four");
        assert!(lines.len() > 1);
        assert!(lines.iter().all(|line| width(line, 100, false) <= 600));
    }

    #[test]
    fn widths_are_the_fonts_in_thousandths_rounded_up() {
        assert_eq!(advance('m', false), 975); // 1995 of 2048
        assert_eq!(advance('m', true), 1042); // 2134 of 2048
        assert_eq!(advance('日', false), advance('\u{FFFD}', false));
        assert_eq!(width("½ in", 1000, false), 970 + 318 + 278 + 634);
    }

    // UAX 9: letters from right to left turn around, numbers in them don't, what stands before and
    // after stays.
    #[test]
    fn words_from_right_to_left_are_turned_around() {
        let drawn = |text: &str| -> String {
            let letters: Vec<char> = text.chars().collect();
            visual_order(text).iter().map(|n| letters[*n]).collect()
        };
        assert_eq!(drawn("bay, 5 °F"), "bay, 5 °F");
        assert_eq!(drawn("the \u{5D0}\u{5D1} bay "), "the \u{5D1}\u{5D0} bay ");
        assert_eq!(drawn("\u{5D0}\u{5D1} 12"), "12 \u{5D1}\u{5D0}");
        assert_eq!(drawn("a\u{2029}\u{5D0}\u{5D1}"), "a\u{2029}\u{5D0}\u{5D1}");
        assert_eq!(drawn(""), "");
    }

    #[test]
    fn the_font_has_every_sign_we_use() {
        assert_eq!(lacks("°²³·−±×÷≤≥≈→⁻¹δθψχΔλμρφ½¼¾⅛⅜⅝⅞′″–—‘’“”…✓✗§"), []);
        assert_eq!(lacks("日本 a日\t"), ['日', '本']);
    }

    #[test]
    fn long_words_are_shortened() {
        let short = fit("subfloor over the flange", 100, true, 500);
        assert!(short.ends_with('…') && width(&short, 100, true) <= 500);
        assert_eq!(fit("bay", 100, false, 500), "bay");
    }
}
