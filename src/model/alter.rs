//! A model with one thing changed: a layer's thickness or the layer itself, the room's humidity.
//! What sizing and sweeps are made of; whatever follows from the change is settled again.

use super::assembly::{Assembly, Layer};
use super::{Conditions, RoomVapor, Stop};
use crate::quantity::{Length, RelativeHumidity};

/// Where a layer stands in an assembly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayerPlace {
    /// Among the layers.
    Layer(usize),
    /// Over the metal of a strip.
    Over {
        /// Which strip.
        strip: usize,
        /// Which of the layers over it.
        layer: usize,
    },
}

impl Assembly {
    /// Where the layer of that name stands.
    #[must_use]
    pub fn place_of(&self, name: &str) -> Option<LayerPlace> {
        let named = |layer: &Layer| layer.name == name;
        let among = self.layers.iter().position(named).map(LayerPlace::Layer);
        among.or_else(|| {
            self.strips.iter().enumerate().find_map(|(strip, one)| {
                let layer = one.over.iter().position(named)?;
                Some(LayerPlace::Over { strip, layer })
            })
        })
    }

    /// The layer at a place.
    #[must_use]
    pub fn layer_at(&self, place: LayerPlace) -> Option<&Layer> {
        match place {
            LayerPlace::Layer(n) => self.layers.get(n),
            LayerPlace::Over { strip, layer } => self.strips.get(strip)?.over.get(layer),
        }
    }

    fn layer_at_mut(&mut self, place: LayerPlace) -> Option<&mut Layer> {
        match place {
            LayerPlace::Layer(n) => self.layers.get_mut(n),
            LayerPlace::Over { strip, layer } => self.strips.get_mut(strip)?.over.get_mut(layer),
        }
    }

    /// A layer's thickness as the file writes it: without what a proud frame adds.
    #[must_use]
    pub fn written_thickness(&self, place: LayerPlace) -> Option<Length> {
        let thickness = self.layer_at(place)?.thickness;
        let raised = self.raised().map(LayerPlace::Layer) == Some(place);
        let rise = if raised { self.rise.as_m() } else { 0.0 };
        Some(Length::from_m(thickness.as_m() - rise))
    }

    /// Whether the assembly still makes sense without that layer: members need one to cross, strips
    /// one to lie under, and air open to outdoors something inside of it.
    #[must_use]
    pub fn can_do_without(&self, place: LayerPlace) -> bool {
        match place {
            LayerPlace::Over { .. } => true,
            LayerPlace::Layer(n) => {
                let framed = self
                    .layers
                    .get(n)
                    .is_none_or(|layer| layer.framing.is_some());
                let over_strip = self.strips.iter().any(|strip| strip.under == n);
                let open = |layer: &Layer| layer.is_open_air();
                let alone = self.layers.len() < 2;
                let uncovers = n == 0 && self.layers.get(1).is_some_and(open);
                !(framed || over_strip || alone || uncovers)
            }
        }
    }

    /// The assembly with a layer at another thickness, written as in the file; at zero it is taken
    /// out. What hangs on it follows: a proud frame's rise, the bay it deepens, batts in it.
    ///
    /// # Example
    /// ```
    /// use dewmargin::quantity::Length;
    ///
    /// let text = include_str!("../../examples/cabin-floor-edge.yaml");
    /// let project = dewmargin::input::resolve_text("edge.yaml", text).unwrap();
    /// let proud = project.cases.iter().find(|case| case.assembly.proud).unwrap();
    /// let inch = proud.assembly.rise.as_m();
    /// let foam = proud.assembly.place_of("flange foam").unwrap();
    ///
    /// // Twice the foam lifts the frame twice as far, and the bay gets that much deeper.
    /// let thicker = proud.assembly.with_thickness(foam, Length::from_m(2.0 * inch));
    /// assert!((thicker.rise.as_m() - 2.0 * inch).abs() < 1e-12);
    /// let deeper = thicker.layers[2].thickness.as_m() - proud.assembly.layers[2].thickness.as_m();
    /// assert!((deeper - inch).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn with_thickness(&self, place: LayerPlace, thickness: Length) -> Self {
        let mut written = self.unsettled();
        if thickness.as_m() <= 0.0 {
            written.take_out(place);
        } else if let Some(layer) = written.layer_at_mut(place) {
            layer.thickness = thickness;
        }
        written.settled()
    }

    /// The assembly with another layer in the place of one.
    #[must_use]
    pub fn with_layer(&self, place: LayerPlace, layer: Layer) -> Self {
        let mut written = self.unsettled();
        if let Some(old) = written.layer_at_mut(place) {
            *old = layer;
        }
        written.settled()
    }

    fn take_out(&mut self, place: LayerPlace) {
        match place {
            LayerPlace::Layer(n) if n < self.layers.len() => {
                self.layers.remove(n);
                let below = self.strips.iter_mut().filter(|strip| strip.under > n);
                below.for_each(|strip| strip.under -= 1);
            }
            LayerPlace::Over { strip, layer } => {
                if let Some(strip) = self.strips.get_mut(strip)
                    && layer < strip.over.len()
                {
                    strip.over.remove(layer);
                }
            }
            LayerPlace::Layer(_) => {}
        }
    }
}

impl Conditions {
    /// The same with the room at one relative humidity all year.
    #[must_use]
    pub fn with_humidity(&self, humidity: RelativeHumidity) -> Self {
        let mut changed = *self;
        changed.indoor.humidity = humidity;
        for month in changed.year.iter_mut().flatten() {
            month.indoor.humidity = humidity;
        }
        changed
    }
}

