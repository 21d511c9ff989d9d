//! The dew point of a room's air, by the formulas alone.
//!
//!     cargo run --example dew_point -- "68 F" "60 %"
#![allow(clippy::print_stdout)]

use dewmargin::physics::moist_air::{dew_point, vapor_pressure};
use dewmargin::quantity::{Quantity, QuantityError, RelativeHumidity, Style, Temperature};

fn main() -> Result<(), QuantityError> {
    let mut stated = std::env::args().skip(1);
    let temperature = Temperature::read(&stated.next().unwrap_or_else(|| "20 °C".to_owned()))?;
    let humidity = RelativeHumidity::read(&stated.next().unwrap_or_else(|| "60 %".to_owned()))?;

    let dew = dew_point(vapor_pressure(temperature, humidity));
    println!(
        "air at {} condenses below {}",
        Style::SI.both(temperature),
        Style::SI.both(dew)
    );
    Ok(())
}
