//! Climate files that can't be used, and what they are told.

use dewmargin::climate::read_csv;
use dewmargin::error::Error;
use rstest::rstest;

use super::{read, year};

const HEADER: &str = "month,temperature (C),humidity (%)";

/// Twelve good rows with one cell of line 4 (March) changed.
fn with_march(header: &str, row: &str) -> String {
    let rows = (1..=12).map(|n| match n {
        3 => format!("{row}\n"),
        _ => format!("{n},10,80\n"),
    });
    format!("{header}\n{}", rows.collect::<String>())
}

fn refused(text: &str) -> Error {
    let error = read("coast.csv", text).expect_err(text);
    assert_eq!(error.exit_code(), 2);
    error
}

#[rstest]
#[case::over_100("3,10,101", "a relative humidity of `101` is over 100 %")]
#[case::below_0("3,10,-1", "a relative humidity of `-1` is below 0 %")]
#[case::boiling("3,120,50", "`120` is hotter than boiling water")]
#[case::too_hot("3,70,50", "`70` is no temperature of outdoor air")]
#[case::too_cold("3,-91,50", "`-91` is no temperature of outdoor air")]
#[case::nan("3,NaN,50", "`NaN` isn't a number")]
#[case::infinite("3,inf,50", "`inf` isn't a number")]
#[case::huge("3,1e999,50", "`1e999` isn't a number")]
#[case::word("3,mild,50", "`mild` isn't a number")]
#[case::empty("3,,50", "nothing is written here")]
#[case::short("3,10", "nothing is written here")]
#[case::twice("2,10,50", "February stands twice: line 3 has it too")]
#[case::thirteenth("13,10,50", "`13` isn't a month")]
#[case::annual("year,10,50", "`year` isn't a month")]
#[case::other_unit("3,10 %,50", "`10 %` isn't a number")]
fn a_bad_march(#[case] row: &str, #[case] message: &str) {
    let error = refused(&with_march(HEADER, row));
    let problem = &error.problems[0];
    assert_eq!(problem.message, message);
    assert_eq!(problem.span.map(|span| span.line), Some(4));
    let shown = error.to_string();
    assert!(
        shown.contains("coast.csv:4:") && shown.contains(row),
        "{shown}"
    );
}

#[rstest]
#[case(
    "dew point (C)",
    "12",
    "a dew point of `12` lies above the temperature of `10`"
)]
#[case("vapor pressure (Pa)", "1300", "a vapor pressure of `1300` can't be")]
#[case("vapor pressure (Pa)", "-5", "a vapor pressure of `-5` can't be")]
fn more_vapor_than_air_can_hold(#[case] column: &str, #[case] cell: &str, #[case] message: &str) {
    let header = format!("month,temperature (C),{column}");
    let good = if column.starts_with("dew") {
        "5"
    } else {
        "800"
    };
    let text = with_march(&header, &format!("3,10,{cell}")).replace(",80\n", &format!(",{good}\n"));
    assert_eq!(refused(&text).problems[0].message, message);
}

#[test]
fn eleven_and_thirteen_months() {
    let whole = with_march(HEADER, "3,10,80");
    let eleven = whole.replace("3,10,80\n", "");
    let error = refused(&eleven);
    assert_eq!(error.problems.len(), 1);
    assert_eq!(error.problems[0].message, "there is no row for March");
    let error = refused(&(whole.clone() + "12,10,80\n"));
    assert_eq!(
        error.problems[0].message,
        "December stands twice: line 13 has it too"
    );
    let help = refused(&whole.replace("3,10,80", "Marhc,10,80")).problems[0]
        .help
        .clone();
    assert_eq!(help.as_deref(), Some("did you mean `March`?"));
    assert_eq!(
        refused(&whole.replace("3,10,80", "Mai,10,80"))
            .problems
            .len(),
        1
    );
}

