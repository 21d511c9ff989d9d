//! Verdicts: a drier room is never worse, the adverse corner is never better than nominal and the
//! kind one never worse, and a printed flip value flips.

use dewmargin::check::range::{FlipValue, Input, Range};
use dewmargin::check::room_surface::{CONDENSATION, MOLD};
use dewmargin::check::{self, Check, Finding, Status};
use dewmargin::input::resolve_text;
use dewmargin::model::Project;
use dewmargin::study::Study;
use proptest::prelude::*;
use rstest::rstest;

use super::config;

/// Rounding of temperatures in two computations, K.
const ROUNDING: f64 = 1e-9;

/// A wall, floor or roof of the library's materials, without its room and climate.
#[derive(Clone, Debug)]
pub(super) struct House {
    pub(super) kind: &'static str,
    pub(super) layers: Vec<&'static str>,
    pub(super) climate: &'static str,
    pub(super) cooling: bool,
}

impl House {
    /// Its file in a room of that humidity.
    pub(super) fn text(&self, humidity: f64) -> String {
        self.text_of(&self.layers, humidity)
    }

    /// The same with other layers.
    pub(super) fn text_of(&self, layers: &[&str], humidity: f64) -> String {
        let cooling = if self.cooling { "cooling: 75 F, " } else { "" };
        let layers: String = layers
            .iter()
            .map(|layer| format!("      - {layer}\n"))
            .collect();
        format!(
            "indoor: {{heating: 68 F, {cooling}humidity: {humidity:.4} %}}\nclimate: {}\n\
             assemblies:\n  part:\n    kind: {}\n    layers:\n{layers}",
            self.climate, self.kind
        )
    }

    pub(super) fn project(&self, humidity: f64) -> Project {
        let text = self.text(humidity);
        resolve_text("house.yaml", &text).unwrap_or_else(|error| panic!("{error}"))
    }

    pub(super) fn findings(&self, humidity: f64) -> Vec<Finding> {
        let project = self.project(humidity);
        Study::of(&project).assemblies.remove(0).verdict.findings
    }
}

pub(super) fn houses() -> impl Strategy<Value = House> {
    let one_of = |choices: &'static [&'static str]| prop::sample::select(choices);
    let lining = one_of(&[
        "{name: lining, material: painted gypsum board, thickness: 1/2 in}",
        "{name: lining, material: gypsum board, thickness: 1/2 in}",
        "{name: lining, material: white pine, thickness: 3/4 in}",
        "{name: lining, material: plywood, thickness: 3/4 in}",
    ]);
    let retarder = one_of(&[
        "",
        "{name: film, material: polyethylene}",
        "{name: film, material: polyamide film}",
        "{name: film, material: kraft facing}",
    ]);
    let bay = one_of(&[
        "{name: bay, material: R-13 batt, thickness: 3-1/2 in, framing: {material: spruce-pine-fir, share: 25 %}}",
        "{name: bay, material: R-21 batt, thickness: 5-1/2 in, framing: {material: spruce-pine-fir, share: 20 %}}",
        "{name: bay, material: sheep wool, thickness: 5-1/2 in}",
        "{name: bay, material: closed-cell spray foam, thickness: 3 in}",
        "{name: bay, material: cellulose, thickness: 5-1/2 in}",
    ]);
    let sheathing = one_of(&[
        "{name: sheathing, material: OSB, thickness: 7/16 in}",
        "{name: sheathing, material: plywood, thickness: 1/2 in}",
        "{name: sheathing, material: galvanized steel, thickness: 24 ga}",
    ]);
    let foam = one_of(&[
        "",
        "{name: foam, material: XPS, thickness: 1 in}",
        "{name: foam, material: XPS, thickness: 2 in, bonded: true}",
        "{name: foam, material: polyiso, thickness: 3 in}",
        "{name: foam, material: EPS type II, thickness: 2 in}",
    ]);
    let outside = one_of(&[
        "{name: wrap, material: housewrap}",
        "{name: roofing, material: EPDM, thickness: 60 mil}",
    ]);
    let climate = one_of(&["wet-coast", "cold-continental", "mixed-humid", "hot-humid"]);
    let kind = one_of(&["wall", "floor", "roof"]);
    let layers = (lining, retarder, bay, sheathing, foam, outside);
    (kind, layers, climate, any::<bool>()).prop_map(|(kind, layers, climate, cooling)| {
        let (lining, retarder, bay, sheathing, foam, outside) = layers;
        let all = [lining, retarder, bay, sheathing, foam, outside];
        House {
            kind,
            layers: all.into_iter().filter(|layer| !layer.is_empty()).collect(),
            climate,
            cooling,
        }
    })
}

/// The judged finding of a check.
fn of<'f>(findings: &'f [Finding], check: &Check) -> Option<&'f Finding> {
    let judged = findings
        .iter()
        .filter(|finding| finding.status != Status::Note);
    judged.into_iter().find(|finding| finding.check == check)
}

fn range(finding: &Finding) -> Option<&Range> {
    finding.range.as_deref()
}

/// The status at the nominal values, before the ranges are looked at.
fn nominal(finding: &Finding) -> Status {
    range(finding).map_or(finding.status, |range| range.nominal)
}

