//! Details for tests: cut and parts in millimeters.

use dewmargin::model::detail::{
    Air, AirRegion, Area, Block, Detail, DetailParts, Face, FaceContact, FaceFilms,
    PlaneConductivity,
};

pub(crate) fn mm(left: f64, right: f64, bottom: f64, top: f64) -> Area {
    let meters = |value: f64| value * 1e-3;
    Area::new(meters(left), meters(right), meters(bottom), meters(top))
}

/// A cut with nothing in it, mm.
pub(crate) fn cut(width: f64, height: f64) -> DetailParts {
    DetailParts {
        width: width * 1e-3,
        height: height * 1e-3,
        ..DetailParts::default()
    }
}

/// Adds a block that may lie over earlier ones.
pub(crate) fn block(parts: &mut DetailParts, name: &str, conductivity: f64, area: Area) {
    parts.blocks.push(Block {
        name: name.into(),
        label: name.into(),
        area,
        conductivity: PlaneConductivity::isotropic(conductivity),
        covers: true,
    });
}

/// Adds an air and gives its number.
pub(crate) fn air(parts: &mut DetailParts, name: &str, temperature: f64) -> usize {
    parts.airs.push(Air {
        name: name.into(),
        temperature,
    });
    parts.airs.len() - 1
}

pub(crate) fn region(parts: &mut DetailParts, air: usize, films: FaceFilms, area: Area) {
    parts.regions.push(AirRegion { air, area, films });
}

/// A face of the cut that lies open to air behind a film.
pub(crate) fn open(parts: &mut DetailParts, name: &str, air: usize, film: f64, line: Area) {
    parts.faces.push(Face {
        name: name.into(),
        line,
        contact: FaceContact::Air { air, film },
    });
}

/// A face held at a temperature.
pub(crate) fn held(parts: &mut DetailParts, name: &str, temperature: f64, line: Area) {
    parts.faces.push(Face {
        name: name.into(),
        line,
        contact: FaceContact::Held(temperature),
    });
}

pub(crate) fn sound(parts: DetailParts) -> Detail {
    Detail::new(parts).unwrap_or_else(|problems| {
        let told: Vec<String> = problems.iter().map(ToString::to_string).collect();
        panic!("{}", told.join("\n"))
    })
}

/// The study's floor edge: a floor in a steel frame and a wall on its flange, mm. Foam of that
/// thickness lies over flange and cavity.
pub(crate) fn reference_edge(foam: f64) -> DetailParts {
    let deck = 120.0 + foam + 18.0;
    let mut parts = cut(1200.0, 600.0);
    let (steel, insulation, wood, ply, pocket) = (50.0, 0.025, 0.12, 0.13, 0.08);
    let mut add = |name, k, area| block(&mut parts, name, k, area);
    add("pan", steel, mm(0.0, 1200.0, 0.0, 0.8));
    add("cavity foam", insulation, mm(0.0, 1200.0, 0.8, 120.0));
    add("pocket", pocket, mm(4.8, 20.0, 0.8, 115.2));
    add("rim joist", wood, mm(152.4, 190.4, 0.8, 120.0));
    add("web", steel, mm(0.0, 4.8, 0.0, 120.0));
    add("flange", steel, mm(0.0, 152.4, 115.2, 120.0));
    if foam > 0.0 {
        add(
            "foam over flange",
            insulation,
            mm(12.8, 1200.0, 120.0, 120.0 + foam),
        );
    }
    add("subfloor", ply, mm(24.8, 1200.0, 120.0 + foam, deck));
    add("cladding", steel, mm(0.0, 0.8, 120.0, 600.0));
    add("rain-screen gap", pocket, mm(0.8, 12.8, 120.0, 600.0));
    add("sheathing", ply, mm(12.8, 24.8, 120.0, 600.0));
    add("plate", wood, mm(24.8, 113.7, deck, deck + 38.0));
    add("wall foam", insulation, mm(24.8, 113.7, deck + 38.0, 600.0));
    add("lining", ply, mm(113.7, 122.7, deck, 600.0));
    let outdoors = air(&mut parts, "outdoors", -10.0);
    let room = air(&mut parts, "room", 20.0);
    let films = FaceFilms {
        up: 0.17,
        sideways: 0.13,
        down: 0.10,
    };
    region(&mut parts, room, films, mm(122.7, 1200.0, deck, 600.0));
    open(
        &mut parts,
        "outer wall",
        outdoors,
        0.04,
        mm(0.0, 0.0, 0.0, 600.0),
    );
    open(
        &mut parts,
        "underside",
        outdoors,
        0.04,
        mm(0.0, 1200.0, 0.0, 0.0),
    );
    parts
}

/// Σ U·l of the reference edge by its clear wall and floor, inside lengths, W/(m·K).
pub(crate) fn reference_clear(foam: f64) -> f64 {
    let deck = 0.120 + foam * 1e-3 + 0.018;
    let floor = 0.04 + 0.0008 / 50.0 + (0.1192 + foam * 1e-3) / 0.025 + 0.018 / 0.13 + 0.17;
    let wall =
        0.04 + 0.0008 / 50.0 + 0.012 / 0.08 + 0.012 / 0.13 + 0.0889 / 0.025 + 0.009 / 0.13 + 0.13;
    (1.2 - 0.1227) / floor + (0.6 - deck) / wall
}