impl Stop {
    /// The same with the room at one relative humidity all year, instead of where it came from.
    #[must_use]
    pub fn with_humidity(&self, humidity: RelativeHumidity) -> Self {
        let mut changed = self.clone();
        changed.indoor.vapor = RoomVapor::Humidity(humidity);
        changed.conditions = self.conditions.with_humidity(humidity);
        changed
    }
}

impl Stop {
    /// The same with the room nowhere and never more humid than that.
    #[must_use]
    pub fn with_humidity_at_most(&self, most: RelativeHumidity) -> Self {
        let capped = |humidity: RelativeHumidity| match humidity.as_fraction() > most.as_fraction()
        {
            true => most,
            false => humidity,
        };
        let mut changed = self.clone();
        if let RoomVapor::Humidity(humidity) = changed.indoor.vapor {
            changed.indoor.vapor = RoomVapor::Humidity(capped(humidity));
        }
        let conditions = &mut changed.conditions;
        conditions.indoor.humidity = capped(conditions.indoor.humidity);
        for month in conditions.year.iter_mut().flatten() {
            month.indoor.humidity = capped(month.indoor.humidity);
        }
        changed
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::model::{AirSpace, AssemblyKind, Content, Films, Strip, StripPlace, SurfaceOffsets};
    use crate::model::{Framing, Spread, Substance, VaporRate};
    use crate::quantity::{Conductivity, Permeance, Share};

    fn substance(own_thickness: Option<f64>) -> Substance {
        Substance {
            label: "test".into(),
            kind: None,
            board: None,
            air_permeable: false,
            conductivity: Some(Conductivity::from_si(0.04)),
            by_temperature: Vec::new(),
            conductivity_spread: Spread::NONE,
            vapor: VaporRate::PerSheet(Permeance::from_si(1e-10)),
            by_humidity: Vec::new(),
            vapor_spread: Spread::NONE,
            own_thickness: own_thickness.map(Length::from_m),
            density: None,
            areal_density: None,
            mold: None,
            prices: Vec::new(),
            sources: Vec::new(),
        }
    }

    fn layer(name: &str, thickness: f64) -> Layer {
        Layer {
            name: name.into(),
            content: Content::Solid(Arc::new(substance(None))),
            thickness: Length::from_m(thickness),
            resistance: None,
            bonded: false,
            bond_is_promised: false,
            built_in_water: false,
            drains: false,
            framing: None,
        }
    }

    /// Finish, deck, and a batt-filled bay below a strip with foam over it.
    fn floor(proud: bool) -> Assembly {
        let bay = Layer {
            content: Content::Solid(Arc::new(substance(Some(0.14)))),
            framing: Some(Framing {
                substance: Arc::new(substance(None)),
                share: Share::from_fraction(0.1),
                crosswise: false,
                members: None,
                clear_below: Length::from_m(0.0),
            }),
            ..layer("bay", 0.14)
        };
        let strip = Strip {
            name: "flange".into(),
            at: StripPlace::Edge,
            metal: Arc::new(substance(None)),
            thickness: Length::from_m(0.006),
            width: Length::from_m(0.1),
            share: Share::from_fraction(0.08),
            under: 1,
            over: vec![layer("foam", 0.025)],
        };
        let written = Assembly {
            name: "floor".into(),
            kind: AssemblyKind::Floor,
            layers: vec![layer("finish", 0.012), layer("deck", 0.019), bay],
            strips: vec![strip],
            films: Films::default(),
            surface_offsets: SurfaceOffsets::default(),
            proud,
            rise: Length::from_m(0.0),
            notes: Vec::new(),
        };
        written.settled()
    }

    const FOAM: LayerPlace = LayerPlace::Over { strip: 0, layer: 0 };

    #[test]
    fn the_same_thickness_changes_nothing() {
        for proud in [false, true] {
            let floor = floor(proud);
            assert_eq!(floor.with_thickness(FOAM, Length::from_m(0.025)), floor);
            let bay = floor.place_of("bay").unwrap();
            let written = floor.written_thickness(bay).unwrap();
            assert_eq!(floor.with_thickness(bay, written), floor);
        }
    }

    #[test]
    fn without_foam_a_proud_frame_lies_flush_and_the_batt_fills_its_bay() {
        let floor = floor(true);
        assert!(
            floor.layers[2].resistance.is_some(),
            "the bay is deeper than the batt"
        );
        let bare = floor.with_thickness(FOAM, Length::from_m(0.0));
        assert!(bare.strips[0].over.is_empty());
        assert_eq!(bare.rise, Length::from_m(0.0));
        assert!((bare.layers[2].thickness.as_m() - 0.14).abs() < 1e-12);
        assert_eq!(bare.layers[2].resistance, None);
    }

    #[test]
    fn a_layer_taken_out_moves_the_strips_up() {
        let floor = floor(false);
        let finish = floor.place_of("finish").unwrap();
        let without = floor.with_thickness(finish, Length::from_m(0.0));
        assert_eq!(without.layers.len(), 2);
        assert_eq!(without.strips[0].under, 0);
    }

    #[test]
    fn what_others_hang_on_stays() {
        let floor = floor(false);
        let can = |name: &str| floor.can_do_without(floor.place_of(name).unwrap());
        assert!(can("finish") && can("foam"));
        assert!(!can("deck"), "the strip lies under it");
        assert!(!can("bay"), "members cross it");
        let mut covered = floor.clone();
        covered.layers[1].content = Content::Air(AirSpace::Ventilated);
        assert!(!covered.can_do_without(LayerPlace::Layer(0)));
        assert_eq!(floor.place_of("nothing"), None);
    }
}
