//! The sheets of a packet: nothing overlaps, nothing leaves the border, on any paper.

use rstest::rstest;

use super::super::drawing::{Anchor, Drawing, Face, Mark};
use super::super::lettering;
use super::super::sheet::Label;
use super::super::{Look, Paper};
use super::{overlap, project};
use crate::quantity::{Style, UnitSystem};
use crate::report::packet::{Contents, Form, PacketSheet, sheets};
use crate::report::{judge_all, judge_details};

const CABIN: &str = include_str!("../../../../examples/cabin.yaml");
const VARIANTS: &str = include_str!("../../../../examples/cabin-floor-edge.yaml");
/// Many layers, long names, markup and absurd thicknesses.
const HARD: &str = "
project:
  title: A <script>alert(1)</script> & a title that is a good deal longer than any title block has room for
  address: |
    1 Very Long Street Name That Goes On And On Beyond What Is Usual
    A second line that does the same and doesn't stop where it should
  designer: Somebody with a name as long as the other ones
  owner: Somebody else with a name that isn't any shorter either
  code-basis: A code with its year, its state and its local amendments, written out in full
  sheet-prefix: LONGPREFIX
  revision: A-very-long-revision
indoor: {heating: 68 F, humidity: 60 %}
climate: [cold-continental, wet-coast, mixed-humid, hot-humid]
assemblies:
  a wall with a name that is much longer than anybody would choose for one:
    kind: wall
    layers:
      - {name: a lining with a very long name indeed that goes on, material: gypsum board, thickness: 1/2 in}
      - {name: studs & more, material: R-21 batt, thickness: 5-1/2 in, framing: {material: spruce-pine-fir, share: 25 %}}
      - {name: cross, material: R-13 batt, thickness: 3-1/2 in, framing: {material: spruce-pine-fir, share: 20 %, crosswise: true}}
      - {name: <b>sheathing</b>, material: plywood, thickness: 1/2 in}
      - {name: l4, material: XPS, thickness: 1 in}
      - {name: l5, material: XPS, thickness: 1 in}
      - {name: l6, material: XPS, thickness: 1 in}
      - {name: l7, material: XPS, thickness: 1 in}
      - {name: l8, material: XPS, thickness: 1 in}
      - {name: l9, material: housewrap}
      - {name: gap, air: vented, thickness: 3/4 in}
      - {name: siding, material: cedar siding}
  deep roof:
    kind: roof
    layers:
      - {name: ceiling, material: white pine, thickness: 3/4 in}
      - {name: fill, material: XPS, thickness: 6 ft}
      - {name: membrane, material: EPDM, thickness: 60 mil}
";

fn packet(text: &str, paper: Paper, units: UnitSystem) -> Vec<PacketSheet> {
    let project = project(text);
    let (judged, details) = (judge_all(&project), judge_details(&project));
    let contents = Contents {
        project: &project,
        judged: &judged,
        details: &details,
        missing: &[],
        left_out: &[],
    };
    let form = Form {
        paper,
        style: Style { units },
        look: Look::default(),
    };
    sheets(&contents, form)
}

fn labels(drawing: &Drawing) -> Vec<Label> {
    let label = |mark: &Mark| {
        let Mark::Words {
            at: (x, y),
            text,
            size,
            face,
            anchor,
            ..
        } = mark
        else {
            return None;
        };
        let (size, bold) = (*size as i32, *face == Face::Bold);
        let width = lettering::width(text, size, bold);
        let left = match anchor {
            Anchor::Start => *x,
            Anchor::Middle => x - width / 2,
            Anchor::End => x - width,
        };
        let part = |share: f64| (f64::from(size) * share).ceil() as i32;
        Some(Label {
            text: text.clone(),
            corners: [
                left,
                y - part(lettering::CAPITAL),
                left + width,
                y + part(lettering::DESCENT),
            ],
        })
    };
    drawing.marks.iter().filter_map(label).collect()
}

/// Labels that run into each other or over the border.
fn faults(sheet: &PacketSheet) -> Vec<String> {
    let labels = labels(&sheet.drawing);
    assert!(labels.len() > 10, "{}", sheet.title);
    let (width, height) = (sheet.drawing.size.0 as i32, sheet.drawing.size.1 as i32);
    let mut found = Vec::new();
    for (n, one) in labels.iter().enumerate() {
        let [left, top, right, bottom] = one.corners;
        if left < 1500 || top < 900 || right > width - 900 || bottom > height - 900 {
            found.push(format!("{}: outside: {one:?}", sheet.title));
        }
        let others = labels[n + 1..].iter();
        let hit = others.filter(|other| overlap(one, other));
        found.extend(hit.map(|other| format!("{}: {one:?} {other:?}", sheet.title)));
    }
    found
}

#[rstest]
fn nothing_on_a_sheet_overlaps_or_leaves_its_border(
    #[values(CABIN, VARIANTS, HARD)] text: &str,
    #[values(
        Paper::Letter,
        Paper::Tabloid,
        Paper::Large,
        Paper::A4,
        Paper::A3,
        Paper::A1
    )]
    paper: Paper,
    #[values(UnitSystem::Imperial, UnitSystem::Metric)] units: UnitSystem,
) {
    let found: Vec<String> = packet(text, paper, units).iter().flat_map(faults).collect();
    assert!(
        found.is_empty(),
        "{} {:#?}",
        found.len(),
        &found[..found.len().min(12)]
    );
}

#[rstest]
#[case(Paper::Letter, 279.4, 215.9)]
#[case(Paper::Tabloid, 431.8, 279.4)]
#[case(Paper::Large, 914.4, 609.6)]
#[case(Paper::A4, 297.0, 210.0)]
#[case(Paper::A3, 420.0, 297.0)]
#[case(Paper::A1, 841.0, 594.0)]
fn sheets_have_the_size_of_their_paper(
    #[case] paper: Paper,
    #[case] width: f64,
    #[case] height: f64,
) {
    for sheet in packet(CABIN, paper, UnitSystem::Imperial) {
        assert_eq!(sheet.drawing.paper(), (width, height));
        // Lettering: capitals 2.5 mm on letter and A4, 3.2 mm on what is larger.
        let least = if matches!(paper, Paper::Letter | Paper::A4) {
            2.5
        } else {
            3.2
        };
        for mark in &sheet.drawing.marks {
            if let Mark::Words { size, .. } = mark {
                let capital = f64::from(*size) * lettering::CAPITAL * sheet.drawing.magnify / 100.0;
                assert!(capital >= least - 0.005, "{capital}");
            }
        }
    }
}

#[test]
fn what_fails_or_is_undecided_says_so_on_its_face() {
    for sheet in packet(VARIANTS, Paper::Letter, UnitSystem::Imperial) {
        let words: Vec<String> = labels(&sheet.drawing)
            .into_iter()
            .map(|one| one.text)
            .collect();
        if sheet.title.starts_with("Hand") || sheet.title.starts_with("Materials") {
            continue;
        }
        let told = ["pass", "depends", "fail"];
        assert!(
            words.iter().any(|word| told.contains(&word.as_str())),
            "{}",
            sheet.title
        );
    }
}
