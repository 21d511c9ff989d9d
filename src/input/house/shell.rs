//! The measures of the house: deck, floor, walls, roof.

use super::Known;
use super::roof::{form, roof};
use super::text::{DeckText, HouseText, SideText, WallsText};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::model::house::{Shell, Side, Wall};
use crate::model::{Assembly, AssemblyKind};
use crate::quantity::{Length, Offset};

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
    let size = size(deck);
    let floor = floor(text, known, problems);
    let walls = text.walls.as_ref();
    let roof_text = text.roof.as_ref();
    let missing = [
        ("floor", text.floor.is_none()),
        ("walls", walls.is_none()),
        ("roof", roof_text.is_none()),
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
    let (walls, text_of_roof) = (walls?, roof_text?);
    let height = walls.height.as_ref().map(|at| at.value);
    let sides = by_side(walls, known, problems);
    let form = form(walls, text_of_roof, (length, width), problems);
    let roof = roof(text_of_roof, form, known, problems);
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

fn size(deck: &DeckText) -> Option<(Length, Length)> {
    Some((deck.length.as_ref()?.value, deck.width.as_ref()?.value))
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

pub(super) fn side_texts(walls: &WallsText) -> [Option<&SideText>; 4] {
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
    let trim = |at: Option<&At<Offset>>| at.map(|at| Length::from_m(at.value.as_m()));
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
pub(super) fn framed(
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
