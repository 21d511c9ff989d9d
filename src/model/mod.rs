//! The building as the solvers see it: valid by construction, all SI, no YAML.

mod alter;
mod assembly;
mod code;
mod condition;
mod depth;
pub mod detail;
pub mod drawn;
pub mod house;
mod indoor;
mod members;
mod sizing;
mod stock;
mod sweep;
mod title;
mod told;
mod vary;
pub mod volume;

pub use alter::LayerPlace;
pub use assembly::{
    AirSpace, Assembly, AssemblyKind, Content, Film, Films, Framing, Layer, Openness, Spread,
    Strip, StripPlace, Substance, SurfaceOffsets,
};
pub use code::{Code, Edition};
pub use condition::{AirState, ClimateSource, Conditions, MonthState};
pub use indoor::{Household, Indoor, RoomMonth, RoomVapor};
pub use members::runs_of_members;

pub use drawn::{AssumedEdge, BoxesCase, DetailCase, DetailPlan, UndrawnEdge};
pub use house::{House, HouseCase};
pub use sizing::{Moved, SizedAt, SizedPart, Sizing, Target};
pub use stock::{SoldBoard, Stock};
pub use sweep::{Axis, AxisValues, Steps, Sweep};
pub use title::TitleData;
pub use told::{Told, ToldPart};
pub use vary::{Property, PropertyKind};

// What a substance is made of, in its fields: later stages meet them here.
pub use crate::climate::{Climate, Zone};
pub use crate::material::{Board, ConductivityCurve, Kind, VaporRate};

use crate::quantity::{Currency, UnitSystem};

/// A project: its conditions, its assemblies and the variants to compare with them.
#[derive(Clone, Debug, PartialEq)]
pub struct Project {
    /// Title for reports and drawings; `untitled` where the file gives none.
    pub title: String,
    /// What the title block says.
    pub title_data: TitleData,
    /// The file's name without its folder, for the title strip.
    pub file: String,
    /// Where it is judged: one climate, or the stops of a route; at least one.
    pub stops: Vec<Stop>,
    /// What is judged: every assembly as drawn, and again under every variant that changes it.
    pub cases: Vec<Case>,
    /// Details cut through the house, and again under every variant that changes them. After the
    /// file's own come the edges it has and doesn't draw: see [`DetailCase::assumed`].
    pub details: Vec<DetailCase>,
    /// Details in three dimensions, drawn box by box, as drawn and under the variants that change them.
    pub volumes: Vec<BoxesCase>,
    /// Edges that no detail of the file shows and that can't be drawn by the stated defaults.
    pub undrawn: Vec<UndrawnEdge>,
    /// Layers whose thickness is wanted.
    pub sizings: Vec<Sizing>,
    /// Sweeps over combinations of changes.
    pub sweeps: Vec<Sweep>,
    /// What a remedy may ask for.
    pub stock: Stock,
    /// The whole house on its trailer.
    pub house: Option<House>,
    /// The currency of its prices; `None` where it gives none.
    pub currency: Option<Currency>,
    /// The units the file speaks.
    pub units: UnitSystem,
}

/// A climate the house stands in.
#[derive(Clone, Debug, PartialEq)]
pub struct Stop {
    /// The climate's name; empty where the file gives only a winter mean.
    pub name: String,
    /// Where its numbers come from.
    pub origin: String,
    /// The same as far as a plan reviewer asks: invented, stated with its source, or not.
    pub source: ClimateSource,
    /// What a reader should know about its data.
    pub notes: Vec<String>,
    /// The code's edition and the zone the stop lies in, where known.
    pub code: Code,
    /// Where the room's air comes from.
    pub indoor: Indoor,
    /// Indoor and outdoor air.
    pub conditions: Conditions,
}

/// One assembly under one variant.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// The variant's name; `None` for the assembly as drawn.
    pub variant: Option<String>,
    /// The assembly with the variant's changes made.
    pub assembly: Assembly,
}

impl Case {
    /// `floor` or `floor, foam over flange`.
    #[must_use]
    pub fn name(&self) -> String {
        match &self.variant {
            None => self.assembly.name.clone(),
            Some(variant) => format!("{}, {variant}", self.assembly.name),
        }
    }
}
