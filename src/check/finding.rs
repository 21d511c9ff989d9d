//! What a check says.

use super::air_gap::OpenGap;
use super::insulation_table::InsulationRow;
use super::outboard::OutboardShares;
use super::retarder::WarmSide;
use super::unvented_roof::RoofInsulation;
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
            source,
            help: None,
        }
    }
}
