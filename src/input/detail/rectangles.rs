//! Details drawn rectangle by rectangle.

use super::Within;
use super::point::{area, line};
use super::text::{AirText, DetailText, FaceText, RectangleText};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::input::layer::{bare, material};
use crate::input::substance::substance;
use crate::material::one_of;
use crate::model::detail::{Area, Block, Facing, LEAST_SIZE, PlaneConductivity};
use crate::model::drawn::{
    AirSource, BlockFacts, CaseAir, CaseBlock, CaseContact, CaseFace, CaseRegion, DetailKind,
    FilmRole, Part, Seal, StatedFilms, air_conductivity,
};
use crate::model::{DetailCase, Substance};
use crate::physics::heat::Direction;
use crate::quantity::{Length, ThermalResistance};

/// A detail from its rectangles.
pub(super) fn rectangles(
    variant: Option<&At<Word>>,
    name: &At<Word>,
    text: &DetailText,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<DetailCase> {
    let before = problems.len();
    let Some(cut) = &text.cut else {
        if text.complete {
            let message = format!("detail `{}` has no `cut:`", name.value.0);
            let label = "expected `cut: {width: …, height: …}`";
            problems.push(Problem::at(name.span, message).expected(label));
        }
        return None;
    };
    let rectangles = text.rectangles.iter().flatten();
    let blocks: Vec<Option<CaseBlock>> = rectangles
        .map(|rectangle| block(rectangle, within, problems))
        .collect();
    let mut airs: Vec<CaseAir> = Vec::new();
    let regions: Vec<Option<CaseRegion>> = text
        .air
        .iter()
        .flatten()
        .map(|air| region(air, &mut airs, problems))
        .collect();
    let (width, height) = (cut.width.as_ref()?.value, cut.height.as_ref()?.value);
    let size = Area::new(0.0, width.as_m(), 0.0, height.as_m());
    let faces: Vec<Option<CaseFace>> = text
        .faces
        .iter()
        .flatten()
        .map(|one| face(one, &size, &mut airs, problems))
        .collect();
    let seals = text.seals.iter().flatten();
    let seals: Vec<Seal> = seals
        .filter_map(|seal| {
            Some(Seal {
                name: seal.name.value.0.clone(),
                line: line(seal.from.as_ref(), seal.to.as_ref(), problems)?,
                promised: true,
            })
        })
        .collect();
    let is_oblique = |seal: &&Seal| {
        let line = &seal.line;
        (line.right - line.left).min(line.top - line.bottom) > LEAST_SIZE
    };
    if let Some(seal) = seals.iter().find(is_oblique) {
        let message = format!("seal `{}` runs neither along x nor along y", seal.name);
        let label = "expected `from:` and `to:` with the same x or the same y";
        let mut written = text.seals.iter().flatten();
        let written = written.find(|one| one.name.value.0 == seal.name);
        let span = written.map_or(name.span, |one| one.name.span);
        problems.push(Problem::at(span, message).expected(label));
    }
    if problems.len() > before || !text.complete {
        return None;
    }
    Some(DetailCase {
        name: name.value.0.clone(),
        variant: variant.map(|variant| variant.value.0.clone()),
        kind: DetailKind::Rectangles,
        width: width.as_m(),
        height: height.as_m(),
        blocks: blocks.into_iter().collect::<Option<_>>()?,
        airs,
        regions: regions.into_iter().collect::<Option<_>>()?,
        faces: faces.into_iter().collect::<Option<_>>()?,
        seals,
        points: Vec::new(),
        surfaces: Vec::new(),
        references: Vec::new(),
        shows_strip: None,
        dimensions: Vec::new(),
        notes: Vec::new(),
        plan: None,
        assumed: None,
    })
}

fn block(text: &RectangleText, within: &Within<'_>, problems: &mut Problems) -> Option<CaseBlock> {
    let area = area(text.from.as_ref(), text.to.as_ref(), problems);
    let sides = area.map(|area| (area.right - area.left, area.top - area.bottom));
    let (label, conductivity, facts) = stuff(text, sides, within, problems)?;
    Some(CaseBlock {
        block: Block {
            name: text.name.value.0.clone(),
            label,
            area: area?,
            conductivity: PlaneConductivity::isotropic(conductivity),
            covers: text.covers.as_ref().is_some_and(|at| at.value),
        },
        facts,
    })
}

/// What a rectangle or a box is of: in words, its conductivity in W/(m·K), and what checks know of it.
/// `sides`: how wide and how high it is, m.
pub(super) fn stuff(
    text: &RectangleText,
    sides: Option<(f64, f64)>,
    within: &Within<'_>,
    problems: &mut Problems,
) -> Option<(String, f64, BlockFacts)> {
    if let Some(air) = &text.air {
        return cavity(text, air, sides, problems);
    }
    let found = match &text.material {
        None => None,
        Some(name) => Some((name, material(name, within.library, problems)?)),
    };
    let of_material = found.map(|(name, found)| substance(&found, &bare(name)));
    let own = text.conductivity.as_ref().map(|at| at.value);
    let known = of_material
        .as_ref()
        .and_then(|substance| substance.conductivity);
    let Some(conductivity) = own.or(known) else {
        if text.complete {
            let message = format!("`{}` conducts how much?", text.name.value.0);
            let label = "expected `material:` with a conductivity, `conductivity:` or `air: still`";
            problems.push(Problem::at(text.name.span, message).expected(label));
        }
        return None;
    };
    let name = &text.name.value.0;
    let bonded = text.bonded.as_ref().is_some_and(|at| at.value);
    let facts = BlockFacts {
        part: Part::Drawn,
        kind: of_material.as_ref().and_then(|substance| substance.kind),
        air_permeable: of_material.as_ref().is_some_and(|one| one.air_permeable),
        bonded,
        bond_is_promised: bonded,
        by_temperature: match (own, &of_material) {
            (None, Some(substance)) => substance.by_temperature.clone(),
            _ => Vec::new(),
        },
        from: None,
        sources: match (own, &of_material) {
            (None, Some(substance)) => substance.sources.clone(),
            _ => vec![format!("conductivity: {}", Substance::GIVEN)],
        },
    };
    let label = of_material.map_or_else(|| name.clone(), |substance| substance.label);
    Some((label, conductivity.as_si(), facts))
}

/// Air shut in: its resistance by thickness and direction as a conductivity.
fn cavity(
    text: &RectangleText,
    air: &At<Word>,
    sides: Option<(f64, f64)>,
    problems: &mut Problems,
) -> Option<(String, f64, BlockFacts)> {
    one_of(air, &[("still", ())], "air of a cavity", problems)?;
    if let Some(at) = &text.material {
        let message = format!("`{}` is air and a material at once", text.name.value.0);
        problems.push(Problem::at(at.span, message).expected("expected `air:` or `material:`"));
        return None;
    }
    let flows = [
        ("up", Direction::Up),
        ("sideways", Direction::Horizontal),
        ("down", Direction::Down),
    ];
    let (wide, high) = sides?;
    let flow = match &text.heat_flow {
        Some(word) => one_of(word, &flows, "direction of heat flow", problems)?,
        // Across the thinner way; a level gap in a floor has heat flowing down.
        None if wide <= high => Direction::Horizontal,
        None => Direction::Down,
    };
    let depth = match flow {
        Direction::Horizontal => wide,
        Direction::Up | Direction::Down => high,
    };
    let conductivity = match &text.conductivity {
        Some(at) => at.value.as_si(),
        // One without a size is reported as such.
        None if depth <= LEAST_SIZE => 1.0,
        None => air_conductivity(Length::from_m(depth), flow),
    };
    let facts = BlockFacts {
        part: Part::Cavity,
        kind: None,
        air_permeable: true,
        bonded: false,
        bond_is_promised: false,
        by_temperature: Vec::new(),
        from: None,
        sources: vec!["conductivity: ISO 6946, resistance of the air space by thickness".into()],
    };
    Some(("still air".into(), conductivity, facts))
}

fn region(text: &AirText, airs: &mut Vec<CaseAir>, problems: &mut Problems) -> Option<CaseRegion> {
    let air = air_with_films(text, airs, problems);
    let area = area(text.from.as_ref(), text.to.as_ref(), problems);
    let (air, role, stated) = air?;
    Some(CaseRegion {
        air,
        area: area?,
        role,
        stated,
    })
}

/// The air of a region, and the films of the faces that meet it.
pub(super) fn air_with_films(
    text: &AirText,
    airs: &mut Vec<CaseAir>,
    problems: &mut Problems,
) -> Option<(usize, FilmRole, StatedFilms)> {
    let (air, role) = air_of(text, airs, problems)?;
    let films = text.films.as_ref();
    let film = |at: Option<&At<ThermalResistance>>| at.map(|at| at.value.as_si());
    let is_sheltered = text.sheltered.as_ref().is_some_and(|at| at.value);
    let role = match (role, is_sheltered) {
        (FilmRole::Outdoors, true) => FilmRole::Sheltered,
        (role, _) => role,
    };
    let stated = StatedFilms {
        up: film(films.and_then(|films| films.up.as_ref())),
        sideways: film(films.and_then(|films| films.sideways.as_ref())),
        down: film(films.and_then(|films| films.down.as_ref())),
    };
    Some((air, role, stated))
}

/// The air a region is of: the room's, outdoor air, or that of a space with its own temperature.
fn air_of(
    text: &AirText,
    airs: &mut Vec<CaseAir>,
    problems: &mut Problems,
) -> Option<(usize, FilmRole)> {
    let name = &text.name.value.0;
    if let Some(source) = known_air(name) {
        if let Some(at) = &text.temperature {
            let message = format!("`{name}` has its temperature from the climate and the room");
            let label = "expected no temperature here, or a space with another name";
            problems.push(Problem::at(at.span, message).expected(label));
            return None;
        }
        return Some((listed(name, source, airs), role_of(source)));
    }
    if let Some(n) = airs.iter().position(|air| air.name == *name)
        && text.temperature.is_none()
    {
        return Some((n, role_of(airs[n].source)));
    }
    let Some(at) = &text.temperature else {
        if text.complete {
            let near = crate::error::did_you_mean(name, ["room", "outdoors"]);
            let message = format!("what temperature does the air `{name}` have?");
            let label = "expected `room`, `outdoors`, or a `temperature:` beside the name";
            let problem = Problem::at(text.name.span, message).expected(label);
            problems.push(problem.maybe_help(near.map(|near| format!("did you mean `{near}`?"))));
        }
        return None;
    };
    let source = AirSource::Held(at.value);
    let is_other = |air: &CaseAir| air.name == *name && air.source != source;
    if airs.iter().any(is_other) {
        let message = format!("the air `{name}` has two temperatures");
        problems.push(Problem::at(at.span, message).expected("expected the same in every place"));
        return None;
    }
    Some((listed(name, source, airs), role_of(source)))
}

fn known_air(name: &str) -> Option<AirSource> {
    match name {
        "room" => Some(AirSource::Room),
        "outdoors" => Some(AirSource::Outdoors),
        _ => None,
    }
}

fn role_of(source: AirSource) -> FilmRole {
    match source {
        AirSource::Outdoors => FilmRole::Outdoors,
        AirSource::Room => FilmRole::Room,
        AirSource::Held(_) => FilmRole::Space,
    }
}

fn listed(name: &str, source: AirSource, airs: &mut Vec<CaseAir>) -> usize {
    let found = airs.iter().position(|air| air.name == name);
    found.unwrap_or_else(|| {
        airs.push(CaseAir {
            name: name.to_owned(),
            source,
        });
        airs.len() - 1
    })
}

fn face(
    text: &FaceText,
    cut: &Area,
    airs: &mut Vec<CaseAir>,
    problems: &mut Problems,
) -> Option<CaseFace> {
    let line = line(text.from.as_ref(), text.to.as_ref(), problems)?;
    Some(CaseFace {
        name: text.name.value.0.clone(),
        line,
        contact: contact(text, facing(&line, cut), airs, problems)?,
    })
}

/// What a face meets. `facing`: the way it looks, where it lies on the edge of what is drawn.
pub(super) fn contact(
    text: &FaceText,
    facing: Option<Facing>,
    airs: &mut Vec<CaseAir>,
    problems: &mut Problems,
) -> Option<CaseContact> {
    let refuse = |problems: &mut Problems, at: &At<Word>, message: String, label: &str| {
        problems.push(Problem::at(at.span, message).expected(label));
        None
    };
    let name = &text.name.value.0;
    Some(match (&text.temperature, &text.air) {
        (Some(at), None) => CaseContact::Held(at.value),
        (None, Some(word)) => {
            let known = [("room", "room"), ("outdoors", "outdoors")];
            let own = airs
                .iter()
                .find(|air| air.name == word.value.0)
                .map(|air| air.source);
            let source = match own {
                Some(source) => source,
                None => known_air(one_of(word, &known, "air", problems)?)?,
            };
            let air = listed(&word.value.0, source, airs);
            let film = text.film.as_ref().map(|at| at.value.as_si());
            let Some(facing) = facing.or(film.map(|_| Facing::Up)) else {
                let message = format!("which way does the face `{name}` look?");
                let label = "expected a line along the cut's edge, or its `film:`";
                return refuse(problems, &text.name, message, label);
            };
            CaseContact::Air {
                air,
                role: role_of(source),
                facing,
                film,
            }
        }
        _ if !text.complete => return None,
        _ => {
            let message = format!("what does the face `{name}` meet?");
            let label = "expected either `temperature:` or `air:` beside it";
            return refuse(problems, &text.name, message, label);
        }
    })
}

/// Which way a face on the cut's edge looks.
fn facing(line: &Area, cut: &Area) -> Option<Facing> {
    let near = |a: f64, b: f64| (a - b).abs() <= LEAST_SIZE;
    let upright = near(line.left, line.right);
    match upright {
        true if near(line.left, cut.left) => Some(Facing::Left),
        true if near(line.left, cut.right) => Some(Facing::Right),
        false if near(line.bottom, cut.bottom) => Some(Facing::Down),
        false if near(line.bottom, cut.top) => Some(Facing::Up),
        _ => None,
    }
}
