//! What a check says.

use std::cmp::Reverse;

use super::air_gap::OpenGap;
use super::detail::{HandCheckDetail, SpotDetail};
use super::insulation_table::InsulationRow;
use super::kind::Check;
use super::on::On;
use super::outboard::OutboardShares;
use super::range::Range;
use super::retarder::WarmSide;
use super::room_air::RoomAirDetail;
use super::times::{Times, When};
use super::unvented_roof::RoofInsulation;
use crate::model::Told;
use crate::quantity::{MoldClass, Temperature, TemperatureDifference};
use crate::solve::WaterWay;

/// How a finding, or a whole assembly, comes out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Clear of its limit.
    Pass,
    /// Hangs on airtightness, or only the design night crosses the limit.
    Depends,
    /// Over the limit.
    Fail,
    /// Nothing to judge, something to know.
    Note,
    /// Can't be judged with what is given; counts as depends.
    Unknown,
}

impl Status {
    /// Every status, for reading them back.
    pub const ALL: [Self; 5] = [
        Self::Pass,
        Self::Depends,
        Self::Fail,
        Self::Note,
        Self::Unknown,
    ];

    /// The word printed everywhere.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Depends => "depends",
            Self::Fail => "fail",
            Self::Note => "note",
            Self::Unknown => "unknown",
        }
    }

    /// 0 pass or note, 1 depends or unknown, 2 fail.
    #[must_use]
    pub fn severity(self) -> u8 {
        match self {
            Self::Pass | Self::Note => 0,
            Self::Depends | Self::Unknown => 1,
            Self::Fail => 2,
        }
    }
}

/// Where a finding lies.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The path's name.
    pub path: String,
    /// The plane's name.
    pub plane: String,
}

/// What a check has to say beyond temperatures; the report makes sentences of it.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Detail {
    /// Nothing.
    None,
    /// Water that leaking air carries / water that diffuses; `None` where nothing diffuses.
    LeakRatio(Option<f64>),
    /// A month, 0 is January, that decides.
    Month(usize),
    /// Mold by the month.
    Mold(MoldDetail),
    /// Mold inside, year after year.
    MoldIndex(MoldIndexDetail),
    /// What a strip alone shows where a detail shows the same strip.
    StripAlone(StripAloneDetail),
    /// Parts of a detail under the dew point that stay at the steel.
    AirSeal(Vec<SealedSpot>),
    /// What isn't looked at, by layer, and why.
    Unseen(UnseenDetail),
    /// Water through the year.
    Year(YearDetail),
    /// Nothing condenses: the most humid vulnerable plane, a fraction, and its month.
    Closest {
        /// Relative humidity there as a fraction.
        humidity: f64,
        /// The month, 0 is January.
        month: usize,
    },
    /// How 1 kg/m² dries.
    Drying(DryingDetail),
    /// The two tight layers around wood, room's side first.
    DoubleBarrier(String, String),
    /// Kg/m² a year that collects at a pan by diffusion.
    Pan(f64),
    /// The warm side of a wall against the vapor-retarder table.
    Retarder(WarmSide),
    /// A wall's insulation against the table.
    Insulation(InsulationRow),
    /// An unvented roof's insulation against the table.
    UnventedRoof(RoofInsulation),
    /// Shares of the resistance outside the sheathing's inner face.
    Outboard(OutboardShares),
    /// A gap open to outdoor air.
    Gap(OpenGap),
    /// A place in a two-dimensional detail.
    Spot(Box<SpotDetail>),
    /// A simple estimate beside a detail's result.
    HandCheck(HandCheckDetail),
    /// How the room's humidity comes about.
    RoomAir(Box<RoomAirDetail>),
    /// Sheathing humidity.
    Sheathing(SheathingDetail),
    /// A remark on frame and bays.
    Frame(Told),
}

/// A strip's own wood against the detail that shows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StripAloneDetail {
    /// Temperature of the wood by the strip alone, winter mean.
    pub wood: Temperature,
    /// That less the detail's: positive is too warm, the unsafe side.
    pub too_warm: TemperatureDifference,
}

