//! The measures of the house: deck, floor, walls, roof.

use super::text::{DeckText, HouseText, OverhangsText, RoofText, SideText, WallsText};
use super::{Known, plausible};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::material::one_of;
use crate::model::house::{Roof, RoofForm, Shell, Side, Wall};
use crate::model::{Assembly, AssemblyKind};
use crate::quantity::{Length, Offset, Pitch};

/// Greatest length and width that are believed, m.
const GREATEST: f64 = 30.0;
/// Greatest wall height, overhang, or what stands above a roof, m.
const HIGHEST: f64 = 6.0;
/// Least and greatest share that inside measures must leave of outside ones.
const LEAST_INSIDE: f64 = 0.3;

/// The four words for sides.
pub(super) const SIDES: [(&str, Side); 4] = [
    ("left", Side::Left),
    ("right", Side::Right),
    ("front", Side::Front),
    ("back", Side::Back),
];

/// The shell; `None` where only areas are given, or where anything is wrong.
pub(super) fn shell(text: &HouseText, known: &Known<'_>, problems: &mut Problems) -> Option<Shell> {
    let Some(deck) = &text.deck else {
        without_deck(text, problems);
        return None;
    };
    let size = size(deck, problems);
    let floor = floor(text, known, problems);
    let walls = text.walls.as_ref();
    let roof = text.roof.as_ref();
    let missing = [
        ("floor", text.floor.is_none()),
        ("walls", walls.is_none()),
        ("roof", roof.is_none()),
    ];
    for (key, _) in missing
        .iter()
        .filter(|(_, missing)| *missing && text.complete)
    {
        let message = format!("the house has a deck but no `{key}:`");
        let label = format!("expected `{key}: {{assembly: …}}` beside it");
        let span = deck
            .length
            .as_ref()
            .or(deck.width.as_ref())
            .map(|at| at.span);
        if let Some(span) = span {
            problems.push(Problem::at(span, message).expected(label));
        }
    }
    let (length, width) = size?;
    let (walls, roof) = (walls?, roof?);
    let height = walls.height.as_ref();
    let height = height.and_then(|at| plausible(at, HIGHEST, "the wall's height", problems));
    let sides = by_side(walls, known, problems);
    let form = form(walls, roof, (length, width), problems);
    let roof = self::roof(roof, form, known, problems);
    let (floor, above_frame) = floor?;
    let shell = Shell {
        length,
        width,
        floor,
        above_frame,
        walls: sides?,
        wall_height: height?,
        at_deck_edge: walls.at_deck_edge.as_ref().map(|at| at.value.0.clone()),
        roof: roof?,
    };
    room_inside(&shell, deck, known, problems)?;
    Some(shell)
}

/// Walls and roof mean nothing without the deck they stand on.
fn without_deck(text: &HouseText, problems: &mut Problems) {
    let walls = text
        .walls
        .as_ref()
        .and_then(|walls| walls.assembly.as_ref());
    let roof = text.roof.as_ref().and_then(|roof| roof.assembly.as_ref());
    let floor = text
        .floor
        .as_ref()
        .and_then(|floor| floor.assembly.as_ref());
    if let Some(at) = floor.or(walls).or(roof).filter(|_| text.complete) {
        let message = "the house has no `deck:` that floor, walls and roof could be measured by";
        let label = "expected `deck: {length: …, width: …}` beside it";
        problems.push(Problem::at(at.span, message).expected(label));
    }
}

fn size(deck: &DeckText, problems: &mut Problems) -> Option<(Length, Length)> {
    let mut of = |at: Option<&At<Length>>, what| plausible(at?, GREATEST, what, problems);
    let length = of(deck.length.as_ref(), "the deck's length");
    let width = of(deck.width.as_ref(), "the deck's width");
    length.zip(width)
}

/// The floor's name and its lowest layer above the frame.
fn floor(
    text: &HouseText,
    known: &Known<'_>,
    problems: &mut Problems,
) -> Option<(String, Option<String>)> {
    let floor = text.floor.as_ref()?;
    let name = floor.assembly.as_ref()?;
    if !known.names(name, Some(AssemblyKind::Floor), problems) {
        return None;
    }
    let assembly = known.as_drawn(&name.value.0)?;
    match &floor.above_frame {
        Some(layer) => known.has_layer(&name.value.0, layer, problems),
        None if assembly.strips.is_empty() => {
            let message = format!(
                "which layers of `{}` lie above the frame? It has no strip that would tell",
                name.value.0
            );
            let label = "expected `above-frame:` with its lowest layer above the frame's top";
            problems.push(Problem::at(name.span, message).expected(label));
        }
        None => {}
    }
    let above = floor.above_frame.as_ref().map(|at| at.value.0.clone());
    Some((name.value.0.clone(), above))
}

