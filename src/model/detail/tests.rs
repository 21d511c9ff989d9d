use rstest::rstest;

use super::*;

/// A wall of two layers between outdoors at the left and the room at the right, m.
fn wall() -> DetailParts {
    let block = |name: &str, left, right| Block {
        name: name.into(),
        label: "wood".into(),
        area: Area::new(left, right, 0.0, 1.0),
        conductivity: PlaneConductivity::isotropic(0.12),
        covers: false,
    };
    let air = |name: &str, temperature| Air {
        name: name.into(),
        temperature,
    };
    let region = |air, left, right| AirRegion {
        air,
        area: Area::new(left, right, 0.0, 1.0),
        films: FaceFilms::all(0.13),
    };
    DetailParts {
        width: 0.4,
        height: 1.0,
        blocks: vec![block("outer", 0.1, 0.2), block("inner", 0.2, 0.3)],
        airs: vec![air("outdoors", -10.0), air("room", 20.0)],
        regions: vec![region(0, 0.0, 0.1), region(1, 0.3, 0.4)],
        faces: vec![],
    }
}

fn face(name: &str, line: Area, temperature: f64) -> Face {
    Face {
        name: name.into(),
        line,
        contact: FaceContact::Held(temperature),
    }
}

#[test]
fn a_sound_wall_knows_what_lies_where() {
    let detail = Detail::new(wall()).expect("sound");
    assert_eq!(detail.columns(), [0.0, 0.1, 0.2, 0.3, 0.4]);
    assert_eq!(detail.place(1, 0), Place::Block(0));
    assert_eq!(detail.place(3, 0), Place::Air(1));
    let film = |column, facing| detail.contact(column, 0, facing);
    let outdoors = Contact {
        boundary: 0,
        film: 0.13,
    };
    assert_eq!(film(1, Facing::Left), Some(outdoors));
    assert_eq!(film(1, Facing::Right), None);
    assert_eq!(film(1, Facing::Up), None);
}

#[test]
fn later_blocks_lie_on_top_and_air_beneath() {
    let mut parts = wall();
    parts.blocks[1].covers = true;
    parts.blocks[1].area.left = 0.15;
    parts.regions[1].area.left = 0.0;
    parts.regions[0].air = 1;
    let detail = Detail::new(parts).expect("sound");
    assert_eq!(detail.columns(), [0.0, 0.1, 0.15, 0.2, 0.3, 0.4]);
    let row: Vec<Place> = (0..5).map(|column| detail.place(column, 0)).collect();
    let [outer, inner] = [Place::Block(0), Place::Block(1)];
    assert_eq!(row, [Place::Air(1), outer, inner, inner, Place::Air(1)]);
}

#[test]
fn edges_that_differ_by_rounding_are_one() {
    let mut parts = wall();
    // 0.1 + 0.2 is 0.30000000000000004.
    parts.blocks[1].area.right = 0.1 + 0.2;
    assert_eq!(Detail::new(parts).expect("sound").columns().len(), 5);
}

#[test]
fn a_held_face_replaces_the_film() {
    let mut parts = wall();
    parts
        .faces
        .push(face("heated", Area::new(0.3, 0.3, 0.0, 0.5), 30.0));
    let detail = Detail::new(parts).expect("sound");
    let at = |row| detail.contact(2, row, Facing::Right).expect("a contact");
    assert_eq!((at(0).boundary, at(0).film), (2, 0.0));
    assert_eq!((at(1).boundary, at(1).film), (1, 0.13));
    assert_eq!(detail.boundaries()[2].temperature, 30.0);
}

