//! Details generated from assemblies: what the keys mean, and where a problem belongs.

use super::Within;
use super::text::{CrossMembersText, EdgeSealText, FloorEdgeText, PlateText, RailText};
use crate::document::{At, Problems, Word};
use crate::error::{Problem, Span};
use crate::input::layer::{bare, by_gauge, material, missing_name};
use crate::input::resolve::assembly;
use crate::input::substance::substance;
use crate::material::{Kind, one_of};
use crate::model::drawn::{
    CrossMembers, EdgeKey, EdgeProblem, EdgeSeal, FloorEdge, FoamReach, Plate, Rail, RailShape,
};
use crate::model::{Assembly, DetailCase, Told};
use crate::quantity::{Length, Style, UnitSystem, unit::INCH};

/// Thickness of a 2x: plates and joists (common practice).
pub(in crate::input) const TWO_BY: f64 = 1.5 * INCH;
/// How far a cut runs where the file doesn't say: over 1 m, as ISO 10211 asks of a cut-off plane
/// (from memory).
pub(in crate::input) const REACH: f64 = 40.0 * INCH;
/// Farther than this a cut shows nothing more of its edge, m.
const FARTHEST: f64 = 10.0;

/// Whether an edge makes a corner with itself.
pub(super) const OUTSIDE_OR_NONE: [(&str, bool); 2] = [("outside", true), ("none", false)];

