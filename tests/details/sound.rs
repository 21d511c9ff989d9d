//! Whatever the sizes, a floor edge that can be built can be solved.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{details, house, solved_between};

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 200,
        rng_seed: RngSeed::Fixed(0x5eed),
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// Sizes in inches.
#[derive(Clone, Debug)]
struct Sizes {
    lining: f64,
    studs: f64,
    bay: f64,
    flange: (f64, f64),
    /// How much of the flange lies inboard of the plate's outer edge, as a share.
    inboard: f64,
    rail: (&'static str, f64, f64, f64),
    foam: f64,
    under_plate: bool,
    has_pan: bool,
    has_gap: bool,
}

fn sizes() -> impl Strategy<Value = Sizes> {
    let wall = (0.125..1.5, 1.5..8.0, 3.0..14.0);
    let shapes = prop::sample::select(vec!["tube", "angle", "channel"]);
    let rail = (shapes, 1.0..16.0, 0.7..8.0, 0.03..0.3);
    let flange = (0.03..0.5, 0.5..12.0);
    let foam = prop_oneof![Just(0.0), 0.1..4.0];
    let yes = (any::<bool>(), any::<bool>(), any::<bool>());
    (wall, rail, flange, 0.01..1.0, foam, yes).prop_map(
        |((lining, studs, bay), rail, flange, inboard, foam, yes)| Sizes {
            lining,
            studs,
            bay,
            flange,
            inboard,
            rail,
            foam,
            under_plate: yes.0,
            has_pan: yes.1,
            has_gap: yes.2,
        },
    )
}

fn project(sizes: &Sizes) -> String {
    let Sizes {
        lining,
        studs,
        bay,
        flange: (thickness, width),
        ..
    } = sizes;
    let reach = sizes.inboard * width - studs - lining;
    let (shape, height, rail_width, wall) = sizes.rail;
    let foam = match sizes.foam {
        0.0 => String::new(),
        foam => format!(", over: [{{name: foam, material: XPS, thickness: {foam} in}}]"),
    };
    let keys = format!(
        "floor: low floor, wall: thin wall, flange: edge, flange-reach: {reach} in, \
         foam: {{reach: {}}}, rail: {{shape: {shape}, material: carbon steel, height: {height} in, \
         width: {rail_width} in, thickness: {wall} in}}",
        if sizes.under_plate {
            "under-plate"
        } else {
            "plate-inner-edge"
        },
    );
    let pan = match sizes.has_pan {
        true => "\n      - {name: pan, material: galvanized steel, thickness: 20 ga}",
        false => "",
    };
    let gap = match sizes.has_gap {
        true => "\n      - {name: gap, air: ventilated, thickness: 1 in}",
        false => "",
    };
    house(&format!(
        "  low floor:
    kind: floor
    frame: proud
    layers:
      - {{name: subfloor, material: plywood, thickness: 3/4 in}}
      - name: bay
        material: closed-cell spray foam
        thickness: {bay} in
        framing: {{material: spruce-pine-fir, width: 1.5 in, spacing: 16 in}}{pan}
    strips:
      - {{name: edge, metal: carbon steel, thickness: {thickness} in, width: {width} in, across: 96 in, under: subfloor{foam}}}
  thin wall:
    kind: wall
    layers:
      - {{name: lining, material: painted gypsum board, thickness: {lining} in}}
      - name: studs
        material: closed-cell spray foam
        thickness: {studs} in
        framing: {{material: spruce-pine-fir, share: 25 %}}
      - {{name: sheathing, material: plywood, thickness: 1/2 in}}{gap}
details: {{edge: {{floor-edge: {{{keys}}}}}}}
"
    ))
}

proptest! {
    #![proptest_config(config())]

    #[test]
    fn every_edge_that_can_be_built_can_be_solved(sizes in sizes()) {
        let details = details(&project(&sizes));
        let sound = solved_between(&details[0]);
        prop_assert!(sound.parts().blocks.iter().any(|block| block.name == "edge"));
        prop_assert!(sound.parts().blocks.iter().any(|block| block.name == "plate"));
        prop_assert!(sound.parts().regions.len() >= 4);
    }
}
