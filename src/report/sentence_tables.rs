//! The table checks' findings as sentences.

use crate::check::insulation_table::{InsulationRow, WallInsulation};
use crate::check::outboard::OutboardShares;
use crate::check::retarder::{FrameSize, Ground, RetarderClass, WarmSide};
use crate::check::unvented_roof::RoofInsulation;
use crate::check::{Detail, Finding, Status};
use crate::model::{Code, Edition};
use crate::quantity::{Share, Style, ThermalResistance, fixed};

const LOCAL: &str = "Check your local code.";

/// The finding as sentences; empty where it has no detail of a table check.
pub(super) fn sentence(finding: &Finding, style: Style) -> String {
    match &finding.detail {
        Detail::Retarder(found) => retarder(found, style),
        Detail::Insulation(row) => insulation(row, finding.status, style),
        Detail::UnventedRoof(roof) => unvented_roof(roof, finding.status, style),
        Detail::Outboard(shares) => outboard(finding, shares, style),
        Detail::Gap(gap) => {
            let depth = style.show(gap.depth);
            let least = match (gap.least, gap.shallow) {
                (None, _) => String::new(),
                (Some(least), false) => format!(" At least {} is asked for.", style.show(least)),
                (Some(least), true) => format!(
                    " That is under {}: it drains poorly and moves little air.",
                    style.show(least)
                ),
            };
            let furring = gap.furring.map_or_else(String::new, |share| {
                format!(" Furring fills {} of it.", percent(share))
            });
            let (open, range) = match gap.one_end {
                true => (
                    "one end",
                    " Computed closed and open, and the worse end counts.",
                ),
                false => ("both ends", ""),
            };
            format!(
                "{}: {depth} deep, open at {open}.{least}{furring}{range}",
                gap.layer
            )
        }
        _ => String::new(),
    }
}

/// `IRC 2021, marine zone 4`.
fn code(code: Code) -> String {
    let edition = code.edition.map(Edition::title);
    let zone = code.zone.map(|zone| zone.to_string());
    let parts: Vec<String> = edition.map(str::to_owned).into_iter().chain(zone).collect();
    parts.join(", ")
}

/// A resistance, a round R-value without decimals as tables print it.
fn resistance(style: Style, value: ThermalResistance) -> String {
    let r = style.value(value);
    match style.pick((r - r.round()).abs() < 0.005, false) {
        true => format!("R {}", fixed(r, 0)),
        false => style.show(value),
    }
}

fn percent(share: Share) -> String {
    format!("{} %", fixed(share.as_fraction() * 100.0, 0))
}

fn retarder(found: &WarmSide, style: Style) -> String {
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

fn pair(pair: &WallInsulation, style: Style) -> String {
    match (pair.cavity.as_si() > 0.0, pair.continuous.as_si() > 0.0) {
        (_, false) => format!("{} in the cavity", resistance(style, pair.cavity)),
        (false, true) => format!("{} continuous", resistance(style, pair.continuous)),
        (true, true) => format!(
            "{} in the cavity with {} continuous",
            resistance(style, pair.cavity),
            resistance(style, pair.continuous)
        ),
    }
}

fn insulation(row: &InsulationRow, status: Status, style: Style) -> String {
    let has = format!("The wall has {}.", pair(&row.has, style));
    if row.options.is_empty() {
        return format!("{has} Edition or zone not stated: no table to hold it against.");
    }
    let meets = match status {
        Status::Pass => "Meets the table",
        _ => "Doesn't meet the table",
    };
    let options: Vec<String> = row
        .options
        .iter()
        .map(|option| pair(option, style))
        .collect();
    format!(
        "{has} {meets}: {}, asks for {}. {LOCAL}",
        code(row.code),
        options.join(", or ")
    )
}

fn unvented_roof(roof: &RoofInsulation, status: Status, style: Style) -> String {
    let has = format!(
        "The unvented roof has {} of air-impermeable insulation at the deck.",
        resistance(style, roof.air_impermeable)
    );
    let Some(needed) = roof.needed.map(|needed| resistance(style, needed)) else {
        return format!("{has} Edition or zone not stated: no table to hold it against.");
    };
    let by = code(roof.code);
    match status {
        Status::Pass => format!("{has} Meets the table: {by}, asks for {needed}. {LOCAL}"),
        Status::Depends => format!(
            "{has} The table ({by}) has {needed}, but asks it only where air-permeable insulation lies in the roof too. {LOCAL}"
        ),
        _ => format!("{has} Doesn't meet the table: {by}, asks for {needed}. {LOCAL}"),
    }
}

fn outboard(finding: &Finding, shares: &OutboardShares, style: Style) -> String {
    let (Some(at), Some(limit)) = (finding.value, finding.limit) else {
        return String::new();
    };
    let dry = match (shares.has > shares.needed, shares.reached) {
        (true, _) => "yes",
        (false, true) => "no",
        (false, false) => {
            "not by this share, but a bonded layer keeps leaking room air from the face"
        }
    };
    let mut text = format!(
        "{} of the resistance lies outside the inner face of the {} ({} of {}). Stays dry at your humidity: {}; it takes over {}. The face is at {} and the dew point of the room air is {}.",
        percent(shares.has),
        shares.sheathing,
        resistance(style, shares.outboard),
        resistance(style, shares.total),
        dry,
        percent(shares.needed),
        style.show(at),
        style.show(limit),
    );
    if let Some(row) = shares.by_table {
        let comparison = if row.share > shares.needed {
            "more than your humidity takes"
        } else {
            "less than your humidity takes"
        };
        let meets = if row.met { "yes" } else { "no" };
        text += &format!(
            " Meets the class III table's {} of continuous insulation ({}): {meets}; it amounts to {} in this wall, {comparison}. {LOCAL}",
            resistance(style, row.continuous),
            code(shares.code),
            percent(row.share),
        );
    }
    text
}

#[cfg(test)]
mod tests;