#[rstest]
#[case::no_header(
    "1,10,80\n2,10,80\n",
    "`coast.csv` has no header that names its columns"
)]
#[case::nothing("", "this file is empty")]
#[case::blank("\n \n,,\n", "this file is empty")]
#[case::comments("# a\n# b\n", "this file is empty")]
#[case::no_month(
    "temperature (C),humidity (%)\n10,80\n",
    "no column holds the month or time"
)]
#[case::no_humidity("month,temperature (C)\n1,10\n", "no column holds the humidity")]
#[case::no_temperature("month,humidity (%)\n1,80\n", "no column holds the temperature")]
#[case::unknown_unit(
    "month,temperature (Q),humidity (%)\n1,10,80\n",
    "`Q` isn't a unit for this column"
)]
#[case::percent(
    "month,temperature (%),humidity (%)\n1,10,80\n",
    "`temperature (%)` isn't a unit for this column"
)]
#[case::no_unit(
    "month,temperature,humidity (%)\n1,10,80\n",
    "the temperature has no unit"
)]
#[case::no_unit_either(
    "month,temperature (C),humidity\n1,10,80\n",
    "the humidity has no unit"
)]
#[case::units_row(
    "month,temperature,humidity\nunits,C,Q\n",
    "`Q` isn't a unit for this column"
)]
#[case::rows_gone(
    "time,temperature (C),humidity (%)\n",
    "there are no rows below the header"
)]
#[case::months_gone(
    "month,temperature (C),humidity (%)\n",
    "there is no row for January, February, March, April, May, June, July, August, September, October, November, December"
)]
#[case::yaml(
    "project: {title: x}\nassemblies:\n",
    "this is a YAML file, perhaps the project itself, not a climate file"
)]
#[case::yaml_list(
    "---\n- a\n",
    "this is a YAML file, perhaps the project itself, not a climate file"
)]
#[case::binary("month\0", "this isn't a text file: line 1 holds a zero byte")]
fn a_file_that_is_something_else(#[case] text: &str, #[case] message: &str) {
    let error = refused(text);
    assert_eq!(error.problems[0].message, message, "{error}");
    assert!(error.to_string().contains("coast.csv"));
}

#[test]
fn misspelled_columns_are_guessed() {
    let error = refused("mnth,temprature (C),humidty (%)\n1,10,80\n");
    let help = error.problems[0].help.as_deref().unwrap_or_default();
    for part in [
        "`month` for `mnth`",
        "`temperature` for `temprature`",
        "`humidity` for `humidty`",
    ] {
        assert!(help.contains(part), "{help}");
    }
}

#[test]
fn fractions_under_a_percent_sign() {
    let text = with_march(HEADER, "3,10,0.8").replace(",80\n", ",0.8\n");
    let error = refused(&text);
    assert_eq!(
        error.problems[0].message,
        "every relative humidity is 1 % or less"
    );
}

#[test]
fn a_line_above_the_header_is_no_yaml() {
    let text = format!("Station: airport\n{}", with_march(HEADER, "3,10,80"));
    assert!(read("coast.csv", &text).is_ok());
}

#[test]
fn fahrenheit_under_celsius_is_guessed() {
    let climate = read("coast.csv", &with_march(HEADER, "3,52,80")).unwrap();
    assert!(
        climate.notes[0].ends_with("is the column in °F?"),
        "{:?}",
        climate.notes
    );
}

#[test]
fn a_line_without_end() {
    let error = refused(&"x".repeat(70_000));
    assert_eq!(error.problems[0].message, "line 1 is over 64 kB long");
}

#[test]
fn folders_projects_and_files_that_are_not_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let refused = |path: &std::path::Path| {
        let error = read_csv(path, &mut |_, _| {}).expect_err("an error");
        error.problems[0].message.clone()
    };
    assert_eq!(
        refused(folder.path()),
        "this is a folder, not a climate file"
    );
    assert_eq!(
        refused(&folder.path().join("no.csv")),
        "there is no such file"
    );
    let project = crate::support::repository().join("examples/cabin-floor.yaml");
    let is_yaml = "this is a YAML file, perhaps the project itself, not a climate file";
    assert_eq!(refused(&project), is_yaml);
    let renamed = folder.path().join("cabin.csv");
    std::fs::copy(project, &renamed).expect("a copy");
    assert_eq!(refused(&renamed), is_yaml);
    // A sparse file takes no room on the disk.
    let large = folder.path().join("large.csv");
    let file = std::fs::File::create(&large).expect("a file");
    file.set_len((1 << 30) + 1).expect("a length");
    assert_eq!(
        refused(&large),
        "this file is over 1 GB, far more than a climate needs"
    );
}

