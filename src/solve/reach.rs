//! Where leaking room air gets to along a path, and which planes there matter.
//!
//! Layers of one material, or of air-permeable insulation, one behind the other are one *body*:
//! no plane inside it is judged for leaks, and its cold face is judged where it touches something
//! solid. So it makes no difference whether 9 in of insulation are written as one layer or as nine.
//!
//! Joints, laps and penetrations leak, so air passes every layer from the room outward until the
//! warm face of the first *bonded* one. Judged are the reached planes that touch wood, a
//! wood-based panel, air-permeable insulation or bare metal; never a plane that faces outdoor or
//! vented air directly or only through a membrane. Outdoor air that leaks into a cooled house
//! comes the other way: from outdoors inward to the outer face of the last bonded layer.

use std::ops::Range;

use super::path::{Path, PathKind};
use super::piece::Piece;
use crate::model::{AssemblyKind, Kind};

/// A named way by which water gets to a plane in some amount, beside diffusion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaterWay {
    /// The layer is wet when it is closed in, as the file states.
    BuiltIn,
    /// Room air that leaks leaves it there.
    RoomAir,
    /// Rain gets past the cladding, behind which no open gap lies.
    Rain,
    /// A pipe leaks above a pan that doesn't drain.
    Plumbing,
}

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
    /// Inside one body: between layers of one material, or of air-permeable insulation.
    pub within: bool,
    /// How water gets to a vulnerable plane between two bodies; `None` where by no named way.
    pub water: Option<WaterWay>,
    /// On a strip's path, the outer face of the wood nearest to the metal.
    pub wood_at_steel: bool,
}

/// The role of every plane of a path through an assembly of a kind, from the room's surface to the
/// outer surface.
#[must_use]
pub fn plane_roles(path: &Path, kind: AssemblyKind) -> Vec<PlaneRole> {
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
    let (rain, plumbing) = (meets_rain(path, kind), lies_over_pan(path, kind));
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
        let within = in_layers && pieces[plane - 1].is_one_body_with(&pieces[plane]);
        let way = || {
            let ways = [
                (
                    WaterWay::BuiltIn,
                    beside().any(|piece| piece.built_in_water),
                ),
                (WaterWay::RoomAir, reached),
                (WaterWay::Rain, rain && plane >= reached_inward),
                (WaterWay::Plumbing, plumbing),
            ];
            ways.into_iter()
                .find(|(_, leads)| *leads)
                .map(|(way, _)| way)
        };
        PlaneRole {
            reached,
            judged: reached && !within && (vulnerable || inside && touches_metal),
            judged_inward: plane >= reached_inward
                && in_layers
                && !within
                && (touches_vulnerable || touches_metal),
            vulnerable,
            within,
            water: (vulnerable && in_layers && !within).then(way).flatten(),
            wood_at_steel: wood_at_steel == Some(plane),
        }
    };
    (0..=last).map(role).collect()
}

/// The pieces that are one body, by their range, from inside to outside.
#[must_use]
pub fn bodies(pieces: &[Piece]) -> Vec<Range<usize>> {
    let mut bodies: Vec<Range<usize>> = Vec::new();
    for n in 0..pieces.len() {
        match bodies.last_mut() {
            Some(body) if pieces[body.end - 1].is_one_body_with(&pieces[n]) => body.end = n + 1,
            _ => bodies.push(n..n + 1),
        }
    }
    bodies
}

/// Rain that gets past a wall's cladding runs out where a gap behind it is open; else it gets as far
/// as outdoor air that leaks. What lies under roofing isn't counted: keeping rain out is its task.
fn meets_rain(path: &Path, kind: AssemblyKind) -> bool {
    let has_gap = path.ends_at_ventilated_air || path.pieces.iter().any(|piece| piece.vented);
    kind == AssemblyKind::Wall && !has_gap
}

/// A floor whose last layer is sheet metal that doesn't drain.
fn lies_over_pan(path: &Path, kind: AssemblyKind) -> bool {
    let is_pan = |last: &Piece| last.kind == Some(Kind::Metal) && !last.drains;
    let is_strip = matches!(path.kind, PathKind::Strip(_));
    kind == AssemblyKind::Floor && !is_strip && path.pieces.last().is_some_and(is_pan)
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::resolve_text;
    use crate::solve::solve;

    // A film that is bonded, wool, a board, and siding that lies on it. Room air gets to the film's warm
    // face, outdoor air inward to its outer face, and rain as far: the rules above, plane by plane.
    #[test]
    fn outdoor_air_and_rain_get_to_the_outer_face_of_the_bonded_layer() {
        let text = "indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, material: gypsum board, thickness: 1/2 in}
      - {name: film, material: polyethylene 6 mil, bonded: true}
      - {name: wool, material: R-13 batt, thickness: 3-1/2 in}
      - {name: board, material: plywood, thickness: 1/2 in}
      - {name: siding, material: cedar siding, thickness: 5/8 in}
";
        let project = resolve_text("wall.yaml", text).expect("a sound file");
        let result = solve(&project.cases[0].assembly, &project.stops[0].conditions);
        let roles = &result.ends[0].paths[0].roles;
        let reached: Vec<bool> = roles.iter().map(|role| role.reached).collect();
        assert_eq!(reached, [true, true, false, false, false, false]);
        // Wood or wool on one side is enough: no metal need touch it.
        let inward: Vec<bool> = roles.iter().map(|role| role.judged_inward).collect();
        assert_eq!(inward, [false, false, true, true, true, false]);
        let rain = Some(WaterWay::Rain);
        let water: Vec<Option<WaterWay>> = roles.iter().map(|role| role.water).collect();
        assert_eq!(water, [None, None, rain, rain, rain, None]);
    }
}
