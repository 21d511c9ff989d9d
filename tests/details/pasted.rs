//! The lines that draw an assumed edge, put into the file: the same drawing, the same temperatures.

use approx::assert_abs_diff_eq;
use dewmargin::input::resolve_text;
use dewmargin::model::{DetailCase, Project};
use dewmargin::report::edge_yaml;
use dewmargin::solve::conduction::Precision;
use dewmargin::solve::detail::solve_detail_case;
use rstest::rstest;

use super::house;

fn project(text: &str) -> Project {
    resolve_text("house.yaml", text).unwrap_or_else(|error| panic!("{error}\n{text}"))
}

const VARIANT: &str = "variants:
  foam over it:
    floor: {frame: proud, add: {over: flange, layer: {name: foam, material: XPS, thickness: 1 in, bonded: true}}}
";

/// The variants first, so that what is pasted follows the assemblies or stands at the end.
fn text(wall: bool) -> String {
    let text = house("");
    let end = match wall {
        true => text.len(),
        false => text.find("  wall:").expect("a wall"),
    };
    format!("{VARIANT}{}", &text[..end])
}

#[rstest]
#[case::with_a_wall(text(true), false)]
#[case::without(text(false), true)]
#[case::metric(text(true).replace("68 F", "20 °C"), false)]
#[case::metric_without(text(false).replace("68 F", "20 °C"), true)]
#[case::an_odd_name(text(true).replace("flange", "\"flange: #1, 4\\\"\""), false)]
fn pasted_into_the_file_it_draws_the_same_edge(#[case] text: String, #[case] stated: bool) {
    let before = project(&text);
    let yaml = edge_yaml(&before.details[0], before.units).expect("an assumed edge");
    assert_eq!(yaml.starts_with("assemblies:\n"), stated, "{yaml}");
    // The file's assemblies come last, and the wall's lines go on with them.
    let pasted = yaml.strip_prefix("assemblies:\n").unwrap_or(&yaml);
    let after = project(&format!("{text}{pasted}"));
    assert_eq!(before.details.len(), 2);
    assert_eq!(after.details.len(), 2, "{pasted}");
    for (ours, own) in before.details.iter().zip(&after.details) {
        assert!(ours.assumed.is_some() && own.assumed.is_none());
        assert_eq!(edge_yaml(own, after.units), None);
        assert_eq!(ours.full_name(), own.full_name());
        assert_eq!(ours.shows(), own.shows());
        same_drawing(ours, own);
        let coldest = |project: &Project, detail: &DetailCase| {
            let conditions = &project.stops[0].conditions;
            let result = solve_detail_case(detail, conditions, &Precision::default());
            let result = result.expect("it can be solved");
            let wood = result.wood.iter().filter_map(|part| part.coldest.as_ref());
            let all: Vec<f64> = wood.map(|coldest| coldest.point.temperature).collect();
            all
        };
        let (ours, own) = (coldest(&before, ours), coldest(&after, own));
        assert_eq!(ours.len(), own.len());
        for (ours, own) in ours.iter().zip(&own) {
            assert_abs_diff_eq!(ours, own, epsilon = 1e-6);
        }
    }
}

fn same_drawing(ours: &DetailCase, own: &DetailCase) {
    assert_eq!(ours.blocks.len(), own.blocks.len());
    for (a, b) in ours.blocks.iter().zip(&own.blocks) {
        assert_eq!(a.block.name, b.block.name);
        assert_eq!(a.block.conductivity, b.block.conductivity);
        let sides =
            |area: &dewmargin::model::detail::Area| [area.left, area.right, area.bottom, area.top];
        for (a, b) in sides(&a.block.area).iter().zip(&sides(&b.block.area)) {
            assert_abs_diff_eq!(a, b, epsilon = 1e-9);
        }
    }
}
