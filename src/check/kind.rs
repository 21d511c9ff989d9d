//! The checks by name, and the order people ask for them in.

use super::{Detail, Finding};

/// The checks, each with a stable id.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Check {
    /// Wood at the steel, where room air reaches it.
    WoodAtSteel,
    /// Whether 1 kg/m² at a vulnerable plane dries within a year.
    Drying,
    /// The same at planes that no water gets to by a named way: told, not judged.
    DryingElsewhere,
    /// Mold at the planes inside, through the year.
    MoldInside,
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
    /// Wood at a detail's steel that stays there whatever lies over it.
    AirSeal,
    /// Wood or open insulation that this method doesn't look at.
    NotLookedAt,
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
            Self::MoldInside => "mold-inside",
            Self::DryingElsewhere => "drying-elsewhere",
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
            Self::AirSeal => "air-seal",
            Self::NotLookedAt => "not-looked-at",
            Self::HandCheck => "hand-check",
        }
    }

    /// What it is called in reports.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::WoodAtSteel => "wood at the steel",
            Self::Drying => "can it dry",
            Self::MoldInside => "mold inside",
            Self::DryingElsewhere => "drying elsewhere",
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
            Self::AirSeal => "needs an air seal, 2-D",
            Self::NotLookedAt => "not looked at",
            Self::HandCheck => "hand-check",
        }
    }
}

impl Finding {
    /// What its check is called in reports; at a corner, in three dimensions, that as well.
    #[must_use]
    pub fn title(&self) -> &'static str {
        let is_at_corner = matches!(&self.detail, Detail::Spot(spot) if spot.is_at_corner());
        match self.check {
            Check::DetailWood if is_at_corner => "wood at the steel, corner",
            Check::DetailCondensation if is_at_corner => "room surface, condensation, corner",
            Check::DetailMold if is_at_corner => "room surface, mold, corner",
            check => check.title(),
        }
    }
}

/// The checks in the order people ask (design.md §1): the cold edge, leaks, diffusion, drying; then
/// tables, then what is only told. An air seal at wood that stays on the steel never leads.
const ORDER: [Check; 27] = [
    Check::WoodAtSteel,
    Check::DetailWood,
    Check::DetailCondensation,
    Check::SurfaceCondensation,
    Check::DetailMold,
    Check::SurfaceMold,
    Check::AirLeak,
    Check::DetailLeak,
    Check::InwardLeak,
    Check::Year,
    Check::Diffusion,
    Check::Drying,
    Check::MoldInside,
    Check::DoubleBarrier,
    Check::Pan,
    Check::Retarder,
    Check::Insulation,
    Check::UnventedRoof,
    Check::Outboard,
    Check::Sheathing,
    Check::Gap,
    Check::DryingElsewhere,
    Check::RoomAir,
    Check::Frame,
    Check::AirSeal,
    Check::NotLookedAt,
    Check::HandCheck,
];

impl Check {
    /// Whether it is about mold: its margins in summer are small whatever is built.
    #[must_use]
    pub fn is_of_mold(self) -> bool {
        matches!(self, Self::SurfaceMold | Self::DetailMold)
    }

    /// Whether its findings go by the place: every surface and every part of a detail is judged.
    pub(super) fn is_by_place(self) -> bool {
        matches!(
            self,
            Self::DetailWood
                | Self::DetailLeak
                | Self::DetailCondensation
                | Self::DetailMold
                | Self::NotLookedAt
        )
    }

    /// Where it stands in the order people ask.
    #[must_use]
    pub fn order(self) -> usize {
        ORDER
            .iter()
            .position(|check| *check == self)
            .unwrap_or(ORDER.len())
    }
}
