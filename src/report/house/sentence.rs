//! Head room, and where heat goes, in words.

use crate::quantity::{Length, Style};
use crate::study::JudgedHouse;

/// Head room, and what a variant takes of it at the same overall height.
pub(in crate::report) fn head_room(
    one: &JudgedHouse<'_>,
    base: &JudgedHouse<'_>,
    style: Style,
) -> String {
    let Some(room) = one.result.fit.head_room else {
        return String::new();
    };
    let print = |meters: f64| style.measure(Length::from_m(meters));
    let mut text = match (room.greatest - room.least).abs() < 1e-6 {
        true => format!("Head room {}.", print(room.least)),
        false => format!(
            "Head room {} to {}.",
            print(room.least),
            print(room.greatest)
        ),
    };
    if let Some(lost) = lost(one, base).filter(|lost| lost.abs() > 1e-6) {
        text += &match lost > 0.0 {
            true => format!(
                " At the same overall height {} less than as drawn.",
                print(lost)
            ),
            false => format!(
                " At the same overall height {} more than as drawn.",
                print(-lost)
            ),
        };
    }
    text
}

/// Head room that a variant takes where the overall height stays, m: what it adds to everything
/// between the frame's top and the roof's that isn't head room.
pub(super) fn lost(one: &JudgedHouse<'_>, base: &JudgedHouse<'_>) -> Option<f64> {
    Some(one.result.fit.height_taken()? - base.result.fit.height_taken()?)
}
