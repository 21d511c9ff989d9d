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

use super::area::{AssemblyArea, reach};
use super::layout::{Layout, frame_layer};
use crate::model::house::{HouseCase, OpeningPlace, Side};
use crate::model::{Assembly, AssemblyKind, Content, Layer, Substance};
use crate::quantity::{ArealDensity, Density, Length, Mass};

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
        let on_walls = case.house.shell.as_ref();
        let on_walls = on_walls.and_then(|shell| shell.roof.on_walls.as_deref());
        let rafters = match assembly.kind {
            AssemblyKind::Roof => frame_layer(assembly, on_walls),
            AssemblyKind::Wall | AssemblyKind::Floor => None,
        };
        Some(group(assembly, area, (at, rafters), includes))
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

fn group(
    assembly: &Assembly,
    area: &AssemblyArea,
    (at, rafters): (Option<f64>, Option<usize>),
    includes: &[String],
) -> WeightGroup {
    let is_included =
        |name: &String| assembly.kind == AssemblyKind::Floor && includes.contains(name);
    let mut lines = Vec::new();
    for (n, layer) in assembly.layers.iter().enumerate() {
        if is_included(&layer.name) {
            continue;
        }
        // Fill and lining end at the walls; members and what lies on them run out.
        let outer = rafters.is_none_or(|rafters| n > rafters);
        let fill = if outer {
            area.with_overhangs
        } else {
            area.framed
        };
        lines.extend(of_layer(layer, (fill, area.with_overhangs), 1.0));
    }
    for strip in &assembly.strips {
        let share = strip.share.as_fraction();
        for layer in &strip.over {
            lines.extend(of_layer(layer, (area.framed, area.framed), share));
        }
        if !is_included(&strip.name) {
            let (name, thickness) = (strip.name.clone(), strip.thickness);
            lines.push(line(name, &strip.metal, thickness, share, area.framed));
        }
    }
    let unknown = lines.iter().filter(|line| line.mass.is_none());
    WeightGroup {
        name: assembly.name.clone(),
        mass: lines.iter().filter_map(|line| line.mass).sum(),
        unknown: unknown.map(|line| line.name.clone()).collect(),
        lines,
        at,
        placed: false,
    }
}

/// What fills a layer, then the members crossing it.
fn of_layer(layer: &Layer, (fill, members): (f64, f64), share: f64) -> Vec<WeightLine> {
    let framing = layer.framing.as_ref();
    let framed = framing.map_or(0.0, |framing| framing.share.as_fraction());
    let mut lines = Vec::new();
    if let Content::Solid(substance) = &layer.content {
        let name = layer.name.clone();
        lines.push(line(
            name,
            substance,
            layer.thickness,
            share * (1.0 - framed),
            fill,
        ));
    }
    if let Some(framing) = framing {
        let name = format!("{} framing", layer.name);
        lines.push(line(
            name,
            &framing.substance,
            layer.thickness,
            share * framed,
            members,
        ));
    }
    lines
}

fn line(
    name: String,
    substance: &Substance,
    thickness: Length,
    share: f64,
    area: f64,
) -> WeightLine {
    // A layer given by its resistance alone has no thickness to weigh by.
    let has_depth = thickness.as_m() > 0.0;
    let per_area = substance
        .areal_density_at(thickness)
        .filter(|_| has_depth || substance.areal_density.is_some());
    WeightLine {
        name,
        thickness: thickness.as_m(),
        density: substance
            .density
            .filter(|_| substance.areal_density.is_none()),
        areal: substance.areal_density,
        share,
        area,
        mass: per_area.map(|per_area| per_area.as_si() * share * area),
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
        let reach = |side| reach(case, shell, layout, side);
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
