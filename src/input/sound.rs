//! What holds for an assembly as a whole, and how much work it may be.

use super::strip;
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::model::{Layer, Strip, runs_of_members};

/// Most groups of framing that may cross in one assembly: every one doubles the paths.
const MOST_FRAMING_GROUPS: usize = 3;
/// Most layers and strips of one assembly.
const MOST_LAYERS: usize = 60;
/// Layers that all ways through an assembly pass together, at most: work without a bound is no answer.
const MOST_PIECES: usize = 1000;

/// What holds for the assembly as a whole.
pub(super) fn sound(
    name: &At<Word>,
    layers: &[Layer],
    strips: &[Strip],
    problems: &mut Problems,
) -> Option<()> {
    let before = problems.len();
    let mut refuse = |message: String, label: &str| {
        problems.push(Problem::at(name.span, message).expected(label));
    };
    let name = &name.value.0;
    let first_open = layers.iter().position(Layer::is_open_air);
    let first_open = first_open.unwrap_or(layers.len());
    if layers.len() > MOST_LAYERS || strips.len() > MOST_LAYERS {
        let message = format!("assembly `{name}` has too many layers");
        refuse(message, "expected at most 60");
    }
    if first_open == 0 {
        let message = format!("assembly `{name}` has outdoor air right behind the room");
        refuse(message, "expected a layer inside the first open air space");
    } else if strips.iter().any(|strip| strip.under >= first_open) {
        let message = format!("a strip of `{name}` lies beyond an air space open to outdoors");
        refuse(message, "expected strips under a layer inside of it");
    }
    let in_strips: f64 = strips.iter().map(|strip| strip.share.as_fraction()).sum();
    if in_strips > strip::MOST_OF_DECK {
        let percent = crate::quantity::fixed(in_strips * 100.0, 0);
        let message = format!("the strips of `{name}` take {percent} % of the deck");
        refuse(message, "expected less than 100 % together");
    }
    // Layers that the same members run through are framed once.
    if runs_of_members(layers).len() > MOST_FRAMING_GROUPS {
        let message =
            format!("assembly `{name}` has more than {MOST_FRAMING_GROUPS} framed layers");
        let label = "expected fewer: combine layers between the same members";
        refuse(message, label);
    }
    let (ways, pieces) = ways(layers, strips);
    if pieces > MOST_PIECES {
        let message = format!(
            "assembly `{name}` has {ways} ways through it, of {pieces} layers together: more than can \
             be followed"
        );
        let label = "expected fewer strips under framed layers, or fewer framed layers across";
        refuse(message, label);
    }
    (problems.len() == before).then_some(())
}

/// How many ways lead through an assembly, and how many layers they pass in all: every framed layer
/// doubles the ways, and so do those above a strip for its own.
fn ways(layers: &[Layer], strips: &[Strip]) -> (usize, usize) {
    let through = |layers: &[Layer]| 1_usize << runs_of_members(layers).len().min(16);
    let mut all = (through(layers), through(layers) * layers.len());
    for strip in strips {
        let above = &layers[..(strip.under + 1).min(layers.len())];
        let ways = through(above);
        all.0 += ways;
        all.1 += ways * (above.len() + strip.over.len() + 1);
    }
    all
}
