//! The cut divided by every edge that occurs in it: what lies at each place.

use super::problem::DetailProblem;
use super::{Area, DetailParts, LEAST_SIZE, MOST_PLACES};

/// The way a face looks, from the solid outward.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Facing {
    /// Toward smaller x.
    Left,
    /// Toward greater x.
    Right,
    /// Toward smaller y.
    Down,
    /// Toward greater y.
    Up,
}

impl Facing {
    /// All four.
    pub const ALL: [Self; 4] = [Self::Left, Self::Right, Self::Down, Self::Up];
}

/// What lies at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Nothing: never in a [`super::Detail`].
    Nothing,
    /// Air, by the number of its region.
    Air(u32),
    /// Solid, by the number of its block.
    Block(u32),
}

/// Places by column and row.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Raster {
    pub(super) x: Vec<f64>,
    pub(super) y: Vec<f64>,
    places: Vec<Place>,
}

impl Raster {
    /// Edges and places of sound parts.
    pub(super) fn of(parts: &DetailParts) -> Result<Self, DetailProblem> {
        let areas = || {
            let blocks = parts.blocks.iter().map(|block| &block.area);
            let regions = parts.regions.iter().map(|region| &region.area);
            blocks
                .chain(regions)
                .chain(parts.faces.iter().map(|face| &face.line))
        };
        let x = edges(
            parts.width,
            areas().flat_map(|area| [area.left, area.right]),
        );
        let y = edges(
            parts.height,
            areas().flat_map(|area| [area.bottom, area.top]),
        );
        let (columns, rows) = (x.len() - 1, y.len() - 1);
        if columns * rows > MOST_PLACES {
            return Err(DetailProblem::TooManyEdges { columns, rows });
        }
        let blocks = parts.blocks.iter().enumerate().rev();
        let blocks = blocks.map(|(n, block)| (Place::Block(n as u32), block.area));
        let regions = parts.regions.iter().enumerate().rev();
        let regions = regions.map(|(n, region)| (Place::Air(n as u32), region.area));
        let mut raster = Self {
            x,
            y,
            places: Vec::new(),
        };
        raster.places = raster.painted(blocks.chain(regions));
        Ok(raster)
    }

    /// What is seen of rectangles, the topmost given first: every place is painted once, however
    /// many lie there.
    pub(super) fn painted(&self, topmost_first: impl Iterator<Item = (Place, Area)>) -> Vec<Place> {
        let columns = self.column_count();
        let mut places = vec![Place::Nothing; columns * self.row_count()];
        // The next place of the row, from here on, that nothing lies at yet.
        let mut next: Vec<u32> = (0..self.row_count())
            .flat_map(|_| 0..=columns as u32)
            .collect();
        for (place, area) in topmost_first {
            let (left, right) = (index_of(&self.x, area.left), index_of(&self.x, area.right));
            for row in index_of(&self.y, area.bottom)..index_of(&self.y, area.top) {
                let next = &mut next[row * (columns + 1)..][..=columns];
                let mut column = free(next, left);
                while column < right {
                    places[row * columns + column] = place;
                    next[column] = column as u32 + 1;
                    column = free(next, column);
                }
            }
        }
        places
    }

    pub(super) fn column_count(&self) -> usize {
        self.x.len() - 1
    }

    pub(super) fn row_count(&self) -> usize {
        self.y.len() - 1
    }

    pub(super) fn index(&self, column: usize, row: usize) -> usize {
        row * self.column_count() + column
    }

    pub(super) fn place(&self, column: usize, row: usize) -> Place {
        self.places[self.index(column, row)]
    }

    /// All places, row by row from the lowest.
    pub(super) fn places(&self) -> &[Place] {
        &self.places
    }

    /// The bounds of a place.
    pub(super) fn area(&self, column: usize, row: usize) -> Area {
        let (x, y) = (&self.x, &self.y);
        Area::new(x[column], x[column + 1], y[row], y[row + 1])
    }

    /// What lies beyond a side of a place; `None` beyond the cut.
    pub(super) fn beside(&self, column: usize, row: usize, facing: Facing) -> Option<Place> {
        let (column, row) = match facing {
            Facing::Left => (column.checked_sub(1)?, row),
            Facing::Right => (column + 1, row),
            Facing::Down => (column, row.checked_sub(1)?),
            Facing::Up => (column, row + 1),
        };
        (column < self.column_count() && row < self.row_count()).then(|| self.place(column, row))
    }

    /// The place and side that each piece of a line lies on: `None` where it doesn't lie on the
    /// surface of a solid.
    pub(super) fn sides(&self, line: &Area) -> Vec<Option<(usize, Facing)>> {
        let (left, right) = (index_of(&self.x, line.left), index_of(&self.x, line.right));
        let (bottom, top) = (index_of(&self.y, line.bottom), index_of(&self.y, line.top));
        if left == right {
            let piece = |row| {
                let before = left.checked_sub(1).map(|column| (column, row));
                self.solid_side((before, Facing::Right), ((left, row), Facing::Left))
            };
            (bottom..top).map(piece).collect()
        } else {
            let piece = |column| {
                let below = bottom.checked_sub(1).map(|row| (column, row));
                self.solid_side((below, Facing::Up), ((column, bottom), Facing::Down))
            };
            (left..right).map(piece).collect()
        }
    }

    /// Of the places on both sides of a line, the one that is solid, if only one is.
    fn solid_side(
        &self,
        before: (Option<(usize, usize)>, Facing),
        after: ((usize, usize), Facing),
    ) -> Option<(usize, Facing)> {
        let solid = |(column, row): (usize, usize)| {
            let inside = column < self.column_count() && row < self.row_count();
            let solid = inside && matches!(self.place(column, row), Place::Block(_));
            solid.then(|| self.index(column, row))
        };
        match (before.0.and_then(solid), solid(after.0)) {
            (Some(place), None) => Some((place, before.1)),
            (None, Some(place)) => Some((place, after.1)),
            _ => None,
        }
    }
}

/// Follows the chain of taken places to a free one, and shortens the chain.
fn free(next: &mut [u32], from: usize) -> usize {
    let mut end = from;
    while next[end] as usize != end {
        end = next[end] as usize;
    }
    let mut at = from;
    while next[at] as usize != end && at != end {
        let following = next[at] as usize;
        next[at] = end as u32;
        at = following;
    }
    end
}

/// Sorted edges from 0 to the cut's size; those nearer than a nanometer are one.
pub(in crate::model) fn edges(size: f64, values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut all: Vec<f64> = values.collect();
    all.sort_by(f64::total_cmp);
    let mut edges = vec![0.0];
    for value in all {
        let last = edges.last().copied().unwrap_or(0.0);
        if value - last > LEAST_SIZE && size - value > LEAST_SIZE {
            edges.push(value);
        }
    }
    edges.push(size);
    edges
}

/// The edge nearest to a value.
pub(in crate::model) fn index_of(edges: &[f64], value: f64) -> usize {
    let after = edges.partition_point(|edge| *edge < value);
    if after == 0 {
        return 0;
    }
    if after == edges.len() || value - edges[after - 1] < edges[after] - value {
        return after - 1;
    }
    after
}
