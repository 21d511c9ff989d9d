//! Reads `check FILE` and does nothing: what a Rust process with clap costs by itself.

use std::path::PathBuf;

use clap::{Parser, Subcommand};

#[derive(Parser)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Does nothing with a file
    Check { file: PathBuf },
}

fn main() {
    let Command::Check { file } = Arguments::parse().command;
    std::hint::black_box(file);
}
