//! The house in the packet: the same numbers that `house` prints, on a sheet and on the page.

use dewmargin::study::{Study, houses};
use rstest::rstest;

use super::{cabin, example, files, packet, page, words};
use crate::support::{run, stdout};

/// All words of the house's sheets, cell by cell.
fn sheet(options: &[&str], file: &str) -> String {
    // On letter paper a subject has sheets of its own.
    let letter = ["--svg", "--paper", "letter"];
    let folder = packet(&example(file), &[options, &letter[..]].concat());
    let sheets = files(folder.path(), ".svg").into_iter();
    let ours = sheets.filter(|path| path.to_string_lossy().contains("house"));
    let text: Vec<String> = ours
        .map(|path| cells(&words(&std::fs::read_to_string(path).expect("read"))))
        .collect();
    assert!(!text.is_empty(), "no sheet");
    text.concat()
}

/// `|deck|96 in|2438.4 mm|`
fn cells(words: &str) -> String {
    let lines = words.lines().map(str::trim);
    let lines: Vec<&str> = lines.filter(|line| !line.is_empty()).collect();
    format!("|{}|", lines.join("|"))
}

/// The rows of a table of `house`, as far as the first `count` cells.
fn printed(text: &str, heading: &str, count: usize) -> Vec<String> {
    let starts = |line: &&str| !line.trim_start().starts_with(heading);
    let lines = text.lines().skip_while(starts).skip(1);
    // Sentences under a table have no cells.
    let rows = lines.take_while(|line| line.trim().contains("  "));
    let row = |line: &str| {
        let cells: Vec<&str> = line
            .split("  ")
            .map(str::trim)
            .filter(|cell| !cell.is_empty())
            .collect();
        format!("|{}|", cells[..cells.len().min(count)].join("|"))
    };
    rows.map(row).collect()
}

// 96 in of deck, and on both sides 1 in of foam, 3/4 in of rain screen, 5/8 in of siding and 1/2 in
// of overhang: 101-3/4 in, by hand.
#[test]
fn the_width_is_added_up_on_the_sheet() {
    let sheet = sheet(&[], "cabin.yaml");
    for row in [
        "|deck|96 in|2438.4 mm|",
        "|left outside foam|1 in|25.4 mm|",
        "|left rain screen|3/4 in|",
        "|left siding|5/8 in|",
        "|left overhang|1/2 in|",
        "|right outside foam|1 in|",
        "|right rain screen|3/4 in|",
        "|right siding|5/8 in|",
        "|right overhang|1/2 in|",
        "|together|101-3/4 in|",
        "|stated limit|102 in|",
    ] {
        assert!(sheet.contains(row), "no {row} in {sheet}");
    }
}

#[rstest]
#[case("cabin.yaml", &[])]
#[case("cabin.yaml", &["--units", "metric"])]
#[case("cabin-fit.yaml", &["--variant", "foam outside of the walls"])]
fn every_term_is_the_one_that_house_prints(#[case] file: &str, #[case] options: &[&str]) {
    let sheet = sheet(options, file);
    let text = stdout(&run(&[&["house", file], options].concat()));
    // Cells up to the column that the sheet has in other units, too.
    let tables = [
        ("overall width", 2, 9),
        ("overall height", 3, 9),
        ("overall length", 2, 4),
        ("head room, at", 2, 4),
        ("areas, ", 6, 5),
        ("heat loss  ", 6, 6),
    ];
    for (heading, count, least) in tables {
        let rows = printed(&text, heading, count);
        assert!(rows.len() >= least, "{heading}: {rows:?}");
        for row in rows {
            // The sum of the heat loss is there in other units before the night's.
            let cut = heading == "heat loss  " && row.starts_with("|together|");
            let night = row.trim_end_matches('|').rfind('|').filter(|_| cut);
            let row = night.map_or(&row[..], |at| &row[..=at]);
            assert!(sheet.contains(row), "no {row} in {sheet}");
        }
    }
    let rows = printed(&text, "weight  ", 6);
    let lines = rows.iter().filter(|row| row.matches('|').count() == 7);
    assert!(lines.clone().count() >= 15, "{rows:?}");
    for row in lines {
        assert!(sheet.contains(row.as_str()), "no {row} in {sheet}");
    }
    let total = rows.last().expect("a row");
    assert!(total.starts_with("|dry weight|"), "{total}");
    assert!(sheet.contains(total.as_str()), "no {total} in {sheet}");
}

#[test]
fn what_does_not_fit_is_on_its_face_and_on_the_cover() {
    let asked = ["--variant", "foam outside of the walls", "--html"];
    let folder = packet(&example("cabin-fit.yaml"), &asked);
    let page = page(folder.path());
    let header = page.split("</header>").next().unwrap_or_default();
    let words = words(header);
    assert!(
        words.contains("Fails: house, foam outside of the walls."),
        "{words}"
    );
    let chapter = page
        .split("id=\"part-")
        .find(|part| part.contains("house, foam outside of the walls</bdi></h2>"));
    let chapter = chapter.expect("a chapter");
    let face = chapter.split("</p>").next().unwrap_or_default();
    assert!(face.contains(">fail</strong>"), "{face}");
    assert!(
        face.contains("over the 102 in stated. What would help: "),
        "{face}"
    );
    for heading in ["Overall width", "Head room", "Areas", "Heat loss", "Weight"] {
        let heading = format!("<h3><bdi>{heading}</bdi></h3>");
        assert!(chapter.contains(&heading), "no {heading}");
    }
}

#[test]
fn a_project_without_a_house_has_no_such_sheet() {
    let folder = packet(&example("cabin-wall.yaml"), &[]);
    let list = std::fs::read_to_string(folder.path().join("contents.txt")).expect("a list");
    assert!(!list.contains("house"), "{list}");
}

// Psi comes from the detail that was solved for its own verdict, at the house's own site alone.
#[test]
fn the_house_takes_psi_from_the_detail_that_is_judged() {
    let project = dewmargin::input::read_project(&cabin()).expect("read");
    let study = Study::of(&project);
    let heat = &study.houses[0].result.heat;
    assert_eq!(*heat, houses(&project)[0].result.heat);
    assert_eq!(study.houses[0].stop.name, "cold-continental");
    let edge = heat.parts.iter().find(|part| part.name == "floor edge");
    let at = |site: &str| {
        let mut sites = study.details[0].sites.iter();
        let at = sites.find(|at| at.stop.name == site).expect("a site");
        let psi = at.result.as_ref().expect("solved").psi.as_ref();
        psi.expect("psi").value
    };
    let told = edge.expect("the edge").value.expect("psi");
    assert_eq!(told, at("cold-continental"));
    assert_ne!(told, at("hot-humid"));
}
