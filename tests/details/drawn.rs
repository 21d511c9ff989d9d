//! Details drawn by rectangles.

use approx::assert_abs_diff_eq;
use dewmargin::input::resolve_text;
use dewmargin::model::detail::FaceContact;
use dewmargin::model::drawn::DetailFilms;
use rstest::rstest;

use super::{COLD, ROOM, details, house, solved_between};

fn corner(rectangles: &str, rest: &str) -> String {
    house(&format!(
        "details:
  corner:
    cut: {{width: 12 in, height: 12 in}}
    rectangles:
      - {{name: slab, material: XPS, from: [0, 0], to: [12 in, 4 in]}}
{rectangles}    air: [{{name: room, from: [0, 4 in], to: [12 in, 12 in]}}]
    faces: [{{name: underside, from: [0, 0], to: [12 in, 0], air: outdoors}}]
{rest}"
    ))
}

/// ISO 6946, resistance of an air space: 25 mm is 0.18 sideways, 0.16 up and 0.19 down, 100 mm
/// down is 0.22 (from memory, as in `physics::heat`).
#[rstest]
#[case::upright_by_its_shape("to: [65 mm, 8 in]", 0.025 / 0.18)]
#[case::stated("heat-flow: up, to: [140 mm, 129 mm]", 0.0274 / 0.16)]
#[case::level_by_its_shape("to: [300 mm, 201.6 mm]", 0.1 / 0.22)]
fn a_cavity_conducts_as_its_air_space(#[case] keys: &str, #[case] conductivity: f64) {
    let hollow = format!("      - {{name: hollow, air: still, from: [40 mm, 4 in], {keys}}}\n");
    let details = details(&corner(&hollow, ""));
    let block = &details[0].blocks[1].block;
    assert_abs_diff_eq!(block.conductivity.x, conductivity, epsilon = 1e-9);
    solved_between(&details[0]);
}

#[test]
fn faces_on_the_edge_get_the_film_of_their_direction() {
    let details = details(&corner("", ""));
    let parts = details[0].parts_at(ROOM, COLD, &DetailFilms::default());
    let outdoors = details[0]
        .airs
        .iter()
        .position(|air| air.name == "outdoors");
    let expected = FaceContact::Air {
        air: outdoors.expect("outdoors"),
        film: 0.04,
    };
    assert_eq!(parts.faces[0].contact, expected);
    assert_eq!(parts.regions[0].films.up, 0.17);
    let mold = DetailFilms {
        room: Some(0.25),
        outdoors: None,
    };
    assert_eq!(
        details[0].parts_at(ROOM, COLD, &mold).regions[0].films.up,
        0.25
    );
}

#[test]
fn the_sketch_shows_where_and_fits_a_terminal() {
    let block = "      - {name: block, material: XPS, from: [4 in, 2 in], to: [6 in, 6 in]}\n";
    let error = resolve_text("house.yaml", &corner(block, "")).expect_err("an overlap");
    let help = error.problems[0].help.clone().expect("a sketch");
    let lines: Vec<&str> = help.lines().skip(1).collect();
    assert!(lines.len() <= 24, "{help}");
    assert!(
        lines.iter().all(|line| line.chars().count() <= 60),
        "{help}"
    );
    assert!(lines.iter().any(|line| line.contains('#')), "{help}");
}

#[test]
fn a_hundred_thousand_rectangles_are_refused() {
    let one = "      - {name: n, material: XPS, from: [0, 0], to: [1 in, 1 in]}\n";
    let error = resolve_text("house.yaml", &corner(&one.repeat(10_000), "")).expect_err("too many");
    assert!(
        error.to_string().contains("far more than a project needs"),
        "{error}"
    );
    let details = corner(&one.repeat(2_000), "");
    let error = resolve_text("house.yaml", &details).expect_err("names stand twice");
    assert!(
        error.problems.len() < 60,
        "{} problems",
        error.problems.len()
    );
}

/// Of conductivities a million times apart every one is kept as given.
#[test]
fn conductivities_may_lie_a_million_times_apart() {
    let both = "      - {name: pin, conductivity: 9000 W/mK, from: [4 in, 0], to: [6 in, 4 in], covers: true}
      - {name: gel, conductivity: 0.009 W/mK, from: [8 in, 0], to: [9 in, 4 in], covers: true}
";
    let details = details(&corner(both, ""));
    let sound = solved_between(&details[0]);
    let conductivities = sound.parts().blocks[1..]
        .iter()
        .map(|block| block.conductivity.x);
    assert_eq!(conductivities.collect::<Vec<_>>(), [9000.0, 0.009]);
}

// A floor over a crawl space, plane: 0.25 m²K/W is the room's film where mold is judged (ISO 13788,
// from memory), and what the file states of the crawl space stays. By hand, layers in series.
#[rstest]
#[case::stated(", films: {down: 0.3 m²K/W}", 0.3)]
#[case::by_the_standard("", 0.17)]
fn the_film_for_mold_is_set_at_the_room_alone(#[case] films: &str, #[case] below: f64) {
    let text = format!(
        "indoor: {{heating: 20 C, humidity: 50 %}}
outdoor: {{winter-mean: {{temperature: 0 C, humidity: 80 %}}}}
materials:
  board: {{kind: foam, conductivity: 0.04 W/mK, vapor: 1 perm-in}}
assemblies:
  floor: {{kind: floor, layers: [{{name: slab, material: board, thickness: 40 mm}}]}}
details:
  over the crawl space:
    cut: {{width: 300 mm, height: 300 mm}}
    rectangles:
      - {{name: slab, material: board, from: [0, 100 mm], to: [300 mm, 140 mm]}}
    air:
      - {{name: room, from: [0, 140 mm], to: [300 mm, 300 mm]}}
      - {{name: crawl space, temperature: 5 C, from: [0, 0], to: [300 mm, 100 mm]{films}}}
"
    );
    let report = crate::support::checked(&text);
    let found = report["details"][0]["findings"]
        .as_array()
        .expect("findings");
    let mold = found.iter().find(|one| one["check"] == "detail-mold");
    let value = &mold.expect("mold is judged")["value_c"];
    let by_hand = 20.0 - 15.0 * 0.25 / (0.25 + 1.0 + below);
    assert_abs_diff_eq!(crate::support::number(value), by_hand, epsilon = 1e-6);
}