/// The floor edge of the file's assemblies.
pub(super) fn floor_edge(
    variant: Option<&At<Word>>,
    name: &At<Word>,
    text: &FloorEdgeText,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<DetailCase> {
    let floor = referred(&text.floor, text.frame.as_ref(), within, problems);
    let wall = referred(&text.wall, None, within, problems);
    let rail = match &text.rail {
        None => Some(None),
        Some(rail) => self::rail(rail, within, problems).map(Some),
    };
    let plate = plate(text.plate.as_ref(), within, problems);
    let rim_joist = self::plate(text.rim_joist.as_ref(), within, problems);
    let reaches = [
        ("plate-inner-edge", FoamReach::PlateInnerEdge),
        ("under-plate", FoamReach::UnderPlate),
    ];
    let foam = match &text.foam {
        None => Some(FoamReach::PlateInnerEdge),
        Some(foam) => one_of(&foam.reach, &reaches, "reach of foam", problems),
    };
    let seal = match &text.seal {
        None => Some(None),
        Some(seal) => self::seal(seal, problems).map(Some),
    };
    let corner = match &text.corner {
        None => Some(true),
        Some(corner) => one_of(corner, &OUTSIDE_OR_NONE, "corner of a floor edge", problems),
    };
    let inboard = cut_reach(text.inboard.as_ref(), problems);
    let up = cut_reach(text.up.as_ref(), problems);
    let floor = floor?;
    let flange = strip(&floor, &text.flange, problems);
    let deck = match &text.deck {
        None => Some(None),
        Some(deck) => layer(&floor, deck, problems).map(Some),
    };
    let edge = FloorEdge {
        name: name.value.0.clone(),
        variant: variant.map(|variant| variant.value.0.clone()),
        floor,
        wall: wall?,
        flange: flange?,
        deck: deck?,
        rail: rail?,
        plate: plate?,
        rim_joist: rim_joist?,
        reach: text.flange_reach.as_ref().map(|at| at.value.as_m()),
        foam: foam?,
        seal: seal?,
        corner: corner?,
        inboard: inboard?,
        up: up?,
    };
    drawn(
        (edge.draw(), within.units),
        |key| edge_span(text, key),
        problems,
    )
}

/// Half a pitch of the file's floor.
pub(super) fn cross_members(
    variant: Option<&At<Word>>,
    name: &At<Word>,
    text: &CrossMembersText,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<DetailCase> {
    let floor = referred(&text.floor, None, within, problems)?;
    let strip = strip(&floor, &text.strip, problems);
    let members = CrossMembers {
        name: name.value.0.clone(),
        variant: variant.map(|variant| variant.value.0.clone()),
        floor,
        strip: strip?,
        pitch: text.pitch.as_ref()?.value,
        height: text.height.as_ref().map(|at| at.value),
        web: text.web.as_ref().map(|at| at.value),
    };
    let span = |key| {
        let own = match key {
            EdgeKey::Pitch => text.pitch.as_ref(),
            EdgeKey::MemberHeight => text.height.as_ref(),
            EdgeKey::RailThickness => text.web.as_ref(),
            _ => None,
        };
        match key {
            EdgeKey::Floor => text.floor.span,
            _ => own.map_or(text.strip.span, |at| at.span),
        }
    };
    drawn((members.draw(), within.units), span, problems)
}

pub(super) fn drawn(
    (result, units): (Result<DetailCase, EdgeProblem>, UnitSystem),
    span: impl Fn(EdgeKey) -> Span,
    problems: &mut Problems,
) -> Option<DetailCase> {
    match result {
        Ok(case) => Some(case),
        Err(wrong) => {
            let told = |words: &Told| words.in_units(Style { units });
            let problem = Problem::at(span(wrong.key), told(&wrong.message));
            problems.push(problem.expected(told(&wrong.expected)));
            None
        }
    }
}

/// The key a problem is about, or the nearest one that is written out.
fn edge_span(text: &FloorEdgeText, key: EdgeKey) -> Span {
    let rail = text.rail.as_ref();
    let shape = rail.map(|rail| rail.shape.span);
    let own = match key {
        EdgeKey::Floor => Some(text.floor.span),
        EdgeKey::Wall => Some(text.wall.span),
        EdgeKey::Deck => text.deck.as_ref().map(|at| at.span),
        EdgeKey::Reach => text.flange_reach.as_ref().map(|at| at.span),
        EdgeKey::RailHeight => rail
            .and_then(|rail| rail.height.as_ref().map(|at| at.span))
            .or(shape),
        EdgeKey::RailWidth => rail
            .and_then(|rail| rail.width.as_ref().map(|at| at.span))
            .or(shape),
        EdgeKey::RailThickness => rail
            .and_then(|rail| rail.thickness.as_ref().map(|at| at.span))
            .or(shape),
        EdgeKey::Plate => {
            let material = text
                .plate
                .as_ref()
                .and_then(|plate| plate.material.as_ref());
            Some(material.map_or(text.wall.span, |at| at.span))
        }
        EdgeKey::RimJoist => {
            let material = text
                .rim_joist
                .as_ref()
                .and_then(|rim| rim.material.as_ref());
            Some(material.map_or(text.floor.span, |at| at.span))
        }
        EdgeKey::Seal => text.seal.as_ref().map(|seal| seal.to.span),
        EdgeKey::Inboard => text.inboard.as_ref().map(|at| at.span),
        EdgeKey::Up => text.up.as_ref().map(|at| at.span),
        EdgeKey::Strip | EdgeKey::Pitch | EdgeKey::MemberHeight | EdgeKey::Roof | EdgeKey::Down => {
            None
        }
    };
    own.unwrap_or(text.flange.span)
}

/// An assembly of the file, with the frame the detail asks for. What is wrong in the assembly
/// itself is reported where it stands.
pub(super) fn referred(
    name: &At<Word>,
    frame: Option<&At<Word>>,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<Assembly> {
    let all = within.assemblies;
    let Some((at, text)) = all.iter().find(|(at, _)| at.value == name.value) else {
        if !within.unreadable.contains(&name.value) {
            let known = all.iter().map(|(at, _)| at.value.0.as_str());
            let mut problem = missing_name("assembly", name, known);
            problem.label = "not an assembly of this file".into();
            problems.push(problem);
        }
        return None;
    };
    let mut text = text.clone();
    if let Some(frame) = frame {
        text.frame = Some(frame.clone());
    }
    let mut again = Vec::new();
    let found = assembly(at, &text, within.library, &mut again);
    again.retain(|problem| !problems.contains(problem));
    problems.extend(again);
    found
}

fn strip(floor: &Assembly, name: &At<Word>, problems: &mut Problems) -> Option<usize> {
    let names: Vec<&str> = floor
        .strips
        .iter()
        .map(|strip| strip.name.as_str())
        .collect();
    let found = names.iter().position(|strip| *strip == name.value.0);
    if found.is_none() {
        let mut problem = missing_name("strip", name, names.iter().copied());
        problem.label = format!("not a strip of `{}`", floor.name);
        if names.is_empty() {
            problem = problem.help(format!("`{}` has no `strips:`", floor.name));
        }
        problems.push(problem);
    }
    found
}

fn layer(floor: &Assembly, name: &At<Word>, problems: &mut Problems) -> Option<usize> {
    let names: Vec<&str> = floor
        .layers
        .iter()
        .map(|layer| layer.name.as_str())
        .collect();
    let found = names.iter().position(|layer| *layer == name.value.0);
    if found.is_none() {
        problems.push(missing_name("layer", name, names.iter().copied()));
    }
    found
}

pub(super) fn cut_reach(at: Option<&At<Length>>, problems: &mut Problems) -> Option<Length> {
    let Some(at) = at else {
        return Some(Length::from_m(REACH));
    };
    if at.value.as_m() <= FARTHEST {
        return Some(at.value);
    }
    let message = "the cut runs far beyond the edge it shows";
    problems.push(Problem::at(at.span, message).expected("expected at most 10 m (32 ft)"));
    None
}

fn plate(text: Option<&PlateText>, within: &Within<'_>, problems: &mut Problems) -> Option<Plate> {
    let usual = Length::from_m(TWO_BY);
    let Some(text) = text else {
        return Some(Plate {
            substance: None,
            thickness: usual,
        });
    };
    let wood = match &text.material {
        None => Some(None),
        Some(name) => material(name, within.library, problems)
            .map(|found| Some(substance(&found, &bare(name)))),
    };
    let thickness = match &text.thickness {
        None => Some(usual),
        Some(at) => Some(at.value),
    };
    Some(Plate {
        substance: wood?,
        thickness: thickness?,
    })
}

fn seal(text: &EdgeSealText, problems: &mut Problems) -> Option<EdgeSeal> {
    let from = one_of(
        &text.from,
        &EdgeSeal::FROM,
        "start of an air seal",
        problems,
    );
    let to = one_of(&text.to, &EdgeSeal::TO, "end of an air seal", problems);
    Some(EdgeSeal {
        from: from?,
        to: to?,
    })
}

fn rail(text: &RailText, within: &Within<'_>, problems: &mut Problems) -> Option<Rail> {
    let shapes = [
        ("tube", RailShape::Tube),
        ("angle", RailShape::Angle),
        ("channel", RailShape::Channel),
    ];
    let shape = one_of(&text.shape, &shapes, "shape of rail", problems);
    let metal = material(&text.material, within.library, problems);
    let thickness = text.thickness.as_ref();
    let thickness = thickness.and_then(|at| by_gauge(at, metal.as_ref(), problems));
    let [height, width] = [&text.height, &text.width].map(|at| at.as_ref().map(|at| at.value));
    let metal = metal?;
    if metal.kind != Kind::Metal {
        let message = format!("`{}` isn't a metal", text.material.value.0);
        let label = "expected a metal such as `carbon steel`";
        problems.push(Problem::at(text.material.span, message).expected(label));
        return None;
    }
    let substance = substance(&metal, &bare(&text.material));
    Some(Rail {
        shape: shape?,
        conductivity: substance.conductivity.map(|k| k.as_si())?,
        substance,
        height,
        width,
        thickness: thickness?,
        hollow: text.hollow.as_ref().is_none_or(|at| at.value),
    })
}
