//! The options of `compare`: what they cost and weigh, and which are dominated.

use dewmargin::input::resolve_text;
use dewmargin::model::Project;
use dewmargin::quantity::{Style, UnitSystem};
use dewmargin::report::trade_off::trade_off_text;
use dewmargin::study::Study;
use dewmargin::study::trade_off::{ColumnKind, Part, TradeOff, Value, trade_off};
use rstest::rstest;
use serde_json::Value as Json;

use crate::support::{json, number, one_line, run, stdout};

const FT2: f64 = 0.3048 * 0.3048;
const INCH: f64 = 0.0254;

fn close(got: f64, want: f64) {
    assert!(
        (got - want).abs() <= 1e-9 * want.abs().max(1.0),
        "{got} for {want}"
    );
}

fn options(project: &Project) -> TradeOff {
    trade_off(&Study::of(project)).expect("options")
}

fn value<'a>(options: &'a TradeOff, part: &Part, kind: ColumnKind, option: usize) -> &'a Value {
    let table = options.tables.iter().find(|table| table.part == *part);
    let mut columns = table.expect("a table").columns.iter();
    let column = columns.find(|column| column.kind == kind);
    &column.expect("a column").values[option]
}

fn of_wall(options: &TradeOff, kind: ColumnKind, option: usize) -> f64 {
    let value = value(options, &Part::Assembly("wall".into()), kind, option);
    value.known.expect("known").0
}

/// A wall of 2x6 at 16 in with plywood on both sides; prices and variants behind.
fn wall(more: &str) -> Project {
    let text = format!(
        "indoor: {{heating: 68 F, humidity: 50 %}}
outdoor: {{winter-mean: {{temperature: 41 F, humidity: 82 %}}}}
assemblies:
  wall:
    kind: wall
    layers:
      - {{name: lining, material: plywood, thickness: 1/2 in}}
      - {{name: bay, material: XPS, thickness: 5-1/2 in, framing: {{material: SPF, width: 1.5 in, spacing: 16 in}}}}
      - {{name: sheathing, material: plywood, thickness: 3/4 in}}
{more}"
    );
    resolve_text("wall.yaml", &text).expect("a project")
}

const PRICES: &str = "prices:
  currency: USD
  plywood: [30 per sheet of 4 ft x 8 ft at 1/2 in, 48 per sheet of 4 ft x 8 ft at 3/4 in]
  XPS: 1.10 per board foot
  SPF: 0.96 per ft of 2x6
";

/// By hand, for 16 in × 12 in of wall = 1-1/3 ft²:
/// plywood 30/32 + 48/32 = 2.4375 per ft²;
/// foam 14.5 in of 16 in, 5.5 board feet per ft² at 1.10: 6.05 × 14.5/16 = 5.4828125;
/// one foot of 2x6 in 1-1/3 ft²: 0.96 / (4/3) = 0.72.
#[test]
fn board_feet_sheets_and_lumber_by_hand() {
    let project = wall(PRICES);
    let options = options(&project);
    let per_ft2 = of_wall(&options, ColumnKind::PricePerArea, 0) * FT2;
    close(per_ft2, 2.4375 + 5.482_812_5 + 0.72);
    assert_eq!(options.currency.expect("a currency").code(), "USD");
    assert_eq!(options.dominated_by, [vec![0; 0]]);
}

/// Three variants: one that changes nothing ties with as drawn; closer studs are dominated by both; a
/// membrane without a price can't be compared by price.
#[test]
fn what_is_dominated() {
    let project = wall(&format!(
        "{PRICES}variants:
  same again: {{wall: {{replace: {{layer: lining, with: {{name: lining, material: plywood, thickness: 1/2 in}}}}}}}}
  studs at 12 in: {{wall: {{replace: {{layer: bay, with: {{name: bay, material: XPS, thickness: 5-1/2 in, framing: {{material: SPF, width: 1.5 in, spacing: 12 in}}}}}}}}}}
  wrapped: {{wall: {{add: {{outside-of: sheathing, layer: {{name: wrap, material: housewrap}}}}}}}}
"
    ));
    let options = options(&project);
    assert_eq!(options.options.len(), 4);
    assert!(options.dominated_by[0].is_empty() && options.dominated_by[1].is_empty());
    // More lumber in the place of foam: dearer, heavier, less insulation, and no margin gained.
    assert_eq!(options.dominated_by[2], [0, 1]);
    // Without its price the wrapped one neither dominates nor is dominated.
    let part = Part::Assembly("wall".into());
    let price = value(&options, &part, ColumnKind::PricePerArea, 3);
    assert_eq!(price.known, None);
    assert_eq!(price.unknown.len(), 1);
    close(price.at_least.expect("a sum") * FT2, 8.640_312_5);
    assert!(options.dominated_by[3].is_empty());
    assert!(options.dominated_by.iter().all(|by| !by.contains(&3)));
    let style = Style {
        units: UnitSystem::Imperial,
    };
    let text = one_line(&trade_off_text(&options, style).set(100));
    for part in [
        "3 studs at 12 in is dominated by 1 as drawn: that is at least as good in every column, and \
         better in U of wall, weight of wall, price of wall.",
        "≥ 8.64",
        "Without a price, so that sums are at least what is printed:",
    ] {
        assert!(text.contains(part), "no `{part}` in {text}");
    }
}

