//! Walls, floors and roofs of random projects, each a usual build-up with unusual numbers.

use std::fmt::Write;

use super::project::Random;

const INSULATION: &[&str] = &[
    "R-13 batt",
    "R-15 batt",
    "R-21 batt",
    "R-19 batt",
    "cellulose",
    "sheep wool",
    "mineral-wool board",
    "closed-cell spray foam",
    "open-cell spray foam",
    "EPS type II",
    "cork board",
];
pub(super) const BOARDS: &[&str] = &[
    "XPS",
    "polyiso",
    "EPS type II",
    "mineral-wool board",
    "foil-faced polyiso",
    "fiberboard",
];
const PANELS: &[&str] = &["plywood", "OSB", "fiberboard", "particleboard", "hardboard"];
const LININGS: &[&str] = &[
    "gypsum board",
    "painted gypsum board",
    "white pine",
    "plywood",
    "cement board",
];
const FILMS: &[&str] = &[
    "polyethylene 6 mil",
    "kraft facing",
    "humidity-variable membrane",
    "vapor-retarder paint",
    "aluminum foil",
];
const WRAPS: &[&str] = &["housewrap", "felt 15", "building paper 60 minute"];
const CLADDINGS: &[&str] = &[
    "cedar siding",
    "fiber-cement siding",
    "vinyl siding",
    "stucco",
    "galvanized steel",
];
const ROOFINGS: &[&str] = &["EPDM", "galvanized steel", "self-adhered membrane"];
const FLOORINGS: &[&str] = &[
    "oak flooring",
    "linoleum",
    "sheet vinyl",
    "cork tile",
    "carpet",
];
const DEPTHS: &[&str] = &["3-1/2 in", "5-1/2 in", "7-1/4 in", "89 mm", "140 mm"];
const PANEL_DEPTHS: &[&str] = &[
    "3/8 in", "1/2 in", "5/8 in", "3/4 in", "12 mm", "18 mm", "1-1/8 in",
];
pub(super) const BOARD_DEPTHS: &[&str] = &[
    "1/2 in", "1 in", "1-1/2 in", "2 in", "3 in", "40 mm", "100 mm",
];

fn layer(text: &mut String, name: &str, material: &str, thickness: &str, rest: &str) {
    let thickness = match thickness {
        "" => String::new(),
        deep => format!(", thickness: {deep}"),
    };
    let _ = writeln!(
        text,
        "      - {{name: {name}, material: {material}{thickness}{rest}}}"
    );
}

fn framed(random: &mut Random, text: &mut String, name: &str, depth: &str) {
    let members = match random.below(3) {
        0 => format!("share: {} %", random.below(30) + 5),
        1 => "width: 1.5 in, spacing: 16 in".to_owned(),
        _ => "width: 38 mm, spacing: 600 mm".to_owned(),
    };
    let wood = random.pick(&["spruce-pine-fir", "douglas fir", "southern pine"]);
    let framing = format!(", framing: {{material: {wood}, {members}}}");
    layer(text, name, random.pick(INSULATION), depth, &framing);
}

fn metal_or(material: &str, random: &mut Random) -> String {
    match material {
        "galvanized steel" => random.pick(&["26 ga", "24 ga", "20 ga"]).to_owned(),
        "EPDM" => "60 mil".to_owned(),
        "self-adhered membrane" | "cedar siding" | "vinyl siding" => String::new(),
        _ => random.pick(&["1/2 in", "5/8 in", "3/4 in"]).to_owned(),
    }
}

fn panel(random: &mut Random) -> (&'static str, &'static str) {
    (random.pick(PANELS), random.pick(PANEL_DEPTHS))
}

pub(super) struct Assembly {
    pub(super) text: String,
    /// What a strip of it is called.
    pub(super) strip: Option<&'static str>,
}

