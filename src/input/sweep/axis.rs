//! One axis: what it changes, and whether that can be changed.

use super::steps::steps;
use super::text::StepsText;
use super::{AxisText, Entry};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::input::layer::{layer, missing_name};
use crate::input::schema::{AssemblyText, LayerText};
use crate::input::surroundings::Files;
use crate::input::surroundings::Surroundings;
use crate::model::{Assembly, AxisValues, Content, Indoor, LayerPlace, RoomVapor};
use crate::quantity::{Offset, RelativeHumidity, Ventilation};

/// An assembly, resolved and as written.
type Both<'a> = (&'a Assembly, &'a AssemblyText);

impl Entry<'_> {
    /// The values of an axis.
    pub(super) fn values(
        &self,
        (name, text): (&At<Word>, &AxisText),
        base: Both<'_>,
        files: &mut Files<'_>,
        problems: &mut Problems,
    ) -> Option<AxisValues> {
        if !text.complete {
            return None;
        }
        let changes = [
            text.thickness.is_some(),
            text.material.is_some(),
            text.humidity.is_some(),
            text.climate.is_some(),
            text.ventilation.is_some(),
        ];
        let count = changes.iter().filter(|given| **given).count();
        let of_layer = text.thickness.is_some() || text.material.is_some();
        if count != 1 || of_layer != text.layer.is_some() {
            let message = match count {
                1 if of_layer => format!("axis `{}` names no layer", name.value.0),
                1 => format!("axis `{}` is of the air, not of a layer", name.value.0),
                0 => format!("axis `{}` changes nothing", name.value.0),
                _ => format!("axis `{}` changes more than one thing", name.value.0),
            };
            let label = "expected `layer:` with `thickness:` or `material:`, or one of `humidity:`, \
                         `climate:`, `ventilation:`";
            problems.push(Problem::at(name.span, message).expected(label));
            return None;
        }
        if let Some(layer) = &text.layer {
            let (place, written) = self.layer(layer, base, problems)?;
            return match (&text.thickness, &text.material) {
                (Some(steps), _) => self.thickness((name, layer), place, base.0, steps, problems),
                (_, Some(materials)) => {
                    self.materials((name, layer), written, &materials.0, problems)
                }
                _ => None,
            };
        }
        if let Some(humidity) = &text.humidity {
            return self.humidity(name, humidity, problems);
        }
        if let Some(ventilation) = &text.ventilation {
            return self.ventilation(name, ventilation, problems);
        }
        let climates = text.climate.as_ref()?;
        if climates.0.is_empty() {
            let message = format!("axis `{}` is empty", name.value.0);
            problems
                .push(Problem::at(name.span, message).expected("expected at least one climate"));
            return None;
        }
        let around = self.around.surroundings;
        let surroundings = Surroundings {
            indoor: around.indoor.clone(),
            outdoor: None,
            climates: climates.0.clone(),
            code: around.code.clone(),
            complete: around.complete,
        };
        surroundings.stops(files, problems).map(AxisValues::Climate)
    }

    fn layer<'b>(
        &self,
        name: &At<Word>,
        (assembly, text): (&Assembly, &'b AssemblyText),
        problems: &mut Problems,
    ) -> Option<(LayerPlace, &'b LayerText)> {
        let strips = || text.strips.iter().flatten();
        let over = strips().flat_map(|strip| strip.over.iter().flatten());
        let all: Vec<&LayerText> = text.layers.iter().chain(over).collect();
        let written = all.iter().find(|one| one.name.value == name.value);
        let found = assembly.place_of(&name.value.0).zip(written.copied());
        if found.is_none() {
            let known = all.iter().map(|one| one.name.value.0.as_str());
            problems.push(missing_name("layer", name, known));
        }
        found
    }

    fn thickness(
        &self,
        (name, layer): (&At<Word>, &At<Word>),
        place: LayerPlace,
        assembly: &Assembly,
        text: &StepsText<Offset>,
        problems: &mut Problems,
    ) -> Option<AxisValues> {
        let called = &layer.value.0;
        let without_effect = assembly
            .layer_at(place)
            .and_then(|layer| match &layer.content {
                Content::Solid(substance) if substance.own_thickness.is_some() => None,
                Content::Solid(_) if layer.resistance.is_some() => Some("has a stated `r-value`"),
                Content::Solid(substance) if substance.conductivity.is_none() => Some("is a sheet"),
                _ => None,
            });
        if let Some(why) = without_effect {
            let message = format!("`{called}` {why}: its thickness changes nothing");
            let label = "expected a layer with a material or a conductivity";
            problems.push(Problem::at(layer.span, message).expected(label));
            return None;
        }
        let optional = assembly.can_do_without(place);
        let value = |at: &At<Offset>, problems: &mut Problems| {
            let m = at.value.as_m();
            if m < 0.0 || m == 0.0 && !optional {
                let message = match m < 0.0 {
                    true => "a layer can't be thinner than nothing".to_owned(),
                    false => format!("`{called}` can't be left out"),
                };
                problems.push(Problem::at(at.span, message).expected("expected more than 0 here"));
                return None;
            }
            Some(m)
        };
        let step = |at: &At<Offset>, _: &mut Problems| Some(at.value.as_m());
        let steps = steps(name, text, &value, &step, problems)?;
        Some(AxisValues::Thickness {
            layer: called.clone(),
            steps,
        })
    }

    fn materials(
        &self,
        (name, called): (&At<Word>, &At<Word>),
        written: &LayerText,
        materials: &[At<Word>],
        problems: &mut Problems,
    ) -> Option<AxisValues> {
        if materials.is_empty() {
            let message = format!("axis `{}` is empty", name.value.0);
            problems
                .push(Problem::at(name.span, message).expected("expected at least one material"));
            return None;
        }
        let own = [
            written.r_value.is_some(),
            written.conductivity.is_some(),
            written.permeance.is_some(),
            written.permeability.is_some(),
        ];
        if written.material.is_none() || own.contains(&true) {
            let message = format!(
                "`{}` goes by values of its own, not by a material's",
                called.value.0
            );
            let label = "expected a layer with a `material:` and no values beside it";
            problems.push(Problem::at(called.span, message).expected(label));
            return None;
        }
        let before = problems.len();
        let made = materials.iter().filter_map(|material| {
            let text = LayerText {
                material: Some(material.clone()),
                ..written.clone()
            };
            let layer = layer(&text, self.bases.library, problems)?;
            Some((material.value.0.clone(), layer))
        });
        let choices: Vec<_> = made.collect();
        (problems.len() == before).then(|| AxisValues::Material {
            layer: called.value.0.clone(),
            choices,
        })
    }

    /// Where the room's air comes from, as far as the file could be read.
    fn indoor(&self) -> Option<Indoor> {
        self.around.stops.first().map(|stop| stop.indoor)
    }

    fn humidity(
        &self,
        name: &At<Word>,
        text: &StepsText<RelativeHumidity>,
        problems: &mut Problems,
    ) -> Option<AxisValues> {
        let from = self.indoor().map(|indoor| indoor.vapor);
        let why = match from {
            Some(RoomVapor::Balance(_)) => Some("its household"),
            Some(RoomVapor::Class(_)) => Some("its humidity class"),
            _ => None,
        };
        if let Some(why) = why {
            let message = format!("the room's humidity follows from {why} in this file");
            let label =
                "expected `humidity:` under `indoor:` for this axis, or an axis of `ventilation:`";
            problems.push(Problem::at(name.span, message).expected(label));
            return None;
        }
        let value = |at: &At<RelativeHumidity>, _: &mut Problems| Some(at.value.as_fraction());
        steps(name, text, &value, &value, problems).map(AxisValues::Humidity)
    }

    fn ventilation(
        &self,
        name: &At<Word>,
        text: &StepsText<Ventilation>,
        problems: &mut Problems,
    ) -> Option<AxisValues> {
        let indoor = self.indoor()?;
        let RoomVapor::Balance(household) = indoor.vapor else {
            let message = "the room's humidity is stated in this file: ventilation changes nothing";
            let label = "expected `moisture:` under `indoor:` instead of a humidity";
            problems.push(Problem::at(name.span, message).expected(label));
            return None;
        };
        let flow = |at: &At<Ventilation>, problems: &mut Problems| {
            let flow = match (at.value, household.volume) {
                (Ventilation::Flow(flow), _) => flow,
                (changes, Some(volume)) => changes.into_room(volume),
                (Ventilation::Changes(_), None) => {
                    let message = "air changes mean nothing without the room's volume";
                    let label =
                        "expected a `volume:` under `moisture:`, or a flow such as `30 cfm`";
                    problems.push(Problem::at(at.span, message).expected(label));
                    return None;
                }
            };
            Some(flow.as_m3_per_s())
        };
        let value = |at: &At<Ventilation>, problems: &mut Problems| {
            let flow = flow(at, problems)?;
            if flow > 0.0 {
                return Some(flow);
            }
            let message = "a room without any ventilation never gets rid of its moisture";
            problems.push(Problem::at(at.span, message).expected("expected more than 0"));
            None
        };
        steps(name, text, &value, &flow, problems).map(AxisValues::Ventilation)
    }
}