/// A part at the steel that needs an air seal.
#[derive(Clone, Debug, PartialEq)]
pub struct SealedSpot {
    /// The part.
    pub part: String,
    /// Temperature where room air gets to it, winter mean.
    pub value: Temperature,
    /// That less the dew point of the room air.
    pub margin: TemperatureDifference,
    /// Error bar of both, K.
    pub bar: f64,
}

/// What isn't looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum UnseenDetail {
    /// Wood outside a gap of a roof that is open to outdoor air.
    BeyondGap {
        /// The gap.
        gap: String,
        /// The layer of wood.
        layer: String,
    },
    /// Joints of a layer that room air gets into without meeting a plane that is judged.
    Joints {
        /// The layer.
        layer: String,
    },
}

/// How far mold grows at a plane.
#[derive(Clone, Debug, PartialEq)]
pub struct MoldIndexDetail {
    /// How readily it grows on the more sensitive face.
    pub class: MoldClass,
    /// The highest index of the first year, from a clean surface on.
    pub first: f64,
    /// The highest index of the last year followed.
    pub last: f64,
    /// Years followed.
    pub years: usize,
    /// Whether it grows in a month, January first.
    pub grows: [bool; 12],
    /// Whether some month is below 0 °C there, when it neither grows nor goes back.
    pub frost: bool,
    /// The most humid month, as a fraction and by its number.
    pub dampest: (f64, usize),
}

/// Mold on the room's surface by the month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MoldDetail {
    /// The critical month, 0 is January.
    pub month: usize,
    /// Temperature factor needed in it.
    pub required: f64,
    /// Temperature factor of the surface.
    pub factor: f64,
}

/// Water at one place through the steady yearly cycle.
#[derive(Clone, Debug, PartialEq)]
pub struct YearDetail {
    /// Months in which water is held or gathered, 0 is January, first to last.
    pub wet: Option<(usize, usize)>,
    /// The month in which it is dry again.
    pub dry_by: Option<usize>,
    /// Greatest amount held, kg/m².
    pub peak: f64,
    /// The month at whose end that is.
    pub peak_month: Option<usize>,
    /// All that condenses within a year, kg/m².
    pub yearly: f64,
    /// Left from year to year, kg/m².
    pub left_over: f64,
    /// Whether it never dries out.
    pub never_dry: bool,
    /// The limit it is held against, kg/m², and why; `None` where it isn't judged.
    pub limit: Option<(f64, &'static str)>,
    /// Whether it is frost in some month.
    pub frost: bool,
    /// Whether the reckoning settled.
    pub settled: bool,
}

/// How 1 kg/m² at one plane dries from 1 April on.
#[derive(Clone, Debug, PartialEq)]
pub struct DryingDetail {
    /// The month at whose start the water is put there, 0 is January.
    pub start: usize,
    /// Days until it is gone from every vulnerable plane; `None` if not within the time followed.
    pub days: Option<f64>,
    /// The month in which it is gone, 0 is January.
    pub month: Option<usize>,
    /// Share of what left that went to the room.
    pub share_to_room: Option<f64>,
    /// What is left at the end of the time followed, kg/m².
    pub left: f64,
    /// Where water moved to, with its kg/m² at the end.
    pub moved: Vec<(String, f64)>,
    /// Whether the plane drains.
    pub drains: bool,
    /// How water gets there; `None` where by no named way.
    pub way: Option<WaterWay>,
}

/// Sheathing humidity by the month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheathingDetail {
    /// Months under 80 %, from 80 to 95 %, over 95 %.
    pub months: [u8; 3],
    /// The highest monthly mean, as a fraction.
    pub highest: f64,
    /// When that is, 0 is January.
    pub month: usize,
}

