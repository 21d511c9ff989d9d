//! The floor edge's solids, from the floor up.

use super::FoamReach;
use super::frame::Frame;
use crate::model::Substance;
use crate::model::detail::{Area, LEAST_SIZE};
use crate::model::drawn::case::Part;
use crate::model::drawn::drawing::{Drawing, EdgeKey, EdgeProblem, Stuff};
use crate::model::drawn::layers::{conducting, is_metal};

impl Frame<'_> {
    pub(super) fn draw_floor(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let floor = &self.edge.floor;
        let right = self.right();
        let mut y = self.floor_top;
        for (n, layer) in self.floor.all.iter().enumerate() {
            let (top, bottom) = (y, y - layer.thickness);
            y = bottom;
            let left = match n {
                n if n < self.deck => 0.0,
                n if n <= self.under => self.plate_outer,
                _ => self.flange_inner,
            };
            let part = match n + 1 == self.floor.all.len() && is_metal(layer.layer) {
                true => Part::Pan,
                false => Part::Floor,
            };
            let stuff = Stuff::Layer(floor, *layer);
            let name = &layer.layer.name;
            if layer.thickness == 0.0 && layer.layer.bonded {
                drawing.seal(name, Area::new(left, right, top, top));
            }
            drawing.block(
                name,
                part,
                &stuff,
                Area::new(left, right, bottom, top),
                false,
            );
            if n > self.under {
                // Beneath the flange, as far as its steel leaves room.
                let top = top.min(self.flange_bottom);
                let area = Area::new(self.frame_outer, self.flange_inner, bottom, top);
                let name = format!("{name} under the flange");
                drawing.block(&name, part, &stuff, area, false);
            }
        }
        self.draw_over(drawing)?;
        self.draw_rim(drawing)
    }

    /// Where the packing under the plate ends and what lies over the flange starts.
    pub(super) fn packed(&self) -> f64 {
        match self.edge.foam {
            FoamReach::UnderPlate => self.plate_outer,
            FoamReach::PlateInnerEdge => self.plate_inner.min(self.flange_inner),
        }
    }

    /// What lies over the flange, and the packing under the plate.
    fn draw_over(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let packed = self.packed();
        let mut y = 0.0;
        for layer in &self.over {
            let area = Area::new(packed, self.flange_inner, y - layer.thickness, y);
            y = area.bottom;
            let stuff = Stuff::Layer(&self.edge.floor, *layer);
            drawing.block(&layer.layer.name, Part::OverFlange, &stuff, area, false);
            if layer.thickness == 0.0 && layer.layer.bonded {
                drawing.seal(&layer.layer.name, area);
            }
        }
        if self.flange_top < -LEAST_SIZE && packed > self.plate_outer + LEAST_SIZE {
            let (wood, k) = self.plate_wood()?;
            let area = Area::new(self.plate_outer, packed, self.flange_top, 0.0);
            let stuff = Stuff::Substance(wood, k);
            drawing.block(
                "packing under the plate",
                Part::Packing,
                &stuff,
                area,
                false,
            );
        }
        if self.flange_top < -LEAST_SIZE && packed >= self.flange_inner - LEAST_SIZE {
            drawing.notes([format!(
                "`{}` ends under the plate, so nothing lies over it: foam that reaches on under \
                 the plate needs `foam: {{reach: under-plate}}`",
                self.flange.name
            )]);
        }
        Ok(())
    }

    fn draw_rim(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let (Some(area), Some((bay, _))) = (self.rim, self.bay()) else {
            let note = "the floor has no framed layer below the flange: no rim joist is drawn";
            drawing.notes([note.to_owned()]);
            return Ok(());
        };
        let own = self.edge.rim_joist.substance.as_ref();
        let framing = bay.layer.framing.as_ref();
        let framing = framing.map(|framing| &*framing.substance);
        let Some((wood, k)) = own.or(framing).and_then(conducting) else {
            let message = "how the rim joist conducts isn't known";
            let expected = "expected `rim-joist: {material: …}`";
            return Err(EdgeProblem::new(EdgeKey::RimJoist, message, expected));
        };
        drawing.block(
            "rim joist",
            Part::RimJoist,
            &Stuff::Substance(wood, k),
            area,
            true,
        );
        // Framing that crosses a bonded layer counts as bonded there.
        if bay.layer.bonded {
            drawing.bond_last();
        }
        Ok(())
    }

    pub(super) fn draw_steel(&self, drawing: &mut Drawing) {
        if let Some((metal, k)) = conducting(&self.flange.metal) {
            let area = Area::new(
                self.frame_outer,
                self.flange_inner,
                self.flange_bottom,
                self.flange_top,
            );
            let stuff = Stuff::Substance(metal, k);
            drawing.block(&self.flange.name, Part::Flange, &stuff, area, false);
        }
        if let Some(rail) = &self.edge.rail {
            rail.draw(
                drawing,
                self.frame_outer,
                self.rail_bottom,
                self.flange_bottom,
            );
        }
        let pan = self.floor.all.last().filter(|layer| is_metal(layer.layer));
        if let Some(pan) = pan {
            let (left, right) = (self.frame_outer, self.frame_outer + pan.thickness);
            let area = Area::new(left, right, self.pan_top, self.rail_bottom);
            let stuff = Stuff::Layer(&self.edge.floor, *pan);
            let name = format!("{} turned up", pan.layer.name);
            drawing.block(&name, Part::Pan, &stuff, area, true);
        }
    }

    fn plate_wood(&self) -> Result<(&Substance, f64), EdgeProblem> {
        let own = self.edge.plate.substance.as_ref();
        let framing = self.wall.all[self.studs].layer.framing.as_ref();
        let framing = framing.map(|framing| &*framing.substance);
        own.or(framing).and_then(conducting).ok_or_else(|| {
            let message = "the plate's material isn't known: the wall has no framed layer";
            let expected = "expected `plate: {material: spruce-pine-fir}`";
            EdgeProblem::new(EdgeKey::Plate, message, expected)
        })
    }

    pub(super) fn plate_top(&self) -> f64 {
        self.deck_top + self.edge.plate.thickness.as_m()
    }

    pub(super) fn draw_wall(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let (wood, k) = self.plate_wood()?;
        let plate_top = self.plate_top();
        let plate = Area::new(self.plate_outer, self.plate_inner, self.deck_top, plate_top);
        drawing.block(
            "plate",
            Part::Plate,
            &Stuff::Substance(wood, k),
            plate,
            false,
        );
        let mut x = 0.0;
        for (n, layer) in self.wall.all.iter().enumerate() {
            let (left, right) = (x - layer.thickness, x);
            x = left;
            let bottom = match n.cmp(&self.studs) {
                std::cmp::Ordering::Less => self.deck_top,
                std::cmp::Ordering::Equal => plate_top,
                std::cmp::Ordering::Greater => self.flange_top,
            };
            let area = Area::new(left, right, bottom, self.top());
            if layer.thickness == 0.0 && layer.layer.bonded {
                drawing.seal(&layer.layer.name, area);
            }
            let stuff = Stuff::Layer(&self.edge.wall, *layer);
            drawing.block(&layer.layer.name, Part::Wall, &stuff, area, false);
        }
        Ok(())
    }
}
