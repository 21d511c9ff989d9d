//! A million rows with gaps: read line by line, with progress.

use std::io::{BufWriter, Write};

use approx::assert_relative_eq;
use dewmargin::climate::read_csv;

const YEARS: usize = 115;

/// Writes 115 years of hours with every 1000th row bad and every 1500th missing; how many rows
/// stand below the header, and how many of them are good.
fn write(file: impl Write) -> (usize, usize) {
    let mut file = BufWriter::new(file);
    writeln!(file, "time,temperature (C),dew point (C)").expect("room on the disk");
    let (mut rows, mut good, mut index) = (0, 0, 0);
    for year in 0..YEARS {
        for (month, day, hour) in super::hours() {
            index += 1;
            if index % 1_500 == 0 {
                continue;
            }
            rows += 1;
            let bad = index % 1_000 == 0;
            good += usize::from(!bad);
            let dew_point = if bad { "40" } else { "5.0" };
            let (month, year) = (month + 1, 1900 + year);
            let temperature = if hour < 12 { 8.0 } else { 12.0 };
            writeln!(
                file,
                "{year}-{month:02}-{day:02}T{hour:02}:00,{temperature},{dew_point}"
            )
            .expect("room on the disk");
        }
    }
    file.flush().expect("room on the disk");
    (rows, good)
}

#[test]
fn a_million_rows_with_gaps() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("long.csv");
    let (rows, good) = write(std::fs::File::create(&path).expect("a file"));
    assert!(rows > 1_000_000);
    let mut told = Vec::new();
    let climate = read_csv(&path, &mut |done, total| told.push((done, total)))
        .unwrap_or_else(|error| panic!("{error}"));

    assert_eq!(climate.origin, format!("long.csv: {good} hours averaged"));
    for month in climate.months {
        assert_relative_eq!(month.temperature.as_celsius(), 10.0, epsilon = 0.01);
        // Saturation at 5 °C by the ISO 13788 formula, computed elsewhere: 871.86 Pa.
        assert_relative_eq!(month.vapor_pressure.as_pa(), 871.9, epsilon = 0.1);
    }
    let (bad, gaps) = (&climate.notes[0], &climate.notes[1]);
    assert!(
        bad.starts_with(&format!("{} rows can't be used", rows - good)),
        "{bad}"
    );
    assert!(
        bad.contains("line 1001: a dew point of `40` lies above"),
        "{bad}"
    );
    let missing = YEARS * 8_760 / 1_500;
    assert!(
        gaps.starts_with(&format!("{missing} hours are missing in {missing} gaps")),
        "{gaps}"
    );
    assert!(gaps.contains("1 before line 1501"), "{gaps}");

    let size = std::fs::metadata(&path).expect("a file").len();
    assert_eq!(told.last(), Some(&(size, size)));
    assert!(told.len() > 50 && told.iter().all(|(done, total)| done <= total));
    assert!(told.is_sorted());
}
