//! # Vapor-retarder table
//!
//! *What it checks.* The class of the vapor retarder on the warm side of a frame wall against the
//! code's table by zone, framing and edition. It says whether the wall **meets the table**, not
//! whether it stays dry at your humidity.
//!
//! *Why it matters.* A plan reviewer looks here first. Batts and foam that meet the insulation
//! table may still be refused, because class III paint isn't enough with so little foam outside.
//!
//! *Method and source.* Tightest layer from the room to the frame, a facing of the framed
//! insulation included, by its dry-cup permeance (ASTM E96, method A; where only one value is
//! known, that one). IRC 2009 R601.3; IRC 2012 to 2018 and 2021 R702.7. Insulation that counts as
//! continuous: what lies outside the frame and no framing crosses, by its label; or, if that is
//! more, sprayed foam of at most 1.5 perm in the bays against the sheathing.
//!
//! *Limit.* Class I up to 0.1 perm, II up to 1, III up to 10. What edition and zone ask for stands in
//! `materials/code-tables.yaml`, each row with its clause and whether it was seen: class I or II
//! inside in cold and marine zones, none of them in hot ones since 2021; class III instead behind
//! vented cladding over the sheathings of a row, or with its continuous R over a 2x4 or 2x6 frame.
//! Since 2021 class I on both sides goes only by an approved design, unless the inner one opens when
//! damp. A frame deeper than 2x4 goes by the 2x6 rows (common practice). Edition or zone not stated:
//! `depends`.
//!
//! *When it does not apply.* Floors, roofs and walls without a frame get a note. Basement walls,
//! parts below grade and construction that moisture can't harm are excepted by the code: that is
//! yours to know. The rows of IRC 2021 for class II with continuous insulation are not held
//! against. In zone 4 outside the marine half IRC 2021 can be read two ways for class III without
//! enough insulation: `depends`. Cladding counts as vented by its air space, so vinyl siding takes
//! one in the file. Local codes amend these tables: check yours.
//!
//! *Example.* 2x6, R-21 batts, painted gypsum (class III), 1 in of foam, zone 6: the table
//! asks for, so it `fails`.

mod say;

use std::ops::Range;

use super::build_up::{
    board, depth, enclosed, frame, insulation, is_air_permeable, is_insulation, is_sheet, kind,
    labeled_resistance, permeances, reaches,
};
use super::kind::{Brief, Column, Run};
use super::{Check, Detail, Finding, Status};
use crate::code_table::{
    Behind, CLASS_THREE_BEHIND_VENTED_CLADDING, CLASS_THREE_OVER_2X4, CLASS_THREE_OVER_2X6, Inside,
    RETARDER_BOTH_SIDES, RETARDER_INSIDE,
};
use crate::model::{AssemblyKind, Board, Case, Code, Edition, Kind, Layer, Zone};
use crate::quantity::{Permeance, ThermalResistance, unit};
use crate::solve::AssemblyResult;

/// The prescriptive vapor-retarder table.
pub static CHECK: Check = Check {
    id: "vapor-retarder-table",
    title: "vapor-retarder table",
    run: Run::Table(|scene| check(scene.case, scene.result, &scene.stop.code)),
    column: Some(Column::STATUS),
    say: |finding, _, style| match &finding.detail {
        Detail::Retarder(found) => say::say(found, style),
        _ => String::new(),
    },
    brief: Brief::Sentences,
    ..Check::PLAIN
};

/// Upper limits of class I, II and III in perm, ASTM E96 method A.
const CLASS_LIMITS: [f64; 3] = [0.1, 1.0, 10.0];
/// Sprayed foam up to this counts as the continuous insulation, perm.
const TIGHT_FOAM: f64 = 1.5;
/// The depth of a 2x4, with the tolerance of lumber, m.
const TWO_BY_FOUR: f64 = 3.6 * unit::INCH;

/// Class of a vapor retarder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RetarderClass {
    /// At most 0.1 perm.
    One,
    /// At most 1 perm.
    Two,
    /// At most 10 perm.
    Three,
    /// Over 10 perm: no retarder.
    Open,
}

/// Column of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FrameSize {
    /// Up to 3-1/2 in deep.
    TwoByFour,
    /// Deeper.
    TwoBySix,
}

/// Why the table allows or refuses a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// Edition or zone isn't stated.
    NotStated,
    /// The zone asks for nothing.
    NothingAsked,
    /// Class I or II, as asked.
    Tight,
    /// Class III with vented cladding over a sheathing the table names.
    VentedCladding,
    /// Class III with enough continuous insulation.
    Continuous,
    /// Class III without either, or no retarder at all.
    TooOpen,
    /// Class I or II where the zone allows none.
    TooTight,
    /// Class I on both sides.
    BothSides,
    /// The rule can be read two ways.
    TwoReadings,
}

