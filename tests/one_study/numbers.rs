//! The same quantity at the same place and site is the same number, in the text, on the sheets, on the
//! page and in JSON.

use std::path::Path;

use rstest::rstest;
use serde_json::Value;

use crate::support::{first_screen, json, number, program, run, stdout};

/// `−3.6`, as every writer prints a number.
fn printed(value: f64) -> String {
    format!("{value:.1}").replace('-', "−")
}

/// `+17.8`
fn signed(value: f64) -> String {
    let number = printed(value);
    match number.trim_start_matches('−') {
        // A margin of nothing is on neither side.
        "0.0" => "0.0".to_owned(),
        _ if number.starts_with('−') => number,
        _ => format!("+{number}"),
    }
}

/// A row that has to be found, and how many numbers of JSON stand in it.
struct Row {
    cells: String,
    numbers: usize,
}

/// The planes of every path at the site that speaks, as rows of the packet's tables, and as rows of
/// the text, where a plane is the outer face of a layer.
fn rows(report: &Value) -> (Vec<Row>, Vec<Row>) {
    let (mut sheet, mut text) = (Vec::new(), Vec::new());
    let drawn = report["cases"].as_array().expect("cases").iter();
    for case in drawn.filter(|case| case["variant"].is_null()) {
        let air = report["stops"].as_array().expect("stops").iter();
        let mut air = air.filter(|stop| stop["name"] == case["worst_stop"]);
        let indoor = &air.next().expect("the site")["indoor"];
        let dew_point = room_dew_point(report, indoor);
        // Of a vented gap the packet draws one end; the examples have none.
        for path in case["solutions"][0]["paths"].as_array().expect("paths") {
            let planes = path["winter_mean"]["planes"].as_array().expect("planes");
            let nights = path["design_night"]["planes"].as_array().expect("planes");
            for (n, (plane, night)) in planes.iter().zip(nights).enumerate() {
                let celsius = number(&plane["temperature_c"]);
                let fahrenheit = printed(celsius * 1.8 + 32.0);
                let leak = celsius - dew_point;
                let at_night = number(&night["temperature_c"]) - dew_point;
                let vapor = |key: &str| plane[key].as_f64();
                let dew = vapor("dew_point_c").map(|c| printed(c * 1.8 + 32.0));
                let margin = vapor("dew_point_margin_k").map(|k| signed(k * 1.8));
                let (Some(dew), Some(margin)) = (dew, margin) else {
                    continue;
                };
                let reached = plane["reached_by_room_air"] == true;
                let name = plane["name"].as_str().expect("a name");
                let of = |cells: Vec<String>| Row {
                    numbers: cells.len() - 1,
                    cells: format!("|{}|", cells.join("|")),
                };
                let mut first = vec![format!("{} {name}", n + 1), fahrenheit.clone()];
                first.extend([printed(celsius), dew.clone(), margin.clone()]);
                let mut second = vec![fahrenheit, dew, margin];
                if reached {
                    first.extend([signed(leak * 1.8), signed(leak), signed(at_night * 1.8)]);
                    second.extend([signed(leak * 1.8), signed(at_night * 1.8)]);
                }
                sheet.push(of(first));
                if n > 0 {
                    let layer = path["layers"][n - 1]["name"].as_str().expect("a name");
                    let bonded = path["layers"][n - 1]["bonded"] == true;
                    let name = match bonded {
                        true => format!("{layer} (bonded)"),
                        false => layer.to_owned(),
                    };
                    second.insert(0, name);
                    text.push(of(second));
                }
            }
        }
    }
    (sheet, text)
}

/// The room's dew point at a site; every site of these files has the same room on the winter mean.
fn room_dew_point(report: &Value, indoor: &Value) -> f64 {
    assert_eq!(indoor, &report["conditions"]["indoor"]);
    number(&report["conditions"]["room_dew_point_c"])
}

/// The cells of a page or a drawing, each between bars.
fn cells(markup: &str) -> String {
    let mut text = String::from("|");
    for part in markup.split('<').skip(1) {
        let (_, said) = part.split_once('>').unwrap_or_default();
        let said = said.trim();
        if !said.is_empty() {
            text.push_str(said);
            text.push('|');
        }
    }
    text.replace("&amp;", "&")
}

