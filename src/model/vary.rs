//! An assembly with one material property moved: what worst cases and flip values are made of.

use std::sync::Arc;

use super::VaporRate;
use super::assembly::{Assembly, Content, Layer, Spread, Substance};

/// Which property of a material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PropertyKind {
    /// Thermal conductivity.
    Conductivity,
    /// Vapor permeability or permeance, at every humidity alike.
    Vapor,
}

/// Which solid of an assembly: of layers one behind the other with the same one, the first stands for
/// all, since what is bought together spreads together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    /// What fills a layer.
    Layer(usize),
    /// The members that cross it.
    Member(usize),
    /// A layer over a strip.
    Over(usize, usize),
}

/// One property of one solid in an assembly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Property {
    part: Part,
    /// Which property.
    pub kind: PropertyKind,
    /// How far it spreads between specimens.
    pub spread: Spread,
}

impl Assembly {
    /// Every property that moves the results, layer by layer; those without a known spread too.
    #[must_use]
    pub fn properties(&self) -> Vec<Property> {
        let mut parts: Vec<Part> = Vec::new();
        for (n, layer) in self.layers.iter().enumerate() {
            parts.push(Part::Layer(n));
            parts.extend(layer.framing.as_ref().map(|_| Part::Member(n)));
        }
        parts.retain(|part| !self.goes_on(*part));
        for (s, strip) in self.strips.iter().enumerate() {
            parts.extend((0..strip.over.len()).map(|n| Part::Over(s, n)));
        }
        parts
            .into_iter()
            .flat_map(|part| self.of_part(part))
            .collect()
    }

    fn of_part(&self, part: Part) -> Vec<Property> {
        let Some(substance) = self.substance(part) else {
            return Vec::new();
        };
        let mut found = Vec::new();
        if substance.conductivity.is_some() && self.resistance_is_its_own(part) {
            found.push(Property {
                part,
                kind: PropertyKind::Conductivity,
                spread: substance.conductivity_spread,
            });
        }
        if substance.vapor.as_si() > 0.0 {
            found.push(Property {
                part,
                kind: PropertyKind::Vapor,
                spread: substance.vapor_spread,
            });
        }
        found
    }

    /// Whether the layer's resistance follows from its conductivity rather than from the file.
    fn resistance_is_its_own(&self, part: Part) -> bool {
        match part {
            Part::Member(_) => true,
            _ => self
                .layer(part)
                .is_some_and(|layer| layer.resistance.is_none()),
        }
    }

    /// Whether the layer before it holds the same solid.
    fn goes_on(&self, part: Part) -> bool {
        let before = match part {
            Part::Layer(n) => n.checked_sub(1).map(Part::Layer),
            Part::Member(n) => n.checked_sub(1).map(Part::Member),
            Part::Over(..) => None,
        };
        let solid = |part: Part| self.substance(part);
        before.is_some_and(|before| solid(before).is_some() && solid(before) == solid(part))
    }

    /// A part with those that go on from it.
    fn run(&self, part: Part) -> impl Iterator<Item = Part> {
        let next = |part: &Part| match *part {
            Part::Layer(n) => Some(Part::Layer(n + 1)),
            Part::Member(n) => Some(Part::Member(n + 1)),
            Part::Over(..) => None,
        };
        std::iter::successors(Some(part), move |part| {
            next(part).filter(|next| self.goes_on(*next))
        })
    }

    fn layer(&self, part: Part) -> Option<&Layer> {
        match part {
            Part::Layer(n) | Part::Member(n) => self.layers.get(n),
            Part::Over(s, n) => self.strips.get(s)?.over.get(n),
        }
    }

    fn substance(&self, part: Part) -> Option<&Substance> {
        let layer = self.layer(part)?;
        match (part, &layer.content) {
            (Part::Member(_), _) => layer.framing.as_ref().map(|framing| &*framing.substance),
            (_, Content::Solid(substance)) => Some(substance),
            (_, Content::Air(_)) => None,
        }
    }

