//! Climates from CSV: monthly means, or hourly readings averaged by month.
//!
//! A header names the columns and their units; what stands above it (a line about the station, as
//! open weather files have it) is passed over. Lines are read one at a time and none is kept, so
//! a file of a million rows takes no more memory than one of twelve.

mod cell;
mod gap;
mod header;
mod heading;
mod hourly;
mod line;
mod monthly;
mod night;
mod stamp;

use std::fs::File;
use std::io::Read;
use std::path::Path;

use self::header::{Columns, Time};
use self::line::{Broken, Lines};
use super::Climate;
use crate::error::{Error, Problem};

/// The largest file that is read: 1 GB.
pub const MOST_BYTES: u64 = 1 << 30;
/// How many lines may stand above the header.
const MOST_LINES_ABOVE: usize = 30;
/// The hottest monthly mean that occurs, °C (common practice).
const HOTTEST_MONTH: f64 = 43.0;
/// How many problems are shown one by one.
const MOST_SHOWN: usize = 5;

/// What a header looks like, for messages.
const HEADER: &str = "a header such as `month,temperature (F),humidity (%)`, or `time,…` for hours";

/// How far reading has come.
pub(super) type Progress<'a> = &'a mut dyn FnMut(u64, u64);

/// Reads a climate from a CSV file: twelve monthly means, or hourly readings of at least a year.
///
/// Columns are known by their names (`month`, `time` or `date`; `temperature` or `dry bulb`;
/// `humidity`, `dew point` or `vapor pressure`), units stand in the header (`temperature (F)`), in
/// a row of units below it or behind the numbers. Hours are averaged as temperature and as vapor
/// pressure; the design night is the temperature that 99.6 % of the hours exceed, with the mean
/// vapor pressure of the hours at or below it. Relative humidity counts over ice below 0 °C, and
/// dew points there are frost points.
///
/// `progress` is told the bytes read and the bytes in all, now and then and at the end.
///
/// # Errors
/// When the file can't be opened, is no CSV of a climate, or its months can't be trusted: a month
/// missing or twice, values out of range, over 5 % of a month's hours missing or unusable.
pub fn read_csv(path: &Path, progress: &mut dyn FnMut(u64, u64)) -> Result<Climate, Error> {
    let name = path.display().to_string();
    let refuse = |message: String, help: Option<&str>| {
        Err(Error::input(&name, message, help.map(str::to_owned)))
    };
    let metadata = match std::fs::metadata(path) {
        Ok(metadata) => metadata,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            let help = "check the name and the folder; a climate file is a CSV";
            return refuse("there is no such file".into(), Some(help));
        }
        Err(error) => return refuse(format!("this file can't be opened: {error}"), None),
    };
    if metadata.is_dir() {
        let help = "name a .csv file in it";
        return refuse("this is a folder, not a climate file".into(), Some(help));
    }
    if !metadata.is_file() {
        let help = "copy it into a .csv file first";
        return refuse("this is no regular file".into(), Some(help));
    }
    let is_yaml = path
        .extension()
        .is_some_and(|end| end.eq_ignore_ascii_case("yaml") || end.eq_ignore_ascii_case("yml"));
    if is_yaml {
        return Err(not_csv(&name));
    }
    match File::open(path) {
        Ok(file) => read_csv_from(&name, file, metadata.len(), progress),
        Err(error) => refuse(format!("this file can't be opened: {error}"), None),
    }
}

/// Reads a climate as [`read_csv`] does from any source of bytes; `file` is what messages call it
/// and `total` how many bytes there are.
///
/// # Errors
/// As [`read_csv`].
///
/// # Example
/// ```
/// # use dewmargin::climate::read_csv_from;
/// let months = (1..=12).map(|n| format!("{n},{},80\n", 40 + n));
/// let text = format!("month,temperature (F),humidity (%)\n{}", months.collect::<String>());
/// let climate = read_csv_from("coast.csv", text.as_bytes(), text.len() as u64, &mut |_, _| {})?;
/// assert_eq!(climate.origin, "coast.csv: monthly means");
/// assert!((climate.months[0].temperature.as_fahrenheit() - 41.0).abs() < 1e-9);
/// # Ok::<(), dewmargin::error::Error>(())
/// ```
pub fn read_csv_from(
    file: &str,
    source: impl Read,
    total: u64,
    progress: &mut dyn FnMut(u64, u64),
) -> Result<Climate, Error> {
    if total > MOST_BYTES {
        return Err(too_large(file));
    }
    let mut lines = Lines::new(source);
    let columns = match find_header(&mut lines, file) {
        Ok(columns) => columns,
        Err(Stop::Broken(broken)) => return Err(broken_file(file, broken)),
        Err(Stop::Problems(problems)) => return Err(Error::in_lines(file, problems)),
        Err(Stop::NotCsv) => return Err(not_csv(file)),
    };
    let result = match columns.time {
        Time::Month(_) => monthly::read(&mut lines, &columns, (total, progress)),
        Time::Stamp { .. } | Time::Parts { .. } => {
            hourly::read(&mut lines, &columns, (total, progress))
        }
    };
    let mut climate = match result {
        Ok(climate) => climate,
        Err(Stop::Broken(broken)) => return Err(broken_file(file, broken)),
        Err(Stop::Problems(problems)) => return Err(Error::in_lines(file, problems)),
        Err(Stop::NotCsv) => return Err(not_csv(file)),
    };
    climate.notes.extend(too_hot_for_earth(&climate));
    let path = Path::new(file);
    let part = |part: Option<&std::ffi::OsStr>| {
        part.map_or_else(|| file.to_owned(), |s| s.to_string_lossy().into_owned())
    };
    climate.name = part(path.file_stem());
    climate.origin = format!("{}: {}", part(path.file_name()), climate.origin);
    Ok(climate)
}

