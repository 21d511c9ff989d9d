//! How every part of a project comes out, as drawn.
//!
//!     cargo run --example verdicts -- examples/cabin-floor-edge.yaml
#![allow(clippy::print_stdout)]

use std::path::Path;

use dewmargin::{error::Error, input::read_project, study::Study};

fn main() -> Result<(), Error> {
    let stated = std::env::args().nth(1);
    let file = stated.unwrap_or_else(|| "examples/cabin-floor-edge.yaml".to_owned());
    let project = read_project(Path::new(&file))?;

    for part in Study::of(&project).parts(None) {
        println!("{}: {}", part.name, part.status.word());
    }
    Ok(())
}
