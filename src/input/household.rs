//! The room's air: set points, its humidity, and a household's moisture.

use super::surroundings_text::{IndoorText, MoistureText};
use crate::document::{At, Problems};
use crate::error::Problem;
use crate::material::one_of;
use crate::model::{Household, Indoor, RoomVapor};
use crate::physics::moisture_source::{
    water_from_gas_cooking, water_from_laundry, water_from_people, water_from_unvented_heater,
};
use crate::quantity::{MassFlow, Share, Ventilation, VolumeFlow};

/// Temperature factor of a window's edge where the file gives none (common practice).
const WINDOW_EDGE: f64 = 0.6;

/// The room's air, if everything it needs is there.
pub(super) fn indoor(text: &IndoorText, problems: &mut Problems) -> Option<Indoor> {
    let household = text
        .moisture
        .as_ref()
        .map(|moisture| household(moisture, problems));
    let cooled_humidity = text
        .cooling
        .as_ref()
        .and_then(|cooling| cooling.0.humidity.as_ref());
    let cooling = text.cooling.as_ref().map(|cooling| &cooling.0.temperature);
    if let Some(cooling) = cooling.filter(|cooling| cooling.value < text.heating.value) {
        let message = "the house would be cooled below the temperature it is heated to";
        let label = "expected a cooling set point of at least `heating`";
        problems.push(Problem::at(cooling.span, message).expected(label));
        return None;
    }
    let household = match household {
        Some(household) => Some(household?),
        None => None,
    };
    let vapor = match (&text.humidity, &text.humidity_class, household) {
        (Some(_), Some(class), _) => {
            let message = "the room's humidity is given twice";
            let label = "expected `humidity` or `humidity-class`, not both";
            problems.push(Problem::at(class.span, message).expected(label));
            return None;
        }
        (Some(humidity), None, _) => RoomVapor::Humidity(humidity.value),
        (None, Some(class), _) => RoomVapor::Class(class.value),
        (None, None, Some(household)) => RoomVapor::Balance(household),
        (None, None, None) => {
            if text.complete {
                let message = "the room's humidity is missing in this block";
                let label = "expected `humidity: 50 %`, `humidity-class:` or `moisture:`";
                problems.push(Problem::at(text.heating.span, message).expected(label));
            }
            return None;
        }
    };
    Some(Indoor {
        heating: text.heating.value,
        cooling: cooling.map(|at| at.value),
        cooled_humidity: cooled_humidity.map(|at| at.value),
        vapor,
        household,
    })
}

/// The household, if everything it needs is there.
fn household(text: &MoistureText, problems: &mut Problems) -> Option<Household> {
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