/// Weight per area by hand, in kg/m²: densities of the library (published checks of each, and of
/// whole build-ups against the areal weights in lb/ft², are in `tests/published/`).
#[test]
fn weight_per_area_by_hand() {
    let project = wall(PRICES);
    let options = options(&project);
    let share = 1.5 / 16.0;
    let by_hand = 460.0 * 1.25 * INCH + 5.5 * INCH * (28.6 * (1.0 - share) + 445.0 * share);
    close(of_wall(&options, ColumnKind::WeightPerArea, 0), by_hand);
}

/// Without a house block: what lies over the strips and in the floor above the frame.
#[rstest]
#[case::proud(1, 1.0)]
#[case::under_the_finish(2, 1.0)]
fn head_room_from_layers(#[case] option: usize, #[case] inches: f64) {
    let text = std::fs::read_to_string("examples/cabin-floor.yaml").expect("an example");
    let project = resolve_text("cabin-floor.yaml", &text).expect("a project");
    let options = options(&project);
    assert!(!options.by_house && options.currency.is_none());
    let lost = |n| {
        let lost = value(&options, &Part::Whole, ColumnKind::HeadRoomLost, n);
        lost.known.expect("known").0 / INCH
    };
    close(lost(0), 0.0);
    close(lost(option), inches);
}

fn option<'a>(report: &'a Json, name: &str) -> &'a Json {
    let options = report["trade_off"]["options"].as_array().expect("options");
    let found = options.iter().find(|option| option["name"] == name);
    found.expect("an option")
}

fn whole<'a>(report: &'a Json, name: &str) -> &'a Json {
    &option(report, name)["tables"][0]["values"]
}

/// The example: the house's width, weight, head room; its prices in all.
#[test]
fn json_of_the_example() {
    let report = json(&["compare", "cabin-fit.yaml"]);
    assert_eq!(report["schema_version"], 1);
    assert_eq!(report["trade_off"]["currency"], "USD");
    assert_eq!(report["trade_off"]["head_room_by"], "house");
    let missing = report["trade_off"]["materials_without_price"].as_array();
    assert_eq!(missing.expect("a list").len(), 0);
    let house = json(&["house", "cabin-fit.yaml"]);
    let drawn = whole(&report, "as drawn");
    let kg = number(&house["houses"][0]["weight"]["house_kg"]);
    close(number(&drawn["dry_weight_kg"]), kg);
    close(number(&drawn["overall_width_m"]), 101.25 * INCH);
    assert_eq!(drawn["road_verdict"], "pass");
    let wide = whole(&report, "foam outside of the walls");
    assert_eq!(wide["road_verdict"], "fail");
    close(number(&wide["overall_width_m"]), 105.25 * INCH);
    let proud = whole(&report, "proud, foam over the flange");
    close(number(&proud["head_room_lost_m"]), 1.0 * INCH);
    // 2 in of foam over the net wall area, at 1.20 a board foot.
    let more = number(&wide["price"]) - number(&drawn["price"]);
    let areas = house["houses"][0]["areas"].as_array().expect("areas");
    let wall = areas.iter().find(|area| area["assembly"] == "wall");
    let m2 = number(&wall.expect("walls")["net_framed_m2"]);
    // The wider house has a wider roof, too: its overhangs start at the siding.
    assert!(
        more > 2.40 * m2 / FT2 && more < 2.40 * m2 / FT2 + 300.0,
        "{more}"
    );
    // `check` goes without.
    assert!(
        json(&["check", "cabin-wall.yaml"])
            .get("trade_off")
            .is_none()
    );
}

#[test]
fn text_of_the_example() {
    for units in ["imperial", "metric"] {
        let text = stdout(&run(&["compare", "cabin-fit.yaml", "--units", units]));
        let wide: Vec<&str> = text
            .lines()
            .filter(|line| line.chars().count() > 100)
            .collect();
        assert_eq!(wide, Vec::<&str>::new());
        let words = one_line(&text);
        for part in [
            "options, each with everything it changes",
            "dominated by",
            "price, USD",
            "Best option by the rule (fewest fails, then fewest depends, then the margin of the wood at the steel,",
            "There is no score, and a dominated option is so in these columns alone",
            "since the trailer's own weight includes it: side flange, pan.",
            "without waste, fasteners, openings, allowances and labor",
        ] {
            assert!(words.contains(part), "no `{part}` in {text}");
        }
    }
    // Nothing to choose and no prices: no table.
    let text = stdout(&run(&["compare", "cabin-cross-members.yaml"]));
    let has_variants = text.contains("options, each with");
    let file = std::fs::read_to_string("examples/cabin-cross-members.yaml").expect("an example");
    assert_eq!(has_variants, file.contains("variants:"));
}

/// Polyethylene beats kraft facing on every margin, but what gets wet behind it dries later: that is
/// a column, so neither dominates.
#[test]
fn a_film_that_never_dries_dominates_nothing() {
    let report = json(&["compare", "cabin-wall.yaml"]);
    let days = |name: &str| {
        let tables = option(&report, name)["tables"].as_array().expect("tables");
        let wall = tables.iter().find(|table| table["name"] == "wall 2x6");
        let days = &wall.expect("the wall")["values"]["days_to_dry"];
        days.as_f64().unwrap_or(f64::INFINITY)
    };
    let dominated = |name: &str| {
        let by = option(&report, name)["dominated_by"]
            .as_array()
            .expect("a list");
        by.iter().any(|other| other == "polyethylene")
    };
    assert!(days("polyethylene") > days("kraft facing"));
    assert!(!dominated("kraft facing"));
}
