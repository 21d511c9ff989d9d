//! What holds for every least thickness: damper rooms and colder winters never need less.

use dewmargin::check::sizing::size;
use dewmargin::input::resolve_text;
use dewmargin::model::{Project, Stop};
use dewmargin::quantity::{RelativeHumidity, Temperature};
use proptest::prelude::*;

use super::config;

fn wall() -> Project {
    let text = "
indoor: {heating: 20 C, humidity: 50 %}
outdoor: {winter-mean: {temperature: 0 C, humidity: 80 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, material: gypsum board, thickness: 12.5 mm}
      - {name: sheathing, material: plywood, thickness: 12 mm}
      - {name: foam, material: XPS, thickness: 1 in, bonded: true}
size:
  foam: {layer: foam, targets: {leak-margin: 1 K}, between: [0, 16 in], sold: [16 in]}
";
    resolve_text("wall.yaml", text).unwrap_or_else(|error| panic!("{error}"))
}

/// The least thickness under a room humidity and an outdoor temperature, and at its worst case, m;
/// infinite where none of the span does.
fn least(project: &Project, humidity: f64, outdoor: f64) -> [f64; 2] {
    let mut stop: Stop = project.stops[0].with_humidity(RelativeHumidity::from_fraction(humidity));
    stop.conditions.winter_mean.temperature = Temperature::from_celsius(outdoor);
    let sized = size(&project.sizings[0], &[stop]);
    let meters =
        |least: Option<dewmargin::quantity::Length>| least.map_or(f64::INFINITY, |l| l.as_m());
    [meters(sized.nominal.least), meters(sized.worst.least)]
}

/// Twice what the search leaves open, m.
const OPEN: f64 = 2e-6;

proptest! {
    #![proptest_config(config(60))]

    #[test]
    fn damper_rooms_need_no_less(
        humidity in 0.3_f64..0.7,
        more in 0.0_f64..0.2,
        outdoor in -20.0_f64..10.0,
    ) {
        let project = wall();
        let dry = least(&project, humidity, outdoor);
        let damp = least(&project, humidity + more, outdoor);
        for (dry, damp) in dry.into_iter().zip(damp) {
            prop_assert!(damp >= dry - OPEN, "{dry} m, then {damp} m");
        }
    }

    #[test]
    fn colder_winters_need_no_less(
        humidity in 0.3_f64..0.7,
        outdoor in -20.0_f64..10.0,
        colder in 0.0_f64..10.0,
    ) {
        let project = wall();
        let mild = least(&project, humidity, outdoor);
        let cold = least(&project, humidity, outdoor - colder);
        for (mild, cold) in mild.into_iter().zip(cold) {
            prop_assert!(cold >= mild - OPEN, "{mild} m, then {cold} m");
        }
    }

    #[test]
    fn the_worst_case_needs_no_less(humidity in 0.3_f64..0.7, outdoor in -20.0_f64..10.0) {
        let [nominal, worst] = least(&wall(), humidity, outdoor);
        prop_assert!(worst >= nominal - OPEN, "{nominal} m, worst {worst} m");
    }
}
