//! Heat loss: one system of dimensions, and nothing counted twice.

use dewmargin::solve::house::{Basis, HeatPart, NotApplicable};
use dewmargin::study::{JudgedHouse, Study};

use super::{INCH, as_drawn, close, flat, project};

fn part<'a>(house: &'a JudgedHouse<'_>, name: &str) -> &'a HeatPart {
    let parts = &house.result.heat.parts;
    parts.iter().find(|part| part.name == name).expect("a part")
}

const EDGE: &str = "  edges: [{detail: floor edge, along: [left, right]}]\n";
const DETAIL: &str = "details:
  floor edge: {floor-edge: {floor: floor, wall: wall, flange: flange}}
";

/// Inside areas by hand: 4 in of lining and studs on every side, 1/2 in of finish and 3/4 in of
/// ceiling off the walls' 90 in.
#[test]
fn areas_are_inside_ones() {
    let project = project(&flat(""));
    let house = as_drawn(&project);
    let square_inches = |m2: f64| m2 / INCH / INCH;
    let areas: Vec<f64> = house
        .result
        .areas
        .iter()
        .map(|area| square_inches(area.inside))
        .collect();
    close(areas[0], 256.0 * 88.0, 1e-6);
    close(areas[1], 2.0 * (256.0 + 88.0) * 88.75, 1e-6);
    close(areas[2], 256.0 * 88.0, 1e-6);
    let volume = house.result.volume.expect("a room") / INCH.powi(3);
    close(volume, 256.0 * 88.0 * 88.75, 1e-3);
}

/// UA with the detail replaces the strip's share: the floor's U is then that of a floor that never
/// had a strip, and the detail's psi by its length stands beside it.
#[test]
fn the_detail_replaces_the_strips_share() {
    let with_detail = project(&format!("{}{DETAIL}", flat(EDGE)));
    let with_detail = as_drawn(&with_detail);
    let in_u = project(&flat(""));
    let in_u = as_drawn(&in_u);
    let lines = super::ASSEMBLIES.lines();
    let bare: String = lines
        .filter(|line| !line.contains("strips:") && !line.contains("name: flange"))
        .map(|line| format!("{line}\n"))
        .collect();
    let house = flat("").replace(
        "assembly: floor}",
        "assembly: floor, above-frame: subfloor}",
    );
    let bare = dewmargin::input::resolve_text("house.yaml", &format!("{bare}{house}"));
    let bare = bare.expect("a project");
    let bare = as_drawn(&bare);

    let u = |house: &JudgedHouse<'_>| part(house, "floor").value.expect("a U-value");
    close(u(&with_detail), u(&bare), 1e-12);
    assert!(u(&in_u) > u(&bare));
    assert!(
        matches!(&part(&in_u, "floor").basis, Basis::Bracket { strips, .. } if strips == &["flange"])
    );
    let basis = &part(&with_detail, "floor").basis;
    assert!(matches!(basis, Basis::Combined { left_to_detail } if left_to_detail == &["flange"]));

    let edge = part(&with_detail, "floor edge");
    close(edge.size.number() / INCH, 2.0 * 256.0, 1e-9);
    let sum = bare.result.heat.total() + edge.loss();
    close(with_detail.result.heat.total(), sum, 1e-9);
    // What the bracket would have added instead is told beside it.
    let strip = &with_detail.result.heat.strips[0];
    let instead = (u(&in_u) - u(&bare)) * part(&in_u, "floor").size.number();
    close(strip.by_bracket, instead, 1e-9);
    close(strip.by_detail, edge.loss(), 1e-12);
    // The strips' 8 of 96 in over 256 × 88 in inside are two of 4 in by 256 in × 88/96.
    close(strip.strip_length / INCH, 2.0 * 256.0 * 88.0 / 96.0, 1e-6);
}

/// Psi of the detail is that which `check` prints.
#[test]
fn psi_is_the_details_own() {
    let project = project(&format!("{}{DETAIL}", flat(EDGE)));
    let details = dewmargin::study::Study::of(&project).details;
    let psi = details[0]
        .result()
        .as_ref()
        .expect("solved")
        .psi
        .as_ref()
        .expect("psi")
        .value;
    close(
        part(&as_drawn(&project), "floor edge").value.expect("psi"),
        psi,
        1e-12,
    );
}

/// Of a cross member the cut shows half: psi counts twice.
#[test]
fn half_a_cross_member_counts_twice() {
    let detail =
        "details: {members: {cross-members: {floor: floor, strip: flange, pitch: 24 in}}}\n";
    let edge = "  edges: [{detail: members, length: 80 ft}]\n";
    let project = project(&format!("{}{detail}", flat(edge)));
    let details = dewmargin::study::Study::of(&project).details;
    let psi = details[0]
        .result()
        .as_ref()
        .expect("solved")
        .psi
        .as_ref()
        .expect("psi")
        .value;
    let house = as_drawn(&project);
    close(
        part(&house, "members").value.expect("psi"),
        2.0 * psi,
        1e-12,
    );
    assert!(matches!(
        &part(&house, "floor").basis,
        Basis::Combined { .. }
    ));
}

