//! From an assembly to its paths: cavity, framing, and each metal strip.
//!
//! Framing of layers that lie next to each other, of the same material and share, is taken as the
//! same members running through; anything else crosses, and the shares multiply. A strip's path
//! is the layers above it, the metal, and the outer film: steel that reaches cold air
//! short-circuits what lies below it.

use super::piece::{Piece, metal_piece, piece};
use crate::model::{AirSpace, Assembly, Content, Layer, Openness, Strip};
use crate::physics::heat::Direction;
use crate::quantity::Share;

/// What a path goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathKind {
    /// Between the members.
    Cavity,
    /// Through members of at least one layer.
    Framing,
    /// Through the metal strip of that index.
    Strip(usize),
}

/// One way through an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// `cavity`, `framing`, or the strip's name.
    pub name: String,
    /// What it goes through.
    pub kind: PathKind,
    /// Its share of the area.
    pub share: Share,
    /// Its layers, inside to outside, what lies beyond a ventilated gap left out.
    pub pieces: Vec<Piece>,
    /// Whether it ends at a ventilated air space, so that the outer film is that of still air.
    pub ends_at_ventilated_air: bool,
}

/// How many layers of an assembly are computed: what lies outside a ventilated gap is left out.
#[must_use]
pub fn counted_layers(assembly: &Assembly, openness: Openness) -> usize {
    let is_open = |layer: &Layer| match layer.content {
        Content::Air(AirSpace::Ventilated) => true,
        Content::Air(AirSpace::Vented) => openness == Openness::Open,
        _ => false,
    };
    assembly
        .layers
        .iter()
        .position(is_open)
        .unwrap_or(assembly.layers.len())
}

/// The paths of an assembly, their shares adding up to one.
#[must_use]
pub fn paths(assembly: &Assembly, openness: Openness, direction: Direction) -> Vec<Path> {
    let counted = counted_layers(assembly, openness);
    let ventilated = counted < assembly.layers.len();
    let in_strips: f64 = assembly
        .strips
        .iter()
        .map(|strip| strip.share.as_fraction())
        .sum();
    let mut paths = Vec::new();
    for combination in combinations(&assembly.layers[..counted]) {
        let pieces = combination.pieces(&assembly.layers[..counted], direction);
        let kind = if combination.members == 0 {
            PathKind::Cavity
        } else {
            PathKind::Framing
        };
        paths.push(Path {
            name: combination.name(&assembly.layers[..counted]),
            kind,
            share: Share::from_fraction(combination.share * (1.0 - in_strips)),
            pieces,
            ends_at_ventilated_air: ventilated,
        });
    }
    for (index, strip) in assembly.strips.iter().enumerate() {
        paths.extend(strip_paths(assembly, index, strip, direction));
    }
    paths
}

/// The paths through one strip: one, or several where a layer above it is framed.
fn strip_paths(
    assembly: &Assembly,
    index: usize,
    strip: &Strip,
    direction: Direction,
) -> Vec<Path> {
    let above = &assembly.layers[..=strip.under];
    let several = combinations(above).len() > 1;
    let path = |combination: Combination| {
        let mut pieces = combination.pieces(above, direction);
        for layer in &strip.over {
            let piece = piece(layer, None, &layer.content, direction);
            pieces.push(piece);
        }
        pieces.push(metal_piece(strip));
        let name = match several {
            false => strip.name.clone(),
            true => format!("{}, {}", strip.name, combination.name(above)),
        };
        Path {
            name,
            kind: PathKind::Strip(index),
            share: Share::from_fraction(combination.share * strip.share.as_fraction()),
            pieces,
            ends_at_ventilated_air: false,
        }
    };
    combinations(above).into_iter().map(path).collect()
}

/// The strip's path as often drawn and wrong: the metal in series with everything below it.
#[must_use]
pub fn strip_in_series(
    assembly: &Assembly,
    strip: &Strip,
    openness: Openness,
    direction: Direction,
) -> Vec<Piece> {
    let counted = counted_layers(assembly, openness);
    let cavity = Combination {
        members: 0,
        share: 1.0,
        groups: Vec::new(),
    };
    let mut pieces = cavity.pieces(&assembly.layers[..counted], direction);
    let below = pieces.split_off((strip.under + 1).min(pieces.len()));
    let over = strip
        .over
        .iter()
        .map(|layer| piece(layer, None, &layer.content, direction));
    pieces.extend(over);
    pieces.push(metal_piece(strip));
    pieces.extend(below);
    pieces
}

/// One choice of cavity or member for every group of framed layers.
struct Combination {
    /// Bit per group: set where the path runs through the members.
    members: u32,
    share: f64,
    /// For every layer, the group of framing it belongs to.
    groups: Vec<Option<usize>>,
}

impl Combination {
    fn in_member(&self, layer: usize) -> bool {
        self.groups
            .get(layer)
            .copied()
            .flatten()
            .is_some_and(|group| self.members >> group & 1 == 1)
    }

    fn pieces(&self, layers: &[Layer], direction: Direction) -> Vec<Piece> {
        let content = |n: usize, layer: &Layer| match &layer.framing {
            Some(framing) if self.in_member(n) => Content::Solid(framing.substance.clone()),
            _ => layer.content.clone(),
        };
        layers
            .iter()
            .enumerate()
            .map(|(n, layer)| {
                let content = content(n, layer);
                let is_member = self.in_member(n);
                let mut piece = piece(layer, Some(n), &content, direction);
                if is_member {
                    piece.name = format!("{} framing", layer.name);
                }
                piece
            })
            .collect()
    }

    fn name(&self, layers: &[Layer]) -> String {
        if self.members == 0 {
            return "cavity".into();
        }
        let group_count = self
            .groups
            .iter()
            .flatten()
            .max()
            .map_or(0, |last| last + 1);
        if group_count == 1 {
            return "framing".into();
        }
        let first_of = |group: usize| {
            let layer = self.groups.iter().position(|g| *g == Some(group));
            layer.map_or("", |n| layers[n].name.as_str())
        };
        let names = (0..group_count)
            .filter(|g| self.members >> g & 1 == 1)
            .map(first_of);
        format!("framing of {}", names.collect::<Vec<_>>().join(" and "))
    }
}

/// Groups framed layers into members that run through, then lists every way past them.
fn combinations(layers: &[Layer]) -> Vec<Combination> {
    let mut groups: Vec<Option<usize>> = Vec::with_capacity(layers.len());
    let mut shares: Vec<f64> = Vec::new();
    for (n, layer) in layers.iter().enumerate() {
        let group = layer.framing.as_ref().map(|framing| {
            let before = n
                .checked_sub(1)
                .and_then(|b| layers[b].framing.as_ref().zip(groups[b]));
            match before {
                Some((other, group)) if framing.continues(other) => group,
                _ => {
                    shares.push(framing.share.as_fraction());
                    shares.len() - 1
                }
            }
        });
        groups.push(group);
    }
    (0..1_u32 << shares.len())
        .map(|members| {
            let share = |(group, share): (usize, &f64)| match members >> group & 1 {
                1 => *share,
                _ => 1.0 - share,
            };
            let share = shares.iter().enumerate().map(share).product();
            Combination {
                members,
                share,
                groups: groups.clone(),
            }
        })
        .collect()
}
