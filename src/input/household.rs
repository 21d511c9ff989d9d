//! A household's moisture: what it gives off and how it airs.

use super::surroundings_text::MoistureText;
use crate::document::{At, Problems};
use crate::error::Problem;
use crate::material::one_of;
use crate::model::Household;
use crate::physics::moisture_source::{
    water_from_gas_cooking, water_from_laundry, water_from_people, water_from_unvented_heater,
};
use crate::quantity::{MassFlow, Share, Ventilation, VolumeFlow};

/// Temperature factor of a window's edge where the file gives none (common practice).
const WINDOW_EDGE: f64 = 0.6;

/// The household, if everything it needs is there.
pub(super) fn household(text: &MoistureText, problems: &mut Problems) -> Option<Household> {
    let fuels = [("gas", true), ("propane", true), ("electric", false)];
    let flame = match &text.cooking {
        None => Some(false),
        Some(word) => one_of(word, &fuels, "cooking fuel", problems),
    };
    let ventilation = text
        .ventilation
        .as_ref()
        .and_then(|at| ventilation(at, text, problems));
    let people = text.people.as_ref()?.value;
    let mut sources = vec![water_from_people(people)];
    sources.extend(flame?.then(|| water_from_gas_cooking(people)));
    let heater = text.unvented_heater.as_ref();
    sources.extend(heater.map(|at| water_from_unvented_heater(at.value)));
    let laundry = text.laundry.as_ref();
    sources.extend(laundry.map(|at| water_from_laundry(at.value)));
    let water = sources.iter().map(|flow| flow.as_kg_per_s()).sum();
    let factor = text.coldest_surface.as_ref();
    Some(Household {
        people: people.as_number(),
        water: MassFlow::from_kg_per_s(water),
        unvented_heater: heater.is_some_and(|at| at.value.as_w() > 0.0),
        ventilation: ventilation?,
        volume: text.volume.as_ref().map(|at| at.value),
        coldest_surface: factor.map_or(Share::from_fraction(WINDOW_EDGE), |at| at.value),
        target: text.target.as_ref().map(|at| at.value),
    })
}

fn ventilation(
    at: &At<Ventilation>,
    text: &MoistureText,
    problems: &mut Problems,
) -> Option<VolumeFlow> {
    match (at.value, &text.volume) {
        (Ventilation::Flow(flow), _) => Some(flow),
        (changes, Some(volume)) => Some(changes.into_room(volume.value)),
        (Ventilation::Changes(_), None) => {
            let message = "air changes mean nothing without the room's volume";
            let label = "expected a `volume:` beside it, or a flow such as `30 cfm`";
            problems.push(Problem::at(at.span, message).expected(label));
            None
        }
    }
}