/// What was found on the warm side, and what the table says to it.
#[derive(Clone, Debug, PartialEq)]
pub struct WarmSide {
    /// Edition and zone.
    pub code: Code,
    /// The tightest layer; `None` where there is none.
    pub layer: Option<String>,
    /// Its dry-cup permeance.
    pub permeance: Option<Permeance>,
    /// Its class.
    pub class: RetarderClass,
    /// The frame's column of the table.
    pub frame: FrameSize,
    /// Resistance that counts as continuous.
    pub continuous: ThermalResistance,
    /// What class III takes in this zone; `None` where the table has no row.
    pub needed: Option<ThermalResistance>,
    /// Why it comes out as it does.
    pub ground: Ground,
}

/// Holds a wall against the table.
#[must_use]
pub fn check(case: &Case, _result: &AssemblyResult, code: &Code) -> Vec<Finding> {
    let assembly = &case.assembly;
    let note = |text: &str| {
        vec![Finding {
            help: Some(text.to_owned()),
            ..Finding::new(&CHECK, Status::Note, RETARDER_INSIDE.source(None))
        }]
    };
    match assembly.kind {
        AssemblyKind::Roof => return Vec::new(),
        AssemblyKind::Floor => {
            return note(
                "The code's vapor-retarder and insulation tables for walls don't cover floors.",
            );
        }
        AssemblyKind::Wall => {}
    }
    let layers = enclosed(assembly);
    let Some(frame) = frame(layers) else {
        return note("The vapor-retarder table covers frame walls: no framing is stated here.");
    };
    let beyond = &assembly.layers[layers.len()..];
    vec![judge(layers, &frame, beyond.len() > 1, *code)]
}

fn judge(layers: &[Layer], frame: &Range<usize>, vented_cladding: bool, code: Code) -> Finding {
    let tightest = warm_side(layers, frame);
    let permeance = tightest.map(|(_, (dry, _))| dry);
    let class = permeance.map_or(RetarderClass::Open, class_of);
    let size = frame_size(layers, frame);
    let mut found = WarmSide {
        code,
        layer: tightest.map(|(layer, _)| layer.name.clone()),
        permeance,
        class,
        frame: size,
        continuous: counted_continuous(layers, frame),
        needed: None,
        ground: Ground::NotStated,
    };
    if let (Some(edition), Some(zone)) = (code.edition, code.zone) {
        let inside = RETARDER_INSIDE.asks(edition, zone).copied();
        found.needed = continuous_over(size, edition, zone);
        let class_three_is_allowed = match found.needed {
            _ if vented_cladding && stands_behind(layers, behind(code)) => {
                Some(Ground::VentedCladding)
            }
            Some(needed) if reaches(found.continuous, needed) => Some(Ground::Continuous),
            _ => None,
        };
        let outer_class = layers[frame.end..].iter().filter_map(permeances);
        let closed_outside = outer_class
            .map(|(dry, _)| class_of(dry))
            .any(|class| class == RetarderClass::One);
        let opens_too_little =
            |least: &Permeance| !tightest.is_some_and(|(_, (_, damp))| perms(damp) > perms(*least));
        let refuses_both_sides = || {
            let opens = RETARDER_BOTH_SIDES.asks(edition, zone);
            opens.is_some_and(opens_too_little)
        };
        found.ground = match class {
            RetarderClass::One | RetarderClass::Two if inside == Some(Inside::NotTight) => {
                Ground::TooTight
            }
            RetarderClass::One if closed_outside && refuses_both_sides() => Ground::BothSides,
            _ if inside != Some(Inside::Tight) && found.needed.is_none() => Ground::NothingAsked,
            RetarderClass::One | RetarderClass::Two => Ground::Tight,
            RetarderClass::Three if class_three_is_allowed.is_some() => {
                class_three_is_allowed.unwrap_or(Ground::TooOpen)
            }
            _ if inside != Some(Inside::Tight) => Ground::TwoReadings,
            _ => Ground::TooOpen,
        };
    }
    Finding {
        help: help(&found),
        detail: Detail::Retarder(found.clone()),
        ..Finding::new(
            &CHECK,
            status(found.ground),
            RETARDER_INSIDE.source(code.edition),
        )
    }
}

fn status(ground: Ground) -> Status {
    match ground {
        Ground::NotStated | Ground::TwoReadings => Status::Depends,
        Ground::TooOpen | Ground::TooTight | Ground::BothSides => Status::Fail,
        _ => Status::Pass,
    }
}

fn help(found: &WarmSide) -> Option<String> {
    let text = match found.ground {
        Ground::NotStated => "state the edition and the zone under `code:`",
        Ground::TooOpen | Ground::TwoReadings if found.class == RetarderClass::Three => {
            match behind(found.code) {
                Some(Behind::WoodPanelToo) => {
                    "a class I or II vapor retarder inside, vented cladding over the sheathing, or more continuous insulation outside"
                }
                Some(Behind::FiberboardOrGypsum) => {
                    "a class I or II vapor retarder inside, vented cladding over fiberboard or gypsum (`board:` in the material's entry says which it is), or more continuous insulation outside"
                }
                _ => "a class I or II vapor retarder inside, or more continuous insulation outside",
            }
        }
        Ground::TooOpen | Ground::TwoReadings => "a class I or II vapor retarder inside",
        Ground::TooTight => "leave the vapor retarder out: paint is enough",
        Ground::BothSides => "a vapor retarder inside that opens when damp, or an approved design",
        _ => return None,
    };
    Some(text.to_owned())
}

