//! # Room surface: condensation and mold
//!
//! *What it checks.* Whether the room's own surface, on every path, stays above the dew point of
//! the room air (condensation), and above the temperature at which the air there would be at 80 %
//! (mold).
//!
//! *Why it matters.* Mold needs no liquid water: 80 % at the surface, month after month, is enough.
//!
//! *Method and source.* Surface temperature with the films of ISO 6946. Condensation: against the
//! dew point. Mold: against the temperature whose saturation pressure is the room's vapor pressure
//! divided by 0.8 (ISO 13788, from memory).
//!
//! *Limit.* 0 K. Condensation: the winter mean crossing fails, the design night alone gives
//! `depends`. Mold goes by the month, so only the winter mean is judged here.
//!
//! *When it does not apply.* Corners and places behind furniture are colder than a plane surface.
//!
//! *Example.* 20 °C at 50 %: mold limit 12.6 °C, condensation limit 9.3 °C.

use super::air_leak::{Coldest, at_plane};
use super::steel_wood::status;
use super::{Check, Finding, Status};
use crate::physics::moist_air::{dew_point, saturation_vapor_pressure};
use crate::quantity::{Pressure, Temperature};
use crate::solve::{AssemblyResult, EndResult};

/// Relative humidity at a surface above which mold grows, monthly mean (ISO 13788, from memory).
const MOLD_HUMIDITY: f64 = 0.8;
const CONDENSATION_SOURCE: &str = "dew point of the room air (ISO 13788 saturation formula)";
const MOLD_SOURCE: &str = "80 % at the surface, monthly mean (ISO 13788, from memory)";

/// Condensation on the room's surface.
#[must_use]
pub fn condensation(result: &AssemblyResult, end: &EndResult) -> Finding {
    let limit = result.room_dew_point;
    let coldest = coldest_surface(end, limit);
    let status = status(coldest.margin, coldest.night);
    coldest.describe(
        Finding::new(Check::SurfaceCondensation, status, CONDENSATION_SOURCE),
        limit,
    )
}

/// Mold on the room's surface.
#[must_use]
pub fn mold(result: &AssemblyResult, end: &EndResult) -> Finding {
    let limit = mold_limit(result.room_dew_point);
    let coldest = coldest_surface(end, limit);
    let status = if coldest.margin.as_kelvin() > 0.0 {
        Status::Pass
    } else {
        Status::Fail
    };
    coldest.describe(Finding::new(Check::SurfaceMold, status, MOLD_SOURCE), limit)
}

/// The surface temperature at which the room's vapor stands at 80 %.
#[must_use]
pub fn mold_limit(room_dew_point: Temperature) -> Temperature {
    let pressure = saturation_vapor_pressure(room_dew_point).as_pa() / MOLD_HUMIDITY;
    dew_point(Pressure::from_pa(pressure))
}

fn coldest_surface(end: &EndResult, limit: Temperature) -> Coldest<'_> {
    let surfaces = end.paths.iter().map(|path| at_plane(path, 0, limit));
    let first = at_plane(&end.paths[0], 0, limit);
    surfaces.fold(first, |a, b| {
        if b.margin.as_kelvin() < a.margin.as_kelvin() {
            b
        } else {
            a
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::moist_air::vapor_pressure;
    use crate::quantity::RelativeHumidity;
    use approx::assert_abs_diff_eq;

    // 20 °C at 50 %: DIN 4108-2 prints 12.6 °C (from memory).
    #[test]
    fn mold_limit_of_the_standard_room() {
        let room = vapor_pressure(
            Temperature::from_celsius(20.0),
            RelativeHumidity::from_fraction(0.5),
        );
        assert_abs_diff_eq!(
            mold_limit(dew_point(room)).as_celsius(),
            12.6,
            epsilon = 0.05
        );
    }
}
