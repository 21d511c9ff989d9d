use rstest::rstest;

use super::{Finding, air_gap, insulation_table, outboard, retarder, unvented_roof};
use crate::check::tests::{code, solved};
use crate::model::Conditions;
use crate::quantity::{Style, UnitSystem};

const LINING: &str = "{name: lining, material: painted gypsum board}";
const STUDS: &str = "{name: studs, material: R-21 batt, thickness: 5.5 in, framing: {material: spruce, share: 25 %}}";
const PANEL: &str = "{name: sheathing, material: plywood, thickness: 1/2 in}";
const FOAM: &str = "{name: foam, material: XPS, thickness: 1 in}";
const GAP: &str =
    "{name: rain screen, air: vented, thickness: 1/4 in, framing: {material: spruce, share: 16 %}}";
const SIDING: &str = "{name: siding, material: cedar siding}";
const POLY: &str = "{name: film, material: polyethylene}";
const FOIL: &str = "{name: foam, material: foil-faced polyiso, thickness: 2 in}";

/// All table findings of an assembly as sentences with their statuses.
fn told(kind: &str, layers: &[&str], at: &str, units: UnitSystem) -> Vec<String> {
    let (case, result) = solved(kind, layers);
    let at = code(at);
    let findings = [
        retarder::check(&case, &result, &at),
        insulation_table::check(&case, &result, &at),
        unvented_roof::check(&case, &result, &at),
        outboard::check(&case, &result, &at),
        air_gap::check(&case, &result, &at),
    ];
    let conditions = conditions();
    let tell = |finding: &Finding| {
        let sentence = finding.sentence(&conditions, Style { units });
        assert!(!sentence.is_empty(), "{finding:?}");
        format!("{}: {sentence}", finding.status.word())
    };
    findings.concat().iter().map(tell).collect()
}

/// The sentences of the table checks don't use them.
fn conditions() -> Conditions {
    let air = crate::model::AirState {
        temperature: crate::quantity::Temperature::from_celsius(20.0),
        humidity: crate::quantity::RelativeHumidity::from_fraction(0.5),
    };
    Conditions {
        indoor: air,
        winter_mean: air,
        design_night: None,
        year: None,
    }
}

#[rstest]
#[case("wall", &[LINING, STUDS, PANEL, FOAM, GAP, SIDING], "2018 6", &[
    "fail: The lining on the warm side is a class III vapor retarder (3.67 perm, dry cup). Doesn't meet the table: IRC 2012 to 2018, zone 6, asks for class I or II, or class III with R 11.25 of continuous insulation over a 2x6 frame (here R 5.01). Check your local code. What would help: ",
    "pass: The wall has R 21 in the cavity with R 5.01 continuous. Meets the table: IRC 2012 to 2018, zone 6, asks for R 20 in the cavity with R 5 continuous, or R 13 in the cavity with R 10 continuous. Check your local code.",
    "Stays dry at your humidity: no",
    "note: rain screen: 1/4 in deep, open at one end. That is under 3/8 in: it drains poorly and moves little air. Furring fills 16 % of it. Computed closed and open, and the worse end counts.",
])]
#[case("wall", &[LINING, STUDS, PANEL, FOAM, SIDING], "- -", &[
    "depends: The lining on the warm side is a class III vapor retarder (3.67 perm, dry cup). Edition or zone not stated",
    "depends: The wall has R 21 in the cavity with R 5.01 continuous. Edition or zone not stated",
])]
#[case("wall", &[LINING, STUDS, PANEL, SIDING], "2021 4A", &[
    "IRC 2021, zone 4A, can be read two ways: its class III table, which has R 3.75 of continuous insulation over a 2x6 frame (here R 0), covers all of zone 4;",
    "fail: The wall has R 21 in the cavity. Doesn't meet the table: IRC 2021, zone 4A",
])]
#[case("wall", &[POLY, STUDS, PANEL, FOIL, SIDING], "2021 marine 4", &[
    "fail: The film on the warm side is a class I vapor retarder (0.06 perm, dry cup). Doesn't meet the table: IRC 2021, marine zone 4, allows class I inside and outside only by an approved design.",
])]
#[case("wall", &[POLY, STUDS, PANEL], "2021 1A", &["allows no class I or II inside"])]
#[case("wall", &[POLY, STUDS, PANEL], "2021 7", &["pass: The film on the warm side is a class I vapor retarder (0.06 perm, dry cup). Meets the table (IRC 2021, zone 7)."])]
#[case("wall", &[LINING, STUDS, PANEL], "2009 3", &["asks for nothing here"])]
#[case("wall", &[LINING, STUDS, PANEL, GAP, SIDING], "2009 5", &["allows class III behind vented cladding over this sheathing"])]
#[case("wall", &[STUDS, PANEL], "2009 5", &["There is no vapor retarder on the warm side"])]
#[case("roof", &[LINING, STUDS, PANEL, FOAM], "2018 4C", &[
    "note: The insulation table is known here for walls only",
    "Stays dry at your humidity: no; it takes over 46 %.",
    "fail: The unvented roof has R 5.01 of air-impermeable insulation at the deck. Doesn't meet the table: IRC 2012 to 2018, zone 4C, asks for R 10.",
])]
#[case("roof", &["{name: bay, material: ccSPF, thickness: 5.5 in, framing: {material: spruce, share: 10 %}}", PANEL], "2018 4C", &[
    "Stays dry at your humidity: not by this share, but a bonded layer keeps leaking room air from the face; it takes over 46 %.",
    "pass: The unvented roof has R 33.05 of air-impermeable insulation at the deck.",
])]
#[case("floor", &[PANEL, STUDS], "2018 6", &["note: The code's vapor-retarder and insulation tables for walls don't cover floors."])]
fn sentences(
    #[case] kind: &str,
    #[case] layers: &[&str],
    #[case] at: &str,
    #[case] expected: &[&str],
) {
    let told = told(kind, layers, at, UnitSystem::Imperial);
    for part in expected {
        assert!(
            told.iter().any(|line| line.contains(part)),
            "{part}\n{told:#?}"
        );
    }
}

#[test]
fn metric_sentences_hold_no_inches() {
    let told = told(
        "wall",
        &[LINING, STUDS, PANEL, FOAM, GAP, SIDING],
        "2021 6",
        UnitSystem::Metric,
    );
    assert_eq!(told.len(), 4);
    for line in told {
        assert!(
            !line.contains(" in deep") && !line.contains("°F") && !line.contains("R 5"),
            "{line}"
        );
    }
}
