//! # Air gap
//!
//! *What it checks.* The depth of every gap that is open to outdoor air, in walls and roofs.
//!
//! *Why it matters.* Behind cladding a gap drains, lets air by and keeps the wall behind it dry;
//! too shallow, mortar, wrap folds and surface tension bridge it. Under a roof deck it carries the
//! water away that gets there.
//!
//! *Method and source.* The layer's thickness as drawn; how much of it furring fills is told where
//! the file states furring. A `vented` gap, open at one end, is computed as a range: closed and
//! open, and the worse of the two counts in every check.
//!
//! *Limit.* A note, never judged. Walls: 3/8 in, below which a gap drains poorly and moves little
//! air (common practice). Roofs: 1 in between insulation and deck (IRC R806.3, from memory).
//!
//! *When it does not apply.* Still gaps. No depth is asked of gaps in floors, nor above a roof's
//! deck: there the note gives the depth alone.
//!
//! *Example.* 1/4 in behind siding: a note that it is shallower than 3/8 in.

use super::build_up::kind;
use super::kind::{Brief, Column, Run};
use super::words::percent;
use super::{Check, Detail, Finding, Status};
use crate::model::{AirSpace, AssemblyKind, Case, Code, Conditions, Content, Kind, Layer};
use crate::quantity::{Length, Share, Style, unit};
use crate::solve::AssemblyResult;

/// The depth of air gaps.
pub static CHECK: Check = Check {
    id: "air-gap",
    title: "air gap",
    anywhere: true,
    run: Run::Table(|scene| check(scene.case, scene.result, &scene.stop.code)),
    column: Some(Column::STATUS),
    say,
    brief: Brief::Sentences,
    ..Check::PLAIN
};

/// Walls (common practice).
const WALL: f64 = 3.0 / 8.0 * unit::INCH;
/// Roofs, between insulation and deck (IRC R806.3, from memory).
const ROOF: f64 = unit::INCH;
/// 9.5 mm is what 3/8 in is called in millimeters.
const ROUNDING: f64 = 1e-4;

/// One gap open to outdoor air.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenGap {
    /// The layer's name.
    pub layer: String,
    /// Open at one end only, so that it is computed as a range.
    pub one_end: bool,
    /// Its depth.
    pub depth: Length,
    /// The least depth; `None` where none is asked.
    pub least: Option<Length>,
    /// Whether it is shallower than that.
    pub shallow: bool,
    /// Share of the area that furring fills, where stated.
    pub furring: Option<Share>,
}

/// A note for every gap open to outdoor air.
#[must_use]
pub fn check(case: &Case, _result: &AssemblyResult, _code: &Code) -> Vec<Finding> {
    let assembly = &case.assembly;
    let layers = &assembly.layers;
    let is_deck = |layer: &Layer| layer.framing.is_none() && kind(layer).is_some_and(Kind::is_wood);
    let note = |(n, layer): (usize, &Layer)| {
        let below_deck = layers[n + 1..].iter().any(is_deck);
        let (least, source) = match assembly.kind {
            AssemblyKind::Wall => (Some(WALL), "3/8 in behind cladding (common practice)"),
            AssemblyKind::Roof if below_deck => {
                (Some(ROOF), "1 in vent space (IRC R806.3, from memory)")
            }
            _ => (None, "the layers as drawn"),
        };
        let one_end = match layer.content {
            Content::Air(AirSpace::Vented) => true,
            Content::Air(AirSpace::Ventilated) => false,
            _ => return None,
        };
        let shallow = least.is_some_and(|least| layer.thickness.as_m() < least - ROUNDING);
        let gap = OpenGap {
            layer: layer.name.clone(),
            one_end,
            depth: layer.thickness,
            least: least.map(Length::from_m),
            shallow,
            furring: layer.framing.as_ref().map(|framing| framing.share),
        };
        Some(Finding {
            help: shallow.then(|| "a deeper gap".to_owned()),
            detail: Detail::Gap(gap),
            ..Finding::new(&CHECK, Status::Note, source)
        })
    };
    layers.iter().enumerate().filter_map(note).collect()
}

fn say(finding: &Finding, _: &Conditions, style: Style) -> String {
    let Detail::Gap(gap) = &finding.detail else {
        return String::new();
    };
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
        format!(" Furring fills {} of it.", percent(share.as_fraction()))
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

#[cfg(test)]
mod tests;
