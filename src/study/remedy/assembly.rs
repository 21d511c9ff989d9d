//! Leaks and cold surfaces of an assembly: an air seal, or a board outside.

use super::board::THICKEST;
use super::ground::Ground;
use super::{Measure, Outside, Told};
use crate::check::{Detail, UnseenDetail};
use crate::model::{AssemblyKind, Content, Kind, Layer, SoldBoard};
use crate::quantity::Length;

/// An air seal inside, and the least board outside that makes the wood warm enough.
pub(super) fn leak(ground: &Ground<'_>) -> Vec<Measure> {
    let (seal, board) = rayon::join(
        || sealed(ground, false),
        || match ground.finding.strip {
            None => least_board(ground),
            Some(_) => None,
        },
    );
    let found: Vec<Measure> = seal.into_iter().chain(board).collect();
    match found.is_empty() {
        true => ground.drier().into_iter().collect(),
        false => found,
    }
}

/// An air seal on the outer side.
pub(super) fn inward(ground: &Ground<'_>) -> Vec<Measure> {
    sealed(ground, true).into_iter().collect()
}

/// A board outside, else drier air.
pub(super) fn warmer(ground: &Ground<'_>) -> Vec<Measure> {
    let board = least_board(ground);
    board.or_else(|| ground.drier()).into_iter().collect()
}

/// Joints are sealed; what lies beyond a gap has to be looked at.
pub(super) fn unseen(ground: &Ground<'_>) -> Vec<Measure> {
    let Detail::Unseen(unseen) = &ground.finding.detail else {
        return Vec::new();
    };
    vec![match unseen {
        UnseenDetail::Joints { layer } => Measure::Seal {
            assembly: ground.name(),
            layer: layer.clone(),
            outer: false,
        },
        UnseenDetail::BeyondGap { .. } => Measure::Told(Told::NotLookedAt(unseen.clone())),
    }]
}

/// Whether a layer can be made airtight: neither air nor what air moves through, nor crossed by
/// framing.
fn can_seal(layer: &Layer) -> bool {
    let Content::Solid(substance) = &layer.content else {
        return false;
    };
    layer.framing.is_none() && !substance.air_permeable && !layer.bonded
}

/// The layer nearest to the cold that stops the air, tried from there inward; from outdoors the
/// other way.
fn sealed(ground: &Ground<'_>, outer: bool) -> Option<Measure> {
    let assembly = ground.assembly();
    let layers = &assembly.layers;
    let gap = layers.iter().position(Layer::is_open_air);
    let within = &layers[..gap.unwrap_or(layers.len())];
    let mut names: Vec<&str> = within
        .iter()
        .filter(|layer| can_seal(layer))
        .map(|layer| layer.name.as_str())
        .collect();
    // Against the room's air the innermost that does is the last resort, the outermost the first; the
    // cladding and the pan are no place for an air seal against it.
    if !outer {
        names.reverse();
    }
    let measures = names.into_iter().map(|layer| Measure::Seal {
        assembly: assembly.name.clone(),
        layer: layer.to_owned(),
        outer,
    });
    let mut measures = measures.filter(|measure| ground.clears(measure));
    measures.next()
}

/// The least board outside that makes the finding pass and nothing else fail, up to 4 in.
pub(super) fn least_board(ground: &Ground<'_>) -> Option<Measure> {
    let all = outside(ground);
    let last = all.last()?;
    if !ground.clears(last) {
        return None;
    }
    let (mut low, mut high) = (0, all.len() - 1);
    while low < high {
        let middle = low.midpoint(high);
        match ground.clears(&all[middle]) {
            true => high = middle,
            false => low = middle + 1,
        }
    }
    let found = all.into_iter().nth(high)?;
    (!ground.harms(&found)).then_some(found)
}

/// Boards outside, thin to thick: more of what lies outside the frame, else a new one outside the
/// sheathing.
pub(super) fn outside(ground: &Ground<'_>) -> Vec<Measure> {
    let layers = &ground.assembly().layers;
    let gap = layers.iter().position(Layer::is_open_air);
    let within = gap.unwrap_or(layers.len());
    let frame = layers[..within]
        .iter()
        .rposition(|layer| layer.framing.is_some());
    let boards = &ground.project.stock.boards;
    let there = layers[..within].iter().enumerate().find_map(|(n, layer)| {
        let board = board_of(boards, layer)?;
        let is_outside = frame.is_none_or(|frame| n > frame);
        (is_outside && layer.resistance.is_none()).then_some((n, board))
    });
    let found = match there {
        Some((n, board)) => Some((n, board, true)),
        None => boards
            .iter()
            .find(|board| !board.substance.air_permeable)
            .zip(outermost(ground, frame, within))
            .map(|(board, n)| (n, board, false)),
    };
    let Some((n, board, thickens)) = found else {
        return Vec::new();
    };
    let sold = board.sold.iter().copied();
    let all = sold.filter(|one| one.as_m() <= THICKEST);
    let measure = |thickness: Length| {
        Measure::Outside(Outside {
            assembly: ground.name(),
            name: board.name.clone(),
            substance: Box::new(board.substance.clone()),
            thickness,
            layer: layers[n].name.clone(),
            thickens,
            asked: None,
        })
    };
    all.map(measure).collect()
}

fn board_of<'s>(boards: &'s [SoldBoard], layer: &Layer) -> Option<&'s SoldBoard> {
    let Content::Solid(substance) = &layer.content else {
        return None;
    };
    let alike = |board: &&SoldBoard| board.substance.label == substance.label;
    boards
        .iter()
        .find(alike)
        .filter(|_| layer.framing.is_none())
}

/// The layer outside of which a new board goes: the sheathing with its membranes, the deck of a roof;
/// none of a floor, which stands in its steel.
fn outermost(ground: &Ground<'_>, frame: Option<usize>, within: usize) -> Option<usize> {
    let assembly = ground.assembly();
    let first = frame?;
    let kind = |n: usize| match &assembly.layers[n].content {
        Content::Solid(substance) => substance.kind,
        Content::Air(_) => None,
    };
    let goes_on = |n: &usize| {
        let membrane = assembly.kind == AssemblyKind::Wall && kind(*n) == Some(Kind::Membrane);
        membrane || matches!(kind(*n), Some(Kind::Panel | Kind::Wood | Kind::Lining))
    };
    let last = (first + 1..within).take_while(goes_on).last();
    (assembly.kind != AssemblyKind::Floor).then(|| last.unwrap_or(first))
}
