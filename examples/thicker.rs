//! What each half inch of foam outside is worth to a wall: the least margin over the dew point of the
//! room air wherever that air leaks to.
//!
//!     cargo run --example thicker
#![allow(clippy::print_stdout)]

use dewmargin::quantity::{Length, Style, UnitSystem};
use dewmargin::{check::overview, error::Error, input::resolve_text, solve::solve};

const WALL: &str = include_str!("cabin-wall.yaml");

fn main() -> Result<(), Error> {
    let project = resolve_text("cabin-wall.yaml", WALL)?;
    let conditions = &project.stops[0].conditions;
    let style = Style {
        units: UnitSystem::Imperial,
    };

    let walls = project.cases.iter().map(|case| &case.assembly);
    for wall in walls {
        let Some(foam) = wall.place_of("outside foam") else {
            continue;
        };
        for half_inches in 0..=6 {
            let thickness = Length::from_m(f64::from(half_inches) * 0.0127);
            let found = overview(&solve(&wall.with_thickness(foam, thickness), conditions));
            let margin = found.leak_margin.map(|margin| style.margin(margin));
            println!("{}: {}", style.show(thickness), margin.unwrap_or_default());
        }
    }
    Ok(())
}
