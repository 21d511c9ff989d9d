//! Where leaking room air gets to in a detail.
//!
//! Joints, laps and penetrations leak: air that reaches one side of a part gets all around it, and
//! on to every part beside it. It stops at bonded parts, whose faces it reaches, and at seals. That
//! is the rule of the plane assemblies in two dimensions: there every plane up to the warm face of
//! the first bonded layer, here every edge of parts that aren't bonded.

use crate::model::detail::{Detail, Facing, Place};
use crate::model::drawn::{AirSource, DetailCase, Seal};

/// Parts and edges that leaking room air reaches.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AirReach {
    /// By block: whether air gets to it.
    pub blocks: Vec<bool>,
    /// By block: whether air gets all around it and past it.
    pub passes: Vec<bool>,
}

impl AirReach {
    /// Follows the air from the room's surfaces inward.
    #[must_use]
    pub fn of(case: &DetailCase, detail: &Detail) -> Self {
        let count = case.blocks.len();
        let neighbors = neighbors(case, detail);
        let mut reach = Self {
            blocks: vec![false; count],
            passes: vec![false; count],
        };
        let mut next: Vec<usize> = neighbors.at_room;
        while let Some(block) = next.pop() {
            if std::mem::replace(&mut reach.blocks[block], true) {
                continue;
            }
            if case.blocks[block].facts.bonded {
                continue;
            }
            reach.passes[block] = true;
            next.extend(neighbors.of_block[block].iter().copied());
        }
        reach
    }
}

/// Which parts touch which, seals left out.
struct Neighbors {
    at_room: Vec<usize>,
    of_block: Vec<Vec<usize>>,
}

fn neighbors(case: &DetailCase, detail: &Detail) -> Neighbors {
    let mut found = Neighbors {
        at_room: Vec::new(),
        of_block: vec![Vec::new(); case.blocks.len()],
    };
    let (columns, rows) = (detail.columns().len() - 1, detail.rows().len() - 1);
    let is_room = |region: u32| {
        let air = case.regions.get(region as usize).map(|region| region.air);
        let source = air.and_then(|air| case.airs.get(air)).map(|air| air.source);
        source == Some(AirSource::Room)
    };
    let mut join = |one: Place, other: Place| match (one, other) {
        (Place::Block(a), Place::Block(b)) if a != b => {
            found.of_block[a as usize].push(b as usize);
            found.of_block[b as usize].push(a as usize);
        }
        (Place::Block(block), Place::Air(air)) | (Place::Air(air), Place::Block(block))
            if is_room(air) =>
        {
            found.at_room.push(block as usize);
        }
        _ => {}
    };
    for row in 0..rows {
        for column in 0..columns {
            let here = detail.place(column, row);
            if column + 1 < columns && !is_sealed(&case.seals, detail, column, row, Facing::Right) {
                join(here, detail.place(column + 1, row));
            }
            if row + 1 < rows && !is_sealed(&case.seals, detail, column, row, Facing::Up) {
                join(here, detail.place(column, row + 1));
            }
        }
    }
    for list in &mut found.of_block {
        list.sort_unstable();
        list.dedup();
    }
    found
}

/// Whether a seal lies along the right or the upper side of a place.
fn is_sealed(seals: &[Seal], detail: &Detail, column: usize, row: usize, side: Facing) -> bool {
    const NEAR: f64 = 1e-7;
    let (x, y) = (detail.columns(), detail.rows());
    let (from, to) = match side {
        Facing::Right => ((x[column + 1], y[row]), (x[column + 1], y[row + 1])),
        _ => ((x[column], y[row + 1]), (x[column + 1], y[row + 1])),
    };
    seals.iter().any(|seal| {
        let line = &seal.line;
        let within = |(px, py): (f64, f64)| {
            (line.left - NEAR..=line.right + NEAR).contains(&px)
                && (line.bottom - NEAR..=line.top + NEAR).contains(&py)
        };
        within(from) && within(to)
    })
}