/// A month hotter than any place on record may well be in °F.
fn too_hot_for_earth(climate: &Climate) -> Option<String> {
    let celsius = climate.months.iter().map(|m| m.temperature.as_celsius());
    let hottest = celsius.fold(f64::NEG_INFINITY, f64::max);
    (hottest > HOTTEST_MONTH).then(|| {
        format!(
            "a month of {hottest:.1} °C on average is hotter than any place on record: is the \
             column in °F?"
        )
    })
}

/// Why reading ended without a climate.
enum Stop {
    Broken(Broken),
    Problems(Vec<Problem>),
    NotCsv,
}

impl From<Broken> for Stop {
    fn from(broken: Broken) -> Self {
        Self::Broken(broken)
    }
}

/// The columns, with the lines moved on to the first row of data.
fn find_header<R: Read>(lines: &mut Lines<R>, file: &str) -> Result<Columns, Stop> {
    let mut first: Option<(usize, String)> = None;
    let mut is_yaml = false;
    while lines.number() < MOST_LINES_ABOVE && lines.advance()? {
        for delimiter in [b',', b';', b'\t'] {
            lines.split_at(delimiter);
            if let Some(columns) = Columns::in_header(lines)? {
                return with_units_row(columns, lines);
            }
        }
        is_yaml |= first.is_none() && lines.looks_like_yaml();
        first.get_or_insert_with(|| (lines.number(), lines.text().into_owned()));
    }
    if is_yaml {
        return Err(Stop::NotCsv);
    }
    let Some((number, line)) = first else {
        let problem = Problem::whole("this file is empty")
            .help(format!("write {HEADER}, and a row for each month below it"));
        return Err(Stop::Problems(vec![problem]));
    };
    let message = format!("`{file}` has no header that names its columns");
    let problem = Problem::at(line::whole_line(number, &line), message)
        .expected(format!("expected {HEADER}"))
        .maybe_help(heading::meant(&line))
        .excerpt(line);
    Err(Stop::Problems(vec![problem]))
}

/// Takes the units from the row below the header, where it is one, and sees that all are known.
fn with_units_row<R: Read>(mut columns: Columns, lines: &mut Lines<R>) -> Result<Columns, Stop> {
    let problems = [columns.temperature, columns.moisture]
        .map(|column| (column, columns.no_unit(lines, column)));
    if lines.advance()? && !columns.take_units(lines)? {
        lines.stay();
    }
    match columns.first_without_unit() {
        // A unit behind every number would do too.
        Some(missing) if !columns.row_has_unit(lines, missing) => {
            let of_it = |(column, problem)| (column == missing).then_some(problem);
            let problem = problems.into_iter().find_map(of_it);
            Err(Stop::Problems(problem.into_iter().collect()))
        }
        _ => Ok(columns),
    }
}

fn not_csv(file: &str) -> Error {
    Error::input(
        file,
        "this is a YAML file, perhaps the project itself, not a climate file",
        Some(format!(
            "a climate file is a CSV with {HEADER}; in the project twelve months can be written \
             out instead"
        )),
    )
}

fn too_large(file: &str) -> Error {
    Error::input(
        file,
        "this file is over 1 GB, far more than a climate needs",
        Some(
            "a year of hours is under 1 MB: keep the columns of time, temperature and humidity"
                .into(),
        ),
    )
}

fn broken_file(file: &str, broken: Broken) -> Error {
    let save = "save it as CSV text (UTF-8)";
    let (message, help) = match broken {
        Broken::Reading(error) => {
            return Error::input(file, format!("this file can't be read: {error}"), None);
        }
        Broken::TooLarge => return too_large(file),
        Broken::Binary(line) => (
            format!("this isn't a text file: line {line} holds a zero byte"),
            save,
        ),
        Broken::LongLine(line) => (format!("line {line} is over 64 kB long"), save),
    };
    Error::input(file, message, Some(help.into()))
}
