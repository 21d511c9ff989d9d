//! Places in a detail, in the cut and at its corner.

use crate::quantity::{RelativeHumidity, Temperature};
use crate::solve::conduction::Coldest;
use crate::solve::detail::{Between, BoxSpot, CornerSpot};

/// A place in a detail with what was found there.
#[derive(Clone, Debug, PartialEq)]
pub struct SpotDetail {
    /// Where.
    pub at: SpotAt,
    /// Error bar of the temperature, K.
    pub bar: f64,
    /// Temperature factor there.
    pub factor: Option<f64>,
    /// The room humidity at which it starts there: 100 % at the surface, or 80 % for mold.
    pub starts_at: Option<RelativeHumidity>,
    /// The month that decides, 0 is January; `None` for the winter mean.
    pub month: Option<usize>,
    /// What lies against the wood there; empty for surfaces.
    pub against: String,
}

/// Where in a detail something was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SpotAt {
    /// In the cut: x and y, m from its lower left corner.
    Cut(f64, f64),
    /// At the corner that two such edges make: the distances from both outer faces, and height, m.
    Corner([f64; 3]),
    /// In a detail drawn in three dimensions: x, y and z, m.
    Boxes([f64; 3]),
}

impl SpotDetail {
    /// The place in the cut, m; `None` for one in three dimensions.
    #[must_use]
    pub fn in_cut(&self) -> Option<(f64, f64)> {
        match self.at {
            SpotAt::Cut(x, y) => Some((x, y)),
            SpotAt::Corner(_) | SpotAt::Boxes(_) => None,
        }
    }

    /// The place at the corner, m; `None` for one elsewhere.
    #[must_use]
    pub fn at_corner(&self) -> Option<[f64; 3]> {
        match self.at {
            SpotAt::Corner(at) => Some(at),
            SpotAt::Cut(..) | SpotAt::Boxes(_) => None,
        }
    }

    /// Whether it lies in a detail drawn in three dimensions.
    #[must_use]
    pub fn is_in_boxes(&self) -> bool {
        matches!(self.at, SpotAt::Boxes(_))
    }

    /// Whether it lies at the corner, which takes three dimensions.
    #[must_use]
    pub fn is_at_corner(&self) -> bool {
        self.at_corner().is_some()
    }
}

/// A temperature found somewhere in the detail.
#[derive(Clone, Copy)]
pub(super) struct Found {
    pub(super) celsius: f64,
    /// K.
    pub(super) bar: f64,
    pub(super) at: SpotAt,
}

impl From<&Coldest> for Found {
    fn from(coldest: &Coldest) -> Self {
        Self {
            celsius: coldest.point.temperature,
            bar: coldest.bar,
            at: SpotAt::Cut(coldest.point.x, coldest.point.y),
        }
    }
}

impl From<&CornerSpot> for Found {
    fn from(spot: &CornerSpot) -> Self {
        Self {
            celsius: spot.temperature,
            bar: spot.bar,
            at: SpotAt::Corner(spot.at),
        }
    }
}

impl From<&BoxSpot> for Found {
    fn from(spot: &BoxSpot) -> Self {
        Self {
            celsius: spot.temperature.value,
            bar: spot.temperature.bar,
            at: SpotAt::Boxes(spot.at),
        }
    }
}

impl Found {
    pub(super) fn temperature(self) -> Temperature {
        Temperature::from_celsius(self.celsius)
    }

    /// At a corner, or in a detail drawn in three dimensions.
    pub(super) fn is_in_three_dimensions(self) -> bool {
        matches!(self.at, SpotAt::Corner(_) | SpotAt::Boxes(_))
    }

    /// What is told of it.
    pub(super) fn spot(
        self,
        air: &Between,
        starts: Option<RelativeHumidity>,
        against: &str,
    ) -> SpotDetail {
        SpotDetail {
            at: self.at,
            bar: self.bar,
            factor: air.factor(self.celsius),
            starts_at: starts,
            month: None,
            against: against.to_owned(),
        }
    }
}
