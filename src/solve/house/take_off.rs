//! The take-off of an assembly: every piece of material in it, with its share of which area.
//!
//! What fills a layer, the members crossing it, the strips and what lies over them. Weight and
//! price are sums over the same pieces.

use super::area::AssemblyArea;
use crate::model::{Assembly, AssemblyKind, Content, Layer, Substance};
use crate::quantity::Length;

/// A piece of an assembly.
#[derive(Clone, Debug)]
pub struct Piece<'a> {
    /// The layer, `NAME framing`, or the strip.
    pub name: String,
    /// What it is made of.
    pub substance: &'a Substance,
    /// Its thickness.
    pub thickness: Length,
    /// Its share of the area.
    pub share: f64,
    /// The area, m².
    pub area: f64,
}

impl Piece<'_> {
    /// Its weight, kg; `None` where no density is known.
    #[must_use]
    pub fn mass(&self) -> Option<f64> {
        // A layer given by its resistance alone has no thickness to weigh by.
        let has_depth = self.thickness.as_m() > 0.0;
        let per_area = self.substance.areal_density_at(self.thickness)?;
        let is_known = has_depth || self.substance.areal_density.is_some();
        is_known.then_some(per_area.as_si() * self.share * self.area)
    }

    /// Its price in the project's currency; `None` where the file gives none for it.
    #[must_use]
    pub fn price(&self) -> Option<f64> {
        let per_area = self.substance.price_at(self.thickness)?;
        Some(per_area * self.share * self.area)
    }
}

/// The pieces of an assembly over its area. Outside of the layer `rafters` of a roof, and for the
/// rafters themselves, it is the area with the overhangs. What the trailer includes isn't in it.
pub(super) fn take_off<'a>(
    assembly: &'a Assembly,
    area: &AssemblyArea,
    rafters: Option<usize>,
    includes: &[String],
) -> Vec<Piece<'a>> {
    let is_included =
        |name: &String| assembly.kind == AssemblyKind::Floor && includes.contains(name);
    let mut pieces = Vec::new();
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
        pieces.extend(of_layer(layer, (fill, area.with_overhangs), 1.0));
    }
    for strip in &assembly.strips {
        let share = strip.share.as_fraction();
        for layer in &strip.over {
            pieces.extend(of_layer(layer, (area.framed, area.framed), share));
        }
        if !is_included(&strip.name) {
            pieces.push(Piece {
                name: strip.name.clone(),
                substance: &strip.metal,
                thickness: strip.thickness,
                share,
                area: area.framed,
            });
        }
    }
    pieces
}

/// The pieces of one m² of an assembly.
#[must_use]
pub fn take_off_per_area<'a>(assembly: &'a Assembly, includes: &[String]) -> Vec<Piece<'a>> {
    let area = AssemblyArea {
        assembly: assembly.name.clone(),
        parts: Vec::new(),
        inside: 1.0,
        framed: 1.0,
        with_overhangs: 1.0,
        stated: true,
    };
    take_off(assembly, &area, None, includes)
}

/// What fills a layer, then the members crossing it.
fn of_layer(layer: &Layer, (fill, members): (f64, f64), share: f64) -> Vec<Piece<'_>> {
    let framing = layer.framing.as_ref();
    let framed = framing.map_or(0.0, |framing| framing.share.as_fraction());
    let mut pieces = Vec::new();
    if let Content::Solid(substance) = &layer.content {
        pieces.push(Piece {
            name: layer.name.clone(),
            substance,
            thickness: layer.thickness,
            share: share * layer.fill_share(),
            area: fill,
        });
    }
    if let Some(framing) = framing {
        pieces.push(Piece {
            name: format!("{} framing", layer.name),
            substance: &framing.substance,
            thickness: layer.member_depth().unwrap_or(layer.thickness),
            share: share * framed,
            area: members,
        });
    }
    pieces
}
