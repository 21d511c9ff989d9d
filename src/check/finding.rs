//! What a check says.

use super::air_gap::OpenGap;
use super::detail::{HandCheckDetail, SpotDetail};
use super::insulation_table::InsulationRow;
use super::outboard::OutboardShares;
use super::range::Range;
use super::retarder::WarmSide;
use super::room_air::RoomAirDetail;
use super::unvented_roof::RoofInsulation;
use crate::model::Told;
use crate::quantity::{Temperature, TemperatureDifference};

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

/// The checks, each with a stable id.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Check {
    /// Wood at the steel, where room air reaches it.
    WoodAtSteel,
    /// Whether 1 kg/m² at a vulnerable plane dries within a year.
    Drying,
    /// Leaking room air at the planes it reaches.
    AirLeak,
    /// Outdoor air leaking into a cooled house.
    InwardLeak,
    /// Diffusion through the twelve months.
    Year,
    /// Diffusion on the winter mean, where no climate is given.
    Diffusion,
    /// Condensation on the room's surface.
    SurfaceCondensation,
    /// Mold on the room's surface.
    SurfaceMold,
    /// Wood between two tight layers.
    DoubleBarrier,
    /// A pan that water can't leave.
    Pan,
    /// The prescriptive vapor-retarder table.
    Retarder,
    /// The prescriptive insulation table.
    Insulation,
    /// The table of insulation in unvented roofs.
    UnventedRoof,
    /// The share of the resistance outboard of the sheathing.
    Outboard,
    /// Humidity of the sheathing through the year.
    Sheathing,
    /// The depth of air gaps.
    Gap,
    /// How the room's humidity comes about.
    RoomAir,
    /// Flush joists under foam that lies over the flange.
    Frame,
    /// Wood at the steel of a detail, where room air reaches it.
    DetailWood,
    /// Other wood of a detail that leaking room air reaches.
    DetailLeak,
    /// Condensation on the room's surfaces of a detail.
    DetailCondensation,
    /// Mold on the room's surfaces of a detail.
    DetailMold,
    /// Simple estimates beside a detail's result.
    HandCheck,
}

impl Check {
    /// The stable id used in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::WoodAtSteel => "wood-at-the-steel",
            Self::Drying => "drying",
            Self::AirLeak => "air-leak",
            Self::InwardLeak => "inward-air-leak",
            Self::Year => "diffusion-through-the-year",
            Self::Diffusion => "diffusion-on-the-winter-mean",
            Self::SurfaceCondensation => "room-surface-condensation",
            Self::SurfaceMold => "room-surface-mold",
            Self::DoubleBarrier => "double-barrier",
            Self::Pan => "undrained-pan",
            Self::Retarder => "vapor-retarder-table",
            Self::Insulation => "insulation-table",
            Self::UnventedRoof => "unvented-roof-table",
            Self::Outboard => "outboard-share",
            Self::Sheathing => "sheathing-humidity",
            Self::Gap => "air-gap",
            Self::RoomAir => "room-air",
            Self::Frame => "frame",
            Self::DetailWood => "detail-wood-at-the-steel",
            Self::DetailLeak => "detail-air-leak",
            Self::DetailCondensation => "detail-condensation",
            Self::DetailMold => "detail-mold",
            Self::HandCheck => "hand-check",
        }
    }

    /// What it is called in reports.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::WoodAtSteel => "wood at the steel",
            Self::Drying => "can it dry",
            Self::AirLeak => "air leak",
            Self::InwardLeak => "inward air leak",
            Self::Year => "diffusion through the year",
            Self::Diffusion => "diffusion, winter mean",
            Self::SurfaceCondensation => "room surface, condensation",
            Self::SurfaceMold => "room surface, mold",
            Self::DoubleBarrier => "double barrier",
            Self::Pan => "undrained pan",
            Self::Retarder => "vapor-retarder table",
            Self::Insulation => "insulation table",
            Self::UnventedRoof => "unvented-roof table",
            Self::Outboard => "outboard share",
            Self::Sheathing => "sheathing humidity",
            Self::Gap => "air gap",
            Self::RoomAir => "room air",
            Self::Frame => "frame",
            Self::DetailWood => "wood at the steel, 2-D",
            Self::DetailLeak => "air leak, 2-D",
            Self::DetailCondensation => "room surface, condensation, 2-D",
            Self::DetailMold => "room surface, mold, 2-D",
            Self::HandCheck => "hand-check",
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
    pub check: Check,
    /// How it came out.
    pub status: Status,
    /// Where its value was least favorable.
    pub place: Option<Place>,
    /// Temperature there on the winter mean.
    pub value: Option<Temperature>,
    /// The temperature it is held against.
    pub limit: Option<Temperature>,
    /// Value minus limit on the winter mean.
    pub margin: Option<TemperatureDifference>,
    /// The same on the design night.
    pub night_margin: Option<TemperatureDifference>,
    /// Water condensing there, kg/(m²·s), for diffusion.
    pub condensing_flow: Option<f64>,
    /// What this check has to say beyond temperatures.
    pub detail: Detail,
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
    /// A finding with nothing but its status; the check fills in the rest.
    pub(super) fn new(check: Check, status: Status, source: &'static str) -> Self {
        Self {
            check,
            status,
            place: None,
            value: None,
            limit: None,
            margin: None,
            night_margin: None,
            condensing_flow: None,
            detail: Detail::None,
            slack: None,
            range: None,
            source,
            help: None,
        }
    }
}
