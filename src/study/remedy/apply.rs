//! A measure carried out on the model.

use std::sync::Arc;

use super::{Measure, Outside, OverStrip, Remedy};
use crate::model::drawn::{DetailPlan, FoamReach};
use crate::model::{Assembly, Content, Framing, Layer, LayerPlace, Project, Substance, VaporRate};
use crate::quantity::{Length, Permeability, Permeance};

impl Remedy {
    /// The project with its first measure carried out; `None` where the model has no change for it.
    #[must_use]
    pub fn apply(&self, project: &Project) -> Option<Project> {
        self.measures
            .first()?
            .apply(project, self.variant.as_deref())
    }
}

impl Measure {
    /// The project with it carried out under a variant, `None` as drawn: in the assembly, in details
    /// drawn from it, at every site. `None` where the model has no change for it.
    #[must_use]
    pub fn apply(&self, project: &Project, variant: Option<&str>) -> Option<Project> {
        let mut changed = project.clone();
        match self {
            Self::Told(_) => return None,
            Self::DrierRoom { humidity, .. } => {
                for stop in &mut changed.stops {
                    *stop = stop.with_humidity_at_most(*humidity);
                }
                return Some(changed);
            }
            Self::Shave(shave) => return super::house::shaved(project, variant, shave),
            _ => {}
        }
        let name = self.assembly()?;
        let mut done = false;
        for case in &mut changed.cases {
            if case.variant.as_deref() == variant && case.assembly.name == name {
                case.assembly = self.change(&case.assembly)?;
                done = true;
            }
        }
        for detail in &mut changed.details {
            let drawn = detail.plan.as_ref().map(DetailPlan::assemblies);
            let hangs_on_it = drawn.is_some_and(|all| all.iter().any(|one| one.name == name));
            if detail.variant.as_deref() == variant && hangs_on_it {
                *detail = detail.replanned(|plan| self.replan(plan)).ok()?;
                done = true;
            }
        }
        done.then_some(changed)
    }

    /// Carries it out on what a detail is drawn from.
    pub(super) fn replan(&self, plan: &mut DetailPlan) {
        for assembly in plan.assemblies_mut() {
            if Some(assembly.name.as_str()) == self.assembly()
                && let Some(changed) = self.change(assembly)
            {
                *assembly = changed;
            }
        }
        let reach: Option<FoamReach> = match self {
            Self::OverStrip(over) => over.reach,
            _ => None,
        };
        if let (DetailPlan::FloorEdge(edge), Some(reach)) = (plan, reach) {
            edge.foam = reach;
        }
    }

    /// The assembly it is about.
    #[must_use]
    pub fn assembly(&self) -> Option<&str> {
        match self {
            Self::OverStrip(over) => Some(&over.floor),
            Self::Outside(outside) => Some(&outside.assembly),
            Self::Seal { assembly, .. }
            | Self::Retarder { assembly, .. }
            | Self::Open { assembly, .. }
            | Self::Without { assembly, .. }
            | Self::Cavity { assembly, .. }
            | Self::Drain { assembly, .. } => Some(assembly),
            Self::DrierRoom { .. } | Self::Shave(_) | Self::Told(_) => None,
        }
    }

