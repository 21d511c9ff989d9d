//! What a sizing asks: how thick a layer has to be so that targets are met.

use super::drawn::{DetailCase, EdgeProblem, Part};
use super::{Assembly, Case, LayerPlace, Property};
use crate::quantity::{Length, RelativeHumidity, TemperatureDifference};

/// Layer, places and targets of one entry of `size:`.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizing {
    /// The entry's name.
    pub name: String,
    /// The layer whose thickness is wanted.
    pub layer: String,
    /// What it is made of.
    pub material: String,
    /// Where it goes, such as `over the flange`; empty where the layer is there already.
    pub position: String,
    /// The assemblies it stands in.
    pub within: Vec<String>,
    /// What is judged: assemblies and details with the layer in them, at a thickness that counts
    /// for nothing.
    pub parts: Vec<SizedPart>,
    /// What has to be met; at least one.
    pub targets: Vec<Target>,
    /// The conditions the margins are taken at; at least one.
    pub at: Vec<SizedAt>,
    /// The place whose margins count; `None`: every place that is judged.
    pub place: Option<String>,
    /// Thicknesses it is sold in, rising.
    pub sold: Vec<Length>,
    /// Where that list comes from.
    pub sold_source: String,
    /// The least and the greatest thickness looked at; zero is without the layer.
    pub between: (Length, Length),
    /// The room's humidity it is sized for, instead of the file's.
    pub humidity: Option<RelativeHumidity>,
}

/// An assembly or a detail that holds the layer.
#[derive(Clone, Debug, PartialEq)]
// A handful of parts: a box would gain nothing.
#[allow(clippy::large_enum_variant)]
pub enum SizedPart {
    /// In one dimension.
    Assembly(Case),
    /// In two.
    Detail(DetailCase),
}

/// What has to be met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// Places that leaking room air reaches stay at least this far above its dew point.
    LeakMargin(TemperatureDifference),
    /// Vulnerable planes stay at least this far above the dew point of the vapor there.
    DewPointMargin(TemperatureDifference),
    /// The room's surfaces have at least this temperature factor.
    TemperatureFactor(f64),
    /// U is at most this, W/(m²·K).
    Transmittance(f64),
    /// 1 kg/m² is gone within a year from every vulnerable plane.
    DryWithinTheYear,
    /// It is gone within so many days.
    DaysToDry(f64),
}

/// A condition margins are taken at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizedAt {
    /// The mean of the three coldest months.
    WinterMean,
    /// The cold design value.
    DesignNight,
}

/// A property of one of the assemblies behind a part, and the factor it is moved by.
pub type Moved = (usize, Property, f64);

impl Target {
    /// Whether it is taken at each condition apart.
    #[must_use]
    pub fn is_margin(self) -> bool {
        matches!(self, Self::LeakMargin(_) | Self::DewPointMargin(_))
    }

    /// Whether a detail can be held against it.
    #[must_use]
    pub fn suits_details(self) -> bool {
        matches!(self, Self::LeakMargin(_) | Self::TemperatureFactor(_))
    }

    /// Whether it needs the months of a climate.
    #[must_use]
    pub fn needs_a_year(self) -> bool {
        matches!(self, Self::DryWithinTheYear | Self::DaysToDry(_))
    }
}

impl Sizing {
    /// A part with the layer at a thickness, zero being without it, after the given properties were
    /// moved.
    ///
    /// # Errors
    /// What can't be built at that thickness; a plane assembly always can.
    pub fn at(
        &self,
        part: &SizedPart,
        thickness: Length,
        moved: &[Moved],
    ) -> Result<SizedPart, EdgeProblem> {
        let change = |n: usize, assembly: &mut Assembly| {
            for (_, property, factor) in moved.iter().filter(|(of, ..)| *of == n) {
                assembly.multiply(property, *factor);
            }
            if let Some(place) = self.place_in(assembly) {
                *assembly = assembly.with_thickness(place, thickness);
            }
        };
        match part {
            SizedPart::Assembly(case) => {
                let mut case = case.clone();
                change(0, &mut case.assembly);
                Ok(SizedPart::Assembly(case))
            }
            SizedPart::Detail(case) => case.redrawn(change).map(SizedPart::Detail),
        }
    }

    fn place_in(&self, assembly: &Assembly) -> Option<LayerPlace> {
        let concerned = self.within.contains(&assembly.name);
        concerned.then(|| assembly.place_of(&self.layer)).flatten()
    }
}

impl SizedPart {
    /// `floor` or `hidden flange`.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Assembly(case) => &case.assembly.name,
            Self::Detail(case) => &case.name,
        }
    }

    /// The assemblies behind it.
    #[must_use]
    pub fn assemblies(&self) -> Vec<&Assembly> {
        match self {
            Self::Assembly(case) => vec![&case.assembly],
            Self::Detail(case) => case.plan.as_ref().map_or_else(Vec::new, |p| p.assemblies()),
        }
    }

    /// Whether it can be held against a target.
    #[must_use]
    pub fn suits(&self, target: Target) -> bool {
        matches!(self, Self::Assembly(_)) || target.suits_details()
    }

    /// The places it can be judged at by name.
    #[must_use]
    pub fn places(&self) -> Vec<String> {
        match self {
            Self::Assembly(case) => {
                let strips = &case.assembly.strips;
                let over = strips.iter().flat_map(|strip| &strip.over);
                let layers = case.assembly.layers.iter().chain(over);
                let layers = layers.map(|layer| layer.name.clone());
                layers
                    .chain(strips.iter().map(|strip| strip.name.clone()))
                    .collect()
            }
            Self::Detail(case) => {
                let wood = case.blocks.iter().filter(|one| one.facts.is_wood());
                let parts = wood.flat_map(|one| {
                    let name = &one.block.name;
                    let apart = (one.facts.part == Part::Floor).then(|| {
                        [
                            format!("{name} inboard of the plate"),
                            format!("{name} under the plate"),
                        ]
                    });
                    apart.into_iter().flatten().chain([name.clone()])
                });
                let surfaces = case.surfaces.iter().map(|surface| surface.name.clone());
                parts.chain(surfaces).collect()
            }
        }
    }

    /// Whether a place names something of it: a layer, a plane `subfloor / bay`, a part of a detail.
    #[must_use]
    pub fn has_place(&self, place: &str) -> bool {
        let places = self.places();
        let mut sides = place.split(" / ");
        places.iter().any(|known| known == place)
            || sides.clone().count() > 1
                && sides.all(|side| places.iter().any(|known| known == side))
    }
}
