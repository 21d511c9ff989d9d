use rstest::rstest;

use super::*;
use crate::model::detail::FaceContact;

/// A rod through a wall between outdoors at the left and the room at the right, m.
fn rod() -> VolumeParts {
    let block = |name: &str, from, to, covers| Block {
        name: name.into(),
        extent: Extent::new(from, to),
        conductivity: 0.12,
        covers,
    };
    let air = |name: &str, temperature| Air {
        name: name.into(),
        temperature,
    };
    let region = |air, from, to| AirRegion {
        air,
        extent: Extent::new([from, 0.0, 0.0], [to, 0.4, 0.4]),
        films: FaceFilms {
            up: 0.1,
            sideways: 0.13,
            down: 0.17,
        },
    };
    VolumeParts {
        size: [0.4, 0.4, 0.4],
        blocks: vec![
            block("wall", [0.1, 0.0, 0.0], [0.2, 0.4, 0.4], false),
            block("rod", [0.1, 0.1, 0.1], [0.3, 0.3, 0.2], true),
        ],
        airs: vec![air("outdoors", -10.0), air("room", 20.0)],
        regions: vec![region(0, 0.0, 0.1), region(1, 0.2, 0.4)],
        faces: vec![],
    }
}

fn face(name: &str, from: [f64; 3], to: [f64; 3]) -> Face {
    Face {
        name: name.into(),
        extent: Extent::new(from, to),
        contact: FaceContact::Held(5.0),
    }
}

#[test]
fn a_sound_volume_knows_what_lies_where() {
    let mut parts = rod();
    parts.faces = vec![face("tip", [0.3, 0.1, 0.1], [0.3, 0.3, 0.2])];
    let volume = Volume::new(parts).expect("sound");
    assert_eq!(volume.edges()[0], [0.0, 0.1, 0.2, 0.3, 0.4]);
    assert_eq!(volume.edges()[2], [0.0, 0.1, 0.2, 0.4]);
    assert_eq!(volume.place([1, 0, 0]), Place::Block(0));
    assert_eq!(volume.place([1, 1, 1]), Place::Block(1));
    assert_eq!(volume.place([3, 1, 1]), Place::Air(1));
    let contact = |place, facing| {
        let contact = volume.contact(place, facing)?;
        Some((contact.boundary, contact.film))
    };
    assert_eq!(contact([1, 0, 0], Facing::Left), Some((0, 0.13)));
    assert_eq!(contact([1, 0, 0], Facing::Front), None);
    assert_eq!(contact([2, 1, 1], Facing::Back), Some((1, 0.13)));
    assert_eq!(contact([2, 1, 1], Facing::Up), Some((1, 0.1)));
    assert_eq!(contact([2, 1, 1], Facing::Down), Some((1, 0.17)));
    assert_eq!(contact([2, 1, 1], Facing::Right), Some((2, 0.0)));
    assert_eq!(volume.boundary("tip"), Some(2));
    assert_eq!(volume.beside([3, 0, 0], Facing::Right), None);
}

#[test]
fn facing_knows_its_axis_and_its_way() {
    for facing in Facing::ALL {
        assert_eq!(Facing::along(facing.axis(), facing.is_onward()), facing);
    }
    assert_eq!((Facing::Up.axis(), Facing::Up.is_onward()), (2, true));
    assert_eq!(
        (Facing::Front.axis(), Facing::Front.is_onward()),
        (1, false)
    );
}

type Change = fn(&mut VolumeParts);

