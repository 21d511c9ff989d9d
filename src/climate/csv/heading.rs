//! What a column's name means, and the unit behind it.

use super::cell::Unit;
use super::header::Moisture;
use crate::error::did_you_mean;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    Year,
    Month,
    Date,
    Time,
    Day,
    Hour,
    Temperature,
    Moisture(Moisture),
}

const NAMES: [(Role, &[&str]); 10] = [
    (Role::Year, &["year", "yr"]),
    (Role::Month, &["month", "mo", "mon", "months"]),
    (Role::Date, &["date", "localdate", "dateutc"]),
    (
        Role::Time,
        &[
            "time",
            "datetime",
            "timestamp",
            "localtime",
            "utc",
            "timeutc",
            "timelocal",
            "datehour",
        ],
    ),
    (Role::Day, &["day", "dayofmonth"]),
    (Role::Hour, &["hour", "hr", "hours"]),
    (
        Role::Temperature,
        &[
            "temperature",
            "temp",
            "t",
            "drybulb",
            "drybulbtemperature",
            "drybulbtemp",
            "airtemperature",
            "airtemp",
            "outdoortemperature",
            "meantemperature",
        ],
    ),
    (
        Role::Moisture(Moisture::Humidity),
        &[
            "humidity",
            "rh",
            "relativehumidity",
            "rhum",
            "relhum",
            "humid",
            "meanhumidity",
        ],
    ),
    (
        Role::Moisture(Moisture::DewPoint),
        &[
            "dewpoint",
            "dewpointtemperature",
            "dewpt",
            "dewp",
            "dewpointtemp",
            "td",
        ],
    ),
    (
        Role::Moisture(Moisture::Pressure),
        &["vaporpressure", "watervaporpressure", "partialpressure"],
    ),
];

/// A header cell that is understood: what it holds, and its unit if that is one.
pub(super) struct Heading {
    pub(super) index: usize,
    pub(super) role: Role,
    /// What stands as unit; `None` where nothing does.
    pub(super) unit: Option<Result<Unit, String>>,
}

impl Heading {
    pub(super) fn of(index: usize, cell: &str) -> Option<Self> {
        let bracket = cell.find(['(', '[']);
        let (name, unit) = match bracket {
            Some(at) => (
                &cell[..at],
                Some(cell[at + 1..].trim_end_matches([')', ']', ' '])),
            ),
            None => match last_word(cell) {
                Some((name, word)) if Unit::named(word).is_some() => (name, Some(word)),
                _ => (cell, None),
            },
        };
        let read = |unit: &str| Unit::named(unit).ok_or_else(|| unit.trim().to_owned());
        if let Some(role) = role(name) {
            let unit = unit.map(read);
            return Some(Self { index, role, unit });
        }
        // `temperature Q` names a unit that there isn't.
        let (name, last) = last_word(name)?;
        let role = role(name)?;
        let unit = Some(read(unit.unwrap_or(last)));
        Some(Self { index, role, unit })
    }

    /// How sure it is: a known unit before none, none before an unknown one.
    pub(super) fn rank(&self) -> u8 {
        match &self.unit {
            Some(Ok(unit)) if self.role.takes(*unit) => 0,
            None => 1,
            _ => 2,
        }
    }
}

/// Parts `temperature C`, `temp_F` and `humidity%` at the last word.
fn last_word(name: &str) -> Option<(&str, &str)> {
    let name = name.trim();
    match name.strip_suffix('%') {
        Some(before) => Some((before, "%")),
        None => name.rsplit_once([' ', '_', ',']),
    }
}

impl Role {
    pub(super) fn takes(self, unit: Unit) -> bool {
        match self {
            Self::Temperature | Self::Moisture(Moisture::DewPoint) => unit.is_temperature(),
            Self::Moisture(Moisture::Humidity) => unit.is_humidity(),
            Self::Moisture(Moisture::Pressure) => unit.is_pressure(),
            _ => true,
        }
    }

    pub(super) fn units(self) -> &'static str {
        match self {
            Self::Moisture(Moisture::Humidity) => "`%` or `fraction`",
            Self::Moisture(Moisture::Pressure) => "`Pa`, `hPa`, `kPa` or `inHg`",
            _ => "`F`, `C` or `K`",
        }
    }
}

fn squash(name: &str) -> String {
    let letters = name.chars().filter(char::is_ascii_alphanumeric);
    letters.flat_map(char::to_lowercase).collect()
}

fn role(name: &str) -> Option<Role> {
    let plain = squash(name);
    NAMES
        .iter()
        .find(|(_, names)| names.contains(&plain.as_str()))
        .map(|(role, _)| *role)
}

/// What the cells of a line that isn't a whole header may have meant.
pub(super) fn meant(line: &str) -> Option<String> {
    let known = [
        "month",
        "time",
        "date",
        "temperature",
        "humidity",
        "dew point",
        "vapor pressure",
    ];
    let meant: Vec<String> = line
        .split([',', ';', '\t'])
        .filter_map(|cell| {
            let name = cell.split(['(', '[']).next().unwrap_or_default().trim();
            let long_enough = name.len() > 2 && role(name).is_none();
            let near = did_you_mean(name, known).filter(|_| long_enough)?;
            Some(format!("`{near}` for `{name}`"))
        })
        .collect();
    (!meant.is_empty()).then(|| format!("did you mean {}?", meant.join(", ")))
}