/// The sheathings over which vented cladding allows class III.
fn behind(code: Code) -> Option<Behind> {
    let table = &CLASS_THREE_BEHIND_VENTED_CLADDING;
    table.asks(code.edition?, code.zone?).copied()
}

fn perms(permeance: Permeance) -> f64 {
    permeance.as_si() / unit::PERM
}

/// The class of a dry-cup permeance; limits belong to the tighter class.
#[must_use]
pub fn class_of(permeance: Permeance) -> RetarderClass {
    let within = |limit: f64| perms(permeance) <= limit * (1.0 + 1e-9);
    match CLASS_LIMITS.map(within) {
        [true, ..] => RetarderClass::One,
        [_, true, _] => RetarderClass::Two,
        [_, _, true] => RetarderClass::Three,
        _ => RetarderClass::Open,
    }
}

/// The class of a layer by its permeance in the dry cup; `None` for air.
#[must_use]
pub fn class_of_layer(layer: &Layer) -> Option<RetarderClass> {
    permeances(layer).map(|(dry, _)| class_of(dry))
}

/// The tightest layer of the warm side with its permeances: all layers inside of the frame, and
/// the first framed one where it is a faced board.
fn warm_side<'a>(
    layers: &'a [Layer],
    frame: &Range<usize>,
) -> Option<(&'a Layer, (Permeance, Permeance))> {
    let facing = layers[frame.start..]
        .iter()
        .take(1)
        .filter(|layer| is_insulation(layer) && is_sheet(layer));
    layers[..frame.start]
        .iter()
        .chain(facing)
        .filter_map(|layer| Some((layer, permeances(layer)?)))
        .min_by(|(_, (a, _)), (_, (b, _))| a.as_si().total_cmp(&b.as_si()))
}

/// The column of the table a frame goes by.
pub(super) fn frame_size(layers: &[Layer], frame: &Range<usize>) -> FrameSize {
    if depth(layers, frame) <= TWO_BY_FOUR {
        FrameSize::TwoByFour
    } else {
        FrameSize::TwoBySix
    }
}

/// Continuous insulation outside the frame, or tight foam sprayed on the sheathing in its bays:
/// the greater, since the code lets each reach the table by itself.
pub(super) fn counted_continuous(layers: &[Layer], frame: &Range<usize>) -> ThermalResistance {
    let outside = insulation(&layers[frame.end..], false);
    let touches_sheathing = layers.get(frame.end).is_some_and(|layer| {
        kind(layer).is_some_and(Kind::is_wood)
            || is_insulation(layer)
            || board(layer) == Some(Board::Gypsum)
    });
    let sprayed = layers[frame.clone()].last().filter(|layer| {
        let tight = permeances(layer).is_some_and(|(dry, _)| perms(dry) <= TIGHT_FOAM);
        kind(layer) == Some(Kind::Foam) && layer.bonded && !is_air_permeable(layer) && tight
    });
    match sprayed.map(labeled_resistance) {
        Some(foam) if touches_sheathing && foam > outside => foam,
        _ => outside,
    }
}

/// Whether the outermost layer behind the cladding's air space, membranes aside, is one a row allows.
fn stands_behind(layers: &[Layer], behind: Option<Behind>) -> bool {
    let is_membrane = |layer: &&Layer| kind(layer) == Some(Kind::Membrane);
    let Some(sheathing) = layers.iter().rev().find(|layer| !is_membrane(layer)) else {
        return false;
    };
    let soft = board(sheathing).is_some();
    match behind {
        None => false,
        Some(Behind::FiberboardOrGypsum) => soft,
        Some(Behind::WoodPanelToo) => soft || kind(sheathing) == Some(Kind::Panel),
    }
}

/// The continuous R that the table asks of class III.
fn continuous_over(frame: FrameSize, edition: Edition, zone: Zone) -> Option<ThermalResistance> {
    let table = match frame {
        FrameSize::TwoByFour => &CLASS_THREE_OVER_2X4,
        FrameSize::TwoBySix => &CLASS_THREE_OVER_2X6,
    };
    table.asks(edition, zone).copied()
}

/// The continuous R that class III takes; without an edition, where all of them agree.
pub(super) fn continuous_needed(code: Code, frame: FrameSize) -> Option<ThermalResistance> {
    let zone = code.zone?;
    if let Some(edition) = code.edition {
        return continuous_over(frame, edition, zone);
    }
    let [first, others @ ..] = Edition::ALL.map(|edition| continuous_over(frame, edition, zone));
    first.filter(|needed| others == [Some(*needed); 2])
}

#[cfg(test)]
mod tests;
