//! Where leaking room air gets to along a path, and which planes there matter.
//!
//! Joints, laps and penetrations leak, so air passes every layer from the room outward until the
//! warm face of the first *bonded* one. Judged are the reached planes that touch wood, a
//! wood-based panel, air-permeable insulation or bare metal; never a plane that faces outdoor or
//! vented air directly or only through a membrane. Outdoor air that leaks into a cooled house
//! comes the other way: from outdoors inward to the outer face of the last bonded layer.

use super::path::{Path, PathKind};
use super::piece::Piece;
use crate::model::Kind;

/// What a plane is to the checks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct PlaneRole {
    /// Leaking room air gets here.
    pub reached: bool,
    /// Reached, and touching what the air-leak check judges.
    pub judged: bool,
    /// Outdoor air that leaks inward gets here, and the plane touches what that check judges.
    pub judged_inward: bool,
    /// Touching wood, a wood-based panel or air-permeable insulation.
    pub vulnerable: bool,
    /// On a strip's path, the outer face of the wood nearest to the metal.
    pub wood_at_steel: bool,
}

/// The role of every plane of a path, from the room's surface to the outer surface.
#[must_use]
pub fn plane_roles(path: &Path) -> Vec<PlaneRole> {
    let pieces = &path.pieces;
    let last = pieces.len();
    let reached_to = pieces.iter().position(|piece| piece.bonded).unwrap_or(last);
    let reached_inward = pieces
        .iter()
        .rposition(|piece| piece.bonded)
        .map_or(0, |n| n + 1);
    let sheltered_to = first_plane_facing_outdoors(pieces);
    let wood_at_steel = match path.kind {
        PathKind::Strip(_) => pieces.iter().rposition(is_wood).map(|n| n + 1),
        _ => None,
    };
    let role = |plane: usize| {
        let beside = || {
            pieces
                .get(plane.wrapping_sub(1))
                .into_iter()
                .chain(pieces.get(plane))
        };
        let inside = plane > 0 && plane < sheltered_to;
        let touches_metal = beside().any(|piece| piece.kind == Some(Kind::Metal));
        let reached = plane <= reached_to;
        let touches_vulnerable = beside().any(Piece::is_vulnerable);
        let vulnerable = inside && touches_vulnerable;
        let in_layers = plane > 0 && plane < last;
        PlaneRole {
            reached,
            judged: reached && (vulnerable || inside && touches_metal),
            judged_inward: plane >= reached_inward
                && in_layers
                && (touches_vulnerable || touches_metal),
            vulnerable,
            wood_at_steel: wood_at_steel == Some(plane),
        }
    };
    (0..=last).map(role).collect()
}

/// The first plane from which outward there is outdoor air, or only membranes before it.
fn first_plane_facing_outdoors(pieces: &[Piece]) -> usize {
    let vented = pieces
        .iter()
        .position(|piece| piece.vented)
        .unwrap_or(pieces.len());
    let is_membrane = |piece: &&Piece| piece.kind == Some(Kind::Membrane);
    vented
        - pieces[..vented]
            .iter()
            .rev()
            .take_while(is_membrane)
            .count()
}

fn is_wood(piece: &Piece) -> bool {
    piece.kind.is_some_and(Kind::is_wood)
}
