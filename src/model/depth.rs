//! How deep layers really are: a proud frame deepens its bay, not its joists, and a batt keeps its
//! own thickness.

use super::{Assembly, Content, Layer, Strip, Told, ToldPart, runs_of_members};
use crate::quantity::{Length, ThermalResistance};

impl Assembly {
    /// Settles what follows from thicknesses as they are written: the rise of a proud frame and the
    /// bay it deepens, the resistance of batts in a space deeper than themselves, and the remarks
    /// on both.
    #[must_use]
    pub fn settled(mut self) -> Self {
        let (rise, mut notes) = raise(self.proud, &mut self.layers, &self.strips);
        if let Some(bay) = self.raised() {
            clear_below(&mut self.layers, bay, rise);
        }
        notes.extend(self.layers.iter_mut().filter_map(keep_own_resistance));
        self.rise = rise;
        self.notes = notes;
        self
    }

    /// Thicknesses as they were written, to be changed and settled again.
    #[must_use]
    pub fn unsettled(&self) -> Self {
        let mut written = self.clone();
        let raised = self.raised().filter(|_| self.rise.as_m() > 0.0);
        if let Some(bay) = raised.and_then(|bay| written.layers.get_mut(bay)) {
            bay.thickness = Length::from_m(bay.thickness.as_m() - self.rise.as_m());
        }
        for layer in &mut written.layers {
            if let Some(framing) = &mut layer.framing {
                framing.clear_below = Length::from_m(0.0);
            }
            if layer.resistance.is_some() && layer.resistance == own_resistance(layer) {
                layer.resistance = None;
            }
        }
        written.rise = Length::from_m(0.0);
        written.notes.clear();
        written
    }

    /// The bay that a proud frame deepens: the first framed layer below the strips.
    #[must_use]
    pub fn raised(&self) -> Option<usize> {
        self.proud
            .then(|| raised(&self.layers, &self.strips))
            .flatten()
    }
}

fn raised(layers: &[Layer], strips: &[Strip]) -> Option<usize> {
    let below = strips.iter().map(|strip| strip.under + 1).min();
    let below = below.unwrap_or(0);
    let framed = |layer: &Layer| layer.framing.is_some();
    let at = layers.iter().skip(below).position(framed)?;
    Some(below + at)
}

/// Raises a proud frame by what lies over the strips: the first framed layer below them gets that
/// much deeper. A flush frame under such layers is remarked on.
fn raise(proud: bool, layers: &mut [Layer], strips: &[Strip]) -> (Length, Vec<Told>) {
    let height = |strip: &Strip| {
        strip
            .over
            .iter()
            .map(|layer| layer.thickness.as_m())
            .sum::<f64>()
    };
    let rise = strips.iter().map(height).fold(0.0, f64::max);
    if rise == 0.0 {
        let note = "the frame is proud, but nothing lies over the strips: drawn flush";
        return (
            Length::from_m(0.0),
            proud.then(|| note.into()).into_iter().collect(),
        );
    }
    if !proud {
        let note = Told::of([
            "the frame is flush, but ".into(),
            Length::from_m(rise).into(),
            " lies over a strip: write `frame: proud`, or say how the floor beside it is packed"
                .into(),
        ]);
        return (Length::from_m(0.0), vec![note]);
    }
    match raised(layers, strips).and_then(|bay| layers.get_mut(bay)) {
        Some(bay) => {
            bay.thickness = bay.thickness + Length::from_m(rise);
            (Length::from_m(rise), Vec::new())
        }
        None => {
            let note = Told::of([
                "the frame is proud by ".into(),
                Length::from_m(rise).into(),
                ", but no framed layer gets deeper".into(),
            ]);
            (Length::from_m(rise), vec![note])
        }
    }
}

/// Joists that are raised keep their own depth: what lies below them is the bay's, as far up as
/// they were raised. Where they run through several layers that starts at the outermost one.
fn clear_below(layers: &mut [Layer], bay: usize, rise: Length) {
    let runs = runs_of_members(layers);
    let Some(run) = runs.into_iter().find(|run| run.contains(&bay)) else {
        return;
    };
    let mut rest = rise.as_m();
    for layer in layers[run].iter_mut().rev() {
        let here = rest.min(layer.thickness.as_m());
        rest -= here;
        if let Some(framing) = &mut layer.framing {
            framing.clear_below = Length::from_m(here);
        }
    }
}

/// A batt in a space deeper than itself keeps the resistance of its own thickness.
fn keep_own_resistance(layer: &mut Layer) -> Option<Told> {
    let Content::Solid(substance) = &layer.content else {
        return None;
    };
    let own = substance.own_thickness?;
    substance.conductivity?;
    let is_deeper = layer.thickness.as_m() > own.as_m() + 1e-3;
    if layer.resistance.is_some() || !is_deeper {
        return None;
    }
    let note = Told::of([
        ToldPart::Text(format!("`{}` is ", layer.name)),
        layer.thickness.into(),
        ToldPart::Text(format!(" deep, but {} comes ", substance.label)),
        own.into(),
        " thick: it keeps that resistance, and the gap isn't counted".into(),
    ]);
    layer.resistance = own_resistance(layer);
    Some(note)
}

fn own_resistance(layer: &Layer) -> Option<ThermalResistance> {
    let Content::Solid(substance) = &layer.content else {
        return None;
    };
    let (own, conductivity) = (substance.own_thickness?, substance.conductivity?);
    Some(ThermalResistance::from_si(
        own.as_m() / conductivity.as_si(),
    ))
}