/// What one change to the wall is answered with.
#[rstest]
#[case::narrow(|p: &mut DetailParts| p.width = 0.0, "wide")]
#[case::not_a_width(|p: &mut DetailParts| p.width = f64::NAN, "NaN m wide")]
#[case::endless(|p: &mut DetailParts| p.height = 1e9, "expected more than 0")]
#[case::no_size(|p: &mut DetailParts| p.blocks[0].area.right = 0.1, "`outer` has no size: x 100 to 100 mm")]
#[case::thin(|p: &mut DetailParts| p.blocks[0].area.right = 0.1 + 1e-10, "`outer` has no size")]
#[case::turned(|p: &mut DetailParts| p.blocks[0].area.right = 0.05, "`outer` has no size")]
#[case::outside(|p: &mut DetailParts| p.blocks[1].area.top = 1.1, "`inner` reaches beyond the cut")]
#[case::infinite(|p: &mut DetailParts| p.blocks[1].area.top = f64::INFINITY, "an edge of `inner` is not a number")]
#[case::gap(|p: &mut DetailParts| p.blocks[1].area.left = 0.25, "neither a solid nor air fills a part of the cut: x 200 to 250 mm, y 0 to 1000 mm")]
#[case::overlap(|p: &mut DetailParts| p.blocks[1].area.left = 0.15, "`inner` lies over `outer` and isn't declared to cover it: x 150 to 200 mm")]
#[case::airs(|p: &mut DetailParts| p.regions[1].area = Area::new(0.0, 0.4, 0.0, 1.0), "`outdoors` and `room` share a place: x 0 to 100 mm")]
#[case::name(|p: &mut DetailParts| p.blocks[1].name = "room".into(), "`room` is the name of two things")]
#[case::conductivity(|p: &mut DetailParts| p.blocks[0].conductivity.y = 0.0, "`outer` conducts 0 W/(m·K)")]
#[case::not_a_conductivity(|p: &mut DetailParts| p.blocks[0].conductivity.x = f64::NAN, "`outer` conducts NaN")]
#[case::film(|p: &mut DetailParts| p.regions[0].films.up = -1.0, "the film at `outdoors` is -1")]
#[case::temperature(|p: &mut DetailParts| p.airs[0].temperature = -300.0, "`outdoors` has -300 °C")]
#[case::no_air(|p: &mut DetailParts| p.regions[0].air = 7, "air region 1` is of air number 7")]
#[case::all_air(|p: &mut DetailParts| { p.blocks.clear(); p.regions[1].area.left = 0.1; }, "nothing but air")]
#[case::face_slant(|p: &mut DetailParts| p.faces.push(face("f", Area::new(0.1, 0.2, 0.0, 1.0), 0.0)), "runs neither along x nor along y")]
#[case::face_inside(|p: &mut DetailParts| p.faces.push(face("f", Area::new(0.2, 0.2, 0.0, 1.0), 0.0)), "doesn't lie along the surface")]
#[case::face_in_air(|p: &mut DetailParts| p.faces.push(face("f", Area::new(0.0, 0.1, 0.0, 0.0), 0.0)), "doesn't lie along the surface")]
#[case::face_point(|p: &mut DetailParts| p.faces.push(face("f", Area::new(0.1, 0.1, 0.5, 0.5), 0.0)), "`f` has no size")]
#[case::faces_twice(|p: &mut DetailParts| for name in ["f", "g"] { p.faces.push(face(name, Area::new(0.1, 0.1, 0.0, 1.0), 0.0)) }, "the face `g` lies on another face")]
fn a_mistake_is_told_with_its_place(#[case] change: fn(&mut DetailParts), #[case] told: &str) {
    let mut parts = wall();
    change(&mut parts);
    let problems = Detail::new(parts).expect_err("a mistake");
    let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert!(all.iter().any(|problem| problem.contains(told)), "{all:?}");
}

#[test]
fn solid_that_touches_nothing_is_refused() {
    let mut parts = wall();
    parts.regions.clear();
    parts.blocks[0].area.left = 0.0;
    parts.blocks[1].area.right = 0.4;
    let problems = Detail::new(parts.clone()).expect_err("no air");
    assert_eq!(problems, [DetailProblem::NoBoundary]);
}

#[test]
fn great_numbers_are_refused_before_they_cost_anything() {
    let mut parts = wall();
    let block = parts.blocks[0].clone();
    parts.blocks = vec![block; 100_000];
    let problems = Detail::new(parts).expect_err("too many");
    assert_eq!(
        problems,
        [DetailProblem::TooManyRectangles { count: 100_002 }]
    );

    // Five thousand blocks along a diagonal make 25 million places.
    let mut parts = wall();
    let stair = |n: usize| {
        let (x, y) = (0.1 + n as f64 * 1e-5, n as f64 * 1e-4);
        Block {
            name: format!("stair {n}"),
            area: Area::new(x, x + 5e-6, y, y + 5e-5),
            covers: true,
            ..wall().blocks[0].clone()
        }
    };
    parts.blocks.extend((0..5_000).map(stair));
    let problems = Detail::new(parts).expect_err("too many");
    assert!(
        matches!(problems[..], [DetailProblem::TooManyEdges { .. }]),
        "{problems:?}"
    );
}
