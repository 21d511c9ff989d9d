//! How wide lettering is, so that nothing overlaps or is clipped.
//!
//! Advance widths of DejaVu Sans 2.37 (read from the font's hmtx table), in thousandths of the
//! type size, rounded up.

/// ASCII from space to tilde, regular.
const ASCII: [u16; 95] = [
    318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361, 318, 337, 637, 637, 637,
    637, 637, 637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 531, 1000, 685, 687, 699, 771, 632,
    576, 775, 752, 295, 295, 656, 558, 863, 749, 788, 604, 788, 695, 635, 611, 732, 685, 989, 686,
    611, 686, 391, 337, 391, 838, 500, 500, 613, 635, 550, 635, 616, 353, 635, 634, 278, 278, 580,
    278, 975, 634, 612, 635, 635, 412, 521, 393, 634, 592, 818, 592, 592, 525, 637, 337, 637, 838,
];
/// ASCII from space to tilde, bold.
const ASCII_BOLD: [u16; 95] = [
    349, 457, 521, 838, 696, 1002, 873, 307, 458, 458, 523, 838, 380, 416, 380, 366, 696, 696, 696,
    696, 696, 696, 696, 696, 696, 696, 400, 400, 838, 838, 838, 581, 1000, 774, 763, 734, 831, 684,
    684, 821, 837, 373, 373, 775, 638, 996, 837, 851, 733, 851, 771, 721, 683, 813, 774, 1104, 771,
    725, 726, 458, 366, 458, 838, 500, 500, 675, 716, 593, 716, 679, 436, 716, 712, 343, 343, 666,
    343, 1042, 712, 688, 716, 716, 494, 596, 479, 712, 652, 924, 646, 652, 583, 712, 366, 712, 838,
];
/// Latin-1 from U+00A0 to U+00FF, regular.
const LATIN: [u16; 96] = [
    318, 401, 637, 637, 637, 637, 337, 500, 500, 1000, 472, 612, 838, 361, 1000, 500, 500, 838,
    401, 401, 500, 637, 637, 318, 500, 401, 472, 612, 970, 970, 970, 531, 685, 685, 685, 685, 685,
    685, 975, 699, 632, 632, 632, 632, 295, 295, 295, 295, 775, 749, 788, 788, 788, 788, 788, 838,
    788, 732, 732, 732, 732, 611, 605, 630, 613, 613, 613, 613, 613, 613, 982, 550, 616, 616, 616,
    616, 278, 278, 278, 278, 612, 634, 612, 612, 612, 612, 612, 838, 612, 634, 634, 634, 634, 592,
    635, 592,
];
/// Latin-1 from U+00A0 to U+00FF, bold.
const LATIN_BOLD: [u16; 96] = [
    349, 457, 696, 696, 637, 696, 366, 500, 500, 1000, 564, 646, 838, 416, 1000, 500, 500, 838,
    438, 438, 500, 736, 637, 380, 500, 438, 564, 646, 1036, 1036, 1036, 581, 774, 774, 774, 774,
    774, 774, 1085, 734, 684, 684, 684, 684, 373, 373, 373, 373, 838, 837, 851, 851, 851, 851, 851,
    838, 851, 813, 813, 813, 813, 725, 738, 720, 675, 675, 675, 675, 675, 675, 1048, 593, 679, 679,
    679, 679, 343, 343, 343, 343, 688, 712, 688, 688, 688, 688, 688, 838, 688, 712, 712, 712, 712,
    652, 716, 652,
];
/// A few more signs: regular and bold.
const SIGNS: [(char, u16, u16); 16] = [
    ('–', 500, 500),
    ('—', 1000, 1000),
    ('‘', 318, 380),
    ('\u{2019}', 318, 380),
    ('“', 519, 658),
    ('”', 519, 658),
    ('…', 1000, 1000),
    ('−', 838, 838),
    ('≤', 838, 838),
    ('≥', 838, 838),
    ('⁻', 528, 528),
    ('→', 838, 838),
    ('δ', 612, 688),
    ('θ', 612, 688),
    ('ψ', 660, 794),
    ('Δ', 685, 774),
];
/// What a character outside the tables is taken to be: as wide as the type is high.
const UNKNOWN: u16 = 1000;

/// Height of a capital over the type size.
pub(super) const CAPITAL: f64 = 0.729;
/// How far letters reach below the baseline, over the type size.
pub(super) const DESCENT: f64 = 0.236;

/// The width of one character in thousandths of the type size; `None` outside the tables.
pub(super) fn advance(character: char, bold: bool) -> Option<u16> {
    let code = character as usize;
    let (ascii, latin) = if bold {
        (&ASCII_BOLD, &LATIN_BOLD)
    } else {
        (&ASCII, &LATIN)
    };
    match code {
        0x20..=0x7E => Some(ascii[code - 0x20]),
        0xA0..=0xFF => Some(latin[code - 0xA0]),
        _ => {
            let sign = SIGNS.iter().find(|(sign, ..)| *sign == character);
            sign.map(|(_, regular, heavy)| if bold { *heavy } else { *regular })
        }
    }
}

/// The width of a text in the unit of `size`, rounded up.
pub(super) fn width(text: &str, size: i32, bold: bool) -> i32 {
    let thousandths: i64 = text
        .chars()
        .map(|c| i64::from(advance(c, bold).unwrap_or(UNKNOWN)))
        .sum();
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
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let word = fit(word, size, bold, room);
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {word}"), size, bold) <= room => {
                line.push(' ');
                line.push_str(&word);
            }
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
    fn long_words_are_shortened() {
        let short = fit("subfloor over the flange", 100, true, 500);
        assert!(short.ends_with('…') && width(&short, 100, true) <= 500);
        assert_eq!(fit("bay", 100, false, 500), "bay");
    }
}
