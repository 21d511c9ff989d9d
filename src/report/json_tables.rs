//! What the table checks found, as JSON.

use serde_json::Value;

use crate::check::insulation_table::WallInsulation;
use crate::check::retarder::{FrameSize, Ground, RetarderClass};
use crate::check::{Detail, SealedSpot, UnseenDetail};
use crate::model::{Code, Edition, Zone};
use crate::quantity::{Length, Permeance, Share, ThermalResistance};
use crate::report::leaf::json;

/// The detail of a finding; `null` where it has none.
pub(super) fn detail(detail: &Detail) -> Value {
    match detail {
        Detail::Retarder(found) => json!({
            "code_edition": edition(found.code),
            "zone": zone(found.code.zone),
            "layer": found.layer,
            "dry_cup_permeance_kg_per_s_m2_pa": found.permeance.map(Permeance::as_si),
            "class": class(found.class),
            "frame": frame(found.frame),
            "counts_as_continuous_m2k_per_w": found.continuous.as_si(),
            "class_three_needs_continuous_m2k_per_w": found.needed.map(ThermalResistance::as_si),
            "ground": ground(found.ground),
        }),
        Detail::Insulation(row) => json!({
            "code_edition": edition(row.code),
            "zone": zone(row.code.zone),
            "has": insulation(&row.has),
            "any_one_of": row.options.iter().map(insulation).collect::<Vec<_>>(),
        }),
        Detail::UnventedRoof(roof) => json!({
            "code_edition": edition(roof.code),
            "zone": zone(roof.code.zone),
            "air_impermeable_m2k_per_w": roof.air_impermeable.as_si(),
            "has_air_permeable_insulation": roof.has_air_permeable,
            "needed_m2k_per_w": roof.needed.map(ThermalResistance::as_si),
        }),
        Detail::Outboard(shares) => json!({
            "code_edition": edition(shares.code),
            "zone": zone(shares.code.zone),
            "sheathing": shares.sheathing,
            "outboard_m2k_per_w": shares.outboard.as_si(),
            "total_m2k_per_w": shares.total.as_si(),
            "share_outboard": shares.has.as_fraction(),
            "share_needed_at_room_humidity": shares.needed.as_fraction(),
            "face_reached_by_room_air": shares.reached,
            "table_continuous_m2k_per_w": shares.by_table.map(|row| row.continuous.as_si()),
            "table_share_outboard": shares.by_table.map(|row| row.share.as_fraction()),
            "has_table_continuous": shares.by_table.map(|row| row.met),
        }),
        Detail::Gap(gap) => json!({
            "layer": gap.layer,
            "open_at": if gap.one_end { "one end" } else { "both ends" },
            "depth_m": gap.depth.as_m(),
            "least_depth_m": gap.least.map(Length::as_m),
            "shallow": gap.shallow,
            "furring_share": gap.furring.map(Share::as_fraction),
        }),
        Detail::StripAlone(alone) => json!({
            "wood_by_the_strip_alone_c": alone.wood.as_celsius(),
            "too_warm_k": alone.too_warm.as_kelvin(),
        }),
        Detail::AirSeal(spots) => {
            let spot = |spot: &SealedSpot| {
                json!({
                    "part": spot.part,
                    "value_c": spot.value.as_celsius(),
                    "margin_k": spot.margin.as_kelvin(),
                })
            };
            json!({"parts": spots.iter().map(spot).collect::<Vec<_>>()})
        }
        Detail::Unseen(UnseenDetail::BeyondGap { gap, layer }) => {
            json!({"layer": layer, "beyond": gap})
        }
        Detail::Unseen(UnseenDetail::Joints { layer }) => json!({"joints_of": layer}),
        other => super::json_year::detail(other),
    }
}

fn edition(code: Code) -> Option<&'static str> {
    code.edition.map(Edition::title)
}

fn zone(zone: Option<Zone>) -> Value {
    let Some(zone) = zone else {
        return Value::Null;
    };
    json!({
        "number": zone.number,
        "marine": zone.marine,
        "moisture_regime": zone.moist.map(String::from),
    })
}

fn insulation(pair: &WallInsulation) -> Value {
    json!({
        "cavity_m2k_per_w": pair.cavity.as_si(),
        "continuous_m2k_per_w": pair.continuous.as_si(),
    })
}

fn class(class: RetarderClass) -> &'static str {
    match class {
        RetarderClass::One => "I",
        RetarderClass::Two => "II",
        RetarderClass::Three => "III",
        RetarderClass::Open => "none",
    }
}

fn frame(frame: FrameSize) -> &'static str {
    match frame {
        FrameSize::TwoByFour => "2x4",
        FrameSize::TwoBySix => "2x6",
    }
}

fn ground(ground: Ground) -> &'static str {
    match ground {
        Ground::NotStated => "edition or zone not stated",
        Ground::NothingAsked => "nothing asked",
        Ground::Tight => "class I or II",
        Ground::VentedCladding => "class III, vented cladding",
        Ground::Continuous => "class III, continuous insulation",
        Ground::TooOpen => "too open",
        Ground::TooTight => "too tight",
        Ground::BothSides => "class I on both sides",
        Ground::TwoReadings => "two readings",
    }
}
