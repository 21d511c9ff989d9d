//! The PDF, read by a small reader of our own: its pages, its fonts, what its operators draw.

use dewmargin::input::resolve_text;
use dewmargin::model::Project;
use dewmargin::quantity::{Date, Style, UnitSystem};
use dewmargin::report::figure::{self, Drawing, Info};
use dewmargin::study::Study;

pub(super) const FLOOR: &str = include_str!("../../examples/cabin-floor.yaml");
const WALL: &str = include_str!("../../examples/cabin-wall.yaml");
const EDGE: &str = include_str!("../../examples/cabin-floor-edge.yaml");
const STYLE: Style = Style {
    units: UnitSystem::Imperial,
};
/// 0.01 mm, the grid of our drawings, in points.
pub(crate) const GRID: f64 = 72.0 / 2540.0;

fn project(text: &str) -> Project {
    resolve_text("cabin.yaml", text).expect("the example is read")
}

pub(super) fn info() -> Info {
    Info {
        title: "Fern Hollow cabin & <script>".into(),
        author: "A. Designer".into(),
        subject: "Sections".into(),
        date: Date::new(2026, 3, 14).expect("a day"),
    }
}

/// Every section of a project.
pub(super) fn sections(text: &str) -> Vec<Drawing> {
    let project = project(text);
    let judged = Study::of(&project).assemblies;
    let each = judged.iter();
    each.map(|one| figure::section(&project, one, STYLE))
        .collect()
}

/// Sections, years, months and details: about what a packet holds.
pub(super) fn packet() -> Vec<Drawing> {
    let mut sheets = sections(FLOOR);
    let wall = project(WALL);
    for one in Study::of(&wall).assemblies.iter().take(2) {
        sheets.push(figure::section(&wall, one, STYLE));
        sheets.extend(figure::year(&wall, one, STYLE));
        sheets.extend(figure::months(&wall, one, STYLE));
    }
    let edge = project(EDGE);
    let details = Study::of(&edge).details;
    sheets.extend(
        details
            .iter()
            .take(1)
            .map(|one| figure::detail(&edge, one, STYLE)),
    );
    sheets
}

/// What the pages' compressed contents hold.
fn contents(pdf: &[u8]) -> Vec<String> {
    let find = |from: usize, what: &[u8]| {
        let rest = &pdf[from..];
        let at = rest.windows(what.len()).position(|part| part == what);
        at.map(|at| from + at)
    };
    let mut found = Vec::new();
    let mut from = 0;
    while let Some(start) = find(from, b"\nstream\n").map(|at| at + 8) {
        let end = find(start, b"\nendstream").expect("the stream ends");
        if let Ok(bytes) = miniz_oxide::inflate::decompress_to_vec_zlib(&pdf[start..end]) {
            // A font or a color profile isn't text.
            found.extend(String::from_utf8(bytes).ok());
        }
        from = end;
    }
    found
}

/// A rectangle drawn: its width and height, points.
pub(crate) type Size = (f64, f64);

/// Every rectangle that the pages' operators stroke or fill.
pub(crate) fn rectangles(pdf: &[u8]) -> Vec<Size> {
    let mut found = Vec::new();
    for content in contents(pdf) {
        let words: Vec<&str> = content.split_whitespace().collect();
        let mut corners: Vec<(f64, f64)> = Vec::new();
        for (n, word) in words.iter().enumerate() {
            let number = |back: usize| words[n - back].parse::<f64>().expect("a number");
            match *word {
                "m" => corners = vec![(number(2), number(1))],
                "l" => corners.push((number(2), number(1))),
                "S" | "f" => {
                    if let [a, b, c, d, ..] = corners[..] {
                        let is_square = a.1 == b.1 && b.0 == c.0 && c.1 == d.1 && d.0 == a.0;
                        let size = ((c.0 - a.0).abs(), (c.1 - a.1).abs());
                        found.extend(is_square.then_some(size));
                    }
                    corners.clear();
                }
                _ => {}
            }
        }
    }
    found
}

/// `Scale of the layers 1-1/2 in = 1 ft (1:8)` as 8.
fn scale(svg: &str) -> f64 {
    let (_, rest) = svg.split_once(" (1:").expect("a scale");
    let (ratio, _) = rest.split_once(')').expect("a ratio");
    ratio.parse().expect("a number")
}

