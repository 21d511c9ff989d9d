use std::collections::BTreeSet;
use std::fmt::Debug;

use approx::assert_relative_eq;
use rstest::rstest;

use super::table::{FILE, TABLES};
use super::*;
use crate::document::{entries, parse};
use crate::error::Span;
use crate::material::Tag;
use crate::model::{Edition, Zone};
use crate::quantity::unit;

/// What the tables can be entered with.
const ZONES: [&str; 9] = ["1", "2", "3", "4", "marine 4", "5", "6", "7", "8"];
const NAMES: [&str; 7] = [
    "insulation",
    "retarder-inside",
    "retarder-both-sides",
    "class-three-over-2x4",
    "class-three-over-2x6",
    "class-three-behind-vented-cladding",
    "unvented-roof",
];

/// What a table asks for: editions down, [`ZONES`] across.
type Matrix<T> = [[T; 9]; 3];

fn zone(text: &str) -> Zone {
    Zone::read(text).unwrap()
}

/// Every row can be read, each zone of each edition stands in one of them, and what is cited without
/// parsing is what a parser reads.
fn is_whole<V: Debug>(table: &Table<V>) {
    let mut tags = BTreeSet::new();
    for edition in Edition::ALL {
        let rows = table.rows(edition);
        let rows = rows.unwrap_or_else(|problems| panic!("{problems:?}"));
        for at in ZONES {
            let found = rows.iter().filter(|row| row.is_for(zone(at)));
            assert_eq!(
                found.count(),
                1,
                "{table:?}: {}, zone {at}",
                edition.title()
            );
        }
        let text = table.written(edition).unwrap();
        assert_eq!(table.clause(edition), text.clause.value.0);
        assert!(table.clause(edition).starts_with(['N', 'R']));
        tags.extend(text.rows.into_iter().map(|row| row.tag.value.0));
    }
    let recalled = tags.iter().all(|tag| tag == Tag::FromMemory.words());
    assert_eq!(table.source(None).contains("(from memory)"), recalled);
}

#[test]
fn every_edition_and_zone_stands_once_in_each_table() {
    is_whole(&INSULATION);
    is_whole(&RETARDER_INSIDE);
    is_whole(&RETARDER_BOTH_SIDES);
    is_whole(&CLASS_THREE_OVER_2X4);
    is_whole(&CLASS_THREE_OVER_2X6);
    is_whole(&CLASS_THREE_BEHIND_VENTED_CLADDING);
    is_whole(&UNVENTED_ROOF);
}

#[test]
fn no_table_is_lost_by_the_split() {
    let Value::Map(tables) = parse(FILE, TABLES).unwrap().value else {
        panic!("{FILE}");
    };
    let text = |node: &Node| match &node.value {
        Value::Text(text) => text.clone(),
        other => panic!("{other:?}"),
    };
    let keys: Vec<String> = tables.iter().map(|(key, _)| text(key)).collect();
    let expected = NAMES
        .iter()
        .flat_map(|name| Edition::ALL.map(|edition| format!("{name}, {}", edition.title())));
    assert_eq!(keys, expected.collect::<Vec<_>>());
    let split: Vec<&str> = entries(TABLES).map(|(key, _)| key).collect();
    assert_eq!(split, keys);
}

/// The table as a matrix.
fn matrix<'a, V, T>(table: &'a Table<V>, told: impl Fn(Option<&'a V>) -> T) -> Matrix<T> {
    Edition::ALL.map(|edition| ZONES.map(|at| told(table.asks(edition, zone(at)))))
}

// Typed again from check-values §6 and §13, zones 1, 2, 3, 4, marine 4, 5, 6, 7, 8; 0 for no row. What is
// seen of it and what recalled is said by the rows.
#[rstest]
#[case::over_2x4(&CLASS_THREE_OVER_2X4, [
    [0.0, 0.0, 0.0, 0.0, 2.5, 5.0, 7.5, 10.0, 10.0],
    [0.0, 0.0, 0.0, 0.0, 2.5, 5.0, 7.5, 10.0, 10.0],
    [0.0, 0.0, 0.0, 2.5, 2.5, 5.0, 7.5, 10.0, 12.5],
])]
#[case::over_2x6(&CLASS_THREE_OVER_2X6, [
    [0.0, 0.0, 0.0, 0.0, 3.75, 7.5, 11.25, 15.0, 15.0],
    [0.0, 0.0, 0.0, 0.0, 3.75, 7.5, 11.25, 15.0, 15.0],
    [0.0, 0.0, 0.0, 3.75, 3.75, 7.5, 11.25, 15.0, 20.0],
])]
#[case::unvented_roof(&UNVENTED_ROOF, [[5.0, 5.0, 5.0, 15.0, 10.0, 20.0, 25.0, 30.0, 35.0]; 3])]
fn r_values(#[case] table: &Table<ThermalResistance>, #[case] expected: Matrix<f64>) {
    let found = matrix(table, |asked| asked.map_or(0.0, |r| r.as_si()));
    for (found, expected) in found.as_flattened().iter().zip(expected.as_flattened()) {
        assert_relative_eq!(*found, expected * unit::R_VALUE, max_relative = 1e-12);
    }
}