    /// The assembly with a property multiplied by a factor.
    #[must_use]
    pub fn with(&self, property: &Property, factor: f64) -> Self {
        let mut changed = self.clone();
        changed.multiply(property, factor);
        changed
    }

    /// Multiplies a property by a factor.
    pub fn multiply(&mut self, property: &Property, factor: f64) {
        let run: Vec<Part> = self.run(property.part).collect();
        for part in run {
            self.multiply_one(part, property.kind, factor);
        }
    }

    fn multiply_one(&mut self, part: Part, kind: PropertyKind, factor: f64) {
        let layer = match part {
            Part::Layer(n) | Part::Member(n) => self.layers.get_mut(n),
            Part::Over(s, n) => self
                .strips
                .get_mut(s)
                .and_then(|strip| strip.over.get_mut(n)),
        };
        let Some(layer) = layer else { return };
        let substance = match (part, &mut layer.content) {
            (Part::Member(_), _) => layer.framing.as_mut().map(|framing| &mut framing.substance),
            (_, Content::Solid(substance)) => Some(substance),
            (_, Content::Air(_)) => None,
        };
        if let Some(substance) = substance {
            Arc::make_mut(substance).multiply(kind, factor);
        }
    }

    /// `sheathing`, or `studs framing` for its members.
    #[must_use]
    pub fn part_name(&self, property: &Property) -> String {
        let name = self
            .layer(property.part)
            .map_or("", |layer| layer.name.as_str());
        match property.part {
            Part::Member(_) => format!("{name} framing"),
            _ => name.to_owned(),
        }
    }

    /// The property's nominal value for the layer as a whole, with those that go on from it:
    /// permeance in kg/(s·m²·Pa), or resistance in m²·K/W.
    #[must_use]
    pub fn layer_value(&self, property: &Property) -> Option<f64> {
        let run = self.run(property.part);
        let resistances = run.map(|part| self.resistance_of(part, property.kind));
        let resistance = resistances.sum::<Option<f64>>()?;
        Some(match property.kind {
            PropertyKind::Conductivity => resistance,
            PropertyKind::Vapor => 1.0 / resistance,
        })
    }

    /// Resistance to heat in m²·K/W, or to vapor in m²·s·Pa/kg.
    fn resistance_of(&self, part: Part, kind: PropertyKind) -> Option<f64> {
        let layer = self.layer(part)?;
        let depth = match part {
            Part::Member(_) => layer.member_depth()?,
            Part::Layer(_) | Part::Over(..) => layer.thickness,
        };
        let thickness = depth.as_m();
        let substance = self.substance(part)?;
        match kind {
            PropertyKind::Conductivity => Some(thickness / substance.conductivity?.as_si()),
            PropertyKind::Vapor => Some(match substance.vapor {
                VaporRate::PerThickness(permeability) => thickness / permeability.as_si(),
                VaporRate::PerSheet(permeance) => 1.0 / permeance.as_si(),
            }),
        }
    }
}

impl Substance {
    fn multiply(&mut self, kind: PropertyKind, factor: f64) {
        use crate::quantity::{Conductivity, Permeability, Permeance};
        let times = |k: Conductivity| Conductivity::from_si(k.as_si() * factor);
        match kind {
            PropertyKind::Conductivity => {
                self.conductivity = self.conductivity.map(times);
                self.by_temperature
                    .iter_mut()
                    .for_each(|(_, k)| *k = times(*k));
            }
            PropertyKind::Vapor => {
                self.vapor = match self.vapor {
                    VaporRate::PerThickness(value) => {
                        VaporRate::PerThickness(Permeability::from_si(value.as_si() * factor))
                    }
                    VaporRate::PerSheet(value) => {
                        VaporRate::PerSheet(Permeance::from_si(value.as_si() * factor))
                    }
                };
            }
        }
    }
}