proptest! {
    #![proptest_config(config(64))]

    #[test]
    fn a_drier_room_is_never_worse(
        house in houses(), humidity in 20.0..80.0_f64, part in 0.4..1.0_f64,
    ) {
        let (damp, dry) = (house.findings(humidity), house.findings(humidity * part));
        for check in [
            &check::air_leak::CHECK, &check::year::CHECK, &MOLD, &CONDENSATION,
        ] {
            let severity = |findings: &[Finding]| {
                let finding = of(findings, check).expect("judged in every climate");
                [finding.status, nominal(finding)].map(Status::severity)
            };
            let ([damp, damp_nominal], [dry, dry_nominal]) = (severity(&damp), severity(&dry));
            prop_assert!(dry_nominal <= damp_nominal, "{check:?} at nominal values, {house:?}");
            prop_assert!(dry <= damp, "{check:?}, {house:?}");
        }
    }

    #[test]
    fn corners_enclose_the_nominal_result(house in houses(), humidity in 25.0..75.0_f64) {
        for finding in house.findings(humidity) {
            let by_temperature = [
                &check::air_leak::CHECK, &check::inward_leak::CHECK, &MOLD, &CONDENSATION,
            ];
            let by_temperature = by_temperature.contains(&finding.check);
            let (Some(range), Some(slack), true) = (range(&finding), finding.slack, by_temperature)
            else {
                continue;
            };
            let [adverse, kind] = range.slack;
            let check = finding.check;
            prop_assert!(adverse <= slack + ROUNDING, "{check:?}: {adverse} over {slack} K, {house:?}");
            prop_assert!(kind >= slack - ROUNDING, "{check:?}: {kind} under {slack} K, {house:?}");
            let severities = [range.kind, range.nominal, range.adverse].map(Status::severity);
            prop_assert!(severities.is_sorted(), "{check:?}: {severities:?}, {house:?}");
        }
    }
}

const COAST: House = House {
    kind: "wall",
    layers: Vec::new(),
    climate: "wet-coast",
    cooling: true,
};

fn plain_wall() -> House {
    House {
        layers: vec![
            "{name: lining, material: painted gypsum board, thickness: 1/2 in}",
            "{name: studs, material: R-13 batt, thickness: 3-1/2 in, framing: {material: spruce-pine-fir, share: 25 %}}",
            "{name: sheathing, material: plywood, thickness: 1/2 in}",
            "{name: wrap, material: housewrap}",
        ],
        ..COAST
    }
}

fn foam_outside() -> House {
    let mut wall = plain_wall();
    wall.layers
        .push("{name: foam, material: XPS, thickness: 2 in}");
    wall
}

fn wool_on_a_pan() -> House {
    House {
        kind: "floor",
        layers: vec![
            "{name: subfloor, material: plywood, thickness: 3/4 in}",
            "{name: bay, material: sheep wool, thickness: 5-1/2 in}",
            "{name: pan, material: galvanized steel, thickness: 20 ga}",
        ],
        ..COAST
    }
}

/// Judged again with the room's humidity a fifth of a percent on either side of the flip.
#[rstest]
#[case::wetting(plain_wall(), 50.0, &check::year::CHECK)]
#[case::wetting_less(plain_wall(), 65.0, &check::year::CHECK)]
#[case::leak_passes_below(plain_wall(), 50.0, &check::air_leak::CHECK)]
#[case::mold(plain_wall(), 50.0, &MOLD)]
#[case::foam_and_leak(foam_outside(), 50.0, &check::air_leak::CHECK)]
#[case::foam_and_wetting(foam_outside(), 50.0, &check::year::CHECK)]
#[case::wool_dries_below(wool_on_a_pan(), 60.0, &check::drying::CHECK)]
#[case::wool_and_mold(wool_on_a_pan(), 60.0, &MOLD)]
fn the_flip_value_flips(
    #[case] house: House,
    #[case] humidity: f64,
    #[case] check: &'static Check,
) {
    let findings = house.findings(humidity);
    let finding = of(&findings, check).expect("judged");
    let movers = &range(finding).expect("a range").movers;
    let room = movers
        .iter()
        .find(|mover| mover.input == Input::RoomHumidity);
    let flip = room.and_then(|mover| mover.flip);
    let flip = flip.unwrap_or_else(|| panic!("the room's humidity flips nothing: {movers:?}"));
    let FlipValue::Humidity(at) = flip.at else {
        panic!("{flip:?}");
    };
    let at = at.as_fraction() * 100.0;
    assert_eq!(flip.above, at > humidity, "{flip:?}");
    assert_eq!(flip.from, nominal(finding));
    let status = |percent: f64| {
        let findings = house.findings(percent);
        nominal(of(&findings, check).expect("judged there too"))
    };
    let (below, above) = (status(at - 0.2), status(at + 0.2));
    let (near, far) = if flip.above {
        (below, above)
    } else {
        (above, below)
    };
    assert_eq!(near, flip.from, "on the near side of {at} %");
    assert_eq!(far, flip.becomes, "on the far side of {at} %");
    assert_ne!(near.severity(), far.severity());
}
