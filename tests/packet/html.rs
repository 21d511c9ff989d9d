//! The page to read on a screen: one file, what it says, whether everyone can read it.

use std::sync::OnceLock;

use rstest::rstest;

use super::{again, cabin, files, packet, page, words};

/// The cabin's page.
fn cabins() -> &'static str {
    static PAGE: OnceLock<String> = OnceLock::new();
    PAGE.get_or_init(|| page(packet(&cabin(), &["--html"]).path()))
}

/// Everything between `from` and `to`, wherever it stands.
fn between<'t>(text: &'t str, from: &str, to: &str) -> Vec<&'t str> {
    let parts = text.split(from).skip(1);
    parts
        .map(|part| part.split(to).next().unwrap_or_default())
        .collect()
}

#[test]
fn it_is_one_of_the_packets_files() {
    let folder = packet(&cabin(), &["--html"]);
    let path = folder.path().join("fern-hollow-cabin-packet.html");
    let list = std::fs::read_to_string(folder.path().join("contents.txt")).expect("a list");
    let line = "fern-hollow-cabin-packet.html: all of it on one page, to read on a screen";
    assert!(list.lines().any(|one| one == line), "{list}");
    let first = std::fs::read(&path).expect("the page");
    assert!(first.len() < 1_000_000, "{} bytes", first.len());
    again(&cabin(), &["--html"], folder.path());
    assert!(
        first == std::fs::read(&path).expect("the page"),
        "other bytes"
    );
    again(&cabin(), &[], folder.path());
    assert_eq!(files(folder.path(), ".html").len(), 0, "it stayed");
}

#[test]
fn nothing_is_fetched_and_nothing_runs() {
    let page = cabins();
    for sign in [
        "<script",
        "javascript:",
        "<link",
        "<img",
        "<iframe",
        "<object",
        "src=",
        "url(",
        "@import",
        " onload",
        " onclick",
        "xlink",
        "data:",
        " style=\"",
    ] {
        assert!(!page.contains(sign), "{sign}");
    }
    assert!(page.contains("content=\"default-src 'none'; style-src 'unsafe-inline'"));
    let targets = between(page, "href=\"", "\"");
    assert!(targets.len() > 6 && targets.iter().all(|target| target.starts_with('#')));
}

#[test]
fn the_verdict_comes_first() {
    let header = between(cabins(), "<header>", "</header>");
    let words = words(header[0]);
    let said: Vec<&str> = words
        .lines()
        .filter(|line| !line.trim().is_empty())
        .collect();
    assert_eq!(
        said[..4],
        [
            "Permit packet",
            "Fern Hollow cabin: heat and moisture at its sections",
            "depends",
            " Depends, undecided: wall; roof; floor edge, as drawn.",
        ]
    );
    let order = [
        "<header>",
        "<nav ",
        "<main ",
        ">Verdicts<",
        "A plan reviewer will ask for",
        ">At a glance<",
        "id=\"title-1\"",
        "By hand: ",
        ">Notes and materials</bdi></h2>",
        ">Basis<",
        "They state no compliance with any code",
        ">Cautions<",
        "<footer>",
    ];
    let places: Vec<usize> = order
        .iter()
        .map(|sign| cabins().find(sign).unwrap_or_else(|| panic!("no {sign}")))
        .collect();
    assert!(places.is_sorted(), "{places:?}");
}

/// A bracket is read in one unit, then in the other: both ends in each.
#[test]
fn a_bracket_has_both_ends_in_both_units() {
    // The heading, then the caption, which the table follows.
    let glance = between(cabins(), ">At a glance<", "</table>")[1];
    let cells = between(glance, "<td", "</td>");
    let brackets: Vec<String> = cells
        .iter()
        .map(|cell| words(&format!("<td{cell}")))
        .filter(|cell| cell.contains(" to ") && cell.contains("W/m²K"))
        .collect();
    assert!(!brackets.is_empty(), "{glance}");
    for cell in brackets {
        let (own, other) = cell.split_once(" (").expect("both units");
        for (bracket, unit, factor) in [(own, " Btu/h·ft²·°F", 5.678_263), (other, " W/m²K)", 1.0)]
        {
            let ends = bracket.trim().strip_suffix(unit).expect("its unit, once");
            let (low, high) = ends.split_once(" to ").expect("two ends");
            let [low, high] = [low, high].map(|end| factor * end.parse::<f64>().expect("a number"));
            assert!(0.1 < low && low < high && high < 2.0, "{cell}");
        }
    }
}

