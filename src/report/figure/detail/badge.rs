//! The word of a verdict in a frame that tells it apart without color: double where it fails, dashed where
//! it depends, thin where it passes.

use super::super::sheet::{INK, Lettering, Point, SIZE, Sheet};
use crate::check::Status;

/// From the frame to the word.
const PAD: i32 = 170;
/// Dashes of a frame.
const DASHES: (f64, f64) = (190.0, 110.0);

/// Draws it, its left end and its baseline at a point; returns where it ends.
pub(super) fn draw(sheet: &mut Sheet, (left, base): Point, status: Status) -> i32 {
    let set = Lettering::PLAIN.bold();
    let word = status.word();
    let right = left + set.width(word) + 2 * PAD;
    let (from, to) = ((left, base - SIZE), (right, base + SIZE * 4 / 10));
    match status {
        Status::Fail => {
            sheet.outline(from, to, INK, 30);
            sheet.outline((from.0 + 70, from.1 + 70), (to.0 - 70, to.1 - 70), INK, 30);
        }
        Status::Depends | Status::Unknown => {
            let around = [from, (to.0, from.1), to, (from.0, to.1), from];
            sheet.dashes(&around, DASHES, INK, 40);
        }
        Status::Pass | Status::Note => sheet.outline(from, to, INK, 18),
    }
    sheet.text(word, (left + PAD, base), set);
    right
}
