//! Volumes for tests: boxes in millimeters.

use dewmargin::model::detail::{Air, FaceContact, FaceFilms};
use dewmargin::model::volume::{AirRegion, Block, Extent, Face, Volume, VolumeParts};

/// A box, mm.
pub(crate) fn mm(from: [f64; 3], to: [f64; 3]) -> Extent {
    let meters = |corner: [f64; 3]| corner.map(|value| value * 1e-3);
    Extent::new(meters(from), meters(to))
}

/// A volume with nothing in it, mm.
pub(crate) fn empty(size: [f64; 3]) -> VolumeParts {
    VolumeParts {
        size: size.map(|value| value * 1e-3),
        ..VolumeParts::default()
    }
}

/// Adds a block that may lie over earlier ones.
pub(crate) fn block(parts: &mut VolumeParts, name: &str, conductivity: f64, extent: Extent) {
    parts.blocks.push(Block {
        name: name.into(),
        extent,
        conductivity,
        covers: true,
    });
}

/// Adds an air and gives its number.
pub(crate) fn air(parts: &mut VolumeParts, name: &str, temperature: f64) -> usize {
    parts.airs.push(Air {
        name: name.into(),
        temperature,
    });
    parts.airs.len() - 1
}

pub(crate) fn region(parts: &mut VolumeParts, air: usize, films: FaceFilms, extent: Extent) {
    parts.regions.push(AirRegion { air, extent, films });
}

/// A side of the volume that lies open to air behind a film.
pub(crate) fn open(parts: &mut VolumeParts, name: &str, air: usize, film: f64, extent: Extent) {
    parts.faces.push(Face {
        name: name.into(),
        extent,
        contact: FaceContact::Air { air, film },
    });
}

/// A face held at a temperature.
pub(crate) fn held(parts: &mut VolumeParts, name: &str, temperature: f64, extent: Extent) {
    parts.faces.push(Face {
        name: name.into(),
        extent,
        contact: FaceContact::Held(temperature),
    });
}

pub(crate) fn sound(parts: VolumeParts) -> Volume {
    Volume::new(parts).unwrap_or_else(|problems| {
        let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
        panic!("{}", told.join("\n"))
    })
}

/// Equal walls that meet at right angles, the room inside, outdoors at 0 °C and the room at 1 °C:
/// `meeting` walls of a thickness, with inside legs, mm. Along the other axes, on which nothing
/// changes, they are as long as they are thick. The far ends are planes of symmetry.
pub(crate) fn walls(
    meeting: usize,
    (conductivity, thickness, legs): (f64, f64, f64),
    (inside_film, outside_film): (f64, f64),
) -> VolumeParts {
    let meets = |axis: usize| axis < meeting;
    let size = [0, 1, 2].map(|axis| thickness + if meets(axis) { legs } else { 0.0 });
    let mut parts = empty(size);
    let outdoors = air(&mut parts, "outdoors", 0.0);
    let room = air(&mut parts, "room", 1.0);
    let mut room_from = [0.0; 3];
    for axis in 0..meeting {
        let name = ["left", "front", "floor"][axis];
        let mut to = size;
        to[axis] = thickness;
        room_from[axis] = thickness;
        block(&mut parts, name, conductivity, mm([0.0; 3], to));
        to[axis] = 0.0;
        let outside = format!("outside of {name}");
        open(
            &mut parts,
            &outside,
            outdoors,
            outside_film,
            mm([0.0; 3], to),
        );
    }
    let films = FaceFilms::all(inside_film);
    region(&mut parts, room, films, mm(room_from, size));
    parts
}

/// A rectangle of a floor edge's section: distance inward from the outermost face and height, each
/// from and to, mm.
type Cut = [f64; 4];