#[rstest]
#[case::size(|p: &mut VolumeParts| p.size[1] = f64::NAN, "expected more than 0")]
#[case::not_finite(|p: &mut VolumeParts| p.blocks[1].extent.to[2] = f64::INFINITY, "an edge of `rod` is not a number")]
#[case::backward(|p: &mut VolumeParts| p.blocks[1].extent.to[2] = 0.05, "`rod` has no size: x 3.937 to 11.811 in")]
#[case::sliver(|p: &mut VolumeParts| p.blocks[1].extent.to[2] = 0.1 + 5e-10, "`rod` has no size")]
#[case::outside(|p: &mut VolumeParts| p.blocks[1].extent.to[0] = 0.5, "`rod` reaches beyond the volume")]
#[case::before(|p: &mut VolumeParts| p.regions[0].extent.from[0] = -0.1, "`outdoors` reaches beyond")]
#[case::no_conductivity(|p: &mut VolumeParts| p.blocks[0].conductivity = 0.0, "`wall` conducts 0 W/(m·K)")]
#[case::negative(|p: &mut VolumeParts| p.blocks[0].conductivity = -1.0, "`wall` conducts -1 W/(m·K)")]
#[case::film(|p: &mut VolumeParts| p.regions[1].films.up = -0.1, "the film at `room` is -0.1")]
#[case::cold(|p: &mut VolumeParts| p.airs[0].temperature = -300.0, "`outdoors` has -300 °C")]
#[case::name_twice(|p: &mut VolumeParts| p.blocks[1].name = "wall".into(), "`wall` is the name of two things")]
#[case::no_such_air(|p: &mut VolumeParts| p.regions[0].air = 7, "`air region 1` is of air number 7")]
#[case::overlap(
    |p: &mut VolumeParts| p.blocks[1].covers = false,
    "`rod` lies over `wall` and isn't declared to cover it: x 3.937 to 7.874 in, y 3.937 to 11.811 in, z 3.937 to 7.874 in (x 100 to 200 mm, y 100 to 300 mm, z 100 to 200 mm)"
)]
#[case::airs_overlap(
    |p: &mut VolumeParts| p.regions[0].extent.to[0] = 0.3,
    "`outdoors` and `room` share a place"
)]
#[case::gap(
    |p: &mut VolumeParts| p.regions[1].extent.from[1] = 0.05,
    "neither a solid nor air fills a part of the volume: x 7.874 to 15.748 in, y 0 to 1.969 in"
)]
#[case::idle(
    |p: &mut VolumeParts| p.airs.push(Air { name: "attic".into(), temperature: 0.0 }),
    "the air `attic` touches nothing solid"
)]
#[case::all_air(|p: &mut VolumeParts| p.blocks.clear(), "neither a solid nor air")]
#[case::deep(
    |p: &mut VolumeParts| p.faces.push(face("tip", [0.25, 0.1, 0.1], [0.25, 0.3, 0.2])),
    "the face `tip` doesn't lie on the surface of a solid"
)]
#[case::thick(
    |p: &mut VolumeParts| p.faces.push(face("tip", [0.3, 0.1, 0.1], [0.31, 0.3, 0.2])),
    "the face `tip` isn't flat"
)]
#[case::line(
    |p: &mut VolumeParts| p.faces.push(face("tip", [0.3, 0.1, 0.1], [0.3, 0.1, 0.2])),
    "`tip` has no size"
)]
#[case::twice(
    |p: &mut VolumeParts| for name in ["tip", "end"] {
        p.faces.push(face(name, [0.3, 0.1, 0.1], [0.3, 0.3, 0.2]));
    },
    "the face `end` lies on another face"
)]
fn a_volume_that_makes_no_sense_is_refused_with_its_place(
    #[case] change: Change,
    #[case] expected: &str,
) {
    let mut parts = rod();
    change(&mut parts);
    let problems = Volume::new(parts).expect_err("refused");
    let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert!(told.iter().any(|one| one.contains(expected)), "{told:?}");
}

#[test]
fn solid_that_touches_no_air_is_refused() {
    let mut parts = rod();
    parts.regions.clear();
    parts.airs.clear();
    parts.blocks.truncate(1);
    parts.blocks[0].extent = Extent::new([0.0; 3], [0.4; 3]);
    let problems = Volume::new(parts).expect_err("nothing settles its temperature");
    assert_eq!(problems, [VolumeProblem::NoBoundary]);
}

#[test]
fn too_many_boxes_or_places_are_refused_at_once() {
    let mut parts = rod();
    parts.regions = vec![parts.regions[0]; MOST_BOXES];
    let problems = Volume::new(parts).expect_err("too many");
    assert!(matches!(problems[..], [VolumeProblem::TooManyBoxes { .. }]));
    let mut parts = rod();
    for n in 0..60 {
        let from = 0.1 + 1e-3 * f64::from(n);
        parts.blocks.push(Block {
            name: format!("crumb {n}"),
            extent: Extent::new([from; 3], [from + 5e-4; 3]),
            conductivity: 1.0,
            covers: true,
        });
    }
    let problems = Volume::new(parts).expect_err("too many");
    assert!(matches!(problems[..], [VolumeProblem::TooManyEdges { .. }]));
}
