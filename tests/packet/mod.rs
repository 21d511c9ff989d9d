//! The permit packet.

mod command;
mod sheets;

use std::path::PathBuf;
use std::process::Command;

fn example(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("examples")
        .join(name)
}

fn cabin() -> PathBuf {
    example("cabin.yaml")
}

fn dewmargin(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_dewmargin"));
    command.args(arguments);
    command
}