#[test]
fn a_stated_psi_stands_for_a_strip_where_the_file_says_so() {
    let stated = "  edges: [{name: sill, psi: 0.2 W/mK, along: all, instead-of: flange}]\n";
    let beside = "  edges: [{name: sill, psi: 0.2 W/mK, along: all}]\n";
    let (stated, beside) = (project(&flat(stated)), project(&flat(beside)));
    let (stated, beside) = (as_drawn(&stated), as_drawn(&beside));
    assert!(matches!(
        &part(&stated, "floor").basis,
        Basis::Combined { .. }
    ));
    assert!(matches!(
        &part(&beside, "floor").basis,
        Basis::Bracket { .. }
    ));
    let run = 2.0 * (256.0 + 88.0) * INCH;
    close(part(&stated, "sill").loss(), 0.2 * run, 1e-9);
}

/// Shares add up, and the design night's loss is H times its difference.
#[test]
fn shares_and_the_design_night() {
    let window =
        "  openings: [{name: window, in: left, width: 3 ft, height: 3 ft, u-value: U-0.30}]\n";
    let project = project(&flat(window));
    let house = as_drawn(&project);
    let heat = &house.result.heat;
    let shares: f64 = heat.parts.iter().map(|part| heat.share(part)).sum();
    close(shares, 1.0, 1e-12);
    let night = heat.on_design_night().expect("a night");
    close(night, heat.total() * (68.0 - 25.0) / 1.8, 1e-9);
    close(
        heat.on_winter_mean(),
        heat.total() * (68.0 - 41.0) / 1.8,
        1e-9,
    );
    // 9 ft² at 0.30 Btu/(h·ft²·°F).
    close(part(&house, "window").loss() / 0.527_527_926_4, 2.7, 1e-6);
}

fn bolt(more: &str) -> String {
    flat(&format!(
        "  bolts: [{{name: rods, count: 12, diameter: 1/2 in, metal: carbon steel, in: floor{more}}}]\n"
    ))
}

/// By hand: χ = 0.8 · 50 · A / d · (R_1/R_T)², and where a bolt is recessed 0.8 · d_1/d_0.
#[test]
fn bolts_by_the_correction_for_fasteners() {
    let project = project(&bolt(", through: lining"));
    let house = as_drawn(&project);
    let part_ = part(&house, "rods");
    let Basis::Fastener {
        penetrated, total, ..
    } = part_.basis
    else {
        panic!("{:?}", part_.basis)
    };
    let section = std::f64::consts::PI / 4.0 * (0.5 * INCH).powi(2);
    let chi = 0.8 * 50.0 * section / INCH * (penetrated / total).powi(2);
    close(part_.value.expect("chi"), chi, 1e-12);
    close(part_.loss(), 12.0 * chi, 1e-12);

    let recessed = super::project(&bolt(", through: lining, embedded: 1/2 in"));
    let recessed = as_drawn(&recessed);
    // α halves, the length halves, R_1 halves: a quarter.
    close(part(&recessed, "rods").value.expect("chi"), chi / 4.0, 1e-9);
}

#[test]
fn where_the_correction_does_not_apply() {
    let both = project(&bolt(", through: lining, ends-on-steel: both"));
    let rods = part(&as_drawn(&both), "rods").clone();
    assert_eq!(
        rods.basis,
        Basis::NotApplicable(NotApplicable::BothEndsOnSteel)
    );
    assert_eq!(rods.value, None);
    assert_eq!(as_drawn(&both).result.heat.unknown(), ["rods"]);

    let stated = project(&bolt(
        ", through: lining, ends-on-steel: both, chi: 0.01 W/K",
    ));
    close(part(&as_drawn(&stated), "rods").loss(), 0.12, 1e-12);

    let plastic = bolt(", through: lining").replace("carbon steel", "SPF");
    let plastic = project(&plastic);
    let rods = part(&as_drawn(&plastic), "rods").clone();
    assert_eq!((rods.value, rods.basis), (Some(0.0), Basis::PoorConductor));

    // Between two sheets of steel.
    let sheets = super::ASSEMBLIES.replace(
        "      - {name: lining, material: XPS, thickness: 1 in}\n",
        "      - {name: sheet, material: galvanized steel, thickness: 20 ga}\n      \
         - {name: lining, material: XPS, thickness: 1 in}\n      \
         - {name: pan, material: galvanized steel, thickness: 20 ga}\n",
    );
    let text = format!("{sheets}{}", bolt(", through: lining"));
    let project = dewmargin::input::resolve_text("house.yaml", &text).expect("a project");
    let rods = part(&as_drawn(&project), "rods").clone();
    assert_eq!(
        rods.basis,
        Basis::NotApplicable(NotApplicable::BetweenMetal)
    );
}

/// Bolts through foam that only a variant lays over the flange: nothing as drawn.
#[test]
fn bolts_through_foam_over_the_flange() {
    let foam = "variants: {foam: {floor: {frame: proud, add: {over: flange, layer: {name: flange foam, material: XPS, thickness: 1 in}}}}}\n";
    let project = project(&format!("{}{foam}", bolt(", through: flange foam")));
    let houses = Study::of(&project).houses;
    assert_eq!(part(&houses[0], "rods").basis, Basis::NoSuchLayer);
    assert!(part(&houses[1], "rods").value.expect("chi") > 0.0);
}

/// Given areas alone, weight and heat are told, and fit isn't.
#[test]
fn areas_alone() {
    let project = project("house: {areas: {floor: 150 ft2, wall: 400 ft2, roof: 160 ft2}}\n");
    let house = as_drawn(&project);
    assert!(house.result.fit.width.is_none());
    close(
        part(&house, "wall").size.number(),
        400.0 * 0.3048 * 0.3048,
        1e-9,
    );
    assert!(house.result.weight.house > 0.0);
}