#[test]
fn layers_are_as_thick_on_paper_as_the_scale_says() {
    for (inches, life) in [("5-1/2", 5.5), ("10", 10.0), ("3-1/4", 3.25)] {
        let text = FLOOR.replace("thickness: 5-1/2 in", &format!("thickness: {inches} in"));
        assert!(text.contains(&format!("thickness: {inches} in")));
        let sheet = &sections(&text)[0];
        let pdf = figure::pdf(std::slice::from_ref(sheet), &info()).expect("written");
        let drawn = rectangles(&pdf);
        let paper = 72.0 * life / scale(&sheet.svg());
        let is_there = drawn.iter().any(|(_, high)| (high - paper).abs() <= GRID);
        assert!(is_there, "{inches} in is {paper} points: {drawn:?}");
    }
}

#[test]
fn ten_inches_at_three_inches_to_the_foot_are_two_and_a_half() {
    let thin = "
project: {title: Ten inches}
outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}}
indoor: {heating: 68 F, humidity: 50 %}
assemblies:
  floor:
    kind: floor
    layers:
      - {name: slab of foam, material: XPS, thickness: 10 in}
";
    let sheet = &sections(thin)[0];
    assert!(sheet.svg().contains("3 in = 1 ft (1:4)"));
    let pdf = figure::pdf(std::slice::from_ref(sheet), &info()).expect("written");
    let drawn = rectangles(&pdf);
    let is_there = drawn.iter().any(|(_, high)| (high - 180.0).abs() <= GRID);
    assert!(is_there, "2.5 in are 180 points: {drawn:?}");
}

#[test]
fn the_same_sheets_give_the_same_bytes() {
    let write = || figure::pdf(&sections(FLOOR), &info()).expect("written");
    assert!(write() == write());
}

#[test]
fn a_document_has_a_page_for_each_sheet_of_its_size() {
    let sheets = packet();
    let pdf = figure::pdf(&sheets, &info()).expect("written");
    assert!(pdf.starts_with(b"%PDF-1.7\n"));
    assert!(pdf.trim_ascii_end().ends_with(b"%%EOF"));
    let text = String::from_utf8_lossy(&pdf);
    let boxes: Vec<(f64, f64)> = text
        .split("/MediaBox[")
        .skip(1)
        .map(|rest| {
            let inside = rest.split(']').next().expect("a box");
            let numbers: Vec<f64> = inside
                .split_whitespace()
                .map(|word| word.parse().expect("a number"))
                .collect();
            (numbers[2] - numbers[0], numbers[3] - numbers[1])
        })
        .collect();
    assert_eq!(boxes.len(), sheets.len());
    let mut papers: Vec<(f64, f64)> = sheets.iter().map(Drawing::paper).collect();
    for (wide, high) in boxes {
        let is_that = |&(w, h): &(f64, f64)| {
            (w / 25.4 * 72.0 - wide).abs() < 0.01 && (h / 25.4 * 72.0 - high).abs() < 0.01
        };
        let at = papers
            .iter()
            .position(is_that)
            .expect("a page as large as its paper");
        papers.remove(at);
    }
    assert_eq!(text.matches("/FontFile2").count(), 2, "one subset a face");
    assert!(!text.contains("/Type3"));
    assert!(text.contains("<pdfaid:part>2</pdfaid:part>"));
    assert!(text.contains("<pdfuaid:part>1</pdfuaid:part>"));
    assert!(text.contains("/Lang(en-US)"));
    assert!(text.contains("D:20260314"));
    // Markup in a title is text.
    assert!(text.contains("Fern Hollow cabin &amp; &lt;script"));
}

#[test]
fn hostile_words_are_written_all_the_same() {
    let mut project = project(FLOOR);
    project.title = "\u{0}\u{FEFF} 日本 (\\) \u{10FFFF} </x> \u{202E}abc\n".repeat(300);
    project.cases[0].assembly.layers[0].name = "e\u{301} \u{7} 🏠".into();
    let judged = Study::of(&project).assemblies;
    let sheet = figure::section(&project, &judged[0], STYLE);
    let info = Info {
        title: project.title.clone(),
        author: project.title.clone(),
        subject: project.title.clone(),
        ..info()
    };
    let pdf = figure::pdf(&[sheet], &info).expect("written");
    assert!(pdf.starts_with(b"%PDF-1.7\n"));
    let nothing = figure::pdf(&[], &info).expect_err("no sheet");
    assert_eq!(nothing.to_string(), "there is no sheet to write");
}
