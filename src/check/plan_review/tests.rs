use super::*;
use rstest::rstest;

/// Nothing is missing here.
const WHOLE: &str = "
project:
  title: Fern Hollow cabin
  designer: J. Alder
  owner: Marsh Survey Cooperative
  address: 14 Sedge Lane
  date: 2026-11-25
  revision: A
  code-basis: IRC 2018
indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}, source: county records}
code: {edition: IRC 2018, zone: 4C}
materials:
  our board:
    kind: panel
    conductivity: {nominal: 0.1 W/mK, source: maker's data sheet}
    vapor: {mid: {nominal: 1 perm-in, source: maker's data sheet}}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, material: gypsum board, thickness: 1/2 in}
      - {name: film, material: polyethylene}
      - {name: board, material: our board, thickness: 1/2 in}
  floor:
    kind: floor
    layers:
      - {name: deck, material: plywood, thickness: 3/4 in}
      - {name: pan, material: galvanized steel, thickness: 20 ga}
    strips:
      - {name: flange, metal: carbon steel, thickness: 1/4 in, width: 4 in, across: 96 in, under: deck,
         over: [{name: flange foam, material: XPS, thickness: 1 in}]}
details:
  corner:
    cut: {width: 2 in, height: 1 in}
    rectangles:
      - {name: post, material: plywood, from: [0 in, 0 in], to: [1 in, 1 in]}
    air:
      - {name: room, from: [1 in, 0 in], to: [2 in, 1 in]}
    faces:
      - {name: outer face, from: [0 in, 0 in], to: [0 in, 1 in], air: outdoors}
variants:
  thinner:
    wall: {replace: {layer: lining, with: {name: lining, material: gypsum board, thickness: 3/8 in}}}
";

fn missing_in(text: &str, paper: &Paper<'_>) -> Vec<(&'static str, String)> {
    let project = crate::input::resolve_text("cabin.yaml", text).expect("a project");
    let missing = plan_review(&project, paper);
    missing
        .into_iter()
        .map(|one| (one.item.id(), one.place))
        .collect()
}

#[test]
fn nothing_is_missing_in_a_whole_file() {
    assert_eq!(missing_in(WHOLE, &Paper::ANY), []);
}

/// Each row takes one thing out of the whole file.
#[rstest]
#[case("title: Fern Hollow cabin", "title: ''", "title", "")]
#[case("designer: J. Alder", "designer:", "designer", "")]
#[case("owner: Marsh Survey Cooperative", "owner: ' '", "owner", "")]
#[case("  address: 14 Sedge Lane\n", "", "address", "")]
#[case("date: 2026-11-25", "date: ''", "date", "")]
#[case("revision: A", "revision: ~", "revision", "")]
#[case("  code-basis: IRC 2018\n", "", "code-basis", "")]
#[case("edition: IRC 2018, ", "", "code-edition", "")]
#[case(", zone: 4C", "", "code-zone", "")]
#[case(", source: county records", "", "climate-source", "")]
#[case(", source: county records", ", source: ''", "climate-source", "")]
#[case(
    "material: gypsum board, thickness: 1/2 in",
    "r-value: R-1, permeance: 30 perm",
    "value-source",
    "lining of wall"
)]
#[case(
    "{nominal: 0.1 W/mK, source: maker's data sheet}",
    "0.1 W/mK",
    "value-source",
    "board of wall"
)]
#[case(
    "{mid: {nominal: 1 perm-in, source: maker's data sheet}}",
    "1 perm-in",
    "value-source",
    "board of wall"
)]
#[case(
    "conductivity: {nominal: 0.1 W/mK, source: maker's data sheet}",
    "note: x",
    "resistance",
    "board of wall"
)]
#[case(
    "material: XPS, ",
    "material: XPS, permeance: 1 perm, ",
    "value-source",
    "flange foam of floor"
)]
#[case(
    "name: post, material: plywood",
    "name: post, conductivity: 0.1 W/mK",
    "value-source",
    "post of corner"
)]
fn what_is_taken_out_is_missed(
    #[case] there: &str,
    #[case] instead: &str,
    #[case] item: &str,
    #[case] place: &str,
) {
    assert_eq!(WHOLE.matches(there).count(), 1, "{there}");
    let found = missing_in(&WHOLE.replace(there, instead), &Paper::ANY);
    assert!(
        found.iter().any(|one| one.0 == item && one.1 == place),
        "{found:?}"
    );
    assert!(found.len() <= 2, "{found:?}");
}

