//! Climate files that are huge, binary or full of holes, made here.

use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::Path;
use std::process::Output;
use std::time::{Duration, Instant};

use rstest::rstest;

use crate::support::{code, one_line, program, stderr, stdout};

const PROJECT: &str = "indoor: {heating: 68 F, humidity: 50 %}
climate: hours.csv
assemblies:
  wall:
    kind: wall
    layers:
      - {name: sheathing, material: plywood, thickness: 1/2 in}
";

fn check(folder: &Path, format: &str) -> Output {
    fs::write(folder.join("house.yaml"), PROJECT).expect("written");
    let mut command = program(".");
    command.current_dir(folder);
    let output = command
        .args(["check", "house.yaml", "--full", "--format", format])
        .output();
    output.expect("the program starts")
}

fn refused(bytes: &[u8]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("hours.csv"), bytes).expect("written");
    let output = check(folder.path(), "text");
    let text = stderr(&output);
    assert_eq!(code(&output), 2, "{text}");
    assert!(output.stdout.is_empty());
    text
}

#[rstest]
#[case::empty(b"", "error: this file is empty")]
#[case::blank(b"\n\n \n", "error: this file is empty")]
#[case::binary(
    b"\x7fELF\x02\x01\x01\x00\x00\xff\xfe",
    "error: this isn't a text file: line 1 holds a zero byte"
)]
#[case::zero_byte(
    b"month,temperature (C),humidity (%)\n1,5,\x0080\n",
    "error: this isn't a text file: line 2 holds a zero byte"
)]
#[case::utf16(
    b"\xff\xfem\x00o\x00n\x00t\x00h\x00",
    "error: this isn't a text file: line 1 holds a zero byte"
)]
#[case::prose(
    b"Dear builder,\nthe weather was fine.\n",
    "error: `hours.csv` has no header that names its columns"
)]
#[case::header_alone(
    b"month,temperature (C),humidity (%)\n",
    "error: there is no row for January, February"
)]
#[case::infinite(
    b"month,temperature (C),humidity (%)\n1,inf,80\n",
    "error: `inf` isn't a number"
)]
#[case::not_a_number(
    b"month,temperature (C),humidity (%)\n1,5,nan\n",
    "error: `nan` isn't a number"
)]
fn not_a_climate(#[case] bytes: &[u8], #[case] message: &str) {
    let text = refused(bytes);
    assert!(text.starts_with(message), "{text}");
    assert!(text.contains("--> hours.csv"), "{text}");
}

/// Bytes that aren't UTF-8 in a column that isn't read do no harm; in one that is, they are shown.
#[test]
fn bytes_that_are_no_letters() {
    let mut bytes = b"month,temperature (C),humidity (%)\n1,5,80\n2,\xff\xfe,80\n".to_vec();
    bytes.extend((3..=12).flat_map(|n| format!("{n},5,80\n").into_bytes()));
    let text = refused(&bytes);
    assert!(text.contains("--> hours.csv:3:"), "{text}");
    assert!(text.contains("isn't a number"), "{text}");
}

#[test]
fn two_hundred_megabytes_without_a_line_end() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = File::create(folder.path().join("hours.csv")).expect("made");
    let mut file = BufWriter::new(file);
    let piece = [b'7'; 1 << 20];
    for _ in 0..200 {
        file.write_all(&piece).expect("written");
    }
    drop(file);
    let started = Instant::now();
    let output = check(folder.path(), "text");
    // A guard against hanging, not a measure of speed.
    assert!(started.elapsed() < Duration::from_secs(60));
    assert_eq!(code(&output), 2);
    let text = stderr(&output);
    assert!(
        text.starts_with("error: line 1 is over 64 kB long"),
        "{text}"
    );
    assert!(text.len() < 500, "{} bytes of message", text.len());
}

/// Monthly means of the wet coast, °C.
const MEANS: [f64; 12] = [
    4.7, 5.4, 7.1, 9.4, 12.6, 15.3, 17.6, 17.8, 15.2, 10.9, 7.2, 4.9,
];
const DAYS: [u32; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// A million rows of one station: nights 2 K below the month's mean and days 2 K above it, all at
/// 80 %; every 97th hour missing and every 50 000th row unreadable. Returns the bad rows' count.
fn write_hours(path: &Path) -> usize {
    let mut file = BufWriter::new(File::create(path).expect("made"));
    writeln!(file, "time,temperature (C),humidity (%)").expect("written");
    let (mut rows, mut hour, mut bad) = (0, 0_u64, 0);
    'years: for year in 1801.. {
        for (month, days) in DAYS.iter().enumerate() {
            for (day, of_day) in (1..=*days).flat_map(|day| (0..24).map(move |h| (day, h))) {
                hour += 1;
                if hour.is_multiple_of(97) {
                    continue;
                }
                let swing = if (6..18).contains(&of_day) { 2.0 } else { -2.0 };
                let value = match rows % 50_000 {
                    49_999 => "broken".to_owned(),
                    _ => format!("{:.1}", MEANS[month] + swing),
                };
                bad += usize::from(value == "broken");
                writeln!(
                    file,
                    "{year}-{:02}-{day:02} {of_day:02}:30,{value},80",
                    month + 1
                )
                .expect("written");
                rows += 1;
                if rows == 1_000_000 {
                    break 'years;
                }
            }
        }
    }
    bad
}

#[test]
fn a_million_hours_with_gaps() {
    let folder = tempfile::tempdir().expect("a folder");
    let bad = write_hours(&folder.path().join("hours.csv"));
    assert_eq!(bad, 20);
    let output = check(folder.path(), "json");
    // No progress bar where nobody watches.
    assert_eq!(stderr(&output), "");
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let winter = &report["conditions"]["winter_mean"];
    let number = |key: &str| winter[key].as_f64().expect("a number");
    // As many warm hours as cold ones, to what the gaps take away of either.
    let temperature = number("temperature_c");
    assert!(
        (temperature - (4.7 + 5.4 + 4.9) / 3.0).abs() < 0.01,
        "{temperature} °C"
    );
    // Averaged as vapor pressure: half the hours 2 K above and half below hold more than the mean
    // temperature at 80 %, since saturation curves upward.
    let saturation = |celsius: f64| 610.5 * (17.269 * celsius / (237.3 + celsius)).exp();
    let mean = |celsius: f64| 0.4 * (saturation(celsius - 2.0) + saturation(celsius + 2.0));
    let want = (mean(4.7) + mean(5.4) + mean(4.9)) / 3.0 / saturation(5.0);
    let humidity = number("relative_humidity");
    assert!((humidity - want).abs() < 1e-3, "{humidity} against {want}");
    assert!(
        humidity > 0.8 + 5e-4,
        "{humidity} looks like an average of humidities"
    );

    let text = stdout(&check(folder.path(), "text"));
    let words = one_line(&text);
    for told in [
        "20 rows can't be used and were left out: line 50001: `broken` isn't a number",
        "hours are missing in",
        "before line 98",
        "999980 hours averaged",
    ] {
        assert!(
            words.contains(told),
            "{told}\n{}",
            &words[..words.len().min(1500)]
        );
    }
}

/// Whole months without hours are no climate, however many rows there are.
#[test]
fn a_file_without_a_summer() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("hours.csv");
    write_hours(&path);
    let all = fs::read_to_string(&path).expect("text");
    let kept: String = all
        .lines()
        .take(9_000)
        .filter(|line| !line.contains("-07-"))
        .flat_map(|line| [line, "\n"])
        .collect();
    let text = refused(kept.as_bytes());
    assert!(
        text.starts_with("error: no hours can be used in July"),
        "{text}"
    );
}
