//! The three times that leaks and wood at the steel are looked at: the winter mean, the coldest
//! month, the design night.

use super::range::ROUNDING;
use super::{Detail, Finding, On, Status};
use crate::model::Conditions;
use crate::quantity::{Temperature, TemperatureDifference};
use crate::solve::PathResult;

/// When a margin is least favorable.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// The mean of the three coldest months.
    WinterMean,
    /// The coldest month, 0 is January.
    ColdestMonth(usize),
    /// The cold design value.
    DesignNight,
}

impl When {
    /// θ_i − θ_e then.
    #[must_use]
    pub fn span(self, conditions: &Conditions) -> TemperatureDifference {
        let winter = conditions.indoor.temperature - conditions.winter_mean.temperature;
        match self {
            Self::WinterMean => winter,
            Self::ColdestMonth(month) => conditions.year.as_ref().map_or(winter, |year| {
                year[month].indoor.temperature - year[month].outdoor.temperature
            }),
            Self::DesignNight => conditions.design_night.map_or(winter, |night| {
                conditions.indoor.temperature - night.temperature
            }),
        }
    }
}

/// Margins of one place over the dew point of the room air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Times {
    /// On the winter mean.
    pub winter: TemperatureDifference,
    /// In the coldest month, 0 is January; `None` without a climate.
    pub month: Option<(usize, TemperatureDifference)>,
    /// On the design night.
    pub night: Option<TemperatureDifference>,
}

impl Times {
    /// Margins of a plane; `room_dew_point` is that of the winter mean.
    pub(super) fn at_plane(
        path: &PathResult,
        plane: usize,
        conditions: &Conditions,
        room_dew_point: Temperature,
    ) -> Self {
        let month = path.coldest_month.as_ref().zip(conditions.year.as_ref());
        Self {
            winter: path.winter.planes[plane].temperature - room_dew_point,
            month: month.map(|((month, temperatures), year)| {
                (
                    *month,
                    temperatures[plane] - year[*month].indoor.dew_point(),
                )
            }),
            night: path
                .night
                .as_ref()
                .map(|night| night.planes[plane].temperature - room_dew_point),
        }
    }

    /// The times with their margins.
    pub fn all(&self) -> impl Iterator<Item = (When, TemperatureDifference)> {
        let month = self
            .month
            .map(|(month, margin)| (When::ColdestMonth(month), margin));
        let night = self.night.map(|margin| (When::DesignNight, margin));
        std::iter::once((When::WinterMean, self.winter))
            .chain(month)
            .chain(night)
    }

    /// The first time at which the dew point is crossed: the winter mean decides, the coldest month
    /// and the design night are a cold spell.
    #[must_use]
    pub fn crossed(&self) -> Option<When> {
        let crosses = |margin: TemperatureDifference| margin.as_kelvin() <= 0.0;
        self.all()
            .find(|(_, margin)| crosses(*margin))
            .map(|(when, _)| when)
    }

    /// The status these margins give where crossing on the winter mean gives `crossed`.
    pub(super) fn status(&self, crossed: (Status, Option<On>)) -> (Status, Option<On>) {
        match self.crossed() {
            None => (Status::Pass, None),
            Some(When::WinterMean) => crossed,
            Some(_) => (Status::Depends, Some(On::ColdSpell)),
        }
    }
}

impl Finding {
    /// How far its temperatures may be off, K, where that is known.
    #[must_use]
    pub fn bar(&self) -> Option<f64> {
        match &self.detail {
            Detail::Spot(spot) => Some(spot.bar),
            Detail::AirSeal(spots) => {
                let place = self.place.as_ref()?;
                let own = spots.iter().find(|spot| spot.part == place.path);
                own.map(|spot| spot.bar)
            }
            _ => self
                .range
                .as_ref()
                .filter(|range| range.too_close)
                .map(|_| ROUNDING),
        }
    }
}
