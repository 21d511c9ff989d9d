//! How deep layers really are: a proud frame deepens its bay, a batt keeps its own thickness.

use crate::model::{Content, Layer, Strip};
use crate::quantity::{Length, ThermalResistance};

/// Raises a proud frame by what lies over the strips: the first framed layer below them gets that
/// much deeper. A flush frame under such layers is remarked on.
pub(super) fn raise(proud: bool, layers: &mut [Layer], strips: &[Strip]) -> (Length, Vec<String>) {
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
            proud.then(|| note.to_owned()).into_iter().collect(),
        );
    }
    let inches = crate::quantity::inches(Length::from_m(rise));
    if !proud {
        let note = format!(
            "the frame is flush, but {inches} lies over a strip: write `frame: proud`, or say how \
             the floor beside it is packed"
        );
        return (Length::from_m(0.0), vec![note]);
    }
    let below = strips
        .iter()
        .map(|strip| strip.under + 1)
        .min()
        .unwrap_or(0);
    match layers
        .iter_mut()
        .skip(below)
        .find(|layer| layer.framing.is_some())
    {
        Some(bay) => {
            bay.thickness = bay.thickness + Length::from_m(rise);
            (Length::from_m(rise), Vec::new())
        }
        None => {
            let note = format!("the frame is proud by {inches}, but no framed layer gets deeper");
            (Length::from_m(rise), vec![note])
        }
    }
}

/// A batt in a space deeper than itself keeps the resistance of its own thickness.
pub(super) fn keep_own_resistance(layer: &mut Layer) -> Option<String> {
    let Content::Solid(substance) = &layer.content else {
        return None;
    };
    let (own, conductivity) = (substance.own_thickness?, substance.conductivity?);
    let is_deeper = layer.thickness.as_m() > own.as_m() + 1e-3;
    if layer.resistance.is_some() || !is_deeper {
        return None;
    }
    let note = format!(
        "`{}` is {} deep, but {} comes {} thick: it keeps that resistance, and the gap isn't counted",
        layer.name,
        crate::quantity::inches(layer.thickness),
        substance.label,
        crate::quantity::inches(own),
    );
    layer.resistance = Some(ThermalResistance::from_si(
        own.as_m() / conductivity.as_si(),
    ));
    Some(note)
}

#[cfg(test)]
mod tests {
    use crate::input::resolve_text;
    use approx::assert_abs_diff_eq;

    fn project(layers: &str) -> crate::model::Project {
        let text = format!(
            "indoor: {{heating: 68 F, humidity: 50 %}}\n\
             outdoor: {{winter-mean: {{temperature: 41 F, humidity: 82 %}}}}\n\
             assemblies: {{wall: {{kind: wall, layers: [{layers}]}}}}\n"
        );
        resolve_text("test.yaml", &text).unwrap()
    }

    #[test]
    fn a_batt_in_a_deeper_space_keeps_its_own_resistance() {
        let project = project("{name: bay, material: R-21 batt, thickness: 70 in}");
        let assembly = &project.cases[0].assembly;
        let r = assembly.layers[0].resistance.unwrap().as_si() / crate::quantity::unit::R_VALUE;
        assert_abs_diff_eq!(r, 21.0, epsilon = 0.01);
        assert_eq!(assembly.notes.len(), 1);
    }

    #[test]
    fn a_batt_at_its_own_thickness_is_left_alone() {
        let project = project("{name: bay, material: R-21 batt, thickness: 5-1/2 in}");
        assert!(project.cases[0].assembly.notes.is_empty());
    }
}
