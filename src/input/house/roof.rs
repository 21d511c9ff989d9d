//! The roof: its shape, pitch, overhangs, and what it stands on the walls with.

use super::Known;
use super::shell::{SIDES, framed, side_texts};
use super::text::{OverhangsText, RoofText, WallsText};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::material::one_of;
use crate::model::AssemblyKind;
use crate::model::house::{Roof, RoofForm, Side};
use crate::quantity::{Length, Offset, Pitch};

/// The roof's shape with its pitch.
pub(super) fn form(
    walls: &WallsText,
    roof: &RoofText,
    (length, width): (Length, Length),
    problems: &mut Problems,
) -> Option<RoofForm> {
    let shapes = [("flat", 0), ("shed", 1), ("gable", 2)];
    let shape = roof.shape.as_ref()?;
    let number = one_of(shape, &shapes, "roof shape", problems)?;
    let heights = side_texts(walls).map(|side| side.and_then(|side| side.height.as_ref()));
    if number != 1 {
        for height in heights.iter().flatten() {
            let message = format!("a {} roof gives this wall its height", shape.value.0);
            let label = "expected one `height:` for all walls";
            problems.push(Problem::at(height.span, message).expected(label));
        }
        if let Some(low) = &roof.low_side {
            let message = format!("a {} roof has no low side", shape.value.0);
            problems.push(Problem::at(low.span, message).expected("expected `shape: shed`"));
        }
    }
    match number {
        0 => {
            if let Some(pitch) = &roof.pitch {
                let message = "a flat roof has no pitch";
                let label = "expected `shape: shed` or `gable` with it";
                problems.push(Problem::at(pitch.span, message).expected(label));
            }
            Some(RoofForm::Flat)
        }
        1 => shed(walls, roof, heights, (length, width), problems),
        _ => {
            let words = [("lengthwise", true), ("crosswise", false)];
            let lengthwise = match &roof.ridge {
                None => true,
                Some(word) => one_of(word, &words, "way of the ridge", problems)?,
            };
            let Some(pitch) = &roof.pitch else {
                let label = "expected `pitch:` such as `6 in 12` beside it";
                if roof.complete {
                    let problem = Problem::at(shape.span, "a gable roof needs its pitch");
                    problems.push(problem.expected(label));
                }
                return None;
            };
            let pitch = pitch.value;
            Some(RoofForm::Gable { lengthwise, pitch })
        }
    }
}

/// A shed roof: by its pitch and low side, or by the height of its high side.
fn shed(
    walls: &WallsText,
    roof: &RoofText,
    heights: [Option<&At<Length>>; 4],
    (length, width): (Length, Length),
    problems: &mut Problems,
) -> Option<RoofForm> {
    let stated: Vec<(Side, &At<Length>)> = Side::ALL
        .into_iter()
        .filter_map(|side| Some((side, heights[side.index()]?)))
        .collect();
    let low = match &roof.low_side {
        None => None,
        Some(word) => Some(one_of(word, &SIDES, "side", problems)?),
    };
    let refuse = |at: crate::error::Span, message: &str, label: &str, problems: &mut Problems| {
        problems.push(Problem::at(at, message).expected(label));
        None
    };
    match (&stated[..], &roof.pitch, low) {
        ([], Some(pitch), Some(low)) => Some(RoofForm::Shed {
            low,
            pitch: pitch.value,
        }),
        ([(high, height)], None, low) => {
            let low_height = walls.height.as_ref()?.value.as_m();
            let rise = height.value.as_m() - low_height;
            if rise <= 0.0 {
                let message = "the high side of the shed roof isn't higher than its low side";
                let label = "expected more than `walls: height:`";
                return refuse(height.span, message, label, problems);
            }
            if low.is_some_and(|low| low != high.opposite()) {
                let message = "the height stands for the high side, across from `low-side:`";
                let label = "expected the other side's height";
                return refuse(height.span, message, label, problems);
            }
            let run = if high.is_long() { width } else { length };
            Some(RoofForm::Shed {
                low: high.opposite(),
                pitch: Pitch::from_ratio(rise / run.as_m()),
            })
        }
        ([(_, height), ..], Some(_), _) => {
            let message = "the pitch follows from the high side's height, but stands here as well";
            let label = "expected `pitch:` or this height";
            refuse(height.span, message, label, problems)
        }
        ([_, (_, second), ..], None, _) => {
            let message = "two sides of a shed roof can't both be the high one";
            refuse(second.span, message, "expected the height of one", problems)
        }
        _ if !roof.complete || !walls.complete => None,
        _ => {
            let message = "a shed roof needs its pitch and its low side";
            let label = "expected `pitch:` and `low-side:`, or the `height:` of its high side under \
                         `walls: sides:`";
            refuse(roof.shape.as_ref()?.span, message, label, problems)
        }
    }
}

/// The roof with its assembly.
pub(super) fn roof(
    text: &RoofText,
    form: Option<RoofForm>,
    known: &Known<'_>,
    problems: &mut Problems,
) -> Option<Roof> {
    let name = text.assembly.as_ref()?;
    if !known.names(name, Some(AssemblyKind::Roof), problems) {
        return None;
    }
    let sound = match &text.on_walls {
        Some(layer) => {
            known.has_layer(&name.value.0, layer, problems);
            true
        }
        None => {
            let why = "on-walls: …` with the layer that stands on the walls";
            framed(known.as_drawn(&name.value.0), name, why, problems)
        }
    };
    let reach = |at: Option<&At<Offset>>| at.map(|at| Length::from_m(at.value.as_m()));
    let of = |sides: &OverhangsText| {
        [&sides.left, &sides.right, &sides.front, &sides.back].map(|at| reach(at.as_ref()))
    };
    let overhangs = text.overhangs.as_ref().map_or([None; 4], of);
    let stands_above = reach(text.stands_above.as_ref());
    Some(Roof {
        assembly: name.value.0.clone(),
        form: form.filter(|_| sound)?,
        on_walls: value_of(text.on_walls.as_ref()),
        overhangs,
        stands_above,
    })
}

fn value_of(at: Option<&At<Word>>) -> Option<String> {
    at.map(|at| at.value.0.clone())
}
