//! The columns: what they are, which way is better, and their values.

use crate::check::{Better, Bracket, Status};
use crate::solve::house::PartSum;

/// What a column is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ColumnKind {
    /// The worst verdict, materials' ranges included: 0 pass, 1 depends, 2 fail.
    Verdict,
    /// The verdict on the stated limits of road and trailer, by the same numbers.
    Road,
    /// Least leak margin, winter mean, K.
    LeakMargin,
    /// Least dew-point margin, winter mean, K.
    DewPointMargin,
    /// Least margin among a detail's judged findings, winter mean, K.
    LeastMargin,
    /// Most water held at a vulnerable plane by diffusion through the year, kg/m².
    Peak,
    /// Days until 1 kg/m² is gone; infinite where it isn't within the time computed.
    DaysToDry,
    /// U, W/(m²·K); a bracket where no single number holds.
    Transmittance,
    /// Linear thermal transmittance, W/(m·K), with its error bar.
    Psi,
    /// Thickness as built, m: membranes take no room.
    Thickness,
    /// Head room lost against as drawn, m.
    HeadRoomLost,
    /// Overall width, m.
    Width,
    /// Weight per area, kg/m².
    WeightPerArea,
    /// Dry weight of the house, kg.
    Weight,
    /// Price per area, per m².
    PricePerArea,
    /// Price of the assemblies.
    Price,
}

impl ColumnKind {
    /// Which way it is better.
    #[must_use]
    pub fn better(self) -> Better {
        match self {
            Self::LeakMargin | Self::DewPointMargin | Self::LeastMargin => Better::Higher,
            Self::Verdict
            | Self::Road
            | Self::Peak
            | Self::DaysToDry
            | Self::Transmittance
            | Self::Psi
            | Self::Thickness
            | Self::HeadRoomLost
            | Self::Width
            | Self::WeightPerArea
            | Self::Weight
            | Self::PricePerArea
            | Self::Price => Better::Lower,
        }
    }

    /// The stable id used in JSON, with its unit.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Verdict => "verdict",
            Self::Road => "road_verdict",
            Self::LeakMargin => "leak_margin_k",
            Self::DewPointMargin => "dew_point_margin_k",
            Self::LeastMargin => "least_margin_k",
            Self::Peak => "peak_water_kg_per_m2",
            Self::DaysToDry => "days_to_dry",
            Self::Transmittance => "u_w_per_m2k",
            Self::Psi => "psi_w_per_mk",
            Self::Thickness => "thickness_m",
            Self::HeadRoomLost => "head_room_lost_m",
            Self::Width => "overall_width_m",
            Self::WeightPerArea => "weight_kg_per_m2",
            Self::Weight => "dry_weight_kg",
            Self::PricePerArea => "price_per_m2",
            Self::Price => "price",
        }
    }

    /// What it is called in reports.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Verdict => "verdict",
            Self::Road => "on the road",
            Self::LeakMargin => "leak margin",
            Self::DewPointMargin => "dew margin",
            Self::LeastMargin => "least margin",
            Self::Peak => "peak",
            Self::DaysToDry => "days to dry",
            Self::Transmittance => "U",
            Self::Psi => "psi",
            Self::Thickness => "thickness",
            Self::HeadRoomLost => "head room lost",
            Self::Width => "width",
            Self::WeightPerArea | Self::Weight => "weight",
            Self::PricePerArea | Self::Price => "price",
        }
    }
}

/// One option's value in a column.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Value {
    /// Low and high end; `None`: not known.
    pub known: Bracket,
    /// Of a sum that isn't known in full: what is.
    pub at_least: Option<f64>,
    /// What it lacks.
    pub unknown: Vec<String>,
    /// The site it is of, where there are several and it is of one of them.
    pub site: Option<String>,
}

impl Value {
    pub(super) fn of(value: Option<f64>) -> Self {
        Self::between(value.map(|value| (value, value)))
    }

    pub(super) fn between(known: Bracket) -> Self {
        Self {
            known,
            ..Self::default()
        }
    }

    /// A verdict; what is only noted or can't be told has none.
    pub(super) fn status(status: Option<Status>) -> Self {
        let judged = status.filter(|status| *status != Status::Note);
        Self::of(judged.map(|status| f64::from(status.severity())))
    }

    /// A sum that may lack some of its parts.
    pub(super) fn sum(sum: &PartSum) -> Self {
        Self {
            at_least: (!sum.unknown.is_empty()).then_some(sum.known),
            unknown: sum.unknown.clone(),
            ..Self::of(sum.complete())
        }
    }
}

/// A column with a value for every option.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// What it is of.
    pub kind: ColumnKind,
    /// A value for every option.
    pub values: Vec<Value>,
}

impl Column {
    /// Whether anything is known in it.
    pub(super) fn is_known(&self) -> bool {
        let mut values = self.values.iter();
        values.any(|value| value.known.is_some() || value.at_least.is_some())
    }
}

/// The word of a verdict's number.
#[must_use]
pub fn verdict_word(severity: f64) -> &'static str {
    match severity {
        value if value < 0.5 => Status::Pass.word(),
        value if value < 1.5 => Status::Depends.word(),
        _ => Status::Fail.word(),
    }
}
