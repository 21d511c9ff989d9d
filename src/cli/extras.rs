//! What editors, shells and `man` want: all from the definitions the program itself reads by.

use clap::CommandFactory;
use clap_mangen::roff::{Roff, bold, roman};

use super::arguments::Arguments;
use super::output::out;
use crate::check::ALL;
use crate::error::Error;
use crate::input::json_schema;
use crate::report::summary::COLUMNS;

pub(super) fn schema() -> Result<u8, Error> {
    out(&format!("{:#}\n", json_schema())).map(|()| 0)
}

pub(super) fn completions(shell: clap_complete::Shell) -> Result<u8, Error> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "dewmargin", &mut script);
    out(&String::from_utf8_lossy(&script)).map(|()| 0)
}

pub(super) fn manual() -> Result<u8, Error> {
    let mut page = Vec::new();
    clap_mangen::Man::new(Arguments::command())
        .render(&mut page)
        .map_err(|error| Error::output("standard output", error.to_string()))?;
    // Writing into memory can't fail.
    let _ = columns().to_writer(&mut page);
    out(&String::from_utf8_lossy(&page)).map(|()| 0)
}

/// What stands in the tables, and what each check is called there.
fn columns() -> Roff {
    let mut section = Roff::new();
    section.control("SH", ["COLUMNS"]);
    section.text([roman(COLUMNS)]);
    section.control("PP", []);
    section.text([roman(
        "A sweep's table and the JSON reports name every check by a word of its own. In a table of \
         comma-separated values a name that a spreadsheet would take for a formula has an apostrophe before \
         it. The words:",
    )]);
    for check in ALL {
        section.control("TP", []);
        section.text([bold(check.id)]);
        section.text([roman(check.title)]);
    }
    section.control("SH", ["METHODS"]);
    section.text([roman(
        "Every finding of a report names its source; `dewmargin explain FILE` prints the formulas with the \
         numbers in them, and the packet's sheets state the method of every check.",
    )]);
    section
}
