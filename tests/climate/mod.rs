//! Climates from files: open weather data against means computed elsewhere, files with gaps,
//! files that can't be used.

mod large;
mod monthly;
mod refused;
mod typical_years;

use dewmargin::climate::{Climate, read_csv_from};
use dewmargin::error::Error;

/// Reads a text as if it were a file of that name.
fn read(name: &str, text: &str) -> Result<Climate, Error> {
    read_csv_from(name, text.as_bytes(), text.len() as u64, &mut |_, _| {})
}

/// A month's index and an hour for every hour of a year without February 29.
fn hours() -> impl Iterator<Item = (usize, usize, usize)> {
    let days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let of_month = |(month, days): (usize, usize)| {
        (1..=days).flat_map(move |day| (0..24).map(move |hour| (month, day, hour)))
    };
    days.into_iter().enumerate().flat_map(of_month)
}

/// A year of hourly rows below a header; `change` may alter a row or take it out.
fn year(header: &str, change: impl Fn(usize, String) -> Option<String>) -> String {
    let mut text = format!("{header}\n");
    for (index, (month, day, hour)) in hours().enumerate() {
        let row = format!(
            "2013-{:02}-{day:02}T{hour:02}:00,{}.5,80",
            month + 1,
            month + 1
        );
        if let Some(row) = change(index, row) {
            text += &row;
            text += "\n";
        }
    }
    text
}