// Cavity and continuous; source: check-values §13 for 2012 to 2018 and 2021, all of it recalled.
#[test]
fn pairs_of_insulation() {
    let (a, b, c) = ("13", "20 13+5", "20+5 13+10");
    let (d, e, f) = ("13 0+10", "20 13+5 0+15", "30 20+5 13+10 0+20");
    let expected = [
        [a, a, a, a, b, b, b, "21", "21"],
        [a, a, b, b, b, b, c, c, c],
        [d, d, e, f, f, f, f, f, f],
    ];
    let r = |r: ThermalResistance| (r.as_si() / unit::R_VALUE * 1e6).round() / 1e6;
    let told = |pair: &WallInsulation| match r(pair.continuous) {
        0.0 => r(pair.cavity).to_string(),
        continuous => format!("{}+{continuous}", r(pair.cavity)),
    };
    let found = matrix(&INSULATION, |asked| {
        let pairs: Vec<String> = asked.unwrap().iter().map(told).collect();
        pairs.join(" ")
    });
    assert_eq!(found, expected.map(|row| row.map(str::to_owned)));
}

// Source: check-values §6 and §13.
#[test]
fn the_class_inside_and_the_sheathings() {
    let (tight, open) = (Some(Inside::Tight), Some(Inside::NotTight));
    let older = [None, None, None, None, tight, tight, tight, tight, tight];
    let newest = [open, open, None, None, tight, tight, tight, tight, tight];
    let found = matrix(&RETARDER_INSIDE, Option::<&Inside>::copied);
    assert_eq!(found, [older, older, newest]);

    let (any, soft) = (Some(Behind::WoodPanelToo), Some(Behind::FiberboardOrGypsum));
    let older = [None, None, None, None, any, any, soft, None, None];
    let newest = [None, None, None, any, any, any, soft, None, None];
    let found = matrix(
        &CLASS_THREE_BEHIND_VENTED_CLADDING,
        Option::<&Behind>::copied,
    );
    assert_eq!(found, [older, older, newest]);

    let opens = Some(Permeance::from_si(unit::PERM));
    let found = matrix(&RETARDER_BOTH_SIDES, Option::<&Permeance>::copied);
    assert_eq!(found, [[None; 9], [None; 9], [opens; 9]]);
}

// A zone's letter counts in zone 4 alone.
#[rstest]
#[case("4A", "4")]
#[case("4B", "4")]
#[case("4C", "marine 4")]
#[case("3C", "3")]
#[case("5C", "5")]
#[case("6A", "6")]
fn letters(#[case] lettered: &str, #[case] plain: &str) {
    let asks = |at| UNVENTED_ROOF.asks(Edition::Irc2021, zone(at));
    assert!(asks(plain).is_some() && asks(lettered) == asks(plain));
}

// What was recalled and not looked up is marked so: a table of nothing else says it where it is cited.
#[rstest]
#[case(INSULATION.source(None), "IRC N1102.1 (from memory)")]
#[case(INSULATION.source(Some(Edition::Irc2009)), "IRC 2009 N1102.1 (from memory)")]
#[case(INSULATION.source(Some(Edition::Irc2012To2018)), "IRC 2012 to 2018 N1102.1 (from memory)")]
#[case(INSULATION.source(Some(Edition::Irc2021)), "IRC 2021 N1102.1 (from memory)")]
#[case(RETARDER_INSIDE.source(None), "IRC R702.7 (2009: R601.3)")]
#[case(RETARDER_INSIDE.source(Some(Edition::Irc2009)), "IRC 2009 R601.3")]
#[case(RETARDER_INSIDE.source(Some(Edition::Irc2012To2018)), "IRC 2012 to 2018 R702.7")]
#[case(RETARDER_INSIDE.source(Some(Edition::Irc2021)), "IRC 2021 R702.7")]
#[case(UNVENTED_ROOF.source(None), "IRC R806.5 (2009: R806.4)")]
#[case(UNVENTED_ROOF.source(Some(Edition::Irc2009)), "IRC 2009 R806.4")]
#[case(UNVENTED_ROOF.source(Some(Edition::Irc2012To2018)), "IRC 2012 to 2018 R806.5")]
#[case(UNVENTED_ROOF.source(Some(Edition::Irc2021)), "IRC 2021 R806.5")]
fn what_is_cited(#[case] source: &str, #[case] expected: &str) {
    assert_eq!(source, format!("{expected}, check your local code"));
}

// A slip of the pen in the file is a problem, not a row that is passed over.
#[test]
fn what_cannot_be_read_is_told() {
    let newest = Edition::Irc2021;
    assert!(Table::embedded("insulations", pairs).rows(newest).is_err());
    assert!(Table::embedded("insulation", r_value).rows(newest).is_err());
    assert!(
        Table::embedded("unvented-roof", inside)
            .rows(newest)
            .is_err()
    );
    for (text, read) in [
        ("R-5", true),
        ("R-61", false),
        ("5 perm", false),
        ("R-", false),
    ] {
        let mut problems = Problems::new();
        let found = r_value(&word(text), &mut problems);
        assert_eq!(
            (found.is_some(), problems.is_empty()),
            (read, read),
            "{text}"
        );
    }
}

fn word(text: &str) -> At<Word> {
    At {
        value: Word(text.to_owned()),
        span: Span {
            start: 0,
            end: 0,
            line: 1,
            column: 1,
        },
    }
}