    /// The assembly with it carried out.
    pub(super) fn change(&self, assembly: &Assembly) -> Option<Assembly> {
        let edited = |layer: &str, edit: &dyn Fn(&mut Layer)| {
            let place = assembly.place_of(layer)?;
            let mut layer = assembly.unsettled().layer_at(place)?.clone();
            edit(&mut layer);
            Some(assembly.with_layer(place, layer))
        };
        match self {
            Self::OverStrip(over) => over.change(assembly),
            Self::Outside(outside) => outside.change(assembly),
            Self::Seal { layer, .. } => edited(layer, &|layer| layer.bonded = true),
            Self::Drain { layer, .. } => edited(layer, &|layer| layer.drains = true),
            Self::Without { layer, .. } => {
                let place = assembly.place_of(layer)?;
                let can = assembly.can_do_without(place);
                can.then(|| assembly.with_thickness(place, Length::from_m(0.0)))
            }
            Self::Cavity {
                layer, resistance, ..
            } => edited(layer, &|layer| layer.resistance = Some(*resistance)),
            Self::Open {
                layer, permeance, ..
            } => edited(layer, &|layer| opened(layer, *permeance)),
            Self::Retarder {
                layer,
                replaces: true,
                substance,
                ..
            } => edited(layer, &|layer| {
                layer.content = Content::Solid(Arc::new((**substance).clone()));
            }),
            Self::Retarder {
                layer, substance, ..
            } => {
                let LayerPlace::Layer(n) = assembly.place_of(layer)? else {
                    return None;
                };
                let thickness = substance.own_thickness.unwrap_or(Length::from_m(2e-4));
                let film = plain_layer("vapor retarder", substance, thickness);
                Some(with_inserted(assembly, n, film))
            }
            Self::DrierRoom { .. } | Self::Shave(_) | Self::Told(_) => None,
        }
    }
}

/// A layer's permeance at mid humidity set; what it does with humidity stays in proportion.
fn opened(layer: &mut Layer, permeance: Permeance) {
    let thickness = layer.thickness.as_m();
    let Content::Solid(substance) = &mut layer.content else {
        return;
    };
    let substance = Arc::make_mut(substance);
    substance.vapor = match substance.vapor {
        VaporRate::PerSheet(_) => VaporRate::PerSheet(permeance),
        VaporRate::PerThickness(_) => {
            let permeability = Permeability::from_si(permeance.as_si() * thickness);
            VaporRate::PerThickness(permeability)
        }
    };
}

fn plain_layer(name: &str, substance: &Substance, thickness: Length) -> Layer {
    Layer {
        name: name.to_owned(),
        content: Content::Solid(Arc::new(substance.clone())),
        thickness,
        resistance: None,
        bonded: false,
        bond_is_promised: false,
        built_in_water: false,
        drains: false,
        framing: None::<Framing>,
    }
}

/// A layer put in before the n-th; strips stay under the layers they lie under.
fn with_inserted(assembly: &Assembly, n: usize, mut layer: Layer) -> Assembly {
    let mut written = assembly.unsettled();
    while written.place_of(&layer.name).is_some() {
        layer.name.push_str(" too");
    }
    for strip in written.strips.iter_mut().filter(|strip| strip.under >= n) {
        strip.under += 1;
    }
    written.layers.insert(n, layer);
    written.settled()
}

impl OverStrip {
    fn change(&self, assembly: &Assembly) -> Option<Assembly> {
        let mut written = assembly.unsettled();
        let mut strips = written.strips.iter_mut();
        let strip = strips.find(|strip| strip.name == self.strip)?;
        match &self.replaces {
            Some(name) => {
                let layer = strip.over.iter_mut().find(|layer| layer.name == *name)?;
                layer.thickness = self.thickness;
                layer.bonded = true;
            }
            None => {
                let board = plain_layer("board over the steel", &self.substance, self.thickness);
                strip.over.push(Layer {
                    bonded: true,
                    ..board
                });
                written.proud = true;
            }
        }
        Some(written.settled())
    }
}

impl Outside {
    fn change(&self, assembly: &Assembly) -> Option<Assembly> {
        let place = assembly.place_of(&self.layer)?;
        if self.thickens {
            let now = assembly.written_thickness(place)?.as_m();
            let thickness = Length::from_m(now + self.thickness.as_m());
            return Some(assembly.with_thickness(place, thickness));
        }
        let LayerPlace::Layer(n) = place else {
            return None;
        };
        let board = plain_layer("board outside", &self.substance, self.thickness);
        Some(with_inserted(assembly, n + 1, board))
    }
}
