//! What a value of a key may plausibly be: beyond it somebody mistook a unit or a digit.

use crate::document::{At, Problems};
use crate::error::{Problem, Span};
use crate::quantity::{Length, Temperature, fixed, inches, unit};

/// Least and greatest width of a member, m.
pub(super) const MEMBER: (f64, f64) = (0.5e-3, 0.5);
/// Least and greatest spacing of members, m.
pub(super) const SPACING: (f64, f64) = (5e-3, 10.0);
/// Least and greatest width of a strip, m.
pub(super) const STRIP: (f64, f64) = (0.5e-3, 20.0);
/// Least and greatest width of a deck, m.
pub(super) const DECK: (f64, f64) = (0.01, 100.0);
/// Least and greatest temperature of a room, °C: from just free of frost to a dry heat.
const ROOM: (f64, f64) = (0.0, 45.0);

/// The thickest layer that is believed, m.
const THICKEST: f64 = 2.0;

/// The thickness of a layer.
pub(super) fn thickness(
    length: Length,
    span: Span,
    layer: &str,
    problems: &mut Problems,
) -> Option<Length> {
    if length.as_m() <= THICKEST {
        return Some(length);
    }
    let meters = length.as_m();
    let problem = Problem::at(span, format!("layer `{layer}` is implausibly thick"))
        .expected("expected at most 2 m (78 in) for one layer");
    let inches = meters / unit::FOOT;
    let problem = match meters {
        m if m.fract() == 0.0 => problem.help(format!("did you mean `{m} mm`?")),
        // A layer of a few inches, written in feet.
        _ if inches <= 36.0 && (inches - inches.round()).abs() < 1e-9 => {
            problem.help(format!("did you mean `{} in`?", inches.round()))
        }
        _ => problem,
    };
    problems.push(problem);
    None
}

/// A length between two others, m; the upper one is what a builder mistakes.
pub(super) fn length(
    at: &At<Length>,
    (least, most): (f64, f64),
    what: &str,
    problems: &mut Problems,
) -> Option<Length> {
    let meters = at.value.as_m();
    if (least..=most).contains(&meters) {
        return Some(at.value);
    }
    let own = |meters: f64| match meters / unit::FOOT {
        feet if feet < 3.0 => inches(Length::from_m(meters)),
        feet => format!("{} ft", fixed(feet, 0)),
    };
    let (size, label) = match meters > most {
        true => (
            "large",
            format!("expected at most {most} m ({})", own(most)),
        ),
        false => (
            "small",
            format!("expected at least {least} m ({})", own(least)),
        ),
    };
    let message = format!("{what} is implausibly {size}");
    problems.push(Problem::at(at.span, message).expected(label));
    None
}

/// The temperature of a room that somebody lives in.
pub(super) fn room(at: &At<Temperature>, problems: &mut Problems) -> Option<Temperature> {
    if (ROOM.0..=ROOM.1).contains(&at.value.as_celsius()) {
        return Some(at.value);
    }
    let message = "nobody lives in a room of that temperature";
    let label = "expected 32 °F to 113 °F (0 °C to 45 °C)";
    problems.push(Problem::at(at.span, message).expected(label));
    None
}
