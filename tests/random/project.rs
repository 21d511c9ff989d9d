//! Random projects as a builder might write them: every one is valid, and the seed gives it again.

use std::fmt::Write;

use super::assemblies::{Assembly, BOARD_DEPTHS, BOARDS, floor, roof, wall};

/// Numbers from a seed by SplitMix64 (Steele, Lea and Flood 2014): the same on every machine.
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn of(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub(crate) fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    pub(crate) fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn one_in(&mut self, count: usize) -> bool {
        self.below(count) == 0
    }

    pub(crate) fn pick<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.below(of.len())]
    }
}

const CLIMATES: &[&str] = &["wet-coast", "cold-continental", "hot-humid", "mixed-humid"];
/// A project file, and what it has besides assemblies.
pub(crate) struct Project {
    pub(crate) text: String,
    pub(crate) sized: bool,
    pub(crate) swept: bool,
}

/// The project of a seed. Rooms whose humidity follows from something else have no axis of it.
pub(crate) fn project(seed: u64) -> Project {
    let random = &mut Random::of(seed);
    let mut text = String::new();
    let (humidity_is_stated, is_route) = surroundings(random, &mut text);
    text += "assemblies:\n";
    let wall = wall(random);
    let floor = floor(random);
    let with_floor = !random.one_in(3);
    text += &wall.text;
    if with_floor {
        text += &floor.text;
    }
    if random.one_in(2) {
        text += &roof(random);
    }
    text += &details(random, with_floor.then_some(&floor));
    if random.one_in(2) {
        text += &variants(random, with_floor.then_some(&floor));
    }
    let sized = humidity_is_stated && random.one_in(2);
    if sized {
        let humidity = random.below(30) + 35;
        let _ = writeln!(
            text,
            "size:\n  board:\n    layer: {{outside-of: sheathing, name: sized board, material: {}}}\n    \
             of: wall\n    targets: {{leak-margin: {} F}}\n    humidity: {humidity} %",
            random.pick(&["XPS", "polyiso", "mineral-wool board"]),
            random.below(5)
        );
    }
    let swept = humidity_is_stated && !is_route && random.one_in(2);
    if swept {
        let _ = writeln!(
            text,
            "sweep:\n  of: wall\n  axes:\n    sheathing: {{layer: sheathing, thickness: {{from: 1/4 in, to: 1 in, step: \
             1/{} in}}}}\n    humidity: {{humidity: {{from: 30 %, to: 60 %, step: {} %}}}}",
            [4, 8, 16][random.below(3)],
            random.below(9) + 5
        );
    }
    Project { text, sized, swept }
}

/// Writes the air on both sides; whether the room's humidity is stated, and whether there are several sites.
fn surroundings(random: &mut Random, text: &mut String) -> (bool, bool) {
    let heating = match random.below(2) {
        0 => format!("{} F", 60 + random.below(12)),
        _ => format!("{:.1} C", random.between(16.0, 22.0)),
    };
    let cooling = match random.below(3) {
        0 => ", cooling: 75 F".to_owned(),
        1 => format!(
            ", cooling: {{temperature: {} F, humidity: {} %}}",
            75 + random.below(6),
            45 + random.below(15)
        ),
        _ => String::new(),
    };
    let room = match random.below(4) {
        0 => format!("humidity-class: {}", random.below(5) + 1),
        1 => format!(
            "moisture: {{people: {}, cooking: {}, ventilation: {} cfm, volume: {} ft3}}",
            random.below(4) + 1,
            random.pick(&["gas", "propane", "electric"]),
            random.below(80) + 10,
            random.below(1500) + 500
        ),
        _ => format!("humidity: {} %", random.below(40) + 25),
    };
    let _ = writeln!(text, "indoor: {{heating: {heating}{cooling}, {room}}}");
    let is_stated = room.starts_with("humidity: ");
    let air = random.below(if is_stated { 4 } else { 3 });
    let is_route = air == 0;
    match air {
        0 => {
            let first = random.below(CLIMATES.len());
            let other = (first + 1 + random.below(CLIMATES.len() - 1)) % CLIMATES.len();
            let _ = writeln!(text, "climate: [{}, {}]", CLIMATES[first], CLIMATES[other]);
        }
        1 | 2 => {
            let _ = writeln!(text, "climate: {}", random.pick(CLIMATES));
        }
        _ => {
            let _ = writeln!(
                text,
                "outdoor: {{winter-mean: {{temperature: {:.1} C, humidity: {} %}}, design-night: {{temperature: {:.1} \
                 C, humidity: 80 %}}}}",
                random.between(-15.0, 12.0),
                random.below(30) + 65,
                random.between(-35.0, -15.0)
            );
        }
    }
    if random.one_in(3) {
        let edition = random.pick(&["IRC 2012", "IRC 2018", "IRC 2021"]);
        let _ = writeln!(
            text,
            "code: {{edition: {edition}, zone: {}}}",
            random.pick(&["marine 4", "5A", "6A", "3C"])
        );
    }
    (is_stated, is_route)
}

