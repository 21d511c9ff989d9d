//! What the house weighs: density × thickness × area, layer by layer, members by their share.
//!
//! Floor and walls by their framed areas, the roof's outer layers and rafters with the overhangs.
//! Strips of metal weigh by their share of the deck, with what lies over them, unless the trailer's
//! own weight includes them; what they displace isn't taken off. A density that isn't known makes
//! the sum a least value, and is named.
//!
//! ```text
//! tongue   T = Σ m (x_axles − x) / (x_axles − x_coupler)      x from the deck's front
//! ```
//! Source: lever rule, about the axles.

use super::area::AssemblyArea;
use super::layout::{Layout, frame_layers};
use super::take_off::{Piece, take_off};
use crate::model::house::{HouseCase, OpeningPlace, Side};
use crate::model::{Assembly, AssemblyKind};
use crate::quantity::{ArealDensity, Density, Mass};

/// One layer, or the members crossing it.
#[derive(Clone, Debug, PartialEq)]
pub struct WeightLine {
    /// The layer, `NAME framing`, or the strip.
    pub name: String,
    /// Its thickness, m.
    pub thickness: f64,
    /// Its density, where it goes by that.
    pub density: Option<Density>,
    /// Its weight per area, where it goes by that.
    pub areal: Option<ArealDensity>,
    /// Its share of the area.
    pub share: f64,
    /// The area, m².
    pub area: f64,
    /// Its weight, kg; `None`: density not known.
    pub mass: Option<f64>,
}

/// One assembly, the openings, an allowance.
#[derive(Clone, Debug, PartialEq)]
pub struct WeightGroup {
    /// The assembly's name, an opening's, an allowance's.
    pub name: String,
    /// Its lines; empty where the weight is stated.
    pub lines: Vec<WeightLine>,
    /// What is known of its weight, kg.
    pub mass: f64,
    /// The lines, or the group, whose weight isn't known.
    pub unknown: Vec<String>,
    /// Its middle, m from the deck's front; `None` without measures.
    pub at: Option<f64>,
    /// Whether the file states that place.
    pub placed: bool,
}

/// The share of the load that the tongue carries.
#[derive(Clone, Debug, PartialEq)]
pub struct Tongue {
    /// On the coupler, kg.
    pub load: f64,
    /// Of house and trailer, as a fraction.
    pub share: f64,
    /// What was taken at its centroid because its place isn't stated.
    pub at_centroid: Vec<String>,
}

/// The house's weight.
#[derive(Clone, Debug, PartialEq)]
pub struct Weight {
    /// Assemblies, openings, allowances.
    pub groups: Vec<WeightGroup>,
    /// All that is known, kg, without the trailer.
    pub house: f64,
    /// The parts whose weight isn't known.
    pub unknown: Vec<String>,
    /// The trailer's own weight, kg.
    pub trailer: Option<f64>,
    /// Its rating less its own weight, kg.
    pub capacity: Option<f64>,
    /// The tongue's share, where the file gives the positions.
    pub tongue: Option<Tongue>,
}

/// Weighs a house.
#[must_use]
pub fn weight(case: &HouseCase<'_>, layout: Option<&Layout>, areas: &[AssemblyArea]) -> Weight {
    let of_area = |area: &AssemblyArea| {
        let assembly = case.assembly(&area.assembly)?;
        let at = center(case, layout, area, assembly);
        let includes = &case.house.trailer.includes;
        let pieces = take_off(assembly, area, rafters(case, assembly), includes);
        Some(group(&assembly.name, &pieces, at))
    };
    let mut groups: Vec<WeightGroup> = areas.iter().filter_map(of_area).collect();
    let length = case.house.shell.as_ref().map(|shell| shell.length.as_m());
    groups.extend(openings(case, length));
    groups.extend(case.house.allowances.iter().map(|one| {
        WeightGroup {
            name: one.name.clone(),
            lines: Vec::new(),
            mass: one.weight.as_kg(),
            unknown: Vec::new(),
            at: one
                .at
                .map(|at| at.as_m())
                .or(length.map(|length| length / 2.0)),
            placed: one.at.is_some(),
        }
    }));
    let trailer = case.house.trailer.weight.map(Mass::as_kg);
    let rating = case.house.trailer.rating.map(Mass::as_kg);
    let unknown = |group: &WeightGroup| {
        let one = |name: &String| match *name == group.name {
            true => name.clone(),
            false => format!("{}: {name}", group.name),
        };
        group.unknown.iter().map(one).collect::<Vec<_>>()
    };
    Weight {
        house: groups.iter().map(|group| group.mass).sum(),
        unknown: groups.iter().flat_map(unknown).collect(),
        trailer,
        capacity: rating.zip(trailer).map(|(rating, own)| rating - own),
        tongue: tongue(case, &groups, length),
        groups,
    }
}

