//! A sweep as a table for other programs: a head that tells which sweep it is, then its rows, each
//! of them one line. What is there of a table can be told by counting its whole lines.

mod csv;
mod json;

use super::text::Text;
use crate::check::cautions;
use crate::check::sweep::Row;
use crate::model::{AxisValues, Sweep};
use crate::quantity::{Dimension, Style};

/// How the table is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Comma-separated values, RFC 4180, in the file's own units.
    Csv,
    /// One JSON object with a list of rows, in SI.
    Json,
}

/// A sweep's table.
#[derive(Debug)]
pub struct Table<'a> {
    sweep: &'a Sweep,
    style: Style,
    form: Form,
}

/// Significant digits of results.
const DIGITS: usize = 6;
/// Significant digits of what the file gives.
const GIVEN: usize = 9;

impl<'a> Table<'a> {
    /// The table of a sweep.
    #[must_use]
    pub fn new(sweep: &'a Sweep, style: Style, form: Form) -> Self {
        Self { sweep, style, form }
    }

    /// What stands before the rows. It holds the fingerprint: of two sweeps that compute anything
    /// different no head is the same.
    #[must_use]
    pub fn head(&self) -> String {
        let fingerprint = self.fingerprint();
        match self.form {
            Form::Csv => csv::head(self.sweep, self.style, &fingerprint),
            Form::Json => json::head(self.sweep, &fingerprint),
        }
    }

    /// Writes a row behind what is told already.
    pub fn row(&self, told: &mut String, row: &Row) {
        match self.form {
            Form::Csv => csv::row(told, self.sweep, self.style, row),
            Form::Json => json::row(told, self.sweep, row),
        }
    }

    /// What stands behind the rows.
    #[must_use]
    pub fn tail(&self) -> &'static str {
        match self.form {
            Form::Csv => "",
            Form::Json => "]}\n",
        }
    }

    /// Whether a line is the row of that number, and a whole one.
    #[must_use]
    pub fn is_row(&self, line: &[u8], number: u64) -> bool {
        let start = match self.form {
            Form::Csv => format!("{},", number + 1),
            Form::Json => format!("{{\"number\":{},", number + 1),
        };
        line.starts_with(start.as_bytes())
            && match self.form {
                Form::Csv => csv::is_whole(line, self.sweep),
                Form::Json => json::is_whole(line, self.sweep),
            }
    }

    /// Sixteen digits that hang on everything the rows hang on: the program's version, the
    /// assembly with its materials, the air on both sides, the axes, and how it is printed.
    fn fingerprint(&self) -> String {
        let told = format!(
            "{} {:?} {:?} {:?}",
            env!("CARGO_PKG_VERSION"),
            self.sweep,
            self.style,
            self.form
        );
        fingerprint(told.as_bytes())
    }
}

/// Sixteen digits of some bytes, by Fowler, Noll and Vo's hash, variant 1a with 64 bits: the same on
/// every machine.
#[must_use]
pub fn fingerprint(bytes: &[u8]) -> String {
    let add = |hash: u64, byte: &u8| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
    let hash = bytes.iter().fold(0xcbf2_9ce4_8422_2325, add);
    format!("{hash:016x}")
}

/// What to keep in mind on the results of a sweep, once each.
fn caution_list(sweep: &Sweep) -> Vec<&'static str> {
    let climates = sweep.axes.iter().find_map(|axis| match &axis.values {
        AxisValues::Climate(stops) => Some(stops.as_slice()),
        _ => None,
    });
    let stops = climates.unwrap_or(std::slice::from_ref(&sweep.stop));
    let mut list = cautions([&sweep.case.assembly], stops);
    let nominal = "Rows are at the materials' nominal values; what their ranges change isn't in them: \
                   put your choice into the file and run `dewmargin check`.";
    list.insert(list.len().saturating_sub(1), nominal);
    list
}

/// The cautions as text, to be printed beside a table that holds none.
#[must_use]
pub fn caution_text(sweep: &Sweep) -> Text {
    let mut text = Text::default();
    text.cautions(caution_list(sweep));
    text
}

/// A value of an axis: a number with its column, or a name.
pub(in crate::report) enum AxisValue<'a> {
    Number(f64, Dimension),
    Name(&'a str),
}

pub(in crate::report) fn axis_value(values: &AxisValues, index: usize) -> AxisValue<'_> {
    match values {
        AxisValues::Thickness { steps, .. } => {
            AxisValue::Number(steps.at(index), Dimension::Length)
        }
        AxisValues::Humidity(steps) => AxisValue::Number(steps.at(index), Dimension::Humidity),
        AxisValues::Ventilation(steps) => AxisValue::Number(steps.at(index), Dimension::AirFlow),
        AxisValues::Material { choices, .. } => {
            AxisValue::Name(choices.get(index).map_or("", |(name, _)| name))
        }
        AxisValues::Climate(stops) => AxisValue::Name(stops.get(index).map_or("", |s| &s.name)),
    }
}

/// The unit of an axis; none where it goes by names.
pub(super) fn axis_column(values: &AxisValues) -> Option<Dimension> {
    match axis_value(values, 0) {
        AxisValue::Number(_, column) => Some(column),
        AxisValue::Name(_) => None,
    }
}
