//! The command line: only this folder knows clap, and only it writes files.

mod arguments;
mod check;
mod compare;
mod distinct;
mod explain;
mod extras;
mod house;
mod materials;
mod output;
mod packet;
mod plot;
mod reading;
mod size;
mod sweep;
mod told;

use std::process::ExitCode;

use clap::Parser;

use crate::study::Study;
use arguments::{Arguments, Command};
use output::{err, out};

/// Exit code when a check fails.
const FAILED: u8 = 1;
/// Exit code when the input can't be used.
const BAD_INPUT: u8 = 2;

/// Exit code when the user interrupted, or a solver didn't reach its tolerance: its result is
/// marked, never hidden.
const UNSETTLED: u8 = 4;

/// The code of a study whatever its verdict: whether every solver settled.
fn code_of(study: &Study<'_>) -> u8 {
    match study.settled() {
        true => 0,
        false => UNSETTLED,
    }
}

/// Runs the program on the process's arguments.
#[must_use]
pub fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            let code = if error.use_stderr() { BAD_INPUT } else { 0 };
            let text = error.render();
            let _ = if error.use_stderr() {
                err(&text.ansi().to_string())
            } else {
                out(&text.ansi().to_string())
            };
            return ExitCode::from(code);
        }
    };
    let done = match &arguments.command {
        Command::Check(options) => check::run(options),
        Command::Compare(options) => compare::run(options),
        Command::Size(options) => size::run(options),
        Command::Sweep(options) => sweep::run(options),
        Command::House(options) => house::run(options),
        Command::Explain(options) => explain::run(options),
        Command::Plot(options) => plot::run(options),
        Command::Packet(options) => packet::run(options),
        Command::Materials(options) => materials::run(options),
        Command::Schema => extras::schema(),
        Command::Completions { shell } => extras::completions(*shell),
        Command::Manual => extras::manual(),
    };
    match done {
        Ok(code) => ExitCode::from(code),
        Err(error) => {
            let _ = err(&format!("{error}\n"));
            ExitCode::from(error.exit_code())
        }
    }
}
