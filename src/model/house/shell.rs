//! The shell's geometry: wall heights under the roof, areas of walls and roof.

use super::{RoofForm, Shell, Side};
use crate::quantity::Length;

/// How far inside of the deck's edge a face of each wall lies, m, in the order of [`Side::ALL`].
pub type Insets = [f64; 4];

/// At the deck's edge.
pub const NO_INSETS: Insets = [0.0; 4];

impl Side {
    /// The side across from it.
    #[must_use]
    pub fn opposite(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Front => Self::Back,
            Self::Back => Self::Front,
        }
    }
}

impl Shell {
    /// Length of a side's wall at the deck's edge, m.
    #[must_use]
    pub fn side_length(&self, side: Side) -> f64 {
        match side.is_long() {
            true => self.length.as_m(),
            false => self.width.as_m(),
        }
    }

    /// Length of a side's wall between the faces of its neighbors, m.
    #[must_use]
    pub fn length_within(&self, side: Side, insets: &Insets) -> f64 {
        let (one, other) = match side.is_long() {
            true => (Side::Front, Side::Back),
            false => (Side::Left, Side::Right),
        };
        self.side_length(side) - insets[one.index()] - insets[other.index()]
    }

    /// The sides where the roof's slope starts and ends: the low and the high side of a shed, both
    /// eaves of a gable.
    #[must_use]
    pub fn slope_from(&self) -> (Side, Side) {
        match self.roof.form {
            RoofForm::Flat => (Side::Left, Side::Right),
            RoofForm::Shed { low, .. } => (low, low.opposite()),
            RoofForm::Gable {
                lengthwise: true, ..
            } => (Side::Left, Side::Right),
            RoofForm::Gable {
                lengthwise: false, ..
            } => (Side::Front, Side::Back),
        }
    }

    /// The deck from one of those sides to the other, m.
    #[must_use]
    pub fn span(&self) -> f64 {
        // A wall on the side of a long one runs the deck's width.
        match self.slope_from().0.is_long() {
            true => self.width.as_m(),
            false => self.length.as_m(),
        }
    }

    /// How far the roof rises over its run, m.
    #[must_use]
    pub fn rise(&self) -> f64 {
        self.roof.form.pitch().as_ratio() * self.run()
    }

    /// The level length of one slope over the deck, m.
    #[must_use]
    pub fn run(&self) -> f64 {
        match self.roof.form {
            RoofForm::Gable { .. } => self.span() / 2.0,
            RoofForm::Flat | RoofForm::Shed { .. } => self.span(),
        }
    }

    /// Framed height of the walls below the roof, m, at a place that far from where the slope
    /// starts.
    #[must_use]
    pub fn framed_height_at(&self, place: f64) -> f64 {
        let along = match self.roof.form {
            RoofForm::Flat => 0.0,
            RoofForm::Shed { .. } => place,
            RoofForm::Gable { .. } => place.min(self.span() - place),
        };
        self.wall_height.as_m() + self.roof.form.pitch().as_ratio() * along
    }

    /// The greatest framed height of a side's wall, m.
    #[must_use]
    pub fn greatest_height(&self, side: Side) -> f64 {
        let (start, end) = self.slope_from();
        match side {
            side if side == start => self.framed_height_at(0.0),
            side if side == end => self.framed_height_at(self.span()),
            _ => self.wall_height.as_m() + self.rise(),
        }
    }

    /// Area of a side's wall from the subfloor to the rafters between the faces of its neighbors,
    /// openings included, m².
    ///
    /// ```
    /// use dewmargin::model::house::{NO_INSETS, Roof, RoofForm, Shell, Side, Wall};
    /// use dewmargin::quantity::{Length, Pitch};
    ///
    /// let wall = Wall { assembly: "wall".into(), trim: None };
    /// let shell = Shell {
    ///     length: Length::from_m(6.0),
    ///     width: Length::from_m(2.0),
    ///     floor: "floor".into(),
    ///     above_frame: None,
    ///     walls: std::array::from_fn(|_| wall.clone()),
    ///     wall_height: Length::from_m(2.0),
    ///     at_deck_edge: None,
    ///     roof: Roof {
    ///         assembly: "roof".into(),
    ///         form: RoofForm::Shed { low: Side::Left, pitch: Pitch::from_ratio(0.25) },
    ///         on_walls: None,
    ///         overhangs: [None; 4],
    ///         stands_above: None,
    ///     },
    /// };
    /// assert_eq!(shell.wall_area(Side::Left, &NO_INSETS), 12.0);
    /// assert_eq!(shell.wall_area(Side::Right, &NO_INSETS), 15.0);
    /// assert_eq!(shell.wall_area(Side::Front, &NO_INSETS), 4.5); // (2 + 2.5)/2 × 2
    /// ```
    #[must_use]
    pub fn wall_area(&self, side: Side, insets: &Insets) -> f64 {
        let (start, end) = self.slope_from();
        let (from, to) = (insets[start.index()], self.span() - insets[end.index()]);
        match side {
            side if side == start => self.framed_height_at(from) * self.length_within(side, insets),
            side if side == end => self.framed_height_at(to) * self.length_within(side, insets),
            _ => self.area_below_roof(from, to),
        }
    }

    /// Area under the rafters between two places along the slope, m².
    #[must_use]
    pub fn area_below_roof(&self, from: f64, to: f64) -> f64 {
        let trapezoid =
            |a: f64, b: f64| (b - a) * (self.framed_height_at(a) + self.framed_height_at(b)) / 2.0;
        let middle = self.span() / 2.0;
        match self.roof.form {
            RoofForm::Gable { .. } if from < middle && middle < to => {
                trapezoid(from, middle) + trapezoid(middle, to)
            }
            _ => trapezoid(from, to),
        }
    }

    /// The overhang of a side, m; none where it isn't stated.
    #[must_use]
    pub fn overhang(&self, side: Side) -> f64 {
        self.roof.overhangs[side.index()].map_or(0.0, Length::as_m)
    }
}
