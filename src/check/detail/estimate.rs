//! Simple estimates of the same cut beside the two-dimensional result.

use crate::check::kind::Run;
use crate::check::{Check, Detail, Finding, Status};
use crate::model::Conditions;
use crate::model::detail::Facing;
use crate::model::drawn::DetailCase;
use crate::quantity::{Style, TemperatureDifference};
use crate::solve::detail::{DetailResult, HandCheck, HandCheckKind};

/// Simple estimates beside a detail's result, and the strip alone beside the detail that shows it.
pub static HAND_CHECK: Check = Check {
    id: "hand-check",
    title: "hand-check",
    run: Run::Detail(|scene| compared(scene.case, scene.result, scene.estimates)),
    say,
    ..Check::PLAIN
};

const HAND_SOURCE: &str = "simple estimates of the same cut against the two-dimensional result";

/// One estimate beside the two-dimensional result.
#[derive(Clone, Debug, PartialEq)]
pub struct HandCheckDetail {
    /// Which estimate.
    pub kind: HandCheckKind,
    /// Heat flow over that of the result, less one; `None` where the room is as warm as outdoors and
    /// none flows.
    pub heat_flow_error: Option<f64>,
    /// Coldest floor surface less that of the result, K: positive is too warm, the unsafe side.
    pub floor_error: f64,
    /// The same for the wood nearest to the steel.
    pub wood_error: Option<f64>,
}

/// Less heat than this isn't a flow but what the solver leaves of none, W/m.
const NO_FLOW: f64 = 1e-6;

/// Each estimate with its errors: a note.
fn compared(case: &DetailCase, result: &DetailResult, estimates: &[HandCheck]) -> Vec<Finding> {
    let flow = result.conduction.heat_flow.value;
    let floors: Vec<&str> = case
        .surfaces
        .iter()
        .filter(|surface| surface.facing == Facing::Up)
        .map(|surface| surface.name.as_str())
        .collect();
    let floor = result
        .surfaces
        .iter()
        .find(|s| floors.contains(&s.name.as_str()));
    let Some(floor) = floor.map(|surface| surface.usual.point.temperature) else {
        return Vec::new();
    };
    let deciding = result.wood.iter().filter(|part| part.decides);
    let deck = deciding
        .filter_map(|part| part.reached.as_ref())
        .map(|(coldest, _)| coldest.point.temperature)
        .reduce(f64::min);
    let note = |estimate: &HandCheck| Finding {
        detail: Detail::HandCheck(HandCheckDetail {
            kind: estimate.kind,
            heat_flow_error: (flow.abs() > NO_FLOW).then(|| estimate.heat_flow / flow - 1.0),
            floor_error: estimate.floor.as_celsius() - floor,
            wood_error: estimate
                .wood
                .zip(deck)
                .map(|(wood, deck)| wood.as_celsius() - deck),
        }),
        ..Finding::new(&HAND_CHECK, Status::Note, HAND_SOURCE)
    };
    estimates.iter().map(note).collect()
}

/// A strip alone, and how far off it is from the detail.
fn say(finding: &Finding, _: &Conditions, style: Style) -> String {
    let (Detail::StripAlone(alone), Some(place)) = (&finding.detail, &finding.place) else {
        return String::new();
    };
    let error = alone.too_warm.as_kelvin();
    let size = style.show(TemperatureDifference::from_kelvin(error.abs()));
    let side = match error > 0.0 {
        true => "too warm, the unsafe side",
        false => "too cold, the safe side",
    };
    format!(
        "The {} alone shows {} at {}: against the detail {size} {side}.",
        place.path,
        place.plane,
        style.show(alone.wood),
    )
}