const HOURS: &str = "time,temperature (C),humidity (%)";

#[test]
fn a_few_bad_rows_are_left_out_and_told() {
    let text = year(HOURS, |index, row| match index {
        9 => Some(row.replace(",80", ",180")),
        19..=26 => Some(row.replace(",80", ",")),
        _ => Some(row),
    });
    let climate = read("coast.csv", &text).unwrap();
    assert_eq!(climate.origin, "coast.csv: 8751 hours averaged");
    assert_eq!(climate.notes.len(), 1);
    let note = &climate.notes[0];
    assert!(
        note.starts_with("9 rows can't be used and were left out: line 11: "),
        "{note}"
    );
    assert!(
        note.contains("`180` is over 100 %; line 21: nothing"),
        "{note}"
    );
    assert!(note.ends_with(", and 4 more"), "{note}");
}

#[test]
fn gaps_are_told_with_their_lines() {
    let text = year(HOURS, |index, row| {
        (!(100..103).contains(&index) && index != 5_000).then_some(row)
    });
    let climate = read("coast.csv", &text).unwrap();
    let gaps = "4 hours are missing in 2 gaps: 3 before line 102, 1 before line 4999";
    assert_eq!(climate.notes, [gaps]);
}

#[test]
fn a_month_full_of_holes_is_refused() {
    // January has 744 hours: 37 are under 5 %, 38 over it.
    let without = |hours: usize| {
        year(HOURS, move |index, row| {
            match index < 200 && index >= 200 - hours {
                true if index % 2 == 0 => None,
                true => Some(row.replace(",80", ",NA")),
                false => Some(row),
            }
        })
    };
    assert!(read("coast.csv", &without(37)).is_ok());
    let error = refused(&without(38));
    let last = error.problems.last().expect("a problem");
    assert_eq!(
        last.message,
        "January: 38 of 744 hours are missing or can't be used (5.1 %)"
    );
    assert!(error.to_string().contains("`NA` isn't a number"), "{error}");
}

#[test]
fn a_month_without_data_is_refused() {
    let text = year(HOURS, |_, row| (!row.starts_with("2013-03")).then_some(row));
    let error = refused(&text);
    assert_eq!(error.problems[0].message, "no hours can be used in March");
    let half = year(HOURS, |index, row| (index > 15 * 24).then_some(row));
    let error = refused(&half);
    assert!(
        error.problems[0].message.starts_with("January: 361 of 744"),
        "{error}"
    );
}

#[test]
fn two_places_in_one_file_are_told() {
    let one = year(HOURS, |_, row| Some(row));
    let rows = one.split_once('\n').expect("a header").1.to_owned();
    let two = read("coast.csv", &(one.clone() + &rows)).unwrap();
    assert_eq!(two.notes.len(), 1, "{:?}", two.notes);
    assert!(
        two.notes[0].starts_with("the times start over at line 8762"),
        "{:?}",
        two.notes
    );
    let years = read("coast.csv", &(one + &rows.replace("2013-", "2014-"))).unwrap();
    assert_eq!(
        (years.notes.len(), years.origin.as_str()),
        (0, "coast.csv: 17520 hours averaged")
    );
}

#[test]
fn days_first_are_seen_for_what_they_are() {
    let text: String = super::hours()
        .map(|(month, day, hour)| format!("{day}/{}/2013 {hour}:00,10,80\n", month + 1))
        .collect();
    let error = refused(&format!("{HOURS}\n{text}"));
    let shown = error.to_string();
    assert!(
        shown.contains("`13/1/2013 0:00` doesn't tell the month"),
        "{shown}"
    );
    assert!(shown.contains("month first"), "{shown}");
}
