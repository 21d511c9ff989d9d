//! The `dewmargin` command: arguments to the library, its answer to an exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    dewmargin::cli::run()
}