/// One check's result.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Which check.
    pub check: &'static Check,
    /// How it came out.
    pub status: Status,
    /// What it hangs on where it is `depends` or `unknown`.
    pub on: Option<On>,
    /// The strip it is about; `None` for cavity and framing, and in details.
    pub strip: Option<String>,
    /// Where its value was least favorable.
    pub place: Option<Place>,
    /// Temperature there on the winter mean.
    pub value: Option<Temperature>,
    /// The temperature it is held against.
    pub limit: Option<Temperature>,
    /// Value minus limit on the winter mean.
    pub margin: Option<TemperatureDifference>,
    /// The same in the coldest month, 0 is January, where that is looked at.
    pub month_margin: Option<(usize, TemperatureDifference)>,
    /// The same on the design night.
    pub night_margin: Option<TemperatureDifference>,
    /// Water condensing there, kg/(m²·s), for diffusion.
    pub condensing_flow: Option<f64>,
    /// What this check has to say beyond temperatures.
    pub detail: Detail,
    /// θ_i − θ_e at the time that decides, by which margins of different sites are compared; the
    /// verdict fills it in.
    pub span: Option<TemperatureDifference>,
    /// Which site of the project it is of, counted from 0; the study fills it in.
    pub site: usize,
    /// Distance from the limit in the check's own unit, positive where it is kept; `None` where
    /// there is nothing to measure.
    pub slack: Option<f64>,
    /// At the corners of the materials' ranges, where the check hangs on them.
    pub range: Option<Box<Range>>,
    /// Where the limit comes from.
    pub source: &'static str,
    /// What would help, where that is certain.
    pub help: Option<String>,
}

impl Finding {
    /// A finding with nothing but its status; the check fills in the rest. What a `depends` or an
    /// `unknown` hangs on is what isn't looked at, unless the check says better.
    pub(super) fn new(check: &'static Check, status: Status, source: &'static str) -> Self {
        Self {
            check,
            status,
            on: (status.severity() == 1).then_some(On::NotLookedAt),
            strip: None,
            place: None,
            value: None,
            limit: None,
            margin: None,
            month_margin: None,
            night_margin: None,
            condensing_flow: None,
            detail: Detail::None,
            span: None,
            site: 0,
            slack: None,
            range: None,
            source,
            help: None,
        }
    }

    /// The margins at the three times, where it has any.
    #[must_use]
    pub fn times(&self) -> Option<Times> {
        Some(Times {
            winter: self.margin?,
            month: self.month_margin,
            night: self.night_margin,
        })
    }

    /// When the status came about: the first time at which the limit is crossed, else the winter
    /// mean.
    #[must_use]
    pub fn when(&self) -> When {
        let crossed = self.times().and_then(|times| times.crossed());
        match (crossed, self.status.severity()) {
            (Some(when), 1..) => when,
            _ => When::WinterMean,
        }
    }

    /// Whether it is the same check of the same thing, at whatever site.
    #[must_use]
    pub fn is_alike(&self, other: &Self) -> bool {
        let path = |one: &Self| one.place.as_ref().map(|place| place.path.clone());
        self.check == other.check
            && self.strip == other.strip
            && (!self.check.by_place
                || path(self) == path(other)
                    && (path(self).is_some() || self.detail == other.detail))
    }

    /// Whether it came out worse, or further over its limit, than the same check elsewhere.
    #[must_use]
    pub fn is_worse_than(&self, other: &Self) -> bool {
        let severity = |one: &Self| one.status.severity();
        (severity(self), self.excess()) > (severity(other), other.excess())
    }

    /// Whether it leads before another: worse, earlier among the checks, further over its limit.
    pub(crate) fn comes_before(&self, other: &Self) -> bool {
        let by_rank = self.rank().cmp(&other.rank());
        by_rank
            .then(other.excess().total_cmp(&self.excess()))
            .is_lt()
    }

    /// Worst first, then the checks in order; what isn't looked at comes last of its word.
    pub(super) fn rank(&self) -> (Reverse<u8>, bool, usize) {
        let last = self.on == Some(On::NotLookedAt) && self.check == &super::unseen::CHECK;
        let severity = match self.status {
            Status::Note => 0,
            status => status.severity(),
        };
        (Reverse(severity), last, self.check.order())
    }

    /// How far over its limit, comparable within one check: temperatures as K over θ_i − θ_e, the
    /// others as their check measures them; negative where it is kept.
    #[must_use]
    pub fn excess(&self) -> f64 {
        let by_temperature = self.times().map(|times| {
            let when = self.when();
            let margin = times.all().find(|(at, _)| *at == when);
            let margin = margin.map_or(times.winter, |(_, margin)| margin);
            let span = self.span.map_or(1.0, |span| span.as_kelvin().abs());
            -margin.as_kelvin() / span.max(1e-3)
        });
        by_temperature.unwrap_or_else(|| self.slack.map_or(f64::NEG_INFINITY, |slack| -slack))
    }
}