#[test]
fn a_failing_project_says_so_on_its_face() {
    let file = cabin().with_file_name("cabin-floor.yaml");
    let page = page(packet(&file, &["--html"]).path());
    let header = between(&page, "<header>", "</header>")[0];
    assert!(
        header.contains("class=\"word fail\">fail</strong> Fails: floor; floor edge, as drawn."),
        "{header}"
    );
}

#[test]
fn its_outline_has_no_holes() {
    let page = cabins();
    assert!(page.starts_with("<!DOCTYPE html><html lang=\"en\">"));
    for (sign, count) in [
        ("<h1", 1),
        ("<header", 1),
        ("<nav", 1),
        ("<main", 1),
        ("<footer", 1),
    ] {
        assert_eq!(page.matches(sign).count(), count, "{sign}");
    }
    assert!(page.contains("<body><a class=\"skip\" href=\"#packet\">"));
    let mut before = 0;
    let headings: Vec<u32> = between(page, "<h", ">")
        .iter()
        .filter_map(|tag| tag.chars().next().and_then(|digit| digit.to_digit(10)))
        .collect();
    assert!(headings.len() > 40, "{}", headings.len());
    for level in headings {
        assert!(level <= before + 1, "h{level} after h{before}");
        before = level;
    }
}

#[test]
fn whatever_is_pointed_at_is_there_once() {
    let page = cabins();
    let names = between(page, " id=\"", "\"");
    for (n, name) in names.iter().enumerate() {
        assert!(!names[..n].contains(name), "{name} twice");
    }
    let mut targets: Vec<&str> = between(page, "href=\"#", "\"");
    targets.extend(between(page, "aria-labelledby=\"", "\""));
    targets.extend(between(page, "aria-describedby=\"", "\""));
    for target in targets {
        assert!(names.contains(&target), "no {target}");
    }
}

#[test]
fn figures_have_words_and_a_scale_bar() {
    let figures = between(cabins(), "<svg ", "</svg>");
    // Section and year of three assemblies; cut, curve and corner of the floor's edge, cut and corner of
    // the roof's; the house's views, its width and its weight.
    assert_eq!(figures.len(), 14);
    for figure in &figures {
        assert!(figure.contains("role=\"img\""));
        let title = between(figure, "-title\">", "</title>");
        let told = between(figure, "-desc\">", "</desc>");
        assert!(
            title[0].contains(": ") && told[0].len() > 60,
            "{title:?} {told:?}"
        );
        assert!(!figure.contains("printed at full size"));
    }
    let to_scale = figures
        .iter()
        .filter(|figure| figure.contains("A screen isn't to scale"));
    assert_eq!(to_scale.count(), 8);
}

/// Lettering is 16 px high or higher: a figure is as many pixels wide as that takes.
#[test]
fn text_is_large_enough() {
    for figure in between(cabins(), "<svg ", "</svg>") {
        let number = |from: &str, to: &str| -> f64 {
            between(figure, from, to)[0].parse().expect("a number")
        };
        let pixels = number("width=\"", "\"") / number("viewBox=\"0 0 ", " ");
        let sizes = between(figure, "font-size=\"", "\"").into_iter();
        let least = sizes
            .map(|size| size.parse::<f64>().expect("a size"))
            .fold(1e9, f64::min);
        assert!(
            (least * pixels).round() >= 16.0,
            "{least} units of {pixels} px"
        );
    }
    let screen = between(cabins(), "<style>", "@media print")[0];
    for size in between(screen, "font-size: ", ";") {
        let size: f64 = size.trim_end_matches("rem").parse().expect("rem");
        assert!(size >= 1.0, "{size} rem");
    }
}

