//! What editors, shells and `man` want: all from the definitions the program itself reads by.

use clap::CommandFactory;

use super::arguments::Arguments;
use super::output::out;
use crate::error::Error;
use crate::input::json_schema;

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
    out(&String::from_utf8_lossy(&page)).map(|()| 0)
}