fn side_texts(walls: &WallsText) -> [Option<&SideText>; 4] {
    let Some(sides) = &walls.sides else {
        return [None; 4];
    };
    [&sides.left, &sides.right, &sides.front, &sides.back].map(Option::as_ref)
}

fn by_side(walls: &WallsText, known: &Known<'_>, problems: &mut Problems) -> Option<[Wall; 4]> {
    let sides = side_texts(walls);
    let common = walls.assembly.as_ref()?;
    let mut names: Vec<&At<Word>> = vec![common];
    names.extend(
        sides
            .iter()
            .flatten()
            .filter_map(|side| side.assembly.as_ref()),
    );
    let mut sound = true;
    for name in names {
        if !known.names(name, Some(AssemblyKind::Wall), problems) {
            sound = false;
            continue;
        }
        match &walls.at_deck_edge {
            Some(layer) => known.has_layer(&name.value.0, layer, problems),
            None => {
                let why = "at-deck-edge: …` with the layer whose outer face stands there";
                sound &= framed(known.as_drawn(&name.value.0), name, why, problems);
            }
        }
    }
    let mut trim = |at: Option<&At<Offset>>| reach(at, "trim", problems);
    let common_trim = trim(walls.trim.as_ref());
    let wall = |side: Option<&SideText>| Wall {
        assembly: side
            .and_then(|side| side.assembly.as_ref())
            .unwrap_or(common)
            .value
            .0
            .clone(),
        trim: trim(side.and_then(|side| side.trim.as_ref())).or(common_trim),
    };
    let walls = sides.map(wall);
    sound.then_some(walls)
}

/// Without framing nothing tells where the deck's edge, or the top of the wall, is.
fn framed(
    assembly: Option<&Assembly>,
    name: &At<Word>,
    key: &str,
    problems: &mut Problems,
) -> bool {
    let Some(assembly) = assembly else {
        return false;
    };
    if assembly.layers.iter().any(|layer| layer.framing.is_some()) {
        return true;
    }
    let message = format!("`{}` has no framed layer to measure from", name.value.0);
    let problem = Problem::at(name.span, message);
    problems.push(problem.expected(format!("expected `framing:` in a layer, or `{key}")));
    false
}

/// How far something stands out: not inward, and not far.
fn reach(at: Option<&At<Offset>>, what: &str, problems: &mut Problems) -> Option<Length> {
    let at = at?;
    let meters = at.value.as_m();
    if (0.0..=HIGHEST).contains(&meters) {
        return Some(Length::from_m(meters));
    }
    let message = match meters < 0.0 {
        true => format!("{what} of less than nothing"),
        false => format!("{what} is implausibly large"),
    };
    let label = format!("expected 0 to {HIGHEST} m");
    problems.push(Problem::at(at.span, message).expected(label));
    None
}

/// The roof's shape with its pitch.
fn form(
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
                let problem = Problem::at(shape.span, "a gable roof needs its pitch");
                problems.push(problem.expected(label));
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
        _ => {
            let message = "a shed roof needs its pitch and its low side";
            let label = "expected `pitch:` and `low-side:`, or the `height:` of its high side under \
                         `walls: sides:`";
            refuse(roof.shape.as_ref()?.span, message, label, problems)
        }
    }
}

fn roof(
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
    let mut overhang = |at: Option<&At<Offset>>| reach(at, "an overhang", problems);
    let of = |sides: &OverhangsText| {
        [&sides.left, &sides.right, &sides.front, &sides.back].map(|at| overhang(at.as_ref()))
    };
    let overhangs = text.overhangs.as_ref().map_or([None; 4], of);
    let stands_above = reach(
        text.stands_above.as_ref(),
        "what stands above the roof",
        problems,
    );
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

/// Walls, floor and ceiling must leave a room.
fn room_inside(
    shell: &Shell,
    deck: &DeckText,
    known: &Known<'_>,
    problems: &mut Problems,
) -> Option<()> {
    let thickest = shell
        .walls
        .iter()
        .filter_map(|wall| known.as_drawn(&wall.assembly));
    let thickest = thickest
        .map(|wall| wall.thickness().as_m())
        .fold(0.0, f64::max);
    for at in [&deck.length, &deck.width].into_iter().flatten() {
        if at.value.as_m() * (1.0 - LEAST_INSIDE) < 2.0 * thickest {
            let message = "the walls leave next to no room on this deck";
            let label = format!(
                "expected much more than twice the wall's {}",
                crate::quantity::inches(Length::from_m(thickest))
            );
            problems.push(Problem::at(at.span, message).expected(label));
            return None;
        }
    }
    Some(())
}
