//! A plane through a volume: the temperatures of one layer of cells.

use super::solution::Solution;
use crate::model::detail::Place;
use crate::model::volume::Facing;
use crate::solve::conduction::{CellField, Field, intervals_at};

impl Solution {
    /// The temperatures of the layer of cells that a position along an axis lies in, over the two other
    /// axes in their order; `None` beyond the volume. Between two layers it is the further one.
    ///
    /// # Example
    /// A wall of 0.1 m between two held faces: halfway it is as warm as both together.
    /// ```
    /// use dewmargin::model::detail::FaceContact;
    /// use dewmargin::model::volume::{Block, Extent, Face, Volume, VolumeParts};
    /// use dewmargin::solve::volume::Solution;
    ///
    /// let face = |x: f64, celsius| Face {
    ///     name: format!("{celsius}"),
    ///     extent: Extent::new([x, 0.0, 0.0], [x, 1.0, 1.0]),
    ///     contact: FaceContact::Held(celsius),
    /// };
    /// let wall = Volume::new(VolumeParts {
    ///     size: [0.1, 1.0, 1.0],
    ///     blocks: vec![Block {
    ///         name: "wall".into(),
    ///         extent: Extent::new([0.0; 3], [0.1, 1.0, 1.0]),
    ///         conductivity: 1.0,
    ///         covers: false,
    ///     }],
    ///     faces: vec![face(0.0, 0.0), face(0.1, 20.0)],
    ///     ..VolumeParts::default()
    /// })
    /// .expect("a sound volume");
    /// let solution = Solution::of_few_cells(&wall, 1_000).expect("few cells");
    /// let plan = solution.layer(2, 0.5).expect("inside");
    /// assert!((plan.at(0.05, 0.5).expect("solid") - 10.0).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn layer(&self, axis: usize, position: f64) -> Option<Field> {
        let grid = self.grid();
        let layer = intervals_at(&grid.axes.get(axis)?.lines, position)?.next_back()?;
        let [across, upward] = match axis {
            0 => [1, 2],
            1 => [0, 2],
            _ => [0, 1],
        };
        let blocks = &self.volume().parts().blocks;
        let field = Field::on([&grid.axes[across], &grid.axes[upward]], |column, row| {
            let mut cell = [layer; 3];
            (cell[across], cell[upward]) = (column, row);
            let Place::Block(block) = self.volume().place(grid.place(cell)) else {
                return None;
            };
            let sides =
                |axis| [false, true].map(|onward| self.side(cell, Facing::along(axis, onward)));
            Some(CellField {
                center: self.cell(cell)?,
                across: sides(across),
                upward: sides(upward),
                conductivity: blocks[block as usize].conductivity,
            })
        });
        Some(field)
    }
}