pub(super) fn wall(random: &mut Random) -> Assembly {
    let mut text = "  wall:\n    kind: wall\n    layers:\n".to_owned();
    let lining = random.pick(LININGS);
    layer(
        &mut text,
        "lining",
        lining,
        random.pick(&["1/2 in", "5/8 in", "3/8 in"]),
        "",
    );
    if random.one_in(2) {
        layer(&mut text, "film", random.pick(FILMS), "", "");
    }
    if random.one_in(4) {
        framed(random, &mut text, "service cavity", "1-1/2 in");
    }
    let depth = random.pick(DEPTHS);
    framed(random, &mut text, "studs", depth);
    let (material, depth) = panel(random);
    let bonded = if random.one_in(4) {
        ", bonded: true"
    } else {
        ""
    };
    layer(&mut text, "sheathing", material, depth, bonded);
    if random.one_in(2) {
        layer(
            &mut text,
            "outside board",
            random.pick(BOARDS),
            random.pick(BOARD_DEPTHS),
            "",
        );
    }
    layer(&mut text, "wrap", random.pick(WRAPS), "", "");
    if !random.one_in(3) {
        let air = random.pick(&["ventilated", "vented", "still"]);
        let _ = writeln!(
            text,
            "      - {{name: rain screen, air: {air}, thickness: {}}}",
            random.pick(&["3/8 in", "3/4 in", "20 mm"])
        );
    }
    let cladding = random.pick(CLADDINGS);
    let depth = metal_or(cladding, random);
    layer(&mut text, "siding", cladding, &depth, "");
    Assembly { text, strip: None }
}

pub(super) fn floor(random: &mut Random) -> Assembly {
    let has_strip = !random.one_in(3);
    let frame = random.pick(&["flush", "proud"]);
    let mut text = format!("  floor:\n    kind: floor\n    frame: {frame}\n    layers:\n");
    if random.one_in(2) {
        let material = random.pick(FLOORINGS);
        layer(
            &mut text,
            "finish",
            material,
            random.pick(&["1/8 in", "3/8 in", "1/2 in"]),
            "",
        );
    }
    let (material, depth) = (
        random.pick(&["plywood", "OSB"]),
        random.pick(&["5/8 in", "3/4 in", "18 mm"]),
    );
    layer(&mut text, "subfloor", material, depth, "");
    let depth = random.pick(DEPTHS);
    framed(random, &mut text, "bay", depth);
    if random.one_in(2) {
        layer(
            &mut text,
            "under board",
            random.pick(BOARDS),
            random.pick(BOARD_DEPTHS),
            "",
        );
    }
    layer(
        &mut text,
        "pan",
        random.pick(&["galvanized steel", "aluminum"]),
        "20 ga",
        "",
    );
    if has_strip {
        let over = match random.below(3) {
            0 => String::new(),
            _ => format!(
                ", over: [{{name: strip foam, material: {}, thickness: {}, bonded: true}}]",
                random.pick(&["XPS", "EPS type II", "polyiso"]),
                random.pick(&["1/2 in", "1 in", "1-1/2 in", "25 mm"])
            ),
        };
        let _ = writeln!(
            text,
            "    strips:\n      - {{name: flange, metal: carbon steel, thickness: {}, width: {} in, across: 96 in, count: 2, \
             under: subfloor{over}}}",
            random.pick(&["1/8 in", "3/16 in", "1/4 in", "6 mm"]),
            random.below(4) + 11
        );
    }
    Assembly {
        text,
        strip: has_strip.then_some("flange"),
    }
}

pub(super) fn roof(random: &mut Random) -> String {
    let mut text = "  roof:\n    kind: roof\n    layers:\n".to_owned();
    layer(&mut text, "ceiling", random.pick(LININGS), "1/2 in", "");
    if random.one_in(3) {
        layer(&mut text, "film", random.pick(FILMS), "", "");
    }
    let depth = random.pick(DEPTHS);
    framed(random, &mut text, "rafters", depth);
    if random.one_in(4) {
        let _ = writeln!(
            text,
            "      - {{name: vent, air: {}, thickness: 1 in}}",
            random.pick(&["ventilated", "vented"])
        );
    }
    let (material, depth) = panel(random);
    layer(&mut text, "deck", material, depth, "");
    if random.one_in(2) {
        layer(
            &mut text,
            "roof board",
            random.pick(BOARDS),
            random.pick(BOARD_DEPTHS),
            "",
        );
    }
    let roofing = random.pick(ROOFINGS);
    let depth = metal_or(roofing, random);
    layer(&mut text, "roofing", roofing, &depth, "");
    text
}
