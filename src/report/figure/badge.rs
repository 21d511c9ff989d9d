//! A verdict's word in its frame.

use super::sheet::{INK, Lettering, PAPER, Point, Sheet};
use crate::check::Status;

/// Between the frame and the word.
const PAD: i32 = 130;
/// Over and under the word's baseline.
const HIGH: (i32, i32) = (330, 100);
const SET: Lettering = Lettering::PLAIN;

/// The width it takes.
pub(super) fn width(word: &str) -> i32 {
    SET.bold().width(word) + 2 * PAD
}

/// Draws it from its left edge and the word's baseline: black where it fails, a heavy frame where it
/// depends, else a fine one. So it can be told without color and without reading.
pub(super) fn draw(sheet: &mut Sheet, (left, base): Point, word: &str, status: Status) {
    let (from, to) = ((left, base - HIGH.0), (left + width(word), base + HIGH.1));
    let mut set = SET.bold();
    match status {
        Status::Fail => {
            sheet.fill(from, to, INK);
            set = set.color(PAPER);
        }
        Status::Depends | Status::Unknown => sheet.outline(from, to, INK, 45),
        Status::Pass | Status::Note => sheet.outline(from, to, INK, 15),
    }
    sheet.text(word, (left + PAD, base), set);
}