fn details(random: &mut Random, floor: Option<&Assembly>) -> String {
    let mut text = String::new();
    let strip = floor.and_then(|floor| floor.strip);
    if let (Some(strip), true) = (strip, random.one_in(3)) {
        let _ = writeln!(
            text,
            "  edge:\n    floor-edge: {{floor: floor, wall: wall, flange: {strip}, foam: {{reach: {}}}, rail: {{shape: {}, \
             material: carbon steel, height: 6 in, width: 2 in, thickness: 3/16 in}}}}",
            random.pick(&["plate-inner-edge", "under-plate"]),
            random.pick(&["tube", "channel"])
        );
    }
    if random.one_in(4) {
        text += &drawn(random);
    }
    match text.is_empty() {
        true => text,
        false => format!("details:\n{text}"),
    }
}

/// Rectangles side by side in rows and columns, metal and foam among them.
fn drawn(random: &mut Random) -> String {
    let (columns, rows) = (random.below(4) + 1, random.below(4) + 1);
    let mut cuts = |count: usize, size: f64| {
        let mut lines: Vec<f64> = (1..count)
            .map(|_| random.between(4.0, size - 4.0))
            .collect();
        lines.sort_by(f64::total_cmp);
        lines.dedup_by(|a, b| (*a - *b).abs() < 1.0);
        lines.insert(0, 0.0);
        lines.push(size);
        lines
    };
    let (x, y) = (cuts(columns, 300.0), cuts(rows, 120.0));
    let mut text = "  cut:\n    cut: {width: 300 mm, height: 220 mm}\n    rectangles:\n".to_owned();
    const SOLIDS: &[&str] = &[
        "plywood",
        "XPS",
        "carbon steel",
        "spruce-pine-fir",
        "polyiso",
        "gypsum board",
        "aluminum",
    ];
    for (n, across) in x.windows(2).enumerate() {
        for (m, up) in y.windows(2).enumerate() {
            let _ = writeln!(
                text,
                "      - {{name: r{n}-{m}, material: {}, from: [{:.3} mm, {:.3} mm], to: [{:.3} mm, {:.3} mm]}}",
                random.pick(SOLIDS),
                across[0],
                up[0],
                across[1],
                up[1]
            );
        }
    }
    text + "    air: [{name: room, from: [0, 120 mm], to: [300 mm, 220 mm]}]\n    \
            faces: [{name: under, from: [0, 0], to: [300 mm, 0], air: outdoors}]\n"
}

fn variants(random: &mut Random, floor: Option<&Assembly>) -> String {
    let mut text = "variants:\n".to_owned();
    let _ = writeln!(
        text,
        "  more outside:\n    wall: {{add: {{outside-of: sheathing, layer: {{name: added board, material: {}, thickness: \
         {}}}}}}}",
        random.pick(BOARDS),
        random.pick(BOARD_DEPTHS)
    );
    if floor.is_some() && random.one_in(2) {
        let _ = writeln!(
            text,
            "  warmer floor:\n    floor: {{add: {{outside-of: subfloor, layer: {{name: added foam, material: XPS, \
             thickness: {}}}}}}}",
            random.pick(&["1/2 in", "1 in", "2 in"])
        );
    }
    text
}