#[test]
fn a_layer_by_numbers_lacks_its_thickness_and_a_membrane_does_not() {
    let numbers = "material: gypsum board, thickness: 1/2 in";
    let text = |kind: &str| {
        let layer = format!("r-value: R-1, permeance: 30 perm, kind: {kind}");
        WHOLE.replacen(numbers, &layer, 1)
    };
    let lacks = |kind: &str| {
        let found = missing_in(&text(kind), &Paper::ANY);
        found.contains(&("thickness", "lining of wall".to_owned()))
    };
    assert!(lacks("lining"));
    assert!(!lacks("membrane"));
}

#[test]
fn an_invented_climate_has_no_source_at_any_stop() {
    let outdoor =
        "outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}, source: county records}";
    let text = WHOLE.replace(outdoor, "climate: [wet-coast, hot-humid]");
    let found = missing_in(&text, &Paper::ANY);
    let source = |stop: &str| ("climate-source", stop.to_owned());
    assert_eq!(found, [source("wet-coast"), source("hot-humid")]);
}

#[test]
fn an_own_climate_says_where_it_comes_from() {
    let outdoor =
        "outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}, source: county records}";
    let months: Vec<String> = (1..=12)
        .map(|month| format!("{{month: {month}, temperature: 5 °C, humidity: 80 %}}"))
        .collect();
    let climate = |source: &str| {
        let block = format!("climate: {{months: [{}]{source}}}", months.join(", "));
        WHOLE.replace(outdoor, &block)
    };
    let found = missing_in(&climate(""), &Paper::ANY);
    assert_eq!(found, [("climate-source", "own climate".to_owned())]);
    let stated = climate(", source: 'station 12, 1991 to 2020'");
    assert_eq!(missing_in(&stated, &Paper::ANY), []);
    let project = crate::input::resolve_text("cabin.yaml", &stated).expect("a project");
    let origin = &project.stops[0].origin;
    assert_eq!(
        origin,
        "given in this file, source: station 12, 1991 to 2020"
    );
}

#[test]
fn what_the_paper_refuses_is_missed_where_it_stands() {
    let paper = Paper {
        section_fits: &|assembly| assembly.name != "floor",
        detail_fits: &|_| false,
        letters: &|c| !matches!(c, 'é' | 'ü'),
    };
    let text = WHOLE.replace("14 Sedge Lane", "14 Sédge Lüne ééé");
    assert_eq!(
        missing_in(&text, &paper),
        [
            ("scale", "floor".to_owned()),
            ("scale", "corner".to_owned()),
            ("lettering", "address".to_owned()),
        ]
    );
    let project = crate::input::resolve_text("cabin.yaml", &text).expect("a project");
    let missing = plan_review(&project, &paper);
    assert_eq!(missing[2].write, "other characters than `é`, `ü`");
}

#[test]
fn ids_are_told_apart() {
    let items = [
        Item::Title,
        Item::Address,
        Item::Owner,
        Item::Designer,
        Item::Date,
        Item::Revision,
        Item::CodeBasis,
        Item::CodeEdition,
        Item::CodeZone,
        Item::ClimateSource,
        Item::Thickness,
        Item::Resistance,
        Item::ValueSource,
        Item::Scale,
        Item::Lettering,
    ];
    let mut ids: Vec<&str> = items.iter().map(|item| item.id()).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), items.len());
}
