//! Where wall and roof meet above the room, and the upper corner of the room.

use dewmargin::check::detail::{CONDENSATION, MOLD};
use dewmargin::check::{Finding, On, Status};
use dewmargin::model::DetailCase;
use dewmargin::model::drawn::{DetailKind, Part};
use dewmargin::quantity::unit::INCH;
use dewmargin::study::{JudgedDetail, Study};
use rstest::rstest;

use super::{details, find, place_of, solved_between};

/// One board as wall and as roof, its films stated: what meets the room is 0.25 m²·K/W for mold.
fn one_board(conductivity: f64, humidity: u32) -> String {
    format!(
        "indoor: {{heating: 20 C, humidity: {humidity} %}}
outdoor: {{winter-mean: {{temperature: 5 C, humidity: 85 %}}}}
materials:
  board: {{kind: foam, conductivity: {conductivity} W/mK, vapor: 1 perm-in}}
assemblies:
  wall: {{kind: wall, layers: [{{name: board, material: board, thickness: 100 mm}}]}}
  roof: {{kind: roof, layers: [{{name: roof board, material: board, thickness: 100 mm}}]}}
details:
  roof edge: {{roof-edge: {{wall: wall, roof: roof}}}}
"
    )
}

fn judged<T>(text: &str, look: impl Fn(&JudgedDetail<'_>) -> T) -> T {
    let project = dewmargin::input::resolve_text("edge.yaml", text);
    let project = project.unwrap_or_else(|error| panic!("{error}"));
    let study = Study::of(&project);
    look(&study.details[0])
}

fn mold<'f>(one: &'f JudgedDetail<'_>, path: &str) -> &'f Finding {
    let at = |finding: &&Finding| {
        finding.check == &MOLD
            && finding
                .place
                .as_ref()
                .is_some_and(|place| place.path == path)
    };
    let found = one.verdict.findings.iter().find(at);
    found.unwrap_or_else(|| panic!("mold isn't judged at the {path}"))
}

/// Three equal planes of one material: the factor of the surface where two of them meet, and where all
/// three do. Computed with solvers of its authors', on grids graded to 1/100,000 and 1/1000 of the
/// thickness, error 0.0001 and 0.003 (`corner3d.csv` of the study beside this project; not published).
#[test]
fn three_equal_planes_have_the_factors_that_were_computed() {
    judged(&one_board(0.04, 50), |one| {
        let result = one.result().as_ref().expect("solved");
        let corner = result
            .corner
            .as_ref()
            .expect("asked")
            .as_ref()
            .expect("solved");
        let factor = |celsius: f64| (celsius - 5.0) / 15.0;
        let own = |kelvin: f64| kelvin / 15.0;
        for surface in &result.surfaces {
            let along = &surface.damp;
            let off = (factor(along.point.temperature) - 0.7964).abs();
            assert!(off < 0.0001 + own(along.bar), "{}: {off}", surface.name);
        }
        for spot in &corner.surfaces {
            let off = (factor(spot.temperature) - 0.647).abs();
            assert!(off < 0.003 + own(spot.bar), "{}: {off}", spot.name);
            assert!(spot.bar < 0.6, "{}", spot.bar);
        }
        let [between] = &corner.between_walls[..] else {
            panic!("{:?}", corner.between_walls)
        };
        let off = (factor(between.temperature) - 0.7964).abs();
        assert!(off < 0.0001 + own(between.bar), "{}: {off}", between.name);
    });
}

/// By hand: saturation at 20 °C is 2337 Pa, so at 60 % 80 % of saturation is 1753 Pa, which is that of
/// 15.43 °C: a factor of 0.695 from 5 °C. The edge's 0.796 is above it, the corner's 0.647 below. At 75 %
/// it is 2191 Pa, 18.97 °C, 0.931: the plane itself is 0.910.
#[rstest]
#[case::only_in_the_corner(60, Status::Depends, Some(On::Mold), Status::Pass)]
#[case::nowhere(50, Status::Pass, None, Status::Pass)]
fn mold_in_the_corner_alone_hangs_on_what_stands_there(
    #[case] humidity: u32,
    #[case] word: Status,
    #[case] on: Option<On>,
    #[case] along: Status,
) {
    judged(&one_board(0.04, humidity), |one| {
        assert_eq!(one.verdict.status, word);
        let corner = mold(one, "wall surface at the corner");
        assert_eq!((corner.status, corner.on), (word, on));
        for path in [
            "wall surface",
            "ceiling surface",
            "wall surface between the walls",
        ] {
            assert_eq!(mold(one, path).status, along, "{path}");
        }
    });
}

/// Where the planes themselves are too cold mold isn't mild; a corner isn't solved then.
#[test]
fn mold_along_the_edge_fails() {
    judged(&one_board(0.04, 75), |one| {
        assert_eq!(one.verdict.status, Status::Fail);
        assert_eq!(mold(one, "ceiling surface").status, Status::Fail);
        assert!(one.result().as_ref().expect("solved").corner.is_none());
    });
}

const FRAMED: &str = "indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 41 F, humidity: 85 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, material: painted gypsum board, thickness: 1/2 in}
      - {name: studs, material: R-21 batt, thickness: 5-1/2 in,
         framing: {material: spruce-pine-fir, share: 23 %}}
      - {name: sheathing, material: plywood, thickness: 1/2 in}
      - {name: rain screen, air: ventilated, thickness: 3/4 in}
      - {name: siding, material: cedar siding, thickness: 5/8 in}
  roof:
    kind: roof
    layers:
      - {name: ceiling, material: white pine, thickness: 3/4 in}
      - {name: rafters, material: R-21 batt, thickness: 5-1/2 in,
         framing: {material: spruce-pine-fir, width: 1.5 in, spacing: 24 in}}
      - {name: deck, material: plywood, thickness: 5/8 in}
details:
  roof edge: {roof-edge: {wall: wall, roof: roof}}
  bare: {roof-edge: {wall: wall, roof: roof, plates: 1.5 in, corner: none}}
";

/// From the cut's left edge: 3 in of air, sheathing, studs, lining; from its bottom 40 in of wall.
#[test]
fn plates_ceiling_and_sheathing_run_where_a_framer_puts_them() {
    let all = details(FRAMED);
    let edge = find(&all, "roof edge");
    assert_eq!(edge.kind, DetailKind::RoofEdge);
    let near = |found: [f64; 4], expected: [f64; 4]| {
        let off = found.iter().zip(expected).map(|(a, b)| (a - b).abs());
        assert!(
            off.fold(0.0, f64::max) < 1e-9,
            "{found:?}, not {expected:?}"
        );
    };
    near(place_of(edge, "top plates"), [3.5, 9.0, 37.75, 40.75]);
    near(place_of(edge, "studs"), [3.5, 9.0, 0.0, 37.75]);
    near(place_of(edge, "lining"), [9.0, 9.5, 0.0, 40.0]);
    near(place_of(edge, "ceiling"), [9.0, 49.5, 40.0, 40.75]);
    near(place_of(edge, "rafters"), [3.5, 49.5, 40.75, 46.25]);
    near(place_of(edge, "sheathing"), [3.0, 3.5, 0.0, 46.25]);
    near(place_of(edge, "deck"), [3.0, 49.5, 46.25, 46.875]);
    let post = edge.corner_post().expect("a post");
    let post = [post.left, post.right, post.bottom, post.top].map(|meters| meters / INCH);
    near(post, [3.5, 9.0, 0.0, 37.75]);
    assert!(edge.notes.iter().any(|note| note.contains("rain screen")));
    solved_between(edge);

    let bare = find(&all, "bare");
    near(place_of(bare, "top plates"), [3.5, 9.0, 39.25, 40.75]);
    assert!(edge.has_corner() && !bare.has_corner());
}

/// Studs at the corner are colder than the batts that they take the place of, and the surface between the
/// walls is colder than a wall; the three planes are coldest of all. Only surfaces are judged.
#[test]
fn the_corner_is_colder_than_its_edges_and_they_than_the_planes() {
    judged(FRAMED, |one| {
        let result = one.result().as_ref().expect("solved");
        assert!(result.wood.is_empty());
        let checks = one.verdict.findings.iter().map(|finding| finding.check);
        assert!(
            checks
                .into_iter()
                .all(|check| check == &MOLD || check == &CONDENSATION)
        );
        let corner = result
            .corner
            .as_ref()
            .expect("asked")
            .as_ref()
            .expect("solved");
        let coldest = |name: &str| {
            let found = corner.surfaces.iter().find(|spot| spot.name == name);
            found.expect("a surface").temperature
        };
        let along = |n: usize| result.surfaces[n].damp.point.temperature;
        let between = corner.between_walls[0].temperature;
        assert!(coldest("wall surface at the corner") < between.min(along(1)) - 0.2);
        assert!(coldest("ceiling surface at the corner") < along(0) - 0.2);
        // A wall of R-21 and its linings between 0.25 and 0.13 m²·K/W: U is about 0.24.
        let plane = 20.0 - 15.0 * 0.25 * 0.24;
        assert!(between < plane - 0.5, "{between}");
    });
}

fn house(details: &str) -> String {
    format!(
        "{}house:
  deck: {{length: 20 ft, width: 96 in}}
  floor: {{assembly: floor, above-frame: deck}}
  walls: {{assembly: wall, height: 7 ft}}
  roof: {{assembly: roof, shape: flat}}
  trailer: {{deck-height: 24 in}}
variants:
  open: {{roof: {{remove: deck}}}}
  other: {{floor: {{remove: deck}}}}
",
        FRAMED.split("details:").next().expect("assemblies")
    ) + details
}

const FLOOR: &str = "  floor:
    kind: floor
    layers:
      - {name: deck, material: plywood, thickness: 3/4 in}
      - {name: bay, material: closed-cell spray foam, thickness: 5-1/2 in,
         framing: {material: spruce-pine-fir, width: 1.5 in, spacing: 16 in}}
";

fn with_floor(text: &str) -> String {
    text.replace("house:\n", &format!("{FLOOR}house:\n"))
}

fn roof_edges(all: &[DetailCase]) -> Vec<String> {
    let edges = all.iter().filter(|one| one.kind == DetailKind::RoofEdge);
    edges.map(DetailCase::full_name).collect()
}

/// A house has one without being asked, and one for each variant that changes its roof or wall; none where
/// the file draws it.
#[test]
fn a_house_has_it_without_being_asked() {
    let all = details(&with_floor(&house("")));
    assert_eq!(roof_edges(&all), ["roof edge", "roof edge, open"]);
    let edge = find(&all, "roof edge");
    let assumed = edge.assumed.as_ref().expect("assumed");
    assert_eq!(
        (&*assumed.subject, assumed.wall.as_deref()),
        ("roof edge", Some("wall"))
    );
    assert_eq!(edge.blocks_of(Part::Plate).count(), 1);

    let own = "details:\n  eaves: {roof-edge: {wall: wall, roof: roof}}\n";
    let all = details(&with_floor(&house(own)));
    assert_eq!(roof_edges(&all), ["eaves", "eaves, open"]);
    assert!(all.iter().all(|one| one.assumed.is_none()));

    assert!(
        roof_edges(&details(FRAMED)).len() == 2,
        "no house, no more than is asked"
    );
}

/// What it prints to be corrected draws the same.
#[test]
fn its_lines_can_be_pasted() {
    let text = with_floor(&house(""));
    let all = details(&text);
    let units = dewmargin::quantity::UnitSystem::Imperial;
    let yaml = dewmargin::report::edge_yaml(find(&all, "roof edge"), units).expect("assumed");
    let pasted = details(&format!("{text}{yaml}"));
    let (ours, own) = (find(&all, "roof edge"), find(&pasted, "roof edge"));
    assert!(ours.assumed.is_some() && own.assumed.is_none());
    assert_eq!((&ours.blocks, &ours.regions), (&own.blocks, &own.regions));
}