#[test]
fn tables_name_their_rows_and_columns() {
    let tables = between(cabins(), "<table>", "</table>");
    assert!(tables.len() > 10, "{}", tables.len());
    for table in &tables {
        let caption = words(between(table, "<caption", "</caption>")[0]);
        assert!(!caption.trim().is_empty(), "{table}");
        for heading in between(table, "<th ", ">") {
            assert!(heading.starts_with("scope=\""), "{heading}");
        }
        assert!(!table.contains("<th>"));
        for row in between(table, "<tbody>", "</tbody>") {
            assert!(row.starts_with("<tr><th scope=\"row"), "{row}");
        }
    }
    let figures = cabins().matches("<svg ").count();
    let frames = between(cabins(), "class=\"scroll\"", ">");
    assert_eq!(frames.len(), tables.len() + figures);
    for frame in frames {
        assert!(
            frame.contains("tabindex=\"0\"") && frame.contains("aria-label=\""),
            "{frame}"
        );
    }
}

#[test]
fn hand_calculations_are_folded_and_named() {
    let folded = between(cabins(), "<details>", "</details>");
    assert!(
        folded.len() > 6 && !cabins().contains("<details "),
        "{}",
        folded.len()
    );
    for one in folded {
        assert!(one.starts_with("<summary>") && !one.starts_with("<summary></summary>"));
        assert!(one.contains("<ol class=\"steps\">"), "{one}");
        assert!(one.contains("class=\"result\""), "{one}");
    }
    let print = between(cabins(), "@media print", "</style>")[0];
    assert!(print.contains("details::details-content { content-visibility: visible;"));
}

#[rstest]
#[case::mono("--mono", |figure: &str| {
    let colors = between(figure, "=\"#", "\"");
    !colors.is_empty() && colors.iter().all(|color| ["000000", "ffffff"].contains(color))
})]
#[case::plain("--no-hatching", |figure: &str| figure.len() < 60_000)]
fn figures_look_as_asked(#[case] option: &str, #[case] looks: fn(&str) -> bool) {
    let file = cabin().with_file_name("cabin-wall.yaml");
    let asked = page(packet(&file, &["--html", option]).path());
    let plain = page(packet(&file, &["--html"]).path());
    for figure in between(&asked, "<svg ", "</svg>") {
        assert!(looks(figure), "{option}");
    }
    assert!(asked != plain);
}

/// Relative luminance (WCAG 2.2) of `#rrggbb`.
fn luminance(color: &str) -> f64 {
    let channel = |n: usize| {
        let value = u8::from_str_radix(&color[1 + 2 * n..3 + 2 * n], 16).expect("a color");
        let value = f64::from(value) / 255.0;
        match value <= 0.04045 {
            true => value / 12.92,
            false => ((value + 0.055) / 1.055).powf(2.4),
        }
    };
    0.2126 * channel(0) + 0.7152 * channel(1) + 0.0722 * channel(2)
}

/// Contrast ratio (WCAG 2.2).
fn contrast(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// The ends of the scale and a pair printed in the understanding document of WCAG 2.2,
/// criterion 1.4.3: #767676 on white is the lightest gray that has 4.5.
#[test]
fn contrast_is_measured_as_defined() {
    assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    assert!(contrast("#767676", "#ffffff") >= 4.5 && contrast("#777777", "#ffffff") < 4.5);
}

#[test]
fn light_dark_and_paper_have_contrast() {
    let themes = between(cabins(), ":root {", "}");
    assert_eq!(themes.len(), 3, "light, dark, paper");
    for theme in themes {
        let color = |name: &str| between(theme, &format!("--{name}: "), ";")[0];
        for ground in ["paper", "wash"] {
            for ink in ["ink", "quiet", "link"] {
                let ratio = contrast(color(ink), color(ground));
                assert!(ratio >= 4.5, "{ink} on {ground}: {ratio:.2} in {theme}");
            }
            // Criterion 1.4.11: borders that tell something.
            assert!(contrast(color("line"), color(ground)) >= 3.0, "{theme}");
        }
    }
    // No other color is set anywhere, but the white sheet under the figures.
    let style = between(cabins(), "<style>", "</style>")[0];
    let fixed = style
        .lines()
        .filter(|line| line.contains('#') && !line.trim().starts_with("--"));
    let fixed: Vec<&str> = fixed.collect();
    assert_eq!(fixed.len(), 1, "{fixed:?}");
    assert!(fixed[0].starts_with("figure.scroll { background: #ffffff;"));
}
