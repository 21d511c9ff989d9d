//! The command line: only this folder knows clap, and only it writes files.

mod arguments;
mod check;
mod compare;
mod distinct;
mod explain;
mod extras;
mod house;
mod listed;
mod materials;
mod output;
mod packet;
mod plot;
mod reading;
mod size;
mod sweep;
mod told;
mod written;

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

/// Starts as many threads as the machine has use for, or fewer where `RAYON_NUM_THREADS` says so; where none
/// can be started the one that runs does all the work.
fn threads() {
    let most = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let asked = std::env::var("RAYON_NUM_THREADS").ok();
    let asked = asked.and_then(|text| text.parse().ok());
    let count = asked.filter(|count| *count > 0).unwrap_or(most).min(most);
    let builder = || rayon::ThreadPoolBuilder::new();
    let started = count > 1 && builder().num_threads(count).build_global().is_ok();
    if !started {
        let alone = builder().num_threads(1).use_current_thread();
        // It fails only where there are threads already.
        let _ = alone.build_global();
    }
}

/// Runs the program on the process's arguments.
#[must_use]
pub fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            let code = if error.use_stderr() { BAD_INPUT } else { 0 };
            let text = error.render().ansi().to_string();
            let told = match error.use_stderr() {
                true => err(&text),
                false => out(&text),
            };
            return ExitCode::from(told.map_or_else(|error| error.exit_code(), |()| code));
        }
    };
    threads();
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
