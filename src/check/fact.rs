//! What a check has to say beyond the temperatures and margins of its finding: one variant each. Structs of
//! one check alone lie in that check's file.

use super::air_gap::OpenGap;
use super::detail::{HandCheckDetail, SpotDetail};
use super::insulation_table::InsulationRow;
use super::outboard::OutboardShares;
use super::retarder::WarmSide;
use super::room_air::RoomAirDetail;
use super::unvented_roof::RoofInsulation;
use crate::model::Told;
use crate::quantity::{MoldClass, Temperature, TemperatureDifference};
use crate::solve::WaterWay;

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
