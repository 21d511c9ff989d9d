//! The warm side against the table, in words.

use super::{FrameSize, Ground, RetarderClass, WarmSide};
use crate::check::words::{LOCAL, code, resistance};
use crate::quantity::Style;

pub(super) fn say(found: &WarmSide, style: Style) -> String {
    let class = match found.class {
        RetarderClass::One => "a class I vapor retarder",
        RetarderClass::Two => "a class II vapor retarder",
        RetarderClass::Three => "a class III vapor retarder",
        RetarderClass::Open => "no vapor retarder",
    };
    let warm = match (&found.layer, found.permeance) {
        (Some(layer), Some(permeance)) => format!(
            "The {layer} on the warm side is {class} ({}, dry cup).",
            style.show(permeance)
        ),
        _ => "There is no vapor retarder on the warm side.".to_owned(),
    };
    let by = code(found.code);
    let frame = match found.frame {
        FrameSize::TwoByFour => "2x4",
        FrameSize::TwoBySix => "2x6",
    };
    let row = found.needed.map_or_else(String::new, |needed| {
        format!(
            "{} of continuous insulation over a {frame} frame (here {})",
            resistance(style, needed),
            resistance(style, found.continuous)
        )
    });
    let instead = match found.needed {
        None => String::new(),
        Some(_) => format!(", or class III with {row}"),
    };
    let table = match found.ground {
        Ground::NotStated => {
            return format!("{warm} Edition or zone not stated: no table to hold it against.");
        }
        Ground::NothingAsked => format!("Meets the table: {by}, asks for nothing here."),
        Ground::Tight => format!("Meets the table ({by})."),
        Ground::VentedCladding => format!(
            "Meets the table: {by}, allows class III behind vented cladding over this sheathing."
        ),
        Ground::Continuous => {
            format!("Meets the table: {by}, asks for class I or II{instead}.")
        }
        Ground::TooOpen => {
            format!("Doesn't meet the table: {by}, asks for class I or II{instead}.")
        }
        Ground::TooTight => {
            format!("Doesn't meet the table: {by}, allows no class I or II inside.")
        }
        Ground::BothSides => format!(
            "Doesn't meet the table: {by}, allows class I inside and outside only by an approved design."
        ),
        Ground::TwoReadings => format!(
            "{by}, can be read two ways: its class III table, which has {row}, covers all of zone 4; the rule that asks for class I or II names marine 4 only."
        ),
    };
    format!("{warm} {table} {LOCAL}")
}