/// The outside corner of a floor edge, two steel flanges with a tube rail beneath them, mitred: what
/// lies at a place hangs on the smaller distance from the two outer faces, and on height. Steel of
/// that thickness, foam over it, mm; outdoors at 5 °C.
pub(crate) fn floor_edge_corner(flange: f64, foam_over: f64) -> VolumeParts {
    let (reach, up, wall) = (450.0, 350.0, -114.3);
    let (deck, finish, plate) = (19.05, 31.75, [-101.6, -12.7]);
    let (outer, inner, top) = (wall, wall + 152.4, finish + up);
    let steel_top = -foam_over;
    let steel_foot = steel_top - flange;
    let bay = -(139.7 + foam_over);
    let (lining, pan, rail) = (bay - 25.4, bay - 26.4, steel_foot - 152.4);
    let web = flange.min(4.7625);
    let solids: [(&str, f64, Cut); 16] = [
        ("bay", 0.024, [inner, reach, bay, 0.0]),
        (
            "bay beneath the flange",
            0.024,
            [outer, inner, bay, steel_foot],
        ),
        ("board on the pan", 0.024, [outer, reach, lining, bay]),
        ("pan", 50.0, [outer, reach, pan, lining]),
        ("subfloor", 0.115, [plate[0], reach, 0.0, deck]),
        ("floor finish", 0.17, [0.0, reach, deck, finish]),
        (
            "foam over the flange",
            0.0288,
            [plate[0], inner, steel_top, 0.0],
        ),
        ("joist", 0.12, [inner, inner + 38.1, -139.7, 0.0]),
        ("flange", 50.0, [outer, inner, steel_foot, steel_top]),
        ("rail", 50.0, [outer, outer + 50.8, rail, steel_foot]),
        (
            "rail's hollow",
            0.229,
            [
                outer + web,
                outer + 50.8 - web,
                rail + web,
                steel_foot - web,
            ],
        ),
        ("skirt", 50.0, [outer, outer + 1.0, lining, rail]),
        ("lining", 0.16, [plate[1], 0.0, deck, top]),
        ("plate", 0.12, [plate[0], plate[1], deck, deck + 38.1]),
        ("wall bay", 0.0388, [plate[0], plate[1], deck + 38.1, top]),
        ("sheathing", 0.106, [wall, plate[0], steel_top, top]),
    ];
    let (left, bottom) = (outer - 76.2, pan.min(rail) - 76.2);
    let films = |up, sideways, down| FaceFilms { up, sideways, down };
    let room = films(0.17, 0.13, 0.10);
    let airs: [(usize, FaceFilms, Cut); 4] = [
        (1, room, [0.0, reach, finish, top]),
        (0, FaceFilms::all(0.04), [left, reach, bottom, pan]),
        (0, FaceFilms::all(0.04), [left, outer, pan, steel_top]),
        (2, films(0.10, 0.13, 0.17), [left, wall, steel_top, top]),
    ];
    let mut parts = empty([reach - left, reach - left, top - bottom]);
    for (name, temperature) in [("outdoors", 5.0), ("room", 20.0), ("gap", 5.0)] {
        air(&mut parts, name, temperature);
    }
    // An L in plan is two boxes: a strip along each outer face.
    let strips = |cut: Cut| {
        let [from, to] = [cut[0] - left, cut[1] - left];
        let (low, high, end) = (cut[2] - bottom, cut[3] - bottom, reach - left);
        [
            mm([from, from, low], [to, end, high]),
            mm([from, from, low], [end, to, high]),
        ]
    };
    for (air, films, cut) in airs {
        for extent in strips(cut) {
            region(&mut parts, air, films, extent);
        }
    }
    let has_size = |cut: &Cut| cut[1] - cut[0] > 1e-6 && cut[3] - cut[2] > 1e-6;
    for (name, conductivity, cut) in solids.into_iter().filter(|(_, _, cut)| has_size(cut)) {
        for (extent, along) in strips(cut).into_iter().zip(["y", "x"]) {
            block(
                &mut parts,
                &format!("{name} along {along}"),
                conductivity,
                extent,
            );
        }
    }
    parts
}
