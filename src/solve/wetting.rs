//! Wetting a plane on purpose: how long 1 kg/m² takes to leave, and to which side.
//!
//! Design: drying starts on 1 April (on 1 October where winter comes in July) with 1 kg/m² at one
//! vulnerable plane, everything else dry, and runs through the climate's months around the year.
//! The layers that touch the wet plane, each with those that go on from it with the same material, have their damp permeance while it is wet; gone means gone
//! from every vulnerable plane of the path.

use std::ops::Range;

use super::path::{Path, PathKind};
use super::piece::Piece;
use super::profile::{Boundary, Slab};
use super::reach::{PlaneRole, bodies};
use super::year::{DryOut, Watched, YearSolver, dry_out_with};

/// Water put at a plane, kg/m².
pub const WETTING: f64 = 1.0;
/// Months in which drying starts, January 0: April, or October where July is colder than January.
const STARTS: [usize; 2] = [3, 9];
/// Longest drying that is followed, days.
pub const MOST_DAYS: f64 = 5.0 * 365.0;

/// How the water put at one plane leaves.
#[derive(Clone, Debug, PartialEq)]
pub struct Drying {
    /// The plane, counted from the room's surface.
    pub plane: usize,
    /// The month at whose start the water is put there, 0 is January.
    pub start: usize,
    /// Where the water went and when.
    pub out: DryOut,
}

/// Dries the vulnerable planes between two bodies of a path that are wanted. Framing is left out:
/// water spreads sideways out of it.
pub(super) fn dry_path(
    solver: &mut YearSolver,
    (path, slabs): (&Path, &[Slab]),
    roles: &[PlaneRole],
    months: &[Boundary; 12],
    is_wanted: impl Fn(usize) -> bool,
) -> Vec<Drying> {
    if path.kind == PathKind::Framing {
        return Vec::new();
    }
    let watched: Vec<bool> = roles.iter().map(|role| role.vulnerable).collect();
    let inside: Vec<bool> = path.pieces.iter().map(Piece::is_vulnerable).collect();
    let bodies = bodies(&path.pieces);
    let touches = |plane: usize| -> Vec<bool> {
        let beside = |body: &&Range<usize>| body.contains(&plane) || body.end == plane;
        let mut damp = vec![false; path.pieces.len()];
        for body in bodies.iter().filter(beside) {
            damp[body.clone()].fill(true);
        }
        damp
    };
    let outdoor = |month: usize| months[month].outdoor.temperature;
    let start = STARTS[usize::from(outdoor(6) < outdoor(0))];
    let last = roles.len() - 1;
    (1..last)
        .filter(|plane| watched[*plane] && !roles[*plane].within && is_wanted(*plane))
        .map(|plane| Drying {
            plane,
            start,
            out: dry_out_with(
                solver,
                slabs,
                months,
                (plane, WETTING),
                start,
                Watched {
                    planes: &watched,
                    inside: &inside,
                    damp: &touches(plane),
                },
                MOST_DAYS,
            ),
        })
        .collect()
}