/// The rows of the tables of a text: the layer's name, then the numbers of its outer face.
fn lines(text: &str) -> String {
    let row = |line: &str| -> Option<String> {
        let cells: Vec<&str> = line.split("  ").map(str::trim).collect();
        let cells: Vec<&str> = cells.into_iter().filter(|cell| !cell.is_empty()).collect();
        // Name, thickness, R, permeance, then five columns; a membrane has no thickness.
        let numbers = cells.len().checked_sub(5)?;
        let first = cells.first()?;
        let kept: Vec<&str> = cells[numbers..]
            .iter()
            .copied()
            .filter(|c| *c != "-")
            .collect();
        Some(format!("|{first}|{}|\n", kept.join("|")))
    };
    text.lines().filter_map(row).collect()
}

fn missing<'r>(rows: &'r [Row], told: &str) -> Vec<&'r str> {
    let rows = rows.iter().filter(|row| !told.contains(&row.cells));
    rows.map(|row| row.cells.as_str()).collect()
}

/// The rows without their names, which a sheet may break into lines.
fn unnamed(rows: &[Row]) -> Vec<Row> {
    let rest = |row: &Row| {
        let (_, numbers) = row.cells[1..].split_once('|').expect("numbers");
        Row {
            cells: format!("|{numbers}"),
            numbers: row.numbers,
        }
    };
    rows.iter().map(rest).collect()
}

/// The sheets and the page of a packet, with the planes of every path.
fn packet(file: &str, folder: &Path) -> (String, String) {
    let path = folder.to_str().expect("a name");
    let mut command = program("examples");
    command.args(["packet", file, "-o", path, "--svg", "--html"]);
    command.args(["--calculations", "all"]);
    assert!(command.output().expect("it starts").status.success());
    let (mut sheets, mut page) = (String::new(), String::new());
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").path())
        .collect();
    files.sort();
    for path in files {
        let ending = path.extension().and_then(|ending| ending.to_str());
        let read = || std::fs::read_to_string(&path).expect("text");
        match ending {
            Some("svg") => sheets += &cells(&read()),
            Some("html") => page = cells(&read()),
            _ => {}
        }
    }
    (sheets, page)
}

#[rstest]
#[case("cabin-floor-edge.yaml", 200)]
#[case("cabin.yaml", 100)]
fn text_sheets_page_and_json_say_the_same(#[case] file: &str, #[case] least: usize) {
    let report = json(&["check", file]);
    let (sheet_rows, text_rows) = rows(&report);
    let folder = tempfile::tempdir().expect("a folder");
    let (sheets, page) = packet(file, folder.path());
    let text = lines(&stdout(&run(&["check", file])));
    let unnamed = unnamed(&sheet_rows);
    assert_eq!(missing(&unnamed, &sheets), Vec::<&str>::new(), "sheets");
    assert_eq!(missing(&sheet_rows, &page), Vec::<&str>::new(), "page");
    assert_eq!(missing(&text_rows, &text), Vec::<&str>::new(), "text");
    let count = |rows: &[Row]| rows.iter().map(|row| row.numbers).sum::<usize>();
    let compared = 2 * count(&sheet_rows) + count(&text_rows);
    assert!(compared >= least, "{compared} numbers");
    // One cell moved by a tenth is missed.
    for (told, rows, number) in [(&sheets, &unnamed, 1), (&page, &sheet_rows, 2)] {
        let row = &rows[rows.len() / 2].cells;
        let cell = row.split('|').nth(number).expect("a temperature");
        let value: f64 = cell.replace('−', "-").parse().expect("a number");
        let moved = row.replacen(cell, &printed(value + 0.1), 1);
        let changed = told.replace(row.as_str(), &moved);
        assert!(missing(rows, &changed).contains(&row.as_str()));
    }
}

/// The first screen's rows hold the numbers of the findings that speak.
#[rstest]
#[case("cabin-floor-edge.yaml")]
#[case("cabin.yaml")]
#[case("cabin-floor.yaml")]
fn the_first_screen_holds_the_numbers_of_json(#[case] file: &str) {
    let report = json(&["check", file]);
    let screen = first_screen(&["check", file]);
    let screen = screen.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut seen = 0;
    for part in report["options"][0]["parts"].as_array().expect("parts") {
        let finding = &part["finding"];
        if part["verdict"] == "pass" || finding["margin_k"].is_null() {
            continue;
        }
        let margins = [
            "margin_k",
            "coldest_month_margin_k",
            "design_night_margin_k",
        ];
        // What decides is the first time that crosses.
        let crossing = margins
            .iter()
            .filter_map(|key| finding[*key].as_f64())
            .find(|margin| *margin <= 0.0);
        let told = crossing.map(|kelvin| format!("{} °F under", printed(-kelvin * 1.8)));
        let told = told.expect("it crosses");
        assert!(screen.contains(&told), "{told} in {screen}");
        seen += 1;
    }
    assert!(seen > 0);
}
