//! Details drawn box by box, in three dimensions.

use super::Within;
use super::point::Point;
use super::rectangles::{air_with_films, contact, stuff};
use super::text::{AirText, CutText, DetailText, FaceText, RectangleText};
use crate::document::{At, Problems, Word};
use crate::error::{Problem, Span};
use crate::model::BoxesCase;
use crate::model::detail::{LEAST_SIZE, Place};
use crate::model::drawn::{
    AirSource, BoxFace, BoxRegion, CaseAir, CaseBox, DetailFilms, as_in_a_cut,
};
use crate::model::volume::{Block, Extent, Facing, Volume, VolumeProblem};
use crate::quantity::Temperature;

/// A detail from its boxes, if it can be solved as it is.
pub(super) fn boxes(
    variant: Option<&At<Word>>,
    name: &At<Word>,
    text: &DetailText,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<BoxesCase> {
    let before = problems.len();
    let size = size(name, text, problems);
    let texts = text.boxes.iter().flatten();
    let blocks: Vec<Option<CaseBox>> = texts.map(|one| block(one, within, problems)).collect();
    let mut airs: Vec<CaseAir> = Vec::new();
    let regions = text.air.iter().flatten();
    let regions: Vec<Option<BoxRegion>> = regions
        .map(|one| region(one, &mut airs, problems))
        .collect();
    let size = size?;
    let faces = text.faces.iter().flatten();
    let faces: Vec<Option<BoxFace>> = faces
        .map(|one| face(one, size, &mut airs, problems))
        .collect();
    if let Some(seal) = text.seals.iter().flatten().next() {
        let message = "where leaking air gets to isn't looked for in three dimensions";
        let problem = Problem::at(seal.name.span, message);
        problems.push(problem.expected("expected no `seals:` beside `boxes:`"));
    }
    let points = points(text, problems);
    if problems.len() > before || !text.complete {
        return None;
    }
    let case = BoxesCase {
        name: name.value.0.clone(),
        variant: variant.map(|variant| variant.value.0.clone()),
        size,
        blocks: blocks.into_iter().collect::<Option<_>>()?,
        airs,
        regions: regions.into_iter().collect::<Option<_>>()?,
        faces: faces.into_iter().collect::<Option<_>>()?,
        points,
    };
    sound(&case, name, text, problems)?;
    Some(case)
}

/// Length along x, y and z, m.
fn size(name: &At<Word>, text: &DetailText, problems: &mut Problems) -> Option<[f64; 3]> {
    if let Some(CutText {
        width: Some(width),
        depth: Some(depth),
        height: Some(height),
        ..
    }) = &text.cut
    {
        return Some([width, depth, height].map(|at| at.value.as_m()));
    }
    let lacks_depth = text.cut.as_ref().is_none_or(|cut| cut.depth.is_none());
    if text.complete && lacks_depth {
        let message = format!("detail `{}` has boxes, but no depth", name.value.0);
        let label = "expected `cut: {width: …, depth: …, height: …}`";
        problems.push(Problem::at(name.span, message).expected(label));
    }
    None
}

fn extent(from: Option<&Point>, to: Option<&Point>, problems: &mut Problems) -> Option<Extent> {
    let (from, to) = (from?.in_boxes(problems), to?.in_boxes(problems));
    Some(Extent::new(from?, to?))
}

fn block(text: &RectangleText, within: &Within<'_>, problems: &mut Problems) -> Option<CaseBox> {
    let extent = extent(text.from.as_ref(), text.to.as_ref(), problems);
    // Of a cavity heat crosses the thinner of the level ways, or the height.
    let sides = extent.map(|extent| {
        let [x, y, z] = extent.size();
        (x.min(y), z)
    });
    let (label, conductivity, facts) = stuff(text, sides, within, problems)?;
    Some(CaseBox {
        block: Block {
            name: text.name.value.0.clone(),
            extent: extent?,
            conductivity,
            covers: text.covers.as_ref().is_some_and(|at| at.value),
        },
        label,
        facts,
    })
}

fn region(text: &AirText, airs: &mut Vec<CaseAir>, problems: &mut Problems) -> Option<BoxRegion> {
    let air = air_with_films(text, airs, problems);
    let extent = extent(text.from.as_ref(), text.to.as_ref(), problems);
    let (air, role, stated) = air?;
    Some(BoxRegion {
        air,
        extent: extent?,
        role,
        stated,
    })
}

/// A face may be given from any corner.
fn face(
    text: &FaceText,
    size: [f64; 3],
    airs: &mut Vec<CaseAir>,
    problems: &mut Problems,
) -> Option<BoxFace> {
    let given = extent(text.from.as_ref(), text.to.as_ref(), problems)?;
    let ordered =
        |pick: fn(f64, f64) -> f64| [0, 1, 2].map(|axis| pick(given.from[axis], given.to[axis]));
    let extent = Extent::new(ordered(f64::min), ordered(f64::max));
    let facing = facing(&extent, size).map(as_in_a_cut);
    Some(BoxFace {
        name: text.name.value.0.clone(),
        extent,
        contact: contact(text, facing, airs, problems)?,
    })
}

/// Which way a face on a side of the volume looks.
fn facing(extent: &Extent, size: [f64; 3]) -> Option<Facing> {
    let thickness = extent.size();
    let axis = (0..3).find(|axis| thickness[*axis].abs() <= LEAST_SIZE)?;
    let near = |side: f64| (extent.from[axis] - side).abs() <= LEAST_SIZE;
    let is_along = |facing: &Facing| facing.axis() == axis;
    let mut ways = Facing::ALL.into_iter().filter(is_along);
    ways.find(|facing| near(if facing.is_onward() { size[axis] } else { 0.0 }))
}

/// Places whose temperature is wanted; each has to lie in a solid.
fn points(text: &DetailText, problems: &mut Problems) -> Vec<(String, [f64; 3])> {
    let mut found = Vec::new();
    for point in text.points.iter().flatten() {
        let at = point.at.as_ref().and_then(|at| at.in_boxes(problems));
        found.extend(at.map(|at| (point.name.value.0.clone(), at)));
    }
    found
}

/// Holds the boxes against what can be solved: temperatures don't matter for that.
fn sound(
    case: &BoxesCase,
    name: &At<Word>,
    text: &DetailText,
    problems: &mut Problems,
) -> Option<()> {
    let [indoor, outdoor] = [20.0, 0.0].map(Temperature::from_celsius);
    let before = problems.len();
    match case.volume_at(indoor, outdoor, &DetailFilms::default()) {
        Ok(volume) => {
            for (point, at) in &case.points {
                if !is_solid(&volume, *at) {
                    let mut texts = text.points.iter().flatten();
                    let of_it = texts.find(|one| one.name.value.0 == *point);
                    let span = of_it.map_or(name.span, |one| one.name.span);
                    let message = format!("point `{point}` lies in no solid");
                    let label = "expected a place inside a box that is drawn";
                    problems.push(Problem::at(span, message).expected(label));
                }
            }
            has_two_sides(case, name, problems);
        }
        Err(found) => {
            let told = found.iter().map(|one| told(one, name, text));
            problems.extend(told);
        }
    }
    (problems.len() == before).then_some(())
}

fn is_solid(volume: &Volume, at: [f64; 3]) -> bool {
    // On the last side of the piece it lies in what is before that.
    let either = [Facing::Up, Facing::Down].map(|facing| volume.beyond(at, facing));
    either
        .iter()
        .any(|place| matches!(place, Some(Place::Block(_))))
}

/// Without the room and outdoors, or two temperatures that stand for them, no heat flows and everything
/// would pass.
fn has_two_sides(case: &BoxesCase, name: &At<Word>, problems: &mut Problems) {
    let sources: Vec<AirSource> = case.airs.iter().map(|air| air.source).collect();
    let held = !case.between_two_airs();
    for (word, side, what) in [
        ("room", AirSource::Room, "room's air"),
        ("outdoors", AirSource::Outdoors, "outdoor air"),
    ] {
        if !sources.contains(&side) && !held {
            let message = format!("detail `{}` shows no {what}", name.value.0);
            let label = format!("expected `{word}` under `air:`, or a face with `air: {word}`");
            let problem = Problem::at(name.span, message).expected(label);
            problems.push(problem.help("without it no heat flows, and nothing is judged"));
        }
    }
}

/// What is wrong, at the line of the file that it is about.
fn told(problem: &VolumeProblem, name: &At<Word>, text: &DetailText) -> Problem {
    use VolumeProblem as P;
    let expected = match problem {
        P::NoSize { .. } => "expected `from:` left of, before and below `to:`",
        P::Outside { .. } => "expected a place within `cut:`",
        P::Overlap { .. } => "expected `covers: true` if that is meant",
        P::AirOverlap { .. } => "expected one air in one place",
        P::Gap { .. } => "expected a box or air there",
        P::NameTwice { .. } => "expected a name of its own",
        P::AirTouchesNothing { .. } => "expected a place beside a box, not beneath one",
        P::FaceNotFlat { .. } => "expected `from:` and `to:` with one number the same",
        P::FaceOffSurface { .. } => {
            "expected a place where a box meets air or the side of the piece"
        }
        P::FaceTwice { .. } => "expected one face in one place",
        _ => "can't be computed",
    };
    let about = match problem {
        P::NotFinite { name }
        | P::NoSize { name, .. }
        | P::Outside { name, .. }
        | P::Conductivity { name, .. }
        | P::Film { name, .. }
        | P::Temperature { name, .. }
        | P::NameTwice { name }
        | P::NoSuchAir { name, .. }
        | P::AirTouchesNothing { name }
        | P::FaceNotFlat { name, .. }
        | P::FaceOffSurface { name, .. }
        | P::FaceTwice { name, .. }
        | P::Overlap { upper: name, .. }
        | P::AirOverlap { first: name, .. } => Some(name.as_str()),
        _ => None,
    };
    let span = about.and_then(|about| span_of(about, text));
    let message = match span {
        Some(_) => problem.to_string(),
        None => format!("detail `{}`: {problem}", name.value.0),
    };
    Problem::at(span.unwrap_or(name.span), message).expected(expected)
}

/// Where a name stands: the last one, as later ones are to blame.
fn span_of(name: &str, text: &DetailText) -> Option<Span> {
    let boxes = text.boxes.iter().flatten().map(|one| &one.name);
    let air = text.air.iter().flatten().map(|one| &one.name);
    let faces = text.faces.iter().flatten().map(|one| &one.name);
    let mut all = boxes.chain(air).chain(faces);
    all.rfind(|at| at.value.0 == name).map(|at| at.span)
}