/// The outermost layer of the rafters, or the one that stands on the walls by name, where the
/// assembly is a roof.
pub(super) fn rafters(case: &HouseCase<'_>, assembly: &Assembly) -> Option<usize> {
    let on_walls = case.house.shell.as_ref();
    let on_walls = on_walls.and_then(|shell| shell.roof.on_walls.as_deref());
    match assembly.kind {
        AssemblyKind::Roof => frame_layers(assembly, on_walls).map(|members| members.end - 1),
        AssemblyKind::Wall | AssemblyKind::Floor => None,
    }
}

fn group(name: &str, pieces: &[Piece<'_>], at: Option<f64>) -> WeightGroup {
    let lines: Vec<WeightLine> = pieces.iter().map(line).collect();
    let unknown = lines.iter().filter(|line| line.mass.is_none());
    WeightGroup {
        name: name.to_owned(),
        mass: lines.iter().filter_map(|line| line.mass).sum(),
        unknown: unknown.map(|line| line.name.clone()).collect(),
        lines,
        at,
        placed: false,
    }
}

fn line(piece: &Piece<'_>) -> WeightLine {
    let areal = piece.substance.areal_density;
    WeightLine {
        name: piece.name.clone(),
        thickness: piece.thickness.as_m(),
        density: piece.substance.density.filter(|_| areal.is_none()),
        areal,
        share: piece.share,
        area: piece.area,
        mass: piece.mass(),
    }
}

fn openings(case: &HouseCase<'_>, length: Option<f64>) -> Vec<WeightGroup> {
    let one = |opening: &crate::model::house::Opening| {
        let middle = match opening.place {
            OpeningPlace::Wall(Side::Front) => Some(0.0),
            OpeningPlace::Wall(Side::Back) => length,
            _ => length.map(|length| length / 2.0),
        };
        let at_end = matches!(opening.place, OpeningPlace::Wall(Side::Front | Side::Back));
        let mass = opening
            .weight
            .map(|weight| weight.as_kg() * f64::from(opening.count));
        WeightGroup {
            name: opening.name.clone(),
            lines: Vec::new(),
            mass: mass.unwrap_or(0.0),
            unknown: mass
                .is_none()
                .then(|| opening.name.clone())
                .into_iter()
                .collect(),
            at: opening.at.map(|at| at.as_m()).or(middle),
            placed: opening.at.is_some() || at_end,
        }
    };
    case.house.openings.iter().map(one).collect()
}

/// The middle of an assembly, its walls weighed by their net areas.
fn center(
    case: &HouseCase<'_>,
    layout: Option<&Layout>,
    area: &AssemblyArea,
    assembly: &Assembly,
) -> Option<f64> {
    let (shell, layout) = case.house.shell.as_ref().zip(layout)?;
    let length = shell.length.as_m();
    if assembly.kind == AssemblyKind::Roof {
        let reach = |side| layout.reach(shell, side);
        return Some((length + reach(Side::Back) - reach(Side::Front)) / 2.0);
    }
    let (mut moment, mut total) = (0.0, 0.0);
    for part in &area.parts {
        let side = Side::ALL
            .into_iter()
            .find(|side| part.name == format!("{} wall", side.word()));
        let middle = match side {
            Some(Side::Front) => 0.0,
            Some(Side::Back) => length,
            _ => length / 2.0,
        };
        moment += part.framed * middle;
        total += part.framed;
        let Some(side) = side else { continue };
        let here = case.house.openings.iter();
        for opening in here.filter(|one| one.place == OpeningPlace::Wall(side)) {
            let at = opening
                .at
                .filter(|_| side.is_long())
                .map_or(middle, |at| at.as_m());
            moment -= opening.area().as_m2() * at;
            total -= opening.area().as_m2();
        }
    }
    Some(if total > 0.0 {
        moment / total
    } else {
        length / 2.0
    })
}

fn tongue(case: &HouseCase<'_>, groups: &[WeightGroup], length: Option<f64>) -> Option<Tongue> {
    let trailer = &case.house.trailer;
    let own = trailer.weight?.as_kg();
    let (coupler, axles) = (-trailer.tongue?.as_m(), trailer.axles_at?.as_m());
    let own_at = trailer
        .weight_at
        .map(|at| at.as_m())
        .or(length.map(|length| length / 2.0))?;
    let mut moment = own * (axles - own_at);
    let mut total = own;
    let mut at_centroid: Vec<String> = Vec::new();
    if trailer.weight_at.is_none() {
        at_centroid.push("the trailer itself".into());
    }
    for group in groups {
        moment += group.mass * (axles - group.at?);
        total += group.mass;
        if !group.placed {
            at_centroid.push(group.name.clone());
        }
    }
    let load = moment / (axles - coupler);
    Some(Tongue {
        load,
        share: load / total,
        at_centroid,
    })
}
